/** The summary of a takeoff: sections, cost, overhead, markup, tax and price, with what they come to by kind and by day. */
import { itemKinds, type ItemKind } from '../../takeoff/officeTables.js'
import { ADDED_SECTION_WORDS, CREW_DAYS, kindLabel, LIST_MOVED, ORDER_COST, PER_GALLON, PRICE_SUMS, SUMMARY, UNCOUNTED } from '../../takeoff/sumWords.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import type { NamePlaces } from '../places.js'
import { address, type PlanCell, type SheetDraft } from '../plan.js'
import { CHANGED_SINCE } from '../sheetKind.js'
import { sumPlace, takeoffColumns as columns, workedColumns } from './takeoffColumns.js'

/** Rows beside those of the sections: its heading, lines by hand, cost to total, a gallon, kinds, days, what the list has moved, what is not counted, and a gap. */
export const SUMMARY_ROWS = 1 + 1 + PRICE_SUMS.length + 1 + itemKinds.length + 3 + 1

/** Beside sums of money, days say that they are none. */
const DAYS = { code: '0.0" days"' }
/** Somebody goes on under the lines by hand: so far down it is seen. */
const ROWS_UNDER = 60

/** Where the summary stands and what it sums. */
export interface Summed {
  row: number
  /** The rows of all lines and section sums, and how many lines they are. */
  rows: { first: number; last: number; lines: number }
  /** The first row of the lines by hand, and that of their sum. */
  added: { first: number; sum: number }
  /** Cells of the sums of the sections, lines by hand last. */
  subtotals: readonly string[]
  names: NamePlaces
  sheet: string
  /** Gives the sum in the current row its name in the workbook. */
  named: (sum: string) => void
}

