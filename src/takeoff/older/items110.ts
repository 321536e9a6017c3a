/** Cells of Items that were other ones in 0.11.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

export const items110: Readonly<Record<string, ChangedItem>> = {
  DEWATER: {
    was: { Why: 'Pit: {PitWater}, open {PitOpen_day} until the ballast is in; deepest trench {DeepestTrench_ft}, groundwater at {GroundwaterDepth_ft}' },
    reason: 'the pit is kept dry until the tanks are backfilled too',
    touchesLife: true,
  },
  'TRENCH-BOX': { was: { When: 'DeepestTrench_ft>=5' }, reason: 'rock that is stable takes no box (29 CFR 1926.652(a)(1))' },
}
