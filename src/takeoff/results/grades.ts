/** How far a figure may be trusted that is worked out from others: one from memory among them stays one. */
import { formula } from '../../formula/formula.js'
import { results } from './index.js'
import type { ResultRule } from './rule.js'

const byName = new Map<string, ResultRule>(results.map((rule) => [rule.name, rule]))
const known = new Map<string, boolean>()

/** Whether a figure is from memory, or any that it is worked out from. */
export function restsOnMemory(name: string): boolean {
  const rule = byName.get(name)
  if (!rule) return false
  let rests = known.get(name)
  if (rests === undefined) {
    rests = rule.source.grade === 'from memory' || formula(rule.formula).names.some(restsOnMemory)
    known.set(name, rests)
  }
  return rests
}

/** Behind the grade of a source: a figure that it is used with is from memory. */
const MEMORY_IN_IT = ' *'
export const MEMORY_NOTE = '* worked out with a figure that is from memory'
/** The grade of a result as its sheet says it. */
export const gradeWords = ({ name, source: { grade } }: ResultRule): string => (grade !== 'from memory' && restsOnMemory(name) ? `${grade}${MEMORY_IN_IT}` : grade)
