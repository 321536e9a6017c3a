/** A workbook of somebody else opened on the page and saved again: what stood in it stands in it still. */
import ExcelJS from 'exceljs'
import { Model } from '@odoo/o-spreadsheet'
import { expect, it } from 'vitest'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { openWorkbook, writeWorkbook } from '../../src/hosts/file.js'
import { templateWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { jobFields } from '../../src/takeoff/officeTables.js'
import { gridFromWorkbook } from '../../taskpane/xlsxToGrid.js'
import { workbookFromGrid } from '../../taskpane/gridToXlsx.js'

// The engine registers the functions with the grid.
void new GridEngine()

async function through(change: (sheet: ExcelJS.Worksheet) => void): Promise<{ sheet: ExcelJS.Worksheet; model: InstanceType<typeof Model> }> {
  const workbook = new ExcelJS.Workbook()
  change(workbook.addWorksheet('Own'))
  const { data } = await gridFromWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()), 'own.xlsx')
  const model = new Model(data as never)
  const saved = new ExcelJS.Workbook()
  await saved.xlsx.load((await workbookFromGrid(model)).buffer as ArrayBuffer)
  return { sheet: saved.getWorksheet('Own')!, model }
}

it('times, dates and formats of others keep their values and codes', async () => {
  const { sheet } = await through((own) => {
    own.getCell('A1').value = new Date(Date.UTC(1899, 11, 30, 14, 30))
    own.getCell('A1').numFmt = 'hh:mm'
    own.getCell('A2').value = 12.5
    own.getCell('A2').numFmt = '$#,##0.00'
    own.getCell('A3').value = 5
    own.getCell('A3').numFmt = '0 "days"'
    own.getCell('A4').value = new Date(Date.UTC(2026, 2, 4))
    own.getCell('A4').numFmt = 'yyyy-mm-dd'
    own.getCell('A5').value = 0.255
    own.getCell('A5').numFmt = '0.0%'
  })
  // 14:30 is 14.5/24 of a day.
  expect((sheet.getCell('A1').value as Date).toISOString()).toBe('1899-12-30T14:30:00.000Z')
  expect(sheet.getCell('A1').numFmt).toBe('hh:mm')
  expect([sheet.getCell('A2').value, sheet.getCell('A2').numFmt]).toEqual([12.5, '$#,##0.00'])
  expect(sheet.getCell('A3').value).toBe(5)
  expect((sheet.getCell('A4').value as Date).toISOString().slice(0, 10)).toBe('2026-03-04')
  expect([sheet.getCell('A5').value, sheet.getCell('A5').numFmt]).toEqual([0.255, '0.0%'])
})

it('formulas with quotes within texts are worked out and stay formulas; one that cannot be read stays as it was typed', async () => {
  const { sheet, model } = await through((own) => {
    own.getCell('A1').value = 1
    own.getCell('A2').value = { formula: 'IF(A1>0,"5"" pipe","no")', result: '5" pipe' } as ExcelJS.CellFormulaValue
  })
  const getters = model.getters as unknown as { getSheetIds(): string[]; getEvaluatedCell(position: object): { value: unknown } }
  const sheetId = getters.getSheetIds()[0]!
  expect(getters.getEvaluatedCell({ sheetId, row: 1, col: 0 }).value).toBe('5" pipe')
  expect(sheet.getCell('A2').formula).toBe('IF(A1>0,("5"&CHAR(34)&" pipe"),"no")')
  model.dispatch('UPDATE_CELL' as never, { sheetId, row: 2, col: 0, content: '=SUM(' } as never)
  const again = new ExcelJS.Workbook()
  await again.xlsx.load((await workbookFromGrid(model)).buffer as ArrayBuffer)
  expect(again.getWorksheet('Own')!.getCell('A3').value).toBe('=SUM(')
})

