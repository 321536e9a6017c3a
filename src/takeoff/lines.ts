/** The lines of a takeoff: each item rule over the design, with its quantities, its price and its reason. */
import { isError, toTruth, type Value } from '../formula/value.js'
import { chosenItems, isOff } from './chosenItems.js'
import type { Design } from './design.js'
import { isUnpriced, type Problem } from './fields.js'
import { houseOf } from './house.js'
import { isStone, LABOR_HOURS, lineSums, pricedUnit, STONE_ORDERED, unitRatio, type ItemRule } from './itemRules.js'
import type { Office, Row } from './office.js'
import { lineFigures, type LineFigure } from './lineFigures.js'
import { isWrongUnit010 } from './older/prices010.js'
import type { Kept } from './typed.js'

export interface Line {
  rule: ItemRule
  code: string
  description: string
  why: string
  net: number
  override: number | undefined
  /** Equal pieces that the quantity is cut into, and what they are cut from. */
  cut: { count: number; stock: string } | undefined
  order: number
  /** What one unit costs; nothing while the price list is silent. */
  price: number | undefined
  /** Pieces that the listed price is for, and the unit that the list names for it. */
  priceFor: number
  pricedIn: string
  priceOverride: number | undefined
  /** What the list or the rule says, whatever was typed over it. */
  listed: number | undefined
  /** What a subcontractor would be paid, where the own crew digs. */
  subcontract: number
  /** Of the price list; empty where it names none. */
  supplier: string
  /** When the price was asked, where the list says it. */
  priceDate: string | undefined
  amount: number
  hours: number
}
/** No quantity of a line and no price of a unit comes near it. */
export const MOST_AMOUNT = 1e9
export const isAmount = (value: unknown): value is number => typeof value === 'number' && value >= 0 && value <= MOST_AMOUNT
const came = (value: Value): string => (isError(value) ? `${value.code} ${value.message}`.trim() : typeof value === 'string' ? `"${value}"` : String(value))

/** Lines over other lines come last: first those over the stone ordered, then those over the hours of people. */
export function makeLines(office: Office, design: Design, rules: readonly ItemRule[], kept: Kept, problems: Problem[]): { lines: Line[]; laborHours: number } {
  const prices = pricesOf(office)
  const chosen = chosenItems(office, design, rules)
  const lines = new Map<ItemRule, Line>()
  const sums: Record<string, number> = { [STONE_ORDERED]: 0, [LABOR_HOURS]: 0 }
  for (const sum of [undefined, ...lineSums]) {
    if (sum === STONE_ORDERED) for (const line of lines.values()) sums[STONE_ORDERED]! += isStone(line.code) ? line.order : 0
    if (sum === LABOR_HOURS) for (const line of lines.values()) sums[LABOR_HOURS]! += line.hours
    for (const rule of rules) {
      if (rule.sum !== sum || isOff(rule, chosen)) continue
      const line = makeLine(office, design, rule, sums, prices, kept, problems)
      if (!line) continue
      const twin = [...lines.values()].find(({ code }) => code === line.code)
      if (twin)
        problems.push({
          sheet: office.sheets.Items,
          row: rule.row,
          column: 'Code',
          allowed: `a code that no other line of the job has; row ${twin.rule.row} gives it too (job ${design.name})`,
          came: `"${line.code}"`,
        })
      lines.set(rule, line)
    }
  }
  return { lines: rules.flatMap((rule) => lines.get(rule) ?? []), laborHours: sums[LABOR_HOURS]! }
}

/** What the drawing, the pit and the papers have a number of. */
const laidOut: readonly string[] = ['TANK', 'TANK-2', 'PUMP']

type Prices = ReadonlyMap<string, Row>
const pricesByOffice = new WeakMap<Office, Prices>()
function pricesOf(office: Office): Prices {
  let found = pricesByOffice.get(office)
  if (!found) pricesByOffice.set(office, (found = new Map(office.tables.Prices.map((row) => [String(row.cells.Code).toLowerCase(), row]))))
  return found
}

