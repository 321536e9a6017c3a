/**
 * Plants mistakes in the sources, one at a time, in a copy of the project, and tells which ones no test sees.
 * `npm run mutants` (200, seed 1) or `npm run mutants -- --count 40 --seed 7 --only listed`.
 * `--after 96` goes on behind the 96th of a run that was stopped; the draw of a seed is the same as long as the sources are.
 * `--stages 2` leaves out the slow last tests (files and Calc): what survives then is tried with all of them. Prints a table; no test.
 */
import { spawn } from 'node:child_process'
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import ts from 'typescript'
import { listedMutants } from './mutantsListed.js'

const { values: options } = parseArgs({
  options: {
    count: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    from: { type: 'string', default: '0' },
    every: { type: 'string', default: '1' },
    after: { type: 'string', default: '0' },
    stages: { type: 'string', default: '3' },
  },
})

export interface Mutant {
  file: string
  from: number
  to: number
  was: string
  now: string
  /** Why it is there, where a person listed it. */
  why?: string
}

/** What is mutated, and the share of the drawn mutants that each room gets. */
const rooms: readonly { name: string; share: number; files: readonly string[] }[] = [
  { name: 'library', share: 0.28, files: filesUnder('src/calc', /^(?!index|working)/) },
  { name: 'tables', share: 0.1, files: filesUnder('src/tables', /^(?!index)/) },
  { name: 'rules', share: 0.37, files: filesUnder('src/takeoff', /^(?!index|demo|items010|prices010|update|results010|template)/) },
  { name: 'formula', share: 0.1, files: filesUnder('src/formula') },
  { name: 'readers', share: 0.15, files: [...filesUnder('src/plan', /^kept/), 'src/units.ts', 'src/keys.ts', 'src/rounding.ts'] },
]

/** First those that are quick and see most; then the rest; the recalculation by Calc last. A mutant is caught by the first that fails. */
const stages: readonly (readonly string[])[] = [
  [
    'tests/takeoff/verdictLimits',
    'tests/takeoff/workedJobs',
    'tests/takeoff/ruleChecks',
    'tests/calc/definitions',
    'tests/published',
    'tests/formula',
    'tests/tables',
    'tests/units',
    'tests/takeoff/golden',
    'tests/takeoff/readings',
    'tests/takeoff/twoOpenings',
    'tests/spans',
  ],
  ['tests/calc', 'tests/takeoff', 'tests/functions', 'tests/hosts/rain', 'tests/cli/csv'],
  ['tests/plan', 'tests/hosts'],
]

function filesUnder(folder: string, wanted = /./): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .flatMap((entry) =>
      entry.isDirectory() ? filesUnder(join(folder, entry.name), wanted) : wanted.test(entry.name) && entry.name.endsWith('.ts') ? [join(folder, entry.name)] : [],
    )
    .sort()
}

/** A generator that gives the same numbers everywhere (Park and Miller). */
function randomFrom(seed: number): () => number {
  let state = (seed * 7919) % 2147483647 || 1
  return () => (state = (state * 48271) % 2147483647) / 2147483647
}

/** A number a tenth larger, a count one more: what a slip of the hand or of a table looks like. */
const otherNumber = (text: string): string =>
  Number(text) === 0 ? '1' : /^\d+$/.test(text) && Number(text) < 50 ? String(Number(text) + 1) : String(Number((Number(text) * 1.1).toPrecision(6)))
const swaps: Readonly<Record<string, string>> = {
  '<': '<=',
  '<=': '<',
  '>': '>=',
  '>=': '>',
  '+': '-',
  '-': '+',
  '*': '/',
  '/': '*',
  '=': '<>',
  '<>': '=',
  '&&': '||',
  '||': '&&',
  '===': '!==',
  '!==': '===',
}
const functionSwaps: Readonly<Record<string, string>> = {
  MIN: 'MAX',
  MAX: 'MIN',
  AND: 'OR',
  OR: 'AND',
  ROUNDUP: 'ROUNDDOWN',
  ceil: 'floor',
  floor: 'ceil',
  min: 'max',
  max: 'min',
  some: 'every',
  every: 'some',
  true: 'false',
  false: 'true',
}

