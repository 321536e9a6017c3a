/** Which formulas the grid can work out. */
import { registries } from '@odoo/o-spreadsheet'
import { STORED_PREFIX, withoutPrefixes } from '../src/hosts/xlsx/writeSheet.js'

/** Whether the grid knows each function that a formula of a file calls. */
export const gridKnows = (stored: string): boolean =>
  [
    ...withoutPrefixes(stored)
      .replaceAll(STORED_PREFIX, 'CISTERN.')
      .replace(/"[^"]*"/g, '')
      .matchAll(/([A-Z_][\w.]*)\(/gi),
  ].every(([, name]) => registries.functionRegistry.contains(name!.toUpperCase()))
