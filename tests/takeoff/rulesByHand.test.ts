/** Rules of the job with named figures put in, each against hand arithmetic: what stands between a cell function and a verdict. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { callByName } from '../../src/calc/callByName.js'
import type { Value } from '../../src/formula/value.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { stepsOf } from '../../src/takeoff/crewSteps.js'
import { readOffice } from '../../src/takeoff/office.js'
import { results, type ResultName } from '../../src/takeoff/results/index.js'
import { rulesOf } from '../../src/takeoff/itemRules.js'
import { ruleOfCode } from '../../src/takeoff/ruleOfCode.js'
import { makeTakeoff, workJob, type Takeoff } from '../../src/takeoff/takeoff.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import { jobView } from '../../src/takeoff/view.js'
import { demoRows, demoTakeoff, leastRow, lineOf, officeWith, takeoffOf } from '../support/office.js'

/** Figures of rules that are a bare number, a second time, each with its grade and where it is from. */
const figures = JSON.parse(readFileSync(join(import.meta.dirname, '../data/figures.json'), 'utf8')) as Readonly<Record<string, readonly [value: number, from: string]>>

const office = readOffice(officeWith({ Jobs: [{ ...leastRow, TankCount: 2 }] }))
const { design } = workJob(office, office.tables.Jobs[0]!)
const ruled = (name: ResultName, given: Readonly<Record<string, Value>>): number => design!.evaluateWith(results.find((rule) => rule.name === name)!.formula, given) as number
const words = (takeoff: Takeoff, kind: string): string =>
  jobSheets(takeoff, standardPlaces(), 'native', { date: '2026-11-27', revision: 1, version: 'test' })
    .find((plan) => plan.kind === kind)!
    .cells.map(({ value }) => String(value ?? ''))
    .join('\n')