/** Places in a formula, and what stands there instead. */
function inFormula(text: string, start: number): [from: number, to: number, now: string][] {
  const found: [number, number, string][] = []
  for (const match of text.matchAll(/"(pass|stop)"|(?<![\w.\]"])(\d+(?:\.\d+)?)(?![\w."])|(?<=[\w)\]"])(<=|>=|<>|[<>=+*/-])(?=[\w("])|\b(MIN|MAX|AND|OR|ROUNDUP)\(/g)) {
    const [whole, verdict, number, operator, name] = match
    const at = start + match.index
    if (verdict) found.push([at + 1, at + whole.length - 1, verdict === 'pass' ? 'stop' : 'pass'])
    else if (number) found.push([at, at + number.length, otherNumber(number)])
    else if (operator) found.push([at, at + operator.length, swaps[operator]!])
    else found.push([at, at + name!.length, functionSwaps[name!]!])
  }
  return found
}

const looksLikeFormula = (text: string): boolean =>
  !/[.:] |, [a-z]|\{|’|^[^"]*[a-z] [a-z]/.test(text) && /[A-Za-z_\])]\s*(?:<=|>=|<>|[<>=+*/-])\s*[\w("]|\b(?:IF|MIN|MAX|AND|OR|ROUNDUP|SUM|INDEX)\(/.test(text)

/** Every place of a file where a slip can be planted: numbers, comparisons, signs, words of truth, and the formulas that stand in its strings. */
function placesIn(file: string): Mutant[] {
  const text = readFileSync(file, 'utf8')
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true)
  const found: Mutant[] = []
  const add = (from: number, to: number, now: string) => found.push({ file, from, to, was: text.slice(from, to), now })
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isTypeNode(node) || ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return
    // An example of the documentation is any example, and what a citation says is no rule.
    if (ts.isPropertyAssignment(node) && node.name.getText(source) === 'example') return
    if (ts.isCallExpression(node) && /^(?:cite|practice|said)$/.test(node.expression.getText(source))) return
    if (ts.isNumericLiteral(node)) add(node.getStart(source), node.end, otherNumber(node.text))
    else if (
      ts.isStringLiteral(node) ||
      ts.isNoSubstitutionTemplateLiteral(node) ||
      node.kind === ts.SyntaxKind.TemplateHead ||
      node.kind === ts.SyntaxKind.TemplateMiddle ||
      node.kind === ts.SyntaxKind.TemplateTail
    ) {
      const inner = text.slice(node.getStart(source) + 1, node.end - 1)
      if (looksLikeFormula(inner)) for (const [from, to, now] of inFormula(inner, node.getStart(source) + 1)) add(from, to, now)
    } else if (ts.isBinaryExpression(node)) {
      const sign = ts.tokenToString(node.operatorToken.kind)!
      if (swaps[sign] && sign !== '=') add(node.operatorToken.getStart(source), node.operatorToken.end, swaps[sign])
    } else if (node.kind === ts.SyntaxKind.TrueKeyword || node.kind === ts.SyntaxKind.FalseKeyword) add(node.getStart(source), node.end, functionSwaps[node.getText(source)]!)
    else if (ts.isPropertyAccessExpression(node) && functionSwaps[node.name.text]) add(node.name.getStart(source), node.name.end, functionSwaps[node.name.text]!)
    ts.forEachChild(node, visit)
  }
  visit(source)
  return found
}

