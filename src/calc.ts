/**
 * calc() joins a plain function to what a reader, a cell, an auditor and a test need to know of it: its
 * arguments and their spans, its steps as native spreadsheet formulas, its sources. Everything else in the
 * project (cell metadata, WORKING, the reference page, the pane's browser, the fuzz tests) reads it here.
 */
import { badInput, grouped, InputError, noAnswer, shown } from './errors.js'
import type { Citation } from './sources.js'
import { bareName, readAs, symbolOf, unitOf } from './units.js'

/** Chapters in the order in which they are read; each is a folder of src/calc. */
export const chapters = {
  rain: 'Rain and storage',
  pipe: 'Pipe and pump',
  power: 'Power',
  earth: 'Earth and stone',
  tank: 'Tank',
  estimate: 'Estimating and audit',
} as const
export type Chapter = keyof typeof chapters
export type Series = readonly number[] | Float64Array

interface Described {
  label: string
  /** Said beside the span where the span alone does not tell. */
  hint?: string
}

export interface NumberArg extends Described {
  kind: 'number'
  least: number
  most: number
  /** True when `least` itself is not allowed. */
  above?: boolean
  /** The only numbers allowed, where a span would allow too much. */
  only?: readonly number[]
  default?: number
  /** What an omitted argument means when that is no fixed number. */
  optional?: string
}
export interface ChoiceArg extends Described {
  kind: 'choice'
  options: readonly string[]
  default?: string
  /** Other spellings of the trade, in small letters without spaces. */
  short?: Readonly<Record<string, string>>
}
/** A name or size looked up in a published table. `find` gives its one spelling, or undefined. */
export interface KeyArg extends Described {
  kind: 'key'
  find(raw: string | number): string | undefined
  allowed: string
  /** A few keys for examples and tests. */
  samples: readonly string[]
  default?: string
}
export interface SeriesArg extends Described {
  kind: 'series'
  least: number
  most: number
  /** True when a single number may stand for the whole series. */
  orNumber?: boolean
}
/** A curve: a block of two columns (or two rows), the first ascending from zero or more, the second descending. */
export interface CurveArg extends Described {
  kind: 'curve'
  /** Names of the two columns in the steps, each with its unit. */
  columns: readonly [string, string]
  most: readonly [number, number]
}
export type Points = readonly (readonly [number, number])[]
export type Argument = NumberArg | ChoiceArg | KeyArg | SeriesArg | CurveArg
export type Arguments = Record<string, Argument>

type Raw<A> = A extends CurveArg
  ? Points
  : A extends SeriesArg
    ? A extends { orNumber: true }
      ? number | string | Series
      : Series
    : A extends NumberArg
      ? number | string
      : string | number
type Checked<A> = A extends CurveArg
  ? Points
  : A extends { optional: string }
    ? number | undefined
    : A extends SeriesArg
      ? A extends { orNumber: true }
        ? number | Series
        : Series
      : A extends NumberArg
        ? number
        : string
type OptionalKeys<T> = { [K in keyof T]: T[K] extends { default: unknown } | { optional: string } ? K : never }[keyof T]
export type InputOf<T> = { [K in Exclude<keyof T, OptionalKeys<T>>]: Raw<T[K]> } & { [K in OptionalKeys<T>]?: Raw<T[K]> | null }
export type ValuesOf<T> = { [K in keyof T]: Checked<T[K]> }

const MAX_PERIODS = 40_000
/** No number, name or size takes more characters: a column of whole pages pasted by mistake is refused unread. */
const LONGEST_TEXT = 255

export const arg = <const O extends Omit<NumberArg, 'kind' | 'label'>>(label: string, options: O) => ({ kind: 'number' as const, label, ...options })
export const choice = <const O extends Omit<ChoiceArg, 'kind' | 'label'>>(label: string, options: O) => ({ kind: 'choice' as const, label, ...options })
export const key = <const O extends Omit<KeyArg, 'kind' | 'label'>>(label: string, options: O) => ({ kind: 'key' as const, label, ...options })
export const curve = <const O extends Omit<CurveArg, 'kind' | 'label'>>(label: string, options: O) => ({ kind: 'curve' as const, label, ...options })
export const series = <const O extends Omit<SeriesArg, 'kind' | 'label'>>(label: string, options: O) => ({ kind: 'series' as const, label, ...options })

