/**
 * The Excel host. One read, and writing in steps: a look at what stands there; part by part copies of the sheets to be rewritten and
 * the new content; and once for all parts the copies away, how the sheets are printed, and what is drawn. If a part fails, its copies
 * bring the old content back and new sheets go.
 */
import { standardPlaces, withYourHeadings, type OfficePlaces } from '../plan/places.js'
import { address, type SheetPlan } from '../plan/plan.js'
import { placesInWords } from '../takeoff/fields.js'
import { yourHeadings } from '../takeoff/headings.js'
import { withOptional } from '../takeoff/office.js'
import { requiredTables, tableNames, wantedTables, type TableName } from '../takeoff/officeTables.js'
import { namesToSet, setNames, type NameToSet } from './excel/names.js'
import { drawnOf, drawOn, type Drawn } from './excel/pictures.js'
import { MOST_REQUEST_BYTES, requestBytes } from './excel/requestBytes.js'
import { excelContent, pageOf, setPage, writeSheet, type Page } from './excel/sheet.js'
import { asPlace, askSheets, askTable, asTable, contentOf, mustTake, rowsOf } from './excel/tables.js'
import { holdsSomething, HostError, inTheWay, type ShownHost, type Place, type SheetCell, type SheetContent, type Snapshot, type Writing } from './host.js'

type Run = <T>(work: (context: Excel.RequestContext) => Promise<T>) => Promise<T>
const BACKUP = 'cistern backup '
/** A call of ours, as it is written, and as Excel shows one whose functions it does not know. */
const OUR_CALL = /CISTERN[._][A-Z]/
const STORED_CALL = /_xldudf_CISTERN_/g

/** What stood in the workbook when it was looked at. */
interface Standing {
  sheets: Map<string, { visibility: Excel.Worksheet['visibility']; isProtected: boolean }>
  /** Names of the workbook with their formulas. */
  names: Map<string, string>
  isManual: boolean
}
/** A sheet that is written, and not yet set up for printing or drawn on. */
interface Written {
  name: string
  page: Page
  drawn: Drawn | undefined
}

/** Excel's own refusals in words that say what to do. */
function inWords(error: unknown): unknown {
  const code = (error as { code?: string }).code
  const words: Record<string, string> = {
    AccessDenied: 'Excel refused: the sheet or the workbook is protected or open read-only. Remove the protection, or save a copy and try there. Nothing was changed.',
    InvalidOperationInCellEditMode: 'A cell is being edited: press Enter or Esc, then try again. Nothing was changed.',
    RequestAborted: 'Excel broke off. The workbook is as it was; try again.',
    ItemNotFound: 'A sheet that was there is gone or renamed: look at the job again. Nothing was changed.',
    RequestPayloadSizeLimitExceeded: 'That is more than Excel on the web takes in one go: make fewer jobs at once. Nothing was changed.',
    ResponsePayloadSizeLimitExceeded:
      'The sheets hold more than Excel on the web hands over in one go: open the workbook in Excel on a desktop, or use the command line. Nothing was changed.',
    ItemAlreadyExists: 'A sheet or table of that name exists already. Nothing was changed.',
  }
  if (code && words[code]) return new HostError(words[code])
  return error instanceof Error ? error : new HostError(String((error as { message?: string } | undefined)?.message ?? error))
}

export class ExcelHost implements ShownHost {
  readonly name = 'Excel'
  private places: OfficePlaces = standardPlaces()
  /** Copies that could not be taken away when they were done with. */
  private leftOver: string[] = []
  /** Copies of what the last part replaced. */
  private copies: string[] = []
  /** The sheet House has a picture. */
  private hasLogo = false
  /** Bytes of a request that a sheet takes: a part is asked for them as often as it grows. */
  private readonly reckoned = new WeakMap<SheetPlan, number>()

  /** What this Excel can do; `has` asks the program for a set of its interface. */
  constructor(
    private readonly run: Run = (work) => Excel.run(work),
    private readonly has: (set: string, version: string) => boolean = () => true,
    /** Called when sheets with calls are written: their functions are to be there when the workbook opens again. */
    private readonly callsWritten: () => void = () => undefined,
  ) {}

  readonly isLive = true

  get takesCalls(): boolean {
    return this.has('CustomFunctionsRuntime', '1.1')
  }
  get flavor(): 'native' | 'cells' {
    return this.takesCalls ? 'cells' : 'native'
  }

  private async guarded<T>(work: (context: Excel.RequestContext) => Promise<T>): Promise<T> {
    try {
      return await this.run(work)
    } catch (error) {
      throw inWords(error)
    }
  }

