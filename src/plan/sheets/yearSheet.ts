/** Storage through the year, roofs and uses behind it, the daily record by year, and the curve of the chosen pump. */
import { formula } from '../../formula/formula.js'
import type { Design } from '../../takeoff/design.js'
import { CURVE_POINTS, monthNames } from '../../takeoff/officeTables.js'
import { recordWords } from '../../takeoff/rainDays.js'
import { catchmentColumns, curveCell, curveColumns, monthColumns, monthDays, monthRain, recordColumns, type ResultRule } from '../../takeoff/results/index.js'
import { decimalsOf, symbolOf } from '../../units.js'
import { cellValue, rowFormula } from '../calls.js'
import type { NamePlaces } from '../places.js'
import { address, range, SheetDraft, type SheetPlan } from '../plan.js'
import { yearPicture } from '../drawing/yearPicture.js'
import { sheetKind, type JobContext } from '../sheetKind.js'

const FIRST_COLUMN = 3
const FIRST_MONTH = 7
const LAST_MONTH = FIRST_MONTH + monthNames.length - 1
/** Title and heading above a block, and the gap before it. */
const ABOVE = 4

interface Blocks {
  roofs: number
  uses: number
  years: number
  points: number
}
/** First rows of the blocks below the months, by what the job has of each. */
function blocksOf(design: Design): Blocks {
  const roofs = LAST_MONTH + 1 + ABOVE
  const uses = roofs + design.catchments.length + ABOVE
  const years = uses + Math.max(1, design.uses.length) + ABOVE
  const points = years + design.column('RecordYear').length + ABOVE
  return { roofs, uses, years, points }
}
const columnIn = (columns: readonly { name: string }[], name: string) => columns.findIndex((column) => column.name === name) + FIRST_COLUMN

function placeYear(names: NamePlaces, sheet: string, design: Design): void {
  const blocks = blocksOf(design)
  const place = (columns: readonly { name: string }[], first: number, rows: number) => {
    for (const { name } of columns) names.set(name, sheet, range(first, first + rows - 1, columnIn(columns, name)))
  }
  place(monthColumns, FIRST_MONTH, monthNames.length)
  place(catchmentColumns, blocks.roofs, design.catchments.length)
  place(recordColumns, blocks.years, design.column('RecordYear').length)
  place(curveColumns, blocks.points, CURVE_POINTS)
  names.set('Curve', sheet, range(blocks.points, blocks.points + CURVE_POINTS - 1, FIRST_COLUMN, FIRST_COLUMN + 1))
}

export const year = sheetKind({ kind: 'year', place: 70, prefix: 'Year', placed: placeYear, plan: yearSheet })