/** One line of a working: a symbol, what it means, and a native spreadsheet formula over earlier symbols. */
export interface Step {
  symbol: string
  meaning: string
  formula: string
  source: Citation
  /** What a sheet says in the place of #N/A, where nothing but the eye rests on it. */
  none?: string
}
export const step = (symbol: string, meaning: string, formula: string, source: Citation, more: Pick<Step, 'none'> = {}): Step => ({ symbol, meaning, formula, source, ...more })

/** A calculation that walks through periods: the columns of its table, each a formula over its own row and the row before (`before_…`). */
export interface PeriodTable {
  /** Values that stand before the first period, by column symbol, as formulas over the arguments. */
  start: Record<string, string>
  columns: readonly Step[]
  /** How often the record is run through; 2 for the sequent peak. */
  passes: number
}

export interface Definition<T extends Arguments, R> {
  id: string
  chapter: Chapter
  summary: string
  takes: T
  /** One result: its name with its unit, and its meaning. A spilled table: its columns. */
  gives?: Record<string, string>
  spills?: Record<string, string>
  /** The result takes the shape of this argument when that is a range. */
  shapeOf?: string
  /** Steps over the argument names, ending in the name of the result; with `periods`, steps over its columns. */
  steps: readonly Step[]
  periods?: PeriodTable
  /** What a reader must know before using it: limits, conventions, safety. */
  notes?: readonly string[]
  /** Arguments of one example, as written in a cell. */
  example: readonly (string | number | readonly number[] | Points)[]
  run(values: ValuesOf<T>): R
}

export type Columns = Record<string, Series>
export type Result = number | string | Series | Columns

export interface Calculation<T extends Arguments = Arguments, R = Result> extends Readonly<Definition<T, R>> {
  (input: InputOf<T>): R
  readonly names: readonly string[]
  readonly resultName: string
}
// A list of all calculations holds functions with different inputs; only their data is read through it.
export type AnyCalculation = Calculation<any, any>

export function calc<const T extends Arguments, R extends Result>(definition: Definition<T, R>): Calculation<T, R> {
  const names = Object.keys(definition.takes)
  const specs = names.map((name) => definition.takes[name]!)
  const { run } = definition
  const call = (input: InputOf<T>): R => {
    const values = plainNumbers(input as Record<string, unknown>, names, specs) ?? coerce(input as Record<string, unknown>, names, specs)
    return finiteResult(run(values as ValuesOf<T>), definition.id)
  }
  const resultName = Object.keys(definition.gives ?? definition.spills ?? {})[0]!
  return Object.assign(call, definition, { names, resultName }) as Calculation<T, R>
}

/** The fast way in: every argument a plain number in its span, and none left out. */
function plainNumbers(input: Record<string, unknown>, names: readonly string[], specs: readonly Argument[]): Record<string, unknown> | undefined {
  for (let at = 0; at < names.length; at++) {
    const value = input[names[at]!]
    const spec = specs[at]!
    if (typeof value !== 'number' || spec.kind !== 'number') return undefined
    if (!(value >= spec.least && value <= spec.most) || (spec.above && value === spec.least) || spec.only) return undefined
  }
  return input
}

function coerce(input: Record<string, unknown>, names: readonly string[], specs: readonly Argument[]): Record<string, unknown> {
  const values: Record<string, unknown> = {}
  for (let at = 0; at < names.length; at++) values[names[at]!] = checkArgument(names[at]!, specs[at]!, input[names[at]!])
  return values
}

function finiteResult<R>(result: R, id: string): R {
  if (typeof result === 'number' && !Number.isFinite(result)) throw new InputError({ code: '#VALUE!', place: id, allowed: 'no finite result for these arguments', came: '' })
  return result
}

