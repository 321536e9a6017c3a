/** Numbers and formulas that people type on sheets of a job: kept, or told by name before the sheet is made again; and none of ours taken for theirs. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Model } from '@odoo/o-spreadsheet'
import ExcelJS from 'exceljs'
import { describe, expect, it } from 'vitest'
import { openWorkbook } from '../../src/hosts/file.js'
import { makeTemplate, sourceOf, type Source } from '../../src/hosts/fileSession.js'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { formulaShape } from '../../src/plan/cellMarks.js'
import type { Flavor } from '../../src/plan/calls.js'
import { columnLetters } from '../../src/plan/plan.js'
import { MOST_COUNTED } from '../../src/plan/sheets/asMade.js'
import { takeoffColumns } from '../../src/plan/sheets/takeoffColumns.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { ADDED_SUM, LIST_MOVED, sumOf, UNCOUNTED } from '../../src/takeoff/sumWords.js'
import { gridFromWorkbook } from '../../taskpane/xlsxToGrid.js'
import { workbookFromGrid } from '../../taskpane/gridToXlsx.js'
import { convertWithCalc, hasCalc } from '../support/calc.js'
import { made, makeJobs } from '../support/makings.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

// The engine registers the functions with the grid.
void new GridEngine()

const template = makeTemplate(startingOffice(true), made)
const JOB = 'Pipit Hollow'
const make = (source: Source, flavor: Flavor = 'native', jobs = [JOB]) => makeJobs(source, jobs, { flavor })
/** The sheets of the job as they are laid out. */
const plans = (() => {
  const office = readOffice(startingOffice(true))
  return jobSheets(makeTakeoff(office, rowNamed(office, 'Jobs', JOB)!), standardPlaces(), 'native', made)
})()
const first = (await make(sourceOf(template, 'OWN.xlsx'))).bytes
const again = (bytes: Uint8Array, flavor: Flavor = 'native', jobs?: string[]) => make(sourceOf(bytes, 'OWN.xlsx'), flavor, jobs)
/** The file as somebody saves it who typed on one of its sheets. */
async function typed(prefix: string, change: (sheet: ExcelJS.Worksheet) => void, bytes = first): Promise<Uint8Array> {
  const workbook = await inExceljs(bytes)
  change(workbook.getWorksheet(`${prefix} ${JOB}`)!)
  return savedBy(workbook)
}
const rowOf = (sheet: ExcelJS.Worksheet, column: number, word: string): number => {
  const row = (sheet.getColumn(column).values as unknown[]).indexOf(word)
  if (row < 0) throw new Error(`${sheet.name} has no ${word}`)
  return row
}

/** The first cell of a sheet that is for an entry. */
function entryCell(sheet: ExcelJS.Worksheet): ExcelJS.Cell {
  const plan = plans.find(({ name }) => name === sheet.name)!
  const { row, column } = plan.cells.find(({ role, value }) => (role === 'siteEntry' || role === 'entry') && value === null)!
  return sheet.getCell(row, column)
}

