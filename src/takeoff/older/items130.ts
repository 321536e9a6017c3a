/** Cells of Items that were other ones in 0.13.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

export const items130: Readonly<Record<string, ChangedItem>> = {
  SIGN: {
    was: { Quantity: 'OpeningCount+IF(TreatmentLoss_psi>0,0,1)', Why: 'One a lid, and one at the house where nothing is treated' },
    reason: 'a tap ahead of the treatment has its sign too',
    touchesLife: true,
  },
  'CTS-FITTING': {
    was: { Description: '{WaterLineSize} in compression adapter for CTS' },
    reason: 'pitless adapter and pump have threads of 1 in',
  },
  'LINE-TEST': {
    was: { Description: 'Hand pump for the line test, use of' },
    reason: 'both ends of the line are closed for its test',
  },
}
