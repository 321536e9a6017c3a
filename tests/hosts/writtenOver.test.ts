/** Nothing of an office's workbook is lost: other parts pass through byte for byte, and a file is written over only where nothing in it is somebody's own. */
import { createHash } from 'node:crypto'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import ExcelJS from 'exceljs'
import type { Flavor } from '../../src/plan/calls.js'
import { takeoffColumns } from '../../src/plan/sheets/takeoffColumns.js'
import { describe, expect, it } from 'vitest'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import { FileHost } from '../../src/hosts/fileHost.js'
import { makeFile } from '../../src/hosts/makeFile.js'
import { setUp } from '../../src/hosts/session.js'
import { demoSource, makeTemplate, sourceOf, statesIn, type Source } from '../../src/hosts/fileSession.js'
import { readZip, unpack, writeZip } from '../../src/hosts/xlsx/zip.js'
import { sheetStates } from '../../src/hosts/standing.js'
import { putCells } from '../../src/hosts/xlsx/putCells.js'
import { readProperty } from '../../src/hosts/xlsx/properties.js'
import type { Spool } from '../../src/hosts/xlsx/zip.js'
import { fileSpool } from '../../src/cli/common.js'
import { withPrefixes, withoutPrefixes } from '../../src/hosts/xlsx/writeSheet.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { fieldsOf } from '../../src/takeoff/officeTables.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { demoRows } from '../support/office.js'
import { made, makeJobs, revisionIn } from '../support/makings.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

const template = makeTemplate(startingOffice(true), made)
const make = (source: Source, jobs = ['Pipit Hollow'], flavor: Flavor = 'native', standing?: Uint8Array) => makeJobs(source, jobs, { flavor, standing })
const hashes = (bytes: Uint8Array) => new Map([...readZip(bytes, 'x').values()].map((part) => [part.name, createHash('sha256').update(unpack(part, 'x')).digest('hex')]))

/** An office's own workbook: text above headings, columns beside tables, a picture, formats, names, a sheet of its own. */
async function own(): Promise<Uint8Array> {
  const workbook = await inExceljs(template)
  workbook.getWorksheet('Jobs')!.getCell('D1').value = 'Ask Ines before changing this sheet'
  workbook.getWorksheet('Prices')!.getCell('I5').value = 'Yard'
  workbook.getWorksheet('Prices')!.getCell('I6').value = 'Yard at the ford'
  workbook.getWorksheet('Tanks')!.getCell('Z3').value = { formula: '1+1', result: 2 }
  workbook.getWorksheet('Tanks')!.getColumn(6).hidden = true
  workbook.getWorksheet('Jobs')!.getCell('B6').note = 'call first'
  const notes = workbook.addWorksheet('My notes')
  notes.getCell('A1').value = { formula: "'Takeoff Pipit Hollow'!$K$20", result: 0 }
  notes.mergeCells('B2:D3')
  notes.addConditionalFormatting({ ref: 'A1:A9', rules: [{ type: 'cellIs', operator: 'greaterThan', formulae: [5], priority: 1, style: { font: { bold: true } } }] })
  const pixel = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='
  notes.addImage(workbook.addImage({ base64: pixel, extension: 'png' }), 'E5:F8')
  workbook.definedNames.add("'My notes'!$A$1", 'Summit')
  return savedBy(workbook)
}

