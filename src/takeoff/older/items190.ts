/** Cells of Items that were other ones in 0.19.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

export const items190: Readonly<Record<string, ChangedItem>> = {
  'SIPHON-BREAK': { was: { When: 'HouseBelow_ft>0' }, reason: 'where gravity serves the house the line is to run by itself' },
  EXCAVATOR: {
    was: {
      Why: '{DigNet_yd3} dug at {DigRate_yd3_per_h}, {Backfill_yd3} filled at {FillRate_yd3_per_h}, no faster than it is compacted, trenches {Trench_h}',
    },
    reason: 'the topsoil of the pit is dug too',
  },
}
