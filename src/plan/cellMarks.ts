/** Marks of what cells hold, without their places: by these, what a sheet was made with is known again wherever its rows have moved to. */
import { dateText, serialOfDay } from '../days.js'
import { shortHash } from '../shortHash.js'

/** A few letters: enough to know one of ours again among some thousand. */
export const MARK = 5
/** Digits that every spreadsheet program keeps of a number. */
const inDigits = (value: number): number => (Number.isInteger(value) ? value : Number(value.toPrecision(12)))

export const markOfWords = (words: string): string => shortHash([words.trim()]).slice(0, MARK)

interface Held {
  value?: unknown
  formula?: string | undefined
  format?: unknown
}

/** The mark of a number, a yes or no, or a formula; nothing for words and empty cells. A planned date is a number too, as some programs save it. */
export function markOfFigure({ value, formula, format }: Held): string | undefined {
  if (formula !== undefined) return shortHash([`=${formulaShape(formula)}`]).slice(0, MARK)
  if (typeof value === 'number') return shortHash([`#${inDigits(value)}`]).slice(0, MARK)
  if (format === 'date' && typeof value === 'string' && dateText(value) !== undefined) return markOfFigure({ value: serialOfDay(value) })
  if (typeof value === 'boolean') return shortHash([`?${value}`]).slice(0, MARK)
  return undefined
}

const SHEET = String.raw`(?:'[^']*(?:''[^']*)*'|[A-Z_][\w.]*)!`
const CELL = String.raw`\$?[A-Z]{1,3}\$?\d+`
const PLACE = [
  String.raw`(?:${SHEET})?(?:${CELL}(?::${CELL})?(?![\w(.[])|\$?[A-Z]{1,3}:\$?[A-Z]{1,3}(?![\w(.])|\$?\d+:\$?\d+|#REF!)`,
  String.raw`[A-Z_][\w.]*\[(?:[^[\]]|\[[^[\]]*\])*\]`,
].join('|')
/** Words in quotes, a place, a name of a function or a range, a number; then what may go. Groups by their order: named ones take four times as long. */
const PIECES = new RegExp(String.raw`("[^"]*(?:""[^"]*)*")|(${PLACE})|(?:_XLFN\.(?:_XLWS\.)?|_XLDUDF_)?([A-Z_][\w.]*)|((?:\d+\.?\d*|\.\d+)(?:E[+-]?\d+)?)|[\s$@]+`, 'gi')

const TRUTH = /(TRUE|FALSE)\(\)/g

/** What a formula works out, whatever cells it points to: programs write places, prefixes and spaces their own way, and rows move. */
export const formulaShape = (formula: string): string =>
  formula
    .replace(PIECES, (_, words?: string, place?: string, name?: string, number?: string) => {
      if (words !== undefined) return words
      if (place !== undefined) return '#'
      return name?.toUpperCase().replace(/^CISTERN_/, 'CISTERN.') ?? (number === undefined ? '' : String(inDigits(Number(number))))
    })
    .replace(TRUTH, '$1')
