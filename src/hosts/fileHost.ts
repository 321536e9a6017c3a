/** A workbook as a file: its sheets are written in memory, part by part, and taken out when all of them are; every other part passes through as it is. */
import { dateText, serialOfDay } from '../days.js'
import { jobSheetNames } from '../plan/jobSheets.js'
import { keptFrom } from '../plan/kept.js'
import { ORDER_TOGETHER } from '../plan/togetherSheet.js'
import { PUBLISHED_SHEET, standardPlaces } from '../plan/places.js'
import { columnLetters, type SheetPlan } from '../plan/plan.js'
import { placesInWords } from '../takeoff/fields.js'
import { formerNameOf } from '../takeoff/office.js'
import { tableNames, type TableName } from '../takeoff/officeTables.js'
import { isNothing } from '../takeoff/typed.js'
import { addTableRow, lastRow } from './addTableRow.js'
import { findOffice, mustBeWorked, readSheet, Workbook, WorkbookError, type FoundOffice } from './file.js'
import { reasonsAgainst, remember, type Lost, type Source } from './fileSession.js'
import { isOurs } from './lostTyping.js'
import { inTheWay, type Host, type SheetCell, type SheetContent, type Snapshot, type Writing } from './host.js'
import { References } from './repoint.js'
import { drawnNotes, laidOverNotes, refuseRenamed, refuseTaken, tablesOn, typingLost } from './standing.js'
import { Book } from './xlsx/book.js'
import { dayZero } from './xlsx/cells.js'
import { logoOn } from './xlsx/logo.js'
import { newBook } from './xlsx/newBook.js'
import { putCells, type PutCell } from './xlsx/putCells.js'
import { stretchTable } from './xlsx/stretchTable.js'
import { writeNumbers } from './writeNumbers.js'
import { SheetWriter } from './xlsx/writeSheet.js'
import type { Spool } from './xlsx/zip.js'

interface FileOptions {
  /** What stands where the file is to be written. */
  standing?: Workbook | undefined
  /** Where sheets are laid aside until the file is written. */
  spool?: Spool | undefined
  /** Sheets of a job under another name may be left behind. */
  mayLose?: boolean
}
const isOfOffice = ({ kind }: SheetPlan): boolean => kind === 'office' || kind === 'tables'
const namesOf = (plans: readonly SheetPlan[]): string[] => plans.map(({ name }) => name)

export class FileHost implements Host {
  readonly isLive = false
  readonly name: string
  protected workbook: Workbook
  private found: ReturnType<typeof findOffice> | undefined
  /** As it was before anything was written, for what fails in between. */
  private readonly before: Uint8Array | undefined
  private readonly standing: Workbook | undefined
  private readonly spool: Spool | undefined
  private readonly mayLose: boolean
  private readonly lostThere: Lost = { words: [], drawn: [] }
  /** Sheets there of a job that has another name now, in small letters: what was typed on them came along. */
  private readonly cameAlong = new Set<string>()
  /** Tables that somebody made of lines of ours: formulas that name them would find nothing. */
  readonly lostTables: string[] = []
  private lastRead: readonly string[] = []

  constructor(source: Pick<Source, 'name' | 'workbook' | 'bytes'> & Partial<FoundOffice>, { standing, spool, mayLose = false }: FileOptions = {}) {
    this.name = source.name
    this.workbook = source.workbook
    this.before = source.bytes
    const { raw, places, absent } = source
    if (raw && places && absent) this.found = { raw, places, absent }
    this.standing = standing
    this.spool = spool
    this.mayLose = mayLose
  }

  protected get office(): FoundOffice {
    this.found ??= findOffice(this.workbook)
    if ('missing' in this.found) throw new WorkbookError(`${this.name}: no table ${this.found.missing.join(', ')}.`)
    return this.found
  }

  async read(sheets: readonly string[]): Promise<Snapshot> {
    this.found ??= findOffice(this.workbook)
    const { found } = this
    return {
      ...('missing' in found ? { office: undefined, missing: found.missing, places: standardPlaces() } : { office: found.raw, missing: [], places: found.places }),
      absent: found.absent,
      sheets: await this.readSheets(sheets),
      sheetNames: new Map(this.workbook.book.sheets.map(({ name }) => [name.toLowerCase(), name])),
    }
  }

  readSheets(sheets: readonly string[]): Promise<ReadonlyMap<string, SheetContent>> {
    // Of jobs that are not written nothing is held.
    for (const workbook of [this.workbook, this.standing]) workbook?.close(this.lastRead)
    this.lastRead = sheets
    return Promise.resolve(contentOf(this.workbook, sheets))
  }
  readReplaced(sheets: readonly string[]): Promise<ReadonlyMap<string, SheetContent>> {
    return Promise.resolve(this.standing ? contentOf(this.standing, sheets) : new Map())
  }

