/** Cells of Items that were other ones in 0.20.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

const noPump = { was: { When: '' }, reason: 'where gravity serves the house no pump fills it' }
const deeper = { was: { Quantity: 'LineTrench_ft' }, reason: 'by gravity it is deeper at the tanks: so many feet more as that dig makes' }

export const items200: Readonly<Record<string, ChangedItem>> = {
  'PRESSURE-TANK': noPump,
  RELIEF: { ...noPump, reason: 'where gravity serves the house there is no pressure tank that it protects' },
  LADDER: {
    was: { Why: 'Within 25 ft of everyone round the tanks, pit {PitDepth_ft} deep; one more that moves along a trench of 4 ft' },
    reason: 'it spoke of a trench ladder where there is none',
  },
  'HAUL-STONE': { was: { Why: 'All stone ordered, waste with it, {StoneLoad_ton} a load' }, reason: 'stone is known by its unit, the ton' },
  'TRENCH-LINE': deeper,
  'TRENCH-LINE-ROCK': deeper,
  PLUG: { was: { Why: 'Two ends of {TieCount|tie|ties}, and ports of 4 in' }, reason: 'a single tank has no ties' },
  TAPE: {
    was: {
      Description: 'Warning tape with a wire that is found from above, over line{CableToo}',
      Why: '{WaterLineRun_ft} of line and {FeedRun_ft} of feed, 12 in above each',
    },
    reason: 'one tape, whatever lies under it: jobs with a pump and without one order it together',
  },
}
