/** The price of a quote by section: overhead, markup and all spread over them. The last one takes what rounding leaves. No price while a stop stands. */
import { money } from '../../rounding.js'
import { ADDED_SUM, FURTHER_WORK, ORDER_COST, sumOf } from '../../takeoff/sumWords.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import { laidOut, type Page, type Picture } from '../drawing/picture.js'
import { sectionPicture } from '../drawing/sectionPicture.js'
import { ROW_POINTS } from '../heights.js'
import { address } from '../plan.js'
import { measureOf } from '../words.js'
import { quoteColumns as columns, type QuoteDraft } from './quoteDraft.js'
import { sumPlace } from './takeoffColumns.js'

/** Names by which the checks find the prices of the sections with the tax, and the price. */
export const QUOTE_PARTS = 'quote parts'
export const QUOTE_PRICE = 'quote price'

interface PricedPart {
  label: string
  /** Where the sum of its cost stands. */
  sum: string
  /** With its share of overhead and markup; the last one takes what rounding leaves. */
  price: number
}
/** Sections that cost something, and what is put in by hand. */
export function pricedParts({ sections, addedTotal, orderCost, total, tax }: Takeoff): readonly PricedPart[] {
  const costs = [
    ...sections.map(({ section: label, total }) => ({ label: label as string, sum: sumPlace(sumOf(label)), cost: total })),
    ...(addedTotal ? [{ label: FURTHER_WORK[addedTotal < 0 ? 1 : 0], sum: sumPlace(ADDED_SUM), cost: addedTotal }] : []),
  ].filter(({ cost }) => cost !== 0)
  const net = money(total - tax)
  let spread = 0
  return costs.map(({ label, sum, cost }, at) => {
    const price = at === costs.length - 1 ? money(net - spread) : money(orderCost ? (cost * net) / orderCost : 0)
    spread = money(spread + price)
    return { label, sum, price }
  })
}

/** Writes the rows of the price. What it answers fills in their figures, once the stops below have their rows: `stopped` counts those that stand. */
export function putPrices(draft: QuoteDraft): (stopped: string) => void {
  const { takeoff, design, names } = draft.job
  draft.bar('Price')
  const parts = pricedParts(takeoff)
  const [whole, tax, cost] = ['Total', 'Tax', ORDER_COST].map((label) => draft.from(sumPlace(label))) as [string, string, string]
  const figures: ((stopped: string) => void)[] = []
  const figure = (row: number, role: 'number' | 'subtotal' | 'total', value: number, text: string): void => {
    figures.push((stopped) => draft.put(columns.price, role, draft.isOpen ? 'no price' : value, { row, format: 2, formula: `IF(${stopped}>0,"no price",${text})` }))
  }
  const first = draft.row
  // Beside the names of the sections there is room for it.
  const picture = sectionPicture(design, measureOf(design))
  draft.drawings.push({ picture, row: first, column: columns.text, offset: 125, page: besideRows(picture, parts.length) })
  parts.forEach(({ label, sum, price }, at) => {
    const row = draft.row
    const text =
      at === parts.length - 1
        ? `${whole}-${tax}${at ? `-SUM(${address(first, columns.price)}:${address(row - 1, columns.price)})` : ''}`
        : `IF(${cost}=0,0,ROUND(${draft.from(sum)}*(${whole}-${tax})/${cost},2))`
    draft.put(columns.text, 'text', label)
    figure(row, 'number', price, text)
    draft.next()
  })
  draft.put(columns.text, 'subtotalLabel', 'Tax')
  figure(draft.row, 'subtotal', takeoff.tax, tax)
  draft.next()
  names.set(QUOTE_PARTS, draft.sheetName, `${address(first, columns.price)}:${address(draft.row - 1, columns.price)}`)
  names.set(QUOTE_PRICE, draft.sheetName, address(draft.row, columns.price))
  draft.put(columns.text, 'totalLabel', 'Price, $')
  figure(draft.row, 'total', takeoff.total, whole)
  draft.next()
  return (stopped) => figures.forEach((fill) => fill(stopped))
}

/** As large as a picture may be beside so many rows: its labels stay off the rule below them. */
function besideRows(picture: Picture, rows: number): Page {
  const page = { size: 9, width: 262 }
  const heights = [76, 70, 64, 58, 52, 46]
  const mostHeight = heights.find((most) => laidOut(picture, { ...page, mostHeight: most, withBar: true }).height <= rows * ROW_POINTS) ?? heights.at(-1)!
  return { ...page, mostHeight }
}
