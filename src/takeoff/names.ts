/** Every name that a rule may use, and every result as a checked union: a name misspelt in TypeScript does not compile. */
import { assumable, type AssumedFlag } from './assumed.js'
import { jobFields, type JobFieldName } from './officeTables.js'
import { catchmentColumns, curveColumns, foundFigures, monthColumns, recordColumns, results, type ResultName } from './results/index.js'
import { verdictRules, type VerdictName } from './verdicts.js'

type NameOf<List extends readonly { name: string }[]> = List[number]['name']
export type JobName =
  | JobFieldName
  | ResultName
  | VerdictName
  | AssumedFlag
  | NameOf<typeof monthColumns>
  | NameOf<typeof curveColumns>
  | NameOf<typeof catchmentColumns>
  | NameOf<typeof recordColumns>
  | NameOf<typeof foundFigures>
  | 'RunsAssumed'

const namesOf = (list: readonly { name: string }[]): string[] => list.map(({ name }) => name)

/** Names of one value each. */
export const singleNames: ReadonlySet<string> = new Set([
  ...Object.keys(jobFields),
  ...namesOf(results),
  ...namesOf(verdictRules),
  ...namesOf(foundFigures),
  ...Object.values(assumable),
  'RunsAssumed',
])
/** Names of a value a month, point, roof or year. */
export const columnNames: ReadonlySet<string> = new Set([...namesOf(monthColumns), ...namesOf(curveColumns), ...namesOf(catchmentColumns), ...namesOf(recordColumns)])
export const knownNames: ReadonlySet<string> = new Set([...singleNames, ...columnNames, 'Curve'])

/** The known name that was probably meant, in words; empty where none is near. */
export function nearest(unknown: string): string {
  const bare = (name: string) => name.toLowerCase().replace(/_.*$/, '')
  const close = [...knownNames].find((name) => bare(name) === bare(unknown))
  return close ? `; did you mean ${close}` : ''
}
