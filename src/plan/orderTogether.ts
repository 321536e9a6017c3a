/** The orders of several jobs together: quantities added before they are rounded up to lots, by supplier, with what that saves. */
import { LOTS_SLACK } from '../calc/estimate/orderQuantity.js'
import { orderQuantity } from '../calc/index.js'
import { money, type Line, type Takeoff } from '../takeoff/takeoff.js'
import { address, madeLine, quotedSheet, SheetDraft, TITLE_ROWS, type Made, type SheetPlan } from './plan.js'
import { NO_SUPPLIER, ordered, suppliersOf } from './sheets/orderSheet.js'
import { takeoffColumns } from './sheets/takeoffSheet.js'

export const ORDER_TOGETHER = 'Order together'
const columns = { code: 2, text: 3, jobs: 4, order: 5, unit: 6, apart: 7, price: 8, saved: 9 } as const
const headings: Readonly<Record<keyof typeof columns, string>> = {
  code: 'Code',
  text: 'What',
  jobs: 'Of jobs',
  order: 'Order together',
  unit: 'In',
  apart: 'Ordered apart',
  price: 'Unit price, $',
  saved: 'Saved, $',
}

interface Shared {
  code: string
  supplier: string
  lines: readonly { line: Line; job: string; row: number; sheet: string }[]
}

/** Lines of the same code, waste, lot and supplier; a different rule is a different thing to buy. */
function sharedLines(jobs: readonly { takeoff: Takeoff; plan: SheetPlan }[]): Shared[] {
  const found = new Map<string, Shared>()
  for (const { takeoff, plan } of jobs) {
    const rows = new Map(plan.cells.flatMap(({ row, column, value }) => (column === takeoffColumns.code ? [[String(value), row] as const] : [])))
    for (const line of takeoff.lines) {
      if (!ordered.includes(line.rule.kind) || line.order <= 0) continue
      const key = [line.supplier, line.code, line.rule.unit, line.rule.waste, line.rule.lot].join('\n')
      const known = found.get(key) ?? { code: line.code, supplier: line.supplier, lines: [] }
      found.set(key, { ...known, lines: [...known.lines, { line, job: takeoff.design.name, row: rows.get(line.code)!, sheet: plan.name }] })
    }
  }
  return [...found.values()]
}

const used = ({ override, net }: Line): number => override ?? net
export function together({ lines }: Shared): { order: number; apart: number; saved: number; price: number } {
  const [{ line }] = lines as [Shared['lines'][number]]
  const apart = lines.reduce((sum, one) => sum + one.line.order, 0)
  // What is cut into pieces is ordered by the stick of each job: an offcut of one site is no pipe on another.
  const order = line.cut ? apart : orderQuantity.run({ net: lines.reduce((sum, one) => sum + used(one.line), 0), waste: line.rule.waste, lot: line.rule.lot })
  // Prices may have been typed over for one job: the lowest is the one to ask for.
  const price = Math.min(...lines.map((one) => one.line.price ?? 0))
  return { order, apart, price, saved: money((apart - order) * price) }
}

/** One sheet over the jobs of one making, live over their takeoffs. */
export function orderTogether(jobs: readonly { takeoff: Takeoff; plan: SheetPlan }[], made: Made): SheetPlan {
  const draft = new SheetDraft()
  const names = jobs.map(({ takeoff }) => takeoff.design.name)
  draft.heading(`Order of ${names.length} jobs`, `Order together: ${names.join(', ')}. Quantities are added before they are rounded up to lots`, madeLine(made))
  draft.letterhead(columns.saved, jobs[0]!.takeoff.house.head)
  draft.next()
  for (const [name, column] of Object.entries(columns))
    draft.put(column, ['order', 'apart', 'price', 'saved'].includes(name) ? 'headingRight' : 'heading', headings[name as keyof typeof columns])
  draft.next()
  const shared = sharedLines(jobs)
  const first = draft.row
  for (const supplier of suppliersOf(shared)) {
    draft.section(columns.saved, (supplier || NO_SUPPLIER).toUpperCase())
    for (const one of shared) if (one.supplier === supplier) row(one)
    draft.next()
  }
  const saved = money(shared.reduce((sum, one) => sum + together(one).saved, 0))
  draft.put(columns.text, 'totalLabel', 'Saved by ordering together, $')
  for (let column = columns.jobs; column < columns.saved; column++) draft.put(column, 'totalLabel', null)
  draft.put(columns.saved, 'total', saved, { format: 2, formula: `SUM(${address(first, columns.saved, false)}:${address(draft.row - 1, columns.saved, false)})` })

  function row(one: Shared): void {
    const { code, lines } = one
    const [{ line }] = lines as [Shared['lines'][number]]
    const { order, apart, price, saved: less } = together(one)
    const cell = (of: Shared['lines'][number], column: number) => `${quotedSheet(of.sheet)}!${address(of.row, column)}`
    const net = lines.map((of) => `IF(${cell(of, takeoffColumns.yours)}="",${cell(of, takeoffColumns.net)},${cell(of, takeoffColumns.yours)})`).join('+')
    const at = (column: number) => address(draft.row, column, false)
    const [waste, lot] = [cell(lines[0]!, takeoffColumns.waste), cell(lines[0]!, takeoffColumns.lot)]
    const decimals = Number.isInteger(line.rule.lot) ? 0 : 2
    draft.put(columns.code, 'faintWrapped', code, { format: 'text' })
    draft.put(columns.text, 'wrapped', line.description)
    draft.put(columns.jobs, 'number', lines.length, { format: 0 })
    const sum = lines.map((of) => cell(of, takeoffColumns.order)).join('+')
    draft.put(columns.order, 'number', order, { format: decimals, formula: line.cut ? sum : `ROUNDUP((${net})*(1+${waste})/${lot}*(1-${LOTS_SLACK}),0)*${lot}` })
    draft.put(columns.unit, 'unit', line.rule.unit)
    draft.put(columns.apart, 'number', apart, { format: decimals, formula: sum })
    const prices = lines.map((of) => cell(of, takeoffColumns.price)).join(',')
    draft.put(columns.price, 'number', price, { format: 2, formula: lines.length === 1 ? prices : `MIN(${prices})` })
    draft.put(columns.saved, 'number', less, { format: 2, formula: `ROUND((${at(columns.apart)}-${at(columns.order)})*${at(columns.price)},2)` })
    draft.next()
  }

  return draft.sheet(ORDER_TOGETHER, {
    kind: 'together',
    widths: [1, 20, 40, 8, 10, 8, 10, 11, 11],
    headingRow: TITLE_ROWS,
    landscape: true,
    footer: ORDER_TOGETHER,
    paper: jobs[0]!.takeoff.house.paper,
  })
}
