/** What changed between two makings of a takeoff: lines, quantities, prices, money, verdicts that turned. */
import { dollars, money, roundTo } from '../rounding.js'
import { grouped } from '../errors.js'
import { symbolOf, unitOf } from '../units.js'
import { pricedUnit } from './itemRules.js'
import { jobFields, type JobFieldName } from './officeTables.js'
import { type Takeoff } from './takeoff.js'

export interface EarlierLine {
  description: string
  order: number
  price: number
  amount: number
  /** What the layout came to, whatever somebody typed over it; nothing where it was made before that was kept. */
  net?: number | undefined
  /** What it is counted in; nothing where that is not known. */
  unit?: string | undefined
}
/** A takeoff as it stood before it is made again. */
export interface Before {
  revision: number
  date: string
  /** By code; lines by hand without one by their description. */
  lines: ReadonlyMap<string, EarlierLine>
  cost: number
  total: number
  /** Words by label. */
  verdicts: ReadonlyMap<string, string>
  /** What the row of Jobs said, or the tool took, by column; nothing where it was made before that was kept. */
  fields?: ReadonlyMap<string, string>
  /** Codes of lines that it was made with and whose rows somebody took off since. */
  gone?: readonly string[]
  /** Its sheet is there no more, or has another name: what was typed on it is not known. */
  isTakeoffGone?: true
}

export interface Change {
  what: 'made' | 'signed' | 'field' | 'line added' | 'line gone' | 'quantity' | 'price' | 'overhead, markup and tax' | 'verdict'
  code: string
  words: string
  from: string | number | null
  to: string | number | null
  /** What it adds to the price; nothing where it moves no money. */
  money: number | null
}
/** A change as the sheet Changes keeps it. */
export interface KeptChange extends Change {
  revision: number
  date: string
}

/** Amounts of one code: a line copied by hand stands under the code of ours. */
export function linesByCode(takeoff: Takeoff): Map<string, EarlierLine> {
  const found = new Map<string, EarlierLine>()
  const add = (key: string, line: EarlierLine) => {
    const known = found.get(key)
    found.set(key, known ? { ...known, order: known.order + line.order, amount: money(known.amount + line.amount), net: line.net ?? known.net } : line)
  }
  for (const { code, description, net, order, price, amount, rule } of takeoff.lines) add(code, { description, order, price: price ?? 0, amount, net, unit: rule.unit })
  for (const { code, description, quantity, price, unit } of takeoff.added)
    add(code || description, { description, order: quantity ?? 0, price: price ?? 0, amount: money((quantity ?? 0) * (price ?? 0)), unit })
  return found
}

/** Columns of Jobs that change nothing of the work. */
const ofPaper: readonly JobFieldName[] = ['Job', 'Site', 'Date', 'DailyProof', 'CrewLanguage', 'FormerName']
/** The row of a job as it was worked with: defaults and sized choices too. */
export const fieldsByName = ({ design }: Takeoff): ReadonlyMap<string, string> =>
  new Map((Object.keys(jobFields) as JobFieldName[]).filter((name) => !ofPaper.includes(name)).map((name) => [name, String(design.single(name) ?? '')]))

/** A changed field by its label and its column, from the words of the change. */
export function fieldOf({ what, words }: Pick<Change, 'what' | 'words'>): { label: string; name: string } | undefined {
  const [, label, name] = what === 'field' ? (/^(.*) \((\w+)\)$/.exec(words) ?? []) : []
  return label === undefined || name === undefined ? undefined : { label, name }
}

/** A field that changed, with the unit that its column wears and as many digits as it was typed with, four at the most; a share as such. */
export function fieldWords(name: string, value: Change['from']): string {
  const number = Number(value)
  if (value === null || value === 'empty' || !Number.isFinite(number)) return String(value)
  return shares.includes(name as JobFieldName)
    ? `${roundTo(100 * number, 2)} %`
    : unitOf(name) === undefined
      ? grouped(number)
      : `${grouped(roundTo(number, TYPED_DECIMALS))} ${symbolOf(name)}`.trim()
}
const TYPED_DECIMALS = 4
const shares: readonly JobFieldName[] = ['Tax', 'WantedReliability']

