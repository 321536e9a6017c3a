/** Cells of Items that were other ones in 0.9.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

const CABLE: ChangedItem = {
  was: { Description: 'Direct-burial, submersible-rated cable, {Cable} AWG {CableMetal}, {CableCores} conductors and ground' },
  reason: 'a feed made larger for its drop needs a larger ground (NEC 250.122)',
}
const SIZES = 'openings of two sizes have lids, risers and plates of two'
const ROCK = 'rock has a price of its own'

export const items090: Readonly<Record<string, ChangedItem>> = {
  DIG: { was: { When: null }, reason: ROCK },
  'TRENCH-LINE': { was: { When: null }, reason: ROCK },
  'TRENCH-DRAIN': { was: { When: null }, reason: ROCK },
  RISER: {
    was: {
      Description: 'Riser section with gasket, opening {OpeningWords}',
      Quantity: 'OpeningCount*RiserSections*RiserSection_ft',
      Why: '{OpeningCount|opening|openings}, cover {Cover_ft} in whole sections',
    },
    reason: SIZES,
  },
  'RISER-LID': {
    was: { Description: 'Locking riser lid, opening {OpeningWords}', Quantity: 'OpeningCount', Why: 'One for each of {OpeningCount|opening|openings}' },
    reason: SIZES,
  },
  'LID-INSUL': {
    was: {
      Description: 'Insulation under a riser lid, opening {OpeningWords}',
      Quantity: 'OpeningCount',
      Why: 'Frost {FrostDepth_in}: the riser crosses it; one for each of {OpeningCount|opening|openings}',
    },
    reason: SIZES,
  },
  PLATE: {
    was: { Description: 'Test plate with sealant, use of', Quantity: 'OpeningCount', Why: 'One on each of {OpeningCount|opening|openings}' },
    reason: SIZES,
  },
  MASTIC: { was: { Why: 'Round each riser joint, opening {TankOpening_in}' }, reason: 'openings of both models' },
  'CABLE-{CableMetal}-{Cable}{CoreSuffix}': CABLE,
  // As the code was until 0.8.0.
  'CABLE-{CableMetal}-{Cable}': CABLE,
  'WATER-TEST': { was: { Unit: '1000 gal' }, reason: '"2 1000 gal" read as another figure on paper' },
  CRANE: { was: { Description: 'Crane to set tanks' }, reason: 'an order says which crane, what on the hook and how far out' },
  'HAUL-TANKS': {
    was: {
      Quantity: 'ROUNDUP(FirstTanks/MAX(1,INT(TruckLoad_lb/TankWeight_lb)),0)+ROUNDUP(SecondTanks/MAX(1,INT(TruckLoad_lb/SecondWeight_lb)),0)',
    },
    reason: 'a truck carries the heavier of typed and figured weight, as the crane does',
  },
}
