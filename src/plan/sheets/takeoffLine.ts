/** A line of the Takeoff: its figures live over the item, the price list and the other figures of the job, what was typed over it, and its reason. */
import { formula } from '../../formula/formula.js'
import { beyondLimits } from '../../formula/limits.js'
import { roundTo } from '../../rounding.js'
import { ProblemsError } from '../../takeoff/fields.js'
import type { ItemRule } from '../../takeoff/itemRules.js'
import { lineFormula, type LineCell, type LineFigure } from '../../takeoff/lineFigures.js'
import type { Line } from '../../takeoff/lines.js'
import { jobFields } from '../../takeoff/officeTables.js'
import { priceFlag } from '../../takeoff/priceFlags.js'
import { decimalsOf, unitNamed } from '../../units.js'
import { lookup } from '../places.js'
import { address, type PlanCell, type SheetDraft } from '../plan.js'
import type { JobContext } from '../sheetKind.js'
import { linePlace, takeoffColumns as columns, type TakeoffColumn } from './takeoffColumns.js'

/** In the place of a price that the list has no more, or has for another unit. */
const [NOT_LISTED, UNIT_CHANGED] = ['not listed', 'unit changed']
/** Decimals of a quantity by the unit it is priced in; pieces, jobs and loads are whole. */
export const netDecimals = (rule: ItemRule): number => {
  const unit = unitNamed(rule.unit)
  return unit ? decimalsOf(`net_${unit}`) : 0
}
const orderDecimals = (rule: ItemRule) => (Number.isInteger(rule.lot) ? 0 : 2)
/** Cents, and as many digits behind them as a price has: tape at $0.045 a foot is not $0.05. */
export const priceDecimals = (...prices: readonly (number | null | undefined)[]): number =>
  Math.max(2, ...prices.map((price) => Math.min(4, (/\.(\d+)$/.exec(String(roundTo(price ?? 0, 4)))?.[1] ?? '').length)))

/** All cells of a line, but for the quantity of one over other lines, whose places are not known yet. */
export function putLine(draft: SheetDraft, job: JobContext, sheet: string, line: Line): void {
  const { takeoff, names, places, writer, made, earlier } = job
  const { rule } = line
  const row = draft.row
  const at = (column: TakeoffColumn) => address(row, columns[column], false)
  const item = (column: string) => lookup(places, 'Items', column, `"${rule.key.replace(/"/g, '""')}"`)
  const cells: Readonly<Record<LineCell, string>> = {
    Yours: at('yours'),
    Net: at('net'),
    Waste: at('waste'),
    Lot: at('lot'),
    Order: at('order'),
    Price: at('price'),
    Listed: at('listed'),
    Unit: at('unit'),
    LaborHours: item('LaborHours'),
    Pieces: rule.pieces ? rule.pieces.render(names.from(sheet)) : '0',
    SawKerf_in: names.from(sheet)('SawKerf_in'),
    EarthworkBy: names.from(sheet)('EarthworkBy'),
  }
  const live = (figure: LineFigure) => lineFormula(figure, (name) => cells[name])
  const words = (part: ItemRule['why'], value: string): [PlanCell['value'], { formula?: string }] => [
    value,
    part.formula === undefined ? {} : { formula: formula(part.formula).render(names.from(sheet)) },
  ]
  draft.put(columns.code, 'faint', line.code, rule.code === undefined ? { format: 'text' } : { formula: formula(rule.code).render(names.from(sheet)) })
  draft.put(columns.description, 'wrapped', ...words(rule.description, line.description))
  if (!rule.sum)
    draft.put(columns.net, 'number', line.net, {
      format: netDecimals(rule),
      formula: fitting(job, rule, 'Quantity', writer.write(rule.quantity.text, sheet, `${line.code}, net quantity`)),
    })
  draft.put(columns.yours, 'input', line.override ?? null, { format: netDecimals(rule) })
  draft.put(columns.waste, 'number', rule.waste, { format: 2, formula: item('Waste') })
  draft.put(columns.lot, 'number', rule.lot, { format: orderDecimals(rule), formula: `MAX(0.01,IF(${item('Lot')}=0,1,${item('Lot')}))` })
  draft.put(columns.order, 'number', line.order, { format: orderDecimals(rule), formula: live(rule.pieces ? 'orderCut' : 'order') })
  draft.put(columns.unit, 'unit', rule.unit)
  putPrices(draft, job, sheet, line)
  draft.put(columns.amount, 'number', line.amount, { format: 2, formula: live('amount') })
  draft.put(columns.hours, 'number', line.hours, { format: 2, formula: live(rule.isEarthwork ? 'hoursOfEarth' : 'hours') })
  for (const column of ['description', 'order', 'unit', 'price', 'listed'] as const) names.set(linePlace(line.code, column), sheet, address(row, columns[column]))
  draft.put(columns.kind, 'faint', rule.kind)
  const flag = priceFlag(takeoff, line, { ...earlier, revision: made.revision, today: made.date })
  const [why, reason] = words(rule.why, line.why)
  const added = flag ? `. ${flag}` : ''
  draft.put(columns.why, 'faintWrapped', `${String(why)}${added}`, reason.formula !== undefined && added ? { formula: `${reason.formula}&"${added}"` } : reason)
}

