/** Sheets of an office's own that are longer than any sheet of a job: they stand in nobody's way. */
import { expect, it } from 'vitest'
import { makeTemplate, sourceOf } from '../../src/hosts/fileSession.js'
import { gridData } from '../../src/hosts/gridData.js'
import { makeJobs } from '../support/makings.js'
import type { SheetPlan } from '../../src/plan/plan.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }

it('a log of 60,000 rows stops no takeoff, and stays', async () => {
  const workbook = await inExceljs(makeTemplate(startingOffice(true), made))
  workbook.addWorksheet('Delivery log').getCell('A60000').value = 'the last truck'
  const source = sourceOf(await savedBy(workbook), 'OWN.xlsx')
  const { bytes } = await makeJobs(source, ['Pipit Hollow'])
  expect((await inExceljs(bytes)).getWorksheet('Delivery log')!.getCell('A60000').value).toBe('the last truck')
})

it('a sheet of 200,000 cells is shown by the page', () => {
  const cells = Array.from({ length: 200_000 }, (_, at) => ({ row: 1 + Math.floor(at / 4), column: 1 + (at % 4), role: 'number' as const, value: at }))
  const sheet = { name: 'Days', kind: 'office', cells, widths: [10], tables: [], validations: [], frozenRows: 0 } as unknown as SheetPlan
  const { sheets } = gridData({ sheets: [sheet] }) as { sheets: { rowNumber: number; cells: Record<string, string> }[] }
  expect(Object.keys(sheets[0]!.cells)).toHaveLength(200_000)
  expect(sheets[0]!.rowNumber).toBeGreaterThanOrEqual(50_000)
})

it('cells far below and beside a table are no rows of it', async () => {
  const workbook = await inExceljs(makeTemplate(startingOffice(true), made))
  const jobs = workbook.getWorksheet('Jobs')!
  const before = sourceOf(await savedBy(workbook), 'OWN.xlsx').raw.Jobs.rows
  for (let row = 20; row < 5000; row++) jobs.getCell(row, 1).value = row
  const { raw } = sourceOf(await savedBy(workbook), 'OWN.xlsx')
  expect(raw.Jobs.rows.at(-1)).toEqual([...before].reverse().find(({ cells }) => cells.Job !== null))
  // A row that has something of the table is one, wherever it stands.
  jobs.getCell(4000, 3).value = 'no job has a site alone'
  expect(sourceOf(await savedBy(workbook), 'OWN.xlsx').raw.Jobs.rows.at(-1)!.row).toBe(4000)
})
