/** Cell functions in formulas: how they are named there, called, and what units they take and give. */
import { callByName, calculationOf } from '../calc/callByName.js'
import { InputError } from '../errors.js'
import type { Signature } from '../formula/dimensions.js'
import { FormulaError, type Value } from '../formula/value.js'
import { bareName } from '../units.js'

/** A function name in a formula: a cell function, or one column of what it spills ("PUMPDUTY.FLOW"). */
export function readCall(name: string): { id: string; column?: string } | undefined {
  const [id, column] = name.replace(/^CISTERN\./, '').split('.')
  const calculation = calculationOf(id!)
  if (!calculation) return undefined
  if (column === undefined) return calculation.spills ? undefined : { id: calculation.id }
  const found = Object.keys(calculation.spills ?? {}).find((key) => bareName(key).toUpperCase() === column)
  return found ? { id: calculation.id, column: found } : undefined
}

/** Calls a cell function from a formula; a refusal becomes the error a cell would show. */
export function callFromFormula(name: string, args: readonly Value[]): Value | undefined {
  const call = readCall(name)
  if (!call) return undefined
  try {
    const result = callByName(call.id, args)
    if (!Array.isArray(result)) return result
    const header = result[0]!
    if (call.column === undefined) return result.map((row) => row[0]!)
    return result[1]![header.indexOf(bareName(call.column))]!
  } catch (error) {
    if (error instanceof InputError) return new FormulaError(error.code, error.message)
    throw error
  }
}

/** The units of a cell function's arguments and result, as the check of dimensions wants them. A curve carries its own. */
export const signatureOf: Signature = (name) => {
  const call = readCall(name)
  const calculation = call && calculationOf(call.id)
  if (!calculation) return undefined
  return { takes: calculation.names.map((argument) => (calculation.takes[argument].kind === 'curve' ? 'Curve' : argument)), gives: call.column ?? calculation.resultName }
}