  read(sheets: readonly string[]): Promise<Snapshot> {
    return this.guarded(async (context) => {
      const { workbook } = context
      const tables = tableNames.map((name) => askTable(workbook, name, 'values'))
      const { worksheets } = workbook
      worksheets.load('items/name')
      const house = worksheets.getItemOrNullObject(this.places.House.sheet)
      const { shapes } = house
      const mayHaveLogo = this.has('ExcelApi', '1.10')
      house.load('name')
      if (mayHaveLogo) shapes.load('items/type')
      const wanted = askSheets(worksheets, sheets)
      await context.sync()
      const found = tables.filter(({ table }) => !table.isNullObject)
      this.hasLogo = mayHaveLogo && !house.isNullObject && shapes.items.some(({ type }) => type === 'Image')
      const raw = found.map((asked) => [asked.name, asTable(asked)] as const)
      const gone = tables.filter(({ table }) => table.isNullObject).map(({ name }) => name)
      const missing = gone.filter((name) => requiredTables.includes(name))
      const office = missing.length ? undefined : withOptional(Object.fromEntries(raw))
      const places: OfficePlaces = { ...standardPlaces(), ...Object.fromEntries(found.map((asked) => [asked.name, asPlace(asked)])) }
      this.places = office ? withYourHeadings(places, yourHeadings(office)) : places
      return {
        office,
        missing,
        absent: gone.filter((name) => wantedTables.includes(name)),
        places: this.places,
        sheets: contentOf(wanted),
        sheetNames: new Map(worksheets.items.map(({ name }) => [name.toLowerCase(), name])),
      }
    })
  }

  holds(plans: readonly SheetPlan[]): boolean {
    return plans.reduce((sum, plan) => sum + this.bytesOf(plan), 0) < MOST_REQUEST_BYTES
  }
  private readonly bytesOf = (plan: SheetPlan): number => {
    const known = this.reckoned.get(plan) ?? requestBytes<Excel.Worksheet>((sheet) => writeSheet(sheet, plan, true))
    this.reckoned.set(plan, known)
    return known
  }

  readSheets(sheets: readonly string[]): Promise<ReadonlyMap<string, SheetContent>> {
    return this.guarded(async (context) => {
      const wanted = askSheets(context.workbook.worksheets, sheets)
      await context.sync()
      return contentOf(wanted)
    })
  }

  async write(plans: readonly SheetPlan[]): Promise<readonly string[]> {
    const writing = await this.writing()
    await writing.write(plans)
    return writing.end()
  }

  async writing(): Promise<Writing> {
    const standing = await this.look()
    const written: Written[] = []
    return {
      write: async (all) => {
        const plans = all.filter(({ toScale }) => !toScale)
        await this.writePart(plans, standing)
        if (plans.some(({ cells }) => cells.some(({ formula }) => formula?.includes('CISTERN.')))) this.callsWritten()
        written.push(...all.map((plan) => ({ name: plan.name, page: pageOf(plan), drawn: drawnOf(plan) })))
      },
      end: () => this.end(written, standing),
    }
  }

  private look(): Promise<Standing> {
    return this.guarded(async (context) => {
      const { worksheets, names } = context.workbook
      worksheets.load('items/name,items/visibility,items/protection/protected')
      names.load('items/name,items/formula')
      context.application.load('calculationMode')
      await context.sync()
      this.refuseLeftCopies(worksheets.items.map(({ name }) => name))
      return {
        sheets: new Map(worksheets.items.map(({ name, visibility, protection }) => [name.toLowerCase(), { visibility, isProtected: protection.protected }])),
        names: new Map(names.items.map(({ name, formula }) => [name, String(formula)])),
        isManual: context.application.calculationMode === 'Manual',
      }
    })
  }

  /** Cells whose functions were not there when the workbook opened stay at #NAME? until their formula is entered again; sheet by sheet, for an answer of Excel holds 5 MB. */
  wake(): Promise<number> {
    return this.guarded(async (context) => {
      const { worksheets } = context.workbook
      worksheets.load('items/name')
      await context.sync()
      let woken = 0
      for (const sheet of worksheets.items) {
        const used = sheet.getUsedRangeOrNullObject()
        used.load('values,formulas')
        sheet.protection.load('protected')
        await context.sync()
        if (used.isNullObject || sheet.protection.protected) continue
        used.formulas.forEach((row, y) =>
          row.forEach((formula: unknown, x: number) => {
            if (used.values[y]![x] !== '#NAME?' || !OUR_CALL.test(String(formula))) return
            used.getCell(y, x).formulas = [[String(formula).replace(STORED_CALL, 'CISTERN.')]]
            woken++
          }),
        )
      }
      await context.sync()
      return woken
    })
  }

