/** The section through the row of tanks, to scale both ways, from the same figures as the sheets. The far tank with the inlet stands left, the house lies to the right. */
import type { Design } from '../../takeoff/design.js'
import type { JobName } from '../../takeoff/names.js'
import { rectangle, type Height, type Label, type Picture, type Point, type Shape, type ShapeRole } from './picture.js'

/** A field or result with its unit, in the units that the reader chose. */
export type Measure = (name: JobName) => string

/** Flat batters run far out: beyond this the earth is cut with a break mark, and the tanks stay large enough to see. */
const MOST_SPREAD_FT = 9
const SKY_FT = 1
const UNDER_FT = 1
/** Length of a house pump of 4 in: common practice, no source. */
const PUMP_FT = 2

export function sectionPicture(design: Design, measure: Measure): Picture {
  const n = (name: JobName) => design.number(name)
  const [tanks, width, gap, room] = [n('TankCount'), n('TankWidth_ft'), n('TankGap_in') / 12, n('WorkingRoom_ft')]
  const [length, depth, batter] = [n('PitLength_ft'), n('PitBottom_ft'), n('Batter')]
  const [lids, bed] = [n('LidTop_ft'), n('BedTop_ft')]
  const spread = batter * depth
  const seen = Math.min(spread, MOST_SPREAD_FT)
  const isCut = seen < spread
  const [left, right] = [-seen - 2, length + seen + 2]
  /** Tanks of the second model stand at the far end, left. */
  const second = n('SecondTanks')
  const isSecond = (at: number) => at < second
  const widthOf = (at: number) => (isSecond(at) ? n('SecondWidth_ft') : width)
  const wallOf = (at: number) => n(isSecond(at) ? 'SecondWall_in' : 'TankWall_in') / 12
  const tankLeft = (at: number): number => (at === 0 ? room : tankLeft(at - 1) + widthOf(at - 1) + gap)
  const floor = bed - n('TankFloor_in') / 12
  const shapes: Shape[] = []
  const labels: Label[] = []
  const area = (role: ShapeRole, points: readonly Point[]) => shapes.push({ kind: 'area', role, points })
  const path = (role: ShapeRole, points: readonly Point[], outside_in?: number) => shapes.push({ kind: 'path', role, points, ...(outside_in === undefined ? {} : { outside_in }) })
  const name = (lane: Label['lane'], words: string, at: Point, importance: number) => labels.push({ lane, words, at, importance })
  /** Where the sloped wall of the pit stands at a depth, measured from the pit's foot. */
  const out = (at: number) => Math.min(seen, batter * (depth - at))

  area('earth', rectangle(left, 0, right - left, depth + UNDER_FT))
  const cut = isCut ? depth - seen / batter : 0
  area('fill', [
    [-seen, 0],
    [-seen, cut],
    [0, depth],
    [length, depth],
    [length + seen, cut],
    [length + seen, 0],
  ])
  area('stone', [
    [-out(bed), bed],
    [0, depth],
    [length, depth],
    [length + out(bed), bed],
  ])
  const pumpEnd = tankLeft(tanks - 1) + width
  const stoneTop = Math.max(lids, bed - n('PumpEndStone_in') / 12)
  area('stone', [
    [pumpEnd, stoneTop],
    [pumpEnd, bed],
    [length + out(bed), bed],
    [length + out(stoneTop), stoneTop],
  ])
  path('pit', [
    [-seen, cut],
    [0, depth],
    [length, depth],
    [length + seen, cut],
  ])
  if (isCut)
    for (const [at, way] of [
      [-seen, -1],
      [length + seen, 1],
    ] as const)
      breakMark(at, cut, way)
  path('ground', [
    [left, 0],
    [right, 0],
  ])
  const groundwater = n('GroundwaterDepth_ft')
  const isWet = design.single('GroundwaterGiven') === 'as given' && groundwater < depth + UNDER_FT
  if (isWet) {
    path('groundwater', [
      [left, groundwater],
      [right, groundwater],
    ])
    area('groundwater', [
      [right - 1.2, groundwater - 0.5],
      [right - 0.6, groundwater - 0.5],
      [right - 0.9, groundwater],
    ])
    name('below', `groundwater ${measure('GroundwaterDepth_ft')} down`, [right - 0.9, groundwater], 2)
  }

  const [level, rim] = [n('WaterLevel_ft'), n('RiserRim_ft')]
  for (let at = 0; at < tanks; at++) {
    const [wide, wall, opening] = [widthOf(at), wallOf(at), n(isSecond(at) ? 'SecondOpening_in' : 'TankOpening_in') / 12]
    const middle = tankLeft(at) + wide / 2
    const side = n('RiserWall_in') / 12
    area('riser', rectangle(middle - opening / 2 - side, rim, opening + 2 * side, lids - rim))
    area('air', rectangle(middle - opening / 2, rim, opening, lids - rim))
    area('concrete', rectangle(tankLeft(at), lids, wide, bed - lids))
    area('air', rectangle(tankLeft(at) + wall, lids + n('TankLid_in') / 12, wide - 2 * wall, floor - lids - n('TankLid_in') / 12))
    area('air', rectangle(middle - opening / 2, lids, opening, n('TankLid_in') / 12))
    area('water', rectangle(tankLeft(at) + wall, level, wide - 2 * wall, floor - level))
  }
  const [tie, stub] = [n('TieCentre_ft'), n('TieStub_in') / 12]
  for (let at = 0; at < tanks - 1; at++)
    path(
      'tie',
      [
        [tankLeft(at) + widthOf(at) - wallOf(at) - stub, tie],
        [tankLeft(at + 1) + wallOf(at + 1) + stub, tie],
      ],
      n('TieOutside_in'),
    )

  drains()
  lineAndPower()
  const each = n('TankOpenings') > 1 ? `, ${n('TankOpenings')} openings${tanks > 1 ? ' each' : ''}` : ''
  const models = second
    ? `${n('FirstTanks')} × ${String(design.single('TankModel'))} right, ${second} × ${String(design.single('SecondModel'))} left, ${measure('Storage_gal')}`
    : `${tanks} × ${String(design.single('TankModel'))}, ${measure('TankVolume_gal')}${tanks > 1 ? ' each' : ''}${each}`
  name('below', models, [length / 2, bed], 1)
  if (tanks > 1) name('below', `tied by 4 in pipe ${measure('TieCentre_ft')} down`, [tankLeft(0) + widthOf(0) + gap / 2, tie], 3)
  name('below', `stone bed ${measure('BedThickness_in')}`, [pumpEnd + room / 2, bed], 5)
  const heights: Height[] = [
    ...(n('Cover_ft') > 0 ? [{ words: `cover ${measure('Cover_ft')}`, from_ft: 0, to_ft: lids }] : []),
    { words: `tank ${measure('TankHeight_ft')}`, from_ft: lids, to_ft: bed },
  ]
  return {
    left_ft: left,
    right_ft: right,
    top_ft: Math.min(rim, -SKY_FT),
    bottom_ft: depth + UNDER_FT,
    shapes,
    labels,
    heights,
    length: { words: `pit ${measure('PitLength_ft')} × ${measure('PitWidth_ft')} at its foot, ${measure('PitDepth_ft')} deep`, from_ft: 0, to_ft: length },
    title: 'Section, house to the right',
    description: `Section through ${tanks === 1 ? 'one tank' : `${tanks} tanks`} ${design.text('Models')} in a pit ${measure('PitDepth_ft')} deep under ${measure('Cover_ft')} of cover, water ${measure('TankWaterDepth_ft')} deep, inlet and overflow left, ${n('ByGravity') === 1 ? '' : 'pump and '}water line right.`,
  }

  function breakMark(at: number, top: number, way: number): void {
    path('break', [
      [at, -0.6],
      [at, top * 0.35],
      [at + way * 0.5, top * 0.45],
      [at - way * 0.5, top * 0.6],
      [at, top * 0.7],
      [at, top + 0.4],
    ])
  }

  /** The inlet falls to the far tank and is turned up low over its floor; the overflow leaves at the water's height. */
  function drains(): void {
    const outside = n('DrainOutside_in')
    const wall = wallOf(0)
    const drop = tankLeft(0) + wall + 0.6
    const axis = n('PortInvert_ft') - outside / 24
    const reach = drop - left
    // As steep as it is laid, as far as the picture goes: the ground is drawn level.
    const rise = Math.min((n('InletSlope_in_per_ft') / 12) * reach, Math.max(0, axis - outside / 12))
    const fall = Math.min((n('OverflowSlope_in_per_ft') / 12) * reach, depth - axis)
    path(
      'inlet',
      [
        [left, axis - rise],
        [drop, axis],
        [drop, floor - 0.7],
        [drop + 0.8, floor - 0.7],
        [drop + 0.8, floor - 1.2],
      ],
      outside,
    )
    path(
      'overflow',
      [
        [left, axis + fall + outside / 12],
        [tankLeft(0) + wall + 0.3, axis + outside / 12],
      ],
      outside,
    )
    const size = measure('DrainSize_in')
    name('above', n('InletPorts') > 1 ? `inlet ${size}, ${n('InletPorts')} ports` : `inlet ${size}`, [left + 1, axis - (rise * (reach - 1)) / reach], 3)
    name('below', n('OverflowCount') > 1 ? `overflow ${size}, dashed, ${n('OverflowCount')} ports` : `overflow ${size}, dashed`, [left + 1, axis + outside / 12], 4)
  }

  /** The pump hangs on its fitting at the height of the line, the rod to the lid; power leaves through the riser's side and goes down outside the tank's edge. */
  function lineAndPower(): void {
    const at = n('LineCentre_ft')
    const trench = n('TrenchDepth_in') / 12
    const outside = n('LineOutside_in')
    name('above', `${String(design.single('WaterLineSize'))} in water line`, [right - 0.5, trench], 2)
    if (n('ByGravity') === 1) {
      path('waterline', [[pumpEnd - wallOf(tanks - 1), at], ...lineOut(at, trench)], outside)
      return
    }
    const pump = pumpEnd - width / 2
    const pumpTop = floor - n('Intake_in') / 12 - PUMP_FT
    area('pump', rectangle(pump - 0.2, pumpTop, 0.4, PUMP_FT))
    path('rod', [
      [pump, Math.min(at, pumpTop)],
      [pump, rim + 0.1],
    ])
    path('waterline', [[pump, pumpTop], [pump, at], ...lineOut(at, trench)], outside)
    // Laid on the lid, with the cover that its verdict judges.
    const conduit = n('ConduitHas_in') / 12
    path('conduit', [
      [pump + 0.3, pumpTop + 0.3],
      [pump + 0.3, conduit],
      [pumpEnd + n('PastEdge_ft'), conduit],
      [pumpEnd + n('PastEdge_ft'), trench],
      [right, trench],
    ])
    name('above', 'power in conduit', [pumpEnd + n('PastEdge_ft'), conduit + (trench - conduit) / 2], 4)
    name('above', 'pump under its riser', [pump, rim], 3)
  }

  /** The line from the tank's wall to the house, over the stone and up the slope of the pit. */
  function lineOut(at: number, trench: number): readonly Point[] {
    return [
      [length, at],
      [length + out(Math.min(at, trench)), Math.min(at, trench)],
      [right, trench],
    ]
  }
}
