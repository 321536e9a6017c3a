/** What the commands do with workbooks as files: the office's book with takeoffs in it, and when a file may be written over. */
import type { Flavor } from '../plan/calls.js'
import { earlierFrom, nothingEarlier, type Earlier } from '../plan/earlier.js'
import { jobSheetNames, jobSheets } from '../plan/jobSheets.js'
import { keptFrom } from '../plan/kept.js'
import type { SheetKindName } from '../plan/sheets/index.js'
import { orderTogether } from '../plan/orderTogether.js'
import { officeSheets } from '../plan/officeSheets.js'
import { standardPlaces, type OfficePlaces } from '../plan/places.js'
import { columnLetters, type Made, type SheetPlan } from '../plan/plan.js'
import { tablesSheet } from '../plan/tablesSheet.js'
import { checkedOrRaw, placesInWords } from '../takeoff/fields.js'
import type { RawOffice } from '../takeoff/office.js'
import { fieldsOf, tableNames, type TableName } from '../takeoff/officeTables.js'
import { nothingKept, type Kept, type Takeoff } from '../takeoff/takeoff.js'
import { openWorkbook, readOfficeTables, readSheet, Workbook, writeInto, WorkbookError } from './file.js'
import { repoint } from './repoint.js'
import { shortHash } from '../shortHash.js'
import { isOurs, renewedNote } from './lostWords.js'
import { drawnNotes, refuseTaken, sheetStates, wordsLost, wordsRenewed } from './standing.js'
import type { Book } from './xlsx/book.js'
import { logoOn } from './xlsx/logo.js'
import { newBook } from './xlsx/newBook.js'
import { readProperty, writeProperty } from './xlsx/properties.js'
import { putCells, type PutCell } from './xlsx/putCells.js'

/** What a file of ours remembers: what its tables and its other sheets held when it was made, and what it was made from. */
const TABLES = 'Cistern Sheet tables'
const SHEETS = 'Cistern Sheet sheets'
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
/** What stood on the sheets of a job in a workbook before they are made again. */
export const earlierIn = (workbook: Workbook | undefined, job: string): Earlier =>
  workbook ? earlierFrom(jobSheetNames(job), (name) => readSheet(workbook, name)) : nothingEarlier

export const isNothing = (kept: Kept): boolean => JSON.stringify(kept) === JSON.stringify(nothingKept)

/** The revision that the heading of a takeoff says it is; 0 where there is none. */
export const revisionIn = (workbook: Workbook | undefined, job: string): number => earlierIn(workbook, job).before?.revision ?? 0

/** A short number of what the tables hold: two workbooks with the same tables have the same. */
export const fingerprint = (raw: RawOffice): string => shortHash(tableTexts(raw))
function* tableTexts(raw: RawOffice): Generator<string> {
  for (const table of tableNames) {
    const { columns, rows } = raw[table]
    const filled = rows.filter(({ cells }) => Object.values(cells).some((cell) => cell !== null && cell !== undefined && cell !== ''))
    if (!filled.length) continue
    yield `${table}\n`
    for (const { cells } of filled) for (const column of columns) if (column) yield `${column}=${plain(cells[column])}\n`
  }
}
const plain = (value: unknown): string => (value === null || value === undefined ? '' : value instanceof Date ? value.toISOString().slice(0, 10) : String(value))

export interface NewFile {
  bytes: Uint8Array
  /** The sheets of the takeoffs in it. */
  plans: readonly SheetPlan[]
  /** What a person should look at, in words. */
  notes: readonly string[]
}

/** The source with the sheets of its takeoffs in it; everything else of the source stands as it stood. */
export function makeFile(source: Source, jobs: readonly { takeoff: Takeoff; revision: number; earlier?: Earlier }[], flavor: Flavor, made: Made, mayLose = false): NewFile {
  const sheetsOf = (places: OfficePlaces): SheetPlan[] => {
    const each = jobs.map(({ takeoff, revision, earlier }) => ({ takeoff, plans: jobSheets(takeoff, places, flavor, { ...made, revision }, earlier) }))
    const own = each.flatMap(({ plans }) => plans)
    return each.length < 2
      ? own
      : [
          ...own,
          orderTogether(
            each.map(({ takeoff, plans }) => ({ takeoff, plan: plans.find(({ kind }) => kind === 'takeoff')! })),
            made,
          ),
        ]
  }
  if (!source.workbook) {
    const book = newBook()
    const plans = sheetsOf(source.places)
    writeInto(book, [...plans, ...officeSheets(source.raw, made), tablesSheet(made)])
    remember(book, source)
    return { bytes: book.bytes(), plans, notes: [] }
  }
  const { book, file } = source.workbook
  const missing = officeSheets(source.raw, made).filter(({ name }) => source.absent.some((table) => table === name))
  const plans = sheetsOf(source.places)
  const all = [...plans, ...missing, tablesSheet(made)]
  refuseTaken(source.workbook, all)
  const lost = wordsLost(source.workbook, all)
  if (lost.length && !mayLose)
    throw new WorkbookError(
      `${file}: words on sheets that are made again would be lost: ${placesInWords(lost)}. Move them to a sheet of your own or add --replace, then try again. Nothing was written.`,
    )
  const notes = [...renewedNote(wordsRenewed(source.workbook, plans)), ...drawnNotes(book, all), ...repoint(source.workbook, plans), ...withoutJob(source)]
  notes.push(...writeNumbers(source.workbook, source))
  writeInto(book, all, logoOn(book, source.raw.House.sheet))
  remember(book, source)
  return { bytes: book.bytes(), plans, notes }
}

