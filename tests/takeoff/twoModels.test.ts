/** Tanks of two models in one row, held against hand arithmetic over boxes. */
import { describe, expect, it } from 'vitest'
import { sectionPicture } from '../../src/plan/drawing/sectionPicture.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { planPicture } from '../../src/plan/drawing/planPicture.js'
import { takeoffWorkbook } from '../../src/plan/workbook.js'
import { measureOf } from '../../src/plan/words.js'
import { problemText } from '../../src/takeoff/fields.js'
import { officeUpdate } from '../../src/takeoff/older/update.js'
import { versions } from '../../src/takeoff/older/versions.js'
import type { JobName } from '../../src/takeoff/names.js'
import { readOffice } from '../../src/takeoff/office.js'
import { makeTakeoff, workJob } from '../../src/takeoff/takeoff.js'
import { hasCalc } from '../support/calc.js'
import { demoRows, leastRow, lineOf, officeWith, takeoffOf } from '../support/office.js'
import { compareWithCalc } from '../support/recalculate.js'

/** One tank of the demo at the pump, two shorter ones of our own behind it. */
const Tanks = [
  ...demoRows('Tanks'),
  {
    Model: 'Short',
    Length_ft: 8,
    Width_ft: 5,
    Height_ft: 6.5,
    Wall_in: 6,
    Floor_in: 6,
    Lid_in: 6,
    WaterDepth_ft: 4.75,
    Openings: 2,
    Opening_in: 30,
    Ports: 2,
    MostCover_ft: 3,
    VacuumLimit_inHg: 3.5,
    Traffic: 'cars',
    Weight_lb: 15500,
    Price_usd: 1999,
  },
]
const row = { ...leastRow, TankCount: 3, SecondModel: 'Short', SecondCount: 2, GroundwaterDepth_ft: 5, TestVacuum_inHg: 3.5, Cover_ft: 2, SoilClass: 'B', PitDrained: 'yes' }
const mixed = (change: Readonly<Record<string, unknown>> = {}, tanks = Tanks) => takeoffOf({ ...row, ...change }, { Tanks: tanks })
const problemsOf = (change: Readonly<Record<string, unknown>>, more: Parameters<typeof officeWith>[0] = {}) => {
  const office = readOffice(officeWith({ Tanks, ...more, Jobs: [{ ...row, ...change }] }))
  return workJob(office, office.tables.Jobs[0]!).problems.map(problemText)
}

