/** The Change order: one page for the customer. What changed since the price that was last agreed, in prices as the quote has them, the contract sum before and after, and who agrees. */
import type { JobFieldName } from '../../takeoff/officeTables.js'
import { dollars, money, roundTo } from '../../rounding.js'
import { closingCaution } from '../../takeoff/cautions.js'
import { changesSince, fieldOf, fieldWords, type Change, type KeptChange } from '../../takeoff/changes.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import { acceptance } from '../acceptance.js'
import type { Earlier } from '../earlier.js'
import type { Design } from '../../takeoff/design.js'
import { fittedToPage } from '../heights.js'
import { address, SheetDraft, type SheetPlan } from '../plan.js'
import { unitBeside } from '../words.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { openStops } from '../stopAnswers.js'

export const AMEND_PREFIX = 'C '
/** What changes, its counts and price; names have a wide column of their own. */
const columns = { code: 2, text: 3, done: 4, from: 5, to: 6, price: 7 } as const
const headings: Readonly<Record<string, string>> = { code: 'To sign', text: 'Who', done: 'Name and date' }
const AGREED = 'Agreed by the customer'
/** Cells that are signed; the history of changes keeps what stood in them at an earlier revision. */
export const signers: readonly (readonly [code: string, what: string])[] = [
  ['offer', 'Offered by'],
  ['agree', AGREED],
]

export const amend = sheetKind({
  kind: 'amend',
  place: 33,
  prefix: 'Amend',
  lists: [
    { prefix: AMEND_PREFIX, onlyEntries: true, headings, entries: ['done'], isCode: (code) => signers.some(([known]) => known === code), isOurWord: (_, key) => key === 'text' },
  ],
  codes: () => signers.map(([code]) => `${AMEND_PREFIX}${code}`),
  plan: amendSheet,
})

export interface Amended {
  words: string
  from: string | number | null
  to: string | number | null
  price: number
  /** What of it another unit price brings, and no count. */
  byPrice?: number
}
/** A line as the customer reads its change. */
export interface LineShown {
  /** What a dollar of its cost is to the customer. */
  factor?: number | undefined
  unit: string
  /** Hours of the crew and its machines. */
  isOwnWork: boolean
}
const OWN_WORK = 'Labor and machines of these changes'

/** Columns of Jobs that are the office's own business. */
const ofOffice: readonly JobFieldName[] = ['Date', 'Markup', 'Overhead', 'LaborRate_usd_per_h', 'CrewSize', 'EarthworkBy', 'CraneModel', 'DailyProof', 'CrewLanguage']
/** What of the job is another one now, as a customer would say it: "Tanks: 4, before 3". What the tool sizes nobody asked for. */
const askedFor = (changes: readonly Change[], design: Design): string =>
  changes
    .flatMap((change) => {
      const field = fieldOf(change)
      return !field || ofOffice.includes(field.name as JobFieldName) || design.origin(field.name) === 'sized'
        ? []
        : [`${field.label}: ${fieldWords(field.name, change.to)}, before ${fieldWords(field.name, change.from)}`]
    })
    .join('; ')

const WAS_STOPPED = 'A verdict said stop before. Where nobody had answered for it no price was quoted, and what is agreed here is the whole price.'
/** What rounding leaves of a line. */
const CENT_USD = 0.01

/** A line that changed in several revisions: from its first count to its last; what came with them is new, whatever became of its count. */
function countedOn({ from, to }: Amended, counted: Pick<Amended, 'from' | 'to'> | undefined, what: Change['what']): Partial<Amended> {
  if (what === 'line gone') return { from: null, to: 'left out' }
  if (what === 'line added') return { from: null, to: null }
  return counted && to !== 'added' ? { from: from ?? counted.from, to: counted.to } : {}
}

/** A customer who agreed to a price sees what of a change is another price for the same. */
function priceWords(byPrice: number, { price, to }: Pick<Amended, 'price' | 'to'>): string {
  const moved = money(byPrice)
  if (moved === 0 || to === 'added' || to === 'left out') return ''
  return moved === money(price) ? ': its unit price' : `; of it by the unit price ${moved < 0 ? '-' : ''}${dollars(Math.abs(moved))}`
}