const isEmpty = (value: unknown) => value === undefined || value === null || value === ''

/** Runs a calculation on cells in argument order: numbers, texts, empty cells, or ranges as rows of cells. */
export function callWithCells(calculation: AnyCalculation, cells: readonly unknown[]): Result {
  const { names } = calculation
  if (cells.length > names.length && cells.slice(names.length).some((cell) => !isEmpty(cell))) {
    throw badInput('', `${calculation.id} takes at most ${names.length} arguments`, cells.length)
  }
  return finiteResult(calculation.run(checkedCells(calculation, cells) as never), calculation.id)
}

/** The checked arguments of a call with cells, by name. */
export function checkedCells({ names, takes }: AnyCalculation, cells: readonly unknown[]): Record<string, unknown> {
  const values: Record<string, unknown> = {}
  for (let at = 0; at < names.length; at++) values[names[at]!] = checkArgument(names[at]!, takes[names[at]!], cells[at])
  return values
}

/** The checked value of one argument, its default when it is left out; refuses with the span and what came. */
export function checkArgument(name: string, spec: Argument, raw: unknown): unknown {
  if (spec.kind === 'curve') return checkCurve(name, spec, raw)
  if (spec.kind === 'series') return checkSeries(name, spec, raw)
  const value = single(raw)
  if (typeof value === 'string' && value.length > LONGEST_TEXT) throw badInput(placeOf(name, spec), allowedText(name, spec), value)
  if (isEmpty(value) || (typeof value === 'string' && value.trim() === '')) {
    if ('default' in spec && spec.default !== undefined) return spec.default
    if (spec.kind === 'number' && spec.optional) return undefined
    throw badInput(placeOf(name, spec), allowedText(name, spec), value)
  }
  if (spec.kind === 'choice') {
    const said = typeof value === 'string' ? bareChoice(value) : undefined
    // A name that every object has is no short one.
    const short = said !== undefined && spec.short && Object.hasOwn(spec.short, said) ? spec.short[said] : undefined
    const found = spec.options.find((option) => bareChoice(option) === said) ?? short
    if (!found) throw badInput(placeOf(name, spec), allowedText(name, spec), value)
    return found
  }
  if (spec.kind === 'key') {
    if (typeof value !== 'string' && typeof value !== 'number') throw badInput(placeOf(name, spec), allowedText(name, spec), value)
    const found = spec.find(typeof value === 'string' ? value.trim() : value)
    if (found === undefined) throw noAnswer(placeOf(name, spec), allowedText(name, spec), value)
    return found
  }
  return checkNumber(name, spec, value)
}

/** A range of one cell is that cell. */
function single(raw: unknown): unknown {
  let value = raw
  while (Array.isArray(value) && value.length === 1) value = value[0]
  return value
}

/** A comma parts thousands here, as 1,250: with one, two or more than three figures behind it somebody meant a point. */
const DECIMAL_COMMA = /^[-+]?(?:0,\d+|\d+,(?:\d{1,2}|\d{4,}))(?!\d|,)/

function checkNumber(name: string, spec: NumberArg, value: unknown): number {
  const reading = typeof value === 'string' ? readAs(value, unitOf(name)) : undefined
  if (reading && !reading.ok && reading.reason !== 'no number') {
    const why =
      reading.reason === 'inches'
        ? 'with a foot or more of inches behind its feet'
        : reading.reason === 'unknown unit'
          ? 'a unit that is not known here'
          : unitOf(name)
            ? `a unit that cannot be turned into ${symbolOf(name)}`
            : 'a unit where a number alone belongs'
    throw new InputError({ code: '#VALUE!', place: placeOf(name, spec), allowed: allowedText(name, spec), came: `${shown(value)}, ${why}` })
  }
  if (typeof value === 'string' && DECIMAL_COMMA.test(value.trim()))
    throw new InputError({ code: '#VALUE!', place: placeOf(name, spec), allowed: allowedText(name, spec), came: `${shown(value)}, with a comma where a point goes` })
  const number = reading?.ok ? reading.value : typeof value === 'number' ? value : undefined
  const fits =
    number !== undefined &&
    Number.isFinite(number) &&
    number >= spec.least &&
    number <= spec.most &&
    !(spec.above && number === spec.least) &&
    (!spec.only || spec.only.includes(number))
  if (!fits) throw badInput(placeOf(name, spec), allowedText(name, spec), value)
  return number!
}

