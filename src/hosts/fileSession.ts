/** What the commands do with workbooks as files: the office's book with takeoffs in it, and when a file may be written over. */
import type { Flavor } from '../plan/calls.js'
import { jobSheetNames, jobSheets } from '../plan/jobSheets.js'
import { keptFrom } from '../plan/kept.js'
import { officeSheets } from '../plan/officeSheets.js'
import { standardPlaces, type OfficePlaces } from '../plan/places.js'
import type { Made, SheetPlan } from '../plan/plan.js'
import { tablesSheet } from '../plan/tablesSheet.js'
import { checkedOrRaw } from '../takeoff/fields.js'
import type { RawOffice } from '../takeoff/office.js'
import { fieldsOf, tableNames, type TableName } from '../takeoff/officeTables.js'
import { nothingKept, type Kept, type Takeoff } from '../takeoff/takeoff.js'
import { openWorkbook, readOfficeTables, readSheet, writeInto, WorkbookError, type Workbook } from './file.js'
import { repoint } from './repoint.js'
import { Book } from './xlsx/book.js'
import { newBook } from './xlsx/newBook.js'
import { readProperty, writeProperty } from './xlsx/properties.js'
import { putCells, type PutCell } from './xlsx/putCells.js'

/** What a file of ours remembers: what its tables held when it was made, and what it was made from. */
const TABLES = 'Cistern Sheet tables'
const SOURCE = 'Cistern Sheet made from'

export interface Source {
  /** The file's name, or what stands for it. */
  name: string
  workbook: Workbook | undefined
  raw: RawOffice
  places: OfficePlaces
  absent: readonly TableName[]
}

export function sourceOf(bytes: Uint8Array, name: string): Source {
  const workbook = openWorkbook(bytes, name)
  return { name: baseName(name), workbook, ...readOfficeTables(workbook) }
}
export const demoSource = (raw: RawOffice): Source => ({ name: 'the demo', workbook: undefined, raw, places: standardPlaces(), absent: [] })

const baseName = (path: string): string => path.split(/[/\\]/).at(-1)!

/** What people typed on the sheets of a job in a workbook; nothing where it has none. */
export function keptIn(workbook: Workbook | undefined, job: string): Kept {
  if (!workbook) return nothingKept
  // A sheet of that name that was not made by this tool is told when the file is made.
  return keptFrom(jobSheetNames(job), (name) => {
    const content = readSheet(workbook, name)
    return content && isOurs(content, false) ? content : undefined
  })
}
export const isNothing = (kept: Kept): boolean => JSON.stringify(kept) === JSON.stringify(nothingKept)

/** The revision that the heading of a takeoff says it is; 0 where there is none. */
export const revisionIn = (workbook: Workbook | undefined, job: string): number =>
  Number(/revision (\d+)/.exec(String((workbook && readSheet(workbook, jobSheetNames(job).takeoff))?.[2]?.[1]?.value))?.[1] ?? 0)

/** A short number of what the tables hold: two workbooks with the same tables have the same. */
export function fingerprint(raw: RawOffice): string {
  let [one, other] = [0xdeadbeef, 0x41c6ce57]
  const add = (text: string) => {
    for (let at = 0; at < text.length; at++) {
      const code = text.charCodeAt(at)
      one = Math.imul(one ^ code, 2654435761)
      other = Math.imul(other ^ code, 1597334677)
    }
  }
  for (const table of tableNames) {
    const { columns, rows } = raw[table]
    const filled = rows.filter(({ cells }) => Object.values(cells).some((cell) => cell !== null && cell !== undefined && cell !== ''))
    if (!filled.length) continue
    add(`${table}\n`)
    for (const { cells } of filled) for (const column of columns) if (column) add(`${column}=${plain(cells[column])}\n`)
  }
  return `${(other >>> 0).toString(16).padStart(8, '0')}${(one >>> 0).toString(16).padStart(8, '0')}`
}
const plain = (value: unknown): string => (value === null || value === undefined ? '' : value instanceof Date ? value.toISOString().slice(0, 10) : String(value))

export interface NewFile {
  bytes: Uint8Array
  /** What a person should look at, in words. */
  notes: readonly string[]
}

