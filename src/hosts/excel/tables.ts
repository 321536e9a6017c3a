/** What stands in Excel as the rest of the project knows it: tables of the office, their places, the content of sheets. */
import type { TablePlace } from '../../plan/places.js'
import type { RawTable } from '../../takeoff/office.js'
import { HostError, type SheetCell, type SheetContent } from '../host.js'

/** Asks for a table with its heading row and the rows below it; a row of totals is asked for to be known as such. */
export function askTable<N extends string>(workbook: Excel.Workbook, name: N, what: 'values' | 'formulas') {
  const table = workbook.tables.getItemOrNullObject(name)
  const range = table.getRange()
  table.load('name,showTotals,showHeaders')
  table.worksheet.load('name')
  table.worksheet.protection.load('protected')
  range.load(what === 'values' ? 'values,rowIndex,columnIndex' : 'formulas,rowIndex,columnIndex')
  return { name, table, range }
}
export type AskedTable = ReturnType<typeof askTable<string>>

/** Headings and rows of a table, without its totals. */
export function rowsOf({ table, range }: AskedTable, what: 'values' | 'formulas'): { columns: readonly string[]; rows: readonly (readonly unknown[])[] } {
  const [headings, ...rows] = range[what] as unknown[][]
  if (!table.showHeaders) throw new HostError(`The table ${table.name} shows no headings: show its header row (Table Design), then try again. Nothing was changed.`)
  return { columns: headings!.map((heading) => String(heading).trim()), rows: table.showTotals ? rows.slice(0, -1) : rows }
}

/** Refuses to write where there is no such table, or its sheet is protected. */
export function mustTake({ name, table }: AskedTable): void {
  if (table.isNullObject) throw new HostError(`There is no table ${name}: its sheet was renamed or its table taken away. Set up the workbook again. Nothing was changed.`)
  if (table.worksheet.protection.protected) throw new HostError(`The sheet ${table.worksheet.name} is protected: remove the protection, then try again. Nothing was changed.`)
}

export function asTable(asked: AskedTable): RawTable {
  const { columns, rows } = rowsOf(asked, 'values')
  return {
    sheet: asked.table.worksheet.name,
    columns: [...columns],
    rows: rows.map((values, at) => ({
      row: asked.range.rowIndex + 2 + at,
      cells: Object.fromEntries(columns.map((column, index) => [column, values[index] === '' ? null : values[index]])),
    })),
  }
}

export function asPlace(asked: AskedTable): TablePlace {
  const { columns } = rowsOf(asked, 'values')
  const { range, table } = asked
  const first = range.columnIndex + 1
  return { sheet: table.worksheet.name, firstRow: range.rowIndex + 2, columnOf: (name) => (columns.includes(name) ? first + columns.indexOf(name) : undefined) }
}

/** The used ranges of sheets that may be there. */
export const askSheets = (worksheets: Excel.WorksheetCollection, sheets: readonly string[]) =>
  sheets.map((name) => {
    const used = worksheets.getItemOrNullObject(name).getUsedRangeOrNullObject()
    used.load('values,formulas,rowIndex,columnIndex')
    return { name, used }
  })
export const contentOf = (wanted: ReturnType<typeof askSheets>): ReadonlyMap<string, SheetContent> =>
  new Map(wanted.filter(({ used }) => !used.isNullObject).map(({ name, used }) => [name, asContent(used)]))

/** The used range as a block from A1. */
function asContent(range: Excel.Range): SheetContent {
  const empty: SheetCell = { value: null }
  const rows: SheetCell[][] = Array.from({ length: range.rowIndex }, () => [])
  for (const [at, values] of (range.values as unknown[][]).entries()) {
    const formulas = (range.formulas as unknown[][])[at]!
    rows.push([
      ...Array.from({ length: range.columnIndex }, () => empty),
      ...values.map((value, column): SheetCell => {
        const text = formulas[column]
        const plain = value === '' ? null : (value as SheetCell['value'])
        return typeof text === 'string' && text.startsWith('=') ? { value: plain, formula: text.slice(1) } : { value: plain }
      }),
    ])
  }
  return rows
}
