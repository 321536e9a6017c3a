/** Takeoffs that a person can re-derive: each expected quantity is written out as hand arithmetic, never copied from our own output. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { startingOffice, twelvePrices } from '../../src/takeoff/demo.js'
import { defaultItems } from '../../src/takeoff/defaultItems.js'
import { ProblemsError } from '../../src/takeoff/fields.js'
import { readOffice } from '../../src/takeoff/office.js'
import type { JobName } from '../../src/takeoff/names.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import type { VerdictName } from '../../src/takeoff/verdicts.js'
import { demoRows, demoTakeoff, leastRow, lineOf, officeWith, takeoffOf, pitLeft_yd3 } from '../support/office.js'

describe('rows of 1 to 6 tanks', () => {
  for (let tanks = 1; tanks <= 6; tanks++) {
    it(`${tanks} ${tanks === 1 ? 'tank' : 'tanks'}: ties, boots, clamps, plugs and plates to match`, () => {
      const takeoff = takeoffOf({ ...leastRow, TankCount: tanks, RainIntensity_in_per_h: 1 })
      const net = (code: string) => lineOf(takeoff, code)?.net ?? 0
      // Common practice, no source: N - 1 ties; two boots and two clamps a tie.
      expect(net('TIE-BOOT')).toBe(2 * (tanks - 1))
      expect(net('TIE-CLAMP')).toBe(2 * (tanks - 1))
      // A tie is the 12 in gap, two 4 in walls and two 3 in stubs: 26 in.
      expect(net('TIE-PIPE')).toBeCloseTo(((tanks - 1) * 26) / 12, 12)
      // One inlet and one overflow: two ports cut, each with stub, bend and clamp.
      expect([net('PORT-BEND'), net('PORT-CLAMP'), net('PORT-STUB')]).toEqual([2, 2, 3])
      // A plate on each opening (one a tank); a plug in both holes of each tie and in each port; one for the pump coupling.
      expect([net('PLATE'), net('PLUG'), net('PLUG-PUMP'), net('VACUUM')]).toEqual([tanks, 2 * (tanks - 1) + 2, 1, tanks])
      // Joints: tank wall, house, and two of the drop pipe; a 90 ft run needs no coupling. Two clamps each.
      expect(net('ADAPTER-MALE') + net('ADAPTER-HOUSE') + net('DROP-ADAPTER')).toBe(4)
      expect(net('CLAMP')).toBe(2 * 4)
      expect(net('TANK')).toBe(tanks)
    })
  }
  it('a line of 640 ft has two couplings, so eight joints and sixteen clamps', () => {
    const takeoff = takeoffOf({ ...leastRow, TankCount: 1, WaterLineRun_ft: 640, WaterLineSize: '1-1/4', HouseFlow_gpm: 5 })
    expect([lineOf(takeoff, 'COUPLING')!.net, lineOf(takeoff, 'CLAMP')!.net]).toEqual([2, 2 * (4 + 2 * 2)])
  })
})

describe('demo job Wicket Mill, by hand', () => {
  const takeoff = demoTakeoff('Wicket Mill')
  const { design } = takeoff
  // Three tanks of 10 x 6 x 6.5 ft outside, 14 in gaps, 2 ft room, 3 ft cover, 8 in bed, soil C (1.5:1).
  const pitLength = 3 * 6 + (2 * 14) / 12 + 2 * 2
  const pitWidth = 10 + 2 * 2
  const pitDepth = 3 + 6.5 + 8 / 12
  const spread = 1.5 * pitDepth
  const dig = ((pitDepth / 6) * (pitLength * pitWidth + 4 * (pitLength + spread) * (pitWidth + spread) + (pitLength + 2 * spread) * (pitWidth + 2 * spread))) / 27
  // Bed and pump-end stone fill out to the sloped walls: the mean of the areas below, above and four times that between, over 6.
  const bedSpread = 1.5 * (8 / 12)
  const bed = ((8 / 12 / 6) * (pitLength * pitWidth + 4 * (pitLength + bedSpread) * (pitWidth + bedSpread) + (pitLength + 2 * bedSpread) * (pitWidth + 2 * bedSpread))) / 27
  // Line 6 in floor + 8 in coupling over the bed, stone 6 in above it, over the working room at the pump end.
  const stone = 6 + 8 + 6
  const stoneArea = (height_ft: number) => (2 + 1.5 * (8 / 12 + height_ft)) * (pitWidth + 2 * 1.5 * (8 / 12 + height_ft))
  const pumpEnd = ((stone / 12 / 6) * (stoneArea(0) + 4 * stoneArea(stone / 24) + stoneArea(stone / 12))) / 27
  const tanks = (3 * 10 * 6 * 6.5) / 27
  // One riser a tank of 24 in and walls of 3 in through 3 ft of cover.
  const risers = (3 * (Math.PI / 4) * 2.5 ** 2 * 3) / 27
  // 6 in of topsoil over the pit top are stripped, stacked, and put back on the fill.
  const topsoil = ((pitLength + 2 * spread) * (pitWidth + 2 * spread) * 0.5) / 27
  // Drains of 30 ft in and 25 out in a trench of 18 in; the pit's edge is 2 + 15.25 ft from the tanks, and 20.5 of the 55 ft lie beyond it. Past the far tank, 6 ft wide, one more goes over the gap of
  // 14 in. Bedding 4 in under and 6 over a pipe of 6.625 in (6 in Schedule 40, ASTM D1785); the overflow's trench goes evenly from 3 + 6.5 - 0.5 - 4.75 ft and those 4 in to nothing at its outfall.
  const section = (4 + 6.625 + 6) / 12
  const shallow = (25 * section) / (4.25 + 4 / 12)
  const drains = (1.5 * section * ((55 - shallow / 2) * ((55 - 20.5) / 55) + 6 + 14 / 12)) / 27

  it('digs, beds and backfills as worked out here', () => {
    expect(lineOf(takeoff, 'DIG')!.net).toBeCloseTo(dig - topsoil, 9)
    expect(design.number('Bed_yd3')).toBeCloseTo(bed, 9)
    expect(design.number('PumpEndStone_yd3')).toBeCloseTo(pumpEnd, 9)
    // 6 in of clean earth over the stone has a line of its own: at 8 + 20 in the walls have spread by 1.5 x 28 / 12 = 3.5 ft.
    const earth = ((2 + 3.5) * (pitWidth + 2 * 3.5)) / 2 / 27
    // Two gaps of 14 in are filled with stone to the top of the ties: 6 in of floor, 6 in to their centre, half of 4.5 in.
    const ties = (2 * (14 / 12) * 10 * (14.25 / 12)) / 27
    expect(design.number('Backfill_yd3')).toBeCloseTo(dig - bed - pumpEnd - tanks - risers - drains - topsoil, 9)
    expect(lineOf(takeoff, 'STONE-TIE')!.net).toBeCloseTo((ties * 1.12 * 2600) / 2000, 9)
    expect(lineOf(takeoff, 'BACKFILL')!.net).toBeCloseTo(dig - bed - pumpEnd - ties - tanks - risers - drains - earth - topsoil, 9)
    expect(lineOf(takeoff, 'FABRIC')!.net).toBeCloseTo((2 + 3.5) * (pitWidth + 2 * 3.5), 9)
    // 12 % for compaction, 2,600 lb a yard, 10 % waste, whole tons.
    expect(lineOf(takeoff, 'STONE-BED')!.net).toBeCloseTo((bed * 1.12 * 2600) / 2000, 9)
    expect(lineOf(takeoff, 'STONE-BED')!.order).toBe(Math.ceil((bed * 1.12 * 2600 * 1.1) / 2000))
  })
  it('lines, pump and cable follow from the row', () => {
    // 140 ft run, 2 ft slack, 3 ft drop inside the tank; coils of 100 ft with 2 % waste.
    expect(lineOf(takeoff, 'PE-PE IPS 200-1')!.net).toBeCloseTo(140 + 2 + 3, 9)
    expect(lineOf(takeoff, 'PE-PE IPS 200-1')!.order).toBe(200)
    // 150 ft run; over the tank of 10 ft, 2 ft clear of it and 3 ft down to the trench; 3 ft cover, 6.5 ft tank, 10 ft slack.
    const feeder = 150 + (10 + 2 + 3) + 3 + 6.5 + 10
    expect(design.number('FeederLength_ft')).toBe(feeder)
    // 3/4 hp at 230 V draws 6.9 A (NEC Table 430.248). 12 AWG, 1.98 ohm: 2 x 6.9 x 184.5 x 1.98 / 1000 = 5.04 V, under 3 % of 230 = 6.9 V; 14 AWG, 3.14 ohm, gives 7.99 V.
    expect(design.single('Cable')).toBe('12')
    expect(design.number('FeederDrop_V')).toBeCloseTo((2 * 6.9 * feeder * 1.98) / 1000, 9)
    // Groundwater 6 ft down, tank base 9.5 ft down: (19,200 + 60 x 3 x 57.6) / (62.4 x 60 x 3.5).
    // A riser of 24 in with walls of 3 in stands in the cover of each tank: no earth is there.
    const riser = (Math.PI / 4) * 2.5 ** 2
    expect(design.number('UpliftSafety')).toBeCloseTo((19_200 + (60 - riser) * 3 * 57.6) / (62.4 * 60 * 3.5), 9)
  })
  it('adds up: amounts, sections, markup, tax', () => {
    const cents = (value: number) => Math.round(value * 100)
    const sum = takeoff.lines.reduce((total, line) => total + cents(line.order * line.price!), 0)
    expect(cents(takeoff.orderCost)).toBe(sum)
    expect(cents(takeoff.markup)).toBe(Math.round(sum * 0.2))
    expect(cents(takeoff.tax)).toBe(Math.round((sum + Math.round(sum * 0.2)) * 0.06))
    expect(cents(takeoff.total)).toBe(cents(takeoff.orderCost) + cents(takeoff.markup) + cents(takeoff.tax))
  })
})

describe('a new office', () => {
  it('has an empty list of prices that begins with the twelve that carry most of the money of five jobs', () => {
    const office = readOffice(startingOffice(true))
    const sums = new Map<string, number>()
    for (const job of office.tables.Jobs)
      for (const { code, amount, rule } of makeTakeoff(office, job).lines)
        if (!rule.price && office.tables.Prices.some(({ cells }) => cells.Code === code)) sums.set(code, (sums.get(code) ?? 0) + amount)
    const most = [...sums].sort(([, one], [, other]) => other - one).map(([code]) => code)
    expect([...twelvePrices].sort()).toEqual(most.slice(0, 12).sort())
    const rows = startingOffice(false).Prices.rows.map(({ cells }) => cells)
    expect(rows.slice(0, 12).map(({ Code, Price_usd, PriceSource }) => [Code, Price_usd, String(PriceSource).startsWith('Ask for this one first')])).toEqual(
      twelvePrices.map((code) => [code, null, true]),
    )
    expect(rows.slice(12).every(({ Price_usd, PriceSource }) => Price_usd === null && !PriceSource)).toBe(true)
    expect(rows).toHaveLength(office.tables.Prices.length)
  })
})

describe('every takeoff', () => {
  it('has sixty rules or more, and each demo job an itemized list with a reason on every line', () => {
    expect(defaultItems.length).toBeGreaterThanOrEqual(60)
    const office = readOffice(startingOffice(true))
    expect(office.problems).toEqual([])
    for (const job of office.tables.Jobs) {
      const takeoff = makeTakeoff(office, job)
      expect(takeoff.lines.length).toBeGreaterThan(60)
      for (const line of takeoff.lines) {
        expect(line.net).toBeGreaterThan(0)
        expect(line.why.length, line.code).toBeGreaterThan(5)
        expect(line.why + line.description, line.code).not.toMatch(/[{}]|#N\/A|#NAME|NaN/)
      }
    }
  })
  it('works from the least row, and says which lengths it assumed', () => {
    const both = takeoffOf(leastRow)
    expect(both.design.verdict('RunsVerdict')).toBe('check')
    const { WaterLineRun_ft: _line, PowerRun_ft: _power, ...bare } = leastRow
    const drains = takeoffOf({ ...bare, InletRun_ft: 30, OverflowRun_ft: 25 })
    expect(drains.design.number('RunsAssumed')).toBe(2)
    expect(drains.lines.length).toBeGreaterThan(60)
  })
  it('keeps the mass: dig = bed + tanks + drains + backfill + pump-end stone + topsoil, for any layout', () => {
    fc.assert(
      fc.property(
        fc.record({
          TankCount: fc.integer({ min: 1, max: 12 }),
          TankGap_in: fc.integer({ min: 4, max: 60 }),
          Cover_ft: fc.integer({ min: 0, max: 4 }),
          BedThickness_in: fc.integer({ min: 2, max: 24 }),
          WorkingRoom_ft: fc.integer({ min: 1, max: 6 }),
          StoneOverLine_in: fc.integer({ min: 0, max: 24 }),
          SoilClass: fc.constantFrom('rock', 'A', 'B', 'C'),
          TankModel: fc.constantFrom('Quern 1200', 'Quern 1800', 'Quern 2600'),
        }),
        (layout) => {
          const { design } = takeoffOf({ ...leastRow, ...layout })
          const part = (name: JobName) => design.number(name)
          const dig = part('Dig_yd3')
          expect(Math.abs(pitLeft_yd3({ design }))).toBeLessThan(1e-9 * dig)
          expect(part('Backfill_yd3')).toBeGreaterThan(0)
        },
      ),
      { numRuns: 60 },
    )
  })
  it('sizes tanks to the fewest that reach the wanted reliability, and a pump that meets the duty', () => {
    const { design } = demoTakeoff('Fernlow 12')
    const tanks = design.number('TankCount')
    expect(design.number('Reliability')).toBeGreaterThanOrEqual(0.85)
    const fewer = takeoffOf({ ...leastRow, Job: 'Fewer', RoofArea_ft2: 2400, People: 3, UsePerPerson_gal_per_day: 40, TankCount: tanks - 1 })
    expect(fewer.design.number('Reliability')).toBeLessThan(0.85)
    expect(design.verdict('DutyVerdict')).toBe('pass')
    expect(design.single('PumpModel')).toBe('Lark 75')
    expect(takeoffOf({ ...leastRow, PumpModel: 'Lark 50' }).design.verdict('DutyVerdict')).toBe('stop')
  })
  it('keeps overrides and added lines, and names overrides that no line takes', () => {
    const office = readOffice(startingOffice(true))
    const job = office.tables.Jobs[3]!
    const plain = makeTakeoff(office, job)
    const kept = makeTakeoff(office, job, {
      ...nothingKept,
      overrides: { 'TIE-BOOT': { quantity: 6 }, RISER: { price: 70 }, GONE: { quantity: 1 } },
      added: [{ code: 'EXTRA', description: 'Gate', unit: 'each', quantity: 2, price: 45.5, why: 'asked for' }],
    })
    expect(lineOf(kept, 'TIE-BOOT')).toMatchObject({ net: 4, override: 6, order: 6 })
    // Two boots more at 27.50, nine feet of riser at 8 more a foot, two gates.
    expect(kept.orderCost - plain.orderCost).toBeCloseTo(
      2 * 27.5 + 9 * 8 + 2 * 45.5 + (kept.laborHours > plain.laborHours ? lineOf(kept, 'LABOR')!.amount - lineOf(plain, 'LABOR')!.amount : 0),
      2,
    )
    expect(kept.unused).toEqual([{ code: 'GONE', words: '1' }])
  })
  it.each([
    ['DIG', { SoilClass: 'rock' }, 'DIG-ROCK'],
    ['TRENCH-LINE', { SoilClass: 'rock' }, 'TRENCH-LINE-ROCK'],
    ['DRAIN-CLEANOUT', { DrainSize_in: 6 }, 'DRAIN-CLEANOUT-6'],
  ])('an entry for %s is named where the job needs another line, and never added to it: %o', (code, row, other) => {
    const office = readOffice(officeWith({ Jobs: [{ ...leastRow, ...row }] }))
    const job = office.tables.Jobs[0]!
    const line = { code, description: 'As it was', unit: 'each', quantity: 12, price: 99, why: '' }
    const kept = makeTakeoff(office, job, { ...nothingKept, overrides: { [code]: { price: 99, line } } })
    expect(lineOf(kept, code)).toBeUndefined()
    expect(lineOf(kept, other)).toBeDefined()
    expect(kept.unused).toEqual([{ code, words: '$99' }])
    expect([kept.added, kept.orderCost]).toEqual([[], makeTakeoff(office, job).orderCost])
  })
})

describe('verdicts turn where they should', () => {
  const verdict = (name: VerdictName, row: Record<string, unknown>) => takeoffOf({ ...leastRow, ...row }).design.verdict(name)
  it.each<[VerdictName, Record<string, unknown>, string]>([
    ['CoverVerdict', { Cover_ft: 5 }, 'stop'],
    ['UpliftVerdict', { GroundwaterDepth_ft: 0, Cover_ft: 0 }, 'stop'],
    // Quern 1200 empty under 2 ft of earth counted as if under water: 1.02 times the uplift in ground filled to the top, under 1.1; 4 ft of it are more.
    ['UpliftVerdict', { GroundwaterDepth_ft: 200 }, 'check'],
    ['UpliftVerdict', { GroundwaterDepth_ft: 200, Cover_ft: 4 }, 'pass'],
    ['UpliftVerdict', {}, 'check'],
    ['TieVerdict', {}, 'check'],
    ['TieVerdict', { RainIntensity_in_per_h: 2, OverflowRun_ft: 20 }, 'pass'],
    ['TieVerdict', { RainIntensity_in_per_h: 20, RoofArea_ft2: 20000, TankCount: 2 }, 'stop'],
    ['DropVerdict', { CableSize: '14', PowerRun_ft: 400 }, 'check'],
    ['AmpacityVerdict', { CableSize: '14', PumpModel: 'Lark 150', DropLimit: 0.1 }, 'pass'],
    ['SlopeVerdict', { DrainSlope_in_per_ft: 0.1 }, 'check'],
    ['SupplyVerdict', { Voltage_V: 208 }, 'stop'],
    ['StorageVerdict', { People: 20, TankCount: 1 }, 'check'],
    ['FittingsVerdict', { WaterLinePipe: 'PE CTS' }, 'pass'],
    ['TrenchVerdict', { TrenchDepth_in: 18 }, 'stop'],
    ['RatingVerdict', { PumpModel: 'Lark 150', WaterLinePipe: 'PE IPS 160', WaterLineRise_ft: 5, HouseFlow_gpm: 8, HousePressure_psi: 45 }, 'pass'],
    // 342 ft of shut-off and 66.7 ft from the full water level down to the house are 409 ft, 177 psi.
    ['RatingVerdict', { PumpModel: 'Lark 150', WaterLinePipe: 'PE IPS 160', WaterLineRise_ft: -70 }, 'stop'],
    ['SwitchVerdict', { PumpModel: 'Lark 50', CutOut_psi: 62, WaterLineRise_ft: 5 }, 'stop'],
    ['WeightVerdict', { TankModel: 'Quern 1800' }, 'pass'],
    ['VacuumVerdict', { TestVacuum_inHg: 10 }, 'stop'],
    ['SoilVerdict', { SoilClass: 'B', GroundwaterDepth_ft: 5 }, 'stop'],
    ['SoilVerdict', { SoilClass: 'B', GroundwaterDepth_ft: 5, PitDrained: 'yes' }, 'pass'],
    ['TrafficVerdict', { Traffic: 'cars' }, 'stop'],
    ['DaylightVerdict', { OverflowRun_ft: 40, OutfallDrop_ft: 2 }, 'stop'],
    ['DaylightVerdict', { OverflowRun_ft: 40, OutfallDrop_ft: 5 }, 'pass'],
    ['ConduitCoverVerdict', { Cover_ft: 1.5 }, 'stop'],
  ])('%s with %o: %s', (name, row, expected) => {
    expect(verdict(name, row)).toBe(expected)
  })
  it('13 gpm in a 1.049 in bore is 4.83 ft/s, 14 gpm 5.20 ft/s (area of a circle)', () => {
    const velocity = (gpm: number) => (gpm * 231) / 1728 / 60 / ((Math.PI / 4) * (1.049 / 12) ** 2)
    expect(velocity(13)).toBeLessThan(5)
    expect(velocity(14)).toBeGreaterThan(5)
  })
  it('IPS and CTS are never mixed: the job is refused', () => {
    expect(() => takeoffOf({ ...leastRow, LineFittings: 'CTS compression' })).toThrow(ProblemsError)
    expect(() => takeoffOf({ ...leastRow, WaterLinePipe: 'PE CTS', LineFittings: 'IPS insert' })).toThrow(
      /LineFittings: CTS compression on PE CTS: IPS and CTS are never mixed; got "IPS insert"/,
    )
  })
  it('raises the cautions of the job, worst first', () => {
    const names = takeoffOf({ ...leastRow, GroundwaterDepth_ft: 3 })
      .design.cautions()
      .map(({ name }) => name)
    expect(names[0]).toBe('pit walls')
    expect(names).toContain('flotation')
    // Deep groundwater is no promise: 19,200 lb on 60 ft² float in 5.1 ft, and a storm fills a pit of 9 ft (29 CFR 1926.651(h)).
    const dry = takeoffOf({ ...leastRow, GroundwaterDepth_ft: 60 }).design.cautions()
    expect(dry.find(({ name }) => name === 'flotation')?.words).toMatch(/a storm fills a pit: 5\.13? ft of water/)
    // A tank heavier than all the water it could stand in: 62.4 x 60 x 6.5 = 24,336 lb.
    const heavy = { Tanks: demoRows('Tanks').map((cells) => (cells.Model === 'Quern 1800' ? { ...cells, Weight_lb: 24_400, Wall_in: 6 } : cells)) }
    const none = takeoffOf({ ...leastRow, GroundwaterDepth_ft: 60 }, heavy).design.cautions()
    expect(none.map(({ name }) => name)).not.toContain('flotation')
  })
})

describe('lines that follow from what a truck, a trench or a fitting can do', () => {
  it('whole tanks ride on a truck of 44,000 lb', () => {
    // Six of 28,500 lb: two would weigh 57,000, so one a truck. Three of 19,200 lb: two a truck, so two trucks.
    expect(lineOf(demoTakeoff('Ember Yard'), 'HAUL-TANKS')!.net).toBe(6)
    expect(lineOf(demoTakeoff('Wicket Mill'), 'HAUL-TANKS')!.net).toBe(2)
  })
  it('the earth that pipe, stone and clean earth displace in the trenches is hauled too', () => {
    const { design } = demoTakeoff('Ember Yard')
    // Inverts: 2 ft cover + 7 ft tank - 0.5 ft floor - 5.25 ft water = 3.25 ft down; the inlet rises 90 x 1/4 in = 1.875 ft to the house,
    // the overflow falls 70 x 1/4 in = 1.458 ft and the ground 6 ft: it is out of the ground at the outfall. 4 in of bedding under the pipe.
    const [foot, house] = [3.25 + 4 / 12, 3.25 - 1.875 + 4 / 12]
    // The pit is 2 + 7 + 0.5 ft deep in class B: its edge is 2 + 9.5 ft from the tanks, and trenches begin there, as deep as the straight line is by then.
    const edge = 11.5
    const inlet = (foot + ((house - foot) * edge) / 90 + house) / 2
    const overflow = (foot * (1 - edge / 70)) / 2
    // Two drains in each trench: 18 + 12 in wide. 210 ft of line, 18 in wide, 36 in deep.
    const trench = ((210 - edge) * 1.5 * 3 + 2.5 * ((90 - edge) * inlet + (70 - edge) * overflow)) / 27
    // Bedding of two 4.215 in pipes with 4 in under and 6 in over them, less the pipes; 6 in of clean earth over the line.
    // The overflow's trench goes evenly from 3.58 ft to nothing: where it is shallower than that section, half of it lies in the ground.
    const section = (4 + 4.215 + 6) / 12
    const shallow = (70 * section) / (3.25 + 4 / 12)
    const beyond = 160 - 2 * edge
    const drains = ((2.5 * section * (160 - shallow / 2)) / 27) * (beyond / 160)
    const topsoil = (0.5 * ((210 - edge) * 1.5 + beyond * 2.5)) / 27
    const earth = ((210 - edge) * 1.5 * 0.5) / 27
    const fill = trench - drains - earth - topsoil
    expect(design.number('TrenchFill_yd3')).toBeCloseTo(fill, 9)
    // Bank earth shrinks to 0.9 in place.
    const pit =
      design.number('Dig_yd3') -
      (design.number('PitTop_ft2') * 0.5) / 27 -
      (design.number('Backfill_yd3') - design.number('PumpEndEarth_yd3') - design.number('TieStone_yd3')) / 0.9
    expect(design.number('Spoil_yd3')).toBeCloseTo(pit + trench - topsoil - fill / 0.9, 9)
  })
  it('a CTS line has an adapter at the wall, three at its other ends, a coupling where a coil ends', () => {
    const takeoff = takeoffOf({ ...leastRow, WaterLinePipe: 'PE CTS', WaterLineRun_ft: 400, HouseFlow_gpm: 4, RainIntensity_in_per_h: 1 })
    const net = (code: string) => lineOf(takeoff, code)?.net
    expect([net('CTS-WALL'), net('CTS-FITTING'), net('CTS-COUPLING'), net('CTS-STIFFENER'), net('ADAPTER-MALE'), net('CLAMP')]).toEqual([1, 3, 1, 6, undefined, undefined])
    // One tape over the line of 400 ft, one over the cable of 100 ft.
    expect(net('TAPE')).toBe(500)
  })
})

describe('words that an estimator decides by', () => {
  it('a drop just over its limit does not read as equal to it', () => {
    const { design } = takeoffOf({ ...leastRow, TankCount: 2, DropLimit: 0.025, CableSize: '14', RainIntensity_in_per_h: 1 })
    const drop = design.verdicts().find(({ name }) => name === 'DropVerdict')!
    const share = design.number('FeederDropShare')
    expect(drop.verdict).toBe(share > 0.025 ? 'check' : 'pass')
    expect(drop.words).toContain(`, ${Math.round(share * 10000) / 100} %; at most 2.5 %.`)
  })
  it('an item whose price is empty is asked for in the sheet Prices, at its row', () => {
    const rows = demoRows('Prices').map((cells) => (cells.Code === 'LOCATE' ? { ...cells, Price_usd: null } : cells))
    expect(() => takeoffOf(leastRow, { Prices: rows })).toThrow('Prices, row 6, Price_usd: a price for LOCATE, $0 to 1,000,000 (job Least); got nothing.')
  })
  it('pipe that is no polyethylene is refused as the water line', () => {
    expect(() => takeoffOf({ ...leastRow, WaterLinePipe: 'PVC 40' })).toThrow(/WaterLinePipe: polyethylene, one of PE IPS 80, .*PE CTS; got "PVC 40"/)
  })
  it('water above the lid of a tank, or a coupling above the water, is refused', () => {
    const tanks = (more: object) => ({ Tanks: demoRows('Tanks').map((cells) => (cells.Model === 'Quern 1800' ? { ...cells, ...more } : cells)) })
    // 6.5 ft less 12 in of floor and lid.
    expect(() => takeoffOf(leastRow, tanks({ WaterDepth_ft: 9 }))).toThrow('WaterDepth_ft: at most the height less floor and lid, 5.5 ft; got 9.')
    expect(() => takeoffOf(leastRow, tanks({ Coupling_in: 58 }))).toThrow('Coupling_in: below the water, at most 57 in; got 58.')
    expect(takeoffOf(leastRow, tanks({ Coupling_in: 57 })).lines.length).toBeGreaterThan(50)
  })
})

describe('flows at the switch', () => {
  it.each([
    ['FlowAtCutIn_gpm', 'CutIn_psi'],
    ['FlowAtCutOut_gpm', 'CutOut_psi'],
  ] as const)('%s is where the pump’s curve meets lift, switch and line', (name, at) => {
    // Treatment and a preventer stand behind tank and switch: nothing of theirs is lost ahead of the switch.
    const { design } = takeoffOf({ ...leastRow, TreatmentLoss_psi: 6, Backflow: 'preventer', PumpModel: 'Lark 150', CutIn_psi: 40, CutOut_psi: 60, HousePressure_psi: 45 })
    const n = (wanted: JobName) => design.number(wanted)
    const flow = n(name)
    const [flows, heads] = [design.column('CurveFlow_gpm'), design.column('CurveHead_ftw')]
    const above = flows.findIndex((gpm) => gpm >= flow)
    const share = (flow - flows[above - 1]!) / (flows[above]! - flows[above - 1]!)
    const curve = heads[above - 1]! + share * (heads[above]! - heads[above - 1]!)
    // Head of the system by hand: lift, 2.31 ft a psi, and Hazen–Williams losses by the power of 1.852.
    const system = n('Lift_ftw') + 2.31 * n(at) + n('LineLoss_ftw') * (flow / n('HouseFlow_gpm')) ** 1.852
    expect(n('StationLoss_psi')).toBeGreaterThan(10)
    expect(flow).toBeGreaterThan(1)
    // The rule finds the flow to a small part of a foot of head.
    expect(Math.abs(system - curve)).toBeLessThan(0.1)
  })
})
