/** What the values of a job are worked out from, by name: a trial with another choice works out anew what rests on it, and takes over all else. */
import { formula } from '../formula/formula.js'
import { results } from './results/index.js'
import { curve } from './rowLists/curve.js'
import { rowLists } from './rowLists/index.js'
import { record, recordFigures } from './rowLists/record.js'
import { columnAbove, textsOf, type Column, type RowList } from './rowLists/rowList.js'
import { verdictRules } from './verdicts.js'

const namesIn = (texts: readonly string[]): string[] => texts.flatMap((text) => (text === '' ? [] : formula(text).names))

/** Names, and the names that they are worked out from. */
interface Reads {
  names: readonly string[]
  from: readonly string[]
}
/** A column of a list is worked out from what its formulas name, and from what stands above its first row; rows and given values rest on what the list says. */
const readsOfColumn = (rule: Column, { restsOn }: RowList): Reads => ({
  names: [rule.name],
  from: [...namesIn(textsOf(rule)).map((name) => columnAbove(name) ?? name), ...(rule.startsAt ? [rule.startsAt] : []), ...restsOn],
})
const readsOfAll = (): Reads[] => [
  ...[...results, ...verdictRules].map((rule) => ({ names: [rule.name], from: namesIn([rule.formula]) })),
  ...rowLists.flatMap((list) => list.columns.map((rule) => readsOfColumn(rule, list))),
  { names: Object.keys(recordFigures), from: record.restsOn },
  { names: ['Curve'], from: curve.columns.map(({ name }) => name) },
]

let readers: Map<string, Set<string>> | undefined
/** For each name those that are worked out from it. */
function readersOf(): Map<string, Set<string>> {
  if (readers) return readers
  readers = new Map()
  for (const { names, from } of readsOfAll())
    for (const read of from) {
      let known = readers.get(read)
      if (!known) readers.set(read, (known = new Set()))
      for (const name of names) known.add(name)
    }
  return readers
}

const known = new Map<string, ReadonlySet<string>>()
/** The names whose values move, or may, when those do; they themselves among them. */
export function movedBy(changed: readonly string[]): ReadonlySet<string> {
  const key = [...changed].sort().join(' ')
  let moved = known.get(key) as Set<string> | undefined
  if (moved) return moved
  moved = new Set(changed)
  // A set grows while it is walked through: what is added is visited too.
  for (const name of moved) for (const reader of readersOf().get(name) ?? []) moved.add(reader)
  known.set(key, moved)
  return moved
}
