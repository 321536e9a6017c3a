/** One contract for every host: the same steps against the Excel in memory, the grid and the file. */
import { describe, expect, it } from 'vitest'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { Model } from '@odoo/o-spreadsheet'
import { ExcelHost } from '../../src/hosts/excel.js'
import { openWorkbook, readOfficeTables, readSheet, writeWorkbook } from '../../src/hosts/file.js'
import { FileHost } from '../../src/hosts/fileHost.js'
import { putCells } from '../../src/hosts/xlsx/putCells.js'
import { GridHost } from '../../src/hosts/grid.js'
import { gridData } from '../../src/hosts/gridData.js'
import { registerTexts, WORD_JOINER } from '../../src/hosts/gridTexts.js'
import { registerTogether } from '../../src/hosts/gridTogether.js'
import type { Host, ShownHost } from '../../src/hosts/host.js'
import { makeTakeoffs } from '../../src/hosts/makeTakeoffs.js'
import { addJob, addRainDays, nameHeading, open, setUp, standingOf } from '../../src/hosts/session.js'
import { formula } from '../../src/formula/formula.js'
import { dateText } from '../../src/days.js'
import { problemText } from '../../src/takeoff/fields.js'
import { OFFICE_FIRST_COLUMN, OFFICE_HEADING_ROW } from '../../src/plan/places.js'
import { crewColumns } from '../../src/plan/sheets/crewDraft.js'
import { testColumns } from '../../src/plan/sheets/testDraft.js'
import { jobSheetNames } from '../../src/plan/jobSheets.js'
import { pagesOf } from '../../src/plan/pages.js'
import { takeoffColumns } from '../../src/plan/sheets/takeoffColumns.js'
import { standardValidations } from '../../src/plan/officeSheets.js'
import { takeoffWorkbook, templateWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import type { Line } from '../../src/takeoff/lines.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { codeOf, stopsOf } from '../../src/plan/stopAnswers.js'
import { workJob } from '../../src/takeoff/takeoff.js'
import { jobFields, tableNames } from '../../src/takeoff/officeTables.js'
import { demoTakeoff } from '../support/office.js'
import { manyJobs } from '../../scripts/bench/offices.js'
import { letters, MemoryExcel } from '../support/memoryExcel.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
// The engine registers the functions with the grid.
void new GridEngine()
registerTogether()
registerTexts()

interface Rig {
  readonly host: Host
  type(sheet: string, row: number, column: number, value: number | string): void
  sheetNames(): string[]
  cell(sheet: string, row: number, column: number): unknown
  isHidden(sheet: string, column: number): boolean
}

/** Names of the pictures on sheets of a file, as Excel would take them in. */
function drawingsIn(base64: string, sheets: readonly string[]): [string, string[]][] {
  const { book } = openWorkbook(new Uint8Array(Buffer.from(base64, 'base64')), 'inserted.xlsx')
  return sheets.map((name) => {
    const drawing = book.relations(book.sheetNamed(name)!.part).find(({ type }) => type.endsWith('/drawing'))?.target
    return [name, drawing === undefined ? [] : [...book.text(drawing).matchAll(/<xdr:grpSp><xdr:nvGrpSpPr><xdr:cNvPr id="\d+" name="([^"]+)"/g)].map(([, picture]) => picture!)]
  })
}

/** `isNew`: an Excel with every set of the interface; else one that cannot take in sheets of a file. */
function excelRig(isNew = false): Rig & { host: ShownHost; book: MemoryExcel } {
  const book = new MemoryExcel()
  // Every formula shows what the plan says that it gives.
  const host = new ExcelHost(book.run as never, (set, version) => isNew || set !== 'ExcelApi' || version === '1.10')
  const writing = host.writing.bind(host)
  host.writing = async () => {
    const { write, end } = await writing()
    return {
      write: (plans) => {
        for (const { cells } of plans) for (const { formula, value } of cells) if (formula !== undefined) book.results.set(`=${formula}`, value as never)
        return write(plans)
      },
      end,
    }
  }
  return {
    book,
    host,
    type: (sheet, row, column, value) => void book.sheet(sheet)!.formulas.set(`${row},${column}`, value),
    sheetNames: () => book.sheets.map(({ name }) => name),
    cell: (sheet, row, column) => book.sheet(sheet)!.formulas.get(`${row},${column}`),
    isHidden: (sheet, column) => book.sheet(sheet)!.hidden.has(column),
  }
}

function gridRig(): Rig & { host: ShownHost } {
  const model = new Model({ sheets: [{ id: 'first', name: 'Sheet1' }] } as never)
  const getters = model.getters as unknown as {
    getSheetIds(): string[]
    getSheetName(id: string): string
    getSheetIdByName(name: string): string
    getEvaluatedCell(position: object): { value: unknown }
    getCellText(position: object, options: object): string
    isColHidden(sheetId: string, column: number): boolean
  }
  return {
    host: new GridHost(model),
    type: (sheet, row, column, value) =>
      void model.dispatch('UPDATE_CELL' as never, { sheetId: getters.getSheetIdByName(sheet), col: column - 1, row: row - 1, content: String(value) } as never),
    sheetNames: () => getters.getSheetIds().map((id) => getters.getSheetName(id)),
    cell: (sheet, row, column) => getters.getCellText({ sheetId: getters.getSheetIdByName(sheet), col: column - 1, row: row - 1 }, { showFormula: true }),
    isHidden: (sheet, column) => getters.isColHidden(getters.getSheetIdByName(sheet), column - 1),
  }
}

/** A file that is saved, and typed into by another program, between two commands. */
function fileRig(): Rig {
  const open = (bytes: Uint8Array) => new FileHost({ name: 'own.xlsx', workbook: openWorkbook(bytes, 'own.xlsx'), bytes })
  const first = { name: 'Sheet1', kind: 'office', cells: [], widths: [], tables: [], validations: [], frozenRows: 0, landscape: false, footer: '' } as const
  let host = open(writeWorkbook({ sheets: [first] }))
  const saved = () => openWorkbook(host.bytes, 'own.xlsx')
  return {
    get host() {
      return host
    },
    type: (sheet, row, column, value) => {
      const { book } = saved()
      const { part } = book.sheetNamed(sheet)!
      // The other program works a formula out.
      const text = String(value).startsWith('=') ? String(value).slice(1) : undefined
      const typed = text === undefined ? { value } : { formula: text, value: formula(text).evaluate({ value: () => undefined }) as number }
      book.put(part, putCells(book.text(part), [{ row, column, ...typed }]))
      host = open(book.bytes())
    },
    sheetNames: () => saved().book.sheets.map(({ name }) => name),
    cell: (sheet, row, column) => {
      const { value, formula } = readSheet(saved(), sheet)?.[row - 1]?.[column - 1] ?? { value: null }
      return formula === undefined ? value : `=${formula}`
    },
    isHidden: (sheet, column) => {
      const { book } = saved()
      const columns = [...book.text(book.sheetNamed(sheet)!.part).matchAll(/<col min="(\d+)" max="(\d+)"([^>]*)>/g)]
      return columns.some(([, from, to, more]) => Number(from) <= column && column <= Number(to) && more!.includes('hidden="1"'))
    },
  }
}

const names = jobSheetNames('Wicket Mill')
const rowOfCode = (rig: Rig, code: string, sheet = names.crew): number => {
  for (let row = 1; row < 200; row++) if ([takeoffColumns.code, crewColumns.code].some((column) => rig.cell(sheet, row, column) === code)) return row
  throw new Error(`No line ${code}.`)
}
const TIE_BOOT = (rig: Rig): number => rowOfCode(rig, 'TIE-BOOT', names.takeoff)

describe.each([
  ['Excel in memory', excelRig],
  ['grid', gridRig],
  ['file', fileRig],
] as const)('%s', (_name, makeRig) => {
  it('sets up a workbook without touching what is there, and once only', async () => {
    const rig = makeRig()
    rig.type('Sheet1', 1, 1, 'mine')
    expect((await open(rig.host)).missing).toHaveLength(7)
    expect(await setUp(rig.host, made, true)).toHaveLength(15)
    const opened = await open(rig.host)
    expect(opened.missing).toEqual([])
    expect(opened.office!.problems).toEqual([])
    expect(opened.office!.tables.Jobs.map(({ cells }) => cells.Job)).toEqual(readOffice(startingOffice(true)).tables.Jobs.map(({ cells }) => cells.Job))
    expect(await setUp(rig.host, made, true)).toEqual([])
    expect(rig.cell('Sheet1', 1, 1)).toBe('mine')
  })

  it('writes over no sheet of somebody else’s', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made })
    rig.type(names.crew, 3, 2, 'my own notes')
    await expect(makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made })).rejects.toThrow(`The sheet ${names.crew} stands here already and was not made by this tool`)
    expect(rig.cell(names.crew, 3, 2)).toBe('my own notes')
  })

  it('says of the sheets of a job that its row is another now, until they are made again, and which stops are answered for', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const said = async () => {
      const office = (await open(rig.host)).office!
      const standing = await standingOf(rig.host, 'Wicket Mill')
      const { takeoff } = workJob(office, rowNamed(office, 'Jobs', 'Wicket Mill')!, standing.kept)
      return {
        words: standing.sinceMade(takeoff!),
        answered: stopsOf(takeoff!).map((stop) => standing.isAnswered(takeoff!, stop)),
        total: takeoff!.total,
        codes: stopsOf(takeoff!).map(({ name }) => codeOf(name)),
      }
    }
    expect((await said()).words).toBe('')
    await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'native', made })
    const first = await said()
    expect(first).toMatchObject({ words: '', answered: [] })
    // A quantity typed over is on every sheet at once.
    rig.type(names.takeoff, TIE_BOOT(rig), takeoffColumns.yours, 9)
    expect((await said()).words).toBe('')
    rig.type(names.takeoff, TIE_BOOT(rig), takeoffColumns.yours, '')
    // Taken off, it is in the price of the job all the same: that is said before the next making brings it back.
    const code = rig.cell(names.takeoff, TIE_BOOT(rig), takeoffColumns.code)
    const boot = TIE_BOOT(rig)
    const [line, words_] = [takeoffColumns.code, takeoffColumns.description].map((column) => rig.cell(names.takeoff, boot, column))
    for (const column of [takeoffColumns.code, takeoffColumns.description]) rig.type(names.takeoff, boot, column, '')
    expect((await said()).words).toMatch(/^TIE-BOOT: taken off its sheet Takeoff by hand, and in this price\. Make the takeoff again/)
    rig.type(names.takeoff, boot, takeoffColumns.code, String(line))
    rig.type(names.takeoff, boot, takeoffColumns.description, String(words_))
    expect(code).toBe('TIE-BOOT')
    const { office, places } = await rig.host.read([])
    const { row } = office!.Jobs.rows.find(({ cells }) => cells.Job === 'Wicket Mill')!
    rig.type('Jobs', row, places.Jobs.columnOf('WaterLineRun_ft')!, 160)
    // Four feet are the most that the maker allows over the tank.
    rig.type('Jobs', row, places.Jobs.columnOf('Cover_ft')!, 5)
    const later = await said()
    expect(later.words).toMatch(
      /^Its sheets were made at \$[\d,.]+; since revision 1 \+\$[\d,.]+; \d+ changes of lines; .*\(.*(?:Water-line run 160 ft, made with 140 ft|Cover 5 ft, made with 3 ft)/,
    )
    expect(later.words).toContain(first.total.toLocaleString('en-US', { minimumFractionDigits: 2 }))
    await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'native', made })
    expect((await said()).words).toBe('')
    expect(later.answered.length).toBeGreaterThan(0)
    expect(later.answered).not.toContain(true)
    const rows = (await rig.host.readSheets([names.quote])).get(names.quote)!
    const heading = rows.findIndex((cells) => cells.some(({ value }) => value === 'To be filled in'))
    const words = rows[heading]!.findIndex(({ value }) => value === 'Words')
    for (const code of later.codes) rig.type(names.quote, rowOfCode(rig, code, names.quote), words + 1, 'J. Vale, engineer, licence 4411: looked at and accepted for this job')
    expect((await said()).answered).not.toContain(false)
  })

  it('makes a takeoff, and made again keeps overrides and added lines', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const first = await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made })
    expect(first.problems).toEqual([])
    expect(first.made[0]!.total).toBe(demoTakeoff('Wicket Mill').total)
    expect(rig.sheetNames()).toEqual(expect.arrayContaining([names.takeoff, names.design, names.crew, names.year, 'Published tables']))
    const row = TIE_BOOT(rig)
    rig.type(names.takeoff, row, takeoffColumns.yours, 9)
    rig.type(names.crew, rowOfCode(rig, 'A1'), crewColumns.done, 'R. Voss, 11/25')
    rig.type(names.test, rowOfCode(rig, 'T2', names.test), testColumns.entries, 4.1)
    let line: Line | undefined
    await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made, onWorked: (_, { takeoff }) => void (line = takeoff!.lines.find(({ code }) => code === 'TIE-BOOT')) })
    expect(line).toMatchObject({ override: 9, order: 9 })
    // The pane shows the price with what was typed on the sheets.
    expect((await standingOf(rig.host, 'Wicket Mill')).kept.overrides['TIE-BOOT']).toMatchObject({ quantity: 9 })
    expect((await standingOf(rig.host, 'Ember Yard')).kept.overrides).toEqual({})
    expect(String(rig.cell(names.takeoff, TIE_BOOT(rig), takeoffColumns.yours))).toBe('9')
    expect(String(rig.cell(names.takeoff, 3, 2))).toContain('revision 2')
    expect(rig.cell(names.crew, rowOfCode(rig, 'A1'), crewColumns.done)).toBe('R. Voss, 11/25')
    expect(Number(rig.cell(names.test, rowOfCode(rig, 'T2', names.test), testColumns.entries))).toBe(4.1)
  })

  it('words with inch marks and strokes stay as they were typed, however often it is made', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made })
    const words = '2" gate valve \\ "old"'
    for (let row = 1; row < 200; row++) {
      if (rig.cell(names.takeoff, row, takeoffColumns.code) !== 'ADDED BY HAND') continue
      rig.type(names.takeoff, row + 1, takeoffColumns.description, words)
      rig.type(names.takeoff, row + 1, takeoffColumns.yours, 2)
      rig.type(names.takeoff, row + 1, takeoffColumns.price, 31)
      break
    }
    for (let times = 0; times < 3; times++) {
      let added: readonly string[] = []
      await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made, onWorked: (_, { takeoff }) => void (added = takeoff!.added.map(({ description }) => description)) })
      expect(added).toEqual([words])
    }
  })

  it('writes the guided row of a new job: checked as the sheet checks it, into the first empty row or a new one', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const typed = {
      Job: 'Sedge End',
      RoofArea_ft2: '300 m2',
      RainStation: 'Low Fallow',
      People: '3',
      TankModel: 'Quern 1800',
      InletRun_ft: '20',
      OverflowRun_ft: '',
      WaterLineRun_ft: '45 m',
      PowerRun_ft: '100',
    }
    const office = async () => (await open(rig.host)).office!
    const before = (await office()).tables.Jobs.length
    const row = await addJob(rig.host, await office(), typed)
    const jobs = (await office()).tables.Jobs
    expect(jobs.length).toBe(before + 1)
    const job = jobs.find(({ cells }) => cells.Job === 'Sedge End')!
    expect(job.row).toBe(row)
    // Exact conversions: 300 m² and 45 m.
    expect(job.cells.RoofArea_ft2).toBeCloseTo(300 / 0.3048 ** 2, 9)
    expect(job.cells.WaterLineRun_ft).toBeCloseTo(45 / 0.3048, 9)
    // What nobody typed stays empty on the sheet, and counts as assumed.
    expect(job.defaulted.has('OverflowRun_ft')).toBe(true)
    await expect(addJob(rig.host, await office(), { ...typed, Job: 'sedge end', People: 'some', TankModel: 'Quern' })).rejects.toThrow(
      /Job.*no other job has[\s\S]*People[\s\S]*TankModel/,
    )
    // No sheet of Excel and of the grid can have these names.
    for (const Job of ["O'Neil", 'a/b']) await expect(addJob(rig.host, await office(), { ...typed, Job })).rejects.toThrow(/Job: no .* in a sheet name/)
    expect((await office()).tables.Jobs.length).toBe(before + 1)
    expect((await makeTakeoffs(rig.host, ['Sedge End'], { flavor: 'cells', made })).problems).toEqual([])
  })

  it('a job under a new name: its former sheets are told, and stay', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'native', made })
    const { office, places } = await rig.host.read([])
    rig.type('Jobs', office!.Jobs.rows.find(({ cells }) => cells.Job === 'Wicket Mill')!.row, places.Jobs.columnOf('Job')!, 'Wicket Weir')
    const { made: done } = await makeTakeoffs(rig.host, ['Wicket Weir'], { flavor: 'native', made })
    expect(done[0]!.notes.join(' ')).toContain('Sheets of Wicket Mill stand here, and no job has that name: what was typed on them goes with none.')
  })
  it('a job that says what it was called before has what was typed on its sheets then', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const make = (job: string) => makeTakeoffs(rig.host, [job], { flavor: 'native', made })
    await make('Wicket Mill')
    rig.type(names.takeoff, rowOfCode(rig, 'CLAMP', names.takeoff), takeoffColumns.yours, 40)
    const { office, places } = await rig.host.read([])
    const { row } = office!.Jobs.rows.find(({ cells }) => cells.Job === 'Wicket Mill')!
    const typeInJobs = (column: string, value: string) => rig.type('Jobs', row, places.Jobs.columnOf(column)!, value)
    typeInJobs('Job', 'Wicket Weir')
    typeInJobs('FormerName', 'Wicket Mill')
    // A variant that stands under the former name would be left out: the job waits for it.
    const variants = office!.Variants.rows.filter(({ cells }) => cells.Job === 'Wicket Mill')
    expect((await make('Wicket Weir')).problems.map(problemText).join('\n')).toMatch(/Variants, row \d+, Job: Wicket Weir, as the job is called now; got "Wicket Mill"/)
    for (const variant of variants) rig.type('Variants', variant.row, places.Variants.columnOf('Job')!, 'Wicket Weir')
    expect((await standingOf(rig.host, 'Wicket Weir', 'Wicket Mill')).kept.overrides.CLAMP).toMatchObject({ quantity: 40 })
    const first = (await make('Wicket Weir')).made[0]!
    expect(first.notes.join(' ')).toContain('Wicket Weir was Wicket Mill before: what was typed on those sheets came along.')
    expect(first.notes.join(' ')).toContain('Sheets of Wicket Mill still stand here, as Wicket Weir was called before: look whether')
    expect(first.changed).toContain('revision 1')
    const renamed = jobSheetNames('Wicket Weir')
    expect(Number(rig.cell(renamed.takeoff, rowOfCode(rig, 'CLAMP', renamed.takeoff), takeoffColumns.yours))).toBe(40)
    expect(String(rig.cell(renamed.takeoff, 3, 2))).toContain('revision 2')
    // What stands under the new name counts from now on.
    rig.type(renamed.takeoff, rowOfCode(rig, 'CLAMP', renamed.takeoff), takeoffColumns.yours, 44)
    expect((await make('Wicket Weir')).made[0]!.notes.join(' ')).not.toContain('came along')
    expect(Number(rig.cell(renamed.takeoff, rowOfCode(rig, 'CLAMP', renamed.takeoff), takeoffColumns.yours))).toBe(44)
    // Made first without its former name, and nothing typed since: what stood there comes along as soon as it is named.
    typeInJobs('Job', 'Wicket Dell')
    typeInJobs('FormerName', '')
    for (const variant of variants) rig.type('Variants', variant.row, places.Variants.columnOf('Job')!, 'Wicket Dell')
    const dell = jobSheetNames('Wicket Dell')
    await make('Wicket Dell')
    expect(String(rig.cell(dell.takeoff, rowOfCode(rig, 'CLAMP', dell.takeoff), takeoffColumns.yours) ?? '')).toBe('')
    typeInJobs('FormerName', 'Wicket Weir')
    expect((await make('Wicket Dell')).made[0]!.notes.join(' ')).toContain('came along')
    expect(Number(rig.cell(dell.takeoff, rowOfCode(rig, 'CLAMP', dell.takeoff), takeoffColumns.yours))).toBe(44)
    // A job that takes the name while its sheets still stand for another waits.
    const other = office!.Jobs.rows.find(({ cells }) => cells.Job === 'Fernlow 12')!
    rig.type('Jobs', other.row, places.Jobs.columnOf('Job')!, 'Wicket Weir')
    expect((await make('Wicket Weir')).problems.map(problemText).join()).toMatch(/Jobs.*Job: another name while row \d+ says that it was called so before/)
    rig.type('Jobs', other.row, places.Jobs.columnOf('Job')!, 'Fernlow 12')
    // A name that another job has is none of the past.
    typeInJobs('FormerName', 'Pipit Hollow')
    const { problems } = await make('Wicket Dell')
    expect(problems.map(problemText).join()).toMatch(
      /Jobs.*FormerName: a name that no job has any more, or nothing; to swap two names, give one of them a third name first; got "Pipit Hollow"/,
    )
  })

  it('words beside our cells and over a description stand in the way once; plain words that are written anew are told', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const asked: (readonly string[])[] = []
    const make = (isMeant: boolean) => makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made, mayLose: (words) => (asked.push(words), isMeant) })
    await make(false)
    expect((await make(false)).made.length).toBe(1)
    expect(asked).toEqual([])
    const plain = rowOfCode(rig, 'FENCE', names.takeoff)
    const ruled = rowOfCode(rig, 'CLAMP', names.takeoff)
    rig.type(names.takeoff, plain, takeoffColumns.description, 'Fence, the tall one')
    rig.type(names.takeoff, ruled, takeoffColumns.description, 'Nells clamp')
    rig.type(names.takeoff, 3, takeoffColumns.why + 2, 'ask Nell')
    await expect(make(false)).rejects.toThrow(/would be lost: .*"Nells clamp".*"ask Nell".*Nothing was changed/)
    expect(rig.cell(names.takeoff, ruled, takeoffColumns.description)).toBe('Nells clamp')
    const { made: done } = await make(true)
    expect(done[0]!.notes.join(' ')).toMatch(/Written anew, as the sheet Items has them: .*"Fence, the tall one"/)
    expect(String(rig.cell(names.takeoff, ruled, takeoffColumns.description))).not.toBe('Nells clamp')
  })

  it('words in empty cells between ours stand in the way too, on every sheet; a making that changes the job has none of its own taken for somebody’s', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const asked: (readonly string[])[] = []
    const make = () => makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made, mayLose: (words) => (asked.push(words), false) })
    await make()
    // Another count of tanks, depth and price: other rows and words everywhere.
    const { places } = await rig.host.read([])
    const { Jobs } = (await rig.host.read([])).office!
    const row = Jobs.rows.find(({ cells }) => cells.Job === 'Wicket Mill')!.row
    rig.type('Jobs', row, places.Jobs.columnOf('TankCount')!, 4)
    rig.type('Jobs', row, places.Jobs.columnOf('GroundwaterDepth_ft')!, 60)
    rig.type('Jobs', row, places.Jobs.columnOf('EarthworkBy')!, 'subcontract')
    expect((await make()).made.length).toBe(1)
    expect(asked).toEqual([])
    const free = (sheet: string, column: number): number => {
      for (let at = 8; at < 60; at++) if ([null, undefined, ''].includes(rig.cell(sheet, at, column) as never)) return at
      throw new Error(sheet)
    }
    const typed = [
      [names.quote, 4, 'only if the road is dry'],
      [names.takeoff, takeoffColumns.why, 'ask Bill first'],
      [names.site, 3, 'gate code 4711'],
      [names.quote, 2, 4711],
    ] as const
    for (const [sheet, column, words] of typed) rig.type(sheet, free(sheet, column), column, words)
    await expect(make()).rejects.toThrow(/would be lost: .*Nothing was changed/)
    for (const [, , words] of typed) expect(asked.flat().join(' ')).toContain(words)
  })

  it('a renamed heading is asked about once; the answer stands on a sheet, and new rows go under the office’s heading', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const column = (await rig.host.read([])).places.Jobs.columnOf('People')!
    rig.type('Jobs', 5, column, 'People served')
    const asked = (await open(rig.host)).office!.problems
    expect(asked.map(({ renamed }) => renamed)).toContainEqual({ table: 'Jobs', heading: 'People served', field: 'People' })
    await nameHeading(rig.host, asked.find(({ renamed }) => renamed)!.renamed!, true, made)
    const { office } = await open(rig.host)
    expect(office!.problems).toEqual([])
    expect((await makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'native', made })).made[0]!.total).toBe(demoTakeoff('Wicket Mill').total)
    const row = await addJob(rig.host, office!, {
      Job: 'Sedge End',
      RoofArea_ft2: '2000',
      RainStation: 'Low Fallow',
      People: '3',
      TankModel: 'Quern 1800',
      InletRun_ft: '20',
      OverflowRun_ft: '20',
      WaterLineRun_ft: '90',
      PowerRun_ft: '100',
    })
    expect(Number(rig.cell('Jobs', row, column))).toBe(3)
    // A second one goes below the first.
    const other = (await rig.host.read([])).places.Jobs.columnOf('Cover_ft')!
    rig.type('Jobs', 5, other, 'Earth cover')
    await nameHeading(rig.host, { table: 'Jobs', heading: 'Earth cover', field: 'Cover_ft' }, true, made)
    expect((await open(rig.host)).office!.problems).toEqual([])
  })

  it('reports the problems of a job and writes nothing for it', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    rig.type('Jobs', 6, 5, 'big')
    const before = rig.sheetNames()
    const outcome = await makeTakeoffs(rig.host, ['Fernlow 12'], { flavor: 'cells', made })
    expect(outcome.made).toEqual([])
    expect(outcome.problems[0]).toMatchObject({ sheet: 'Jobs', row: 6, column: 'RoofArea_ft2' })
    expect(rig.sheetNames()).toEqual(before)
  })

  it('takes the days of a rain file: those that stand there stay, a new station gets a column, nothing is written over', async () => {
    const rig = makeRig(true)
    await setUp(rig.host, made, true)
    const read = async () => (await rig.host.read([])).office!.RainDays
    const before = await read()
    const days = (of: typeof before, station: string) => new Map(of.rows.flatMap(({ cells }) => (cells.Date === null ? [] : [[dateText(cells.Date), cells[station]] as const])))
    const [first] = [...days(before, 'Alder Reach').keys()]
    const text = `date,rain_in\n${first},3.21\n2031-01-01,0.5\n2031-01-02,`
    expect(await addRainDays(rig.host, text, 'r.csv', { station: 'Alder Reach' }, made)).toContain('1 earlier reading of the same days replaced')
    const after = days(await read(), 'Alder Reach')
    expect(after.size).toBe(days(before, 'Alder Reach').size + 2)
    expect([after.get(first), after.get('2031-01-01'), after.get('2031-01-02')]).toEqual([3.21, 0.5, null])
    expect([...days(before, 'Alder Reach')].filter(([date, rain]) => date !== first && after.get(date) !== rain)).toEqual([])
    // A station without days so far.
    await addRainDays(rig.host, 'date,rain_mm\n2031-01-02,25.4', 'r.csv', { station: 'Low Fallow' }, made)
    expect(days(await read(), 'Low Fallow').get('2031-01-02')).toBe(1)
    expect(days(await read(), 'Alder Reach').get('2031-01-01')).toBe(0.5)
    // A station that the sheet Rain has not yet gets a row there, its means from the days: half an inch a day.
    const year = Array.from({ length: 365 }, (_, day) => `${new Date(Date.UTC(2030, 0, 1 + day)).toISOString().slice(0, 10)},0.5`).join('\n')
    const made_ = { station: 'Heron Edge', isNew: true }
    expect(await addRainDays(rig.host, `date,rain_in\n${year}`, 'r.csv', made_, made)).toMatch(/1 year of days, 2030 to 2030; .*its means of the months are in row \d+ of Rain/)
    const station = (await rig.host.read([])).office!.Rain.rows.find(({ cells }) => cells.Station === 'Heron Edge')!
    expect([station.cells.Jan_in, station.cells.Feb_in, station.cells.Apr_in]).toEqual([15.5, 14, 15])
    await expect(addRainDays(rig.host, `date,rain_in\n${year}`, 'r.csv', made_, made)).rejects.toThrow('Heron Edge is there')
    await expect(addRainDays(rig.host, text, 'r.csv', { station: 'Half Year', isNew: true }, made)).rejects.toThrow('a whole year of days at least')
    // What is wrong with the file, or stands in the way, is said; the sheet stays as it is.
    await expect(addRainDays(rig.host, 'date,rain_in\n2031-01-01,-1', 'r.csv', { station: 'Alder Reach' }, made)).rejects.toThrow('r.csv')
    await expect(addRainDays(rig.host, text, 'r.csv', { station: 'Nowhere' }, made)).rejects.toThrow('Daily rain goes to a station of the sheet Rain')
    const { columnOf } = (await rig.host.read([])).places.RainDays
    rig.type('RainDays', 9, columnOf('Alder Reach')!, '=0.6+0.06')
    await expect(addRainDays(rig.host, text, 'r.csv', { station: 'Alder Reach' }, made)).rejects.toThrow('RainDays: C9 would be written over')
    expect(days(await read(), 'Alder Reach').get('2031-01-01')).toBe(0.5)
  })

  it('rows that no job draws on are told with what was made: a renamed job leaves its further roofs behind', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const { office, places } = await rig.host.read([])
    rig.type('Jobs', office!.Jobs.rows.find(({ cells }) => cells.Job === 'Thistle Brow')!.row, places.Jobs.columnOf('Job')!, 'Thistle Brow Farm')
    const { made: done } = await makeTakeoffs(rig.host, ['Thistle Brow Farm'], { flavor: 'native', made })
    expect(done[0]!.notes.join(' ')).toMatch(/Not used: Catchments, row \d+, Job: /)
  })

  it('can be cancelled between jobs', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const cancel = new AbortController()
    const outcome = await makeTakeoffs(rig.host, ['Fernlow 12', 'Pipit Hollow'], {
      flavor: 'native',
      made,
      signal: cancel.signal,
      onProgress: ({ done }) => (done === 0 ? cancel.abort() : undefined),
    })
    expect(outcome.cancelled).toBe(true)
    expect(outcome.made.map(({ job }) => job)).toEqual(['Fernlow 12'])
  })

  it('finds tables in columns of another order, with columns of the office’s own', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const width = 50
    const heading = Array.from({ length: width }, (_, at) => at + 2).find((column) => rig.cell('Tanks', 5, column) === 'Price_usd')!
    rig.type('Tanks', 5, heading, 'Price_old')
    const opened = await open(rig.host)
    expect(opened.office!.problems.some(({ column }) => column === 'Price_usd')).toBe(true)
  })
})

