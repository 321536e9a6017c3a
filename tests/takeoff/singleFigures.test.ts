/** Single figures and words that no whole job of the other tests shows apart, each reckoned by hand. */
import { describe, expect, it } from 'vitest'
import { inShort } from '../../src/takeoff/changes.js'
import { trenchBedding } from '../../src/calc/earth/trenchBedding.js'
import { dailyBalance } from '../../src/takeoff/dailyBalance.js'
import { problemText, type Problem } from '../../src/takeoff/fields.js'
import { readOffice } from '../../src/takeoff/office.js'
import { readRainDays } from '../../src/takeoff/rainDays.js'
import { demoRows, leastRow, lineOf, officeWith, takeoffOf } from '../support/office.js'

describe('by hand', () => {
  it('an empty tank is lifted from its floor: rise, cover and height less the slab', () => {
    const { design } = takeoffOf({ ...leastRow, WaterLineRise_ft: 10, Cover_ft: 2 })
    // A Quern 1800 is 6.5 ft high on a floor of 6 in.
    expect(design.number('Lift_ftw')).toBeCloseTo(10 + 2 + 6.5 - 0.5, 9)
  })
  it('two inlet tanks and no roof of their own share the storm by half', () => {
    const { design } = takeoffOf({ ...leastRow, TankCount: 2, InletTanks: 2 }, { Catchments: [] })
    expect(design.number('NextFlow_gpm')).toBeCloseTo(design.number('RoofFlow_gpm') / 2, 9)
  })
  it('one roof that drains into the next tank makes it an inlet tank, whatever the others do', () => {
    const roof = (Inlet: string) => ({ Job: 'Least', Area_ft2: 500, Surface: 'metal', Inlet })
    const { design } = takeoffOf({ ...leastRow, TankCount: 3 }, { Catchments: [roof('far'), roof('next')] })
    expect(design.singleOf('InletTanks')).toBe(2)
    expect(design.number('NextShare')).toBeCloseTo(500 / (2000 + 500 + 500), 9)
  })
  it('a drain that is not dug has no deep end', () => {
    // Cover of 4 ft puts the inlet deeper than the line's trench of 24 in, but no drain runs there.
    const { design } = takeoffOf({ ...leastRow, Cover_ft: 4, TrenchDepth_in: 24, InletRun_ft: 0, OverflowRun_ft: 0 })
    expect(design.number('InletDeep_ft')).toBeGreaterThan(2)
    expect(design.number('DeepestTrench_ft')).toBeCloseTo(2, 9)
  })
  it('a trench that lacks earth when its fill is rammed takes it from the pit', () => {
    const { design } = takeoffOf({ ...leastRow, WaterLineRun_ft: 400, TrenchDepth_in: 118, InletRun_ft: 0, OverflowRun_ft: 0 })
    const [dig, fill] = [design.number('TrenchDig_yd3'), design.number('TrenchFill_yd3')]
    // Topsoil comes off first and goes back last, over 400 ft of trench, less what lies in the pit, in a box of 3 ft.
    const own = dig - ((400 - design.number('PitEdge_ft')) * 3 * 0.5) / 27
    expect(fill / design.number('CompactedShare')).toBeGreaterThan(own)
    expect(design.number('TrenchSpoil_yd3')).toBeCloseTo(own - fill / 0.9, 9)
    const pit = design.number('Dig_yd3') - design.number('PitTopsoilBack_yd3') - design.number('BackfillBank_yd3')
    expect(design.number('Spoil_yd3')).toBeCloseTo(Math.max(0, pit + own - fill / 0.9), 9)
    expect(design.number('ImportBank_yd3')).toBeCloseTo(Math.max(0, fill / 0.9 - own - pit), 9)
  })
  it('the house valve comes with a house that lies half a foot below the water', () => {
    // Full, the water stands its cover and more under the ground at the tanks; the house lies that and 6 in lower.
    const level = takeoffOf({ ...leastRow }).design.number('WaterLevel_ft')
    const job = (below_ft: number) => takeoffOf({ ...leastRow, HouseSet: 'no', WaterLineRise_ft: -level - below_ft })
    expect(job(0.5).design.number('HouseBelow_ft')).toBeCloseTo(0.5, 9)
    expect(lineOf(job(0.5), 'HOUSE-VALVE')?.order).toBe(1)
    expect(lineOf(job(-0.5), 'HOUSE-VALVE')).toBeUndefined()
  })
  it('two tied tanks, one foot apart, come level to a hundredth of a foot', () => {
    const { design } = takeoffOf({ ...leastRow, TankCount: 2 })
    // Falling head between two vessels of the same area A through an orifice (textbook of hydraulics): t = A (1 − √0.01) / (C a √2g), C 0.6; 4 in schedule 40 is 4.026 in wide (ASTM D1785).
    const orifice_ft2 = (Math.PI / 4) * (4.026 / 12) ** 2
    const seconds = (design.number('TankInside_ft2') * (1 - 0.1)) / (0.6 * orifice_ft2 * Math.sqrt(2 * 32.174))
    // The last figure of standard gravity is all that differs.
    expect(design.number('LevelingTime_s')).toBeCloseTo(seconds, 2)
  })
  it('where the storm passes the tie outward, the far tank stands the highest, and no tie’s head is counted twice', () => {
    // Three tanks of three ports, one inlet, 4 in/h on 4,000 ft²: one overflow beside the inlet, one on the next tank.
    const { design } = takeoffOf({ ...leastRow, TankCount: 3, RoofArea_ft2: 4000, RainIntensity_in_per_h: 4, InletTanks: 1 })
    const [far, next, tie] = (['FarHead_ft', 'NextHead_ft', 'TieHead_ft'] as const).map((name) => design.number(name)) as [number, number, number]
    expect(design.number('TieShare')).toBeGreaterThan(0)
    expect(tie).toBeGreaterThan(0.05)
    // What was found keeps both tanks in balance to a hundredth of a foot.
    expect(Math.abs(next + tie - far)).toBeLessThan(0.01)
    // Behind the mouths one drain takes it all: the next tank stands no lower than its head, and the far one higher by the tie.
    expect(design.number('StormRise_ft')).toBeCloseTo(Math.max(far, Math.max(next, design.number('OutletHead_ft')) + tie), 9)
  })
  it('a trunk that one port cannot take splits at the next tank too', () => {
    // 6,000 ft² at 5 in/h are 6,000 x 5 / 96.25 = 312 gpm: one 6 in drain, and two 4 in ports of 231 gpm.
    const tanks = { Tanks: demoRows('Tanks').map((cells) => ({ ...cells, Ports: 6 })), Catchments: [{ Job: 'Least', Area_ft2: 6000, Surface: 'metal', Inlet: 'next' }] }
    const { design } = takeoffOf({ ...leastRow, TankCount: 3, RoofArea_ft2: 1000, RainIntensity_in_per_h: 5, DrainSize_in: 6, DrainSlope_in_per_ft: 0.25 }, tanks)
    expect(design.number('NextFlow_gpm')).toBeCloseTo((6000 * 5) / 96.25, 9)
    expect([design.number('NextInlets'), design.number('NextPorts')]).toEqual([1, 2])
  })
  it('a conduit is filled by the cable and the float’s, each as a circle of its wide side', () => {
    // NEC Chapter 9 Table 1, notes: a 14 AWG cable of the demo is 0.39 in wide, the float’s 0.3 in, 1 in PVC 40 conduit has 0.832 in² inside (Table 4).
    const { design } = takeoffOf({ ...leastRow, CableSize: '14', ConduitSize: '1' })
    expect(design.number('ConduitFill')).toBeCloseTo(((Math.PI / 4) * (0.39 ** 2 + 0.3 ** 2)) / 0.832, 6)
    const none = takeoffOf({ ...leastRow, CableSize: '14', ConduitSize: '1' }, { Cables: [] }).design
    expect([none.number('ConduitFill'), none.verdict('FillVerdict')]).toEqual([0, 'check'])
  })
  it('treatment that loses half a psi is treatment, and ordered', () => {
    expect(lineOf(takeoffOf({ ...leastRow, TreatmentLoss_psi: 0.5 }), 'TREATMENT')?.order).toBe(1)
    expect(lineOf(takeoffOf({ ...leastRow, TreatmentLoss_psi: 0 }), 'TREATMENT')).toBeUndefined()
  })
  it('a year in which nothing is wanted is met in full, and no more', () => {
    const { design } = takeoffOf({ ...leastRow, People: 0 })
    expect(design.number('RecordYears')).toBeGreaterThan(5)
    expect(new Set(design.column('RecordShare'))).toEqual(new Set([1]))
  })
  it('a pipe as wide as its trench can be bedded, a wider one is refused with the width in inches', () => {
    // 2 ft are 24 in.
    expect(trenchBedding.run({ length_ft: 20, width_ft: 2, pipe_in: 24, under_in: 4, over_in: 6 })).toBeCloseTo((20 * ((2 * 34) / 12 - (Math.PI / 4) * 4)) / 27, 9)
    expect(() => trenchBedding.run({ length_ft: 20, width_ft: 2, pipe_in: 24.1, under_in: 4, over_in: 6 })).toThrow(/0 to the width of the trench, 24 in; got 24\.1/)
  })
  it('a change that moves no money adds +$0.00', () => {
    expect(inShort([{ what: 'line', code: 'TAPE', words: 'Tape', from: null, to: null, money: 0 } as never], 2)).toBe('since revision 2 +$0.00; 1 change of lines')
  })
  it('a record of 365 days in a tank of 100 gal: every figure of its year', () => {
    // 3 in on the first day and on the last, 10 gal an inch of it less 0.5 in of first flush: 25 gal each. 1 gal a day is drawn from the day after.
    const rain_in = Float64Array.from({ length: 365 }, (_, day) => (day === 0 || day === 364 ? 3 : 0))
    const record = { years: [{ year: 2001, rain_in, missing: 0 }] } as never
    const { years, longestShort } = dailyBalance(record, { inch_gal: 10, flush_in: 0.5, flushEach: 'day', use_gal_per_day: Array.from({ length: 12 }, () => 1), storage_gal: 100 })
    expect(years).toEqual([
      {
        year: 2001,
        days: 365,
        rain_in: 6,
        caught_gal: 50,
        wanted_gal: 365,
        supplied_gal: 25,
        spilled_gal: 0,
        met: 25,
        // 25 days run into January 26th: it ends dry, and so does every month but December, which ends with the last day's rain.
        dryMonths: 11,
      },
    ])
    // From January 27th to the end.
    expect(longestShort).toBe(365 - 26)
  })
})

