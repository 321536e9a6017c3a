/** Any input at all gives a finite result or a worded refusal; and what must hold within each chapter holds. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { AnyCalculation, Columns } from '../../src/calc.js'
import { callAny as callByName } from '../../src/calc/callWorking.js'
import {
  calculations,
  darcyLoss,
  frictionLoss,
  orderQuantity,
  storageNeeded,
  supplyReliability,
  tankDrawdown,
  upliftSafety,
  voltageDrop,
  waterBalance,
} from '../../src/calc/index.js'
import { colebrookFactor } from '../../src/calc/pipe/darcyLoss.js'
import { InputError } from '../../src/errors.js'
import { column } from '../../src/table.js'
import { conductors } from '../../src/tables/conductors.js'
import { asCells, inputsOf, inSpan } from '../support/calculations.js'

const RUNS = 300

const odd = fc.oneof(
  fc.double(),
  fc.constantFrom(
    0,
    -0,
    1e308,
    -1e308,
    5e-324,
    NaN,
    Infinity,
    -Infinity,
    null,
    undefined,
    '',
    ' ',
    true,
    false,
    '2026-01-31',
    '1/2',
    '45 m',
    '3 bar',
    'twelve',
    '=1+1',
    '1e999',
    '-',
    '1,2,3',
  ),
  fc.string(),
  fc.constant(new Date(0)),
  fc.constant({ error: '#N/A' }),
  fc.array(fc.oneof(fc.double(), fc.string(), fc.constant(null)), { maxLength: 4 }),
  fc.array(fc.array(fc.oneof(fc.double({ min: 0, max: 1e6 }), fc.constantFrom('', null, 'x', true, 1e308)), { maxLength: 3 }), { maxLength: 4 }),
)

function isSound(value: unknown): boolean {
  if (Array.isArray(value)) return value.every(isSound)
  return typeof value === 'string' || (typeof value === 'number' && Number.isFinite(value))
}

describe('every function, any input', () => {
  for (const calculation of [...calculations, { id: 'WORKING' } as AnyCalculation]) {
    it(`${calculation.id}`, () => {
      const args: fc.Arbitrary<unknown[]> = calculation.names
        ? fc.tuple(...calculation.names.map((name: string) => fc.oneof({ weight: 2, arbitrary: inSpan(calculation.takes[name], 4) }, { weight: 1, arbitrary: odd })))
        : fc.tuple(fc.constantFrom(...calculations.map(({ id }) => id)), odd, odd, odd)
      fc.assert(
        fc.property(args, fc.array(odd, { maxLength: 2 }), (values, extra) => {
          try {
            const result = callByName(calculation.id, [...values, ...extra])
            expect(isSound(result)).toBe(true)
          } catch (error) {
            if (!(error instanceof InputError)) throw error
            expect(['#VALUE!', '#N/A']).toContain(error.code)
            expect(error.message.length).toBeGreaterThan(10)
            expect(error.message).not.toMatch(/undefined|\bNaN\b|\[object/)
          }
        }),
        { numRuns: RUNS },
      )
    })
  }

  it('every refusal names the argument, what it takes with its unit, and what came', () => {
    for (const calculation of calculations as readonly AnyCalculation[]) {
      calculation.names.forEach((name: string, at: number) => {
        const cells = asCells(fc.sample(inputsOf(calculation), { numRuns: 1, seed: 7 })[0]!)
        // Names that every object has are no choice and no key.
        for (const wrong of ['no such thing', '__proto__', 'constructor', 'toString']) {
          cells[at] = wrong
          expect(() => callByName(calculation.id, cells), `${calculation.id} ${name}`).toThrow(
            new RegExp(`^${calculation.takes[name].label.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')} \\(.*got "${wrong}"`),
          )
        }
      })
    }
  })
})

const record = fc.record({
  inflow: fc.array(fc.oneof(fc.constant(0), fc.double({ min: 0, max: 3000, noNaN: true })), { minLength: 1, maxLength: 60 }),
  demand: fc.double({ min: 0, max: 500, noNaN: true }),
  capacity: fc.double({ min: 0, max: 20_000, noNaN: true }),
  rule: fc.constantFrom('YAS', 'YBS'),
})

describe('rain and storage', () => {
  it('the water balance closes', () => {
    fc.assert(
      fc.property(record, fc.double({ min: 0, max: 1, noNaN: true }), ({ inflow, demand, capacity, rule }, share) => {
        const start = capacity * share
        const columns = waterBalance({ inflow_gal: inflow, demand_gal: demand, capacity_gal: capacity, start_gal: start, rule }) as Columns
        const sum = (name: string) => Array.from(columns[name]!).reduce((total, value) => total + value, 0)
        const end = columns.stored_gal![inflow.length - 1]!
        const came = sum('inflow_gal') + start
        // Sixty additions of numbers up to 2e5 lose no more than this.
        expect(Math.abs(came - sum('supplied_gal') - sum('overflow_gal') - end)).toBeLessThanOrEqual(1e-9 * Math.max(1, came))
        for (const name of ['supplied_gal', 'overflow_gal', 'stored_gal']) for (const value of Array.from(columns[name]!)) expect(value).toBeGreaterThanOrEqual(-1e-9)
      }),
    )
  })
  it('reliability never falls with capacity, and STORAGENEEDED is the least that is enough', () => {
    fc.assert(
      fc.property(
        record,
        fc.double({ min: 0, max: 2000, noNaN: true }),
        fc.constantFrom('volume', 'time'),
        fc.double({ min: 0, max: 1, noNaN: true }),
        ({ inflow, demand, capacity, rule }, more, measure, target) => {
          const at = (gallons: number) => supplyReliability({ inflow_gal: inflow, demand_gal: demand, capacity_gal: gallons, rule, measure }) as number
          expect(at(capacity + more)).toBeGreaterThanOrEqual(at(capacity) - 1e-12)
          try {
            const needed = storageNeeded({ inflow_gal: inflow, demand_gal: demand, target, rule, measure }) as number
            expect(at(needed)).toBeGreaterThanOrEqual(target)
            if (needed > 0) expect(at(Math.round(needed * 100 - 1) / 100)).toBeLessThan(target)
          } catch (error) {
            if (!(error instanceof InputError)) throw error
            expect(at(1e9)).toBeLessThan(target)
          }
        },
      ),
      { numRuns: 400 },
    )
  })
})

describe('pipe', () => {
  const flow = fc.double({ min: 0.1, max: 500, noNaN: true })
  const bore = fc.double({ min: 0.4, max: 12, noNaN: true })
  for (const [name, loss] of [
    ['FRICTIONLOSS', frictionLoss],
    ['DARCYLOSS', darcyLoss],
  ] as const) {
    it(`${name} rises with flow and falls with bore`, () => {
      fc.assert(
        fc.property(flow, bore, fc.double({ min: 1.001, max: 3, noNaN: true }), (flow_gpm, bore_in, factor) => {
          const at = (given: { flow_gpm: number; bore_in: number }) => loss({ ...given, length_ft: 100 }) as number
          expect(at({ flow_gpm: flow_gpm * factor, bore_in })).toBeGreaterThan(at({ flow_gpm, bore_in }))
          expect(at({ flow_gpm, bore_in: bore_in * factor })).toBeLessThan(at({ flow_gpm, bore_in }))
        }),
      )
    })
  }
  it('the friction factor solves Colebrook to 1e-12', () => {
    fc.assert(
      fc.property(fc.double({ min: Math.log(2000), max: Math.log(1e9), noNaN: true }), fc.double({ min: 0, max: 0.05, noNaN: true }), (logReynolds, relative) => {
        const reynolds = Math.exp(logReynolds)
        const friction = colebrookFactor(reynolds, relative)
        const left = 1 / Math.sqrt(friction)
        expect(Math.abs(left + 2 * Math.log10(relative / 3.7 + (2.51 / reynolds) * left))).toBeLessThan(1e-12 * Math.max(1, left))
      }),
      { numRuns: 2000 },
    )
  })
  it('a pressure tank never gives more than it holds', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 60, noNaN: true }), fc.double({ min: 1, max: 60, noNaN: true }), (low, span) => {
        expect(tankDrawdown({ volume_gal: 80, cutIn_psi: low, cutOut_psi: low + span }) as number).toBeLessThan(80)
      }),
    )
  })
})

describe('power, tank, estimate', () => {
  it('a larger conductor never drops more', () => {
    const sizes = column(conductors, 'size').map(String)
    for (const metal of ['copper', 'aluminum']) {
      const drops = sizes.map((size) => voltageDrop({ current_A: 10, length_ft: 200, size, metal }) as number)
      for (let at = 1; at < drops.length; at++) expect(drops[at]!, sizes[at]).toBeLessThan(drops[at - 1]!)
    }
  })
  it('higher groundwater never makes a tank safer', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 12, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true }), (depth, more) => {
        const at = (waterDepth_ft: number) => upliftSafety({ length_ft: 10, width_ft: 6, height_ft: 6, weight_lb: 18_000, waterDepth_ft }) as number
        expect(at(depth + more)).toBeLessThanOrEqual(at(depth))
      }),
    )
  })
  it('STORAGENEEDED answers where the target is the most that any tank reaches', () => {
    // Twenty-one years of days on which a tank is always able to serve: the record runs flat at the target.
    const inflow = Float64Array.from({ length: 7670 }, (_, day) => (day % 9 === 0 ? 300 : 0))
    const reach = (capacity_gal: number, rule: string) => supplyReliability({ inflow_gal: inflow, demand_gal: 20, capacity_gal, rule, measure: 'volume' }) as number
    for (const rule of ['YAS', 'YBS']) {
      const target = reach(1e9, rule)
      const needed = storageNeeded({ inflow_gal: inflow, demand_gal: 20, target, rule, measure: 'volume' }) as number
      expect(reach(needed, rule)).toBeGreaterThanOrEqual(target)
      expect(reach(needed - 0.01, rule)).toBeLessThan(target)
    }
    // By hand, under YAS: the first day gives nothing, so 4 of 5 at most. 24 gal left by it fall to 24 - 8 = 16, 8 and 0 before the 72 come:
    // the three days are met, and with a drop less the third is not.
    expect(storageNeeded({ inflow_gal: [98, 3, 0, 72, 42], demand_gal: 8, target: 0.8, rule: 'YAS', measure: 'volume' })).toBe(24)
  })
  it('ORDERQUANTITY is never less than the need, nor a whole lot more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        fc.double({ min: 0.01, max: 1000, noNaN: true }),
        (net, waste, lot) => {
          const order = orderQuantity({ net, waste, lot }) as number
          const need = net * (1 + waste)
          expect(order).toBeGreaterThanOrEqual(need - 1e-9 * Math.max(lot, need))
          expect(order - need).toBeLessThan(lot * (1 + 1e-9) + 1e-9 * need)
        },
      ),
    )
    // 3 x 0.1 is 0.30000000000000004 in binary: three lots all the same.
    expect(orderQuantity({ net: 0.1 * 3, lot: 0.1 })).toBeCloseTo(0.3, 12)
    expect(orderQuantity({ net: 100, waste: 0.1, lot: 10 })).toBe(110)
    expect(orderQuantity({ net: 0.0004, lot: 1_000_000 })).toBe(1_000_000)
    expect(orderQuantity({ net: 1_000_000.0004, lot: 1_000_000 })).toBe(2_000_000)
  })
})
