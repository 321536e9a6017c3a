/** What every definition must hold to, read from the definitions themselves. */
import { execFileSync } from 'node:child_process'
import { describe, expect, it } from 'vitest'
import { callAny as callByName } from '../../src/calc/callWorking.js'
import { calculations } from '../../src/calc/index.js'
import { allowedText, type AnyCalculation, type Step } from '../../src/calc.js'
import { tableColumn } from '../../src/calc/working.js'
import { formula } from '../../src/formula/formula.js'
import { allowedFunctions } from '../../src/formula/functions.js'
import { bibliography } from '../../src/sources.js'
import { unitOf } from '../../src/units.js'
import * as library from '../../src/index.js'
import { asCells } from '../support/calculations.js'

/** Names, order and defaults as the public interface lists them; they never change once landed. */
const signatures: Record<string, string> = {
  CATCHMENTYIELD: 'area_ft2, rain_in, runoff, firstFlush_in=0, filter=1',
  ROOFRUNOFF: 'surface',
  PEAKFLOW: 'area_ft2, intensity_in_per_h',
  TANKVOLUME: 'length_ft, width_ft, depth_ft, count=1',
  WATERBALANCE: 'inflow_gal, demand_gal, capacity_gal, start_gal=0, rule=YAS',
  SUPPLYRELIABILITY: 'inflow_gal, demand_gal, capacity_gal, start_gal=0, rule=YAS, measure=volume',
  STORAGENEEDED: 'inflow_gal, demand_gal, target=0.95, rule=YAS, measure=volume',
  SEQUENTPEAK: 'inflow_gal, demand_gal',
  DRYSPELL: 'rain_in, wet_in=0.01',
  PIPEBORE: 'pipe, size',
  FRICTIONLOSS: 'flow_gpm, length_ft, bore_in, smoothness=150',
  DARCYLOSS: 'flow_gpm, length_ft, bore_in, roughness_in=0.00006, temperature_F=60',
  FLOWVELOCITY: 'flow_gpm, bore_in',
  FITTINGLOSS: 'flow_gpm, bore_in, resistance',
  TOTALHEAD: 'lift_ftw, pressure_psi, loss_ftw',
  PUMPDUTY: 'curve, lift_ftw, testFlow_gpm, testLoss_ftw',
  WATERPOWER: 'flow_gpm, head_ftw, efficiency=1',
  TANKDRAWDOWN: 'volume_gal, cutIn_psi, cutOut_psi, precharge_psi=?, atmosphere_psi=14.7',
  SURGEPRESSURE: 'velocity_fps, waveSpeed_fps',
  DRAINCAPACITY: 'bore_in, slope_in_per_ft, n=0.01',
  OVERFLOWHEAD: 'flow_gpm, bore_in, losses=0.5, discharge=0.6',
  LEADERCAPACITY: 'bore_in, filled=0.2916666666666667',
  LEVELINGTIME: 'areaA_ft2, areaB_ft2, bore_in, from_ft, to_ft=0, discharge=0.6',
  CONDUCTORRESISTANCE: 'size, metal=copper',
  VOLTAGEDROP: 'current_A, length_ft, size, phases=1, metal=copper',
  CONDUCTORSIZE: 'current_A, length_ft, voltage_V, limit=0.03, phases=1, metal=copper, column_C=60',
  AMPACITY: 'size, metal=copper, column_C=60',
  MOTORCURRENT: 'power_hp, voltage_V, phases=1',
  BREAKERSIZE: 'current_A, multiple=2.5',
  GROUNDSIZE: 'breaker_A, metal=copper',
  CONDUITFILL: 'conduit, size, widths_in',
  COVERDEPTH: 'method, place=yard',
  DIGVOLUME: 'length_ft, width_ft, depth_ft, batter=0',
  STONEBEDDING: 'length_ft, width_ft, thickness_in, displaced_ft3=0',
  TRENCHBEDDING: 'length_ft, width_ft, pipe_in, under_in, over_in',
  STONEWEIGHT: 'inPlace_yd3, compaction=0.12, waste=0.1, density_lb_per_yd3=2600',
  LOOSEVOLUME: 'bank_yd3, swell',
  TANKWEIGHT: 'length_ft, width_ft, height_ft, wall_in, floor_in, lid_in, unitWeight_lb_per_ft3=150',
  UPLIFTSAFETY: 'length_ft, width_ft, height_ft, weight_lb, waterDepth_ft, cover_ft=0, soil_lb_per_ft3=57.6, risers_ft2=0',
  SLINGTENSION: 'weight_lb, legs, angle_deg',
  COVERFORCE: 'area_in2, vacuum_inHg',
  VACUUMLOSS: 'start_inHg, end_inHg, startTemp_F=?, endTemp_F=?, startBarometer_inHg=?, endBarometer_inHg=?',
  THERMALCHANGE: 'length_ft, change_deltaF, coefficient_per_F=0.00009',
  ORDERQUANTITY: 'net, waste=0, lot=1',
}

