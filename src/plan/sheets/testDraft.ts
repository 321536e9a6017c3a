/** The test record while it is written: its columns, its two lists, and what its parts ask of the job and of the page. */
import { vacuumLoss } from '../../calc/tank/vacuumLoss.js'
import type { Single, Value } from '../../formula/value.js'
import { readingRules } from '../../takeoff/readings.js'
import type { Words } from '../../takeoff/template.js'
import { isAgainCode, isTankCode, workedOut } from '../../takeoff/testRecord.js'
import { LOG_ENTRIES } from '../../takeoff/vacuumLog.js'
import { symbolOf } from '../../units.js'
import { cellValue, rowFormula } from '../calls.js'
import { JobDraft } from '../jobDraft.js'
import type { PlanValidation } from '../plan.js'
import type { EntryList } from '../sheetKind.js'
import { liveWords } from '../words.js'

export const testColumns = { code: 2, text: 3, entries: 4, loss: 9, verdict: 10, done: 11, passed: 12 } as const
export const readingColumns = { code: 2, text: 3, wanted: 4, reading: 8, unit: 9, verdict: 10, done: 11 } as const
/** Headings of the two lists, by what is kept from their columns. */
export const logHeadings: Readonly<Record<string, string>> = { code: 'Tank', text: 'Which', loss_inHg: 'Loss, inHg', verdict: 'Verdict', done: 'Tested by, date, remarks' }
export const readingHeadings: Readonly<Record<string, string>> = {
  code: 'Reading',
  text: 'What',
  wanted: 'Wanted',
  reading: 'Read',
  verdict: 'Verdict',
  done: 'Read by, date, remarks',
}
export const tankWords = { only: 'the tank', first: 'pump tank, nearest the house', between: 'between', last: 'inlet tank, farthest from the house' }

type LogEntry = (typeof LOG_ENTRIES)[number]
export const logSpans: Readonly<Record<LogEntry, readonly [label: string, least: number, most: number]>> = (() => {
  const { start_inHg, end_inHg, startTemp_F, endTemp_F } = vacuumLoss.takes
  return {
    start_inHg: ['Start', start_inHg.least, start_inHg.most],
    end_inHg: ['End', end_inHg.least, end_inHg.most],
    watched_min: ['Watched', 0, 1440],
    startTemp_F: ['Air, start', startTemp_F.least, startTemp_F.most],
    endTemp_F: ['Air, end', endTemp_F.least, endTemp_F.most],
  }
})()
export const logHeading = (name: LogEntry): string => `${logSpans[name][0]}, ${symbolOf(name)}`
/** An entry in words: a reading of the log with its name and unit, else what was written. */
export const entryWords = (key: string, written: string): string => {
  const name = LOG_ENTRIES.find((known) => known === key)
  return name ? `${logSpans[name][0].toLowerCase()} ${written} ${symbolOf(name)}` : written
}

export const logList: EntryList = {
  headings: { ...logHeadings, ...Object.fromEntries(LOG_ENTRIES.map((name) => [name, logHeading(name)])) },
  entries: [...LOG_ENTRIES, 'done'],
  isCode: (code) => isTankCode(code) || isAgainCode(code),
  alsoOf: (code) => (isAgainCode(code) ? ['text'] : []),
  span: (_, key) => {
    const name = LOG_ENTRIES.find((known) => known === key)
    return name && { least: logSpans[name][1], most: logSpans[name][2], unit: symbolOf(name) }
  },
  isOurWord: (_, key, words) => key === 'text' && Object.values(tankWords).includes(words),
}
export const readingList: EntryList = {
  headings: readingHeadings,
  entries: ['reading', 'done'],
  isCode: (code) => readingRules.some((rule) => rule.code === code),
  span: (code, key) => {
    const { span, unit } = readingRules.find((rule) => rule.code === code)!
    return key === 'reading' && span ? { least: span[0], most: span[1], unit } : undefined
  },
  isOurWord: (code, _key, words) => {
    const rule = readingRules.find((known) => known.code === code)
    return rule !== undefined && [rule.label, ...rule.earlier, rule.wanted, rule.unit].includes(words)
  },
}

export class TestDraft extends JobDraft {
  readonly validations: PlanValidation[] = []

  bar(text: string): void {
    this.section(testColumns.done, text.toUpperCase())
  }

  fact(words: Words): void {
    this.put(testColumns.code, 'siteFact', this.job.design.words(words), liveWords(words, this.from))
    this.next()
  }

  /** A cell that is filled in on site, with what stood in it. */
  written(code: string, key: string, column: number): Single {
    const value = this.job.takeoff.crew.cells[code]?.[key] ?? null
    this.put(column, 'siteEntry', value, key === 'done' || key === 'text' ? { format: 'text' } : {})
    return value
  }

  /** A formula over the cells of its row and the names of the job. */
  computed(text: string, here: ReadonlyMap<string, { value: Value; ref: string }>, role: 'number' | 'verdict', column: number, format?: number): Value {
    const { design, flavor } = this.job
    const value = workedOut(design, text, new Map([...here].map(([name, one]) => [name, one.value])))
    this.put(column, role, cellValue(value), { formula: rowFormula(flavor, text, (name) => here.get(name)?.ref ?? this.from(name)), format })
    return value
  }
}
