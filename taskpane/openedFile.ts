/**
 * The file that was opened on the page, kept beside the grid: saving writes what was changed in the grid into it, cell by cell,
 * and every chart, picture, comment, merge and rule of somebody else's stays as it is.
 */
import { extentOf } from '../src/plan/plan.js'
import type { Model } from '@odoo/o-spreadsheet'
import { PAPER, withoutPrefixes, STORED_PREFIX } from '../src/hosts/xlsx/writeSheet.js'
import { writeInto } from '../src/hosts/file.js'
import { keyColumns, keysOf } from '../src/hosts/moves.js'
import { Book } from '../src/hosts/xlsx/book.js'
import { dynamicMark } from '../src/hosts/xlsx/dynamicMark.js'
import { CellReader, type BookCell } from '../src/hosts/xlsx/cells.js'
import { attribute, escapeXml, tags, unescapeXml } from '../src/hosts/xlsx/xml.js'
import { putCells, SharedCellError, type PutCell } from '../src/hosts/xlsx/putCells.js'
import { stretchTable } from '../src/hosts/xlsx/stretchTable.js'
import { formulaShape } from '../src/plan/cellMarks.js'
import { pointsTo } from '../src/plan/definedNames.js'
import { serialOfMoment } from '../src/days.js'
import type { SheetPlan } from '../src/plan/plan.js'
import { isErrorText } from '../src/takeoff/fields.js'
import { StyleBook } from '../src/hosts/xlsx/styles.js'
import { tableNames } from '../src/takeoff/officeTables.js'
import { fileFormula, gridCell, isUnread, planOf, refuseNames, type CodesOfFile, type Getters, type GridCell, type InFile, type UnreadFormula } from './gridToXlsx.js'

type GridModel = InstanceType<typeof Model>
interface Exported {
  sheets: { id: string; name: string; cells: Record<string, unknown>; styles?: Record<string, number>; formats?: Record<string, number>; borders?: Record<string, number> }[]
  styles: Record<string, unknown>
  formats: Record<string, unknown>
  borders: Record<string, unknown>
}
interface Known {
  name: string
  /** Everything but the cells and how their numbers are written: looks, sizes, rules, merges. */
  frame: string
  formats: ReadonlyMap<string, string>
  cells: ReadonlyMap<string, GridCell>
}

/** What a sheet is beside its cells, with looks by what they are and not by their number. */
function frameOf(all: Exported, sheet: Exported['sheets'][number]): string {
  const looks = (zones: Record<string, number> | undefined, list: Record<string, unknown>) => Object.entries(zones ?? {}).map(([zone, id]) => [zone, list[String(id)] ?? null])
  const { cells: _cells, styles, formats: _formats, borders, ...rest } = sheet
  return JSON.stringify([rest, looks(styles, all.styles), looks(borders, all.borders)])
}
/** The grid exports three times and builds a second grid to see that its short form can be read again: here nothing reads it, and the long form is enough. */
const exported = (model: GridModel): Exported => (model as unknown as { _exportData(isShort: boolean): Exported })._exportData(false)

/** What `look` finds at each place of a sheet of the grid, by "row column". */
function found<T>(model: GridModel, sheetId: string, look: (getters: Getters, row: number, column: number) => T | undefined): Map<string, T> {
  const all = new Map<string, T>()
  const getters = model.getters as unknown as Getters
  const { numberOfRows, numberOfCols } = getters.getSheetSize(sheetId)
  for (let row = 1; row <= numberOfRows; row++)
    for (let column = 1; column <= numberOfCols; column++) {
      const one = look(getters, row, column)
      if (one !== undefined) all.set(`${row} ${column}`, one)
    }
  return all
}
/** The number formats of a sheet of the grid, as its cells have them. */
const formatsOf = (model: GridModel, sheetId: string): Map<string, string> =>
  found(model, sheetId, (getters, row, column) => getters.getCell({ sheetId, row: row - 1, col: column - 1 })?.format || undefined)
