/** The pit seen from above, to scale, from the same figures as the sheets; the house lies to the right. */
import type { Design } from '../../takeoff/design.js'
import type { Measure } from './measure.js'
import { rectangle, type Picture, type Point } from './picture.js'
import { PictureDraft } from './pictureDraft.js'
import { tankRow, type TankPlace } from './tankRow.js'

/** Pipes run out of the picture by so much. */
const BEYOND_FT = 3
/** Where two ports stand side by side on a wall, and the conduit beside the line: for the eye, as a share of the tank's length. */
const ASIDE = 0.28

/** The corners of the pit, measured from the corner of its foot at the far end. */
interface PitPlan {
  length_ft: number
  width_ft: number
  /** How far its top stands out over its foot at the ends, and at the sides. */
  endwise_ft: number
  sidewise_ft: number
  /** Of the picture. */
  left_ft: number
  right_ft: number
}

/** `withCrane` shows where it stands, with its radius: a page has room for it, a pane does not. */
export function planPicture(design: Design, measure: Measure, withCrane = false): Picture {
  const draft = new PictureDraft()
  const row = tankRow(design)
  const pit = pitPlan(design)
  const { length_ft: length, width_ft: width, sidewise_ft: sidewise } = pit
  const fence = design.number('FenceClear_ft')

  drawPit(draft, pit, fence)
  drawDrains(draft, design, pit, row)
  drawLineAndPower(draft, design, pit, row.at(-1)!)
  drawTanks(draft, design, row, width / 2)
  draft.name('above', `top ${measure('PitTopLength_ft')} × ${measure('PitTopWidth_ft')}; nothing heavy within the outer line`, [length / 2, -sidewise], 1)
  draft.name('below', `left: inlet, overflow dashed; right: water line${design.number('ByGravity') === 1 ? '' : ', power'}`, [length / 2, width], 2)
  if (design.number('PortsUsed') > 2) draft.name('below', portWords(design), [length / 2, width], 3)
  return {
    left_ft: pit.left_ft,
    right_ft: pit.right_ft,
    top_ft: -sidewise - fence,
    bottom_ft: withCrane ? drawCrane(draft, design, measure, pit, row[0]!) : width + sidewise + fence,
    shapes: draft.shapes,
    labels: draft.labels,
    heights: [],
    length: { words: `foot of the pit ${measure('PitLength_ft')} × ${measure('PitWidth_ft')}`, from_ft: 0, to_ft: length },
    title: 'Plan, house to the right',
    description: `Plan: ${row.length === 1 ? 'one tank' : `${row.length} tanks`} in a pit of ${measure('PitTopLength_ft')} by ${measure('PitTopWidth_ft')} at its top.`,
  }
}

function pitPlan(design: Design): PitPlan {
  const [length, width] = [design.number('PitLength_ft'), design.number('PitWidth_ft')]
  const endwise = (design.number('PitTopLength_ft') - length) / 2
  return {
    length_ft: length,
    width_ft: width,
    endwise_ft: endwise,
    sidewise_ft: (design.number('PitTopWidth_ft') - width) / 2,
    left_ft: -endwise - BEYOND_FT,
    right_ft: length + endwise + BEYOND_FT,
  }
}

/** Its top, its foot, a line from each corner to the other, and the line that nothing heavy crosses. */
function drawPit(draft: PictureDraft, pit: PitPlan, fence_ft: number): void {
  const { length_ft: length, width_ft: width, endwise_ft: endwise, sidewise_ft: sidewise } = pit
  const [topLength, topWidth] = [length + 2 * endwise, width + 2 * sidewise]
  draft.area('fill', rectangle(-endwise, -sidewise, topLength, topWidth))
  draft.area('stone', rectangle(0, 0, length, width))
  draft.path('spoil', closed(rectangle(-endwise - fence_ft, -sidewise - fence_ft, topLength + 2 * fence_ft, topWidth + 2 * fence_ft)))
  draft.path('pit', closed(rectangle(-endwise, -sidewise, topLength, topWidth)))
  for (const [x, topX] of [
    [0, -endwise],
    [length, length + endwise],
  ] as const)
    for (const [y, topY] of [
      [0, -sidewise],
      [width, width + sidewise],
    ] as const)
      draft.path('hip', [
        [x, y],
        [topX, topY],
      ])
}

