/**
 * The two flavours of a call to a cell function. With cell functions it is written as it is. In the native
 * flavour it becomes a block on the Working sheet: arguments, then the steps as ordinary formulas.
 */
import { checkedCells, type AnyCalculation, type Points, type Step } from '../calc.js'
import { calculationOf, NAMESPACE } from '../calc/callByName.js'
import { workThrough } from '../calc/working.js'
import { InputError } from '../errors.js'
import { argumentSpans, formula, type Call } from '../formula/formula.js'
import { FormulaError, isError, type Value } from '../formula/value.js'
import { gradedText } from '../sources.js'
import { readCall } from '../takeoff/call.js'
import type { Design } from '../takeoff/design.js'
import { bareName, symbolOf } from '../units.js'
import { withoutLacking, type NamePlaces } from './places.js'
import { address, quotedSheet, SheetDraft, type PlanCell } from './plan.js'

export type Flavor = 'cells' | 'native'

/** Writes the calls of one job's formulas, in one flavour. */
export interface CallWriter {
  /** A formula over names as it stands on a sheet. `about` says in the working what it is for. */
  write(text: string, sheet: string, about: string): string
}

export const cellValue = (value: Value | undefined): PlanCell['value'] => {
  if (value === undefined || value === null) return ''
  if (isError(value)) return value.code
  return typeof value === 'object' ? '' : value
}

export function cellsWriter(names: NamePlaces): CallWriter {
  return { write: (text, sheet) => withoutLacking(formula(text).render(names.from(sheet), writtenCall)) }
}

/** A call to a cell function as a cell holds it. */
function writtenCall(call: Call): string | undefined {
  const read = readCall(call.name)
  if (!read) return undefined
  const written = `${NAMESPACE}.${read.id}(${call.args.join(',')})`
  if (read.column === undefined) return written
  const columns = Object.keys(calculationOf(read.id)!.spills!)
  return `INDEX(${written},2,${columns.indexOf(read.column) + 1})`
}

/** A formula of a row of a table, over cells of the row: a block of working a row would hide more than it shows. */
export const rowFormula = (flavor: Flavor, text: string, place: (name: string) => string): string =>
  flavor === 'native' ? inlined(text, place) : formula(text).render(place, writtenCall)

/** Puts a small closed formula in the place of a call. */
function inlined(text: string, name: (name: string) => string): string {
  return formula(text).render(name, (call) => {
    const calculation = calculationOf(readCall(call.name)?.id ?? '')
    if (!calculation) return undefined
    const texts = new Map(calculation.names.map((argument, at) => [argument, call.args[at] ?? String(calculation.takes[argument].default ?? '""')]))
    for (const step of calculation.steps as readonly Step[]) texts.set(step.symbol, `(${formula(step.formula).render((wanted) => texts.get(wanted) ?? name(wanted))})`)
    return texts.get(calculation.resultName)!
  })
}