/** Every cell of a sheet of the grid that holds something. */
const cellsOf = (model: GridModel, sheetId: string): Map<string, GridCell> => found(model, sheetId, (getters, row, column) => gridCell(getters, sheetId, row, column))

const plainValue = (value: BookCell['value']): GridCell['value'] => (value instanceof Date ? serialOfMoment(value) : value)

const hasPlace = ({ content }: UnreadFormula): boolean => /[A-Z]\$?\d/i.test(content)

export class OpenedFile {
  private readonly known: ReadonlyMap<string, Known>
  /** As it was opened: never written into. */
  private readonly book: Book
  private reader: CellReader | undefined
  constructor(
    readonly bytes: Uint8Array,
    readonly name: string,
    model: GridModel,
    /** What of each sheet the grid does not keep. */
    private readonly ofSheets: ReadonlyMap<string, ReadonlyMap<string, number>> = new Map(),
    private readonly codes: CodesOfFile = new Map(),
  ) {
    this.book = new Book(bytes, name)
    const all = exported(model)
    this.known = new Map(
      all.sheets.map((sheet) => [sheet.id, { name: sheet.name, frame: frameOf(all, sheet), formats: formatsOf(model, sheet.id), cells: cellsOf(model, sheet.id) }]),
    )
  }

  get hasMacros(): boolean {
    return this.book.hasMacros
  }

  /**
   * What goes with sheets that are written anew, because their columns, rows or looks were changed; nothing where they have nothing that
   * the grid lacks. On those whose rows or columns have `moved`, what means cells by their old places is told too.
   */
  lostOn(anew: readonly string[], moved: readonly string[] = []): string {
    return anew
      .flatMap((sheet) => {
        const own = [...(this.ofSheets.get(sheet) ?? [])].map(([kind, count]) => `${kind} (${count})`)
        const pointsThere = ({ content }: UnreadFormula) => pointsTo(content, sheet)
        const count = [...this.known].flatMap(([id, { name }]) => this.unreadOf(id).filter(name === sheet ? hasPlace : pointsThere)).length
        own.push(...this.looksOf(sheet))
        const stays = moved.includes(sheet) ? this.pointersTo(sheet) : []
        if (stays.length) own.push(`what stays at its old places, where rows or columns have moved: ${stays.join(', ')}`)
        if (count) own.push(`where rows have moved, what formulas that the page cannot read point to (${count})`)
        return own.length ? [`on ${sheet}, which is written anew: ${own.join(', ')}`] : []
      })
      .join('; ')
  }

  /** The file with the changes of the grid in it, and the sheets that had to be written anew; undefined where sheets were renamed or taken away. */
  saved(model: GridModel, made: ReadonlyMap<string, SheetPlan>): { bytes: Uint8Array; anew: readonly string[]; moved: readonly string[] } | undefined {
    const all = exported(model)
    const here = new Map(all.sheets.map((sheet) => [sheet.id, sheet]))
    refuseNames(all.sheets.map(({ name }) => name))
    for (const [id, { name }] of this.known) if (here.get(id)?.name !== name) return undefined
    const book = new Book(this.bytes, this.name)
    const plans: SheetPlan[] = []
    const anew: string[] = []
    const moved: string[] = []
    for (const sheet of all.sheets) {
      const known = this.known.get(sheet.id)
      const own = made.get(sheet.name)
      const plan = () => ({
        ...planOf(model.getters as never, sheet.id, this.inFile(sheet.id), own !== undefined || tableNames.includes(sheet.name as never)),
        ...(own
          ? { drawings: own.drawings ?? [], print: own.print!, landscape: own.landscape, paper: own.paper!, definedNames: namesIn(own, model, sheet.id) }
          : { isOfBook: true as const, ...this.pageOf(sheet.name) }),
      })
      // A sheet made here is written whole: names of the workbook point to its rows.
      if (known && !own && frameOf(all, sheet) === known.frame) {
        try {
          this.patch(book, sheet.name, known, cellsOf(model, sheet.id), formatsOf(model, sheet.id))
          continue
        } catch (error) {
          if (!(error instanceof SharedCellError)) throw error
        }
      }
      if (known && !own) anew.push(sheet.name)
      if (known && !own && hasMoved(known.cells, cellsOf(model, sheet.id))) moved.push(sheet.name)
      plans.push(plan())
    }
    // Drawings have no sheet in the grid: those made here come with the file.
    for (const own of made.values()) if (own.toScale) plans.push(own)
    writeInto(book, plans)
    return { bytes: book.bytes(), anew, moved }
  }

