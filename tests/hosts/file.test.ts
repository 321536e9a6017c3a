/** The .xlsx host: what it refuses, and how calls of cell functions are stored. */
import ExcelJS from 'exceljs'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { openWorkbook, readOfficeTables, writeWorkbook } from '../../src/hosts/file.js'
import { takeoffWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
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
