/** The daily proof: the balance of the record once more, a row a day, as formulas that recalculate. Made only where a job asks for it. */
import { formula, type Scope } from '../../formula/formula.js'
import type { Single } from '../../formula/value.js'
import { callFromFormula } from '../../takeoff/call.js'
import type { Design } from '../../takeoff/design.js'
import { dayColumns, dayStart } from '../../takeoff/results/index.js'
import { decimalsOf, symbolOf } from '../../units.js'
import { cellValue, rowFormula } from '../calls.js'
import type { NamePlaces } from '../places.js'
import { address, columnLetters, range, SheetDraft, TITLE_ROWS, type SheetPlan } from '../plan.js'
import { sheetKind, type JobContext } from '../sheetKind.js'

const DATE = 2
const MONTH = 3
const FIRST_COLUMN = 4
const SUM_ROW = TITLE_ROWS - 1
const FIRST_ROW = TITLE_ROWS + 1
const columnOf = (name: string): number => dayColumns.findIndex((column) => column.name === name) + FIRST_COLUMN
const own = new Set<string>(dayColumns.map(({ name }) => name))

interface Day {
  date: string
  month: number
  rain_in: number
}
const daysOf = (design: Design): readonly Day[] =>
  (design.record?.years ?? []).flatMap(({ year, rain_in }) =>
    Array.from(rain_in, (rain, at): Day => {
      const date = new Date(Date.UTC(year, 0, 1 + at))
      return { date: date.toISOString().slice(0, 10), month: date.getUTCMonth() + 1, rain_in: rain }
    }),
  )
export const hasProof = (design: Design): boolean => design.single('DailyProof') === 'yes' && design.record !== undefined

/** Sums over the days, by the names that the Checks sheet points at. */
export const proofSums = (['DayWanted_gal', 'DayCaught_gal', 'DaySupplied_gal', 'DaySpilled_gal'] as const).map((day) => ({
  day,
  label: dayColumns.find(({ name }) => name === day)!.label,
  record: day.replace('Day', 'Record'),
  proof: day.replace('Day', 'Proof'),
}))

function placeProof(names: NamePlaces, sheet: string, design: Design): void {
  if (!hasProof(design)) return
  for (const { day, proof: name } of proofSums) names.set(name, sheet, address(SUM_ROW, columnOf(day)))
}

export const proof = sheetKind({ kind: 'proof', place: 75, prefix: 'Proof', placed: placeProof, plan: proofSheet })

function proofSheet({ design, names, heading, flavor }: JobContext, sheet: string): SheetPlan | undefined {
  if (!hasProof(design)) return undefined
  const days = daysOf(design)
  const lastRow = FIRST_ROW + days.length - 1
  const draft = new SheetDraft()
  draft.heading(heading.title, 'Daily proof: yield after spillage, empty at the start; rain is copied from the sheet RainDays, a day without a reading is dry', heading.made)
  draft.put(DATE, 'subtotalLabel', 'Sum')
  for (const { name } of dayColumns) {
    const isSummed = proofSums.some(({ day }) => day === name) || name === 'DayRain_in'
    draft.put(columnOf(name), 'subtotal', null, isSummed ? { format: decimalsOf(name) } : {})
  }
  const sums = draft.cells.slice(-dayColumns.length)
  draft.next()
  draft.put(DATE, 'heading', 'Day')
  draft.put(MONTH, 'headingRight', 'Month')
  for (const { name, label } of dayColumns) draft.put(columnOf(name), 'headingRight', `${label}, ${symbolOf(name)}`)
  draft.next()

  const before = new Map<string, Single>(Object.entries(dayStart))
  const formulas = rowTexts()
  const totals = new Map<string, number>()
  days.forEach(({ date, month, rain_in }, at) => {
    const row: Record<string, Single> = { DayRain_in: rain_in, DayWanted_gal: design.column('MonthUse_gal_per_day')[month - 1]! }
    const scope: Scope = { value: (name) => row[name] ?? before.get(name) ?? design.value(name), call: callFromFormula }
    draft.put(DATE, 'text', date, { format: 'text' })
    draft.put(MONTH, 'number', month, { format: 0 })
    for (const { name, formula: text } of dayColumns) {
      if (text) row[name] = formula(text).evaluate(scope) as Single
      const value = cellValue(row[name])
      const live = formulas.get(name)?.(draft.row, at === 0)
      draft.put(columnOf(name), 'number', value, { format: decimalsOf(name), ...(live === undefined ? {} : { formula: live }) })
      totals.set(name, (totals.get(name) ?? 0) + Number(value))
    }
    for (const name of before.keys()) before.set(name, row[name.slice('before_'.length)]!)
    draft.next()
  })
  dayColumns.forEach(({ name }, at) => {
    if (sums[at]!.format === undefined) return
    sums[at]!.value = totals.get(name)!
    sums[at]!.formula = `SUM(${range(FIRST_ROW, lastRow, columnOf(name))})`
  })

  /** Ten thousand rows say the same: each formula is rendered once, with the row of the day and of the day before left open. */
  function rowTexts(): ReadonlyMap<string, (row: number, isFirst: boolean) => string> {
    const [here, dayBefore] = ['\u0001', '\u0002']
    const place = (isFirst: boolean) => (name: string) => {
      if (own.has(name)) return `${columnLetters(columnOf(name))}${here}`
      if (Object.hasOwn(dayStart, name)) return isFirst ? '0' : `${columnLetters(columnOf(name.slice('before_'.length)))}${dayBefore}`
      return names.from(sheet)(name)
    }
    const texts: [string, string, string][] = dayColumns.flatMap(({ name, formula: text }) =>
      text ? [[name, rowFormula(flavor, text, place(false)), rowFormula(flavor, text, place(true))] as [string, string, string]] : [],
    )
    const use = `INDEX(${names.from(sheet)('MonthUse_gal_per_day')},${columnLetters(MONTH)}${here})`
    texts.push(['DayWanted_gal', use, use])
    return new Map(
      texts.map(([name, text, first]) => [name, (row: number, isFirst: boolean) => (isFirst ? first : text).replaceAll(here, String(row)).replaceAll(dayBefore, String(row - 1))]),
    )
  }

  return draft.sheet(sheet, {
    kind: 'proof',
    widths: [1, 12, 8, ...dayColumns.map(() => 13)],
    headingRow: TITLE_ROWS,
    landscape: true,
    footer: design.name,
  })
}
