/** Cells of Items that were other ones in 0.14.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

export const items140: Readonly<Record<string, ChangedItem>> = {
  BACKFILL: {
    was: { Why: 'Dig {Dig_yd3} less bed, tanks, pump-end stone and that round the ties; the clean earth over the stone has a line of its own' },
    reason: 'no earth goes where risers stand',
  },
  'WATER-TEST': {
    was: { Why: '{CommissionWater_gal}: over the intake for the pump test, or {Ballast_in} of ballast' },
    reason: 'a tank holds no more ballast than it is high',
  },
}
