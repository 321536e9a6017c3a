/**
 * A second command of our own for the grid: a whole sheet in one step. The grid has one for each cell, look and border, which
 * takes five times as long. It reaches into parts of the grid that are not its interface: its version is pinned, and a test
 * holds a filled sheet to one that was loaded as data.
 */
import { coreTypes, lockedSheetAllowedCommands, registries } from '@odoo/o-spreadsheet'
import { rowHeights } from '../plan/heights.js'
import { looks } from '../plan/looks.js'
import type { SheetPlan } from '../plan/plan.js'
import { changed, type GridPlugin, type PluginRegistry } from './gridPlugins.js'
import { cellContent, gridBorder, gridFormat, gridStyle, PIXELS_PER_POINT, PIXELS_PER_WIDTH } from './gridData.js'

export const FILL = 'CISTERN_FILL'
const PLACE = 'CISTERN_PLACE'

type GridCellId = number
type GridBorder = ReturnType<typeof gridBorder>
interface FillCommand {
  type: typeof FILL
  sheetId: string
  styles: readonly object[]
  formats: readonly string[]
  borders: readonly GridBorder[]
  /** Row, column, content; the places of its look and format in those lists, -1 for none. */
  cells: readonly (readonly [row: number, col: number, content: string, style: number, format: number, border: number])[]
  /** Pixels, by place. */
  cols: readonly (readonly [col: number, size: number])[]
  rows: readonly (readonly [row: number, size: number])[]
}
interface PlaceCommand {
  type: typeof PLACE
  sheetId: string
  places: readonly (readonly [row: number, col: number, id: GridCellId])[]
}
type Command = FillCommand | PlaceCommand | { type: string }
const isFill = (command: Command): command is FillCommand => command.type === FILL
const isPlace = (command: Command): command is PlaceCommand => command.type === PLACE

/** What of the grid's plugins is used here. */
interface CellPlugin extends GridPlugin {
  importCell(sheetId: string, content: string, style: object | undefined, format: string | undefined): { id: GridCellId }
}
interface SheetPlugin extends GridPlugin {
  sheets: Record<string, { rows: { cells: Record<number, GridCellId | undefined> }[] }>
}
interface SizePlugin extends GridPlugin {
  sizes: Record<string, { COL: (number | undefined)[]; ROW: (number | undefined)[] }>
}
interface RowSizePlugin extends GridPlugin {
  initializeSheet(sheetId: string): void
}
interface EvaluationPlugin extends GridPlugin {
  shouldRebuildDependenciesGraph: boolean
}
/** The command that makes a sheet, which is there and large enough, into the one of the plan. */
export function fillOf(plan: SheetPlan, sheetId: string): Omit<FillCommand, 'type'> {
  const register = <T>() => {
    const places = new Map<string, number>()
    const list: T[] = []
    const placeOf = (value: T): number => {
      const key = JSON.stringify(value)
      const known = places.get(key)
      if (known !== undefined) return known
      places.set(key, list.length)
      return list.push(value) - 1
    }
    return { list, placeOf }
  }
  const [styles, formats, borders] = [register<object>(), register<string>(), register<GridBorder>()]
  // A cell written twice counts as written last.
  const cells = new Map<string, FillCommand['cells'][number]>()
  for (const cell of plan.cells) {
    const look = looks[cell.role]
    const format = gridFormat(cell.format)
    const border = gridBorder(look)
    const [row, col] = [cell.row - 1, cell.column - 1]
    const numbers = [styles.placeOf(gridStyle(look)), format ? formats.placeOf(format) : -1, Object.keys(border).length ? borders.placeOf(border) : -1] as const
    cells.set(`${row} ${col}`, [row, col, cellContent(cell), ...numbers])
  }
  return {
    sheetId,
    styles: styles.list,
    formats: formats.list,
    borders: borders.list,
    cells: [...cells.values()],
    cols: plan.widths.map((width, col) => [col, Math.round(width * PIXELS_PER_WIDTH)]),
    rows: [...rowHeights(plan)].map(([row, points]) => [row - 1, Math.round(points * PIXELS_PER_POINT)]),
  }
}