describe.each([
  ['Excel in memory', excelRig],
  ['grid', gridRig],
] as const)('%s, before a person', (_name, makeRig) => {
  it('writes no table over a sheet of its name that holds something', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    // In Excel somebody made an ordinary range of the table; elsewhere its first heading was typed over.
    if ('book' in rig) (rig.book as MemoryExcel).tables = (rig.book as MemoryExcel).tables.filter(({ name }) => name !== 'Cranes')
    else rig.type('Cranes', OFFICE_HEADING_ROW, OFFICE_FIRST_COLUMN, 'Our cranes')
    const price = rig.cell('Cranes', OFFICE_HEADING_ROW + 1, OFFICE_FIRST_COLUMN)
    await expect(makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made })).rejects.toThrow('The sheet Cranes stands here already, without a table of that name')
    await expect(setUp(rig.host, made, true)).rejects.toThrow('The sheet Cranes stands here already')
    expect(rig.cell('Cranes', OFFICE_HEADING_ROW + 1, OFFICE_FIRST_COLUMN)).toBe(price)
    expect(rig.sheetNames()).not.toContain(names.takeoff)
  })

  it('what looks like a day in an entry of a paper stays as it was written', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const make = () => makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'cells', made })
    await make()
    const entries = [
      [names.order, 'TERMS', 6, '1-1/4'],
      [names.quote, '5', 4, '10/12'],
      [names.handover, 'K1', 5, '3-4'],
      [names.test, 'X1', testColumns.done, '2026-11-25'],
      [names.test, 'X2', testColumns.done, '10:30'],
    ] as const
    const row = (sheet: string, code: string) => {
      // The grid writes a text that looks like a number as a formula of it.
      for (let at = 1; at < 300; at++) if ([code, `="${code}"`].includes(String(rig.cell(sheet, at, 2)))) return at
      throw new Error(`${sheet} has no ${code}`)
    }
    for (const [sheet, code, column, words] of entries) rig.type(sheet, row(sheet, code), column, words)
    await make()
    for (const [sheet, code, column, words] of entries) expect([words, `="${words}"`], `${sheet} ${code}`).toContain(rig.cell(sheet, row(sheet, code), column))
  })

  it('writes a formula into no cell that holds something', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    await rig.host.select({ sheet: 'Tanks', row: 6, column: 'Model' })
    const before = rig.cell('Tanks', 6, 2)
    await expect(rig.host.insert('=1+1')).rejects.toThrow(/Tanks!\$?B\$?6 holds something: pick an empty cell. Nothing was changed/)
    expect(rig.cell('Tanks', 6, 2)).toBe(before)
  })

  it('columns of Jobs that have defaults are folded; the place of a problem among them comes into sight', async () => {
    const rig = makeRig()
    await setUp(rig.host, made, true)
    const { places } = await rig.host.read([])
    const [shown, folded] = [places.Jobs.columnOf('HousePressure_psi')!, places.Jobs.columnOf('Cover_ft')!]
    expect([rig.isHidden('Jobs', shown), rig.isHidden('Jobs', folded)]).toEqual([false, true])
    await rig.host.select({ sheet: 'Jobs', row: 6, column: 'Cover_ft' })
    expect(rig.isHidden('Jobs', folded)).toBe(false)
  })
})

