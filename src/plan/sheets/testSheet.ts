/** The Test record: the log of the vacuum test, a row a tank, and the readings of line, pump and switch; each judged where it stands. */
import { vacuumLoss } from '../../calc/tank/vacuumLoss.js'
import { formula } from '../../formula/formula.js'
import type { Single, Value } from '../../formula/value.js'
import type { Design } from '../../takeoff/design.js'
import { callFromFormula } from '../../takeoff/call.js'
import { closingCaution } from '../../takeoff/cautions.js'
import { LOG_ENTRIES, logLoss, logVerdict, OVERDRAWN_INHG } from '../../takeoff/crewSteps.js'
import { roundTo } from '../../rounding.js'
import { readingRules } from '../../takeoff/readings.js'
import { bibliography, citationText, isPlainSource, type Citation } from '../../sources.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import type { Words } from '../../takeoff/template.js'
import { decimalsOf, symbolOf } from '../../units.js'
import { cellValue, rowFormula } from '../calls.js'
import { address, range, SheetDraft, type PlanValidation, type SheetPlan } from '../plan.js'
import { headed, isLong, sheetKind, type EntryList, type JobContext } from '../sheetKind.js'
import { liveWords } from '../words.js'
import { verdictWords } from '../../takeoff/verdicts.js'

export const testColumns = { code: 2, text: 3, entries: 4, loss: 9, verdict: 10, done: 11, passed: 12 } as const
const columns = testColumns
/** Headings of the two lists, by what is kept from their columns. */
const logHeadings: Readonly<Record<string, string>> = { code: 'Tank', text: 'Which', loss_inHg: 'Loss, inHg', verdict: 'Verdict', done: 'Tested by, date, remarks' }
const readingHeadings: Readonly<Record<string, string>> = {
  code: 'Reading',
  text: 'What',
  wanted: 'Wanted',
  reading: 'Read',
  verdict: 'Verdict',
  done: 'Read by, date, remarks',
}
const readingColumns = { code: 2, text: 3, wanted: 4, reading: 8, unit: 9, verdict: 10, done: 11 } as const

const logSpans: Readonly<Record<(typeof LOG_ENTRIES)[number], readonly [label: string, least: number, most: number]>> = (() => {
  const { start_inHg, end_inHg, startTemp_F, endTemp_F } = vacuumLoss.takes
  return {
    start_inHg: ['Start', start_inHg.least, start_inHg.most],
    end_inHg: ['End', end_inHg.least, end_inHg.most],
    watched_min: ['Watched', 0, 1440],
    startTemp_F: ['Air, start', startTemp_F.least, startTemp_F.most],
    endTemp_F: ['Air, end', endTemp_F.least, endTemp_F.most],
  }
})()
const logHeading = (name: (typeof LOG_ENTRIES)[number]): string => `${logSpans[name][0]}, ${symbolOf(name)}`
/** An entry in words: a reading of the log with its name and unit, else what was written. */
export const entryWords = (key: string, written: string): string => {
  const name = LOG_ENTRIES.find((known) => known === key)
  return name ? `${logSpans[name][0].toLowerCase()} ${written} ${symbolOf(name)}` : written
}
const tankWords = { only: 'the tank', first: 'pump tank, nearest the house', between: 'between', last: 'inlet tank, farthest from the house' }
/** Where a limit is from, short enough for one line of the page. */
const sourceWords = (source: Citation): string => (isPlainSource(source.work) ? citationText(source) : `${bibliography[source.work].title}, ${source.locator} (${source.grade})`)
const isTankCode = (code: string): boolean => /^T\d+$/.test(code)
/** A test done again: which tank, and what was mended, is written in. */
const isAgainCode = (code: string): boolean => /^R[1-9]\d?$/.test(code)
const MOST_AGAIN = 99
const SPARE_AGAIN = 2
/** Lines that somebody wrote in, and two more. */
const againCodes = ({ crew }: Pick<Takeoff, 'crew'>): string[] => {
  const written = Object.keys(crew.cells).filter(isAgainCode)
  const spare = Array.from({ length: MOST_AGAIN }, (_, at) => `R${at + 1}`).filter((code) => !written.includes(code))
  return [...written, ...spare.slice(0, SPARE_AGAIN)].sort((one, other) => Number(one.slice(1)) - Number(other.slice(1)))
}
const SIGNATURES = ['Tested by', 'For the owner', 'Inspector'] as const

