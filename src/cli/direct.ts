/** A formula that is one call of a cell function over plain values is answered without a grid: what a person types most, in a fraction of the time. */
import { mayBeLeftOut } from '../calc.js'
import { calculationOf, WORKING } from '../calc/callByName.js'
import { callAny } from '../calc/callWorking.js'
import { InputError } from '../errors.js'

export interface Answer {
  value?: unknown
  rows?: unknown[][]
  error?: string
  message?: string
}

const CALL = /^=?\s*CISTERN\.([A-Z][A-Z0-9]*)\s*\(([^()]*)\)\s*$/i
/** A number, a text without quotes and strokes inside, or nothing. */
const PLAIN = /^\s*(?:([+-]?\d{1,15}(?:\.\d{1,15})?(?:[eE][+-]?\d{1,2})?)|"([^"\\]*)"|)\s*$/

/** The answer, or undefined where the formula asks for more than this. */
export function directAnswer(text: string): Answer | undefined {
  const [, name, inside] = CALL.exec(text) ?? []
  if (name === undefined) return undefined
  const id = name.toUpperCase()
  const calculation = id === WORKING ? undefined : calculationOf(id)
  if (!calculation && id !== WORKING) return undefined
  const parts = inside!.trim() === '' ? [] : (inside!.match(/(?:"[^"]*"|[^",])+|(?<=,)(?=,|$)|^(?=,)/g) ?? [])
  // Quotes that never close leave signs behind: the grid has the words for that.
  if (parts.length && parts.join(',') !== inside) return undefined
  const values: (string | number | null)[] = []
  for (const part of parts) {
    const [whole, number, words] = PLAIN.exec(part) ?? []
    if (whole === undefined) return undefined
    values.push(number !== undefined ? Number(number) : (words ?? null))
  }
  // How many there must be is the grid's to say.
  if (calculation) {
    const needed = calculation.names.filter((argument) => !mayBeLeftOut(calculation.takes[argument]!)).length
    if (values.length < needed || values.length > calculation.names.length) return undefined
  } else if (!values.length) return undefined
  try {
    const result = callAny(id, values)
    return Array.isArray(result) ? { rows: result } : { value: result }
  } catch (error) {
    if (error instanceof InputError) return { error: error.code, message: error.message }
    throw error
  }
}
