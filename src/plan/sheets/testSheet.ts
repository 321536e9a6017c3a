/** The Test record: the log of the vacuum test, a row a tank, and the readings of line, pump and switch; each judged where it stands. */
import { closingCaution } from '../../takeoff/cautions.js'
import { readingParts, readingRules } from '../../takeoff/readings.js'
import { againCodes, stopsOfRecord, tankCodes } from '../../takeoff/testRecord.js'
import { verdictWords } from '../../takeoff/verdicts.js'
import { address, range, type SheetPlan } from '../plan.js'
import { headed, isLong, sheetKind, type JobContext } from '../sheetKind.js'
import { logList, readingList, testColumns as columns, TestDraft } from './testDraft.js'
import { putLog, putPassedSince, type LogRows } from './testLog.js'
import { putLimits, putReadings } from './testReadings.js'

const SIGNATURES = ['Tested by', 'For the owner', 'Inspector'] as const
const STOPS_LINE = 'Lines that say stop, not passed since'

export const test = sheetKind({
  kind: 'test',
  place: 60,
  prefix: 'Test',
  lists: [logList, readingList],
  codes: ({ design, crew }) => [
    ...tankCodes(design),
    ...againCodes({ crew }),
    ...readingRules.filter(({ when }) => design.holds(when)).map(({ code }) => code),
    ...SIGNATURES.map((who) => `S ${who}`),
  ],
  isOurLine: (words) =>
    readingParts.some((part) => part.toUpperCase() === words) ||
    /^(?:LOG OF THE VACUUM TEST|LINE, PUMP, SWITCH AND FIRST FILL|SIGNED|Lines above that say stop)$/.test(words) ||
    words.startsWith(STOPS_LINE),
  plan: testSheet,
})

/** Name by which the handover finds how many lines of the record say stop. */
export const TEST_STOPS = 'test stops'

function testSheet(job: JobContext, sheet: string): SheetPlan {
  const { takeoff, design, heading } = job
  const draft = new TestDraft(job, sheet)
  headed(draft, job, sheet, 'Test record: vacuum test of every tank, readings at line and first fill')
  draft.letterhead(columns.done, takeoff.house.head)
  draft.next()
  if (isLong(heading)) {
    draft.put(columns.code, 'siteFact', `Site: ${String(design.single('Site'))}.`)
    draft.next()
  }
  const log = putLog(draft)
  putPassedSince(draft, log)
  // Here, as the page of the log has room for them and that of the readings has not.
  putLimits(draft)
  const first = draft.row
  putReadings(draft)
  putSignatures(draft, log, { first, last: draft.row - 1 })
  draft.put(columns.code, 'faint', closingCaution)
  return draft.sheet(sheet, {
    kind: 'test',
    widths: [1, 8.5, 34.5, 10, 9, 10, 10, 10.5, 10, 8.5, 25, 12],
    print: { lastColumn: columns.done },
    headingRow: 3,
    landscape: true,
    footer: design.name,
    validations: draft.validations,
  })
}

/** A record that nobody has filled in says so above the names of those who sign it. */
function putSignatures(draft: TestDraft, log: LogRows, readings: { first: number; last: number }): void {
  draft.bar('Signed')
  const verdicts = draft.cells.filter(({ row, column, role }) => role === 'verdict' && column === columns.verdict && row >= log.first && row <= readings.last)
  const read = verdicts.filter(({ value }) => value !== '' && value !== null).length
  const over = ({ first, last }: { first: number; last: number }, column: number = columns.verdict) => range(first, last, column)
  const readIn = (rows: { first: number; last: number }) => `SUMPRODUCT(${verdictWords.map((word) => `(${over(rows)}="${word}")`).join('+')})`
  draft.put(columns.text, 'site', `${STOPS_LINE}; lines read so far: ${read}`, { formula: `"${STOPS_LINE}; lines read so far: "&${readIn(log)}+${readIn(readings)}` })
  draft.put(columns.verdict, 'verdict', stopsOfRecord(draft.job.takeoff).length, {
    formula: `SUMPRODUCT((${over(log)}="stop")*(${over(log, columns.passed)}=0))+SUMPRODUCT((${over(readings)}="stop")*1)`,
    format: 0,
  })
  draft.job.names.set(TEST_STOPS, draft.sheetName, address(draft.row, columns.verdict))
  draft.next()
  for (const who of SIGNATURES) {
    draft.put(columns.text, 'site', `${who}, date`)
    draft.written(`S ${who}`, 'done', columns.done)
    draft.next()
  }
  draft.next()
}
