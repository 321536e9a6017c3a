/** What the grid works out anew for all sheets at every cell that is typed, and need not: a workbook of fifty takeoffs has seven hundred. */
import { registries } from '@odoo/o-spreadsheet'
import { FILL } from './gridFill.js'
import { changed, type GridCommand, type GridPlugin, type PluginRegistry } from './gridPlugins.js'

interface ColorsPlugin extends GridPlugin {
  shouldUpdateColors: boolean
  finalize(): void
  getCustomColors(): string[]
  computeCustomColors(): string[]
  tryToAddColors(colors: string[]): void
}
interface HeaderPositionsPlugin extends GridPlugin {
  headerPositions: Record<string, unknown>
  getters: { getSheetIds(): string[]; getTables(sheetId: string): unknown[] }
}

/** Must be called before a model is made. */
export function registerQuick(): void {
  // The colors in use, for the list of a color picker: gathered when it opens.
  changed<ColorsPlugin>(registries.coreViewsPluginRegistry as unknown as PluginRegistry, 'custom_colors', {
    finalize: () => undefined,
    getCustomColors(plugin, before) {
      if (plugin.shouldUpdateColors) plugin.tryToAddColors(plugin.computeCustomColors())
      plugin.shouldUpdateColors = false
      return before()
    },
  })
  // Where rows and columns begin: on the sheet of the cell, and on those whose filters may hide rows by it.
  changed<HeaderPositionsPlugin>(registries.statefulUIPluginRegistry as unknown as PluginRegistry, 'header_positions', {
    handle(plugin, before, command) {
      const { type, sheetId: changedId } = command as GridCommand & { sheetId?: string }
      if (type !== 'UPDATE_CELL' && type !== FILL) return before(command)
      for (const sheetId of plugin.getters.getSheetIds()) if (sheetId === changedId || plugin.getters.getTables(sheetId).length) delete plugin.headerPositions[sheetId]
      return undefined
    },
  })
}