/** Without regard to case and spaces; a comma is an "or", for the lists of spreadsheets cannot hold one. */
const bareChoice = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/\s*,\s*/g, ' or ')
    .replace(/\s+/g, '')

function checkSeries(name: string, spec: SeriesArg, raw: unknown): number | Series {
  if (raw instanceof Float64Array) return checkedItems(name, spec, raw)
  // Spreadsheets hand over one cell, or one number, as a range of one.
  const one = spec.orNumber ? single(raw) : raw
  if (!Array.isArray(one)) {
    if (isEmpty(one)) throw badInput(placeOf(name, spec), allowedText(name, spec), one)
    const number = checkNumber(name, { ...spec, kind: 'number' }, one)
    return spec.orNumber ? number : [number]
  }
  const plain = plainColumn(spec, one)
  if (plain) return plain
  const cells = oneLine(name, spec, one)
  let length = cells.length
  while (length > 0 && isEmpty(cells[length - 1])) length--
  if (length === 0) throw badInput(placeOf(name, spec), `${allowedText(name, spec)}, at least one`, 'an empty range')
  if (length > MAX_PERIODS) throw badInput(placeOf(name, spec), `at most ${grouped(MAX_PERIODS)} entries`, length)
  return checkedItems(name, spec, length === cells.length ? cells : cells.slice(0, length))
}

/** A pump curve as points; refuses one that is none, naming the point. */
function checkCurve(name: string, spec: CurveArg, raw: unknown): Points {
  const place = placeOf(name, spec)
  if (!Array.isArray(raw) || !raw.every(Array.isArray)) throw badInput(place, allowedText(name, spec), raw)
  const block = raw as unknown[][]
  const points = block.length === 2 && block[0]!.length > 2 ? block[0]!.map((first, at) => [first, block[1]![at]]) : block
  let length = points.length
  while (length > 0 && points[length - 1]!.every(isEmpty)) length--
  const used = points.slice(0, length)
  const gap = used.findIndex((point) => point.every(isEmpty))
  if (gap >= 0) throw badInput(`${place}, entry ${gap + 1} of the range`, 'no gap in the middle', '')
  if (used.some((point) => point.length !== 2)) throw badInput(place, allowedText(name, spec), `a range of ${block.length} rows and ${block[0]?.length ?? 0} columns`)
  if (used.length < 2) throw badInput(place, `${allowedText(name, spec)}, at least two points`, used.length)
  const [acrossName, upName] = spec.columns
  const checked = used.map((point, at) => {
    const here = `${place}, entry ${at + 1} of the range`
    return spec.columns.map((columnName, side) =>
      placed(`${here}, column ${side + 1}`, () => checkNumber(columnName, { kind: 'number', label: spec.label, least: 0, most: spec.most[side]! }, single(point[side]))),
    ) as unknown as readonly [number, number]
  })
  checked.forEach(([across, up], at) => {
    const before = checked[at - 1]
    if (before && across <= before[0]) throw badInput(`${place}, entry ${at + 1} of the range`, `${bareName(acrossName)} ascending, above ${grouped(before[0])}`, across)
    if (before && up >= before[1]) throw badInput(`${place}, entry ${at + 1} of the range`, `${bareName(upName)} descending, below ${grouped(before[1])}`, up)
  })
  return checked
}

/** A column of numbers within their span, which a record of days nearly always is: read in one pass. All else takes the way that finds words for what is wrong. */
function plainColumn(spec: SeriesArg, raw: readonly unknown[]): Float64Array | undefined {
  if (raw.length === 0 || raw.length > MAX_PERIODS) return undefined
  const { least, most } = spec
  const numbers = new Float64Array(raw.length)
  for (let at = 0; at < raw.length; at++) {
    const row = raw[at]
    if (!Array.isArray(row) || row.length !== 1) return undefined
    const item: unknown = row[0]
    if (typeof item !== 'number' || !(item >= least && item <= most)) return undefined
    numbers[at] = item
  }
  return numbers
}