/** What changed, a row a line, at what a dollar of cost is to the customer, `factor` where the line does not say; what is left over stands by itself. To the cent what the revision adds. */
export function amended(changes: readonly Change[], factor: number, line: (code: string) => LineShown | undefined = () => undefined): Amended[] {
  const rows = new Map<string, Amended>()
  let sum = 0
  for (const { what, code, words, from, to, money: moved } of changes) {
    if (moved === null) continue
    sum = money(sum + moved)
    if (what === 'overhead, markup and tax') continue
    const { unit, isOwnWork, factor: own = factor } = line(code) ?? { unit: '', isOwnWork: false }
    // How many hours the crew and its machines work is no customer's count.
    const key = isOwnWork ? OWN_WORK : code || words
    const known = rows.get(key)
    const inUnit = (count: Amended['from']) => (typeof count === 'number' && unit ? `${roundTo(count, 2).toLocaleString('en-US')} ${unitBeside(count, unit)}` : count)
    const counted = what === 'quantity' && !isOwnWork ? { from: inUnit(from), to: inUnit(to) } : undefined
    const said = isOwnWork ? { from: null, to: null } : (counted ?? { from: null, to: what === 'line added' ? 'added' : what === 'line gone' ? 'left out' : null })
    const byPrice = (known?.byPrice ?? 0) + (what === 'price' && !isOwnWork ? moved * own : 0)
    rows.set(
      key,
      known
        ? { ...known, ...countedOn(known, counted, what), price: known.price + moved * own, byPrice }
        : { words: isOwnWork ? OWN_WORK : words, ...said, price: moved * own, byPrice },
    )
  }
  const list = [...rows.values()]
    .map(({ byPrice = 0, words, ...row }): Amended => ({ ...row, words: `${words}${priceWords(byPrice, row)}`, price: money(row.price) }))
    .filter(({ price }) => price !== 0)
  const left = money(sum - list.reduce((total, { price }) => total + price, 0))
  const last = list.at(-1)
  if (left === 0) return list
  if (last && Math.abs(left) <= list.length * CENT_USD) return [...list.slice(0, -1), { ...last, price: money(last.price + left) }]
  return [...list, { words: 'Overhead, profit and tax', from: null, to: null, price: left }]
}

/** The latest revision that a customer has agreed to here: who signed its change order, or the quote at its price. */
function lastAgreed(takeoff: Takeoff, { before }: Earlier, all: readonly KeptChange[], now: number): number | undefined {
  const { done, at, earlier } = acceptance(takeoff, before)
  const accepted = [...(done === undefined ? [] : [at]), ...earlier.map((one) => one.at)]
  const totalAt = (revision: number) => money(takeoff.total - all.reduce((sum, change) => sum + (change.revision > revision ? (change.money ?? 0) : 0), 0))
  const isSigned = (revision: number) =>
    all.some((change) => change.revision === revision && change.what === 'signed' && change.words.startsWith(AGREED)) ||
    (before?.revision === revision && revision < now && takeoff.crew.cells[`${AMEND_PREFIX}agree`]?.done !== undefined)
  // A sum that comes back by itself is nobody's new agreement: the first revision that had it counts.
  const revisions = Array.from({ length: Math.max(0, now - 1) }, (_, at) => at + 1)
  const agreed = [...revisions.filter(isSigned), ...accepted.flatMap((sum) => revisions.find((revision) => dollars(totalAt(revision)) === sum) ?? [])]
  return agreed.length ? Math.max(...agreed) : undefined
}

/** Changes of several revisions as one: fields from what they first were to what they are now, lines in the order in which they changed. */
function inOneStep(changes: readonly KeptChange[]): KeptChange[] {
  const steps = [...changes].sort((one, other) => one.revision - other.revision)
  const isRest = ({ what }: Change) => what === 'field' || what === 'verdict'
  const rest = new Map<string, KeptChange>()
  for (const change of steps.filter(isRest)) {
    const key = `${change.what} ${change.words}`
    rest.set(key, { ...change, from: rest.get(key)?.from ?? change.from })
  }
  return [...[...rest.values()].filter(({ from, to }) => from !== to), ...steps.filter((change) => !isRest(change))]
}

interface Amendment {
  agreed: number | undefined
  since: number
  changes: readonly KeptChange[]
  rows: readonly Amended[]
}
/** What a customer is asked to agree to; nothing where nothing of it changed since he agreed. */
function amendmentOf({ takeoff, earlier, made }: Pick<JobContext, 'takeoff' | 'earlier' | 'made'>): Amendment | undefined {
  const all: KeptChange[] = [...changesSince(earlier.before, takeoff).map((change) => ({ ...change, revision: made.revision, date: made.date })), ...earlier.changes]
  const agreed = lastAgreed(takeoff, earlier, all, made.revision)
  // Where nobody has agreed to anything here, a change order is of one revision.
  const since = agreed ?? made.revision - 1
  const changes = inOneStep(all.filter(({ revision }) => revision > since))
  if (made.revision < 2 || changes.some(({ what }) => what === 'made')) return undefined
  const byCode = new Map(takeoff.lines.map(({ code, rule: { unit, kind } }) => [code, { unit, isOwnWork: kind === 'labor' || (kind === 'equipment' && unit === 'h') }]))
  const rows = amended(changes, takeoff.orderCost ? takeoff.total / takeoff.orderCost : 1, (code) => ({
    unit: '',
    isOwnWork: false,
    ...byCode.get(code),
    factor: takeoff.priceShare(code),
  }))
  return rows.length ? { agreed, since, changes, rows } : undefined
}

