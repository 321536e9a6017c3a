/** Cutting from stock against published best counts; and what must hold of any plan. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import { cutList } from '../../src/takeoff/cutList.js'
import { cutStock, type CutPlan, type Piece } from '../../src/takeoff/cutStock.js'
import { demoRows, demoTakeoff, leastRow, lineOf, takeoffOf } from '../support/office.js'
import { lineFigures } from '../../src/takeoff/lineFigures.js'

const pieces = (lengths: readonly number[], counts: readonly number[]): Piece[] => lengths.map((length, at) => ({ of: '', length, count: counts[at]! }))

/** Sticks of 10 ft for equal pieces, as a line of a takeoff orders them. */
const sticksOfEqual = (kerf: number, length: number, count: number): number =>
  (demoTakeoff('Wicket Mill').design.evaluateWith(lineFigures.orderCut, { Yours: '', Net: length * count, Pieces: count, Lot: 10, Waste: 0, SawKerf_in: 12 * kerf }) as number) / 10

/** Every piece cut, and no stick overfull. */
function holds(plan: CutPlan, stock: number, kerf: number, wanted: readonly Piece[]): void {
  const cut = new Map<number, number>()
  for (const { times, pieces: taken, left } of plan.patterns) {
    const count = taken.reduce((sum, piece) => sum + piece.count, 0)
    const length = taken.reduce((sum, piece) => sum + piece.count * piece.length, 0)
    expect(length + (count - 1) * kerf).toBeLessThanOrEqual(stock + 1e-6)
    expect(left).toBeGreaterThanOrEqual(0)
    for (const piece of taken) cut.set(piece.length, (cut.get(piece.length) ?? 0) + piece.count * times)
  }
  for (const length of new Set(wanted.map((piece) => piece.length)))
    expect(cut.get(length)).toBe(wanted.filter((piece) => piece.length === length).reduce((sum, piece) => sum + piece.count, 0))
  expect(plan.patterns.reduce((sum, { times }) => sum + times, 0)).toBe(plan.sticks)
}

describe('on a job', () => {
  const items = (change: Record<string, unknown>) => demoRows('Items').map((row) => (row.Code === 'TIE-PIPE' ? { ...row, ...change } : row))
  const job = { ...leastRow, TankCount: 3 }
  it('a line of pieces orders the sticks that they come out of', () => {
    const order = (change: Record<string, unknown>) => lineOf(takeoffOf(job, { Items: items(change) }), 'TIE-PIPE')!.order
    // 24.5 ft and 5 % of waste are 25.7 ft, three sticks; seven pieces of 3.5 ft, two from a stick, are four.
    expect(order({ Quantity: '24.5', Pieces: '' })).toBe(30)
    expect(order({ Quantity: '24.5', Pieces: '7' })).toBe(40)
    // A piece longer than a stick is joined as it comes.
    expect(order({ Quantity: '24.5', Pieces: '2' })).toBe(30)
    expect(() => order({ Unit: 'each', Pieces: '7' })).toThrow(/Items, row \d+, Pieces: empty where the Unit is not ft/)
    expect(() => order({ Pieces: 'TieCuont' })).toThrow(/Items, row \d+, Pieces: .*no field or result is called TieCuont/)
  })
  it('Wicket Mill by hand: two ties of 28 in and four stubs of 18 in from two sticks', () => {
    const [cuts] = cutList(demoTakeoff('Wicket Mill'))
    const count = (length: number) =>
      cuts!.plan.patterns
        .flatMap(({ times, pieces: of }) => of.filter((piece) => Math.abs(piece.length - length) < 1e-9).map((piece) => times * piece.count))
        .reduce((sum, one) => sum + one, 0)
    // Gap 14, two walls of 4 and two stubs of 3 in; four ports of 18 in.
    expect([count(28 / 12), count(1.5), cuts!.plan.sticks]).toEqual([2, 4, 2])
    // 240 in less 56 and 72, and six cuts of 1/8 in.
    expect(cuts!.plan.patterns.reduce((sum, { times, left }) => sum + times * left * 12, 0)).toBeCloseTo(240 - 56 - 72 - 6 / 8, 9)
  })
  it('an own quantity buys more sticks and makes no piece longer', () => {
    const office = readOffice(startingOffice(true))
    const row = rowNamed(office, 'Jobs', 'Wicket Mill')!
    for (const quantity of [10, 35]) {
      const takeoff = makeTakeoff(office, row, { ...nothingKept, overrides: { 'TIE-PIPE': { quantity } } })
      const ties = cutList(takeoff)[0]!.plan.patterns.flatMap(({ times, pieces: of }) =>
        of.filter(({ of: what }) => what.includes('ties')).map((piece) => [piece.length, times * piece.count] as const),
      )
      expect(ties.reduce((sum, [, count]) => sum + count, 0)).toBe(2)
      // Two ties of 28 in, as above.
      for (const [length] of ties) expect(12 * length).toBeCloseTo(28, 9)
      // 5 % of waste: 10.5 ft are two sticks of 10 ft, 36.75 ft four.
      expect(lineOf(takeoff, 'TIE-PIPE')!.order).toBe(quantity === 10 ? 20 : 40)
    }
    // Less than the pieces want is bought less: the rest lies in the yard. None bought, none on the list.
    const less = (quantity: number) => makeTakeoff(office, rowNamed(office, 'Jobs', 'Ember Yard')!, { ...nothingKept, overrides: { 'TIE-PIPE': { quantity } } })
    expect([lineOf(less(6), 'TIE-PIPE')!.order, lineOf(less(0), 'TIE-PIPE')!.order]).toEqual([10, 0])
    expect(
      cutList(less(0))
        .flatMap(({ words }) => words)
        .join(),
    ).not.toContain('ties')
  })
  it('lines that share a stock are cut together, and Order and Crew say how', () => {
    const takeoff = takeoffOf(job)
    const [cuts] = cutList(takeoff)
    // Two ties of 12 + 2 x wall + 2 x stub and the port stubs of 18 in, all from sticks of 10 ft.
    expect([cuts!.stock, cuts!.stick_ft, cuts!.plan.sticks]).toEqual(['4 in Schedule 40 pipe', 10, cuts!.plan.least])
    expect(cuts!.plan.sticks).toBeLessThanOrEqual(cuts!.apart)
    const sheets = jobSheets(takeoff, standardPlaces(), 'native', { date: '2026-11-26', revision: 1, version: 'test' })
    for (const kind of ['order', 'crew']) {
      const words = sheets.find((sheet) => sheet.kind === kind)!.cells.map(({ value }) => String(value ?? ''))
      expect(words).toContain('CUT LIST')
      for (const line of cuts!.words) expect(words.some((text) => text.endsWith(line))).toBe(true)
    }
  })
})

