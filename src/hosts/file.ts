/** The .xlsx host: a workbook read sheet by sheet as asked for, and sheets of ours written into it; every other part passes through as it is. */
import { clockText, momentText } from '../days.js'
import { fieldsOf, keyColumn, requiredTables, tableNames, wantedTables, type TableName } from '../takeoff/officeTables.js'
import { jobNamesIn, tablesElsewhere, withOptional, type RawOffice, type RawTable } from '../takeoff/office.js'
import { HEADINGS_WITHIN, yourHeadings } from '../takeoff/headings.js'
import { standardPlaces, withYourHeadings, type OfficePlaces, type TablePlace } from '../plan/places.js'
import { columnLetters, type SheetPlan, type WorkbookPlan } from '../plan/plan.js'
import type { SheetCell, SheetContent } from './host.js'
import { Book, type BookSheet } from './xlsx/book.js'
import { CellReader, type BookCell } from './xlsx/cells.js'
import type { Logo } from './xlsx/logo.js'
import { newBook } from './xlsx/newBook.js'
import { tablesIn } from './xlsx/tables.js'
import { SheetWriter, withoutPrefixes } from './xlsx/writeSheet.js'
import { WorkbookError } from './xlsx/zip.js'

export { WorkbookError } from './xlsx/zip.js'
/** A sheet of ours is never longer: rows are built up to here. */
const MOST_SHEET_ROWS = 50_000

/** An open workbook: its parts, and the cells of the sheets that were asked for. */
export class Workbook {
  readonly cells: CellReader
  constructor(readonly book: Book) {
    this.cells = new CellReader(book)
  }
  get file(): string {
    return this.book.file
  }

  /** Lets go of what was read of sheets that are done with: read again when asked for again. */
  close(names: readonly string[]): void {
    for (const name of names) {
      const sheet = this.book.sheetNamed(name)
      if (!sheet) continue
      this.cells.forget(sheet)
      this.book.close(sheet.part)
    }
  }
}

/** Opens a workbook after looking at its size packed and unpacked; refuses what is no workbook. */
export const openWorkbook = (bytes: Uint8Array, name: string): Workbook => new Workbook(new Book(bytes, name))

/** The plan as the bytes of an .xlsx file. */
export function writeWorkbook(plan: WorkbookPlan): Uint8Array {
  const book = newBook()
  writeInto(book, plan.sheets)
  return book.bytes()
}

/** Writes sheets into a workbook: those that stand there under a plan's name are rewritten, the others added. */
export function writeInto(book: Book, plans: readonly SheetPlan[], logo?: Logo): void {
  const writer = new SheetWriter(book, logo)
  writer.put(plans)
  writer.finish()
}

/** A cell as it counts for us: a moment is its day, a formula has no prefixes of files. */
export function plainCell({ value, formula, isTime }: BookCell): SheetCell {
  const plain = value instanceof Date ? momentText(value) : isTime && typeof value === 'number' ? clockText(value) : value
  return formula === undefined ? { value: plain } : { value: plain, formula: withoutPrefixes(formula) }
}

/** So many formulas without a result are no chance. */
const FEW_FORMULAS = 5

/** Refuses a sheet of ours that a program saved without the results of its formulas: read back, it would be full of nothing. */
export function mustBeWorked(workbook: Workbook, name: string): void {
  const sheet = workbook.book.sheetNamed(name)
  const formulas = sheet ? [...workbook.cells.rows(sheet).values()].flatMap((cells) => [...cells.values()].filter(({ formula }) => formula !== undefined)) : []
  // Some programs save an empty text as no result at all, but none that works formulas out leaves every one without.
  if (formulas.length >= FEW_FORMULAS && formulas.every(({ isUnworked }) => isUnworked))
    throw new WorkbookError(`${workbook.file}: ${name}: its formulas were saved without their results; open the workbook in a spreadsheet and save it there.`)
}

/** The cells of a sheet from A1, for reading an earlier takeoff back; undefined when there is no such sheet. */
export function readSheet(workbook: Workbook, name: string): SheetContent | undefined {
  const sheet = workbook.book.sheetNamed(name)
  if (!sheet) return undefined
  const rows = workbook.cells.rows(sheet)
  let lastRow = 0
  for (const row of rows.keys()) lastRow = Math.max(lastRow, row)
  if (lastRow > MOST_SHEET_ROWS)
    throw new WorkbookError(
      `${workbook.file}: the sheet ${name} has cells down to row ${lastRow.toLocaleString('en-US')}; a sheet of a job has at most ${MOST_SHEET_ROWS.toLocaleString('en-US')} rows.`,
    )
  return Array.from({ length: lastRow }, (_, row) =>
    // As long as its last cell: one far cell does not make every row long.
    Array.from({ length: Math.max(0, ...(rows.get(row + 1)?.keys() ?? [])) }, (_unused, column): SheetCell => {
      const cell = rows.get(row + 1)?.get(column + 1)
      return cell ? plainCell(cell) : { value: null }
    }),
  )
}

export interface FoundOffice {
  raw: RawOffice
  places: OfficePlaces
  /** Tables that a workbook may lack, and this one does. */
  absent: readonly TableName[]
}

