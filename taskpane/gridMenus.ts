/** Menus of the grid that lead to what a saved workbook would not hold, or to nothing that a job has use for. */
import { registries } from '@odoo/o-spreadsheet'

interface Menu {
  children: readonly { id?: string }[]
}
/** Charts, pivot tables and pictures are made in the spreadsheet program that the file goes to: those of an opened file stay. */
const without: Readonly<Record<string, readonly string[]>> = {
  insert: ['insert_chart', 'insert_carousel', 'insert_pivot', 'insert_image'],
  view: ['view_irregularity_map'],
}

/** Must be called before the grid is shown. */
export function trimMenus(): void {
  for (const [name, ids] of Object.entries(without)) {
    const menu = registries.topbarMenuRegistry.get(name) as unknown as Menu
    menu.children = menu.children.filter(({ id }) => id === undefined || !ids.includes(id))
  }
}
