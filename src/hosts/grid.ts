/** The host of the local workbook page: the grid's model, written with its own commands so that undo keeps working. */
import type { Model } from '@odoo/o-spreadsheet'
import { paperSvg } from '../plan/drawing/paperSvg.js'
import { OUR_PICTURE } from '../plan/drawing/picture.js'
import { looks } from '../plan/looks.js'
import { standardPlaces, withYourHeadings, type OfficePlaces, type TablePlace } from '../plan/places.js'
import { extentOf, columnLetters, isMadeLine, type PlanCell, type SheetPlan } from '../plan/plan.js'
import { yourHeadings } from '../takeoff/headings.js'
import { emptyTable, jobNamesIn, tablesElsewhere, withOptional, type RawTable } from '../takeoff/office.js'
import { fieldsOf, keyColumn, requiredTables, tableNames, wantedTables, type TableName } from '../takeoff/officeTables.js'
import { cellContent, gridFormat, gridStyle, isOwnText, PIXELS_PER_POINT } from './gridData.js'
import { FILL, fillOf } from './gridFill.js'
import { HEADINGS_WITHIN } from '../takeoff/headings.js'
import { together } from './gridTogether.js'
import { holdsSomething, HostError, inTheWay, type ShownHost, type Place, type SheetCell, type SheetContent, type Snapshot } from './host.js'

type GridModel = InstanceType<typeof Model>
interface Position {
  sheetId: string
  col: number
  row: number
}
/** The getters and commands that we use; the grid's own types cover far more. */
interface Getters {
  getSheetIds(): string[]
  getSheetName(id: string): string
  getSheetIdByName(name: string): string | undefined
  getSheetSize(id: string): { numberOfRows: number; numberOfCols: number }
  getActiveSheetId(): string
  isSheetVisible(id: string): boolean
  isSheetLocked(id: string): boolean
  getActivePosition(): Position
  getHeaderGroups(sheetId: string, dimension: 'COL' | 'ROW'): readonly { start: number; end: number; isFolded?: boolean }[]
  getEvaluatedCell(position: Position): { value: SheetCell['value']; type: string; format?: string }
  getCell(position: Position): { isFormula?: boolean; content?: string } | undefined
  getCellText(position: Position, options?: object): string
  getFigures(sheetId: string): readonly { id: string }[]
}

const inPixels = (points: number) => Math.round(points * PIXELS_PER_POINT)

export class GridHost implements ShownHost {
  readonly name = 'this page'
  readonly isLive = true
  readonly takesCalls = true
  readonly flavor = 'native'
  private places: OfficePlaces = standardPlaces()
  private nextId = 1

  constructor(
    readonly model: GridModel,
    /** Brings the keyboard to the cells: who goes to a cell goes there to type. */
    private readonly focus: () => void = () => undefined,
  ) {}

  private get getters(): Getters {
    return this.model.getters as unknown as Getters
  }

  private dispatch(command: string, payload: object): void {
    const result = this.model.dispatch(command as never, payload as never)
    const ignorable = ['NoChanges', 'SheetIsHidden']
    if (!result.isSuccessful && !result.reasons.every((reason) => ignorable.includes(String(reason))))
      throw new HostError(
        result.reasons.some((reason) => String(reason) === 'SheetLocked')
          ? 'The sheet is locked: unlock it, then try again. Nothing was changed.'
          : `The grid refused ${command}: ${result.reasons.join(', ')}.`,
      )
  }

  async read(sheets: readonly string[]): Promise<Snapshot> {
    const found = new Map<TableName, { raw: RawTable; place: TablePlace }>()
    for (const name of tableNames) {
      const table = this.findTable(name)
      if (table) found.set(name, table)
    }
    const missing = requiredTables.filter((name) => !found.has(name))
    const elsewhere = tablesElsewhere(
      wantedTables.filter((name) => !found.has(name)),
      jobNamesIn(found.get('Jobs')?.raw ?? emptyTable('Jobs')),
      this.getters.getSheetIds().map((id) => ({ name: this.getters.getSheetName(id), rows: () => this.headingRows(id) })),
    )
    const office = missing.length ? undefined : withOptional(Object.fromEntries([...found].map(([name, { raw }]) => [name, raw])), elsewhere)
    const places: OfficePlaces = { ...standardPlaces(), ...Object.fromEntries([...found].map(([name, { place }]) => [name, place])) }
    this.places = office ? withYourHeadings(places, yourHeadings(office)) : places
    return {
      office,
      missing,
      absent: wantedTables.filter((name) => !found.has(name)),
      places: this.places,
      sheets: await this.readSheets(sheets),
      sheetNames: new Map(this.getters.getSheetIds().map((id) => [this.getters.getSheetName(id).toLowerCase(), this.getters.getSheetName(id)])),
    }
  }

