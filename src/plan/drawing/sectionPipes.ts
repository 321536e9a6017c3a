/** Pipes and power in section: inlet and overflow at the far tank, the water line and the conduit at the pump's. */
import type { Design } from '../../takeoff/design.js'
import type { Measure } from './measure.js'
import { rectangle, type Point } from './picture.js'
import type { PictureDraft } from './pictureDraft.js'
import type { PitSection } from './sectionPit.js'
import { floorTop_ft } from './sectionTanks.js'
import type { TankPlace } from './tankRow.js'

/** Length of a house pump of 4 in: common practice, no source. */
const PUMP_FT = 2

/** The inlet falls to the far tank and is turned up low over its floor; the overflow leaves at the water's height. */
export function drawDrains(draft: PictureDraft, design: Design, measure: Measure, pit: PitSection, farTank: TankPlace): void {
  const n = design.number.bind(design)
  const [left, floor, outside] = [pit.left_ft, floorTop_ft(design), n('DrainOutside_in')]
  const inside = farTank.left_ft + farTank.wall_ft
  const drop = inside + 0.6
  const axis = n('PortInvert_ft') - outside / 24
  const overflowAxis = axis + outside / 12
  const reach = drop - left
  // As steep as it is laid, as far as the picture goes: the ground is drawn level.
  const rise = Math.min((n('InletSlope_in_per_ft') / 12) * reach, Math.max(0, axis - outside / 12))
  const fall = Math.min((n('OverflowSlope_in_per_ft') / 12) * reach, pit.depth_ft - axis)
  draft.path(
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
  draft.path(
    'overflow',
    [
      [left, overflowAxis + fall],
      [inside + 0.3, overflowAxis],
    ],
    outside,
  )
  const size = measure('DrainSize_in')
  const ports = (count: number) => (count > 1 ? `, ${count} ports` : '')
  draft.name('above', `inlet ${size}${ports(n('InletPorts'))}`, [left + 1, axis - (rise * (reach - 1)) / reach], 3)
  draft.name('below', `overflow ${size}, dashed${ports(n('OverflowCount'))}`, [left + 1, overflowAxis], 4)
}

/** The pump hangs on its fitting at the height of the line, the rod to the lid; power leaves through the riser's side and goes down outside the tank's edge. By gravity the line alone leaves the tank. */
export function drawLineAndPower(draft: PictureDraft, design: Design, pit: PitSection, pumpTank: TankPlace): void {
  const n = design.number.bind(design)
  const [at, trench, outside, rim] = [n('LineCentre_ft'), n('TrenchDepth_in') / 12, n('LineOutside_in'), n('RiserRim_ft')]
  const edge = pumpTank.right_ft
  const isByGravity = n('ByGravity') === 1
  // By gravity it falls all the way: the ground, drawn level, falls with it.
  const end = isByGravity ? Math.max(at, trench) : trench
  // From the tank's wall to the house, over the stone and up the slope of the pit.
  const lineOut: readonly Point[] = [
    [pit.length_ft, at],
    [pit.length_ft + pit.out_ft(Math.min(at, end)), Math.min(at, end)],
    [pit.right_ft, end],
  ]
  draft.name('above', `${String(design.single('WaterLineSize'))} in water line`, [pit.right_ft - 0.5, end], 2)
  if (isByGravity) {
    draft.path('waterline', [[edge - pumpTank.wall_ft, at], ...lineOut], outside)
    return
  }
  const pump = edge - pumpTank.width_ft / 2
  const pumpTop = floorTop_ft(design) - n('Intake_in') / 12 - PUMP_FT
  draft.area('pump', rectangle(pump - 0.2, pumpTop, 0.4, PUMP_FT))
  draft.path('rod', [
    [pump, Math.min(at, pumpTop)],
    [pump, rim + 0.1],
  ])
  draft.path('waterline', [[pump, pumpTop], [pump, at], ...lineOut], outside)
  // Laid on the lid, with the cover that its verdict judges.
  const conduit = n('ConduitHas_in') / 12
  const pastEdge = edge + n('PastEdge_ft')
  draft.path('conduit', [
    [pump + 0.3, pumpTop + 0.3],
    [pump + 0.3, conduit],
    [pastEdge, conduit],
    [pastEdge, trench],
    [pit.right_ft, trench],
  ])
  draft.name('above', 'power in conduit', [pastEdge, conduit + (trench - conduit) / 2], 4)
  draft.name('above', 'pump under its riser', [pump, rim], 3)
}
