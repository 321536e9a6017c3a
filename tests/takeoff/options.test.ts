/** A job beside itself: other counts of tanks and named variants are the job as if its row said so. */
import { describe, expect, it } from 'vitest'
import { problemText, ProblemsError } from '../../src/takeoff/fields.js'
import { jobSheetNames } from '../../src/plan/jobSheets.js'
import { readOffice } from '../../src/takeoff/office.js'
import { isPriced, workJob } from '../../src/takeoff/takeoff.js'
import { demoRows, leastRow, officeWith, takeoffOf } from '../support/office.js'

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
  it('have no price while a line of theirs has none', () => {
    const office = readOffice(officeWith({ Jobs: [job], Prices: demoRows('Prices').map((row) => (row.Code === 'STONE-BED' ? { ...row, Price_usd: null } : row)) }))
    const { takeoff } = workJob(office, office.tables.Jobs[0]!)
    expect(isPriced(takeoff!)).toBe(false)
    expect(takeoff!.stair(true).map(({ price }) => price)).toEqual(Array(12).fill(undefined))
    expect(isPriced(takeoffOf(job))).toBe(true)
  })
  it('that name nothing are named at their place', () => {
    expect(refused([{ Job: 'Least', Variant: 'x', Field: 'Colour', Value: 'red' }])).toEqual([
      'Variants, row 6, Field: a column of Jobs other than Job and FormerName, as TankModel; got "Colour".',
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

describe('the stair of tanks', () => {
  it('goes from one tank to twelve; what it meets never falls, its prices are those of the job made so', () => {
    const takeoff = takeoffOf({ ...leastRow, TankCount: 3 })
    const stair = takeoff.stair(true)
    expect(stair.map(({ tanks }) => tanks)).toEqual(Array.from({ length: 12 }, (_, at) => at + 1))
    for (const [at, { met, usable_gal }] of stair.entries()) {
      // Usable storage goes with the count; sums of the balance in another order.
      expect(usable_gal).toBeCloseTo(stair[0]!.usable_gal * (at + 1), 6)
      if (at) expect(met).toBeGreaterThanOrEqual(stair[at - 1]!.met - 1e-9)
    }
    expect(stair[2]).toMatchObject({ price: takeoff.total, met: takeoff.design.number('Reliability'), worst: takeoff.design.number('WorstYearShare') })
    const six = takeoffOf({ ...leastRow, TankCount: 6 })
    expect(stair[5]).toMatchObject({ price: six.total, met: six.design.number('Reliability'), worst: six.design.number('WorstYearShare') })
    // On the sheet those prices stand that the options work out anyway.
    expect(
      takeoff
        .stair(false)
        .filter(({ price }) => price !== undefined)
        .map(({ tanks }) => tanks),
    ).toEqual([2, 3, 4, 5])
  })
})
