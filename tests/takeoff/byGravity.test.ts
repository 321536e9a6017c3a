/** A house so far below the tanks that gravity serves it: no paper speaks of a pump that nobody sets. And what a job leaves out, which no paper offers. */
import { describe, expect, it } from 'vitest'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { sectionPicture } from '../../src/plan/drawing/sectionPicture.js'
import { careOf } from '../../src/takeoff/careTasks.js'
import type { Takeoff } from '../../src/takeoff/takeoff.js'
import { made } from '../support/makings.js'
import { demoRows, leastRow, lineOf, takeoffOf } from '../support/office.js'
import { measureOf } from '../../src/plan/words.js'

const wordsOf = (takeoff: Takeoff, kind: string): string =>
  jobSheets(takeoff, standardPlaces(), 'native', made)
    .find((plan) => plan.kind === kind)!
    .cells.map(({ value }) => String(value ?? ''))
    .join('\n')

// 130 ft of fall are 56 psi: 20 psi and the friction of 6 gpm are less.
const low = { ...leastRow, WaterLineRise_ft: -130, HouseFlow_gpm: 6, HousePressure_psi: 30 }
const WITHOUT = 'Pump and drop, Power, PRESSURE-TANK, RELIEF'
const withPump = takeoffOf(low)
const byGravity = takeoffOf({ ...low, Without: WITHOUT })

