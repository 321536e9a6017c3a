/** A row at the end of a table of an office's workbook, every other part left as it was. */
import type { TableName } from '../takeoff/officeTables.js'
import type { Source } from './fileSession.js'
import { putCells } from './xlsx/putCells.js'
import { stretchTable } from './xlsx/stretchTable.js'

/** The last row of a table that holds something; that of its headings where none does. */
export const lastRow = ({ raw, places }: Pick<Source, 'raw' | 'places'>, table: TableName): number =>
  raw[table].rows
    .filter(({ cells }) => Object.values(cells).some((cell) => cell !== null && cell !== undefined && cell !== ''))
    .reduce((most, { row }) => Math.max(most, row), places[table].firstRow - 1)

export function addTableRow(source: Pick<Source, 'raw' | 'places' | 'workbook'>, table: TableName, cells: Readonly<Record<string, string | number>>): void {
  const { book } = source.workbook
  const row = lastRow(source, table) + 1
  const { part } = book.sheetNamed(source.raw[table].sheet)!
  const list = Object.entries(cells).flatMap(([name, value]) => {
    const column = source.places[table].columnOf(name)
    return column === undefined ? [] : [{ row, column, value }]
  })
  book.put(part, putCells(book.text(part), list))
  stretchTable(book, source.raw[table].sheet, table, { row })
}
