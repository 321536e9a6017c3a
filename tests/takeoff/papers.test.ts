/** Site, Handover and the head of papers: what is open and why, what was found is asked into the row, what the owner is told. */
import { describe, expect, it } from 'vitest'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { careOf, careTasks } from '../../src/takeoff/careTasks.js'
import { assumableFields } from '../../src/takeoff/assumed.js'
import { problemText } from '../../src/takeoff/fields.js'
import { readOffice } from '../../src/takeoff/office.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import { workJob } from '../../src/takeoff/takeoff.js'
import { demoTakeoff, leastRow, officeWith, takeoffOf } from '../support/office.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const sheetOf = (takeoff: ReturnType<typeof takeoffOf>, kind: string) => jobSheets(takeoff, standardPlaces(), 'native', made).find((plan) => plan.kind === kind)!
const words = (takeoff: ReturnType<typeof takeoffOf>, kind: string) => sheetOf(takeoff, kind).cells.map(({ value }) => String(value ?? ''))

describe('the Site list', () => {
  it('names every figure that nobody may guess, first those without which a verdict does not pass, and none that is given', () => {
    const open = words(takeoffOf({ ...leastRow, RainIntensity_in_per_h: 1 }), 'site')
    for (const name of assumableFields) if (!Object.hasOwn(leastRow, name) && name !== 'RainIntensity_in_per_h') expect(open, name).toContain(name)
    expect(open).not.toContain('RainIntensity_in_per_h')
    expect(open).not.toContain('WaterLineRun_ft')
    expect(open.findIndex((text) => text === 'GroundwaterDepth_ft')).toBeLessThan(open.findIndex((text) => text === 'OutdoorUse_gal_per_day'))
    expect(open.find((text) => text.startsWith('Groundwater depth.'))).toMatch(/Does not pass without it: .*uplift of an empty tank/)
    expect(open).toContain('not known')
    // What Design passes without a figure is not said to wait for it.
    const passing = takeoffOf({ ...leastRow, RainIntensity_in_per_h: 1 })
      .design.verdicts()
      .flatMap(({ label, verdict }) => (verdict === 'pass' ? [label.toLowerCase()] : []))
    for (const text of open) for (const label of (/Does not pass without it: (.*)\.$/.exec(text)?.[1] ?? '').split(', ')) expect(passing, text).not.toContain(label)
    // What no look at a site tells is the office's choice.
    for (const name of ['DailyProof', 'SecondCount', 'FilterShare', 'LeastRun_min', 'WantedReliability', 'Markup']) expect(open).not.toContain(name)
  })
  it('asks what was found into the row of Jobs, and is content once it stands there', () => {
    const work = (job: Record<string, unknown>, done: string) => {
      const office = readOffice(officeWith({ Jobs: [job] }))
      return workJob(office, office.tables.Jobs[0]!, { ...nothingKept, crew: { cells: { 'V FrostDepth_in': { done } }, added: [] } }).problems.map(problemText)
    }
    expect(work(leastRow, '30')).toEqual(['Jobs, row 6, FrostDepth_in: what was found on site, 30, or the Site list cleared of it; got 0.'])
    expect(work({ ...leastRow, FrostDepth_in: 30 }, '30')).toEqual([])
    expect(work(leastRow, '')).toEqual([])
    // In the unit, the spelling and the capitals of whoever wrote it.
    const says = (field: string, row: unknown, done: string) => {
      const office = readOffice(officeWith({ Jobs: [{ ...leastRow, [field]: row }] }))
      return workJob(office, office.tables.Jobs[0]!, { ...nothingKept, crew: { cells: { [`V ${field}`]: { done } }, added: [] } }).problems.map(problemText)
    }
    for (const [field, row, done] of [
      ['Cover_ft', '3 ft', '3 ft'],
      ['Cover_ft', 3, '36 in'],
      ['RoofArea_ft2', '1,800', '1,800'],
      ['WaterLineRun_ft', 3.280839895013123, '1 m'],
      ['PitDrained', 'no', 'No'],
      ['Traffic', 'none', 'None'],
    ] as const)
      expect(says(field, row, done), `${field} ${done}`).toEqual([])
    expect(says('Cover_ft', 3, '35 in')).toHaveLength(1)
    // What equals a default that nobody typed is asked for all the same.
    expect(says('FrostDepth_in', null, '0')).toHaveLength(1)
    expect(says('FrostDepth_in', 0, '0')).toEqual([])
  })
})

describe('the Handover', () => {
  it('tells the owner what never to do, and only the tasks of this job', () => {
    const takeoff = demoTakeoff('Wicket Mill')
    const said = words(takeoff, 'handover').join('\n')
    expect(said).toMatch(/not drinkable without treatment/)
    expect(said).toMatch(/Nobody climbs into a tank/)
    expect(said).toMatch(/breaker off and locked, by a licensed electrician/)
    const codes = careOf(takeoff.design).map(({ code }) => code)
    // No treatment and no preventer in this job.
    expect(codes).not.toContain('K7')
    expect(codes).not.toContain('K10')
    expect(careOf(takeoffOf({ ...leastRow, TreatmentLoss_psi: 6, Backflow: 'preventer', RainIntensity_in_per_h: 1 }).design).map(({ code }) => code)).toEqual(
      expect.arrayContaining(['K7', 'K8', 'K9', 'K10']),
    )
    // Each condition at its limit: no first wash, no frost and no more than that leaves its task out.
    const codesOf = (job: Record<string, unknown>) => careOf(takeoffOf({ ...leastRow, RainIntensity_in_per_h: 1, ...job }).design).map(({ code }) => code)
    expect(codesOf({ FirstFlush_in: 0, FrostDepth_in: 0, TreatmentLoss_psi: 0 }).filter((code) => ['K3', 'K7', 'K8', 'K9', 'K12'].includes(code))).toEqual([])
    expect(codesOf({ FirstFlush_in: 0.01, FrostDepth_in: 1, TreatmentLoss_psi: 0.1, TrenchDepth_in: 36 }).filter((code) => ['K3', 'K7', 'K8', 'K9', 'K12'].includes(code))).toEqual(
      ['K3', 'K7', 'K8', 'K9', 'K12'],
    )
    expect(new Set(careTasks.map(({ code }) => code)).size).toBe(careTasks.length)
  })
})

describe('the head of the office', () => {
  it.each(['quote', 'test', 'handover', 'site'])('stands on the %s', (kind) => {
    expect(words(demoTakeoff('Wicket Mill'), kind)).toContain('Underbrook Cistern Setters')
    expect(words(takeoffOf({ ...leastRow, RainIntensity_in_per_h: 1 }, { House: [] }), kind)).not.toContain('Underbrook Cistern Setters')
  })
  it('says the paper of every sheet, and until when a quote holds', () => {
    const house = { Name: 'X', Paper: 'A4', ValidFor_day: 10 }
    const takeoff = takeoffOf({ ...leastRow, Date: '2026-02-25', RainIntensity_in_per_h: 1 }, { House: [house] })
    for (const plan of jobSheets(takeoff, standardPlaces(), 'native', made)) expect(plan.paper).toBe('A4')
    // Ten days from 25 February of a common year.
    expect(words(takeoff, 'quote').some((text) => text.startsWith('This quote of 2026-02-25 holds until 2026-03-07.'))).toBe(true)
  })
})