/** What is refused in an entry of a range names the entry. */
function placed<T>(place: string, check: () => T): T {
  try {
    return check()
  } catch (error) {
    throw error instanceof InputError ? new InputError({ ...error.refusal, place }) : error
  }
}

/** A range must be one row or one column. */
function oneLine(name: string, spec: SeriesArg, raw: readonly unknown[]): readonly unknown[] {
  if (!raw.some(Array.isArray)) return raw
  const rows = raw.map((row) => (Array.isArray(row) ? row : [row]))
  if (rows.length === 1) return rows[0]!
  const wide = rows.find((row) => row.length !== 1)
  if (wide) throw badInput(placeOf(name, spec), 'one row or one column', `a range of ${rows.length} rows and ${wide.length} columns`)
  return rows.map((row) => row[0])
}

function checkedItems(name: string, spec: SeriesArg, items: readonly unknown[] | Float64Array): Series {
  let numbers: number[] | undefined
  for (let at = 0; at < items.length; at++) {
    const item = items[at]
    if (typeof item === 'number' && item >= spec.least && item <= spec.most) {
      if (numbers) numbers[at] = item
      continue
    }
    if (isEmpty(item)) throw badInput(`${placeOf(name, spec)}, entry ${at + 1} of the range`, `no gap in the middle, ${allowedText(name, spec)}`, item)
    numbers ??= Array.from(items.slice(0, at) as ArrayLike<number>)
    numbers[at] = placed(`${placeOf(name, spec)}, entry ${at + 1} of the range`, () => checkNumber(name, { ...spec, kind: 'number' }, item))
  }
  return numbers ?? (items as Series)
}

export const placeOf = (name: string, spec: Argument) => `${spec.label} (${bareName(name)})`

/** A limit as it is printed: 0.333333, not all the digits of a third. */
export const short = (limit: number): string => grouped(Number(limit.toPrecision(6)))

/** Whole numbers beyond so many are told by the first and the last. */
const LONGEST_LIST = 4

/** The span of an argument in words, with its unit: "0 to 20,000 gpm". */
export function allowedText(name: string, spec: Argument): string {
  if (spec.kind === 'choice') return `one of ${spec.options.join(', ')}`
  if (spec.kind === 'key') return spec.allowed
  if (spec.kind === 'curve') return `a range of two columns, ${spec.columns.map((part) => `${bareName(part)} in ${symbolOf(part)}`).join(' ascending and ')} descending`
  const unit = symbolOf(name)
  const withUnit = (text: string) => (unit ? `${text} ${unit}` : text)
  if (spec.kind === 'series') {
    const span = withUnit(`${short(spec.least)} to ${short(spec.most)}`)
    return spec.orNumber ? `a number or a range of numbers, ${span}` : `a range of numbers, ${span}`
  }
  if (spec.only) {
    const { only } = spec
    const isRow = only.length > LONGEST_LIST && only.every((number, at) => number === only[0]! + at)
    return withUnit(isRow ? `a whole number, ${short(only[0]!)} to ${short(only.at(-1)!)}` : only.map(short).join(' or '))
  }
  return withUnit(spec.above ? `above ${short(spec.least)}, to ${short(spec.most)}` : `${short(spec.least)} to ${short(spec.most)}`)
}

/** What an argument means when it is left out; undefined where it must be given. */
export function leftOutText(spec: Argument): string | undefined {
  if ('default' in spec && spec.default !== undefined) return typeof spec.default === 'number' ? short(spec.default) : spec.default
  return spec.kind === 'number' ? spec.optional : undefined
}

/** True when an argument may be left out. */
export const mayBeLeftOut = (spec: Argument): boolean => leftOutText(spec) !== undefined
