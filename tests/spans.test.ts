/**
 * The spans of the public interface, a second time and on purpose: every argument of a function, every column of a table, every
 * reading. They change only when somebody means it; the list is edited by hand then, and the change is said in CHANGELOG.
 */
import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { calculations } from '../src/calc/index.js'
import type { Argument } from '../src/calc.js'
import { careTasks } from '../src/takeoff/careTasks.js'
import { defaultItems } from '../src/takeoff/defaultItems.js'
import { fieldsOf, tableNames } from '../src/takeoff/officeTables.js'
import { readingRules } from '../src/takeoff/readings.js'

type Spans = Record<string, Record<string, unknown>>
const held = JSON.parse(readFileSync('tests/data/spans.json', 'utf8')) as { functions: Spans; tables: Spans; readings: Record<string, unknown>; items: Record<string, unknown> }

function spanOf(spec: Argument): unknown[] {
  if (spec.kind === 'number') return [spec.least, spec.most, spec.only ? `only ${spec.only.join(' ')}` : spec.above ? 'above the least' : '', spec.default ?? null]
  if (spec.kind === 'choice') return [spec.options.join(', '), spec.default ?? null]
  if (spec.kind === 'series') return [spec.least, spec.most, null, null]
  if (spec.kind === 'curve') return [null, [...spec.most], null, null]
  return [spec.kind, spec.default ?? null]
}

it('of functions are those of the list', () => {
  expect(calculations.map(({ id }) => id).sort(), 'functions of tests/data/spans.json').toEqual(Object.keys(held.functions).sort())
  for (const { id, names, takes } of calculations)
    for (const name of names) expect(spanOf((takes as Record<string, Argument>)[name]!), `${id}, ${name}`).toEqual(held.functions[id]![name])
})
it('of the office’s tables are those of the list', () => {
  for (const table of tableNames) {
    expect(Object.keys(fieldsOf(table)), table).toEqual(Object.keys(held.tables[table]!))
    for (const [name, field] of Object.entries(fieldsOf(table))) {
      const span =
        field.kind === 'spec'
          ? [...spanOf(field.spec).slice(0, 3), field.default ?? null, field.required ?? false]
          : [field.kind, 'longest' in field ? field.longest : null, field.default ?? null, field.required ?? false]
      expect(span, `${table}, ${name}`).toEqual(held.tables[table]![name])
    }
  }
})
it('hours, waste and lot of the items of a new office are those of the list', () => {
  expect(Object.fromEntries(defaultItems.map(({ Code, LaborHours, Waste, Lot }) => [Code, [LaborHours, Waste, Lot]]))).toEqual(held.items)
})
it('of readings are those of the list; months of the care plan are months', () => {
  expect(Object.fromEntries(readingRules.map(({ code, span }) => [code, span ?? null]))).toEqual(held.readings)
  for (const { code, months } of careTasks) for (const month of months) expect([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], code).toContain(month)
})
