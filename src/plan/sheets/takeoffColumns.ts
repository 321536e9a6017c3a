/** The columns of the sheet Takeoff, by whose headings it is read back, and the names by which other sheets find its cells. */
import { TITLE_ROWS } from '../plan.js'

export const takeoffColumns = {
  code: 2,
  description: 3,
  order: 4,
  unit: 5,
  price: 6,
  amount: 7,
  yours: 8,
  net: 9,
  waste: 10,
  lot: 11,
  hours: 12,
  kind: 13,
  listed: 14,
  now: 15,
  why: 16,
} as const
export type TakeoffColumn = keyof typeof takeoffColumns
export const TAKEOFF_HEADING_ROW = TITLE_ROWS
export const takeoffHeadingWords: readonly (readonly [TakeoffColumn, string])[] = [
  ['code', 'Code'],
  ['description', 'Description'],
  ['order', 'Order'],
  ['unit', 'Unit'],
  ['price', 'Unit price, $'],
  ['amount', 'Amount, $'],
  ['yours', 'Your quantity'],
  ['net', 'Net'],
  ['waste', 'Waste'],
  ['lot', 'Lot'],
  ['hours', 'Hours'],
  ['kind', 'Kind'],
  ['listed', 'Listed then, $'],
  ['now', 'List now, $'],
  ['why', 'Why'],
]
export const takeoffHeading = (column: TakeoffColumn): string => takeoffHeadingWords.find(([name]) => name === column)![1]

/** Names by which other sheets of the job find a sum, or a cell of a line. */
export const sumPlace = (label: string) => `sum ${label}`
/** The rows of all lines and section sums. */
export const LINE_ROWS = 'rows of lines'
/** Columns of our lines that always hold formulas. */
export const workedColumns = ['net', 'waste', 'lot', 'order', 'amount', 'hours'] as const satisfies readonly TakeoffColumn[]
export const linePlace = (code: string, column: 'description' | 'order' | 'unit' | 'price' | 'listed') => `line ${code} ${column}`
