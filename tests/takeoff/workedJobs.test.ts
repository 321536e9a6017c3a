/** Three jobs worked by hand: the arithmetic is written out, the sources stand beside it, nothing is copied from our own output. */
import { describe, expect, it } from 'vitest'
import { checkedOrRaw, ProblemsError } from '../../src/takeoff/fields.js'
import { Design } from '../../src/takeoff/design.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { fieldsOf, jobFields, type TableName } from '../../src/takeoff/officeTables.js'
import { makeTakeoff, workJob, type Takeoff } from '../../src/takeoff/takeoff.js'
import { demoRows, demoTakeoff, leastRow, lineOf, officeWith, takeoffOf } from '../support/office.js'
import { given, lowHouse, officeOf, shallow, wetPit, type WorkedRow } from '../support/workedRows.js'

const FT3 = 1728 / 231
const worked = (row: WorkedRow['row'], more: NonNullable<WorkedRow['more']> = {}) => workedOf({ row, more })
function workedOf(job: WorkedRow): Takeoff {
  const office = readOffice(officeOf([job]))
  const { takeoff, problems } = workJob(office, office.tables.Jobs[0]!)
  expect(problems).toEqual([])
  return takeoff!
}

describe('a storm beyond what the overflow pipe carries', () => {
  it('stands higher by bore, friction less fall, and exit: by hand', () => {
    const { design } = takeoffOf(leastRow)
    // Twice the flow that the pipe carries by its slope asks for four times its fall: three feet more than the foot it has, over a bore of 6 in.
    const figures = { RoofFlow_gpm: 400, InletCount: 1, DrainCapacity_gpm: 200, DrainBore_in: 6, OverflowLeast_in: 12 }
    const full = new Design(readOffice(officeWith({ Jobs: [leastRow] })), design.job, Object.fromEntries(design.sized), figures)
    const exit_ft = ((400 * 231) / 1728 / 60 / ((Math.PI / 4) * 0.5 ** 2)) ** 2 / (2 * 32.174)
    expect(full.number('OutletHead_ft')).toBeCloseTo(0.5 + 3 + exit_ft, 9)
  })
  it('with one overflow blocked, all the others are on the far tank or the next', () => {
    for (const name of ['Fernlow 12', 'Thistle Brow', 'Wicket Mill']) {
      const { design } = demoTakeoff(name)
      expect(design.number('BlockedAtInlet') + design.number('BlockedNext'), name).toBe(design.number('OverflowCount') - 1)
    }
  })
})

describe('what a cell says once it is checked', () => {
  const { Length_ft, Model } = fieldsOf('Tanks')
  it.each([
    ['Length_ft', Length_ft!, '3 m', 9.842519685],
    ['Length_ft', Length_ft!, 'wide', 'wide'],
    ['Model', Model!, ' Quern 1800 ', 'Quern 1800'],
    ['TankModel', jobFields.TankModel, ' Quern 1800 ', 'Quern 1800'],
    ['TankModel', jobFields.TankModel, 1800, 1800],
    ['Date', jobFields.Date, null, null],
  ] as const)('%s: %#', (name, field, raw, said) => {
    const value = checkedOrRaw(name, field, raw)
    // 3 m / 0.3048 m.
    if (typeof said === 'number') expect(value).toBeCloseTo(said, 8)
    else expect(value).toBe(said)
  })
})

describe('what was sized', () => {
  it('says of the tanks, and of nothing else, that no count reaches the demand', () => {
    const { design } = takeoffOf({ ...leastRow, People: 40, WantedReliability: 1 })
    expect(design.number('Reliability')).toBeLessThan(1)
    expect(design.whySized('TankCount')).toMatch(/no count up to 12 reaches the wanted reliability/)
    expect(design.whySized('PumpModel')).toBe('sized by the tool')
    expect(takeoffOf({ ...leastRow, People: 1, WantedReliability: 0.3 }).design.whySized('TankCount')).toBe('sized by the tool')
  })
})