function yearSheet({ design, takeoff, names, heading, flavor }: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  const blocks = blocksOf(design)
  draft.heading(heading.title, 'Storage through the year, the daily record, and the pump curve', heading.made)
  draft.next()
  months()
  roofs()
  uses()
  record()
  curve()
  stair()
  chart()

  function section(text: string, columns: readonly { name: string; label: string }[], first: string, row: number): void {
    draft.row = row - 2
    draft.put(2, 'subtitle', text)
    draft.next()
    draft.put(2, 'heading', first)
    columns.forEach(({ name, label }, at) => draft.put(FIRST_COLUMN + at, 'headingRight', `${label}${symbolOf(name) ? `, ${symbolOf(name)}` : ''}`))
    draft.next()
  }

  /** A column's own row for the names of its block, the Design sheet for the rest. */
  function inRow(columns: readonly { name: string }[], row: number) {
    return (name: string): string => (columnIn(columns, name) >= FIRST_COLUMN ? address(row, columnIn(columns, name), false) : names.from(sheet)(name))
  }

  function months(): void {
    section('Mean months: two like years from empty, yield after spillage, the second one counted; the high bound is yield before spillage', monthColumns, 'Month', FIRST_MONTH)
    monthNames.forEach((month, at) => {
      draft.put(2, 'text', month)
      for (const { name, formula: text } of monthColumns) {
        const format = name === 'MonthDays' ? 0 : decimalsOf(name)
        if (name === 'MonthDays') draft.put(columnIn(monthColumns, name), 'number', monthDays[at]!, { format })
        else draft.put(columnIn(monthColumns, name), 'number', design.column(name)[at]!, { format, formula: monthCell(name, text, at) })
      }
      draft.next()
    })
    draft.put(2, 'subtotalLabel', 'Year')
    for (const { name } of monthColumns) {
      const column = columnIn(monthColumns, name)
      if (/Stored|First/.test(name) || name === 'MonthUse_gal_per_day') draft.put(column, 'subtotal', null)
      else
        draft.put(
          column,
          'subtotal',
          design.column(name).reduce((sum, value) => sum + value, 0),
          {
            formula: `SUM(${range(FIRST_MONTH, LAST_MONTH, column).replace(/\$/g, '')})`,
            format: name === 'MonthDays' ? 0 : decimalsOf(name),
          },
        )
    }
    draft.next()
  }

  function monthCell(name: string, text: string, at: number): string {
    const row = FIRST_MONTH + at
    if (name === 'MonthRain_in') return formula(monthRain(at)).render(names.from(sheet))
    if (name === 'MonthUse_gal_per_day')
      return `${names.from(sheet)('DailyUse_gal_per_day')}+SUM(${range(blocks.uses, blocks.uses + Math.max(1, design.uses.length) - 1, FIRST_COLUMN + at)})`
    const inMonth = inRow(monthColumns, row)
    const place = (wanted: string): string => {
      if (!wanted.startsWith('before_')) return inMonth(wanted)
      const own = wanted.slice('before_'.length)
      if (at > 0) return address(row - 1, columnIn(monthColumns, own), false)
      const first = { MonthStored_gal: 'FirstYear_gal', HighStored_gal: 'HighFirst_gal' }[own]
      return first === undefined ? '0' : address(LAST_MONTH, columnIn(monthColumns, first))
    }
    return rowFormula(flavor, text, place)
  }

  function roofs(): void {
    section('Roofs: that of the job row, then those of the sheet Catchments', catchmentColumns, 'Roof', blocks.roofs)
    design.catchments.forEach((catchment, at) => {
      draft.put(2, 'text', String(at + 1), { format: 'text' })
      const values: Record<string, string | number> = { CatchArea_ft2: catchment.area_ft2, CatchSurface: catchment.surface, CatchInlet: catchment.inlet }
      const fromRow: Readonly<Record<string, string>> = at === 0 ? { CatchArea_ft2: 'RoofArea_ft2', CatchSurface: 'RoofSurface' } : {}
      for (const rule of catchmentColumns as readonly ResultRule[]) {
        const column = columnIn(catchmentColumns, rule.name)
        const live = rule.formula ? formula(rule.formula).render(inRow(catchmentColumns, draft.row)) : fromRow[rule.name] ? names.from(sheet)(fromRow[rule.name]!) : undefined
        const value = cellValue((design.value(rule.name) as readonly (string | number)[])[at] ?? values[rule.name])
        draft.put(column, typeof value === 'number' ? 'number' : 'text', value, {
          ...(live === undefined ? {} : { formula: live }),
          ...(typeof value === 'number' ? { format: rule.name === 'CatchRunoff' ? 2 : 0 } : {}),
        })
      }
      draft.next()
    })
  }

  function uses(): void {
    section(
      'Use that changes by month, gal/day: copied from the sheet Uses',
      monthNames.map((month) => ({ name: month, label: month })),
      'Use',
      blocks.uses,
    )
    for (const { use, months: amounts } of design.uses.length ? design.uses : [{ use: 'none', months: monthNames.map(() => null) }]) {
      draft.put(2, 'text', use || 'use', { format: 'text' })
      amounts.forEach((amount, at) => draft.put(FIRST_COLUMN + at, 'number', amount, { format: 0 }))
      draft.next()
    }
  }

  function record(): void {
    const words = design.record
      ? `Daily record: ${recordWords(design.record)}. Yield after spillage, empty at the start; values, checked by RecordAgrees on the Design sheet`
      : 'Daily record: none for this station'
    section(words, recordColumns, '', blocks.years)
    design.column('RecordYear').forEach((_, at) => {
      for (const rule of recordColumns as readonly ResultRule[]) {
        const value = cellValue((design.value(rule.name) as readonly (string | number)[])[at])
        const isLive = rule.formula !== '' && design.record !== undefined
        draft.put(columnIn(recordColumns, rule.name), 'number', value, {
          format: rule.name === 'RecordShare' ? 4 : rule.name === 'RecordYear' ? { code: '0' } : rule.name === 'RecordRain_in' ? 2 : 0,
          ...(isLive ? { formula: formula(rule.formula).render(inRow(recordColumns, draft.row)) } : {}),
        })
      }
      draft.next()
    })
  }

  function curve(): void {
    section('Pump curve', curveColumns, 'Point', blocks.points)
    for (let point = 0; point < CURVE_POINTS; point++) {
      draft.put(2, 'text', String(point + 1), { format: 'text' })
      for (const { name } of curveColumns) {
        draft.put(columnIn(curveColumns, name), 'number', cellValue((design.value(name) as readonly number[])[point]), {
          format: decimalsOf(name),
          formula: formula(curveCell(name, point)).render(names.from(sheet)),
        })
      }
      draft.next()
    }
  }

  /** What the next tank brings: values, as they were when this was made. */
  function stair(): void {
    draft.next()
    draft.put(2, 'subtitle', 'One tank to twelve: what each count meets; prices of those that the sheet Options works out')
    draft.next()
    ;['Tanks', 'Usable, gal', 'Of the wish, %', 'Worst year, %', 'Price, $'].forEach((text, at) => draft.put(2 + at, at ? 'headingRight' : 'heading', text))
    draft.next()
    for (const { tanks, usable_gal, met, worst, price } of takeoff.stair(false)) {
      draft.put(2, tanks === design.number('TankCount') ? 'subtotalLabel' : 'text', String(tanks), { format: 'text' })
      draft.put(3, 'number', usable_gal, { format: 0 })
      draft.put(4, 'number', 100 * met, { format: 1 })
      draft.put(5, 'number', worst === undefined ? null : 100 * worst, { format: 1 })
      draft.put(6, 'number', price ?? null, { format: 0 })
      draft.next()
    }
  }

  /** The months once more, as a picture. */
  function chart(): void {
    draft.next()
    draft.put(2, 'subtitle', 'Mean months: stored at the month’s end, above the dead depth')
    draft.next()
    draft.draw([2, yearPicture(design, (gallons) => `${gallons.toLocaleString('en-US', { maximumFractionDigits: 0 })} gal`), { size: 9, width: 460 }])
  }

  return draft.sheet(sheet, {
    kind: 'year',
    widths: [1, 14, ...monthColumns.map(() => 11)],
    headingRow: 3,
    landscape: true,
    footer: design.name,
  })
}