/** The source with the sheets of its takeoffs in it; everything else of the source stands as it stood. */
export function makeFile(source: Source, jobs: readonly { takeoff: Takeoff; revision: number }[], flavor: Flavor, made: Made): NewFile {
  const sheetsOf = (places: OfficePlaces): SheetPlan[] => jobs.flatMap(({ takeoff, revision }) => jobSheets(takeoff, places, flavor, { ...made, revision }))
  if (!source.workbook) {
    const book = newBook()
    writeInto(book, [...sheetsOf(source.places), ...officeSheets(source.raw, made), tablesSheet(made)])
    remember(book, source)
    return { bytes: book.bytes(), notes: [] }
  }
  const { book, file } = source.workbook
  if (book.isLocked)
    throw new WorkbookError(`${file}: its structure is protected: no sheet can be added. Remove the protection (Review, Protect Workbook), then try again. Nothing was written.`)
  const missing = officeSheets(source.raw, made).filter(({ name }) => source.absent.some((table) => table === name))
  const plans = [...sheetsOf(source.places), ...missing, tablesSheet(made)]
  for (const { name, kind } of plans) {
    const standing = readSheet(source.workbook, name)
    if (standing && !isOurs(standing, kind === 'office'))
      throw new WorkbookError(`${file}: the sheet ${name} stands there and was not made by this tool: rename it, then try again. Nothing was written.`)
  }
  const notes = repoint(
    source.workbook,
    plans.filter(({ kind }) => kind !== 'tables' && kind !== 'office'),
  )
  writeNumbers(book, source)
  writeInto(book, plans)
  remember(book, source)
  return { bytes: book.bytes(), notes }
}

/** A workbook of tables alone. */
export function makeTemplate(raw: RawOffice, made: Made): Uint8Array {
  const book = newBook()
  writeInto(book, officeSheets(raw, made))
  remember(book, { name: 'a template', raw })
  return book.bytes()
}

export function remember(book: Book, { name, raw }: Pick<Source, 'name' | 'raw'>): void {
  writeProperty(book, TABLES, fingerprint(raw))
  writeProperty(book, SOURCE, name)
}

/** Empty, or with the heading lines of our sheets. */
const isOurs = (content: NonNullable<ReturnType<typeof readSheet>>, mayBeEmpty: boolean): boolean =>
  /, Cistern Sheet /.test(String(content[2]?.[1]?.value)) || (mayBeEmpty && content.every((row) => row.every(({ value }) => value === null)))

/** Formulas read the cells of the tables themselves: "3 m" in one of them becomes the number that it means. */
function writeNumbers(book: Book, { raw, places }: Source): void {
  for (const table of tableNames) {
    if (table === 'Jobs' || table === 'RainDays') continue
    const sheet = book.sheetNamed(raw[table].sheet)
    if (!sheet) continue
    const numbers: PutCell[] = []
    for (const { row, cells } of raw[table].rows) {
      for (const [name, field] of Object.entries(fieldsOf(table))) {
        const value = checkedOrRaw(name, field, cells[name])
        const column = places[table].columnOf(name)
        if (column !== undefined && typeof cells[name] === 'string' && value !== cells[name] && (typeof value === 'number' || typeof value === 'string'))
          numbers.push({ row, column, value })
      }
    }
    if (numbers.length) book.put(sheet.part, putCells(book.text(sheet.part), numbers))
  }
}

/** Why a file must not be written over by another; nothing where it may. `standing` is what stands at its place. */
export function reasonsAgainst(standing: Workbook, source: Source, next: Uint8Array): string[] {
  const reasons: string[] = []
  const from = readProperty(standing.book, SOURCE)
  const was = readProperty(standing.book, TABLES)
  let raw: RawOffice | undefined
  try {
    ;({ raw } = readOfficeTables(standing))
  } catch (error) {
    if (!(error instanceof WorkbookError)) throw error
  }
  const isSame = raw !== undefined && fingerprint(raw) === fingerprint(source.raw)
  if (from === undefined && !isSame) reasons.push('it was not made by this command, and its tables are not those of ' + source.name)
  else if (from !== undefined && from !== source.name && !isSame) reasons.push(`it was made from ${from}, not from ${source.name}`)
  if (raw !== undefined && was !== undefined && !isSame && fingerprint(raw) !== was) reasons.push('its own tables were changed since it was made')
  const kept = new Set(new Book(next, 'the new file').sheets.map(({ name }) => name.toLowerCase()))
  const gone = standing.book.sheets.map(({ name }) => name).filter((name) => !kept.has(name.toLowerCase()))
  if (gone.length) reasons.push(`the ${gone.length === 1 ? 'sheet' : 'sheets'} ${gone.join(', ')} would be lost`)
  return reasons
}
