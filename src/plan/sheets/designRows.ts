/** The rows of the Design sheet in their order: what stops and what hurts comes first, what was put in comes last. */
import { bibliography, citationText, isPlainSource, type Citation, type WorkId } from '../../sources.js'
import { assumable, assumableFields } from '../../takeoff/assumed.js'
import type { Design, RaisedCaution } from '../../takeoff/design.js'
import { foundFigures, resultGroups } from '../../takeoff/results/index.js'
import { verdictRules } from '../../takeoff/verdicts.js'
import { CHANGED_SINCE } from '../sheetKind.js'
import { inputNames } from './designColumns.js'

/** A name's row is its place in this list. */
export type DesignRow =
  | { kind: 'section'; text: string }
  | { kind: 'gap' }
  | { kind: 'pictures' }
  | { kind: 'note' }
  | { kind: 'caution'; caution: RaisedCaution | undefined }
  | { kind: 'key'; work: WorkId }
  | { kind: 'verdict' | 'input' | 'flag' | 'found' | 'result' | 'changed'; name: string }

export const designRows = (design: Design): readonly DesignRow[] => [
  { kind: 'section', text: 'VERDICTS, WORST FIRST AS MADE' },
  ...design.verdicts().map(({ name }) => ({ kind: 'verdict' as const, name })),
  { kind: 'gap' },
  { kind: 'section', text: 'CAUTIONS, WORST FIRST' },
  ...design.cautions().map((caution) => ({ kind: 'caution' as const, caution })),
  { kind: 'caution', caution: undefined },
  { kind: 'gap' },
  { kind: 'pictures' },
  { kind: 'gap' },
  ...resultGroups.flatMap(({ title, results: rules }): DesignRow[] => [
    { kind: 'section', text: title.toUpperCase() },
    ...rules.map(({ name }) => ({ kind: 'result' as const, name })),
    { kind: 'gap' },
  ]),
  { kind: 'section', text: 'FOUND WHEN THE JOB WAS MADE' },
  ...foundFigures.map(({ name }) => ({ kind: 'found' as const, name })),
  { kind: 'gap' },
  { kind: 'section', text: 'LEFT EMPTY IN THE JOB ROW, 1 WHERE IT WAS' },
  ...assumableFields.map((field) => ({ kind: 'flag' as const, name: assumable[field] })),
  { kind: 'flag', name: 'RunsAssumed' },
  { kind: 'gap' },
  { kind: 'section', text: 'INPUTS, COPIED FROM THE JOB ROW' },
  { kind: 'changed', name: CHANGED_SINCE },
  ...[...inputNames, ...design.ownFields].map((name) => ({ kind: 'input' as const, name })),
  { kind: 'gap' },
  { kind: 'section', text: 'KEY TO SOURCES' },
  ...keyed.map((work) => ({ kind: 'key' as const, work })),
  { kind: 'note' },
]

/** Works cited on the sheet, in the order in which they come up: a line says the number, the key at the end the title. */
const keyed: readonly WorkId[] = [...new Set([...verdictRules, ...resultGroups.flatMap((group) => group.results), ...foundFigures].map(({ source }) => source.work))].filter(
  (work) => !isPlainSource(work),
)
export const keyOf = (work: WorkId): string => `[${keyed.indexOf(work) + 1}]`
export function inKey(source: Citation): string {
  if (!isPlainSource(source.work)) return `${keyOf(source.work)} ${source.locator}`.trim()
  // That it is derived, from memory or common practice stands beside it as its grade: a request of Excel holds so much and no more.
  if (!source.locator || !['derivation', 'memory', 'practice'].includes(source.work)) return citationText(source)
  return source.work === 'practice' ? `no source: ${source.locator}` : source.locator
}
/** What a number of the key stands for. */
export function workWords(work: WorkId): { title: string; grade: string } {
  const { title, publisher, edition, grade } = bibliography[work]
  return { title: [publisher, title, edition].filter(Boolean).join(', '), grade }
}
