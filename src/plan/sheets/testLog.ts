/** The log of the vacuum test on the test record: a row a tank, and lines for tests that are done again. */
import { formula } from '../../formula/formula.js'
import type { Value } from '../../formula/value.js'
import type { Words } from '../../takeoff/template.js'
import { againCodes, tankCodes, testsOf } from '../../takeoff/testRecord.js'
import { LOG_ENTRIES, logLoss, logSound, logVerdict } from '../../takeoff/vacuumLog.js'
import { decimalsOf, symbolOf } from '../../units.js'
import { address } from '../plan.js'
import { logHeading, logHeadings, logSpans, tankWords, testColumns as columns, type TestDraft } from './testDraft.js'

/** Rows of the log, and of its tests in their order; those done again after those of the tanks. */
export interface LogRows {
  first: number
  last: number
  tests: readonly number[]
  /** The first of those done again. */
  again: number
}
/** So many tanks stand on the first page with their headings; the rest begins the next one with headings of its own. */
const ON_FIRST_PAGE = 9

const terms: readonly Words[] = [
  [
    [
      'ROUND(TestVacuum_inHg,2)>ROUND(VacuumAllowed_inHg,2)',
      'DO NOT TEST at the {TestVacuum_inHg} of this job: the tank is allowed {VacuumAllowed_inHg}, and its lid breaks inward. The office puts it right first.',
    ],
    ['', 'Wanted: {TestVacuum_inHg} for {TestHold_min}, never over the {VacuumAllowed_inHg} that the tank is allowed; of it {TestLoss%} may be lost.'],
  ],
  'Warming air is allowed for where both temperatures are read. Air of the site: {Barometer_inHg}.',
  'A test done again goes into a line R: its tank first, as T1, then what was mended.',
  'Passed there, the tank counts as passed, unless it was drawn too far down.',
]
const MODELS: Words = 'Tanks by model: {Models}, those named last at the far end, where the roof water enters.'

export function putLog(draft: TestDraft): LogRows {
  const { takeoff, design } = draft.job
  draft.bar('Log of the vacuum test')
  for (const words of terms) draft.fact(words)
  if (design.number('SecondTanks') > 0) draft.fact(MODELS)
  putHeadings(draft)
  const first = draft.row
  const tests: number[] = []
  const tanks = tankCodes(design)
  tanks.forEach((code, at) => {
    const place = tanks.length === 1 ? 'only' : at === 0 ? 'first' : at === tanks.length - 1 ? 'last' : 'between'
    if (at === ON_FIRST_PAGE) putHeadings(draft)
    tests.push(draft.row)
    putTest(draft, code, tankWords[place])
  })
  const again = draft.row
  for (const code of againCodes(takeoff)) {
    tests.push(draft.row)
    putTest(draft, code)
  }
  const last = draft.row - 1
  LOG_ENTRIES.forEach((name, at) => {
    const [label, least, most] = logSpans[name]
    draft.validations.push({ firstRow: first, lastRow: last, column: columns.entries + at, span: [least, most], message: `${label}: ${least} to ${most} ${symbolOf(name)}` })
  })
  draft.next()
  return { first, last, tests, again }
}

function putHeadings(draft: TestDraft): void {
  for (const key of ['code', 'text', 'loss', 'verdict', 'done'] as const) draft.put(columns[key], 'heading', logHeadings[key === 'loss' ? 'loss_inHg' : key]!)
  LOG_ENTRIES.forEach((name, at) => draft.put(columns.entries + at, 'headingRight', logHeading(name)))
  draft.next()
}

/** Of a test done again the tank is written in. */
function putTest(draft: TestDraft, code: string, place?: string): void {
  const at = (column: number) => address(draft.row, column, false)
  draft.put(columns.code, 'siteCode', code, { format: 'text' })
  const which = place === undefined ? draft.written(code, 'text', columns.text) : place
  if (place !== undefined) draft.put(columns.text, 'site', place)
  const here = new Map<string, { value: Value; ref: string }>([['which', { value: which, ref: at(columns.text) }]])
  LOG_ENTRIES.forEach((name, index) => {
    const column = columns.entries + index
    here.set(name, { value: draft.written(code, name, column), ref: at(column) })
  })
  const loss = draft.computed(logLoss, here, 'number', columns.loss, decimalsOf('loss_inHg'))
  here.set('loss_inHg', { value: loss, ref: at(columns.loss) })
  draft.computed(logVerdict, here, 'verdict', columns.verdict)
  draft.written(code, 'done', columns.done)
  draft.next()
}

const PASSED_SINCE = 'Passed since'
const firstWordIn = (place: string): string => `LEFT(${place},FIND(" ",SUBSTITUTE(SUBSTITUTE(${place},","," "),":"," ")&" ")-1)`

/** Beside each test, behind what is printed: 1 where a later test of its tank has passed. A tank drawn too far down is passed by none. */
export function putPassedSince(draft: TestDraft, { first, last, tests, again }: LogRows): void {
  const at = (row: number, column: number) => address(row, column, false)
  draft.put(columns.passed, 'headingRight', PASSED_SINCE, { row: first - 1 })
  testsOf(draft.job.takeoff).forEach(({ code, hasPassedSince }, index) => {
    const row = tests[index]!
    const later = Math.max(row + 1, again)
    const over = (column: number) => `${at(later, column)}:${at(last, column)}`
    const passes = () => {
      const entry = (name: string) => LOG_ENTRIES.findIndex((known) => known === name)
      const isSound = formula(logSound).render((name) => (entry(name) < 0 ? draft.from(name) : at(row, columns.entries + entry(name))))
      const tank = row < again ? `"${code}"` : firstWordIn(at(row, columns.text))
      return `(${isSound})*(SUMPRODUCT((${over(columns.verdict)}="pass")*(${firstWordIn(over(columns.text))}=${tank}))>0)`
    }
    draft.put(columns.passed, 'number', hasPassedSince ? 1 : 0, { row, format: 0, formula: later <= last ? passes() : '0' })
  })
}