describe('rules by hand', () => {
  // NEC Table 430.251(B), design B, over Table 430.250, both from memory: the largest of a group, no more than four hundredths over each.
  it.each([
    [0.5, 23 / 2.5],
    [0.75, 25 / 3.2],
    [1, 30 / 4.2],
    [2, 50 / 6.8],
    [5, 92 / 15.2],
  ])('a three-phase motor of %s hp starts at %s times full load', (PumpPower_hp, ratio) => {
    const figured = ruled('StartThree', { PumpPhases: 3, PumpPower_hp })
    expect(figured).toBeGreaterThanOrEqual(ratio - 1e-9)
    expect(figured).toBeLessThanOrEqual(1.04 * ratio)
    expect(ruled('StartThree', { PumpPhases: 1, PumpPower_hp })).toBe(0)
  })
  it.each<[ResultName, Readonly<Record<string, Value>>, number, number, string]>([
    ['StartDropShare', { StartMultiple: 6, StartThree: 7.4, FeederDrop_V: 5, Voltage_V: 230 }, (7.4 * 5) / 230, 1e-12, 'the larger multiple'],
    ['StartDropShare', { StartMultiple: 3, StartThree: 7.4, FeederDrop_V: 5, Voltage_V: 230 }, (3 * 5) / 230, 1e-12, 'a soft starter, typed'],
    [
      'BlockedRise_ft',
      { OverflowCount: 2, BlockedAtInlet: 1, BlockedNext: 0, FarFlow_gpm: 10, NextFlow_gpm: 0, RoofFlow_gpm: 10, BlockedShare: 0, BlockedTie_ft: 0, OutletHead_ft: 0.9 },
      0.9,
      1e-12,
      'the drain behind the mouths',
    ],
    [
      'StormRise_ft',
      { OverflowsAtInlet: 0, OverflowsNext: 1, FarHead_ft: 0, NextHead_ft: 0.3, TieShare: 0.5, TieHead_ft: 0.2, OutletHead_ft: 0.5 },
      0.7,
      1e-12,
      'the drain, and the tie to the far tank',
    ],
    ['TrunkHead_ft', { OverflowRun_ft: 0, RoofFlow_gpm: 160 }, 0, 1e-12, 'no pipe behind the mouths'],
    ['InletFall_in', { InletRun_ft: 20, DrainSlope_in_per_ft: 0.25, DownspoutRise_ft: 6, FilterDrop_in: 36 }, 36, 1e-12, '72 in of ground, of which the filter takes 36'],
    // Hydraulic Institute 9.8, from memory: 4 + 0.574 x 24 / 4^1.5; the factor is printed to three digits.
    ['Submergence_in', { HouseFlow_gpm: 8, DutyFlow_gpm: 24, SleeveBore_in: 4 }, 4 + (0.574 * 24) / 8, 0.01, 'the flow that comes'],
    [
      'SecondLidHoles_lb',
      { SecondOpenings: 2, SecondOpening_in: 30, TankLid_in: 6, Concrete_lb_per_ft3: 150 },
      2 * (Math.PI / 4) * 2.5 ** 2 * 0.5 * 150,
      1e-9,
      'two holes of 30 in in 6 in of concrete',
    ],
    // From memory: UFC 3-220-05 keeps water 2 ft at the least below the bottom of a pit.
    ['WaterNear', { PitWater: 'dry', GroundwaterDepth_ft: 11, PitDepth_ft: 9, WaterClear_ft: 2 }, 0, 0, 'two feet under the pit'],
    ['WaterNear', { PitWater: 'dry', GroundwaterDepth_ft: 10.99, PitDepth_ft: 9, WaterClear_ft: 2 }, 1, 0, 'a hundredth less'],
    ['WaterNear', { PitWater: 'dry', GroundwaterDepth_ft: 10.996, PitDepth_ft: 9, WaterClear_ft: 2 }, 0, 0, 'two feet as they are printed'],
    ['WaterClear_ft', {}, 2, 0, 'UFC 3-220-05, from memory'],
    ['WaterNear', { PitWater: 'dry', GroundwaterDepth_ft: 9, PitDepth_ft: 9, WaterClear_ft: 2 }, 1, 0, 'at its bottom'],
    ['WaterNear', { PitWater: 'wet', GroundwaterDepth_ft: 8.9, PitDepth_ft: 9, WaterClear_ft: 2 }, 0, 0, 'in it: another matter'],
    ['RisersInEarth_yd3', { FirstTanks: 2, Risers_ft2: 5, SecondTanks: 1, SecondRisers_ft2: 14, Cover_ft: 3 }, ((2 * 5 + 14) * 3) / 27, 1e-9, 'through the cover'],
    ['EarthInWater_lb_per_ft3', { EarthWeight_lb_per_ft3: 130 }, 67.6, 1e-9, 'less the water'],
    ['WaterOutsideAllowed_ft', { TankWaterOutside_ft: 5, SecondWaterOutside_ft: 3 }, 3, 0, 'the stricter maker'],
    // NEC Chapter 9, Table 4: 1 in PVC 40 has 0.832 in²; three of four widths, and the float’s cable of 0.3 in.
    ['ConduitFillLeast', { CableWide_in: 0.96, CableCores: 3, ConduitSize: '1', FloatCable_in: 0.3 }, ((Math.PI / 4) * (0.72 ** 2 + 0.3 ** 2)) / 0.832, 1e-6, 'the listed width'],
    ['FirstFill_in', { CommissionWater_gal: 1000, RowInside_ft2: 100 }, ((1000 * 231) / 1728 / 100) * 12, 1e-9, 'over all tanks'],
    ['Breaker_A', { PumpCurrent_A: 9.9, MotorCurrent_A: 9.9, TableCurrent_A: 6.9 }, 20, 0, 'NEC 430.52 on the current of the table: 250 % of 6.9 is 17.3'],
  ])('%s of %j', (name, given, byHand, within, why) => {
    expect(Math.abs(ruled(name, given) - byHand), `${ruled(name, given)}: ${why}`).toBeLessThanOrEqual(within)
  })
  it('uplift by the figured weight: each model with its own risers and the holes of its own lid', () => {
    const same = { GroundwaterAssumed: 0, WaterAboveBase_ft: 8, TankHeight_ft: 6.5, Cover_ft: 2, EarthInWater_lb_per_ft3: 57.6 }
    const first = { TankLength_ft: 10, TankWidth_ft: 6, WeightFigured_lb: 17_433, LidHoles_lb: 236, Risers_ft2: 5 }
    const second = { SecondLength_ft: 8, SecondWidth_ft: 5, SecondFigured_lb: 60_000, SecondLidHoles_lb: 736, SecondRisers_ft2: 14 }
    // 1.5 ft of the risers stand in the water.
    expect(ruled('UpliftFigured', { ...same, ...first, ...second })).toBeCloseTo((17_433 - 236 + (60 - 5) * 2 * 57.6) / (62.4 * (60 * 6.5 + 5 * 1.5)), 9)
    expect(ruled('UpliftFigured', { ...same, ...first, ...second, WeightFigured_lb: 90_000, SecondFigured_lb: 15_900 })).toBeCloseTo(
      (15_900 - 736 + (40 - 14) * 2 * 57.6) / (62.4 * (40 * 6.5 + 14 * 1.5)),
      9,
    )
  })
  it('uplift of two models: the one that is held less governs, be it the heavier for its plan', () => {
    const same = { GroundwaterAssumed: 0, WaterAboveBase_ft: 7.1, TankHeight_ft: 6.5, Cover_ft: 4, EarthInWater_lb_per_ft3: 57.6 }
    const first = { TankLength_ft: 8, TankWidth_ft: 6, TankWeight_lb: 15_700, Risers_ft2: (Math.PI / 4) * 2.5 ** 2 }
    // 334 lb/ft² against 327 of the first, and two risers of 42 in where earth would stand.
    const second = { SecondLength_ft: 10, SecondWidth_ft: 6, SecondWeight_lb: 20_040, SecondRisers_ft2: 2 * (Math.PI / 4) * 3.5 ** 2 }
    const held = (weight: number, plan: number, risers: number) => (weight + (plan - risers) * 4 * 57.6) / (62.4 * (plan * 6.5 + risers * 0.6))
    expect(ruled('UpliftSafety', { ...same, ...first, ...second, SecondTanks: 0 })).toBeCloseTo(held(15_700, 48, first.Risers_ft2), 9)
    expect(ruled('UpliftSafety', { ...same, ...first, ...second, SecondTanks: 1 })).toBeCloseTo(held(20_040, 60, second.SecondRisers_ft2), 9)
    expect(ruled('UpliftSafety', { ...same, ...first, ...second, SecondTanks: 1, SecondWeight_lb: 30_000 })).toBeCloseTo(held(15_700, 48, first.Risers_ft2), 9)
  })
  it('a crew fills no tank higher than it is, whatever would hold it down', () => {
    const takeoff = takeoffOf(
      { ...leastRow, TankCount: 2, GroundwaterDepth_ft: 1, SoilClass: 'C' },
      { Tanks: demoRows('Tanks').map((row) => ({ ...row, Weight_lb: Math.round(Number(row.Weight_lb) * 0.92) })) },
    )
    const { design } = takeoff
    const step = stepsOf(design, []).find(({ code }) => code === 'G1')!
    expect(design.number('BallastHeld_in')).toBe(Math.min(design.number('Ballast_in'), design.number('BallastMost_in')))
    expect(design.words(step.figure!)).toBe(`${design.words('{BallastHeld_in}')} in each tank`)
  })
  it('a line by hand is priced by its kind, with a code and without one; of a code the narrowest rule counts', () => {
    const office = readOffice(
      officeWith({
        Jobs: [{ ...leastRow, Overhead: 0.1, Markup: 0.2, Tax: 0.06 }],
        House: [{ ...demoRows('House')[0]!, OverheadOn: 'material', MarkupOn: 'material, labor', TaxOn: 'material' }],
      }),
    )
    const added = (['', 'GATE'] as const).map((code) => ({ code, description: 'Gate', unit: 'each', quantity: 1, price: 100, kind: 'material' as const, why: '' }))
    const { priceShare } = makeTakeoff(office, office.tables.Jobs[0]!, { ...nothingKept, added })
    const material = (1 + 0.1 + 0.2) * 1.06
    for (const code of ['Gate', 'GATE', 'STONE-BED']) expect(priceShare(code), code).toBeCloseTo(material, 12)
    expect([priceShare('LABOR'), priceShare('ELECTRICIAN'), priceShare('nobody knows')]).toEqual([1.2, 1, undefined])
    expect(ruleOfCode(rulesOf(office).rules, 'DRAIN-BEND-6')?.key).toBe('DRAIN-BEND{DrainSuffix}')
  })
  it('a pit whose bottom stands a foot over the groundwater is looked into, and says why', () => {
    const soil = (GroundwaterDepth_ft: number) =>
      takeoffOf({ ...leastRow, GroundwaterDepth_ft, SoilClass: 'B' })
        .design.verdicts()
        .find(({ name }) => name === 'SoilVerdict')!
    const depth = takeoffOf(leastRow).design.number('PitDepth_ft')
    expect(soil(depth + 1)).toMatchObject({ verdict: 'check', words: expect.stringContaining('stands less than 2 ft under its bottom') })
    expect(soil(depth + 2)).toMatchObject({ verdict: 'pass', words: expect.not.stringContaining('under its bottom') })
  })
  it('UPLIFTSAFETY: risers stand in no more water than there is cover, and take no more earth than there is', () => {
    expect(callByName('UPLIFTSAFETY', [10, 6, 6.5, 19_200, 20, 2, 57.6, 5])).toBeCloseTo((19_200 + 55 * 2 * 57.6) / (62.4 * (390 + 5 * 2)), 9)
    expect(callByName('UPLIFTSAFETY', [10, 6, 6.5, 19_200, 6.5, 2, 57.6, 100])).toBeCloseTo(19_200 / (62.4 * 390), 9)
  })
  it('openings of the second model are held to its own lid', () => {
    const small = { ...demoRows('Tanks')[1]!, Model: 'Holed', Openings: 4, Opening_in: 36 }
    const Tanks = [...demoRows('Tanks'), small]
    // Four holes of 36 in, 28.3 ft², in a lid of 8 x 6 ft.
    expect(() => takeoffOf({ ...leastRow, TankModel: 'Quern 1800', SecondModel: 'Holed', SecondCount: 1, TankCount: 2 }, { Tanks })).toThrow(
      /Opening_in: openings that leave at least half of the lid, 48 ft²; got 4 of 36 in/,
    )
  })
})

