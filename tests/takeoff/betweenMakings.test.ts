/** The life of a job between its makings: lines and credits by hand, revisions and change orders, tests done again, orders of several jobs, papers alone. */
import { describe, expect, it } from 'vitest'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import { demoSource, makeTemplate, sourceOf } from '../../src/hosts/fileSession.js'
import { acceptance } from '../../src/plan/acceptance.js'
import { makingNotes } from '../../src/plan/makingNotes.js'
import { made, makeJobs, papersAlone } from '../support/makings.js'
import { jobSheetNames, jobSheets } from '../../src/plan/jobSheets.js'
import { OrderTogether } from '../../src/plan/orderTogether.js'
import { ORDER_TOGETHER } from '../../src/plan/togetherSheet.js'
import { standardPlaces } from '../../src/plan/places.js'
import { amended } from '../../src/plan/sheets/amendSheet.js'
import { takeoffColumns as columns } from '../../src/plan/sheets/takeoffColumns.js'
import { testColumns } from '../../src/plan/sheets/testDraft.js'
import { money } from '../../src/rounding.js'
import type { Change } from '../../src/takeoff/changes.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { problemText, ProblemsError } from '../../src/takeoff/fields.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { workJob } from '../../src/takeoff/takeoff.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import { problemsOf } from '../../src/takeoff/tableProblems.js'
import { demoRows, leastRow, officeWith, takeoffOf } from '../support/office.js'
import { inExceljs, savedBy } from '../support/xlsx.js'
import type ExcelJS from 'exceljs'

const job = 'Wicket Mill'
const names = jobSheetNames(job)
const template = makeTemplate(startingOffice(true), made)

/** Makes jobs of a workbook as the command does. */
const make = (bytes: Uint8Array, jobs: readonly string[] = [job], mayLose = false) => makeJobs(sourceOf(bytes, 'O.xlsx'), jobs, { mayLose })
async function typed(bytes: Uint8Array, type: (workbook: ExcelJS.Workbook) => void): Promise<Uint8Array> {
  const workbook = await inExceljs(bytes)
  type(workbook)
  return savedBy(workbook)
}
const rowWith = (sheet: ExcelJS.Worksheet, column: number, words: string): number =>
  sheet.getRows(1, sheet.rowCount)!.find((row) => String(row.getCell(column).value) === words)!.number
/** The first empty line below those of ours. */
const firstByHand = (workbook: ExcelJS.Workbook): ExcelJS.Row => {
  const sheet = workbook.getWorksheet(names.takeoff)!
  return sheet.getRow(rowWith(sheet, columns.code, 'ADDED BY HAND') + 1)
}
const wordsOn = (bytes: Uint8Array, sheet: string): string[] =>
  (readSheet(openWorkbook(bytes, 'x'), sheet) ?? []).flatMap((row) => row.map(({ value }) => String(value ?? ''))).filter(Boolean)

const first = await make(template)

describe('a line by hand', () => {
  const line = (cells: Partial<Record<'description' | 'unit' | 'yours' | 'price', string | number>>) =>
    typed(first.bytes, (workbook) => {
      const row = firstByHand(workbook)
      for (const [name, value] of Object.entries(cells)) row.getCell(columns[name as keyof typeof columns]).value = value
    })
  const problems = async (bytes: Uint8Array): Promise<string[]> => {
    try {
      await make(bytes)
    } catch (error) {
      if (error instanceof ProblemsError) return error.problems.map(problemText)
      throw error
    }
    return []
  }
  it('with a price and no quantity is one of it, where it is counted as a whole', async () => {
    const { takeoff } = await make(await line({ description: 'Tree removal', unit: 'job', price: 500 }))
    expect(takeoff.added).toMatchObject([{ description: 'Tree removal', quantity: 1, price: 500 }])
    expect(money(takeoff.orderCost - first.takeoff.orderCost)).toBe(500)
  })
  it('of feet without a quantity, or without a price, is named', async () => {
    expect(await problems(await line({ description: 'Silt fence', unit: 'ft', price: 3 }))).toEqual([
      expect.stringMatching(/^Takeoff Wicket Mill, row \d+, Your quantity: a quantity for "Silt fence"; 0 where it costs nothing; got nothing\.$/),
    ])
    expect(await problems(await line({ description: 'Silt fence', unit: 'ft', yours: 40 }))).toEqual([
      expect.stringMatching(/Unit price.*: a price for "Silt fence"; 0 where it costs nothing; got nothing\.$/),
    ])
    expect(await problems(await line({ description: 'Gate stays open', unit: '' }))).toEqual([])
  })
  it('with an amount that somebody worked out in the cell counts as that', async () => {
    const bytes = await typed(first.bytes, (workbook) => {
      const row = firstByHand(workbook)
      row.getCell(columns.description).value = 'Sum of mine'
      row.getCell(columns.amount).value = { formula: '1000+250', result: 1250 }
    })
    expect((await make(bytes)).takeoff.added).toMatchObject([{ description: 'Sum of mine', quantity: 1, price: 1250 }])
    const without = await typed(first.bytes, (workbook) => {
      const row = firstByHand(workbook)
      row.getCell(columns.description).value = 'Sum of mine'
      row.getCell(columns.amount).value = { formula: '1000+250' } as ExcelJS.CellFormulaValue
    })
    expect(await problems(without)).toEqual([expect.stringMatching(/a number; the formula was saved without its result; got =1000\+250\.$/)])
  })
  it('may be a credit; a line of ours may not', async () => {
    const { takeoff, bytes } = await make(await line({ description: 'Goodwill', unit: 'job', yours: 1, price: -750 }))
    expect(money(takeoff.orderCost - first.takeoff.orderCost)).toBe(-750)
    expect(wordsOn(bytes, names.quote)).toContain('Further work and credits')
    expect(wordsOn(bytes, names.order)).not.toContain('Goodwill')
    const ours = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      sheet.getRow(rowWith(sheet, columns.code, 'VENT')).getCell(columns.price).value = -5
    })
    expect(await problems(ours)).toEqual([expect.stringMatching(/a number, 0 to 1,000,000,000; got -5\.$/)])
  })
})

