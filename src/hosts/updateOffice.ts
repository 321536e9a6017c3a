/** Brings an older office's workbook up to date: chosen rules in place, new columns at the end of their tables, all else as it was. */
import { columnLetters } from '../plan/plan.js'
import { officeSheets } from '../plan/officeSheets.js'
import type { Made } from '../plan/plan.js'
import { fieldsOf, type TableName } from '../takeoff/officeTables.js'
import { officeUpdate, type OfficeUpdate } from '../takeoff/older/update.js'
import { readOfficeTables, Workbook, WorkbookError, writeInto } from './file.js'
import { lastRow } from './addTableRow.js'
import { remember, type Source } from './fileSession.js'
import { refuseTaken } from './standing.js'
import type { Book } from './xlsx/book.js'
import { readAddress } from './xlsx/cells.js'
import { putCells, type PutCell } from './xlsx/putCells.js'
import { stretchTable } from './xlsx/stretchTable.js'
import { attribute } from './xlsx/xml.js'

/** `only` names the keys of the changes to take; all where it is left out. `tables` are those that the workbook lacked. */
export function updateOffice(source: Source, made: Made, only?: readonly string[]): { bytes: Uint8Array; update: OfficeUpdate; tables: readonly string[] } {
  const update = officeUpdate(source.raw)
  const taken = only ? update.changes.filter(({ key }) => only.includes(key)) : update.changes
  const unknown = (only ?? []).filter((key) => !update.changes.some((change) => change.key === key))
  if (unknown.length)
    throw new WorkbookError(
      update.changes.length
        ? `--only: one of ${update.changes.map(({ key }) => key).join(', ')}; got ${unknown.join(', ')}.`
        : `--only: nothing here is out of date; got ${unknown.join(', ')}.`,
    )
  const { book } = source.workbook!
  const absent = officeSheets(source.raw, made).filter(({ name }) => source.absent.some((table) => table === name))
  refuseTaken(source.workbook!, absent)
  const cells = new Map<TableName, PutCell[]>()
  const columnsOf = new Map<TableName, Map<string, number>>()
  for (const { table, names } of update.columns) columnsOf.set(table, addColumns(book, source, table, names, cells))
  const columnIn = (table: TableName, name: string) => columnsOf.get(table)?.get(name) ?? source.places[table].columnOf(name)
  const nextRow = new Map<TableName, number>()
  for (const { table, row, cells: values } of taken) {
    const next = nextRow.get(table) ?? lastRow(source, table) + 1
    if (row === undefined) nextRow.set(table, next + 1)
    for (const name of Object.keys(fieldsOf(table))) {
      const column = columnIn(table, name)
      if (column !== undefined && name in values) put(cells, table, { row: row ?? next, column, value: values[name] ?? null })
    }
  }
  for (const [table, list] of cells) {
    const part = book.sheetNamed(source.raw[table].sheet)!.part
    book.put(part, putCells(book.text(part), list))
  }
  for (const [table, next] of nextRow) stretchTable(book, source.raw[table].sheet, table, { row: next - 1 })
  if (absent.length) writeInto(book, absent)
  remember(book, { name: source.name, raw: readOfficeTables(new Workbook(book)).raw })
  return { bytes: book.bytes(), update: { ...update, changes: taken }, tables: absent.map(({ name }) => name) }
}

const put = (cells: Map<TableName, PutCell[]>, table: TableName, cell: PutCell) => cells.set(table, [...(cells.get(table) ?? []), cell])

/** Headings behind the last one of a table. */
function addColumns(book: Book, source: Source, table: TableName, names: readonly string[], cells: Map<TableName, PutCell[]>): Map<string, number> {
  const { places, raw } = source
  const headingRow = places[table].firstRow - 1
  const first = Math.min(...raw[table].columns.flatMap((name) => places[table].columnOf(name) ?? []))
  const start = first + raw[table].columns.length
  const columns = new Map(names.map((name, at) => [name, start + at]))
  const taken = takenBeside(source, table, headingRow, start, names.length)
  if (taken)
    throw new WorkbookError(
      `${source.workbook!.file}: ${taken}: the new columns ${names.join(', ')} of ${table} belong there. Move what stands there to the right or to a sheet of your own, then try again. Nothing was written.`,
    )
  for (const [name, column] of columns) put(cells, table, { row: headingRow, column, value: name })
  stretchTable(book, raw[table].sheet, table, { columns: [...raw[table].columns, ...names], first })
  return columns
}

/** The first cell, or the table, that stands where new columns of a table would. */
function takenBeside(source: Source, table: TableName, headingRow: number, start: number, count: number): string | undefined {
  const { book, cells } = source.workbook!
  const sheet = book.sheetNamed(source.raw[table].sheet)!
  const end = start + count - 1
  for (const [row, line] of cells.rows(sheet))
    if (row >= headingRow)
      for (const [column, { value }] of line) if (column >= start && column <= end) return `${sheet.name}!${columnLetters(column)}${row} ("${String(value).slice(0, 40)}")`
  for (const { type, target } of book.relations(sheet.part)) {
    if (!type.endsWith('/table') || !book.has(target)) continue
    const text = book.text(target)
    const tag = [...book.tags(target)].find(({ name }) => name === 'table')!
    const [from, to] = (attribute(text, tag, 'ref') ?? '').split(':').map(readAddress)
    if (from && to && from.column <= end && to.column >= start && to.row >= headingRow) return `${sheet.name}, the table ${attribute(text, tag, 'displayName') ?? ''}`
  }
  return undefined
}
