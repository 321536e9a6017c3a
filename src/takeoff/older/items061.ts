/** Cells of Items that were other ones in 0.6.1: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

export const items061: Readonly<Record<string, ChangedItem>> = {
  LADDER: {
    was: { Description: 'Ladder in the pit', Quantity: 'ROUNDUP(PitLength_ft/LadderEvery_ft,0)', Why: 'Within 25 ft of everyone, pit {PitDepth_ft} deep' },
    reason: 'within 25 ft of everyone round the tanks, and in trenches of 4 ft',
    touchesLife: true,
  },
  'TRENCH-BOX': {
    was: { Quantity: '1', Why: 'A trench is {DeepestTrench_ft} deep: sloped like the pit, or in a box' },
    reason: 'as long as the trench is dug, laid and filled; fill is class C whatever the pit is',
    touchesLife: true,
  },
  CONTROL: { was: { Description: 'Control box and overload for {PumpModel}' }, reason: 'a three-phase pump takes a starter' },
  'CABLE-{CableMetal}-{Cable}': {
    was: { Description: 'Direct-burial, submersible-rated cable, {Cable} AWG {CableMetal} with ground' },
    reason: 'the conductors that the motor asks for',
  },
  'WATER-TEST': { was: { Kind: null }, reason: 'water is brought to each site: ordered together it saves nothing' },
}