describe('revisions and change orders', () => {
  it('go on where somebody took the sheet Takeoff away, and what was typed on it is said to be missing', async () => {
    const again = await make(await typed(first.bytes, (workbook) => workbook.removeWorksheet(workbook.getWorksheet(names.takeoff)!.id)))
    // Nothing of the row changed: it is revision 1 still, and nothing is added to the changes a second time.
    expect(again.revision).toBe(1)
    expect(
      readSheet(openWorkbook(again.bytes, 'x'), names.changes)!
        .flatMap((row) => row.map(({ value }) => value))
        .filter((value) => value === again.takeoff.total),
    ).toHaveLength(
      readSheet(openWorkbook(first.bytes, 'x'), names.changes)!
        .flatMap((row) => row.map(({ value }) => value))
        .filter((value) => value === first.takeoff.total).length,
    )
    expect(makingNotes(again.takeoff, again.earlier, made)).toEqual([expect.stringContaining('sheet Takeoff was gone or had another name')])
  })
  it('words beside the entries of the test record are said to stand among those of the crew', async () => {
    const written = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.test)!
      const row = sheet.getRows(1, sheet.rowCount)!.find((known) => known.values && (known.values as unknown[]).includes('T1'))!
      row.getCell(testColumns.text + 12).value = 'gauge swapped'
    })
    const again = await make(written)
    expect(makingNotes(again.takeoff, again.earlier, made)).toEqual([expect.stringMatching(/sheet Test beside the entries, .* Crew now: T1, written over: gauge swapped/)])
    expect(wordsOn(again.bytes, names.crew).join(' ')).toContain('gauge swapped')
    const third = await make(again.bytes)
    expect(makingNotes(third.takeoff, third.earlier, made)).toEqual([])
  })
  it('made again without a change it is the revision that stands, and without a change order', async () => {
    const again = await make(first.bytes)
    expect(again.revision).toBe(1)
    expect(readSheet(openWorkbook(again.bytes, 'x'), names.amend)).toBeUndefined()
    expect((await make(again.bytes)).revision).toBe(1)
  })
  it('has each line at what it costs the customer, to the cent', () => {
    const change = (what: Change['what'], code: string, sum: number | null, more: Partial<Change> = {}): Change => ({
      what,
      code,
      words: code || what,
      from: null,
      to: null,
      money: sum,
      ...more,
    })
    // 100 and 50 of cost, at 1.20 to the customer; 30 beyond.
    const beyond = (sum: number) => change('overhead, markup and tax', '', sum)
    expect(amended([change('quantity', 'A', 100, { from: 2, to: 4 }), change('price', 'B', 50), beyond(30), change('verdict', '', null)], 1.2)).toEqual([
      { words: 'A', from: 2, to: 4, price: 120 },
      { words: 'B: its unit price', from: null, to: null, price: 60 },
    ])
    // Quantity and price of one line are one row; one that is gone stands so after, not before.
    expect(amended([change('quantity', 'A', 10, { from: 1, to: 2 }), change('price', 'A', 5), change('line gone', 'C', -20), beyond(-1)], 1.2)).toEqual([
      { words: 'A; of it by the unit price $6.00', from: 1, to: 2, price: 18 },
      { words: 'C', from: null, to: 'left out', price: -24 },
    ])
    // More in one line and less in another keep their own size.
    expect(amended([change('price', 'A', 1000), change('price', 'B', -900), beyond(20)], 1.2).map(({ price }) => price)).toEqual([1200, -1080])
    // Shares that moved while no line did have a line of their own.
    expect(amended([beyond(40)], 1.2)).toEqual([{ words: 'Overhead, profit and tax', from: null, to: null, price: 40 }])
    expect(amended([change('price', 'A', 100), beyond(120)], 1.2).map(({ price }) => price)).toEqual([120, 100])
    expect(amended([change('verdict', '', null)], 1.2)).toEqual([])
    // Thirds of a dollar: what rounding leaves stands in the last row.
    expect(amended([change('price', 'A', 1), change('price', 'B', 1), change('price', 'C', 1), beyond(1)], 4 / 3).map(({ price }) => price)).toEqual([1.33, 1.33, 1.34])
  })
  it('says what of the job is another one now, and nothing of the office’s own business', async () => {
    const second = await make(
      await typed(first.bytes, (workbook) => {
        const jobs = workbook.getWorksheet('Jobs')!
        const heads = jobs.getRow(5).values as unknown[]
        const row = (jobs.getColumn(2).values as unknown[]).indexOf('Wicket Mill')
        jobs.getCell(row, heads.indexOf('TankCount')).value = 4
        jobs.getCell(row, heads.indexOf('Markup')).value = 0.25
      }),
    )
    const said = wordsOn(second.bytes, names.amend).join('\n')
    expect(said).toMatch(/Tanks: 4, before 3/)
    expect(said).not.toContain('Markup:')
  })
  it('prices a line by what lies on its kind, and asks for nothing that was sized', async () => {
    const set = (table: string, row: number, cells: Readonly<Record<string, string | number>>) => (workbook: ExcelJS.Workbook) => {
      const sheet = workbook.getWorksheet(table)!
      const heads = sheet.getRow(5).values as unknown[]
      for (const [field, value] of Object.entries(cells)) sheet.getCell(row, heads.indexOf(field)).value = value
    }
    const byKind = await make(await typed(first.bytes, set('House', 6, { OverheadOn: 'material, labor', MarkupOn: 'labor, equipment, material', TaxOn: 'material' })))
    const row = byKind.source.raw.Jobs.rows.find(({ cells }) => cells.Job === 'Wicket Mill')!.row
    const without = await make(await typed(byKind.bytes, set('Jobs', row, { Without: 'ELECTRICIAN' })))
    const rows = readSheet(openWorkbook(without.bytes, 'x'), names.amend)!.map((cells) => cells.map(({ value }) => value))
    // Four hours of a licensed electrician at 98 $: a subcontract carries no overhead, no markup and no tax here.
    expect(rows.filter((cells) => cells.some((value) => /electrician/i.test(String(value ?? '')))).flat()).toContain(-392)
    expect(rows.flat().join()).not.toContain('Overhead, profit and tax')
    // Lines by hand by their kind too, with a code and without one.
    const share = (code: string) => byKind.takeoff.priceShare(code)
    const { design } = byKind.takeoff
    expect([share('ELECTRICIAN'), share('STONE-BED'), share('CRANE')]).toEqual([
      1,
      (1 + design.number('Overhead') + design.number('Markup')) * (1 + design.number('Tax')),
      1 + design.number('Markup'),
    ])
    // A longer line wants a larger pressure tank, which the tool sizes.
    const longer = await make(await typed(without.bytes, set('Jobs', row, { WaterLineRun_ft: 400, HouseFlow_gpm: 11 })))
    expect(longer.takeoff.design.number('PressureTank_gal')).not.toBe(without.takeoff.design.number('PressureTank_gal'))
    const asked = wordsOn(longer.bytes, names.amend).find((words) => words.includes('Water-line run'))
    expect(asked).toContain('400 ft, before 140 ft')
    expect(asked).not.toContain('Pressure tank')
  })
  it('says where no price was quoted before, and only there', async () => {
    const retyped = (bytes: Uint8Array, cells: Readonly<Record<string, number>>) =>
      typed(bytes, (workbook) => {
        const jobs = workbook.getWorksheet('Jobs')!
        const heads = jobs.getRow(5).values as unknown[]
        const row = (jobs.getColumn(2).values as unknown[]).indexOf('Wicket Mill')
        for (const [field, value] of Object.entries(cells)) jobs.getCell(row, heads.indexOf(field)).value = value
      })
    const said = (bytes: Uint8Array) => wordsOn(bytes, names.amend).join('\n')
    // Six feet of cover and 9 inHg, where the maker allows four of each: two stops.
    const stopped = await make(await retyped(first.bytes, { Cover_ft: 6, TestVacuum_inHg: 9 }))
    expect(said(stopped.bytes)).toMatch(/No price: a verdict says stop/)
    const half = await make(await retyped(stopped.bytes, { Cover_ft: 3 }))
    expect(said(half.bytes)).toMatch(/No price: a verdict says stop/)
    expect(said(half.bytes)).not.toContain('the whole price')
    const cured = await make(await retyped(half.bytes, { TestVacuum_inHg: 3, CableSlack_ft: 30 }))
    expect(said(cured.bytes)).toContain('Where nobody had answered for it no price was quoted, and what is agreed here is the whole price.')
    const later = await make(await retyped(cured.bytes, { CableSlack_ft: 40 }))
    expect(said(later.bytes)).not.toContain('the whole price')
  })
  it('begins at the price that the customer agreed to last, and a signature stays with its price', async () => {
    const written = (bytes: Uint8Array, sheet: string, code: string, words: string) =>
      typed(bytes, (workbook) => {
        const found = workbook.getWorksheet(sheet)!
        found.getRow(rowWith(found, 2, code)).getCell(4).value = words
      })
    const withVents = async (bytes: Uint8Array, vents: number) =>
      make(
        await typed(bytes, (workbook) => {
          const sheet = workbook.getWorksheet(names.takeoff)!
          sheet.getRow(rowWith(sheet, columns.code, 'VENT')).getCell(columns.yours).value = vents
        }),
      )
    const quoteRow = (bytes: Uint8Array, code: string) =>
      readSheet(openWorkbook(bytes, 'x'), names.quote)!
        .map((row) => row.map(({ value }) => value))
        .find((row) => row[1] === code)
    const price = (takeoff: { total: number }) => `$${takeoff.total.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 })}`
    const accepted = await written(first.bytes, names.quote, '6', 'A. Fernlow 2026-11-20')
    const second = await withVents(accepted, 9)
    // The name stays beside the sum that it stood beside; the new price has nobody's.
    expect(quoteRow(second.bytes, '6')?.slice(2, 4)).toEqual([`Accepted by, date, at ${price(second.takeoff)}`, null])
    expect(quoteRow(second.bytes, `6 at ${price(first.takeoff)}`)?.[3]).toBe('A. Fernlow 2026-11-20')
    expect(makingNotes(second.takeoff, second.earlier, { ...made, revision: 2 })).toContainEqual(expect.stringContaining(`the customer accepted ${price(first.takeoff)}`))
    expect(wordsOn(second.bytes, names.amend)).toContain('Change order, revision 2')
    // Before it is signed nothing of it is ordered; where nobody has agreed to anything, and where everything is agreed, nothing is said.
    const warned = (bytes: Uint8Array) => wordsOn(bytes, names.order).filter((words) => words.startsWith('The customer agreed to revision'))
    expect([warned(first.bytes), warned((await make(accepted)).bytes)]).toEqual([[], []])
    expect(warned(second.bytes)).toEqual([expect.stringMatching(/^The customer agreed to revision 1; .* nobody has signed it/)])
    const orders = new OrderTogether()
    orders.add(
      { takeoff: second.takeoff, earlier: second.earlier, made: { ...made, revision: 2 } },
      jobSheets(second.takeoff, standardPlaces(), 'native', made).find(({ kind }) => kind === 'takeoff')!,
    )
    expect(orders.sheet(made).cells.map(({ value }) => String(value ?? ''))).toContainEqual(expect.stringMatching(/nobody has signed, of .* \(agreed: revision 1\)/))
    // Nobody signed that change: the next one has it too, vents from what was agreed to what they are now.
    const third = await withVents(second.bytes, 12)
    const said = wordsOn(third.bytes, names.amend)
    expect(said).toContain('Change order, revisions 2 to 3')
    const vents = first.takeoff.lines.find(({ code }) => code === 'VENT')!
    expect(said).toEqual(expect.arrayContaining([String(vents.order), '12'].map((count) => expect.stringMatching(new RegExp(`^${count} `)))))
    expect(said).toContain(String(first.takeoff.total))
    expect(said).toContain(String(money(third.takeoff.total - first.takeoff.total)))
    expect(makingNotes(third.takeoff, third.earlier, { ...made, revision: 3 }).join()).not.toContain('accepted')
    // Signed, it is where the next one begins.
    const signed = await written(third.bytes, names.amend, 'agree', 'A. Fernlow 2026-12-01')
    expect([warned(third.bytes), warned((await make(signed)).bytes)]).toEqual([[expect.any(String)], []])
    const fourth = await withVents(signed, 13)
    expect(wordsOn(fourth.bytes, names.amend)).toContain('Change order, revision 4')
    expect(wordsOn(fourth.bytes, names.amend)).toContain(String(third.takeoff.total))
    expect(wordsOn(fourth.bytes, names.changes)).toContain('Agreed by the customer: A. Fernlow 2026-12-01')
    // Back at the first price, its acceptance counts again; what was accepted last is kept at its own.
    const back = await withVents(await written(fourth.bytes, names.quote, '6', 'B. Fernlow 2026-12-09'), vents.order)
    expect(back.takeoff.total).toBe(first.takeoff.total)
    expect(quoteRow(back.bytes, '6')?.[3]).toBe('A. Fernlow 2026-11-20')
    expect(quoteRow(back.bytes, `6 at ${price(first.takeoff)}`)).toBeUndefined()
    expect(quoteRow(back.bytes, `6 at ${price(fourth.takeoff)}`)?.[3]).toBe('B. Fernlow 2026-12-09')
    // No name goes where two stand at one sum.
    const { crew } = back.takeoff
    const twice = acceptance({ ...back.takeoff, crew: { ...crew, cells: { 'Q 6': { done: 'B', stands: 'no price' }, 'Q 6 at no price': { done: 'A' } } } }, undefined)
    expect(twice).toMatchObject({ done: undefined, earlier: [{ code: '6 at no price', done: 'A; B' }] })
  })
  it('names an own quantity whose layout has moved under it, once', async () => {
    const own = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      sheet.getRow(rowWith(sheet, columns.code, 'FENCE')).getCell(columns.yours).value = 130
    })
    const notesOf = async (bytes: Uint8Array) => {
      const next = await make(bytes)
      return { next, said: makingNotes(next.takeoff, next.earlier, { ...made, revision: 3 }).filter((note) => note.includes('own quantity')) }
    }
    const typedOnce = await notesOf(own)
    expect(typedOnce.said).toEqual([])
    const fence = (takeoff: { lines: readonly { code: string; net: number }[] }) => takeoff.lines.find(({ code }) => code === 'FENCE')!.net
    const wider = await notesOf(
      await typed(typedOnce.next.bytes, (workbook) => {
        const jobs = workbook.getWorksheet('Jobs')!
        const heading = (jobs.getRow(5).values as unknown[]).indexOf('TankCount')
        jobs.eachRow((row) => row.getCell(2).value === typedOnce.next.takeoff.design.name && (row.getCell(heading).value = 5))
      }),
    )
    expect(fence(wider.next.takeoff)).toBeGreaterThan(fence(typedOnce.next.takeoff))
    expect(wider.said).toEqual([expect.stringMatching(/FENCE 130 ft, where the layout came to [\d.]+ and comes to [\d.]+ now/)])
    expect((await notesOf(wider.next.bytes)).said).toEqual([])
  })
  it('of a revision that follows one nobody agreed to here says where it begins', async () => {
    const withVents = async (bytes: Uint8Array, vents: number) =>
      make(
        await typed(bytes, (workbook) => {
          const sheet = workbook.getWorksheet(names.takeoff)!
          sheet.getRow(rowWith(sheet, columns.code, 'VENT')).getCell(columns.yours).value = vents
        }),
      )
    const third = await withVents((await withVents(first.bytes, 9)).bytes, 12)
    expect(wordsOn(third.bytes, names.amend)).toEqual(
      expect.arrayContaining(['Change order, revision 3', 'It counts from revision 2: what earlier ones changed stands on their own change orders.']),
    )
  })
  it('counts a line over several revisions from its first to its last', () => {
    const change = (what: Change['what'], code: string, sum: number, more: Partial<Change> = {}): Change => ({ what, code, words: code, from: null, to: null, money: sum, ...more })
    expect(
      amended(
        [
          change('quantity', 'A', 10, { from: 1, to: 2 }),
          change('line added', 'B', 40),
          change('line gone', 'C', -30),
          change('quantity', 'A', 20, { from: 2, to: 4 }),
          change('quantity', 'B', 40, { from: 1, to: 2 }),
          change('quantity', 'D', 5, { from: 1, to: 2 }),
          change('line gone', 'D', -10),
        ],
        1,
      ),
    ).toEqual([
      { words: 'A', from: 1, to: 4, price: 30 },
      { words: 'B', from: null, to: 'added', price: 80 },
      { words: 'C', from: null, to: 'left out', price: -30 },
      { words: 'D', from: null, to: 'left out', price: -5 },
    ])
  })
  it('shows the customer the sum before, the change and the sum now, and no cost', async () => {
    const second = await make(
      await typed(first.bytes, (workbook) => {
        const sheet = workbook.getWorksheet(names.takeoff)!
        sheet.getRow(rowWith(sheet, columns.code, 'VENT')).getCell(columns.yours).value = 9
      }),
    )
    expect(second.revision).toBe(2)
    const rows = readSheet(openWorkbook(second.bytes, 'x'), names.amend)!
    const figure = (label: string) =>
      Number(
        rows
          .find((row) => row.some(({ value }) => value === label))!
          .filter(({ value }) => typeof value === 'number')
          .at(-1)!.value,
      )
    expect(figure('Price before')).toBe(first.takeoff.total)
    expect(figure('Price now, tax in it')).toBe(second.takeoff.total)
    expect(money(figure('Price before') + figure('This change'))).toBe(second.takeoff.total)
    // A vent costs what the list says; the customer sees it with overhead and profit.
    const vent = second.takeoff.lines.find(({ code }) => code === 'VENT')!
    const before = first.takeoff.lines.find(({ code }) => code === 'VENT')!
    expect(figure(vent.description)).toBeGreaterThan(money(vent.amount - before.amount))
    // Signed, made again without a change: the name stays; changed again, it stands with its revision in Changes.
    const signed = await typed(second.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.amend)!
      sheet.getRow(rowWith(sheet, 2, 'agree')).getCell(4).value = 'M. Hale, 11/27'
    })
    const same = await make(signed)
    expect([same.revision, wordsOn(same.bytes, names.amend).includes('M. Hale, 11/27')]).toEqual([2, true])
    const third = await make(
      await typed(same.bytes, (workbook) => {
        const sheet = workbook.getWorksheet(names.takeoff)!
        sheet.getRow(rowWith(sheet, columns.code, 'VENT')).getCell(columns.yours).value = 5
      }),
    )
    expect(third.revision).toBe(3)
    expect(wordsOn(third.bytes, names.amend)).not.toContain('M. Hale, 11/27')
    expect(wordsOn(third.bytes, names.changes)).toContain('Agreed by the customer: M. Hale, 11/27')
    expect(wordsOn((await make(third.bytes)).bytes, names.changes)).toContain('Agreed by the customer: M. Hale, 11/27')
  })
  it('signed and changed at once, the name goes to Changes and nothing is refused', async () => {
    const vents =
      (count: number, sign = '') =>
      (workbook: ExcelJS.Workbook) => {
        const sheet = workbook.getWorksheet(names.takeoff)!
        sheet.getRow(rowWith(sheet, columns.code, 'VENT')).getCell(columns.yours).value = count
        if (!sign) return
        const amend = workbook.getWorksheet(names.amend)!
        amend.getRow(rowWith(amend, 2, 'agree')).getCell(4).value = sign
      }
    const second = await make(await typed(first.bytes, vents(9)))
    const third = await make(await typed(second.bytes, vents(5, 'K. Doe, 5/3')))
    expect(third.revision).toBe(3)
    expect(wordsOn(third.bytes, names.changes)).toContain('Agreed by the customer: K. Doe, 5/3')
    // What was agreed before stays as it was, whatever is typed now.
    const before = readSheet(openWorkbook(third.bytes, 'x'), names.amend)!
      .flat()
      .filter(({ formula }) => formula?.includes('Takeoff'))
    expect(before).toEqual([])
  })
  it('alone it is refused where nothing was changed', async () => {
    await expect(papersAlone(first.source, [job], ['amend'])).rejects.toThrow(/Wicket Mill: there is no change order/)
  })
})

