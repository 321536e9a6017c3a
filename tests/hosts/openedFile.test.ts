/** A file of somebody else opened on the page, changed there and saved: what was changed is changed, and all else keeps its bytes. */
import { Model } from '@odoo/o-spreadsheet'
import ExcelJS from 'exceljs'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import { Book } from '../../src/hosts/xlsx/book.js'
import { readZip } from '../../src/hosts/xlsx/zip.js'
import { makeTemplate, sourceOf } from '../../src/hosts/fileSession.js'
import { GridHost } from '../../src/hosts/grid.js'
import { registerTexts } from '../../src/hosts/gridTexts.js'
import { registerTogether } from '../../src/hosts/gridTogether.js'
import { makeJobs } from '../support/makings.js'
import { inExceljs } from '../support/xlsx.js'
import { makeTakeoffs } from '../../src/hosts/makeTakeoffs.js'
import type { SheetPlan } from '../../src/plan/plan.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { keptPlan } from '../../taskpane/keep.js'
import { OpenedFile } from '../../taskpane/openedFile.js'
import { gridFromWorkbook } from '../../taskpane/xlsxToGrid.js'

// The engine registers the functions with the grid.
void new GridEngine()

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const PIXEL = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='

/** A sheet with everything that a grid forgets, made by another program. */
async function strange(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook()
  const sheet = workbook.addWorksheet('Own')
  sheet.getCell('A1').value = 'Costs'
  sheet.mergeCells('A1:C1')
  sheet.getCell('A2').value = 4
  sheet.getCell('A3').value = { formula: 'A2*2', result: 8 } as ExcelJS.CellFormulaValue
  sheet.getCell('B2').value = { text: 'yard', hyperlink: 'https://yard.example/' }
  sheet.getCell('B3').value = 'gravel'
  sheet.getCell('B3').note = 'ask again'
  // Formats that the grid cannot show: none may become an error.
  const formats = ['h:mm', 'h:mm:ss', 'yyyy-mm-dd h:mm', 'yyyy/mm/dd h:mm:ss', 'DD/MM/YY', 'DD/MM/YYYY']
  formats.forEach((numFmt, at) => {
    sheet.getCell(10 + at, 1).value = new Date(Date.UTC(2026, 4, 7, 14, 30))
    sheet.getCell(10 + at, 1).numFmt = numFmt
  })
  ;['h', 's', '0.0.0', '# ?/?', '0.00E+00'].forEach((numFmt, at) => {
    sheet.getCell(20 + at, 1).value = 12.5
    sheet.getCell(20 + at, 1).numFmt = numFmt
  })
  sheet.addConditionalFormatting({ ref: 'A2:A9', rules: [{ type: 'cellIs', operator: 'greaterThan', formulae: [3], priority: 1, style: { font: { bold: true } } }] })
  sheet.getCell('C2').dataValidation = { type: 'whole', operator: 'between', formulae: [1, 9], allowBlank: true }
  sheet.addImage(workbook.addImage({ base64: PIXEL, extension: 'png' }), 'E2:F4')
  await sheet.protect('x', {})
  const hidden = workbook.addWorksheet('Rates', { state: 'hidden' })
  hidden.getCell('A1').value = 0.2
  workbook.definedNames.add('Own!$A$2', 'Count')
  return new Uint8Array(await workbook.xlsx.writeBuffer())
}

async function opened(bytes: Uint8Array) {
  const { data, notKept } = await gridFromWorkbook(bytes, 'own.xlsx')
  const model = new Model(data as never)
  const sheetId = (model.getters as unknown as { getSheetIds(): string[] }).getSheetIds()[0]!
  const file = new OpenedFile(bytes, 'own.xlsx', model)
  const type = (row: number, col: number, content: string) => model.dispatch('UPDATE_CELL' as never, { sheetId, row, col, content } as never)
  const shown = (row: number) =>
    (model.getters as unknown as { getEvaluatedCell(at: object): { type: string; formattedValue: string; value: unknown } }).getEvaluatedCell({ sheetId, row, col: 0 })
  return { model, file, type, shown, notKept, sheetId }
}
/** A formula of the second column with its result. */
function asFormula(sheet: ExcelJS.Worksheet, row: number): unknown[] {
  const { formula, result } = sheet.getCell(row, 2)
  return [formula, result]
}
const hashes = (bytes: Uint8Array) => new Map([...readZip(bytes, 'x').values()].map((part) => [part.name, createHash('sha1').update(part.raw).digest('hex')]))