/** The listed ones, and as many drawn from the rooms as the count asks for. */
function drawn(count: number, seed: number): Mutant[] {
  const random = randomFrom(seed)
  return rooms.flatMap(({ share, files }) => {
    const places = files.flatMap(placesIn)
    const chosen = new Set<number>()
    const wanted = Math.min(places.length, Math.round(count * share))
    while (chosen.size < wanted) chosen.add(Math.floor(random() * places.length))
    return [...chosen].map((at) => places[at]!)
  })
}

function listed(): Mutant[] {
  return listedMutants.map(({ file, was, now, why }) => {
    const at = readFileSync(file, 'utf8').indexOf(was)
    if (at < 0) throw new Error(`${file}: "${was}" (${why}) stands there no more: list the mutant as the code is now.`)
    return { file, from: at, to: at + was.length, was, now, why }
  })
}

const copy = resolve('.cache/mutants')
function makeCopy(): void {
  rmSync(copy, { recursive: true, force: true })
  mkdirSync(copy, { recursive: true })
  for (const name of readdirSync('.')) if (!/^(?:\.git|\.cache|node_modules|dist.*)$/.test(name)) cpSync(name, join(copy, name), { recursive: true })
  for (const name of ['node_modules', 'dist']) if (existsSync(name)) symlinkSync(resolve(name), join(copy, name), statSync(name).isDirectory() ? 'dir' : 'file')
}

/** The first test that fails, or undefined where all pass. */
async function caughtBy(): Promise<string | undefined> {
  for (const stage of stages.slice(0, Number(options.stages))) {
    const output = await run(['vitest', 'run', '--bail=1', '--reporter=dot', '--testTimeout=60000', ...stage])
    if (output.code === 0) continue
    return /FAIL\s+(.+)/.exec(output.text)?.[1]?.trim() ?? (output.isLate ? 'runs without end' : 'does not start')
  }
  return undefined
}

function run(args: readonly string[]): Promise<{ code: number; text: string; isLate: boolean }> {
  return new Promise((settle) => {
    const child = spawn('npx', args, { cwd: copy, env: { ...process.env, CI: '', NO_COLOR: '1' }, detached: true })
    let [text, isLate] = ['', false]
    const timer = setTimeout(() => {
      isLate = true
      process.kill(-child.pid!, 'SIGKILL')
    }, 300_000)
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (part: Buffer) => (text += part.toString()))
    child.on('close', (code) => {
      clearTimeout(timer)
      settle({ code: code ?? 1, text, isLate })
    })
  })
}

const lineOf = ({ file, from }: Mutant): string => `${file}:${readFileSync(file, 'utf8').slice(0, from).split('\n').length}`

const byHand = listed()
const asked = Number(options.count)
const all = options.only === 'listed' ? byHand : [...byHand, ...drawn(Math.max(0, asked - byHand.length), Number(options.seed))]
// Two machines may share the work: --every 2 --from 0 on one, --from 1 on the other.
const mutants = all.filter((_, at) => at >= Number(options.after) && at % Number(options.every) === Number(options.from))
makeCopy()
const clean = await caughtBy()
if (clean) throw new Error(`The tests fail without any mutant: ${clean}`)
const survived: Mutant[] = []
for (const [at, mutant] of mutants.entries()) {
  const path = join(copy, mutant.file)
  const text = readFileSync(mutant.file, 'utf8')
  writeFileSync(path, text.slice(0, mutant.from) + mutant.now + text.slice(mutant.to))
  const seen = await caughtBy()
  writeFileSync(path, text)
  if (!seen) survived.push(mutant)
  console.log(
    `| ${at + 1} | ${lineOf(mutant)} | ${mutant.was} | ${mutant.now} | ${seen ? `caught: ${seen.slice(0, 90)}` : '**survived**'} |${mutant.why ? ` ${mutant.why} |` : ''}`,
  )
}
console.log(
  `\n${mutants.length} mutants, ${mutants.length - survived.length} caught, ${survived.length} survived (${((100 * (mutants.length - survived.length)) / mutants.length).toFixed(1)} %).`,
)
