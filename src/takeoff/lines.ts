/** The lines of a takeoff: each item rule over the design, with its quantities, its price and its reason. */
import { isError, toTruth, type Value } from '../formula/value.js'
import { chosenItems, isOff } from './chosenItems.js'
import type { Design } from './design.js'
import type { Problem } from './fields.js'
import { isStone, LABOR_HOURS, lineSums, pricedUnit, STONE_ORDERED, type ItemRule } from './itemRules.js'
import { lineFigures, type LineFigure } from './lineFigures.js'
import { came, isAmount, LineMaking } from './lineMaking.js'
import { listedPrice } from './listedPrice.js'
import type { Office } from './office.js'
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

type TypedLine = Kept['overrides'][string]

/** Lines over other lines come last: first those over the stone ordered, then those over the hours of people. */
export function makeLines(office: Office, design: Design, rules: readonly ItemRule[], kept: Kept, problems: Problem[]): { lines: Line[]; laborHours: number } {
  const chosen = chosenItems(office, design, rules)
  const lines = new Map<ItemRule, Line>()
  const sums: Record<string, number> = { [STONE_ORDERED]: 0, [LABOR_HOURS]: 0 }
  for (const sum of [undefined, ...lineSums]) {
    if (sum === STONE_ORDERED) for (const line of lines.values()) sums[STONE_ORDERED]! += isStone(line.rule) ? line.order : 0
    if (sum === LABOR_HOURS) for (const line of lines.values()) sums[LABOR_HOURS]! += line.hours
    for (const rule of rules) {
      if (rule.sum !== sum || isOff(rule, chosen)) continue
      const line = makeLine(office, design, rule, sums, kept, problems)
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

/** One rule over one job; nothing where the rule does not hold, comes to nothing, or is refused. */
function makeLine(office: Office, design: Design, rule: ItemRule, sums: Readonly<Record<string, number>>, kept: Kept, problems: Problem[]): Line | undefined {
  const making = new LineMaking(office, design, rule, sums, problems)
  const truth = rule.when ? toTruth(making.evaluate(rule.when.text)) : true
  if (isError(truth)) return making.refuse('When', 'a formula that gives TRUE or FALSE', came(truth))
  if (!truth) return undefined
  const net = making.evaluate(rule.quantity.text)
  if (!isAmount(net)) return making.refuse('Quantity', 'a formula that gives a number, 0 to 1,000,000,000', came(net))
  if (net === 0) return undefined
  const code = rule.code === undefined ? rule.key : String(making.evaluate(rule.code))
  const typed: TypedLine = kept.overrides[code] ?? {}
  const { quantity: override, price: priceOverride } = typed
  if (isTypedForAnother(making, code, net, typed)) return undefined
  const { row, price: listed, count: priceFor } = listedPrice(making, code, priceOverride !== undefined)
  const cut = cutOf(making, code)
  if (cut === 'refused') return undefined
  const price = priceOverride ?? listed
  const cells = { Yours: override ?? '', Net: net, Waste: rule.waste, Lot: rule.lot, Pieces: cut?.count ?? 0, Price: price ?? 0, Listed: listed ?? 0, LaborHours: rule.laborHours }
  const figure = (name: LineFigure, more: Readonly<Record<string, Value>> = {}): number => design.evaluateWith(lineFigures[name], { ...cells, ...more }) as number
  const order = figure(rule.pieces ? 'orderCut' : 'order')
  return {
    rule,
    code,
    description: making.words('Description', rule.description),
    why: making.words('Why', rule.why),
    net,
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
}

/** What was typed over a line holds for the unit that it was typed in, and for what else is laid out with it. */
function isTypedForAnother(making: LineMaking, code: string, net: number, { quantity, line }: TypedLine): boolean {
  const { unit } = making.rule
  // Eighty joints are no eighty sets.
  if (line?.unit && pricedUnit(line.unit).name !== pricedUnit(unit).name) {
    making.refuse('Unit', `${line.unit}, as what you typed for ${code} on the takeoff is counted; clear it there, make the takeoff, and type it in ${unit}`, `"${unit}"`)
    return true
  }
  // Quote, crew sheet and pit are of so many: another number would be priced and not set.
  if (laidOut.includes(code) && quantity !== undefined && quantity > 0 && quantity !== net) {
    making.refuse(
      'Quantity',
      `${net}, as they are laid out; on the takeoff the quantity typed for ${code} is another one. Take it away there: another number of tanks is a column of Jobs, and one more to keep a line by hand`,
      quantity,
    )
    return true
  }
  return false
}

/** The pieces of a line that is cut; none where the rule says none. */
function cutOf(making: LineMaking, code: string): Line['cut'] | 'refused' {
  const { rule } = making
  if (!rule.pieces) return undefined
  const count = making.evaluate(rule.pieces.text)
  if (!isAmount(count)) return making.refuse('Pieces', 'a formula that gives a count, 0 to 1,000,000,000', came(count)) ?? 'refused'
  const stock = rule.stock === undefined ? code : making.evaluate(rule.stock)
  return count > 0 ? { count: Math.ceil(count), stock: String(stock) } : undefined
}
