/** Formulas of others that name columns of tables and names of the workbook: on the page they are worked out, in the file they stay as they were. */
import { Model } from '@odoo/o-spreadsheet'
import ExcelJS from 'exceljs'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { expect, it } from 'vitest'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { Book } from '../../src/hosts/xlsx/book.js'
import { workbookFromGrid } from '../../taskpane/gridToXlsx.js'
import { OpenedFile } from '../../taskpane/openedFile.js'
import { plainReferences } from '../../taskpane/plainReferences.js'
import { gridFromWorkbook } from '../../taskpane/xlsxToGrid.js'

// The engine registers the functions with the grid.
void new GridEngine()

/** Three rows of a table at B5, a row of sums below, and names for a rate, a word, a range, and one that moves with its cell. */
async function priced(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook()
  const sheet = workbook.addWorksheet('Yard list')
  sheet.addTable({
    name: 'Stock',
    ref: 'B5',
    headerRow: true,
    totalsRow: true,
    columns: [{ name: 'Item' }, { name: 'Count [no.]' }, { name: 'Price' }, { name: 'Worth' }],
    rows: [
      ['stone', 3, 40, 0],
      ['pipe', 5, 12, 0],
      ['tank', 2, 900, 0],
    ],
  })
  ;[6, 7, 8].forEach((row) => (sheet.getCell(row, 5).value = { formula: "Stock[[#This Row],[Count '[no.']]]*Stock[[#This Row],[Price]]", result: 1 } as ExcelJS.CellFormulaValue))
  sheet.getCell('C9').value = { formula: "SUM(Stock[Count '[no.']])", result: 1 } as ExcelJS.CellFormulaValue
  const sums = workbook.addWorksheet('Sums')
  const formulas = [
    'SUM(Stock[Price])*Rate',
    'SUM(Stock[[Count \'[no.\']]:[Price]])&" Rate"',
    "Stock[[#Headers],[Price]]&Stock[[#Totals],[Count '[no.']]]",
    'ROWS(Stock[#All])+COLUMNS(Stock)',
    "SUM('Yard list'!D6:D8)+rate",
    'SUM(Prices)',
    'SUM(Stock[Nobody])+Rate',
  ]
  formulas.forEach((formula, at) => (sums.getCell(at + 1, 1).value = { formula, result: 7 } as ExcelJS.CellFormulaValue))
  workbook.definedNames.add('Sums!$C$1', 'Rate')
  workbook.definedNames.add("'Yard list'!$D$6:$D$8", 'Prices')
  sums.getCell('C1').value = 1.5
  return new Uint8Array(await workbook.xlsx.writeBuffer())
}

/** A formula of the sheet of sums with its result. */
function asSaved(workbook: ExcelJS.Workbook, place: string): [string, unknown] {
  const { formula, result } = workbook.getWorksheet('Sums')!.getCell(place)
  return [formula, result]
}

it('each reference is the cells that it means, one that nobody can find stays as it is', async () => {
  const plain = plainReferences(new Book(await priced(), 'own.xlsx'))
  expect(plain("Stock[[#This Row],[Count '[no.']]]*2", 'Yard list', 7)).toBe('$C$7*2')
  expect(plain('Stock[@Price]+Stock[@[Worth]]', 'Yard list', 8)).toBe('$D$8+$E$8')
  expect(plain('SUM(Stock[Price])', 'Sums', 1)).toBe("SUM('Yard list'!$D$6:$D$8)")
  expect(plain('Stock[#All]', 'Yard list', 1)).toBe('$B$5:$E$9')
  expect(plain('Stock[[#Totals],[Price]]', 'Yard list', 1)).toBe('$D$9')
  expect(plain('Rate*SUM(Rate, "Rate")+RATE(1,2,3)', 'Sums', 1)).toBe('Sums!$C$1*SUM(Sums!$C$1, "Rate")+RATE(1,2,3)')
  expect(plain("'Rate'!A1+Rate!A1+Sums!Rate+A:A", 'Sums', 1)).toBe("'Rate'!A1+Rate!A1+Sums!Rate+A:A")
  // A row outside the table, a column that it has not, a table that is not there.
  for (const formula of ['Stock[@Price]', 'Stock[Nobody]+Rate', 'Other[Price]']) expect(plain(formula, 'Sums', 1)).toBe(formula)
})

