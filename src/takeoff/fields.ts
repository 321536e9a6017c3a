/** What a column of an office table may hold, and how a cell of it is checked. Numbers and names are checked as arguments are. */
import { dateText } from '../days.js'
import { allowedText, arg, checkArgument, choice, type ChoiceArg, type KeyArg, type NumberArg } from '../calc.js'
import { badInput, InputError, shown } from '../errors.js'

export type CellValue = string | number | null

interface Common {
  label: string
  help: string
  required?: boolean
  /** What an empty cell means. Without one, an empty cell of a field that is not required stays empty. */
  default?: CellValue
}
export type Field = Common &
  (
    | { kind: 'text'; longest: number; unique?: boolean; suggested?: readonly string[] }
    | { kind: 'date' }
    | { kind: 'spec'; spec: NumberArg | ChoiceArg | KeyArg; unique?: boolean }
    /** Names a row of another table by its first column. */
    | { kind: 'row'; table: string }
    /** A spreadsheet formula over names, written without the equals sign. */
    | { kind: 'rule' }
  )

export type Fields = Readonly<Record<string, Field>>

export const text = (
  label: string,
  help: string,
  more: { required?: boolean; unique?: boolean; longest?: number; default?: string; suggested?: readonly string[] } = {},
): Field => ({
  kind: 'text',
  label,
  help,
  longest: 120,
  ...more,
})
export const date = (label: string, help: string): Field => ({ kind: 'date', label, help })
export const rule = (label: string, help: string, more: { required?: boolean; default?: CellValue } = {}): Field => ({ kind: 'rule', label, help, ...more })
export const rowOf = (table: string, label: string, help: string, more: { required?: boolean; default?: CellValue } = {}): Field => ({ kind: 'row', table, label, help, ...more })
export const number = (
  label: string,
  help: string,
  span: { least: number; most: number; above?: boolean; only?: readonly number[]; default?: number; required?: boolean },
): Field => {
  const { required, default: fallback, ...limits } = span
  return { kind: 'spec', label, help, spec: arg(label, limits), ...(required ? { required } : {}), ...(fallback === undefined ? {} : { default: fallback }) }
}
export const oneOf = (label: string, help: string, options: readonly string[], more: { required?: boolean; default?: string } = {}): Field => ({
  kind: 'spec',
  label,
  help,
  spec: choice(label, { options }),
  ...more,
})
export const keyed = (spec: KeyArg, label: string, help: string, more: { required?: boolean; unique?: boolean; default?: string } = {}): Field => ({
  kind: 'spec',
  label,
  help,
  spec: { ...spec, label },
  ...more,
})

/** A spreadsheet that looks a name up takes these for any sign. */
export const WILDCARDS = /[*?~]/

export interface Problem {
  sheet: string
  /** 0 for the headings. */
  row: number
  column: string
  allowed: string
  came: string
  /** The code, or the model, of a price that nobody has filled in. */
  unpriced?: string
  /** A heading that may be a column of ours under another name: a person can say so. */
  renamed?: { table: string; heading: string; field: string }
}

/** A price that nobody has filled in yet stands in the way of the total alone. */
export const isUnpriced = ({ unpriced }: Problem): boolean => unpriced !== undefined

export const placeText = ({ sheet, row, column }: Problem): string => `${sheet}, ${row === 0 ? 'headings' : `row ${row}`}, ${column}`
export const refusalText = ({ allowed, came }: Problem): string => `: ${allowed}${came ? `; got ${came}` : ''}.`
/** A problem as one line: where, what is allowed, what came. */
export const problemText = (problem: Problem): string => placeText(problem) + refusalText(problem)

export class ProblemsError extends Error {
  constructor(readonly problems: readonly Problem[]) {
    super(problems.map(problemText).join('\n'))
    this.name = 'ProblemsError'
  }
}

/** The same name, whatever its capitals and spaces: a space that does not break looks like any other. */
export const plainSpaces = (name: string): string => name.replace(/\s+/g, ' ').trim().toLowerCase()

