/** Small steps behind a job that a slip could move without a word: days as numbers, where water goes in mean months, what is held against what. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { orderQuantity } from '../../src/calc/index.js'
import { changesSince } from '../../src/takeoff/changes.js'
import { isLineFormula, lineFigures } from '../../src/takeoff/lineFigures.js'
import { dateText } from '../../src/days.js'
import { tablesElsewhere } from '../../src/takeoff/office.js'
import { fieldsOf } from '../../src/takeoff/officeTables.js'
import { demoTakeoff, leastRow, takeoffOf } from '../support/office.js'

describe('days', () => {
  // Day 1 is 1900-01-01 to spreadsheets, and 60 the day that never was (ECMA-376 part 1, 18.17.4.1): from 61 on, days since 1899-12-30.
  it.each([
    [61, '1900-03-01'],
    [36_526, '2000-01-01'],
    [46_342.75, '2026-11-16'],
    ['2026-11-16', '2026-11-16'],
    [new Date(Date.UTC(2026, 10, 16)), '2026-11-16'],
    [0, undefined],
    ['16.11.2026', undefined],
  ])('%s is %s', (raw, day) => {
    expect(dateText(raw)).toBe(day)
  })
})

describe('mean months', () => {
  it('what comes in is supplied, spilled, or stands in the tanks at the end', () => {
    for (const job of ['Fernlow 12', 'Thistle Brow', 'Ember Yard']) {
      const { design } = demoTakeoff(job)
      const sum = (name: string) => design.column(name).reduce((total, value) => total + value, 0)
      const [before, after] = [design.column('FirstYear_gal').at(-1)!, design.column('MonthStored_gal').at(-1)!]
      // Sums of a dozen doubles: their last digits.
      expect(before + sum('MonthInflow_gal') - sum('MonthSupplied_gal') - sum('MonthOverflow_gal'), job).toBeCloseTo(after, 6)
      expect(sum('MonthOverflow_gal'), job).toBeGreaterThanOrEqual(0)
    }
  })
})

describe('a trench of a foot beyond the pit', () => {
  it('is filled by what it holds, however little: 1.5 x 3 ft of dig less half a foot of clean earth and half a foot of topsoil', () => {
    // Class C on 6 in of bed under a tank of 6.5 ft and 2 ft of cover: 2 ft of room and 1.5 x 9 ft of slope.
    const { design } = takeoffOf({ ...leastRow, SoilClass: 'C', InletRun_ft: 0, OverflowRun_ft: 0, WaterLineRun_ft: 16.5, PowerRun_ft: 16.5 })
    expect(design.number('LineBeyond_ft')).toBeCloseTo(1, 9)
    expect(design.number('TrenchFill_yd3')).toBeCloseTo((1.5 * 3 - 1.5 * 0.5 - 1.5 * 0.5) / 27, 9)
  })
})

describe('gravity', () => {
  it('gives nothing at the switch where the house lies above the tanks', () => {
    expect(takeoffOf(leastRow).design.number('GravityAtSwitch_psi')).toBe(0)
  })
})

describe('between two makings', () => {
  it('overhead, markup and tax are what lies between cost and price, before and now', () => {
    const takeoff = demoTakeoff('Wicket Mill')
    const lines = new Map([...takeoff.lines.map(({ code, description, order, price, amount }) => [code, { description, order, price: price!, amount }] as const)])
    const change = changesSince({ revision: 1, date: '2026-11-25', lines, cost: takeoff.orderCost, total: takeoff.orderCost + 100, verdicts: new Map() }, takeoff)[0]
    const margin = Math.round((takeoff.total - takeoff.orderCost) * 100) / 100
    expect(change).toMatchObject({ what: 'overhead, markup and tax', from: 100, to: margin, money: Math.round((margin - 100) * 100) / 100 })
  })
})

describe('a table under another name', () => {
  const rows = () => [Object.keys(fieldsOf('Rain'))]
  it('is found by its headings, but for those on the sheets of a job', () => {
    const sheets = ['Year Pipit Hollow', 'Year Wicket Mill', 'Weather'].map((name) => ({ name, rows }))
    expect([...tablesElsewhere(['Rain'], ['pipit hollow', 'wicket mill'], sheets)]).toEqual([['Rain', 'Weather']])
    expect([...tablesElsewhere(['Rain'], ['pipit hollow', 'wicket mill'], sheets.slice(0, 2))]).toEqual([])
  })
})

describe('figures of a line', () => {
  const { design } = demoTakeoff('Wicket Mill')
  it('order as ORDERQUANTITY does, to the last digit', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0.5, 1, 2, 10, 25, 1000), (net, waste, lot) => {
        expect(design.evaluateWith(lineFigures.order, { Yours: '', Net: net, Waste: waste, Lot: lot })).toBe(orderQuantity.run({ net, waste, lot }))
      }),
      { seed: 5, numRuns: 300 },
    )
  })
  it('cut equal pieces from as many sticks as there must be, by hand', () => {
    const order = (Net: number, Pieces: number, Lot = 10) => design.evaluateWith(lineFigures.orderCut, { Yours: '', Net, Pieces, Lot, Waste: 0 })
    // Pieces of 3 ft 9 in and a cut of 1/8 in: two from a stick of 10 ft, so five need three; twelve of 28 in, four from a stick, need three.
    expect([order(5 * 3.75, 5), order((12 * 28) / 12, 12)]).toEqual([30, 30])
    // A piece longer than the stick comes off as it comes: 24 ft are three sticks.
    expect(order(24, 2)).toBe(30)
  })
  it('of a line by hand: a quantity typed over its order counts as one typed beside it, a price for the whole is one of it', () => {
    const order = (Yours: number | '', Price: number | '', Unit = '') => design.evaluateWith(lineFigures.orderByHand, { Yours, Price, Unit })
    const amount = (Order: number | '', Price: number | '') => design.evaluateWith(lineFigures.amountByHand, { Order, Price })
    // Two stumps at $150 are $300, in whichever column the two stand.
    expect([amount(2, 150), amount(order(2, 150) as number, 150)]).toEqual([300, 300])
    expect([order('', 150), order('', 150, 'Each'), order('', 150, 'lump sum'), order('', 150, 'ft'), order('', '')]).toEqual([1, 1, 1, '', ''])
    expect([amount('', 150), amount('', '')]).toEqual([0, 0])
  })
  it('are known again wherever their cells have moved to, and nothing else is taken for them', () => {
    expect(isLineFormula('product', 'ROUND($H$31 * G31,2)')).toBe(true)
    expect(isLineFormula('amountByHand', 'IF($D$31="",0,ROUND(D31*F31,2))')).toBe(true)
    expect(isLineFormula('product', 'ROUND(H31*G31,0)')).toBe(false)
    expect(isLineFormula('product', 'ROUND(H31*1.1,2)')).toBe(false)
  })
})
