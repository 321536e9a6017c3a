/** Files as other writers make them, and what the format allows though few programs write it. */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { openWorkbook, readOfficeTables } from '../../src/hosts/file.js'
import { makeTemplate, sourceOf } from '../../src/hosts/fileSession.js'
import { updateOffice } from '../../src/hosts/updateOffice.js'
import { startingOffice } from '../../src/takeoff/demo.js'

const template = makeTemplate(startingOffice(true), { date: '2026-11-25', revision: 1, version: 'test' })
const sheetOf = (name: string) => openWorkbook(template, 'x').book.sheetNamed(name)!.part
/** The template with one part written in another way. */
function changed(part: string, change: (xml: string) => string): Uint8Array {
  const parts = unzipSync(template)
  const before = strFromU8(parts[part]!)
  const after = change(before)
  expect(after, part).not.toBe(before)
  return zipSync({ ...parts, [part]: strToU8(after) })
}
const jobsIn = (bytes: Uint8Array) => readOfficeTables(openWorkbook(bytes, 'x.xlsx')).raw.Jobs.rows.map(({ cells }) => cells.Job)
const jobs = jobsIn(template)

describe('legal XML that few programs write', () => {
  it('spaces round the equals sign of an attribute', () => {
    expect(jobsIn(changed(sheetOf('Jobs'), (xml) => xml.replace(/<c r="/g, '<c r = "')))).toEqual(jobs)
  })
  it('text that is set apart as CDATA', () => {
    const bytes = changed(sheetOf('Jobs'), (xml) => xml.replace('>Wicket Mill<', '><![CDATA[Wicket <Mill> & Co]]><'))
    expect(jobsIn(bytes)).toEqual(jobs.map((job) => (job === 'Wicket Mill' ? 'Wicket <Mill> & Co' : job)))
  })
})

describe('a table', () => {
  it('with a row of sums under it ends above that row', () => {
    const table = openWorkbook(template, 'x')
      .book.relations(sheetOf('Jobs'))
      .find(({ type }) => type.endsWith('/table'))!.target
    // The last job of the demo stands where the sums would.
    const bytes = changed(table, (xml) => xml.replace('totalsRowShown="0"', 'totalsRowCount="1"'))
    expect(jobsIn(bytes)).toEqual(jobs.slice(0, -1))
  })
  it('with a row of sums under it takes no row in its place', () => {
    const older = new Uint8Array(readFileSync(join(import.meta.dirname, '../data/made-by-0.8.0.xlsx')))
    const { book } = openWorkbook(older, 'x')
    const table = book.relations(book.sheetNamed('Prices')!.part).find(({ type }) => type.endsWith('/table'))!.target
    const parts = unzipSync(older)
    parts[table] = strToU8(strFromU8(parts[table]!).replace('totalsRowShown="0"', 'totalsRowCount="1"'))
    expect(() => updateOffice(sourceOf(zipSync(parts), 'x.xlsx'), { date: '2026-11-26', revision: 1, version: 'test' })).toThrow(
      /the table Prices of the sheet Prices has a row of totals, below which no row can be added/,
    )
  })
})

describe('what a file is', () => {
  it('has macros where its main part says so, not where some other part could', () => {
    const [list] = ['[Content_Types].xml']
    const other = changed(list, (xml) => xml.replace('<Default ', '<Default Extension="bin" ContentType="application/vnd.ms-excel.sheet.binary.macroEnabled.main"/><Default '))
    expect(openWorkbook(other, 'x.xlsx').book.hasMacros).toBe(false)
    const macros = changed(list, (xml) =>
      xml.replace('application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml', 'application/vnd.ms-excel.sheet.macroEnabled.main+xml'),
    )
    expect(openWorkbook(macros, 'x.xlsm').book.hasMacros).toBe(true)
  })
  it('an OpenDocument file is no damaged one', () => {
    const ods = zipSync({ mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': strToU8('<x/>') })
    expect(() => openWorkbook(ods, 'a.ods')).toThrow('a.ods: an .xlsx workbook is needed; this is an OpenDocument file (.ods): save it as .xlsx.')
  })
})
