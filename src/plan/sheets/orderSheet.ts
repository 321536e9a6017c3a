/** The Order sheet: what to order, by supplier, as the takeoff says it; a cell a line for who ordered it and when. */
import type { ItemKind, JobFieldName } from '../../takeoff/officeTables.js'
import type { Line } from '../../takeoff/lines.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import { SheetDraft, type SheetPlan } from '../plan.js'
import { ADDED_SECTION_WORDS } from '../../takeoff/sumWords.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { CUT_LIST } from './crewOwnWords.js'
import { openStops } from '../stopAnswers.js'
import { agreedBefore } from './amendSheet.js'
import { unitBeside } from '../words.js'
import { linePlace } from './takeoffColumns.js'

/** Before the code of an entry: the crew's steps have codes too. */
export const ORDER_PREFIX = 'O '
const columns = { code: 2, text: 3, order: 4, unit: 5, done: 6 } as const
const orderHeadings: Readonly<Record<string, string>> = { code: 'Order code', text: 'What', order: 'Order', unit: 'In', done: 'Ordered by, date; needed by' }
export const NO_SUPPLIER = 'Supplier not named (Prices: a row with the code and its Supplier; of a tank or pump without a price)'
/** Kinds of lines that are bought or hired. */
const ordered: readonly ItemKind[] = ['material', 'equipment', 'subcontract']
export const STOPPED = 'Not to be ordered before the quote has a price: when this was made a verdict said stop, and nobody had answered for it.'
/** More than the customer has agreed to. */
export const notAgreed = (revision: number): string =>
  `The customer agreed to revision ${revision}; what changed since stands on Amend, and nobody has signed it. Nothing of that is ordered before both have.`
const TOGETHER_TOO = 'Several jobs were made in one go: where the sheet Order together stands, and is not out of date, it takes the place of this order. Order each thing once.'
/** What every supplier asks first. */
const delivery: readonly { code: string; text: string; ofJob?: JobFieldName }[] = [
  { code: 'ORDER-NUMBER', text: 'Our number of this order' },
  { code: 'SHIP-TO', text: 'Deliver to', ofJob: 'Site' },
  { code: 'NEEDED-BY', text: 'Needed on the site by' },
  { code: 'TERMS', text: 'Terms, and whom to call on the day' },
]

/** By name, those that nobody named last. */
export const suppliersOf = (list: readonly { supplier: string }[]): string[] =>
  [...new Set(list.map(({ supplier }) => supplier))].sort((one, other) => Number(one === '') - Number(other === '') || (one < other ? -1 : 1))
/** Lines that somebody is asked for: what the own crew digs is on nobody's order. */
export const linesOrdered = ({ lines, design }: Takeoff): readonly Line[] =>
  lines.filter(({ rule, order }) => ordered.includes(rule.kind) && order > 0 && !(rule.isEarthwork && design.single('EarthworkBy') === 'own crew'))
/** Lines by hand that somebody is asked for. Nobody orders a credit, words alone, or hours of the own crew. */
export const goodsByHand = ({ added }: Takeoff): readonly { words: string; quantity: number; unit: string }[] =>
  added.flatMap(({ code, description, quantity, price, kind, unit }) =>
    quantity === null || quantity < 0 || (price ?? 0) < 0 || kind === 'labor' ? [] : [{ words: [code, description].filter(Boolean).join(' '), quantity, unit }],
  )
export const order = sheetKind({
  kind: 'order',
  place: 30,
  prefix: 'Order',
  lists: [{ prefix: ORDER_PREFIX, onlyEntries: true, headings: orderHeadings, entries: ['done'], isCode: (code) => code !== '', isOurWord: (_, key) => key !== 'done' }],
  codes: (takeoff) => [...delivery.map(({ code }) => code), ...linesOrdered(takeoff).map(({ code }) => code)].map((code) => `${ORDER_PREFIX}${code}`),
  plan: orderSheet,
})