  async readSheets(sheets: readonly string[]): Promise<ReadonlyMap<string, SheetContent>> {
    return new Map(
      sheets.flatMap((name) => {
        const id = this.getters.getSheetIdByName(name)
        return id === undefined ? [] : [[name, this.content(id)] as const]
      }),
    )
  }

  /** A table stands on the sheet of its name, below a row that holds its first heading. */
  private findTable(name: TableName): { raw: RawTable; place: TablePlace } | undefined {
    const sheetId = this.getters.getSheetIdByName(name)
    if (sheetId === undefined) return undefined
    const { numberOfRows, numberOfCols } = this.getters.getSheetSize(sheetId)
    const text = (row: number, col: number) => String(this.getters.getEvaluatedCell({ sheetId, row, col }).value ?? '').trim()
    const headings = Object.keys(fieldsOf(name))
    for (let row = 0; row < Math.min(HEADINGS_WITHIN, numberOfRows); row++) {
      for (let col = 0; col < Math.min(HEADINGS_WITHIN, numberOfCols); col++) {
        if (text(row, col) !== keyColumn(name) || (headings.length > 1 && !headings.includes(text(row, col + 1)))) continue
        const columns: string[] = []
        for (let at = col; at < numberOfCols; at++) columns.push(text(row, at))
        while (columns.at(-1) === '') columns.pop()
        const rows = []
        for (let at = row + 1; at < numberOfRows; at++) {
          const cells: Record<string, unknown> = {}
          columns.forEach((column, index) => {
            if (column) cells[column] = this.valueAt({ sheetId, row: at, col: col + index })
          })
          rows.push({ row: at + 1, cells })
        }
        return {
          raw: { sheet: name, columns, rows },
          place: { sheet: name, firstRow: row + 2, columnOf: (wanted) => (columns.includes(wanted) ? col + 1 + columns.indexOf(wanted) : undefined) },
        }
      }
    }
    return undefined
  }

  /** The words of the rows of a sheet that may be headings. */
  private headingRows(sheetId: string): readonly (readonly string[])[] {
    const { numberOfRows, numberOfCols } = this.getters.getSheetSize(sheetId)
    return Array.from({ length: Math.min(HEADINGS_WITHIN, numberOfRows) }, (_, row) =>
      Array.from({ length: numberOfCols }, (_unused, col) => String(this.getters.getEvaluatedCell({ sheetId, row, col }).value ?? '').trim()),
    )
  }

  private valueAt(position: Position): SheetCell['value'] {
    const { value, type } = this.getters.getEvaluatedCell(position)
    return type === 'empty' || value === '' ? null : value
  }

