/** The Crew sheet, for the people in the pit: facts, every stop as a barrier, the sequence with hazards where they act, boxes and hold points. */
import type { CrewStage } from '../../takeoff/cautions.js'
import { crewSteps, stepsOf, type CrewStep } from '../../takeoff/crewSteps.js'
import { SPANISH_BY_HAND, spanishClosing, spanishFigures, spanishHoldFor, spanishStages, spanishSteps } from '../../takeoff/spanish.js'
import type { CrewEntries } from '../../takeoff/typed.js'
import type { SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { CrewDraft, crewColumns as columns, crewHeadings } from './crewDraft.js'
import { putHazards } from './crewHazards.js'
import { putHead } from './crewHead.js'
import { BOX, BY_HAND, CREW_CLOSING, CUT_LIST, cutFrom, holdFor, isOurCrewLine, isOurStepWord, SPANISH_CUT_LIST } from './crewOwnWords.js'
import { putBarriers } from './crewStops.js'
import { entryWords } from './testDraft.js'

const SPARE_ROWS = 4

export const crew = sheetKind({
  kind: 'crew',
  place: 50,
  prefix: 'Crew',
  lists: [{ headings: crewHeadings, entries: ['done', 'box'], isCode: (code) => crewSteps.some((step) => step.code === code), isOurWord: isOurStepWord }],
  codes: ({ design, without }) => stepsOf(design, without).map(({ code }) => code),
  isOurLine: isOurCrewLine,
  plan: crewSheet,
})

function crewSheet(job: JobContext, sheet: string): SheetPlan {
  const draft = new CrewDraft(job, sheet)
  headed(draft, job, sheet, 'Crew: sequence with hold points')
  putHead(draft)
  draft.headings()
  const afterHeadings = draft.row
  putBarriers(draft)
  putSteps(draft, afterHeadings)
  putCuts(draft)
  putAdded(draft)
  draft.next()
  draft.line('site', CREW_CLOSING, spanishClosing)
  return draft.sheet(sheet, {
    kind: 'crew',
    widths: [1, 4, 6.8, 40.4, 14, 13, 19.8],
    headingRow: 3,
    landscape: false,
    footer: job.design.name,
  })
}

/** `headings` is the row below the headings of the list. */
function putSteps(draft: CrewDraft, headings: number): void {
  const { design, takeoff } = draft.job
  const said = new Set<string>()
  let stage: CrewStage | undefined
  for (const step of stepsOf(design, takeoff.without)) {
    if (step.stage !== stage) {
      stage = step.stage
      // Right under the headings of the list they are not said again.
      if (draft.row === headings) draft.bar(stage, spanishStages[stage])
      else draft.headedBar(stage, spanishStages[stage])
      putHazards(draft, stage, said)
    }
    putStep(draft, step)
  }
}

function putStep(draft: CrewDraft, { code, text, figure, hold }: CrewStep): void {
  draft.put(columns.box, 'siteBox', draft.job.takeoff.crew.cells[code]?.box ?? BOX)
  draft.put(columns.code, 'siteCode', code, { format: 'text' })
  draft.words('site', text)
  if (figure) draft.words('siteFigure', figure, columns.figure)
  else draft.put(columns.figure, 'siteFigure', null)
  draft.put(columns.hold, 'siteHold', hold ? holdFor(hold) : null)
  draft.put(columns.done, 'siteEntry', draft.job.takeoff.crew.cells[code]?.done ?? null, { format: 'text' })
  draft.next()
  if (!draft.isSpanish) return
  draft.words('siteOther', spanishSteps[code]!)
  if (figure) draft.words('siteFigure', spanishFigures[code]!, columns.figure)
  if (hold) draft.put(columns.hold, 'siteHold', spanishHoldFor(hold))
  draft.next()
}

/** What is cut from which stick, before the ties and ports are set. */
function putCuts(draft: CrewDraft): void {
  const { cuts } = draft.job
  if (!cuts.length) return
  draft.bar(CUT_LIST, SPANISH_CUT_LIST)
  for (const { stock, stick_ft, words } of cuts) for (const line of words) draft.line('site', `${cutFrom(stock, stick_ft)}${line}`)
}

const inWords = (cells: CrewEntries[string]): string =>
  Object.entries(cells)
    .map(([key, value]) => entryWords(key, String(value)))
    .join('; ')

/** Lines of the crew's own, and what it wrote beside steps that this job has no more. */
function putAdded(draft: CrewDraft): void {
  const { takeoff, entryCodes } = draft.job
  draft.headedBar(BY_HAND, SPANISH_BY_HAND)
  const orphans = Object.entries(takeoff.crew.cells).filter(([code]) => !entryCodes.has(code))
  const lines = [...takeoff.crew.added, ...orphans.map(([code, cells]) => ({ text: `${code}, written earlier`, done: inWords(cells) }))]
  for (const { text, done } of [...lines, ...Array.from({ length: SPARE_ROWS }, () => ({ text: null, done: null }))]) {
    draft.put(columns.text, 'siteEntry', text, { format: 'text' })
    draft.put(columns.done, 'siteEntry', done, { format: 'text' })
    draft.next()
  }
}