describe('a takeoff of an opened file, made again on the page', () => {
  it('keeps the names of its sums on their cells', async () => {
    registerTogether()
    registerTexts()
    const office = sourceOf(makeTemplate(startingOffice(true), made), 'own.xlsx')
    const { bytes } = await makeJobs(office, ['Wicket Mill'])
    const { data } = await gridFromWorkbook(bytes, 'own.xlsx')
    const model = new Model(data as never)
    const file = new OpenedFile(bytes, 'own.xlsx', model)
    const host = new GridHost(model)
    const read = await host.read([])
    const row = read.office!.Jobs.rows.find(({ cells }) => cells.Job === 'Wicket Mill')!.row
    const sheetId = (model.getters as unknown as { getSheetIdByName(name: string): string }).getSheetIdByName('Jobs')
    // A line left out: the lines below move up.
    model.dispatch('UPDATE_CELL' as never, { sheetId, row: row - 1, col: read.places.Jobs.columnOf('Without')! - 1, content: 'LAYOUT, LOCATE' } as never)
    const plans: SheetPlan[] = []
    const write = host.write.bind(host)
    host.write = async (all) => (plans.push(...all), write(all))
    expect((await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made, mayLose: () => true })).problems).toEqual([])
    const looked = (isReloaded: boolean) => {
      const saved = file.saved(model, new Map(plans.map((plan) => [plan.name, isReloaded ? (JSON.parse(keptPlan(plan)) as SheetPlan) : plan])))!
      const workbook = openWorkbook(saved.bytes, 'x')
      const sheet = readSheet(workbook, 'Takeoff Wicket Mill')!
      const names = [...workbook.book.text('xl/workbook.xml').matchAll(/<definedName name="(Wicket_Mill\.\w+)">[^<]*\$G\$(\d+)</g)]
      expect(names.length).toBeGreaterThan(8)
      for (const [, name, at] of names) {
        const label = String(sheet[Number(at) - 1]![2]?.value)
        expect(label.replace(/, total$/, '').replace(/\W/g, '_'), name).toBe(name!.replace('Wicket_Mill.', ''))
      }
      return Number(names.find(([, name]) => name === 'Wicket_Mill.Power')![2])
    }
    const power = looked(false)
    const takeoffId = (model.getters as unknown as { getSheetIdByName(name: string): string }).getSheetIdByName('Takeoff Wicket Mill')
    model.dispatch('ADD_COLUMNS_ROWS' as never, { sheetId: takeoffId, sheetName: 'Takeoff Wicket Mill', dimension: 'ROW', base: 40, position: 'before', quantity: 3 } as never)
    expect(looked(false)).toBe(power + 3)
    // What a reload of the page keeps of a made sheet is enough for that.
    expect(looked(true)).toBe(power + 3)
  })
})

