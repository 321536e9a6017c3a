/** The sheet Order together: one order over the jobs of one making, live over their takeoffs; and what stands in its place once it is out of date. */
import { money } from '../rounding.js'
import { lineFormula } from '../takeoff/lineFigures.js'
import { ADDED_SECTION_WORDS } from '../takeoff/sumWords.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import type { Rows } from './keptCells.js'
import { address, madeLine, quotedSheet, SheetDraft, TITLE_ROWS, type Made, type SheetPlan } from './plan.js'
import { together, type Ordered, type Shared } from './pooledLines.js'
import { withOwnMarks } from './sheets/asMade.js'
import { NO_SUPPLIER, STOPPED, suppliersOf } from './sheets/orderSheet.js'
import { takeoffColumns } from './sheets/takeoffColumns.js'
import { unitBeside } from './words.js'

export const ORDER_TOGETHER = 'Order together'
const columns = { code: 2, text: 3, jobs: 4, order: 5, unit: 6, apart: 7, price: 8, saved: 9 } as const
const headings: Readonly<Record<keyof typeof columns, string>> = {
  code: 'Code',
  text: 'What',
  jobs: 'Of jobs',
  order: 'Order together',
  unit: 'In',
  apart: 'Ordered apart',
  price: 'Unit price, $',
  saved: 'Saved, $',
}

/** A line by hand of one job, as it was typed: nobody knows what another job's could share with it. */
export interface ByHand {
  words: string
  job: string
  quantity: number
  unit: string
}
export interface Collected {
  /** Each with the revision that was ordered from, where it is and when it is needed. */
  jobs: readonly string[]
  stopped: readonly string[]
  notAgreed: readonly string[]
  shared: readonly Shared[]
  byHand: readonly ByHand[]
  house: Takeoff['house']
}

const SAVED = 'Saved by ordering together, $'
/** The order as it is handed out: without prices, what they save, and what stands hidden behind them. */
export function withoutPrices(plan: SheetPlan): SheetPlan {
  const last = columns.apart
  const savedRow = plan.cells.find(({ value }) => value === SAVED)?.row
  const cells = plan.cells.flatMap((cell) => {
    // The letterhead stands at the right edge.
    if (cell.row < TITLE_ROWS) return [cell.column === columns.saved ? { ...cell, column: last } : cell]
    return cell.column <= last && cell.row !== savedRow ? [cell] : []
  })
  // The words take the room, so that letterhead and title lines keep clear of each other.
  const room = plan.widths.slice(last, columns.saved).reduce((sum, width) => sum + width, 0)
  const widths = plan.widths.slice(0, last).map((width, at) => (at + 1 === columns.text ? width + room : width))
  return { ...plan, cells, widths, print: { ...plan.print, lastColumn: last } }
}

/** In the place of an order that one of its jobs has left: nothing stands there that could be ordered from. `standing` are the cells of that order. */
export function orderOutOfDate(job: string, made: Made, standing: Rows): SheetPlan {
  const draft = new SheetDraft()
  draft.heading('Order together: out of date', `${job} was made again by itself since`, madeLine(made, false))
  draft.next()
  const { row: said } = draft
  draft.put(
    columns.code,
    'text',
    'What stood here added the lines of several jobs, and one of them is another now. Make those jobs once more in one go: the order comes with them.',
  )
  // Cells that such an order has are ours, and nobody's words that would be lost.
  const isPart = (words: unknown) => parts.some((part) => String(words ?? '').startsWith(`${part}, jobs `))
  const titles = standing[TITLE_ROWS - 1] ?? []
  for (let row = 1; row <= TITLE_ROWS; row++)
    for (let column: number = row < 4 ? columns.text : columns.code; column <= Math.max(columns.saved, titles.length); column++)
      if (!(row === said && column === columns.code) && (column <= columns.saved || (row === TITLE_ROWS && isPart(titles[column - 1]?.value))))
        draft.put(column, 'faint', null, { row })
  return draft.sheet(ORDER_TOGETHER, { kind: 'together', widths: [1, 20, 90], headingRow: TITLE_ROWS, landscape: true, footer: ORDER_TOGETHER })
}

