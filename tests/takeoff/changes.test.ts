/** What the office says of its money, items on and off for a job, prices that a made takeoff keeps, and what changed since. */
import { describe, expect, it } from 'vitest'
import { makeTemplate, sourceOf } from '../../src/hosts/fileSession.js'
import { makeJobs } from '../support/makings.js'
import { openWorkbook, readSheet } from '../../src/hosts/file.js'
import { jobSheetNames } from '../../src/plan/jobSheets.js'
import { amended } from '../../src/plan/sheets/amendSheet.js'
import { changesHeadings } from '../../src/plan/sheets/changesSheet.js'
import { takeoffColumns } from '../../src/plan/sheets/takeoffColumns.js'
import { changesSince, inShort } from '../../src/takeoff/changes.js'
import { problemText, ProblemsError } from '../../src/takeoff/fields.js'
import { priceFlag } from '../../src/takeoff/priceFlags.js'
import { demoRows, leastRow, lineOf, officeWith, takeoffOf } from '../support/office.js'
import { inExceljs, savedBy } from '../support/xlsx.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const names = jobSheetNames('Wicket Mill')
const cents = (value: number) => Math.round(value * 100)
const refused = (work: () => unknown): string[] => {
  try {
    work()
  } catch (error) {
    if (error instanceof ProblemsError) return error.problems.map(problemText)
    throw error
  }
  return []
}

describe('the house', () => {
  const [house] = demoRows('House')
  it('figures overhead, markup and tax on the kinds that it says', () => {
    const job = { ...leastRow, RainIntensity_in_per_h: 1, Overhead: 0.1, Markup: 0.2, Tax: 0.08 }
    const { byKind, orderCost, overhead, markup, tax, total } = takeoffOf(job, { House: [{ ...house, OverheadOn: 'labor, equipment', MarkupOn: 'all', TaxOn: 'material' }] })
    expect(cents(overhead)).toBe(cents((byKind.labor + byKind.equipment) * 0.1))
    expect(cents(markup)).toBe(cents(orderCost * 0.2))
    // Materials bear the tax with the markup that lies on them; overhead lies on labor and equipment alone.
    expect(cents(tax)).toBe(cents(byKind.material * 1.2 * 0.08))
    const both = takeoffOf(job, { House: [{ ...house, OverheadOn: 'material, labor', MarkupOn: 'all', TaxOn: 'material' }] })
    expect(cents(both.tax)).toBe(cents(byKind.material * (1 + 0.1 + 0.2) * 0.08))
    expect(cents(total)).toBe(cents(orderCost + overhead + markup + tax))
  })
  it('an unknown kind, a second row and a price without the date that it asks for are named', () => {
    expect(refused(() => takeoffOf(leastRow, { House: [{ ...house, TaxOn: 'material, goods' }] }))).toEqual([
      'House, row 6, TaxOn: all, or some of material, labor, equipment, subcontract, other, commas between; got "goods".',
    ])
    expect(refused(() => takeoffOf(leastRow, { House: [{ ...house }, { ...house, Name: 'Another' }] }))).toEqual(['House, row 7, Name: one row, the office itself; got "Another".'])
    const dates = refused(() => takeoffOf(leastRow, { House: [{ ...house, PriceDates: 'needed' }] }))
    expect(dates[0]).toMatch(/^Prices, row \d+, PriceDate: the date of the price, which the sheet House asks for/)
  })
})

it('at one price a line changes by its count alone, to the cent', () => {
  // 915 x 0.093 = 85.095 and 1,220 x 0.093 = 113.46: half a cent of rounding is no other price.
  const takeoff = takeoffOf({ ...leastRow, RainIntensity_in_per_h: 1 })
  const line = lineOf(takeoff, 'SEED')!
  const was = { description: line.description, order: line.order - 7, price: line.price!, amount: Math.round((line.order - 7) * line.price! * 100 - 1) / 100 }
  const before = { revision: 1, date: '2026-11-25', cost: takeoff.orderCost, total: takeoff.total, verdicts: new Map<string, string>(), lines: new Map([['SEED', was]]) }
  const ofSeed = changesSince(before, takeoff).filter(({ code }) => code === 'SEED')
  expect(ofSeed.map(({ what }) => what)).toEqual(['quantity'])
  expect(cents(ofSeed[0]!.money!)).toBe(cents(line.amount - was.amount))
})

