/** Spoils every cached result of a plan, lets Calc recalculate the file, and compares cell by cell with ours. */
import ExcelJS from 'exceljs'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { writeWorkbook } from '../../src/hosts/file.js'
import type { WorkbookPlan } from '../../src/plan/plan.js'
import { convertWithCalc } from './calc.js'

export const SPOILT = -999

export interface Comparison {
  compared: number
  spoiltLeft: number
  worst: number
  differences: string[]
}

/** Without drawings, which hold no formula and take Calc as long as all the cells; paper.test.ts has Calc print them. */
const spoilt = (plan: WorkbookPlan): WorkbookPlan => ({
  sheets: plan.sheets.map(({ drawings: _drawings, ...sheet }) => ({
    ...sheet,
    cells: sheet.cells.map((cell) => (cell.formula === undefined ? cell : { ...cell, value: SPOILT })),
  })),
})

export async function compareWithCalc(plan: WorkbookPlan, within: number): Promise<Comparison> {
  const folder = mkdtempSync(join(tmpdir(), 'calc-check-'))
  try {
    const file = join(folder, 'spoilt.xlsx')
    writeFileSync(file, await writeWorkbook(spoilt(plan)))
    const result = await convertWithCalc(file, 'xlsx', join(folder, 'out'))
    const workbook = new ExcelJS.Workbook()
    await workbook.xlsx.readFile(result)
    return compare(plan, workbook, within)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function compare(plan: WorkbookPlan, workbook: ExcelJS.Workbook, within: number): Comparison {
  const found: Comparison = { compared: 0, spoiltLeft: 0, worst: 0, differences: [] }
  for (const sheet of plan.sheets) {
    const calculated = workbook.getWorksheet(sheet.name)!
    for (const cell of sheet.cells) {
      if (cell.formula === undefined) continue
      const theirs = resultOf(calculated.getCell(cell.row, cell.column))
      found.compared++
      if (theirs === SPOILT) found.spoiltLeft++
      const ours = cell.value ?? ''
      const isNumber = typeof ours === 'number' && typeof theirs === 'number'
      const off = isNumber ? Math.abs(ours - theirs) / Math.max(1, Math.abs(ours)) : ours === theirs ? 0 : Infinity
      if (isNumber) found.worst = Math.max(found.worst, off)
      if (off > within) found.differences.push(`${sheet.name}!R${cell.row}C${cell.column} =${cell.formula.slice(0, 140)}: ours ${ours}, Calc ${theirs}`)
    }
  }
  return found
}

function resultOf(cell: ExcelJS.Cell): unknown {
  const value = (cell.type === ExcelJS.ValueType.Formula ? cell.result : cell.value) as ExcelJS.CellValue | undefined
  if (value === null || value === undefined) return ''
  if (typeof value !== 'object' || value instanceof Date) return value
  return 'error' in value ? value.error : 'text' in value ? value.text : ''
}