  private writePart(plans: readonly SheetPlan[], standing: Standing): Promise<void> {
    return this.guarded(async (context) => {
      const { worksheets } = context.workbook
      const stands = ({ name }: SheetPlan) => standing.sheets.get(name.toLowerCase())
      const locked = plans.find((plan) => stands(plan)?.isProtected)
      if (locked) throw new HostError(`The sheet ${locked.name} is protected: remove the protection, then try again. Nothing was changed.`)
      const seen = new Map(plans.flatMap((plan) => (stands(plan) ? [[plan.name, stands(plan)!.visibility] as const] : [])))
      const names = namesToSet(plans, standing.names)
      const backups = new Map<string, string>()
      // A name of this run alone: a copy left over from another run must never be taken for one of ours.
      const stamp = Date.now().toString(36)
      const earlier = this.copies
      try {
        context.application.suspendApiCalculationUntilNextSync()
        // What the part before this one replaced is done with.
        for (const name of earlier) worksheets.getItem(name).delete()
        for (const [at, name] of [...seen.keys()].entries()) {
          const sheet = worksheets.getItem(name)
          // Made under its own name: a copy that is renamed later could be left behind by a batch that breaks off between.
          const copy = `${BACKUP}${stamp} ${at + 1}`
          const backup = worksheets.add(copy)
          backup.visibility = 'Hidden'
          backup.getRange().copyFrom(sheet.getRange())
          backups.set(name, copy)
          sheet.visibility = 'Visible'
          sheet.getRange().clear()
        }
        for (const plan of plans) writeSheet(seen.has(plan.name) ? worksheets.getItem(plan.name) : worksheets.add(plan.name), plan, this.has('ExcelApi', '1.10'))
        setNames(context, names, 'next')
        await context.sync()
      } catch (error) {
        // Whether they are gone, nobody knows now.
        this.leftOver.push(...earlier)
        this.copies = []
        await this.restore(
          plans.map(({ name }) => name),
          seen,
          backups,
          names,
        ).catch(() => {
          throw new HostError(
            `Excel broke off while writing, and again while putting the sheets back. What stood on ${[...backups.keys()].join(', ')} is on the hidden sheets "${BACKUP}${stamp} …": unhide them and copy it back before you go on.`,
          )
        })
        throw error
      }
      this.copies = [...backups.values()]
      for (const { name } of plans) standing.sheets.set(name.toLowerCase(), { visibility: 'Visible', isProtected: false })
    })
  }

  /** After a making that broke off twice the old content stands on hidden sheets, in whatever pane that was: nothing is written before a person has looked at them. */
  private refuseLeftCopies(sheets: readonly string[]): void {
    const copies = sheets.filter((name) => name.startsWith(BACKUP) && !this.leftOver.includes(name) && !this.copies.includes(name))
    if (copies.length)
      throw new HostError(
        `Copies of a making that broke off stand hidden: ${copies.join(', ')}. Unhide them, copy back what is missing, delete them, then try again. Nothing was changed.`,
      )
  }

  /** The sheets are written by now: what is refused here costs no content. */
  private async end(written: readonly Written[], { isManual }: Standing): Promise<readonly string[]> {
    if (!written.length) return []
    const isPrinted = await this.finish(
      written.filter(({ drawn }) => !drawn?.scaled),
      isManual,
    )
    return [
      ...(isManual ? ['This workbook calculates by hand (Formulas, Calculation Options): press F9 after a change.'] : []),
      ...(isPrinted ? [] : ['Excel did not take the page set-up of the sheets: look at it before you print.']),
      ...(await this.draw(written.flatMap(({ drawn }) => drawn ?? []))),
    ]
  }

  private async draw(drawn: readonly Drawn[]): Promise<readonly string[]> {
    const takesFiles = this.has('ExcelApi', '1.13')
    const pictured = drawn.filter(({ drawings, scaled }) => drawings.length || scaled)
    const lacking = pictured.length ? [`What is drawn (${placesInWords(pictured.map(({ name }) => name))}) could not be put into this Excel: the command line makes it.`] : []
    if (!takesFiles && !this.hasLogo) return lacking
    const logoSheet = this.hasLogo ? this.places.House.sheet : undefined
    let isLogoLost = false
    const undrawn = await this.run((context) => drawOn(context, drawn, takesFiles, logoSheet)).catch(() => {
      isLogoLost = this.hasLogo
      return lacking
    })
    return [...(takesFiles ? undrawn : lacking), ...(isLogoLost ? ['The logo could not be put on the papers.'] : [])]
  }