describe('tanks of two models in one row', () => {
  const takeoff = mixed()
  const n = (name: JobName) => takeoff.design.number(name)

  it.each<[JobName, number, string]>([
    // Inside 9 ft 4 in by 5 ft 4 in, and 7 by 4 ft, each with 4.75 ft of water; 1,728/231 gal in a cubic foot.
    ['Storage_gal', ((9 + 4 / 12) * (5 + 4 / 12) * 4.75 + 2 * 7 * 4 * 4.75) * (1728 / 231), 'water'],
    ['UsableStorage_gal', ((9 + 4 / 12) * (5 + 4 / 12) + 2 * 7 * 4) * (4.75 - 0.75) * (1728 / 231), 'water over 9 in'],
    ['RowLength_ft', 6 + 5 + 5 + 2, 'widths and two gaps of a foot'],
    ['PitLength_ft', 18 + 4, 'two feet at each end'],
    ['PitWidth_ft', 10 + 4, 'the longer of the two and two feet on each side'],
    ['TieLength_in', 12 + 2 * 6 + 2 * 3, 'gap, the thicker walls, a stub inside each'],
    ['TanksOutside_yd3', ((10 * 6 + 2 * 8 * 5) * 6.5) / 27, 'boxes'],
    ['OpeningCount', 1 + 2 * 2, 'one, and two a tank'],
    // The lighter tank for its plan floats first: 19,200/60 = 320 psf, 15,500/40 = 387.5.
    ['FloatDepth_ft', 320 / 62.4, 'buoyancy'],
    // Base at 2 + 6.5 = 8.5 ft, water at 5: 3.5 ft over it; 2 ft of submerged earth of 57.6 lb/ft³.
    // A riser of 24 in and walls of 3 in take 4.91 ft² of the earth.
    ['UpliftSafety', (19_200 + (60 - (Math.PI / 4) * 2.5 ** 2) * 2 * 57.6) / (62.4 * 60 * 3.5), 'FEMA P-259'],
    // 1.1 times the uplift less the weight, as water inside: first (1.1 x 62.4 x 60 x 3.5 - 19,200)/(62.4 x 49.78) < 0, second 1.1 x 62.4 x 40 x 3.5 - 15,500 < 0.
    ['Ballast_in', 0, 'heavy enough'],
    ['Bearing_psf', Math.max((19200 + 62.4 * (9 + 4 / 12) * (5 + 4 / 12) * 4.75) / 60, (15500 + 62.4 * 28 * 4.75) / 40) + 240, 'the harder pressing one'],
    ['HeaviestTank_lb', 19200, 'table'],
    // Walls: 150 x (60 x 6.5 - 49.78 x 5.5) = 17,433; 150 x (40 x 6.5 - 28 x 5.5) = 15,900; the typed 19,200 is the most; 800 lb of rigging.
    ['PickLoad_lb', 19200 + 800, 'the heaviest of all'],
    ['SecondRatio', 15500 / 15900, 'typed over figured'],
    // 3.5 inHg at 0.4912 psi each on the larger lid and the larger opening.
    ['LidForce_lbf', 3.5 * 0.491154 * 60 * 144, 'air on 60 ft²'],
    ['PlateForce_lbf', 3.5 * 0.491154 * (Math.PI / 4) * 30 ** 2, 'air on 30 in'],
    ['PickOffset_ft', (18 - 5) / 2, 'to the middle of the last tank'],
  ])('%s', (name, byHand) => {
    expect(n(name)).toBeCloseTo(byHand, 6)
  })
  it('the stricter of the two makers counts', () => {
    expect([n('CoverAllowed_ft'), n('VacuumAllowed_inHg'), takeoff.design.single('TrafficOver')]).toEqual([3, 3.5, 'none'])
    expect(mixed({ Cover_ft: 3.1 }).design.verdict('CoverVerdict')).toBe('stop')
    expect(mixed({ TestVacuum_inHg: 3.6 }).design.verdict('VacuumVerdict')).toBe('stop')
    expect(mixed({ Traffic: 'cars' }).design.verdict('TrafficVerdict')).toBe('stop')
  })
  it('a second model that is lighter for its plan floats first and asks for the ballast; one that is heavier counts for the crane', () => {
    const withWeight = (Weight_lb: number) => mixed({ GroundwaterDepth_ft: 1 }, [...Tanks.slice(0, -1), { ...Tanks.at(-1)!, Weight_lb }] as typeof Tanks).design
    const light = withWeight(9000)
    // 9,000 lb on 40 ft² are 225 psf. Groundwater stands over the lids, so 6.5 ft of tank are under it.
    expect(light.number('FloatDepth_ft')).toBeCloseTo(225 / 62.4, 9)
    // Two risers of 30 in with walls of 3 in stand in its cover, 1 ft of them under water.
    const risers = 2 * (Math.PI / 4) * 3 ** 2
    expect(light.number('UpliftSafety')).toBeCloseTo((9000 + (40 - risers) * 2 * 57.6) / (62.4 * (40 * 6.5 + risers * 1)), 9)
    // Ground filled to the top by a storm: 2 ft of them.
    expect(light.number('UpliftAtGrade')).toBeCloseTo((9000 + (40 - risers) * 2 * 57.6) / (62.4 * (40 * 6.5 + risers * 2)), 9)
    // Buoyancy after FEMA P-259, factor 1.1 by common practice, no source: (1.1 x 62.4 x 40 x 6.5 - 9,000) lb of water on 28 ft² inside.
    expect(light.number('Ballast_in')).toBeCloseTo((12 * (1.1 * 62.4 * 40 * 6.5 - 9000)) / (62.4 * 28), 9)
    const heavy = withWeight(30_000)
    expect(heavy.number('PickLoad_lb')).toBe(30_000 + 800)
    // Two legs at 60° from the horizontal: half the load over its sine.
    expect(heavy.number('LegPull_lb')).toBeCloseTo(30_000 / 2 / Math.sin(Math.PI / 3), 6)
    // The typed 15,500 lb are less than what thicker walls would weigh: then those count.
    const thick = mixed({}, [...Tanks.slice(0, -1), { ...Tanks.at(-1)!, Wall_in: 12 }] as typeof Tanks).design
    expect(thick.number('PickLoad_lb')).toBeCloseTo(150 * (40 * 6.5 - 6 * 3 * 5.5) + 800, 6)
  })
  it('lines by model, and what goes by the openings and trucks of both', () => {
    expect(lineOf(takeoff, 'TANK')).toMatchObject({ net: 1, amount: 2890, description: 'Precast tank Quern 1800' })
    expect(lineOf(takeoff, 'TANK-2')).toMatchObject({ net: 2, amount: 3998, description: 'Precast tank Short' })
    // Openings of 24 and 30 in: a line each, priced as the first size where the list has none of its own.
    const [risers, others] = [lineOf(takeoff, 'RISER')!, lineOf(takeoff, 'RISER-30')!]
    expect(risers.net + others.net).toBe(5 * 2)
    expect([others.price, others.description]).toEqual([risers.price, 'Riser section with gasket, opening 30 in'])
    expect(lineOf(takeoff, 'RISER-LID')!.net + lineOf(takeoff, 'RISER-LID-30')!.net).toBe(5)
    expect(lineOf(takeoff, 'PLATE-30')!.net).toBe(takeoff.design.number('SecondTanks') * takeoff.design.number('SecondOpenings'))
    expect(lineOf(takeoff, 'SIGN')!.net).toBe(6)
    expect(lineOf(takeoff, 'MASTIC')!.net).toBeCloseTo(2 * Math.PI * (2 + 4 * 2.5), 9)
    // 44,000 lb a truck: two of either model on one.
    expect(lineOf(takeoff, 'HAUL-TANKS')!.net).toBe(2)
  })
  it('ports are those of the tanks that the storm enters', () => {
    expect([n('FarTankPorts'), n('NextTankPorts')]).toEqual([2, 2])
    expect(mixed({ SecondCount: 1 }).design.number('NextTankPorts')).toBe(3)
  })
  it('the drawings show each tank in its own size, the second model at the far end, left', () => {
    const wide = (shapes: readonly { kind: string; role: string; points?: readonly (readonly [number, number])[] }[]) =>
      shapes
        .filter(({ kind, role }) => kind === 'area' && role === 'concrete')
        .map(({ points }) => [0, 1].map((axis) => Math.max(...points!.map((point) => point[axis]!)) - Math.min(...points!.map((point) => point[axis]!))))
    const measure = measureOf(takeoff.design)
    expect(wide(sectionPicture(takeoff.design, measure).shapes as never).map(([width]) => width)).toEqual([5, 5, 6].map((width) => expect.closeTo(width, 9)))
    expect(wide(planPicture(takeoff.design, measure).shapes as never)).toEqual(
      [
        [5, 8],
        [5, 8],
        [6, 10],
      ].map((size) => size.map((one) => expect.closeTo(one, 9))),
    )
    expect(sectionPicture(takeoff.design, measure).description).toContain('1 Quern 1800 + 2 Short')
  })
  it('the tool counts tanks of the first model beside them', () => {
    const sized = mixed({ TankCount: null, SecondCount: 2, People: 4 })
    expect(sized.design.number('TankCount')).toBeGreaterThan(2)
    expect(sized.design.number('SecondTanks')).toBe(2)
  })
  it('the test record says which tanks are of which model', () => {
    const test = jobSheets(takeoff, standardPlaces(), 'native', { date: '2026-11-26', revision: 1, version: 'test' }).find(({ kind }) => kind === 'test')!
    expect(test.cells.map(({ value }) => value)).toContain('Tanks by model: 1 Quern 1800 + 2 Short, those named last at the far end, where the roof water enters.')
  })
  it('without a second model nothing is of it', () => {
    const one = takeoffOf({ ...leastRow, TankCount: 3 }, { Tanks })
    expect([one.design.number('SecondTanks'), lineOf(one, 'TANK-2'), one.design.single('Models')]).toEqual([0, undefined, 'Quern 1800'])
  })
  it.each<[Readonly<Record<string, unknown>>, RegExp]>([
    [{ SecondModel: 'Quern 1800' }, /Jobs, row 6, SecondModel: another model than TankModel, or nothing; got "Quern 1800"/],
    [{ SecondModel: null }, /Jobs, row 6, SecondCount: empty where there is no SecondModel; got 2/],
    [{ SecondCount: 3 }, /Jobs, row 6, SecondCount: fewer than the tanks of the row, 3: .*; got 3/],
    [{ SecondModel: 'Quern 2600' }, /Tanks, row \d+, Height_ft: 6.5 as Quern 1800 has it: two models in one row stand on one bed and are tied low; got 7/],
    [{ SecondModel: 'Nobody’s' }, /Jobs, row 6, SecondModel: a name in the first column of Tanks/],
  ])('%o is refused in words', (change, message) => {
    expect(problemsOf(change).join('\n')).toMatch(message)
  })
  it.each([
    ['Height_ft', 7],
    ['Floor_in', 5],
    ['Lid_in', 5],
    ['WaterDepth_ft', 4.5],
    ['Port_in', 6],
  ])('%s must be that of the first model', (column, value) => {
    const tanks = [...Tanks.slice(0, -1), { ...Tanks.at(-1)!, [column]: value }]
    expect(problemsOf({}, { Tanks: tanks }).join('\n')).toContain(`${column}: `)
    expect(problemsOf({}, { Tanks: tanks }).join('\n')).toContain('two models in one row stand on one bed')
  })
  it('with fewer tanks the pump tank stays of the first model', () => {
    // One tank of 9 ft 4 in by 5 ft 4 in inside, then one of 7 by 4 ft beside it; 4 ft of water above the dead depth.
    const [one, two] = takeoff.stair(false)
    expect(one!.usable_gal).toBeCloseTo((9 + 4 / 12) * (5 + 4 / 12) * 4 * (1728 / 231), 6)
    expect(two!.usable_gal).toBeCloseTo(((9 + 4 / 12) * (5 + 4 / 12) + 28) * 4 * (1728 / 231), 6)
  })
  it('without a price in the list says which prices are missing, and of no rule that it is wrong', () => {
    const Prices = demoRows('Prices').map((price) => ({ ...price, Price_usd: null }))
    const said = problemsOf({}, { Prices })
    expect(said.filter((text) => !/a price for|with its price/.test(text))).toEqual([])
    expect(said.some((text) => text.includes('RISER-30'))).toBe(true)
  })
  it('an office whose rules know one model is told so, and the update brings them', () => {
    const Items = demoRows('Items').flatMap((item) =>
      item.Code === 'TANK-2' ? [] : [versions.reduce((older, { items }) => ({ ...older, ...items[String(item.Code)]?.was }), item)],
    )
    expect(problemsOf({}, { Items }).join('\n')).toMatch(/Items, headings, Quantity: a row over SecondTanks, as TANK-2 of a new workbook/)
    const { changes } = officeUpdate(officeWith({ Items }))
    expect(
      changes
        .filter(({ table }) => table === 'Items')
        .map(({ key }) => key)
        .sort(),
    ).toEqual(
      [
        ...new Set([
          // Codes that are spelled otherwise now stand in no row of today.
          ...versions.flatMap(({ items }) => Object.keys(items)).filter((code) => demoRows('Items').some(({ Code }) => Code === code)),
          'TANK-2',
        ]),
      ].sort(),
    )
  })
  it.runIf(hasCalc)('Calc works out the same figures', async () => {
    const raw = officeWith({ Tanks, Jobs: [row] })
    const office = readOffice(raw)
    const { differences } = await compareWithCalc(
      takeoffWorkbook(raw, [makeTakeoff(office, office.tables.Jobs[0]!)], 'native', { date: '2026-11-26', revision: 1, version: 'test' }),
      1e-9,
    )
    expect(differences).toEqual([])
  })
})
