/** What the customer accepted on the quote, and at which price: a signature stays with the sum that it stood beside. */
import { dollars } from '../rounding.js'
import type { Before } from '../takeoff/changes.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import { openStops, QUOTE_PREFIX } from './stopAnswers.js'

export const ACCEPTED = '6'
/** Before the sum of an acceptance whose price is another now. */
const EARLIER = `${ACCEPTED} at `
export const isEarlierAcceptance = (code: string): boolean => code.startsWith(EARLIER)
export const NO_PRICE = 'no price'

export interface Signed {
  /** The entry that it has while the price is another. */
  code: string
  at: string
  done: string
}
export interface Acceptance {
  /** The price as the quote says it now. */
  at: string
  /** What the customer wrote beside this price. */
  done: string | undefined
  /** What stands for other prices. */
  earlier: readonly Signed[]
  /** The one of them that stood as accepted until now. */
  lapsed: Signed | undefined
}

export function acceptance(takeoff: Takeoff, before: Before | undefined): Acceptance {
  const { cells } = takeoff.crew
  const at = openStops(takeoff) ? NO_PRICE : dollars(takeoff.total)
  const { done, stands } = cells[QUOTE_PREFIX + ACCEPTED] ?? {}
  // Up to 0.16 nothing said which price was accepted: the one that it was made with.
  const stood = String(stands ?? (before ? dollars(before.total) : at))
  const now: Signed | undefined = done === undefined ? undefined : { code: EARLIER + stood, at: stood, done: String(done) }
  const kept = Object.entries(cells).flatMap(([key, { done: said }]): Signed[] => {
    const code = key.slice(QUOTE_PREFIX.length)
    return key.startsWith(QUOTE_PREFIX) && isEarlierAcceptance(code) && said !== undefined ? [{ code, at: code.slice(EARLIER.length), done: String(said) }] : []
  })
  const lapsed = now && now.at !== at ? now : undefined
  const counts = now && !lapsed ? now : kept.find((one) => one.at === at)
  const earlier = new Map<string, Signed>()
  for (const one of [...kept.filter((known) => known !== counts), ...(lapsed ? [lapsed] : [])]) {
    // Two names at one sum are both somebody's.
    const known = earlier.get(one.code)
    earlier.set(one.code, known && known.done !== one.done ? { ...one, done: `${known.done}; ${one.done}` } : one)
  }
  return { at, done: counts?.done, lapsed, earlier: [...earlier.values()] }
}