/** A formula holds so many jobs: longer ones pass Excel's 8,192 characters. */
const JOBS_A_FORMULA = 50
/** Parts of longer sums stand behind what is printed. */
const FIRST_PART = columns.saved + 2
const parts = ['Used', 'Ordered', 'Lowest price'] as const
const [NAMES_TOLD, SITES_TOLD] = [20, 50] as const

const inGroups = <T>(list: readonly T[]): T[][] =>
  Array.from({ length: Math.ceil(list.length / JOBS_A_FORMULA) }, (_, at) => list.slice(at * JOBS_A_FORMULA, (at + 1) * JOBS_A_FORMULA))
const told = (names: readonly string[]): string =>
  names.length <= NAMES_TOLD ? names.join(', ') : `${names.slice(0, NAMES_TOLD).join(', ')} and ${(names.length - NAMES_TOLD).toLocaleString('en-US')} others`

/** One sheet over the jobs of one making, live over their takeoffs. */
export function togetherSheet({ jobs, stopped, notAgreed, shared, byHand, house }: Collected, made: Made): SheetPlan {
  const draft = new SheetDraft()
  const groups = Math.max(...shared.map(({ lines }) => inGroups(lines).length))
  const hasParts = groups > 1
  draft.heading(`Order of ${jobs.length.toLocaleString('en-US')} jobs`, 'Order together: goods added before they are rounded up to lots', madeLine(made, false))
  draft.letterhead(columns.saved, house.head)
  draft.put(columns.code, 'faint', 'It takes the place of the single orders of these jobs: order each thing once. Hire and services stand as each site needs them.')
  draft.next()
  for (const [name, column] of Object.entries(columns))
    draft.put(column, ['order', 'apart', 'price', 'saved'].includes(name) ? 'headingRight' : 'heading', headings[name as keyof typeof columns])
  for (let group = 0; hasParts && group < groups; group++)
    parts.forEach((part, at) => draft.put(FIRST_PART + group * parts.length + at, 'headingRight', `${part}, jobs ${group * JOBS_A_FORMULA + 1} on`))
  draft.next()
  if (stopped.length) {
    draft.put(columns.text, 'caution', `${STOPPED} Of these jobs: ${told(stopped)}.`)
    draft.next()
  }
  if (notAgreed.length) {
    draft.put(
      columns.text,
      'caution',
      `More than the customer has agreed to: change orders that nobody has signed, of ${told(notAgreed)}. What changed since is not ordered before they are.`,
    )
    draft.next()
  }
  draft.section(columns.saved, 'WHERE TO, AND BY WHEN')
  for (const site of jobs.slice(0, SITES_TOLD)) {
    draft.put(columns.text, 'wrapped', site)
    draft.next()
  }
  if (jobs.length > SITES_TOLD) {
    draft.put(columns.text, 'wrapped', `And ${(jobs.length - SITES_TOLD).toLocaleString('en-US')} other jobs, each as its own order says.`)
    draft.next()
  }
  draft.next()
  const first = draft.row
  for (const supplier of suppliersOf(shared)) {
    draft.section(columns.saved, (supplier || NO_SUPPLIER).toUpperCase())
    for (const one of shared) if (one.supplier === supplier) row(one)
    draft.next()
  }
  if (byHand.length) {
    draft.section(columns.saved, ADDED_SECTION_WORDS)
    for (const { words, job, quantity, unit } of byHand) {
      draft.put(columns.text, 'wrapped', `${words} (${job})`)
      draft.put(columns.jobs, 'number', 1, { format: 0 })
      draft.put(columns.order, 'number', quantity, { format: Number.isInteger(quantity) ? 0 : 2 })
      draft.put(columns.unit, 'unit', unitBeside(quantity, unit) || null)
      draft.next()
    }
    draft.next()
  }
  const saved = money(shared.reduce((sum, one) => sum + together(one).saved, 0))
  draft.put(columns.text, 'totalLabel', SAVED)
  for (let column = columns.jobs; column < columns.saved; column++) draft.put(column, 'totalLabel', null)
  draft.put(columns.saved, 'total', saved, { format: 2, formula: `SUM(${address(first, columns.saved, false)}:${address(draft.row - 1, columns.saved, false)})` })

  function row(one: Shared): void {
    const { code, lines } = one
    const { order, apart, price, saved: less } = together(one)
    const cell = (of: Ordered, column: number) => `${quotedSheet(of.sheet)}!${address(of.row, column)}`
    const at = (column: number) => address(draft.row, column, false)
    const lot = cell(lines[0]!, takeoffColumns.lot)
    const decimals = Number.isInteger(one.lot) ? 0 : 2
    const [net, sum, prices] = formulas(lines, cell)
    draft.put(columns.code, 'faintWrapped', code, { format: 'text' })
    draft.put(columns.text, 'wrapped', one.description)
    draft.put(columns.jobs, 'number', lines.length, { format: 0 })
    const pooled = lineFormula('orderTogether', (name) => (name === 'Net' ? `(${net})` : name === 'Lot' ? lot : cell(lines[0]!, takeoffColumns.waste)))
    // Which ends are long enough was found when it was made.
    const ofLengths = apart > order ? `MAX(${pooled},${sum}-${Math.round((apart - order) / one.lot)}*${lot})` : sum
    draft.put(columns.order, 'number', order, { format: decimals, formula: !one.isPooled ? sum : one.isByLength ? ofLengths : pooled })
    draft.put(columns.unit, 'unit', unitBeside(order, one.unit))
    draft.put(columns.apart, 'number', apart, { format: decimals, formula: sum })
    draft.put(columns.price, 'number', price, { format: Number.isInteger(Math.round(price * 1e6) / 1e4) ? 2 : 4, formula: lines.length === 1 ? prices : `MIN(${prices})` })
    draft.put(columns.saved, 'number', less, { format: 2, formula: `ROUND((${at(columns.apart)}-${at(columns.order)})*${at(columns.price)},2)` })
    draft.next()
  }

  /** What is used, what is ordered apart, and the prices: of all jobs at once, or over parts of them that have cells of their own. */
  function formulas(lines: Shared['lines'], cell: (of: Ordered, column: number) => string): [net: string, sum: string, prices: string] {
    const priceIn = (line: Ordered) => lineFormula('price', (name) => cell(line, name === 'Price' ? takeoffColumns.price : takeoffColumns.listed))
    const of = (some: readonly Ordered[]): [string, string, string] => [
      some.map((line) => `IF(${cell(line, takeoffColumns.yours)}="",${cell(line, takeoffColumns.net)},${cell(line, takeoffColumns.yours)})`).join('+'),
      some.map((line) => cell(line, takeoffColumns.order)).join('+'),
      some.map(priceIn).join(','),
    ]
    if (lines.length <= JOBS_A_FORMULA) return of(lines)
    const cells = inGroups(lines).map((some, group) => {
      const [net, sum, prices] = of(some)
      const values = [some.reduce((all, line) => all + line.used, 0), some.reduce((all, line) => all + line.order, 0), Math.min(...some.map((line) => line.price))]
      return [net, sum, `MIN(${prices})`].map((formula, part) => {
        const { row: at, column } = draft.put(FIRST_PART + group * parts.length + part, 'number', values[part]!, { format: 2, formula })
        return address(at, column, false)
      })
    })
    const [net, sum, prices] = [0, 1, 2].map((part) => cells.map((group) => group[part]!))
    return [net!.join('+'), sum!.join('+'), prices!.join(',')]
  }

  const ofParts = hasParts ? Array.from({ length: groups * parts.length }, () => 12) : []
  return withOwnMarks(
    draft.sheet(ORDER_TOGETHER, {
      kind: 'together',
      widths: [1, 20, 44, 8, 10, 8, 10, 11, 11, 2, ...ofParts, 10],
      headingRow: TITLE_ROWS,
      landscape: true,
      footer: ORDER_TOGETHER,
      paper: house.paper,
      hiddenColumn: FIRST_PART + ofParts.length,
      print: { ...(hasParts ? { percent: 100 } : {}), lastColumn: columns.saved },
    }),
  )
}
