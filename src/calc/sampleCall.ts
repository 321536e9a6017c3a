/** A call as it is typed into a cell, with the sample arguments of the definition. */
import type { AnyCalculation } from '../calc.js'
import { NAMESPACE } from './callByName.js'

export function sampleCall(calculation: AnyCalculation): string {
  const written = (value: unknown): string => {
    if (Array.isArray(value)) return `{${value.map((item) => (Array.isArray(item) ? item.join(',') : String(item))).join(';')}}`
    return typeof value === 'string' ? `"${value}"` : String(value)
  }
  return `=${NAMESPACE}.${calculation.id}(${calculation.example.map(written).join(',')})`
}
