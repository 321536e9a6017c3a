/** Rows that an engineer of another office tried: what a field changes moves what it costs, and nothing is chosen for what no choice can change. By hand arithmetic, house figures as printed. */
import { describe, expect, it } from 'vitest'
import { demoRows, leastRow, lineOf, takeoffOf } from '../support/office.js'

const site = {
  ...leastRow,
  RoofArea_ft2: 3600,
  RoofSurface: 'metal',
  TankCount: 3,
  Cover_ft: 2,
  GroundwaterDepth_ft: 12,
  SoilClass: 'B',
  FootingAway_ft: 40,
  FrostDepth_in: 18,
  InletRun_ft: 50,
  OverflowRun_ft: 50,
  OutfallDrop_ft: 6,
  RainIntensity_in_per_h: 4,
  WaterLineRun_ft: 140,
  WaterLineRise_ft: 8,
  HouseFlow_gpm: 8,
  HousePressure_psi: 45,
  PowerRun_ft: 150,
}
const of = (row: object, more = {}) => takeoffOf({ ...site, ...row }, more)

describe('trenches', () => {
  it('deep and wide ones take their hours by the yard, dug and filled', () => {
    const hours = (row: object) => {
      const { design } = of({ WaterLineRun_ft: 600, PowerRun_ft: 600, WaterLineSize: '1-1/4', ...row })
      const [dig, fill, run] = [design.number('TrenchDig_yd3'), design.number('TrenchFill_yd3'), design.number('TrenchRun_ft')]
      return { trench: design.number('Trench_h'), dig, fill, run, hammer: design.number('Hammer_day') }
    }
    // 700 ft at 60 ft an hour, while a yard takes longer than none: 0.17 yd³ dug a foot.
    expect(hours({ TrenchDepth_in: 36 }).trench).toBeCloseTo(700 / 60, 9)
    const deep = hours({ TrenchDepth_in: 144 })
    // 600 ft x 3 ft in a box x 12 ft = 800 yd³ and the drains.
    expect(deep.dig).toBeGreaterThan(800)
    expect(deep.trench).toBeCloseTo((deep.dig + deep.fill) / 40, 9)
    const rock = hours({ TrenchDepth_in: 96, SoilClass: 'rock' })
    expect(rock.trench).toBeCloseTo(rock.dig / 8 + rock.fill / 40, 9)
    expect(rock.hammer).toBeGreaterThan(rock.dig / 8 / 8)
  })
  it('a trench deeper than a dry pit, in groundwater, is pumped and paid', () => {
    const row = { GroundwaterDepth_ft: 10, Cover_ft: 1, SoilClass: 'A', TrenchDepth_in: 132 }
    const wet = of(row)
    expect([wet.design.single('PitWater'), wet.design.cautions().some(({ name }) => name === 'wet trench')]).toEqual(['dry', true])
    expect(lineOf(wet, 'DEWATER')!.net).toBeCloseTo(Math.max(1, wet.design.number('Trench_h') / 8), 9)
    expect(lineOf(of({ ...row, TrenchDepth_in: 48 }), 'DEWATER')).toBeUndefined()
  })
})

describe('what no choice changes', () => {
  const layout = (row: object) => {
    const { design } = of(row)
    return [design.number('OverflowCount'), design.number('InletCount'), design.single('InletTanks')].join(' ')
  }
  it('cover over the drain, wheels and steep ground change no ports and no inlets', () => {
    const usual = layout({})
    for (const row of [{ InletRun_ft: 98 }, { InletRun_ft: 140 }, { Traffic: 'cars' }, { DownspoutRise_ft: -1 }, { DownspoutRise_ft: 20 }])
      expect([row, layout(row)]).toEqual([row, usual])
  })
  it('the lever of a second inlet is named only where there is none', () => {
    const words = (TankCount: number) => {
      const { design } = takeoffOf({ ...site, RoofArea_ft2: 12_000, RainIntensity_in_per_h: 6, TankCount })
      return design
        .verdicts()
        .map(({ words: said }) => said)
        .join(' ')
    }
    expect(words(1)).toContain('another tank for a second inlet')
    expect(words(4)).not.toContain('another tank for a second inlet')
  })
})

