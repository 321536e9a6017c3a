/** The Takeoff sheet: itemized, priced, with the reason of every line; overrides and added lines have their own cells. */
import { formula } from '../../formula/formula.js'
import { isStone, LABOR_HOURS, STONE_ORDERED, type ItemRule } from '../../takeoff/itemRules.js'
import { itemKinds, jobFields, sections, type ItemKind } from '../../takeoff/officeTables.js'
import { priceFlag } from '../../takeoff/priceFlags.js'
import { money } from '../../rounding.js'
import { lineFormula, type LineCell, type LineFigure } from '../../takeoff/lineFigures.js'
import { type Line } from '../../takeoff/lines.js'
import type { AddedLine } from '../../takeoff/typed.js'
import { definedName, type DefinedName } from '../definedNames.js'
import { lookup } from '../places.js'
import { address, SheetDraft, TITLE_ROWS, type PlanCell, type SheetPlan } from '../plan.js'
import { decimalsOf, unitNamed } from '../../units.js'
import { sheetKind, type JobContext } from '../sheetKind.js'

/** Columns of the sheet; hosts read overrides and added lines back from them. */
export const takeoffColumns = {
  code: 2,
  description: 3,
  order: 4,
  unit: 5,
  price: 6,
  amount: 7,
  yours: 8,
  net: 9,
  waste: 10,
  lot: 11,
  hours: 12,
  kind: 13,
  listed: 14,
  now: 15,
  why: 16,
} as const
export type TakeoffColumn = keyof typeof takeoffColumns
export const TAKEOFF_HEADING_ROW = TITLE_ROWS
export const ADDED_SECTION = 'ADDED BY HAND'
const ADDED_SECTION_WORDS = 'Added by hand'
const SUMMARY = 'SUMMARY'
/** Its heading, lines by hand, cost to total, a gallon, kinds, days, what the list has moved, and a gap. */
const SUMMARY_ROWS = 1 + 1 + 5 + 1 + itemKinds.length + 2 + 1
export const SPARE_ADDED_ROWS = 4
const columns = takeoffColumns
const headings: readonly (readonly [TakeoffColumn, string])[] = [
  ['code', 'Code'],
  ['description', 'Description'],
  ['order', 'Order'],
  ['unit', 'Unit'],
  ['price', 'Unit price, $'],
  ['amount', 'Amount, $'],
  ['yours', 'Your quantity'],
  ['net', 'Net'],
  ['waste', 'Waste'],
  ['lot', 'Lot'],
  ['hours', 'Hours'],
  ['kind', 'Kind'],
  ['listed', 'Listed then, $'],
  ['now', 'List now, $'],
  ['why', 'Why'],
]
/** What stands as the heading of a part, where the sections are these. */
export const partHeadings = (all: readonly string[]): readonly string[] => [...all.map((section) => section.toUpperCase()), ADDED_SECTION, SUMMARY]
const kindLabel = (kind: ItemKind) => `Of the order cost: ${kind}`
const CREW_DAYS = 'Days of the crew'
const PER_GALLON = 'Price a gallon stored'
const LIST_MOVED = 'List prices have moved the order cost by'
const SUM_END = ', total'
export const sumOf = (section: string) => `${section}${SUM_END}`
/** Sections by the words beside their sums, with ours: an office may have sections of its own. */
export const sectionsBySums = (words: readonly string[]): readonly string[] => [
  ...new Set([...sections, ...words.filter((label) => label.endsWith(SUM_END)).map((label) => label.slice(0, -SUM_END.length))]),
]
export const ADDED_SUM = 'Added by hand, total'
/** Names by which other sheets of the job find a sum, or a cell of a line. */
export const sumPlace = (label: string) => `sum ${label}`
/** The rows of all lines and section sums. */
export const LINE_ROWS = 'rows of lines'
export const linePlace = (code: string, column: 'description' | 'order' | 'unit' | 'price') => `line ${code} ${column}`
export const sumLabels = (all: readonly string[]): readonly string[] => [
  ...all,
  ADDED_SECTION_WORDS,
  ...all.map(sumOf),
  ADDED_SUM,
  'Order cost',
  'Overhead',
  'Markup',
  'Tax',
  'Total',
  ...itemKinds.map(kindLabel),
  CREW_DAYS,
  PER_GALLON,
  LIST_MOVED,
]
/** Sums of the summary that have a name in the workbook, beside those of the sections. */
const pointedAt: readonly string[] = ['Order cost', 'Overhead', 'Markup', 'Tax', 'Total']
export const takeoffHeading = (column: TakeoffColumn): string => headings.find(([name]) => name === column)![1]
/** Decimals of a quantity by the unit it is priced in; pieces, jobs and loads are whole. */
const netDecimals = (rule: ItemRule): number => {
  const unit = unitNamed(rule.unit)
  return unit ? decimalsOf(`net_${unit}`) : 0
}
const orderDecimals = (rule: ItemRule) => (Number.isInteger(rule.lot) ? 0 : 2)
const textColumns: readonly string[] = ['code', 'description', 'unit', 'why', 'kind']