/** A space is nothing to the eye. */
export const isBlank = (cell: unknown): boolean => cell === null || cell === undefined || (typeof cell === 'string' && cell.trim() === '')

/** The checked value of a cell; `names` are the first columns of the other tables. Throws InputError. */
export function checkField(name: string, field: Field, raw: unknown, names: (table: string) => readonly string[]): CellValue {
  if (isBlank(raw)) {
    if (field.default !== undefined) return field.default
    if (field.required) throw badInput(name, allowedIn(name, field, names), '')
    return null
  }
  if (raw !== null && typeof raw === 'object' && !(raw instanceof Date)) throw badInput(name, allowedIn(name, field, names), raw)
  switch (field.kind) {
    case 'spec':
      return checkArgument(name, field.spec, raw instanceof Date ? shown(raw) : raw) as CellValue
    case 'row': {
      const wanted = String(raw).trim().toLowerCase()
      const found = names(field.table).find((known) => known.toLowerCase() === wanted)
      if (found === undefined) {
        // To the eye the two are the same name.
        const isAlike = names(field.table).some((known) => plainSpaces(known) === plainSpaces(wanted))
        throw badInput(name, `${allowedIn(name, field, names)}${isAlike ? '; one of the two has a space that does not break: type it anew' : ''}`, raw)
      }
      return found
    }
    case 'date': {
      const day = dateText(raw)
      if (day === undefined) throw badInput(name, allowedIn(name, field, names), raw)
      return day
    }
    case 'text':
    case 'rule': {
      const value = String(raw instanceof Date ? shown(raw) : raw).trim()
      if (field.kind === 'text' && (value.length > field.longest || isErrorText(value))) throw badInput(name, allowedIn(name, field, names), raw)
      return value
    }
  }
}

/** What a cell says once checked: "3 m" in feet, a name without stray spaces. A cell that does not pass stays as it is. */
export function checkedOrRaw(name: string, field: Field, raw: unknown): unknown {
  if (raw === null || raw === undefined || field.kind === 'date') return raw ?? null
  if (field.kind === 'row') return typeof raw === 'string' ? raw.trim() : raw
  try {
    return checkField(name, { ...field, default: null }, raw, () => [])
  } catch (error) {
    if (error instanceof InputError) return raw
    throw error
  }
}

/** A name without its capitals, spaces and signs: two that are the same so are meant to be. */
export const bareLetters = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]/g, '')

/** What a spreadsheet shows in a cell whose formula failed. */
export const isErrorText = (value: string) => /^#(?:N\/A|VALUE!|DIV\/0!|NUM!|NAME\?|REF!|NULL!|SPILL!|CALC!)$/.test(value)

export function allowedIn(name: string, field: Field, names: (table: string) => readonly string[]): string {
  if (field.kind === 'spec') return allowedText(name, field.spec)
  if (field.kind === 'row') {
    const known = names(field.table)
    return known.length
      ? `a name in the first column of ${field.table}: ${known.slice(0, 12).join(', ')}${known.length > 12 ? ' and others' : ''}`
      : `a name in the first column of ${field.table}, which is empty`
  }
  if (field.kind === 'date') return 'a date, as 2026-05-31'
  if (field.kind === 'rule') return 'a spreadsheet formula over the names of fields and results'
  return `${field.kind === 'text' && field.suggested ? `${field.suggested.join(', ')}, or a name of your own: ` : ''}a text of 1 to ${field.longest} characters`
}

/** Turns what a check threw into a problem at its place. */
export function problemAt(sheet: string, row: number, column: string, error: unknown): Problem {
  if (error instanceof InputError) return { sheet, row, column, allowed: error.refusal.allowed, came: error.refusal.came }
  throw error
}

/** So many places are named; the rest are counted. */
const NAMED = 5
/** Places in words: the first of them, and how many more. */
export const placesInWords = (places: readonly string[]): string => [...places.slice(0, NAMED), ...(places.length > NAMED ? [`${places.length - NAMED} more`] : [])].join(', ')
