/** The sums under a takeoff: sections, kinds, overhead, profit and tax. */
import { money } from '../rounding.js'
import type { Design } from './design.js'
import { houseOf, shareOf } from './house.js'
import type { ItemRule } from './itemRules.js'
import type { Line } from './lines.js'
import type { Office } from './office.js'
import { itemKinds, type ItemKind } from './officeTables.js'
import { ruleOfCode } from './ruleOfCode.js'
import type { AddedLine, Kept, Override } from './typed.js'

/** What the lines of a takeoff come to, to the cent. */
export interface Totals {
  sections: readonly { section: string; lines: readonly Line[]; total: number }[]
  /** Lines put in by hand. */
  added: readonly AddedLine[]
  addedTotal: number
  orderCost: number
  byKind: Readonly<Record<ItemKind, number>>
  overhead: number
  markup: number
  tax: number
  total: number
  /** Overrides whose line is no longer part of the takeoff: its code, and what was typed. */
  unused: readonly { code: string; words: string }[]
}

/** An entry that goes with its line is told whole: nobody finds it again. */
const wordsOf = ({ quantity, price, line }: Override): string =>
  [...(quantity === undefined ? [] : [`${quantity}${line?.unit ? ` ${line.unit}` : ''}`]), ...(price === undefined ? [] : [`$${price}`])].join(' at ')

export function totalsOf(office: Office, design: Design, rules: readonly ItemRule[], lines: readonly Line[], kept: Kept): Totals {
  const grouped = [...new Set(rules.map(({ section }) => section))].map((section) => {
    const own = lines.filter((line) => line.rule.section === section)
    return { section, lines: own, total: money(own.reduce((sum, line) => sum + line.amount, 0)) }
  })
  const codes = new Set(lines.map((line) => line.code))
  const dropped = Object.entries(kept.overrides).filter(([code]) => !codes.has(code))
  /** A code that no rule could give is a line that somebody put in; one of a rule is a line that this job needs no more. */
  const isOfRule = (code: string) => ruleOfCode(rules, code) !== undefined
  const added = [...kept.added, ...dropped.flatMap(([code, { line }]) => (line && !isOfRule(code) ? [line] : []))]
  const amountOf = ({ quantity, price }: AddedLine) => money((quantity ?? 0) * (price ?? 0))
  const addedTotal = money(added.reduce((sum, line) => sum + amountOf(line), 0))
  const orderCost = money(grouped.reduce((sum, { total }) => sum + total, 0) + addedTotal)
  const byHand = (wanted: ItemKind) => added.filter(({ kind = 'other' }) => kind === wanted).reduce((sum, line) => sum + amountOf(line), 0)
  const ofKind = (kind: ItemKind) => money(lines.filter(({ rule }) => rule.kind === kind).reduce((sum, line) => sum + line.amount, byHand(kind)))
  const byKind = Object.fromEntries(itemKinds.map((kind) => [kind, ofKind(kind)])) as Record<ItemKind, number>
  const { house } = houseOf(office)
  const share = (kinds: readonly ItemKind[]) => shareOf(kinds, byKind, orderCost)
  const overhead = money(orderCost * share(house.overheadOn) * design.number('Overhead'))
  const markup = money(orderCost * share(house.markupOn) * design.number('Markup'))
  // What is taxed bears its own overhead and markup, and none that lies on other kinds.
  const taxed = (on: readonly ItemKind[]) => orderCost * share(house.taxOn.filter((kind) => on.includes(kind)))
  const base =
    house.taxOn.length === itemKinds.length
      ? orderCost + overhead + markup
      : taxed(itemKinds) + taxed(house.overheadOn) * design.number('Overhead') + taxed(house.markupOn) * design.number('Markup')
  const tax = money(base * design.number('Tax'))
  const total = money(orderCost + overhead + markup + tax)
  return {
    sections: grouped.filter((group) => group.lines.length),
    added,
    addedTotal,
    orderCost,
    byKind,
    overhead,
    markup,
    tax,
    total,
    unused: dropped.filter(([code, { line }]) => !line || isOfRule(code)).map(([code, override]) => ({ code, words: wordsOf(override) })),
  }
}
