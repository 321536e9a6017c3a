/** Takeoffs as a file: laid out and written job by job, so that a thousand take little more memory than two hundred. */
import type { Flavor } from '../plan/calls.js'
import type { Earlier } from '../plan/earlier.js'
import { jobSheetNames, jobSheets } from '../plan/jobSheets.js'
import { ORDER_OUT_OF_DATE, ORDER_TOGETHER, orderOutOfDate, OrderTogether } from '../plan/orderTogether.js'
import { keptFrom } from '../plan/kept.js'
import { officeSheets } from '../plan/officeSheets.js'
import { columnLetters, type Made, type SheetPlan } from '../plan/plan.js'
import type { SheetKindName } from '../plan/sheets/index.js'
import { PUBLISHED_SHEET } from '../plan/places.js'
import { tablesSheet } from '../plan/tablesSheet.js'
import { checkedOrRaw, placesInWords } from '../takeoff/fields.js'
import { fieldsOf, tableNames } from '../takeoff/officeTables.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import { readSheet, WorkbookError, type Workbook } from './file.js'
import { isNothing, reasonsAgainst, remember, type Lost, type Source } from './fileSession.js'
import { isOurs, renewedNote } from './lostTyping.js'
import { References } from './repoint.js'
import { drawnNotes, refuseRenamed, refuseTaken, typingLost, wordsRenewed } from './standing.js'
import { logoOn } from './xlsx/logo.js'
import { newBook } from './xlsx/newBook.js'
import { putCells, type PutCell } from './xlsx/putCells.js'
import { SheetWriter } from './xlsx/writeSheet.js'
import type { Spool } from './xlsx/zip.js'

export interface JobToWrite {
  takeoff: Takeoff
  revision: number
  earlier?: Earlier
}
export interface NewFile {
  /** The whole file at once; of many jobs better piece by piece. */
  readonly bytes: Uint8Array
  pieces(): Iterable<Uint8Array>
  /** What a person should look at, in words. */
  notes: readonly string[]
  /** Why it must not be written over what stands at its place; nothing where it may. */
  reasons: readonly string[]
}
interface MakeOptions {
  /** What people typed on the sheets may be written over. */
  mayLose?: boolean
  /** What stands where the file is to be written. */
  standing?: Workbook | undefined
  /** Where sheets are laid aside until the file is written. */
  spool?: Spool | undefined
}

/** The source with the sheets of its takeoffs in it; everything else of the source stands as it stood. Jobs are taken one at a time. */
export function makeFile(source: Source, jobs: Iterable<JobToWrite>, flavor: Flavor, made: Made, { mayLose = false, standing, spool }: MakeOptions = {}): NewFile {
  const { workbook, raw, places } = source
  const book = workbook?.book ?? newBook()
  book.spool = spool
  const references =
    workbook &&
    new References(
      workbook,
      raw.Jobs.rows.map(({ cells }) => Object.values(jobSheetNames(String(cells.Job ?? '')))),
    )
  const writer = new SheetWriter(book, workbook && logoOn(book, raw.House.sheet))
  const found = { lost: [] as string[], renewed: [] as string[], drawn: [] as string[] }
  const lost: Lost = { words: [], drawn: [] }
  const orders = new OrderTogether()
  const ofJobs = new Set<string>()
  const named = new Set(
    [...raw.Jobs.rows.flatMap(({ cells }) => Object.values(jobSheetNames(String(cells.Job ?? '')))), PUBLISHED_SHEET, ORDER_TOGETHER].map((name) => name.toLowerCase()),
  )
  const put = (plans: readonly SheetPlan[]): void => {
    if (standing) {
      lost.words.push(...typingLost(standing, plans))
      lost.drawn.push(...drawnNotes(standing.book, plans))
      standing.close(plans.map(({ name }) => name))
    }
    if (workbook) {
      refuseTaken(workbook, plans)
      found.lost.push(...typingLost(workbook, plans))
      found.renewed.push(...wordsRenewed(workbook, plans))
      found.drawn.push(...drawnNotes(book, plans))
      // The tables of ours stand where they stood: formulas that point there mean what they did.
      for (const plan of plans) if (plan.kind !== 'office' && plan.kind !== 'tables') references!.note(plan)
      workbook.close(plans.map(({ name }) => name))
    }
    // What is refused in the end is told of all jobs, and nothing of it written.
    if (!found.lost.length || mayLose) writer.put(plans)
  }
  for (const { takeoff, revision, earlier } of jobs) {
    const plans = jobSheets(takeoff, places, flavor, { ...made, revision }, earlier)
    const names = jobSheetNames(takeoff.design.name)
    if (workbook && !mayLose) refuseRenamed(workbook, plans, named, (sheet, content) => !isNothing(keptFrom(names, (name) => (name === sheet ? content : undefined))))
    orders.add(
      takeoff,
      plans.find(({ kind }) => kind === 'takeoff')!,
    )
    put(plans)
    for (const { name } of plans) ofJobs.add(name)
  }
  const outOfDate: string[] = []
  const ordered = (workbook && readSheet(workbook, ORDER_TOGETHER)) ?? []
  if (orders.jobs > 1) put([orders.sheet(made)])
  else if (orders.jobs && isOurs(ordered, false)) {
    put([orderOutOfDate(orders.names[0]!, made, ordered)])
    outOfDate.push(ORDER_OUT_OF_DATE)
  }
  const tables = officeSheets(raw, made).filter(({ name }) => !workbook || source.absent.some((table) => table === name))
  put([...tables, tablesSheet(made)])
  if (found.lost.length && !mayLose)
    throw new WorkbookError(
      `${book.file}: what was typed on sheets that are made again would be lost: ${placesInWords(found.lost)}. Move them to a sheet of your own or add --replace, then try again. Nothing was written.`,
    )
  const notes = workbook
    ? [...renewedNote(found.renewed), ...found.drawn, ...references!.follow(), ...withoutJob(workbook, source), ...outOfDate, ...writeNumbers(workbook, source)]
    : []
  references?.forgetResults(new Set([...tableNames.map((table) => raw[table].sheet), PUBLISHED_SHEET, ORDER_TOGETHER].map((name) => name.toLowerCase())))
  writer.finish()
  remember(book, source, tables, ofJobs)
  return {
    get bytes() {
      return book.bytes()
    },
    pieces: () => book.pieces(),
    notes,
    reasons: standing ? reasonsAgainst(standing, source, book, lost) : [],
  }
}