/** Papers alone, to be handed out: their values, and nothing behind them. */
export function papersAlone(jobs: readonly { takeoff: Takeoff; revision: number; earlier: Earlier }[], kinds: readonly SheetKindName[], source: Source, made: Made): Uint8Array {
  const { places, workbook, raw } = source
  const plans = jobs.flatMap(({ takeoff, revision, earlier }) => {
    const names = kinds.map((kind) => jobSheetNames(takeoff.design.name)[kind])
    return jobSheets(takeoff, places, 'native', { ...made, revision }, earlier).filter(({ name }) => names.includes(name))
  })
  const book = newBook()
  writeInto(
    book,
    plans.map((plan) => ({ ...plan, cells: plan.cells.map(({ formula: _, ...cell }) => cell) })),
    workbook && logoOn(workbook.book, raw.House.sheet),
  )
  return book.bytes()
}

/** Takeoffs of jobs that are no more, or have another name now: what people typed there belongs to nobody. */
function withoutJob({ workbook, raw }: Source): string[] {
  const jobs = new Set(raw.Jobs.rows.map(({ cells }) => jobSheetNames(String(cells.Job ?? '')).takeoff.toLowerCase()))
  const start = jobSheetNames('').takeoff.toLowerCase()
  return workbook!.book.sheets.flatMap(({ name }) => {
    if (!name.toLowerCase().startsWith(start) || jobs.has(name.toLowerCase())) return []
    return isOurs(readSheet(workbook!, name)!, false) ? [`${name}: no job has this name any more; what was typed on its sheets goes with none`] : []
  })
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
  writeProperty(book, SHEETS, JSON.stringify(sheetStates(new Workbook(book))))
  writeProperty(book, SOURCE, name)
}

/** Formulas read the cells of the tables themselves: "3 m" in one of them becomes the number that it means; answers which did. */
function writeNumbers(workbook: Workbook, { raw, places }: Source): string[] {
  const { book, file } = workbook
  const changed: string[] = []
  for (const table of tableNames) {
    if (table === 'Jobs' || table === 'RainDays') continue
    const sheet = book.sheetNamed(raw[table].sheet)
    if (!sheet) continue
    const numbers: PutCell[] = []
    const standing = workbook.cells.rows(sheet)
    for (const { row, cells } of raw[table].rows) {
      for (const [name, field] of Object.entries(fieldsOf(table))) {
        const value = checkedOrRaw(name, field, cells[name])
        const column = places[table].columnOf(name)
        if (column === undefined || typeof cells[name] !== 'string' || value === cells[name] || (typeof value !== 'number' && typeof value !== 'string')) continue
        const place = `${sheet.name}!${columnLetters(column)}${row}`
        if (standing.get(row)?.get(column)?.formula !== undefined)
          throw new WorkbookError(`${file}: ${place}, ${name}: a formula that gives ${value} itself; it gives the text "${cells[name]}". Nothing was written.`)
        numbers.push({ row, column, value })
        if (typeof value === 'number') changed.push(`${place}: "${cells[name]}" is ${value} now`)
      }
    }
    if (numbers.length) book.put(sheet.part, putCells(book.text(sheet.part), numbers))
  }
  return changed
}

/** What the sheets held when the file was made, as it remembers. */
function statesIn(workbook: Workbook): Record<string, string> {
  try {
    return JSON.parse(readProperty(workbook.book, SHEETS) ?? '{}') as Record<string, string>
  } catch {
    return {}
  }
}

/** Why a file must not be written over by another; nothing where it may. `standing` is what stands at its place. */
export function reasonsAgainst(standing: Workbook, source: Source, { bytes, plans }: Pick<NewFile, 'bytes' | 'plans'>): string[] {
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
  const next = openWorkbook(bytes, 'the new file')
  const [before, now, after] = [statesIn(standing), sheetStates(standing), sheetStates(next)]
  const typed = Object.keys(now).filter((name) => now[name] !== before[name] && now[name] !== after[name] && after[name] !== undefined)
  if (typed.length) reasons.push(`what stands on ${typed.join(', ')} was changed since it was made`)
  const lost = wordsLost(standing, plans)
  if (lost.length) reasons.push(`words would be lost: ${placesInWords(lost)}`)
  const drawn = drawnNotes(standing.book, plans)
  if (drawn.length) reasons.push('drawings or remarks on the sheets of its takeoffs would be lost')
  const kept = new Set(next.book.sheets.map(({ name }) => name.toLowerCase()))
  const gone = standing.book.sheets.map(({ name }) => name).filter((name) => !kept.has(name.toLowerCase()))
  if (gone.length) reasons.push(`the ${gone.length === 1 ? 'sheet' : 'sheets'} ${gone.join(', ')} would be lost`)
  return reasons
}
