/** The pit seen from above, to scale, from the same figures as the sheets; the house lies to the right. */
import type { Design } from '../../takeoff/design.js'
import type { JobName } from '../../takeoff/names.js'
import { rectangle, type Label, type Picture, type Point, type Shape, type ShapeRole } from './picture.js'
import type { Measure } from './sectionPicture.js'

/** Pipes run out of the picture by so much. */
const BEYOND_FT = 3
/** Where two ports stand side by side on a wall, and the conduit beside the line: for the eye, as a share of the tank's length. */
const ASIDE = 0.28

const LINES = 'left: inlet, overflow dashed; right: water line'
const AND_POWER = ', power'
/** One inlet and one overflow are seen; of more the ports are counted, tank by tank. */
function portWords(n: (name: JobName) => number): string {
  const counted = (count: number, what: string) => (count > 0 ? [`${count} ${what}${count === 1 ? '' : 's'}`] : [])
  const of = (inlets: number, overflows: number) => [...counted(inlets, 'inlet'), ...counted(overflows, 'overflow')].join(', ')
  const next = n('NextPorts') + n('OverflowsNext') > 0 ? `; next ${of(n('NextPorts'), n('OverflowsNext'))}` : ''
  return `far tank ${of(n('FarPorts'), n('OverflowsAtInlet'))}${next}`
}

/** `withCrane` shows where it stands, with its radius: a page has room for it, a pane does not. */
export function planPicture(design: Design, measure: Measure, withCrane = false): Picture {
  const n = (name: JobName) => design.number(name)
  const [topLength, topWidth, length, width] = [n('PitTopLength_ft'), n('PitTopWidth_ft'), n('PitLength_ft'), n('PitWidth_ft')]
  const [tanks, tankLength, tankWidth, gap, room] = [n('TankCount'), n('TankLength_ft'), n('TankWidth_ft'), n('TankGap_in') / 12, n('WorkingRoom_ft')]
  const [endwise, sidewise] = [(topLength - length) / 2, (topWidth - width) / 2]
  const shapes: Shape[] = []
  const path = (role: ShapeRole, points: readonly Point[], outside_in?: number) => shapes.push({ kind: 'path', role, points, ...(outside_in === undefined ? {} : { outside_in }) })
  const area = (role: ShapeRole, points: readonly Point[]) => shapes.push({ kind: 'area', role, points })
  const [left, right] = [-endwise - BEYOND_FT, length + endwise + BEYOND_FT]
  const fence = n('FenceClear_ft')
  const hasPump = n('ByGravity') === 0

  area('fill', rectangle(-endwise, -sidewise, topLength, topWidth))
  area('stone', rectangle(0, 0, length, width))
  path('spoil', closed(rectangle(-endwise - fence, -sidewise - fence, topLength + 2 * fence, topWidth + 2 * fence)))
  path('pit', closed(rectangle(-endwise, -sidewise, topLength, topWidth)))
  for (const [x, outX] of [
    [0, -endwise],
    [length, length + endwise],
  ] as const)
    for (const [y, outY] of [
      [0, -sidewise],
      [width, width + sidewise],
    ] as const)
      path('hip', [
        [x, y],
        [outX, outY],
      ])
  const middle = width / 2
  const second = n('SecondTanks')
  /** The tanks of the second model stand at the far end, left. */
  const sizeOf = (at: number) =>
    (at < second
      ? [n('SecondLength_ft'), n('SecondWidth_ft'), n('SecondOpenings'), n('SecondOpening_in')]
      : [tankLength, tankWidth, n('TankOpenings'), n('TankOpening_in')]) as readonly [number, number, number, number]
  const near = room + n('RowLength_ft')
  const aside = tankLength * ASIDE
  const drain = n('DrainOutside_in')
  path(
    'inlet',
    [
      [left, middle - aside],
      [room, middle - aside],
    ],
    drain,
  )
  if (n('OverflowsAtInlet') > 0)
    path(
      'overflow',
      [
        [left, middle + aside],
        [room, middle + aside],
      ],
      drain,
    )
  // Past the far tank, in the room beside the row, to the ends of the next one.
  const ofNext = sizeOf(1)
  const nextMiddle = room + sizeOf(0)[1] + gap + ofNext[1] / 2
  for (const [role, ports, outside, wall] of [
    ['inlet', n('NextPorts'), room / 2, (width - ofNext[0]) / 2],
    ['overflow', n('OverflowsNext'), width - room / 2, (width + ofNext[0]) / 2],
  ] as const)
    if (ports > 0)
      path(
        role,
        [
          [left, outside],
          [nextMiddle, outside],
          [nextMiddle, wall],
        ],
        drain,
      )
  path(
    'waterline',
    [
      [near, middle],
      [right, middle],
    ],
    n('LineOutside_in'),
  )
  if (hasPump)
    path('conduit', [
      [near, middle - aside / 2],
      [right, middle - aside / 2],
    ])
  let from = room
  for (let at = 0; at < tanks; at++) {
    const [long, wide, count, opening] = sizeOf(at)
    if (at)
      path(
        'tie',
        [
          [from - gap, middle],
          [from, middle],
        ],
        n('TieOutside_in'),
      )
    area('concrete', rectangle(from, (width - long) / 2, wide, long))
    const openings = Math.max(1, Math.round(count))
    for (let one = 0; one < openings; one++)
      shapes.push({
        kind: 'circle',
        role: 'air',
        at: [from + wide / 2, (width - long) / 2 + ((one + 0.5) * long) / openings],
        radius_ft: opening / 24,
      })
    from += wide + gap
  }
  const labels: Label[] = [
    { lane: 'above', words: `top ${measure('PitTopLength_ft')} × ${measure('PitTopWidth_ft')}; nothing heavy within the outer line`, at: [length / 2, -sidewise], importance: 1 },
    { lane: 'below', words: hasPump ? LINES + AND_POWER : LINES, at: [length / 2, width], importance: 2 },
    ...(n('PortsUsed') > 2 ? [{ lane: 'below' as const, words: portWords(n), at: [length / 2, width] as Point, importance: 3 }] : []),
  ]
  let bottom = width + sidewise + fence
  if (withCrane) bottom = crane()
  return {
    left_ft: left,
    right_ft: right,
    top_ft: -sidewise - fence,
    bottom_ft: bottom,
    shapes,
    labels,
    heights: [],
    length: { words: `foot of the pit ${measure('PitLength_ft')} × ${measure('PitWidth_ft')}`, from_ft: 0, to_ft: length },
    title: 'Plan, house to the right',
    description: `Plan: ${tanks === 1 ? 'one tank' : `${tanks} tanks`} in a pit of ${measure('PitTopLength_ft')} by ${measure('PitTopWidth_ft')} at its top.`,
  }

  /** It stands beside the middle of the row, outriggers off the edge; the line leads to the farthest tank. */
  function crane(): number {
    const base = n('OutriggerBase_ft')
    const edge = width + sidewise + n('CraneSetback_ft')
    const at: Point = [length / 2, edge + base / 2]
    path('crane', closed(rectangle(at[0] - base / 2, edge, base, base)))
    path('crane', [at, [room + sizeOf(0)[1] / 2, middle]])
    labels.push({ lane: 'below', words: `${design.text('CraneWords')}: radius ${measure('PickRadius_ft')} to the farthest tank`, at, importance: 1 })
    return edge + base
  }
}

const closed = (points: readonly Point[]): readonly Point[] => [...points, points[0]!]
