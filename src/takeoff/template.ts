/**
 * Words with fields in braces as a formula, so that the words stay live: "{TankCount}", "{DropLimit%}" for a share,
 * "{TankCount|tank|tanks}" for a count with its noun, "{Cover_ft:2}" where a limit is told apart by its second decimal. Where the words depend on the job they are a list of cases.
 */
import { formula } from '../formula/formula.js'
import { decimalsOf, symbolOf, unitOf } from '../units.js'

/** Words, or cases of them: the first whose condition holds is said, the last one has none. */
export type Words = string | readonly (readonly [when: string, words: string])[]

const hole = /\{(\w+)(%?)(?::(\d))?(?:\|([^|}]*)\|([^|}]*))?\}/g

export const casesOf = (words: Words): readonly string[] => (typeof words === 'string' ? [words] : words.map(([, text]) => text))
export const namesIn = (words: Words): string[] => casesOf(words).flatMap((text) => [...text.matchAll(hole)].map((match) => match[1]!))

/** A spreadsheet takes at most 255 characters between two quotes. */
const LONGEST_LITERAL = 255
const quoted = (text: string): string =>
  text.length > LONGEST_LITERAL ? `${quoted(text.slice(0, LONGEST_LITERAL))}&${quoted(text.slice(LONGEST_LITERAL))}` : `"${text.replace(/"/g, '""')}"`

/** Thousands with a comma; below them as many decimals as the unit is shown with, one more below 1. */
const figure = (name: string, decimals: number): string => `IF(ABS(${name})>=1000,TEXT(${name},"#,##0"),ROUND(${name},${decimals === 1 ? `IF(ABS(${name})<1,2,1)` : decimals}))`
/** In words a head is a height: the sentence says of what. */
const unitWord = (name: string): string => (unitOf(name) === 'ftw' ? 'ft' : symbolOf(name))

/** A value in words: rounded as its unit is shown, with the unit behind it; a share with % as such. A code takes the bare value. */
function wordsOf(name: string, isShare: boolean, bare: boolean, decimals?: number, one?: string, many?: string): string {
  if (bare) return name
  if (one !== undefined) return `${name}&IF(${name}=1,${quoted(` ${one}`)},${quoted(` ${many}`)})`
  if (isShare) return `ROUND(100*${name},${decimals ?? 2})&" %"`
  if (unitOf(name) === 'usd') return `"$"&TEXT(${name},"#,##0.00")`
  const unit = unitWord(name)
  return unit ? `${figure(name, decimals ?? decimalsOf(name))}&${quoted(` ${unit}`)}` : `IF(ISNUMBER(${name}),ROUND(${name},2),${name})`
}

/** The formula that writes words, or undefined when they have no braces and are a plain text. */
export function templateFormula(words: Words, bare = false): string | undefined {
  if (typeof words !== 'string') {
    return words.reduceRight((rest, [when, text]) => {
      const own = templateFormula(text, bare) ?? quoted(text)
      return rest === '' ? own : `IF(${when},${own},${rest})`
    }, '')
  }
  if (!namesIn(words).length) return undefined
  const parts: string[] = []
  let at = 0
  for (const match of words.matchAll(hole)) {
    if (match.index > at) parts.push(quoted(words.slice(at, match.index)))
    parts.push(wordsOf(match[1]!, match[2] === '%', bare, match[3] === undefined ? undefined : Number(match[3]), match[4], match[5]))
    at = match.index + match[0].length
  }
  if (at < words.length) parts.push(quoted(words.slice(at)))
  return parts[0]!.startsWith('"') || parts.length > 1 ? parts.join('&') : `${parts[0]}&""`
}

/** Reads the formula of words now, so that a mistake in it is found before any job is made. */
export const readTemplate = (words: Words, bare = false) => {
  const text = templateFormula(words, bare)
  return text === undefined ? undefined : formula(text)
}
