/** Names that an office's own sheets can point at: the total and the sums of a job. They hold wherever rows move to. */
import { shortHash } from '../shortHash.js'
import { address, inQuotes } from './plan.js'

export interface DefinedName {
  name: string
  row: number
  column: number
}

const inName = (words: string): string => words.replace(/[^\p{L}\p{Nd}]+/gu, '_').replace(/^_|_$/g, '')

/** `Wicket_Mill.Total`: the job, a point, the sum. Where more than single spaces had to go, a short number keeps two jobs apart. */
export function definedName(job: string, sum: string): string {
  const plain = inName(job)
  const isPlain = job === plain.replace(/_/g, ' ')
  const start = /^\p{L}/u.test(plain) ? plain : `_${plain}`
  return `${start}${isPlain ? '' : `_${shortHash([job]).slice(0, 4)}`}.${inName(sum)}`
}

/** What the names of one job begin with, in small letters. */
export const ofJob = (name: string): string => name.slice(0, name.indexOf('.') + 1).toLowerCase()
/** The cell of a name, as a workbook holds it. */
export const placeOfName = (sheet: string, { row, column }: DefinedName): string => `${inQuotes(sheet)}!${address(row, column)}`
/** Whether a formula, or a text that holds one, means cells of this sheet. */
export const pointsTo = (formula: string, sheet: string): boolean => {
  const small = formula.toLowerCase()
  const bare = sheet.toLowerCase().replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
  return small.includes(`${inQuotes(sheet).toLowerCase()}!`) || new RegExp(`(?<![\\w.'])${bare}!`).test(small)
}
/** Whether what a name stands for is a place on this sheet: a name that points elsewhere is somebody's own. */
export const pointsInto = (place: string, sheet: string): boolean => {
  const plain = place.toLowerCase().replace(/^=/, '')
  return [inQuotes(sheet), sheet].some((one) => plain.startsWith(`${one.toLowerCase()}!`))
}
