/** Cells of Items that were other ones in 0.10.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

const inOneRow = (code: string): Readonly<Record<string, ChangedItem>> => ({
  [`${code}{RockSuffix}`]: {
    was: { Code: `${code}{RockSuffix}`, When: null },
    reason: 'rock has a line of its own, so that an entry for the line in soil is not taken for one in rock',
  },
})

export const items100: Readonly<Record<string, ChangedItem>> = {
  ...inOneRow('DIG'),
  ...inOneRow('TRENCH-LINE'),
  ...inOneRow('TRENCH-DRAIN'),
  DEWATER: {
    was: { Description: 'Pump the pit dry, a day', When: 'PitWater<>"dry"', Why: 'From digging until the ballast is in: {PitOpen_day}; water in the pit: {PitWater}' },
    reason: 'a trench deeper than a dry pit can stand in water',
    touchesLife: true,
  },
  SHORING: { was: { When: 'PitDepth_ft>20' }, reason: 'depths are compared as they are printed' },
  EXCAVATOR: {
    was: { Why: '{Dig_yd3} dug at {DigRate_yd3_per_h}, {Backfill_yd3} filled at {ExcavatorRate_yd3_per_h}, trenches at {TrenchRate_ft_per_h}' },
    reason: 'deep and wide trenches take their hours by the yard',
  },
  'HAUL-TANKS': {
    was: {
      Quantity:
        'ROUNDUP(FirstTanks/MAX(1,INT(TruckLoad_lb/MAX(TankWeight_lb,WeightFigured_lb))),0)+ROUNDUP(SecondTanks/MAX(1,INT(TruckLoad_lb/MAX(SecondWeight_lb,SecondFigured_lb))),0)',
    },
    reason: 'tanks of two models ride on one truck where it takes both',
  },
}
