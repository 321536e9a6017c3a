/** What people type into the page's tables and takeoffs: a number where one was meant, the text that they typed, and never a day, an hour or other money. */
import { Model } from '@odoo/o-spreadsheet'
import { expect, it } from 'vitest'
import { gridData } from '../../src/hosts/gridData.js'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { registerTexts, WORD_JOINER } from '../../src/hosts/gridTexts.js'
import { columnLetters } from '../../src/plan/plan.js'
import { designColumns } from '../../src/plan/sheets/designColumns.js'
import { testColumns } from '../../src/plan/sheets/testDraft.js'
import { takeoffColumns } from '../../src/plan/sheets/takeoffColumns.js'
import { takeoffWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { readOffice } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'

// The engine registers the functions with the grid.
void new GridEngine()
registerTexts()

const raw = startingOffice(true)
const office = readOffice(raw)
const plan = takeoffWorkbook(raw, [makeTakeoff(office, office.tables.Jobs[0]!)], 'native', { date: '2026-11-25', revision: 1, version: 'test' })
const model = new Model(gridData(plan) as never)
/** As a text that no formula counts with. */
function refused(typedIn: string): string {
  return typedIn + WORD_JOINER
}
interface Getters {
  getSheetIdByName(name: string): string
  getEvaluatedCell(at: object): { value: unknown; type: string; formattedValue: string }
  getCell(at: object): { format?: string } | undefined
}
const getters = model.getters as unknown as Getters
/** Types as the grid's editor does: with the format that it makes of the text. */
function typed(sheet: string, row: number, column: number, content: string, format?: string) {
  const at = { sheetId: getters.getSheetIdByName(sheet), row: row - 1, col: column - 1 }
  model.dispatch('UPDATE_CELL' as never, { ...at, content, ...(format ? { format } : {}) } as never)
  const { value, formattedValue } = getters.getEvaluatedCell(at)
  return { value, shown: formattedValue, format: getters.getCell(at)?.format ?? '' }
}
const placeOf = (sheet: string, word: string) => plan.sheets.find(({ name }) => name === sheet)!.cells.find(({ value }) => value === word)!
const under = (table: string, heading: string) => ({ row: placeOf(table, heading).row + 1, column: placeOf(table, heading).column })
const DAY = 'mm/dd'
const takeoff = plan.sheets.find(({ kind }) => kind === 'takeoff')!.name
const design = plan.sheets.find(({ kind }) => kind === 'design')!.name

it.each<[string, string, string, number | string]>([
  ['Jobs', 'Cover_ft', '1/2', 0.5],
  ['Jobs', 'Cover_ft', '2 1/2', 2.5],
  ['Jobs', 'Cover_ft', '50%', refused('50%')],
  ['Jobs', 'HouseFlow_gpm', '3:30', refused('3:30')],
  ['Jobs', 'HouseFlow_gpm', '3 pm', refused('3 pm')],
  ['Jobs', 'Markup', '25%', 0.25],
  ['Jobs', 'Cover_ft', '45 m', '45 m'],
  ['Jobs', 'Job', '12-3', '12-3'],
  ['Prices', 'Price_usd', '3/4', 0.75],
  ['Prices', 'Price_usd', '$1,200', 1200],
  ['Prices', 'Price_usd', '€45', refused('€45')],
  ['Prices', 'Price_usd', '5%', refused('5%')],
  ['RainDays', 'Alder Reach', '1/2', 0.5],
  ['RainDays', 'Alder Reach', '25%', refused('25%')],
  ['RainDays', 'Alder Reach', '3:30', refused('3:30')],
  ['Jobs', 'LaborRate_usd_per_h', '$62', 62],
  ['Tanks', 'Wall_in', '5 1/2', 5.5],
  ['Jobs', 'Date', '1 2 3', '1 2 3'],
])('%s %s: "%s" is %s, and the number typed after it is that number', (table, heading, text, value) => {
  const { row, column } = under(table, heading)
  expect(typed(table, row, column, text, /[/\d] ?\d/.test(text) ? DAY : undefined).value).toBe(value)
  if (heading === 'Job' || heading === 'Date') return
  const next = typed(table, row, column, '3')
  expect([next.value, next.shown, /[dmyh%]/.test(next.format)]).toEqual([3, '3', false])
  expect(typed(table, row, column, '0.3').value).toBe(0.3)
})

it('a day that the grid copies, cuts or sorts by its number stays one', () => {
  const { row, column } = under('Jobs', 'Date')
  expect(typed('Jobs', row, column, '46328', 'yyyy-mm-dd')).toMatchObject({ value: 46328, shown: '2026-11-02' })
})

it.each(['50%', '$5', '2/3 done', '10:30'])('a remark stays as it was written: %s', (words) => {
  const sheet = plan.sheets.find(({ kind }) => kind === 'test')!
  const { row } = sheet.cells.find(({ value }) => value === 'T1')!
  expect(typed(sheet.name, row, testColumns.done, words)).toMatchObject({ value: words, shown: words })
  // A reading is a number.
  expect(typed(sheet.name, row, testColumns.entries, '4.5')).toMatchObject({ value: 4.5 })
})

it('in a column of somebody’s own a fraction is a number, a day is a day, and an hour stays as it was written', () => {
  const { row } = under('Jobs', 'Job')
  const column = plan.sheets.find(({ name }) => name === 'Jobs')!.widths.length + 1
  typed('Jobs', row - 1, column, 'FenceCount')
  expect(typed('Jobs', row, column, '1/2', DAY)).toMatchObject({ value: 0.5 })
  expect(typed('Jobs', row, column, '7')).toMatchObject({ value: 7, shown: '7' })
  expect(typed('Jobs', row, column, '3:30', 'hh:mm')).toMatchObject({ value: refused('3:30') })
  expect(typed('Jobs', row, column, '2026-03-04').shown).toBe('2026-03-04')
})

it('a day under Date is one', () => {
  const { row, column } = under('Jobs', 'Date')
  expect(typed('Jobs', row, column, '2026-03-04').shown).toBe('2026-03-04')
})

it('in quantities and prices of a takeoff, and beside inputs and house figures of the design', () => {
  const { row } = placeOf(takeoff, 'BACKFILL')
  expect(typed(takeoff, row, takeoffColumns.yours, '1/2', DAY)).toMatchObject({ value: 0.5 })
  expect(typed(takeoff, row, takeoffColumns.price, '12 1/4', DAY)).toMatchObject({ value: 12.25 })
  expect(typed(takeoff, row, takeoffColumns.price, '5%')).toMatchObject({ value: refused('5%') })
  // What is refused is counted with by no formula: there is no amount until it is a number.
  expect(typed(takeoff, row, takeoffColumns.yours, '2/3/2026', DAY)).toMatchObject({ value: refused('2/3/2026') })
  const amount = getters.getEvaluatedCell({ sheetId: getters.getSheetIdByName(takeoff), row: row - 1, col: takeoffColumns.amount - 1 })
  expect(amount.type).toBe('error')
  for (const [name, text, value] of [
    ['TestLoss', '5%', 0.05],
    ['RiserWall_in', '2 1/2', 2.5],
    ['Cover_ft', '1/2', 0.5],
  ] as const) {
    const at = plan.sheets.find(({ kind }) => kind === 'design')!.cells.find((cell) => cell.column === designColumns.name && cell.value === name)!.row
    expect(typed(design, at, designColumns.value, text).format, name).not.toContain('%')
    expect(typed(design, at, designColumns.value, text, text.includes('/') ? DAY : undefined).value, `${name} ${columnLetters(designColumns.value)}${at}`).toBe(value)
  }
})

it.each([
  ['of words keeps them', '0 "days"', 5, '5 days'],
  ['of days, as an earlier mishap left it, shows numbers again', 'mm/dd', 6, '6'],
])('a cell with a format %s', (_, format, value, shown) => {
  const { row, column } = under('Tanks', 'Wall_in')
  const target = [{ left: column - 1, right: column - 1, top: row - 1, bottom: row - 1 }]
  model.dispatch('SET_FORMATTING' as never, { sheetId: getters.getSheetIdByName('Tanks'), target, format } as never)
  expect(typed('Tanks', row, column, String(value))).toMatchObject({ value, shown })
})