/** Papers alone, to be handed out: their values, and nothing behind them. */
export function papersAlone(jobs: Iterable<JobToWrite>, kinds: readonly SheetKindName[], source: Source, made: Made, mayLose = false): Uint8Array {
  const { places, workbook, raw } = source
  const book = newBook()
  const writer = new SheetWriter(book, workbook && logoOn(workbook.book, raw.House.sheet))
  const valuesAlone = (plan: SheetPlan): SheetPlan => ({ ...plan, cells: plan.cells.map(({ formula: _, ...cell }) => cell) })
  const orders = new OrderTogether()
  for (const { takeoff, revision, earlier } of jobs) {
    const names = kinds.map((kind) => jobSheetNames(takeoff.design.name)[kind])
    const all = jobSheets(takeoff, places, 'native', { ...made, revision }, earlier)
    const plans = all.filter(({ name }) => names.includes(name))
    if (plans.length < kinds.length)
      throw new WorkbookError(`${takeoff.design.name}: there is no change order, for nothing was changed since it was first made. Nothing was written.`)
    const lost = workbook && !mayLose ? typingLost(workbook, all).filter((place) => names.some((name) => place.startsWith(`${name}!`))) : []
    if (lost.length)
      throw new WorkbookError(
        `${workbook!.book.file}: what was typed on the sheets is on no paper alone: ${placesInWords(lost)}. Move them into an entry, or add --replace to go without them. Nothing was written.`,
      )
    writer.put(plans.map(valuesAlone))
    if (kinds.includes('order'))
      orders.add(
        takeoff,
        all.find(({ kind }) => kind === 'takeoff')!,
      )
  }
  // Goods of several jobs are ordered at once.
  if (orders.jobs > 1) writer.put([valuesAlone(orders.sheet(made))])
  writer.finish()
  return book.bytes()
}

/** Takeoffs of jobs that are no more, or have another name now: what people typed there belongs to nobody. */
function withoutJob(workbook: Workbook, { raw }: Source): string[] {
  const jobs = new Set(raw.Jobs.rows.map(({ cells }) => jobSheetNames(String(cells.Job ?? '').trim()).takeoff.toLowerCase()))
  const start = jobSheetNames('').takeoff.toLowerCase()
  return workbook.book.sheets.flatMap(({ name }) => {
    if (!name.toLowerCase().startsWith(start) || jobs.has(name.toLowerCase())) return []
    return isOurs(readSheet(workbook, name)!, false) ? [`${name}: no job has this name any more; what was typed on its sheets goes with none`] : []
  })
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
