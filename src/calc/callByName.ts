/** One door for every caller that has a function name and cells: the spreadsheet hosts and the command line. WORKING has a door of its own beside it. */
import { callWithCells, type AnyCalculation, type Columns, type Series } from '../calc.js'
import { badInput } from '../errors.js'
import { bareName } from '../units.js'
import { calculations } from './index.js'

export const NAMESPACE = 'CISTERN'
export const WORKING = 'WORKING'

export type CellResult = number | string | (number | string)[][]

const byId = new Map<string, AnyCalculation>(calculations.map((calculation) => [calculation.id, calculation]))

/** The calculation of a name, with or without the namespace; undefined when there is none. */
export const calculationOf = (name: string): AnyCalculation | undefined => byId.get(name.toUpperCase().replace(`${NAMESPACE}.`, ''))

/** Calls a function by its id with cells in argument order; a spilled result comes with its header row. */
export function callByName(id: string, cells: readonly unknown[]): CellResult {
  const calculation = calculationOf(id)
  if (!calculation) throw badInput('', `a function of ${NAMESPACE}`, id)
  return asCells(calculation, callWithCells(calculation, cells), cells)
}

function asCells(calculation: AnyCalculation, result: unknown, cells: readonly unknown[]): CellResult {
  if (typeof result === 'number' || typeof result === 'string') return result
  if (calculation.spills) {
    const columns = result as Columns
    const names = Object.keys(calculation.spills as object)
    const length = Object.values(columns)[0]!.length
    const lists = names.map((name) => columns[name])
    const rows: (number | string)[][] = [names.map(bareName)]
    for (let at = 0; at < length; at++) {
      const row: number[] = new Array(lists.length)
      // A column that the run leaves out is the number of the period.
      for (let column = 0; column < lists.length; column++) row[column] = lists[column]?.[at] ?? at + 1
      rows.push(row)
    }
    return rows
  }
  const list = Array.from(result as Series)
  const source = cells[calculation.names.indexOf(calculation.shapeOf!)]
  const isRow = Array.isArray(source) && source.length === 1 && Array.isArray(source[0])
  return isRow ? [list] : list.map((value) => [value])
}