  /** What a sheet of somebody's own looks like and the grid does not write. */
  private looksOf(name: string): string[] {
    const sheet = tableNames.includes(name as never) ? undefined : this.book.sheetNamed(name)
    if (!sheet) return []
    const xml = this.book.text(sheet.part)
    const worn = new Set([...xml.matchAll(/<(?:\w+:)?c\b[^>]*\ss="(\d+)"/g)].map(([, style]) => Number(style)))
    const styles = new StyleBook(new Book(this.bytes, this.name))
    return (
      [
        ['zoom', /\szoomScale="(?!100")\d+"/.test(xml)],
        ['heights of rows', /\scustomHeight="(?:1|true)"/.test(xml)],
        ['scale of the print', /<(?:\w+:)?pageSetup\b[^>]*\sscale="(?!100")/.test(xml)],
        ['fonts', [...worn].some((style) => styles.hasOwnFont(style))],
      ] as const
    ).flatMap(([words, isThere]) => (isThere ? [words] : []))
  }

  /** What of the file means cells of a sheet and is not written anew with it: it stays where it was. */
  private pointersTo(name: string): string[] {
    const sheet = this.book.sheetNamed(name)
    if (!sheet) return []
    const means = (xml: string) => pointsTo(unescapeXml(xml), name)
    const hangs = this.book.relations(sheet.part).map(({ type, target }) => [type.slice(type.lastIndexOf('/') + 1), target] as const)
    const names = [...this.book.definedNames.values()].filter((place) => pointsTo(place, name))
    const charts = [...this.book.names()].filter((part) => /^xl\/charts\/chart[^/]*\.xml$/i.test(part) && means(this.book.text(part)))
    const pivots = [...this.book.names()].filter(
      (part) => /^xl\/pivotCache\/pivotCacheDefinition[^/]*\.xml$/i.test(part) && this.book.text(part).includes(`sheet="${escapeXml(name)}"`),
    )
    const rules = this.book.sheets.filter(
      (other) => other.name !== name && [...this.book.text(other.part).matchAll(/<(?:\w+:)?(?:formula[12]?|xm:f)>([^<]*)</g)].some(([, formula]) => means(formula!)),
    )
    return (
      [
        ['comments', hangs.filter(([type]) => type === 'comments').length],
        ['pictures and charts on it', hangs.filter(([type, target]) => type === 'drawing' && this.book.has(target) && /<(?:\w+:)?from>/.test(this.book.text(target))).length],
        ['names', names.length],
        ['charts', charts.length],
        ['pivot tables', pivots.length],
        ['rules of other sheets', rules.length],
      ] as const
    ).flatMap(([kind, count]) => (count ? [`${kind} (${count})`] : []))
  }

  /** How a sheet of the file lies on its paper. */
  private pageOf(name: string): Partial<Pick<SheetPlan, 'landscape' | 'paper'>> {
    const sheet = this.book.sheetNamed(name)
    if (!sheet) return {}
    const xml = this.book.text(sheet.part)
    for (const tag of tags(xml, Math.max(0, xml.lastIndexOf('sheetData'))))
      if (tag.name === 'pageSetup' && !tag.isEnd)
        return { landscape: attribute(xml, tag, 'orientation') === 'landscape', paper: Number(attribute(xml, tag, 'paperSize')) === PAPER.A4 ? 'A4' : 'letter' }
    return { landscape: false }
  }

  /** Formulas of a sheet that the grid cannot read or work out, row by row. Of sheets that have none nothing is read again. */
  private unreadOf(sheetId: string): readonly UnreadFormula[] {
    const { name, cells } = this.known.get(sheetId) ?? { name: '', cells: new Map<string, GridCell>() }
    const unread = [...cells].filter(([, cell]) => isUnread(cell))
    if (!unread.length) return []
    this.reader ??= new CellReader(this.book)
    const sheet = this.book.sheetNamed(name)
    const rows = sheet && this.reader.rows(sheet)
    return unread.flatMap(([key, cell]) => {
      const [row, column] = key.split(' ').map(Number) as [number, number]
      const { formula, value = null } = rows?.get(row)?.get(column) ?? {}
      // An error that the file has too is what comes out.
      const isWorked = isErrorText(String(cell.value)) && isErrorText(String(value))
      return formula === undefined || isWorked ? [] : [{ content: cell.content, formula, value: plainValue(value) }]
    })
  }

  /** What the grid cannot show of a sheet: written anew, it is what the file has. */
  inFile(sheetId: string): InFile {
    const formulas = new Map<string, UnreadFormula[]>()
    for (const one of this.unreadOf(sheetId)) formulas.set(formulaShape(one.content), [...(formulas.get(formulaShape(one.content)) ?? []), one])
    return { formulas, codes: this.codes.get(this.known.get(sheetId)?.name ?? '') ?? new Map() }
  }

  /** Cells that differ from those at opening; a formula that gives another result now keeps its text. */
  private patch(book: Book, name: string, { cells: before, formats: were }: Known, now: ReadonlyMap<string, GridCell>, are: ReadonlyMap<string, string>): void {
    const { part } = book.sheetNamed(name)!
    const standing = new CellReader(book).rows(book.sheetNamed(name)!)
    const cells: PutCell[] = []
    const keys = new Set([...before.keys(), ...now.keys()])
    const placeOf = (key: string) => key.split(' ').map(Number) as [row: number, column: number]
    const inFile = (key: string): BookCell | undefined => standing.get(placeOf(key)[0])?.get(placeOf(key)[1])
    // Formulas that fill other cells than the file says, or are new: how far they reach is said anew.
    const refilled = new Set([...keys].filter((key) => isRefilled(before.get(key), now.get(key), inFile(key), placeOf(key))))
    for (const key of keys) {
      const [was, is] = [before.get(key), now.get(key)]
      const [row, column] = placeOf(key)
      const there = inFile(key)
      if (refilled.has(key)) {
        cells.push({ row, column, value: is!.value, formula: is!.formula!, spill: { ...(is!.spill ?? { rows: 1, columns: 1 }), mark: dynamicMark(book) } })
        continue
      }
      if (was?.content === is?.content && was?.value === is?.value) continue
      // What the grid cannot read it moves all the same, where it knows the places in it.
      const isMoved = was && is && there?.formula !== undefined && isUnread(was) && isUnread(is) && formulaShape(was.content) === formulaShape(is.content)
      if (isMoved) cells.push({ row, column, value: plainValue(there.value), formula: fileFormula(is.content) })
      // What a formula fills is a cell of the file only where the file says so.
      else if (is?.isSpilled || (!is && was?.isSpilled)) {
        const from = is?.filledFrom ?? was?.filledFrom ?? ''
        const isOfArray = refilled.has(from) || inFile(from)?.fills !== undefined
        if (there ? there.formula === undefined : isOfArray && is) cells.push({ row, column, value: is?.value ?? null })
      } else if (!is) cells.push({ row, column, value: null })
      else if (was && was.content === is.content) {
        // A result that only the grid cannot work out leaves the one of the file.
        if (there?.formula !== undefined && !isErrorText(String(is.value))) cells.push({ row, column, value: is.value, formula: true })
      } else if (is.formula === undefined) cells.push({ row, column, value: is.value })
      else if (there?.formula === undefined || same(there.formula) !== same(is.formula)) cells.push({ row, column, value: is.value, formula: is.formula })
    }
    const changed = new Map(cells.map((cell) => [`${cell.row} ${cell.column}`, cell]))
    const codes = this.codes.get(name)
    for (const key of new Set([...were.keys(), ...are.keys()])) {
      if (were.get(key) === are.get(key)) continue
      const [row, column] = key.split(' ').map(Number) as [number, number]
      const shown = are.get(key)
      const format = shown === undefined ? 'General' : (codes?.get(shown) ?? shown)
      const { value, formula } = standing.get(row)?.get(column) ?? { value: null }
      changed.set(key, { ...(changed.get(key) ?? { row, column, value: plainValue(value), ...(formula === undefined ? {} : { formula: true as const }) }), format })
    }
    if (!changed.size) return
    const styles = are.size || were.size ? new StyleBook(book) : undefined
    const text = putCells(book.text(part), [...changed.values()], styles && ((style, code) => styles.withFormat(style, code)))
    styles?.save()
    book.put(part, text)
    const last = extentOf(cells.filter(({ value }) => value !== null)).lastRow
    if (last) stretchTable(book, name, name, { row: last, belowTotals: 'leave' })
  }
}

