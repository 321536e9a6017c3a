/** Registers every function with the grid's engine, from the definitions. */
import { addFunction } from '@odoo/o-spreadsheet'
import { allowedText, mayBeLeftOut, type AnyCalculation, type Argument } from '../calc.js'
import { NAMESPACE, WORKING, type CellResult } from '../calc/callByName.js'
import { callAny } from '../calc/callWorking.js'
import { calculations } from '../calc/index.js'
import { InputError } from '../errors.js'
import { bareName } from '../units.js'
import { isGridError } from './gridErrors.js'

interface GridCell {
  value: number | string | boolean | null
  message?: string
}
type GridArgument = GridCell | GridCell[][] | undefined

/** The grid knows no #VALUE!; its own word for it is #ERROR, shown with our message. */
const codeInGrid = { '#VALUE!': '#ERROR', '#N/A': '#N/A' } as const

/** The grid hands a range over as columns of cells; our functions take rows. */
function asCells(argument: GridArgument): unknown {
  if (!Array.isArray(argument)) return argument?.value ?? null
  const height = argument[0]?.length ?? 0
  return Array.from({ length: height }, (_, row) => argument.map((column) => column[row]?.value ?? null))
}

function errorIn(argument: GridArgument): GridCell | undefined {
  const isError = (cell: GridCell | undefined) => isGridError(cell?.value)
  if (!Array.isArray(argument)) return isError(argument) ? argument : undefined
  for (const column of argument) for (const cell of column) if (isError(cell)) return cell
  return undefined
}

function asGridResult(result: CellResult): GridCell | GridCell[][] {
  if (!Array.isArray(result)) return { value: result }
  return result[0]!.map((_, column) => result.map((row) => ({ value: row[column]! })))
}

function compute(id: string, args: GridArgument[]): GridCell | GridCell[][] {
  for (const argument of args) {
    const error = errorIn(argument)
    if (error) return error
  }
  try {
    return asGridResult(callAny(id, args.map(asCells)))
  } catch (error) {
    if (error instanceof InputError) return { value: codeInGrid[error.code], message: error.message }
    throw error
  }
}

const gridArgument = (name: string, spec: Argument) => ({
  name: bareName(name),
  description: `${spec.label}: ${allowedText(name, spec)}${spec.hint ? `; ${spec.hint}` : ''}`,
  type: ['ANY', 'RANGE'],
  acceptMatrix: true,
  acceptErrors: true,
  ...(mayBeLeftOut(spec) ? { optional: true } : {}),
})

let registered = false

export function registerGridFunctions(): void {
  if (registered) return
  registered = true
  const add = (id: string, description: string, args: object[]) =>
    addFunction(`${NAMESPACE}.${id}`, { description, category: 'Cistern', args, compute: (...given: GridArgument[]) => compute(id, given) } as never)
  for (const calculation of calculations as readonly AnyCalculation[]) {
    add(
      calculation.id,
      calculation.summary,
      calculation.names.map((name) => gridArgument(name, calculation.takes[name])),
    )
  }
  add(WORKING, 'The spelled-out working of a function: symbols, values, units, formulas, sources.', [
    { name: 'function', description: 'Name of the function, as text', type: ['STRING'] },
    { name: 'argument', description: 'Its arguments', type: ['ANY', 'RANGE'], acceptMatrix: true, acceptErrors: true, optional: true, repeating: true },
  ])
}
