/** What a formula may hold: a number, a text, true or false, nothing, an error, or a column of these. */
export class FormulaError {
  constructor(
    readonly code: '#VALUE!' | '#N/A' | '#DIV/0!' | '#NUM!' | '#NAME?' | '#REF!',
    readonly message = '',
  ) {}
  toString(): string {
    return this.code
  }
}

export type Single = number | string | boolean | null | FormulaError
export type Value = Single | readonly Single[]

export const isColumn = (value: Value): value is readonly Single[] => Array.isArray(value)
export const isError = (value: Value): value is FormulaError => value instanceof FormulaError

/** The number in a value as a spreadsheet reads it, or the error that stands in its way. */
export function toNumber(value: Value): number | FormulaError {
  if (typeof value === 'number') return value
  if (isColumn(value)) return value.length === 1 ? toNumber(value[0]!) : new FormulaError('#VALUE!')
  if (isError(value)) return value
  if (typeof value === 'boolean') return value ? 1 : 0
  if (value === null) return 0
  const number = value.trim() === '' ? NaN : Number(value)
  return Number.isFinite(number) ? number : new FormulaError('#VALUE!')
}

export function toText(value: Value): string | FormulaError {
  if (isColumn(value)) return value.length === 1 ? toText(value[0]!) : new FormulaError('#VALUE!')
  if (isError(value)) return value
  if (value === null) return ''
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE'
  return typeof value === 'number' ? String(Number(value.toPrecision(15))) : value
}

export function toTruth(value: Value): boolean | FormulaError {
  if (isColumn(value)) return value.length === 1 ? toTruth(value[0]!) : new FormulaError('#VALUE!')
  if (isError(value) || typeof value === 'boolean') return value
  if (value === null) return false
  if (typeof value === 'number') return value !== 0
  return /^true$/i.test(value) ? true : /^false$/i.test(value) ? false : new FormulaError('#VALUE!')
}

/** A finished number, or the error a spreadsheet shows in its place. */
export const finite = (value: number): number | FormulaError => (Number.isFinite(value) ? value : new FormulaError('#NUM!'))