  /** A job at a time: so a thousand take little more memory than two hundred. */
  holds(plans: readonly SheetPlan[]): boolean {
    return plans.filter(({ kind }) => kind === 'takeoff').length <= 1
  }

  async write(plans: readonly SheetPlan[]): Promise<readonly string[]> {
    const { write, end } = await this.writing()
    await write(plans)
    const notes = await end()
    this.rememberTables()
    return notes
  }

  writing(): Promise<Writing> {
    const { workbook, spool } = this
    const { book } = workbook
    const found = this.found && !('missing' in this.found) ? this.found : undefined
    book.spool = spool
    const jobs = found?.raw.Jobs.rows.map(({ cells }) => Object.values(jobSheetNames(String(cells.Job ?? '')))) ?? []
    const named = new Set([...jobs.flat(), PUBLISHED_SHEET, ORDER_TOGETHER].map((name) => name.toLowerCase()))
    const references = new References(workbook, jobs)
    const writer = new SheetWriter(book, found && logoOn(book, found.raw.House.sheet))
    const drawn: string[] = []
    const ofJobs = new Set<string>()
    // The tables stand behind the takeoffs.
    const last: SheetPlan[] = []
    const put = (plans: readonly SheetPlan[]): void => {
      this.loseThere(plans)
      refuseTaken(workbook, plans)
      this.lostTables.push(...plans.flatMap((plan) => tablesOn(book, plan)))
      drawn.push(...laidOverNotes(book, plans), ...(this.standing ? laidOverNotes(this.standing.book, plans, { sheetProtection: 'the protection' }) : []))
      drawn.push(...drawnNotes(book, plans))
      // The tables of ours stand where they stood: formulas that point there mean what they did.
      for (const plan of plans) if (!isOfOffice(plan)) references.note(plan)
      workbook.close(namesOf(plans))
      writer.put(plans)
    }
    return Promise.resolve({
      write: this.allOrNothing((plans) => {
        const mine = plans.filter((plan) => !isOfOffice(plan))
        if (!this.mayLose) refuseRenamed(workbook, mine, named, isTyped)
        put(mine)
        for (const { name } of mine) ofJobs.add(name)
        last.push(...plans.filter(isOfOffice))
      }),
      end: () => {
        put([...last.filter(({ kind }) => kind === 'office'), ...last.filter(({ kind }) => kind === 'tables')])
        const notes = [...drawn, ...references.follow(), ...(found ? writeNumbers(workbook, found) : [])].map((words) => `${words}.`)
        references.forgetResults(new Set([...(found ? tableNames.map((table) => found.raw[table].sheet) : []), PUBLISHED_SHEET, ORDER_TOGETHER].map((name) => name.toLowerCase())))
        writer.finish()
        const written = last.filter(({ kind }) => kind === 'office')
        if (found) remember(book, { name: this.name, raw: found.raw, workbook }, written, ofJobs)
        return Promise.resolve(notes)
      },
    })
  }

  /** What a failure leaves is the workbook as it was. */
  private allOrNothing(write: (plans: readonly SheetPlan[]) => void): Writing['write'] {
    return (plans) => {
      try {
        write(plans)
        return Promise.resolve()
      } catch (error) {
        this.workbook = new Workbook(this.before ? new Book(this.before, this.name) : newBook())
        return Promise.reject(error as Error)
      }
    }
  }

  /** Tables that were written by themselves hold something else now. */
  private rememberTables(): void {
    const { book } = this.workbook
    this.found = findOffice(new Workbook(book))
    if (!('missing' in this.found)) remember(book, { name: this.name, raw: this.found.raw })
  }

  /** What stands where the file will be, and is not in it then. */
  private loseThere(made: readonly SheetPlan[]): void {
    if (!this.standing) return
    const { book } = this.standing
    const formers = this.formerSheets(book)
    const plans = made.map((plan) => {
      const former = book.sheetNamed(formers.get(plan.name) ?? '')
      if (former) this.cameAlong.add(former.name.toLowerCase())
      return former ? { ...plan, name: former.name } : plan
    })
    const strange = plans.filter((plan) => !isOfOffice(plan)).filter(({ name }) => !isOurs(readSheet(this.standing!, name) ?? [], true))
    // Nobody can tell what is typed on a sheet that does not say how it was made.
    this.lostThere.words.push(...strange.map(({ name }) => `${name} (its third line, when it was made, is another now)`), ...typingLost(this.standing, plans))
    this.lostThere.drawn.push(...drawnNotes(book, plans))
    this.standing.close(namesOf(plans))
  }