describe('written onto itself', () => {
  it('every part that is not ours stays byte for byte: pictures, comments, formats, own columns, own sheets', async () => {
    const before = await own()
    const { bytes } = await make(sourceOf(before, 'OWN.xlsx'))
    const [old, now] = [hashes(before), hashes(bytes)]
    const changed = [...old.keys()].filter((name) => now.get(name) !== old.get(name))
    // The list of sheets, the kinds of parts, the formats (added to), the properties, and nothing of a sheet of theirs.
    expect(
      changed.filter((name) => !/^(?:\[Content_Types\]\.xml|xl\/workbook\.xml|xl\/_rels\/workbook\.xml\.rels|xl\/styles\.xml|_rels\/\.rels|docProps\/custom\.xml)$/.test(name)),
    ).toEqual([])
    const again = await inExceljs(bytes)
    expect(again.getWorksheet('Prices')!.getCell('I6').value).toBe('Yard at the ford')
    expect(again.getWorksheet('Jobs')!.getCell('D1').value).toBe('Ask Ines before changing this sheet')
    expect(again.getWorksheet('Tanks')!.getColumn(6).hidden).toBe(true)
    expect(again.getWorksheet('My notes')!.getImages()).toHaveLength(1)
    expect(again.worksheets.map(({ name }) => name)).toEqual(expect.arrayContaining(['My notes', 'Takeoff Pipit Hollow', 'Published tables']))
  })
  it('made twice, changes nothing', async () => {
    const first = (await make(sourceOf(await own(), 'OWN.xlsx'))).bytes
    const second = (await make(sourceOf(first, 'OWN.xlsx'))).bytes
    const [one, other] = [hashes(first), hashes(second)]
    const differing = [...one.keys()].filter((name) => one.get(name) !== other.get(name))
    expect(revisionIn(openWorkbook(second, 'x'), 'Pipit Hollow')).toBe(1)
    // A sheet of one's own that points to ours is worked out anew by whatever opens the file.
    expect(differing).toEqual([openWorkbook(first, 'x').book.sheetNamed('My notes')!.part])
    expect([...other.keys()].length).toBe([...one.keys()].length)
  })
  it('formulas of an office’s own sheets follow the line that they meant; what cannot be followed is named', async () => {
    const first = (await make(sourceOf(await own(), 'OWN.xlsx'))).bytes
    const workbook = await inExceljs(first)
    const takeoff = workbook.getWorksheet('Takeoff Pipit Hollow')!
    const descriptions = takeoff.getColumn(3).values as unknown[]
    const total = descriptions.indexOf('Delivery, total')
    const strip = (takeoff.getColumn(2).values as unknown[]).indexOf('STRIP')
    const notes = workbook.getWorksheet('My notes')!
    notes.getCell('A1').value = { formula: `2*'Takeoff Pipit Hollow'!$G$${total}`, result: 0 }
    // Rows that stay together, rows that are parted by a new line, in small letters, by a name, and from a link.
    notes.getCell('A2').value = { formula: `SUM('Takeoff Pipit Hollow'!G${strip}:G${strip + 3})`, result: 0 }
    notes.getCell('A3').value = { formula: `SUM('Takeoff Pipit Hollow'!G${strip}:G${total})`, result: 0 }
    notes.getCell('A4').value = { formula: `'takeoff pipit hollow'!G${total}`, result: 0 }
    notes.getCell('A5').value = { text: 'total', hyperlink: `#'Takeoff Pipit Hollow'!G${total}` }
    // Whole rows and cells of several sheets at once are told.
    notes.getCell('A6').value = { formula: `SUM('Takeoff Pipit Hollow'!$${total}:$${total})`, result: 0 }
    notes.getCell('A7').value = { formula: `SUM('Takeoff Pipit Hollow:Order Pipit Hollow'!G${total})`, result: 0 }
    await takeoff.protect('', {})
    workbook.definedNames.add(`'Takeoff Pipit Hollow'!$G$${total}`, 'WholeSum')
    // Two lines by hand more, and the sums move down.
    const jobs = workbook.getWorksheet('Jobs')!
    const column = (jobs.getRow(5).values as unknown[]).indexOf('TreatmentLoss_psi')
    jobs.getCell(7, column).value = 6
    const { bytes, notes: told } = await make(sourceOf(await savedBy(workbook), 'OWN.xlsx'))
    const moved = (await inExceljs(bytes)).getWorksheet('Takeoff Pipit Hollow')!.getColumn(3).values as unknown[]
    expect(moved.indexOf('Delivery, total')).toBeGreaterThan(total)
    const read = readSheet(openWorkbook(bytes, 'x'), 'My notes')!
    expect(read[0]![0]!.formula).toBe(`2*'Takeoff Pipit Hollow'!$G$${moved.indexOf('Delivery, total')}`)
    expect(read[1]![0]!.formula).toBe(`SUM('Takeoff Pipit Hollow'!G${strip}:G${strip + 3})`)
    expect(read[3]![0]!.formula).toBe(`'takeoff pipit hollow'!G${moved.indexOf('Delivery, total')}`)
    const text = new TextDecoder().decode(unpack(readZip(bytes, 'x').get('xl/workbook.xml')!, 'x'))
    expect(text).toMatch(new RegExp(`name="WholeSum"[^>]*>'Takeoff Pipit Hollow'!\\$G\\$${moved.indexOf('Delivery, total')}<`))
    expect(told).toEqual([
      expect.stringMatching(/^My notes!A3 points to 'Takeoff Pipit Hollow'!G\d+:G\d+/),
      expect.stringMatching(/^My notes!A6 points to 'Takeoff Pipit Hollow'!\$\d+:\$\d+: look/),
      expect.stringMatching(/^My notes!A7 points through 'Takeoff Pipit Hollow:Order Pipit Hollow': look/),
    ])
    // Protected it stays protected.
    const { book } = openWorkbook(bytes, 'x')
    expect(book.text(book.sheetNamed('Takeoff Pipit Hollow')!.part)).toMatch(/<\/sheetData><sheetProtection [^>]*sheet="1"/)
  })
  it('the picture on House stands above the letterhead of the papers; made again there is still one', async () => {
    const workbook = await inExceljs(await own())
    // The smallest PNG there is, one dot by one.
    const dot = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='
    const place = { tl: { col: 1, row: 9 }, ext: { width: 40, height: 40 } } as const
    workbook.getWorksheet('House')!.addImage(workbook.addImage({ base64: dot, extension: 'png' }), place)
    const first = (await make(sourceOf(await savedBy(workbook), 'OWN.xlsx'))).bytes
    const second = await make(sourceOf(first, 'OWN.xlsx'))
    expect(second.notes).toEqual([])
    for (const bytes of [first, second.bytes]) {
      const again = await inExceljs(bytes)
      const { book } = openWorkbook(bytes, 'x')
      const logosOn = (paper: string) => {
        const drawing = book.relations(book.sheetNamed(`${paper} Pipit Hollow`)!.part).find(({ type }) => type.endsWith('/drawing'))?.target
        return drawing === undefined
          ? []
          : [...book.text(drawing).matchAll(/name="Cistern Sheet: logo".*?r:embed="(\w+)"/g)].map(([, id]) => book.relations(drawing).find((one) => one.id === id)?.target)
      }
      for (const paper of ['Quote', 'Test', 'Handover']) expect(logosOn(paper), paper).toEqual(['xl/media/cistern-sheet-logo.png'])
      expect(logosOn('Crew')).toEqual([])
      expect(again.getWorksheet('House')!.getImages()).toHaveLength(1)
      expect(again.getWorksheet('Quote Pipit Hollow')!.getRow(1).height).toBeGreaterThan(24 + 34)
    }
  })
  it('the sums of a job have names that follow them; one that somebody gave to a cell of theirs stays theirs', async () => {
    const namesIn = (bytes: Uint8Array) => {
      const text = new TextDecoder().decode(unpack(readZip(bytes, 'x').get('xl/workbook.xml')!, 'x'))
      return new Map([...text.matchAll(/<definedName name="(Pipit_Hollow\.[^"]+)">([^<]+)</g)].map(([, name, place]) => [name!, place!.replace(/&apos;|&#39;/g, "'")]))
    }
    const first = (await make(sourceOf(await own(), 'OWN.xlsx'))).bytes
    const before = namesIn(first)
    const placeOf = (bytes: Uint8Array, words: string) => readSheet(openWorkbook(bytes, 'x'), 'Takeoff Pipit Hollow')!.findIndex((row) => row[2]?.value === words) + 1
    expect([...before.keys()]).toEqual(expect.arrayContaining(['Pipit_Hollow.Total', 'Pipit_Hollow.Order_cost', 'Pipit_Hollow.Earthwork', 'Pipit_Hollow.Added_by_hand']))
    expect(before.get('Pipit_Hollow.Total')).toBe(`'Takeoff Pipit Hollow'!$G$${placeOf(first, 'Total')}`)
    const workbook = await inExceljs(first)
    workbook.definedNames.remove("'Takeoff Pipit Hollow'!$G$" + placeOf(first, 'Tax'), 'Pipit_Hollow.Tax')
    workbook.definedNames.add("'My notes'!$A$9", 'Pipit_Hollow.Tax')
    workbook.definedNames.add("'Takeoff Pipit Hollow'!$G$20", 'Pipit_Hollow.Fence')
    const jobs = workbook.getWorksheet('Jobs')!
    jobs.getCell(7, (jobs.getRow(5).values as unknown[]).indexOf('TreatmentLoss_psi')).value = 6
    const { bytes, notes } = await make(sourceOf(await savedBy(workbook), 'OWN.xlsx'))
    const after = namesIn(bytes)
    expect(after.get('Pipit_Hollow.Delivery')).toBe(`'Takeoff Pipit Hollow'!$G$${placeOf(bytes, 'Delivery, total')}`)
    expect(after.get('Pipit_Hollow.Delivery')).not.toBe(before.get('Pipit_Hollow.Delivery'))
    expect(after.get('Pipit_Hollow.Tax')).toBe("'My notes'!$A$9")
    // A sum that the job has no more has no name either: it would point to another line.
    expect(after.has('Pipit_Hollow.Fence')).toBe(false)
    expect(notes).toEqual([])
    // Who uses it is told by cell, and nothing is said of it that is not so.
    const used = await inExceljs(bytes)
    used.definedNames.add("'Takeoff Pipit Hollow'!$G$20", 'Pipit_Hollow.Fence')
    used.getWorksheet('My notes')!.getCell('B12').value = { formula: 'SUM(Pipit_Hollow.Fence)*2', result: 3 } as ExcelJS.CellFormulaValue
    expect((await make(sourceOf(await savedBy(used), 'OWN.xlsx'))).notes).toEqual(['My notes!B12 uses Pipit_Hollow.Fence, and the job has no such sum any more.'])
  })
  it('words where our sheets have none, and drawings on them: kept or told, never gone in silence', async () => {
    const first = (await make(sourceOf(await own(), 'OWN.xlsx'))).bytes
    const workbook = await inExceljs(first)
    const takeoff = workbook.getWorksheet('Takeoff Pipit Hollow')!
    takeoff.getCell('C9').note = 'ask the yard'
    const noted = await savedBy(workbook)
    const again = await make(sourceOf(noted, 'OWN.xlsx'))
    expect(again.notes).toEqual(['Takeoff Pipit Hollow: the drawings and remarks on it stay where they stood; its rows may have moved.'])
    expect(JSON.stringify((await inExceljs(again.bytes)).getWorksheet('Takeoff Pipit Hollow')!.getCell('C9').note)).toContain('ask the yard')
    takeoff.getCell('Z9').value = 'Ines: two days only'
    const dig = (takeoff.getColumn(2).values as unknown[]).indexOf('BACKFILL')
    takeoff.getCell(dig, takeoffColumns.why).value = 'by the neighbour’s machine'
    workbook.getWorksheet('Published tables')!.getCell('AA30').value = 'see page 4'
    const written = await savedBy(workbook)
    await expect(make(sourceOf(written, 'OWN.xlsx'))).rejects.toThrow(
      /what was typed on sheets that are made again would be lost: Published tables!AA30 \("see page 4"\), Takeoff Pipit Hollow!P\d+ \("by the neighbour’s machine"\), Takeoff Pipit Hollow!Z9 \("Ines: two days only"\)/,
    )
  })
  it('a sheet at its place that says no more how it was made is not written over, and what goes with it is told', async () => {
    const first = (await make(sourceOf(template, 'OFFICE.xlsx'))).bytes
    const there = async (change: (workbook: ExcelJS.Workbook) => void) => {
      const workbook = await inExceljs(first)
      change(workbook)
      return make(sourceOf(template, 'OFFICE.xlsx'), ['Pipit Hollow'], 'native', await savedBy(workbook))
    }
    for (const prefix of ['Takeoff', 'Crew', 'Test', 'Order']) {
      const { reasons } = await there((workbook) => (workbook.getWorksheet(`${prefix} Pipit Hollow`)!.getCell('B3').value = 'Offer 12, second draft'))
      expect(reasons.join()).toContain(`typed on it and lost then: ${prefix} Pipit Hollow (its third line, when it was made, is another now)`)
    }
    const named = await there((workbook) => {
      const sheet = workbook.getWorksheet('Takeoff Pipit Hollow')!
      const row = (sheet.getColumn(takeoffColumns.code).values as unknown[]).indexOf('EXCAVATOR')
      sheet.getCell(row, takeoffColumns.kind).value = 'subcontract'
      sheet.getCell(row, takeoffColumns.unit).value = 'each'
      void sheet.protect('', {})
    })
    expect(named.reasons).toEqual([])
    expect(named.notes.join()).toMatch(/Takeoff Pipit Hollow: made anew without the protection/)
    expect(named.notes.join()).toMatch(/Written anew, as the sheet Items has them: Takeoff Pipit Hollow!E\d+ \("each"\)(?:,| and) Takeoff Pipit Hollow![A-Z]\d+ \("subcontract"\)/)
  })
  it('filters, links and merged cells laid over a takeoff are named when it is made without them', async () => {
    const first = (await make(sourceOf(await own(), 'OWN.xlsx'))).bytes
    const workbook = await inExceljs(first)
    const takeoff = workbook.getWorksheet('Takeoff Pipit Hollow')!
    takeoff.autoFilter = 'A7:P60'
    takeoff.mergeCells('S3:U4')
    const quote = workbook.getWorksheet('Quote Pipit Hollow')!
    // A link keeps the words that stand in its cell.
    quote.getCell('B4').value = { text: String(quote.getCell('B4').value), hyperlink: 'https://example.org/terms' }
    const laid = await savedBy(workbook)
    const notes = ['Takeoff Pipit Hollow: made anew without the filter A7:P60, the merged cells S3:U4.', 'Quote Pipit Hollow: made anew without the link B4.']
    const onto = await make(sourceOf(laid, 'OWN.xlsx'))
    expect(onto.notes).toEqual(notes)
    expect((await make(sourceOf(onto.bytes, 'OWN.xlsx'))).notes).toEqual([])
  })
  it('a formula of an office’s table stays a formula; a text that means a number is told', async () => {
    const workbook = await inExceljs(template)
    const tanks = workbook.getWorksheet('Tanks')!
    tanks.getCell('C7').value = '66 in'
    expect((await make(sourceOf(await savedBy(workbook), 'OWN.xlsx'), ['Wicket Mill'])).notes).toContain('Tanks!C7: "66 in" is 5.5 now.')
    tanks.getCell('C7').value = { formula: '"6"&" ft"', result: '6 ft' }
    const bytes = await savedBy(workbook)
    await expect(make(sourceOf(bytes, 'OWN.xlsx'))).rejects.toThrow(/Tanks!C7, \w+: a formula that gives 6 itself; it gives the text "6 ft"/)
  })
  it('a space in an optional cell is nothing, for the engine as for the sheets', async () => {
    const workbook = await inExceljs(template)
    const rows = demoRows('Tanks').length
    const column = Object.keys(fieldsOf('Tanks')).indexOf('VacuumLimit_inHg') + 2
    for (let row = 6; row < 6 + rows; row++) workbook.getWorksheet('Tanks')!.getCell(row, column).value = row % 2 ? ' ' : '\u00a0'
    const source = sourceOf(await savedBy(workbook), 'OWN.xlsx')
    const office = readOffice(source.raw)
    // What nobody asked the maker is looked into, and no formula finds a text.
    expect(
      makeTakeoff(office, rowNamed(office, 'Jobs', 'Wicket Mill')!)
        .design.verdicts()
        .find(({ name }) => name === 'VacuumVerdict'),
    ).toMatchObject({
      verdict: 'check',
      words: expect.stringContaining('nobody has asked what the maker allows') as string,
    })
    const { notes, bytes } = await make(source, ['Wicket Mill'])
    expect(notes.filter((note) => /^Tanks!\w+: empty now; a space stood there\.$/.test(note))).toHaveLength(rows)
    expect(readSheet(openWorkbook(bytes, 'x'), 'Tanks')![5]![column - 1]!.value).toBe(null)
    // In an open workbook the pane asks for it.
    expect(readOffice(source.raw, { isLive: true }).problems.map(({ allowed }) => allowed)).toContain('nothing at all: formulas take a space for a text. Clear the cell')
  })
  it('a job under a new name: its former sheets are told', async () => {
    const workbook = await inExceljs((await make(sourceOf(template, 'OWN.xlsx'), ['Wicket Mill'])).bytes)
    const jobs = workbook.getWorksheet('Jobs')!
    const row = (jobs.getColumn(2).values as unknown[]).indexOf('Wicket Mill')
    jobs.getCell(row, 2).value = 'Wicket Weir'
    expect((await make(sourceOf(await savedBy(workbook), 'OWN.xlsx'))).notes[0]).toBe(
      'Sheets of Wicket Mill stand here, and no job has that name: what was typed on them goes with none. If a job only has another name now, put the old one into the column FormerName of its row in Jobs.',
    )
    jobs.getCell(row, 2).value = 'wicket mill'
    const same = await make(sourceOf(await savedBy(workbook), 'OWN.xlsx'), ['wicket mill'])
    expect(new TextDecoder().decode(unpack(readZip(same.bytes, 'x').get('xl/workbook.xml')!, 'x'))).not.toContain('localSheetId="-1"')
    jobs.getCell(row, 2).value = 'wicket\nmill'
    const broken = await savedBy(workbook)
    await expect(make(sourceOf(broken, 'OWN.xlsx'), ['wicket\nmill'])).rejects.toThrow(/no line break and no tab/)
  })
  it('an office that lost its prices gets a list to fill in, not those of the demo', async () => {
    const workbook = await inExceljs(template)
    workbook.removeWorksheet('Prices')
    const host = new FileHost({ name: 'OWN.xlsx', workbook: openWorkbook(await savedBy(workbook), 'OWN.xlsx') })
    expect(await setUp(host, made, true)).toEqual(['Prices'])
    const { rows } = sourceOf(host.bytes, 'OWN.xlsx').raw.Prices
    expect(rows.length).toBeGreaterThan(100)
    expect(rows.filter(({ cells }) => cells.Price_usd !== null && cells.Price_usd !== undefined)).toEqual([])
    // A workbook that holds nothing of an office gets the demo as a whole.
    const nothing = new ExcelJS.Workbook()
    nothing.addWorksheet('Notes')
    const empty = new FileHost({ name: 'NEW.xlsx', workbook: openWorkbook(await savedBy(nothing), 'NEW.xlsx') })
    await setUp(empty, made, true)
    expect(sourceOf(empty.bytes, 'NEW.xlsx').raw.Prices.rows.every(({ cells }) => typeof cells.Price_usd === 'number')).toBe(true)
  })
  it('a sheet of somebody else’s name stands in the way, a locked structure too', async () => {
    const workbook = await inExceljs(template)
    workbook.addWorksheet('Crew Pipit Hollow').getCell('A1').value = 'mine'
    const bytes = await savedBy(workbook)
    await expect(make(sourceOf(bytes, 'OWN.xlsx'))).rejects.toThrow('The sheet Crew Pipit Hollow stands here already and was not made by this tool: rename it')
    const locked = [...readZip(template, 'x').values()]
    const main = new TextDecoder().decode(
      unpack(
        locked.find(({ name }) => name === 'xl/workbook.xml')!,
        'x',
      ),
    )
    const source = sourceOf(template, 'OWN.xlsx')
    source.workbook!.book.put('xl/workbook.xml', main.replace('<bookViews>', '<workbookProtection lockStructure="1"/><bookViews>'))
    await expect(make(sourceOf(source.workbook!.book.bytes(), 'OWN.xlsx'))).rejects.toThrow(/structure is protected/)
  })
  it('a workbook of another writer: prefixes, paths from the root, no cell addresses', async () => {
    const source = sourceOf(template, 'OWN.xlsx')
    const { book } = source.workbook!
    // The same workbook as other programs write it.
    const rels = book.text('xl/_rels/workbook.xml.rels').replace(/Target="(?!\/)/g, 'Target="/xl/')
    book.put('xl/_rels/workbook.xml.rels', rels)
    const main = book
      .text('xl/workbook.xml')
      .replace(/<(\/?)(?=[a-zA-Z])/g, '<$1x:')
      .replace('xmlns=', 'xmlns:x=')
    book.put('xl/workbook.xml', main)
    const sheet = book.text('xl/worksheets/sheet2.xml').replace(/<row r="\d+"/g, '<row')
    book.put('xl/worksheets/sheet2.xml', sheet)
    const { bytes } = await make(sourceOf(book.bytes(), 'OTHER.xlsx'))
    expect(openWorkbook(bytes, 'x').book.sheets.map(({ name }) => name)).toContain('Takeoff Pipit Hollow')
  })
  it('an older workbook without the newer tables gets them, empty', async () => {
    const workbook = await inExceljs(template)
    for (const name of ['Catchments', 'Uses', 'PressureTanks', 'Cables', 'Cranes', 'RainDays']) workbook.removeWorksheet(workbook.getWorksheet(name)!.id)
    const source = sourceOf(await savedBy(workbook), 'OLD.xlsx')
    expect(source.absent).toHaveLength(6)
    const { bytes } = await make(source)
    expect(sourceOf(bytes, 'OLD.xlsx').absent).toEqual([])
  })
})

describe('what a file remembers of its sheets', () => {
  it('is what they hold when they are read again: of a template, of a new file, of an office’s own', async () => {
    const remembered = (bytes: Uint8Array) => {
      const workbook = openWorkbook(bytes, 'x')
      return { told: statesIn(workbook.book), found: sheetStates(workbook) }
    }
    for (const bytes of [template, (await make(demoSource(startingOffice(true)))).bytes, (await make(sourceOf(template, 'OWN.xlsx'))).bytes]) {
      const { told, found } = remembered(bytes)
      expect(told).toEqual(found)
      expect(Object.keys(found).length).toBeGreaterThan(10)
      // Excel keeps 255 characters of a property.
      for (const name of ['Cistern Sheet sheets', 'Cistern Sheet sheets 2']) expect(readProperty(openWorkbook(bytes, 'x').book, name)!.length).toBeLessThan(256)
    }
  })
})

describe('parts laid aside on disk', () => {
  it('make the same file, byte for byte, as those that stay in memory; onto an office’s workbook too', async () => {
    const bytes = async (source: Source, spool?: Spool) => Buffer.from((await makeJobs(source, ['Pipit Hollow', 'Wicket Mill'], { spool })).bytes)
    for (const source of [() => demoSource(startingOffice(true)), () => sourceOf(template, 'OWN.xlsx')])
      expect((await bytes(source(), fileSpool())).equals(await bytes(source()))).toBe(true)
  })
})

const out = (await make(sourceOf(template, 'OFFICE.xlsx'))).bytes

it('looks that somebody gave a sheet that is made again are named', async () => {
  const workbook = await inExceljs((await make(sourceOf(template, 'OWN.xlsx'))).bytes)
  const [takeoff, quote] = ['Takeoff Pipit Hollow', 'Quote Pipit Hollow'].map((name) => workbook.getWorksheet(name)!) as [ExcelJS.Worksheet, ExcelJS.Worksheet]
  takeoff.addConditionalFormatting({ ref: 'G7:G60', rules: [{ type: 'cellIs', operator: 'greaterThan', formulae: [5], priority: 1, style: { font: { bold: true } } }] })
  takeoff.getColumn(12).hidden = true
  takeoff.properties.tabColor = { argb: 'FF00FF00' }
  quote.headerFooter.oddHeader = '&CMy firm, licence 4455'
  const { notes } = await make(sourceOf(await savedBy(workbook), 'OWN.xlsx'))
  expect(notes.filter((note) => note.includes('made anew without'))).toEqual([
    'Takeoff Pipit Hollow: made anew without the hidden column L, the color of its tab, the conditional format G7:G60.',
    'Quote Pipit Hollow: made anew without the header of its pages.',
  ])
  // What we write ourselves is none of it.
  const again = await make(sourceOf((await make(sourceOf(template, 'OWN.xlsx'))).bytes, 'OWN.xlsx'))
  expect(again.notes.filter((note) => note.includes('made anew without'))).toEqual([])
})

describe('written over another file', () => {
  const office = sourceOf(template, 'OFFICE.xlsx')
  const against = async (standing: Uint8Array, source: Source, jobs = ['Pipit Hollow']) => (await make(source, jobs, 'native', standing)).reasons
  it('the everyday case asks nothing: a price changed in the office’s file, the same output made again', async () => {
    const workbook = await inExceljs(template)
    workbook.getWorksheet('Prices')!.getCell('E7').value = 99
    expect(await against(out, sourceOf(await savedBy(workbook), 'OFFICE.xlsx'))).toEqual([])
    expect(await against(out, office)).toEqual([])
  })
  it('a job under another name brings along what was typed on its sheets there, and they are not missed', async () => {
    const typed = openWorkbook(out, 'OUT.xlsx')
    const { part } = typed.book.sheetNamed('Takeoff Pipit Hollow')!
    const fence = readSheet(typed, 'Takeoff Pipit Hollow')!.findIndex((cells) => cells[takeoffColumns.code - 1]?.value === 'FENCE') + 1
    typed.book.put(part, putCells(typed.book.text(part), [{ row: fence, column: takeoffColumns.yours, value: 123 }]))
    const standing = typed.book.bytes()
    const renamed = await inExceljs(template)
    const jobs = renamed.getWorksheet('Jobs')!
    const row = (jobs.getColumn(2).values as unknown[]).indexOf('Pipit Hollow')
    jobs.getCell(row, 2).value = 'Pipit Dell'
    const lost = await make(sourceOf(await savedBy(renamed), 'OFFICE.xlsx'), ['Pipit Dell'], 'native', standing)
    expect(lost.reasons.join()).toContain('Takeoff Pipit Hollow')
    const headings = jobs.getRow(5).values as unknown[]
    jobs.getCell(row, headings.indexOf('FormerName')).value = 'Pipit Hollow'
    const { bytes, notes, reasons } = await make(sourceOf(await savedBy(renamed), 'OFFICE.xlsx'), ['Pipit Dell'], 'native', standing)
    expect(reasons).toEqual([])
    expect(notes).toContain('Pipit Dell was Pipit Hollow before: what was typed on those sheets came along.')
    const sheet = (await inExceljs(bytes)).getWorksheet('Takeoff Pipit Dell')!
    expect(sheet.getCell((sheet.getColumn(takeoffColumns.code).values as unknown[]).indexOf('FENCE'), takeoffColumns.yours).value).toBe(123)
  })
  it('another input, or none, is refused by name', async () => {
    expect(await against(out, { ...sourceOf(template, 'OTHER.xlsx'), raw: { ...office.raw, Jobs: { ...office.raw.Jobs, rows: office.raw.Jobs.rows.slice(1) } } })).toEqual([
      'it was made from OFFICE.xlsx, not from OTHER.xlsx',
    ])
    const edited = { ...startingOffice(true), Uses: { ...startingOffice(true).Uses, rows: [] } }
    expect(await against(out, demoSource(edited))).toEqual(['it was made from OFFICE.xlsx, not from the demo'])
  })
  it('a file whose tables were changed, with a sheet of its own, or not ours, stays', async () => {
    const changed = await inExceljs(out)
    changed.getWorksheet('Prices')!.getCell('E7').value = 123
    changed.addWorksheet('My notes')
    expect(await against(await savedBy(changed), office)).toEqual(expect.arrayContaining(['the sheet My notes would be lost']))
    const stranger = new ExcelJS.Workbook()
    stranger.addWorksheet('Accounts')
    expect(await against(await savedBy(stranger), office)).toEqual([
      'it was not made by this command, and its tables are not those of OFFICE.xlsx',
      'the sheet Accounts would be lost',
    ])
  })
  it('names, hidden sheets and looks with conditions of one’s own are not written over', async () => {
    const changed = await inExceljs(out)
    changed.definedNames.add('Prices!$E$7', 'MyRate')
    changed.getWorksheet('Rain')!.state = 'hidden'
    const jobs = changed.getWorksheet('Jobs')!
    jobs.addConditionalFormatting({ ref: 'B6:B20', rules: [{ type: 'cellIs', operator: 'greaterThan', formulae: [5], priority: 1, style: { font: { bold: true } } }] })
    jobs.properties.tabColor = { argb: 'FF00FF00' }
    expect(await against(await savedBy(changed), office)).toEqual([
      'the name MyRate would be lost',
      'of Jobs would be lost: the color of its tab, conditional formats',
      'of Rain would be lost: that it is hidden',
    ])
  })
  it('what was typed on its other sheets since it was made is not written over', async () => {
    const withNotes = sourceOf(await own(), 'OFFICE.xlsx')
    const first = (await make(withNotes)).bytes
    const again = async (change: (workbook: ExcelJS.Workbook) => void) => {
      const workbook = await inExceljs(first)
      change(workbook)
      return await against(await savedBy(workbook), sourceOf(await own(), 'OFFICE.xlsx'))
    }
    expect(await again(() => undefined)).toEqual([])
    expect(await again((workbook) => (workbook.getWorksheet('My notes')!.getCell('H9').value = 'typed'))).toEqual(['what stands on My notes was changed since it was made'])
    expect(await again((workbook) => (workbook.getWorksheet('Tanks')!.getCell('Z9').value = 'typed'))).toEqual(['what stands on Tanks was changed since it was made'])
    expect(await again((workbook) => (workbook.getWorksheet('Takeoff Pipit Hollow')!.getCell('Z9').value = 'typed'))).toEqual([
      'typed on it and lost then: Takeoff Pipit Hollow!Z9 ("typed")',
    ])
  })
  it('takeoffs of other jobs in it are named', async () => {
    const two = (await make(sourceOf(template, 'OFFICE.xlsx'), ['Pipit Hollow', 'Wicket Mill'])).bytes
    expect(await against(two, sourceOf(template, 'OFFICE.xlsx'))).toEqual([expect.stringMatching(/^the sheets Takeoff Wicket Mill, Quote Wicket Mill, .* would be lost$/)])
  })
})

describe('a file as Excel wants it', () => {
  it('calls carry a program number that no Excel takes for older; ordinary formulas are worked out at once', async () => {
    const text = async (flavor: 'native' | 'cells') => openWorkbook((await make(sourceOf(template, 'O.xlsx'), ['Pipit Hollow'], flavor)).bytes, 'x').book.text('xl/workbook.xml')
    expect(await text('cells')).toMatch(/<calcPr calcId="191029"\/>/)
    expect(await text('native')).toMatch(/<calcPr fullCalcOnLoad="1"\/>/)
  })
  it('later functions are stored with their prefix and read without it; words in quotes stay', () => {
    expect(withPrefixes('XLOOKUP(A1,B:B,C:C)&"XLOOKUP("&IFS(1,2)')).toBe('_xlfn.XLOOKUP(A1,B:B,C:C)&"XLOOKUP("&_xlfn.IFS(1,2)')
    expect(withPrefixes("SUM('IFS('!A1)+FILTER(A1:A3,1)")).toBe("SUM('IFS('!A1)+_xlfn._xlws.FILTER(A1:A3,1)")
    expect(withoutPrefixes('_xlfn.XLOOKUP(A1,B:B,C:C)+_xlfn._xlws.FILTER(A1:A3,1)')).toBe('XLOOKUP(A1,B:B,C:C)+FILTER(A1:A3,1)')
  })
  it('packs and unpacks itself to the same bytes', () => {
    expect(writeZip(readZip(template, 'x').values())).toEqual(template)
  })
  it('reads back a thousand rows of jobs', () => {
    const raw = startingOffice(true)
    const many = { ...raw, Jobs: { ...raw.Jobs, rows: Array.from({ length: 1000 }, (_, at) => ({ row: 6 + at, cells: { ...raw.Jobs.rows[3]!.cells, Job: `Job ${at}` } })) } }
    expect(readOffice(sourceOf(makeTemplate(many, made), 'x').raw).tables.Jobs).toHaveLength(1000)
  })
})

it('a sheet of a job under another name is not made a second time: its typed words would be left behind', async () => {
  const first = await make(sourceOf(template, 'O.xlsx'))
  const workbook = await inExceljs(first.bytes)
  const typed = workbook.getWorksheet('Takeoff Pipit Hollow')!
  typed.getCell((typed.getColumn(2).values as unknown[]).indexOf('FENCE'), takeoffColumns.yours).value = 120
  typed.name = 'Prices of the cabin'
  const renamed = await savedBy(workbook)
  await expect(make(sourceOf(renamed, 'O.xlsx'))).rejects.toThrow(
    'O.xlsx: the sheet Prices of the cabin is what Takeoff Pipit Hollow was: give it that name again, so that what was typed there is read, or add --replace to go on without it. Nothing was written.',
  )
  // Asked to go on without it, it is made beside the renamed one.
  const { bytes } = await makeJobs(sourceOf(renamed, 'O.xlsx'), ['Pipit Hollow'], { mayLose: true })
  expect(openWorkbook(bytes, 'x').book.sheets.map(({ name }) => name)).toEqual(expect.arrayContaining(['Prices of the cabin', 'Takeoff Pipit Hollow']))
  // A drawing, or a takeoff that nobody typed on, may be laid aside.
  const aside = await inExceljs(first.bytes)
  for (const [name, other] of [
    ['Drawing Pipit Hollow', 'Drawing for the permit'],
    ['Takeoff Pipit Hollow', 'As sent'],
  ] as const)
    aside.getWorksheet(name)!.name = other
  const laidAside = await savedBy(aside)
  await expect(make(sourceOf(laidAside, 'O.xlsx'))).resolves.toBeDefined()
  // A copy beside the sheet itself is somebody's own.
  const copied = await inExceljs(first.bytes)
  const copy = copied.addWorksheet('Copy')
  copied.getWorksheet('Takeoff Pipit Hollow')!.eachRow((row, at) => {
    if (at < 4) copy.getRow(at).values = row.values
  })
  const twice = await savedBy(copied)
  await expect(make(sourceOf(twice, 'O.xlsx'))).resolves.toBeDefined()
})

it('a table that somebody made of the lines of a takeoff is told, not taken away', async () => {
  const first = (await make(sourceOf(template, 'O.xlsx'))).bytes
  const parts = unzipSync(first)
  const { part } = openWorkbook(first, 'x').book.sheetNamed('Takeoff Pipit Hollow')!
  const rels = part.replace('worksheets/', 'worksheets/_rels/') + '.rels'
  const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
  const relation = '<Relationship Id="rIdT" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/lines.xml"/>'
  parts['xl/tables/lines.xml'] = strToU8(
    `${head}<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="99" name="Lines" displayName="Lines" ref="B5:C9" totalsRowShown="0"><tableColumns count="2"><tableColumn id="1" name="Code"/><tableColumn id="2" name="Description"/></tableColumns></table>`,
  )
  const before = parts[rels] ? strFromU8(parts[rels]!) : `${head}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"></Relationships>`
  parts[rels] = strToU8(before.replace('</Relationships>', `${relation}</Relationships>`))
  await expect(make(sourceOf(zipSync(parts), 'O.xlsx'))).rejects.toThrow(/Takeoff Pipit Hollow!B5:C9 \(the table Lines\)/)
})

describe('a workbook of a later version', () => {
  it('is not written over in silence', async () => {
    const first = (await make(sourceOf(await own(), 'OWN.xlsx'))).bytes
    const as = async (version: string) => {
      const workbook = await inExceljs(first)
      const sheet = workbook.getWorksheet('Takeoff Pipit Hollow')!
      const { value } = sheet.getCell('B3')
      sheet.getCell('B3').value = String(value).replace(/Cistern Sheet .*$/, `Cistern Sheet ${version}`)
      const host = new FileHost(sourceOf(await savedBy(workbook), 'OWN.xlsx'))
      return makeFile(host, ['Pipit Hollow'], { flavor: 'native', made: { date: '2026-11-27', revision: 1, version: '0.16.0' } })
    }
    for (const later of ['0.16.1', '0.17.0', '1.0.0']) await expect(as(later), later).rejects.toThrow(`Takeoff Pipit Hollow was made by version ${later}, newer than this 0.16.0`)
    for (const known of ['0.16.0', '0.15.9', '0.9.12']) await expect(as(known), known).resolves.toHaveLength(1)
  })
})