/** Puts a handler of the two commands behind that of a plugin of the grid. */
const extended = <P extends GridPlugin>(registry: PluginRegistry, name: string, handle: (plugin: P, command: Command) => void): void =>
  changed<P>(registry, name, {
    handle(plugin, before, command) {
      before(command)
      handle(plugin, command as Command)
    },
  } as Parameters<typeof changed<P>>[2])

/** Must be called before a model is made. */
export function registerFill(): void {
  const core = registries.corePluginRegistry as unknown as PluginRegistry
  const views = registries.coreViewsPluginRegistry as unknown as PluginRegistry
  const inverse = registries.inverseCommandRegistry as unknown as { add(name: string, of: (command: Command) => Command[]): void }
  for (const type of [FILL, PLACE]) {
    ;(coreTypes as Set<string>).add(type)
    ;(lockedSheetAllowedCommands as Set<string>).add(type)
    // What is undone is the command as a whole.
    inverse.add(type, (command) => [command])
  }
  extended<CellPlugin>(core, 'cell', (plugin, command) => {
    if (!isFill(command)) return
    const cells: Record<GridCellId, object> = {}
    const places: (readonly [number, number, GridCellId])[] = []
    for (const [row, col, content, style, format] of command.cells) {
      const cell = plugin.importCell(command.sheetId, content, command.styles[style], command.formats[format])
      cells[cell.id] = cell
      places.push([row, col, cell.id])
    }
    plugin.history.update('cells', command.sheetId, cells)
    plugin.dispatch(PLACE, { sheetId: command.sheetId, places })
  })
  extended<SheetPlugin>(core, 'sheet', (plugin, command) => {
    if (!isPlace(command)) return
    const { sheetId, places } = command
    for (const { cells } of plugin.sheets[sheetId]!.rows) for (const id of Object.values(cells)) if (id !== undefined) plugin.history.update('cellPosition', id, undefined)
    const rows = plugin.sheets[sheetId]!.rows.map((row) => ({ ...row, cells: {} as Record<number, GridCellId> }))
    for (const [row, col, id] of places) {
      rows[row]!.cells[col] = id
      plugin.history.update('cellPosition', id, { row, col, sheetId })
    }
    plugin.history.update('sheets', sheetId, 'rows', rows)
  })
  extended(core, 'borders', (plugin, command) => {
    if (!isFill(command)) return
    const grid: GridBorder[][] = []
    // Where two cells say something else of the edge between them, the lower one counts, as when a sheet is loaded.
    for (const [row, col, , , , number] of [...command.cells].sort(([one], [other]) => one - other)) {
      if (number < 0) continue
      const border = command.borders[number]!
      const column = (grid[col] ??= [])
      column[row] = { ...border }
      if (border.top && column[row - 1]) delete column[row - 1]!.bottom
    }
    plugin.history.update('borders', command.sheetId, grid)
  })
  extended<SizePlugin>(core, 'headerSize', (plugin, command) => {
    if (!isFill(command)) return
    const sizes = plugin.sizes[command.sheetId]!
    for (const [dimension, list] of [
      ['COL', command.cols],
      ['ROW', command.rows],
    ] as const) {
      const next = [...sizes[dimension]]
      for (const [at, size] of list) next[at] = size
      plugin.history.update('sizes', command.sheetId, dimension, next)
    }
  })
  extended<RowSizePlugin>(views, 'row_size', (plugin, command) => {
    if (isFill(command)) plugin.initializeSheet(command.sheetId)
  })
  changed<EvaluationPlugin>(views, 'evaluation', {
    beforeHandle(plugin, before, command) {
      before(command)
      if (isFill(command as Command)) plugin.shouldRebuildDependenciesGraph = true
    },
  })
}
