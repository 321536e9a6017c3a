/** What a quote leaves to be settled: allowances by the unit, and the alternates that the office offers. */
import { dollars, money } from '../../rounding.js'
import { lineFormula } from '../../takeoff/lineFigures.js'
import type { Line } from '../../takeoff/lines.js'
import type { ItemKind } from '../../takeoff/officeTables.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import { answerTo, stopsOf, stopWords } from '../stopAnswers.js'
import { unitBeside } from '../words.js'
import { quoteColumns as columns, type QuoteDraft } from './quoteDraft.js'
import { isTreated } from './quoteWords.js'
import { linePlace } from './takeoffColumns.js'

/** `stopped` counts what stands in the way of a price: nothing is offered then. */
export function putSettledLater(draft: QuoteDraft, stopped: string): void {
  const { takeoff } = draft.job
  const allowances = takeoff.orderCost ? takeoff.lines.filter(({ rule, order }) => rule.isAllowance && order > 0) : []
  const alternates = alternatesOf(takeoff)
  if (!allowances.length && !alternates.length) return
  const title = [...(allowances.length ? ['Allowances'] : []), ...(alternates.length ? ['Alternates'] : [])].join(' and ').toUpperCase()
  draft.liveBar(draft.row, draft.isOpen ? '' : title, `IF(${stopped}>0,"","${title}")`)
  draft.next()
  const put = (words: string, live: string): void => {
    draft.put(columns.text, 'wrapped', draft.isOpen ? '' : words, { formula: `IF(${stopped}>0,"",${live})` })
    draft.next()
  }
  for (const line of allowances) put(allowanceWords(takeoff, line), allowanceFormula(draft, line))
  for (const alternate of alternates) {
    const words = alternateWords(alternate)
    put(words, `"${words.replace(/"/g, '""')}"`)
  }
  draft.gap()
}

/** What a unit costs the customer, the overhead and markup in it that lie on its kind, as the change order has them when it is settled. */
const allowanceWords = (takeoff: Takeoff, { description, order, rule, price }: Line): string =>
  `${description}: ${order} ${unitBeside(order, rule.unit)} at ${dollars(money((price ?? 0) * takeoff.shareBeforeTax(rule.kind)))} before tax, settled by what it comes to.`

function allowanceFormula({ job, from }: QuoteDraft, { code, rule: { kind, unit } }: Line): string {
  const { house } = job.takeoff
  const on = (kinds: readonly ItemKind[], name: 'Overhead' | 'Markup') => (kinds.includes(kind) ? `+${from(name)}` : '')
  const share = `(1${on(house.overheadOn, 'Overhead')}${on(house.markupOn, 'Markup')})`
  const cell = (column: Parameters<typeof linePlace>[1]) => from(linePlace(code, column))
  const price = lineFormula('price', (name) => cell(name === 'Price' ? 'price' : 'listed'))
  const order = cell('order')
  return `${cell('description')}&": "&${order}&IF(${order}=1," ${unitBeside(1, unit)}"," ${unitBeside(2, unit)}")&" at $"&TEXT(ROUND(${price}*${share},2),"#,##0.00")&" before tax, settled by what it comes to."`
}

interface Alternate {
  name: string
  /** What its price is more, as it was when the quote was made. */
  more: number
  /** It leaves out the treatment that this job has. */
  isUntreated: boolean
}
/** One that stops where this job stops is offered as soon as that is answered; one that costs the same is no other choice. */
function alternatesOf(takeoff: Takeoff): readonly Alternate[] {
  const isAnswered = (other: Takeoff) =>
    stopsOf(other).every((stop) => answerTo(takeoff, stop).isGiven || stopsOf(takeoff).some((own) => own.name === stop.name && stopWords(own) === stopWords(stop)))
  return takeoff
    .options()
    .flatMap(({ name, isOnQuote, takeoff: other }) =>
      isOnQuote && other && isAnswered(other) ? [{ name, more: money(other.total - takeoff.total), isUntreated: isTreated(takeoff) && !isTreated(other) }] : [],
    )
    .filter(({ more }) => more !== 0)
}
const alternateWords = ({ name, more, isUntreated }: Alternate): string =>
  `Instead, ${name}: ${dollars(Math.abs(more))} ${more < 0 ? 'less' : 'more'}, tax included.${isUntreated ? ' The water is not drinkable then.' : ''}`