const log: EntryList = {
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
const readings: EntryList = {
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

export const test = sheetKind({
  kind: 'test',
  place: 60,
  prefix: 'Test',
  lists: [log, readings],
  codes: ({ design, crew }) => [
    ...Array.from({ length: design.number('TankCount') }, (_, at) => `T${at + 1}`),
    ...againCodes({ crew }),
    ...readingRules.filter(({ when }) => design.holds(when)).map(({ code }) => code),
    ...SIGNATURES.map((who) => `S ${who}`),
  ],
  isOurLine: (words) => /^(?:LOG OF THE VACUUM TEST|LINE, PUMP, SWITCH AND FIRST FILL|SIGNED|Lines above that say stop)$/.test(words) || words.startsWith(STOPS_LINE),
  plan: testSheet,
})

/** Name by which the handover finds how many lines of the record say stop. */
export const TEST_STOPS = 'test stops'

const PASSED_SINCE = 'Passed since'
const STOPS_LINE = 'Lines that say stop, not passed since'
/** The tank of a line: the first word of what was written on one that is done again. */
const firstWord = (words: string): string => words.split(/[ ,:]/)[0]!.toUpperCase()
const firstWordIn = (place: string): string => `LEFT(${place},FIND(" ",SUBSTITUTE(SUBSTITUTE(${place},","," "),":"," ")&" ")-1)`
/** The tests of the log in their order: what each says, and whether a later one of its tank has passed. */
function testsOf({ design, crew }: Takeoff): { code: string; verdict: Value; hasPassedSince: boolean }[] {
  const tanks = Array.from({ length: design.number('TankCount') }, (_, at) => `T${at + 1}`)
  const tests = [...tanks, ...againCodes({ crew })].map((code) => {
    const entries = crew.cells[code] ?? {}
    // The tank is named beside its test, and written in beside one that is done again.
    const which = isTankCode(code) ? code : (entries.text ?? '')
    const here = new Map<string, Value>([['which', which], ...LOG_ENTRIES.map((name) => [name, entries[name] ?? null] as const)])
    here.set('loss_inHg', worked(design, logLoss, here))
    const drawn_inHg = Math.max(Number(entries.start_inHg ?? 0), Number(entries.end_inHg ?? 0))
    return {
      code,
      tank: firstWord(String(which)),
      verdict: worked(design, logVerdict, here),
      isSound: roundTo(drawn_inHg, 2) <= roundTo(design.number('VacuumAllowed_inHg'), 2) + OVERDRAWN_INHG,
    }
  })
  return tests.map(({ code, tank, verdict, isSound }, at) => ({
    code,
    verdict,
    hasPassedSince: isSound && tests.slice(at + 1).some((later) => later.verdict === 'pass' && later.tank === tank),
  }))
}
/** Lines of the record whose readings say stop, those left out whose tank has passed a later test. */
export function stopsOfRecord(takeoff: Takeoff): string[] {
  const { design, crew } = takeoff
  const open = testsOf(takeoff).filter(({ verdict, hasPassedSince }) => verdict === 'stop' && !hasPassedSince)
  const lines = readingRules.filter(
    ({ when, verdict, code }) => verdict && design.holds(when) && worked(design, verdict, new Map([['reading', crew.cells[code]?.reading ?? null]])) === 'stop',
  )
  return [...open, ...lines].map(({ code }) => code)
}
/** A formula over cells of its row and names of the job, worked out now. */
const worked = (design: Design, text: string, here: ReadonlyMap<string, Value>): Value =>
  formula(text).evaluate({ value: (name) => (here.has(name) ? here.get(name)! : design.value(name)), call: callFromFormula })

function testSheet({ takeoff, design, names, heading, flavor }: JobContext, sheet: string): SheetPlan {
  const { crew } = takeoff
  const draft = new SheetDraft()
  const validations: PlanValidation[] = []
  const live = (words: Words) => liveWords(words, names.from(sheet))
  headed(draft, { heading, names }, sheet, 'Test record: vacuum test of every tank, line, pump and switch')
  draft.letterhead(columns.done, takeoff.house.head)
  draft.next()
  if (isLong(heading)) {
    draft.put(columns.code, 'siteFact', `Site: ${String(design.single('Site'))}.`)
    draft.next()
  }
  /** Tests of the log, by their row, and the tank that each is of. */
  const tests: { row: number; tank: string | undefined }[] = []
  logOfTanks()
  passedSince()
  // Here, as the page of the log has room for them and that of the readings has not.
  limits()
  const firstReading = draft.row
  readingsOfLine()
  signatures()

  function section(text: string): void {
    draft.section(columns.done, text.toUpperCase())
  }

  function written(code: string, key: string, column: number): Single {
    const value = crew.cells[code]?.[key] ?? null
    draft.put(column, 'siteEntry', value, key === 'done' || key === 'text' ? { format: 'text' } : {})
    return value
  }

  function logOfTanks(): void {
    section('Log of the vacuum test')
    for (const terms of [
      [
        [
          'ROUND(TestVacuum_inHg,2)>ROUND(VacuumAllowed_inHg,2)',
          'DO NOT TEST at the {TestVacuum_inHg} of this job: the tank is allowed {VacuumAllowed_inHg}, and its lid breaks inward. The office puts it right first.',
        ],
        ['', 'Wanted: {TestVacuum_inHg} for {TestHold_min}, never over the {VacuumAllowed_inHg} that the tank is allowed; of it {TestLoss%} may be lost.'],
      ],
      'Warming air is allowed for where both temperatures are read. Air of the site: {Barometer_inHg}.',
    ] as const) {
      draft.put(columns.code, 'siteFact', design.words(terms), live(terms))
      draft.next()
    }
    draft.put(columns.code, 'siteFact', 'A test done again goes into a line R: its tank first, as T1, then what was mended.')
    draft.next()
    draft.put(columns.code, 'siteFact', 'Passed there, the tank counts as passed, unless it was drawn too far down.')
    draft.next()
    if (design.number('SecondTanks') > 0) {
      const models = 'Tanks by model: {Models}, those named last at the far end, where the roof water enters.'
      draft.put(columns.code, 'siteFact', design.words(models), live(models))
      draft.next()
    }
    for (const [key, column] of [
      ['code', columns.code],
      ['text', columns.text],
      ['loss_inHg', columns.loss],
      ['verdict', columns.verdict],
      ['done', columns.done],
    ] as const)
      draft.put(column, 'heading', logHeadings[key]!)
    LOG_ENTRIES.forEach((name, at) => draft.put(columns.entries + at, 'headingRight', logHeading(name)))
    draft.next()
    const [first, tanks] = [draft.row, design.number('TankCount')]
    for (let tank = 1; tank <= tanks; tank++) {
      logRow(`T${tank}`, tanks === 1 ? tankWords.only : tank === 1 ? tankWords.first : tank === tanks ? tankWords.last : tankWords.between)
      draft.next()
    }
    for (const code of againCodes(takeoff)) {
      logRow(code)
      draft.next()
    }
    LOG_ENTRIES.forEach((name, at) => {
      const [label, least, most] = logSpans[name]
      validations.push({ firstRow: first, lastRow: draft.row - 1, column: columns.entries + at, span: [least, most], message: `${label}: ${least} to ${most} ${symbolOf(name)}` })
    })
    draft.next()
  }

  /** Of a test done again the tank is written in. */
  function logRow(code: string, which?: string): void {
    draft.put(columns.code, 'siteCode', code, { format: 'text' })
    tests.push({ row: draft.row, tank: which === undefined ? undefined : code })
    const tank = which === undefined ? written(code, 'text', columns.text) : which
    if (which !== undefined) draft.put(columns.text, 'site', which)
    const here = new Map<string, { value: Value; ref: string }>([['which', { value: tank, ref: address(draft.row, columns.text, false) }]])
    LOG_ENTRIES.forEach((name, at) => here.set(name, { value: written(code, name, columns.entries + at), ref: address(draft.row, columns.entries + at, false) }))
    const value = computed(logLoss, here, 'number', columns.loss, decimalsOf('loss_inHg'))
    here.set('loss_inHg', { value, ref: address(draft.row, columns.loss, false) })
    computed(logVerdict, here, 'verdict', columns.verdict)
    written(code, 'done', columns.done)
  }

  /** A formula over the cells of its row and the names of the job. */
  function computed(text: string, here: ReadonlyMap<string, { value: Value; ref: string }>, role: 'number' | 'verdict', column: number, format?: number): Value {
    const value = worked(design, text, new Map([...here].map(([name, one]) => [name, one.value])))
    const place = (name: string) => here.get(name)?.ref ?? names.from(sheet)(name)
    draft.put(column, role, cellValue(value), { formula: rowFormula(flavor, text, place), format })
    return value
  }

  function readingsOfLine(): void {
    section('Line, pump, switch and first fill')
    for (const [key, column] of Object.entries(readingColumns)) if (readingHeadings[key]) draft.put(column, 'heading', readingHeadings[key]!)
    draft.next()
    for (const rule of readingRules) {
      if (!design.holds(rule.when)) continue
      draft.put(readingColumns.code, 'siteCode', rule.code, { format: 'text' })
      draft.put(readingColumns.text, 'site', rule.label)
      draft.put(readingColumns.wanted, 'text', rule.wanted ? design.words(rule.wanted) : null, rule.wanted ? live(rule.wanted) : {})
      const value = written(rule.code, 'reading', readingColumns.reading)
      draft.put(readingColumns.unit, 'unit', rule.unit || null)
      if (rule.verdict) computed(rule.verdict, new Map([['reading', { value, ref: address(draft.row, readingColumns.reading, false) }]]), 'verdict', readingColumns.verdict)
      if (rule.span)
        validations.push({
          firstRow: draft.row,
          lastRow: draft.row,
          column: readingColumns.reading,
          span: rule.span,
          message: `${rule.label}: ${rule.span[0]} to ${rule.span[1]} ${rule.unit}`,
        })
      written(rule.code, 'done', readingColumns.done)
      draft.next()
    }
    draft.next()
  }

  function signatures(): void {
    section('Signed')
    const stops = stopsOfRecord(takeoff).length
    const ofTests = (column: number) => range(tests[0]!.row, tests.at(-1)!.row, column)
    // A record that nobody has filled in says so above the names of those who sign it.
    const [first, last] = [tests[0]!.row, draft.row - 2]
    const read = draft.cells.filter(
      ({ row, column, role, value }) => role === 'verdict' && column === columns.verdict && row >= first && row <= last && value !== '' && value !== null,
    ).length
    const words = `"${STOPS_LINE}; lines read so far: "`
    const readIn = (from: number, to: number) => `SUMPRODUCT(${verdictWords.map((word) => `(${range(from, to, columns.verdict)}="${word}")`).join('+')})`
    draft.put(columns.text, 'site', `${STOPS_LINE}; lines read so far: ${read}`, { formula: `${words}&${readIn(first, tests.at(-1)!.row)}+${readIn(firstReading, last)}` })
    draft.put(columns.verdict, 'verdict', stops, {
      formula: `SUMPRODUCT((${ofTests(columns.verdict)}="stop")*(${ofTests(columns.passed)}=0))+SUMPRODUCT((${range(firstReading, draft.row - 2, columns.verdict)}="stop")*1)`,
      format: 0,
    })
    names.set(TEST_STOPS, sheet, address(draft.row, columns.verdict))
    draft.next()
    for (const who of SIGNATURES) {
      draft.put(columns.text, 'site', `${who}, date`)
      written(`S ${who}`, 'done', columns.done)
      draft.next()
    }
    draft.next()
    draft.put(columns.code, 'faint', closingCaution)
  }

  /** Beside each test, behind what is printed: 1 where a later test of its tank has passed. A tank drawn too far down is passed by none. */
  function passedSince(): void {
    const at = (row: number, column: number) => address(row, column, false)
    draft.put(columns.passed, 'headingRight', PASSED_SINCE, { row: tests[0]!.row - 1 })
    const again = tests.filter(({ tank }) => tank === undefined).map(({ row }) => row)
    testsOf(takeoff).forEach(({ hasPassedSince }, index) => {
      const { row, tank } = tests[index]!
      const later = again.filter((one) => one > row)
      const over = (column: number) => `${at(later[0]!, column)}:${at(later.at(-1)!, column)}`
      const isSound = `(ROUND(MAX(${at(row, columns.entries)}:${at(row, columns.entries + 1)}),2)<=ROUND(${names.from(sheet)('VacuumAllowed_inHg')},2)+${OVERDRAWN_INHG})`
      const formula = () => {
        const same = `${firstWordIn(over(columns.text))}=${tank === undefined ? firstWordIn(at(row, columns.text)) : `"${tank}"`}`
        return `${isSound}*(SUMPRODUCT((${over(columns.verdict)}="pass")*(${same}))>0)`
      }
      draft.put(columns.passed, 'number', hasPassedSince ? 1 : 0, { row, format: 0, formula: later.length ? formula() : '0' })
    })
  }

  /** What the readings are held to, and how far it may be trusted. */
  function limits(): void {
    const asked = readingRules.filter(({ when }) => design.holds(when))
    for (const words of new Set(asked.flatMap(({ sources }) => sources.map(sourceWords)))) {
      const codes = asked.filter(({ sources }) => sources.some((source) => sourceWords(source) === words)).map(({ code }) => code)
      draft.put(readingColumns.code, 'faint', `${codes.join(', ')}: ${words}`)
      draft.next()
    }
    draft.next()
  }

  return draft.sheet(sheet, {
    kind: 'test',
    widths: [1, 8.5, 34.5, 10, 9, 10, 10, 10, 9, 8, 27, 12],
    print: { lastColumn: columns.done },
    headingRow: 3,
    landscape: true,
    footer: design.name,
    validations,
  })
}
