/** Where each tank of the row stands, from the far end at the left to the pump's tank at the right; the second model stands at the far end. */
import type { Design } from '../../takeoff/design.js'

export interface TankPlace {
  /** Of its left face, from the foot of the pit. */
  left_ft: number
  right_ft: number
  width_ft: number
  length_ft: number
  wall_ft: number
  openings: number
  opening_ft: number
}

export function tankRow(design: Design): readonly TankPlace[] {
  const gap = design.number('TankGap_in') / 12
  const first = {
    width_ft: design.number('TankWidth_ft'),
    length_ft: design.number('TankLength_ft'),
    wall_ft: design.number('TankWall_in') / 12,
    openings: design.number('TankOpenings'),
    opening_ft: design.number('TankOpening_in') / 12,
  }
  const second = {
    width_ft: design.number('SecondWidth_ft'),
    length_ft: design.number('SecondLength_ft'),
    wall_ft: design.number('SecondWall_in') / 12,
    openings: design.number('SecondOpenings'),
    opening_ft: design.number('SecondOpening_in') / 12,
  }
  const row: TankPlace[] = []
  for (let at = 0; at < design.number('TankCount'); at++) {
    const size = at < design.number('SecondTanks') ? second : first
    const left_ft = at === 0 ? design.number('WorkingRoom_ft') : row[at - 1]!.right_ft + gap
    row.push({ ...size, left_ft, right_ft: left_ft + size.width_ft })
  }
  return row
}