  private isMoment(position: Position): boolean {
    const { type, format } = this.getters.getEvaluatedCell(position)
    return type === 'number' && format !== undefined && /[ymdhs]/.test(format.replace(/"[^"]*"|\[[^\]]*\]/g, ''))
  }

  private content(sheetId: string): SheetContent {
    const { numberOfRows, numberOfCols } = this.getters.getSheetSize(sheetId)
    return Array.from({ length: numberOfRows }, (_, row) =>
      Array.from({ length: numberOfCols }, (_unused, col): SheetCell => {
        const position = { sheetId, row, col }
        const content = this.getters.getCell(position)
        // A date or time that somebody wrote is read as it stands there.
        const value = this.isMoment(position) ? this.getters.getCellText(position, {}) : this.valueAt(position)
        // A text kept by a formula of itself is a plain text to everyone else.
        const text = content?.isFormula ? this.getters.getCellText(position, { showFormula: true }).replace(/^=/, '') : undefined
        return text === undefined || isOwnText(text) ? { value } : { value, formula: text }
      }),
    )
  }

  /** Sheets of jobs as they were laid out last, with their drawings, which a file gets as shapes. */
  readonly made = new Map<string, SheetPlan>()

  async write(all: readonly SheetPlan[]): Promise<readonly string[]> {
    const plans = all.filter(({ toScale }) => !toScale)
    const locked = plans.map(({ name }) => name).find((name) => this.getters.isSheetLocked(this.getters.getSheetIdByName(name) ?? ''))
    if (locked !== undefined) throw new HostError(`The sheet ${locked} is locked: unlock it, then try again. Nothing was changed.`)
    const before = new Map<string, PlanCell[] | undefined>()
    for (const { name } of plans) {
      const id = this.getters.getSheetIdByName(name)
      before.set(name, id === undefined ? undefined : this.cellsOf(id))
    }
    const { moveOf, follow } = await import(/* webpackChunkName: "making" */ './moves.js')
    const standing = await this.readSheets(plans.filter(({ name, kind }) => kind !== 'office' && before.get(name)).map(({ name }) => name))
    const moves = new Map(plans.flatMap((plan) => (standing.has(plan.name) ? [[plan.name.toLowerCase(), moveOf(plan, standing.get(plan.name)!)] as const] : [])))
    const lost: string[] = []
    const following = this.pointingInto(moves).flatMap(({ place, ...cell }) => {
      const next = follow(cell.content, moves, place, lost)
      return next === cell.content ? [] : [{ ...cell, content: next }]
    })
    const active = this.getters.getActiveSheetId()
    try {
      together(this.model, () => {
        // Sheets first: a formula may point to any of them.
        for (const plan of plans) this.makeRoom(plan)
        for (const plan of plans) this.writeSheet(plan)
        for (const cell of following) this.dispatch('UPDATE_CELL', cell)
        if (this.getters.getActiveSheetId() !== active) this.dispatch('ACTIVATE_SHEET', { sheetIdFrom: this.getters.getActiveSheetId(), sheetIdTo: active })
      })
    } catch (error) {
      together(this.model, () => this.restore(before))
      throw error
    }
    this.remember(all)
    return lost.map((words) => `${words}.`)
  }

  /** Formulas of people's own sheets that point into sheets which are made again. */
  private pointingInto(sheets: ReadonlyMap<string, unknown>): { sheetId: string; row: number; col: number; content: string; place: string }[] {
    if (!sheets.size) return []
    const found = []
    for (const sheetId of this.getters.getSheetIds()) {
      const name = this.getters.getSheetName(sheetId)
      if (sheets.has(name.toLowerCase()) || isMadeLine(this.getters.getEvaluatedCell({ sheetId, row: 2, col: 1 }).value)) continue
      const { numberOfRows, numberOfCols } = this.getters.getSheetSize(sheetId)
      for (let row = 0; row < numberOfRows; row++)
        for (let col = 0; col < numberOfCols; col++) {
          if (!this.getters.getCell({ sheetId, row, col })?.isFormula) continue
          const content = this.getters.getCellText({ sheetId, row, col }, { showFormula: true })
          if (content.includes('!')) found.push({ sheetId, row, col, content, place: `${name}!${columnLetters(col + 1)}${row + 1}` })
        }
    }
    return found
  }

  private remember(plans: readonly SheetPlan[]): void {
    for (const plan of plans) this.made.set(plan.name, plan)
  }

  private cellsOf(sheetId: string): PlanCell[] {
    return this.content(sheetId).flatMap((row, y) =>
      row.flatMap(({ value, formula }, x): PlanCell[] =>
        value === null && formula === undefined ? [] : [{ row: y + 1, column: x + 1, role: 'text', value, ...(formula === undefined ? {} : { formula }) }],
      ),
    )
  }

  private restore(before: ReadonlyMap<string, PlanCell[] | undefined>): void {
    for (const [name, cells] of before) {
      const id = this.getters.getSheetIdByName(name)
      if (id === undefined) continue
      if (cells === undefined) this.dispatch('DELETE_SHEET', { sheetId: id, sheetName: name })
      else {
        this.clear(id)
        for (const cell of cells) this.dispatch('UPDATE_CELL', { sheetId: id, col: cell.column - 1, row: cell.row - 1, content: cellContent(cell) })
      }
    }
  }

  private clear(sheetId: string): void {
    const { numberOfRows, numberOfCols } = this.getters.getSheetSize(sheetId)
    const target = [{ left: 0, top: 0, right: numberOfCols - 1, bottom: numberOfRows - 1 }]
    this.dispatch('DELETE_CONTENT', { sheetId, target })
    this.dispatch('CLEAR_FORMATTING', { sheetId, target })
  }

  /** A sheet of the plan's name, empty and large enough. */
  private makeRoom(plan: SheetPlan): void {
    const { lastRow, lastColumn } = extentOf(plan.cells)
    const rows = lastRow + 30
    const cols = Math.max(plan.widths.length, lastColumn) + 2
    const existing = this.getters.getSheetIdByName(plan.name)
    if (existing === undefined) {
      this.dispatch('CREATE_SHEET', { sheetId: `made-${this.nextId++}-${plan.name}`, name: plan.name, position: this.getters.getSheetIds().length, rows, cols })
      return
    }
    const size = this.getters.getSheetSize(existing)
    const grow = (dimension: 'ROW' | 'COL', from: number, to: number) => {
      if (from < to) this.dispatch('ADD_COLUMNS_ROWS', { sheetId: existing, sheetName: plan.name, dimension, base: from - 1, position: 'after', quantity: to - from })
    }
    grow('ROW', size.numberOfRows, rows)
    grow('COL', size.numberOfCols, cols)
  }

  /** The grid shows pictures and draws no shapes; a file gets the shapes themselves, whatever becomes of the picture. */
  private putPictures(plan: SheetPlan, sheetId: string): void {
    for (const { id } of this.getters.getFigures(sheetId)) if (id.startsWith(OUR_PICTURE)) this.dispatch('DELETE_FIGURE', { sheetId, figureId: id })
    plan.drawings?.forEach((drawing, at) => {
      const { svg, width_pt, height_pt } = paperSvg(drawing)
      const size = { width: inPixels(width_pt), height: inPixels(height_pt) }
      this.dispatch('CREATE_IMAGE', {
        sheetId,
        figureId: `${OUR_PICTURE}${sheetId} ${at + 1}`,
        col: drawing.column - 1,
        row: drawing.row - 1,
        offset: { x: inPixels(drawing.offset ?? 0), y: inPixels(drawing.ownRow_pt ?? 0) },
        size,
        definition: { path: `data:image/svg+xml,${encodeURIComponent(svg)}`, size, mimetype: 'image/svg+xml' },
      })
    })
  }

  private writeSheet(plan: SheetPlan): void {
    const sheetId = this.getters.getSheetIdByName(plan.name)!
    this.dispatch(FILL, fillOf(plan, sheetId))
    this.dispatch('SET_GRID_LINES_VISIBILITY', { sheetId, areGridLinesVisible: false })
    if (plan.folded) {
      const group = { sheetId, dimension: 'COL', start: plan.folded.first - 1, end: plan.folded.last - 1 }
      this.dispatch('GROUP_HEADERS', group)
      this.dispatch('FOLD_HEADER_GROUP', group)
    }
    if (plan.hiddenColumn !== undefined) this.dispatch('HIDE_COLUMNS_ROWS', { sheetId, dimension: 'COL', elements: [plan.hiddenColumn - 1] })
    if (plan.frozenRows) this.dispatch('FREEZE_ROWS', { sheetId, quantity: plan.frozenRows })
    this.putPictures(plan, sheetId)
  }

  async addRow(name: TableName, cells: Readonly<Record<string, string | number>>): Promise<number> {
    const found = this.findTable(name)
    if (!found) throw new HostError(`There is no table ${name}.`)
    const { raw, place } = found
    const sheetId = this.getters.getSheetIdByName(raw.sheet)!
    if (this.getters.isSheetLocked(sheetId)) throw new HostError(`The sheet ${raw.sheet} is locked: unlock it, then try again. Nothing was changed.`)
    const empty = raw.rows.find((row) => Object.values(row.cells).every((cell) => cell === null))
    const row = empty?.row ?? place.firstRow + raw.rows.length
    together(this.model, () => {
      const size = this.getters.getSheetSize(sheetId)
      if (row > size.numberOfRows)
        this.dispatch('ADD_COLUMNS_ROWS', { sheetId, sheetName: raw.sheet, dimension: 'ROW', base: size.numberOfRows - 1, position: 'after', quantity: row - size.numberOfRows })
      for (const [column, value] of Object.entries(cells))
        this.dispatch('UPDATE_CELL', {
          sheetId,
          col: place.columnOf(column)! - 1,
          row: row - 1,
          content: cellContent({ row, column: 0, role: 'input', value }),
          style: gridStyle(looks.input),
        })
    })
    return row
  }

  async putRows(name: TableName, columns: readonly string[], rows: readonly (readonly SheetCell['value'][])[]): Promise<void> {
    const found = this.findTable(name)
    if (!found) throw new HostError(`There is no table ${name}.`)
    const { raw, place } = found
    const sheetId = this.getters.getSheetIdByName(raw.sheet)!
    if (this.getters.isSheetLocked(sheetId)) throw new HostError(`The sheet ${raw.sheet} is locked: unlock it, then try again. Nothing was changed.`)
    const top = place.firstRow - 2
    const left = place.columnOf(raw.columns.find(Boolean)!)! - 1 - raw.columns.findIndex(Boolean)
    const width = Math.max(columns.length, raw.columns.length)
    const content = [columns, ...rows]
    const size = this.getters.getSheetSize(sheetId)
    const height = Math.max(content.length, size.numberOfRows - top)
    const taken: string[] = []
    for (let row = top; row < size.numberOfRows; row++)
      for (let col = left; col < left + width; col++) {
        const cell = this.getters.getCell({ sheetId, row, col })
        const isInside = col < left + raw.columns.length
        if (cell && (isInside ? row > top && cell.isFormula : (cell.content ?? '') !== '')) taken.push(`${columnLetters(col + 1)}${row + 1}`)
      }
    if (taken.length) throw inTheWay(raw.sheet, taken)
    const before = new Map([[raw.sheet, this.cellsOf(sheetId)]])
    try {
      together(this.model, () => {
        const grow = (dimension: 'ROW' | 'COL', from: number, to: number) => {
          if (from < to) this.dispatch('ADD_COLUMNS_ROWS', { sheetId, sheetName: raw.sheet, dimension, base: from - 1, position: 'after', quantity: to - from })
        }
        grow('ROW', size.numberOfRows, top + content.length)
        grow('COL', size.numberOfCols, left + width)
        for (let at = 0; at < height; at++)
          for (let across = 0; across < width; across++) {
            const value = content[at]?.[across] ?? null
            const position = { sheetId, row: top + at, col: left + across }
            const isDate = at > 0 && columns[across] === 'Date'
            if (value === null && !this.getters.getCell(position)) continue
            const cell: PlanCell = { row: position.row + 1, column: position.col + 1, role: 'input', value, ...(isDate ? { format: 'date' } : {}) }
            const format = gridFormat(cell.format)
            this.dispatch('UPDATE_CELL', { ...position, content: cellContent(cell), style: gridStyle(looks[at === 0 ? 'tableHeading' : 'input']), ...(format ? { format } : {}) })
          }
      })
    } catch (error) {
      together(this.model, () => this.restore(before))
      throw error
    }
  }

  async select({ sheet, row, column }: Place): Promise<void> {
    await this.show(sheet)
    const place = Object.values(this.places).find((known) => known.sheet === sheet)
    const col = (place?.columnOf(column) ?? 1) - 1
    this.unfold(col)
    this.selectCell(col, Math.max(0, row - 1))
    this.focus()
  }

  /** A column that is folded comes into sight. */
  private unfold(col: number): void {
    const sheetId = this.getters.getActiveSheetId()
    for (const group of this.getters.getHeaderGroups(sheetId, 'COL'))
      if (group.isFolded && group.start <= col && col <= group.end) this.dispatch('UNFOLD_HEADER_GROUP', { sheetId, dimension: 'COL', start: group.start, end: group.end })
  }

  private selectCell(col: number, row: number): void {
    ;(this.model as unknown as { selection: { selectCell(col: number, row: number): void } }).selection.selectCell(col, row)
  }

  async show(sheet: string): Promise<void> {
    const to = this.getters.getSheetIdByName(sheet)
    if (to === undefined) throw new HostError(`There is no sheet ${sheet}.`)
    if (!this.getters.isSheetVisible(to)) this.dispatch('SHOW_SHEET', { sheetId: to })
    const from = this.getters.getActiveSheetId()
    if (from !== to) this.dispatch('ACTIVATE_SHEET', { sheetIdFrom: from, sheetIdTo: to })
  }

  async insert(formula: string): Promise<string> {
    const position = this.getters.getActivePosition()
    const { sheetId, col, row } = position
    const place = `${this.getters.getSheetName(sheetId)}!${columnLetters(col + 1)}${row + 1}`
    if (this.getters.getCell(position)) throw new HostError(holdsSomething(place))
    this.dispatch('UPDATE_CELL', { sheetId, col, row, content: formula })
    return place
  }

  onSelection(listener: (sheet: string, row: number) => void): void {
    let last = ''
    this.model.on('update', this, () => {
      const { sheetId, row } = this.getters.getActivePosition()
      const now = `${sheetId} ${row}`
      if (now === last) return
      last = now
      listener(this.getters.getSheetName(sheetId), row + 1)
    })
  }

  onChange(listener: () => void): void {
    ;(this.model as unknown as { on(type: string, owner: object, callback: () => void): void }).on('update', { listener }, listener)
  }
}
