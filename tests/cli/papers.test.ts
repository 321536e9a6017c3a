/** Papers handed out alone, the care plan as a calendar, and the orders of several jobs together, through the commands. */
import { existsSync, mkdtempSync, readFileSync } from 'node:fs'
import { spawn } from 'node:child_process'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { papersAlone } from '../support/makings.js'
import { demoSource } from '../../src/hosts/fileSession.js'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import type { SheetPlan } from '../../src/plan/plan.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { makeTakeoff, type Takeoff } from '../../src/takeoff/takeoff.js'
import { nothingEarlier } from '../../src/plan/earlier.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import { orderQuantity } from '../../src/calc/index.js'
import { compareWithCalc } from '../support/recalculate.js'
import { hasCalc } from '../support/calc.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { cutStock } from '../../src/takeoff/cutStock.js'
import { OrderTogether } from '../../src/plan/orderTogether.js'
import { together } from '../../src/plan/pooledLines.js'
import { ORDER_TOGETHER } from '../../src/plan/togetherSheet.js'
import { standardPlaces } from '../../src/plan/places.js'
import { officeSheets } from '../../src/plan/officeSheets.js'
import { tablesSheet } from '../../src/plan/tablesSheet.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { demoRows, demoTakeoff, takeoffOf } from '../support/office.js'

const folder = mkdtempSync(join(tmpdir(), 'papers-'))
const at = (name: string) => join(folder, name)
const made = { date: '2026-11-25', revision: 1, version: 'test' }
function run(...args: string[]): Promise<{ out: string; err: string; code: number }> {
  return new Promise((settle) => {
    const child = spawn('node', ['scripts/cli.mjs', 'takeoff', ...args])
    let [out, err] = ['', '']
    child.stdout.on('data', (part: Buffer) => (out += part.toString()))
    child.stderr.on('data', (part: Buffer) => (err += part.toString()))
    child.on('close', (code) => settle({ out, err, code: code ?? 1 }))
  })
}

describe('a paper alone', () => {
  it('is values and nothing behind them: no cost, no formula, no other sheet', async () => {
    expect((await run('--job', 'Wicket Mill', '--quote', '--out', at('q.xlsx'))).code).toBe(0)
    const workbook = openWorkbook(readFileSync(at('q.xlsx')), 'q')
    expect(workbook.book.sheets.map(({ name }) => name)).toEqual(['Quote Wicket Mill'])
    const rows = readSheet(workbook, 'Quote Wicket Mill')!
    expect(rows.flat().some(({ formula }) => formula !== undefined)).toBe(false)
    expect(rows.flat().map(({ value }) => String(value ?? ''))).toContain('Underbrook Cistern Setters')
    expect(rows.flat().some(({ value }) => /order cost|markup|overhead|hours/i.test(String(value ?? '')))).toBe(false)
  })
  it('is written over nothing, and no calendar is made of two jobs', async () => {
    expect((await run('--job', 'Wicket Mill', '--record', '--out', at('q.xlsx'))).err).toMatch(/it exists and stays as it is/)
    expect((await run('--calendar', at('c.ics'))).err).toMatch(/--calendar: the plan of one job/)
    expect((await run('--job', 'Wicket Mill', '--calendar', at('c.txt'))).err).toMatch(/a name that ends in \.ics; got/)
    expect(existsSync(at('c.ics'))).toBe(false)
  })
})

describe('the care plan as a calendar', () => {
  it('is one as RFC 5545 has it: lines of 75 octets at most ended by CR LF, an entry a task with its months', async () => {
    expect((await run('--job', 'Wicket Mill', '--calendar', at('c.ics'))).code).toBe(0)
    const text = readFileSync(at('c.ics'), 'utf8')
    expect(text.startsWith('BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:')).toBe(true)
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true)
    expect(text.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/)
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
    const unfolded = text.replace(/\r\n /g, '')
    const events = unfolded.split('BEGIN:VEVENT').slice(1)
    expect(events.length).toBeGreaterThan(5)
    for (const event of events) {
      expect(event).toMatch(/UID:\S+\r\nDTSTAMP:\d{8}T\d{6}Z\r\nDTSTART;VALUE=DATE:\d{4}(\d{2})01\r\nRRULE:FREQ=YEARLY;BYMONTH=[\d,]+;BYMONTHDAY=1\r\nSUMMARY:/)
      // RFC 5545, 3.8.5.3: the first day is the first of those that the rule gives.
      const [, month] = /DATE:\d{4}(\d{2})01/.exec(event)!
      expect(/BYMONTH=([\d,]+)/.exec(event)![1]!.split(',').map(Number)).toContain(Number(month))
    }
  })
})

