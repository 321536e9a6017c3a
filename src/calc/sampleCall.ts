/** A call as it is typed into a cell, with the sample arguments of the definition. */
import { mayBeLeftOut, type AnyCalculation } from '../calc.js'
import { bareName } from '../units.js'
import { NAMESPACE } from './callByName.js'

export function sampleCall(calculation: AnyCalculation): string {
  const written = (value: unknown): string => {
    if (Array.isArray(value)) return `{${value.map((item) => (Array.isArray(item) ? item.join(',') : String(item))).join(';')}}`
    return typeof value === 'string' ? `"${value}"` : String(value)
  }
  return `=${NAMESPACE}.${calculation.id}(${calculation.example.map(written).join(',')})`
}

/** The function with the names of its arguments; those that may be left out stand in brackets. */
export const signature = ({ id, names, takes }: AnyCalculation): string =>
  `${id}(${names.map((name) => (mayBeLeftOut(takes[name]) ? `[${bareName(name)}]` : bareName(name))).join(', ')})`
