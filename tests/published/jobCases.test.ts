/**
 * Rules of the job against figures that others published: each rule is given the published case as its inputs, as if
 * a row had said so. Daily balances on open records stand in takeoff/dailyRain.test.ts, single functions in figures.json.
 */
import { describe, expect, it } from 'vitest'
import type { Value } from '../../src/formula/value.js'
import { readOffice } from '../../src/takeoff/office.js'
import { results, type ResultName } from '../../src/takeoff/results/index.js'
import { workJob } from '../../src/takeoff/takeoff.js'
import { leastRow, officeWith } from '../support/office.js'

const office = readOffice(officeWith({ Jobs: [{ ...leastRow, TankCount: 2 }] }))
const { design } = workJob(office, office.tables.Jobs[0]!)
/** What a rule gives when these names have these values. */
const ruled = (name: ResultName, names: Readonly<Record<string, Value>>): Value => {
  const known = new Set(results.find((rule) => rule.name === name)!.formula.match(/\b[A-Z][A-Za-z]+(?:_[A-Za-z0-9_]+)?\b/g))
  for (const given of Object.keys(names)) expect(known, `${name} asks for ${given}`).toContain(given)
  return design!.evaluateWith(results.find((rule) => rule.name === name)!.formula, names)
}

type Grade = 'read' | 'restated' | 'derived' | 'from memory'
interface Case {
  rule: ResultName
  given: Readonly<Record<string, Value>>
  expected: number
  /** What the printing of the figure, or the source's own constants, leave open. */
  within: number
  why: string
  source: string
  grade: Grade
}
const cases: Case[] = []
const from = (source: string, grade: Grade, why: string, list: readonly [rule: ResultName, given: Case['given'], expected: number, within: number][]) => {
  for (const [rule, given, expected, within] of list) cases.push({ rule, given, expected, within, why, source, grade })
}