export function putSummary(draft: SheetDraft, takeoff: Takeoff, { row, rows, added, subtotals, names, sheet, named }: Summed): void {
  const { design } = takeoff
  const end = draft.row
  draft.row = row
  const amount = (row: number) => address(row, columns.amount, false)
  const line = (label: string, value: number, text: string, role: 'number' | 'subtotal' | 'total' = 'number', why = '', format: PlanCell['format'] = 2) => {
    const words = role === 'total' ? 'totalLabel' : role === 'subtotal' ? 'subtotalLabel' : 'text'
    draft.put(columns.description, words, label)
    if (role !== 'number') for (let column = columns.order; column < columns.amount; column++) draft.put(column, words, null)
    draft.put(columns.amount, role, value, { format, formula: text })
    names.set(sumPlace(label), sheet, address(draft.row, columns.amount))
    if (PRICE_SUMS.some((known) => known === label)) named(label)
    if (why) draft.put(columns.why, 'faintWrapped', why)
    draft.next()
    return draft.row - 1
  }
  draft.section(columns.why, SUMMARY)
  const parts = [...takeoff.sections.map(({ section, total }) => [section as string, total] as const), [ADDED_SECTION_WORDS, takeoff.addedTotal] as const]
  parts.forEach(([label, total], at) => {
    draft.put(columns.description, 'text', label)
    draft.put(columns.amount, 'number', total, { format: 2, formula: subtotals[at]! })
    draft.next()
  })
  const cost = line(ORDER_COST, takeoff.orderCost, subtotals.join('+'), 'subtotal', 'Sum of the section totals')
  const lines = (column: number) => `${address(rows.first, column, false)}:${address(rows.last, column, false)}`
  const all = (column: number) => `${address(rows.first, column, false)}:${address(end - 1, column, false)}`
  const { house } = takeoff
  const isAll = (kinds: readonly ItemKind[]) => kinds.length === itemKinds.length
  const inWords = (kinds: readonly ItemKind[]) => (isAll(kinds) ? 'the order cost' : kinds.join(', ') || 'nothing')
  /** The part of the cost that is of some kinds. */
  const base = (kinds: readonly ItemKind[]) =>
    isAll(kinds) ? amount(cost) : kinds.length ? `SUMPRODUCT((${kinds.map((kind) => `(${all(columns.kind)}="${kind}")`).join('+')})*1,${all(columns.amount)})` : '0'
  const rate = (name: 'Overhead' | 'Markup' | 'Tax') => names.from(sheet)(name)
  const overhead = line(
    'Overhead',
    takeoff.overhead,
    `ROUND(${base(house.overheadOn)}*${rate('Overhead')},2)`,
    'number',
    `Overhead of the Design sheet, on ${inWords(house.overheadOn)}`,
  )
  const markup = line('Markup', takeoff.markup, `ROUND(${base(house.markupOn)}*${rate('Markup')},2)`, 'number', `Markup of the Design sheet, on ${inWords(house.markupOn)}`)
  const priced = `(${amount(cost)}+${amount(overhead)}+${amount(markup)})`
  const taxed = (on: readonly ItemKind[]) => base(house.taxOn.filter((kind) => on.includes(kind)))
  const tax = line(
    'Tax',
    takeoff.tax,
    `ROUND(${isAll(house.taxOn) ? priced : `(${base(house.taxOn)}+${taxed(house.overheadOn)}*${rate('Overhead')}+${taxed(house.markupOn)}*${rate('Markup')})`}*${rate('Tax')},2)`,
    'number',
    `Tax of the Design sheet, on ${inWords(house.taxOn)} with ${isAll(house.taxOn) ? '' : 'its '}overhead and markup`,
  )
  const total = line('Total', takeoff.total, `${amount(cost)}+${amount(overhead)}+${amount(markup)}+${amount(tax)}`, 'total')
  const hours = `SUM(${lines(columns.hours)})-SUMPRODUCT((${lines(columns.kind)}="labor")*1,${lines(columns.hours)})`
  const storage = design.number('Storage_gal')
  line(PER_GALLON, storage > 0 ? takeoff.total / storage : 0, `IF(${names.from(sheet)('Storage_gal')}>0,${amount(total)}/${names.from(sheet)('Storage_gal')},0)`)
  for (const kind of itemKinds) line(kindLabel(kind), takeoff.byKind[kind], `SUMPRODUCT((${all(columns.kind)}="${kind}")*1,${all(columns.amount)})`)
  line(
    CREW_DAYS,
    takeoff.crewDays,
    `MAX((${hours})/(${names.from(sheet)('CrewSize')}*${names.from(sheet)('Workday_h_per_day')}),${names.from(sheet)('PitOpen_day')})`,
    'number',
    'Hours of people over the crew and its working day, and no fewer than machine, crane and tests keep the pit open; they change no cost',
    DAYS,
  )
  line(
    LIST_MOVED,
    0,
    // Another size has another price: that is no list that moved.
    `IF(${names.from(sheet)(CHANGED_SINCE)}>0,0,SUMPRODUCT(${lines(columns.order)},${lines(columns.now)})-SUMPRODUCT(ISNUMBER(${lines(columns.now)})*1,${lines(columns.order)},${lines(columns.listed)}))`,
    'number',
    'Prices stand as they were when this was made; made again, it takes those of the list',
  )
  const under = (column: number, from: number, to: number) => `${address(from, column, false)}:${address(to, column, false)}`
  const { price, amount: sums } = columns
  line(
    UNCOUNTED,
    0,
    // Between heading and sum a row that somebody put in is in sight, and in the sum only where its range reaches; under it none is.
    `SUMPRODUCT(ISNUMBER(${under(price, added.first - 1, added.sum)})*(${under(sums, added.first - 1, added.sum)}=""))+(ABS(SUM(${under(sums, added.first - 1, added.sum)})-2*${amount(added.sum)})>0.005)*1+COUNT(${address(added.sum + 1, price, false)}:${address(added.sum + ROWS_UNDER, sums, false)})` +
      // A row put in among the lines of a section has a price or a quantity, and nothing that counts it; or it has an amount beyond the reach of the section's sum.
      `+SUMPRODUCT((${lines(columns.kind)}="")*((ISNUMBER(${lines(price)})+ISNUMBER(${lines(columns.yours)}))>0)*(${lines(sums)}=""))+(ABS(SUM(${lines(sums)})-2*(${subtotals.slice(0, -1).join('+')}))>0.005)*1` +
      // A line of ours that was taken off, a formula typed over, an amount under nothing: the next making takes none of them as it stands.
      `+MAX(0,${rows.lines}-SUMPRODUCT((${lines(columns.kind)}<>"")*1))+SUMPRODUCT((${lines(columns.kind)}<>"")*(${workedColumns.length}-${workedColumns.map((name) => `ISFORMULA(${lines(columns[name])})`).join('-')}))+SUMPRODUCT((${lines(columns.yours)}<0)+(${lines(price)}<0))`,
    'number',
    'On a row put in among lines, or under their sum; and lines of ours that were taken off or typed over. Made again, they are counted or told; until then the quote has no price',
    0,
  )
  draft.row = end
}
