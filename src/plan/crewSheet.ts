/** The Crew sheet: the sequence with its figures and hold points, and the log of the vacuum test. What the crew writes has its own cells. */
import { vacuumLoss } from '../calc/tank/vacuumLoss.js'
import { formula } from '../formula/formula.js'
import type { Single, Value } from '../formula/value.js'
import { closingCaution } from '../takeoff/cautions.js'
import { crewSteps, LOG_ENTRIES, logLoss, logVerdict } from '../takeoff/crewSteps.js'
import { callFromFormula } from '../takeoff/call.js'
import type { CrewEntries, Takeoff } from '../takeoff/takeoff.js'
import { templateFormula, type Words } from '../takeoff/template.js'
import { decimalsOf, symbolOf } from '../units.js'
import { cellValue, rowFormula, type Flavor } from './calls.js'
import type { NamePlaces } from './places.js'
import { address, SheetDraft, type PlanValidation, type SheetPlan } from './plan.js'

/** Columns of the sheet; hosts read back what was written from them. */
export const crewColumns = { code: 2, text: 3, figure: 4, hold: 7, loss: 9, verdict: 10, done: 11 } as const
export const CREW_HEADING_ROW = 5
/** The last line: who decides, and where the rules behind the steps stand. */
export const CREW_CLOSING = `${closingCaution} The rules behind the steps stand with the cautions of the Design sheet.`
export const CREW_DONE = 'Done by, date, remarks'
const LOG_DONE = 'Tested by, date, remarks'
const SPARE_ROWS = 4
const STEP = 'Step'
const TANK = 'Tank'
const BY_HAND = 'WRITTEN BY HAND'
const DO_NOT_START = 'DO NOT START'
const LOG = 'LOG OF THE VACUUM TEST'
const columns = crewColumns
/** Readings of the log stand from the column of the figures on, in their order. */
const entryColumn = (at: number) => columns.figure + at

/** Where the crew writes beside a step (whether this job has it or not) or a tank of the log; nowhere beside another code. */
export function entryColumnsOf(code: string): readonly number[] | undefined {
  if (/^T\d+$/.test(code)) return [...LOG_ENTRIES.map((_, at) => entryColumn(at)), columns.done]
  return crewSteps.some((step) => step.code === code) ? [columns.done] : undefined
}

/** Rows that hold no entries: headings and stages. */
export const isCrewHeading = (code: string): boolean => [STEP, TANK, BY_HAND, LOG, DO_NOT_START].includes(code) || crewSteps.some(({ stage }) => stage.toUpperCase() === code)

/** Whether plain text beside a code is what our own sheet writes there, and not somebody's own. */
export function isOurWord(code: string, column: number, words: string): boolean {
  const step = crewSteps.find((known) => known.code === code)
  if (!step) return column === columns.text && Object.values(which).includes(words)
  return words === (column === columns.text ? step.text : column === columns.figure ? step.figure : column === columns.hold ? step.hold : undefined)
}

/** An entry in words: a reading with its name and unit, else what was written. */
export function entryWords(code: string, column: number, written: string): string {
  const name = /^T\d+$/.test(code) ? LOG_ENTRIES[column - columns.figure] : undefined
  return name ? `${logSpans[name][0].toLowerCase()} ${written} ${symbolOf(name)}` : written
}

const which = { only: 'the tank', first: 'pump tank, nearest the house', between: 'between', last: 'inlet tank, farthest from the house' }

const logSpans: Readonly<Record<(typeof LOG_ENTRIES)[number], readonly [label: string, least: number, most: number]>> = (() => {
  const { start_inHg, end_inHg, startTemp_F, endTemp_F } = vacuumLoss.takes
  return {
    start_inHg: ['Start', start_inHg.least!, start_inHg.most!],
    end_inHg: ['End', end_inHg.least!, end_inHg.most!],
    watched_min: ['Watched', 0, 1440],
    startTemp_F: ['Air, start', startTemp_F.least!, startTemp_F.most!],
    endTemp_F: ['Air, end', endTemp_F.least!, endTemp_F.most!],
  }
})()