describe('cutting from stock', () => {
  it('GAMS model library, cutting stock: 453 at best (485 first-fit decreasing)', () => {
    const wanted = pieces([45, 36, 31, 14], [97, 610, 395, 211])
    const plan = cutStock(100, 0, wanted)!
    expect([plan.sticks, plan.least]).toEqual([453, 453])
    holds(plan, 100, 0, wanted)
  })
  it('the instance of thirteen widths from 5,600, published with 73 at best (82 first-fit)', () => {
    const wanted = pieces([1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200], [22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20])
    const plan = cutStock(5600, 0, wanted)!
    expect([plan.sticks, plan.least]).toEqual([73, 73])
    holds(plan, 5600, 0, wanted)
  })
  it('the saw takes its share: ten pieces of a foot are not cut from a stick of ten', () => {
    // 10 x 1 ft and 9 kerfs of 1/8 in are 10.09 ft: nine from a stick.
    expect(cutStock(10, 0, pieces([1], [10]))!.sticks).toBe(1)
    expect(cutStock(10, 1 / 96, pieces([1], [10]))!.sticks).toBe(2)
    expect([sticksOfEqual(0, 1, 10), sticksOfEqual(1 / 96, 1, 10)]).toEqual([1, 2])
    // Half-sticks: one cut, and its kerf is missing.
    expect([sticksOfEqual(0, 5, 2), sticksOfEqual(1 / 96, 5, 2), sticksOfEqual(1 / 96, 10, 3)]).toEqual([1, 2, 3])
    // What is longer than a stick is joined as it comes.
    expect(sticksOfEqual(0, 10.01, 1)).toBe(2)
  })
  it('seven pieces of 3.5 ft are four sticks of ten, not the three that 24.5 ft would be', () => {
    expect(cutStock(10, 1 / 96, pieces([3.5], [7]))!.sticks).toBe(4)
    expect(sticksOfEqual(1 / 96, 3.5, 7)).toBe(4)
  })
  it('what is longer than the stick has no plan; nothing wanted is no stick', () => {
    expect(cutStock(10, 0, pieces([11], [1]))).toBeUndefined()
    expect(cutStock(10, 0, [])).toEqual({ sticks: 0, patterns: [], least: 0 })
  })
  it('any pieces: all are cut, no stick is overfull, never more than one line at a time, never fewer than their length', () => {
    const piece = fc.record({ of: fc.constant('x'), length: fc.integer({ min: 6, max: 100 }).map((inches) => inches / 12), count: fc.integer({ min: 1, max: 9 }) })
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 4 }), fc.constantFrom(0, 1 / 96, 1 / 48), (wanted, kerf) => {
        const plan = cutStock(10, kerf, wanted)!
        holds(plan, 10, kerf, wanted)
        expect(plan.sticks).toBeGreaterThanOrEqual(Math.ceil(wanted.reduce((sum, { length, count }) => sum + length * count, 0) / 10 - 1e-9))
        expect(plan.sticks).toBeLessThanOrEqual(wanted.reduce((sum, { length, count }) => sum + sticksOfEqual(kerf, length, count), 0))
        expect(plan.sticks).toBeGreaterThanOrEqual(plan.least)
      }),
      { numRuns: 60 },
    )
  })
})

describe('where the search does not come to an end', () => {
  it('the longest are cut first, and a plan is there all the same', () => {
    // Twelve lengths in one stick have far more ways than are looked through.
    const wanted = pieces(
      Array.from({ length: 12 }, (_, at) => 0.31 + 0.037 * at),
      Array.from({ length: 12 }, () => 9),
    )
    const plan = cutStock(10, 0.125 / 12, wanted)!
    holds(plan, 10, 0.125 / 12, wanted)
    // All lengths together fill so many sticks.
    const fill = wanted.reduce((sum, { length, count }) => sum + length * count, 0) / 10
    expect(plan.least).toBe(Math.ceil(fill))
    expect(plan.sticks).toBeLessThanOrEqual(plan.least + 1)
  })
  it('it is the same plan on every machine: tries are counted, and no clock is looked at', () => {
    const wanted = pieces([4.9, 4.1, 3.7, 3.3, 2.9, 2.3, 1.9, 1.3], [7, 5, 8, 6, 9, 7, 5, 8])
    const [one, other] = [cutStock(10, 0.0104, wanted), cutStock(10, 0.0104, wanted)]
    expect(one).toEqual(other)
    holds(one!, 10, 0.0104, wanted)
  })
})