describe('a price to look at', () => {
  const prices = (PriceDate: string) => demoRows('Prices').map((row) => (row.Code === 'VENT' ? { ...row, PriceDate } : row))
  const job = { ...leastRow, RainIntensity_in_per_h: 1 }
  const flagOf = (PriceDate: string, was?: number, House: Record<string, unknown> = {}) => {
    const takeoff = takeoffOf(job, { Prices: prices(PriceDate), House: [{ Name: 'X', ...House }] })
    const before =
      was === undefined
        ? undefined
        : {
            revision: 4,
            date: '2026-01-01',
            lines: new Map([['VENT', { description: '', order: 1, price: was, amount: was }]]),
            cost: 0,
            total: 0,
            verdicts: new Map<string, string>(),
          }
    return priceFlag(takeoff, lineOf(takeoff, 'VENT')!, { before, changes: [], revision: 5, today: '2026-11-25' })
  }
  it('is one older than the office allows: at the limit it is not', () => {
    // 365 days before 25 November 2026 is 25 November 2025; no 29 February lies between.
    expect(flagOf('2025-11-25')).toBe('')
    expect(flagOf('2025-11-24')).toBe('price of 2025-11-24: older than 365 days')
    expect(flagOf('2025-11-24', undefined, { OldestPrice_day: 400 })).toBe('')
  })
  it('is one that moved further than the office allows', () => {
    // A vent is $38: from $40 it fell by 5 %, from $30 it rose by 26.7 %.
    expect(flagOf('2026-11-01', 40)).toBe('')
    expect(flagOf('2026-11-01', 30)).toBe('price moved +27 % since revision 4')
    // From half a dollar to $38: 75 times as much more.
    expect(flagOf('2026-11-01', 0.5)).toBe('price moved +7500 % since revision 4')
    expect(flagOf('2026-11-01', 40, { PriceMove: 0.04 })).toBe('price moved -5 % since revision 4')
    expect(flagOf('2026-11-01', 40, { PriceMove: 0.05 })).toBe('')
  })
  it('is one of a day that is yet to come', () => {
    expect(flagOf('2026-11-26')).toBe('price dated 2026-11-26, a day that is yet to come')
    expect(flagOf('2027-10-01')).toBe('price dated 2027-10-01, a day that is yet to come')
  })
  it('stays one where the revision that stands is made again', () => {
    const takeoff = takeoffOf(job, { Prices: prices('2026-11-01') })
    const vent = lineOf(takeoff, 'VENT')!
    const before = { revision: 5, date: '2026-11-20', lines: new Map(), cost: 0, total: 0, verdicts: new Map<string, string>() }
    const moved = { revision: 5, date: '2026-11-20', what: 'price', code: 'VENT', words: '', from: 30, to: 38, money: 8 } as const
    expect(priceFlag(takeoff, vent, { before, changes: [moved], revision: 5, today: '2026-11-25' })).toBe('price moved +27 % since revision 4')
    expect(priceFlag(takeoff, vent, { before, changes: [{ ...moved, revision: 4 }], revision: 5, today: '2026-11-25' })).toBe('')
  })
})

describe('items for one job', () => {
  const items = demoRows('Items')
  const withSet = [...items, { ...items.find(({ Code }) => Code === 'GAS-METER')!, Code: 'LOCATE-ROCK', Quantity: '1', Set: 'Rock', Why: 'Where rock is near' }]
  const prices = [...demoRows('Prices'), { Code: 'LOCATE-ROCK', Price_usd: 80, Unit: 'day' }]
  it('are left out by code and taken in by set', () => {
    const job = { ...leastRow, RainIntensity_in_per_h: 1 }
    const plain = takeoffOf(job, { Items: withSet, Prices: prices })
    expect(lineOf(plain, 'SEED')).toBeDefined()
    expect(lineOf(plain, 'LOCATE-ROCK')).toBeUndefined()
    const chosen = takeoffOf({ ...job, Without: 'SEED, PERMIT', With: 'rock' }, { Items: withSet, Prices: prices })
    expect([lineOf(chosen, 'SEED'), lineOf(chosen, 'PERMIT')]).toEqual([undefined, undefined])
    expect(lineOf(chosen, 'LOCATE-ROCK')).toMatchObject({ amount: 80 })
  })
  it('that are none are named', () => {
    expect(refused(() => takeoffOf({ ...leastRow, Without: 'SEAD' }))).toEqual([
      'Jobs, row 6, Without: codes of the sheet Items, or names of its sections, commas between; got "SEAD".',
    ])
    expect(refused(() => takeoffOf({ ...leastRow, With: 'Rock' }))).toEqual(['Jobs, row 6, With: nothing, as no item of Items has a Set; got "Rock".'])
  })
})

