/** The orders of several jobs together: quantities added before they are rounded up to lots, by supplier, with what that saves. */
import { LOTS_SLACK } from '../calc/estimate/orderQuantity.js'
import { orderQuantity } from '../calc/index.js'
import { money } from '../rounding.js'
import { lineFormula } from '../takeoff/lineFigures.js'
import { type Takeoff } from '../takeoff/takeoff.js'
import type { Rows } from './keptCells.js'
import { address, madeLine, quotedSheet, SheetDraft, TITLE_ROWS, type Made, type SheetPlan } from './plan.js'
import { withOwnMarks } from './sheets/asMade.js'
import { agreedBefore } from './sheets/amendSheet.js'
import { goodsByHand, linesOrdered, NO_SUPPLIER, ORDER_PREFIX, STOPPED, suppliersOf } from './sheets/orderSheet.js'
import type { JobContext } from './sheetKind.js'
import { openStops } from './stopAnswers.js'
import { ADDED_SECTION_WORDS } from '../takeoff/sumWords.js'
import { unitBeside } from './words.js'
import { takeoffColumns } from './sheets/takeoffColumns.js'

export const ORDER_TOGETHER = 'Order together'
/** What is said where one job of an order was made by itself. */
export const ORDER_OUT_OF_DATE = `${ORDER_TOGETHER} is out of date now: make its jobs in one go for a new one`
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

/** A line of one job: what of it is used and ordered, and where it stands. Of a thousand jobs there are fifty thousand. */
interface Ordered {
  used: number
  order: number
  price: number
  row: number
  sheet: string
}
/** Lines of the same code and words, waste, lot and supplier; TANK is another thing to buy where its model is another. */
interface Shared {
  code: string
  supplier: string
  description: string
  unit: string
  waste: number
  lot: number
  /** Goods that one truck brings to a yard; hire and services are of one site, and what is cut for a job has its own list. */
  isPooled: boolean
  /** Comes in sticks, rods, rolls and coils: no length is joined from the ends that others leave. */
  isByLength: boolean
  lines: Ordered[]
}

/** A line by hand of one job, as it was typed: nobody knows what another job's could share with it. */
interface ByHand {
  words: string
  job: string
  quantity: number
  unit: string
}
interface Collected {
  /** Each with the revision that was ordered from, where it is and when it is needed. */
  jobs: readonly string[]
  stopped: readonly string[]
  notAgreed: readonly string[]
  shared: readonly Shared[]
  byHand: readonly ByHand[]
  house: Takeoff['house']
}

/** Of a lot; what doubles round off. */
const END_SLACK = 1e-9
/** The longest stick, ft (common practice: steel comes in 21 ft): what comes in longer lots is rolled up, and is one length from end to end. */
const LONGEST_STICK_FT = 21
/** Lots that hold all lengths. Sticks: whole ones of each job, and its rest from the first end that is long enough. Coils: each length whole, from its own lots or an end of others. */
function lotsByLength(lengths_lots: readonly number[], lot: number): number {
  const whole = lengths_lots.map((length) => (lot > LONGEST_STICK_FT ? 0 : Math.floor(length + END_SLACK)))
  const rests = lengths_lots.map((length, at) => length - whole[at]!).filter((rest) => rest > END_SLACK)
  const ends: number[] = []
  let lots = whole.reduce((sum, some) => sum + some, 0)
  for (const rest of rests.sort((one, other) => other - one)) {
    const end = ends.findIndex((room) => rest <= room + END_SLACK)
    if (end >= 0) ends[end]! -= rest
    else {
      const own = Math.ceil(rest - END_SLACK)
      lots += own
      ends.push(own - rest)
    }
  }
  return lots
}

export function together({ lines, waste, lot, isPooled, isByLength }: Shared): { order: number; apart: number; saved: number; price: number } {
  const apart = lines.reduce((sum, line) => sum + line.order, 0)
  const pooled = () =>
    isByLength
      ? lotsByLength(
          lines.map(({ used }) => (used * (1 + waste)) / lot),
          lot,
        ) * lot
      : orderQuantity.run({ net: lines.reduce((sum, line) => sum + line.used, 0), waste, lot })
  const order = isPooled ? pooled() : apart
  // Prices may have been typed over for one job: the lowest is the one to ask for.
  const price = Math.min(...lines.map((line) => line.price))
  return { order, apart, price, saved: money((apart - order) * price) }
}

