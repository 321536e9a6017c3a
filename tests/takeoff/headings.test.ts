/** Headings that an office renamed: found, asked about, remembered on a sheet, and read like ours ever after. */
import { describe, expect, it } from 'vitest'
import { makeTemplate, sourceOf } from '../../src/hosts/fileSession.js'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import { makeJobs } from '../support/makings.js'
import { renamedHeadings } from '../../src/takeoff/headings.js'
import { problemText } from '../../src/takeoff/fields.js'
import { readOffice, rowNamed, type RawOffice } from '../../src/takeoff/office.js'
import type { TableName } from '../../src/takeoff/officeTables.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { makeTakeoff, workJob } from '../../src/takeoff/takeoff.js'
import { demoTakeoff } from '../support/office.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

const made = { date: '2026-11-26', revision: 1, version: 'test' }
/** The demo with a heading of a table changed, and what the sheet Headings says. */
function office(table: TableName, from: string, to: string, said: readonly Readonly<Record<string, unknown>>[] = []): RawOffice {
  const raw = startingOffice(true)
  const rename = (name: string) => (name === from ? to : name)
  return {
    ...raw,
    [table]: {
      ...raw[table],
      columns: raw[table].columns.map(rename),
      rows: raw[table].rows.map(({ row, cells }) => ({ row, cells: Object.fromEntries(Object.entries(cells).map(([name, value]) => [rename(name), value])) })),
    },
    Headings: { ...raw.Headings, rows: said.map((cells, at) => ({ row: 6 + at, cells })) },
  }
}
const work = (raw: RawOffice, name = 'Wicket Mill') => {
  const read = readOffice(raw)
  return workJob(read, rowNamed(read, 'Jobs', name)!)
}
const problemsOf = (raw: RawOffice) => work(raw).problems.map(problemText)

describe('a renamed heading', () => {
  it('is asked about, so that no default is priced in silence', () => {
    expect(problemsOf(office('Jobs', 'Cover_ft', 'Earth cover, ft'))).toEqual([
      'Jobs, headings, Earth cover, ft: Cover_ft, or a row of the sheet Headings that says what it is: Jobs, Earth cover, ft, and Cover_ft or nothing where it is your own; got "Earth cover, ft".',
    ])
    expect(work(office('Jobs', 'Cover_ft', 'Earth cover, ft')).problems[0]!.renamed).toEqual({ table: 'Jobs', heading: 'Earth cover, ft', field: 'Cover_ft' })
  })
  it.each<[TableName, string, string]>([
    ['Jobs', 'Cover_ft', 'Earth cover, ft'],
    ['Jobs', 'RoofArea_ft2', 'Size of the roof'],
    ['Tanks', 'Weight_lb', 'Weight of the empty tank'],
    ['Prices', 'Price_usd', 'Our price'],
    ['Items', 'LaborHours', 'Hours of labor'],
  ])('%s, %s as "%s": read like ours once the sheet says so', (table, from, to) => {
    const raw = office(table, from, to, [{ Table: table.toLowerCase(), Heading: to, Field: from }])
    expect(readOffice(raw).problems).toEqual([])
    const { takeoff } = work(raw)
    expect([takeoff!.total, takeoff!.laborHours]).toEqual([demoTakeoff('Wicket Mill').total, demoTakeoff('Wicket Mill').laborHours])
  })
  it('that stands between two of ours is asked about as the one that belongs there, though another is lacking further left', () => {
    // Ours go Height, Wall, Floor, Lid, WaterDepth: Wall is gone, and what stands behind Floor can only be Lid.
    const raw = office('Tanks', 'Lid_in', 'Slab')
    const without = { ...raw, Tanks: { ...raw.Tanks, columns: raw.Tanks.columns.filter((name) => name !== 'Wall_in') } }
    expect(renamedHeadings(without, 'Tanks', []).map(({ heading, field }) => [heading, field])).toEqual([['Slab', 'Lid_in']])
  })
  it('that is a column of the office’s own is said to be so, and the default counts', () => {
    const raw = office('Jobs', 'Cover_ft', 'Earth cover, ft', [{ Table: 'Jobs', Heading: 'Earth cover, ft' }])
    expect(problemsOf(raw)).toEqual([])
    expect(work(raw).design!.number('Cover_ft')).toBe(2)
  })
  it('a column with cells that do not fit is nobody’s question', () => {
    const raw = office('Jobs', 'Cover_ft', 'Earth cover')
    const texts = { ...raw, Jobs: { ...raw.Jobs, rows: raw.Jobs.rows.map(({ row, cells }) => ({ row, cells: { ...cells, 'Earth cover': 'sandy' } })) } }
    expect(problemsOf(texts)).toEqual([])
  })
  it.each([
    [{ Table: 'Job', Heading: 'Earth cover', Field: 'Cover_ft' }, /^Headings, row 6, Table: one of Jobs, Tanks, .*; got "Job"\.$/],
    [{ Table: 'Jobs', Heading: 'Cover', Field: 'Cover_ft' }, /^Headings, row 6, Heading: a heading of the sheet Jobs; got "Cover"\.$/],
    [{ Table: 'Jobs', Heading: 'Earth cover', Field: 'Cover' }, /^Headings, row 6, Field: a column of ours of Jobs, .*; got "Cover"\.$/],
    [{ Table: 'Jobs', Heading: 'Earth cover', Field: 'People' }, /^Headings, row 6, Field: a column that Jobs lacks; People stands there itself; got "People"\.$/],
  ])('a row that explains nothing is named: %o', (row, message) => {
    expect(problemsOf(office('Jobs', 'Cover_ft', 'Earth cover', [row])).some((text) => message.test(text))).toBe(true)
  })
  it('in a file: formulas point into the renamed columns, and what was made is the same', async () => {
    const workbook = await inExceljs(makeTemplate(startingOffice(true), made))
    const heading = (sheet: string, from: string, to: string) => {
      const table = workbook.getWorksheet(sheet)!
      table.getCell(5, (table.getRow(5).values as unknown[]).indexOf(from)).value = to
    }
    heading('Tanks', 'Weight_lb', 'Weight of the empty tank')
    heading('Prices', 'Price_usd', 'Our price')
    const sheet = workbook.addWorksheet('Headings')
    sheet.addRows([
      ['Table', 'Heading', 'Field'],
      ['Tanks', 'Weight of the empty tank', 'Weight_lb'],
      ['Prices', 'Our price', 'Price_usd'],
    ])
    const source = sourceOf(await savedBy(workbook), 'O.xlsx')
    const read = readOffice(source.raw)
    expect(read.problems).toEqual([])
    const takeoff = makeTakeoff(read, rowNamed(read, 'Jobs', 'Wicket Mill')!)
    expect(takeoff.total).toBe(demoTakeoff('Wicket Mill').total)
    const { bytes } = await makeJobs(source, ['Wicket Mill'])
    const design = readSheet(openWorkbook(bytes, 'x'), 'Design Wicket Mill')!
    const weight = design.find((row) => row.some(({ value }) => value === 'TankWeight_lb'))![3]!
    const column = source.places.Tanks.columnOf('Weight_lb')!
    expect(weight.formula).toContain(`Tanks!$${String.fromCharCode(64 + column)}$6`)
  })
})
