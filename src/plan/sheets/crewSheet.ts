/** The Crew sheet, for the people in the pit: facts, every stop as a barrier, the sequence with hazards where they act, boxes and hold points. */
import { formula } from '../../formula/formula.js'
import type { Single } from '../../formula/value.js'
import { cautionRules, closingCaution } from '../../takeoff/cautions.js'
import { crewSteps, stepsOf } from '../../takeoff/crewSteps.js'
import type { RaisedVerdict } from '../../takeoff/design.js'
import type { CrewEntries } from '../../takeoff/typed.js'
import {
  SPANISH_NOTE,
  SPANISH_LEFT_OUT,
  SPANISH_STILL,
  spanishCautions,
  spanishClosing,
  spanishAnswered,
  spanishDoNotStart,
  spanishFacts,
  spanishHolds,
  spanishStages,
  spanishSteps,
  spanishStop,
  spanishStops,
} from '../../takeoff/spanish.js'
import { olderSpanish, olderSteps } from '../../takeoff/older/crewWords.js'
import { casesOf, type Words } from '../../takeoff/template.js'
import { planPicture } from '../drawing/planPicture.js'
import { sectionPicture } from '../drawing/sectionPicture.js'
import { SheetDraft, type SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { leftOutWords, liveWords, measureOf, SET_BY_OTHERS } from '../words.js'
import { answerTo, openStops, stopsOf } from '../stopAnswers.js'
import { entryWords } from './testDraft.js'

const inWords = (cells: CrewEntries[string]): string =>
  Object.entries(cells)
    .map(([key, value]) => entryWords(key, String(value)))
    .join('; ')

/** Columns of the sheet. What was written is read back by the words of the headings, wherever they stand. */
export const crewColumns = { box: 2, code: 3, text: 4, figure: 5, hold: 6, done: 7 } as const
const columns = crewColumns
/** The heading of a column, by what is kept from it. */
export const crewHeadings = { code: 'Step', text: 'What', figure: 'Figure to check', hold: 'Hold for', done: 'Done by, date, remarks' } as const
/** The last line: who decides, and where the rules behind the steps stand. */
const CREW_CLOSING = `${closingCaution} The rules behind the steps stand with the cautions of the Design sheet.`
export const BOX = '☐'
const SPARE_ROWS = 4
export const BY_HAND = 'WRITTEN BY HAND'
export const DO_NOT_START = 'DO NOT START'
/** At the head, for who reads no further than the drawing. */
const DO_NOT_START_YET = 'DO NOT START before the office says so: what stands in the way is listed under the drawing.'
const ANSWERED = 'ANSWERED FOR: WORK AS THE ANSWER SAYS'
export const CUT_LIST = 'CUT LIST'
/** How a line of the cut list begins: no line of the crew’s own that says "from" is taken for one. */
const cutFrom = (stock: string, stick_ft: number): string => `From ${stock}, ${stick_ft} ft: `
const CUT_LINE = /^From .+, [\d.]+ ft: \d+ sticks?[,:] /
const SPANISH_CUT_LIST = 'Lista de cortes'
/** Within a sentence: a word begins small, an abbreviation stays as it is. */
const inSentence = (short: string): string => short.charAt(0).toLowerCase() + short.slice(1)
/** Before hazards that were said in full at an earlier stage. */
const STILL = 'Still: '

export const facts: readonly (readonly [label: string, words: Words])[] = [
  ['PIT', 'bottom {PitLength_ft} x {PitWidth_ft}, top {PitTopLength_ft} x {PitTopWidth_ft}, {PitDepth_ft} deep, walls as class {PitSoil}, trench to {DeepestTrench_ft}'],
  [
    'TANKS',
    [
      ['TankCount=1', '{TankCount|tank|tanks}, {Models}, {HeaviestTank_lb}; {CraneWords}, radius {PickRadius_ft}'],
      ['', '{TankCount|tank|tanks}, {Models}, up to {HeaviestTank_lb}, {TankGap_in} apart; {CraneWords}, radius {PickRadius_ft}'],
    ],
  ],
  [
    'WATER',
    [
      ['PitWater="not known"', 'groundwater not known; an empty tank floats in {FloatDepth_ft} of water round it'],
      ['', 'groundwater at {GroundwaterDepth_ft}; an empty tank floats in {FloatDepth_ft} of water round it'],
    ],
  ],
  [
    'HEIGHTS',
    [
      ['TankCount=1', 'below ground: lid {LidTop_ft:2}, ports {PortInvert_ft:2}, line {LineCentre_ft:2}, bed {BedTop_ft:2}, pit {PitBottom_ft:2}'],
      ['', 'below ground: lids {LidTop_ft:2}, ports {PortInvert_ft:2}, line {LineCentre_ft:2}, ties {TieCentre_ft:2}, bed {BedTop_ft:2}, pit {PitBottom_ft:2}'],
    ],
  ],
  ['RESCUE', 'address, nearest hospital, rescue: ______________________   call before digging: 811'],
]

/** Letters that a line beside a label holds. */
const LONGEST_FACT = 90
/** Words in lines that are not cut. */
const inLines = (words: string): string[] => words.match(new RegExp(`\\S.{0,${LONGEST_FACT - 1}}(?=\\s|$)|\\S{1,${LONGEST_FACT}}`, 'g')) ?? []

/** Rows that hold no entries: headings and stages. */
export const isCrewHeading = (code: string): boolean =>
  [crewHeadings.code, BY_HAND, DO_NOT_START, ANSWERED, CUT_LIST].includes(code as never) || crewSteps.some(({ stage }) => stage.toUpperCase() === code)

/** Whether plain text beside a step is what our own sheet writes there, and not somebody's own. */
function isOurStepWord(code: string, key: string, words: string): boolean {
  const step = crewSteps.find((known) => known.code === code)
  if (words === BOX) return true
  if (!step) return false
  const ours = key === 'text' ? [...casesOf(step.text), ...(olderSteps[code] ?? [])] : key === 'figure' ? casesOf(step.figure) : key === 'hold' ? [step.hold] : []
  return ours.includes(words)
}

/** Hazards stand between the steps, in full or in a few words. */
const plainWords = (words: Words): readonly string[] => (typeof words === 'string' ? [words] : [])
const hazardWords = new Set<string>([
  'engineer or licensed person',
  'as answered',
  DO_NOT_START_YET,
  spanishDoNotStart.atHead,
  spanishDoNotStart.words,
  spanishDoNotStart.heading.toUpperCase(),
  spanishAnswered.toUpperCase(),
  'office',
  closingCaution,
  SPANISH_NOTE,
  SPANISH_CUT_LIST.toUpperCase(),
  spanishClosing,
  ...cautionRules.flatMap(({ short, text: words }) => [short, ...plainWords(words)]),
  ...Object.values(spanishStages).map((stage) => stage.toUpperCase()),
  ...Object.values(spanishHolds),
  ...Object.values(spanishSteps).flatMap(plainWords),
  ...olderSpanish,
  ...Object.keys(spanishStops).map(spanishStop),
  ...Object.values(spanishCautions).flatMap(([short, words]) => [short, ...plainWords(words)]),
])

export const crew = sheetKind({
  kind: 'crew',
  place: 50,
  prefix: 'Crew',
  lists: [{ headings: crewHeadings, entries: ['done', 'box'], isCode: (code) => crewSteps.some((step) => step.code === code), isOurWord: isOurStepWord }],
  codes: ({ design, without }) => stepsOf(design, without).map(({ code }) => code),
  isOurLine: (words) =>
    isCrewHeading(words) ||
    words === CREW_CLOSING ||
    words.startsWith(STILL) ||
    words.startsWith(SPANISH_STILL) ||
    words.startsWith(SET_BY_OTHERS) ||
    words.startsWith(SPANISH_LEFT_OUT) ||
    CUT_LINE.test(words) ||
    hazardWords.has(words),
  plan: crewSheet,
})

function crewSheet({ takeoff, design, names, heading, entryCodes, cuts }: JobContext, sheet: string): SheetPlan {
  const { crew } = takeoff
  const draft = new SheetDraft()
  const live = (words: Words) => liveWords(words, names.from(sheet))
  const isSpanish = design.single('CrewLanguage') !== 'English'
  headed(draft, { heading, names }, sheet, 'Crew: sequence with hold points')
  draft.next()
  if (isSpanish) {
    draft.put(columns.text, 'siteOther', SPANISH_NOTE)
    draft.next()
  }
  if (openStops(takeoff)) {
    draft.put(columns.text, 'hazard', DO_NOT_START_YET)
    draft.next()
    if (isSpanish) {
      draft.put(columns.text, 'hazard', spanishDoNotStart.atHead)
      draft.next()
    }
  }
  // The title may be cut: whoever calls for help reads the whole of it here.
  for (const [at, line] of inLines(String(design.single('Site') ?? '')).entries()) {
    if (at === 0) draft.put(columns.box, 'siteLabel', 'SITE')
    draft.put(columns.text, 'siteFact', line, { format: 'text' })
    draft.next()
  }
  for (const [label, words] of facts) {
    draft.put(columns.box, 'siteLabel', label)
    draft.put(columns.text, 'siteFact', design.words(words), live(words))
    draft.next()
    if (!isSpanish) continue
    const [other, otherWords] = spanishFacts[label]!
    draft.put(columns.box, 'siteLabel', other)
    draft.put(columns.text, 'siteOther', design.words(otherWords), live(otherWords))
    draft.next()
  }
  if (takeoff.without.length) {
    const out = leftOutWords(takeoff)
    draft.put(columns.text, 'site', `${SET_BY_OTHERS}${out}. Where a step names one, see that it is there before the box is ticked.`)
    draft.next()
    if (isSpanish) {
      draft.put(columns.text, 'siteOther', `${SPANISH_LEFT_OUT}${out}. Donde un paso lo nombre, vea que esté antes de marcar la casilla.`)
      draft.next()
    }
  }
  draft.next()
  const measure = measureOf(design)
  draft.draw(
    [columns.box, sectionPicture(design, measure), { size: 10.5, width: 285, mostHeight: 110 }],
    [columns.figure, planPicture(design, measure), { size: 10.5, width: 200, mostHeight: 110 }],
  )
  ;(['code', 'text', 'figure', 'hold', 'done'] as const).forEach((name) => draft.put(columns[name], 'heading', crewHeadings[name]))
  draft.put(columns.box, 'heading', null)
  draft.next()
  barriers()
  const [said, saidBefore] = [new Set<string>(), new Set<string>()]
  let stage = ''
  for (const step of stepsOf(design, takeoff.without)) {
    if (step.stage !== stage) {
      section((stage = step.stage), isSpanish ? spanishStages[stage] : undefined)
      hazards(stage)
    }
    draft.put(columns.box, 'siteBox', crew.cells[step.code]?.box ?? BOX)
    draft.put(columns.code, 'siteCode', step.code, { format: 'text' })
    draft.put(columns.text, 'site', design.words(step.text), live(step.text))
    draft.put(columns.figure, 'siteFigure', step.figure ? design.words(step.figure) : null, step.figure ? live(step.figure) : {})
    draft.put(columns.hold, 'siteHold', step.hold ? step.hold : null)
    entry(step.code)
    draft.next()
    if (isSpanish) inSpanish(spanishSteps[step.code]!, step.hold ? spanishHolds[step.hold] : undefined)
  }
  cutLines()
  addedLines()
  draft.next()
  draft.put(columns.text, 'site', CREW_CLOSING)
  draft.next()
  if (isSpanish) inSpanish(spanishClosing)

  function section(text: string, other?: string): void {
    draft.next()
    for (let column = columns.box; column <= columns.done; column++)
      draft.put(column, 'section', column === columns.box ? text.toUpperCase() : column === columns.figure && other ? other.toUpperCase() : null)
    draft.next()
  }

  /** The same once more, for those who read Spanish better. */
  function inSpanish(words: Words, hold?: string): void {
    draft.put(columns.text, 'siteOther', design.words(words), live(words))
    if (hold) draft.put(columns.hold, 'siteHold', hold)
    draft.next()
  }

  /** What can hurt at this stage, the worst first: in full where it comes up, in three words from then on. */
  function hazards(at: string): void {
    const here = cautionRules.filter((rule) => rule.stages.includes(at as never) && design.holds(rule.when))
    for (const rule of here) {
      if (said.has(rule.name)) continue
      said.add(rule.name)
      draft.put(columns.text, 'hazard', design.words(rule.text), live(rule.text))
      draft.put(columns.figure, 'siteHold', rule.short)
      draft.next()
      if (!isSpanish) continue
      const [short, words] = spanishCautions[rule.name]!
      draft.put(columns.text, 'hazard', design.words(words), live(words))
      draft.put(columns.figure, 'siteHold', short)
      draft.next()
    }
    const again = here.filter((rule) => saidBefore.has(rule.name))
    if (again.length) {
      draft.put(columns.text, 'hazard', `${STILL}${again.map(({ short }) => inSentence(short)).join('; ')}.`)
      draft.next()
      if (isSpanish) {
        draft.put(columns.text, 'hazard', `${SPANISH_STILL}${again.map(({ name }) => inSentence(spanishCautions[name]![0])).join('; ')}.`)
        draft.next()
      }
    }
    for (const rule of here) saidBefore.add(rule.name)
  }

  /** Every stop of the job stands before the first step: nothing is started until it is cleared. */
  function barriers(): void {
    const stops = stopsOf(takeoff).map((stop) => ({ stop, answer: answerTo(takeoff, stop) }))
    const open = stops.filter(({ answer }) => !answer.isGiven)
    if (open.length) {
      section(DO_NOT_START, isSpanish ? spanishDoNotStart.heading : undefined)
      for (const { stop } of open) barrier(stop, '')
      if (isSpanish) {
        draft.put(columns.text, 'hazard', spanishDoNotStart.words)
        draft.next()
      }
    }
    // Somebody with a licence has taken it on: the crew reads what he asks for, and may begin.
    if (open.length === stops.length) return
    section(ANSWERED, isSpanish ? spanishAnswered : undefined)
    for (const { stop, answer } of stops) if (answer.isGiven) barrier(stop, ` Answered for on the quote: ${answer.said}`)
  }

  function barrier({ name, label, words, rule }: RaisedVerdict, answered: string): void {
    draft.put(columns.text, 'hazard', `${label}: ${words}${answered}`, {
      formula: `"${label}: "&${formula(rule.wordsFormula).render(names.from(sheet))}${answered ? `&"${answered.replace(/"/g, '""')}"` : ''}`,
    })
    draft.put(columns.hold, 'siteHold', answered ? 'as answered' : rule.touchesLife ? 'engineer or licensed person' : 'office')
    draft.next()
    if (!isSpanish) return
    draft.put(columns.text, 'siteOther', spanishStop(name))
    draft.next()
  }

  /** A cell for the crew, with what it held before. */
  function entry(code: string): Single {
    const value = crew.cells[code]?.done ?? null
    draft.put(columns.done, 'siteEntry', value, { format: 'text' })
    return value
  }

  /** What is cut from which stick, before the ties and ports are set. */
  function cutLines(): void {
    if (!cuts.length) return
    section(CUT_LIST, isSpanish ? SPANISH_CUT_LIST : undefined)
    for (const { stock, stick_ft, words } of cuts)
      for (const line of words) {
        draft.put(columns.text, 'site', `${cutFrom(stock, stick_ft)}${line}`)
        draft.next()
      }
  }

  /** Lines of the crew's own, and what it wrote beside steps that this job has no more. */
  function addedLines(): void {
    section(BY_HAND)
    const orphans = Object.entries(crew.cells).filter(([code]) => !entryCodes.has(code))
    const lines = [...crew.added, ...orphans.map(([code, cells]) => ({ text: `${code}, written earlier`, done: inWords(cells) }))]
    for (const { text, done } of [...lines, ...Array.from({ length: SPARE_ROWS }, () => ({ text: null, done: null }))]) {
      draft.put(columns.text, 'siteEntry', text, { format: 'text' })
      draft.put(columns.done, 'siteEntry', done, { format: 'text' })
      draft.next()
    }
  }

  return draft.sheet(sheet, {
    kind: 'crew',
    widths: [1, 4, 6.8, 46.2, 14, 13, 14],
    headingRow: 3,
    landscape: false,
    footer: design.name,
  })
}