/** Inlet and overflow at the far tank; what the far tank has no port for goes past it, in the room beside the row, to the ends of the next one. */
function drawDrains(draft: PictureDraft, design: Design, pit: PitPlan, row: readonly TankPlace[]): void {
  const middle = pit.width_ft / 2
  const room = row[0]!.left_ft
  const aside = design.number('TankLength_ft') * ASIDE
  const outside = design.number('DrainOutside_in')
  const toFarTank = (y: number): readonly Point[] => [
    [pit.left_ft, y],
    [room, y],
  ]
  draft.path('inlet', toFarTank(middle - aside), outside)
  if (design.number('OverflowsAtInlet') > 0) draft.path('overflow', toFarTank(middle + aside), outside)

  const next = row[1]
  if (!next) return
  const nextMiddle = (next.left_ft + next.right_ft) / 2
  const toNextTank = (y: number, wall: number): readonly Point[] => [
    [pit.left_ft, y],
    [nextMiddle, y],
    [nextMiddle, wall],
  ]
  if (design.number('NextPorts') > 0) draft.path('inlet', toNextTank(room / 2, middle - next.length_ft / 2), outside)
  if (design.number('OverflowsNext') > 0) draft.path('overflow', toNextTank(pit.width_ft - room / 2, middle + next.length_ft / 2), outside)
}

function drawLineAndPower(draft: PictureDraft, design: Design, pit: PitPlan, pumpTank: TankPlace): void {
  const toHouse = (y: number): readonly Point[] => [
    [pumpTank.right_ft, y],
    [pit.right_ft, y],
  ]
  const middle = pit.width_ft / 2
  draft.path('waterline', toHouse(middle), design.number('LineOutside_in'))
  if (design.number('ByGravity') === 0) draft.path('conduit', toHouse(middle - (design.number('TankLength_ft') * ASIDE) / 2))
}

function drawTanks(draft: PictureDraft, design: Design, row: readonly TankPlace[], middle: number): void {
  for (const [at, tank] of row.entries()) {
    if (at > 0)
      draft.path(
        'tie',
        [
          [row[at - 1]!.right_ft, middle],
          [tank.left_ft, middle],
        ],
        design.number('TieOutside_in'),
      )
    const side = middle - tank.length_ft / 2
    draft.area('concrete', rectangle(tank.left_ft, side, tank.width_ft, tank.length_ft))
    // A table of tanks may say one and a half.
    const openings = Math.max(1, Math.round(tank.openings))
    for (let opening = 0; opening < openings; opening++)
      draft.circle('air', [tank.left_ft + tank.width_ft / 2, side + ((opening + 0.5) * tank.length_ft) / openings], tank.opening_ft / 2)
  }
}

/** It stands beside the middle of the row, outriggers off the edge; the line leads to the farthest tank. Returns where the picture ends. */
function drawCrane(draft: PictureDraft, design: Design, measure: Measure, pit: PitPlan, farTank: TankPlace): number {
  const base = design.number('OutriggerBase_ft')
  const edge = pit.width_ft + pit.sidewise_ft + design.number('CraneSetback_ft')
  const at: Point = [pit.length_ft / 2, edge + base / 2]
  draft.path('crane', closed(rectangle(at[0] - base / 2, edge, base, base)))
  draft.path('crane', [at, [farTank.left_ft + farTank.width_ft / 2, pit.width_ft / 2]])
  draft.name('below', `${design.text('CraneWords')}: radius ${measure('PickRadius_ft')} to the farthest tank`, at, 1)
  return edge + base
}

/** One inlet and one overflow are seen; of more the ports are counted, tank by tank. */
function portWords(design: Design): string {
  const counted = (count: number, what: string) => (count > 0 ? [`${count} ${what}${count === 1 ? '' : 's'}`] : [])
  const of = (inlets: number, overflows: number) => [...counted(inlets, 'inlet'), ...counted(overflows, 'overflow')].join(', ')
  const [inlets, overflows] = [design.number('NextPorts'), design.number('OverflowsNext')]
  return `far tank ${of(design.number('FarPorts'), design.number('OverflowsAtInlet'))}${inlets + overflows > 0 ? `; next ${of(inlets, overflows)}` : ''}`
}

const closed = (points: readonly Point[]): readonly Point[] => [...points, points[0]!]