const togetherOf = (each: readonly { takeoff: Takeoff; plans: readonly SheetPlan[] }[]): SheetPlan => {
  const orders = new OrderTogether()
  for (const { takeoff, plans } of each)
    orders.add(
      { takeoff, earlier: nothingEarlier, made },
      plans.find(({ kind }) => kind === 'takeoff')!,
    )
  return orders.sheet(made)
}
describe('orders of several jobs together', () => {
  const takeoffs = ['Wicket Mill', 'Pipit Hollow', 'Ember Yard'].map((name) => demoTakeoff(name))
  const each = takeoffs.map((takeoff) => ({ takeoff, plans: jobSheets(takeoff, standardPlaces(), 'native', made) }))
  const plan = togetherOf(each)
  const row = (code: string) => {
    const at_ = plan.cells.find(({ value, column }) => column === 2 && value === code)!.row
    return Object.fromEntries(plan.cells.filter((cell) => cell.row === at_).map(({ column, value }) => [column, value]))
  }
  it('add net quantities before they are rounded up to lots, and never ask for more than single ones', () => {
    const lines = takeoffs.map(({ lines: own }) => own.find(({ code }) => code === 'TAPE')!)
    // Warning tape comes in rolls of 1,000 ft, 5 % is wasted: three jobs share what each alone would open a roll for.
    const net = lines.reduce((sum, line) => sum + line.net, 0)
    expect(row('TAPE')[5]).toBe(orderQuantity.run({ net, waste: 0.05, lot: 1000 }))
    expect(row('TAPE')[5]).toBe(Math.ceil((net * 1.05) / 1000) * 1000)
    expect(row('TAPE')[7]).toBe(3000)
    for (const cell of plan.cells.filter(({ column, role }) => column === 9 && role === 'number')) expect(Number(cell.value)).toBeGreaterThanOrEqual(0)
  })
  it('what comes in sticks and coils is shared only where one end holds what another job still needs', () => {
    const line = (used: number, lot: number) => ({ used, order: Math.ceil(used / lot) * lot, price: 1, row: 1, sheet: '' })
    const order = (lot: number, ...used: readonly number[]) =>
      together({ code: '', supplier: '', description: '', unit: 'ft', waste: 0, lot, isPooled: true, isByLength: true, lines: used.map((one) => line(one, lot)) }).order
    // By hand: rods of 5 ft. Beyond a whole one each, no two of 2.33, 3.33 and 2.75 ft come out of one: six.
    expect(order(5, 7.33, 8.33, 7.75)).toBe(30)
    // Coils of 300 ft: a run of 160 leaves 140, and the third of them would have a joint in the ground.
    expect(order(300, 160, 160, 160)).toBe(900)
    // A run of 140 is in that end, to the inch.
    expect(order(300, 160, 140, 160)).toBe(600)
    // By the 100 ft: three runs of 120 ft out of 400 ft would be 300 and 100, or 200 and 200: two whole ones. Each takes 200, unless an end holds another run whole.
    expect(order(100, 120, 120, 120)).toBe(600)
    expect(order(100, 120, 80, 250)).toBe(500)
    // Whole ones are nobody's end.
    expect(order(10, 20, 30)).toBe(50)
  })
  it('goods of one code and another model, size or price stand apart', () => {
    const models = new Set(takeoffs.map(({ design }) => design.single('TankModel')))
    const rows = (code: string) =>
      plan.cells.filter(({ value, column }) => column === 2 && value === code).map(({ row: at_ }) => plan.cells.find((cell) => cell.row === at_ && cell.column === 3)!.value)
    expect(rows('TANK').sort()).toEqual([...models].map((model) => `Precast tank ${String(model)}`).sort())
    expect(new Set(rows('PUMP')).size).toBe(rows('PUMP').length)
    const sizes = new Set(takeoffs.map(({ design }) => design.single('WaterLineSize')))
    expect(sizes.size).toBeGreaterThan(1)
    expect(rows('CLAMP').length).toBe(sizes.size)
    // A crane is hired by what hangs on the hook and how far out.
    const cranes = new Set(takeoffs.map(({ design }) => design.words('{CraneWords} {PickLoad_lb} {PickRadius_ft}')))
    expect(rows('CRANE').length).toBe(cranes.size)
  })
  it('bear the stop of a job, the revision of each, and goods that somebody put in by hand', () => {
    const spare = { code: 'PUMP-SPARE', description: 'Spare pump', unit: 'each', quantity: 1, price: 655, kind: 'material', why: '' } as const
    const foreman = { ...spare, code: '', description: 'Foreman, extra day', unit: 'day', kind: 'labor' } as const
    const stopped = takeoffOf({ ...demoRows('Jobs')[3]!, TestVacuum_inHg: 9 })
    const office = readOffice(startingOffice(true))
    const withSpare = makeTakeoff(office, rowNamed(office, 'Jobs', 'Pipit Hollow')!, { ...nothingKept, added: [spare, foreman] })
    const orders = new OrderTogether()
    for (const [at, takeoff] of [stopped, withSpare].entries()) {
      const plans = jobSheets(takeoff, standardPlaces(), 'native', made)
      orders.add(
        { takeoff, earlier: nothingEarlier, made: { ...made, revision: at + 2 } },
        plans.find(({ kind }) => kind === 'takeoff')!,
      )
    }
    const said = orders.sheet(made).cells.map(({ value }) => String(value ?? ''))
    expect(said).toContainEqual(expect.stringMatching(/^Not to be ordered before the quote has a price: .* Of these jobs: Wicket Mill\.$/))
    expect(said).toContainEqual(expect.stringMatching(/^It takes the place of the single orders of these jobs/))
    // A yard delivers to each site, on its day.
    expect(said).toContain('Wicket Mill (revision 2): Wicket Mill workshop; needed by: not said on its order')
    expect(said).toContain('PUMP-SPARE Spare pump (Pipit Hollow)')
    expect(said.join()).not.toContain('Foreman')
    // It is of no revision itself.
    expect(said[2]).toMatch(/^Made \S+, Cistern Sheet /)
    // None of it where nothing stops.
    expect(plan.cells.some(({ value }) => String(value).startsWith('Not to be ordered'))).toBe(false)
  })
  it('stand beside those of each job where orders alone are written', async () => {
    const bytes = await papersAlone(
      demoSource(startingOffice(true)),
      takeoffs.map(({ design }) => design.name),
      ['order'],
    )
    const { book } = openWorkbook(bytes, 'ORDERS.xlsx')
    expect(book.sheets.map(({ name }) => name)).toEqual([...takeoffs.map(({ design }) => `Order ${design.name}`), 'Order together'])
    // Handed out, it has no price and no sum of money, and its words all the same.
    const said = (sheet: string) =>
      readSheet(openWorkbook(bytes, 'x'), sheet)!
        .flat()
        .flatMap(({ value }) => (value === null ? [] : [value]))
    expect(said('Order together')).toEqual(expect.arrayContaining(['Ordered apart', 'Crushed stone for the bed', 'STONECUP QUARRY']))
    expect(said('Order together').filter((words) => /\$|Saved/.test(String(words)))).toEqual([])
    const headings = plan.cells.filter(({ value }) => value === 'Unit price, $' || value === 'Saved, $')
    expect(headings).toHaveLength(2)
    const row = plan.cells.find(({ value }) => value === 'STONE-BED')!.row
    const money = plan.cells.filter((cell) => cell.row === row && headings.some(({ column }) => column === cell.column)).map(({ value }) => value)
    const written = readSheet(openWorkbook(bytes, 'x'), 'Order together')!.find((cells) => cells.some(({ value }) => value === 'STONE-BED'))!
    expect(written.filter(({ value }) => value !== null)).toHaveLength(plan.cells.filter((cell) => cell.row === row && cell.value !== null).length - money.length)
    const two = await papersAlone(demoSource(startingOffice(true)), ['Wicket Mill', 'Ember Yard'], ['order'])
    expect(openWorkbook(two, 'ORDERS.xlsx').book.sheets.map(({ name }) => name)).toContain('Order together')
    // Who makes it stands at its right edge.
    expect(said('Order together').some((words) => String(words).includes('4 Mill Lane, Alder Reach'))).toBe(true)
    const alone = await papersAlone(demoSource(startingOffice(true)), ['Wicket Mill'], ['order'])
    expect(openWorkbook(alone, 'ORDER.xlsx').book.sheets.map(({ name }) => name)).toEqual(['Order Wicket Mill'])
  })
  it('save nothing on hire and services, which each site needs for itself', () => {
    for (const code of ['EXCAVATOR', 'FENCE', 'COMPACTOR']) {
      const lines = takeoffs.flatMap(({ lines: own }) => own.filter((one) => one.code === code))
      const of = row(code)
      expect([of[5], of[7], of[9]], code).toEqual([lines.reduce((sum, { order }) => sum + order, 0), lines.reduce((sum, { order }) => sum + order, 0), 0])
    }
  })
  it('ask nobody for what the own crew digs', () => {
    // Wicket Mill and its like are dug by the own crew: hours and machines stand on the takeoff, no unit price.
    expect(takeoffs.map(({ design }) => design.single('EarthworkBy'))).toEqual(['own crew', 'own crew', 'own crew'])
    for (const code of ['DIG', 'BACKFILL', 'TRENCH-LINE'])
      expect(
        plan.cells.some(({ value, column }) => column === 2 && value === code),
        code,
      ).toBe(false)
    const order = (name: string) => jobSheets(demoTakeoff(name), standardPlaces(), 'native', made).find(({ kind }) => kind === 'order')!
    expect(order('Wicket Mill').cells.some(({ value }) => value === 'DIG')).toBe(false)
    expect(order('Thistle Brow').cells.some(({ value }) => value === 'DIG')).toBe(true)
  })
  it.runIf(hasCalc)('are live: Calc works out the same', async () => {
    const raw = startingOffice(true)
    const { differences, compared } = await compareWithCalc({ sheets: [...each.flatMap(({ plans }) => plans), plan, ...officeSheets(raw, made), tablesSheet(made)] }, 1e-9)
    expect(differences).toEqual([])
    expect(compared).toBeGreaterThan(3000)
  })
  it.runIf(hasCalc)('of a hundred and twenty jobs keep to Excel’s longest formula, and Calc works out the same', async () => {
    const raw = startingOffice(true)
    const many = togetherOf(Array.from({ length: 120 }, (_, at_) => each[at_ % 3]!))
    // ECMA-376, part 1, 18.3.1.40, and Excel’s specifications: 8,192 characters, 255 arguments.
    for (const { formula = '' } of many.cells) {
      expect(formula.length).toBeLessThanOrEqual(8192)
      expect(formula.split(',').length).toBeLessThanOrEqual(255)
    }
    const [tape] = many.cells.filter(({ value, column }) => column === 2 && value === 'TAPE')
    const cell = (column: number) => many.cells.find((one) => one.row === tape!.row && one.column === column)!.value
    // Forty times each of the three, whole lengths of tape; the fewest rolls as the cutting of stock proves them.
    const lengths = takeoffs.map(({ lines }) => ({ of: '', count: 40, length: 1.05 * lines.find(({ code }) => code === 'TAPE')!.net }))
    const { sticks, least } = cutStock(1000, 0, lengths)!
    expect(sticks).toBe(least)
    expect([cell(4), cell(5), cell(7)]).toEqual([120, 1000 * sticks, 120_000])
    const { differences } = await compareWithCalc({ sheets: [...each.flatMap(({ plans }) => plans), many, ...officeSheets(raw, made), tablesSheet(made)] }, 1e-9)
    expect(differences).toEqual([])
  })
  it('keep to it with the longest names of sheets too', () => {
    const long = each.map(({ takeoff, plans }) => ({ takeoff, plans: plans.map((one) => ({ ...one, name: `${one.name} ${'x'.repeat(31)}`.slice(0, 31) })) }))
    const many = togetherOf(Array.from({ length: 120 }, (_, at_) => long[at_ % 3]!))
    expect(Math.max(...many.cells.map(({ formula = '' }) => formula.length))).toBeLessThanOrEqual(8192)
  })
  it('stand in the file of several jobs, and in that of one do not', async () => {
    await run('--job', 'Wicket Mill', '--job', 'Ember Yard', '--out', at('two.xlsx'))
    expect(openWorkbook(readFileSync(at('two.xlsx')), 'x').book.sheetNamed(ORDER_TOGETHER)).toBeDefined()
    await run('--job', 'Wicket Mill', '--out', at('one.xlsx'))
    expect(openWorkbook(readFileSync(at('one.xlsx')), 'x').book.sheetNamed(ORDER_TOGETHER)).toBeUndefined()
  })
})
