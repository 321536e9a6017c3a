/** The office changes its own tables between two makings: a code under another name, prices that are gone or for another unit, rows of the changes taken off. */
import type ExcelJS from 'exceljs'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import { makeTemplate, sourceOf } from '../../src/hosts/fileSession.js'
import { earlierFrom } from '../../src/plan/earlier.js'
import { jobSheetNames } from '../../src/plan/jobSheets.js'
import { makingNotes } from '../../src/plan/makingNotes.js'
import { takeoffColumns as columns } from '../../src/plan/sheets/takeoffColumns.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { LIST_MOVED } from '../../src/takeoff/sumWords.js'
import { convertWithCalc, hasCalc } from '../support/calc.js'
import { made, makeJobs } from '../support/makings.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

const job = 'Pipit Hollow'
const names = jobSheetNames(job)
const make = (bytes: Uint8Array) => makeJobs(sourceOf(bytes, 'O.xlsx'), [job])
async function changed(bytes: Uint8Array, change: (workbook: ExcelJS.Workbook) => void): Promise<Uint8Array> {
  const workbook = await inExceljs(bytes)
  change(workbook)
  return savedBy(workbook)
}
const rowWith = (sheet: ExcelJS.Worksheet, column: number, words: string): ExcelJS.Row =>
  sheet.getRows(1, sheet.rowCount)!.find((row) => String(row.getCell(column).value) === words)!
/** A cell of a table of the office, by the key of its row and its heading. */
function cellOf(workbook: ExcelJS.Workbook, table: string, key: string, heading: string): ExcelJS.Cell {
  const sheet = workbook.getWorksheet(table)!
  const heads = sheet.getRows(1, 10)!.find((row) => (row.values as unknown[]).includes(heading))!.values as unknown[]
  const at = table === 'Items' ? heads.indexOf('Code') : 2
  return rowWith(sheet, at, key).getCell(heads.indexOf(heading))
}
const first = await make(makeTemplate(startingOffice(true), made))

describe('a code of Items under another name', () => {
  const typedOn = (column: keyof typeof columns, value: number) =>
    changed(first.bytes, (workbook) => {
      rowWith(workbook.getWorksheet(names.takeoff)!, columns.code, 'FENCE').getCell(columns[column]).value = value
      cellOf(workbook, 'Items', 'FENCE', 'Code').value = 'FENCING'
      cellOf(workbook, 'Prices', 'FENCE', 'Code').value = 'FENCING'
    })
  it.each([
    ['yours', 250, 'the quantity 250'],
    ['price', 2.75, 'the price \\$2.75'],
  ] as const)('charges no line twice: what was typed on it, %s, is asked about', async (column, value, words) => {
    await expect(make(await typedOn(column, value))).rejects.toThrow(
      new RegExp(`Items, headings, Code: a row for FENCE, whose line on the takeoff has ${words} typed on it\\..*got no such code`),
    )
  })
  it('goes on where nothing was typed on it', async () => {
    const { takeoff } = await make(
      await changed(first.bytes, (workbook) => {
        cellOf(workbook, 'Items', 'FENCE', 'Code').value = 'FENCING'
        cellOf(workbook, 'Prices', 'FENCE', 'Code').value = 'FENCING'
      }),
    )
    expect(takeoff.total).toBe(first.takeoff.total)
    expect(takeoff.added).toEqual([])
  })
})

describe.runIf(hasCalc)('the list of prices after a making', () => {
  /** What stands for CLAMP and PE under "List now", and by how much the list has moved. */
  async function worked(change: (workbook: ExcelJS.Workbook) => void) {
    const folder = mkdtempSync(join(tmpdir(), 'list-now-'))
    try {
      writeFileSync(join(folder, 'a.xlsx'), await changed(first.bytes, change))
      const sheet = (await inExceljs(readFileSync(await convertWithCalc(join(folder, 'a.xlsx'), 'xlsx', join(folder, 'out'))))).getWorksheet(names.takeoff)!
      return {
        now: (code: string) => rowWith(sheet, columns.code, code).getCell(columns.now).result,
        moved: rowWith(sheet, columns.description, LIST_MOVED).getCell(columns.amount).result,
      }
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  }
  it('says of a row that is gone that it is not listed, and of another unit that it has changed; neither counts as a price that moved', async () => {
    const { now, moved } = await worked((workbook) => {
      cellOf(workbook, 'Prices', 'VENT', 'Code').value = null
      cellOf(workbook, 'Prices', 'FENCE', 'Unit').value = '100 ft'
      const stone = cellOf(workbook, 'Prices', 'STONE-BED', 'Price_usd')
      stone.value = Number(stone.value) + 1
    })
    expect([now('VENT'), now('FENCE')]).toEqual(['not listed', 'unit changed'])
    // A dollar on each ton of the bed, and nothing else.
    expect(moved).toBeCloseTo(first.takeoff.lines.find(({ code }) => code === 'STONE-BED')!.order, 6)
  })
})

describe('a row taken off the sheet Changes', () => {
  it('comes back at its place, is said, and the history adds up to the price', async () => {
    const second = await make(await changed(first.bytes, (workbook) => (rowWith(workbook.getWorksheet(names.takeoff)!, columns.code, 'FENCE').getCell(columns.yours).value = 300)))
    const third = await make(await changed(second.bytes, (workbook) => (rowWith(workbook.getWorksheet(names.takeoff)!, columns.code, 'VENT').getCell(columns.price).value = 99)))
    expect(third.revision).toBe(3)
    const sheetOf = (bytes: Uint8Array) => earlierFrom(names, (sheet) => readSheet(openWorkbook(bytes, 'x'), sheet))
    const whole = sheetOf(third.bytes)
    const off = await changed(third.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.changes)!
      const row = sheet.getRows(1, sheet.rowCount)!.find(({ values }) => (values as unknown[]).includes('FENCE') && (values as unknown[])[2] === 2)!
      // Cleared and not deleted: what it was made with stands hidden in the rows of the sheet.
      for (let column = 2; column <= 10; column++) row.getCell(column).value = null
    })
    const read = sheetOf(off)
    expect(read.problems).toEqual([])
    expect(read.changes).toEqual(whole.changes)
    expect(read.backAgain).toMatchObject([{ revision: 2, code: 'FENCE' }])
    const again = await make(off)
    expect(makingNotes(again.takeoff, read, { ...made, revision: 3 })).toEqual([
      expect.stringMatching(/^Pipit Hollow: taken off its sheet Changes by hand, and there again: revision 2, /),
    ])
    // The newest row deleted, cells below it drawn up: what it was made with stands in the head of the sheet.
    const deleted = await changed(third.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.changes)!
      sheet.spliceRows(6, 1)
    })
    expect(sheetOf(deleted).changes).toEqual(whole.changes)
    expect((await make(deleted)).takeoff.total).toBe(third.takeoff.total)
    // By hand: what all makings added is what it costs now, to the cent.
    expect(sheetOf(again.bytes).changes.reduce((sum, { money = 0 }) => sum + Math.round(100 * (money ?? 0)), 0)).toBe(Math.round(100 * again.takeoff.total))
  })
})
