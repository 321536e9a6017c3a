/** The Quote: one page for the customer. What is offered, the price by section, what it rests on, and no cost of ours. */
import { DAY_MS } from '../../days.js'
import { AS_FOUND, assumable, assumableFields, assumedLabel, NOT_MEASURED } from '../../takeoff/assumed.js'
import { closingCaution } from '../../takeoff/cautions.js'
import type { RaisedVerdict } from '../../takeoff/design.js'
import { UNCOUNTED } from '../../takeoff/sumWords.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import { verdictRules, type VerdictName } from '../../takeoff/verdicts.js'
import { isEarlierAcceptance } from '../acceptance.js'
import { fitsPage, fittedToPage } from '../heights.js'
import type { SheetPlan } from '../plan.js'
import { headed, isLong, sheetKind, type JobContext } from '../sheetKind.js'
import { codeOf, earlierCode, QUOTE_PREFIX, stopsOf } from '../stopAnswers.js'
import { leftOutWords, liveWords } from '../words.js'
import { LAST_QUOTE_COLUMN, quoteColumns as columns, QuoteDraft, quoteHeadings } from './quoteDraft.js'
import { CUSTOMER, putEntries, quoteEntries } from './quoteEntries.js'
import { putSettledLater } from './quoteLater.js'
import { putPrices } from './quotePrices.js'
import { putStops } from './quoteStops.js'
import { notInPrice, partsOf, scope } from './quoteWords.js'
import { sumPlace } from './takeoffColumns.js'

const isQuoteCode = (code: string): boolean =>
  quoteEntries.some(([known]) => known === code) || isEarlierAcceptance(code) || verdictRules.some(({ name }) => [name, codeOf(name), earlierCode(name)].includes(code))
const quoteCodes = ({ design, crew }: Takeoff): string[] => [
  ...Object.keys(crew.cells).filter((code) => code.startsWith(QUOTE_PREFIX) && isEarlierAcceptance(code.slice(QUOTE_PREFIX.length))),
  ...[...quoteEntries.map(([code]) => code), ...stopsOf({ design }).flatMap(({ name }) => [name, codeOf(name), earlierCode(name)])].map((code) => `${QUOTE_PREFIX}${code}`),
]

interface Form {
  hasGaps: boolean
  isShort: boolean
}
/** One page: where much stands on it, the empty rows between its parts go before it takes a second one, then all but the first sentence of what it rests on. */
const forms: readonly [Form, Form, Form] = [
  { hasGaps: true, isShort: false },
  { hasGaps: false, isShort: false },
  { hasGaps: false, isShort: true },
]

export const quote = sheetKind({
  kind: 'quote',
  place: 20,
  prefix: 'Quote',
  lists: [
    {
      prefix: QUOTE_PREFIX,
      onlyEntries: true,
      headings: quoteHeadings,
      entries: ['done', 'stands'],
      beside: ['stands'],
      isCode: isQuoteCode,
      isOurWord: (_, key) => key === 'text',
    },
  ],
  codes: quoteCodes,
  plan: (job, sheet) => {
    // One after the other: the names of the last one laid out are those that Checks points to. Where none does it in one, nothing is left unsaid for it.
    let close = quoteSheet(job, sheet, forms[0])
    for (const form of [...forms.slice(1), forms[1]]) if (!fitsPage(close)) close = quoteSheet(job, sheet, form)
    const beforeBreak = { ...close, cells: close.cells.filter(({ row }) => row < close.breakBefore!) }
    return fitsPage(close) || !fitsPage(beforeBreak) ? { ...close, breakBefore: undefined } : close
  },
})