describe('a file of another program on the page', () => {
  it('saved unchanged keeps every part that is no list of the workbook', async () => {
    const bytes = await strange()
    const { file, model, notKept } = await opened(bytes)
    expect([...notKept.keys()]).toEqual(expect.arrayContaining(['pictures', 'merged ranges', 'comments']))
    const saved = file.saved(model, new Map())!
    expect(saved.anew).toEqual([])
    const [before, after] = [hashes(bytes), hashes(saved.bytes)]
    // How it is worked out when opened stands in the workbook part, styles are counted anew.
    const differing = [...before.keys()].filter((name) => before.get(name) !== after.get(name))
    expect(
      differing.every((name) => /^xl\/(?:workbook|styles)\.xml$|Content_Types/.test(name)),
      differing.join(),
    ).toBe(true)
  })
  it('a share and a date typed into plain cells change those cells and their number format; what is hidden stays hidden, and looks stay', async () => {
    const workbook = new ExcelJS.Workbook()
    const sheet = workbook.addWorksheet('H')
    for (let row = 1; row <= 8; row++) for (let column = 1; column <= 6; column++) sheet.getCell(row, column).value = row * column
    sheet.getColumn(4).hidden = sheet.getColumn(6).hidden = true
    sheet.getRow(3).hidden = sheet.getRow(4).hidden = true
    sheet.getCell('A1').font = { name: 'Georgia', italic: true, size: 12 }
    sheet.getRow(6).height = 60
    sheet.pageSetup = { orientation: 'landscape', scale: 60, margins: { left: 1.5, right: 1, top: 1, bottom: 1, header: 0.3, footer: 0.3 } }
    sheet.views = [{ state: 'normal', zoomScale: 150 } as never]
    const bytes = new Uint8Array(await workbook.xlsx.writeBuffer())
    const { file, model, type, sheetId } = await opened(bytes)
    type(8, 0, '5%')
    type(0, 1, '3/4/2026')
    const saved = file.saved(model, new Map())!
    expect(saved.anew).toEqual([])
    const again = (await inExceljs(saved.bytes)).getWorksheet('H')!
    expect([again.getCell('A9').value, again.getCell('A9').numFmt]).toEqual([0.05, '0%'])
    expect(again.getCell('B1').numFmt).toMatch(/m.*d.*y/)
    expect([3, 4].map((row) => again.getRow(row).hidden)).toEqual([true, true])
    expect([4, 6].map((column) => again.getColumn(column).hidden)).toEqual([true, true])
    expect([again.getCell('A1').font.name, again.getCell('A1').font.italic, again.getRow(6).height, again.pageSetup.scale]).toEqual(['Georgia', true, 60, 60])
    // Taken away again, the format is the plain one.
    model.dispatch('SET_FORMATTING' as never, { sheetId, target: [{ top: 8, bottom: 8, left: 0, right: 0 }], format: '' } as never)
    expect((await inExceljs(file.saved(model, new Map())!.bytes)).getWorksheet('H')!.getCell('A9').value).toBe(0.05)
    // A column put in: written anew, what was hidden is hidden all the same, its texts take what is typed over them, and the rest is named.
    type(20, 0, 'words')
    model.dispatch('ADD_COLUMNS_ROWS' as never, { sheetId, sheetName: 'H', dimension: 'COL', base: 1, position: 'before', quantity: 1 } as never)
    const anew = file.saved(model, new Map())!
    expect(anew.anew).toEqual(['H'])
    expect(file.lostOn(anew.anew)).toMatch(/^on H, which is written anew: .*zoom, heights of rows, scale of the print, fonts/)
    const written = (await inExceljs(anew.bytes)).getWorksheet('H')!
    expect([3, 4].map((row) => written.getRow(row).hidden)).toEqual([true, true])
    expect([5, 7].map((column) => written.getColumn(column).hidden)).toEqual([true, true])
    expect(written.getCell('A21').numFmt ?? 'General').toBe('General')
  })
  it('a day that holds a time keeps it', async () => {
    const workbook = new ExcelJS.Workbook()
    const sheet = workbook.addWorksheet('D')
    // 46,000.6123 days since the beginning of 1900 are 2025-12-09, 14:41:43 (ISO/IEC 29500-1, 18.17.4.1).
    sheet.getCell('A1').value = 46_000.6123
    sheet.getCell('A1').numFmt = 'yyyy-mm-dd'
    sheet.getCell('A2').value = { formula: 'A1*1', result: 46_000.6123 } as ExcelJS.CellFormulaValue
    const bytes = new Uint8Array(await workbook.xlsx.writeBuffer())
    const { file, model, type, shown, sheetId } = await opened(bytes)
    expect([shown(0).value, shown(1).value]).toEqual([expect.closeTo(46_000.6123, 6), expect.closeTo(46_000.6123, 6)])
    expect(shown(0).formattedValue).toBe('2025-12-09')
    type(9, 0, 'x')
    model.dispatch('SET_FORMATTING' as never, { sheetId, target: [{ top: 9, bottom: 9, left: 0, right: 0 }], style: { bold: true } } as never)
    const saved = file.saved(model, new Map())!
    expect(saved.anew).toEqual(['D'])
    expect(/<c r="A1"[^>]*><v>([\d.]+)</.exec(strFromU8(unzipSync(saved.bytes)['xl/worksheets/sheet1.xml']!))?.[1]).toMatch(/^46000\.612/)
  })
  it('cells that a formula fills are no cells of the file unless it says so', async () => {
    const workbook = new ExcelJS.Workbook()
    const sheet = workbook.addWorksheet('S')
    ;[3, 1, 2].forEach((value, at) => (sheet.getCell(1 + at, 1).value = value))
    sheet.getCell('C1').value = 9
    const parts = unzipSync(new Uint8Array(await workbook.xlsx.writeBuffer()))
    const part = 'xl/worksheets/sheet1.xml'
    // As a program writes a formula that fills further cells, and leaves their values out.
    parts[part] = strToU8(strFromU8(parts[part]!).replace(/<c r="C1"[^>]*>.*?<\/c>/, '<c r="C1" cm="1"><f t="array" ref="C1">_xlfn._xlws.SORT(A1:A3)</f><v>1</v></c>'))
    const { file, model, type } = await opened(zipSync(parts))
    type(0, 0, '10')
    const xml = strFromU8(unzipSync(file.saved(model, new Map())!.bytes)[part]!)
    expect(xml).toMatch(/<c r="C1"[^>]*cm="1"[^>]*><f t="array" ref="C1">/)
    expect(xml).not.toMatch(/<c r="C[23]"/)
    expect(xml).toMatch(/<c r="A1"[^>]*><v>10</)
  })
  it('is not saved under names that a file does not take', async () => {
    const { file, model } = await opened(await strange())
    const create = (name: string) => model.dispatch('CREATE_SHEET' as never, { sheetId: name, name, position: 0 } as never)
    create('A'.repeat(32))
    expect(() => file.saved(model, new Map())).toThrow(/^The sheet "A{32}" has a name of 32 letters, and a file takes 31: rename it\.$/)
    model.dispatch('RENAME_SHEET' as never, { sheetId: 'A'.repeat(32), newName: 'History', oldName: 'A'.repeat(32) } as never)
    expect(() => file.saved(model, new Map())).toThrow(/Excel keeps the name History for itself/)
  })
  it('changed in a cell has that cell, the results that follow, and all else as it was', async () => {
    const bytes = await strange()
    const { file, model, type } = await opened(bytes)
    type(1, 0, '7')
    type(30, 0, 'a new line')
    type(31, 0, '=A2+1')
    const saved = file.saved(model, new Map())!
    const rows = readSheet(openWorkbook(saved.bytes, 'x'), 'Own')!
    expect(rows[1]![0]).toEqual({ value: 7 })
    expect(rows[2]![0]).toEqual({ value: 14, formula: 'A2*2' })
    expect(rows[30]![0]).toEqual({ value: 'a new line' })
    expect(rows[31]![0]).toEqual({ value: 8, formula: 'A2+1' })
    const again = new ExcelJS.Workbook()
    await again.xlsx.load(saved.bytes.buffer as ArrayBuffer)
    const sheet = again.getWorksheet('Own')!
    expect(sheet.getCell('B1').isMerged).toBe(true)
    expect(sheet.getCell('B2').hyperlink).toBe('https://yard.example/')
    expect(JSON.stringify(sheet.getCell('B3').note)).toContain('ask again')
    expect(sheet.getImages()).toHaveLength(1)
    expect((sheet as unknown as { conditionalFormattings: unknown[] }).conditionalFormattings).toHaveLength(1)
    expect(sheet.getCell('C2').dataValidation.type).toBe('whole')
    expect((sheet as unknown as { sheetProtection: unknown }).sheetProtection).toBeTruthy()
    expect(again.getWorksheet('Rates')!.state).toBe('hidden')
    expect(again.definedNames.getRanges('Count').ranges).toHaveLength(1)
    expect(sheet.getCell('A10').numFmt).toBe('h:mm')
  })
  it('shows dates, times and numbers in formats that the grid does not know, and no error', async () => {
    const { shown } = await opened(await strange())
    for (let row = 9; row <= 14; row++) expect(shown(row).type).toBe('number')
    expect(shown(9).formattedValue).toBe('14:30')
    expect(shown(11).formattedValue).toBe('2026-05-07 14:30')
    expect(shown(13).formattedValue).toBe('07/05/26')
    for (let row = 19; row <= 23; row++) expect(shown(row)).toMatchObject({ type: 'number', value: 12.5 })
  })
  it('prices in red below zero are no days; written anew a sheet keeps the codes of its numbers and what others worked out', async () => {
    const codes = [
      '#,##0_);[Red](#,##0)',
      '"$"#,##0.00;[Red]-"$"#,##0.00',
      '0.00E+00',
      '# ?/?',
      '[$-409]d-mmm-yy',
      '[h]:mm',
      '0.00',
      '[Red]0.00',
      '[Blue]0.00',
      'h:mm',
      '[$-F400]h:mm',
    ]
    const workbook = new ExcelJS.Workbook()
    const own = workbook.addWorksheet('Own')
    for (const [at, numFmt] of codes.entries()) {
      own.getCell(at + 2, 1).value = 45000.5625
      own.getCell(at + 2, 1).numFmt = numFmt
    }
    for (const [at, formula] of ['_xlfn.TEXTJOIN("-",TRUE,1,2)', 'MYOWN(3)', '[1]S!A1*2', '_xlfn.LET(_xlpm.x,3,_xlpm.x*3)', 'Twice*A2', 'Twice*A3'].entries())
      own.getCell(at + 2, 2).value = { formula, result: at ? 9 : '1-2' } as ExcelJS.CellFormulaValue
    // An error that the file has too is no formula that cannot be read.
    own.getCell('D2').value = { formula: 'MATCH(99,A2:A3,0)', result: { error: '#N/A' } } as ExcelJS.CellFormulaValue
    // A letter behind a stroke is that letter, and no hour.
    own.getCell('C2').value = 5
    own.getCell('C2').numFmt = '0\\h'
    own.getCell('C3').numFmt = 'd-mmm-yy'
    const sums = workbook.addWorksheet('Sums')
    for (const [at, formula] of ['Twice*Own!A2', 'MYOWN(Own!A2)'].entries()) sums.getCell(at + 1, 2).value = { formula, result: 60 } as ExcelJS.CellFormulaValue
    const bytes = new Uint8Array(await workbook.xlsx.writeBuffer())
    const { data, codes: known } = await gridFromWorkbook(bytes, 'own.xlsx')
    const model = new Model(data as never)
    const getters = model.getters as unknown as { getSheetIds(): string[]; getEvaluatedCell(at: object): { formattedValue: string } }
    const sheetId = getters.getSheetIds()[0]!
    const shown = (row: number, col = 0) => getters.getEvaluatedCell({ sheetId, row: row - 1, col }).formattedValue.trim()
    // Day 45,000 is 15 March 2023 (ISO 29500 counts 1 January 1900 as day 1, and a 29 February that was none).
    expect([2, 3, 4, 6].map((row) => shown(row))).toEqual(['45,001', '$45,000.56', '45000.5625', '15-Mar-23'])
    expect(shown(2, 1)).toBe('1-2')
    expect(shown(2, 2)).toBe('5h')
    const file = new OpenedFile(bytes, 'own.xlsx', model, undefined, known)
    model.dispatch('ADD_COLUMNS_ROWS' as never, { sheetId, sheetName: 'Own', dimension: 'ROW', position: 'before', base: 0, quantity: 1 } as never)
    const kept = file.saved(model, new Map())!
    expect(kept.anew).toEqual(['Own'])
    // A sheet that is not written anew follows what the grid has moved; what it cannot follow is told before it is saved.
    const other = (await inExceljs(kept.bytes)).getWorksheet('Sums')!
    expect([1, 2].map((row) => asFormula(other, row))).toEqual([
      ['Twice*Own!A3', 60],
      ['MYOWN(Own!A2)', 60],
    ])
    expect(file.lostOn(['Own'])).toMatch(/what formulas that the page cannot read point to \(5\)/)
    const saved = (await inExceljs(kept.bytes)).getWorksheet('Own')!
    expect(saved.getCell('C3').numFmt).toBe('0"h"')
    // What an empty cell will show is kept too.
    expect(saved.getCell('C4').numFmt).toBe('d-mmm-yy')
    expect(codes.map((_, at) => saved.getCell(at + 3, 1).numFmt)).toEqual(codes)
    expect([3, 4, 5, 6, 7, 8].map((row) => asFormula(saved, row))).toEqual([
      ['_xlfn.TEXTJOIN("-",TRUE,1,2)', '1-2'],
      ['MYOWN(3)', 9],
      ['[1]S!A1*2', 9],
      ['_xlfn.LET(_xlpm.x,3,_xlpm.x*3)', 9],
      // The grid knows no such name, and has moved what it points to all the same.
      ['Twice*A3', 9],
      ['Twice*A4', 9],
    ])
  })
  it('with a sheet taken away or renamed says that it cannot be patched; with a row put in names the sheet that is written anew', async () => {
    const one = await opened(await strange())
    one.model.dispatch('RENAME_SHEET' as never, { sheetId: one.sheetId, oldName: 'Own', newName: 'Ours' } as never)
    expect(one.file.saved(one.model, new Map())).toBeUndefined()
    const other = await opened(await strange())
    other.model.dispatch('ADD_COLUMNS_ROWS' as never, { sheetId: other.sheetId, sheetName: 'Own', dimension: 'ROW', base: 3, position: 'after', quantity: 1 } as never)
    expect(other.file.saved(other.model, new Map())!.anew).toEqual(['Own'])
  })
  it('without a list of formats gets the plain ones when a sheet is written into it', async () => {
    const book = new Book(await strange(), 'own.xlsx')
    book.remove('xl/styles.xml')
    const { file, model } = await opened(book.bytes())
    model.dispatch('CREATE_SHEET' as never, { sheetId: 'new', name: 'New', position: 1, rows: 5, cols: 5 } as never)
    model.dispatch('UPDATE_CELL' as never, { sheetId: 'new', row: 0, col: 0, content: '12' } as never)
    const saved = openWorkbook(file.saved(model, new Map())!.bytes, 'x')
    expect(readSheet(saved, 'New')![0]![0]).toEqual({ value: 12 })
    expect(readSheet(saved, 'Own')![1]![0]).toEqual({ value: 4 })
  })
  it('damaged in what only looks need, is read all the same', async () => {
    const book = new Book(await strange(), 'own.xlsx')
    book.put('xl/styles.xml', book.text('xl/styles.xml').replace(/<fonts[\s\S]*<\/fonts>/, '<fonts count="1"><font><sz val="x"/><color/></font></fonts>'))
    const { shown } = await opened(book.bytes())
    expect(shown(1)).toMatchObject({ value: 4 })
  })
})