/** Makes the takeoff of Wicket Mill in its own workbook, after what was made before. */
const make = (bytes: Uint8Array) => makeJobs(sourceOf(bytes, 'O.xlsx'), ['Wicket Mill'])
const template = makeTemplate(officeWith({}), made)
const changesOf = (bytes: Uint8Array) => {
  const rows = readSheet(openWorkbook(bytes, 'x'), names.changes)!
  const heading = rows.findIndex((row) => row.some(({ value }) => value === changesHeadings.mark))
  const at = (key: keyof typeof changesHeadings) => rows[heading]!.findIndex(({ value }) => value === changesHeadings[key])
  return rows
    .slice(heading + 1)
    .flatMap((row) =>
      row[at('mark')]?.value ? [{ revision: row[at('revision')]!.value, what: row[at('what')]!.value, code: row[at('code')]?.value ?? '', money: row[at('money')]?.value }] : [],
    )
}

describe('a line whose quantity and price both changed', () => {
  it('is parted: the quantity at the old price, the rest by the price', () => {
    const takeoff = takeoffOf({ ...leastRow, TankCount: 3, RainIntensity_in_per_h: 1 })
    const lines = new Map(takeoff.lines.map(({ code, description, order, price, amount }) => [code, { description, order, price: price ?? 0, amount }]))
    // Two vents at $30 before, three at $38 now: one more at $30, and three times $8.
    lines.set('VENT', { description: '', order: 2, price: 30, amount: 60 })
    const changes = changesSince({ revision: 1, date: '2026-01-01', lines, cost: takeoff.orderCost - 54, total: takeoff.total - 54, verdicts: new Map() }, takeoff)
    expect(changes.map(({ what, code, money }) => [what, code, money])).toEqual([
      ['quantity', 'VENT', 30],
      ['price', 'VENT', 24],
    ])
  })
})

describe('a line that is counted in another unit now', () => {
  it('is another line: no customer reads its old feet as cubic yards', () => {
    const takeoff = takeoffOf({ ...leastRow, TankCount: 3, RainIntensity_in_per_h: 1, EarthworkBy: 'subcontract' })
    const lines = new Map(takeoff.lines.map(({ code, description, order, price, amount, rule: { unit } }) => [code, { description, order, price: price ?? 0, amount, unit }]))
    const { amount } = lines.get('TRENCH-LINE')!
    lines.set('TRENCH-LINE', { description: 'Trench', order: 100, price: 2, amount: 200, unit: 'ft' })
    const more = takeoff.orderCost - amount + 200
    const changes = changesSince({ revision: 1, date: '2026-01-01', lines, cost: more, total: takeoff.total - amount + 200, verdicts: new Map() }, takeoff)
    expect(changes).toEqual([
      { what: 'line gone', code: 'TRENCH-LINE', words: 'Trench, by the ft', from: 200, to: null, money: -200 },
      { what: 'line added', code: 'TRENCH-LINE', words: 'Trench for water line and power feed, bank measure, by the yd³', from: null, to: amount, money: amount },
    ])
    const rows = amended(changes, 1, () => ({ unit: 'yd³', isOwnWork: false }))
    expect(rows.map(({ from, to, price }) => [from, to, Math.round(price * 100)])).toEqual([[null, null, Math.round((amount - 200) * 100)]])
  })
})

describe('changes in a few words', () => {
  it('are what they add, the lines among them, and each verdict that turned', () => {
    const change = (what: 'verdict' | 'price', code: string, money: number | null) => ({ what, code, words: 'Uplift of an empty tank', from: 'check', to: 'pass', money })
    expect(inShort([change('price', 'VENT', -12.5), change('verdict', '', null)], 3)).toBe('since revision 3 -$12.50; 1 change of lines; Uplift of an empty tank: check to pass')
    expect(inShort([change('price', 'VENT', 12), change('price', 'TAPE', 1)], 1)).toBe('since revision 1 +$13.00; 2 changes of lines')
  })
})

