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

/** The known name that was probably meant, in words; empty where none is near. */
export function nearest(unknown: string): string {
  const bare = (name: string) => name.toLowerCase().replace(/_.*$/, '')
  const close = [...knownNames].find((name) => bare(name) === bare(unknown))
  return close ? `; did you mean ${close}` : ''
}