describe('the test record', () => {
  const again = (workbook: ExcelJS.Workbook) => {
    const sheet = workbook.getWorksheet(names.test)!
    const row = sheet.getRow(rowWith(sheet, testColumns.code, 'R1'))
    row.getCell(testColumns.text).value = 'T2, boot renewed'
    for (const [at, value] of [4, 4, 5].entries()) row.getCell(testColumns.entries + at).value = value
    row.getCell(testColumns.done).value = 'R. Voss'
  }
  it('has lines for a test done again, judged and kept', async () => {
    const second = await make(await typed(first.bytes, again))
    const row = readSheet(openWorkbook(second.bytes, 'x'), names.test)!.find((cells) => cells[testColumns.code - 1]?.value === 'R1')!
    expect(row.map(({ value }) => value)).toEqual(expect.arrayContaining(['T2, boot renewed', 4, 5, 'pass', 'R. Voss']))
    // A line more than is written stands ready.
    expect(wordsOn(second.bytes, names.test)).toContain('R3')
    expect(wordsOn(await papersAlone(second.source, [job], ['test']), names.test)).toContain('T2, boot renewed')
  })
  it.each([
    ['T1', testColumns.entries, 400, /Test Wicket Mill, row \d+, Start, inHg: 0 to \d+ inHg; got T1 400/],
    ['T2', testColumns.entries + 3, 900, /Test Wicket Mill, row \d+, Air, start, °F: -?\d+ to \d+ °F; got T2 900/],
    ['R1', testColumns.entries + 1, -4, /Test Wicket Mill, row \d+, End, inHg: 0 to \d+ inHg; got R1 -4/],
    ['X6', 8, 900, /Test Wicket Mill, row \d+, Read: 0 to 200 psi; got X6 900/],
  ])('a reading of %s that no gauge shows is refused in words', async (code, column, value, words) => {
    const bytes = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.test)!
      sheet.getRow(rowWith(sheet, testColumns.code, code)).getCell(column).value = value
    })
    for (const flavor of ['native', 'cells'] as const) await expect(makeJobs(sourceOf(bytes, 'OWN.xlsx'), [job], { flavor })).rejects.toThrow(words)
  })
  it('a reading at the end of its span stands', async () => {
    const bytes = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.test)!
      const put = (code: string, column: number, value: number) => (sheet.getRow(rowWith(sheet, testColumns.code, code)).getCell(column).value = value)
      put('T1', testColumns.entries + 1, 0)
      put('T1', testColumns.entries + 2, 1440)
      put('X6', 8, 200)
      put('X7', 8, 0)
    })
    await expect(make(bytes)).resolves.toBeDefined()
  })
  it('takes its lines as they are numbered, and no more', async () => {
    const numbered = (code: string) =>
      typed(first.bytes, (workbook) => {
        const sheet = workbook.getWorksheet(names.test)!
        const row = sheet.getRow(rowWith(sheet, testColumns.code, 'R1'))
        row.getCell(testColumns.code).value = code
        row.getCell(testColumns.entries).value = 4
      })
    const codes = async (bytes: Uint8Array) => wordsOn((await make(bytes)).bytes, names.test).filter((words) => /^R\d+$/.test(words))
    expect(await codes(await numbered('R40'))).toEqual(['R1', 'R2', 'R40'])
    // Such a code is none of ours: what stands there comes along among what was written by hand.
    expect(wordsOn((await make(await numbered('R2026'))).bytes, names.crew).join('\n')).toMatch(/R2026.*4/)
  })
  it('alone it drops no words in silence', async () => {
    const bytes = await typed(first.bytes, (workbook) => {
      workbook.getWorksheet(names.quote)!.getCell('F9').value = 'Start of work: 3 March'
    })
    const source = sourceOf(bytes, 'O.xlsx')
    await expect(papersAlone(source, [job], ['quote'])).rejects.toThrow(/Quote Wicket Mill!F9 \("Start of work: 3 March"\)/)
    await expect(papersAlone(source, [job], ['test'])).resolves.toBeDefined()
    await expect(papersAlone(source, [job], ['quote'], true)).resolves.toBeDefined()
  })
})

