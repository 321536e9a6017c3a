/** The .xlsx host: what it refuses, and how calls of cell functions are stored. */
import ExcelJS from 'exceljs'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { openWorkbook, readOfficeTables, writeWorkbook } from '../../src/hosts/file.js'
import { takeoffWorkbook, templateWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { problemText } from '../../src/takeoff/fields.js'
import { readOffice } from '../../src/takeoff/office.js'
import { demoTakeoff } from '../support/office.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const cellsFile = () => writeWorkbook(takeoffWorkbook(startingOffice(true), [demoTakeoff('Wicket Mill')], 'cells', made))

describe('what is refused', () => {
  it('a file that is no workbook, a truncated one, and one that is not ours', async () => {
    await expect(openWorkbook(strToU8('hello'), 'a.xlsx')).rejects.toThrow('a.xlsx: an .xlsx workbook is needed; this is no such file.')
    await expect(openWorkbook(new Uint8Array(), 'a.xlsx')).rejects.toThrow('no such file')
    const whole = await cellsFile()
    for (const share of [0.2, 0.6, 0.95])
      await expect(openWorkbook(whole.subarray(0, Math.floor(whole.length * share)), 'cut.xlsx')).rejects.toThrow(/cut\.xlsx: .*(?:damaged|cut short)/)
    await expect(openWorkbook(zipSync({ 'readme.txt': strToU8('x') }), 'zip.xlsx')).rejects.toThrow(/zip\.xlsx: .*damaged/)
    const stranger = new ExcelJS.Workbook()
    stranger.addWorksheet('Other')
    const bytes = new Uint8Array(await stranger.xlsx.writeBuffer())
    const opened = await openWorkbook(bytes, 'other.xlsx')
    expect(() => readOfficeTables(opened, 'other.xlsx')).toThrow(/other\.xlsx: no table Jobs, Tanks, Pumps, Roofs, Rain, Items, Prices/)
  })
  it('a zip bomb, before it is unpacked whole', async () => {
    const zeros = new Uint8Array(64 * 1024 * 1024)
    const bomb = zipSync({ '[Content_Types].xml': strToU8('<Types/>'), 'a.xml': zeros, 'b.xml': zeros, 'c.xml': zeros, 'd.xml': zeros }, { level: 9 })
    expect(bomb.length).toBeLessThan(2 * 1024 * 1024)
    await expect(openWorkbook(bomb, 'bomb.xlsx')).rejects.toThrow('bomb.xlsx: it unpacks to more than 200 MB and is refused.')
  })
})

describe('cells of an office workbook', () => {
  const demo = async () => {
    const workbook = await openWorkbook(await writeWorkbook(templateWorkbook(startingOffice(true), made)), 'demo.xlsx')
    const cell = (sheet: string, row: number, heading: string) =>
      workbook.getWorksheet(sheet)!.getCell(row, (workbook.getWorksheet(sheet)!.getRow(5).values as unknown[]).indexOf(heading))
    return { workbook, cell }
  }
  it('a formula saved without a result is refused at its place; one that gives an empty text is empty', async () => {
    const { workbook, cell } = await demo()
    cell('Jobs', 6, 'Cover_ft').value = { formula: 'IF(1,"","")' } as ExcelJS.CellFormulaValue
    expect(readOfficeTables(workbook, 'demo.xlsx').Jobs.rows[0]!.cells.Cover_ft).toBe(null)
    cell('Jobs', 6, 'Cover_ft').value = { formula: '3+3' } as ExcelJS.CellFormulaValue
    expect(() => readOfficeTables(workbook, 'demo.xlsx')).toThrow(/Jobs![A-Z]+6, Cover_ft: a formula saved without its result/)
  })
  it('texts of links and errors of cells are read as what they are', async () => {
    const { workbook, cell } = await demo()
    cell('Jobs', 6, 'Site').value = { text: { richText: [{ text: 'Upper ' }, { text: 'lane' }] }, hyperlink: 'https://example.org' } as unknown as ExcelJS.CellValue
    cell('Jobs', 7, 'Site').value = { error: '#REF!' }
    const raw = readOfficeTables(workbook, 'demo.xlsx')
    expect(raw.Jobs.rows[0]!.cells.Site).toBe('Upper lane')
    expect(readOffice(raw).problems).toMatchObject([{ sheet: 'Jobs', row: 7, column: 'Site', came: '"#REF!"' }])
  })
  it('a renamed or doubled heading is a problem, not a column left out', async () => {
    const { workbook, cell } = await demo()
    cell('Jobs', 5, 'Cover_ft').value = 'Cover ft'
    cell('Jobs', 5, 'Tax').value = 'Markup'
    const { problems } = readOffice(readOfficeTables(workbook, 'demo.xlsx'))
    expect(problemText(problems[0]!)).toBe('Jobs, headings, Cover ft: a column headed Cover_ft, letter for letter; got "Cover ft".')
    expect(problems.map(({ column, came }) => [column, came])).toEqual([
      ['Cover ft', '"Cover ft"'],
      ['Markup', 'a second one'],
    ])
  })
  it('a renamed sheet is written under the name that formulas point to, numbers and names as they were checked', async () => {
    const { workbook, cell } = await demo()
    cell('Tanks', 6, 'Length_ft').value = '3 m'
    cell('Tanks', 6, 'Model').value = 'Quern 1200 '
    workbook.getWorksheet('Tanks')!.name = 'Our tanks'
    const raw = readOfficeTables(workbook, 'demo.xlsx')
    const tanks = templateWorkbook(raw, made).sheets.find(({ name }) => name === 'Tanks')!
    const row = tanks.cells.filter((known) => known.row === 6).map(({ value }) => value)
    // 1 ft is 0.3048 m exactly (NIST SP 811, Table B.8).
    expect(row).toContain(3 / 0.3048)
    expect(row).toContain('Quern 1200')
    // In an open workbook formulas read the cell itself, so the pane asks for the number.
    const problems = readOffice(raw, { isLive: true }).problems
    expect(problems.map(({ column, allowed }) => [column, allowed])).toEqual([
      ['Model', 'the text "Quern 1200" itself: formulas read this cell'],
      ['Length_ft', expect.stringMatching(/^the number 9\.84251968/)],
    ])
  })
  it('a row below those that formulas look through is a problem', () => {
    const office = startingOffice(true)
    const rows = [...office.Tanks.rows, ...Array.from({ length: 300 }, (_, at) => ({ row: 100 + at, cells: {} })), { row: 500, cells: office.Tanks.rows[0]!.cells }]
    expect(readOffice({ ...office, Tanks: { ...office.Tanks, rows } }).problems[0]).toMatchObject({ sheet: 'Tanks', row: 500, allowed: expect.stringContaining('within 300 rows') })
  })
})

describe('calls of cell functions in a file', () => {
  it('are stored as dynamic-array cells with cached results, metadata and relationship', async () => {
    const parts = unzipSync(await cellsFile())
    const sheets = Object.entries(parts)
      .filter(([name]) => /^xl\/worksheets\/[^/]+\.xml$/.test(name))
      .map(([, bytes]) => strFromU8(bytes))
      .join('')
    const calls = [...sheets.matchAll(/<c r="([A-Z]+\d+)"[^>]* cm="1"><f t="array" ref="([A-Z]+\d+)">([^<]*_xldudf_CISTERN_[^<]*)<\/f><v>([^<]+)<\/v>/g)]
    expect(calls.length).toBeGreaterThan(40)
    for (const [, cell, reference, , cached] of calls) {
      expect(reference).toBe(cell)
      expect(cached!.length).toBeGreaterThan(0)
    }
    expect(sheets).not.toMatch(/CISTERN\./)
    expect(strFromU8(parts['xl/metadata.xml']!)).toContain('XLDAPR')
    expect(strFromU8(parts['[Content_Types].xml']!)).toContain('/xl/metadata.xml')
    expect(strFromU8(parts['xl/_rels/workbook.xml.rels']!)).toContain('sheetMetadata')
    expect(strFromU8(parts['xl/workbook.xml']!)).not.toMatch(/fullCalcOnLoad="1"/)
  })
  it('keep their cached results for a reader without the add-in', async () => {
    const opened = await openWorkbook(await cellsFile(), 'cells.xlsx')
    const design = opened.getWorksheet('Design Wicket Mill')!
    const dig = design.getColumn(3).values.indexOf('Dig_yd3')
    // Hand arithmetic of this pit stands in tests/takeoff/golden.test.ts.
    expect(design.getCell(dig, 4).result).toBeCloseTo(demoTakeoff('Wicket Mill').design.number('Dig_yd3'), 9)
  })
})
