/** What people typed on the sheets of a job stays when it is made again, or is named at its place. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import ExcelJS from 'exceljs'
import { describe, expect, it } from 'vitest'
import { openWorkbook, readSheet, writeWorkbook } from '../../src/hosts/file.js'
import { inExceljs, reopened } from '../support/xlsx.js'
import { crewColumns } from '../../src/plan/sheets/crewDraft.js'
import { testColumns } from '../../src/plan/sheets/testDraft.js'
import { designColumns } from '../../src/plan/sheets/designColumns.js'
import { jobSheetNames } from '../../src/plan/jobSheets.js'
import { keptFrom } from '../../src/plan/kept.js'
import { takeoffColumns as columns } from '../../src/plan/sheets/takeoffColumns.js'
import { takeoffWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { problemText, ProblemsError } from '../../src/takeoff/fields.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import { convertWithCalc, hasCalc } from '../support/calc.js'
import { lineOf } from '../support/office.js'

const names = jobSheetNames('Wicket Mill')
const raw = startingOffice(true)
const office = readOffice(raw)
const job = rowNamed(office, 'Jobs', 'Wicket Mill')!
const bytes = writeWorkbook(takeoffWorkbook(raw, [makeTakeoff(office, job)], 'native', { date: '2026-11-25', revision: 1, version: 'test' }))

/** Opens the made workbook, lets a person type, and makes it again from what is read back. */
async function again(type: (cell: (sheet: string, key: string, column: number) => ExcelJS.Cell, workbook: ExcelJS.Workbook) => void, row = job) {
  const workbook = await inExceljs(bytes)
  type((name, key, column) => {
    const sheet = workbook.getWorksheet(name)!
    const found = sheet.getRows(1, sheet.rowCount)!.find((line) => [2, 3].some((at) => line.getCell(at).value === key || (line.getCell(at).result as unknown) === key))!
    return found.getCell(column)
  }, workbook)
  const read = await reopened(workbook)
  const kept = keptFrom(names, (sheet) => readSheet(read, sheet))
  return { kept, make: () => makeTakeoff(office, row, kept) }
}
const refusals = async (...args: Parameters<typeof again>): Promise<string[]> => {
  const { make } = await again(...args)
  try {
    make()
  } catch (error) {
    if (error instanceof ProblemsError) return error.problems.map(problemText)
    throw error
  }
  return []
}

