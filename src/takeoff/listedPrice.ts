/** What one unit of a line costs by its rule or by the price list, whatever was typed over it. */
import { isUnpriced, type Problem } from './fields.js'
import { houseOf } from './house.js'
import { pricedUnit, unitRatio } from './itemRules.js'
import { came, isAmount, type LineMaking } from './lineMaking.js'
import type { Office, Row } from './office.js'
import { isWrongUnit010 } from './older/prices010.js'

export interface ListedPrice {
  /** Its row in the price list, where it has one. */
  row: Row | undefined
  /** Of one unit; nothing while the list is silent, which is said. */
  price: number | undefined
  /** Pieces that the listed price is for. */
  count: number
}

/** `isTypedOver`: a price stands on the takeoff, and none needs to stand in the list. */
export function listedPrice(making: LineMaking, code: string, isTypedOver: boolean): ListedPrice {
  const row = pricesOf(making.office).get(code.toLowerCase())
  if (making.rule.isEarthwork && making.design.single('EarthworkBy') === 'own crew') return { row, price: 0, count: 1 }
  if (making.rule.price) return { row, price: rulePrice(making, making.rule.price.text, code, row, isTypedOver), count: 1 }
  return { row, ...(row ? rowPrice(making, code, row, isTypedOver) : { price: noRow(making, code), count: 1 }) }
}

const pricesByOffice = new WeakMap<Office, ReadonlyMap<string, Row>>()
function pricesOf(office: Office): ReadonlyMap<string, Row> {
  let found = pricesByOffice.get(office)
  if (!found) pricesByOffice.set(office, (found = new Map(office.tables.Prices.map((row) => [String(row.cells.Code).toLowerCase(), row]))))
  return found
}

/** A formula of the rule, over the job and the price list. */
function rulePrice(making: LineMaking, text: string, code: string, row: Row | undefined, isTypedOver: boolean): number | undefined {
  const { office, problems } = making
  const value = making.evaluate(text)
  if (isAmount(value)) return value
  if (value !== null && value !== '') return making.refuse('Price', 'a formula that gives a price, $0 to 1,000,000,000', came(value))
  // The price of the tank, pump or pressure tank itself is missing: that is said where it belongs.
  if (problems.some((one) => isUnpriced(one) && one.sheet !== office.sheets.Prices)) return undefined
  // A rule that takes the price of the list where nothing else has one.
  if (row && !isAmount(row.cells.Price_usd ?? null)) return isTypedOver ? undefined : missingPrice(making, code, row)
  // Taken from the price of another line, which has none yet.
  return making.refuse('Code', `a row for ${code} in ${office.sheets.Prices}, with its price, or a price for what it is taken from`, 'none', { unpriced: code })
}

/** A size that the job itself chose is an order without a price; a code that the rule spells out is a slip. */
function noRow(making: LineMaking, code: string): undefined {
  const { Prices } = making.office.sheets
  return making.rule.code === undefined
    ? making.refuse('Code', `a code with a row in ${Prices}`, `"${code}"`)
    : making.refuse('Code', `a row for ${code} in ${Prices}, with its price`, 'none', { unpriced: code })
}

function rowPrice(making: LineMaking, code: string, row: Row, isTypedOver: boolean): Pick<ListedPrice, 'price' | 'count'> {
  const { office, rule } = making
  const unit = String(row.cells.Unit ?? '')
  const ratio = unitRatio(pricedUnit(unit === '' || isWrongUnit010(code, unit) ? rule.unit : unit), pricedUnit(rule.unit))
  if (ratio === undefined) refuseCell(making, row, 'Unit', `${rule.unit}, as the item ${code} is counted, or a number of it, as 100 ${rule.unit}`, `"${String(row.cells.Unit)}"`)
  const listed = row.cells.Price_usd ?? null
  if (!isAmount(listed)) return { price: isTypedOver ? undefined : missingPrice(making, code, row), count: 1 }
  if (houseOf(office).house.needsPriceDates && (row.cells.PriceDate ?? null) === null)
    refuseCell(making, row, 'PriceDate', `the date of the price, which the sheet ${office.sheets.House} asks for`, 'nothing')
  return { price: listed / (ratio ?? 1), count: ratio ?? 1 }
}

const missingPrice = (making: LineMaking, code: string, row: Row): undefined =>
  refuseCell(making, row, 'Price_usd', `a price for ${code}, $0 to 1,000,000`, 'nothing', { unpriced: code })

function refuseCell({ office, design, problems }: LineMaking, { row }: Row, column: string, allowed: string, came: string, more: Pick<Problem, 'unpriced'> = {}): undefined {
  problems.push({ sheet: office.sheets.Prices, row, column, allowed: `${allowed} (job ${design.name})`, came, ...more })
  return undefined
}
