/**
 * The Excel host. One read and three steps of writing: copies of the sheets to be rewritten, the new content, and
 * the copies away again. If a step fails, the copies bring the old content back and new sheets go.
 */
import { ofJob, placeOfName, pointsInto } from '../plan/definedNames.js'
import { OUR_PICTURE } from '../plan/drawing/picture.js'
import { LOGO_POINTS, logoScale, rowHeights } from '../plan/heights.js'
import { cellFormat, looks, type Look } from '../plan/looks.js'
import { standardPlaces, withYourHeadings, type OfficePlaces, type TablePlace } from '../plan/places.js'
import { address, columnLetters, footOf, isMadeLine, TITLE_ROWS, type PlanCell, type SheetPlan } from '../plan/plan.js'
import { yourHeadings } from '../takeoff/headings.js'
import { withOptional, type RawTable } from '../takeoff/office.js'
import { requiredTables, tableNames, wantedTables, type TableName } from '../takeoff/officeTables.js'
import { HostError, inTheWay, type Host, type Place, type SheetCell, type SheetContent, type Snapshot } from './host.js'

type Run = <T>(work: (context: Excel.RequestContext) => Promise<T>) => Promise<T>
const BACKUP = 'cistern backup '
/** Points that a unit of column width takes here. */
const POINTS_PER_WIDTH = 5.4
const LOGO = `${OUR_PICTURE}logo`
/** A sheet that stands while pictures are copied from it. */
const PICTURES = 'cistern pictures'
const ROWS_A_PICTURE = 60
/** Excel takes addresses of areas up to 8,192 characters. */
const LONGEST_AREAS = 7000

/** Bytes as Excel takes them in a call. */
function inBase64(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000))
  return btoa(text)
}

/** Excel's own refusals in words that say what to do. */
function inWords(error: unknown): unknown {
  const code = (error as { code?: string }).code
  const words: Record<string, string> = {
    AccessDenied: 'Excel refused: the sheet or the workbook is protected or open read-only. Remove the protection, or save a copy and try there. Nothing was changed.',
    InvalidOperationInCellEditMode: 'A cell is being edited: press Enter or Esc, then try again. Nothing was changed.',
    RequestAborted: 'Excel broke off. The workbook is as it was; try again.',
    ItemNotFound: 'A sheet that was there is gone or renamed: look at the job again. Nothing was changed.',
    ItemAlreadyExists: 'A sheet or table of that name exists already. Nothing was changed.',
  }
  if (code && words[code]) return new HostError(words[code])
  return error instanceof Error ? error : new HostError(String((error as { message?: string } | undefined)?.message ?? error))
}

export class ExcelHost implements Host {
  readonly name = 'Excel'
  private places: OfficePlaces = standardPlaces()
  /** Copies that could not be taken away when they were done with. */
  private leftOver: string[] = []
  /** The sheet House has a picture. */
  private hasLogo = false
  /** A making broke off and its sheets could not be put back. */
  private isBroken = false