  /** Copies that cannot be deleted are left for the next time. */
  private async finish(written: readonly Written[], isManual: boolean): Promise<boolean> {
    const names = [...this.leftOver, ...this.copies]
    try {
      await this.run(async (context) => {
        const { worksheets } = context.workbook
        // Written by code, cells of a workbook that calculates by hand would show what they showed before.
        if (isManual) context.application.calculate('Recalculate')
        const earlier = this.leftOver.map((name) => worksheets.getItemOrNullObject(name))
        earlier.forEach((sheet) => sheet.load('name'))
        if (earlier.length) await context.sync()
        for (const sheet of earlier) if (!sheet.isNullObject) sheet.delete()
        for (const name of this.copies) worksheets.getItem(name).delete()
        // Behind the copies: a batch that breaks off at a page has taken those away.
        let bytes = 0
        for (const { name, page } of written) {
          const more = requestBytes<Excel.Worksheet>((sheet) => setPage(sheet, page))
          if (bytes && bytes + more > MOST_REQUEST_BYTES) {
            await context.sync()
            bytes = 0
          }
          bytes += more
          setPage(worksheets.getItem(name), page)
        }
        await context.sync()
      })
      this.leftOver = []
      return true
    } catch {
      this.leftOver = names
      return false
    } finally {
      this.copies = []
    }
  }

  /** Brings the copies back and takes away what was new. A batch that failed half-way may have left either. */
  private async restore(
    names: readonly string[],
    existed: ReadonlyMap<string, Excel.Worksheet['visibility']>,
    backups: ReadonlyMap<string, string>,
    definedNames: readonly NameToSet[],
  ): Promise<void> {
    await this.run(async (context) => {
      const { worksheets } = context.workbook
      const found = names.map((name) => {
        const sheet = worksheets.getItemOrNullObject(name)
        const backup = worksheets.getItemOrNullObject(backups.get(name) ?? `${BACKUP}0`)
        const content = backup.getUsedRangeOrNullObject()
        sheet.load('name')
        backup.load('name')
        content.load('address')
        return { name, sheet, backup, content }
      })
      const standing = context.workbook.names
      standing.load('items/name,items/formula')
      await context.sync()
      const now = new Map(standing.items.map(({ name, formula }) => [name.toLowerCase(), String(formula)]))
      setNames(
        context,
        definedNames.map((one) => ({ ...one, next: now.get(one.name.toLowerCase()) })),
        'before',
      )
      for (const { name, sheet, backup, content } of found) {
        if (!existed.has(name)) {
          if (!sheet.isNullObject) sheet.delete()
          continue
        }
        // An empty copy means that the batch broke off before it was filled, and so before the sheet was cleared.
        if (!backup.isNullObject && !content.isNullObject) {
          sheet.getRange().clear()
          sheet.getRange().copyFrom(backup.getRange())
        }
        if (!sheet.isNullObject) sheet.visibility = existed.get(name)!
        if (!backup.isNullObject) backup.delete()
      }
      await context.sync()
    })
  }

  addRow(name: TableName, cells: Readonly<Record<string, string | number>>): Promise<number> {
    return this.guarded(async (context) => {
      const asked = askTable(context.workbook, name, 'formulas')
      const { table, range } = asked
      await context.sync()
      mustTake(asked)
      const { columns, rows } = rowsOf(asked, 'formulas')
      const content = (column: string) => (Object.hasOwn(cells, column) ? excelContent({ value: cells[column]! }) : null)
      const empty = rows.findIndex((row) => row.every((cell) => cell === ''))
      // Cells that nobody names keep what a column of the table works out.
      if (empty < 0) table.rows.add(undefined, [columns.map(content) as (string | number | boolean)[]])
      else
        columns.forEach((column, at) => {
          if (Object.hasOwn(cells, column)) range.getCell(empty + 1, at).formulas = [[content(column)]]
        })
      await context.sync()
      return range.rowIndex + 2 + (empty < 0 ? rows.length : empty)
    })
  }