export const takeoff = sheetKind({ kind: 'takeoff', place: 10, prefix: 'Takeoff', plan: takeoffSheet })

function takeoffSheet({ takeoff, design, names, places, writer, heading, made, earlier }: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  draft.heading(heading.title, 'Itemized takeoff', heading.made)
  draft.next()
  for (const [name, text] of headings) draft.put(columns[name], textColumns.includes(name) ? 'heading' : 'headingRight', text)
  draft.next()
  // The summary stands first and is filled in last: its rows are known, the cells that it sums are not yet.
  const summaryRow = draft.row
  draft.next(takeoff.sections.length + SUMMARY_ROWS)
  const subtotals: string[] = []
  const definedNames: DefinedName[] = []
  const named = (sum: string) => definedNames.push({ name: definedName(design.name, sum), row: draft.row, column: columns.amount })
  const hourCells = new Map<Line, string>()
  const stoneCells: string[] = []
  const firstLineRow = draft.row
  const pending: (() => void)[] = []
  for (const { section, lines, total } of takeoff.sections) {
    draft.section(columns.why, section.toUpperCase())
    const first = draft.row
    for (const line of lines) {
      writeLine(line)
      draft.next()
    }
    subtotal(sumOf(section), first, draft.row - 1, total)
  }
  names.set(LINE_ROWS, sheet, `${address(firstLineRow, columns.code)}:${address(draft.row - 1, columns.code)}`)
  const lastLineRow = draft.row - 1
  addedLines()
  summary()
  for (const finish of pending) finish()

  function writeLine(line: Line): void {
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
    if (rule.sum) pending.push(() => draft.put(columns.net, 'number', line.net, { row, format: netDecimals(rule), formula: sumFormula(rule) }))
    else draft.put(columns.net, 'number', line.net, { format: netDecimals(rule), formula: writer.write(rule.quantity.text, sheet, `${line.code}, net quantity`) })
    draft.put(columns.yours, 'input', line.override ?? null, { format: netDecimals(rule) })
    draft.put(columns.waste, 'number', rule.waste, { format: 2, formula: item('Waste') })
    draft.put(columns.lot, 'number', rule.lot, { format: orderDecimals(rule), formula: `MAX(0.01,IF(${item('Lot')}=0,1,${item('Lot')}))` })
    draft.put(columns.order, 'number', line.order, { format: orderDecimals(rule), formula: live(rule.pieces ? 'orderCut' : 'order') })
    draft.put(columns.unit, 'unit', rule.unit)
    const listed = rule.price
      ? writer.write(rule.price.text, sheet, `${line.code}, price`)
      : `${lookup(places, 'Prices', 'Price_usd', at('code'))}${line.priceFor === 1 ? '' : `/${line.priceFor}`}`
    const list = rule.isEarthwork ? `IF(${cells.EarthworkBy}="subcontract",${listed},0)` : listed
    // A made takeoff keeps the prices it was made with: what the list says now stands beside. A price of the job's own figures stays live.
    const isLive = rule.price !== undefined && rule.price.names.every((name) => Object.hasOwn(jobFields, name) || design.ownFields.includes(name))
    const kept = isLive ? { formula: list } : rule.isEarthwork ? { formula: `IF(${cells.EarthworkBy}="subcontract",${line.subcontract},0)` } : {}
    draft.put(columns.price, 'input', line.price ?? null, line.priceOverride === undefined ? { format: 2, ...kept } : { format: 2 })
    draft.put(columns.listed, 'faintRight', line.listed ?? null, { format: 2, ...(isLive && line.priceOverride === undefined ? { formula: at('price') } : kept) })
    draft.put(columns.now, 'faintRight', line.listed ?? null, { format: 2, formula: isLive ? at('listed') : `IFERROR(${list},${at('listed')})` })
    draft.put(columns.amount, 'number', line.amount, { format: 2, formula: live('amount') })
    draft.put(columns.hours, 'number', line.hours, { format: 2, formula: live(rule.isEarthwork ? 'hoursOfEarth' : 'hours') })
    if (rule.sum !== LABOR_HOURS) hourCells.set(line, at('hours'))
    if (isStone(line.code)) stoneCells.push(at('order'))
    for (const column of ['description', 'order', 'unit', 'price'] as const) names.set(linePlace(line.code, column), sheet, address(row, columns[column]))
    draft.put(columns.kind, 'faint', rule.kind)
    const flag = priceFlag(takeoff, line, String(design.single('Date') || made.date), earlier.before)
    const [why, reason] = words(rule.why, line.why)
    const added = flag ? `. ${flag}` : ''
    draft.put(columns.why, 'faintWrapped', `${String(why)}${added}`, reason.formula !== undefined && added ? { formula: `${reason.formula}&"${added}"` } : reason)
  }

  /** A quantity over other lines: the stone ordered, or the hours of every line but those of labor itself, one sum a section. */
  function sumFormula(rule: ItemRule): string {
    if (rule.sum === STONE_ORDERED) return formula(rule.quantity.text).render((name) => (name === STONE_ORDERED ? `(${stoneCells.join('+') || '0'})` : names.from(sheet)(name)))
    const rows = [...hourCells.values()].map((cell) => Number(/\d+$/.exec(cell)![0])).sort((a, b) => a - b)
    const runs: [number, number][] = []
    for (const row of rows) {
      const last = runs.at(-1)
      if (last && row === last[1] + 1) last[1] = row
      else runs.push([row, row])
    }
    const ranges = runs.map(([from, to]) => `${address(from, columns.hours, false)}:${address(to, columns.hours, false)}`)
    const sum = ranges.length ? `SUM(${ranges.join(',')})` : '0'
    return formula(rule.quantity.text).render((name) => (name === LABOR_HOURS ? sum : names.from(sheet)(name)))
  }

  function subtotal(label: string, first: number, last: number, total: number): void {
    const sum = `SUM(${address(first, columns.amount, false)}:${address(last, columns.amount, false)})`
    draft.put(columns.description, 'subtotalLabel', label)
    for (let column = columns.order; column < columns.amount; column++) draft.put(column, 'subtotalLabel', null)
    draft.put(columns.amount, 'subtotal', total, { format: 2, formula: sum })
    names.set(sumPlace(label), sheet, address(draft.row, columns.amount))
    named(label.slice(0, -SUM_END.length))
    subtotals.push(address(draft.row, columns.amount, false))
    draft.next(2)
  }

  function addedLines(): void {
    draft.section(columns.why, ADDED_SECTION)
    const first = draft.row
    const blank: AddedLine = { code: '', description: '', unit: '', quantity: null, price: null, why: '' }
    for (const line of [...takeoff.added, ...Array.from({ length: SPARE_ADDED_ROWS }, () => blank)]) {
      const text = (column: TakeoffColumn, value: string) => draft.put(columns[column], 'inputText', value || null, { format: 'text' })
      text('code', line.code)
      text('description', line.description)
      draft.put(columns.yours, 'input', line.quantity, { format: 2 })
      text('unit', line.unit)
      draft.put(columns.price, 'input', line.price, { format: 2 })
      const product = lineFormula('product', (name) => address(draft.row, name === 'Yours' ? columns.yours : columns.price, false))
      draft.put(columns.amount, 'number', money((line.quantity ?? 0) * (line.price ?? 0)), { format: 2, formula: product })
      text('why', line.why)
      draft.put(columns.kind, 'inputText', line.kind ?? 'other', { format: 'text' })
      draft.next()
    }
    subtotal(ADDED_SUM, first, draft.row - 1, takeoff.addedTotal)
  }

  function summary(): void {
    const end = draft.row
    draft.row = summaryRow
    const amount = (row: number) => address(row, columns.amount, false)
    const line = (label: string, value: number, text: string, role: 'number' | 'subtotal' | 'total' = 'number', why = '') => {
      const words = role === 'total' ? 'totalLabel' : role === 'subtotal' ? 'subtotalLabel' : 'text'
      draft.put(columns.description, words, label)
      if (role !== 'number') for (let column = columns.order; column < columns.amount; column++) draft.put(column, words, null)
      draft.put(columns.amount, role, value, { format: 2, formula: text })
      names.set(sumPlace(label), sheet, address(draft.row, columns.amount))
      if (pointedAt.includes(label)) named(label)
      if (why) draft.put(columns.why, 'faintWrapped', why)
      draft.next()
      return draft.row - 1
    }
    draft.section(columns.why, SUMMARY)
    const parts = [...takeoff.sections.map(({ section, total }) => [section as string, total] as const), [ADDED_SECTION_WORDS, takeoff.addedTotal] as const]
    parts.forEach(([label, total], at) => {
      draft.put(columns.description, 'text', label)
      draft.put(columns.amount, 'number', total, { format: 2, formula: subtotals[at]! })
      draft.next()
    })
    const cost = line('Order cost', takeoff.orderCost, subtotals.join('+'), 'subtotal', 'Sum of the section totals')
    const lines = (column: number) => `${address(firstLineRow, column, false)}:${address(lastLineRow, column, false)}`
    const all = (column: number) => `${address(firstLineRow, column, false)}:${address(end - 1, column, false)}`
    const { house } = takeoff
    const isAll = (kinds: readonly ItemKind[]) => kinds.length === itemKinds.length
    const inWords = (kinds: readonly ItemKind[]) => (isAll(kinds) ? 'the order cost' : kinds.join(', ') || 'nothing')
    /** The part of the cost that is of some kinds. */
    const base = (kinds: readonly ItemKind[]) =>
      isAll(kinds) ? amount(cost) : kinds.length ? `SUMPRODUCT((${kinds.map((kind) => `(${all(columns.kind)}="${kind}")`).join('+')})*1,${all(columns.amount)})` : '0'
    const rate = (name: 'Overhead' | 'Markup' | 'Tax') => names.from(sheet)(name)
    const overhead = line(
      'Overhead',
      takeoff.overhead,
      `ROUND(${base(house.overheadOn)}*${rate('Overhead')},2)`,
      'number',
      `Overhead of the Design sheet, on ${inWords(house.overheadOn)}`,
    )
    const markup = line('Markup', takeoff.markup, `ROUND(${base(house.markupOn)}*${rate('Markup')},2)`, 'number', `Markup of the Design sheet, on ${inWords(house.markupOn)}`)
    const priced = `(${amount(cost)}+${amount(overhead)}+${amount(markup)})`
    const taxed = (on: readonly ItemKind[]) => base(house.taxOn.filter((kind) => on.includes(kind)))
    const tax = line(
      'Tax',
      takeoff.tax,
      `ROUND(${isAll(house.taxOn) ? priced : `(${base(house.taxOn)}+${taxed(house.overheadOn)}*${rate('Overhead')}+${taxed(house.markupOn)}*${rate('Markup')})`}*${rate('Tax')},2)`,
      'number',
      `Tax of the Design sheet, on ${inWords(house.taxOn)} with ${isAll(house.taxOn) ? '' : 'its '}overhead and markup`,
    )
    const total = line('Total', takeoff.total, `${amount(cost)}+${amount(overhead)}+${amount(markup)}+${amount(tax)}`, 'total')
    const hours = `SUM(${lines(columns.hours)})-SUMPRODUCT((${lines(columns.kind)}="labor")*1,${lines(columns.hours)})`
    const storage = design.number('Storage_gal')
    line(PER_GALLON, storage > 0 ? takeoff.total / storage : 0, `IF(${names.from(sheet)('Storage_gal')}>0,${amount(total)}/${names.from(sheet)('Storage_gal')},0)`)
    for (const kind of itemKinds) line(kindLabel(kind), takeoff.byKind[kind], `SUMPRODUCT((${all(columns.kind)}="${kind}")*1,${all(columns.amount)})`)
    line(
      CREW_DAYS,
      takeoff.crewDays,
      `(${hours})/(${names.from(sheet)('CrewSize')}*${names.from(sheet)('Workday_h_per_day')})`,
      'number',
      'Hours of people over the crew and its working day; they change no cost',
    )
    line(
      LIST_MOVED,
      0,
      `SUMPRODUCT(${lines(columns.order)},${lines(columns.now)})-SUMPRODUCT(${lines(columns.order)},${lines(columns.listed)})`,
      'number',
      'Prices stand as they were when this was made; made again, it takes those of the list',
    )
    draft.row = end
  }

  return draft.sheet(sheet, {
    kind: 'takeoff',
    widths: [1, 16, 42, 9, 7, 11, 13, 10, 9, 7, 7, 8, 11, 10, 10, 60],
    headingRow: TAKEOFF_HEADING_ROW,
    landscape: false,
    footer: design.name,
    definedNames,
    print: { percent: 100, lastColumn: columns.amount },
  })
}
