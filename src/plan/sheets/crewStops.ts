/** Every stop of the job as a barrier before the first step of the crew sheet: nothing is started until it is cleared. */
import type { RaisedVerdict } from '../../takeoff/design.js'
import { SPANISH_AS_ANSWERED, spanishAnswered, spanishDoNotStart, spanishHoldFor, spanishStop } from '../../takeoff/spanish.js'
import { answerTo, stopsOf } from '../stopAnswers.js'
import { crewColumns as columns, type CrewDraft } from './crewDraft.js'
import { verdictSentence } from '../words.js'
import { ANSWERED, DO_NOT_START, HOLD, holdFor } from './crewOwnWords.js'

export function putBarriers(draft: CrewDraft): void {
  const { takeoff } = draft.job
  const stops = stopsOf(takeoff).map((stop) => ({ stop, answer: answerTo(takeoff, stop) }))
  const open = stops.filter(({ answer }) => !answer.isGiven)
  if (open.length) {
    draft.bar(DO_NOT_START, spanishDoNotStart.heading)
    for (const { stop } of open) putBarrier(draft, stop, '')
    if (draft.isSpanish) draft.line('hazard', spanishDoNotStart.words)
  }
  // Somebody with a licence has taken it on: the crew reads what he asks for, and may begin.
  if (open.length === stops.length) return
  draft.bar(ANSWERED, spanishAnswered)
  for (const { stop, answer } of stops) if (answer.isGiven) putBarrier(draft, stop, ` Answered for on the quote: ${answer.said}`)
}

function putBarrier(draft: CrewDraft, { name, label, words, rule }: RaisedVerdict, answered: string): void {
  draft.put(columns.text, 'hazard', `${label}: ${words}${answered}`, {
    formula: `"${label}: "&${verdictSentence(name, draft.from)}${answered ? `&"${answered.replace(/"/g, '""')}"` : ''}`,
  })
  const hold = answered ? HOLD.answered : holdFor(rule.touchesLife ? HOLD.engineer : HOLD.office)
  draft.put(columns.hold, 'siteHold', hold)
  draft.next()
  if (!draft.isSpanish) return
  draft.put(columns.text, 'siteOther', spanishStop(name))
  draft.put(columns.hold, 'siteHold', answered ? SPANISH_AS_ANSWERED : spanishHoldFor(rule.touchesLife ? HOLD.engineer : HOLD.office))
  draft.next()
}