describe('the depth of the trench, where a row is silent', () => {
  it('is 36 in, or so that the top of the line is 6 in below frost (IPC 305.4, from memory): 1 in PE IPS 200 is 1.049 + 2 x 0.150 in outside (ASTM D2239, SIDR 7)', () => {
    const depth = (FrostDepth_in: number) => takeoffOf({ ...leastRow, FrostDepth_in }).design.number('TrenchDepth_in')
    expect([0, 20, 30, 31, 48].map(depth)).toEqual([36, 36, 38, 39, 56])
  })
})

describe('the house set', () => {
  it('is part of the takeoff where the job brings it, and where the house lies below the water', () => {
    const sets = (more: WorkedRow['row']) => lineOf(takeoffOf({ ...leastRow, ...more }), 'HOUSE-VALVE')?.net ?? 0
    expect(sets({ HouseSet: 'no', WaterLineRise_ft: 10 })).toBe(0)
    expect(sets({ HouseSet: 'yes', WaterLineRise_ft: 10 })).toBe(1)
    expect(sets({ HouseSet: 'no', WaterLineRise_ft: -20 })).toBe(1)
  })
})

describe('a price that is not there yet', () => {
  const without = (...tables: readonly TableName[]) =>
    readOffice(officeWith(Object.fromEntries(tables.map((table) => [table, demoRows(table).map((cells) => ({ ...cells, Price_usd: null }))]))))
  it.each(['Tanks', 'Pumps', 'PressureTanks'] as const)('of %s leaves every quantity and verdict, and no takeoff is made', (table) => {
    const office = without(table)
    const job = rowNamed(office, 'Jobs', 'Wicket Mill')!
    const { takeoff, problems } = workJob(office, job)
    const whole = demoTakeoff('Wicket Mill')
    // One price, of the model that the job uses.
    const model = { Tanks: 'TankModel', Pumps: 'PumpModel', PressureTanks: 'PressureTankModel' } as const
    expect(problems.map(({ sheet, column, unpriced }) => [sheet, column, unpriced])).toEqual([[table, 'Price_usd', whole.design.single(model[table])]])
    expect(takeoff!.lines.map(({ code, net }) => [code, net])).toEqual(whole.lines.map(({ code, net }) => [code, net]))
    expect(takeoff!.design.verdicts()).toEqual(whole.design.verdicts())
    expect(() => makeTakeoff(office, job)).toThrow(ProblemsError)
  })
  it('of the tank hides no mistake of a rule that gives a price', () => {
    const office = readOffice(
      officeWith({
        Tanks: demoRows('Tanks').map((cells) => ({ ...cells, Price_usd: null })),
        Items: demoRows('Items').map((cells) => (cells.Code === 'PUMP' ? { ...cells, Price: '"none"' } : cells)),
      }),
    )
    const { problems } = workJob(office, rowNamed(office, 'Jobs', 'Wicket Mill')!)
    expect(problems.map(({ sheet, column }) => `${sheet} ${column}`)).toEqual(['Tanks Price_usd', 'Items Price'])
  })
})

