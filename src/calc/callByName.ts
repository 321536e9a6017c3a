/** One door for every caller that has a function name and cells: the spreadsheet hosts, the command line, WORKING. */
import { callWithCells, type AnyCalculation, type Columns, type Series } from '../calc.js'
import { badInput } from '../errors.js'
import { bareName } from '../units.js'
import { calculations } from './index.js'
import { workingRows } from './working.js'

export const NAMESPACE = 'CISTERN'
export const WORKING = 'WORKING'

export type CellResult = number | string | (number | string)[][]

const byId = new Map<string, AnyCalculation>(calculations.map((calculation) => [calculation.id, calculation]))

/** The calculation of a name, with or without the namespace; undefined when there is none. */
export const calculationOf = (name: string): AnyCalculation | undefined => byId.get(name.toUpperCase().replace(`${NAMESPACE}.`, ''))

/** Calls a function by its id with cells in argument order; a spilled result comes with its header row. */
export function callByName(id: string, cells: readonly unknown[]): CellResult {
  if (id === WORKING) return callWorking(cells)
  const calculation = calculationOf(id)
  if (!calculation) throw badInput('', `a function of ${NAMESPACE}`, id)
  return asCells(calculation, callWithCells(calculation, cells), cells)
}

function callWorking([name, ...cells]: readonly unknown[]): CellResult {
  const given = Array.isArray(name) ? (name.flat()[0] as unknown) : name
  const calculation = typeof given === 'string' ? calculationOf(given.trim()) : undefined
  if (!calculation) throw badInput('Function (function)', `the name of a function, such as "${calculations[0]!.id}"`, given)
  return workingRows(calculation, trimmed(cells, calculation.names.length))
}

/** Hosts may hand over empty places after the last argument; they mean nothing. */
function trimmed(cells: readonly unknown[], most: number): readonly unknown[] {
  let length = cells.length
  while (length > most && (cells[length - 1] === null || cells[length - 1] === undefined || cells[length - 1] === '')) length--
  return cells.slice(0, length)
}

function asCells(calculation: AnyCalculation, result: unknown, cells: readonly unknown[]): CellResult {
  if (typeof result === 'number' || typeof result === 'string') return result
  if (calculation.spills) {
    const columns = result as Columns
    const names = Object.keys(calculation.spills as object)
    const length = Object.values(columns)[0]!.length
    // A column that the run leaves out is the number of the period.
    return [names.map(bareName), ...Array.from({ length }, (_, at) => names.map((name) => columns[name]?.[at] ?? at + 1))]
  }
  const list = Array.from(result as Series)
  const source = cells[calculation.names.indexOf(calculation.shapeOf!)]
  const isRow = Array.isArray(source) && source.length === 1 && Array.isArray(source[0])
  return isRow ? [list] : list.map((value) => [value])
}