describe('told by name', () => {
  const cases: readonly [what: string, prefix: string, change: (sheet: ExcelJS.Worksheet) => string][] = [
    ['a number in an empty cell', 'Takeoff', (sheet) => put(sheet, 6, takeoffColumns.waste, 7777)],
    ['a formula over a net quantity', 'Takeoff', (sheet) => put(sheet, rowOf(sheet, 2, 'BACKFILL'), takeoffColumns.net, { formula: '12*3', result: 36 })],
    ['a number over a price of today', 'Takeoff', (sheet) => put(sheet, rowOf(sheet, 2, 'BACKFILL'), takeoffColumns.now, 4711)],
    ['a formula over the total of the summary', 'Takeoff', (sheet) => put(sheet, rowOf(sheet, 3, 'Total'), takeoffColumns.amount, { formula: 'G8*0.95', result: 37_000 })],
    ['a number over the total of a quote', 'Quote', (sheet) => put(sheet, lastFormula(sheet, 4), 4, 39_000)],
    ['a number over a quantity to buy', 'Order', (sheet) => put(sheet, lastFormula(sheet, 4), 4, 4711)],
    ['a formula in an empty cell', 'Design', (sheet) => put(sheet, 40, 10, { formula: 'D40*1.1', result: 3 })],
    ['a number in an empty cell', 'Test', (sheet) => put(sheet, 4, 6, 88)],
    ['a number over a share of the year', 'Year', (sheet) => put(sheet, lastFormula(sheet, 4), 4, 4711)],
    ['words in an empty cell', 'Working', (sheet) => put(sheet, 30, 7, 'asked the county on Tuesday')],
    ['words over a meaning', 'Working', (sheet) => put(sheet, 12, 3, 'what the old foreman calls it')],
    ['a number over a figure that was worked out', 'Working', (sheet) => put(sheet, lastFormula(sheet, 4), 4, 4711)],
    ['a yes over a check', 'Checks', (sheet) => put(sheet, lastFormula(sheet, 4), 4, 4711)],
  ]
  const put = (sheet: ExcelJS.Worksheet, row: number, column: number, value: ExcelJS.CellValue): string => {
    sheet.getCell(row, column).value = value
    return `${sheet.name}!${columnLetters(column)}${row} (${typeof value === 'object' && value && 'formula' in value ? `=${value.formula}` : `"${String(value)}"`})`
  }
  const lastFormula = (sheet: ExcelJS.Worksheet, column: number): number => {
    for (let row = sheet.rowCount; row > 5; row--) if (sheet.getCell(row, column).formula) return row
    throw new Error(`${sheet.name} has no formula there`)
  }
  it.each(cases)('%s of %s', async (_, prefix, change) => {
    let place = ''
    const bytes = await typed(prefix, (sheet) => (place = change(sheet)))
    await expect(again(bytes)).rejects.toThrow(`would be lost: ${place}. Move`)
  })
  it('a number that the sheet has elsewhere is counted: one more is somebody’s', async () => {
    const bytes = await typed('Design', (sheet) => {
      const known = (sheet.getColumn(4).values as unknown[]).filter((value) => value === 2)
      expect(known.length).toBeGreaterThan(1)
      sheet.getCell(40, 10).value = 2
    })
    await expect(again(bytes)).rejects.toThrow(`would be lost: Design ${JOB}!J40 ("2"). Move`)
  })
  it.each([
    ['TankCount', 5],
    ['Cover_ft', 2],
    ['RoofArea_ft2', 3000],
    ['Site', 'Lot 12, 4500 Mill Road'],
  ])('a figure that stands within the words of the next making is not kept by them: %s %s', async (field, value) => {
    for (const [prefix, row, column, figure] of [
      ['Takeoff', 6, takeoffColumns.waste, 4500],
      ['Test', 4, 6, 12],
      ['Design', 40, 10, 450],
    ] as const) {
      const workbook = await inExceljs(first)
      workbook.getWorksheet(`${prefix} ${JOB}`)!.getCell(row, column).value = figure
      setField(workbook, field, value)
      const bytes = await savedBy(workbook)
      await expect(again(bytes), `${prefix}: ${figure}`).rejects.toThrow(`would be lost: ${prefix} ${JOB}!${columnLetters(column)}${row} ("${figure}"). Move`)
    }
  })
  it('a figure beside columns that somebody put in', async () => {
    for (const prefix of ['Design', 'Changes', 'Takeoff']) {
      const workbook = await inExceljs(first)
      const sheet = workbook.getWorksheet(`${prefix} ${JOB}`)!
      sheet.spliceColumns(3, 0, [])
      sheet.getCell(12, 3).value = 4711
      const bytes = await savedBy(workbook)
      await expect(again(bytes)).rejects.toThrow(`would be lost: ${prefix} ${JOB}!C12 ("4711"). Move`)
    }
  })
})
/** Puts a value under a heading of the job's row of Jobs. */
function setField(workbook: ExcelJS.Workbook, field: string, value: ExcelJS.CellValue, job = JOB): void {
  const jobs = workbook.getWorksheet('Jobs')!
  jobs.getCell(rowOf(jobs, 2, job), (jobs.getRow(5).values as unknown[]).indexOf(field)).value = value
}