describe('words that hold for some jobs', () => {
  const codes = (more: object, without: readonly string[] = []) => stepsOf(takeoffOf({ ...leastRow, ...more }).design, without).map(({ code }) => code)
  it('steps of the crew: filter, insulation and fence where there are some', () => {
    expect(codes({ FilterShare: 0.9, FrostDepth_in: 12 })).toEqual(expect.arrayContaining(['I3', 'H6', 'B9']))
    const none = codes({ FilterShare: 1, FrostDepth_in: 0 }, ['FENCE'])
    for (const code of ['I3', 'H6', 'B9']) expect(none).not.toContain(code)
  })
  it('fill goes in by layers that a plate compactor reaches through: 8 in, common practice, no source', () => {
    for (const name of ['up to the foot of the drains’ stone, in layers of 8 in, each compacted', 'rock-free, in layers of 8 in, each compacted'])
      expect(words(demoTakeoff('Wicket Mill'), 'crew')).toContain(name)
  })
  it('the handover of a house below the water says what empties the tanks, and lists the check valve', () => {
    expect(words(demoTakeoff('Pipit Hollow'), 'handover')).toContain('The house lies below the water')
    expect(words(demoTakeoff('Wicket Mill'), 'handover')).not.toContain('The house lies below the water')
    expect(words(demoTakeoff('Wicket Mill'), 'handover')).toContain('1 in check valve')
  })
  it('a long site stands in full on what is signed', () => {
    const long = takeoffOf({ ...leastRow, Site: 'Upper Fallow Road 1204, packing shed and two flats behind it' })
    for (const kind of ['quote', 'test', 'handover']) expect(words(long, kind), kind).toContain('Site: Upper Fallow Road 1204, packing shed and two flats behind it.')
    for (const kind of ['quote', 'test', 'handover']) expect(words(demoTakeoff('Wicket Mill'), kind), kind).not.toContain('Site: Wicket Mill workshop')
  })
  it('the test record says where its limits are from', () => {
    expect(words(demoTakeoff('Wicket Mill'), 'test')).toMatch(/X2, X3: ASTM F2164 .*from memory\)[\s\S]*X5: National Electrical Code .*430\.6\(A\)\(2\), 430\.32/)
  })
})