it('a sheet whose cells formulas read takes the figure itself, no text that means it; what is empty, a date, or written larger is no such text', () => {
  const [first, second, third, ...more] = demoRows('Tanks')
  const tanks = [{ ...first, Length_ft: '10 ft' }, { ...second, Traffic: '' }, { ...third, Traffic: null }, { ...third, Model: 'Another', Traffic: 'NONE' }, ...more]
  const prices = demoRows('Prices').map((row, at) => (at === 0 ? { ...row, PriceDate: '2026-03-01' } : row))
  const problems = (isLive: boolean) => readOffice(officeWith({ Tanks: tanks, Prices: prices }), { isLive }).problems.map(problemText)
  expect(problems(true)).toEqual(['Tanks, row 6, Length_ft: the number 10 itself: formulas read this cell; got "10 ft".'])
  expect(problems(false)).toEqual([])
})

it('a day may bring 75 in of rain and no more; 1,905 mm are as much', () => {
  // Somewhat more than the most that was ever read: 71.85 in at Foc-Foc, La Réunion, in 1966 (World Meteorological Organization; from memory).
  const refused = (heading: string, value: number) => {
    const problems: Problem[] = []
    readRainDays({ sheet: 'RainDays', columns: ['Date', heading], rows: [{ row: 6, cells: { Date: '2001-01-01', [heading]: value } }] }, problems)
    return problems.map(({ allowed }) => allowed)
  }
  expect(refused('Here', 75)).toEqual([])
  expect(refused('Here', 75.01)).toEqual(['rain of a day, 0 to 75 in, T for a trace'])
  expect(refused('Here (mm)', 1905)).toEqual([])
  expect(refused('Here (mm)', 1905.1)).toEqual(['rain of a day, 0 to 1905 mm, T for a trace'])
})