describe('a job that gravity serves', () => {
  it('is told to leave the pump out, in words that the row takes as they stand', () => {
    const said = (takeoff: Takeoff) => takeoff.design.verdicts().find(({ name }) => name === 'DutyVerdict')!
    expect(said(withPump).words).toContain(`(Without: ${WITHOUT})`)
    expect(said(withPump).verdict).not.toBe('pass')
    expect(said(takeoffOf({ ...low, Without: WITHOUT, TrenchDepth_in: 87 }))).toMatchObject({
      verdict: 'pass',
      words: expect.stringContaining('no pump is part of this job') as string,
    })
    expect(byGravity.design.verdicts().find(({ name }) => name === 'DropVerdict')).toMatchObject({ verdict: 'pass', words: 'No pump is part of this job.' })
    // Left out where the house needs one: somebody else sets it, and it is judged.
    const byOthers = takeoffOf({ ...leastRow, Without: WITHOUT }).design
    expect(byOthers.number('TotalHead_ftw')).toBeGreaterThan(0)
    expect([byOthers.number('PumpLeftOut'), byOthers.number('ByGravity')]).toEqual([1, 0])
    // A pump that somebody else sets is a pump.
    expect(takeoffOf({ ...leastRow, Without: 'PUMP' }).design.number('ByGravity')).toBe(0)
    expect(takeoffOf({ ...low, Without: 'VENT' }).design.number('ByGravity')).toBe(0)
  })
  it('has a line that falls all the way: by hand, its trench begins at the coupling and comes up as the ground falls', () => {
    // 2 ft of cover and 6.5 ft of tank, the line 14 in over the bed: 7.33 ft down; the trench is 3 ft, and the ground falls 1 ft in 10 from the tanks on.
    const gentle = { ...leastRow, WaterLineRun_ft: 600, WaterLineRise_ft: -60, HouseFlow_gpm: 5, HousePressure_psi: 10, Without: WITHOUT }
    const takeoff = takeoffOf(gentle)
    const { design } = takeoff
    const deeper = 2 + 6.5 - 14 / 12 - 3 - design.number('PitEdge_ft') / 10
    expect(design.number('LineDeeper_ft')).toBeCloseTo(deeper, 12)
    expect(design.number('DeepReach_ft')).toBeCloseTo(10 * deeper, 12)
    // 18 in wide and as deep as the mean of both ends, over the 3 ft that are dug all along; 5.9 ft deep at the pit it takes a box of 3 ft.
    const wedge = (width: number) => (10 * deeper * (width * (3 + deeper / 2) - 1.5 * 3)) / 27
    expect(3 + deeper).toBeGreaterThan(5)
    // What lies within the pit's edge is dug with the pit.
    expect(design.number('LineDig_yd3')).toBeCloseTo(((600 - design.number('PitEdge_ft')) * 1.5 * 3) / 27 + wedge(3), 12)
    expect(design.number('DeepestTrench_ft')).toBeCloseTo(3 + deeper, 2)
    expect(design.cautions().map(({ name }) => name)).toContain('trench walls')
    const line = (code: string) => lineOf(takeoff, code)
    expect(line('TRENCH-BOX')).toBeDefined()
    // The dig of the wedge is paid by the yard, and takes hours of the excavator at its rates.
    expect(line('TRENCH-LINE')!.net).toBeCloseTo(((600 - design.number('PitEdge_ft')) * 1.5 * 3) / 27 + wedge(3), 9)
    expect(design.number('Trench_h')).toBeCloseTo(design.number('TrenchRun_ft') / 60 + wedge(3) / 40 + wedge(3) / 15, 9)
    expect(design.verdicts().find(({ name }) => name === 'DutyVerdict')).toMatchObject({
      verdict: 'pass',
      words: expect.stringContaining('from its coupling, 7.33 ft down') as string,
    })
    expect(wordsOf(takeoff, 'crew')).toContain('falls all the way from its coupling, 7.33 ft down at the tanks')
    // On long and nearly level ground the box stands for days over that reach alone: dug and laid at 60 ft/h each, days of 8 hours.
    const level = takeoffOf({ ...gentle, WaterLineRun_ft: 2000, WaterLineRise_ft: -14, HouseFlow_gpm: 1, HousePressure_psi: 0, WaterLineSize: '2' }).design
    expect([level.number('ByGravity'), level.number('LineProtected')]).toEqual([1, 0])
    const days = (level.number('DeepReach_ft') * (1 / 60 + 1 / 60)) / 8
    expect(days).toBeGreaterThan(1)
    expect(level.number('TrenchBox_day')).toBe(Math.ceil(days))
    // Under 5 ft at the pit, and in dry rock, no box makes it wider: half the fall takes the line 2 ft deeper there.
    const rock = takeoffOf({ ...gentle, SoilClass: 'rock', GroundwaterDepth_ft: 30 }).design
    const inRock = 2 + 6.5 - 14 / 12 - 3 - rock.number('PitEdge_ft') / 10
    expect(rock.number('DeepDig_yd3')).toBeCloseTo((10 * inRock * 1.5 * inRock) / 2 / 27, 9)
    // As deep as the coupling, where the ground falls as far within the pit, or with a pump, there is no such wedge.
    for (const other of [takeoffOf({ ...gentle, TrenchDepth_in: 90 }), byGravity, withPump])
      expect(['LineDeeper_ft', 'DeepReach_ft', 'DeepDig_yd3'].map((name) => other.design.number(name as never))).toEqual([0, 0, 0])
    // No drawing shows it rising, and nobody sets what is not sold.
    for (const one of [takeoff, byGravity]) {
      const [drawn] = sectionPicture(one.design, measureOf(one.design)).shapes.flatMap((shape) => (shape.kind === 'path' && shape.role === 'waterline' ? [shape.points] : []))
      for (const [at, [, depth]] of drawn!.slice(1).entries()) expect(depth).toBeGreaterThanOrEqual(drawn![at]![1])
      expect(wordsOf(one, 'crew')).not.toMatch(/relief valve set|air charge/)
    }
    expect(wordsOf(byGravity, 'crew')).toContain('falls all the way to the house')
    expect(wordsOf(withPump, 'crew')).not.toContain('falls all the way to the house')
    // What breaks a siphon breaks this.
    expect(byGravity.lines.map(({ code }) => code)).not.toContain('SIPHON-BREAK')
    expect(withPump.lines.map(({ code }) => code)).toContain('SIPHON-BREAK')
    for (const name of ['VelocityVerdict', 'RatingVerdict']) expect(byGravity.design.verdicts().find((one) => one.name === name)!.words).not.toMatch(/pump|cut in|pitless/)
  })
  it('whose pump lies under full water at the high point of its line keeps it by a valve: a breaker lets no air in there', () => {
    // Water 3.25 ft down, the trench 5 ft: 1.75 ft of the water stand over the line's high point.
    const deep = takeoffOf({ ...low, TrenchDepth_in: 60 })
    expect(deep.design.number('CrestUnderFull_ft')).toBeCloseTo(1.75, 12)
    expect(deep.design.cautions().find(({ name }) => name === 'siphon')!.words).toMatch(/1.8 ft under full water.*only a valve that closes at the house/)
    // The air charge is read with the tanks shut off from the tap: else they would run out through it.
    expect(deep.design.words(careOf(deep.design).find(({ code }) => code === 'K6')!.task)).toContain('the valve at the house closed')
  })
  it('is figured without the pump that it has not: pressures, flow and test by hand', () => {
    for (const PumpModel of [null, 'Lark 75', 'Lark 100', 'Lark 150']) {
      const { design } = takeoffOf({ ...low, HouseFlow_gpm: 8, HousePressure_psi: 45, WaterLineRun_ft: 300, PowerRun_ft: 310, PumpModel, Without: WITHOUT })
      // The water stands 130 - 3.25 ft over the house, 1 psi each 2.31 ft, and its line lies no deeper than that.
      expect(design.number('HouseBelow_ft')).toBeCloseTo(126.75, 6)
      expect(design.number('LinePressureMost_psi')).toBeCloseTo(126.75 / 2.31, 6)
      // Hazen–Williams: what is left of 126.75 ft over 2.31 x 45 ft of pressure, by the 0.54th power.
      expect(design.number('ActualFlow_gpm')).toBeCloseTo(8 * ((126.75 - 2.31 * 45) / design.number('NewLineLoss_ftw')) ** 0.54, 6)
      expect(design.number('MostFlow_gpm')).toBe(design.number('ActualFlow_gpm'))
      expect([design.bareVerdict('RatingVerdict'), design.bareVerdict('VelocityVerdict')]).toEqual(['pass', 'pass'])
    }
    // No valve holds back what no switch puts in.
    const codes = (row: object) => takeoffOf({ ...low, Without: WITHOUT, CutOut_psi: 85, CutIn_psi: 65, ...row }).lines.map(({ code }) => code)
    expect(codes({})).not.toContain('REDUCER')
    expect(codes({ Without: '' })).toContain('REDUCER')
  })
  it('digs, fills and tapes for its line alone, and asks for no feed', () => {
    const run = { ...low, WaterLineRun_ft: 60, PowerRun_ft: null, Without: WITHOUT }
    const { design, lines } = takeoffOf(run)
    const order = (code: string) => lines.find((line) => line.code === code)!
    // 3 ft deep and 18 in wide, from the pit's edge on.
    const dug = (feet: number) => ((feet - design.number('PitEdge_ft')) * 1.5 * 3) / 27
    expect(design.number('LineDig_yd3') - design.number('DeepDig_yd3')).toBeCloseTo(dug(60), 9)
    expect([order('TRENCH-LINE').net, order('TAPE').net]).toEqual([design.number('LineDig_yd3'), 60])
    expect(order('TRENCH-LINE').description).toBe('Trench for water line, bank measure')
    expect(order('TAPE').description).not.toContain('cable')
    // Joints at the tank's wall and at the house; two clamps on each.
    expect([design.number('LineJoints'), order('CLAMP').net]).toEqual([2, 4])
    expect(design.number('PowerRunAssumed')).toBe(0)
    expect(design.verdict('RunsVerdict')).toBe(takeoffOf({ ...run, PowerRun_ft: 100 }).design.verdict('RunsVerdict'))
    // With a pump the longer of the two is dug, both are taped, and the feed is asked for.
    const pumped = takeoffOf({ ...run, Without: null })
    expect(pumped.lines.find(({ code }) => code === 'TRENCH-LINE')!.net).toBeCloseTo(dug(100), 9)
    expect(pumped.lines.find(({ code }) => code === 'TAPE')!.net).toBe(160)
    expect(pumped.design.number('PowerRunAssumed')).toBe(1)
  })
  it('is one in an office whose code for the cable is an older one, and by codes as the takeoff shows them', () => {
    const items = demoRows('Items').map((row) => (String(row.Code).startsWith('CABLE-') ? { ...row, Code: 'CABLE-{CableMetal}-{Cable}' } : row))
    expect(takeoffOf({ ...low, Without: WITHOUT }, { Items: items }).design.number('ByGravity')).toBe(1)
    const { code } = withPump.lines.find(({ rule }) => rule.key.startsWith('CABLE-'))!
    expect(takeoffOf({ ...low, Without: `PUMP, ${code}` }).design.number('ByGravity')).toBe(1)
  })
  it('sells no pressure tank that no pump fills, and judges nothing that is not there', () => {
    const codes = takeoffOf({ ...low, Without: 'Pump and drop, Power' }).lines.map(({ code }) => code)
    expect(codes.filter((code) => ['PUMP', 'PRESSURE-TANK', 'RELIEF'].includes(code))).toEqual([])
    expect(codes).toContain('HOUSE-VALVE')
    const silent = byGravity.design.verdicts().flatMap(({ name, words }) => (words === 'No pump is part of this job.' ? [name] : []))
    expect(silent.sort()).toEqual([
      'AmpacityVerdict',
      'ConduitCoverVerdict',
      'DropVerdict',
      'FillVerdict',
      'PressureTankVerdict',
      'ReliefVerdict',
      'StartDropVerdict',
      'SupplyVerdict',
      'SwitchVerdict',
      'TrenchVerdict',
    ])
  })
  it('is none while its feed is bought: a pump of others is fed all the same', () => {
    const { design, lines } = takeoffOf({ ...low, Without: 'PUMP' })
    expect(lines.some(({ rule }) => rule.section === 'Power')).toBe(true)
    expect([design.number('ByGravity'), design.bareVerdict('DutyVerdict') === 'pass']).toEqual([0, false])
    expect(takeoffOf({ ...low, Without: 'PUMP', PowerRun_ft: 900, CableSize: '14' }).design.verdict('DropVerdict')).not.toBe('pass')
  })
  it('has no pump, power or switch on any paper that somebody works by', () => {
    for (const kind of ['quote', 'crew', 'test', 'handover']) {
      expect(wordsOf(withPump, kind)).toMatch(/submersible pump|Pump |pump starts/)
      // Headings are those of every record.
      const lines = wordsOf(byGravity, kind)
        .split('\n')
        .filter((line) => !/ground-fault|^Test record: |^LINE, PUMP, SWITCH/.test(line))
      expect(
        lines.filter((line) => /submersible pump|switch|pump starts|Pump running|cut-off|(?<!iphon )breaker|power feed|pressure tank|relief valve/i.test(line)),
        kind,
      ).toEqual([])
    }
    expect(byGravity.lines.filter(({ rule }) => ['Pump and drop', 'Power'].includes(rule.section))).toEqual([])
    const roles = (takeoff: Takeoff) => new Set(sectionPicture(takeoff.design, measureOf(takeoff.design)).shapes.map(({ role }) => role))
    expect(['pump', 'rod', 'conduit'].filter((role) => roles(byGravity).has(role as never))).toEqual([])
    expect(['pump', 'rod', 'conduit', 'waterline'].filter((role) => roles(withPump).has(role as never))).toHaveLength(4)
    expect(roles(byGravity).has('waterline')).toBe(true)
    expect(careOf(byGravity.design).map(({ code }) => code)).not.toContain('K5')
    // What still is read there.
    expect(wordsOf(byGravity, 'test')).toMatch(/X13[^]*Flow at the house[^]*Pressure at the house/)
  })
})

