/** Random and sample arguments for any calculation, made from its definition. */
import fc from 'fast-check'
import type { AnyCalculation, Argument } from '../../src/calc.js'
import { column } from '../../src/table.js'
import { pipes } from '../../src/tables/pipes.js'
import { motors } from '../../src/tables/motors.js'
import { conduits } from '../../src/tables/conduits.js'

/** A value inside the span of an argument, with as many digits as a person or a sheet would hold. Spans of many decades are drawn by their logarithm. */
export function inSpan(spec: Argument, periods = 12): fc.Arbitrary<unknown> {
  switch (spec.kind) {
    case 'number':
      if (spec.only) return fc.constantFrom(...spec.only)
      return between(spec.above ? Math.max(spec.least, spec.most * 1e-6) : spec.least, spec.most)
    case 'choice':
      return fc.constantFrom(...spec.options)
    case 'key':
      return fc.constantFrom(...spec.samples)
    case 'series':
      return fc.array(between(spec.least, Math.min(spec.most, 1e5)), { minLength: periods, maxLength: periods })
    case 'curve':
      return fc.tuple(between(1, 50), between(20, 800)).map(([step, top]) => [0, 1, 2, 3, 4].map((at) => [at * step, top * (1 - (at / 5) ** 2)]))
  }
}

function between(least: number, most: number): fc.Arbitrary<number> {
  const share = fc.integer({ min: 0, max: 1_000_000 }).map((millionths) => millionths / 1e6)
  const tidy = (value: number) => Math.min(most, Math.max(least, Number(value.toPrecision(9))))
  const plain = share.map((part) => tidy(least + (most - least) * part))
  if (least >= 0 && most > 1000 * Math.max(least, 1)) {
    const low = Math.log(Math.max(least, 1e-3))
    return fc.oneof(
      share.map((part) => tidy(Math.exp(low + (Math.log(most) - low) * part))),
      plain,
    )
  }
  return plain
}

/** Arguments that stand in one row of a table, so that a lookup by several keys finds something. */
const pairs: Record<string, readonly (readonly unknown[])[]> = {
  MOTORCURRENT: motors.rows.flatMap((row) =>
    [
      ['at115_A', 115],
      ['at200_A', 200],
      ['at208_A', 208],
      ['at230_A', 230],
      ['at460_A', 460],
    ].flatMap(([column, volts]) => (row[column!] === null ? [] : [[row.power_hp, volts, row.phases]])),
  ),
  PIPEBORE: pipes.rows.map((row) => [String(row.pipe), String(row.size)]),
  CONDUITFILL: column(conduits, 'conduit').map((conduit, at) => [String(conduit), String(conduits.rows[at]!.size)]),
}

export function inputsOf(calculation: AnyCalculation, periods = 12): fc.Arbitrary<unknown[]> {
  const plain = fc.tuple(...calculation.names.map((name) => inSpan(calculation.takes[name], periods))) as fc.Arbitrary<unknown[]>
  const known = pairs[calculation.id]
  return known ? fc.tuple(fc.constantFrom(...known), plain).map(([pair, values]) => [...pair, ...values.slice(pair.length)]) : plain
}

/** Cells as a host hands them over: a series or a curve as rows. */
export const asCells = (values: readonly unknown[]): unknown[] => values.map((value) => (Array.isArray(value) && !Array.isArray(value[0]) ? value.map((item) => [item]) : value))
