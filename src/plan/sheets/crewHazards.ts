/** What can hurt at a stage of the crew sheet, the worst first: in full where it comes up, in three words from then on. */
import { cautionRules, type CautionRule, type CrewStage } from '../../takeoff/cautions.js'
import { SPANISH_STILL, spanishCautions } from '../../takeoff/spanish.js'
import type { Words } from '../../takeoff/template.js'
import { crewColumns as columns, type CrewDraft } from './crewDraft.js'
import { STILL } from './crewOwnWords.js'

/** Within a sentence: a word begins small, an abbreviation stays as it is. */
const inSentence = (short: string): string => short.charAt(0).toLowerCase() + short.slice(1)

/** `said` are the names of those that stand at an earlier stage; those of this one are added. */
export function putHazards(draft: CrewDraft, stage: CrewStage, said: Set<string>): void {
  const here = cautionRules.filter((rule) => rule.stages.includes(stage) && draft.job.design.holds(rule.when) && draft.job.design.holds(rule.onlyWhen[stage] ?? 'TRUE'))
  const again = here.filter(({ name }) => said.has(name))
  for (const rule of here) if (!said.has(rule.name)) putHazard(draft, rule)
  if (again.length)
    draft.line(
      'hazard',
      `${STILL}${again.map(({ short }) => inSentence(short)).join('; ')}.`,
      `${SPANISH_STILL}${again.map(({ name }) => inSentence(spanishCautions[name]![0])).join('; ')}.`,
    )
  for (const { name } of here) said.add(name)
}

function putHazard(draft: CrewDraft, { name, short, text }: CautionRule): void {
  const put = (words: Words, inShort: string): void => {
    draft.words('hazard', words)
    draft.put(columns.figure, 'siteHold', inShort)
    draft.next()
  }
  put(text, short)
  if (!draft.isSpanish) return
  const [otherShort, otherWords] = spanishCautions[name]!
  put(otherWords, otherShort)
}
