/** The reference page for users, from the definitions and the published figures: one source for the file and for the help page of the pane. */
import { readFileSync } from 'node:fs'
import { allowedText, leftOutText, short, type AnyCalculation, type Step } from '../src/calc.js'
import { callByName, type CellResult } from '../src/calc/callByName.js'
import { calculations } from '../src/calc/index.js'
import { GridEngine } from '../src/hosts/gridEngine.js'
import { citationText, gradedText } from '../src/sources.js'
import { chapters } from '../src/calc.js'
import { tables } from '../src/tables/index.js'
import { bareName, symbolOf } from '../src/units.js'
import { sampleCall, signature } from '../src/calc/sampleCall.js'
import { functionsIn, type Figure } from '../tests/published/tally.js'

const figures = JSON.parse(readFileSync(new URL('../tests/published/figures.json', import.meta.url), 'utf8')) as Figure[]

let engine: GridEngine | undefined

/** How well a function meets the figures that name it: how many, from how many sources, and the largest difference. */
function checks({ id }: AnyCalculation): string {
  const own = figures.filter(({ formula }) => functionsIn(formula).includes(id))
  if (!own.length) return 'Checked on open daily rain of NOAA (tests/published/openRain.test.ts).'
  engine ??= new GridEngine()
  let worst = { share: 0, of: 0 }
  for (const { formula, expected } of own) {
    if (typeof expected !== 'number' || expected === 0) continue
    const result = engine.evaluate(formula)
    const value = (Array.isArray(result) ? result[0]![0]! : result).value as number
    const share = Math.abs(value - expected) / Math.abs(expected)
    if (share > worst.share) worst = { share, of: expected }
  }
  const count = (status: string) => own.filter((figure) => figure.status === status).length
  const sources = new Set(own.map(({ source }) => source)).size
  return `${own.length} figures from ${sources} ${sources === 1 ? 'source' : 'sources'} (${count('published')} published, ${count('derived')} derived, ${count('from memory')} from memory); largest difference ${worst.share > 0 ? `${(worst.share * 100).toPrecision(2)} %, of ${short(worst.of)} as the source prints it` : '0'}.`
}

/** A result as it is shown in words: five significant figures are enough to recognise it. */
const inWords = (result: CellResult): string => {
  const inShort = (value: number | string) => (typeof value === 'number' ? String(Number(value.toPrecision(6))) : value)
  return Array.isArray(result) ? result.map((row) => row.map(inShort).join(' | ')).join('; ') : typeof result === 'string' ? `"${result}", a text` : inShort(result)
}

const exampleCells = (calculation: AnyCalculation) =>
  calculation.example.map((value: unknown) => (Array.isArray(value) && !Array.isArray(value[0]) ? value.map((item) => [item]) : value))

function entry(calculation: AnyCalculation): string {
  const gives = Object.entries((calculation.gives ?? calculation.spills)!).map(
    ([name, label]) => `${calculation.spills ? `*${bareName(name)}*: ` : ''}${label}${symbolOf(name) ? `, ${symbolOf(name)}` : ''}`,
  )
  const steps = [...((calculation.periods?.columns ?? []) as readonly Step[]), ...(calculation.steps as readonly Step[])]
  return [
    `### ${signature(calculation)}`,
    '',
    calculation.summary,
    '',
    `**Gives** ${calculation.spills ? 'a table under a row of headings, ' : ''}${gives.join('; ')}${calculation.shapeOf ? ` (in the shape of ${bareName(calculation.shapeOf)} when that is a range)` : ''}`,
    '',
    '| argument | takes | left out |',
    '|---|---|---|',
    ...calculation.names.map((name) => {
      const spec = calculation.takes[name]
      return `| ${bareName(name)} | ${spec.label}: ${allowedText(name, spec)}${spec.hint ? `; ${spec.hint}` : ''} | ${leftOutText(spec) ?? 'not allowed'} |`
    }),
    '',
    `**Example** \`${sampleCall(calculation)}\` gives ${inWords(callByName(calculation.id, exampleCells(calculation)))}`,
    '',
    '**Working**',
    '',
    ...steps.map((step, at) => `${at + 1}. \`${step.symbol} = ${step.formula}\` ${step.meaning}. *${gradedText(step.source)}*`),
    '',
    ...(calculation.notes ?? []).flatMap((note: string) => [note, '']),
    `**Checks** ${checks(calculation)}`,
    '',
  ].join('\n')
}