  putRows(name: TableName, columns: readonly string[], rows: readonly (readonly SheetCell['value'][])[]): Promise<void> {
    if (!this.has('ExcelApi', '1.13')) throw new HostError('This Excel cannot make a table longer: the command line adds the days. Nothing was changed.')
    return this.guarded(async (context) => {
      const asked = askTable(context.workbook, name, 'formulas')
      const { table, range: old } = asked
      const used = table.worksheet.getUsedRange()
      used.load('formulas,rowIndex,columnIndex')
      await context.sync()
      mustTake(asked)
      if (table.showTotals) throw new HostError(`The table ${name} has a row of totals: take it away (Table Design), then try again. Nothing was changed.`)
      const sheet = table.worksheet
      const [top, left] = [old.rowIndex, old.columnIndex]
      const before = old.formulas as unknown[][]
      const width = Math.max(columns.length, before[0]!.length)
      const height = Math.max(rows.length + 1, before.length)
      const taken: string[] = []
      ;(used.formulas as unknown[][]).forEach((line, y) =>
        line.forEach((content, x) => {
          const [row, column] = [used.rowIndex + y - top, used.columnIndex + x - left]
          if (content === '' || row < 0 || row >= height || column < 0 || column >= width) return
          const isInside = row < before.length && column < before[0]!.length
          if (!isInside || (row > 0 && String(content).startsWith('='))) taken.push(address(top + row + 1, left + column + 1, false))
        }),
      )
      if (taken.length) throw inTheWay(sheet.name, taken)
      const place = (lines: number, across: number) => sheet.getRange(`${address(top + 1, left + 1)}:${address(top + lines, left + across)}`)
      const block = (content: readonly (readonly unknown[])[]) => Array.from({ length: height }, (_, y) => Array.from({ length: width }, (_unused, x) => content[y]?.[x] ?? ''))
      try {
        context.application.suspendApiCalculationUntilNextSync()
        place(height, width).formulas = block([columns, ...rows])
        const dates = columns.indexOf('Date')
        if (dates >= 0) sheet.getRange(`${address(top + 2, left + dates + 1)}:${address(top + rows.length + 1, left + dates + 1)}`).numberFormat = rows.map(() => ['yyyy-mm-dd'])
        table.resize(place(rows.length + 1, width))
        await context.sync()
      } catch (error) {
        await this.run(async (again) => {
          const target = again.workbook.worksheets.getItem(sheet.name).getRange(`${address(top + 1, left + 1)}:${address(top + height, left + width)}`)
          target.formulas = block(before)
          again.workbook.tables
            .getItemOrNullObject(name)
            .resize(again.workbook.worksheets.getItem(sheet.name).getRange(`${address(top + 1, left + 1)}:${address(top + before.length, left + before[0]!.length)}`))
          await again.sync()
        })
        throw error
      }
    })
  }

  select({ sheet, row, column }: Place): Promise<void> {
    return this.guarded(async (context) => {
      const worksheet = context.workbook.worksheets.getItem(sheet)
      const place = Object.values(this.places).find((known) => known.sheet === sheet)
      const cell = worksheet.getRange(address(Math.max(1, row), place?.columnOf(column) ?? 1, false))
      const { protection } = worksheet
      protection.load('protected')
      await context.sync()
      worksheet.activate()
      // A column that is folded comes into sight; a protected sheet lets nobody unfold it.
      if (place && !protection.protected) cell.columnHidden = false
      cell.select()
      await context.sync()
    })
  }

  show(sheet: string): Promise<void> {
    return this.guarded(async (context) => {
      context.workbook.worksheets.getItem(sheet).activate()
      await context.sync()
    })
  }

  insert(formula: string): Promise<string> {
    return this.guarded(async (context) => {
      const cell = context.workbook.getActiveCell()
      cell.load('address,formulas')
      await context.sync()
      if (cell.formulas[0]?.[0] !== '') throw new HostError(holdsSomething(cell.address))
      cell.formulas = [[formula]]
      await context.sync()
      return cell.address
    })
  }

  onSelection(listener: (sheet: string, row: number) => void): void {
    const look = async () => {
      await this.run(async (context) => {
        const cell = context.workbook.getActiveCell()
        cell.load('rowIndex,worksheet/name')
        await context.sync()
        listener(cell.worksheet.name, cell.rowIndex + 1)
      })
    }
    void this.run(async (context) => {
      context.workbook.onSelectionChanged.add(look)
      await context.sync()
    })
  }

  onChange(listener: () => void): void {
    void this.run(async (context) => {
      context.workbook.worksheets.onChanged.add(async (event) => {
        // Our own writing is no news.
        if (event.triggerSource !== 'ThisLocalAddin') listener()
      })
      await context.sync()
    })
  }
}