export function crewSheet(takeoff: Takeoff, names: NamePlaces, sheet: string, heading: { title: string; made: string }, flavor: Flavor): SheetPlan {
  const { design, crew } = takeoff
  const draft = new SheetDraft()
  const validations: PlanValidation[] = []
  const used = new Set<string>()
  const live = (template: Words): { formula?: string } => {
    const text = templateFormula(template)
    return text === undefined ? {} : { formula: formula(text).render(names.from(sheet)) }
  }
  draft.heading(heading.title, 'Crew: sequence with hold points, and the log of the vacuum test', heading.made)
  draft.next()
  headings({ code: STEP, text: 'What', figure: 'Figure to check', hold: 'Hold for', done: CREW_DONE })
  barriers()
  let stage = ''
  for (const step of crewSteps) {
    if (!design.holds(step.when)) continue
    if (step.stage !== stage) section((stage = step.stage))
    draft.put(columns.code, 'faint', step.code, { format: 'text' })
    draft.put(columns.text, 'wrapped', design.words(step.text), live(step.text))
    if (step.figure) draft.put(columns.figure, 'text', design.words(step.figure), live(step.figure))
    if (step.hold) draft.put(columns.hold, 'verdict', step.hold)
    written(step.code, columns.done)
    draft.next()
  }
  log()
  addedLines()
  draft.next()
  draft.put(columns.text, 'wrapped', CREW_CLOSING)

  /** Every stop of the job stands before the first step: nothing is started until it is cleared. */
  function barriers(): void {
    const stops = design.verdicts().filter(({ verdict }) => verdict === 'stop')
    if (!stops.length) return
    section(DO_NOT_START)
    for (const { label, words, rule } of stops) {
      draft.put(columns.text, 'wrapped', `${label}: ${words}`, { formula: `"${label}: "&${formula(rule.wordsFormula).render(names.from(sheet))}` })
      draft.put(columns.hold, 'verdict', rule.touchesLife ? 'engineer or licensed person' : 'office')
      draft.next()
    }
  }

  function headings(texts: Partial<Record<keyof typeof crewColumns, string>>): void {
    for (let column = columns.code; column <= columns.done; column++) {
      const name = (Object.keys(columns) as (keyof typeof columns)[]).find((known) => columns[known] === column)
      draft.put(column, 'heading', (name && texts[name]) ?? null)
    }
    draft.next()
  }

  function section(text: string): void {
    for (let column = columns.code; column <= columns.done; column++) draft.put(column, 'section', column === columns.code ? text.toUpperCase() : null)
    draft.next()
  }

  /** A cell for the crew, with what it held before. */
  function written(code: string, column: number): Single {
    used.add(code)
    const value = crew.cells[code]?.[column] ?? null
    draft.put(column, 'entry', value, column === columns.done ? { format: 'text' } : {})
    return value
  }

  function log(): void {
    draft.next()
    section(LOG)
    headings({ code: TANK, text: 'Which', done: LOG_DONE })
    draft.row -= 1
    LOG_ENTRIES.forEach((name, at) => draft.put(entryColumn(at), 'headingRight', `${logSpans[name][0]}, ${symbolOf(name)}`))
    draft.put(columns.loss, 'headingRight', 'Loss, inHg')
    draft.put(columns.verdict, 'heading', 'Verdict')
    draft.next()
    const [first, tanks] = [draft.row, design.number('TankCount')]
    for (let tank = 1; tank <= tanks; tank++) {
      logRow(`T${tank}`, tanks === 1 ? which.only : tank === 1 ? which.first : tank === tanks ? which.last : which.between)
      draft.next()
    }
    LOG_ENTRIES.forEach((name, at) => {
      const [label, least, most] = logSpans[name]
      const message = `${label}: ${least} to ${most} ${symbolOf(name)}`
      validations.push({ firstRow: first, lastRow: draft.row - 1, column: entryColumn(at), span: [least, most], message })
    })
    const terms = 'Wanted: {TestVacuum_inHg} for {TestHold_min}, of which {TestLoss%} may be lost; warming air is allowed for where both temperatures are read.'
    draft.put(columns.text, 'faintWrapped', design.words(terms), live(terms))
    draft.next()
  }

  function logRow(code: string, which: string): void {
    draft.put(columns.code, 'text', code, { format: 'text' })
    draft.put(columns.text, 'wrapped', which)
    const here = new Map<string, { value: Value; ref: string }>()
    LOG_ENTRIES.forEach((name, at) => here.set(name, { value: written(code, entryColumn(at)), ref: address(draft.row, entryColumn(at), false) }))
    const computed = (text: string, role: 'number' | 'verdict', column: number, format?: number): void => {
      const value = formula(text).evaluate({ value: (name) => (here.has(name) ? here.get(name)!.value : design.value(name)), call: callFromFormula })
      const place = (name: string) => here.get(name)?.ref ?? names.from(sheet)(name)
      draft.put(column, role, cellValue(value), { formula: rowFormula(flavor, text, place), format })
      here.set('loss_inHg', { value, ref: address(draft.row, columns.loss, false) })
    }
    computed(logLoss, 'number', columns.loss, decimalsOf('loss_inHg'))
    computed(logVerdict, 'verdict', columns.verdict)
    written(code, columns.done)
  }

  /** Lines of the crew's own, and what it wrote beside steps and tanks that this job has no more. */
  function addedLines(): void {
    draft.next()
    section(BY_HAND)
    const orphans = Object.entries(crew.cells).filter(([code]) => !used.has(code))
    const lines = [...crew.added, ...orphans.map(([code, cells]) => ({ text: `${code}, written earlier`, done: wordsOf(code, cells) }))]
    for (const { text, done } of [...lines, ...Array.from({ length: SPARE_ROWS }, () => ({ text: null, done: null }))]) {
      draft.put(columns.text, 'entry', text, { format: 'text' })
      draft.put(columns.done, 'entry', done, { format: 'text' })
      draft.next()
    }
  }

  return {
    name: sheet,
    kind: 'crew',
    widths: [2, 6, 80, 10, 10, 11, 10, 10, 10, 9, 30],
    cells: draft.cells,
    frozenRows: CREW_HEADING_ROW,
    titleRows: [1, CREW_HEADING_ROW],
    landscape: true,
    footer: design.name,
    tables: [],
    validations,
  }
}

const wordsOf = (code: string, cells: CrewEntries[string]): string =>
  Object.entries(cells)
    .map(([column, value]) => entryWords(code, Number(column), String(value)))
    .join('; ')