/** The office's tables of a workbook; refused where one of those that every job needs is missing. */
export function readOfficeTables(workbook: Workbook): FoundOffice {
  const found = findOffice(workbook)
  if ('missing' in found)
    throw new WorkbookError(`${workbook.file}: no table ${found.missing.join(', ')}. A workbook made by \`npm run -s template\` has ${requiredTables.join(', ')}.`)
  return found
}

/** Finds the office's tables in a workbook: by table name, else by the headings on a sheet of that name. */
export function findOffice(workbook: Workbook): FoundOffice | (Pick<FoundOffice, 'absent'> & { missing: readonly TableName[] }) {
  const inBook = tablesOf(workbook)
  const found = new Map<TableName, { raw: RawTable; place: TablePlace }>()
  for (const table of tableNames) {
    const at = inBook.get(table.toLowerCase()) ?? headingOf(workbook, table)
    if (at) found.set(table, rowsBelow(workbook, at))
  }
  const missing = requiredTables.filter((table) => !found.has(table))
  const absent = wantedTables.filter((table) => !found.has(table))
  if (missing.length) return { missing, absent }
  const raw = withOptional(
    Object.fromEntries([...found].map(([table, { raw: one }]) => [table, one])),
    tablesElsewhere(
      wantedTables.filter((table) => !found.has(table)),
      jobNamesIn(found.get('Jobs')!.raw),
      workbook.book.sheets.map((sheet) => ({
        name: sheet.name,
        rows: () => [...workbook.cells.rows(sheet)].flatMap(([row, cells]) => (row > HEADINGS_WITHIN ? [] : [[...cells.values()].map(wordOf)])),
      })),
    ),
  )
  const places: OfficePlaces = { ...standardPlaces(), ...Object.fromEntries([...found].map(([table, { place }]) => [table, place])) }
  return {
    raw,
    places: withYourHeadings(places, yourHeadings(raw)),
    absent,
  }
}

interface TableAt {
  sheet: BookSheet
  headingRow: number
  first: number
  /** The last column of the table; columns beside it that have a heading count as its own. */
  last: number
  /** The row of sums that a spreadsheet put under the table; it is no row of it. */
  totalsRow?: number
}

/** The real tables of a workbook, by their names in small letters. */
const tablesOf = ({ book }: Workbook): Map<string, TableAt> =>
  new Map(
    tablesIn(book).map(({ name, sheet, firstRow, lastRow, firstColumn, lastColumn, totals }) => [
      name,
      { sheet, headingRow: firstRow, first: firstColumn, last: lastColumn, ...(totals > 0 ? { totalsRow: lastRow } : {}) },
    ]),
  )

const wordOf = (cell: BookCell | undefined): string => String(cell?.value ?? '').trim()

/** A table without a name of its own: its key heading with another of its headings beside it, on the sheet of its name. */
function headingOf(workbook: Workbook, table: TableName): TableAt | undefined {
  const sheet = workbook.book.sheetNamed(table)
  if (!sheet) return undefined
  const rows = workbook.cells.rows(sheet)
  const headings = Object.keys(fieldsOf(table))
  for (let headingRow = 1; headingRow <= HEADINGS_WITHIN; headingRow++) {
    for (let first = 1; first <= HEADINGS_WITHIN; first++) {
      const next = wordOf(rows.get(headingRow)?.get(first + 1))
      if (wordOf(rows.get(headingRow)?.get(first)) === keyColumn(table) && (headings.length === 1 || headings.includes(next))) return { sheet, headingRow, first, last: first }
    }
  }
  return undefined
}

/** Rows below a heading, through the end of the sheet: a row typed just under a table counts as its own. */
function rowsBelow(workbook: Workbook, { sheet, headingRow, first, last, totalsRow }: TableAt): { raw: RawTable; place: TablePlace } {
  const rows = workbook.cells.rows(sheet)
  const heading = rows.get(headingRow)
  let end = last
  while (wordOf(heading?.get(end + 1)) !== '') end++
  const columns = Array.from({ length: end - first + 1 }, (_, at) => wordOf(heading?.get(first + at)))
  const found = []
  for (const row of [...rows.keys()].sort((one, other) => one - other)) {
    if (row <= headingRow || row === totalsRow) continue
    const cells: Record<string, unknown> = {}
    columns.forEach((column, at) => {
      const cell = rows.get(row)!.get(first + at)
      if (column && cell?.isUnworked)
        throw new WorkbookError(
          `${sheet.name}!${columnLetters(first + at)}${row}, ${column}: a formula saved without its result; open the workbook in a spreadsheet and save it there.`,
        )
      // Of two columns with one heading the first is read; the second is named as a problem.
      if (column && !Object.hasOwn(cells, column)) cells[column] = cell?.value === '' ? null : (cell?.value ?? null)
    })
    found.push({ row, cells })
  }
  // Beside the table a sheet may go on for a long way.
  while (found.length && Object.values(found.at(-1)!.cells).every((value) => value === null)) found.pop()
  return {
    raw: { sheet: sheet.name, columns, rows: found },
    place: { sheet: sheet.name, firstRow: headingRow + 1, columnOf: (name) => (columns.includes(name) ? first + columns.indexOf(name) : undefined) },
  }
}
