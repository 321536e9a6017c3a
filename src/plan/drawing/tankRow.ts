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
  const sizes = (model: 'Tank' | 'Second') => ({
    width_ft: design.number(`${model}Width_ft`),
    length_ft: design.number(`${model}Length_ft`),
    wall_ft: design.number(`${model}Wall_in`) / 12,
    openings: design.number(`${model}Openings`),
    opening_ft: design.number(`${model}Opening_in`) / 12,
  })
  const [first, second] = [sizes('Tank'), sizes('Second')]
  const row: TankPlace[] = []
  for (let at = 0; at < design.number('TankCount'); at++) {
    const size = at < design.number('SecondTanks') ? second : first
    const left_ft = at === 0 ? design.number('WorkingRoom_ft') : row[at - 1]!.right_ft + gap
    row.push({ ...size, left_ft, right_ft: left_ft + size.width_ft })
  }
  return row
}
