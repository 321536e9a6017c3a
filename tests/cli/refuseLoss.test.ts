/** A command does not write over what its own output would not hold. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import ExcelJS from 'exceljs'
import { afterAll, expect, it } from 'vitest'
import { refuseLoss } from '../../src/cli/refuseLoss.js'
import { writeWorkbook } from '../../src/hosts/file.js'
import { takeoffWorkbook, templateWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { demoTakeoff } from '../support/office.js'

const folder = mkdtempSync(join(tmpdir(), 'cistern-loss-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const made = { date: '2026-11-25', revision: 1, version: 'test' }
const raw = startingOffice(true)
const plan = takeoffWorkbook(raw, [demoTakeoff('Pipit Hollow')], 'native', made)

async function office(change: (workbook: ExcelJS.Workbook) => void): Promise<string> {
  const file = join(folder, 'own.xlsx')
  writeFileSync(file, await writeWorkbook(templateWorkbook(raw, made)))
  const workbook = new ExcelJS.Workbook()
  await workbook.xlsx.readFile(file)
  change(workbook)
  await workbook.xlsx.writeFile(file)
  return file
}

it('a plain workbook may be written onto itself', async () => {
  const file = await office(() => undefined)
  await expect(refuseLoss(file, plan, raw, file)).resolves.toBeUndefined()
})

it('formulas, comments and notes beside the tables are named', async () => {
  const file = await office((workbook) => {
    workbook.getWorksheet('Jobs')!.getCell('E6').value = { formula: '40*60', result: 2400 } as ExcelJS.CellFormulaValue
    workbook.getWorksheet('Jobs')!.getCell('B6').note = 'call first'
    workbook.getWorksheet('Prices')!.getCell('H9').value = 'from the May quote'
  })
  await expect(refuseLoss(file, plan, raw, file)).rejects.toThrow(
    `${file}: it exists, and these would be lost: the formulas in E6 of Jobs; the comments in B6 of Jobs; what stands beside the table in H9 of Prices. Give another name, or add --replace. Nothing was written.`,
  )
})

it('a folder, and a file of another kind, are refused in words', async () => {
  const inside = join(folder, 'sub')
  mkdirSync(inside)
  await expect(refuseLoss(inside, plan, raw, undefined)).rejects.toThrow(`--out: a file to write; ${inside} is a folder.`)
  const text = join(folder, 'notes.txt')
  writeFileSync(text, 'notes')
  await expect(refuseLoss(text, plan, raw, undefined)).rejects.toThrow(/notes\.txt \(the file to write over; give another name, or add --replace\): an \.xlsx workbook is needed/)
})