describe('the takeoff sheet', () => {
  it('what is typed beside a sum is told and is no line', async () => {
    const beside: readonly (readonly [sum: string, column: number, typed: string | number])[] = [
      ['Total', columns.unit, 'USD'],
      ['Total', columns.yours, 1],
      ['Order cost', columns.code, 'OC'],
      ['Earthwork', columns.yours, 3],
      ['Earthwork, total', columns.unit, 'USD'],
      ['Days of the crew', columns.unit, 'days'],
      ['Price a gallon stored', columns.unit, '$/gal'],
    ]
    for (const [sum, column, typed] of beside) {
      const said = await refusals((cell) => void (cell(names.takeoff, sum, column).value = typed))
      expect(said, sum).toHaveLength(1)
      expect(said[0], sum).toContain(`nothing beside the sum "${sum}"; lines of your own stand under added by hand; got ${String(typed)}`)
    }
  })
  it('a line by hand may have the name of a sum', async () => {
    const { kept } = await again((_, workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      const first = sheet.getRows(1, sheet.rowCount)!.find((row) => row.getCell(columns.code).value === 'ADDED BY HAND')!.number + 1
      ;['Delivery', 'Tax', 'Scaffold, total'].forEach((words, at) => {
        sheet.getRow(first + at).getCell(columns.description).value = words
        sheet.getRow(first + at).getCell(columns.amount).value = 250 + at
      })
    })
    expect(kept.problems).toEqual([])
    expect(kept.added.map(({ description, price }) => [description, price])).toEqual([
      ['Delivery', 250],
      ['Tax', 251],
      ['Scaffold, total', 252],
    ])
  })
  it('a subtotal of amounts that are counted already is no line; a share of one is', async () => {
    const spare = (workbook: ExcelJS.Workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      return sheet.getRows(1, sheet.rowCount)!.find((row) => row.getCell(columns.code).value === 'ADDED BY HAND')!.number + 1
    }
    const typed = (formula: string, result: number) => (_: unknown, workbook: ExcelJS.Workbook) => {
      const row = workbook.getWorksheet(names.takeoff)!.getRow(spare(workbook))
      row.getCell(columns.description).value = 'Contingency'
      row.getCell(columns.amount).value = { formula, result } as ExcelJS.CellFormulaValue
    }
    expect((await refusals(typed('SUM(G40:G50)', 500)))[0]).toMatch(/a number of its own; this formula adds up amounts that are counted already; got =SUM\(G40:G50\)/)
    expect((await again(typed('0.05*G22', 120))).kept.added).toMatchObject([{ description: 'Contingency', quantity: 1, price: 120 }])
  })
  it('a formula typed as quantity or price counts as its result', async () => {
    const { make } = await again((cell) => {
      cell(names.takeoff, 'DIG', columns.yours).value = { formula: '450+50', result: 500 } as ExcelJS.CellFormulaValue
      cell(names.takeoff, 'HAUL', columns.price).value = { formula: '165*1.1', result: 181.5 } as ExcelJS.CellFormulaValue
      cell(names.takeoff, 'FENCE', columns.price).value = '1.10'
    })
    expect(lineOf(make(), 'DIG')).toMatchObject({ override: 500, order: 500 })
    expect(lineOf(make(), 'HAUL')).toMatchObject({ price: 181.5 })
    expect(lineOf(make(), 'FENCE')).toMatchObject({ price: 1.1 })
  })
  it('a price that is a formula counts, whatever it is made of', async () => {
    for (const formula of ['2500', 'INDEX($Z$1:$Z$9,MATCH(B47,$Y$1:$Y$9,0))', `'${names.design}'!D20*100`]) {
      const { make } = await again((cell) => {
        cell(names.takeoff, 'TANK', columns.price).value = { formula, result: 2500 } as ExcelJS.CellFormulaValue
      })
      expect([formula, lineOf(make(), 'TANK')?.price]).toEqual([formula, 2500])
    }
  })
  it('figures of a line by hand that say two things, an amount without words and a verdict typed over are named', async () => {
    const byHand = (workbook: ExcelJS.Workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      return sheet.getRow(sheet.getRows(1, sheet.rowCount)!.find((row) => row.getCell(columns.code).value === 'ADDED BY HAND')!.number + 1)
    }
    const said = (cells: Partial<Record<keyof typeof columns, string | number>>) =>
      refusals((_, workbook) => {
        for (const [name, value] of Object.entries(cells)) byHand(workbook).getCell(columns[name as keyof typeof columns]).value = value
      })
    const line = { description: 'Stick', unit: 'ft', price: 3 }
    expect(await said({ ...line, yours: 56, order: 60 })).toEqual([expect.stringMatching(/Order: nothing, or 56, as Your quantity of this line by hand says; got 60\.$/)])
    expect(await said({ ...line, yours: 2, net: 7 })).toEqual([expect.stringMatching(/Net.*: nothing, or 2, as Your quantity of this line by hand says; got 7\.$/)])
    expect(await said({ amount: 500 })).toEqual([expect.stringMatching(/words for this amount, which the customer reads; got nothing\.$/)])
    expect(await refusals((cell) => void (cell(names.design, 'CoverVerdict', designColumns.value).value = 'pass'))).toEqual([
      expect.stringMatching(/^Design Wicket Mill, row \d+, CoverVerdict: its formula; filled cells are the inputs; got pass\.$/),
    ])
  })
  it('a column that was deleted is named, and nothing else', async () => {
    const said = await refusals((_, workbook) => workbook.getWorksheet(names.takeoff)!.spliceColumns(columns.waste, 1))
    expect(said).toEqual(['Takeoff Wicket Mill, headings, Waste: headings in one row, as the sheet was made; got none of that name.'])
  })
  it('one that was saved without its result is named, not dropped', async () => {
    expect(
      await refusals((cell) => {
        cell(names.takeoff, 'DIG', columns.yours).value = { formula: '450+50' } as ExcelJS.CellFormulaValue
        cell(names.takeoff, 'HAUL', columns.price).value = { formula: '165*1.1' } as ExcelJS.CellFormulaValue
        cell(names.test, 'T1', testColumns.entries).value = { formula: '8.6/2' } as ExcelJS.CellFormulaValue
      }),
    ).toEqual([
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Your quantity: a number; the formula was saved without its result; got =450\+50\.$/),
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Unit price, \$: a number; the formula was saved without its result; got =165\*1\.1\.$/),
      expect.stringMatching(/^Test Wicket Mill, row \d+, .*: an entry; the formula was saved without its result; got =8\.6\/2\.$/),
    ])
  })
  it('a formula that comes to an empty text is no entry', async () => {
    const { kept, make } = await again((cell) => {
      cell(names.takeoff, 'DIG', columns.yours).value = { formula: 'IF(1>2,3,"")', result: '' } as ExcelJS.CellFormulaValue
      cell(names.test, 'T1', testColumns.entries).value = { formula: 'IF(1>2,3,"")', result: '' } as ExcelJS.CellFormulaValue
    })
    expect(kept.problems).toEqual([])
    expect(kept.overrides).toEqual({})
    expect(make().lines.length).toBeGreaterThan(60)
  })
  it('what is typed on a line whose code shows an error is refused, and without that the line is nobody’s', async () => {
    const broken = (cell: Parameters<Parameters<typeof again>[0]>[0], typed: boolean) => {
      const code = cell(names.takeoff, 'CABLE-copper-12', columns.code)
      const price = cell(names.takeoff, 'CABLE-copper-12', columns.price)
      code.value = { formula: '"CABLE-"&#REF!', result: { error: '#REF!' } } as unknown as ExcelJS.CellFormulaValue
      if (typed) price.value = 1.6
    }
    expect(await refusals((cell) => broken(cell, true))).toEqual([
      expect.stringMatching(
        /^Takeoff Wicket Mill, row \d+, Unit price, \$: the code of its line: a sheet that it points to is gone.*; got 1\.6, on a line whose code shows #REF!\.$/,
      ),
    ])
    // A formula counts as its result, here as elsewhere.
    expect(
      await refusals((cell) => {
        const yours = cell(names.takeoff, 'CABLE-copper-12', columns.yours)
        broken(cell, false)
        yours.value = { formula: '300+33', result: 333 } as ExcelJS.CellFormulaValue
      }),
    ).toEqual([expect.stringMatching(/Your quantity: the code of its line.*; got 333, on a line whose code shows #REF!\.$/)])
    const { kept, make } = await again((cell) => broken(cell, false))
    expect([kept.problems, kept.added, kept.overrides]).toEqual([[], [], {}])
    expect(make().total).toBe(makeTakeoff(office, job).total)
  })
  it('an entry that is a formula counts as its result, a ticked box stays ticked', async () => {
    const { kept } = await again((cell) => {
      cell(names.test, 'T1', testColumns.entries).value = { formula: '8.6/2', result: 4.3 } as ExcelJS.CellFormulaValue
      cell(names.crew, 'B3', crewColumns.box).value = '☑'
      cell(names.crew, 'B5', crewColumns.box).value = 'x'
      cell(names.crew, 'B5', crewColumns.done).value = 'Ann, 3 May'
    })
    expect(Object.values(kept.crew.cells.T1!)).toEqual([4.3])
    expect(kept.crew.cells.B3).toEqual({ box: '☑' })
    expect(kept.crew.cells.B5).toEqual({ done: 'Ann, 3 May', box: 'x' })
    expect(kept.crew.added).toEqual([])
  })
  it('the kind of a line by hand stays and counts; hours of one, and a kind that there is not, are named', async () => {
    const spare = (cell: (sheet: string, key: string, column: number) => ExcelJS.Cell, workbook: ExcelJS.Workbook) => {
      const row = Number(cell(names.takeoff, 'ADDED BY HAND', columns.code).row) + 1
      return (name: keyof typeof columns) => workbook.getWorksheet(names.takeoff)!.getRow(row).getCell(columns[name])
    }
    const typed = async (kind: string, hours?: number) =>
      again((cell, workbook) => {
        const at = spare(cell, workbook)
        at('code').value = 'PROBE'
        at('yours').value = 2
        at('price').value = 100
        at('kind').value = kind
        if (hours !== undefined) at('hours').value = hours
      })
    const { make } = await typed('Equipment')
    const plain = makeTakeoff(office, job)
    expect(make().added).toMatchObject([{ code: 'PROBE', kind: 'equipment' }])
    expect(make().byKind.equipment - plain.byKind.equipment).toBeCloseTo(200, 6)
    expect(make().byKind.other).toBeCloseTo(plain.byKind.other, 6)
    expect((await typed('hire', 8)).kept.problems.map(problemText)).toEqual([
      expect.stringMatching(/Hours: nothing on a line by hand.*; got 8\.$/),
      expect.stringMatching(/Kind: one of material, labor, equipment, subcontract, other; got "hire"\.$/),
    ])
  })
  it('untouched, nothing is taken for typed', async () => {
    const { kept } = await again(() => undefined)
    expect(kept).toEqual({ overrides: {}, added: [], figures: {}, inputs: [], crew: { cells: {}, added: [] }, problems: [] })
  })
  it('what is no amount is refused at its place, not dropped', async () => {
    const found = await refusals((cell) => {
      cell(names.takeoff, 'DIG', columns.yours).value = '500 yd3'
      cell(names.takeoff, 'HAUL', columns.yours).value = -2
      cell(names.takeoff, 'TIE-BOOT', columns.order).value = 9
    })
    expect(found).toEqual([
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Your quantity: a number, 0 to 1,000,000,000; got "500 yd3"\.$/),
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Your quantity: a number, 0 to 1,000,000,000; got -2\.$/),
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Order: its formula; own figures go into Your quantity and Unit price, \$; got 9\.$/),
    ])
  })
})

