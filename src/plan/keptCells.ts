/** Reading cells that people may have typed over, shared by what reads the sheets of a job back. */
import { badInput } from '../errors.js'
import { problemAt, type Problem } from '../takeoff/fields.js'
import { isAmount } from '../takeoff/lineMaking.js'

export interface Cell {
  value: unknown
  formula?: string
}
export type Rows = readonly (readonly Cell[])[]

export const text = (cell: Cell | undefined): string => String(cell?.value ?? '').trim()
export const isEmptySheet = (rows: Rows): boolean => rows.every((row) => row.every((cell) => text(cell) === ''))
/** Another program may save a formula and leave its result out; an empty text is a result. */
export const isUnworked = (cell: Cell | undefined): boolean => cell?.formula !== undefined && (cell.value ?? null) === null
/** What was typed, and nothing where a formula stands. */
export const plain = (cell: Cell | undefined): string => (cell?.formula === undefined ? text(cell) : '')

/** A typed number, less than nothing where a line may be a credit; a formula counts as its result. Text that is no number is a problem, not an empty cell. */
export function amount(cell: Cell | undefined, sheet: string, row: number, column: string, problems: Problem[], mayBeLess = false): number | undefined {
  const typed = text(cell)
  if (typed === '') return undefined
  const value = Number(typed)
  if (isAmount(mayBeLess ? Math.abs(value) : value)) return value
  problems.push(problemAt(sheet, row, column, badInput(column, `a number, ${mayBeLess ? '-1,000,000,000' : '0'} to 1,000,000,000`, cell!.value)))
  return undefined
}

/** Beyond this many cells without their formula a sheet holds pasted values, and one problem says so for all. */
export const PASTED = 3