it('names of one sheet, of numbers and words; columns named backwards; rows that are none of the table; a heading of two lines; a table without headings', async () => {
  const book = new Book(await priced(), 'own.xlsx')
  const names =
    '<definedName name="Vat">0.2</definedName><definedName name="Yard">"north"</definedName><definedName name="Vat" localSheetId="1">0.3</definedName><definedName name="Moving">Sums!C1</definedName>'
  book.put(book.mainPart, book.text(book.mainPart).replace('</definedNames>', `${names}</definedNames>`))
  const part = book.names().find((name) => /tables\/table/.test(name))!
  book.put(part, book.text(part).replace('name="Worth"', 'name="Worth_x000a_$"'))
  const plain = plainReferences(book)
  expect(plain('Vat&Yard&Moving', 'Yard list', 1)).toBe('0.2&"north"&Moving')
  expect(plain('Vat', 'Sums', 1)).toBe('0.3')
  expect(plain("SUM(Stock[[Price]:[Count '[no.']]])", 'Yard list', 1)).toBe('SUM($C$6:$D$8)')
  expect(plain('Stock[Worth\n$]', 'Yard list', 1)).toBe('$E$6:$E$8')
  for (const formula of ['Stock[[#This Row],[Price]]', 'Stock[[#Headers],[#Totals],[Price]]'])
    for (const row of [5, 9]) expect(plain(formula, 'Yard list', row), `${formula} ${row}`).toBe(formula)
  book.put(part, book.text(part).replace(' headerRowCount="1"', '').replace('<table ', '<table headerRowCount="0" '))
  expect(plainReferences(book)('Stock[Price]', 'Yard list', 6)).toBe('Stock[Price]')
})

it('the page works them out, and saved unchanged the file has them as they were', async () => {
  const bytes = await priced()
  const { data } = await gridFromWorkbook(bytes, 'own.xlsx')
  const model = new Model(data as never)
  const getters = model.getters as unknown as { getSheetIds(): string[]; getEvaluatedCell(at: object): { value: unknown } }
  const [yard, sums] = getters.getSheetIds()
  const value = (sheetId: string, row: number, column: number) => getters.getEvaluatedCell({ sheetId, row: row - 1, col: column - 1 }).value
  // 3 × 40, 5 × 12, 2 × 900; 40 + 12 + 900 = 952; 952 + 10 counts.
  expect([6, 7, 8].map((row) => value(yard!, row, 5))).toEqual([120, 60, 1800])
  expect([1, 2, 3, 4, 5, 6].map((row) => value(sums!, row, 1))).toEqual([1428, '962 Rate', 'Price10', 9, 953.5, 952])
  const file = new OpenedFile(bytes, 'own.xlsx', model)
  model.dispatch('UPDATE_CELL' as never, { sheetId: sums, row: 0, col: 2, content: '2' } as never)
  const saved = new ExcelJS.Workbook()
  await saved.xlsx.load(file.saved(model, new Map())!.bytes.buffer as ArrayBuffer)
  expect(asSaved(saved, 'A1')).toEqual(['SUM(Stock[Price])*Rate', 1904])
  expect(asSaved(saved, 'A7')).toEqual(['SUM(Stock[Nobody])+Rate', 7])
  expect(saved.getWorksheet('Yard list')!.getCell('E6').formula).toBe("Stock[[#This Row],[Count '[no.']]]*Stock[[#This Row],[Price]]")
})

it('a formula that the page cannot read is the same with its last result where its sheet is written anew', async () => {
  const bytes = await priced()
  const { data } = await gridFromWorkbook(bytes, 'own.xlsx')
  const model = new Model(data as never)
  const file = new OpenedFile(bytes, 'own.xlsx', model)
  const sums = (model.getters as unknown as { getSheetIds(): string[] }).getSheetIds()[1]!
  model.dispatch('ADD_COLUMNS_ROWS' as never, { sheetId: sums, sheetName: 'Sums', dimension: 'ROW', position: 'before', base: 0, quantity: 1 } as never)
  const kept = file.saved(model, new Map())!
  expect(kept.anew).toEqual(['Sums'])
  for (const written of [kept.bytes, await workbookFromGrid(model, new Map(), (sheet) => file.inFile(sheet))]) {
    const saved = new ExcelJS.Workbook()
    await saved.xlsx.load(written.buffer as ArrayBuffer)
    expect(asSaved(saved, 'A8')).toEqual(['SUM(Stock[Nobody])+Rate', 7])
    // Those that it reads follow the row that was put in.
    expect(saved.getWorksheet('Sums')!.getCell('A2').formula).toBe("SUM('Yard list'!$D$6:$D$8)*Sums!$C$2")
  }
})

it('a file whose parts have a prefix before every name is worked out as well', async () => {
  const parts = unzipSync(await priced())
  for (const name of Object.keys(parts))
    if (/^xl\/(?:workbook|worksheets\/sheet\d+|tables\/table\d+)\.xml$/.test(name))
      parts[name] = strToU8(
        strFromU8(parts[name]!)
          .replace(/<(\/?)([A-Za-z])/g, '<$1x:$2')
          .replace(/ xmlns="/g, ' xmlns:x="'),
      )
  const { data } = await gridFromWorkbook(zipSync(parts), 'prefixed.xlsx')
  const model = new Model(data as never)
  const { getters } = model as unknown as { getters: { getSheetIds(): string[]; getEvaluatedCell(position: object): { value: unknown } } }
  const [, sums] = getters.getSheetIds()
  // 40 + 12 + 900 at the rate of 1.5; five rows of the table and its four columns.
  expect([0, 3].map((row) => getters.getEvaluatedCell({ sheetId: sums, row, col: 0 }).value)).toEqual([1428, 9])
})