describe('lines of the estimator’s own on the takeoff sheet', () => {
  it('stay wherever they were put in: with an amount alone, without a unit, copied from ours', async () => {
    const { make } = await again((_, workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      const rowOf = (code: string) => sheet.getRows(1, sheet.rowCount)!.find((line) => line.getCell(columns.code).value === code)!.number
      const put = (cells: Partial<Record<keyof typeof columns, ExcelJS.CellValue>>) => {
        const at = rowOf('FENCE')
        sheet.insertRow(at, [])
        for (const [name, value] of Object.entries(cells)) sheet.getRow(at).getCell(columns[name as keyof typeof columns]).value = value as ExcelJS.CellValue
      }
      put({ description: 'Temporary gate', yours: 2, price: 450 })
      put({ description: 'Lump sum', amount: 750 })
      const ours = (name: 'waste' | 'lot' | 'order' | 'amount' | 'hours') =>
        ({ formula: { waste: 'INDEX(Items!A1,1)', lot: 'MAX(1)', order: 'ROUNDUP(1,0)', amount: 'ROUND(1,2)', hours: 'IF(1,1)' }[name], result: 1 }) as ExcelJS.CellFormulaValue
      put({
        code: 'FENCE2',
        description: 'Second fence',
        net: 1,
        yours: 100,
        unit: 'ft',
        price: 2,
        waste: ours('waste'),
        lot: ours('lot'),
        order: ours('order'),
        amount: ours('amount'),
        hours: ours('hours'),
      })
    })
    const plain = makeTakeoff(office, job)
    const made = make()
    expect(made.added.map(({ description, quantity, price }) => [description, quantity, price])).toEqual([
      ['Temporary gate', 2, 450],
      ['Lump sum', 1, 750],
      ['Second fence', 100, 2],
    ])
    expect(made.orderCost - plain.orderCost).toBeCloseTo(750 + 2 * 450 + 100 * 2, 9)
  })
  it('a worked-out cell typed over is named, once where the whole sheet was pasted as values', async () => {
    expect(await refusals((cell) => void (cell(names.takeoff, 'DIG', columns.waste).value = 0.2))).toEqual([
      expect.stringMatching(/row \d+, Waste: its formula; own figures go into/),
    ])
    const pasted = await refusals((_, workbook) =>
      workbook.getWorksheet(names.takeoff)!.eachRow((row) => row.eachCell((cell) => void (cell.value = cell.formula ? (cell.result as ExcelJS.CellValue) : cell.value))),
    )
    expect(pasted).toEqual([expect.stringMatching(/row \d+, Waste: formulas, as the takeoff was made; got values\.$/)])
  })
  it('rows and columns put in before them, and another order of columns, lose nothing', async () => {
    const typed = (cell: (sheet: string, code: string, column: number) => ExcelJS.Cell) => {
      cell(names.takeoff, 'DIG', columns.yours).value = 500
      cell(names.takeoff, 'VENT', columns.price).value = 41
    }
    const plain = await again(typed)
    expect(plain.kept.overrides).toMatchObject({ DIG: { quantity: 500 }, VENT: { price: 41 } })
    for (const move of [
      (sheet: ExcelJS.Worksheet) => void sheet.insertRow(1, []),
      (sheet: ExcelJS.Worksheet) => void sheet.insertRow(30, []),
      (sheet: ExcelJS.Worksheet) => void sheet.spliceColumns(2, 0, []),
      // The last of our columns cut and put in before the first.
      (sheet: ExcelJS.Worksheet) => {
        const why = sheet.getColumn(columns.why).values
        sheet.spliceColumns(columns.why, 1)
        sheet.spliceColumns(2, 0, why as ExcelJS.CellValue[])
      },
    ]) {
      const { kept } = await again((cell, workbook) => {
        typed(cell)
        move(workbook.getWorksheet(names.takeoff)!)
      })
      expect(kept.problems).toEqual([])
      // The other program forgets results of formulas whose rows it moves: the line in words is left aside.
      expect(kept.overrides).toMatchObject({ DIG: { quantity: 500 }, VENT: { price: 41 } })
      expect(Object.keys(kept.overrides)).toEqual(Object.keys(plain.kept.overrides))
      expect(kept.added).toEqual([])
    }
    expect(await refusals((_, workbook) => void workbook.getWorksheet(names.design)!.insertRow(1, []))).toEqual([])
  })
  it('a sheet whose headings are gone is refused, not read wrongly', async () => {
    expect(await refusals((_, workbook) => void (workbook.getWorksheet(names.takeoff)!.getCell(5, columns.price).value = 'Cost'))).toEqual([
      expect.stringMatching(/^Takeoff Wicket Mill, headings, Unit price, \$: headings in one row, as the sheet was made; got none of that name\.$/),
    ])
  })
})