describe('papers of such a job', () => {
  it('name nothing as left out that gravity makes needless, and end no sentence in nothing', () => {
    for (const kind of ['quote', 'crew', 'handover']) expect(wordsOf(byGravity, kind), kind).not.toMatch(/Left out by agreement|set by others|: \./)
    expect(wordsOf(takeoffOf({ ...low, Without: `${WITHOUT}, SIGN` }), 'quote')).toContain('Left out by agreement: Sign: cistern water, not for drinking.')
  })
  it('stop where more is wanted than a house may have, pump or none', () => {
    // IPC 604.8 and UPC 608.2 (from memory): 80 psi.
    const wants = (HousePressure_psi: number) => takeoffOf({ ...low, WaterLineRise_ft: -200, WaterLineRun_ft: 300, HouseFlow_gpm: 2, HousePressure_psi, Without: WITHOUT }).design
    expect([wants(82).number('ByGravity'), wants(82).verdict('SwitchVerdict')]).toEqual([1, 'stop'])
    expect([wants(80).number('ByGravity'), wants(80).verdict('SwitchVerdict')]).toEqual([1, 'pass'])
  })
})

describe('what a job leaves out', () => {
  const job = demoRows('Jobs')[3]!
  it('is offered on no quote, tanks and power as well as pumps', () => {
    const quote = (Without: string) => wordsOf(takeoffOf({ ...job, Without }), 'quote')
    expect(quote('')).toMatch(
      /3 precast concrete tanks, together holding[^]*A submersible pump for [\d.]+ gpm at [\d.]+ psi with pressure tank, [\d.]+ ft of buried water line and [\d.]+ ft of power feed with conduit\./,
    )
    expect(quote('Power')).not.toMatch(/power feed/)
    expect(quote('Power')).toMatch(/pressure tank and [\d.]+ ft of buried water line\.[^]*Left out by agreement: all of the section Power\./)
    expect(quote('CONDUIT-{ConduitSize}')).toMatch(/ft of power feed\./)
    // Another code for a tank is a tank.
    const items = demoRows('Items').map((row) => (row.Code === 'TANK' ? { ...row, Code: 'CISTERN' } : row))
    expect(wordsOf(takeoffOf(job, { Items: items }), 'quote')).toMatch(/3 precast concrete tanks, together holding [^\n]* set on a stone bed/)
    expect(quote('Inlet and overflow')).not.toMatch(/buried drain/)
    expect(quote('Earthwork, Stone and backfill')).toMatch(/3 precast concrete tanks, together holding [\d,]+ gal, connected low\.\n/)
    expect(quote('TANK')).toMatch(/for 3 tanks of others, together holding/)
    expect(quote('TANK')).not.toMatch(/precast concrete tanks/)
  })
  it('takes codes as the takeoff shows them, and the tanks of a second model with the first', () => {
    const { code } = takeoffOf(job).lines.find(({ rule }) => rule.key.startsWith('CABLE-'))!
    expect(code).not.toContain('{')
    const without = takeoffOf({ ...job, Without: code })
    expect(without.lines.some(({ rule }) => rule.key.startsWith('CABLE-'))).toBe(false)
    expect(without.lines.length).toBe(takeoffOf(job).lines.length - 1)
    // The alternate with another tank is without tanks too: what it costs less is pit, stone and labor.
    const more = (takeoff: Takeoff) =>
      takeoff
        .options()
        .find(({ name }) => name === 'one shorter tank')!
        .takeoff!.lines.filter(({ rule }) => rule.key.startsWith('TANK'))
    expect(more(takeoffOf({ ...job, Without: 'TANK' }))).toEqual([])
    expect(more(takeoffOf(job)).length).toBeGreaterThan(0)
    expect(() => takeoffOf({ ...job, Without: 'RISER-LIDD' })).toThrow(/Without: codes of the sheet Items, or names of its sections, commas between; got "RISER-LIDD"/)
  })
})