const signature = (calculation: AnyCalculation) =>
  calculation.names
    .map((name) => {
      const spec = calculation.takes[name]
      return `${name}${spec.default !== undefined ? `=${spec.default}` : spec.optional ? '=?' : ''}`
    })
    .join(', ')

describe('the index', () => {
  it('is what the folder listing makes it', () => {
    execFileSync(process.execPath, ['scripts/make-index.mjs', '--check'])
  })
  it('holds the public interface, name by name and argument by argument', () => {
    expect(Object.fromEntries(calculations.map((calculation) => [calculation.id, signature(calculation)]))).toEqual(signatures)
  })
  it('exports every function by name', () => {
    const exported = Object.values(library as Record<string, unknown>)
    for (const calculation of calculations) expect(exported, calculation.id).toContain(calculation)
  })
})

describe.each(calculations.map((calculation) => [calculation.id, calculation] as const))('%s', (_id, calculation: AnyCalculation) => {
  const known = new Set<string>()
  for (const name of calculation.names) {
    const spec = calculation.takes[name]
    for (const part of spec.kind === 'curve' ? spec.columns : [name]) known.add(part)
  }

  it('has steps over known names, allowed functions and cited works, ending in its result', () => {
    const columns: readonly Step[] = calculation.periods?.columns ?? []
    for (const step of columns) known.add(step.symbol)
    for (const name of Object.keys(calculation.periods?.start ?? {})) known.add(`before_${name}`)
    if (calculation.id === 'STORAGENEEDED') known.add('capacity_gal')
    for (const step of [...columns, ...(calculation.steps as readonly Step[])]) {
      const read = formula(step.formula)
      for (const name of read.names) expect(known.has(name) || tableColumn(name) !== undefined, `${step.symbol}: ${name}`).toBe(true)
      for (const name of read.functions) expect(allowedFunctions, `${step.symbol}: ${name}`).toContain(name)
      expect(bibliography[step.source.work], step.symbol).toBeDefined()
      known.add(step.symbol)
    }
    const results = Object.keys({ ...calculation.gives, ...calculation.spills })
    const last = (calculation.steps as readonly Step[]).at(-1)!.symbol
    expect([...results, 'enough', 'last_gal']).toContain(last)
  })

  it('wears units from the closed list and fits the limits of a spreadsheet', () => {
    for (const name of [...calculation.names, ...Object.keys({ ...calculation.gives, ...calculation.spills })])
      expect(!name.includes('_') || unitOf(name) !== undefined, name).toBe(true)
    expect(calculation.id).toMatch(/^[A-Z][A-Z0-9.]{2,}$/)
    expect(calculation.id, 'looks like a cell').not.toMatch(/^[A-Z]{1,3}\d+$/)
    expect(calculation.summary.length).toBeLessThanOrEqual(255)
    for (const name of calculation.names) expect(allowedText(name, calculation.takes[name]).length).toBeGreaterThan(3)
  })

  it('answers its own example, and the working of it ends in the same figure', () => {
    const cells = asCells(calculation.example)
    const result = callByName(calculation.id, cells)
    const working = callByName('WORKING', [calculation.id, ...cells]) as (string | number)[][]
    expect(working[0]).toEqual(['symbol', 'meaning', 'value', 'unit', 'formula', 'source'])
    const last = working.at(-1)![2]
    if (typeof result === 'number') expect(last).toSatisfy((value: unknown) => value === 'TRUE' || Math.abs((value as number) - result) <= 1e-9 * Math.max(1, Math.abs(result)))
    else if (typeof result === 'string') expect(last).toBe(result)
    else expect(result.at(-1)!.at(-1)).toBeCloseTo(last as number, 9)
  })
})
