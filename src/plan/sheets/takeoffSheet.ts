/** The Takeoff sheet: itemized, priced, with the reason of every line; overrides and added lines have their own cells. */
import { grouped } from '../../errors.js'
import { formula } from '../../formula/formula.js'
import { isStone, LABOR_HOURS, STONE_ORDERED, type ItemRule } from '../../takeoff/itemRules.js'
import { money } from '../../rounding.js'
import { lineFormula, type LineCell, type LineFigure } from '../../takeoff/lineFigures.js'
import { MOST_AMOUNT } from '../../takeoff/lineMaking.js'
import type { Line } from '../../takeoff/lines.js'
import { ADDED_SECTION, ADDED_SUM, sectionOfSum, sumOf } from '../../takeoff/sumWords.js'
import type { AddedLine } from '../../takeoff/typed.js'
import { definedName, type DefinedName } from '../definedNames.js'
import { address, SheetDraft, type SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { LINE_ROWS, sumPlace, TAKEOFF_HEADING_ROW, takeoffColumns, takeoffHeadingWords, type TakeoffColumn } from './takeoffColumns.js'
import { netDecimals, priceDecimals, putLine } from './takeoffLine.js'
import { putSummary, SUMMARY_ROWS } from './takeoffSummary.js'

const SPARE_ADDED_ROWS = 4
const columns = takeoffColumns
const textColumns: readonly string[] = ['code', 'description', 'unit', 'why', 'kind']

export const takeoff = sheetKind({ kind: 'takeoff', place: 10, prefix: 'Takeoff', plan: takeoffSheet })

/** The last row of the summary, which the head of the sheet looks at before it is laid out. */
const uncountedRow = (sections: number): number => TAKEOFF_HEADING_ROW + sections + SUMMARY_ROWS - 1

/** Where the cells of a line by hand stand. */
const byHandColumns: Readonly<Partial<Record<LineCell, TakeoffColumn>>> = { Yours: 'yours', Order: 'order', Price: 'price', Unit: 'unit' }

function takeoffSheet(job: JobContext, sheet: string): SheetPlan {
  const { takeoff, design, names, heading } = job
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, 'Itemized takeoff', address(uncountedRow(takeoff.sections.length), columns.amount))
  draft.next()
  for (const [name, text] of takeoffHeadingWords) draft.put(columns[name], textColumns.includes(name) ? 'heading' : 'headingRight', text)
  draft.next()
  // The summary stands first and is filled in last: its rows are known, the cells that it sums are not yet.
  const summaryRow = draft.row
  draft.next(takeoff.sections.length + SUMMARY_ROWS)
  const subtotals: string[] = []
  const definedNames: DefinedName[] = []
  const named = (sum: string) => definedNames.push({ name: definedName(design.name, sum), row: draft.row, column: columns.amount })
  const hourCells: string[] = []
  const stoneCells: string[] = []
  const firstLineRow = draft.row
  const pending: (() => void)[] = []
  for (const { section, lines, total } of takeoff.sections) {
    draft.section(columns.why, section.toUpperCase())
    const first = draft.row
    for (const line of lines) {
      writeLine(line)
      draft.next()
    }
    subtotal(sumOf(section), first, draft.row - 1, total)
  }
  names.set(LINE_ROWS, sheet, `${address(firstLineRow, columns.code)}:${address(draft.row - 1, columns.code)}`)
  const lastLineRow = draft.row - 1
  const added = addedLines()
  for (const finish of pending) finish()
  putSummary(draft, takeoff, { row: summaryRow, rows: { first: firstLineRow, last: lastLineRow, lines: takeoff.lines.length }, added, subtotals, names, sheet, named })
  const entries = (column: number, from: number, to: number, least: number) => ({
    firstRow: from,
    lastRow: to,
    column,
    span: [least, MOST_AMOUNT] as const,
    message: `a number, ${grouped(least)} to ${grouped(MOST_AMOUNT)}`,
  })
  const validations = [columns.yours, columns.price].flatMap((column) => [entries(column, firstLineRow, lastLineRow, 0), entries(column, added.first, added.sum - 1, -MOST_AMOUNT)])

  function writeLine(line: Line): void {
    const { rule } = line
    const { row } = draft
    putLine(draft, job, sheet, line)
    if (rule.sum) pending.push(() => draft.put(columns.net, 'number', line.net, { row, format: netDecimals(rule), formula: sumFormula(rule) }))
    if (rule.sum !== LABOR_HOURS) hourCells.push(address(row, columns.hours, false))
    if (isStone(rule)) stoneCells.push(address(row, columns.order, false))
  }

  /** A quantity over other lines: the stone ordered, or the hours of every line but those of labor itself, one sum a section. */
  function sumFormula(rule: ItemRule): string {
    if (rule.sum === STONE_ORDERED) return formula(rule.quantity.text).render((name) => (name === STONE_ORDERED ? `(${stoneCells.join('+') || '0'})` : names.from(sheet)(name)))
    const rows = hourCells.map((cell) => Number(/\d+$/.exec(cell)![0])).sort((a, b) => a - b)
    const runs: [number, number][] = []
    for (const row of rows) {
      const last = runs.at(-1)
      if (last && row === last[1] + 1) last[1] = row
      else runs.push([row, row])
    }
    const ranges = runs.map(([from, to]) => `${address(from, columns.hours, false)}:${address(to, columns.hours, false)}`)
    const sum = ranges.length ? `SUM(${ranges.join(',')})` : '0'
    return formula(rule.quantity.text).render((name) => (name === LABOR_HOURS ? sum : names.from(sheet)(name)))
  }

  function subtotal(label: string, first: number, last: number, total: number): void {
    const sum = `SUM(${address(first, columns.amount, false)}:${address(last, columns.amount, false)})`
    draft.put(columns.description, 'subtotalLabel', label)
    for (let column = columns.order; column < columns.amount; column++) draft.put(column, 'subtotalLabel', null)
    draft.put(columns.amount, 'subtotal', total, { format: 2, formula: sum })
    names.set(sumPlace(label), sheet, address(draft.row, columns.amount))
    named(sectionOfSum(label))
    subtotals.push(address(draft.row, columns.amount, false))
    draft.next(2)
  }

  function addedLines(): { first: number; sum: number } {
    draft.section(columns.why, ADDED_SECTION)
    const first = draft.row
    const blank: AddedLine = { code: '', description: '', unit: '', quantity: null, price: null, why: '' }
    for (const line of [...takeoff.added, ...Array.from({ length: SPARE_ADDED_ROWS }, () => blank)]) {
      const text = (column: TakeoffColumn, value: string) => draft.put(columns[column], 'inputText', value || null, { format: 'text' })
      text('code', line.code)
      text('description', line.description)
      draft.put(columns.yours, 'input', line.quantity, { format: 2 })
      text('unit', line.unit)
      draft.put(columns.price, 'input', line.price, { format: priceDecimals(line.price) })
      const live = (figure: LineFigure) => lineFormula(figure, (name) => address(draft.row, columns[byHandColumns[name]!], false))
      draft.put(columns.order, 'number', line.quantity ?? '', { format: 2, formula: live('orderByHand') })
      draft.put(columns.amount, 'number', money((line.quantity ?? 0) * (line.price ?? 0)), { format: 2, formula: live('amountByHand') })
      text('why', line.why)
      draft.put(columns.kind, 'inputText', line.kind ?? 'other', { format: 'text' })
      draft.next()
    }
    const sum = draft.row
    subtotal(ADDED_SUM, first, sum - 1, takeoff.addedTotal)
    return { first, sum }
  }

  return draft.sheet(sheet, {
    kind: 'takeoff',
    widths: [1, 16, 42, 9, 7, 11, 13, 10, 9, 7, 7, 8, 11, 10, 10, 60],
    headingRow: TAKEOFF_HEADING_ROW,
    landscape: false,
    footer: design.name,
    definedNames,
    validations,
    print: { percent: 100, lastColumn: columns.amount },
  })
}