/** The job with a longer line: another one than it was made as. */
const withLongerLine = (workbook: ExcelJS.Workbook): void => {
  const jobs = workbook.getWorksheet('Jobs')!
  const column = (jobs.getRow(5).values as unknown[]).indexOf('WaterLineRun_ft')
  const row = (jobs.getColumn(2).values as unknown[]).indexOf('Wicket Mill')
  jobs.getCell(row, column).value = 190
}
describe('an order of several jobs', () => {
  it('says that it is out of date when one of them was made by itself', async () => {
    const both = await make(template, ['Wicket Mill', 'Ember Yard'])
    expect(wordsOn(both.bytes, ORDER_TOGETHER)).toContain('Order of 2 jobs')
    // Made by itself as it was, it leaves the order what it is.
    const same = await make(both.bytes)
    expect(same.notes.join()).not.toContain('out of date')
    expect(wordsOn(same.bytes, ORDER_TOGETHER)).toContain('Order of 2 jobs')
    const one = await make(await typed(both.bytes, withLongerLine))
    expect(one.notes).toContain('Order together is out of date now: make its jobs in one go for a new one.')
    expect(wordsOn(one.bytes, ORDER_TOGETHER)[0]).toBe('Order together: out of date')
    expect(wordsOn((await make(one.bytes, ['Wicket Mill', 'Ember Yard'])).bytes, ORDER_TOGETHER)).toContain('Order of 2 jobs')
  })
  it('drops no note beside it in silence', async () => {
    const both = await make(template, ['Wicket Mill', 'Ember Yard'])
    const noted = await typed(both.bytes, (workbook) => {
      workbook.getWorksheet(ORDER_TOGETHER)!.getCell('L8').value = 'ring Bob'
      withLongerLine(workbook)
    })
    await expect(make(noted)).rejects.toThrow(/Order together!L8 \("ring Bob"\)/)
  })
  it('nor words or figures typed over it, made together or alone', async () => {
    const both = await make(template, ['Wicket Mill', 'Ember Yard'])
    // Made again as it is, nothing of its own is taken for somebody's.
    await expect(make(both.bytes, ['Wicket Mill', 'Ember Yard'])).resolves.toBeDefined()
    const noted = await typed(both.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(ORDER_TOGETHER)!
      sheet.getCell('C9').value = 'PO 4471, called in'
      sheet.getCell('E9').value = 60
      withLongerLine(workbook)
    })
    for (const jobs of [['Wicket Mill', 'Ember Yard'], ['Wicket Mill']])
      await expect(make(noted, jobs)).rejects.toThrow(/Order together!C9 \("PO 4471, called in"\).*Order together!E9 \("60"\)/)
  })
})

