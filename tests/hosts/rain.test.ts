/** Daily rain put into an office's workbook: what stands there stays, or the file is not written. */
import { describe, expect, it } from 'vitest'
import { FileHost } from '../../src/hosts/fileHost.js'
import { addRainDays } from '../../src/hosts/session.js'
import { makeTemplate, remember, sourceOf } from '../../src/hosts/fileSession.js'
import { readProperty } from '../../src/hosts/xlsx/properties.js'
import { readZip, unpack } from '../../src/hosts/xlsx/zip.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { readOffice } from '../../src/takeoff/office.js'
import type { RainChoice } from '../../src/takeoff/withRain.js'
import { dateText } from '../../src/days.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const template = makeTemplate(startingOffice(true), made)
const station = 'Alder Reach'
async function add(bytes: Uint8Array, text: string, choice: RainChoice = { station }) {
  const host = new FileHost(sourceOf(bytes, 'OFFICE.xlsx'))
  const words = await addRainDays(host, text, 'r.csv', choice, made)
  return { words, bytes: host.bytes }
}
const readings = (bytes: Uint8Array) => new Map(sourceOf(bytes, 'x').raw.RainDays.rows.map(({ cells }) => [dateText(cells.Date), cells[station]]))

describe('rain of days', () => {
  it('of a workbook that had none is remembered as its own: nobody is told that the tables were changed', async () => {
    const workbook = await inExceljs(template)
    workbook.removeWorksheet(workbook.getWorksheet('RainDays')!.id)
    const { bytes } = await add(await savedBy(workbook), 'date,rain_in\n2031-01-01,0.5')
    const after = sourceOf(bytes, 'OFFICE.xlsx')
    const said = readProperty(after.workbook.book, 'Cistern Sheet tables')
    remember(after.workbook.book, after)
    expect(said).toBe(readProperty(after.workbook.book, 'Cistern Sheet tables'))
  })
  it('days of the file take the place of the same days, all other days stay', async () => {
    const before = readings(template)
    const [day] = [...before.keys()]
    const { bytes, words } = await add(template, `date,rain_in\n${day},3.21\n2031-01-01,0.5\n2031-01-02,`)
    const after = readings(bytes)
    expect(after.size).toBe(before.size + 2)
    expect([after.get(day), after.get('2031-01-01'), after.get('2031-01-02')]).toEqual([3.21, 0.5, null])
    expect(words).toContain('1 earlier reading of the same days replaced')
    expect([...before].filter(([date, rain]) => date !== day && after.get(date) !== rain)).toEqual([])
  })
  it('a station that is new gets a row in Rain, its means from the days; a slip of the pen makes none', async () => {
    const year = Array.from({ length: 365 }, (_, day) => `${new Date(Date.UTC(2030, 0, 1 + day)).toISOString().slice(0, 10)},0.5`).join('\n')
    const addNew = (name: string, isNew: boolean) => add(template, `date,rain_in\n${year}`, { station: name, isNew })
    await expect(addNew('Alder Reech', false)).rejects.toThrow(
      /Daily rain goes to a station of the sheet Rain: .*got Alder Reech\. One that is not there yet is added as a new station/,
    )
    await expect(addNew('Alder Reach', true)).rejects.toThrow('The new station: a name that no station has yet')
    // Capitals are no other name.
    expect((await add(template, 'date,rain_in\n2031-01-01,0.5', { station: 'alder reach' })).words).toContain('left out: 2031')
    const before = sourceOf(template, 'x').raw.Rain.rows.length
    const { raw } = sourceOf((await addNew('Heron Edge', true)).bytes, 'x')
    expect(raw.Rain.rows.length).toBe(before + 1)
    const { cells } = raw.Rain.rows.at(-1)!
    // Half an inch a day.
    expect([cells.Station, cells.Jan_in, cells.Feb_in, cells.Apr_in]).toEqual(['Heron Edge', 15.5, 14, 15])
    expect(readOffice(raw).rain.get('heron edge')!.years.length).toBe(1)
  })
  it('notes, formulas and another sheet of that name stand in the way', async () => {
    const workbook = await inExceljs(template)
    const sheet = workbook.getWorksheet('RainDays')!
    sheet.getCell('F6').value = 'gauge moved here'
    sheet.getCell('C9').value = { formula: '0.6+0.06', result: 0.66 }
    const noted = await savedBy(workbook)
    const text = 'date,rain_in\n2031-01-01,0.5'
    await expect(add(noted, text)).rejects.toThrow('RainDays: C9 would be written over: move it to a sheet of your own')
    sheet.getCell('C9').value = 0.66
    const { bytes } = await add(await savedBy(workbook), text)
    expect(readings(bytes).get('2031-01-01')).toBe(0.5)
    // What stands beside the record stays there.
    expect((await inExceljs(bytes)).getWorksheet('RainDays')!.getCell('F6').value).toBe('gauge moved here')
    sheet.getCell('B7').value = '2011-01-02?'
    const spoiled = await savedBy(workbook)
    await expect(add(spoiled, text)).rejects.toThrow(/row 7.*mend the sheet first/)
    workbook.removeWorksheet(sheet.id)
    workbook.addWorksheet('RainDays').getCell('A1').value = 'My own diary'
    const diary = await savedBy(workbook)
    await expect(add(diary, text)).rejects.toThrow('The sheet RainDays stands here already')
  })
  it('a workbook that counts its days from 1904 gets them so', async () => {
    const source = sourceOf(template, 'OFFICE.xlsx')
    const { book } = source.workbook!
    const main = book.text('xl/workbook.xml')
    book.put(
      'xl/workbook.xml',
      main.includes('<workbookPr') ? main.replace('<workbookPr', '<workbookPr date1904="1"') : main.replace(/<bookViews|<sheets/, (tag) => `<workbookPr date1904="1"/>${tag}`),
    )
    const part = book.sheetNamed('RainDays')!.part
    book.put(
      part,
      book.text(part).replace(/(<c r="B\d+" s="\d+"><v>)(\d+)/g, (_, start: string, serial: string) => `${start}${Number(serial) - 1462}`),
    )
    const moved = book.bytes()
    const [day] = [...readings(template).keys()]
    expect([...readings(moved).keys()][0]).toBe(day)
    const { bytes } = await add(moved, 'date,rain_in\n2031-01-01,0.5')
    expect([...readings(bytes).keys()]).toEqual([...readings(template).keys(), '2031-01-01'])
    // 2031-01-01 is day 47,849 from 1900 and 46,387 from 1904 (the calendars differ by 1,462 days).
    const sheet = sourceOf(bytes, 'x').workbook!.book.sheetNamed('RainDays')!.part
    expect(new TextDecoder().decode(unpack(readZip(bytes, 'x').get(sheet)!, 'x'))).toContain('<v>46387</v>')
  })
})