describe('what the reader of looks stumbles over', () => {
  const withSheet = async (change: (xml: string) => string, main: (xml: string) => string = (xml) => xml) => {
    const parts = unzipSync(await strange())
    const sheet = 'xl/worksheets/sheet1.xml'
    parts[sheet] = strToU8(change(strFromU8(parts[sheet]!)))
    parts['xl/workbook.xml'] = strToU8(main(strFromU8(parts['xl/workbook.xml']!)))
    return zipSync(parts)
  }
  it('marks of pronunciation take no cell away', async () => {
    const bytes = await withSheet((xml) => xml.replace(/<c r="A2"[^>]*>.*?<\/c>/, '<c r="A2" t="inlineStr"><is><t>Umi</t><rPh sb="0" eb="1"><t>u</t></rPh></is></c>'))
    const { shown } = await opened(bytes)
    expect([shown(1).value, shown(9).type]).toEqual(['Umi', 'number'])
  })
  it('a date in words is that date', async () => {
    const bytes = await withSheet((xml) => xml.replace(/<c r="A2"[^>]*>.*?<\/c>/, '<c r="A2" t="d"><v>2026-11-16T00:00:00</v></c>'))
    const { shown } = await opened(bytes)
    // 46,342 days after 1899-12-30.
    expect(shown(1).value).toBe(46_342)
  })
  it('a workbook that counts its days from 1904 is refused in words', async () => {
    const bytes = await withSheet(
      (xml) => xml,
      (xml) => xml.replace(/<workbookPr[^>]*>/, '<workbookPr date1904="1"/>'),
    )
    await expect(opened(bytes)).rejects.toThrow('own.xlsx: it counts its days from 1904, which the page does not')
  })
})

