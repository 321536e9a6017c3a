/** A formula that fills several cells stays one when a sheet of somebody's own is saved on the page and opened again: its results follow what it points to. */
import { Model } from '@odoo/o-spreadsheet'
import ExcelJS from 'exceljs'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { OpenedFile } from '../../taskpane/openedFile.js'
import { workbookFromGrid } from '../../taskpane/gridToXlsx.js'
import { gridFromWorkbook } from '../../taskpane/xlsxToGrid.js'
import { convertWithCalc, hasCalc } from '../support/calc.js'

// The engine registers the functions with the grid.
void new GridEngine()

const cells = {
  A1: '9',
  B2: '=CISTERN.WORKING("FRICTIONLOSS",A1,180,1.049)',
  D20: '3',
  D21: '1',
  D22: '2',
  F20: '=SORT(D20:D22,1,FALSE)',
  G20: '=TRANSPOSE(D20:D22)',
  A30: '=CISTERN.FRICTIONLOSS(9,180,1.049)',
}
const gridOf = (data: object) => {
  const model = new Model(data as never)
  const sheetId = (model.getters as unknown as { getSheetIds(): string[] }).getSheetIds()[0]!
  const at = (address: string) => ({ sheetId, col: address.charCodeAt(0) - 65, row: Number(address.slice(1)) - 1 })
  return {
    model,
    value: (address: string) => (model.getters as unknown as { getEvaluatedCell(place: object): { value: unknown } }).getEvaluatedCell(at(address)).value,
    type: (address: string, content: string) => void model.dispatch('UPDATE_CELL' as never, { ...at(address), content } as never),
  }
}
const own = () => gridOf({ sheets: [{ id: 'mine', name: 'Mine', rowNumber: 60, colNumber: 20, cells }] })
/** The loss stands in the last row that the working fills. */
const lossIn = ({ value }: ReturnType<typeof gridOf>): unknown =>
  Array.from({ length: 17 }, (_, at) => ['C', 'D', 'E', 'F', 'G'].map((column) => value(`${column}${2 + at}`)))
    .flat()
    .filter((one) => typeof one === 'number')
    .at(-1)