/** Quantities and prices are the same where they differ by less than a sheet shows. */
const isSame = (one: number, other: number): boolean => roundTo(one, 4) === roundTo(other, 4)

export function changesSince(before: Before | undefined, takeoff: Takeoff): Change[] {
  if (!before) return [{ what: 'made', code: '', words: 'First made', from: null, to: takeoff.total, money: takeoff.total }]
  const now = linesByCode(takeoff)
  const changes: Change[] = []
  if (before.fields)
    for (const [name, to] of fieldsByName(takeoff)) {
      const from = before.fields.get(name)
      const { label } = jobFields[name as JobFieldName]
      if (from !== undefined && from !== to) changes.push({ what: 'field', code: '', words: `${label} (${name})`, from: from || 'empty', to: to || 'empty', money: null })
    }
  for (const [code, line] of before.lines)
    if (!now.has(code) && line.amount !== 0) changes.push({ what: 'line gone', code, words: line.description, from: line.amount, to: null, money: -line.amount })
  for (const [code, line] of now) {
    const was = before.lines.get(code)
    if (!was) {
      if (line.amount !== 0) changes.push({ what: 'line added', code, words: line.description, from: null, to: line.amount, money: line.amount })
      continue
    }
    // Feet are no cubic yards: what is counted in another unit now is another line.
    if (was.unit && line.unit && pricedUnit(was.unit).name !== pricedUnit(line.unit).name) {
      if (was.amount !== 0) changes.push({ what: 'line gone', code, words: `${was.description}, by the ${was.unit}`, from: was.amount, to: null, money: -was.amount })
      if (line.amount !== 0) changes.push({ what: 'line added', code, words: `${line.description}, by the ${line.unit}`, from: null, to: line.amount, money: line.amount })
      continue
    }
    // The quantity at the old price first; what the price adds is the rest, so that both add to the line.
    // At one price no cent is the price's.
    const byQuantity = isSame(was.order, line.order) ? 0 : isSame(was.price, line.price) ? money(line.amount - was.amount) : money((line.order - was.order) * was.price)
    const byPrice = money(line.amount - was.amount - byQuantity)
    if (byQuantity !== 0 || !isSame(was.order, line.order)) changes.push({ what: 'quantity', code, words: line.description, from: was.order, to: line.order, money: byQuantity })
    if (byPrice !== 0) changes.push({ what: 'price', code, words: line.description, from: was.price, to: line.price, money: byPrice })
  }
  const beyondCost = money(takeoff.total - before.total - (takeoff.orderCost - before.cost))
  if (beyondCost !== 0)
    changes.push({
      what: 'overhead, markup and tax',
      code: '',
      words: 'With the cost, or by their own shares',
      from: money(before.total - before.cost),
      to: money(takeoff.total - takeoff.orderCost),
      money: beyondCost,
    })
  for (const { label, verdict } of takeoff.design.verdicts()) {
    const was = before.verdicts.get(label)
    if (was !== undefined && was !== verdict) changes.push({ what: 'verdict', code: '', words: label, from: was, to: verdict, money: null })
  }
  return changes
}

/** The revision that a takeoff is; the one that stands while nothing of it has changed. */
export const revisionOf = (before: Before | undefined, takeoff: Takeoff): number => (before ? before.revision + (changesSince(before, takeoff).length ? 1 : 0) : 1)

/** The changes in a few words: how many, what they add, which verdicts turned. */
export function inShort(changes: readonly Change[], since: number): string {
  if (!changes.length) return `nothing changed since revision ${since}`
  const sum = money(changes.reduce((total, change) => total + (change.money ?? 0), 0))
  const turned = changes.filter(({ what }) => what === 'verdict').map(({ words, from, to }) => `${words}: ${String(from)} to ${String(to)}`)
  const lines = changes.filter(({ code }) => code !== '').length
  return [`since revision ${since} ${sum < 0 ? '-' : '+'}${dollars(Math.abs(sum))}`, `${lines} ${lines === 1 ? 'change' : 'changes'} of lines`, ...turned].join('; ')
}