describe('kept, and asked nothing', () => {
  it.each<[string, string, (sheet: ExcelJS.Worksheet) => void]>([
    ['a quantity of one’s own, in a formula', 'Takeoff', (sheet) => (sheet.getCell(rowOf(sheet, 2, 'BACKFILL'), takeoffColumns.yours).value = { formula: '40+8', result: 48 })],
    ['a quantity of one’s own that a program saved as text', 'Takeoff', (sheet) => (sheet.getCell(rowOf(sheet, 2, 'BACKFILL'), takeoffColumns.yours).value = '48')],
    ['a price of one’s own', 'Takeoff', (sheet) => (sheet.getCell(rowOf(sheet, 2, 'BACKFILL'), takeoffColumns.price).value = 191)],
    [
      'a line by hand whose amount is a formula',
      'Takeoff',
      (sheet) => {
        const row = rowOf(sheet, 3, ADDED_SUM)
        sheet.spliceRows(row, 0, [])
        sheet.getCell(row, takeoffColumns.description).value = 'Stump removal'
        sheet.getCell(row, takeoffColumns.amount).value = { formula: '3*150', result: 450 }
      },
    ],
    [
      'a line that somebody copied, formulas and all, with a price of its own',
      'Takeoff',
      (sheet) => {
        const from = rowOf(sheet, 2, 'BACKFILL')
        sheet.spliceRows(from + 1, 0, sheet.getRow(from).values as ExcelJS.CellValue[])
        sheet.getCell(from + 1, takeoffColumns.price).value = 140
      },
    ],
    ['a reading', 'Test', (sheet) => (sheet.getCell(rowOf(sheet, 2, 'T1'), 4).value = 4)],
  ])('%s', async (_, prefix, change) => {
    const bytes = await typed(prefix, change)
    expect((await again(bytes)).notes.join()).not.toContain('lost')
    expect((await again((await again(bytes)).bytes)).notes.join()).not.toContain('lost')
  })
  it('rows that somebody moved and lines that somebody sorted', async () => {
    const bytes = await typed('Takeoff', (sheet) => {
      const [one, other] = [rowOf(sheet, 2, 'BACKFILL'), rowOf(sheet, 2, 'FENCE')]
      const [values, others] = [sheet.getRow(one).values, sheet.getRow(other).values] as ExcelJS.CellValue[][]
      sheet.getRow(one).values = others!
      sheet.getRow(other).values = values!
    })
    expect((await again(bytes)).notes).toEqual([])
  })
  it.each(['Design', 'Changes', 'Crew', 'Test', 'Quote', 'Order', 'Year', 'Working', 'Takeoff'])(
    'a column that somebody put in on %s, and another count of tanks',
    async (prefix) => {
      const workbook = await inExceljs(first)
      workbook.getWorksheet(`${prefix} ${JOB}`)!.spliceColumns(3, 0, [])
      setField(workbook, 'TankCount', 5)
      expect((await again(await savedBy(workbook))).notes).toEqual([])
    },
  )
  it.each([
    ['Order', 'PO-88'],
    ['Quote', 'K. Doe'],
    ['Handover', '3 ft 1 in'],
  ])('an entry of %s beside a column that somebody put in, before the first one too', async (prefix, words) => {
    for (const column of [1, 3, 5]) {
      let place = ''
      const bytes = await typed(prefix, (sheet) => {
        const empty = entryCell(sheet)
        empty.value = words
        sheet.spliceColumns(column, 0, [])
        place = empty.address
      })
      const { list } = await again(bytes)
      expect(JSON.stringify(list[0]!.takeoff.crew.cells), `${prefix} ${place}, a column before ${column}`).toContain(words)
    }
  })
  it('rows and columns before the heading lines leave a sheet ours, and a warning names the cell where it stands now', async () => {
    const put = (sheet: ExcelJS.Worksheet) => {
      sheet.spliceRows(1, 0, [], [], [], [], [])
      sheet.spliceColumns(1, 0, [], [], [], [], [])
    }
    await expect(again(await typed('Takeoff', put))).resolves.toMatchObject({ reasons: [] })
    const bytes = await typed('Takeoff', (sheet) => {
      put(sheet)
      sheet.getCell(30, 3).value = 4711
    })
    await expect(again(bytes)).rejects.toThrow(`would be lost: Takeoff ${JOB}!C30 ("4711"). Move`)
  })
  it.each(['Takeoff', 'Crew', 'Test', 'Design', 'Changes', 'Site', 'Year'])('a column before the first one of %s leaves the sheet ours', async (prefix) => {
    const bytes = await typed(prefix, (sheet) => void sheet.spliceColumns(1, 0, []))
    await expect(again(bytes)).resolves.toMatchObject({ reasons: [] })
  })
  it('formulas that a sheet has more often than is counted: a daily proof', async () => {
    const jobs = ['Fernlow 12']
    const workbook = await inExceljs(template)
    setField(workbook, 'DailyProof', 'yes', jobs[0])
    const asked = (await make(sourceOf(await savedBy(workbook), 'OWN.xlsx'), 'native', jobs)).bytes
    const proven = await inExceljs(asked)
    expect(proven.getWorksheet(`Proof ${jobs[0]}`)!.rowCount).toBeGreaterThan(MOST_COUNTED)
    setField(proven, 'TankCount', 3, jobs[0])
    expect((await again(await savedBy(proven), 'native', jobs)).notes).toEqual([])
  })
  it('another count of tanks, another price: other rows and figures everywhere', async () => {
    const workbook = await inExceljs(first)
    setField(workbook, 'TankCount', 5)
    workbook.getWorksheet('Prices')!.getCell('E7').value = 99
    // The price is told, as every one that moved further than the office lets it; of the rest there is nothing to say.
    expect((await again(await savedBy(workbook))).notes).toEqual(['Pipit Hollow: prices to look at, with why beside them on its sheet Takeoff: LAYOUT.'])
  })
})

