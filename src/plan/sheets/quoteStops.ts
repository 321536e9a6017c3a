/** Stops on a quote, each with the cell where somebody answers for it: there is no price while one stands. */
import type { RaisedVerdict } from '../../takeoff/design.js'
import { UNCOUNTED } from '../../takeoff/sumWords.js'
import { verdictRules } from '../../takeoff/verdicts.js'
import { address } from '../plan.js'
import { CHANGED_SINCE } from '../sheetKind.js'
import { verdictSentence } from '../words.js'
import { answerFormula, answerTo, codeOf, earlierCode, stopsOf, stopWords, wantedOf } from '../stopAnswers.js'
import { quoteColumns as columns, type QuoteDraft } from './quoteDraft.js'
import { sumPlace } from './takeoffColumns.js'

const [STOPS_STAND, STOPS_ANSWERED] = ['NO PRICE WHILE THESE STAND', 'ANSWERED FOR, AND IN THIS PRICE']

/** Writes the stops, and answers the formula that counts what stands in the way of a price. */
export function putStops(draft: QuoteDraft): string {
  const { from } = draft
  const count = `${stopCount(verdictRules.map(({ name }) => from(name)))}+${from(CHANGED_SINCE)}+${from(sumPlace(UNCOUNTED))}`
  const stops = stopsOf(draft.job.takeoff)
  if (!stops.length) return count
  const top = draft.row
  draft.next()
  draft.headings()
  const accepted = stops.map((stop) => putStop(draft, stop))
  draft.gap()
  const left = `(${count}-(${accepted.join('+')}))`
  draft.liveBar(top, draft.isOpen ? STOPS_STAND : STOPS_ANSWERED, `IF(${left}>0,"${STOPS_STAND}","${STOPS_ANSWERED}")`)
  return left
}

/** A stop and its answer; the formula is 1 where it is answered for as it stands. Short: a quote holds all of them in one cell. */
function putStop(draft: QuoteDraft, stop: RaisedVerdict): string {
  const { from } = draft
  const { name, label, rule } = stop
  const touchesLife = rule.touchesLife ?? false
  const { said, isGiven, earlier } = answerTo(draft.job.takeoff, stop)
  const words = stopWords(stop)
  const isAnswered = answerFormula(address(draft.row, columns.done), touchesLife)
  draft.put(columns.code, 'faintWrapped', codeOf(name), { format: 'text' })
  draft.put(columns.text, 'wrapped', isGiven ? words : `${words} ${wantedOf(touchesLife)}`, {
    formula: `"${label}: "&${verdictSentence(name, from)}&IF(${isAnswered}=1,""," ${wantedOf(touchesLife)}")`,
  })
  draft.entry(said === '' ? undefined : said)
  draft.put(columns.stands, 'faint', words, { format: 'text' })
  const [text, stands] = [columns.text, columns.stands].map((column) => address(draft.row, column)) as [string, string]
  draft.next()
  if (earlier) {
    draft.put(columns.code, 'faintWrapped', earlierCode(name), { format: 'text' })
    draft.put(columns.text, 'faintWrapped', 'This answer was given for other figures: it counts again where they come back.')
    draft.entry(earlier.said)
    draft.put(columns.stands, 'faint', earlier.stands, { format: 'text' })
    draft.next()
  }
  // The words are what stands behind only while what is wanted does not follow them: only where it is answered.
  return `(${from(name)}="stop")*(${text}=${stands})`
}

/** Verdicts stand together on the Design sheet, so one count does for all. */
function stopCount(cells: readonly string[]): string {
  const rows = cells.map((cell) => Number(/(\d+)$/.exec(cell)![1]))
  const first = cells[rows.indexOf(Math.min(...rows))]!
  const last = cells[rows.indexOf(Math.max(...rows))]!
  return `SUMPRODUCT((${first}:${last.slice(last.lastIndexOf('!') + 1)}="stop")*1)`
}