describe('formulas that fill several cells', () => {
  it('are saved as such, and worked out again when the file is opened', async () => {
    const before = own()
    const [first, sorted] = [lossIn(before), ['F20', 'F21', 'F22', 'G20', 'H20', 'I20'].map(before.value)]
    expect(sorted).toEqual([3, 2, 1, 3, 1, 2])
    const bytes = await workbookFromGrid(before.model)
    const { data, notKept } = await gridFromWorkbook(bytes, 'mine.xlsx')
    expect([...notKept.keys()]).not.toContain('formulas over several cells')
    const after = gridOf(data)
    expect(lossIn(after)).toBe(first)
    expect(['F20', 'F21', 'F22', 'G20', 'H20', 'I20'].map(after.value)).toEqual(sorted)
    // Four times the flow loses 4 ^ 1.852 times the head (Hazen-Williams, EPA manual).
    after.type('A1', '36')
    after.type('D21', '9')
    expect(Number(lossIn(after)) / Number(first)).toBeCloseTo(4 ** 1.852, 9)
    expect(after.value('F20')).toBe(9)
    // And once more through the file that was opened, on a sheet that stands in it.
    const file = new OpenedFile(bytes, 'mine.xlsx', gridOf(data).model)
    const saved = file.saved(after.model, new Map())!
    expect(saved.anew).toEqual([])
    const again = gridOf((await gridFromWorkbook(saved.bytes, 'mine.xlsx')).data)
    expect(again.value('F20')).toBe(9)
    expect(Number(lossIn(again)) / Number(first)).toBeCloseTo(4 ** 1.852, 9)
  })
  it('are written into a file that was opened with how far they reach', async () => {
    const bytes = await workbookFromGrid(gridOf({ sheets: [{ id: 'mine', name: 'Mine', rowNumber: 60, colNumber: 20, cells: { D20: '3', D21: '1' } }] }).model)
    const { data } = await gridFromWorkbook(bytes, 'mine.xlsx')
    const file = new OpenedFile(bytes, 'mine.xlsx', gridOf(data).model)
    const now = gridOf(data)
    now.type('F20', '=SORT(D20:D21)')
    const saved = file.saved(now.model, new Map())!
    expect(saved.anew).toEqual([])
    const { book } = openWorkbook(saved.bytes, 'x')
    expect(book.text(book.sheetNamed('Mine')!.part)).toMatch(/<c r="F20"[^>]* cm="1"[^>]*><f t="array" ref="F20:F21">_xlfn\._xlws\.SORT\(D20:D21\)<\/f>/)
    const again = gridOf((await gridFromWorkbook(saved.bytes, 'mine.xlsx')).data)
    expect(['F20', 'F21'].map(again.value)).toEqual([1, 3])
  })
  const sheetOf = (list: Readonly<Record<string, string>>) => gridOf({ sheets: [{ id: 'mine', name: 'Mine', rowNumber: 60, colNumber: 20, cells: list }] })
  /** Saved, opened, changed there and saved again: the sheet as the file has it then, and as the page opens it. */
  async function changed(list: Readonly<Record<string, string>>, change: (grid: ReturnType<typeof gridOf>) => void) {
    const bytes = await workbookFromGrid(sheetOf(list).model)
    const { data } = await gridFromWorkbook(bytes, 'mine.xlsx')
    const file = new OpenedFile(bytes, 'mine.xlsx', gridOf(data).model)
    const now = gridOf(data)
    change(now)
    const saved = file.saved(now.model, new Map())!
    expect(saved.anew).toEqual([])
    const { book } = openWorkbook(saved.bytes, 'x')
    return {
      xml: book.text(book.sheetNamed('Mine')!.part),
      rows: readSheet(openWorkbook(saved.bytes, 'x'), 'Mine')!,
      again: gridOf((await gridFromWorkbook(saved.bytes, 'mine.xlsx')).data),
    }
  }
  it('that somebody types into keep what he typed', async () => {
    const { xml, again } = await changed({ A1: '3', A2: '1', A3: '2', C1: '=SORT(A1:A3)', E1: '=SUM(C1:C3)' }, ({ type }) => type('C2', '100'))
    expect(xml).toMatch(/<c r="C1"[^>]*><f t="array" ref="C1:C1">/)
    expect(again.value('C2')).toBe(100)
  })
  it('that reach farther or less far now say so, with their results', async () => {
    const list = { A1: '1', A2: '2', A3: '', C1: '=OFFSET(A1,0,0,COUNT(A1:A9),1)*2', E1: '=SUM(C1:C9)' }
    const more = await changed(list, ({ type }) => (type('A3', '10'), type('A4', '100')))
    expect(more.xml).toMatch(/ref="C1:C4"/)
    expect(more.rows.slice(0, 4).map((row) => row[2]!.value)).toEqual([2, 4, 20, 200])
    expect(more.again.value('E1')).toBe(226)
    const less = await changed(list, ({ type }) => type('A2', ''))
    expect(less.xml).toMatch(/ref="C1:C1"/)
    expect(less.rows[1]?.[2]?.value ?? null).toBe(null)
    expect(less.again.value('E1')).toBe(2)
  })
  it('that are typed into a file that was opened have their results in it: whoever reads it without working it out finds them', async () => {
    const { rows } = await changed({ A1: '10', A2: '20', A3: '30', H1: 'x' }, ({ type }) => type('E1', '=A1:A3*1.1'))
    expect(rows.slice(0, 3).map((row) => row[4]!.value)).toEqual([10 * 1.1, 20 * 1.1, 30 * 1.1])
  })
  it('of another program that the page fills otherwise stay as the file has them, and are told', async () => {
    const workbook = new ExcelJS.Workbook()
    const sheet = workbook.addWorksheet('Mine')
    ;[10, 20, 30].forEach((value, at) => (sheet.getCell(1 + at, 1).value = value))
    // Its types do not know of arrays.
    const fill = (range: string, formula: string, results: number[]) => (sheet as unknown as { fillFormula(...all: unknown[]): void }).fillFormula(range, formula, results, 'array')
    fill('C1:C3', 'A1*2', [20, 20, 20])
    fill('F1:F3', '5', [5, 5, 5])
    fill('H1:H3', 'A1:A3*2', [20, 40, 60])
    sheet.getCell('J1').value = { formula: 'SUM(C1:C3)', result: 60 }
    const { data, notKept, ofSheets } = await gridFromWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()), 'theirs.xlsx')
    const grid = gridOf(data)
    expect([grid.value('J1'), grid.value('C3'), grid.value('F3'), grid.value('H3')]).toEqual([60, 20, 5, 60])
    // The third is filled here as there.
    expect([notKept.get('formulas over several cells'), ofSheets.get('Mine')?.get('formulas over several cells')]).toEqual([2, 2])
  })
  it.runIf(hasCalc)('are the same to Calc', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'spills-'))
    try {
      const file = join(folder, 'mine.xlsx')
      writeFileSync(
        file,
        await workbookFromGrid(
          gridOf({ sheets: [{ id: 'mine', name: 'Mine', rowNumber: 60, colNumber: 20, cells: { D20: '3', D21: '1', D22: '2', G20: '=TRANSPOSE(D20:D22)' } }] }).model,
        ),
      )
      const out = await convertWithCalc(file, 'csv', folder, 60_000)
      expect(readFileSync(out, 'utf8').split('\n')[19]).toBe(',,,3,,,3,1,2')
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
})
