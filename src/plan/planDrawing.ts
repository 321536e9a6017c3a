/** The pit seen from above, to scale, from the same numbers as the sheets; the house lies to the right. */
import type { Design } from '../takeoff/design.js'
import type { JobName } from '../takeoff/names.js'
import type { Measure } from './sectionDrawing.js'
import { escaped, f, line, rect, text } from './svgParts.js'

const WIDTH = 340
const MARGIN = 8
/** Room for words above and below the pit. */
const LANE = 18
/** A long narrow pit is drawn as wide as the picture, a square one no higher than this. */
const MOST_HEIGHT = 150

export function planDrawing(design: Design, measure: Measure): string {
  const n = (name: JobName) => design.number(name)
  const [topLength, topWidth, length, width] = [n('PitTopLength_ft'), n('PitTopWidth_ft'), n('PitLength_ft'), n('PitWidth_ft')]
  const scale = Math.min((WIDTH - 2 * MARGIN) / topLength, MOST_HEIGHT / topWidth)
  const middle = WIDTH / 2
  const centre = LANE + (topWidth * scale) / 2
  const x = (along: number) => middle + (along - length / 2) * scale
  const y = (across: number) => centre + (across - width / 2) * scale
  const batter = (topLength - length) / 2
  const area = (left: number, top: number, long: number, wide: number, kind: string) => rect(x(left), y(top), long * scale, wide * scale, kind)
  const stretch = (x1: number, y1: number, x2: number, y2: number, kind: string) =>
    line(
      [
        [x1, y1],
        [x2, y2],
      ],
      kind,
    )
  const [tanks, tankLength, tankWidth, gap, room] = [n('TankCount'), n('TankLength_ft'), n('TankWidth_ft'), n('TankGap_in') / 12, n('WorkingRoom_ft')]
  const parts = [area(-batter, (width - topWidth) / 2, topLength, topWidth, 'fill top'), area(0, 0, length, width, 'air bottom')]
  for (const [along, out] of [
    [0, -batter],
    [length, length + batter],
  ] as const)
    for (const [across, off] of [
      [0, (width - topWidth) / 2],
      [width, (width + topWidth) / 2],
    ] as const)
      parts.push(stretch(x(along), y(across), x(out), y(off), 'pit hip'))
  const tieY = y(width / 2)
  for (let at = 0; at < tanks; at++) {
    const left = room + at * (tankWidth + gap)
    if (at) parts.push(stretch(x(left - gap), tieY, x(left), tieY, 'pipe tie'))
    parts.push(area(left, (width - tankLength) / 2, tankWidth, tankLength, 'concrete'))
    const openings = Math.max(1, Math.round(n('TankOpenings')))
    for (let one = 0; one < openings; one++) {
      const across = (width - tankLength) / 2 + ((one + 0.5) * tankLength) / openings
      parts.push(`<circle class="air" cx="${f(x(left + tankWidth / 2))}" cy="${f(y(across))}" r="${f((n('TankOpening_in') / 24) * scale)}"/>`)
    }
  }
  const far = x(room)
  const near = x(room + tanks * tankWidth + (tanks - 1) * gap)
  const [edge, house] = [middle - (topLength * scale) / 2, middle + (topLength * scale) / 2]
  const third = (tankLength / 3) * scale
  parts.push(
    stretch(edge - MARGIN + 1, tieY - third, far, tieY - third, 'pipe inlet'),
    stretch(edge - MARGIN + 1, tieY + third, far, tieY + third, 'pipe overflow'),
    stretch(near, tieY, house + MARGIN - 1, tieY, 'pipe waterline'),
    stretch(near, tieY - third / 2, house + MARGIN - 1, tieY - third / 2, 'pipe conduit'),
    text(middle, LANE - 6, `top ${measure('PitTopLength_ft')} × ${measure('PitTopWidth_ft')}, house to the right`, 'label', 'middle'),
    text(middle, LANE + topWidth * scale + 13, `bottom ${measure('PitLength_ft')} × ${measure('PitWidth_ft')}`, 'label', 'middle'),
  )
  const height = Math.ceil(2 * LANE + topWidth * scale)
  const title = `Plan: ${tanks} ${tanks === 1 ? 'tank' : 'tanks'} in a pit of ${measure('PitTopLength_ft')} by ${measure('PitTopWidth_ft')} at its top`
  return `<svg xmlns="http://www.w3.org/2000/svg" class="section plan" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-label="${escaped(title)}">${parts.join('')}</svg>`
}