describe('the pump', () => {
  it('one that passes all comes before one that is to be looked into', () => {
    const { design } = of({ WaterLineSize: '1-1/4', WaterLineRise_ft: 50 })
    const state = (name: 'SwitchVerdict' | 'DutyVerdict' | 'RatingVerdict') => design.verdict(name)
    expect([state('DutyVerdict'), state('SwitchVerdict'), state('RatingVerdict')]).toEqual(['pass', 'pass', 'pass'])
  })
  it('is judged at the most water that comes: full tanks, the pump just cut in', () => {
    const { design } = of({ CutIn_psi: 20, CutOut_psi: 70 })
    expect(design.number('MostFlow_gpm')).toBeGreaterThan(design.number('ActualFlow_gpm'))
    // V = 0.4085 Q / d², d 1.049 in (ASTM D2239).
    expect(design.number('MostVelocity_fps')).toBeCloseTo((0.4085 * design.number('MostFlow_gpm')) / 1.049 ** 2, 2)
    expect(design.verdict('VelocityVerdict')).toBe('check')
    // Common practice, no source: 5 ft/s in use, a fifth more for a moment.
    expect(design.number('CutInAllowed_fps')).toBe(6)
  })
})

describe('the crane', () => {
  it('says where a lift takes more than 75 % of its chart (29 CFR 1926.751, from memory)', () => {
    const load = of({}).design.number('PickLoad_lb')
    const words = (capacity_lb: number) => {
      const Cranes = demoRows('Cranes').map((row) => Object.fromEntries(Object.entries(row).map(([name, value]) => [name, /^At/.test(name) ? capacity_lb : value])))
      return of({}, { Cranes })
        .design.verdicts()
        .find(({ name }) => name === 'LiftVerdict')!
    }
    const [at, over] = [words(Math.ceil(load / 0.75)), words(Math.floor(load / 0.75) - 1)]
    expect([at.verdict, /lift plan/.test(at.words)]).toEqual(['pass', false])
    expect([over.verdict, /over 75 % of it.*lift plan/.test(over.words)]).toEqual(['pass', true])
  })
})

describe('earth and trucks', () => {
  it('where stone lies round the ties no earth is brought', () => {
    const { design } = of({ TankCount: 6, TankGap_in: 48, SoilClass: 'rock' })
    const inPlace = design.number('Backfill_yd3') - design.number('PumpEndEarth_yd3') - design.number('TieStone_yd3')
    expect(design.number('ImportBank_yd3')).toBeCloseTo((inPlace + design.number('TrenchFill_yd3')) / 0.9, 9)
  })
  it('tanks of two models share a truck that takes both', () => {
    const Tanks = demoRows('Tanks')
    const loads = (row: object) => lineOf(of(row, { Tanks }), 'HAUL-TANKS')!.net
    // 19,200 lb and 16,100 lb or less: two to a truck of 44,000 lb.
    expect(loads({ TankCount: 2 })).toBe(1)
    const light = Tanks.map(({ Model }) => String(Model)).find((model) => model === 'Quern 1400')!
    expect(loads({ TankCount: 2, SecondModel: light, SecondCount: 1 })).toBe(1)
  })
  it('a drain without a run does not reach a fall of 6 ft', () => {
    expect(of({ OverflowRun_ft: 0 }).design.verdict('RunsVerdict')).toBe('check')
  })
  it('20.004 ft is 20 ft, on every paper alike', () => {
    const tall = demoRows('Tanks').find(({ Model }) => Model === leastRow.TankModel)!
    const bed = 6 / 12
    const Cover_ft = 20.004 - Number(tall.Height_ft) - bed
    const { design, lines } = of({ Cover_ft, BedThickness_in: 6 })
    expect(design.number('PitDepth_ft')).toBeCloseTo(20.004, 9)
    expect([design.verdict('PitVerdict'), lines.some(({ code }) => code === 'SHORING'), design.cautions().some(({ name }) => name === 'deep pit')]).toEqual(['pass', false, false])
  })
})