from('US Army TM 5-813-9, figure 4-5', 'read', 'printed to three digits; the source takes g as 32, 0.6 %', [
  ['CriticalTime_s', { LineLength_ft: 3400, WaveSpeed_fps: 2690 }, 2.53, 0.005],
  ['LineSurge_psi', { LineRunning_psi: 0, ActualVelocity_fps: 6.48, WaveSpeed_fps: 2690 }, 236.1, 2],
  ['LineSurge_psi', { LineRunning_psi: 20 / 2.31, ActualVelocity_fps: 6.48, WaveSpeed_fps: 2690 }, 245, 2],
])
from('Moser, Buried Pipe Design, pp. 34-35: H-20, two wheels of 16,000 lb, 72 in apart; spread of 1.75 x cover from memory', 'derived', 'printed without decimals', [
  ...(
    [
      [1, 5224],
      [2, 1306],
      [3, 580],
      [4, 352],
      [6, 185],
      [8, 114],
    ] as const
  ).map(
    ([cover, psf]) =>
      [
        'WheelPressure_psf',
        { WheelSpread_ft: ruled('WheelSpread_ft', { Cover_ft: cover }), WheelLoad_lb: 16_000, WheelApart_ft: ruled('WheelApart_ft', {}), Impact: 1 },
        psf,
        0.6,
      ] as [ResultName, Case['given'], number, number],
  ),
])
from('Moser, Buried Pipe Design, pp. 34-35: impact by cover', 'read', 'a factor of a table', [
  ...(
    [
      [0.5, 1.5],
      [1, 1.5],
      [1.5, 1.35],
      [2, 1.35],
      [2.5, 1.15],
      [3, 1.15],
      [3.1, 1],
    ] as const
  ).map(([Cover_ft, impact]) => ['Impact', { TrafficRank: 3, Cover_ft }, impact, 0] as [ResultName, Case['given'], number, number]),
])
from('29 CFR 1926 Subpart P, Appendix B, Table B-1', 'read', 'a slope of a table', [
  ['Batter', { PitSoil: 'A' }, 0.75, 0],
  ['Batter', { PitSoil: 'B' }, 1, 0],
  ['Batter', { PitSoil: 'C' }, 1.5, 0],
])
from(
  'International Plumbing Code, drain tables of the 2015 and of the 2012 edition, restated',
  'restated',
  'n 0.010 and 0.015 stand for the tables: 2 %, and 5 % on the safe side',
  [
    ['DrainCapacity_gpm', { DrainBore_in: 4.026, DrainSlope_in_per_ft: 0.125, DrainRoughness: ruled('DrainRoughness', { DrainTable: 'newer IPC' }) }, 115, 2.3],
    ['DrainCapacity_gpm', { DrainBore_in: 4.026, DrainSlope_in_per_ft: 0.125, DrainRoughness: ruled('DrainRoughness', { DrainTable: 'older IPC or UPC' }) }, 78.2, 3.9],
  ],
)
from('AS/NZS 4130, PE100, in a maker’s sheet: 20, 25, 30, 35, 40, 45, 50 °C', 'read', 'a factor of a table', [
  ...(
    [
      [68, 1],
      [77, 1],
      [86, 0.94],
      [95, 0.89],
      [104, 0.84],
      [113, 0.79],
      [122, 0.76],
    ] as const
  ).map(([WaterTemperature_F, left]) => ['LineDerating', { WaterTemperature_F }, left, 0] as [ResultName, Case['given'], number, number]),
])
from('wave speed 4660 / √(1 + (K / E)(DR − 2)) for DR 9 and DR 11; moduli from memory', 'derived', 'printed without decimals', [
  ['WaveSpeed_fps', { WaterLinePipe: 'PE IPS 200' }, 1203, 0.5],
  ['WaveSpeed_fps', { WaterLinePipe: 'PE IPS 160' }, 1069, 0.5],
])
from(
  'Oregon Health Authority, seasonal start-up: 50 mg/L for tanks; Alberta Health Services, disinfecting a cistern: 8 pints of 5.25 % a 1,000 gal',
  'read',
  '1 L for 1,000 L is 52.5 mg/L where 50 is meant: 5 %',
  [
    ['BleachRate_pint', { BleachShare: 50 / (0.0525 * 1e6), Thousand_gal: 1000 }, 8, 0.4],
    ['BleachShare', { Dose_mg_per_L: 52.5, BleachStrength: 0.0525, FullStrength_mg_per_L: 1e6 }, 0.001, 1e-12],
  ],
)
from('Washington stormwater center 4.9.7, keeping dose: 1/4 cup of 5.25 % a 1,000 gal works out at 0.82 mg/L', 'derived', 'printed to two digits', [
  ['BleachShare', { Dose_mg_per_L: 0.82, BleachStrength: 0.0525, FullStrength_mg_per_L: 1e6 }, 1 / 64 / 1000, 1e-7],
])
from('Water Well Journal, tank selection: starts a day, 300 below 1 hp, 50 above 5 hp', 'read', 'a figure of a list', [
  ['StartsAllowed_per_day', { PumpPower_hp: 0.75 }, 300, 0],
  ['StartsAllowed_per_day', { PumpPower_hp: 7.5 }, 50, 0],
])
from('worst cycle of a pressure tank at half flow, 4 V / Q (derived); drawdown 10 and 20 gal at 10 gpm', 'derived', 'exact', [
  ['ShortestCycle_min', { FlowAtMean_gpm: 10, Drawdown_gal: 10 }, 4, 1e-12],
  ['ShortestCycle_min', { FlowAtMean_gpm: 10, Drawdown_gal: 20 }, 8, 1e-12],
  ['StartsMost_per_day', { ShortestCycle_min: 6.25 }, 230, 0.5],
  ['StartsMost_per_day', { ShortestCycle_min: 12.5 }, 115, 0.5],
])
from('8.34 lb a gallon, 2.655e6 ft·lb a kWh', 'derived', 'printed to four digits', [
  ['PumpEnergy_kWh_per_kgal', { TotalHead_ftw: 1, PumpEfficiency: 1 }, (8.34 * 1000) / 2.655e6, 5e-7],
])
from('Hydraulic Institute, Engineering Data Library, section I-A: 2.31 ft a psi', 'read', 'exact', [['ShutOff_psi', { CurveHead_ftw: [231, 100] }, 100, 1e-12]])
from('eng-tips.com 357608: a tank of 68 x 126 x 64 in displaces 19,802 lb of water on 59.5 ft²', 'read', 'printed without decimals', [
  ['FloatDepth_ft', { FirmWeight_lb: 19_802, TankPlan_ft2: (68 * 126) / 144, SecondFirm_lb: 19_802, SecondPlan_ft2: (68 * 126) / 144 }, 64 / 12, 0.001],
  ['TankPlan_ft2', { TankLength_ft: 126 / 12, TankWidth_ft: 68 / 12 }, 59.5, 0.05],
])
from(
  'eng-tips.com 340390: 340 ft³ of concrete, 384 ft³ of soil, 980 ft³ whole, 150 and 110 lb/ft³: weights over displaced water 1.52',
  'read',
  'printed to three digits; the soil put in as weight',
  [
    [
      'UpliftSafety',
      { GroundwaterAssumed: 0, WaterAboveBase_ft: 9.8, TankLength_ft: 10, TankWidth_ft: 10, TankHeight_ft: 9.8, TankWeight_lb: 340 * 150 + 384 * 110, Cover_ft: 0 },
      1.52,
      0.006,
    ],
  ],
)
from('US Standard Atmosphere: 28.86, 27.82, 24.90 and 20.58 inHg at 1,000, 2,000, 5,000 and 10,000 ft', 'from memory', 'printed to a hundredth', [
  ...(
    [
      [1000, 28.86],
      [2000, 27.82],
      [5000, 24.9],
      [10_000, 20.58],
    ] as const
  ).map(([Altitude_ft, air]) => ['Barometer_inHg', { Altitude_ft, SeaAir_inHg: 29.92, StandardHeight_ft: 145_442 }, air, 0.02] as [ResultName, Case['given'], number, number]),
])
from('code forum, 250 % of 9.1 A is 22.75 A, next standard size 25 A (Table 430.52 and 240.6)', 'read', 'a size of a list', [['Breaker_A', { MotorCurrent_A: 9.1 }, 25, 0]])
from('code, Table 430.251: a 1 hp motor at 230 V draws about 48 A locked, six times its 8 A', 'from memory', 'the usual figure', [
  ['StartDropShare', { StartMultiple: 6, FeederDrop_V: (2 * 8 * 250 * 1.24) / 1000, Voltage_V: 230 }, (2 * 48 * 250 * 1.24) / 1000 / 230, 1e-9],
])
from('29 CFR 1926.1425 and load charts: the radius counts from the crane’s axis; 40 ft pit, 3 ft setback, 18 ft outriggers, 15 ft along: √(32² + 15²)', 'derived', 'exact', [
  ['PickRadius_ft', { PitTopWidth_ft: 40, CraneSetback_ft: 3, OutriggerBase_ft: 18, PickOffset_ft: 15 }, Math.sqrt(1249), 1e-9],
])
from('Michigan State University, Rigging: 2,000 lb on two legs at 60°, 1,154 lb each', 'read', 'printed without decimals; 1.154 for 1.1547', [
  ['LegPull_lb', { HeaviestTank_lb: 2000 }, 1154, 1],
])
from('mercury at 32 °F: 0.491154 psi an inch; 4 inHg on a lid of 10 x 6 ft and on a plate of 24 in', 'derived', 'printed to a tenth', [
  ['LidForce_lbf', { TankPlan_ft2: 10 * 6, SecondPlan_ft2: 10 * 6, TestVacuum_inHg: 4 }, 60 * 144 * 4 * 0.491154, 1],
  ['PlateForce_lbf', { TankOpening_in: 24, SecondOpening_in: 24, TestVacuum_inHg: 4 }, 888.8, 0.1],
])
from(
  'The Driller, pressure tank drawdown: 0.2953 of the volume between 30 and 50 psi charged to 28, 0.258 between 40 and 60 charged to 38',
  'derived',
  'printed to four digits; 14.696 psi of air for 14.7',
  [
    ['DrawdownShare', { DrawdownTest_gal: 100, CutIn_psi: 30, CutOut_psi: 50, SeaAir_psi: 14.696, Barometer_inHg: 29.92, SeaAir_inHg: 29.92, Charge_psi: 28 }, 0.2953, 0.0001],
    ['DrawdownShare', { DrawdownTest_gal: 100, CutIn_psi: 40, CutOut_psi: 60, SeaAir_psi: 14.696, Barometer_inHg: 29.92, SeaAir_inHg: 29.92, Charge_psi: 38 }, 0.258, 0.0005],
  ],
)
from('IPC Chapter 11 figures: a square foot under an inch an hour yields 0.0104 gpm; an inch on it is 0.623 gal', 'restated', 'printed to three digits', [
  ['RoofFlow_gpm', { CatchmentArea_ft2: 1000, RainIntensity_in_per_h: 4 }, 41.6, 0.1],
  ['FirstWash_gal', { CatchmentArea_ft2: 1000, FirstFlush_in: 1 }, 623, 0.5],
])
from('FEMA P-259: 62.4 lb/ft³; Illinois DOT Culvert Manual 3.4: earth 120 lb/ft³', 'read', 'exact', [
  [
    'Bearing_psf',
    { TankWeight_lb: 20_000, TankInside_ft2: 50, TankWaterDepth_ft: 5, EarthWeight_lb_per_ft3: 120, Cover_ft: 2, TankPlan_ft2: 60 },
    (20_000 + 15_600 + 14_400) / 60,
    1e-9,
  ],
  ['DugOut_psf', { EarthWeight_lb_per_ft3: 120, PitDepth_ft: 9 }, 1080, 1e-9],
])

describe('published cases of the job’s terms', () => {
  for (const { rule, given, expected, within, why, source, grade } of cases)
    it(`${rule} ${JSON.stringify(given)}: ${expected} (${source}; ${grade})`, () => {
      const value = ruled(rule, given)
      expect(typeof value, String(value)).toBe('number')
      expect(Math.abs((value as number) - expected), `${value}: ${why}`).toBeLessThanOrEqual(within)
    })
  it('are sixty at least; those on daily records stand beside them in takeoff/dailyRain.test.ts', () => {
    expect(cases.length).toBeGreaterThanOrEqual(60)
  })
})
