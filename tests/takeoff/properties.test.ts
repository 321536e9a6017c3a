/** What must hold for any job, tried on random ones. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readOffice } from '../../src/takeoff/office.js'
import { workJob, type Takeoff } from '../../src/takeoff/takeoff.js'
import { verdictWords } from '../../src/takeoff/verdicts.js'
import { jobView } from '../../src/takeoff/view.js'
import { leastRow, officeWith, pitLeft_yd3 } from '../support/office.js'
import { jobs } from '../support/randomJobs.js'

const base = { ...leastRow, RainStation: 'Low Fallow' }
function worked(row: Record<string, unknown>): Takeoff | undefined {
  const office = readOffice(officeWith({ Jobs: [{ ...base, ...row }], Catchments: [], Uses: [] }))
  return workJob(office, office.tables.Jobs[0]!).takeoff
}
const worse = (one: string, other: string) => verdictWords.indexOf(one as never) - verdictWords.indexOf(other as never)
/** So many jobs are tried; where more than ten are passed over for each, a property that tries next to nothing fails. */
const RUNS = { numRuns: 40, maxSkipsPerRun: 10 }

describe('any job', () => {
  it('dig = bed + tanks + stone + drains + fill; money by kind and by section adds to the cent; every figure is one', () => {
    fc.assert(
      fc.property(jobs, (row) => {
        const takeoff = worked(row)
        fc.pre(takeoff !== undefined)
        const { design, lines, byKind, sections, orderCost, overhead, markup, tax, total } = takeoff
        const part = (name: Parameters<typeof design.number>[0]) => design.number(name)
        expect(Math.abs(pitLeft_yd3({ design }))).toBeLessThan(1e-9 * part('Dig_yd3'))
        const cents = (value: number) => Math.round(value * 100)
        const sum = lines.reduce((all, line) => all + cents(line.amount), 0)
        expect(cents(orderCost)).toBe(sum)
        expect(Object.values(byKind).reduce((all, value) => all + cents(value), 0)).toBe(sum)
        expect(sections.reduce((all, section) => all + cents(section.total), 0)).toBe(sum)
        expect(cents(total)).toBe(cents(orderCost) + cents(overhead) + cents(markup) + cents(tax))
        // Paid once: no line of earth has both a price and hours.
        for (const { rule, amount, hours } of lines) if (rule.isEarthwork) expect(amount > 0 && hours > 0, rule.key).toBe(false)
        const view = JSON.stringify(jobView('x', { design, takeoff, problems: [] }, []))
        expect(view).not.toMatch(/NaN|Infinity|#[A-Z]+[!?/]|\{\w+\}|undefined/)
      }),
      RUNS,
    )
  })
  it('deeper groundwater never makes the uplift worse', () => {
    fc.assert(
      fc.property(jobs, fc.integer({ min: 1, max: 20 }), (row, deeper) => {
        const [one, other] = [worked(row), worked({ ...row, GroundwaterDepth_ft: row.GroundwaterDepth_ft + deeper })]
        fc.pre(one !== undefined && other !== undefined)
        expect(worse(other.design.verdict('UpliftVerdict'), one.design.verdict('UpliftVerdict'))).toBeGreaterThanOrEqual(0)
      }),
      RUNS,
    )
  })
  it('a lower house never makes the pressure verdict of one pump better', () => {
    fc.assert(
      fc.property(jobs, fc.integer({ min: 1, max: 60 }), (row, lower) => {
        const fixed = { ...row, PumpModel: 'Lark 150', WaterLinePipe: 'PE IPS 160' }
        const [one, other] = [worked(fixed), worked({ ...fixed, WaterLineRise_ft: row.WaterLineRise_ft - lower })]
        fc.pre(one !== undefined && other !== undefined)
        expect(worse(other.design.verdict('RatingVerdict'), one.design.verdict('RatingVerdict'))).toBeLessThanOrEqual(0)
      }),
      RUNS,
    )
  })
  it('more roof flow never raises the water less in a fixed layout', () => {
    fc.assert(
      fc.property(jobs, fc.integer({ min: 1, max: 4 }), (row, more) => {
        const fixed = { ...row, DrainSize_in: 8, InletTanks: 1, TankCount: 1, RoofArea_ft2: Math.min(row.RoofArea_ft2, 3000) }
        const [one, other] = [worked(fixed), worked({ ...fixed, RainIntensity_in_per_h: row.RainIntensity_in_per_h + more })]
        fc.pre(one !== undefined && other !== undefined && one.design.number('OverflowCount') === other.design.number('OverflowCount'))
        expect(other.design.number('StormRise_ft')).toBeGreaterThanOrEqual(one.design.number('StormRise_ft') - 1e-9)
      }),
      RUNS,
    )
  })
  it('more tanks never meet less of the wish', () => {
    fc.assert(
      fc.property(jobs, (row) => {
        const [one, other] = [worked({ ...row, TankCount: Math.min(11, row.TankCount) }), worked({ ...row, TankCount: Math.min(11, row.TankCount) + 1 })]
        fc.pre(one !== undefined && other !== undefined)
        // Sums of twelve months in two orders.
        expect(other.design.number('Reliability')).toBeGreaterThanOrEqual(one.design.number('Reliability') - 1e-9)
      }),
      RUNS,
    )
  })
  it('submerged soil is never passed as anything but C, and no walls under water are steeper than 1.5 to 1', () => {
    fc.assert(
      fc.property(jobs, (row) => {
        const takeoff = worked(row)
        fc.pre(takeoff !== undefined && takeoff.design.single('PitWater') === 'wet')
        expect(takeoff.design.number('Batter')).toBe(1.5)
        expect(takeoff.design.verdict('SoilVerdict')).toBe(row.SoilClass === 'C' ? 'check' : 'stop')
      }),
      RUNS,
    )
  })
})

describe('the crew’s order can be built', () => {
  const order = (row: Record<string, unknown>) => jobView('x', { design: worked(row)!.design, takeoff: undefined, problems: [] }, []).crew.map(({ code }) => code)
  it('each step after what it stands on', () => {
    const codes = order({ TankModel: 'Quern 1200', TankCount: 3, GroundwaterDepth_ft: 3.5, SoilClass: 'C', RainIntensity_in_per_h: 2 })
    const before = (...list: readonly string[]) => {
      for (let at = 1; at < list.length; at++) {
        expect(codes, list[at]).toContain(list[at])
        expect(codes.indexOf(list[at - 1]!), `${list[at - 1]} before ${list[at]}`).toBeLessThan(codes.indexOf(list[at]!))
      }
    }
    // Entry held before the ties are made; everyone out before plates; stone, line and its test before ballast; the pump stops after ballast and lower fill;
    // drains and cable on the earth they lie on, what lies over them after them; power before the pump runs; water before disinfection.
    before(
      'B1',
      'B8',
      'B3',
      'A2',
      'A3',
      'C4',
      'C2',
      'D5',
      'D4',
      'D1',
      'D2',
      'D3',
      'E8',
      'G2',
      'E1',
      'E5',
      'G6',
      'G1',
      'G5',
      'G4',
      'I2',
      'I1',
      'G3',
      'F1',
      'F2',
      'G7',
      'F3',
      'H5',
      'E4',
      'E7',
      'H4',
      'H1',
      'H3',
    )
  })
  it('with groundwater above the drains the pump runs until they are covered', () => {
    const codes = order({ TankCount: 2, GroundwaterDepth_ft: 2, SoilClass: 'C', RainIntensity_in_per_h: 2 })
    expect(codes).not.toContain('G4')
    expect(codes.indexOf('G8')).toBeGreaterThan(codes.indexOf('G7'))
  })
  it('a stop stands before the first step as a barrier', () => {
    const view = jobView('x', { design: worked({ TankCount: 1, TestVacuum_inHg: 10 })!.design, takeoff: undefined, problems: [] }, [])
    expect(view.crew[0]).toMatchObject({ code: 'STOP VacuumVerdict', stage: 'Do not start', hold: 'engineer or licensed person' })
  })
})
