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

function answer(work: () => CellResult): CellResult {
  try {
    return work()
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    const code = error.code === '#N/A' ? CustomFunctions.ErrorCode.notAvailable : CustomFunctions.ErrorCode.invalidValue
    throw new CustomFunctions.Error(code, error.message)
  }
}

/** Excel hands over every parameter, null where it was left out, and its own invocation object last. */
export function bindFunctions(): readonly string[] {
  for (const { id, names } of calculations)
    CustomFunctions.associate(id, (...args: unknown[]) => {
      throwFirstError(args)
      return answer(() => callByName(id, args.slice(0, names.length)))
    })
  CustomFunctions.associate(WORKING, async (name: unknown, rest: unknown) => {
    const args = [name, ...(Array.isArray(rest) ? rest : [])]
    throwFirstError(args)
    const { callWorking } = await import(/* webpackChunkName: "working" */ '../src/calc/callWorking.js')
    return answer(() => callWorking(args))
  })
  return [...calculations.map(({ id }) => id), WORKING]
}
