/** Cells of Items that were other ones in 0.12.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

export const items120: Readonly<Record<string, ChangedItem>> = {
  LADDER: {
    was: { When: 'OR(PitDepth_ft>=4,DeepestTrench_ft>=4)', Quantity: 'IF(PitDepth_ft>=4,ROUNDUP(2*(PitLength_ft+PitWidth_ft)/LadderEvery_ft,0),0)+IF(DeepestTrench_ft>=4,1,0)' },
    reason: 'a depth is compared as it is printed',
    touchesLife: true,
  },
  DEWATER: {
    was: {
      Why: 'Pit: {PitWater}, open {PitOpen_day} until the tanks are ballasted and backfilled; deepest trench {DeepestTrench_ft}, groundwater at {GroundwaterDepth_ft}',
    },
    reason: 'where nobody gave the groundwater the row stated a depth all the same',
  },
}