/** The revision that the customer agreed to last, where something changed since and nobody has signed that here. */
export function agreedBefore(job: Pick<JobContext, 'takeoff' | 'earlier' | 'made'>): number | undefined {
  const isSigned = job.earlier.before?.revision === job.made.revision && job.takeoff.crew.cells[`${AMEND_PREFIX}agree`]?.done !== undefined
  return isSigned || acceptance(job.takeoff, job.earlier.before).done !== undefined ? undefined : amendmentOf(job)?.agreed
}

function amendSheet(job: JobContext, sheet: string): SheetPlan | undefined {
  const { takeoff, earlier, made, names, heading, design } = job
  const { crew, house } = takeoff
  const isSame = earlier.before?.revision === made.revision
  const amendment = amendmentOf(job)
  // Nothing that a customer could agree to.
  if (!amendment) return undefined
  const { agreed, since, changes, rows } = amendment
  const sum = money(rows.reduce((total, { price }) => total + price, 0))
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, since < made.revision - 1 ? `Change order, revisions ${since + 1} to ${made.revision}` : `Change order, revision ${made.revision}`)
  draft.letterhead(columns.price, house.head)
  const asked = askedFor(changes, design)
  if (asked) {
    draft.section(columns.price, 'WHAT IS ASKED FOR')
    draft.put(columns.text, 'wrapped', asked)
    draft.next(2)
  }
  draft.section(columns.price, 'WHAT CHANGES')
  if (openStops(takeoff)) {
    draft.put(columns.code, 'text', 'No price: a verdict says stop, and nobody has answered for it on the Quote.')
    draft.next(2)
  } else listed()
  if (!openStops(takeoff) && changes.some(({ what, from }) => what === 'verdict' && from === 'stop')) {
    draft.put(columns.text, 'wrapped', WAS_STOPPED)
    draft.next(2)
  }
  if (agreed === undefined && since > 1) {
    draft.put(columns.text, 'wrapped', `It counts from revision ${since}: what earlier ones changed stands on their own change orders.`)
    draft.next(2)
  }
  draft.put(columns.code, 'text', 'The work of this change is not begun before both have signed. What it rests on, and what is not in the price, stands on the quote.')
  draft.next(2)
  draft.put(columns.code, 'heading', headings.code!)
  draft.put(columns.text, 'heading', headings.text!)
  draft.put(columns.done, 'heading', headings.done!)
  draft.next()
  for (const [code, who] of signers) {
    draft.put(columns.code, 'faint', code, { format: 'text' })
    draft.put(columns.text, 'text', who)
    draft.put(columns.done, 'siteEntry', isSame ? (crew.cells[`${AMEND_PREFIX}${code}`]?.done ?? null) : null, { format: 'text' })
    draft.next()
  }
  draft.next()
  draft.put(columns.code, 'faint', closingCaution)

  function listed(): void {
    for (const [column, words] of [
      [columns.from, 'Before'],
      [columns.to, 'After'],
      [columns.price, 'Price, $'],
    ] as const)
      draft.put(column, 'headingRight', words)
    draft.put(columns.code, 'heading', 'Line')
    for (const column of [columns.text, columns.done]) draft.put(column, 'heading', null)
    draft.next()
    const first = draft.row
    for (const { words, from, to, price } of rows) {
      draft.put(columns.text, 'wrapped', words)
      for (const [column, count] of [
        [columns.from, from],
        [columns.to, to],
      ] as const)
        if (count !== null)
          draft.put(column, typeof count === 'number' ? 'number' : 'faintRight', count, { format: typeof count !== 'number' ? 'text' : Number.isInteger(count) ? 0 : 2 })
      draft.put(columns.price, 'number', price, { format: 2 })
      draft.next()
    }
    const sums = rows.length ? `SUM(${address(first, columns.price, false)}:${address(draft.row - 1, columns.price, false)})` : '0'
    // What was agreed before does not move with what is typed later.
    total('Price before', money(takeoff.total - sum))
    const before = address(draft.row - 1, columns.price, false)
    total('This change', sum, sums)
    total(takeoff.tax ? 'Price now, tax in it' : 'Price now', takeoff.total, `${before}+${sums}`, 'total')
    draft.next()
  }

  function total(label: string, value: number, text?: string, role: 'subtotal' | 'total' = 'subtotal'): void {
    draft.put(columns.text, `${role}Label`, label)
    for (const column of [columns.done, columns.from, columns.to]) draft.put(column, `${role}Label`, null)
    draft.put(columns.price, role, value, { format: 2, ...(text === undefined ? {} : { formula: text }) })
    draft.next()
  }

  return fittedToPage(draft.sheet(sheet, { kind: 'amend', widths: [1, 8, 40, 28, 11, 11, 15], headingRow: 3, landscape: false, footer: design.name, paper: takeoff.house.paper }))
}