  /** What this Excel can do; `has` asks the program for a set of its interface. */
  constructor(
    private readonly run: Run = (work) => Excel.run(work),
    private readonly has: (set: string, version: string) => boolean = () => true,
  ) {}

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
      const tables = tableNames.map((name) => {
        const table = workbook.tables.getItemOrNullObject(name)
        const range = table.getRange()
        table.load('name')
        table.worksheet.load('name')
        range.load('values,rowIndex,columnIndex')
        return { name, table, range }
      })
      const { worksheets } = workbook
      worksheets.load('items/name')
      const house = worksheets.getItemOrNullObject(this.places.House.sheet)
      const { shapes } = house
      const mayHaveLogo = this.has('ExcelApi', '1.10')
      house.load('name')
      if (mayHaveLogo) shapes.load('items/type')
      const wanted = asked(worksheets, sheets)
      await context.sync()
      const found = tables.filter(({ table }) => !table.isNullObject)
      this.hasLogo = mayHaveLogo && !house.isNullObject && shapes.items.some(({ type }) => type === 'Image')
      const raw = found.map(({ name, table, range }) => [name, asTable(table.worksheet.name, range)] as const)
      const gone = tables.filter(({ table }) => table.isNullObject).map(({ name }) => name)
      const missing = gone.filter((name) => requiredTables.includes(name))
      const office = missing.length ? undefined : withOptional(Object.fromEntries(raw))
      const places: OfficePlaces = { ...standardPlaces(), ...Object.fromEntries(found.map(({ name, table, range }) => [name, asPlace(table.worksheet.name, range)])) }
      this.places = office ? withYourHeadings(places, yourHeadings(office)) : places
      return {
        office,
        missing,
        absent: gone.filter((name) => wantedTables.includes(name)),
        places: this.places,
        sheets: answered(wanted),
        sheetNames: new Set(worksheets.items.map(({ name }) => name.toLowerCase())),
      }
    })
  }

  readSheets(sheets: readonly string[]): Promise<ReadonlyMap<string, SheetContent>> {
    return this.guarded(async (context) => {
      const wanted = asked(context.workbook.worksheets, sheets)
      await context.sync()
      return answered(wanted)
    })
  }

  async write(all: readonly SheetPlan[]): Promise<readonly string[]> {
    await this.writeSheets(all.filter(({ toScale }) => !toScale))
    const scaled = all.filter(({ toScale }) => toScale)
    const lacking = scaled.length ? [`The drawing (${scaled.map(({ name }) => name).join(', ')}) could not be put into this Excel: the command line makes it.`] : []
    const takesFiles = this.has('ExcelApi', '1.13')
    if (!takesFiles && !this.hasLogo) return lacking
    return this.dress(all, takesFiles).catch(() => lacking)
  }

  /**
   * What is drawn: the logo above the letterhead, section, plan and chart where sheets have room for them, and the sheet that is a drawing.
   * This interface draws no such shapes, so they come from a file that is inserted, copied from and taken away. Without them the takeoff is whole.
   */
  private async dress(all: readonly SheetPlan[], takesFiles: boolean): Promise<readonly string[]> {
    const pictured = takesFiles ? all.filter(({ drawings, toScale }) => drawings && !toScale) : []
    const scaled = takesFiles ? all.filter(({ toScale }) => toScale) : []
    const headed = all.filter(({ letterhead }) => letterhead)
    if (!pictured.length && !scaled.length && !headed.length) return []
    return this.run(async (context) => {
      const { worksheets } = context.workbook
      const papers = [...new Set([...headed, ...pictured])].map((plan) => ({ plan, sheet: worksheets.getItem(plan.name) }))
      for (const { sheet } of papers) sheet.shapes.load('items/name')
      const olds = scaled.map((plan) => {
        const sheet = worksheets.getItemOrNullObject(plan.name)
        const heading = sheet.getRange('B3')
        sheet.load('name')
        heading.load('values')
        return { plan, sheet, heading }
      })
      const house = this.hasLogo ? worksheets.getItem(this.places.House.sheet).shapes : undefined
      house?.load('items/type,items/width,items/height')
      await context.sync()
      for (const { sheet } of papers) for (const shape of sheet.shapes.items) if (shape.name.startsWith(OUR_PICTURE)) shape.delete()
      const logo = house?.items.find(({ type }) => type === 'Image')
      if (logo) for (const plan of headed) putLogo(logo, worksheets.getItem(plan.name), plan)
      const strange = olds.filter(({ sheet, heading }) => !sheet.isNullObject && !isMadeLine(heading.values[0]?.[0]))
      const fresh = olds.filter((old) => !strange.includes(old))
      for (const { sheet } of fresh) if (!sheet.isNullObject) sheet.delete()
      if (takesFiles && (fresh.length || pictured.length))
        await this.insertDrawn(
          context,
          pictured,
          fresh.map(({ plan }) => plan),
        )
      else await context.sync()
      return strange.map(({ plan }) => `The sheet ${plan.name} stands here and was not made by this tool: the drawing is left out.`)
    })
  }

  /** Sheets that are drawings come from a file as they are; pictures for other sheets stand on one more of its sheets while they are copied. */
  private async insertDrawn(context: Excel.RequestContext, pictured: readonly SheetPlan[], scaled: readonly SheetPlan[]): Promise<void> {
    const { writeWorkbook } = await import(/* webpackChunkName: "drawing" */ './file.js')
    const { worksheets } = context.workbook
    const name = `${PICTURES} ${Date.now().toString(36)}`
    const sheets = [...scaled, ...(pictured.length ? [allPictures(name, pictured)] : [])]
    context.workbook.insertWorksheetsFromBase64(inBase64(writeWorkbook({ sheets })), { sheetNamesToInsert: sheets.map((sheet) => sheet.name), positionType: 'End' })
    await context.sync()
    if (!pictured.length) return
    const from = worksheets.getItem(name)
    try {
      from.visibility = 'Hidden'
      const { shapes } = from
      shapes.load('items/name')
      // Where a picture stands hangs on the rows and columns of this Excel.
      const cells = pictured.flatMap((plan) =>
        plan.drawings!.map((drawing) => {
          const cell = worksheets.getItem(plan.name).getRange(address(drawing.row, drawing.column, false))
          cell.load('left,top')
          return { plan, drawing, cell }
        }),
      )
      await context.sync()
      const drawn = [...shapes.items]
      for (const { plan, drawing, cell } of cells) {
        const copy = drawn.shift()!.copyTo(worksheets.getItem(plan.name))
        copy.name = OUR_PICTURE + drawing.picture.title
        copy.left = cell.left + (drawing.offset ?? 0)
        copy.top = cell.top + (drawing.ownRow_pt ?? 0)
      }
      await context.sync()
    } finally {
      from.delete()
      await context.sync()
    }
  }

  /** Cells whose functions were not there when the workbook opened stay at #NAME? until their formula is entered again. */
  wake(): Promise<number> {
    return this.guarded(async (context) => {
      const { worksheets } = context.workbook
      worksheets.load('items/name')
      await context.sync()
      const used = worksheets.items.map((sheet) => sheet.getUsedRangeOrNullObject())
      for (const range of used) range.load('values,formulas')
      await context.sync()
      let woken = 0
      for (const range of used) {
        if (range.isNullObject) continue
        range.formulas.forEach((row, y) =>
          row.forEach((formula: unknown, x: number) => {
            if (range.values[y]![x] !== '#NAME?' || !/CISTERN\.[A-Z]/.test(String(formula))) return
            range.getCell(y, x).formulas = [[formula]]
            woken++
          }),
        )
      }
      await context.sync()
      return woken
    })
  }

  private writeSheets(plans: readonly SheetPlan[]): Promise<void> {
    return this.guarded(async (context) => {
      const { worksheets } = context.workbook
      const targets = plans.map((plan) => ({ plan, sheet: worksheets.getItemOrNullObject(plan.name) }))
      const standing = context.workbook.names
      standing.load('items/name,items/formula')
      for (const { sheet } of targets) {
        sheet.load('visibility')
        sheet.protection.load('protected')
      }
      await context.sync()
      if (this.isBroken) await this.refuseLeftCopies(context)
      const locked = targets.find(({ sheet }) => !sheet.isNullObject && sheet.protection.protected)
      if (locked) throw new HostError(`The sheet ${locked.plan.name} is protected: remove the protection, then try again. Nothing was changed.`)
      const olds = targets.filter(({ sheet }) => !sheet.isNullObject)
      const backups = new Map<string, string>()
      const names = namesToSet(plans, new Map(standing.items.map(({ name, formula }) => [name, String(formula)])))
      const seen = new Map(olds.map(({ plan, sheet }) => [plan.name, sheet.visibility]))
      // A name of this run alone: a copy left over from another run must never be taken for one of ours.
      const stamp = Date.now().toString(36)
      try {
        context.application.suspendApiCalculationUntilNextSync()
        for (const [at, { plan, sheet }] of olds.entries()) {
          // Made under its own name: a copy that is renamed later could be left behind by a batch that breaks off between.
          const name = `${BACKUP}${stamp} ${at + 1}`
          const backup = worksheets.add(name)
          backup.visibility = 'Hidden'
          backup.getRange().copyFrom(sheet.getRange())
          backups.set(plan.name, name)
          sheet.visibility = 'Visible'
          sheet.getRange().clear()
        }
        for (const { plan, sheet } of targets) writeSheet(sheet.isNullObject ? worksheets.add(plan.name) : sheet, plan, this.has('ExcelApi', '1.10'))
        setNames(context, names, 'next')
        await context.sync()
      } catch (error) {
        await this.restore(
          targets.map(({ plan }) => plan.name),
          seen,
          backups,
          names,
        ).catch(() => {
          this.isBroken = true
          throw new HostError(
            `Excel broke off while writing, and again while putting the sheets back. What stood on ${[...backups.keys()].join(', ')} is on the hidden sheets "${BACKUP}${stamp} …": unhide them and copy it back before you go on.`,
          )
        })
        throw error
      }
      await this.takeAway(context, [...backups.values()])
    })
  }

  /** After a making that broke off twice the old content stands on hidden sheets: nothing is written before a person has looked at them. */
  private async refuseLeftCopies(context: Excel.RequestContext): Promise<void> {
    const { worksheets } = context.workbook
    worksheets.load('items/name')
    await context.sync()
    const copies = worksheets.items.map(({ name }) => name).filter((name) => name.startsWith(BACKUP) && !this.leftOver.includes(name))
    if (copies.length)
      throw new HostError(
        `Copies of a making that broke off stand hidden: ${copies.join(', ')}. Unhide them, copy back what is missing, delete them, then try again. Nothing was changed.`,
      )
    this.isBroken = false
  }

  /** The sheets are written by now: copies that cannot be deleted are left for the next time. */
  private async takeAway(context: Excel.RequestContext, backups: readonly string[]): Promise<void> {
    const { worksheets } = context.workbook
    const names = [...this.leftOver, ...backups]
    if (!names.length) return
    try {
      const earlier = this.leftOver.map((name) => worksheets.getItemOrNullObject(name))
      earlier.forEach((sheet) => sheet.load('name'))
      if (earlier.length) await context.sync()
      for (const sheet of earlier) if (!sheet.isNullObject) sheet.delete()
      for (const name of backups) worksheets.getItem(name).delete()
      await context.sync()
      this.leftOver = []
    } catch {
      this.leftOver = names
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
      const table = context.workbook.tables.getItemOrNullObject(name)
      const range = table.getRange()
      table.load('name')
      table.worksheet.load('name')
      table.worksheet.protection.load('protected')
      range.load('formulas,rowIndex,columnIndex')
      await context.sync()
      if (table.worksheet.protection.protected) throw new HostError(`The sheet ${table.worksheet.name} is protected: remove the protection, then try again. Nothing was changed.`)
      const [headings, ...rows] = range.formulas as unknown[][]
      const columns = headings!.map((heading) => String(heading).trim())
      const content = (column: string) => (Object.hasOwn(cells, column) ? excelContent({ row: 0, column: 0, role: 'input', value: cells[column]! }) : null)
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
      const table = context.workbook.tables.getItemOrNullObject(name)
      const old = table.getRange()
      const used = table.worksheet.getUsedRange()
      table.load('name')
      table.worksheet.load('name')
      table.worksheet.protection.load('protected')
      old.load('formulas,rowIndex,columnIndex')
      used.load('formulas,rowIndex,columnIndex')
      await context.sync()
      const sheet = table.worksheet
      if (sheet.protection.protected) throw new HostError(`The sheet ${sheet.name} is protected: remove the protection, then try again. Nothing was changed.`)
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
      worksheet.activate()
      const cell = worksheet.getRange(address(Math.max(1, row), place?.columnOf(column) ?? 1, false))
      // A column that is folded comes into sight.
      if (place) cell.columnHidden = false
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
      cell.formulas = [[formula]]
      cell.load('address')
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

/** The firm's picture at the right end of the first row, above the letterhead. */
function putLogo(logo: Excel.Shape, sheet: Excel.Worksheet, plan: SheetPlan): void {
  if (!(logo.width > 0) || !(logo.height > 0)) return
  const scale = logoScale(logo)
  const copy = logo.copyTo(sheet)
  copy.name = LOGO
  copy.lockAspectRatio = false
  copy.width = logo.width * scale
  copy.height = logo.height * scale
  copy.top = 0
  copy.left = Math.max(0, plan.widths.reduce((sum, width) => sum + width * POINTS_PER_WIDTH, 0) - logo.width * scale)
  const head = sheet.getRange('1:1').format
  head.rowHeight = rowHeights(plan).get(1)! + LOGO_POINTS.height + LOGO_POINTS.air
  head.verticalAlignment = 'Bottom'
}

/** A sheet that holds the pictures of several, one below the other. */
function allPictures(name: string, plans: readonly SheetPlan[]): SheetPlan {
  const drawings = plans.flatMap((plan) => plan.drawings!).map(({ picture, page }, at) => ({ picture, page, row: 1 + at * ROWS_A_PICTURE, column: 1 }))
  return {
    name,
    kind: 'pictures',
    widths: [1],
    cells: [{ row: 1, column: 1, role: 'faint', value: null }],
    frozenRows: 0,
    landscape: false,
    footer: '',
    tables: [],
    validations: [],
    drawings,
  }
}

/** The used ranges of sheets that may be there. */
const asked = (worksheets: Excel.WorksheetCollection, sheets: readonly string[]) =>
  sheets.map((name) => {
    const used = worksheets.getItemOrNullObject(name).getUsedRangeOrNullObject()
    used.load('values,formulas,rowIndex,columnIndex')
    return { name, used }
  })
const answered = (wanted: ReturnType<typeof asked>): ReadonlyMap<string, SheetContent> =>
  new Map(wanted.filter(({ used }) => !used.isNullObject).map(({ name, used }) => [name, asContent(used)]))

/** A name of the workbook as it was and as it is to be; undefined where there is none. */
interface NameToSet {
  name: string
  before: string | undefined
  next: string | undefined
}

/** Names of ours that are new, point to another row now, or belong to a sum that the job has no more. One that points elsewhere is somebody's own. */
function namesToSet(plans: readonly SheetPlan[], standing: ReadonlyMap<string, string>): NameToSet[] {
  const known = new Map([...standing].map(([name, formula]) => [name.toLowerCase(), { name, formula }]))
  return plans.flatMap(({ name: sheet, definedNames }) => {
    if (!definedNames?.length) return []
    const isOurs = (formula: string) => pointsInto(formula, sheet)
    const wanted = definedNames.map((one): NameToSet => ({ name: one.name, before: known.get(one.name.toLowerCase())?.formula, next: `=${placeOfName(sheet, one)}` }))
    const start = ofJob(definedNames[0]!.name)
    const gone = [...known.values()].filter(({ name, formula }) => ofJob(name) === start && isOurs(formula) && !wanted.some((one) => one.name.toLowerCase() === name.toLowerCase()))
    return [...wanted.filter(({ before }) => before === undefined || isOurs(before)), ...gone.map(({ name, formula }): NameToSet => ({ name, before: formula, next: undefined }))]
  })
}

/** Brings names to what they are to be, from what they are on the other side. */
function setNames(context: Excel.RequestContext, names: readonly NameToSet[], to: 'before' | 'next'): void {
  for (const one of names) {
    const [is, wanted] = to === 'next' ? [one.before, one.next] : [one.next, one.before]
    if (is === wanted) continue
    if (wanted === undefined) context.workbook.names.getItem(one.name).delete()
    else if (is === undefined) context.workbook.names.add(one.name, wanted)
    else context.workbook.names.getItem(one.name).formula = wanted
  }
}

function asTable(sheet: string, range: Excel.Range): RawTable {
  const [headings, ...rows] = range.values as unknown[][]
  const columns = headings!.map((heading) => String(heading).trim())
  return {
    sheet,
    columns,
    rows: rows.map((values, at) => ({
      row: range.rowIndex + 2 + at,
      cells: Object.fromEntries(columns.map((column, index) => [column, values[index] === '' ? null : values[index]])),
    })),
  }
}

function asPlace(sheet: string, range: Excel.Range): TablePlace {
  const headings = (range.values[0] as unknown[]).map((heading) => String(heading).trim())
  const first = range.columnIndex + 1
  return { sheet, firstRow: range.rowIndex + 2, columnOf: (name) => (headings.includes(name) ? first + headings.indexOf(name) : undefined) }
}

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

function writeSheet(sheet: Excel.Worksheet, plan: SheetPlan, mayFold: boolean): void {
  const lastRow = Math.max(...plan.cells.map(({ row }) => row))
  const lastColumn = Math.max(...plan.cells.map(({ column }) => column))
  const block = <T>(fill: T): T[][] => Array.from({ length: lastRow }, () => Array<T>(lastColumn).fill(fill))
  const formulas = block<string | number | boolean>('')
  const formats = block('General')
  for (const cell of plan.cells) {
    formulas[cell.row - 1]![cell.column - 1] = excelContent(cell)
    formats[cell.row - 1]![cell.column - 1] = cellFormat(cell) ?? 'General'
  }
  const range = sheet.getRange(`A1:${address(lastRow, lastColumn, false)}`)
  range.numberFormat = formats
  range.formulas = formulas
  const heights = rowHeights(plan)
  for (const [look, cells] of byLook(plan)) for (const areas of areasOf(cells)) dress(sheet.getRanges(areas).format, look)
  plan.widths.forEach((width, at) => (sheet.getRange(`${columnLetters(at + 1)}:${columnLetters(at + 1)}`).format.columnWidth = width * POINTS_PER_WIDTH))
  for (const [row, height] of heights) sheet.getRange(`${row}:${row}`).format.rowHeight = height
  sheet.showGridlines = false
  if (plan.folded && mayFold) {
    const columns = sheet.getRange(`${columnLetters(plan.folded.first)}:${columnLetters(plan.folded.last)}`)
    columns.group('ByColumns')
    columns.hideGroupDetails('ByColumns')
  }
  if (plan.hiddenColumn !== undefined) sheet.getRange(`${columnLetters(plan.hiddenColumn)}:${columnLetters(plan.hiddenColumn)}`).columnHidden = true
  sheet.freezePanes.freezeRows(plan.frozenRows)
  sheet.pageLayout.orientation = plan.landscape ? 'Landscape' : 'Portrait'
  sheet.pageLayout.zoom = { horizontalFitToPages: 1, verticalFitToPages: 0 }
  if (plan.frozenRows === TITLE_ROWS) sheet.pageLayout.setPrintTitleRows(`$1:$${TITLE_ROWS}`)
  sheet.pageLayout.paperSize = plan.paper === 'A4' ? 'A4' : 'Letter'
  // Points: the same margins as in files.
  sheet.pageLayout.leftMargin = sheet.pageLayout.rightMargin = 36
  sheet.pageLayout.topMargin = 43.2
  sheet.pageLayout.bottomMargin = 46.8
  sheet.pageLayout.headerMargin = sheet.pageLayout.footerMargin = 21.6
  const footers = sheet.pageLayout.headersFooters.defaultForAllPages
  const { left, center, right } = footOf(plan)
  footers.leftFooter = left
  footers.centerFooter = center
  footers.rightFooter = right
  for (const { name, row, column, headings, rows } of plan.tables) {
    const table = sheet.tables.add(`${address(row, column, false)}:${address(row + rows, column + headings.length - 1, false)}`, true)
    table.name = name
    table.showFilterButton = false
    table.showBandedRows = false
  }
  for (const { firstRow, lastRow: last, column, list, range: source, span, isAdvice, message } of plan.validations) {
    const target = sheet.getRange(`${address(firstRow, column, false)}:${address(last, column, false)}`).dataValidation
    target.rule = span
      ? { decimal: { formula1: span[0], formula2: span[1], operator: 'Between' } }
      : { list: { inCellDropDown: true, source: source ? `=${source}` : list!.join(',') } }
    target.errorAlert = { message: `Allowed: ${message}`.slice(0, 250), showAlert: true, style: span || isAdvice ? 'Warning' : 'Stop', title: 'Not allowed here' }
  }
}

/** A text that begins like a formula is put in as text. */
function excelContent({ value, formula }: PlanCell): string | number | boolean {
  if (formula !== undefined) return `=${formula}`
  if (value === null) return ''
  return typeof value === 'string' && /^[=+\-@']/.test(value) ? `'${value}` : value
}

function byLook(plan: SheetPlan): [Look, PlanCell[]][] {
  const groups = new Map<string, [Look, PlanCell[]]>()
  for (const cell of plan.cells) {
    const group = groups.get(cell.role) ?? [looks[cell.role], []]
    group[1].push(cell)
    groups.set(cell.role, group)
  }
  return [...groups.values()]
}

/** Addresses of cells, runs along a row joined, in pieces that Excel takes. */
function areasOf(cells: readonly PlanCell[]): string[] {
  const sorted = [...cells].sort((one, other) => one.row - other.row || one.column - other.column)
  const runs: [row: number, from: number, to: number][] = []
  for (const { row, column } of sorted) {
    const last = runs.at(-1)
    if (last && last[0] === row && last[2] === column - 1) last[2] = column
    else runs.push([row, column, column])
  }
  const pieces: string[] = []
  for (const [row, from, to] of runs) {
    const text = from === to ? address(row, from, false) : `${address(row, from, false)}:${address(row, to, false)}`
    const last = pieces.at(-1)
    if (last !== undefined && last.length + text.length < LONGEST_AREAS) pieces[pieces.length - 1] = `${last},${text}`
    else pieces.push(text)
  }
  return pieces
}

function dress(format: Excel.RangeFormat, look: Look): void {
  format.font.bold = look.bold ?? false
  format.font.size = look.size ?? 10
  format.font.color = `#${look.color ?? '1F2A30'}`
  format.wrapText = look.wrap ?? false
  format.verticalAlignment = 'Center'
  if (look.align) format.horizontalAlignment = look.align === 'right' ? 'Right' : look.align === 'center' ? 'Center' : 'Left'
  if (look.indent) format.indentLevel = look.indent
  if (look.fill) format.fill.color = `#${look.fill}`
  format.protection.locked = !look.unlocked
  const line = (edge: 'EdgeTop' | 'EdgeBottom' | 'EdgeLeft', weight: 'Hairline' | 'Thin' | 'Medium' | 'Thick', color: string) => {
    const border = format.borders.getItem(edge)
    border.style = 'Continuous'
    border.weight = weight
    border.color = `#${color}`
  }
  if (look.above) line('EdgeTop', look.above === 'medium' ? 'Medium' : 'Thin', '1F2A30')
  if (look.below) line('EdgeBottom', look.below === 'hair' ? 'Hairline' : 'Thin', '6B675F')
  if (look.left) line('EdgeLeft', 'Thick', '8A4B2A')
}
