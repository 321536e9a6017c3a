/** Cells of Items that were other ones in 0.8.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

export const items080: Readonly<Record<string, ChangedItem>> = {
  'CABLE-{CableMetal}-{Cable}': {
    was: { Code: 'CABLE-{CableMetal}-{Cable}' },
    reason: 'a cable of three conductors is another one, and has another price',
  },
  'LINE-EARTH': {
    was: {
      Description: 'Clean earth over the line',
      Quantity: 'LineEarth_yd3',
      Why: '{CleanEarth_in} over the trench, {TrenchWidth_ft} wide, and over the pump-end stone to the walls',
    },
    reason: 'bought loose: in place it is less; in rock the line lies on earth too',
  },
  IMPORT: {
    was: {
      Description: 'Clean fill to bring in',
      Why: 'Backfill takes {BackfillBank_yd3} of bank earth; the pit gives {Dig_yd3}, the trenches {TrenchSpoil_yd3}, nothing of either where it is rock',
    },
    reason: 'bought loose: in the bank it is less',
  },
  'GAS-METER': {
    was: { Quantity: '1', Why: 'Tanks are confined spaces' },
    reason: 'the air is measured on each day that somebody may enter a tank',
    touchesLife: true,
  },
  SIGN: { was: { Quantity: 'OpeningCount+1', Why: 'One a lid and one at the house' }, reason: 'behind treatment the health authority decides' },
  'DRAIN-{DrainCode}': {
    was: { Why: '{InletCount|line|lines} of {InletRun_ft} in and {OverflowRun_ft} out, fall {DrainSlope_in_per_ft}' },
    reason: 'on a slope drains fall more than the least',
  },
  'PRESSURE-TANK': { was: { Description: 'Pressure tank with switch, {PressureTankModel}' }, reason: 'the switch is set by a gauge' },
  'AIR-GAP': { was: { Description: 'Air-gap fill from the public supply' }, reason: 'it shuts by a float valve' },
  BACKFILL: {
    was: { Quantity: 'Backfill_yd3-PumpEndEarth_yd3', Why: 'Dig {Dig_yd3} less bed, tanks and pump-end stone; the clean earth over the stone has a line of its own' },
    reason: 'stone round the ties has a line of its own',
  },
  EXCAVATOR: {
    was: { Why: '{Dig_yd3} dug and {Backfill_yd3} filled at {ExcavatorRate_yd3_per_h}, trenches at {TrencherRate_ft_per_h}' },
    reason: 'rock is broken at a rate of its own',
  },
}