describe('a sheet of the office’s own that points to ours', () => {
  it('is worked out anew by whatever opens the file, and others keep their results', async () => {
    const bytes = await typed(first.bytes, (workbook) => {
      const own = workbook.addWorksheet('Mine')
      own.getCell('A1').value = { formula: 'Wicket_Mill.Total', result: 1 }
      own.getCell('A2').value = { formula: 'A1*0.3', result: 0.3 }
    })
    const rows = readSheet(openWorkbook((await make(bytes)).bytes, 'x'), 'Mine')!
    expect([rows[0]![0], rows[1]![0]]).toEqual([
      { value: null, formula: 'Wicket_Mill.Total' },
      { value: null, formula: 'A1*0.3' },
    ])
    const apart = await typed(first.bytes, (workbook) => {
      workbook.addWorksheet('Mine').getCell('A1').value = { formula: '2+3', result: 5 }
    })
    expect(readSheet(openWorkbook((await make(apart)).bytes, 'x'), 'Mine')![0]![0]).toMatchObject({ value: 5 })
  })
})

describe('sheets of a job that stands on Jobs no more', () => {
  it('keep what their formulas came to', async () => {
    const both = await make(template, ['Wicket Mill', 'Fernlow 12'])
    const renamed = await typed(both.bytes, (workbook) => {
      const jobs = workbook.getWorksheet('Jobs')!
      jobs.getRow(rowWith(jobs, 2, 'Wicket Mill')).getCell(2).value = 'Elsewhere'
      workbook.addWorksheet('Mine').getCell('A1').value = { formula: 'Fernlow_12.Total', result: 1 }
    })
    const next = openWorkbook((await make(renamed, ['Fernlow 12'])).bytes, 'x')
    expect(readSheet(next, 'Mine')![0]![0]!.value).toBeNull()
    const results = readSheet(next, names.takeoff)!
      .flat()
      .filter(({ formula }) => formula !== undefined)
    expect(results.length).toBeGreaterThan(300)
    expect(results.filter(({ value }) => value !== null).length).toBeGreaterThan(300)
  })
})

