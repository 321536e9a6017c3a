/** WORKING by name and cells: the steps of any function as rows. It brings the reader of formulas, so a host fetches it when it is first asked for. */
import { badInput } from '../errors.js'
import { calculationOf, callByName, WORKING, type CellResult } from './callByName.js'
import { calculations } from './index.js'
import { workingRows } from './working.js'

export function callWorking([name, ...cells]: readonly unknown[]): CellResult {
  const given = Array.isArray(name) ? (name.flat()[0] as unknown) : name
  const calculation = typeof given === 'string' ? calculationOf(given.trim()) : undefined
  if (!calculation) throw badInput('Function (function)', `the name of a function, such as "${calculations[0]!.id}"`, given)
  return workingRows(calculation, trimmed(cells, calculation.names.length))
}

/** Any function, WORKING among them. */
export const callAny = (id: string, cells: readonly unknown[]): CellResult => (id === WORKING ? callWorking(cells) : callByName(id, cells))

/** Hosts may hand over empty places after the last argument; they mean nothing. */
function trimmed(cells: readonly unknown[], most: number): readonly unknown[] {
  let length = cells.length
  while (length > most && (cells[length - 1] === null || cells[length - 1] === undefined || cells[length - 1] === '')) length--
  return cells.slice(0, length)
}
