/** What people typed on the sheets of a job stays when it is made again, or is named at its place. */
import ExcelJS from 'exceljs'
import { describe, expect, it } from 'vitest'
import { openWorkbook, readSheet, writeWorkbook } from '../../src/hosts/file.js'
import { designColumns } from '../../src/plan/designSheet.js'
import { jobSheetNames } from '../../src/plan/jobSheets.js'
import { keptFrom } from '../../src/plan/kept.js'
import { takeoffColumns as columns } from '../../src/plan/takeoffSheet.js'
import { takeoffWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { problemText, ProblemsError } from '../../src/takeoff/fields.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { lineOf } from '../support/office.js'

const names = jobSheetNames('Wicket Mill')
const raw = startingOffice(true)
const office = readOffice(raw)
const job = rowNamed(office, 'Jobs', 'Wicket Mill')!
const bytes = await writeWorkbook(takeoffWorkbook(raw, [makeTakeoff(office, job)], 'native', { date: '2026-11-25', revision: 1, version: 'test' }))

/** Opens the made workbook, lets a person type, and makes it again from what is read back. */
async function again(type: (cell: (sheet: string, key: string, column: number) => ExcelJS.Cell) => void, row = job) {
  const workbook = await openWorkbook(bytes, 'a.xlsx')
  type((name, key, column) => {
    const sheet = workbook.getWorksheet(name)!
    const found = sheet.getRows(1, sheet.rowCount)!.find((line) => [2, 3].some((at) => line.getCell(at).value === key || (line.getCell(at).result as unknown) === key))!
    return found.getCell(column)
  })
  const kept = keptFrom(names, (sheet) => readSheet(workbook, sheet))
  return { kept, make: () => makeTakeoff(office, row, kept) }
}
const refusals = async (...args: Parameters<typeof again>): Promise<string[]> => {
  const { make } = await again(...args)
  try {
    make()
  } catch (error) {
    if (error instanceof ProblemsError) return error.problems.map(problemText)
    throw error
  }
  return []
}

describe('the takeoff sheet', () => {
  it('a formula typed as quantity or price counts as its result', async () => {
    const { make } = await again((cell) => {
      cell(names.takeoff, 'DIG', columns.yours).value = { formula: '450+50', result: 500 } as ExcelJS.CellFormulaValue
      cell(names.takeoff, 'HAUL', columns.price).value = { formula: '165*1.1', result: 181.5 } as ExcelJS.CellFormulaValue
      cell(names.takeoff, 'FENCE', columns.price).value = '1.10'
    })
    expect(lineOf(make(), 'DIG')).toMatchObject({ override: 500, order: 500 })
    expect(lineOf(make(), 'HAUL')).toMatchObject({ price: 181.5 })
    expect(lineOf(make(), 'FENCE')).toMatchObject({ price: 1.1 })
  })
  it('untouched, nothing is taken for typed', async () => {
    const { kept } = await again(() => undefined)
    expect(kept).toEqual({ overrides: {}, added: [], figures: {}, inputs: [], crew: { cells: {}, added: [] }, problems: [] })
  })
  it('what is no amount is refused at its place, not dropped', async () => {
    const found = await refusals((cell) => {
      cell(names.takeoff, 'DIG', columns.yours).value = '500 yd3'
      cell(names.takeoff, 'HAUL', columns.yours).value = -2
      cell(names.takeoff, 'TIE-BOOT', columns.order).value = 9
    })
    expect(found).toEqual([
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Your quantity: a number, 0 to 1,000,000,000; got "500 yd3"\.$/),
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Your quantity: a number, 0 to 1,000,000,000; got -2\.$/),
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Order: its formula; an own quantity goes into Your quantity; got 9\.$/),
    ])
  })
})

describe('the design sheet', () => {
  const typeCover: Parameters<typeof again>[0] = (cell) => void (cell(names.design, 'Cover_ft', designColumns.value).value = 4)
  it('an input typed over is asked into the row of Jobs, and accepted once it stands there', async () => {
    expect(await refusals(typeCover)).toEqual([expect.stringMatching(/^Design Wicket Mill, row \d+, Cover_ft: 3 as it was made, or the same in the row of Jobs; got 4\.$/)])
    const { make } = await again(typeCover, { ...job, cells: { ...job.cells, Cover_ft: 4 } })
    expect(make().design.number('Cover_ft')).toBe(4)
  })
  it('a house figure typed over is kept', async () => {
    const { make } = await again((cell) => void (cell(names.design, 'Truck_yd3', designColumns.value).value = 16))
    expect(make().design.number('Truck_yd3')).toBe(16)
    expect(make().design.number('Loads')).toBe(Math.ceil(make().design.number('SpoilLoose_yd3') / 16))
  })
})