/** Whether a formula fills other cells now than the file says; one that the page never filled as the file has it is left alone. */
function isRefilled(was: GridCell | undefined, is: GridCell | undefined, there: BookCell | undefined, [row, column]: readonly [number, number]): boolean {
  if (is?.formula === undefined) return false
  if (there?.formula === undefined || !there.fills) return is.spill !== undefined && was?.content !== is.content
  const reaches = ({ spill }: GridCell, { rows, columns }: { rows: number; columns: number }) => (spill?.rows ?? 1) === rows && (spill?.columns ?? 1) === columns
  const area = { rows: there.fills.row - row + 1, columns: there.fills.column - column + 1 }
  return was !== undefined && reaches(was, area) && !(reaches(is, area) && was.content === is.content)
}

/** Whether rows or columns stand elsewhere now: what a line holds that no other one holds is found in another line. Formulas change as they move, and do not count. */
function hasMoved(before: ReadonlyMap<string, GridCell>, now: ReadonlyMap<string, GridCell>): boolean {
  const lines = (cells: ReadonlyMap<string, GridCell>, part: 0 | 1) => {
    const words = new Map<number, string[]>()
    for (const [key, { content, formula, isSpilled }] of cells) {
      if (formula !== undefined || isSpilled) continue
      const places = key.split(' ').map(Number)
      words.set(places[part]!, [...(words.get(places[part]!) ?? []), content])
    }
    const found = new Map<string, number | null>()
    for (const [at, said] of words) {
      const line = said.join('\u0000')
      found.set(line, found.has(line) ? null : at)
    }
    return found
  }
  return ([0, 1] as const).some((part) => {
    const [were, are] = [lines(before, part), lines(now, part)]
    return [...were].some(([line, at]) => at !== null && typeof are.get(line) === 'number' && are.get(line) !== at)
  })
}

/** Names of a sheet made here: where rows were put in since, at the row that has the same words now. */
function namesIn({ kind, definedNames = [], cells }: SheetPlan, model: GridModel, sheetId: string): NonNullable<SheetPlan['definedNames']> {
  const made = new Map(cells.map(({ row, column, value }) => [`${row} ${column}`, value]))
  const now = cellsOf(model, sheetId)
  const rowsOf = (places: ReadonlyMap<string, unknown>) => [...new Set([...places.keys()].map((place) => Number(place.split(' ')[0])))].sort((one, other) => one - other)
  const { byRow } = keysOf((row, column) => made.get(`${row} ${column}`), rowsOf(made), keyColumns({ kind }))
  const { byKey } = keysOf((row, column) => now.get(`${row} ${column}`)?.value, rowsOf(now), keyColumns({ kind }))
  return definedNames.flatMap((one) => {
    const row = byKey.get(byRow.get(one.row) ?? '')
    return row === undefined ? [] : [{ ...one, row }]
  })
}

const same = (formula: string): string => withoutPrefixes(formula).replaceAll(STORED_PREFIX, 'CISTERN.').replace(/\s/g, '')
