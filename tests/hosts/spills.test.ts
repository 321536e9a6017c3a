/** A formula that fills several cells stays one when a sheet of somebody's own is saved on the page and opened again: its results follow what it points to. */
import { Model } from '@odoo/o-spreadsheet'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openWorkbook } from '../../src/hosts/file.js'
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
