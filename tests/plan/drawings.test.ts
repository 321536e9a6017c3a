/** The drawings: to the figures of the job, no label on another, words from cells never end an element, figures in the reader's units. */
import { describe, expect, it } from 'vitest'
import { laidOut, type Picture, type Shape } from '../../src/plan/drawing/picture.js'
import { planPicture } from '../../src/plan/drawing/planPicture.js'
import { sectionPicture } from '../../src/plan/drawing/sectionPicture.js'
import { svgPicture } from '../../src/plan/drawing/svgPicture.js'
import { yearPicture } from '../../src/plan/drawing/yearPicture.js'
import { rowHeights } from '../../src/plan/heights.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import type { Design } from '../../src/takeoff/design.js'
import { demoRows, demoTakeoff, leastRow, takeoffOf } from '../support/office.js'
import { PICTURE_WIDTH } from '../../taskpane/pane/jobView.js'
import { inUnits, type Shown } from '../../taskpane/pane/units.js'

const measureOf =
  (design: Design, shown: Shown = 'US') =>
  (name: string) =>
    inUnits(name, design.singleOf(name), shown)
const section = (design: Design, shown: Shown = 'US') => sectionPicture(design, measureOf(design, shown))
const plan = (design: Design, shown: Shown = 'US') => planPicture(design, measureOf(design, shown))
const areas = (picture: Picture, role: Shape['role']) =>
  picture.shapes.flatMap((shape) => {
    if (shape.kind !== 'area' || shape.role !== role) return []
    const [xs, ys] = [shape.points.map(([x]) => x), shape.points.map(([, y]) => y)]
    return [{ left: Math.min(...xs), top: Math.min(...ys), width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys) - Math.min(...ys) }]
  })

describe('the year', () => {
  it.each(demoRows('Jobs').map(({ Job }) => String(Job)))('%s: no word runs out of the pane, in either unit', (name) => {
    const { design } = demoTakeoff(name)
    for (const shown of ['US', 'metric'] as const) {
      const { texts } = laidOut(
        yearPicture(design, (gallons) => inUnits('Storage_gal', gallons, shown)),
        { size: 11, width: PICTURE_WIDTH },
      )
      const [left, right] = texts.reduce(
        ([least, most], { x, width, anchor }) => {
          const from = anchor === 'end' ? x - width : x - width / 2
          return [Math.min(least, from), Math.max(most, from + width)]
        },
        [Infinity, -Infinity],
      )
      // The widest words begin at the edge, but for the last digit of a sum.
      expect(left).toBeGreaterThan(-1e-9)
      expect(right).toBeLessThanOrEqual(PICTURE_WIDTH)
    }
  })
})

describe('the plan', () => {
  it.each(['Pipit Hollow', 'Wicket Mill', 'Ember Yard'])('%s: pit top as figured, a rectangle a tank, a circle an opening of its size', (name) => {
    const { design } = demoTakeoff(name)
    const [top] = areas(plan(design), 'fill')
    expect(top!.width).toBeCloseTo(design.number('PitTopLength_ft'), 9)
    expect(top!.height).toBeCloseTo(design.number('PitTopWidth_ft'), 9)
    expect(areas(plan(design), 'concrete')).toHaveLength(design.number('TankCount'))
    const openings = plan(design).shapes.flatMap((shape) => (shape.kind === 'circle' ? [shape.radius_ft] : []))
    expect(openings).toHaveLength(design.number('OpeningCount'))
    // 24 in openings in all tanks of the demo.
    expect(new Set(openings)).toEqual(new Set([1]))
  })
})

describe('the section', () => {
  it('is to scale both ways: tanks, risers as wide as their opening with 3 in of wall, the pit’s foot', () => {
    const { design } = demoTakeoff('Wicket Mill')
    const picture = section(design)
    // Three tanks of 6 by 6.5 ft under 3 ft of cover; openings of 24 in.
    expect(areas(picture, 'concrete').map(({ width, height, top }) => [width, height, top])).toEqual([
      [6, 6.5, 3],
      [6, 6.5, 3],
      [6, 6.5, 3],
    ])
    for (const { width } of areas(picture, 'riser')) expect(width).toBeCloseTo(2 + 0.5, 12)
    const layout = laidOut(picture, { size: 11, width: 340 })
    expect((layout.x(6) - layout.x(0)) / (layout.y(6) - layout.y(0))).toBeCloseTo(1, 12)
    const { length } = picture
    expect(length.to_ft - length.from_ft).toBeCloseTo(design.number('PitLength_ft'), 12)
  })
  it('holds names with markup as text', () => {
    const Tanks = demoRows('Tanks').map((cells) => (cells.Model === 'Quern 1800' ? { ...cells, Model: 'R&D "18" <old>' } : cells))
    const { design } = takeoffOf({ ...leastRow, TankModel: 'R&D "18" <old>', RainIntensity_in_per_h: 1 }, { Tanks })
    const drawing = svgPicture(section(design), 'section', 340)
    expect(drawing).toContain('R&amp;D &quot;18&quot; &lt;old&gt;')
    expect(drawing).not.toMatch(/R&D|<old>/)
  })
  it('and the year are in metric units where the reader wants them', () => {
    const takeoff = demoTakeoff('Wicket Mill')
    // The pit of Wicket Mill is 24.33 ft by 14 ft: 7.42 by 4.27 m.
    expect(section(takeoff.design, 'metric').length.words).toContain('pit 7.42 m × 4.27 m')
    expect(yearPicture(takeoff.design, (gallons) => inUnits('Storage_gal', gallons, 'metric')).heights[0]!.words).toMatch(/^[\d,]+ L$/)
  })
})

