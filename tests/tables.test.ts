/** The published tables held to what must be true of them, whatever their source. */
import { describe, expect, it } from 'vitest'
import { bibliography } from '../src/sources.js'
import { conductors } from '../src/tables/conductors.js'
import { conduits } from '../src/tables/conduits.js'
import { breakers } from '../src/tables/breakers.js'
import { tables } from '../src/tables/index.js'
import { motorCurrent } from '../src/calc/index.js'
import { materials } from '../src/tables/materials.js'
import { motors } from '../src/tables/motors.js'
import { pipes } from '../src/tables/pipes.js'
import { pitBatters } from '../src/tables/soils.js'
import { vacuumRules } from '../src/tables/vacuumRules.js'
import { water } from '../src/tables/water.js'
import { unitOf } from '../src/units.js'

const n = (value: unknown) => value as number

describe('tables', () => {
  it('wear units from the closed list, and cite a work for every row', () => {
    for (const table of tables) {
      for (const column of table.columns) expect(!column.includes('_') || unitOf(column) !== undefined, `${table.id} ${column}`).toBe(true)
      table.rows.forEach((_row, at) => expect(bibliography[table.sourceOf(at).work], `${table.id} ${at}`).toBeDefined())
    }
  })
  it('motors: the columns of a row stand to each other as the code has them: 200 V 1.15 and 208 V 1.10 of 230 V, 115 V twice, 460 V half and 575 V two fifths of it', () => {
    for (const { phases, power_hp, at115_A, at200_A, at208_A, at230_A, at460_A, at575_A } of motors.rows) {
      const near = (value: unknown, share: number) => {
        // Printed to a tenth: 2 %, and half a tenth.
        if (typeof value === 'number') expect(Math.abs(value - share * n(at230_A)), `${phases} phase, ${power_hp} hp`).toBeLessThanOrEqual(0.02 * value + 0.051)
      }
      near(at115_A, 2)
      near(at200_A, 1.15)
      near(at208_A, 1.1)
      near(at460_A, 0.5)
      near(at575_A, 0.4)
    }
  })
  it('vacuum rules: what may be lost, as their sources say (NPCA none, WAC 246-272B and ASTM C1227 a tenth, Minnesota 7080.2010 none)', () => {
    expect(vacuumRules.rows.map(({ loss }) => loss)).toEqual([0, 0.1, 0.1, 0.1, 0])
    // Inches of mercury and minutes, from the same places.
    expect(vacuumRules.rows.map(({ vacuum_inHg, time_min }) => [vacuum_inHg, time_min])).toEqual([
      [4, 5],
      [4, 2],
      [4, 2],
      [2, 2],
      [2, 5],
    ])
  })
  it('ampacities are those of NEC Table 310.16, 14 AWG to 4/0 (from memory, a second time)', () => {
    const column = (name: string) => conductors.rows.map((row) => row[name])
    expect(column('copper60_A')).toEqual([15, 20, 30, 40, 55, 70, 85, 95, 110, 125, 145, 165, 195])
    expect(column('copper75_A')).toEqual([20, 25, 35, 50, 65, 85, 100, 115, 130, 150, 175, 200, 230])
    expect(column('aluminum60_A')).toEqual([null, 15, 25, 35, 40, 55, 65, 75, 85, 100, 115, 130, 150])
    expect(column('aluminum75_A')).toEqual([null, 20, 30, 40, 50, 65, 75, 90, 100, 120, 135, 155, 180])
  })
  it('roughness is that of EPA’s manual, Table 3.2, printed in thousandths of a foot', () => {
    const printed: Readonly<Record<string, readonly [number, number]>> = {
      plastic: [0.005, 0.005],
      steel: [0.15, 0.15],
      'cast iron': [0.85, 0.85],
      concrete: [1, 10],
      'galvanized iron': [0.5, 0.5],
    }
    for (const [material, [low, high]] of Object.entries(printed)) {
      const row = materials.rows.find((one) => one.material === material)!
      expect(n(row.roughnessLow_in), material).toBeCloseTo((low / 1000) * 12, 9)
      expect(n(row.roughnessHigh_in), material).toBeCloseTo((high / 1000) * 12, 9)
    }
  })
  it('pipe: bore and two walls make the outside; ratios hold', () => {
    for (const { pipe, size, bore_in, outside_in, wall_in, ratio, rating_psi } of pipes.rows) {
      const where = `${pipe} ${size}`
      // Walls and diameters are printed to 0.001 in.
      expect(Math.abs(n(outside_in) - 2 * n(wall_in) - n(bore_in)), where).toBeLessThanOrEqual(0.0011)
      if (String(pipe).startsWith('PE IPS')) {
        expect(n(wall_in), where).toBeGreaterThanOrEqual(Math.max(0.06, n(bore_in) / n(ratio)) - 0.0006)
        // 2 x 800 psi / (SIDR + 1), marked in round figures: within 3 %.
        expect(Math.abs((2 * 800) / (n(ratio) + 1) / n(rating_psi) - 1), where).toBeLessThan(0.03)
      }
      // 2 x 800 psi / (SDR - 1) at SDR 9.
      if (pipe === 'PE CTS') expect(Math.abs(n(outside_in) / n(wall_in) - 9), where).toBeLessThan(0.07)
      // 2 x 2000 psi x wall / (outside - wall), rounded to 10 psi.
      if (String(pipe).match(/^PVC [48]0$/)) expect(Math.abs((4000 * n(wall_in)) / (n(outside_in) - n(wall_in)) - n(rating_psi)), where).toBeLessThanOrEqual(6)
      if (pipe === 'PVC SDR 35') expect(Math.abs(n(outside_in) / n(wall_in) - 35), where).toBeLessThan(0.4)
    }
    expect(new Set(pipes.rows.map(({ pipe }) => pipe)).size).toBe(9)
  })
  it('conductors: areas follow the gauge formula, resistances the area, ampacities rise', () => {
    const gauge = (size: string) => (size.endsWith('/0') ? 1 - Number(size[0]) : Number(size))
    conductors.rows.forEach((row, at) => {
      const diameter = 0.005 * 92 ** ((36 - gauge(String(row.size))) / 39)
      // The code prints four figures (ASTM B258 formula, reference pack: within 0.1 %).
      expect(Math.abs((1000 * diameter) ** 2 / n(row.area_cmil) - 1), String(row.size)).toBeLessThan(0.001)
      // 10.371 ohm cmil/ft (NBS Handbook 100), 0.00393 per °C to 75 °C, 2 % for stranding; printed to three figures.
      expect(Math.abs((((10.371 * (1 + 0.00393 * 55) * 1.02) / n(row.area_cmil)) * 1000) / n(row.copper_ohm_per_kft) - 1), String(row.size)).toBeLessThan(0.008)
      expect(Math.abs((((17.002 * (1 + 0.00403 * 55) * 1.02) / n(row.area_cmil)) * 1000) / n(row.aluminum_ohm_per_kft) - 1), String(row.size)).toBeLessThan(0.009)
      const before = conductors.rows[at - 1]
      for (const column of ['copper60_A', 'copper75_A', 'aluminum60_A', 'aluminum75_A'])
        if (before && typeof before[column] === 'number') expect(n(row[column]), `${row.size} ${column}`).toBeGreaterThan(n(before[column]))
      expect(n(row.copper75_A)).toBeGreaterThan(n(row.copper60_A))
    })
    expect(conductors.rows).toHaveLength(13)
  })
  it('conduit: area is pi/4 of the square of the diameter', () => {
    // Printed to 0.001 in².
    for (const { conduit, size, inside_in, area_in2 } of conduits.rows) expect(Math.abs((Math.PI / 4) * n(inside_in) ** 2 - n(area_in2)), `${conduit} ${size}`).toBeLessThan(0.002)
    expect(conduits.rows).toHaveLength(20)
  })
  it('motors: the rows that were read in the code are said to be, all others are from memory', () => {
    // NFPA 70, Tables 430.248 and 430.250: the rows whose 115 and 230 V, or 208 and 460 V, were read.
    const read = motors.rows.filter((_, at) => motors.sourceOf(at).locator !== 'Tables 430.248 and 430.250').map(({ phases, power_hp }) => `${phases} x ${power_hp}`)
    expect(read).toEqual([...[0.5, 0.75, 1, 1.5, 2, 3, 5].map((hp) => `1 x ${hp}`), ...[0.5, 0.75, 1, 1.5, 2, 3, 5, 7.5].map((hp) => `3 x ${hp}`)])
  })
  it('motors: a power that is not listed is answered with those that are, for its phases and voltage', () => {
    expect(() => motorCurrent.run({ power_hp: 7, voltage_V: 230, phases: 3 })).toThrow(/0\.5, 0\.75, 1, 1\.5, 2, 3, 5, 7\.5, 10 hp, listed for 3 phase and 230 V/)
    // Table 430.248 begins at 1/6 hp.
    expect(() => motorCurrent.run({ power_hp: 7, voltage_V: 115, phases: 1 })).toThrow(/one of 0\.17?\d*, 0\.25, 0\.33\d*, 0\.5/)
  })
  it('motors and breakers rise; a motor at half the voltage draws twice', () => {
    for (const row of motors.rows) if (typeof row.at115_A === 'number') expect(Math.abs(n(row.at115_A) / n(row.at230_A) - 2)).toBeLessThan(0.02)
    const ratings = breakers.rows.map(({ rating_A }) => n(rating_A))
    expect([...ratings].sort((one, other) => one - other)).toEqual(ratings)
    expect(ratings).toEqual([15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400])
  })
  it('batters: the angle is that of the run', () => {
    // Printed to a degree, rounded either way.
    for (const { batter, angle_deg } of pitBatters.rows) expect(Math.abs((Math.atan2(1, n(batter)) * 180) / Math.PI - n(angle_deg))).toBeLessThan(0.6)
  })
  it('water: viscosity falls with temperature, smoothly', () => {
    const list = water.rows.map(({ viscosity_ft2_per_s }) => n(viscosity_ft2_per_s))
    for (let at = 1; at < list.length; at++) expect(list[at]!).toBeLessThan(list[at - 1]!)
  })
})