it('thousands of merged ranges are not shown, stay in the file, and that is told', async () => {
  const workbook = new ExcelJS.Workbook()
  const sheet = workbook.addWorksheet('Wide')
  for (let at = 0; at < 2_100; at++) sheet.mergeCells(at + 1, 1, at + 1, 2)
  sheet.getCell('D1').value = 1
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer())
  const { data, notKept, ofSheets } = await gridFromWorkbook(bytes, 'own.xlsx')
  expect(notKept.get('merged ranges')).toBe(2_100)
  const model = new Model(data as never)
  const file = new OpenedFile(bytes, 'own.xlsx', model, ofSheets)
  const sheetId = (model.getters as unknown as { getSheetIds(): string[] }).getSheetIds()[0]!
  model.dispatch('UPDATE_CELL' as never, { sheetId, col: 3, row: 0, content: '2' } as never)
  const saved = await inExceljs(file.saved(model, new Map())!.bytes)
  expect((saved.getWorksheet('Wide') as unknown as { model: { merges: string[] } }).model.merges).toHaveLength(2_100)
})

describe('a sheet that is written anew', () => {
  it('whose rows have moved tells what stays where it was: comments, names, charts, rules of other sheets', async () => {
    const workbook = new ExcelJS.Workbook()
    const data = workbook.addWorksheet('Data')
    ;['stone', 'pipe', 'tank', 'lid'].forEach((word, at) => (data.getCell(at + 1, 1).value = word))
    data.getCell('A3').note = 'ask the yard'
    const other = workbook.addWorksheet('Other')
    other.getCell('A1').dataValidation = { type: 'list', allowBlank: true, formulae: ['Data!$A$1:$A$4'] }
    other.getCell('A2').value = 'tank'
    workbook.definedNames.add('Data!$A$3', 'Chosen')
    workbook.definedNames.add('Other!$A$2', 'Elsewhere')
    const bytes = new Uint8Array(await workbook.xlsx.writeBuffer())
    const { data: grid, ofSheets } = await gridFromWorkbook(bytes, 'own.xlsx')
    const model = new Model(grid as never)
    const file = new OpenedFile(bytes, 'own.xlsx', model, ofSheets)
    const sheetId = (model.getters as unknown as { getSheetIds(): string[] }).getSheetIds()[0]!
    // Another width moves nothing, and asks nothing.
    model.dispatch('RESIZE_COLUMNS_ROWS' as never, { sheetId, dimension: 'COL', elements: [0], size: 200 } as never)
    const wider = file.saved(model, new Map())!
    expect([wider.anew, wider.moved, file.lostOn(wider.anew, wider.moved)]).toEqual([['Data'], [], ''])
    model.dispatch('ADD_COLUMNS_ROWS' as never, { sheetId, sheetName: 'Data', dimension: 'ROW', position: 'before', base: 1, quantity: 1 } as never)
    const kept = file.saved(model, new Map())!
    expect([kept.anew, kept.moved]).toEqual([['Data'], ['Data']])
    expect(file.lostOn(kept.anew, kept.moved)).toBe(
      'on Data, which is written anew: what stays at its old places, where rows or columns have moved: comments (1), names (1), rules of other sheets (1)',
    )
  })
  it('says what of it goes, sheet by sheet; names of the workbook stay', async () => {
    const bytes = await strange()
    const { data, ofSheets } = await gridFromWorkbook(bytes, 'own.xlsx')
    const file = new OpenedFile(bytes, 'own.xlsx', new Model(data as never), ofSheets)
    expect(file.lostOn(['Own'])).toMatch(/^on Own, which is written anew: .*merged ranges \(1\).*links \(1\)/)
    expect(file.lostOn(['Own'])).not.toContain('names')
    expect(file.lostOn(['Rates'])).toBe('')
    expect(file.lostOn([])).toBe('')
  })
  it('tables of the office’s own and headers are among it', async () => {
    const workbook = new ExcelJS.Workbook()
    const sheet = workbook.addWorksheet('Sums')
    sheet.addTable({ name: 'Costs', ref: 'A1', columns: [{ name: 'What' }, { name: 'Amount' }], rows: [['gate', 5]] })
    sheet.headerFooter.oddHeader = '&CSums'
    sheet.properties.tabColor = { argb: 'FF00FF00' }
    const { ofSheets } = await gridFromWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()), 'own.xlsx')
    expect(Object.fromEntries(ofSheets.get('Sums')!)).toMatchObject({ tables: 1, 'headers and footers': 1, 'colors of tabs': 1 })
  })
  it('lies on its paper as before, and a part that alone is printed is named', async () => {
    const workbook = new ExcelJS.Workbook()
    for (const [name, paperSize, orientation] of [
      ['Upright', 9, 'portrait'],
      ['Across', 1, 'landscape'],
    ] as const) {
      const sheet = workbook.addWorksheet(name, { pageSetup: { paperSize: paperSize as ExcelJS.PaperSize, orientation } })
      sheet.getCell('A1').value = 5
      if (name === 'Upright') sheet.pageSetup.printArea = 'A1:C9'
    }
    const bytes = new Uint8Array(await workbook.xlsx.writeBuffer())
    const { data, ofSheets } = await gridFromWorkbook(bytes, 'own.xlsx')
    const model = new Model(data as never)
    const file = new OpenedFile(bytes, 'own.xlsx', model, ofSheets)
    expect(file.lostOn(['Upright', 'Across'])).toBe('on Upright, which is written anew: print areas (1)')
    const ids = (model.getters as unknown as { getSheetIds(): string[] }).getSheetIds()
    for (const sheetId of ids) model.dispatch('RESIZE_COLUMNS_ROWS' as never, { sheetId, dimension: 'COL', elements: [0], size: 200 } as never)
    const { bytes: after, anew } = file.saved(model, new Map())!
    expect(anew).toEqual(['Upright', 'Across'])
    const saved = await inExceljs(after)
    expect(['Upright', 'Across'].map((name) => [saved.getWorksheet(name)!.pageSetup.paperSize, saved.getWorksheet(name)!.pageSetup.orientation])).toEqual([
      [9, 'portrait'],
      [1, 'landscape'],
    ])
  })
})
