/** Columns of Jobs that an office added and that its rows of Items name: fields of its own, used in rules like ours. */
import { badInput } from '../errors.js'
import { unitOf } from '../units.js'
import { checkField, isErrorText, number, type CellValue, type Field } from './fields.js'
import { knownNames } from './names.js'
import type { RawOffice } from './office.js'

/** A name as a rule can write it; one that looks like the address of a cell is none. */
const isName = (heading: string): boolean => /^[A-Za-z]\w*$/.test(heading) && !/^(?:[A-Za-z]{1,3}\d+|[Rr]\d*[Cc]\d*|TRUE|FALSE)$/.test(heading)
/** Whether a name can be that of a column of the office's own. */
export const isOwnField = (name: string): boolean => isName(name) && !knownNames.has(name)
const LONGEST_TEXT = 120
const MOST = 1e9

/** Their headings, once each. A name that means something already keeps its meaning. */
export function ownFieldsIn(raw: RawOffice): readonly string[] {
  const headings = [...new Set(raw.Jobs.columns)].filter(isOwnField)
  if (!headings.length) return []
  const words = new Set(raw.Items.rows.flatMap(({ cells }) => Object.values(cells).flatMap((cell) => (typeof cell === 'string' ? (cell.match(/[A-Za-z]\w*/g) ?? []) : []))))
  return headings.filter((heading) => words.has(heading))
}

/** A name that wears a unit is a number, and 0 where it is empty; any other is a number or a text as it stands. */
export const ownField = (name: string): Field | undefined =>
  unitOf(name) === undefined ? undefined : number(name, 'A column of the office’s own. Empty means 0.', { least: -MOST, most: MOST, default: 0 })

/** The checked value of a cell of such a column. Throws InputError. */
export function ownCell(name: string, raw: unknown): CellValue {
  const field = ownField(name)
  if (field) return checkField(name, field, raw, () => [])
  const value =
    raw === null || raw === undefined ? '' : typeof raw === 'number' ? raw : raw instanceof Date ? raw.toISOString().slice(0, 10) : String(raw as string | boolean).trim()
  if (typeof value === 'number' ? !(Math.abs(value) <= MOST) : value.length > LONGEST_TEXT || isErrorText(value))
    throw badInput(name, `a number up to 1,000,000,000 or a text of up to ${LONGEST_TEXT} characters`, raw)
  return value
}
