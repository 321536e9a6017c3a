/** Evaluates formulas with the cell functions on the command line: one as an argument, or many from standard input. */
import { readFileSync } from 'node:fs'
import { createInterface } from 'node:readline'
import type { GridEngine, GridValue, SheetRows } from '../hosts/gridEngine.js'
import { isGridError, spreadsheetCode } from '../hosts/gridErrors.js'
import { beyondLimits } from '../formula/limits.js'
import { helpAsked } from './common.js'
import { parseCsv } from './csv.js'
import { directAnswer, type Answer } from './direct.js'

const usage = "npm run -s cell -- ['=FORMULA'] [--sheet NAME=FILE.csv] [--table | --json]"
const help = `Works out a formula with the cell functions: one, or a line each from standard input (answers as JSON, a line each, errors among them).

  ${usage}

  '=FORMULA'       in quotes, so that the shell leaves it alone
  --sheet NAME=FILE.csv
                   a sheet of data that formulas may point into, as NAME!A2:A30; may be given several times
  --table          a result of several cells as a table for people, as on a screen; --json as rows for programs, as into a pipe

Examples: npm run -s cell -- '=CISTERN.TOTALHEAD(22, 50, 8.4)'
          npm run -s cell -- --table '=CISTERN.WORKING("TOTALHEAD", 22, 50, 8.4)'
          npm run -s cell -- --sheet Rain=rain.csv '=CISTERN.DRYSPELL(Rain!B2:B400)'`

const isError = ({ value }: GridValue) => isGridError(value)
const errorOf = ({ value, message }: GridValue): Answer => ({ error: spreadsheetCode(String(value)), message: message ?? '' })

/** The grid goes on where a spreadsheet has no number any more. */
const isBoundless = ({ value }: GridValue) => typeof value === 'number' && !Number.isFinite(value)
/** A line has its answer, an empty one too: else answers fall out of step with what was asked. */
const NOTHING_ASKED: Answer = { error: '#NAME?', message: 'a formula; got an empty line' }
const BOUNDLESS: Answer = { error: '#NUM!', message: 'a number larger than a spreadsheet holds' }

function answer(engine: GridEngine, text: string): Answer {
  const formula = text.trim().startsWith('=') ? text.trim() : `=${text.trim()}`
  const beyond = beyondLimits(formula)
  if (beyond) return { error: '#NAME?', message: `${beyond.allowed}; got ${beyond.came}` }
  let result: GridValue | GridValue[][]
  try {
    result = engine.evaluate(formula)
  } catch (error) {
    return { error: '#NAME?', message: error instanceof Error ? error.message : String(error) }
  }
  if (!Array.isArray(result)) return isError(result) ? errorOf(result) : isBoundless(result) ? BOUNDLESS : { value: result.value }
  const failed = result.flat().find(isError)
  if (failed) return errorOf(failed)
  if (result.flat().some(isBoundless)) return BOUNDLESS
  return { rows: result.map((row) => row.map((cell) => cell.value)) }
}

function fileText(file: string): string {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    throw new Error(`--sheet: a CSV file that can be read; got ${file}.`)
  }
}

/** Digits that a person reads; programs get them all. */
const DIGITS = 6
/** No column of a table takes more of the screen; longer words run on below. */
const WIDEST = 44

/** Rows as columns that stand under each other, a heading first. */
function asTable(rows: readonly (readonly unknown[])[]): string {
  const texts = rows.map((row) => row.map((cell) => (typeof cell === 'number' ? String(Number(cell.toPrecision(DIGITS))) : String(cell ?? ''))))
  const isNumber = texts[0]!.map((_, at) => rows.slice(1).some((row) => typeof row[at] === 'number'))
  const widths = texts[0]!.map((_, at) => Math.min(WIDEST, Math.max(...texts.map((row) => row[at]!.length))))
  const lines = texts.map((row) => {
    const wrapped = row.map((text, at) => wrap(text, widths[at]!))
    const height = Math.max(...wrapped.map(({ length }) => length))
    return Array.from({ length: height }, (_, line) =>
      wrapped
        .map((parts, at) => (isNumber[at] ? (parts[line] ?? '').padStart(widths[at]!) : (parts[line] ?? '').padEnd(widths[at]!)))
        .join('  ')
        .trimEnd(),
    ).join('\n')
  })
  return [lines[0]!, widths.map((width) => '-'.repeat(width)).join('  '), ...lines.slice(1)].join('\n')
}

function wrap(text: string, width: number): string[] {
  const lines: string[] = []
  let rest = text
  while (rest.length > width) {
    const cut = rest.lastIndexOf(' ', width)
    lines.push(rest.slice(0, cut > 0 ? cut : width))
    rest = rest.slice(cut > 0 ? cut + 1 : width)
  }
  return [...lines, rest]
}

function options(args: readonly string[]): { sheets: Record<string, SheetRows>; formula: string | undefined; isTable: boolean } {
  const sheets: Record<string, SheetRows> = {}
  let formula: string | undefined
  let isTable = process.stdout.isTTY
  for (let at = 0; at < args.length; at++) {
    const word = args[at]!
    if (word === '--sheet' || word.startsWith('--sheet=')) {
      const given = word === '--sheet' ? args[++at] : word.slice('--sheet='.length)
      const cut = given?.indexOf('=') ?? -1
      if (!given || cut < 1) throw new Error(`--sheet takes NAME=FILE.csv; got ${given ?? 'nothing'}.`)
      const [name, file] = [given.slice(0, cut), given.slice(cut + 1)]
      if (Object.keys(sheets).some((known) => known.toLowerCase() === name.toLowerCase())) throw new Error(`--sheet: each name once; ${name} came again.`)
      sheets[name] = parseCsv(fileText(file))
    } else if (word === '--table' || word === '--json') isTable = word === '--table'
    else if (/^--[a-z]/.test(word)) throw new Error(`No option ${word.split('=')[0]!}; there are --sheet, --table, --json, --help. Usage: ${usage}`)
    else if (formula === undefined) formula = word
    else throw new Error(`One formula at a time, in quotes; got a second: ${word}`)
  }
  return { sheets, formula, isTable }
}

async function main(): Promise<void> {
  if (helpAsked(help)) return
  const { sheets, formula, isTable } = options(process.argv.slice(2))
  const engineOf = async () => new (await import('../hosts/gridEngine.js')).GridEngine(sheets)
  if (formula !== undefined) {
    const { value, rows, error, message } = directAnswer(formula) ?? answer(await engineOf(), formula)
    if (error) {
      console.log(`${error} ${message}`.trim())
      process.exitCode = 1
    } else console.log(!rows ? String(value) : isTable ? asTable(rows) : JSON.stringify(rows))
    return
  }
  const engine = await engineOf()
  // Each answer carries its own error, so the stream as a whole has not failed.
  for await (const line of createInterface({ input: process.stdin })) process.stdout.write(`${JSON.stringify(line.trim() ? answer(engine, line) : NOTHING_ASKED)}\n`)
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 1
})