describe('the crew sheet', () => {
  it('a test done again, a measure beside a step and a line of one’s own stay in words', async () => {
    const { kept } = await again((cell, workbook) => {
      cell(names.crew, 'B2', crewColumns.figure).value = '10.5 ft measured'
      cell(names.test, 'T1', testColumns.entries).value = 4
      cell(names.test, 'T1', testColumns.entries + 1).value = 3
      const sheet = workbook.getWorksheet(names.test)!
      const at = cell(names.test, 'T2', testColumns.code).row as unknown as number
      sheet.insertRow(Number(at), [])
      sheet.getRow(Number(at)).getCell(testColumns.code).value = 'T1'
      sheet.getRow(Number(at)).getCell(testColumns.entries).value = 4
      sheet.getRow(Number(at)).getCell(testColumns.entries + 1).value = 4
      sheet.getRow(Number(at)).getCell(testColumns.done).value = 'RV pass'
    })
    expect(kept.crew.cells).toEqual({ T1: { start_inHg: 4, end_inHg: 3 } })
    expect(kept.crew.added).toEqual([
      { text: 'B2, written over: 10.5 ft measured', done: '' },
      { text: 'T1 again: start 4 inHg; end 4 inHg', done: 'RV pass' },
    ])
  })
  it('entries stay whatever rows and columns were put in before them', async () => {
    const { kept } = await again((cell, workbook) => {
      cell(names.crew, 'A1', crewColumns.done).value = 'R. Voss'
      cell(names.test, 'X5', 8).value = 6.2
      cell(names.test, 'T3', testColumns.entries).value = 4
      for (const name of [names.crew, names.test]) {
        const sheet = workbook.getWorksheet(name)!
        sheet.spliceRows(2, 0, [], [])
        sheet.spliceColumns(3, 0, [])
      }
    })
    expect(kept.problems).toEqual([])
    expect(kept.crew.cells).toMatchObject({ A1: { done: 'R. Voss' }, X5: { reading: 6.2 }, T3: { start_inHg: 4 } })
  })
})

