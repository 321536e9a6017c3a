/** Where pages begin: sections and drawings stay together, no page is nearly empty, nothing runs off the last column of a sheet that is printed at a size of its own. */
import { describe, expect, it } from 'vitest'
import { laidOut } from '../../src/plan/drawing/picture.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { rowHeights } from '../../src/plan/heights.js'
import { looks } from '../../src/plan/looks.js'
import { pagesOf } from '../../src/plan/pages.js'
import { standardPlaces } from '../../src/plan/places.js'
import { EMPTY_ROW_POINTS, extentOf, printedArea, type SheetPlan } from '../../src/plan/plan.js'
import { readOffice } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { demoTakeoff, leastRow, officeWith, takeoffOf } from '../support/office.js'

const made = { date: '2026-11-25', revision: 1, version: 'test' }
const jobs = [
  ...['Fernlow 12', 'Pipit Hollow', 'Thistle Brow', 'Wicket Mill'].map(demoTakeoff),
  ...[1, 2, 7, 12].map((TankCount) => takeoffOf({ ...leastRow, Job: `Tanks ${TankCount}`, TankCount, RainIntensity_in_per_h: 0.5, CrewLanguage: 'English and Spanish' })),
]
const paged = jobs.flatMap((takeoff) =>
  (['letter', 'A4'] as const).flatMap((paper) =>
    jobSheets(takeoff, standardPlaces(), 'native', made)
      .map((plan): SheetPlan => ({ ...plan, paper }))
      .filter((plan) => plan.kind !== 'quote' && pagesOf(plan).breaks.length),
  ),
)
const high = (plan: SheetPlan, from: number, to: number): number => {
  let sum = 0
  for (let row = from; row < to; row++) sum += rowHeights(plan).get(row) ?? EMPTY_ROW_POINTS
  return sum
}

describe('pages', () => {
  it('there are sheets of several kinds that take more than one', () => {
    expect(new Set(paged.map(({ kind }) => kind)).size).toBeGreaterThan(3)
  })
  it.each(paged.map((plan) => [`${plan.name}, ${plan.paper}`, plan] as const))('%s', (_, plan) => {
    const { breaks, percent } = pagesOf(plan)
    const { lastRow } = printedArea(plan) ?? extentOf(plan.cells)
    // Letter is 11 in high and A4 11.69; 8.5 and 8.27 lying down; 1.25 in of margins (plan.ts), 72 points an inch.
    const paper_in = plan.landscape ? (plan.paper === 'A4' ? 8.27 : 8.5) : plan.paper === 'A4' ? 11.69 : 11
    const holds = ((paper_in - 1.25) * 72 * 100) / percent!
    const pages = [1, ...breaks].map((from, at, all) => [from, all[at + 1] ?? lastRow + 1] as const)
    for (const [from, to] of pages) expect(high(plan, from, to), `rows ${from} to ${to}`).toBeLessThanOrEqual(holds)
    const isSection = (row: number) => plan.cells.some((cell) => cell.row === row && cell.role === 'section')
    for (const [from, to] of pages.slice(0, -1)) {
      // No page is left with less than a third on it, and none ends in a heading.
      expect(high(plan, from, to) / holds, `rows ${from} to ${to}`).toBeGreaterThan(0.3)
      expect([isSection(to - 1), isSection(to - 2)], `before row ${to}`).toEqual([false, false])
    }
    for (const { row } of plan.drawings ?? []) expect(breaks.some((at) => at > row && at <= row + 1)).toBe(false)
    // What is not wrapped ends within the last column: beyond it a page of its own would be printed for a few words.
    const width = (column: number) => plan.widths.slice(column - 1).reduce((sum, one) => sum + one, 0)
    for (const { row, column, role, value, look = looks[role] } of plan.cells)
      if (typeof value === 'string' && !look.wrap && look.align !== 'right' && column <= (plan.print?.lastColumn ?? Infinity))
        expect(value.length, `row ${row}: ${value}`).toBeLessThanOrEqual(Math.max(8, (width(column) * 1.22 * 10) / (look.size ?? 10)))
  })
  it('the longest name of a firm leaves the title in sight', () => {
    const office = readOffice(
      officeWith({ Jobs: [{ ...leastRow, Job: 'Abcdefghij Klmnop Qrstu' }], House: [{ Name: `Underbrook ${'and Daughters '.repeat(9)}`.slice(0, 80).trim() }] }),
    )
    const takeoff = makeTakeoff(office, office.tables.Jobs[0]!)
    for (const plan of jobSheets(takeoff, standardPlaces(), 'native', made).filter(({ letterhead }) => letterhead)) {
      const [firm, title] = [plan.cells.find(({ role }) => role === 'firm')!, plan.cells.find(({ role }) => role === 'title' || role === 'titleLong')!]
      const width = plan.widths.slice(1, firm.column).reduce((sum, one) => sum + one, 0)
      // Letters of 12 points against the ten that a unit of width holds; the title has at least a dozen of them beside it.
      expect((String(firm.value).length * 12) / 10, plan.name).toBeLessThanOrEqual(0.6 * width + 1e-9) // what doubles round off
      expect(String(title.value).length, plan.name).toBeGreaterThanOrEqual(12)
    }
  })
  it('a signature stands with lines of what it signs', () => {
    for (const plan of paged.filter(({ kind }) => kind === 'test')) {
      const signed = plan.cells.find(({ value }) => value === 'SIGNED')!.row
      expect(pagesOf(plan).breaks, plan.name).not.toContain(signed)
    }
  })
  it('the drawing of a quote ends above the rule of the tax', () => {
    for (const takeoff of jobs) {
      const quote = jobSheets(takeoff, standardPlaces(), 'native', made).find(({ kind }) => kind === 'quote')!
      const [{ row, picture, page }] = quote.drawings as [NonNullable<SheetPlan['drawings']>[number]]
      const tax = quote.cells.find(({ role, value }) => role === 'subtotalLabel' && value === 'Tax')!.row
      expect(laidOut(picture, { ...page, withBar: true }).height, takeoff.design.name).toBeLessThanOrEqual(high(quote, row, tax))
    }
  })
})