it('merged cells count once in a sum, and errors that somebody typed stay errors', async () => {
  const { sheet, model } = await through((own) => {
    own.getCell('B2').value = 100
    own.mergeCells('B2:D3')
    own.getCell('E9').value = { formula: 'SUM(B2:D3)+COUNT(B2:D3)', result: 101 } as ExcelJS.CellFormulaValue
    ;(['#N/A', '#DIV/0!', '#REF!', '#VALUE!', '#NUM!'] as const).forEach((error, at) => (own.getCell(10 + at, 1).value = { error } as ExcelJS.CellErrorValue))
    own.getCell('B10').value = { formula: 'ISERROR(A12)', result: true } as unknown as ExcelJS.CellFormulaValue
    own.getCell('B11').value = { formula: 'ISNA(A10)', result: true } as unknown as ExcelJS.CellFormulaValue
  })
  const getters = model.getters as unknown as { getSheetIds(): string[]; getEvaluatedCell(position: object): { value: unknown } }
  const at = (row: number, col: number) => getters.getEvaluatedCell({ sheetId: getters.getSheetIds()[0]!, row, col }).value
  expect([at(8, 4), at(9, 1), at(10, 1)]).toEqual([101, true, true])
  expect(sheet.getCell('E9').result).toBe(101)
  expect([sheet.getCell('B2').value, sheet.getCell('D3').value ?? null]).toEqual([100, null])
  expect([10, 11, 12, 13, 14].map((row) => sheet.getCell(row, 1).value)).toEqual(['#N/A', '#DIV/0!', '#REF!', '#VALUE!', '#NUM!'].map((error) => ({ error })))
})

it('a cell that stands at the end of all rows and columns is refused in words, and at once', async () => {
  const workbook = new ExcelJS.Workbook()
  workbook.addWorksheet('Far').getCell('XFD1048576').value = 1
  await expect(gridFromWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()), 'far.xlsx')).rejects.toThrow(
    /^far\.xlsx, Far: it reaches to XFD1048576, further than the page shows \(20,000,000 places, empty ones too\)\. Delete the cell/,
  )
})

it('a template of ours keeps the line of help above the headings in sight, the folded columns folded, and nothing of it is said to be lost', async () => {
  const { data, notKept } = await gridFromWorkbook(writeWorkbook(templateWorkbook(startingOffice(true), { date: '2026-11-26', revision: 1, version: 'test' })), 'O.xlsx')
  const jobs = (
    data as { sheets: { name: string; rows: Record<string, { size: number }>; headerGroups: { COL: { start: number; end: number; isFolded: boolean }[] } }[] }
  ).sheets.find(({ name }) => name === 'Jobs')!
  // Row 4, counted from 0; as many lines as the narrowest column asks for.
  expect(jobs.rows[3]!.size).toBeGreaterThan(100)
  expect(jobs.headerGroups.COL).toEqual([{ start: 1 + Object.keys(jobFields).indexOf('FirstFlush_in'), end: Object.keys(jobFields).length, isFolded: true }])
  expect([...notKept]).toEqual([])
})

it('saved by the page, the line of help is as high as the command makes it, and the sheet prints as large', async () => {
  const bytes = writeWorkbook(templateWorkbook(startingOffice(true), { date: '2026-11-26', revision: 1, version: 'test' }))
  const jobs = (of: Uint8Array) => {
    const { book } = openWorkbook(of, 'x')
    const xml = book.text(book.sheetNamed('Jobs')!.part)
    return { help: Number(/<row r="4" ht="([\d.]+)"/.exec(xml)![1]), scale: /<pageSetup[^>]*scale="(\d+)"/.exec(xml)?.[1] }
  }
  const saved = jobs(await workbookFromGrid(new Model((await gridFromWorkbook(bytes, 'O.xlsx')).data as never)))
  expect(saved.scale).toBe(jobs(bytes).scale)
  // The grid keeps widths in whole pixels: a line more or less at the most.
  expect(Math.abs(saved.help - jobs(bytes).help)).toBeLessThan(13)
})
