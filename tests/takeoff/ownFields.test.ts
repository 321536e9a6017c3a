/** Columns of Jobs and sections of Items that an office added: used like ours, on every sheet and in Calc. */
import { describe, expect, it } from 'vitest'
import type { SheetCell } from '../../src/hosts/host.js'
import type { SheetPlan } from '../../src/plan/plan.js'
import { keptFrom } from '../../src/plan/kept.js'
import { jobSheetNames, jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { takeoffWorkbook } from '../../src/plan/workbook.js'
import { problemText } from '../../src/takeoff/fields.js'
import { readOffice, type RawOffice } from '../../src/takeoff/office.js'
import { makeTakeoff, workJob } from '../../src/takeoff/takeoff.js'
import { hasCalc } from '../support/calc.js'
import { demoRows, leastRow, lineOf, officeWith } from '../support/office.js'
import { compareWithCalc } from '../support/recalculate.js'

const made = { date: '2026-11-26', revision: 1, version: 'test' }
const fence = {
  Code: 'RAILING',
  Section: 'Fence and gates',
  Description: 'Fence {FenceColor}',
  Quantity: 'FenceRun_ft',
  When: 'FenceRun_ft>0',
  Unit: 'ft',
  Why: '{FenceRun_ft} of fence, {Gates} gates',
}
const gate = {
  Code: 'GATE',
  Section: 'fence and gates',
  Description: 'Gate',
  Quantity: 'Gates*2',
  When: 'FenceColor="green"',
  Unit: 'each',
  Price: '40*Gates',
  Why: 'two leaves a gate',
}

/** The demo with a job, two rows of Items over its own columns, and those columns. */
function officeOf(
  own: Readonly<Record<string, unknown>>,
  items: readonly Readonly<Record<string, unknown>>[] = [fence, gate],
  more: Parameters<typeof officeWith>[0] = {},
): RawOffice {
  const raw = officeWith({
    ...more,
    Jobs: [{ ...leastRow, ...own }],
    Items: [...demoRows('Items'), ...items],
    Prices: [...demoRows('Prices'), { Code: 'RAILING', Unit: 'ft', Price_usd: 11 }],
  })
  return { ...raw, Jobs: { ...raw.Jobs, columns: [...raw.Jobs.columns, 'FenceRun_ft', 'FenceColor', 'Gates', 'Customer', 'constructor'] } }
}
const takeoffFrom = (raw: RawOffice) => {
  const office = readOffice(raw)
  return makeTakeoff(office, office.tables.Jobs[0]!)
}
const problemsFrom = (raw: RawOffice) => {
  const office = readOffice(raw)
  return workJob(office, office.tables.Jobs[0]!).problems.map(problemText)
}

/** A sheet as a host reads it. */
function contentOf(plan: SheetPlan | undefined): SheetCell[][] | undefined {
  if (!plan) return undefined
  const rows = Array.from({ length: Math.max(...plan.cells.map(({ row }) => row)) }, () => Array.from({ length: 20 }, (): SheetCell => ({ value: null })))
  for (const { row, column, value, formula } of plan.cells) rows[row - 1]![column - 1] = { value, ...(formula === undefined ? {} : { formula }) }
  return rows
}

describe('fields of the office’s own', () => {
  const own = { FenceRun_ft: 66, FenceColor: 'green', Gates: 3, Customer: 'somebody' }

  it('a number with a unit, a text and a plain number are used in quantity, condition, price and words', () => {
    const takeoff = takeoffFrom(officeOf(own))
    // By hand: 66 ft at $11; three gates, two leaves each, at $40 times the gates.
    expect(lineOf(takeoff, 'RAILING')).toMatchObject({ net: 66, amount: 726, description: 'Fence green', why: '66 ft of fence, 3 gates' })
    expect(lineOf(takeoff, 'GATE')).toMatchObject({ net: 6, price: 120, amount: 720 })
    expect(readOffice(officeOf(own)).ownFields).toEqual(['FenceRun_ft', 'FenceColor', 'Gates'])
  })
  it('a length may be typed with its unit; an empty one is 0 and its line is left out', () => {
    // By the exact foot of 0.3048 m: 6.096 m are 20 ft.
    expect(lineOf(takeoffFrom(officeOf({ ...own, FenceRun_ft: '6.096 m' })), 'RAILING')?.net).toBeCloseTo(20, 9)
    expect(lineOf(takeoffFrom(officeOf({ ...own, FenceRun_ft: null })), 'RAILING')).toBeUndefined()
  })
  it('a text where the name says feet is refused at its place', () => {
    expect(problemsFrom(officeOf({ ...own, FenceRun_ft: 'long' })).join()).toMatch(/^Jobs, row 6, FenceRun_ft: -1,000,000,000 to 1,000,000,000 ft; got "long"/)
  })
  it('feet and square feet are told apart as in rules of ours', () => {
    expect(problemsFrom(officeOf(own, [{ ...fence, Quantity: 'FenceRun_ft*WaterLineRun_ft' }])).join()).toContain('Items')
  })
  it('a name that no column has stays refused', () => {
    expect(problemsFrom(officeOf(own, [{ ...fence, Quantity: 'FenceLength_ft' }])).join()).toContain('no field or result is called FenceLength_ft')
  })
  it('a variant may change one', () => {
    const raw = officeOf(own, undefined, { Variants: [{ Job: 'Least', Variant: 'more gates', Field: 'Gates', Value: '4' }] })
    expect(
      lineOf(
        takeoffFrom(raw)
          .options()
          .find(({ name }) => name === 'more gates')!.takeoff!,
        'GATE',
      ),
    ).toMatchObject({ net: 8, price: 160 })
  })
  it('they stand on Design; one that is typed over there is asked into the row of Jobs', () => {
    const raw = officeOf(own)
    const takeoff = takeoffFrom(raw)
    const sheets = jobSheets(takeoff, standardPlaces(), 'native', made)
    const names = jobSheetNames('Least')
    const kept = keptFrom(names, (wanted) => {
      const plan = sheets.find(({ name }) => name === wanted)
      if (!plan) return undefined
      const rows = contentOf(plan)!
      const gates = rows.find((cells) => cells[2]!.value === 'Gates')
      if (gates) gates[3] = { value: 5 }
      return rows
    })
    expect(kept.inputs.map(({ name, value, asMade }) => [name, value, asMade])).toEqual([['Gates', '5', '3']])
    const office = readOffice(raw)
    expect(workJob(office, office.tables.Jobs[0]!, kept).problems.map(problemText).join()).toContain('Gates: 3 as it was made, or the same in the row of Jobs')
  })
  it('a section of the office’s own stands behind ours with its sum, and nothing of it is read back as typed', () => {
    const raw = officeOf(own)
    const takeoff = takeoffFrom(raw)
    // By hand: $726 of railing and $720 of gates; one name in other capitals is one section.
    expect(takeoff.sections.at(-1)).toMatchObject({ section: 'Fence and gates', total: 1446 })
    const sheets = jobSheets(takeoff, standardPlaces(), 'native', made)
    const words = (kind: string) => sheets.find((plan) => plan.kind === kind)!.cells.map(({ value }) => value)
    expect(words('takeoff')).toEqual(expect.arrayContaining(['FENCE AND GATES', 'Fence and gates, total', 'Fence and gates']))
    expect(words('quote')).toContain('Fence and gates')
    const kept = keptFrom(jobSheetNames('Least'), (wanted) => contentOf(sheets.find(({ name }) => name === wanted)))
    expect([kept.added, kept.overrides, kept.problems]).toEqual([[], {}, []])
  })
  it('a name of ours is meant whatever its capitals; the word of a sum is refused', () => {
    expect(takeoffFrom(officeOf(own, [{ ...fence, Section: 'EARTH WORK' }])).sections.filter(({ section }) => /earth/i.test(section))).toHaveLength(1)
    expect(problemsFrom(officeOf(own, [{ ...fence, Section: 'Total' }])).join()).toContain('Section: a name that no sum of the takeoff has; got "Total"')
  })
  it.runIf(hasCalc)('Calc works out the same figures', async () => {
    const raw = officeOf(own)
    const { differences, compared } = await compareWithCalc(takeoffWorkbook(raw, [takeoffFrom(raw)], 'native', made), 1e-9)
    expect(differences).toEqual([])
    expect(compared).toBeGreaterThan(500)
  })
})