function quoteSheet(job: JobContext, sheet: string, { hasGaps, isShort }: Form): SheetPlan {
  const { takeoff, design, heading } = job
  const draft = new QuoteDraft(job, sheet, hasGaps)
  headed(draft, job, sheet, 'Quote', draft.from(sumPlace(UNCOUNTED)))
  draft.letterhead(LAST_QUOTE_COLUMN, takeoff.house.head)
  const customer = String(takeoff.crew.cells[`${QUOTE_PREFIX}${CUSTOMER}`]?.done ?? '')
  if (customer) {
    draft.put(columns.code, 'text', `For ${customer}`)
    draft.next()
  }
  draft.bar('What is offered')
  // A long title is cut beside the firm's name.
  if (isLong(heading)) draft.sentence(`Site: ${String(design.single('Site'))}.`)
  for (const words of partsOf(scope, takeoff)) draft.sentence(words)
  draft.gap()
  const fillPrices = putPrices(draft)
  const stopped = putStops(draft)
  fillPrices(stopped)
  putSettledLater(draft, stopped)
  putRestsOn(draft, isShort)
  // Should it take a second page, what is signed stands there with what is not in the price, and the price itself.
  const breakBefore = draft.row
  draft.bar('Not in this price, and terms')
  for (const words of notInPrice(takeoff)) draft.sentence(words)
  if (takeoff.leftOut.length) draft.sentence(`Left out by agreement: ${leftOutWords(takeoff)}.`)
  putTerms(draft)
  putEntries(draft)
  draft.put(columns.code, 'faint', closingCaution)
  const hasStops = stopsOf(takeoff).length > 0
  return fittedToPage(
    draft.sheet(sheet, {
      kind: 'quote',
      widths: [1, hasStops ? 11 : 8, hasStops ? 74 : 77, 24, 18],
      headingRow: 3,
      landscape: false,
      footer: design.name,
      breakBefore,
      paper: takeoff.house.paper,
      hiddenColumn: columns.stands,
      print: { lastColumn: LAST_QUOTE_COLUMN },
    }),
  )
}

/** What the office settles by itself: no customer can say how wide a cable is. */
const ofOffice: readonly VerdictName[] = ['FillVerdict', 'WeightVerdict', 'LiftVerdict', 'StartDropVerdict', 'PressureTankVerdict', 'RunsVerdict']

/** Everything that was found neither good nor bad: the price holds as far as it holds. What nobody has measured yet is one sentence. */
function putRestsOn(draft: QuoteDraft, isShort: boolean): void {
  const { from } = draft
  const { design } = draft.job
  const checks = design.verdicts().filter(({ verdict, name }) => verdict === 'check' && !ofOffice.includes(name))
  if (!checks.length) return
  draft.bar('This price rests on')
  for (const { label, rule, name } of checks.filter((one) => design.bareVerdict(one.name) === 'check')) {
    const words = isShort ? rule.quotedShort : rule.quoted
    const { formula: live = `"${design.words(words)}"` } = liveWords(words, from)
    draft.put(columns.text, 'wrapped', `${label}: ${design.words(words)}`, { formula: `IF(${from(name)}="pass","","${label}: "&${live})` })
    draft.next()
  }
  putAssumed(draft, checks)
  draft.gap()
}

function putAssumed(draft: QuoteDraft, checks: readonly RaisedVerdict[]): void {
  const { design } = draft.job
  const fields = assumableFields.filter((field) => checks.some(({ rule }) => rule.assumed.includes(field)) && design.number(assumable[field]) === 1)
  if (!fields.length) return
  const flags = fields.map((field) => draft.from(assumable[field]))
  const list = fields.map((field, at) => `IF(${flags[at]}=1,"${assumedLabel(field)}; ","")`).join('&')
  draft.put(columns.text, 'wrapped', `${NOT_MEASURED}${fields.map((field) => `${assumedLabel(field)}; `).join('')}${AS_FOUND}`, {
    formula: `IF(${flags.join('+')}=0,"","${NOT_MEASURED}"&${list}&"${AS_FOUND}")`,
  })
  draft.next()
}

/** What the sheet House says of every quote. */
function putTerms(draft: QuoteDraft): void {
  const { takeoff, design, made } = draft.job
  const { head, validFor_day, payment } = takeoff.house
  if (!head.length) return
  const from = String(design.single('Date') || made.date)
  const until = new Date(Date.parse(`${from}T00:00:00Z`) + validFor_day * DAY_MS).toISOString().slice(0, 10)
  draft.sentence(`This quote of ${from} holds until ${until}.${payment ? ` Payment: ${payment}.` : ''}`)
}