describe('labels', () => {
  const jobs = [1, 2, 3, 5, 8, 12].flatMap((TankCount) =>
    [0.5, 2, 4].flatMap((Cover_ft) =>
      [
        { SoilClass: 'rock', GroundwaterDepth_ft: 200 },
        { SoilClass: 'B', GroundwaterDepth_ft: 5 },
        { SoilClass: 'C', GroundwaterDepth_ft: 2 },
      ].map((ground) => ({ TankCount, Cover_ft, ...ground })),
    ),
  )
  it('never lie on each other, on the shapes, or beyond the page, from 1 to 12 tanks, in feet and metres, in the pane and on paper', () => {
    for (const job of jobs) {
      const { design } = takeoffOf({ ...leastRow, RainIntensity_in_per_h: 1, ...job })
      for (const shown of ['US', 'metric'] as const)
        for (const picture of [section(design, shown), plan(design, shown), planPicture(design, measureOf(design, shown), true)])
          for (const page of [
            { size: 11, width: 340 },
            { size: 9, width: 486, scale: 4.5, withBar: true },
          ]) {
            const layout = laidOut(picture, page)
            const boxes = layout.texts.map(({ words, x, y, width, anchor }) => {
              const left = anchor === 'middle' ? x - width / 2 : x - width
              return { words, left, right: left + width, top: y - page.size / 2, bottom: y + page.size / 2 }
            })
            const about = JSON.stringify({ job, shown, page })
            for (const [at, one] of boxes.entries()) {
              // A hundredth of a unit: sums in another order.
              expect(one.left, `${about} ${one.words}`).toBeGreaterThan(-0.01)
              expect(one.right, `${about} ${one.words}`).toBeLessThan(page.width + 0.01)
              for (const other of boxes.slice(at + 1)) {
                const isApart = one.right <= other.left || other.right <= one.left || one.bottom <= other.top || other.bottom <= one.top
                expect(isApart, `${about}: "${one.words}" on "${other.words}"`).toBe(true)
              }
              const isOnShapes = one.right > layout.x(picture.left_ft) && one.bottom > layout.y(picture.top_ft) && one.top < layout.y(picture.bottom_ft)
              expect(isOnShapes, `${about}: "${one.words}" on the picture`).toBe(false)
            }
          }
    }
  })
})

describe('on the Design sheet', () => {
  it.each([1, 3, 6, 12])('%d tanks: section and plan stand in one row, which no page cuts, and is as high as they are', (TankCount) => {
    const takeoff = takeoffOf({ ...leastRow, TankCount, PumpModel: 'Lark 150' })
    const design = jobSheets(takeoff, standardPlaces(), 'native', { date: '2026-11-26', revision: 1, version: 'test' }).find(({ kind }) => kind === 'design')!
    const [first, second, ...more] = design.drawings!
    expect(more).toEqual([])
    expect(second!.row).toBe(first!.row)
    expect(design.cells.filter(({ row }) => row === first!.row)).toEqual([])
    const height = rowHeights(design).get(first!.row)!
    for (const { picture, page, ownRow_pt } of design.drawings!) expect(laidOut(picture, { ...page, withBar: true }).height + 2 * ownRow_pt!).toBeLessThanOrEqual(height)
    // Excel makes no row higher, and a page of letter laid across holds 540 points between its margins, heading included.
    expect(height).toBeLessThan(409)
    const columns = design.widths.slice(0, second!.column - 1).reduce((sum, width) => sum + width, 0)
    // One unit of a column's width is 5 points at the least.
    expect(first!.page.width).toBeLessThan((columns - design.widths[0]!) * 5)
  })
})
