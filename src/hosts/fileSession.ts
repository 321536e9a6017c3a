/** What the commands know of workbooks as files: what they hold, what they remember, and when one may be written over. */
import { officeSheets } from '../plan/officeSheets.js'
import { standardPlaces, type OfficePlaces } from '../plan/places.js'
import type { Made, SheetPlan } from '../plan/plan.js'
import { placesInWords } from '../takeoff/fields.js'
import type { RawOffice } from '../takeoff/office.js'
import { tableNames, type TableName } from '../takeoff/officeTables.js'
import { openWorkbook, readOfficeTables, Workbook, writeInto, WorkbookError } from './file.js'
import { shortHash } from '../shortHash.js'
import { looksLost, sheetStates, stateOfPlan } from './standing.js'
import type { Book } from './xlsx/book.js'
import { newBook } from './xlsx/newBook.js'
import { readProperty, writeProperty } from './xlsx/properties.js'

/** What a file of ours remembers: what its tables and its other sheets held when it was made, and what it was made from. */
const TABLES = 'Cistern Sheet tables'
const SHEETS = 'Cistern Sheet sheets'
const SOURCE = 'Cistern Sheet made from'
/** Excel keeps 255 characters of a property: what is longer stands in several. */
const LONGEST_PROPERTY = 250
const piece = (at: number): string => (at ? `${SHEETS} ${at + 1}` : SHEETS)

export interface Source {
  /** The file's name, or what stands for it. */
  name: string
  workbook: Workbook
  /** As it was read. */
  bytes?: Uint8Array
  raw: RawOffice
  places: OfficePlaces
  absent: readonly TableName[]
}

export function sourceOf(bytes: Uint8Array, name: string): Source {
  const workbook = openWorkbook(bytes, name)
  return { name: baseName(name), workbook, bytes, ...readOfficeTables(workbook) }
}
/** An office that no file holds yet: every table of it is to be written. */
export const demoSource = (raw: RawOffice): Source => ({ name: 'the demo', workbook: new Workbook(newBook()), raw, places: standardPlaces(), absent: tableNames })

const baseName = (path: string): string => path.split(/[/\\]/).at(-1)!

/** A short number of what the tables hold: two workbooks with the same tables have the same. */
const fingerprint = (raw: RawOffice): string => shortHash(tableTexts(raw))
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

/** A workbook of tables alone. */
export function makeTemplate(raw: RawOffice, made: Made): Uint8Array {
  const book = newBook()
  const plans = officeSheets(raw, made)
  writeInto(book, plans)
  remember(book, { name: 'a template', raw }, plans)
  return book.bytes()
}

/** `plans` are the sheets of the office that were just written, `ofJobs` the names of those of jobs. */
export function remember(
  book: Book,
  { name, raw, workbook = new Workbook(book) }: Pick<Source, 'name' | 'raw'> & Partial<Source>,
  plans: readonly SheetPlan[] = [],
  ofJobs: ReadonlySet<string> = new Set(),
): void {
  const isPlain = ({ cells }: SheetPlan) => cells.every(({ formula }) => formula === undefined)
  const written = new Map(plans.filter(isPlain).map((plan) => [plan.name, stateOfPlan(plan)]))
  writeProperty(book, TABLES, fingerprint(raw))
  const states = JSON.stringify(sheetStates(workbook, written, ofJobs))
  const pieces = Math.max(1, Math.ceil(states.length / LONGEST_PROPERTY))
  for (let at = 0; at < pieces || readProperty(book, piece(at)) !== undefined; at++)
    writeProperty(book, piece(at), states.slice(at * LONGEST_PROPERTY, (at + 1) * LONGEST_PROPERTY))
  writeProperty(book, SOURCE, name)
}

/** What the sheets held when the file was made, as it remembers. */
export function statesIn(book: Book): Record<string, string> {
  try {
    let states = ''
    for (let at = 0; ; at++) {
      const part = readProperty(book, piece(at))
      if (part === undefined) break
      states += part
    }
    return JSON.parse(states || '{}') as Record<string, string>
  } catch {
    return {}
  }
}

/** What a workbook has on the sheets of its takeoffs, and the file that would take its place has not: words, drawings. */
export interface Lost {
  words: string[]
  drawn: string[]
}

/** Why a file must not be written over by another; nothing where it may. `standing` is what stands at its place, `cameAlong` are sheets of it, in small letters, whose work another sheet has now. */
export function reasonsAgainst(standing: Workbook, source: Pick<Source, 'name' | 'raw'>, next: Book, lost: Lost, cameAlong: ReadonlySet<string>): string[] {
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
  const [before, now, after] = [statesIn(standing.book), sheetStates(standing), statesIn(next)]
  const typed = Object.keys(now).filter((name) => now[name] !== before[name] && now[name] !== after[name] && after[name] !== undefined)
  if (typed.length) reasons.push(`what stands on ${typed.join(', ')} was changed since it was made`)
  if (lost.words.length) reasons.push(`typed on it and lost then: ${placesInWords(lost.words)}`)
  if (lost.drawn.length) reasons.push('drawings or remarks on the sheets of its takeoffs would be lost')
  const kept = new Set([...next.sheets.map(({ name }) => name.toLowerCase()), ...cameAlong])
  const gone = standing.book.sheets.map(({ name }) => name).filter((name) => !kept.has(name.toLowerCase()))
  if (gone.length) reasons.push(`the ${gone.length === 1 ? 'sheet' : 'sheets'} ${gone.join(', ')} would be lost`)
  reasons.push(...looksLost(standing, next))
  return reasons
}