export function nativeWriter(names: NamePlaces, design: Design, working: SheetDraft, workingSheet: string): CallWriter {
  const writer: CallWriter = {
    write(text, sheet, about) {
      return withoutLacking(
        formula(text).render(names.from(sheet), (call) => {
          const read = readCall(call.name)
          if (!read) return undefined
          const cell = writeBlock(calculationOf(read.id)!, call, text, sheet, about, read.column)
          return sheet === workingSheet ? cell : `${quotedSheet(workingSheet)}!${cell}`
        }),
      )
    },
  }

  function writeBlock(calculation: AnyCalculation, call: Call, text: string, sheet: string, about: string, column: string | undefined): string {
    const source = `=${text.trim().replace(/^=/, '')}`.slice(call.start, call.end)
    const spans = argumentSpans(source, 0, source.length).map(([from, to]) => source.slice(from, to).trim())
    const given = spans.length === 1 && spans[0] === '' ? [] : spans
    const values = given.map((argument) => design.evaluate(argument))
    const places = new Map<string, string>()
    const checked = check(calculation, values)
    const worked = checked instanceof FormulaError ? undefined : workThrough(calculation, checked).values
    working.section(7, `${calculation.id} for ${about}`)
    calculation.names.forEach((name, at) => writeArgument(calculation, name, given[at], values[at], call.args[at], checked, sheet, places))
    for (const step of calculation.steps as readonly Step[]) {
      const value = worked ? worked.get(step.symbol) : (checked as FormulaError)
      const { none } = step
      const said = none === undefined ? step.formula : step.formula.replace('NA()', `"${none}"`)
      const rendered = formula(said).render((wanted) => places.get(wanted) ?? names.from(workingSheet)(wanted))
      const shownValue = value instanceof FormulaError && value.code === '#N/A' && none !== undefined ? none : cellValue(value)
      row(step.symbol, step.meaning, { formula: rendered, value: shownValue }, said, gradedText(step.source))
      places.set(step.symbol, address(working.row - 1, 4))
    }
    working.next()
    return places.get(column ?? calculation.resultName)!
  }

  function writeArgument(
    calculation: AnyCalculation,
    name: string,
    text: string | undefined,
    value: Value | undefined,
    rendered: string | undefined,
    checked: Record<string, unknown> | FormulaError,
    sheet: string,
    places: Map<string, string>,
  ): void {
    const spec = calculation.takes[name]
    if (spec.kind === 'curve') {
      spec.columns.forEach((part: string) => places.set(part, names.from(workingSheet)(part === spec.columns[0] ? 'CurveFlow_gpm' : 'CurveHead_ftw')))
      row(name, spec.label, { value: `${(checked instanceof FormulaError ? [] : (checked[name] as Points)).length} points` }, '', 'the pump curve of this job')
      return
    }
    const taken = checked instanceof FormulaError ? value : (checked[name] as Value | undefined)
    const isPlain = text === undefined || /^(?:"[^"]*"|-?[\d.]+)$/.test(text.trim())
    if (isPlain) row(name, spec.label, { value: cellValue(taken) }, '', text === undefined ? 'default' : 'given')
    else
      row(
        name,
        spec.label,
        {
          formula: sheet === workingSheet ? rendered! : formula(text!).render(names.from(workingSheet), (inner) => writer.write(sliceCall(text!, inner), workingSheet, name)),
          value: cellValue(value),
        },
        '',
        'given',
      )
    places.set(name, address(working.row - 1, 4))
  }

  function row(symbol: string, meaning: string, cell: { value: PlanCell['value']; formula?: string }, text: string, source: string): void {
    working.put(2, 'faint', bareName(symbol))
    working.put(3, 'wrapped', meaning)
    working.put(4, 'number', cell.value, { format: workingFormat(cell.value), ...(cell.formula === undefined ? {} : { formula: cell.formula }) })
    working.put(5, 'unit', symbolOf(symbol))
    working.put(6, 'faintWrapped', text)
    working.put(7, 'faintWrapped', source)
    working.next()
  }

  return writer
}

/** Figures of a working keep four significant places at least. */
function workingFormat(value: PlanCell['value']): PlanCell['format'] {
  if (typeof value === 'string') return 'text'
  if (typeof value !== 'number') return undefined
  const size = Math.abs(value)
  return Number.isInteger(value) ? 0 : size >= 100 ? 2 : size >= 1 ? 4 : size >= 1e-3 ? 6 : 9
}

const sliceCall = (text: string, call: Call): string => `=${text.trim().replace(/^=/, '')}`.slice(call.start, call.end)

function check(calculation: AnyCalculation, values: readonly Value[]): Record<string, unknown> | FormulaError {
  const failed = values.find(isError)
  if (failed) return failed as FormulaError
  try {
    return checkedCells(calculation, values)
  } catch (error) {
    if (error instanceof InputError) return new FormulaError(error.code, error.message)
    throw error
  }
}
