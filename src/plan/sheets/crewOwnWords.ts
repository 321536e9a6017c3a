/** Words that the crew sheet writes itself: beside a step or between the steps they are nobody's entry. */
import { cautionRules, closingCaution } from '../../takeoff/cautions.js'
import { crewSteps } from '../../takeoff/crewSteps.js'
import { olderHolds, olderSpanish, olderStages, olderSteps } from '../../takeoff/older/crewWords.js'
import {
  SPANISH_AS_ANSWERED,
  SPANISH_BY_HAND,
  SPANISH_LEFT_OUT,
  SPANISH_NOTE,
  SPANISH_STILL,
  spanishAnswered,
  spanishCautions,
  spanishClosing,
  spanishDoNotStart,
  spanishFigures,
  spanishHoldFor,
  spanishHolds,
  spanishStages,
  spanishSteps,
  spanishStop,
  spanishStops,
} from '../../takeoff/spanish.js'
import { casesOf, type Words } from '../../takeoff/template.js'
import { SET_BY_OTHERS } from '../words.js'
import { crewHeadings } from './crewDraft.js'

export const BOX = '☐'
export const BY_HAND = 'WRITTEN BY HAND'
export const DO_NOT_START = 'DO NOT START'
/** At the head, for who reads no further than the drawing. */
export const DO_NOT_START_YET = 'DO NOT START before the office says so: what stands in the way is listed under the drawing.'
export const ANSWERED = 'ANSWERED FOR: WORK AS THE ANSWER SAYS'
/** Whoever reads one word of a step reads that it waits. */
export const holdFor = (who: string): string => `HOLD: ${who}`
/** Who lets work go on that a verdict stops. */
export const HOLD = { engineer: 'engineer or licensed person', answered: 'as answered', office: 'office' } as const
export const CUT_LIST = 'CUT LIST'
export const SPANISH_CUT_LIST = 'Lista de cortes'
/** How a line of the cut list begins: no line of the crew’s own that says "from" is taken for one. */
export const cutFrom = (stock: string, stick_ft: number): string => `From ${stock}, ${stick_ft} ft: `
const CUT_LINE = /^From .+, [\d.]+ ft: \d+ sticks?[,:] /
/** Before hazards that were said in full at an earlier stage. */
export const STILL = 'Still: '
/** The last line: who decides, and where the rules behind the steps stand. */
export const CREW_CLOSING = `${closingCaution} The rules behind the steps stand with the cautions of the Design sheet.`

/** Rows that hold no entries: headings and stages. */
export const isCrewHeading = (code: string): boolean =>
  [crewHeadings.code, BY_HAND, DO_NOT_START, ANSWERED, CUT_LIST].includes(code as never) ||
  [...crewSteps.map(({ stage }) => stage), ...olderStages].some((stage) => stage.toUpperCase() === code)

/** Whether plain text beside a step is what our own sheet writes there, and not somebody's own. */
export function isOurStepWord(code: string, key: string, words: string): boolean {
  const step = crewSteps.find((known) => known.code === code)
  if (words === BOX) return true
  if (!step) return false
  const ours: Readonly<Record<string, () => readonly string[]>> = {
    text: () => [...casesOf(step.text), ...(olderSteps[code] ?? [])],
    figure: () => casesOf(step.figure),
    hold: () => [step.hold, ...(olderHolds[code] ?? [])].flatMap((who) => [who, holdFor(who)]),
  }
  return ours[key]?.().includes(words) ?? false
}

const plainWords = (words: Words): readonly string[] => (typeof words === 'string' ? [words] : [])
/** Hazards stand between the steps, in full or in a few words. */
const wholeLines = new Set<string>([
  ...Object.values(HOLD),
  ...Object.values(HOLD).map(holdFor),
  ...Object.keys(spanishHolds).map(spanishHoldFor),
  SPANISH_AS_ANSWERED,
  SPANISH_BY_HAND.toUpperCase(),
  DO_NOT_START_YET,
  spanishDoNotStart.atHead,
  spanishDoNotStart.words,
  spanishDoNotStart.heading.toUpperCase(),
  spanishAnswered.toUpperCase(),
  closingCaution,
  CREW_CLOSING,
  SPANISH_NOTE,
  SPANISH_CUT_LIST.toUpperCase(),
  spanishClosing,
  ...cautionRules.flatMap(({ short, text: words }) => [short, ...plainWords(words)]),
  ...[...Object.values(spanishStages), ...olderStages].map((stage) => stage.toUpperCase()),
  ...Object.values(spanishHolds),
  ...Object.values(spanishSteps).flatMap(plainWords),
  ...Object.values(spanishFigures).flatMap(plainWords),
  ...olderSpanish,
  ...Object.keys(spanishStops).map(spanishStop),
  // Up to 0.17.
  ...Object.values(spanishStops).map((about) => `Alto: ${about}.`),
  ...Object.values(spanishCautions).flatMap(([short, words]) => [short, ...plainWords(words)]),
])
/** Up to 0.21 the hazards that go on began so in Spanish. */
const olderBeginnings: readonly string[] = ['Sigue: ']
const beginnings: readonly string[] = [STILL, SPANISH_STILL, ...olderBeginnings, SET_BY_OTHERS, SPANISH_LEFT_OUT]
/** Whether words between the steps are our own. */
export const isOurCrewLine = (words: string): boolean =>
  isCrewHeading(words) || wholeLines.has(words) || beginnings.some((start) => words.startsWith(start)) || CUT_LINE.test(words)
