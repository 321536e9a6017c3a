/** WORKING: the spelled-out working of any calculation, its steps evaluated as the native formulas they are. */
import { badInput } from '../errors.js'
import { allowedText, checkedCells, callWithCells, placeOf, type AnyCalculation, type Points, type Series, type Step } from '../calc.js'
import { formula, type Scope } from '../formula/formula.js'
import { FormulaError, type Single, type Value } from '../formula/value.js'
import { gradedText } from '../sources.js'
import { column } from '../table.js'
import { tables } from '../tables/index.js'
import { symbolOf } from '../units.js'

const columnsByName = new Map<string, readonly Single[]>(tables.flatMap((table) => table.columns.map((name) => [`${table.id}[${name}]`, column(table, name)] as const)))

/** The value of a published table's column, written `Pipes[bore_in]`. */
export const tableColumn = (name: string): readonly Single[] | undefined => columnsByName.get(name)

export interface Worked {
  /** Every argument and step with its value; a period column holds one value a period. */
  values: Map<string, Value>
  /** Periods walked through, or 0 for a closed formula. */
  periods: number
}

/** Puts the checked arguments of a calculation under the names that its steps use. */
export function argumentValues(calculation: AnyCalculation, checked: Record<string, unknown>): Map<string, Value> {
  const values = new Map<string, Value>()
  for (const name of calculation.names) {
    const spec = calculation.takes[name]
    const value = checked[name]
    if (spec.kind === 'curve')
      spec.columns.forEach((part: string, side: number) =>
        values.set(
          part,
          (value as Points).map((point) => point[side]!),
        ),
      )
    // Formulas know lists alone.
    else values.set(name, value === undefined ? '' : value instanceof Float64Array ? Array.from(value) : (value as Value))
  }
  return values
}

/** Evaluates the steps, and first the period table where there is one. `found` is what a search found and the table starts from. */
export function workThrough(calculation: AnyCalculation, checked: Record<string, unknown>, found: Record<string, number> = {}): Worked {
  const values = argumentValues(calculation, checked)
  for (const [name, value] of Object.entries(found)) values.set(name, value)
  const scope: Scope = { value: (name) => values.get(name) ?? tableColumn(name) }
  const evaluate = (step: Step) => values.set(step.symbol, formula(step.formula).evaluate(scope))
  const periods = calculation.periods ? walkPeriods(calculation, values) : 0
  calculation.steps.forEach(evaluate)
  return { values, periods }
}

function walkPeriods(calculation: AnyCalculation, values: Map<string, Value>): number {
  const { start, columns, passes } = calculation.periods!
  const inputs = calculation.names.filter((name) => calculation.takes[name].kind === 'series')
  const record = values.get(inputs[0]!) as Series
  const total = record.length * passes
  const outer: Scope = { value: (name) => values.get(name) ?? tableColumn(name) }
  const before = new Map<string, Single>(Object.entries(start).map(([name, text]) => [`before_${name}`, formula(text as string).evaluate(outer) as Single]))
  const results = new Map<string, Single[]>(columns.map((step) => [step.symbol, []]))
  const row = new Map<string, Value>()
  const inner: Scope = { value: (name) => row.get(name) ?? before.get(name) ?? values.get(name) ?? tableColumn(name) }
  for (let at = 0; at < total; at++) {
    row.clear()
    for (const name of inputs) {
      const series = values.get(name) as Series | number
      row.set(name, typeof series === 'number' ? series : series[at % record.length]!)
    }
    for (const step of columns) {
      const value = formula(step.formula).evaluate(inner) as Single
      row.set(step.symbol, value)
      results.get(step.symbol)!.push(value)
    }
    for (const name of Object.keys(start)) before.set(`before_${name}`, row.get(name) as Single)
  }
  for (const name of inputs) {
    const series = values.get(name) as Series | number
    values.set(
      name,
      Array.from({ length: total }, (_, at) => (typeof series === 'number' ? series : series[at % record.length]!)),
    )
  }
  for (const [name, list] of results) values.set(name, list)
  return total
}

/** The columns of a working, as a cell gives them and as the sheet Working has them. */
export const workingHeader = ['symbol', 'meaning', 'value', 'unit', 'formula', 'source'] as const
type WorkingRow = (string | number)[]

/** The rows of WORKING for a calculation called with cells. */
export function workingRows(calculation: AnyCalculation, cells: readonly unknown[]): WorkingRow[] {
  const result = callWithCells(calculation, cells)
  const checked = checkedCells(calculation, cells)
  const shape = calculation.shapeOf
  if (shape && typeof checked[shape] !== 'number') {
    if ((checked[shape] as Series).length > 1)
      throw badInput(placeOf(shape, calculation.takes[shape]), 'one number for a working', `a range of ${(checked[shape] as Series).length}`)
    checked[shape] = (checked[shape] as Series)[0]
  }
  const isSearch = calculation.periods !== undefined && calculation.steps.every((step: Step) => step.symbol !== calculation.resultName) && calculation.gives !== undefined
  const { values, periods } = workThrough(calculation, checked, isSearch ? { [calculation.resultName]: result as number } : {})
  const given = calculation.names.map((name) => argumentRow(calculation, name, checked[name]))
  const stepRow = (step: Step, value: Value | undefined): WorkingRow => [step.symbol, step.meaning, shownValue(value), symbolOf(step.symbol), step.formula, gradedText(step.source)]
  const steps = calculation.steps.map((step: Step) => stepRow(step, values.get(step.symbol)))
  if (!calculation.periods) return [[...workingHeader], ...given, ...steps]
  const columns = calculation.periods.columns
  const inputs = calculation.names.filter((name) => calculation.takes[name].kind === 'series')
  const shown = [...inputs, ...columns.map((step: Step) => step.symbol)].slice(0, workingHeader.length - 1)
  const pad = (row: WorkingRow): WorkingRow => [...row, ...Array<string>(workingHeader.length - row.length).fill('')]
  const table = Array.from({ length: periods }, (_, at) => pad([at + 1, ...shown.map((name) => (values.get(name) as readonly (number | string)[])[at]!)]))
  const searched: WorkingRow[] = isSearch
    ? [[calculation.resultName, calculation.gives![calculation.resultName]!, result as number, symbolOf(calculation.resultName), '', 'found by search; the table below proves it']]
    : []
  return [[...workingHeader], ...given, ...searched, ...columns.map((step: Step) => stepRow(step, '')), pad(['period', ...shown]), ...table, ...steps]
}

function argumentRow(calculation: AnyCalculation, name: string, value: unknown): WorkingRow {
  const spec = calculation.takes[name]
  const text =
    spec.kind === 'curve'
      ? `${(value as Points).length} points`
      : spec.kind === 'series' && typeof value !== 'number'
        ? `${(value as Series).length} entries`
        : shownValue(value as Value)
  return [name, spec.label, text, symbolOf(name), '', `given; ${allowedText(name, spec)}`]
}

function shownValue(value: Value | undefined): string | number {
  if (value === undefined || value === null) return ''
  if (value instanceof FormulaError) return value.code
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE'
  return typeof value === 'number' || typeof value === 'string' ? value : `${(value as readonly Single[]).length} values`
}
