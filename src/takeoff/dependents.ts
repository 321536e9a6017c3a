/** What the values of a job are worked out from, by name: a trial with another choice works out anew what rests on it, and takes over all else. */
import { formula } from '../formula/formula.js'
import type { JobName } from './names.js'
import { CURVE_POINTS, monthNames } from './officeTables.js'
import { catchmentColumns, curveCell, curveColumns, monthColumns, monthRain, monthStart, recordColumns, recordFigures, results } from './results/index.js'
import { verdictRules } from './verdicts.js'

const namesIn = (texts: readonly string[]): string[] => texts.flatMap((text) => (text === '' ? [] : formula(text).names))

/** A name, or columns that are worked out together, and the names that they are worked out from. */
interface Reads {
  names: readonly string[]
  from: readonly string[]
}
/** Names that no formula tells, checked as they are typed. */
const told = (...names: readonly JobName[]): readonly string[] => names
const readsOfAll = (): Reads[] => [
  ...[...results, ...verdictRules].map((rule) => ({ names: [rule.name], from: namesIn([rule.formula]) })),
  {
    names: monthColumns.map(({ name }) => name),
    // The use of the sheet Uses comes on top of that of the row.
    from: [
      ...told('DailyUse_gal_per_day'),
      ...namesIn([...monthColumns.map((column) => column.formula), ...Object.values(monthStart), ...monthNames.map((_, month) => monthRain(month))]),
    ],
  },
  {
    names: [...recordColumns.map(({ name }) => name), ...recordFigures],
    from: told('RainStation', 'InchYield_gal', 'FirstFlush_in', 'FirstFlushEach', 'MonthUse_gal_per_day', 'UsableStorage_gal', 'YearDemand_gal'),
  },
  { names: catchmentColumns.map(({ name }) => name), from: [...told('RoofArea_ft2', 'RoofSurface'), ...namesIn(catchmentColumns.map((column) => column.formula))] },
  ...curveColumns.map(({ name }) => ({ names: [name], from: namesIn(Array.from({ length: CURVE_POINTS }, (_, point) => curveCell(name, point))) })),
  { names: ['Curve'], from: curveColumns.map(({ name }) => name) },
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
