/** What the test record of a job says: each test of its log, whether a later one of the tank has passed, and the lines that stop the work. */
import { formula } from '../formula/formula.js'
import type { Value } from '../formula/value.js'
import { callFromFormula } from './call.js'
import type { Design } from './design.js'
import { readingRules } from './readings.js'
import type { Takeoff } from './takeoff.js'
import { LOG_ENTRIES, logLoss, logSound, logVerdict } from './vacuumLog.js'

export const isTankCode = (code: string): boolean => /^T\d+$/.test(code)
/** A test done again: which tank, and what was mended, is written in. */
export const isAgainCode = (code: string): boolean => /^R[1-9]\d?$/.test(code)
const MOST_AGAIN = 99
const SPARE_AGAIN = 2

export const tankCodes = (design: Design): string[] => Array.from({ length: design.number('TankCount') }, (_, at) => `T${at + 1}`)
/** Lines that somebody wrote in, and two more. */
export const againCodes = ({ crew }: Pick<Takeoff, 'crew'>): string[] => {
  const written = Object.keys(crew.cells).filter(isAgainCode)
  const spare = Array.from({ length: MOST_AGAIN }, (_, at) => `R${at + 1}`).filter((code) => !written.includes(code))
  return [...written, ...spare.slice(0, SPARE_AGAIN)].sort((one, other) => Number(one.slice(1)) - Number(other.slice(1)))
}

/** A formula over cells of its row and names of the job, worked out now. */
export const workedOut = (design: Design, text: string, here: ReadonlyMap<string, Value>): Value =>
  formula(text).evaluate({ value: (name) => (here.has(name) ? here.get(name)! : design.value(name)), call: callFromFormula })

/** The tank of a line: the first word of what was written on one that is done again. */
const firstWord = (words: string): string => words.split(/[ ,:]/)[0]!.toUpperCase()

export interface TankTest {
  code: string
  verdict: Value
  /** A later test of its tank has passed. A tank drawn too far down is passed by none. */
  hasPassedSince: boolean
}
/** The tests of the log in their order. */
export function testsOf({ design, crew }: Takeoff): readonly TankTest[] {
  const tests = [...tankCodes(design), ...againCodes({ crew })].map((code) => {
    const entries = crew.cells[code] ?? {}
    // The tank is named beside its test, and written in beside one that is done again.
    const which = isTankCode(code) ? code : (entries.text ?? '')
    const here = new Map<string, Value>([['which', which], ...LOG_ENTRIES.map((name) => [name, entries[name] ?? null] as const)])
    here.set('loss_inHg', workedOut(design, logLoss, here))
    return {
      code,
      tank: firstWord(String(which)),
      verdict: workedOut(design, logVerdict, here),
      isSound: workedOut(design, logSound, here) === true,
    }
  })
  return tests.map(({ code, tank, verdict, isSound }, at) => ({
    code,
    verdict,
    hasPassedSince: isSound && tests.slice(at + 1).some((later) => later.verdict === 'pass' && later.tank === tank),
  }))
}

/** Lines of the record whose readings say stop, those left out whose tank has passed a later test. */
export function stopsOfRecord(takeoff: Takeoff): string[] {
  const { design, crew } = takeoff
  const open = testsOf(takeoff).filter(({ verdict, hasPassedSince }) => verdict === 'stop' && !hasPassedSince)
  const lines = readingRules.filter(
    ({ when, verdict, code }) => verdict && design.holds(when) && workedOut(design, verdict, new Map([['reading', crew.cells[code]?.reading ?? null]])) === 'stop',
  )
  return [...open, ...lines].map(({ code }) => code)
}