describe('one shallow tank with daily rain', () => {
  const takeoff = workedOf(shallow)
  const { design } = takeoff
  it('water: one inch on the first day, ten gallons a day', () => {
    // An inch on 1,000 ft² of metal: 1,000 x 144/231 x 0.85 x filter 0.9 = 476.88 gal. The tank above 9 in of dead depth: 7.3333 x 4.8333 x 3.75 ft.
    const inch = (1000 * 144 * 0.85 * 0.9) / 231
    expect(design.number('InchYield_gal')).toBeCloseTo(inch, 9)
    expect(design.number('UsableStorage_gal')).toBeCloseTo((8 - 8 / 12) * (5.5 - 8 / 12) * (4.5 - 0.75) * FT3, 9)
    // Yield after spillage: nothing on day 1, 47 whole days from day 2, then 6.88 gal, then nothing.
    expect(design.number('Reliability')).toBeCloseTo(inch / 3650, 12)
    expect(design.number('DaysMet')).toBeCloseTo(47 / 365, 12)
    expect(design.number('LongestShort_days')).toBe(365 - 48)
    expect([design.number('WorstYear'), design.number('WorstYearShare'), design.single('RainMethod')]).toEqual([2001, design.number('Reliability'), 'daily record'])
    expect(design.verdict('StorageVerdict')).toBe('check')
  })
  it('pit, load and conduit', () => {
    // 1 + 6 + 0.5 ft deep, bottom 5.5 + 4 by 8 + 4, walls 1.5 to 1: middle + 11.25, top + 22.5 (prismoid).
    const dig = ((7.5 / 6) * (9.5 * 12 + 4 * (9.5 + 11.25) * (12 + 11.25) + (9.5 + 22.5) * (12 + 22.5))) / 27
    // Half a foot of it, over the top, is topsoil and is stripped.
    expect(lineOf(takeoff, 'DIG')!.net).toBeCloseTo(dig - ((9.5 + 22.5) * (12 + 22.5) * 0.5) / 27, 9)
    // Full: 13,400 lb + 62.4 x 7.3333 x 4.8333 x 4.5 + 120 x 44 ft² x 1 ft, on 44 ft².
    expect(design.number('Bearing_psf')).toBeCloseTo((13_400 + 62.4 * (8 - 8 / 12) * (5.5 - 8 / 12) * 4.5 + 120 * 44) / 44, 9)
    // 12 in of cover less 1.315 in of 1 in conduit; NEC Table 300.5 wants 18.
    expect(design.number('ConduitHas_in')).toBeCloseTo(12 - 1.315, 9)
    expect(design.verdict('ConduitCoverVerdict')).toBe('stop')
    // An empty tank floats in 13,400 / (62.4 x 44) ft.
    expect(design.number('FloatDepth_ft')).toBeCloseTo(13_400 / (62.4 * 44), 12)
  })
  it('earth is paid once: the own crew by hours and machines, a subcontractor by unit prices', () => {
    expect([lineOf(takeoff, 'DIG')!.amount, lineOf(takeoff, 'DIG')!.hours > 0, lineOf(takeoff, 'EXCAVATOR') !== undefined]).toEqual([0, true, true])
    const sub = worked({
      ...given,
      Job: 'A',
      RoofArea_ft2: 1000,
      RainStation: 'Low Fallow',
      People: 1,
      TankModel: 'Quern 1200',
      TankCount: 1,
      Cover_ft: 1,
      SoilClass: 'C',
      GroundwaterDepth_ft: 60,
      EarthworkBy: 'subcontract',
    })
    expect([lineOf(sub, 'DIG')!.amount > 0, lineOf(sub, 'DIG')!.hours, lineOf(sub, 'EXCAVATOR'), lineOf(sub, 'COMPACTOR')]).toEqual([true, 0, undefined, undefined])
  })
})