describe('saved by another program', () => {
  const jobs = [JOB, 'Fernlow 12']
  const byCalc = async (bytes: Uint8Array): Promise<Uint8Array> => {
    const folder = mkdtempSync(join(tmpdir(), 'typed-figures-'))
    try {
      writeFileSync(join(folder, 'a.xlsx'), bytes)
      return readFileSync(await convertWithCalc(join(folder, 'a.xlsx'), 'xlsx', join(folder, 'out')))
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  }
  const programs: readonly [string, boolean, (bytes: Uint8Array) => Promise<Uint8Array>][] = [
    ['a library', true, async (bytes) => savedBy(await inExceljs(bytes))],
    ['our page', true, async (bytes) => workbookFromGrid(new Model((await gridFromWorkbook(bytes, 'a.xlsx')).data as never))],
    // Where there is no Calc, setup has said so; in CI setup fails without it.
    ['Calc', hasCalc, byCalc],
  ]
  for (const [program, isThere, save] of programs)
    for (const flavor of ['native', 'cells'] as const)
      it.runIf(isThere)(`${program}, ${flavor}: nothing of ours is taken for somebody’s`, async () => {
        const saved = await save((await make(sourceOf(template, 'OWN.xlsx'), flavor, jobs)).bytes)
        expect(openWorkbook(saved, 'OWN.xlsx').book.sheets.length).toBeGreaterThan(20)
        expect((await again(saved, flavor, jobs)).notes.filter((note) => /lost|anew/.test(note))).toEqual([])
      })
})

it.each([
  ["ROUND('Takeoff A ''b'''!$C$7*Prices[Price],2)", 'ROUND(Quote!C9*Prices!$C$4:$C$90,2)', true],
  ['_xlfn.XLOOKUP(A1,B:B,$3:$4)', 'xlookup( C7 , D:D , 9:10 )', true],
  ['IF(TRUE(),1.50,@Jobs[[#This Row],[X]])', 'IF(TRUE,1.5,Z9)', true],
  ['_xldudf_CISTERN_TANKVOLUME(B2,1)', 'CISTERN.TANKVOLUME(B3,1)', true],
  ['0.1234567890123456*A1', '0.123456789012346*A1', true],
  ['A1*1.1', 'A1*1.2', false],
  ['SUM(A1)', 'MAX(A1)', false],
  ['IF(A1="B2",1)', 'IF(A1="C2",1)', false],
  ['LOG10(A1)', 'LOG(A1)', false],
  ['A1+A2', 'A1-A2', false],
])('the shape of %s and of %s: the same is %s', (one, other, isSame) => {
  expect(formulaShape(one) === formulaShape(other)).toBe(isSame)
})

describe.runIf(hasCalc)('papers of other figures than they were made with', () => {
  /** Second lines of all papers of the job, what the quote asks, and what the figures came to, as Calc works them out. */
  async function worked(bytes: Uint8Array): Promise<{ seconds: ReadonlySet<string>; late: readonly string[]; price: unknown; moved: unknown; uncounted: unknown }> {
    const folder = mkdtempSync(join(tmpdir(), 'out-of-date-'))
    try {
      writeFileSync(join(folder, 'a.xlsx'), bytes)
      const workbook = await inExceljs(readFileSync(await convertWithCalc(join(folder, 'a.xlsx'), 'xlsx', join(folder, 'out'))))
      const papers = workbook.worksheets.filter(({ name }) => name.endsWith(JOB) && !name.startsWith('Working'))
      const [quote, takeoff] = ['Quote', 'Takeoff'].map((prefix) => workbook.getWorksheet(`${prefix} ${JOB}`)!) as [ExcelJS.Worksheet, ExcelJS.Worksheet]
      return {
        seconds: new Set(papers.map((sheet) => (sheet.getCell(2, 2).text.startsWith('OUT OF DATE') ? 'out of date' : 'as made'))),
        late: papers.filter((sheet) => sheet.getCell(2, 2).text.startsWith('OUT OF DATE: a line by hand')).map(({ name }) => name.slice(0, -JOB.length - 1)),
        price: quote.getCell(rowOf(quote, 3, 'Price, $'), 4).result,
        moved: takeoff.getCell(rowOf(takeoff, 3, LIST_MOVED), takeoffColumns.amount).result,
        uncounted: takeoff.getCell(rowOf(takeoff, 3, UNCOUNTED), takeoffColumns.amount).result,
      }
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  }

  it('as they were made they say nothing', async () => {
    expect(await worked(first)).toEqual({ seconds: new Set(['as made']), late: [], price: expect.any(Number) as number, moved: 0, uncounted: 0 })
  })
  it('an input typed over: every paper says so, the quote has no price, and no list is said to have moved', async () => {
    const bytes = await typed('Design', (sheet) => {
      sheet.getCell(rowOf(sheet, 3, 'WaterLineRun_ft'), 4).value = 900
    })
    expect(await worked(bytes)).toEqual({ seconds: new Set(['out of date']), late: [], price: 'no price', moved: 0, uncounted: 0 })
  })
  it('a line by hand put in without an amount, or under the sum: the quote has no price until it counts', async () => {
    const under = await typed('Takeoff', (sheet) => {
      const row = sheet.getRow(rowOf(sheet, 3, ADDED_SUM) + 2)
      row.getCell(takeoffColumns.description).value = 'Scaffold'
      row.getCell(takeoffColumns.yours).value = 2
      row.getCell(takeoffColumns.price).value = 50
    })
    const said = await worked(under)
    expect({ ...said, late: new Set(said.late) }).toEqual({
      seconds: new Set(['as made', 'out of date']),
      late: new Set(['Takeoff', 'Quote']),
      price: 'no price',
      moved: 0,
      uncounted: 1,
    })
    const between = await typed('Takeoff', (sheet) => {
      const row = sheet.getRow(rowOf(sheet, 3, ADDED_SUM) - 1)
      row.getCell(takeoffColumns.price).value = 10
      row.getCell(takeoffColumns.amount).value = null
    })
    expect((await worked(between)).price).toBe('no price')
    const amongOurs = await typed('Takeoff', (sheet) => {
      const row = sheet.getRow(rowOf(sheet, 3, sumOf('Earthwork')) + 1)
      row.getCell(takeoffColumns.description).value = 'Own crate'
      row.getCell(takeoffColumns.yours).value = 2
      row.getCell(takeoffColumns.price).value = 100
    })
    expect(await worked(amongOurs)).toMatchObject({ price: 'no price', uncounted: 1 })
    // One that was put in behind the last line of a section, with an amount of its own: the sum of the section does not reach it.
    const beyondSection = await typed('Takeoff', (sheet) => {
      const row = sheet.getRow(rowOf(sheet, 3, sumOf('Earthwork')) + 1)
      row.getCell(takeoffColumns.description).value = 'Own crate'
      row.getCell(takeoffColumns.amount).value = 500
    })
    expect(await worked(beyondSection)).toMatchObject({ price: 'no price', uncounted: 1 })
    // An amount alone under the sum, and a row that was put in where the sum does not reach.
    const alone = await typed('Takeoff', (sheet) => {
      sheet.getRow(rowOf(sheet, 3, ADDED_SUM) + 1).getCell(takeoffColumns.amount).value = 1000
    })
    expect((await worked(alone)).price).toBe('no price')
    const beyond = await typed('Takeoff', (sheet) => {
      const sum = rowOf(sheet, 3, ADDED_SUM)
      sheet.getRow(sum - 1).getCell(takeoffColumns.price).value = 500
      sheet.getRow(sum).getCell(takeoffColumns.amount).value = { formula: `SUM(G${sum - 4}:G${sum - 2})`, result: 0 } as ExcelJS.CellFormulaValue
    })
    expect((await worked(beyond)).price).toBe('no price')
    // A line of ours taken off, five formulas of others typed over, whatever formula stands elsewhere, an amount under nothing twice: the next making takes none of them as it stands.
    const changed = await typed('Takeoff', (sheet) => {
      const type = (code: string, column: keyof typeof takeoffColumns, value: number | null) => (sheet.getRow(rowOf(sheet, 2, code)).getCell(takeoffColumns[column]).value = value)
      type('CLAMP', 'net', null)
      type('STRIP', 'waste', 0.1)
      type('STRIP', 'lot', 3)
      type('DIG', 'order', 50)
      type('TAPE', 'hours', 100)
      type('VENT', 'yours', -3)
      type('FENCE', 'price', -5)
      const off = sheet.getRow(rowOf(sheet, 2, 'EXCAVATOR'))
      for (const column of Object.values(takeoffColumns)) off.getCell(column).value = null
      sheet.getRow(rowOf(sheet, 3, 'Earthwork, total')).getCell(takeoffColumns.hours).value = { formula: '1+1', result: 2 } as ExcelJS.CellFormulaValue
    })
    expect(await worked(changed)).toMatchObject({ price: 'no price', uncounted: 1 + 5 + 2 })
    // A price taken back is that of the list again, on the sheets as where they are made from.
    const back = await typed('Takeoff', (sheet) => {
      sheet.getRow(rowOf(sheet, 2, 'EXCAVATOR')).getCell(takeoffColumns.price).value = null
    })
    expect(await worked(back)).toMatchObject({ price: (await again(first)).takeoff.total, uncounted: 0 })
    expect((await again(back)).takeoff.total).toBe((await again(first)).takeoff.total)
    // Where its formulas stand it counts.
    const counted = await typed('Takeoff', (sheet) => {
      sheet.getRow(rowOf(sheet, 3, ADDED_SUM) - 1).getCell(takeoffColumns.price).value = 10
    })
    expect(await worked(counted)).toMatchObject({ seconds: new Set(['as made']), price: expect.any(Number) as number })
  })
  it('a table that turns a verdict does as much', async () => {
    const workbook = await inExceljs(first)
    const tanks = workbook.getWorksheet('Tanks')!
    const headings = (tanks.getRow(5).values as string[]).indexOf('VacuumLimit_inHg')
    // The test wants 4 inHg; no tank may be pulled to more than its maker allows.
    for (let row = 6; row <= tanks.rowCount; row++) if (tanks.getRow(row).hasValues) tanks.getCell(row, headings).value = 2
    expect(await worked(await savedBy(workbook))).toMatchObject({ seconds: new Set(['out of date']), price: 'no price' })
  })
  it('a table that turns no verdict and moves figures does as much; a price of the list moves none', async () => {
    const changed = async (table: string, heading: string, by: number): Promise<Uint8Array> => {
      const workbook = await inExceljs(first)
      const sheet = workbook.getWorksheet(table)!
      const column = (sheet.getRow(5).values as string[]).indexOf(heading)
      for (let row = 6; row <= sheet.rowCount; row++) {
        const { value } = sheet.getCell(row, column)
        if (typeof value === 'number') sheet.getCell(row, column).value = value * by
      }
      return savedBy(workbook)
    }
    // Less than a pound of the weight of each tank: a crane lifts it all the same.
    expect(await worked(await changed('Tanks', 'Weight_lb', 1.00002))).toMatchObject({ seconds: new Set(['out of date']), price: 'no price' })
    expect(await worked(await changed('Prices', 'Price_usd', 1.005))).toMatchObject({ seconds: new Set(['as made']), price: expect.any(Number) as number })
  })
})