describe('saved by another program', () => {
  it.runIf(hasCalc)('a workbook that LibreOffice Calc saved again is made again without a word', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'kept-'))
    writeFileSync(join(folder, 'in.xlsx'), bytes)
    const saved = readFileSync(await convertWithCalc(join(folder, 'in.xlsx'), 'xlsx', join(folder, 'out')))
    const workbook = openWorkbook(saved, 'in.xlsx')
    rmSync(folder, { recursive: true, force: true })
    expect(keptFrom(names, (sheet) => readSheet(workbook, sheet))).toEqual(nothingKept)
  })
})

describe('the design sheet', () => {
  const typeCover: Parameters<typeof again>[0] = (cell) => void (cell(names.design, 'Cover_ft', designColumns.value).value = 4)
  it('an input typed over is asked into the row of Jobs, and accepted once it stands there', async () => {
    expect(await refusals(typeCover)).toEqual([expect.stringMatching(/^Design Wicket Mill, row \d+, Cover_ft: 3 as it was made, or the same in the row of Jobs; got 4\.$/)])
    const { make } = await again(typeCover, { ...job, cells: { ...job.cells, Cover_ft: 4 } })
    expect(make().design.number('Cover_ft')).toBe(4)
  })
  it('a worked-out result typed over is named', async () => {
    expect(await refusals((cell) => void (cell(names.design, 'PitDepth_ft', designColumns.value).value = 12))).toEqual([
      expect.stringMatching(/^Design Wicket Mill, row \d+, PitDepth_ft: its formula; filled cells are the inputs; got 12\.$/),
    ])
  })
  it('a house figure typed over is kept', async () => {
    const { make } = await again((cell) => void (cell(names.design, 'Truck_yd3', designColumns.value).value = 16))
    expect(make().design.number('Truck_yd3')).toBe(16)
    expect(make().design.number('Loads')).toBe(Math.ceil(make().design.number('SpoilLoose_yd3') / 16))
  })
})