describe('Excel in memory, what can go wrong', () => {
  it('the demo brings nothing into an office that has tables of its own', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, false)
    for (const name of ['Catchments', 'Variants', 'Cranes']) {
      book.tables = book.tables.filter((table) => table.name !== name)
      book.sheets.splice(book.sheets.indexOf(book.sheet(name)!), 1)
    }
    expect(await setUp(host, made, true)).toEqual(['Catchments', 'Cranes', 'Variants'])
    const { office } = await open(host)
    expect(office!.problems).toEqual([])
    expect([office!.tables.Cranes.length, office!.tables.Catchments.length]).toEqual([0, 0])
  })
  it('formats, rules of entry and page set-up are those of the plan', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
    const takeoff = book.sheet(names.takeoff)!
    expect(takeoff.page).toMatchObject({
      orientation: 'Portrait',
      paperSize: 'Letter',
      titleRows: '$1:$5',
      leftMargin: 36,
      topMargin: 43.2,
      rightFooter: 'Page &P of &N\n&9Made 2026-11-25, revision 1',
      leftFooter: `${names.takeoff}\n&9Local codes, the inspector and licensed practice decide.`,
      centerFooter: '',
    })
    expect(takeoff.frozenRows).toBe(5)
    const line = TIE_BOOT({
      host,
      type: () => undefined,
      sheetNames: () => [],
      isHidden: () => false,
      cell: (sheet, row, column) => book.sheet(sheet)!.formulas.get(`${row},${column}`),
    })
    expect(takeoff.formats.get(`${line},${takeoffColumns.amount}`)).toBe('#,##0.00_ ')
    // A code stays a text, whatever it looks like.
    expect(takeoff.formats.get(`${line},${takeoffColumns.code}`)).toBe('@')
    // Every field of Jobs with a span or a list has its rule, over all the rows that formulas look through.
    const jobs = book.sheet('Jobs')!
    const rules = new Map([...jobs.validations].map(([at, rule]) => [Number(/,(\d+) /.exec(at)![1]), { at, rule }]))
    const column = Object.keys(jobFields).indexOf('TankGap_in') + 2
    expect(rules.get(column)).toEqual({ at: `6,${column} 1000x1`, rule: '{"decimal":{"formula1":4,"formula2":120,"operator":"Between"}}' })
    expect([...rules.values()].filter(({ rule }) => rule.includes('newer IPC,older IPC or UPC')).length).toBe(1)
  })
  it('no entry of a list holds a comma: a spreadsheet would part it', () => {
    for (const table of tableNames) for (const { list } of standardValidations(table)) for (const entry of list ?? []) expect(entry, table).not.toContain(',')
  })
  it('takes at most four syncs for one takeoff, made new or again', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    for (let round = 0; round < 2; round++) {
      book.syncs = 0
      await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
      expect(book.syncs, `round ${round}`).toBeLessThanOrEqual(4)
    }
    expect(book.suspended).toBeGreaterThan(0)
  })

  it('section, plan and chart are pictures on the sheets, once each, at their cells; without that set of the interface the sheets are whole', async () => {
    const pictures = async (most: number) => {
      const book = new MemoryExcel()
      book.readDrawings = drawingsIn
      const host = new ExcelHost(book.run as never, (set, version) => set === 'ExcelApi' && Number(version.split('.')[1]) <= most)
      await setUp(host, made, true)
      for (let round = 0; round < 2; round++) await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
      expect(book.sheets.map(({ name }) => name).filter((name) => name.startsWith('cistern'))).toEqual([])
      return (kind: string) => book.sheet(`${kind} Wicket Mill`)!.shapes.map(({ name, left, top }) => [name, left > 0 && top > 0])
    }
    const on = await pictures(13)
    const drawn = (title: string) => [`Cistern Sheet: ${title}`, true]
    expect(on('Crew')).toEqual([drawn('Section, house to the right'), drawn('Plan, house to the right')])
    expect(on('Design')).toEqual([drawn('Section, house to the right'), drawn('Plan, house to the right')])
    expect(on('Handover')).toEqual([drawn('Section, house to the right'), drawn('Plan, house to the right')])
    expect(on('Quote')).toEqual([drawn('Section, house to the right')])
    expect(on('Year')).toEqual([drawn('Water through the year')])
    expect((await pictures(12))('Crew')).toEqual([])
  })

  it('a logo that cannot be put on the papers is told', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    book.sheet('House')!.shapes.push({ name: 'Picture 1', type: 'Image', width: 300, height: 100, left: 50, top: 90 })
    const make = async () => {
      book.syncs = 0
      return (await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })).made[0]!.notes
    }
    await make()
    expect(await make()).not.toContain('The logo could not be put on the papers.')
    // The last request of a making puts it there.
    book.failAtSync = book.syncs
    expect(await make()).toContain('The logo could not be put on the papers.')
  })

  it('the picture on House stands above the letterhead of the papers, once, as large as it may be', async () => {
    const book = new MemoryExcel()
    // Every set but the one that brings sheets of a file.
    const host = new ExcelHost(book.run as never, (_, version) => version !== '1.13')
    await setUp(host, made, true)
    book.sheet('House')!.shapes.push({ name: 'Picture 1', type: 'Image', width: 300, height: 100, left: 50, top: 90 })
    for (let round = 0; round < 2; round++) await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    for (const paper of ['Quote', 'Test', 'Handover'])
      expect(
        book
          .sheet(`${paper} Wicket Mill`)!
          .shapes.filter(({ name }) => name.endsWith('logo'))
          .map(({ name, width, height, top }) => [name, Math.round(width), Math.round(height), top]),
        paper,
      ).toEqual([['Cistern Sheet: logo', 102, 34, 0]])
    expect(book.sheet('Crew Wicket Mill')!.shapes.some(({ name }) => name.endsWith('logo'))).toBe(false)
    expect(book.sheet('House')!.shapes).toHaveLength(1)
  })

  it('the sums of a job have names in the workbook, which follow them; one of somebody’s own stays', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    const total = () => [...book.sheet('Takeoff Wicket Mill')!.formulas].find(([at, value]) => at.endsWith(',3') && value === 'Total')![0].split(',')[0]!
    expect(book.names.get('wicket_mill.total')).toBe(`='Takeoff Wicket Mill'!$G$${total()}`)
    book.names.set('wicket_mill.total', "='Takeoff Wicket Mill'!$G$7")
    book.names.set('wicket_mill.tax', '=Sheet1!$A$1')
    book.names.set('wicket_mill.fence', "='Takeoff Wicket Mill'!$G$9")
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    expect(book.names.get('wicket_mill.total')).toBe(`='Takeoff Wicket Mill'!$G$${total()}`)
    expect(book.names.get('wicket_mill.tax')).toBe('=Sheet1!$A$1')
    expect(book.names.has('wicket_mill.fence')).toBe(false)
  })

  it('fifty jobs are written in twelve syncs, each request under the 5 MB that Excel on the web takes, its calls counted', async () => {
    const { book, host } = excelRig()
    await host.write(templateWorkbook(manyJobs(50), made).sheets)
    const jobs = (await open(host)).office!.tables.Jobs.map(({ cells }) => String(cells.Job))
    expect(jobs).toHaveLength(50)
    book.syncs = book.largest = 0
    const { made: done, problems } = await makeTakeoffs(host, jobs, { flavor: 'cells', made })
    expect([done.length, problems]).toEqual([50, []])
    // One read, one look at what stands there, nine parts of five or six jobs (0.73 MB each), and the page set-up of all.
    expect(book.syncs).toBeLessThanOrEqual(12)
    expect(book.largest).toBeLessThan(5_000_000)
    expect(book.sheets.filter(({ name }) => name.startsWith('Takeoff '))).toHaveLength(50)
  })

  it('days of a station that the sheet Rain does not have are told, and no job takes them for none', async () => {
    const { host, book } = excelRig()
    await setUp(host, made, true)
    const days = book.sheet('RainDays')!
    const [at] = [...days.formulas].find(([, value]) => value === 'Alder Reach')!
    const retitled = async (heading: string) => {
      days.formulas.set(at, heading)
      return (await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })).made[0]!.notes.filter((note) => note.includes('RainDays'))
    }
    expect(await retitled('Alder Reech')).toEqual([
      expect.stringMatching(/^Not used: RainDays, headings, Alder Reech: a station of the sheet Rain, its unit behind a comma: .*Alder Reach.*; got "Alder Reech"\.$/),
    ])
    // The same name, whatever its spaces.
    expect(await retitled('Alder\u00a0 Reach')).toEqual([])
  })

  it('a part that breaks off is put back; the parts before it stand, are set up for printing, and leave no copies', async () => {
    const { book, host } = excelRig()
    await host.write(templateWorkbook(manyJobs(14), made).sheets)
    const jobs = (await open(host)).office!.tables.Jobs.map(({ cells }) => String(cells.Job))
    await makeTakeoffs(host, jobs, { flavor: 'cells', made })
    const content = (job: string) => JSON.stringify([...book.sheet(`Design ${job}`)!.formulas])
    const before = new Map(jobs.map((job) => [job, content(job)]))
    for (const sheet of book.sheets) sheet.page = {}
    // Read, the jobs four at a time, a look, one part, and the second part breaks off.
    book.failAtSync = book.syncs + 1 + 3 + 1 + 2
    const { made: done, failed } = await makeTakeoffs(host, jobs, { flavor: 'native', made })
    expect(failed?.words).toContain('as told')
    expect(done.length).toBeGreaterThan(0)
    expect(done.length).toBeLessThan(jobs.length)
    const names = new Set(done.map(({ job }) => job))
    for (const job of jobs) expect([job, content(job) === before.get(job)]).toEqual([job, !names.has(job)])
    // Every job that was not made is said, or counted.
    const others = jobs.length - done.length - 1
    expect(failed!.words).toMatch(/Not made either: /)
    const said = /Not made either: (.*)\.$/.exec(failed!.words)![1]!.split(', ')
    expect(said.reduce((sum, one) => sum + Number(/^(\d+) more$/.exec(one)?.[1] ?? 1), 0)).toBe(others)
    expect(book.sheet(`Takeoff ${done[0]!.job}`)!.page.orientation).toBe('Portrait')
    expect(book.sheets.filter(({ name }) => name.startsWith('cistern'))).toEqual([])
  })

  it('where those that wait cannot be written either, both reasons are told', async () => {
    const { host, type } = excelRig()
    await setUp(host, made, true)
    const both = ['Wicket Mill', 'Pipit Hollow']
    await makeTakeoffs(host, both, { flavor: 'native', made })
    type('Crew Pipit Hollow', 3, 2, 'my own notes')
    host.writing = () => Promise.resolve({ write: () => Promise.reject(new Error('No room is left.')), end: () => Promise.resolve([]) })
    await expect(makeTakeoffs(host, both, { flavor: 'native', made })).rejects.toThrow(/^The sheet Crew Pipit Hollow stands here already .* Wicket Mill: No room is left\.$/)
  })

  it('a drawing that breaks off leaves the older ones under their names, and nothing of its file', async () => {
    for (let at = 5; at <= 7; at++) {
      const { book, host } = excelRig(true)
      book.readDrawings = drawingsIn
      await setUp(host, made, true)
      await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
      const shapes = () => book.sheet('Drawing Wicket Mill')!.shapes.map(({ name }) => name)
      const before = shapes()
      expect(before.length).toBeGreaterThan(0)
      book.failAtSync = book.syncs + at
      const { made: done } = await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
      expect(done[0]!.notes.join(' '), `sync ${at}`).toContain('could not be put into this Excel')
      expect(shapes()).toEqual(before)
      expect(book.sheets.filter(({ name }) => name.startsWith('cistern')).map(({ name }) => name)).toEqual([])
    }
  })

  it('a page set-up that is refused costs no content, and is said', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    book.refusesPages = true
    const { made: done, failed } = await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    expect(failed).toBeUndefined()
    expect(done[0]!.notes.join(' ')).toContain('Excel did not take the page set-up of the sheets')
    expect(book.sheet(names.takeoff)!.formulas.size).toBeGreaterThan(500)
  })
  it('prints of a takeoff what is for paper, and begins a page where the plan does', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    const plan = takeoffWorkbook(startingOffice(true), [demoTakeoff('Wicket Mill')], 'native', made).sheets.find(({ name }) => name === names.takeoff)!
    expect(book.sheet(names.takeoff)!.page.printArea).toMatch(new RegExp(`^A1:${letters(plan.print!.lastColumn!)}\\d+$`))
    const { percent } = pagesOf(plan)
    expect(percent).toBeGreaterThanOrEqual(96)
    expect(book.sheet(names.takeoff)!.page.zoom).toEqual({ scale: percent })
    expect(book.sheet(names.design)!.page.printArea).toBeUndefined()
  })
  it('a workbook that calculates by hand is calculated, and that is said', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    expect(book.calculated).toBe(0)
    book.calculationMode = 'Manual'
    const { made: done } = await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    expect(book.calculated).toBe(1)
    expect(done[0]!.notes.join(' ')).toContain('calculates by hand')
  })
  it('a row of totals is no row of a table, and no rows are put below it', async () => {
    const { book, host } = excelRig(true)
    await setUp(host, made, true)
    const before = (await open(host)).office!.tables.Prices.length
    const table = book.tables.find(({ name }) => name === 'Prices')!
    table.area.rows++
    table.showTotals = true
    table.sheet.formulas.set(`${table.area.row + table.area.rows - 1},${table.area.column}`, 'Total')
    expect((await open(host)).office!.tables.Prices).toHaveLength(before)
    await expect(host.putRows('Prices', ['Code'], [['X']])).rejects.toThrow(/The table Prices has a row of totals/)
  })
  it('names that lost their sheet point to it again', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    const whole = book.names.get('wicket_mill.total')
    book.deleteSheet(book.sheet(names.takeoff)!)
    book.names.set('wicket_mill.total', '=#REF!$G$23')
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    expect(book.names.get('wicket_mill.total')).toBe(whole)
  })
  it('writes a formula into no cell that holds something, and shows a place on a protected sheet', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    book.active = { sheet: 'Jobs', cell: 'B6' }
    await expect(host.insert('=1+1')).rejects.toThrow(/holds something: pick an empty cell/)
    book.active = { sheet: 'Jobs', cell: 'B60' }
    expect(await host.insert('=1+1')).toMatch(/B60$/)
    book.sheet('Jobs')!.isProtected = true
    await host.select({ sheet: 'Jobs', row: 7, column: 'Markup' })
    expect(book.active.cell).toMatch(/7$/)
  })
  it('enters calls again whose functions Excel does not know yet, in either of its spellings', async () => {
    const { book, host } = excelRig()
    const sheet = book.sheet('Sheet1')!
    for (const [at, formula] of ['=CISTERN.TOTALHEAD(1,2,3)', '=_xldudf_CISTERN_TOTALHEAD(1,2,3)', '=OTHER(1)'].entries()) {
      sheet.formulas.set(`${at + 1},1`, formula)
      book.results.set(formula, '#NAME?')
    }
    expect(await host.wake!()).toBe(2)
    expect(sheet.formulas.get('2,1')).toBe('=CISTERN.TOTALHEAD(1,2,3)')
  })
  it('a heading that is gone is said, with what to do', async () => {
    const { host } = excelRig()
    await expect(host.addRow('Headings', { Table: 'Jobs' })).rejects.toThrow(/There is no table Headings/)
  })

  it('a failure at any sync leaves the workbook as it was', async () => {
    for (const isAgain of [false, true]) {
      for (let at = 1; at <= 3; at++) {
        const { book, host } = excelRig()
        await setUp(host, made, true)
        if (isAgain) await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
        const before = book.picture()
        book.syncs = 0
        book.failAtSync = at
        await expect(makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made }), `sync ${at}`).rejects.toThrow(/as told/)
        expect(book.picture(), `sync ${at}, ${isAgain ? 'again' : 'new'}`).toBe(before)
      }
    }
  })

  it('a failure at any sync of adding rain leaves the workbook as it was', async () => {
    for (let at = 1; at <= 3; at++) {
      const rig = excelRig(true)
      await setUp(rig.host, made, true)
      const before = rig.book.picture()
      rig.book.failAtSync = rig.book.syncs + at
      const done = await addRainDays(rig.host, 'date,rain_in\n2031-01-01,0.5', 'r.csv', { station: 'Alder Reach' }, made).catch((error: Error) => error)
      expect(String(done)).toContain('as told')
      expect(rig.book.picture(), `sync ${at}`).toBe(before)
    }
  })
  it('copies that cannot be taken away are no failure, and harm no later takeoff', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Wicket Mill', 'Ember Yard'], { flavor: 'cells', made })
    const design = () => [...book.sheet('Design Ember Yard')!.formulas].filter(([place]) => place !== '3,2')
    const before = design()
    book.syncs = 0
    book.failAtSync = 4
    expect((await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })).made).toHaveLength(1)
    book.failAtSync = undefined
    expect((await makeTakeoffs(host, ['Ember Yard'], { flavor: 'cells', made })).made).toHaveLength(1)
    expect(design()).toEqual(before)
    expect(book.sheets.filter(({ name }) => name.startsWith('cistern backup'))).toEqual([])
  })

  it('the grid: a table whose heading was renamed is not set up anew over its rows', async () => {
    const rig = gridRig()
    await setUp(rig.host, made, true)
    rig.type('Prices', 5, 2, 'Item code')
    const price = rig.cell('Prices', 6, 5)
    await expect(setUp(rig.host, made, true)).rejects.toThrow('The sheet Prices stands here already, without a table of that name')
    expect(rig.cell('Prices', 6, 5)).toBe(price)
  })

  it('the grid: a formula of a sheet of one’s own follows the line that it means; what cannot be followed is told', async () => {
    const rig = gridRig()
    await setUp(rig.host, made, true)
    const make = () => makeTakeoffs(rig.host, ['Wicket Mill'], { flavor: 'native', made })
    await make()
    const { model } = rig.host as GridHost
    model.dispatch('CREATE_SHEET' as never, { sheetId: 'mine', name: 'Mine', position: 1, rows: 20, cols: 5 } as never)
    const [fence, locate] = ['FENCE', 'LAYOUT'].map((code) => rowOfCode(rig, code, names.takeoff)) as [number, number]
    rig.type('Mine', 1, 1, `='Takeoff Wicket Mill'!C${fence}`)
    rig.type('Mine', 2, 1, `=SUM('Takeoff Wicket Mill'!G${locate}:G${fence})`)
    const { office, places } = await rig.host.read([])
    rig.type('Jobs', office!.Jobs.rows.find(({ cells }) => cells.Job === 'Wicket Mill')!.row, places.Jobs.columnOf('Without')!, 'LAYOUT')
    const { made: done } = await make()
    expect(rig.cell('Mine', 1, 1)).toBe(`='Takeoff Wicket Mill'!C${fence - 1}`)
    expect(rowOfCode(rig, 'FENCE', names.takeoff)).toBe(fence - 1)
    expect(done[0]!.notes.join(' ')).toMatch(/Mine!A2 points to 'Takeoff Wicket Mill'!G\d+:G\d+/)
  })

  it('the grid: fractions and dashes in columns of numbers are no days', async () => {
    const rig = gridRig()
    await setUp(rig.host, made, true)
    const { places } = await rig.host.read([])
    const run = places.Jobs.columnOf('InletRun_ft')!
    const { model } = rig.host as GridHost
    const getters = model.getters as unknown as { getSheetIdByName(name: string): string; getEvaluatedCell(position: object): { value: unknown; formattedValue: string } }
    const shown = (column: number) => {
      const { value, formattedValue } = getters.getEvaluatedCell({ sheetId: getters.getSheetIdByName('Jobs'), col: column - 1, row: 5 })
      return [value, formattedValue]
    }
    for (const [typed, value] of [
      ['3/4', 0.75],
      ['4 1/2', 4.5],
      ['12 1/2 ft', 12.5],
      ['30', 30],
      // A text that no formula counts with.
      ['12-6', `12-6${WORD_JOINER}`],
      ['30', 30],
    ] as const) {
      rig.type('Jobs', 6, run, typed)
      expect([typed, shown(run)[0]]).toEqual([typed, value])
    }
    // No format of a day stayed behind.
    expect(shown(run)[1]).toBe('30')
  })

  it('the grid: an optional table whose tab has another name is no empty one', async () => {
    const rig = gridRig()
    await setUp(rig.host, made, true)
    const { model } = rig.host as GridHost
    const getters = model.getters as unknown as { getSheetIdByName(name: string): string }
    model.dispatch('RENAME_SHEET' as never, { sheetId: getters.getSheetIdByName('Catchments'), oldName: 'Catchments', newName: 'Further roofs' } as never)
    const { office } = await rig.host.read([])
    expect(readOffice(office!).problems.map(problemText)).toContain(
      'Further roofs, headings, Job: the name Catchments on the tab of this sheet, which has the columns of that table; got "Further roofs".',
    )
    expect((await makeTakeoffs(rig.host, ['Thistle Brow'], { flavor: 'cells', made })).problems.map(problemText)).toHaveLength(1)
  })

  it('sets nothing up over a sheet that stands there', async () => {
    const { book, host } = excelRig()
    book.addSheet('Prices').formulas.set('1,1', 'notes of my own')
    await expect(setUp(host, made, true)).rejects.toThrow('The sheet Prices stands here already, without a table of that name')
    expect(book.sheet('Prices')!.formulas.get('1,1')).toBe('notes of my own')
    expect(book.sheet('Jobs')).toBeUndefined()
  })

  it('no formula stands in a cell of text', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Ember Yard'], { flavor: 'native', made })
    for (const sheet of book.sheets)
      for (const [place, content] of sheet.formulas)
        if (typeof content === 'string' && content.startsWith('=')) expect(sheet.formats.get(place), `${sheet.name} ${place} ${content}`).not.toBe('@')
  })

  it('where putting back fails too, the copies are named and stay', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
    book.syncs = 0
    book.failAtSync = 3
    book.failAlways = true
    await expect(makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })).rejects.toThrow(
      /Takeoff Wicket Mill.* is on the hidden sheets "cistern backup .* …": unhide them and copy it back/,
    )
    const copies = () => book.sheets.filter(({ name, formulas }) => name.startsWith('cistern backup') && formulas.size > 0).length
    const left = copies()
    expect(left).toBeGreaterThan(0)
    // In a pane that was opened anew as well: nothing is made over what stands on them.
    book.failAlways = false
    for (const pane of [host, new ExcelHost(book.run as never, (set, version) => set !== 'ExcelApi' || version === '1.10')])
      await expect(makeTakeoffs(pane, ['Wicket Mill'], { flavor: 'cells', made })).rejects.toThrow(
        /Copies of a making that broke off stand hidden: cistern backup .* Nothing was changed/,
      )
    expect(copies()).toBe(left)
  })

  it('a protected sheet and a read-only workbook are refused in words, nothing lost', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
    book.sheet(names.takeoff)!.isProtected = true
    await expect(makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })).rejects.toThrow(
      `The sheet ${names.takeoff} is protected: remove the protection, then try again. Nothing was changed.`,
    )
    expect(book.sheet(names.takeoff)!.formulas.size).toBeGreaterThan(300)
    book.sheet(names.takeoff)!.isProtected = false
    book.isReadOnly = true
    const before = book.picture()
    await expect(makeTakeoffs(host, ['Pipit Hollow'], { flavor: 'cells', made })).rejects.toThrow(/Nothing was changed/)
    expect(book.picture()).toBe(before)
  })

  it('a hidden target is shown again; a renamed one is made new beside it', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
    book.sheet(names.takeoff)!.visibility = 'Hidden'
    book.sheet(names.design)!.name = 'My design'
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
    expect(book.sheet(names.takeoff)!.visibility).toBe('Visible')
    expect(book.sheet('My design')).toBeDefined()
    expect(book.sheet(names.design)).toBeDefined()
  })

  it('tables that were moved are found where they are, and formulas point there', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    const table = book.tables.find(({ name }) => name === 'Prices')!
    const moved = new Map(
      [...table.sheet.formulas].map(([at, value]) => [
        at
          .split(',')
          .map((part, side) => Number(part) + (side ? 3 : 4))
          .join(','),
        value,
      ]),
    )
    table.sheet.formulas = moved
    table.area = { ...table.area, row: table.area.row + 4, column: table.area.column + 3 }
    const outcome = await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
    expect(outcome.problems).toEqual([])
    const formulas = [...book.sheet(names.takeoff)!.formulas.values()].map(String)
    expect(formulas.some((text) => text.includes(`Prices!$${letters(8)}$10:`))).toBe(true)
  })

  it('texts that begin like formulas go in as text', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    book.sheet('Jobs')!.formulas.set('9,3', "'=HYPERLINK(1)")
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'cells', made })
    const texts = [...book.sheet(names.design)!.formulas.values()].map(String).filter((value) => value.includes('HYPERLINK'))
    expect(texts).toContain("'=HYPERLINK(1)")
    expect(texts.some((value) => value.startsWith('='))).toBe(false)
  })

  it('puts a formula into the active cell and selects a place', async () => {
    const { book, host } = excelRig()
    await setUp(host, made, true)
    book.active = { sheet: 'Sheet1', cell: 'C4' }
    expect(await host.insert('=CISTERN.PEAKFLOW(2500,4.7)')).toBe('Sheet1!C4')
    await host.read([])
    await host.select({ sheet: 'Jobs', row: 8, column: 'RoofArea_ft2' })
    expect(book.active).toEqual({ sheet: 'Jobs', cell: 'E8' })
  })
})

describe('file', () => {
  it('writes tables that it reads back as they were', async () => {
    const raw = startingOffice(true)
    const workbook = openWorkbook(writeWorkbook(templateWorkbook(raw, made)), 'demo.xlsx')
    const back = readOffice(readOfficeTables(workbook).raw)
    expect(back.problems).toEqual([])
    expect(Object.values(back.tables).map((rows) => rows.map(({ cells }) => cells))).toEqual(Object.values(readOffice(raw).tables).map((rows) => rows.map(({ cells }) => cells)))
    expect(back.rain).toEqual(readOffice(raw).rain)
  })
  it('the grid opens the same workbook with the same data', () => {
    const model = new Model(gridData(templateWorkbook(startingOffice(true), made)) as never)
    return open(new GridHost(model)).then(({ office }) => {
      expect(office!.problems).toEqual([])
      expect(office!.tables.Items.length).toBe(readOffice(startingOffice(true)).tables.Items.length)
    })
  })
})
