/**
 * The section through the row of tanks, to scale, from the same numbers as the sheets. The far tank with the inlet
 * stands left, the pump tank towards the house right. Classes carry the look, so that themes and paper can differ.
 */
import type { Design } from '../takeoff/design.js'
import type { JobName } from '../takeoff/names.js'
import { escaped, f, line, rect, text } from './svgParts.js'

const WIDTH = 340
const MARGIN = 8
const GROUND_ABOVE_FT = 2
/** Flat batters run out of the picture: the tanks matter more than the far edge of the pit. */
const MOST_SPREAD_FT = 5

interface Frame {
  x(feet: number): number
  y(depth: number): number
  scale: number
}

/** A field or result with its unit, in the units that the reader chose. */
export type Measure = (name: string) => string
/** Tanks drawn narrower than this leave no room for words beside and in them. */
const CROWDED_PX = 52

export function sectionDrawing(design: Design, measure: Measure): string {
  const n = (name: JobName) => design.number(name)
  const tanks = n('TankCount')
  const [width, height, gap, room, cover, depth, batter] = [
    n('TankWidth_ft'),
    n('TankHeight_ft'),
    n('TankGap_in') / 12,
    n('WorkingRoom_ft'),
    n('Cover_ft'),
    n('PitDepth_ft'),
    n('Batter'),
  ]
  const spread = batter * depth
  const seen = Math.min(spread, MOST_SPREAD_FT)
  const total = n('PitLength_ft') + 2 * seen
  const scale = (WIDTH - 2 * MARGIN) / Math.max(total, 1)
  const frame: Frame = { scale, x: (along) => MARGIN + (along + seen) * scale, y: (below) => MARGIN + 22 + (below + GROUND_ABOVE_FT) * scale }
  const bottom = frame.y(depth)
  const tankX = (at: number) => room + at * (width + gap)
  const wall = n('TankWall_in') / 12
  const base = cover + height
  const parts: string[] = []

  // Earth, pit outline with its batter, and what fills the pit.
  parts.push(rect(0, frame.y(0), WIDTH, bottom - frame.y(0) + 10, 'earth'))
  const pit = [
    [frame.x(-spread), frame.y(0)],
    [frame.x(0), bottom],
    [frame.x(n('PitLength_ft')), bottom],
    [frame.x(n('PitLength_ft') + spread), frame.y(0)],
  ] as const
  parts.push(`<polygon class="fill" points="${pit.map(([x, y]) => `${f(x)},${f(y)}`).join(' ')}"/>`, line(pit, 'pit'))
  parts.push(rect(frame.x(0), frame.y(base), frame.x(n('PitLength_ft')) - frame.x(0), bottom - frame.y(base), 'stone'))
  const pumpEnd = tankX(tanks - 1) + width
  const stoneTop = frame.y(base - n('PumpEndStone_in') / 12)
  parts.push(rect(frame.x(pumpEnd), stoneTop, room * scale, frame.y(base) - stoneTop, 'stone'))

  // Groundwater and ground.
  const groundwater = n('GroundwaterDepth_ft')
  if (groundwater < depth)
    parts.push(
      line(
        [
          [0, frame.y(groundwater)],
          [WIDTH, frame.y(groundwater)],
        ],
        'groundwater',
      ),
    )
  parts.push(
    line(
      [
        [0, frame.y(0)],
        [WIDTH, frame.y(0)],
      ],
      'ground',
    ),
  )

  // Tanks with water, risers, ties.
  const floor = n('TankFloor_in') / 12
  const lid = n('TankLid_in') / 12
  const water = n('TankWaterDepth_ft')
  const waterTop = base - floor - water
  for (let at = 0; at < tanks; at++) {
    const left = frame.x(tankX(at))
    const middle = left + (width * scale) / 2
    parts.push(rect(middle - 0.9 * scale, frame.y(-0.4), 1.8 * scale, (cover + 0.4) * scale, 'riser'))
    parts.push(rect(left, frame.y(cover), width * scale, height * scale, 'concrete'))
    parts.push(rect(left + wall * scale, frame.y(cover + lid), (width - 2 * wall) * scale, (height - floor - lid) * scale, 'air'))
    parts.push(rect(left + wall * scale, frame.y(waterTop), (width - 2 * wall) * scale, water * scale, 'water'))
  }
  const tieDepth = base - floor - 0.4
  for (let at = 0; at < tanks - 1; at++)
    parts.push(
      line(
        [
          [frame.x(tankX(at) + width - wall - 0.25), frame.y(tieDepth)],
          [frame.x(tankX(at + 1) + wall + 0.25), frame.y(tieDepth)],
        ],
        'pipe tie',
        pipeWidth(4.5),
      ),
    )

  // Inlet and overflow at the far tank, water line low in the wall of the pump tank.
  const port = waterTop - 0.15
  const fall = Math.min(0.6, n('InletFall_in') / 12)
  parts.push(
    line(
      [
        [0, frame.y(port - fall)],
        [frame.x(tankX(0) + wall + 0.5), frame.y(port)],
        [frame.x(tankX(0) + wall + 0.5), frame.y(port + 1.2)],
      ],
      'pipe inlet',
      pipeWidth(4.5),
    ),
  )
  parts.push(
    line(
      [
        [0, frame.y(port + 1)],
        [frame.x(-0.6), frame.y(port + 0.25)],
        [frame.x(tankX(0) + wall + 0.4), frame.y(port + 0.2)],
      ],
      'pipe overflow',
      pipeWidth(3),
    ),
  )
  const lineDepth = base - n('LineOverBed_in') / 12
  const pumpX = frame.x(pumpEnd - width * 0.35)
  parts.push(rect(pumpX - 0.25 * scale, frame.y(base - floor - 2.2), Math.max(3, 0.5 * scale), 1.8 * scale, 'pump'))
  parts.push(
    line(
      [
        [pumpX, frame.y(base - floor - 2.2)],
        [pumpX, frame.y(lineDepth)],
        [frame.x(pumpEnd + room), frame.y(lineDepth)],
        [WIDTH, frame.y(Math.max(lineDepth - 2, n('TrenchDepth_in') / 12))],
      ],
      'pipe waterline',
      pipeWidth(1.3),
    ),
  )
  parts.push(
    line(
      [
        [pumpX + 3, frame.y(base - floor - 2)],
        [pumpX + 3, frame.y(0.3)],
        [frame.x(pumpEnd + 0.5), frame.y(0.3)],
        [frame.x(pumpEnd + 0.5), frame.y(n('TrenchDepth_in') / 12)],
        [WIDTH, frame.y(n('TrenchDepth_in') / 12)],
      ],
      'pipe conduit',
      1.5,
    ),
  )

  // Words and dimensions, ticks for arrows.
  const isCrowded = width * scale < CROWDED_PX
  const lineWords = `${design.single('WaterLineSize')} in water line`
  if (groundwater < depth) parts.push(text(WIDTH - 2, frame.y(groundwater) - 3, `groundwater ${measure('GroundwaterDepth_ft')}`, 'label minor', 'end'))
  if (isCrowded) parts.push(text(WIDTH / 2, bottom + 28, `left: inlet and overflow, 4 in; right: ${lineWords}, power`, 'label', 'middle'))
  else {
    parts.push(text(2, frame.y(port - fall) - 4, 'inlet 4 in', 'label'), text(2, frame.y(port + 1) + 10, 'overflow 4 in', 'label'))
    parts.push(text(WIDTH - 2, frame.y(lineDepth) + 10, lineWords, 'label', 'end'))
    parts.push(text(WIDTH - 2, frame.y(0) - 4, 'power in conduit', 'label minor', 'end'))
    if (tanks > 1) parts.push(text((frame.x(tankX(0) + width) + frame.x(tankX(1))) / 2, frame.y(tieDepth) - 6, 'tie 4 in', 'label minor', 'middle'))
    parts.push(text(frame.x(tankX(0) + width / 2), frame.y(waterTop + water * 0.3), measure('TankVolume_gal'), 'label onwater', 'middle'))
    parts.push(text(pumpX - 6, frame.y(base - floor - 1), 'pump', 'label minor', 'end'))
  }
  parts.push(dimension(frame.x(0), frame.x(n('PitLength_ft')), bottom + 14, `pit ${measure('PitLength_ft')} × ${measure('PitWidth_ft')}, ${measure('PitDepth_ft')} deep`))
  const each = isCrowded ? `, ${measure('TankVolume_gal')} each` : ''
  parts.push(text(MARGIN, 12, `${tanks} × ${design.single('TankModel')}${each}, cover ${measure('Cover_ft')}, bed ${measure('BedThickness_in')}`, 'label strong'))

  const height_px = bottom + (isCrowded ? 36 : 24)
  const words = `Section through ${tanks} tanks ${design.single('TankModel')} in a pit ${measure('PitDepth_ft')} deep under ${measure('Cover_ft')} of cover, water ${measure('TankWaterDepth_ft')} deep, inlet and overflow left, pump and water line right.`
  return `<svg class="section" viewBox="0 0 ${WIDTH} ${f(height_px)}" role="img" aria-label="${escaped(words)}" xmlns="http://www.w3.org/2000/svg">${patterns}${parts.join('')}</svg>`

  /** A pipe at its true size, and never so thin that it vanishes. */
  function pipeWidth(inches: number): number {
    return Math.max(2, (inches / 12) * scale)
  }
}

const patterns =
  '<defs><pattern id="stone-pattern" width="7" height="7" patternUnits="userSpaceOnUse"><circle class="pebble" cx="2" cy="2" r="1.1"/><circle class="pebble" cx="5.4" cy="5.2" r="1.1"/></pattern>' +
  '<pattern id="earth-pattern" width="14" height="9" patternUnits="userSpaceOnUse"><path class="dash" d="M1 2h4M8 6h4"/></pattern></defs>'

function dimension(from: number, to: number, y: number, words: string): string {
  return (
    line(
      [
        [from, y],
        [to, y],
      ],
      'dimension',
    ) +
    line(
      [
        [from, y - 3],
        [from, y + 3],
      ],
      'dimension',
    ) +
    line(
      [
        [to, y - 3],
        [to, y + 3],
      ],
      'dimension',
    ) +
    text((from + to) / 2, y - 3, words, 'label', 'middle')
  )
}