describe('rows of Items that changed', () => {
  const items = (change: (cells: Record<string, unknown>) => Record<string, unknown>) => ({ Items: demoRows('Items').map((cells) => change({ ...cells })) })
  it('a quantity typed in another unit is asked for anew', () => {
    const office = readOffice(officeWith({}))
    const row = rowNamed(office, 'Jobs', job)!
    const line = { code: 'PVC-CEMENT', description: '', unit: 'joint', quantity: 80, price: null, why: '' }
    const { problems } = workJob(office, row, { ...nothingKept, overrides: { 'PVC-CEMENT': { quantity: 80, line } } })
    expect(problems.map(problemText)).toEqual([expect.stringMatching(/Unit: joint, as what you typed for PVC-CEMENT on the takeoff is counted; clear it there, .*; got "set"/)])
    expect(workJob(office, row, { ...nothingKept, overrides: { 'PVC-CEMENT': { quantity: 2, line: { ...line, unit: 'set' } } } }).problems).toEqual([])
  })
  it('two lines of one code are named', () => {
    const twice = items((cells) => (cells.Code === 'SIGN' ? { ...cells, Code: 'VENT{PortSuffix}' } : cells))
    expect(() => takeoffOf({ ...leastRow, TankCount: 2 }, twice)).toThrow(
      /Items, row \d+, Code: a code that no other line of the job has; row \d+ gives it too \(job Least\); got "VENT"/,
    )
  })
})

