/** Refuses to write over a workbook that holds what its successor would not. */
import { existsSync, readFileSync, statSync } from 'node:fs'
import { resolve } from 'node:path'
import type ExcelJS from 'exceljs'
import { openWorkbook, plainCell, readSheet } from '../hosts/file.js'
import { jobSheetNames } from '../plan/jobSheets.js'
import { keptFrom } from '../plan/kept.js'
import { columnLetters, type WorkbookPlan } from '../plan/plan.js'
import type { RawOffice } from '../takeoff/office.js'
import { fieldsOf, tableNames } from '../takeoff/officeTables.js'
import { nothingKept } from '../takeoff/takeoff.js'

export async function refuseLoss(out: string, plan: WorkbookPlan, raw: RawOffice, input: string | undefined): Promise<void> {
  if (!existsSync(out)) return
  if (statSync(out).isDirectory()) throw new Error(`--out: a file to write; ${out} is a folder.`)
  const workbook = await openWorkbook(readFileSync(out), `${out} (the file to write over; give another name, or add --replace)`)
  const isInput = input !== undefined && resolve(input) === resolve(out)
  const lost = [...lostSheets(workbook, plan, isInput ? raw : undefined), ...(isInput ? lostOfTables(workbook, plan, raw) : typedOnJobs(workbook, plan))]
  if (lost.length) throw new Error(`${out}: it exists, and these would be lost: ${lost.join('; ')}. Give another name, or add --replace. Nothing was written.`)
}

function lostSheets(workbook: ExcelJS.Workbook, plan: WorkbookPlan, own: RawOffice | undefined): string[] {
  const written = new Set([...plan.sheets.map(({ name }) => name), ...(own ? Object.values(own).map(({ sheet }) => sheet) : [])])
  return workbook.worksheets.map(({ name }) => name).filter((name) => !written.has(name))
}

/** What people typed on the sheets of jobs that come from another workbook. */
function typedOnJobs(workbook: ExcelJS.Workbook, plan: WorkbookPlan): string[] {
  const jobs = plan.sheets.filter(({ kind }) => kind === 'takeoff').map(({ footer }) => footer)
  return jobs.flatMap((job) => {
    const kept = keptFrom(jobSheetNames(job), (sheet) => readSheet(workbook, sheet))
    return JSON.stringify(kept) === JSON.stringify(nothingKept) ? [] : [`what was typed on the sheets of ${job}`]
  })
}

/** The office's tables are written as plain values below our own headings: what else stands on their sheets would go. */
function lostOfTables(workbook: ExcelJS.Workbook, plan: WorkbookPlan, raw: RawOffice): string[] {
  return tableNames.flatMap((table) => {
    const { sheet: name, columns, rows } = raw[table]
    const strange = table === 'RainDays' ? [] : columns.filter((column) => column && !Object.hasOwn(fieldsOf(table), column))
    const sheet = workbook.getWorksheet(name)
    if (!sheet) return []
    const written = new Map(plan.sheets.find((known) => known.name === table)!.cells.map((cell) => [`${cell.row} ${cell.column}`, cell.value]))
    const firstRow = rows[0]?.row ?? sheet.rowCount + 1
    const [formulas, comments, notes]: string[][] = [[], [], []]
    sheet.eachRow((row, rowNumber) =>
      row.eachCell((cell, column) => {
        const place = `${columnLetters(column)}${rowNumber}`
        if (cell.formula) formulas!.push(place)
        if (cell.note) comments!.push(place)
        const isInTable = rowNumber >= firstRow - 1 && isHeaded(sheet, firstRow - 1, column)
        if (!isInTable && plainCell(cell) !== null && rowNumber >= firstRow && !written.has(`${rowNumber} ${column}`)) notes!.push(place)
      }),
    )
    return [
      ...(strange.length ? [`the columns ${strange.join(', ')} of ${table}`] : []),
      ...listed('the formulas', formulas!, name),
      ...listed('the comments', comments!, name),
      ...listed('what stands beside the table', notes!, name),
    ]
  })
}

const isHeaded = (sheet: ExcelJS.Worksheet, headingRow: number, column: number): boolean => plainCell(sheet.getCell(headingRow, column)) !== null
const SHOWN = 5
const listed = (what: string, places: readonly string[], sheet: string): string[] =>
  places.length ? [`${what} in ${places.slice(0, SHOWN).join(', ')}${places.length > SHOWN ? ` and ${places.length - SHOWN} more` : ''} of ${sheet}`] : []