describe('four tanks in class C with groundwater', () => {
  const takeoff = workedOf(wetPit)
  const { design } = takeoff
  it('storm: 90 gpm through one overflow beside the inlet, none through a tie', () => {
    // 2,250 ft² x 3.85 in/h / 96.25.
    expect(design.number('RoofFlow_gpm')).toBeCloseTo(90, 9)
    expect([design.number('InletCount'), design.number('OverflowCount'), design.number('OverflowsAtInlet'), design.number('TieFlow_gpm')]).toEqual([1, 1, 1, 0])
    // Losses: entrance 0.5, bend 0.8 (EPA), screen 0.2, flap 0.5 (common practice).
    expect(design.number('OverflowLosses')).toBeCloseTo(2, 12)
    // 90 gpm in 4.026 in: critical depth 0.752 of 0.3355 ft, A = 0.6335 D², V = 2.812 ft/s: 0.2523 + 3 x 0.1229 = 0.621 ft; worked with
    // four figures. The room is 6.5 - 1 - 4.75 = 0.75 ft.
    expect(Math.abs(design.number('StormRise_ft') - 0.621)).toBeLessThan(0.003)
    expect([design.number('AirSpace_ft'), design.verdict('TieVerdict')]).toEqual([0.75, 'pass'])
    expect(design.verdicts().find(({ name }) => name === 'TieVerdict')!.words).toMatch(/There is one overflow only: blocked, the water comes out of the lids/)
  })
  it('130 gpm through two overflows of one tank, and with one of them blocked', () => {
    const one = worked({
      ...given,
      Job: 'B2',
      RoofArea_ft2: 3250,
      RainStation: 'Low Fallow',
      People: 3,
      TankModel: 'Quern 1800',
      TankCount: 1,
      SoilClass: 'C',
      GroundwaterDepth_ft: 60,
      RainIntensity_in_per_h: 3.85,
      DrainSize_in: 4,
    }).design
    expect([one.number('OverflowCount'), one.number('OverflowsAtInlet')]).toEqual([2, 2])
    // 65 gpm each: 0.637 D, A = 0.5280 D², V = 2.437 ft/s: 0.2137 + 3 x 0.0923 = 0.491 ft.
    expect(Math.abs(one.number('FarHead_ft') - 0.491)).toBeLessThan(0.003)
    // Both spill into one drain of 4.026 in, 0.2896 ft³/s through 0.0884 ft²: half its bore and (3.276 / 0.6)² / 64.35 = 0.1678 + 0.4634 = 0.631 ft.
    expect(Math.abs(one.number('StormRise_ft') - 0.631)).toBeLessThan(0.003)
    // 130 gpm in the other: 0.8826 D, A = 0.7337 D², V = 3.507 ft/s: 0.2961 + 3 x 0.1912 = 0.870 ft, over the 0.75 ft of room.
    expect(Math.abs(one.number('BlockedRise_ft') - 0.87)).toBeLessThan(0.004)
    expect(one.verdict('TieVerdict')).toBe('check')
  })
  it('through a tie the levels agree: the far tank stands higher by what the tie takes', () => {
    const far = worked({
      ...given,
      Job: 'B3',
      RoofArea_ft2: 4000,
      RainStation: 'Low Fallow',
      People: 3,
      TankModel: 'Quern 1800',
      TankCount: 3,
      SoilClass: 'C',
      GroundwaterDepth_ft: 60,
      RainIntensity_in_per_h: 3.6,
      DrainSize_in: 6,
      InletTanks: 1,
    }).design
    expect(far.number('TieFlow_gpm')).toBeGreaterThan(0)
    // Halving leaves less than a millionth of the storm.
    expect(far.number('FarHead_ft')).toBeCloseTo(far.number('NextHead_ft') + far.number('TieHead_ft'), 4)
    // A submerged orifice of 4.026 in, discharge 0.6.
    const flow = (far.number('TieFlow_gpm') * 231) / 1728 / 60
    expect(far.number('TieHead_ft')).toBeCloseTo((flow / (0.6 * (Math.PI / 4) * (4.026 / 12) ** 2)) ** 2 / (2 * 32.174), 9)
  })
  it('flotation: ballast for the open pit, uplift when covered', () => {
    // Base 8.5 ft down, water 2.5 ft down: 6 ft of it. (1.1 x 62.4 x 60 x 6 - 19,200) / (62.4 x 9.3333 x 5.3333) ft (buoyancy after FEMA P-259; factor 1.1 while the pit is open: common practice, no source).
    expect(design.number('Ballast_in')).toBeCloseTo((12 * (1.1 * 62.4 * 60 * 6 - 19_200)) / (62.4 * (10 - 8 / 12) * (6 - 8 / 12)), 9)
    expect(design.number('UpliftSafety')).toBeCloseTo((19_200 + (60 - (Math.PI / 4) * 2.5 ** 2) * 2 * 57.6) / (62.4 * 60 * 6), 9)
    expect([design.verdict('UpliftVerdict'), design.verdict('SoilVerdict'), design.verdict('BallastVerdict')]).toEqual(['check', 'check', 'pass'])
    expect(design.cautions().map(({ name }) => name)).toContain('flotation')
  })
  it('crane: the radius to the farthest tank', () => {
    // Pit 9 ft deep, bottom 14 ft across: top 14 + 27 = 41. Half of it, 3 ft setback, half of 18 ft of outriggers: 32.5 ft across; (27 - 6) / 2 = 10.5 ft along.
    expect(design.number('PickRadius_ft')).toBeCloseTo(Math.hypot(20.5 + 3 + 9, 10.5), 9)
    // 19,200 lb and 800 of rigging: the first crane of the demo that lifts 20,000 lb at 40 ft.
    expect([design.number('PickLoad_lb'), design.single('CraneModel'), design.verdict('LiftVerdict')]).toEqual([20_000, 'Heron 55', 'pass'])
  })
  it('water is pumped from digging until the ballast is in', () => {
    // 40 yd³ dug or of topsoil put back, 120 / 8 of fill and stone placed and compacted, 60 ft of trench an hour beyond the pit's edge, 15.5 ft off in class C; an hour a tank for the crane, days of 8 h, a quarter day a tank for the test.
    const placed = design.number('Backfill_yd3') + design.number('Bed_yd3') + design.number('PumpEndStone_yd3')
    const days = ((design.number('Dig_yd3') + design.number('PitTopsoilBack_yd3')) / 40 + placed / 15 + (100 + 20 + 20 - 3 * 15.5) / 60 + 4) / 8 + 4 * 0.25
    // Begun on a Monday, the sixth day comes after a weekend.
    expect(days).toBeGreaterThan(5)
    expect(lineOf(takeoff, 'DEWATER')!.net).toBeCloseTo(days + 2, 9)
  })
})

