/** What the office says of itself: the head of its papers, and the kinds of cost that overhead, markup and tax are figured on. */
import { shown } from '../errors.js'
import type { Problem } from './fields.js'
import type { Office } from './office.js'
import { fieldsOf, itemKinds, type ItemKind } from './officeTables.js'

export interface House {
  /** Lines of the letterhead; empty where the office says nothing. */
  head: readonly string[]
  payment: string
  validFor_day: number
  paper: 'letter' | 'A4'
  overheadOn: readonly ItemKind[]
  markupOn: readonly ItemKind[]
  taxOn: readonly ItemKind[]
  needsPriceDates: boolean
  oldestPrice_day: number
  priceMove: number
}

const known = new WeakMap<Office, { house: House; problems: readonly Problem[] }>()
/** The first row of the sheet House; its defaults where there is none. */
export function houseOf(office: Office): { house: House; problems: readonly Problem[] } {
  let found = known.get(office)
  if (!found) known.set(office, (found = readHouse(office)))
  return found
}

function readHouse(office: Office): { house: House; problems: readonly Problem[] } {
  const [first, second] = office.tables.House
  const problems: Problem[] = second ? [{ sheet: office.sheets.House, row: second.row, column: 'Name', allowed: 'one row, the office itself', came: shown(second.cells.Name) }] : []
  const cell = (name: string) => first?.cells[name] ?? fieldsOf('House')[name]!.default ?? null
  const words = (name: string): string => String(cell(name) ?? '')
  const kinds = (name: string): readonly ItemKind[] => {
    const text = words(name).trim()
    if (text === '' || text.toLowerCase() === 'all') return itemKinds
    const list = text.split(',').map((one) => one.trim().toLowerCase())
    const wrong = list.find((one) => !itemKinds.includes(one as ItemKind))
    if (wrong !== undefined)
      problems.push({ sheet: office.sheets.House, row: first!.row, column: name, allowed: `all, or some of ${itemKinds.join(', ')}, commas between`, came: `"${wrong}"` })
    return itemKinds.filter((kind) => list.includes(kind))
  }
  const house: House = {
    head: ['Name', 'Address', 'Contact', 'Licence'].map(words).filter(Boolean),
    payment: words('Payment'),
    validFor_day: Number(cell('ValidFor_day')),
    paper: words('Paper') === 'A4' ? 'A4' : 'letter',
    overheadOn: kinds('OverheadOn'),
    markupOn: kinds('MarkupOn'),
    taxOn: kinds('TaxOn'),
    needsPriceDates: words('PriceDates') === 'needed',
    oldestPrice_day: Number(cell('OldestPrice_day')),
    priceMove: Number(cell('PriceMove')),
  }
  return { house, problems }
}

/** The share of the cost that is of some kinds: all of it where all kinds are meant. */
export const shareOf = (kinds: readonly ItemKind[], byKind: Readonly<Record<ItemKind, number>>, cost: number): number =>
  kinds.length === itemKinds.length ? 1 : cost === 0 ? 0 : kinds.reduce((sum, kind) => sum + byKind[kind], 0) / cost
