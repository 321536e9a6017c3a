/** Every name that a rule may use, and every result as a checked union: a name misspelt in TypeScript does not compile. */
import { assumable, type AssumedFlag } from './assumed.js'
import { jobFields, type JobFieldName } from './officeTables.js'
import { foundFigures, results, type ResultName } from './results/index.js'
import { rowLists, type ColumnName } from './rowLists/index.js'
import { verdictRules, type VerdictName } from './verdicts.js'

type NameOf<List extends readonly { name: string }[]> = List[number]['name']
export type JobName = JobFieldName | ResultName | VerdictName | AssumedFlag | ColumnName | NameOf<typeof foundFigures> | 'RunsAssumed'

const namesOf = (list: readonly { name: string }[]): string[] => list.map(({ name }) => name)

/** Names of one value each. */
const singleNames: ReadonlySet<string> = new Set([
  ...Object.keys(jobFields),
  ...namesOf(results),
  ...namesOf(verdictRules),
  ...namesOf(foundFigures),
  ...Object.values(assumable),
  'RunsAssumed',
])
/** Names of a value a row: a month, point, roof, use or year. */
const columnNames: ReadonlySet<string> = new Set(rowLists.flatMap(({ columns }) => namesOf(columns)))
export const knownNames: ReadonlySet<string> = new Set([...singleNames, ...columnNames, 'Curve'])

/** Shorter names are near too many others. */
const LEAST_LETTERS = 5
/** Whether one letter is another one, is missing, is too many, or has changed places with the next. */
function isOneSlip(one: string, other: string): boolean {
  if (Math.abs(one.length - other.length) > 1) return false
  let at = 0
  while (at < one.length && one[at] === other[at]) at++
  const [rest, otherRest] = [one.slice(at), other.slice(at)]
  if (rest.slice(1) === otherRest || rest === otherRest.slice(1) || rest.slice(1) === otherRest.slice(1)) return true
  return rest[0] === otherRest[1] && rest[1] === otherRest[0] && rest.slice(2) === otherRest.slice(2)
}

/** The known name that was probably meant, in words; empty where none is near. */
export function nearest(unknown: string): string {
  const bare = (name: string) => name.toLowerCase().replace(/_.*$/, '')
  const close =
    [...knownNames].find((name) => bare(name) === bare(unknown)) ??
    [...knownNames].find((name) => name.length >= LEAST_LETTERS && isOneSlip(name.toLowerCase(), unknown.toLowerCase()))
  return close ? `; did you mean ${close}` : ''
}