function makeLine(office: Office, design: Design, rule: ItemRule, sums: Readonly<Record<string, number>>, prices: Prices, kept: Kept, problems: Problem[]): Line | undefined {
  const evaluate = (text: string): Value => design.evaluateWith(text, sums)
  const problem = (column: string, allowed: string, value: unknown, more: Pick<Problem, 'unpriced'> = {}) => {
    // A spreadsheet works a rule out itself where it begins with the sign.
    const hint = value === '#NAME?' ? '; typed without the sign = in front' : ''
    problems.push({ sheet: office.sheets.Items, row: rule.row, column, allowed: `${allowed}${hint} (job ${design.name})`, came: String(value), ...more })
    return undefined
  }
  const truth = rule.when ? toTruth(evaluate(rule.when.text)) : true
  if (isError(truth)) return problem('When', 'a formula that gives TRUE or FALSE', came(truth))
  if (!truth) return undefined
  const net = evaluate(rule.quantity.text)
  if (!isAmount(net)) return problem('Quantity', 'a formula that gives a number, 0 to 1,000,000,000', came(net))
  if (net === 0) return undefined
  const code = rule.code === undefined ? rule.key : String(evaluate(rule.code))
  const row = prices.get(code.toLowerCase())
  const { quantity: override, price: priceOverride, line: typed } = kept.overrides[code] ?? {}
  // Eighty joints are no eighty sets.
  if (typed?.unit && pricedUnit(typed.unit).name !== pricedUnit(rule.unit).name)
    return problem(
      'Unit',
      `${typed.unit}, as what you typed for ${code} on the takeoff is counted; clear it there, make the takeoff, and type it in ${rule.unit}`,
      `"${rule.unit}"`,
    )
  // Quote, crew sheet and pit are of so many: another number would be priced and not set.
  if (laidOut.includes(code) && override !== undefined && override > 0 && override !== net)
    return problem(
      'Quantity',
      `${net}, as they are laid out; on the takeoff the quantity typed for ${code} is another one. Take it away there: another number of tanks is a column of Jobs, and one more to keep a line by hand`,
      override,
    )
  const [listed, priceFor] = listedPrice()
  const cut = cutOf()
  if (cut === 'refused') return undefined
  const price = priceOverride ?? listed
  const cells = { Yours: override ?? '', Net: net, Waste: rule.waste, Lot: rule.lot, Pieces: cut?.count ?? 0, Price: price ?? 0, Listed: listed ?? 0, LaborHours: rule.laborHours }
  const figure = (name: LineFigure, more: Readonly<Record<string, Value>> = {}): number => design.evaluateWith(lineFigures[name], { ...cells, ...more }) as number
  const order = figure(rule.pieces ? 'orderCut' : 'order')
  const words = (column: string, part: ItemRule['why']): string => {
    const value = part.formula === undefined ? part.text : evaluate(part.formula)
    if (typeof value === 'string') return value
    problem(column, 'braces around single values', came(Array.isArray(value) ? (value.find(isError) ?? 'a list') : value))
    return ''
  }
  const [description, why] = [words('Description', rule.description), words('Why', rule.why)]
  return {
    rule,
    code,
    description,
    why,
    net: net as number,
    override,
    cut,
    order,
    price,
    priceFor,
    pricedIn: String(row?.cells.Unit ?? '').trim(),
    priceOverride,
    listed,
    subcontract: Number(row?.cells.Price_usd ?? 0) / priceFor,
    supplier: String(row?.cells.Supplier ?? ''),
    priceDate: typeof row?.cells.PriceDate === 'string' ? row.cells.PriceDate : undefined,
    amount: figure('amount', { Order: order }),
    hours: figure(rule.isEarthwork ? 'hoursOfEarth' : 'hours'),
  }

  /** The pieces of a line that is cut; none where the rule says none. */
  function cutOf(): Line['cut'] | 'refused' {
    if (!rule.pieces) return undefined
    const count = evaluate(rule.pieces.text)
    if (!isAmount(count)) return problem('Pieces', 'a formula that gives a count, 0 to 1,000,000,000', came(count)) ?? 'refused'
    const stock = rule.stock === undefined ? code : evaluate(rule.stock)
    return count > 0 ? { count: Math.ceil(count), stock: String(stock) } : undefined
  }

  function missingPrice({ row: place }: Row): void {
    const allowed = `a price for ${code}, $0 to 1,000,000 (job ${design.name})`
    problems.push({ sheet: office.sheets.Prices, row: place, column: 'Price_usd', allowed, came: 'nothing', unpriced: code })
  }

  /** What one unit costs by the rule or the list, and how many pieces the list prices at once. */
  function listedPrice(): [price: number | undefined, count: number] {
    if (rule.isEarthwork && design.single('EarthworkBy') === 'own crew') return [0, 1]
    if (rule.price) {
      const value = evaluate(rule.price.text)
      if (isAmount(value)) return [value, 1]
      // The price of the tank, pump or pressure tank itself is missing: that is said where it belongs.
      if ((value === null || value === '') && problems.some((one) => isUnpriced(one) && one.sheet !== office.sheets.Prices)) return [undefined, 1]
      // A rule that takes the price of the list where nothing else has one.
      if ((value === null || value === '') && row && !isAmount(row.cells.Price_usd ?? null)) {
        if (priceOverride === undefined) missingPrice(row)
        return [undefined, 1]
      }
      // Taken from the price of another line, which has none yet.
      if (value === null || value === '')
        problem('Code', `a row for ${code} in ${office.sheets.Prices}, with its price, or a price for what it is taken from`, 'none', { unpriced: code })
      else problem('Price', 'a formula that gives a price, $0 to 1,000,000,000', came(value))
      return [undefined, 1]
    }
    if (!row) {
      // A size that the job itself chose is an order without a price; a code that the rule spells out is a slip.
      if (rule.code !== undefined) problem('Code', `a row for ${code} in ${office.sheets.Prices}, with its price`, 'none', { unpriced: code })
      else problem('Code', `a code with a row in ${office.sheets.Prices}`, `"${code}"`)
      return [undefined, 1]
    }
    const at = (column: string, allowed: string, value: string) =>
      problems.push({ sheet: office.sheets.Prices, row: row.row, column, allowed: `${allowed} (job ${design.name})`, came: value })
    const listedUnit = String(row.cells.Unit ?? '')
    const [priced, counted] = [pricedUnit(listedUnit === '' || isWrongUnit010(code, listedUnit) ? rule.unit : listedUnit), pricedUnit(rule.unit)]
    const ratio = unitRatio(priced, counted)
    if (ratio === undefined) at('Unit', `${rule.unit}, as the item ${code} is counted, or a number of it, as 100 ${rule.unit}`, `"${String(row.cells.Unit)}"`)
    const listed = row.cells.Price_usd ?? null
    if (!isAmount(listed)) {
      if (priceOverride === undefined) missingPrice(row)
      return [undefined, 1]
    }
    if (houseOf(office).house.needsPriceDates && (row.cells.PriceDate ?? null) === null)
      at('PriceDate', `the date of the price, which the sheet ${office.sheets.House} asks for`, 'nothing')
    return [listed / (ratio ?? 1), ratio ?? 1]
  }
}