function orderSheet(job: JobContext, sheet: string): SheetPlan {
  const { takeoff, names, heading, cuts, isOneOfSeveral } = job
  const draft = new SheetDraft()
  const from = names.from(sheet)
  headed(draft, { heading, names }, sheet, 'Order: what to buy and hire, by supplier')
  draft.letterhead(columns.done, takeoff.house.head)
  draft.next()
  // What a supplier delivers cannot be taken back: while a stop stands nothing is known of what the job will need.
  if (openStops(takeoff)) {
    draft.put(columns.text, 'caution', STOPPED)
    draft.next()
  }
  const agreed = agreedBefore(job)
  if (agreed !== undefined) {
    draft.put(columns.text, 'caution', notAgreed(agreed))
    draft.next()
  }
  if (isOneOfSeveral) {
    draft.put(columns.text, 'wrapped', TOGETHER_TOO)
    draft.next()
  }
  section('Delivery')
  for (const { code, text, ofJob } of delivery) {
    const site = ofJob ? String(takeoff.design.single(ofJob) ?? '') : ''
    draft.put(columns.code, 'faint', code, { format: 'text' })
    draft.put(columns.text, 'wrapped', site ? `${text}: ${site}` : text)
    draft.put(columns.done, 'siteEntry', takeoff.crew.cells[`${ORDER_PREFIX}${code}`]?.done ?? null, { format: 'text' })
    draft.next()
  }
  draft.next()
  const lines = linesOrdered(takeoff)
  for (const supplier of suppliersOf(lines)) {
    section(supplier || NO_SUPPLIER)
    for (const { code, description, order, rule, supplier: of } of lines) {
      if (of !== supplier) continue
      draft.put(columns.code, 'faint', code, { format: 'text' })
      draft.put(columns.text, 'wrapped', description, { formula: from(linePlace(code, 'description')) })
      draft.put(columns.order, 'number', order, { format: Number.isInteger(rule.lot) ? 0 : 2, formula: from(linePlace(code, 'order')) })
      draft.put(columns.unit, 'unit', unitBeside(order, rule.unit))
      draft.put(columns.done, 'entry', takeoff.crew.cells[`${ORDER_PREFIX}${code}`]?.done ?? null, { format: 'text' })
      draft.next()
    }
    draft.next()
  }
  const byHand = goodsByHand(takeoff)
  if (!lines.length || byHand.length) section(ADDED_SECTION_WORDS)
  for (const { words, quantity, unit } of byHand) {
    // Lines by hand stand on the Takeoff: here they are said, not kept.
    draft.put(columns.text, 'wrapped', words)
    draft.put(columns.order, 'number', quantity, { format: Number.isInteger(quantity) ? 0 : 2 })
    draft.put(columns.unit, 'unit', unitBeside(quantity, unit) || null)
    draft.next()
  }

  cutLines()

  /** What comes out of which stick; pieces of several lines that share a stock are cut together. */
  function cutLines(): void {
    if (!cuts.length) return
    draft.next()
    draft.section(columns.done, CUT_LIST)
    for (const { stock, stick_ft, plan, apart, words } of cuts) {
      draft.put(columns.text, 'wrapped', stock)
      draft.put(columns.order, 'number', plan.sticks, { format: 0 })
      draft.put(columns.unit, 'unit', unitBeside(plan.sticks, 'stick'))
      draft.put(columns.done, 'faintWrapped', `of ${stick_ft} ft${apart > plan.sticks ? `; ${apart} where each line is ordered for itself` : ''}`)
      draft.next()
      for (const line of words) {
        draft.put(columns.text, 'faintWrapped', line)
        draft.next()
      }
    }
  }

  function section(text: string): void {
    draft.section(columns.done, text)
    for (const [key, column] of Object.entries(columns)) draft.put(column, key === 'order' ? 'headingRight' : 'heading', orderHeadings[key]!)
    draft.next()
  }

  return draft.sheet(sheet, {
    kind: 'order',
    widths: [1, 18, 42, 9, 7, 22],
    headingRow: 3,
    landscape: false,
    footer: takeoff.design.name,
  })
}