describe('what is offered', () => {
  it('names nothing that the job leaves out', async () => {
    const words = async (Without: string) =>
      wordsOn(await papersAlone(demoSource(officeWith({ Jobs: [{ ...leastRow, TankCount: 2, Without }] })), ['Least'], ['quote']), 'Quote Least').join('\n')
    const all = await words('')
    expect(all).toMatch(/A submersible pump for [\d.]+ gpm at [\d.]+ psi with pressure tank/)
    expect(all).toMatch(/Every tank tested under a vacuum/)
    // Each thing is offered once.
    expect(all.match(/of buried water line/g)).toHaveLength(1)
    expect(all.match(/under a vacuum of/g)).toHaveLength(1)
    const without = await words('PUMP, PRESSURE-TANK, VACUUM')
    expect(without).not.toMatch(/submersible pump for|tested under a vacuum/)
    expect(without).toMatch(/of buried water line and .* of power feed/)
  })
})

describe('a heading under another name', () => {
  /** A name in the trade's own words, at the place of ours. */
  it.each([
    ['Tax', 'Sales tax rate'],
    ['Overhead', 'OH'],
    ['Markup', 'Profit'],
    ['TankCount', 'Number of cisterns'],
    ['Cover_ft', 'Burial depth'],
    ['GroundwaterDepth_ft', 'Water table, ft'],
  ])('%s as "%s" is asked about', (ours, theirs) => {
    const raw = startingOffice(true)
    const rename = (name: string) => (name === ours ? theirs : name)
    const Jobs = {
      ...raw.Jobs,
      columns: raw.Jobs.columns.map(rename),
      rows: raw.Jobs.rows.map(({ row, cells }) => ({
        row,
        cells: { ...Object.fromEntries(Object.entries(cells).map(([name, value]) => [rename(name), value])), [theirs]: cells[ours] ?? (ours === 'TankCount' ? 2 : 0.05) },
      })),
    }
    const office = readOffice({ ...raw, Jobs })
    expect(problemsOf(office, office.tables.Jobs[0]!).map(({ renamed }) => renamed?.field)).toContain(ours)
  })
  it('a column of the office’s own at the end is nobody’s question', () => {
    const Jobs = demoRows('Jobs').map((cells) => ({ ...cells, DepositShare: 0.3 }))
    const raw = officeWith({ Jobs })
    const office = readOffice({ ...raw, Jobs: { ...raw.Jobs, columns: [...raw.Jobs.columns, 'DepositShare'] } })
    expect(problemsOf(office, office.tables.Jobs[0]!)).toEqual([])
  })
})

describe('what the papers say of a change', () => {
  /** Two columns of Jobs changed a week later. */
  const changed = async () => {
    const bytes = await typed(first.bytes, (workbook) => {
      const jobs = workbook.getWorksheet('Jobs')!
      const row = jobs.getRow(rowWith(jobs, 2, job))
      const heading = jobs.getRow(5).values as unknown[]
      row.getCell(heading.indexOf('Cover_ft')).value = 3.5
      row.getCell(heading.indexOf('WaterLineRun_ft')).value = 200
    })
    return await make(bytes)
  }
  it('the Changes name the columns that moved, from what to what', async () => {
    const { bytes } = await changed()
    const rows = readSheet(openWorkbook(bytes, 'x'), names.changes)!.map((row) => row.map(({ value }) => String(value ?? '')))
    const fields = rows.filter((row) => row.includes('field'))
    expect(fields.map((row) => row.filter(Boolean).slice(3, 6))).toEqual([
      ['Water-line run (WaterLineRun_ft)', '140', '200'],
      ['Cover (Cover_ft)', '3', '3.5'],
    ])
    // Made again without a change, the revision stands.
    expect((await make(bytes)).revision).toBe(2)
  })
  it('the customer reads units, and no hours of the crew', async () => {
    const { bytes } = await changed()
    const words = wordsOn(bytes, names.amend)
    expect(words).toContain('Labor and machines of these changes')
    expect(words.some((text) => /^(?:Hours of people|Excavator with operator)/.test(text))).toBe(false)
    // 140 + 2 + 3 ft with 2 % waste are two hundreds, 200 + 5 are three.
    expect(words).toEqual(expect.arrayContaining(['200 ft', '300 ft']))
  })
  it('an order says where to and by when, and keeps what was written', async () => {
    const bytes = await typed(first.bytes, (workbook) => {
      const order = workbook.getWorksheet(names.order)!
      order.getRow(rowWith(order, 2, 'NEEDED-BY')).getCell(6).value = '2026-12-07'
    })
    const again = await make(bytes)
    expect(wordsOn(again.bytes, names.order)).toEqual(expect.arrayContaining(['Deliver to: Wicket Mill workshop', '2026-12-07']))
  })
})

