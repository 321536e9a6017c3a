/** The readings of line, pump and switch on the test record, and where their limits are from. */
import { readingParts, readingRules, type ReadingRule } from '../../takeoff/readings.js'
import { bibliography, citationText, isPlainSource, type Citation } from '../../sources.js'
import { address } from '../plan.js'
import { liveWords } from '../words.js'
import { readingColumns as columns, readingHeadings, type TestDraft } from './testDraft.js'

/** Where a limit is from, short enough for one line of the page. */
const sourceWords = (source: Citation): string => (isPlainSource(source.work) ? citationText(source) : `${bibliography[source.work].title}, ${source.locator} (${source.grade})`)
const askedOf = ({ job: { design } }: TestDraft): readonly ReadingRule[] => readingRules.filter(({ when }) => design.holds(when))

/** What the readings are held to, and how far it may be trusted. */
export function putLimits(draft: TestDraft): void {
  const asked = askedOf(draft)
  for (const words of new Set(asked.flatMap(({ sources }) => sources.map(sourceWords)))) {
    const codes = asked.filter(({ sources }) => sources.some((source) => sourceWords(source) === words)).map(({ code }) => code)
    draft.put(columns.code, 'faint', `${codes.join(', ')}: ${words}`)
    draft.next()
  }
  draft.next()
}

export function putReadings(draft: TestDraft): void {
  // A part a page at the most: no reading stands on one without the heads of its columns.
  for (const part of readingParts) {
    const asked = askedOf(draft).filter((rule) => rule.part === part)
    if (!asked.length) continue
    draft.bar(part)
    for (const [key, column] of Object.entries(columns)) if (readingHeadings[key]) draft.put(column, 'heading', readingHeadings[key]!)
    draft.next()
    for (const rule of asked) putReading(draft, rule)
    draft.next()
  }
}

function putReading(draft: TestDraft, { code, label, wanted, unit, verdict, span }: ReadingRule): void {
  const { design } = draft.job
  draft.put(columns.code, 'siteCode', code, { format: 'text' })
  draft.put(columns.text, 'site', label)
  draft.put(columns.wanted, 'text', wanted ? design.words(wanted) : null, wanted ? liveWords(wanted, draft.from) : {})
  const value = draft.written(code, 'reading', columns.reading)
  draft.put(columns.unit, 'unit', unit || null)
  if (verdict) draft.computed(verdict, new Map([['reading', { value, ref: address(draft.row, columns.reading, false) }]]), 'verdict', columns.verdict)
  if (span) draft.validations.push({ firstRow: draft.row, lastRow: draft.row, column: columns.reading, span, message: `${label}: ${span[0]} to ${span[1]} ${unit}` })
  draft.written(code, 'done', columns.done)
  draft.next()
}
