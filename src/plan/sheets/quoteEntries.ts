/** What the office and the customer fill in on a quote. The customer accepts a sum: the sheet keeps it beside the name, and says so where the price moves under it. */
import { ACCEPTED, acceptance, NO_PRICE } from '../acceptance.js'
import { address } from '../plan.js'
import { QUOTE_PREFIX } from '../stopAnswers.js'
import { quoteColumns as columns, type QuoteDraft } from './quoteDraft.js'
import { QUOTE_PRICE } from './quotePrices.js'

export const CUSTOMER = '2'
/** Cells for the office on every quote: what stands in them comes back. */
export const quoteEntries: readonly (readonly [code: string, what: string])[] = [
  ['1', 'Our name, address and licence number'],
  [CUSTOMER, 'For: the customer’s name and address'],
  ['3', 'Good until'],
  ['4', 'Payment'],
  ['5', 'Offered by, date'],
  [ACCEPTED, 'Accepted by, date'],
]
/** Entries that the sheet House has the words for. */
const saidByHouse: readonly string[] = ['1', '3', '4']

const ANOTHER = '; the price is another now'
const AGAIN = ': make the takeoff again before this is signed'
/** What stands beside a name that was written at another sum. */
const earlierWords = (at: string, now: string): string =>
  at === NO_PRICE
    ? 'Signed while the quote had no price: nothing is accepted by that.'
    : now === NO_PRICE
      ? `Accepted at ${at}: it counts again where the quote has that price.`
      : `Accepted at ${at}, not at this price: what changed since is agreed on the change order.`

export function putEntries(draft: QuoteDraft): void {
  const { takeoff, earlier } = draft.job
  const { house, crew } = takeoff
  draft.headings()
  const accepted = acceptance(takeoff, earlier.before)
  for (const [code, what] of quoteEntries) {
    const said = code === ACCEPTED ? accepted.done : crew.cells[`${QUOTE_PREFIX}${code}`]?.done
    if (house.head.length && saidByHouse.includes(code) && crew.cells[`${QUOTE_PREFIX}${code}`] === undefined) continue
    draft.put(columns.code, 'faint', code, { format: 'text' })
    if (code === ACCEPTED) putAccepted(draft, what, accepted.at)
    else draft.put(columns.text, 'text', what)
    // Where the customer signs, the row is as high as a name.
    draft.entry(said, code === ACCEPTED ? 'siteEntry' : 'entry')
    draft.next()
  }
  for (const { code, at, done } of accepted.earlier) {
    draft.put(columns.code, 'faintWrapped', code, { format: 'text' })
    draft.put(columns.text, 'faintWrapped', earlierWords(at, accepted.at))
    draft.entry(done)
    draft.next()
  }
  draft.gap()
}

function putAccepted(draft: QuoteDraft, what: string, at: string): void {
  const [done, stands] = [columns.done, columns.stands].map((column) => address(draft.row, column)) as [string, string]
  const price = draft.from(QUOTE_PRICE)
  const live = `IF(ISNUMBER(${price}),"$"&TEXT(${price},"#,##0.00"),"${NO_PRICE}")`
  draft.put(columns.text, 'text', draft.isOpen ? what : `${what}, at ${at}`, {
    // What is printed while the price has moved has no sum that could be signed: the sheet would keep the one that it was made with.
    formula: `"${what}"&IF(${stands}=${live},IF(ISNUMBER(${price}),", at "&${live},""),IF(${done}="","${ANOTHER}${AGAIN}",", at "&${stands}&"${ANOTHER}"))`,
  })
  draft.put(columns.stands, 'faint', at, { format: 'text' })
}