describe('a quote of a job that nobody measured', () => {
  it('says it in one sentence, and tells the customer to find nothing out', () => {
    const takeoff = takeoffOf({ ...leastRow, TankCount: 2 })
    const plan = jobSheets(takeoff, standardPlaces(), 'native', made).find(({ kind }) => kind === 'quote')!
    const words = plan.cells.map(({ value }) => String(value ?? ''))
    expect(words.join('\n')).not.toContain('find it out')
    const [sentence, ...others] = words.filter((text) => text.startsWith('Not measured yet, and taken as is usual: '))
    expect(others).toEqual([])
    for (const field of ['rise to the house', 'groundwater depth', 'nearest footing', 'frost depth', 'soil class']) expect(sentence).toContain(field)
    expect(sentence).toMatch(/; price and work follow what is found\.$/)
  })
})

describe('a quantity that is laid out', () => {
  it.each([
    ['TANK', 5, 3],
    ['PUMP', 2, 1],
  ])('%s: %d typed on the takeoff is refused, for pit, crew and quote are of %d', async (code, typedCount, count) => {
    const bytes = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      sheet.getRow(rowWith(sheet, columns.code, code)).getCell(columns.yours).value = typedCount
    })
    await expect(make(bytes)).rejects.toThrow(
      new RegExp(`Quantity: ${count}, as they are laid out; on the takeoff the quantity typed for ${code} is another one\\..*; got ${typedCount}\\.`),
    )
    const same = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      sheet.getRow(rowWith(sheet, columns.code, code)).getCell(columns.yours).value = count
    })
    expect((await make(same)).takeoff.total).toBe(first.takeoff.total)
  })
})

describe('a reading in words', () => {
  const withReading = (code: string, column: number, value: string | number) =>
    typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.test)!
      sheet.getRow(rowWith(sheet, testColumns.code, code)).getCell(column).value = value
    })
  const start = testColumns.entries
  it('of another unit is refused, as one out of its span', async () => {
    await expect(make(await withReading('T3', start, '4 psi'))).rejects.toThrow(/Test Wicket Mill, row \d+, Start, inHg: 0 to \d+ inHg; got T3 4 psi\./)
    await expect(make(await withReading('T3', start + 2, '5 min'))).rejects.toThrow(/Watched, min: 0 to 1440 min; got T3 5 min\./)
    await expect(make(await withReading('X2', 8, '3 bar'))).rejects.toThrow(/Read: 0 to 500 psi; got X2 3 bar\./)
    await expect(make(await withReading('T3', start, 40))).rejects.toThrow(/got T3 40\./)
  })
  it('that is a plain number is one; a remark stays one', async () => {
    expect((await make(await withReading('T3', start, ' 4.1 '))).takeoff.crew.cells.T3).toEqual({ start_inHg: 4.1 })
    expect((await make(await withReading('T3', start, 'gauge broken'))).takeoff.crew.cells.T3).toEqual({ start_inHg: 'gauge broken' })
    // The number of a gauge is a name.
    expect((await make(await withReading('X1', 8, 'G 77'))).takeoff.crew.cells.X1).toEqual({ reading: 'G 77' })
  })
})

describe('what a job leaves out', () => {
  it('is said where steps and the owner’s paper name it', () => {
    const said = (CrewLanguage: string) => {
      const takeoff = takeoffOf({ ...demoRows('Jobs')[3]!, Without: 'SIGN', CrewLanguage })
      return jobSheets(takeoff, standardPlaces(), 'native', made).flatMap(({ kind, cells }) =>
        kind === 'crew' || kind === 'handover' ? cells.map(({ value }) => String(value ?? '')) : [],
      )
    }
    expect(said('English').filter((words) => words.startsWith('Not of this job, set by others: '))).toHaveLength(2)
    expect(said('English').join()).not.toContain('lo ponen otros')
    expect(said('English and Spanish').join()).toContain('No es de este trabajo, lo ponen otros: ')
  })
})

describe('what was taken off or has no line any more', () => {
  it('a row that somebody deleted is named where it comes back', async () => {
    const bytes = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.takeoff)!
      const row = sheet.getRow(rowWith(sheet, columns.code, 'FENCE'))
      for (const cell of Object.values(columns)) row.getCell(cell).value = null
    })
    const { takeoff, earlier } = await make(bytes)
    expect(makingNotes(takeoff, earlier, made)).toEqual(['Wicket Mill: FENCE: taken off its takeoff by hand, and there again; the column Without of Jobs leaves an item out'])
    expect(makingNotes((await make(first.bytes)).takeoff, (await make(first.bytes)).earlier, made)).toEqual([])
  })
  it('readings of tanks that are no more come along on the sheet Crew, are said, and refuse nothing', async () => {
    const bytes = await typed(first.bytes, (workbook) => {
      const sheet = workbook.getWorksheet(names.test)!
      const row = sheet.getRow(rowWith(sheet, testColumns.code, 'T3'))
      row.getCell(testColumns.entries).value = 4.1
      const jobs = workbook.getWorksheet('Jobs')!
      const rows = jobs.getRows(1, jobs.rowCount)!.map((line) => ({ line, values: line.values as unknown[] }))
      const column = rows.find(({ values }) => values.includes('TankCount'))!.values.indexOf('TankCount')
      rows.find(({ values }) => values.includes(job))!.line.getCell(column).value = 1
    })
    const { takeoff, earlier, bytes: after } = await make(bytes)
    expect(makingNotes(takeoff, earlier, made)).toEqual([
      expect.stringMatching(/^Wicket Mill: what was written for T3 has no line of its own any more and stands among what was written by hand/),
    ])
    expect(wordsOn(after, names.crew).join('\n')).toMatch(/T3, written earlier[^]*4\.1/)
  })
})
