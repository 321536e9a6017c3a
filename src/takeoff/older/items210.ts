/** Cells of Items that were other ones in 0.21.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

const byYard = (was: ChangedItem['was']): ChangedItem => ({
  was: { ...was, Unit: 'ft' },
  reason: 'by the yard, so that a deep trench costs more than a shallow one, and without what the pit has dug already; its price is one of a yard then',
})
const line = {
  Quantity: 'LineTrench_ft+IF(DeepDig_yd3=0,0,LineTrench_ft*DeepDig_yd3/(LineDig_yd3-DeepDig_yd3))',
  LaborHours: 0.04,
  Why: 'One trench for both: the longer of {WaterLineRun_ft} of line and {FeedRun_ft} of feed',
}
const drain = {
  Quantity: 'InletRun_ft+OverflowRun_ft',
  LaborHours: 0.05,
  Why: 'Drains of one run lie in one trench {DrainTrench_ft} wide: {InletRun_ft} of inlet, {OverflowRun_ft} of overflow, {OverflowDeep_ft} deep at the deep end',
}
const sized = (Description: string): ChangedItem => ({ was: { Description }, reason: 'its size stands in its name' })

export const items210: Readonly<Record<string, ChangedItem>> = {
  'TRENCH-LINE': byYard({ ...line, Description: 'Trench for water line{FeedToo}', When: 'SoilClass<>"rock"' }),
  'TRENCH-LINE-ROCK': byYard({ ...line, Description: 'Trench for water line{FeedToo}, in rock', When: 'SoilClass="rock"' }),
  'TRENCH-DRAIN': byYard({ ...drain, Description: 'Trenches for inlet and overflow drains', When: 'SoilClass<>"rock"' }),
  'TRENCH-DRAIN-ROCK': byYard({ ...drain, Description: 'Trenches for inlet and overflow drains, in rock', When: 'SoilClass="rock"' }),
  'DRAIN-{DrainCode}': {
    was: { Why: '{InletCount|line|lines} of {InletRun_ft} in and {OverflowRun_ft} out, falling {InletSlope_in_per_ft} in and {OverflowSlope_in_per_ft} out' },
    reason: 'the pipe to the next tank is said',
  },
  WASHER: sized('First-wash diverter with screen'),
  FILTER: sized('Inlet filter'),
  CALM: sized('Calmed inlet: drop pipe and splash bend'),
  SEED: { was: { Description: 'Topsoil back, rake and seed' }, reason: 'the topsoil goes back by machine' },
  COMPACTOR: { was: { Why: '{Backfill_yd3} and the trenches at {CompactorRate_yd3_per_day}' }, reason: 'the bed is compacted too' },
  BACKFILL: {
    was: { Why: 'Dig {Dig_yd3} less bed, tanks and their risers, pump-end stone, that round the ties, and topsoil; the clean earth over the stone has a line of its own' },
    reason: 'drains in the pit take their room',
  },
  'TRENCH-FILL': {
    was: { Why: '{TrenchDig_yd3} dug less {DrainBedding_yd3} of bedding, {DrainPipes_yd3} of drains, {TrenchEarth_yd3} of clean earth and {TrenchTopsoil_yd3} of topsoil' },
    reason: 'what of them lies in the pit is no fill of a trench',
  },
  EXCAVATOR: {
    was: {
      Why: '{DigNet_yd3} dug at {DigRate_yd3_per_h}, {PitTopsoil_yd3} of topsoil at {ExcavatorRate_yd3_per_h}, {Backfill_yd3} filled at {FillRate_yd3_per_h}, no faster than it is compacted, trenches {Trench_h}',
    },
    reason: 'stone and topsoil are placed by it too',
  },
}

/** A trench of 18 in by 36 in has a yard in six feet. */
const byYardNow = { was: 'ft', now: 'yd³', times: 6 }
/** Prices whose unit is another one now: so many of the old unit make one of the new. */
export const repriced210 = { 'TRENCH-LINE': byYardNow, 'TRENCH-LINE-ROCK': byYardNow, 'TRENCH-DRAIN': byYardNow, 'TRENCH-DRAIN-ROCK': byYardNow }
