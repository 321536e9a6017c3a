/** Cells of Items that were other ones in 0.15.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

export const items150: Readonly<Record<string, ChangedItem>> = {
  STRIP: {
    was: { Quantity: 'PitTop_ft2*Topsoil_in/12/27', Why: '{Topsoil_in} over the pit top, {PitTopLength_ft} by {PitTopWidth_ft}' },
    reason: 'the topsoil of the trenches is stripped too',
  },
  DIG: {
    was: { Quantity: 'Dig_yd3', Why: 'Prismoid: bottom {PitLength_ft} by {PitWidth_ft}, {PitDepth_ft} deep, walls {Batter} across to 1 up' },
    reason: 'topsoil has a line of its own',
  },
  'DIG-ROCK': {
    was: { Quantity: 'Dig_yd3', Why: 'Prismoid: bottom {PitLength_ft} by {PitWidth_ft}, {PitDepth_ft} deep, walls {Batter} across to 1 up' },
    reason: 'topsoil is no rock, and has a line of its own',
  },
  DEWATER: {
    was: { Why: 'Pit: {PitWater}, open {PitOpen_day} until the tanks are ballasted and backfilled; deepest trench {DeepestTrench_ft}' },
    reason: 'a pump runs through the weekends',
  },
  'STONE-DRAIN': {
    was: { Why: '{DrainBedding_yd3} in place, {DrainUnder_in} under and {DrainOver_in} over' },
    reason: 'no bedding stands over the ground',
  },
  BACKFILL: {
    was: { Why: 'Dig {Dig_yd3} less bed, tanks and their risers, pump-end stone and that round the ties; the clean earth over the stone has a line of its own' },
    reason: 'topsoil goes back on top',
  },
  IMPORT: {
    was: {
      Why: '{ImportBank_yd3} of bank earth: backfill takes {BackfillBank_yd3}, the pit gives {Dig_yd3}, the trenches {TrenchSpoil_yd3}, nothing of either where it is rock; bought loose',
    },
    reason: 'topsoil is put back and not bought',
  },
  'TRENCH-FILL': {
    was: { Why: '{TrenchDig_yd3} dug less {DrainBedding_yd3} of bedding and {TrenchEarth_yd3} of clean earth' },
    reason: 'no earth goes where drains lie, and topsoil goes back on top',
  },
  EXCAVATOR: {
    was: { Why: '{Dig_yd3} dug at {DigRate_yd3_per_h}, {Backfill_yd3} filled at {ExcavatorRate_yd3_per_h}, trenches {Trench_h}' },
    reason: 'fill goes in no faster than it is compacted',
  },
  HAMMER: {
    was: { Why: 'Rock: {Dig_yd3} at {DigRate_yd3_per_h}, trenches at {TrenchRate_ft_per_h}' },
    reason: 'topsoil is no rock',
  },
  SHORING: {
    was: { When: 'ROUND(PitDepth_ft,2)>20' },
    reason: 'stable rock needs none',
  },
  'GAS-METER': {
    was: { Description: 'Air meter and retrieval set, a day', LaborHours: null, Why: 'Tanks are confined spaces: {Entry_day} from their setting to the end of the tests' },
    reason: 'air is blown into a tank and somebody stands at its lid',
  },
}