describe('a takeoff made again', () => {
  it('without a change says so; with a price and a quantity, to the cent what each adds', async () => {
    const first = await make(template)
    expect(changesOf(first.bytes)).toEqual([{ revision: 1, what: 'made', code: '', money: first.takeoff.total }])
    const second = await make(first.bytes)
    expect(changesSince(second.earlier.before, second.takeoff)).toEqual([])
    expect(inShort([], 1)).toBe('nothing changed since revision 1')

    const workbook = await inExceljs(second.bytes)
    const prices = workbook.getWorksheet('Prices')!
    const [code, price] = ['Code', 'Price_usd'].map((name) => (prices.getRow(5).values as unknown[]).indexOf(name)) as [number, number]
    // Vents, three of them, from $38 to $41; fence from 250 to 300 ft at $0.90.
    prices.eachRow((row) => {
      if (row.getCell(code).value === 'VENT') row.getCell(price).value = 41
    })
    workbook.getWorksheet(names.takeoff)!.eachRow((row) => {
      if (row.getCell(takeoffColumns.code).value === 'FENCE') row.getCell(takeoffColumns.yours).value = 300
    })
    const third = await make(await savedBy(workbook))
    const [markup, tax] = [0.2, 0.06]
    const changes = changesSince(third.earlier.before, third.takeoff)
    expect(changes.filter(({ what }) => what === 'price')).toMatchObject([{ code: 'VENT', from: 38, to: 41, money: 9 }])
    expect(changes.filter(({ what }) => what === 'quantity').map(({ code: of, from, to, money }) => [of, from, to, money])).toContainEqual(['FENCE', 250, 300, 45])
    const sum = changes.reduce((total, { money }) => total + cents(money ?? 0), 0)
    expect(sum).toBe(cents(third.takeoff.total) - cents(second.takeoff.total))
    // All that is added at cost bears markup and tax: within a cent or two of rounding.
    expect(Math.abs(sum - cents((third.takeoff.orderCost - second.takeoff.orderCost) * (1 + markup) * (1 + tax)))).toBeLessThanOrEqual(2)
    const kept = changesOf(third.bytes)
    expect(kept.at(-1)).toMatchObject({ revision: 1, what: 'made' })
    expect(kept.filter(({ revision }) => revision === 2).length).toBe(changes.length)
  })
  it('what was typed between two makings is a change, also where a spreadsheet has worked it out since', async () => {
    const first = await make(template)
    const workbook = await inExceljs(first.bytes)
    workbook.getWorksheet(names.takeoff)!.eachRow((row) => {
      if (row.getCell(takeoffColumns.code).value !== 'FENCE') return
      // Fence from 250 to 300 ft at $0.90, as a spreadsheet shows it once it has recalculated.
      row.getCell(takeoffColumns.yours).value = 300
      for (const [column, result] of [
        ['order', 300],
        ['amount', 270],
      ] as const) {
        const { formula } = row.getCell(takeoffColumns[column])
        row.getCell(takeoffColumns[column]).value = { formula, result } as never
      }
    })
    const second = await make(await savedBy(workbook))
    const changes = changesSince(second.earlier.before, second.takeoff)
    expect(changes.filter(({ code }) => code !== '').map(({ what, code, from, to, money }) => [what, code, from, to, money])).toEqual(
      expect.arrayContaining([['quantity', 'FENCE', 250, 300, 45]]),
    )
    const sum = changes.reduce((total, { money }) => total + cents(money ?? 0), 0)
    expect(sum).toBe(cents(second.takeoff.total) - cents(first.takeoff.total))
    // And once more without a change: nothing.
    const third = await make(second.bytes)
    expect(changesSince(third.earlier.before, third.takeoff)).toEqual([])
  })
  it('until then keeps its prices when the list changes, and says by how much the list has moved', async () => {
    const { bytes, takeoff } = await make(template)
    const sheet = readSheet(openWorkbook(bytes, 'x'), names.takeoff)!
    const row = sheet.find((cells) => cells[takeoffColumns.code - 1]?.value === 'VENT')!
    expect(row[takeoffColumns.price - 1]).toEqual({ value: 38 })
    expect(row[takeoffColumns.now - 1]!.formula).toMatch(/Prices/)
    // Labor is priced by the row itself, and stays live.
    const labor = sheet.find((cells) => cells[takeoffColumns.code - 1]?.value === 'LABOR')!
    expect(labor[takeoffColumns.price - 1]!.formula).toContain('Design')
    expect(takeoff.lines.every(({ price, listed }) => price === listed)).toBe(true)
  })
  it('names a row of Changes that was edited by hand', async () => {
    const workbook = await inExceljs((await make(template)).bytes)
    const sheet = workbook.getWorksheet(names.changes)!
    sheet.eachRow((row) => row.eachCell((cell) => (cell.value === 'First made' ? void (cell.value = 'First agreed') : undefined)))
    await expect(make(await savedBy(workbook))).rejects.toThrow(
      /^Changes Wicket Mill, row \d+, Mark: the row as it was written: changes are kept and not edited; got "First agreed", changed by hand\.$/,
    )
  })
})