describe('two tanks above a house, two roofs, a garden in summer', () => {
  const takeoff = workedOf(lowHouse)
  const { design } = takeoff
  it('catch and use', () => {
    // 2,000 ft² at 0.85 and 1,000 at 0.8.
    expect(design.number('Runoff')).toBeCloseTo((2000 * 0.85 + 1000 * 0.8) / 3000, 12)
    expect(design.number('YearDemand_gal')).toBe(365 * 90 + 30 * 50 + 62 * 80)
    // 3,000 ft² x 2 in/h / 96.25, a third of it into the next tank.
    expect(design.number('NextFlow_gpm')).toBeCloseTo((3000 * 2) / 96.25 / 3, 9)
  })
  it('pressures at the house and in the line', () => {
    // Full water level 2 + 6.5 - 0.5 - 4.75 = 3.25 ft down; the house lies 40 ft down. Shut-off head 142 ft, 2.31 ft a psi.
    expect(design.number('HouseBelow_ft')).toBeCloseTo(36.75, 9)
    expect(design.number('ShutOffAtHouse_psi')).toBeCloseTo((142 - (-40 + 2 + 6.5 - 0.5)) / 2.31, 9)
    expect(design.number('ShutOffAtHouseFull_psi')).toBeCloseTo((142 + 36.75) / 2.31, 9)
    expect(design.number('LinePressureMost_psi')).toBeCloseTo((142 + 36.75) / 2.31, 9)
    expect([design.verdict('SwitchVerdict'), design.verdict('RatingVerdict')]).toEqual(['pass', 'pass'])
    expect(lineOf(takeoff, 'SIPHON-BREAK')!.net).toBe(1)
    expect(design.cautions().map(({ name }) => name)).toContain('siphon')
  })
  it('pressure tank: a minute at the flow of the mean pressure', () => {
    // Drawdown of a gallon between 30 and 50 psi, charged to 28: 42.7/44.7 - 42.7/64.7 (Boyle; The Driller).
    const share = 42.7 / 44.7 - 42.7 / 64.7
    expect(design.number('DrawdownShare')).toBeCloseTo(share, 9)
    expect(design.number('PressureTankNeeded_gal')).toBeCloseTo(design.number('FlowAtMean_gpm') / share, 9)
    expect(design.verdict('PressureTankVerdict')).toBe('pass')
    expect(lineOf(takeoff, 'PRESSURE-TANK')!.description).toMatch(/Tarn \d+/)
  })
})

