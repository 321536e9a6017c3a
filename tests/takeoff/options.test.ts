/** A job beside itself: other counts of tanks and named variants are the job as if its row said so. */
import { describe, expect, it } from 'vitest'
import { problemText, ProblemsError } from '../../src/takeoff/fields.js'
import { jobSheetNames } from '../../src/plan/jobSheets.js'
import { leastRow, takeoffOf } from '../support/office.js'

const job = { ...leastRow, TankCount: 2, RainIntensity_in_per_h: 1 }
const variants = [
  { Job: 'Least', Variant: 'larger', Field: 'TankModel', Value: 'Quern 2600' },
  { Job: 'Least', Variant: 'larger', Field: 'tankcount', Value: '1' },
  { Job: 'Wicket Mill', Variant: 'of another job', Field: 'Cover_ft', Value: '1' },
]
const refused = (Variants: readonly Record<string, unknown>[]): string[] => {
  try {
    takeoffOf(job, { Variants })
  } catch (error) {
    if (error instanceof ProblemsError) return error.problems.map(problemText)
    throw error
  }
  return []
}

describe('options', () => {
  it('are the job with one tank fewer, one and two more, and its variants', () => {
    const options = takeoffOf(job, { Variants: variants }).options()
    expect(options.map(({ name }) => name)).toEqual(['1 tank', '3 tanks', '4 tanks', 'larger'])
    for (const [at, TankCount] of [1, 3, 4].entries()) expect(options[at]!.takeoff!.total).toBe(takeoffOf({ ...job, TankCount }).total)
    expect(options[3]!.takeoff!.total).toBe(takeoffOf({ ...job, TankModel: 'Quern 2600', TankCount: 1 }).total)
  })
  it('that name nothing are named at their place', () => {
    expect(refused([{ Job: 'Least', Variant: 'x', Field: 'Colour', Value: 'red' }])).toEqual([
      'Variants, row 6, Field: a column of Jobs other than Job, as TankModel; got "Colour".',
    ])
    expect(refused([{ Job: 'Least', Variant: 'x', Field: 'TankCount', Value: 'many' }])[0]).toMatch(/^Variants, row 6, Value: /)
    expect(refused([{ Job: 'Least', Variant: 'x', Field: 'TankModel', Value: 'Quern 9000' }])[0]).toMatch(
      /^Variants, row 6, Value: a name in the first column of Tanks: Quern 1200/,
    )
  })
  it('and every other sheet have a name that a workbook takes, also for the longest name of a job', () => {
    const names = Object.values(jobSheetNames('x'.repeat(23)))
    expect(Math.max(...names.map((name) => name.length))).toBeLessThanOrEqual(31)
    expect(new Set(names).size).toBe(names.length)
  })
})
