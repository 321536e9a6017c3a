/** Words with fields in braces ("TankCount {TankCount} less one", "{DropLimit%}" for a share) as a formula, so that the words stay live. */
import { formula } from '../formula/formula.js'
import { decimalsOf, symbolOf } from '../units.js'

const hole = /\{(\w+)(%?)\}/g

export const namesIn = (template: string): string[] => [...template.matchAll(hole)].map((match) => match[1]!)

/** A spreadsheet takes at most 255 characters between two quotes. */
const LONGEST_LITERAL = 255
const quoted = (text: string): string =>
  text.length > LONGEST_LITERAL ? `${quoted(text.slice(0, LONGEST_LITERAL))}&${quoted(text.slice(LONGEST_LITERAL))}` : `"${text.replace(/"/g, '""')}"`

/** A value in words: rounded as its unit is shown, with the unit behind it; a share with % as such. A code takes the bare value. */
function wordsOf(name: string, isShare: boolean, bare: boolean): string {
  if (bare) return name
  if (isShare) return `ROUND(100*${name},2)&" %"`
  const unit = symbolOf(name)
  return unit ? `ROUND(${name},${decimalsOf(name)})&${quoted(` ${unit}`)}` : `IF(ISNUMBER(${name}),ROUND(${name},2),${name})`
}

/** The formula that writes a template, or undefined when it has no braces and is a plain text. */
export function templateFormula(template: string, bare = false): string | undefined {
  if (!namesIn(template).length) return undefined
  const parts: string[] = []
  let at = 0
  for (const match of template.matchAll(hole)) {
    if (match.index > at) parts.push(quoted(template.slice(at, match.index)))
    parts.push(wordsOf(match[1]!, match[2] === '%', bare))
    at = match.index + match[0].length
  }
  if (at < template.length) parts.push(quoted(template.slice(at)))
  return parts[0]!.startsWith('"') || parts.length > 1 ? parts.join('&') : `${parts[0]}&""`
}

/** Reads a template's formula now, so that a mistake in it is found before any job is made. */
export const readTemplate = (template: string, bare = false) => {
  const text = templateFormula(template, bare)
  return text === undefined ? undefined : formula(text)
}
