/** The tanks in section: risers, walls, the air and the water in them, and the ties low between them. */
import type { Design } from '../../takeoff/design.js'
import { rectangle } from './picture.js'
import type { PictureDraft } from './pictureDraft.js'
import type { TankPlace } from './tankRow.js'

/** The inside of the floor. */
export const floorTop_ft = (design: Design): number => design.number('BedTop_ft') - design.number('TankFloor_in') / 12

export function drawTanks(draft: PictureDraft, design: Design, row: readonly TankPlace[]): void {
  const [lids, bed, level, rim] = [design.number('LidTop_ft'), design.number('BedTop_ft'), design.number('WaterLevel_ft'), design.number('RiserRim_ft')]
  const [lid, side, floor] = [design.number('TankLid_in') / 12, design.number('RiserWall_in') / 12, floorTop_ft(design)]
  for (const { left_ft: left, width_ft: width, wall_ft: wall, opening_ft: opening } of row) {
    const middle = left + width / 2
    const inside = width - 2 * wall
    draft.area('riser', rectangle(middle - opening / 2 - side, rim, opening + 2 * side, lids - rim))
    draft.area('air', rectangle(middle - opening / 2, rim, opening, lids - rim))
    draft.area('concrete', rectangle(left, lids, width, bed - lids))
    draft.area('air', rectangle(left + wall, lids + lid, inside, floor - lids - lid))
    draft.area('air', rectangle(middle - opening / 2, lids, opening, lid))
    draft.area('water', rectangle(left + wall, level, inside, floor - level))
  }
  const [tie, stub] = [design.number('TieCentre_ft'), design.number('TieStub_in') / 12]
  for (const [at, tank] of row.slice(1).entries())
    draft.path(
      'tie',
      [
        [row[at]!.right_ft - row[at]!.wall_ft - stub, tie],
        [tank.left_ft + tank.wall_ft + stub, tie],
      ],
      design.number('TieOutside_in'),
    )
}