describe('what machines, trenches and silt ask for', () => {
  it('a job takes no fewer days than its pit stands open, however many people come', () => {
    const job = takeoffOf({ ...leastRow, TankCount: 4, SoilClass: 'rock', GroundwaterDepth_ft: 60, CrewSize: 20 })
    // Digging, setting and testing go on in one pit: (excavator + an hour a tank) / 8 and a quarter of a day a tank.
    const days = (job.design.number('Excavator_h') + 4) / 8 + 4 * 0.25
    expect(job.laborHours / 20 / 8).toBeLessThan(days)
    expect(job.crewDays).toBeCloseTo(days, 9)
    // One person alone works longer than the machine.
    const alone = takeoffOf({ ...leastRow, TankCount: 4, GroundwaterDepth_ft: 60, CrewSize: 1 })
    expect(alone.crewDays).toBeCloseTo(alone.laborHours / 8, 9)
  })
  it('silt is pumped out before it reaches what the pump draws through', () => {
    // Half of what lies under the intake, 4 in, or under a tie: 6 in to its centre less half of 4.5 in.
    expect(takeoffOf({ ...leastRow, TankCount: 1 }).design.number('SiltMost_in')).toBeCloseTo(2, 9)
    expect(takeoffOf({ ...leastRow, TankCount: 2 }).design.number('SiltMost_in')).toBeCloseTo((6 - 4.5 / 2) / 2, 9)
  })
  it('a trench that is dug below a footing of the house says so', () => {
    // 29 CFR 1926.651(i). A footing bears at the frost depth at the least, and 12 in down (IRC R403.1.4, from memory): 80 in of trench are 8 in under 72.
    const frost = takeoffOf({ ...leastRow, FrostDepth_in: 72, TrenchDepth_in: 80, InletRun_ft: 0 }).design
    expect(frost.number('TrenchUnder_in')).toBeCloseTo(8, 9)
    expect(frost.cautions().find(({ name }) => name === 'footings')?.words).toContain('a trench goes 8 in below the 72 in where a footing may end')
    const flat = takeoffOf({ ...leastRow, FrostDepth_in: 72, TrenchDepth_in: 72, InletRun_ft: 0 }).design
    expect(flat.number('TrenchUnder_in')).toBe(0)
  })
  it('topsoil: over the lids no more than the cover, in a trench no more than is dug, never hauled or bought', () => {
    // Two tanks of 60 ft² and one of 48 under a quarter of a foot: of 6 in a quarter of a foot is left over there.
    const lids = { PitTopsoil_yd3: 10, FirstTanks: 2, TankPlan_ft2: 60, SecondTanks: 1, SecondPlan_ft2: 48, Topsoil_in: 6 }
    expect(ruled('PitTopsoilBack_yd3', { ...lids, Cover_ft: 0.25 })).toBeCloseTo(10 - (168 * 0.25) / 27, 9)
    expect(ruled('PitTopsoilBack_yd3', { ...lids, Cover_ft: 2 })).toBe(10)
    expect(ruled('TrenchTopsoil_yd3', { TrenchDig_yd3: 1, Trench_ft2: 100, Topsoil_in: 6 })).toBe(1)
    const earth = { Dig_yd3: 100, TrenchDig_yd3: 20, PitTopsoilBack_yd3: 4, TrenchTopsoil_yd3: 3, BackfillBank_yd3: 60, TrenchSpoil_yd3: 2, TrenchFill_yd3: 9, CompactedShare: 0.9 }
    expect(ruled('Spoil_yd3', { ...earth, SoilClass: 'rock' })).toBe(100 + 20 - 4 - 3)
    expect(ruled('Spoil_yd3', { ...earth, SoilClass: 'B' })).toBe(100 - 4 - 60 + 2)
    expect(ruled('ImportBank_yd3', { ...earth, SoilClass: 'B', BackfillBank_yd3: 130 })).toBe(130 - 100 + 4 - 2)
    expect(ruled('ImportBank_yd3', { ...earth, SoilClass: 'rock' })).toBeCloseTo(60 + 9 / 0.9, 9)
    expect(ruled('Hammer_day', { SoilClass: 'rock', DigNet_yd3: 80, DigRate_yd3_per_h: 8, TrenchDig_h: 16, Workday_h_per_day: 8 })).toBe((80 / 8 + 16) / 8)
  })
  it.each([
    [0, 0],
    [4.5, 4.5],
    [5, 5],
    [5.2, 7.2],
    [10, 12],
    [10.1, 14.1],
  ])('a pump that is needed for %d working days, begun on a Monday, runs %d', (working, all) => {
    expect(ruled('Dewater_day', { PumpedFor_day: working })).toBeCloseTo(all, 9)
  })
  it('one tank takes a day of setting and test, and one more when the line is joined', () => {
    expect(ruled('Entry_day', { TankCount: 1, TankSet_h: 1, Workday_h_per_day: 8, TestDay_day: 0.25 })).toBe(2)
  })
  it('a footing bears a foot down where there is no frost; an inlet drain goes under it with its bedding', () => {
    // IRC R403.1.4, from memory.
    expect(ruled('FootingBase_in', { FrostDepth_in: 0, FootingLeast_in: 12 })).toBe(12)
    expect(ruled('TrenchUnder_in', { LineDug_in: 24, InletRun_ft: 10, InletAtHouse_ft: 3, DrainUnder_in: 4, FootingBase_in: 12 })).toBe(36 + 4 - 12)
    expect(ruled('TrenchUnder_in', { LineDug_in: 24, InletRun_ft: 0, InletAtHouse_ft: 3, DrainUnder_in: 4, FootingBase_in: 12 })).toBe(24 - 12)
  })
  it('what a motor gets, and what published tests ask at the least', () => {
    // 219 V less 12 of drop, of 230 on the nameplate; NEMA MG 1, from memory: nine tenths.
    expect(ruled('MotorShare', { Voltage_V: 219, FeederDrop_V: 12, PumpVoltage_V: 230 })).toBeCloseTo(207 / 230, 12)
    expect(ruled('MotorLeastShare', {})).toBe(0.9)
    // EPA 2002 on ASTM C1227 of the 1990s, Minnesota 7080.2010, WAC 246-272B: 2 inHg, 2 min, a tenth.
    expect([ruled('TestLeast_inHg', {}), ruled('TestLeast_min', {}), ruled('TestLossMost', {})]).toEqual([2, 2, 0.1])
    // AASHTO, from memory: 2 ft of earth for wheels near a wall, half of it sideways at 120 lb/ft³; mowers are none.
    expect([0, 1, 2, 3].map((TrafficRank) => ruled('WheelSurcharge_ft', { TrafficRank, WheelEarth_ft: 2 }))).toEqual([0, 0, 2, 2])
    expect(ruled('WallWheels_psf', { WallEarthShare: 0.5, EarthWeight_lb_per_ft3: 120, WheelSurcharge_ft: 2 })).toBe(120)
  })
  it('a figure stands in a rule as it stands in tests/data/figures.json, with where it is from: a limit that moves turns this red', () => {
    const written = results.filter(({ formula }) => /^-?[\d.]+$/.test(formula)).map(({ name, formula }) => [name, Number(formula)] as const)
    expect(Object.fromEntries(written)).toEqual(Object.fromEntries(Object.entries(figures).map(([name, [value]]) => [name, value])))
    for (const { name, formula, source } of results) if (Object.hasOwn(figures, name)) expect(figures[name]![1].split(':')[0], `${name} ${formula}`).toBe(source.grade)
  })
  it('what the ground may bear, the rain of a wet day, joints and cable by hand', () => {
    // NAVFAC DM-7.02, from memory: a third of what breaks the ground is allowed, a half the most ever: 3 / 2 = 1.5.
    expect(ruled('BearingFails_psf', { BearingAllowed_psf: 2000 })).toBe(3000)
    // Driscoll and others, EPA 1989, from memory: half an inch a storm; a wet day of it common practice.
    expect(['day', 'wet spell'].map((FirstFlushEach) => ruled('Shower_in', { FirstFlushEach }))).toEqual([0.35, 0.5])
    expect([0, 1].map((ByGravity) => ruled('LineJoints', { InsertJoints: 6, ByGravity }))).toEqual([6, 4])
    expect([0, 1].map((ByGravity) => ruled('FeedRun_ft', { PowerRun_ft: 100, ByGravity }))).toEqual([100, 0])
    expect([0.72, 1.25].map((CableWide_in) => ruled('CableThick_in', { CableOutside_in: 1, CableWide_in }))).toEqual([1, 1.25])
  })
  it('the deep end of a drain decides, and a rim is flush under wheels', () => {
    // A trench leaves the pit where the straight line from the tank to its other end is by then: a quarter of the way here.
    const run = { PitEdge_ft: 10, InletRun_ft: 40, OverflowRun_ft: 40 }
    expect(ruled('DrainFoot_ft', { PortInvert_ft: 5, DrainUnder_in: 4 })).toBeCloseTo(5 + 4 / 12, 12)
    expect(ruled('InletEnd_ft', { InletAtHouse_ft: 2, DrainUnder_in: 4 })).toBeCloseTo(2 + 4 / 12, 12)
    expect(ruled('InletEdge_ft', { ...run, DrainFoot_ft: 5, InletEnd_ft: 2 })).toBeCloseTo(5 - 3 / 4, 12)
    expect(ruled('OverflowEnd_ft', { OutfallDepth_ft: -1, DrainUnder_in: 4 })).toBe(0)
    expect(ruled('OverflowEdge_ft', { ...run, DrainFoot_ft: 2, OverflowEnd_ft: 4 })).toBeCloseTo(2.5, 12)
    // A run that ends within the pit has no trench beyond it.
    expect(ruled('InletEdge_ft', { ...run, InletRun_ft: 8, DrainFoot_ft: 5, InletEnd_ft: 2 })).toBe(2)
    expect([8, 10, 40].map((InletRun_ft) => ruled('InletBeyond_ft', { InletRun_ft, PitEdge_ft: 10 }))).toEqual([0, 0, 30])
    for (const drain of ['Inlet', 'Overflow'] as const) {
      expect(ruled(`${drain}Deep_ft`, { [`${drain}Edge_ft`]: 4.5, [`${drain}End_ft`]: 2 })).toBe(4.5)
      expect(ruled(`${drain}Deep_ft`, { [`${drain}Edge_ft`]: 2, [`${drain}End_ft`]: 3 })).toBe(3)
      expect(ruled(`${drain}TrenchDepth_ft`, { [`${drain}Edge_ft`]: 2, [`${drain}End_ft`]: 3 })).toBe(2.5)
    }
    // Boards over the row of tanks where frost reaches the water, and 2 ft beside it on every side.
    const cold = takeoffOf({ ...leastRow, Cover_ft: 0, FrostDepth_in: 60, TankCount: 2 })
    const { design: frosty } = cold
    expect(lineOf(cold, 'TANK-INSUL')!.net).toBeCloseTo((frosty.number('RowLength_ft') + 4) * (frosty.number('TankLength_ft') + 4), 9)
    expect(lineOf(takeoffOf({ ...leastRow, Cover_ft: 3, FrostDepth_in: 12 }), 'TANK-INSUL')).toBeUndefined()
    // A subcontractor's yards are all that goes back: backfill, fill of the trenches, and what PLACE has of stone, clean earth and topsoil.
    const paid = takeoffOf({ ...leastRow, TankCount: 3, EarthworkBy: 'subcontract' })
    const yards = (name: Parameters<typeof paid.design.number>[0]) => paid.design.number(name)
    const bought = ['BACKFILL', 'TRENCH-FILL', 'PLACE'].reduce((sum, code) => sum + (lineOf(paid, code)?.net ?? 0), 0)
    expect(bought).toBeCloseTo(
      yards('Backfill_yd3') +
        yards('TrenchFill_yd3') +
        yards('Bed_yd3') +
        yards('PumpEndStone_yd3') +
        yards('DrainBedding_yd3') +
        yards('TrenchEarth_yd3') +
        yards('PitTopsoilBack_yd3') +
        yards('TrenchTopsoil_yd3'),
      9,
    )
    // Past the far tank of 6 ft and a gap of 12 in to the ports of the next: one pipe for its overflows, one for each inlet drain of its own.
    const beside = { TankWidth_ft: 6, SecondWidth_ft: 5, TankGap_in: 12, SecondTanks: 0, NextInlets: 0, OverflowsNext: 2, TankCount: 3 }
    expect(ruled('DrainBeside_ft', beside)).toBe(7)
    expect(ruled('DrainBeside_ft', { ...beside, NextInlets: 1, SecondTanks: 1 })).toBe(2 * 6)
    expect(ruled('DrainBeside_ft', { ...beside, TankCount: 1 })).toBe(0)
    expect(ruled('DrainBeside_ft', { ...beside, OverflowsNext: 0 })).toBe(0)
    // USDA Forest Service, 2005, from memory: a gram of ascorbic acid takes 1 mg/L out of 100 gal. 50 mg/L in 1,000 gal: 500 g, 1.10 lb.
    const rate = ruled('NeutralizerRate_lb', { Thousand_gal: 1000, Dose_mg_per_L: 50, FullStrength_mg_per_L: 1_000_000, NeutralizerRatio: 2.64 }) as number
    // The gram is told to two digits, and a gallon of water is 8.34 lb by 62.4 lb/ft³.
    expect(rate).toBeCloseTo(500 / 453.59237, 2)
    expect(ruled('Neutralizer_lb', { NeutralizerRate_lb: 1.1, Storage_gal: 4500, Thousand_gal: 1000 })).toBeCloseTo(4.95, 12)
    expect([0, 1, 2, 3].map((TrafficRank) => ruled('RimProud_in', { TrafficRank, RiserProud_in: 3 }))).toEqual([3, 3, 0, 0])
  })
  it('depths of the crew are told to the hundredth', () => {
    const { design } = takeoffOf({ ...leastRow, Cover_ft: 2.25, BedThickness_in: 4.5, TankCount: 2 })
    const figures = new Map(jobView('x', { design, takeoff: undefined, problems: [] }, []).crew.map(({ code, figure }) => [code, figure]))
    const height = design.number('TankHeight_ft')
    expect(figures.get('B5')).toBe(`4.5 in thick, top ${Math.round((2.25 + height) * 100) / 100} ft down`)
    expect(figures.get('G3')).toBe('lids 2.25 ft down')
    expect(figures.get('G7')).toBe('cover 2.25 ft')
  })
  it('minutes are said as they are typed', () => {
    const { design } = takeoffOf({ ...leastRow, TestHold_min: 2.5, LeastRun_min: 1.5 })
    const d2 = jobView('x', { design, takeoff: undefined, problems: [] }, []).crew.find(({ code }) => code === 'D2')
    expect(d2?.figure).toBe('4 inHg for 2.5 min')
  })
})