/** Collects what jobs order, one after the other; nothing else of them is held. */
export class OrderTogether {
  private readonly shared = new Map<string, Shared>()
  readonly names: string[] = []
  /** A line of each job for who delivers. */
  private readonly sites: string[] = []
  /** Jobs whose quote has no price. */
  private readonly stopped: string[] = []
  /** Jobs with a change order that nobody has signed. */
  private readonly notAgreed: string[] = []
  private readonly byHand: ByHand[] = []
  /** Whether the jobs are what they were when they were made before: an order that stands holds then. */
  isUnchanged = true
  private house: Takeoff['house'] | undefined

  get jobs(): number {
    return this.names.length
  }

  add(job: Pick<JobContext, 'takeoff' | 'earlier' | 'made'>, plan: SheetPlan): void {
    const { takeoff, made, earlier } = job
    const { design, house } = takeoff
    this.isUnchanged &&= earlier.before?.revision === made.revision
    this.names.push(design.name)
    this.sites.push(siteOf(takeoff, made.revision))
    const agreed = agreedBefore(job)
    if (agreed !== undefined) this.notAgreed.push(`${design.name} (agreed: revision ${agreed})`)
    this.house ??= house
    if (openStops(takeoff)) this.stopped.push(design.name)
    for (const { words, quantity, unit } of goodsByHand(takeoff)) this.byHand.push({ words, job: design.name, quantity, unit })
    const rows = new Map(plan.cells.flatMap(({ row, column, value }) => (column === takeoffColumns.code ? [[String(value), row] as const] : [])))
    for (const { code, supplier, description, net, override, order, price = 0, listed, cut, rule } of linesOrdered(takeoff)) {
      const { unit, waste, lot } = rule
      // A price that the rule works out is that of what was chosen, as of a crane.
      const key = [supplier, code, description, unit, waste, lot, rule.price ? listed : ''].join('\n')
      let known = this.shared.get(key)
      if (!known)
        this.shared.set(
          key,
          (known = { code, supplier, description, unit, waste, lot, isPooled: rule.kind === 'material' && !cut, isByLength: unit.toLowerCase() === 'ft' && lot > 1, lines: [] }),
        )
      known.lines.push({ used: override ?? net, order, price, row: rows.get(code)!, sheet: plan.name })
    }
  }

  sheet(made: Made): SheetPlan {
    return orderTogether({ jobs: this.sites, stopped: this.stopped, notAgreed: this.notAgreed, shared: [...this.shared.values()], byHand: this.byHand, house: this.house! }, made)
  }
}

const siteOf = ({ design, crew }: Takeoff, revision: number): string => {
  const said = (code: string): string => String(crew.cells[`${ORDER_PREFIX}${code}`]?.done ?? '').trim()
  const site = said('SHIP-TO') || String(design.single('Site') ?? '')
  return `${design.name} (revision ${revision})${site ? `: ${site}` : ''}; needed by: ${said('NEEDED-BY') || 'not said on its order'}`
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
function orderTogether({ jobs, stopped, notAgreed, shared, byHand, house }: Collected, made: Made): SheetPlan {
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
    const [waste, lot] = [cell(lines[0]!, takeoffColumns.waste), cell(lines[0]!, takeoffColumns.lot)]
    const decimals = Number.isInteger(one.lot) ? 0 : 2
    const [net, sum, prices] = formulas(lines, cell)
    draft.put(columns.code, 'faintWrapped', code, { format: 'text' })
    draft.put(columns.text, 'wrapped', one.description)
    draft.put(columns.jobs, 'number', lines.length, { format: 0 })
    const pooled = `ROUNDUP((${net})*(1+${waste})/${lot}*(1-${LOTS_SLACK}),0)*${lot}`
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
