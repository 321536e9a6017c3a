/** The .xlsx host: what it refuses, and how calls of cell functions are stored. */
import ExcelJS from 'exceljs'
import { deflateSync, strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { openWorkbook, mustBeWorked, readOfficeTables as tablesIn, readSheet, writeWorkbook } from '../../src/hosts/file.js'
import { MOST_PACKED_BYTES, MOST_PARTS, MOST_UNPACKED_BYTES, mustBeReadable, pack, readZip, writeZip } from '../../src/hosts/xlsx/zip.js'
import { takeoffWorkbook, templateWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { problemText } from '../../src/takeoff/fields.js'
import { readOffice } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { manyJobs } from '../../scripts/bench/offices.js'
import { demoTakeoff } from '../support/office.js'
import { inExceljs, reopened, savedBy } from '../support/xlsx.js'

const readOfficeTables = async (workbook: ExcelJS.Workbook) => tablesIn(await reopened(workbook, 'demo.xlsx')).raw

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const cellsFile = () => writeWorkbook(takeoffWorkbook(startingOffice(true), [demoTakeoff('Wicket Mill')], 'cells', made))

describe('how sheets are printed', () => {
  const plan = takeoffWorkbook(startingOffice(true), [demoTakeoff('Wicket Mill'), demoTakeoff('Pipit Hollow')], 'native', made)
  const main = strFromU8(unzipSync(writeWorkbook(plan))['xl/workbook.xml']!)
  const sheets = [...main.matchAll(/<sheet [^>]*?name="([^"]+)"/g)].map((match) => match[1]!)
  const names = [...main.matchAll(/<definedName name="_xlnm\.Print_(Area|Titles)" localSheetId="(\d+)">([^<]*)</g)].map(([, kind, at, place]) => ({
    kind,
    sheet: sheets[Number(at)]!,
    place: place!,
  }))
  const of = (wanted: string) => new Map(names.filter(({ kind }) => kind === wanted).map(({ sheet, place }) => [sheet, place.replace(/'[^']*'!/g, '')]))

  // Seen in LibreOffice 7.4: an area said behind the headings of a sheet comes too late for its pages, 50 jobs then load in 75 s and not in 35.
  it('where sheets end stands before the headings of any', () => {
    expect(names.map(({ kind }) => kind).join('')).toMatch(/^(?:Area)+(?:Titles)+$/)
  })
  it('a sheet that is worked out as a whole ends where its cells and pictures end; below a quote and a handover there is room', () => {
    const areas = of('Area')
    for (const word of ['Options', 'Order', 'Design', 'Site', 'Crew', 'Year', 'Checks', 'Working']) {
      const { cells, drawings = [], widths } = plan.sheets.find(({ name }) => name === `${word} Wicket Mill`)!
      const [, letters, row] = /^\$A\$1:\$([A-Z]+)\$(\d+)$/.exec(areas.get(`${word} Wicket Mill`)!)!
      expect([word, letters]).toEqual([word, String.fromCharCode(64 + widths.length)])
      expect(Number(row), word).toBeGreaterThanOrEqual(Math.max(...cells.map((cell) => cell.row), ...drawings.map((drawing) => drawing.row)))
    }
    for (const word of ['Quote', 'Handover', 'Amend']) expect(areas.has(`${word} Wicket Mill`), word).toBe(false)
    for (const table of ['Jobs', 'Prices']) expect(areas.has(table), table).toBe(false)
  })
  it('headings come again where a sheet takes more than a page, keys where it is wider than one', () => {
    const titles = of('Titles')
    // By hand: the paper lies 11 in less twice 0.5 in, at nine tenths of the size 800 points; the columns of Jobs take some 11,900, of Catchments 350.
    expect(['Takeoff Wicket Mill', 'Design Wicket Mill', 'Jobs', 'Catchments', 'Options Wicket Mill', 'Quote Wicket Mill'].map((sheet) => titles.get(sheet))).toEqual([
      '$1:$5',
      '$1:$5',
      '$A:$B,$1:$5',
      '$1:$5',
      undefined,
      undefined,
    ])
  })
})

describe('what is refused', () => {
  it('a thousand jobs stay within what is read again, by what a job adds to a file', () => {
    const sizeOf = (count: number) => {
      const raw = manyJobs(count)
      const office = readOffice(raw)
      const bytes = writeWorkbook(
        takeoffWorkbook(
          raw,
          office.tables.Jobs.map((job) => makeTakeoff(office, job)),
          'native',
          { date: '2026-11-26', revision: 1, version: 'test' },
        ),
      )
      const parts = [...readZip(bytes, 'x').values()]
      return { packed: bytes.length, unpacked: parts.reduce((sum, { size }) => sum + size, 0), parts: parts.length }
    }
    // Five jobs of one kind each repeat: what five more add is what each five add.
    const [few, more] = [sizeOf(5), sizeOf(10)]
    const thousand = (of: keyof typeof few) => few[of] + ((more[of] - few[of]) / 5) * 995
    expect(thousand('parts')).toBeLessThan(MOST_PARTS)
    expect(thousand('unpacked')).toBeLessThan(MOST_UNPACKED_BYTES)
    expect(thousand('packed')).toBeLessThan(MOST_PACKED_BYTES)
  })
  it('what could not be read again is not written', () => {
    const part = pack('a.xml', new Uint8Array(10))
    expect(() => mustBeReadable(Array.from({ length: MOST_PARTS + 1 }, () => part))).toThrow(/too large to be read again: 40,001 parts of at most 40,000.*Nothing was written/)
    expect(() => mustBeReadable([part, part])).not.toThrow()
    expect(() => mustBeReadable([{ ...part, size: MOST_UNPACKED_BYTES + 1 }])).toThrow(/unpacked of at most 2560/)
  })
  it('columns of Jobs that have defaults are folded, and nothing of a row is lost by it', async () => {
    const jobs = (await inExceljs(writeWorkbook(templateWorkbook(startingOffice(true), { date: '2026-11-26', revision: 1, version: 'test' })))).getWorksheet('Jobs')!
    const at = (heading: string) => jobs.getColumn((jobs.getRow(5).values as unknown[]).indexOf(heading))
    expect([at('HousePressure_psi').hidden, at('HousePressure_psi').outlineLevel, at('Cover_ft').hidden, at('Cover_ft').outlineLevel, at('CrewLanguage').hidden]).toEqual([
      false,
      0,
      true,
      1,
      true,
    ])
    expect(jobs.getCell(9, at('Cover_ft').number).value).toBe(3)
  })
  it('a file that is no workbook, a truncated one, and one that is not ours', async () => {
    expect(() => openWorkbook(strToU8('hello'), 'a.xlsx')).toThrow('a.xlsx: an .xlsx workbook is needed; this is no such file.')
    expect(() => openWorkbook(new Uint8Array(), 'a.xlsx')).toThrow('no such file')
    const whole = cellsFile()
    for (const share of [0.2, 0.6, 0.95]) expect(() => openWorkbook(whole.subarray(0, Math.floor(whole.length * share)), 'cut.xlsx')).toThrow(/cut\.xlsx: .*(?:damaged|cut short)/)
    expect(() => openWorkbook(zipSync({ 'readme.txt': strToU8('x') }), 'zip.xlsx')).toThrow(/zip\.xlsx: .*damaged/)
    const stranger = new ExcelJS.Workbook()
    stranger.addWorksheet('Other')
    const bytes = new Uint8Array(await stranger.xlsx.writeBuffer())
    const opened = openWorkbook(bytes, 'other.xlsx')
    expect(() => tablesIn(opened)).toThrow(/other\.xlsx: no table Jobs, Tanks, Pumps, Roofs, Rain, Items, Prices/)
  })
  it('a zip bomb: what the directory promises is counted, what it hides stays packed', () => {
    const [most, part] = [2560, 300]
    const zeros = new Uint8Array(part * 1024 * 1024)
    const packed = deflateSync(zeros, { level: 9 })
    const parts = [
      pack('[Content_Types].xml', strToU8('<Types/>')),
      ...Array.from({ length: Math.ceil(most / part) + 1 }, (_, at) => ({ ...pack(`a${at}.xml`, new Uint8Array()), raw: packed, size: zeros.length, method: 8 })),
    ]
    const bomb = writeZip(parts)
    expect(bomb.length).toBeLessThan(4 * 1024 * 1024)
    expect(() => openWorkbook(bomb, 'bomb.xlsx')).toThrow('bomb.xlsx: it unpacks to more than 2560 MB and is refused.')
    // A directory that says less than there is: the part is never unpacked beyond its word.
    const liar = writeZip([{ ...pack('[Content_Types].xml', new Uint8Array()), raw: packed, size: 100, method: 8 }])
    expect(() => openWorkbook(liar, 'liar.xlsx')).toThrow(/^liar\.xlsx: /)
  })
  it('a formula longer than Excel takes is not written', () => {
    // ECMA-376 does not say; Excel’s own specifications: 8,192 characters.
    const sheet = (length: number) => ({
      ...templateWorkbook(startingOffice(false), made).sheets[0]!,
      cells: [{ row: 7, column: 3, role: 'number' as const, value: 1, formula: `1+${'1'.repeat(length - 2)}` }],
    })
    expect(writeWorkbook({ sheets: [sheet(8192)] }).length).toBeGreaterThan(1000)
    expect(() => writeWorkbook({ sheets: [sheet(8193)] })).toThrow(/!C7: a formula of at most 8,192 characters; it has 8,193\. Nothing was written/)
  })
  it('too many parts, a part twice, a password, an older file', () => {
    const many = writeZip(Array.from({ length: 40_001 }, (_, at) => pack(`p${at}`, new Uint8Array())))
    expect(() => openWorkbook(many, 'many.xlsx')).toThrow('many.xlsx: at most 40,000 parts are read; it has 40,001.')
    expect(() => openWorkbook(writeZip([pack('A.xml', strToU8('x')), pack('a.XML', strToU8('y'))]), 'twice.xlsx')).toThrow('twice.xlsx: part a.XML stands in it twice.')
    expect(() => openWorkbook(Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0), 'old.xls')).toThrow(
      'old.xls: an .xlsx workbook is needed; this is an older .xls, or one protected with a password',
    )
  })
  it('a part whose check sum is wrong', () => {
    const bytes = writeWorkbook(templateWorkbook(startingOffice(false), made))
    const parts = [...readZip(bytes, 'x').values()].map((part) => (part.name === 'xl/worksheets/sheet1.xml' ? { ...part, crc: part.crc ^ 1 } : part))
    const opened = openWorkbook(writeZip(parts), 'sum.xlsx')
    expect(() => tablesIn(opened)).toThrow('sum.xlsx: the workbook is damaged: xl/worksheets/sheet1.xml is not what it says it is.')
  })
})

describe('cells of an office workbook', () => {
  const demo = async () => {
    const workbook = await inExceljs(writeWorkbook(templateWorkbook(startingOffice(true), made)))
    const cell = (sheet: string, row: number, heading: string) =>
      workbook.getWorksheet(sheet)!.getCell(row, (workbook.getWorksheet(sheet)!.getRow(5).values as unknown[]).indexOf(heading))
    return { workbook, cell }
  }
  it('a formula saved without a result is refused at its place; one that gives an empty text is empty', async () => {
    const { workbook, cell } = await demo()
    cell('Jobs', 6, 'Cover_ft').value = { formula: 'IF(1,"","")', result: 'EMPTY' }
    const saved = async (result: string) => {
      const parts = unzipSync(await savedBy(workbook))
      const own = Object.keys(parts).find((name) => strFromU8(parts[name]!).includes('<v>EMPTY</v>'))!
      parts[own] = strToU8(strFromU8(parts[own]!).replace(/ t="str"(>(?:(?!<c ).)*)<v>EMPTY<\/v>/, `$1${result}`))
      return tablesIn(openWorkbook(zipSync(parts), 'demo.xlsx')).raw.Jobs.rows[0]!.cells.Cover_ft
    }
    const refused = /Jobs![A-Z]+6, Cover_ft: a formula saved without its result/
    await expect(saved('<v>2</v>')).resolves.toBe(2)
    // No result, and the empty one that some libraries write, which is no text.
    for (const none of ['', '<v/>', '<v></v>']) await expect(saved(none), none).rejects.toThrow(refused)
    const text = unzipSync(await savedBy(workbook))
    for (const [name, bytes] of Object.entries(text)) if (strFromU8(bytes).includes('<v>EMPTY</v>')) text[name] = strToU8(strFromU8(bytes).replace('<v>EMPTY</v>', '<v></v>'))
    expect(tablesIn(openWorkbook(zipSync(text), 'demo.xlsx')).raw.Jobs.rows[0]!.cells.Cover_ft).toBe(null)
  })
  it('a takeoff whose formulas were all saved without results is told of as a whole', async () => {
    const bytes = writeWorkbook(takeoffWorkbook(startingOffice(true), [demoTakeoff('Wicket Mill')], 'native', made))
    const parts = unzipSync(bytes)
    for (const name of Object.keys(parts).filter((part) => part.startsWith('xl/worksheets/')))
      parts[name] = strToU8(
        strFromU8(parts[name]!)
          .replace(/ t="(?:str|b|e)"/g, '')
          .replace(/(<\/f>)<v>[^<]*<\/v>/g, '$1<v/>'),
      )
    const workbook = openWorkbook(zipSync(parts), 'demo.xlsx')
    expect(() => mustBeWorked(workbook, 'Takeoff Wicket Mill')).toThrow(
      'demo.xlsx: Takeoff Wicket Mill: its formulas were saved without their results; open the workbook in a spreadsheet and save it there.',
    )
  })
  it('what people wrote with an hour is kept with it', async () => {
    const workbook = new ExcelJS.Workbook()
    const sheet = workbook.addWorksheet('Test')
    const cells: [number | Date, string, string | number][] = [
      [new Date(Date.UTC(2026, 4, 31, 14, 30)), 'yyyy-mm-dd hh:mm', '2026-05-31 14:30'],
      [new Date(Date.UTC(2026, 4, 31)), 'yyyy-mm-dd', '2026-05-31'],
      [14.5 / 24, 'h:mm', '14:30'],
      [1.25, '[h]:mm', '30:00'],
      [5 / 1440, 'h:mm', '00:05'],
      [52_215 / 86_400, 'h:mm:ss', '14:30:15'],
      [0, 'h:mm', 0],
      [0.5, '0 %', 0.5],
    ]
    cells.forEach(([value, numFmt], at) => Object.assign(sheet.getCell(at + 1, 1), { value, numFmt }))
    expect(readSheet(await reopened(workbook), 'Test')!.map(([cell]) => cell!.value)).toEqual(cells.map(([, , kept]) => kept))
  })
  it('texts of links and errors of cells are read as what they are', async () => {
    const { workbook, cell } = await demo()
    cell('Jobs', 6, 'Site').value = { text: { richText: [{ text: 'Upper ' }, { text: 'lane' }] }, hyperlink: 'https://example.org' } as unknown as ExcelJS.CellValue
    cell('Jobs', 7, 'Site').value = { error: '#REF!' }
    const raw = await readOfficeTables(workbook)
    expect(raw.Jobs.rows[0]!.cells.Site).toBe('Upper lane')
    expect(readOffice(raw).problems).toMatchObject([{ sheet: 'Jobs', row: 7, column: 'Site', came: '"#REF!"' }])
  })
  it('a renamed or doubled heading is a problem, not a column left out', async () => {
    const { workbook, cell } = await demo()
    cell('Jobs', 5, 'Cover_ft').value = 'Cover ft'
    cell('Jobs', 5, 'Tax').value = 'Markup'
    const { problems } = readOffice(await readOfficeTables(workbook))
    expect(problems.map(problemText)).toContain('Jobs, headings, Cover ft: a column headed Cover_ft, letter for letter; got "Cover ft".')
    expect(problems.map(({ column, came }) => [column, came])).toEqual([
      ['Markup', 'a second one'],
      ['Cover ft', '"Cover ft"'],
    ])
  })
  it('a renamed sheet is written under the name that formulas point to, numbers and names as they were checked', async () => {
    const { workbook, cell } = await demo()
    cell('Tanks', 6, 'Length_ft').value = '3 m'
    cell('Tanks', 6, 'Model').value = 'Quern 1200 '
    workbook.getWorksheet('Tanks')!.name = 'Our tanks'
    const raw = await readOfficeTables(workbook)
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
    const parts = unzipSync(cellsFile())
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
    const opened = await inExceljs(cellsFile())
    const design = opened.getWorksheet('Design Wicket Mill')!
    const dig = design.getColumn(3).values.indexOf('Dig_yd3')
    // Hand arithmetic of this pit stands in tests/takeoff/golden.test.ts.
    expect(design.getCell(dig, 4).result).toBeCloseTo(demoTakeoff('Wicket Mill').design.number('Dig_yd3'), 9)
  })
})
