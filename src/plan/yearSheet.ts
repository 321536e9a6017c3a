/** The storage through the year, month by month, and the curve of the chosen pump. Native formulas in both flavours. */
import { formula } from '../formula/formula.js'
import type { Design } from '../takeoff/design.js'
import { CURVE_POINTS, monthNames } from '../takeoff/officeTables.js'
import { curveCell, curveColumns, monthColumns, monthDays, monthRain } from '../takeoff/results.js'
import { decimalsOf, symbolOf } from '../units.js'
import { cellValue, rowFormula, type Flavor } from './calls.js'
import type { NamePlaces } from './places.js'
import { address, range, SheetDraft, type SheetPlan } from './plan.js'

const FIRST_MONTH = 7
const LAST_MONTH = FIRST_MONTH + monthNames.length - 1
const FIRST_POINT = LAST_MONTH + 6
const columnOf = (name: string) => monthColumns.findIndex((column) => column.name === name) + 3
const curveColumn = (name: string) => curveColumns.findIndex((column) => column.name === name) + 3

export function placeYear(names: NamePlaces, sheet: string): void {
  for (const { name } of monthColumns) names.set(name, sheet, range(FIRST_MONTH, LAST_MONTH, columnOf(name)))
  for (const { name } of curveColumns) names.set(name, sheet, range(FIRST_POINT, FIRST_POINT + CURVE_POINTS - 1, curveColumn(name)))
  names.set('Curve', sheet, range(FIRST_POINT, FIRST_POINT + CURVE_POINTS - 1, 3, 4))
}

export function yearSheet(design: Design, names: NamePlaces, sheet: string, heading: { title: string; made: string }, flavor: Flavor): SheetPlan {
  const draft = new SheetDraft()
  const section = (text: string) => draft.put(2, 'subtitle', text)
  draft.heading(heading.title, 'Storage through the year, and the pump curve', heading.made)
  draft.next()
  section('Storage: two like years from empty, the second one counted')
  draft.next()
  draft.put(2, 'heading', 'Month')
  monthColumns.forEach(({ name, label }) => draft.put(columnOf(name), 'headingRight', `${label}${symbolOf(name) ? `, ${symbolOf(name)}` : ''}`))
  draft.next()
  monthNames.forEach((month, at) => {
    draft.put(2, 'text', month)
    for (const { name, formula: text } of monthColumns) {
      const value = design.column(name)[at]!
      const format = name === 'MonthDays' ? 0 : decimalsOf(name)
      if (name === 'MonthDays') draft.put(columnOf(name), 'number', monthDays[at]!, { format })
      else draft.put(columnOf(name), 'number', value, { format, formula: name === 'MonthRain_in' ? formula(monthRain(at)).render(names.from(sheet)) : monthFormula(text, at) })
    }
    draft.next()
  })
  draft.put(2, 'subtotalLabel', 'Year')
  for (const { name } of monthColumns) {
    const isSum = !['FirstYear_gal', 'MonthStored_gal'].includes(name)
    const total = design.column(name).reduce((sum, value) => sum + value, 0)
    if (isSum)
      draft.put(columnOf(name), 'subtotal', total, {
        formula: `SUM(${range(FIRST_MONTH, LAST_MONTH, columnOf(name)).replace(/\$/g, '')})`,
        format: name === 'MonthDays' ? 0 : decimalsOf(name),
      })
    else draft.put(columnOf(name), 'subtotal', null)
  }
  draft.next(3)
  section('Pump curve')
  draft.next()
  draft.put(2, 'heading', 'Point')
  curveColumns.forEach(({ name, label }) => draft.put(curveColumn(name), 'headingRight', `${label}, ${symbolOf(name)}`))
  draft.next()
  for (let point = 0; point < CURVE_POINTS; point++) {
    draft.put(2, 'text', String(point + 1), { format: 'text' })
    for (const { name } of curveColumns) {
      draft.put(curveColumn(name), 'number', cellValue((design.value(name) as readonly number[])[point]), {
        format: decimalsOf(name),
        formula: formula(curveCell(name, point)).render(names.from(sheet)),
      })
    }
    draft.next()
  }

  /** A month's own row for the month columns, the row above for what stood before, the Design sheet for the rest. */
  function monthFormula(text: string, at: number): string {
    const row = FIRST_MONTH + at
    const place = (name: string): string => {
      if (name.startsWith('before_')) {
        const own = name.slice('before_'.length)
        if (at > 0) return address(row - 1, columnOf(own), false)
        return own === 'FirstYear_gal' ? '0' : address(LAST_MONTH, columnOf('FirstYear_gal'))
      }
      return columnOf(name) > 2 ? address(row, columnOf(name), false) : names.from(sheet)(name)
    }
    return rowFormula(flavor, text, place)
  }

  return {
    name: sheet,
    kind: 'year',
    widths: [2, 12, 13, 13, 13, 13, 13, 13, 13, 13],
    cells: draft.cells,
    frozenRows: 6,
    titleRows: [1, 3],
    landscape: true,
    footer: design.name,
    tables: [],
    validations: [],
  }
}