/** A rule grows where its names become places of cells: what a spreadsheet takes no more is told at the rule. */
function fitting({ places, design }: JobContext, rule: ItemRule, column: 'Quantity' | 'Price', written: string): string {
  const beyond = beyondLimits(written)
  if (beyond)
    throw new ProblemsError([
      {
        sheet: places.Items.sheet,
        row: rule.row,
        column,
        allowed: `${beyond.allowed}, its names written as places of cells (job ${design.name}); split it into several items`,
        came: beyond.came,
      },
    ])
  return written
}

/** A made takeoff keeps the prices it was made with: what the list says now stands beside. A price of the job's own figures stays live. */
function putPrices(draft: SheetDraft, job: JobContext, sheet: string, line: Line): void {
  const { design, names, places, writer } = job
  const { rule } = line
  const at = (column: TakeoffColumn) => address(draft.row, columns[column], false)
  const inList = (column: string) => lookup(places, 'Prices', column, at('code'))
  const whereHired = (price: string) => (rule.isEarthwork ? `IF(${names.from(sheet)('EarthworkBy')}="subcontract",${price},0)` : price)
  const listed = rule.price
    ? fitting(job, rule, 'Price', writer.write(rule.price.text, sheet, `${line.code}, price`))
    : `${inList('Price_usd')}${line.priceFor === 1 ? '' : `/${line.priceFor}`}`
  // What a price is for was read when this was made.
  const hasUnits = !rule.price && places.Prices.columnOf('Unit') !== undefined
  const sameUnit = `TRIM(${inList('Unit')})="${line.pricedIn.replace(/"/g, '""')}"`
  const now = whereHired(hasUnits ? `IF(${sameUnit},${listed},"${UNIT_CHANGED}")` : listed)
  const isLive = rule.price !== undefined && rule.price.names.every((name) => Object.hasOwn(jobFields, name) || design.ownFields.includes(name))
  const asMade = isLive ? { formula: whereHired(listed) } : rule.isEarthwork ? { formula: whereHired(String(line.subcontract)) } : {}
  const format = priceDecimals(line.price, line.listed)
  draft.put(columns.price, 'input', line.price ?? null, { format, ...(line.priceOverride === undefined ? asMade : {}) })
  draft.put(columns.listed, 'faintRight', line.listed ?? null, { format, ...asMade })
  draft.put(columns.now, 'faintRight', line.listed ?? null, { format, formula: isLive ? at('listed') : `IFERROR(${now},"${NOT_LISTED}")` })
}