describe('what was seen on jobs', () => {
  it('the house 70 ft below its tanks sees 177 psi; 160 psi pipe is stopped', () => {
    const { design } = worked({
      ...given,
      Job: 'L',
      RoofArea_ft2: 1000,
      RainStation: 'Low Fallow',
      People: 1,
      TankModel: 'Quern 1800',
      TankCount: 1,
      PumpModel: 'Lark 150',
      WaterLinePipe: 'PE IPS 160',
      WaterLineRise_ft: -70,
      GroundwaterDepth_ft: 60,
      SoilClass: 'C',
      RainIntensity_in_per_h: 2,
    })
    expect(Math.round(design.number('LinePressureMost_psi'))).toBe(177)
    expect(design.verdict('RatingVerdict')).toBe('stop')
  })
  it('a 9,000 ft² roof finds a layout: two inlet tanks, or larger drains', () => {
    const { design } = worked({
      ...given,
      Job: 'N',
      RoofArea_ft2: 9000,
      RainStation: 'Low Fallow',
      People: 4,
      TankModel: 'Quern 1800',
      TankCount: 3,
      RainIntensity_in_per_h: 4,
      GroundwaterDepth_ft: 60,
      SoilClass: 'C',
      OutfallDrop_ft: 9,
    })
    expect(
      [design.verdict('TieVerdict'), design.verdict('PortVerdict'), design.verdict('DrainVerdict')].includes('stop'),
      design
        .verdicts()
        .map(({ words }) => words)
        .join('\n'),
    ).toBe(false)
    expect(design.sized.has('InletTanks')).toBe(true)
  })
  it.each<[more: Record<string, number>, ...advice: [words: string, isThere: boolean][]]>([
    // A 6 in drain carries about three times what a 4 in one does (by the power 8/3 of the bore, Manning): fewer ports, less head.
    [{ DrainSize_in: 4 }, ['larger drains', true], ['second inlet', false]],
    // On one inlet tank no size passes, and a second one does.
    [{ InletTanks: 1 }, ['larger drains', false], ['second inlet tank (Jobs, Inlet tanks)', true]],
    [{ RoofArea_ft2: 14_000 }, ['larger drains', false], ['second inlet', false]],
    [{ RoofArea_ft2: 14_000, DrainSize_in: 8 }, ['larger drains', false], ['second inlet', false]],
    [{ TankCount: 1 }, ['larger drains', false], ['another tank for a second inlet', true]],
  ])('what would bring the storm down is advised where it does: %o', (more, ...advice) => {
    const row = { ...leastRow, RoofArea_ft2: 9000, TankCount: 2, RainIntensity_in_per_h: 4, OutfallDrop_ft: 9, ...more }
    const { design } = takeoffOf(row)
    expect(design.verdict('TieVerdict')).toBe('stop')
    for (const [words, isThere] of advice) expect(design.single('LayoutNote'), words).toEqual(isThere ? expect.stringContaining(words) : expect.not.stringContaining(words))
    // As it says: the drain left open, or two inlet tanks, and the storm stands under the lids.
    if (more.DrainSize_in === 4) expect(takeoffOf({ ...row, DrainSize_in: null }).design.verdict('TieVerdict')).not.toBe('stop')
    if (more.InletTanks) expect(takeoffOf({ ...row, InletTanks: 2 }).design.verdict('TieVerdict')).not.toBe('stop')
  })
  it('no pump of the voltage: the nearest is named with what is missing', () => {
    const { design } = worked({
      ...given,
      Job: 'V',
      RoofArea_ft2: 1000,
      RainStation: 'Low Fallow',
      People: 1,
      TankModel: 'Quern 1800',
      TankCount: 1,
      Voltage_V: 115,
      HouseFlow_gpm: 14,
      WaterLineRise_ft: 60,
      GroundwaterDepth_ft: 60,
      SoilClass: 'C',
      CableSize: '6',
      ConduitSize: '1-1/4',
    })
    expect(design.verdicts().find(({ name }) => name === 'DutyVerdict')!.words).toMatch(
      /^No pump of the table meets 14 gpm at [\d.]+ ft on 115 V; nearest: Wren 50, short by [\d.]+ ft:/,
    )
    expect(design.verdict('DutyVerdict')).toBe('stop')
  })
})