  /** Names of sheets of jobs, by those that they get now; of a job whose sheets stand there under its new name none. */
  private formerSheets(book: Book): ReadonlyMap<string, string> {
    const jobs = this.found && !('missing' in this.found) ? this.found.raw.Jobs.rows : []
    return new Map(
      jobs.flatMap((row) => {
        const former = formerNameOf(row)
        if (former === undefined) return []
        const [now, before] = [jobSheetNames(String(row.cells.Job ?? '').trim()), jobSheetNames(former)]
        if (Object.values(now).some((name) => book.sheetNamed(name))) return []
        return (Object.keys(now) as (keyof typeof now)[]).map((kind) => [now[kind], before[kind]] as const)
      }),
    )
  }

  /** Why what was typed at these places keeps the file from being made; nothing where it does not. */
  refusal(places: readonly string[]): string | undefined {
    return places.length
      ? `${this.name}: what was typed on sheets that are made again would be lost: ${placesInWords(places)}. Move them to a sheet of your own or add --replace, then try again.`
      : undefined
  }
  /** Why it must not be written over what stands at its place; nothing where it may. */
  reasons(): readonly string[] {
    return this.standing ? reasonsAgainst(this.standing, { name: this.name, ...this.office }, this.workbook.book, this.lostThere, this.cameAlong) : []
  }
  /** The whole file at once; of many jobs better piece by piece. */
  get bytes(): Uint8Array {
    return this.workbook.book.bytes()
  }
  pieces(): Iterable<Uint8Array> {
    return this.workbook.book.pieces()
  }

  addRow(table: TableName, cells: Readonly<Record<string, string | number>>): Promise<number> {
    const source = { ...this.office, workbook: this.workbook }
    const row = lastRow(source, table) + 1
    addTableRow(source, table, cells)
    this.rememberTables()
    return Promise.resolve(row)
  }

  putRows(table: TableName, columns: readonly string[], rows: readonly (readonly SheetCell['value'][])[]): Promise<void> {
    const { raw, places } = this.office
    const { book, cells } = this.workbook
    const sheet = book.sheetNamed(raw[table].sheet)!
    const { firstRow, columnOf } = places[table]
    const first = columnOf(raw[table].columns.find(Boolean)!)! - raw[table].columns.findIndex(Boolean)
    const width = Math.max(columns.length, raw[table].columns.length)
    const standing = cells.rows(sheet)
    const taken: string[] = []
    const old: PutCell[] = []
    for (const [row, line] of standing)
      for (const [column, { formula, value }] of line) {
        if (row < firstRow - 1 || column < first || column >= first + width) continue
        const isInside = column < first + raw[table].columns.length
        if (isInside ? row >= firstRow && formula !== undefined : value !== null && value !== '') taken.push(`${columnLetters(column)}${row}`)
        else if (row >= firstRow) old.push({ row, column, value: null })
      }
    if (taken.length) return Promise.reject(inTheWay(sheet.name, taken))
    const headings = columns.map((value, at): PutCell => ({ row: firstRow - 1, column: first + at, value }))
    const start = dayZero(book)
    const valueOf = (value: SheetCell['value'], name: string): PutCell['value'] => {
      const day = name === 'Date' && value !== null ? dateText(value) : undefined
      return day === undefined ? value : serialOfDay(day, start)
    }
    const filled = rows.flatMap((line, at) => line.map((value, across): PutCell => ({ row: firstRow + at, column: first + across, value: valueOf(value, columns[across] ?? '') })))
    const there = new Set(filled.map(({ row, column }) => `${row} ${column}`))
    book.put(sheet.part, putCells(book.text(sheet.part), [...headings, ...old.filter(({ row, column }) => !there.has(`${row} ${column}`)), ...filled]))
    stretchTable(book, sheet.name, table, { columns, first, row: firstRow + rows.length - 1 })
    this.rememberTables()
    return Promise.resolve()
  }
}

/** Whether a sheet that stands under another name holds something that the plan's sheet would have kept. */
const isTyped = ({ kind, name }: SheetPlan, content: SheetContent): boolean =>
  !isNothing(keptFrom({ ...jobSheetNames(''), [kind]: name }, (sheet) => (sheet === name ? content : undefined)))

const contentOf = (workbook: Workbook, sheets: readonly string[]): Map<string, SheetContent> =>
  new Map(
    sheets.flatMap((name) => {
      mustBeWorked(workbook, name)
      const content = readSheet(workbook, name)
      return content ? [[name, content] as const] : []
    }),
  )
