/** Binds every function to Excel: arguments in, results or worded errors out. No arithmetic here. */
import { callByName, WORKING, type CellResult } from '../src/calc/callByName.js'
import { calculations } from '../src/calc/index.js'
import { InputError } from '../src/errors.js'

/** An error of another cell comes in as an object with a code. */
const isCellError = (value: unknown): boolean => typeof value === 'object' && value !== null && !Array.isArray(value) && 'code' in value

function throwFirstError(values: readonly unknown[]): void {
  for (const value of values) {
    if (Array.isArray(value)) throwFirstError(value)
    else if (isCellError(value)) throw value
  }
}

function answer(id: string, args: readonly unknown[]): CellResult {
  throwFirstError(args)
  try {
    return callByName(id, args)
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    const code = error.code === '#N/A' ? CustomFunctions.ErrorCode.notAvailable : CustomFunctions.ErrorCode.invalidValue
    throw new CustomFunctions.Error(code, error.message)
  }
}

/** Excel hands over every parameter, null where it was left out, and its own invocation object last. */
export function bindFunctions(): readonly string[] {
  for (const { id, names } of calculations) CustomFunctions.associate(id, (...args: unknown[]) => answer(id, args.slice(0, names.length)))
  CustomFunctions.associate(WORKING, (name: unknown, rest: unknown) => answer(WORKING, [name, ...(Array.isArray(rest) ? rest : [])]))
  return [...calculations.map(({ id }) => id), WORKING]
}
