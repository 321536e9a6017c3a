/** Words of a job on its sheets and drawings: sentences that stay live, and figures with their units. */
import { formula } from '../formula/formula.js'
import type { Design } from '../takeoff/design.js'
import type { JobName } from '../takeoff/names.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import { templateFormula, type Words } from '../takeoff/template.js'
import { decimalsOf, symbolOf } from '../units.js'

/** The formula behind words that take in figures; nothing for plain words. `cell` gives the place of a name as the sheet sees it. */
export function liveWords(words: Words, cell: (name: string) => string): { formula?: string } {
  const text = templateFormula(words)
  return text === undefined ? {} : { formula: formula(text).render(cell) }
}

/** Behind the words of a verdict on Design stands its limit. */
export const LIMIT = ' Limit: '
/** The place of the words of a verdict on Design, limit and all. */
export const wordsPlace = (verdict: string): string => `${verdict} in words`
/** A sentence of Design, without its limit, on another sheet: written out there once more it could be longer than a formula may be. */
export const verdictSentence = (verdict: string, cell: (name: string) => string): string => {
  const words = cell(wordsPlace(verdict))
  return `LEFT(${words},FIND("${LIMIT}",${words})-1)`
}

/** A figure of the job with its unit, as drawings say it. */
export const measureOf =
  (design: Design) =>
  (name: JobName): string => {
    const value = design.singleOf(name)
    const symbol = symbolOf(name)
    return typeof value === 'number'
      ? `${value.toLocaleString('en-US', { maximumFractionDigits: symbol === 'gal' ? 0 : Math.min(1, decimalsOf(name)) })} ${symbol}`.trim()
      : String(value)
  }

/** Units that are words, and take an s where there are several; abbreviations take none. */
const COUNTED: readonly string[] = ['day', 'job', 'kit', 'load', 'pint', 'quart', 'roll', 'set', 'stick', 'ton', 'truck']
/** A unit beside a quantity, as people say it: 5 days. */
export const unitBeside = (quantity: number | null, unit: string): string => (quantity !== 1 && COUNTED.includes(unit) ? `${unit}s` : unit)

/** What a job goes without is somebody's all the same: a sign, a flap. */
export const SET_BY_OTHERS = 'Not of this job, set by others: '
/** What a job leaves out, in words. */
export const leftOutWords = ({ leftOut }: Pick<Takeoff, 'leftOut'>): string => leftOut.join('; ')
