/** The drawings of the pane: words from cells never end an element, labels thin out where tanks are many, figures in the reader's units. */
import { describe, expect, it } from 'vitest'
import { planDrawing } from '../../src/plan/planDrawing.js'
import { sectionDrawing } from '../../src/plan/sectionDrawing.js'
import { yearChart } from '../../src/plan/yearChart.js'
import { demoRows, demoTakeoff, leastRow, takeoffOf } from '../support/office.js'
import { inUnits, type Shown } from '../../taskpane/pane/units.js'

const section = (takeoff: ReturnType<typeof demoTakeoff>, shown: Shown = 'US') => sectionDrawing(takeoff.design, (name) => inUnits(name, takeoff.design.singleOf(name), shown))

describe('the plan', () => {
  it.each(['Pipit Hollow', 'Wicket Mill', 'Ember Yard'])('%s: the pit is drawn to the figures, a rectangle a tank, a circle an opening', (name) => {
    const { design } = demoTakeoff(name)
    const drawing = planDrawing(design, (field) => inUnits(field, design.singleOf(field), 'US'))
    const [, width, height] = /class="fill top"[^>]*width="([\d.]+)" height="([\d.]+)"/.exec(drawing)!
    // The drawing is rounded to hundredths of a point, of some 100 points.
    expect(Number(width) / Number(height)).toBeCloseTo(design.number('PitTopLength_ft') / design.number('PitTopWidth_ft'), 2)
    expect(drawing.match(/class="concrete"/g)).toHaveLength(design.number('TankCount'))
    expect(drawing.match(/<circle/g)).toHaveLength(design.number('OpeningCount'))
  })
})

describe('the section', () => {
  it('holds names with markup as text', () => {
    const Tanks = demoRows('Tanks').map((cells) => (cells.Model === 'Quern 1800' ? { ...cells, Model: 'R&D "1800" <old>' } : cells))
    const drawing = section(takeoffOf({ ...leastRow, TankModel: 'R&D "1800" <old>', RainIntensity_in_per_h: 1 }, { Tanks }))
    expect(drawing).toContain('R&amp;D &quot;1800&quot; &lt;old&gt;')
    expect(drawing).not.toMatch(/R&D|<old>/)
  })
  it('leaves words out of a crowded row and says them below it', () => {
    const words = (tanks: number) => section(takeoffOf({ ...leastRow, TankCount: tanks, RainIntensity_in_per_h: 1 }))
    expect(words(2)).toContain('>tie 4 in<')
    expect(words(8)).not.toContain('>tie 4 in<')
    expect(words(8)).toContain('left: inlet and overflow, 4 in; right: 1 in water line, power')
  })
  it('and the year are in metric units where the reader wants them', () => {
    const takeoff = demoTakeoff('Wicket Mill')
    // The pit of Wicket Mill is 24.33 ft by 14 ft: 7.42 by 4.27 m.
    expect(section(takeoff, 'metric')).toContain('pit 7.42 m × 4.27 m')
    expect(yearChart(takeoff.design, (gallons) => inUnits('Storage_gal', gallons, 'metric'))).toContain('>0 L<')
  })
})