function tableEntry(table: (typeof tables)[number]): string {
  return [
    `### ${table.title}`,
    '',
    ...table.notes.flatMap((note) => [note, '']),
    `| ${[...table.columns.map((name) => `${bareName(name)}${symbolOf(name) ? `, ${symbolOf(name)}` : ''}`), 'grade', 'source'].join(' | ')} |`,
    `|${'---|'.repeat(table.columns.length + 2)}`,
    ...table.rows.map((row, at) => `| ${[...table.columns.map((name) => row[name] ?? ''), table.sourceOf(at).grade, citationText(table.sourceOf(at))].join(' | ')} |`),
    '',
  ].join('\n')
}

export function referencePage(): string {
  return [
    '# The cell functions',
    '',
    'Generated from the definitions by `npm run docs`; a test holds it current. Namespace `CISTERN`: type `=CISTERN.FRICTIONLOSS(9, 180, 1.049)`.',
    '',
    'A plain number is in the unit shown. Text with a unit ("45 m", "6 L/s", "1-1/4 in", "3 bar") is converted. A wrong unit, a value out of its span or a text that is no number is #VALUE! with a message that names the argument, what it takes and what came. A lookup that finds nothing is #N/A with a message. In a range an empty tail is ignored; a gap or a text in the middle is refused with its position. No result is ever NaN or infinite.',
    '',
    'These figures are an estimator’s aid. Local codes, the inspector and licensed practice decide.',
    '',
    ...Object.entries(chapters).flatMap(([chapter, title]) => [`## ${title}`, '', ...calculations.filter((calculation) => calculation.chapter === chapter).map(entry)]),
    '### WORKING(function, argument, …)',
    '',
    'Spills the spelled-out working of any function above: symbol, meaning, value, unit, formula, source. For the tank simulations it spills the period table, whose last rows show the result. It works one case through: where a function takes a range for one of its numbers (the rain of each month, say), WORKING takes the number.',
    '',
    '**Example** `=CISTERN.WORKING("FRICTIONLOSS", 9, 180, 1.049)`',
    '',
    '## Published tables',
    '',
    'Each row carries its grade. "From memory" means that the value was not read in a source while this was made; check it before relying on it.',
    '',
    ...tables.map(tableEntry),
  ].join('\n')
}

/** The same content as a page of its own, for the pane and the ribbon. */
export function helpPage(markdown: string): string {
  const escape = (text: string) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')
  const inline = (text: string) =>
    escape(text)
      .replace(/`([^`]+)`/g, '<code>$1</code>')
      .replace(/\*\*([^*]+)\*\*/g, '<strong>$1</strong>')
      .replace(/(^|\s)\*([^*]+)\*/g, '$1<em>$2</em>')
  const out: string[] = []
  let list = ''
  const close = (next = '') => {
    if (list && list !== next) out.push(`</${list}>`)
    if (next && list !== next) out.push(`<${next}>`)
    list = next
  }
  for (const line of markdown.split('\n')) {
    const heading = /^(#{1,3}) (.*)$/.exec(line)
    if (heading) {
      close()
      out.push(`<h${heading[1]!.length}>${inline(heading[2]!)}</h${heading[1]!.length}>`)
    } else if (line.startsWith('|')) {
      if (/^\|(?:-+\|)+$/.test(line)) continue
      const isHead = list !== 'table'
      close('table')
      const tag = isHead ? 'th' : 'td'
      out.push(
        `<tr>${line
          .slice(1, -1)
          .split(' | ')
          .map((cell) => `<${tag}>${inline(cell.trim())}</${tag}>`)
          .join('')}</tr>`,
      )
    } else if (/^\d+\. /.test(line)) {
      close('ol')
      out.push(`<li>${inline(line.replace(/^\d+\. /, ''))}</li>`)
    } else if (line.trim()) {
      close()
      out.push(`<p>${inline(line)}</p>`)
    } else close()
  }
  close()
  return `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'self'; img-src 'self'"><title>Cistern Sheet: the cell functions</title><link rel="stylesheet" href="help.css"></head><body>\n${out.join('\n')}\n</body></html>\n`
}
