/** A list of like rows as a block of cells: its places, its headings, its rows as formulas that recalculate, its sums. */
import { columnAbove, textAt, type Column, type Listed, type RowList } from '../takeoff/rowLists/rowList.js'
import { decimalsOf, symbolOf } from '../units.js'
import { cellValue, rowFormula, type Flavor } from './calls.js'
import type { NamePlaces } from './places.js'
import { address, columnLetters, range, type PlanCell, type SheetDraft } from './plan.js'

/** Names of the rows stand here, the first column beside them. */
const NAMES = 2
export const FIRST_COLUMN = 3
/** Rows above the first: title, headings, and the gap before them. */
export const ABOVE = 4

export const columnOf = ({ columns }: RowList, name: string): number => columns.findIndex((column) => column.name === name) + FIRST_COLUMN
const formatOf = ({ name, decimals, isYear, isText }: Column): PlanCell['format'] => (isText ? undefined : isYear ? { code: '0' } : (decimals ?? decimalsOf(name)))

/** Tells where the columns of a block stand. */
export function placeBlock(names: NamePlaces, sheet: string, list: RowList, firstRow: number, rows: number): void {
  for (const { name } of list.columns) names.set(name, sheet, range(firstRow, firstRow + rows - 1, columnOf(list, name)))
}

/** A list of a job, and where its first row stands. */
export interface Block extends Listed {
  list: RowList
  firstRow: number
}

export function putHeadings(draft: SheetDraft, { list }: Block): void {
  draft.put(NAMES, 'heading', list.heading)
  for (const { name, label } of list.columns) draft.put(columnOf(list, name), 'headingRight', `${label}${symbolOf(name) ? `, ${symbolOf(name)}` : ''}`)
  draft.next()
}

/** Where the row of a formula and the row above it stand in its text until it is written: rows that say the same are rendered once. */
const [HERE, BEFORE] = ['\u0001', '\u0002']

export function putRows(
  draft: SheetDraft,
  { list, rows, firstRow, column: valuesOf }: Block,
  { names, flavor, sheet }: { names: NamePlaces; flavor: Flavor; sheet: string },
): void {
  const lastRow = firstRow + rows.length - 1
  const place = (isFirst: boolean) => {
    const elsewhere = names.from(sheet)
    return (name: string): string => {
      if (columnOf(list, name) >= FIRST_COLUMN) return `${columnLetters(columnOf(list, name))}${HERE}`
      const above = list.columns.find((column) => column.name === columnAbove(name))
      if (!above) return elsewhere(name)
      if (!isFirst) return `${columnLetters(columnOf(list, above.name))}${BEFORE}`
      return above.startsAt === undefined ? '0' : address(lastRow, columnOf(list, above.startsAt))
    }
  }
  const rendered = new Map<string, string>()
  const live = (text: string, at: number): string => {
    const key = `${at === 0 ? 1 : 0}${text}`
    let found = rendered.get(key)
    if (found === undefined) rendered.set(key, (found = rowFormula(flavor, text, place(at === 0))))
    return found.replaceAll(HERE, String(firstRow + at)).replaceAll(BEFORE, String(firstRow + at - 1))
  }
  const worked = list.columns.map((column) => ({ column, cells: valuesOf(column.name), at: columnOf(list, column.name), format: formatOf(column) }))
  rows.forEach((row, at) => {
    if (row.name) draft.put(NAMES, 'text', row.name, { format: 'text' })
    for (const { column, cells, at: across, format } of worked) {
      const text = textAt(column, row, at)
      draft.put(across, column.isText ? 'text' : 'number', cells[at] === null ? null : cellValue(cells[at]), {
        ...(format === undefined ? {} : { format }),
        ...(text === '' ? {} : { formula: live(text, at) }),
      })
    }
    draft.next()
  })
}

/** The row of sums, over the rows of the block. */
export function putSums(draft: SheetDraft, { list, rows, firstRow, column: valuesOf }: Block): void {
  draft.put(NAMES, 'subtotalLabel', list.sum!)
  for (const column of list.columns) {
    const at = columnOf(list, column.name)
    if (!column.isSummed) draft.put(at, 'subtotal', null)
    else
      draft.put(
        at,
        'subtotal',
        valuesOf(column.name).reduce<number>((sum, value) => sum + Number(value), 0),
        { formula: `SUM(${range(firstRow, firstRow + rows.length - 1, at)})`, format: formatOf(column)! },
      )
  }
  draft.next()
}
