/** Cells of Items that were other ones in 0.7.0: what an untouched row of such an office says, and why it is another one now. */
import type { ChangedItem } from './items040.js'

const sized = (Description: string): ChangedItem => ({ was: { Description }, reason: 'its size stands in its words, so that it can be ordered from' })

export const items070: Readonly<Record<string, ChangedItem>> = {
  'PLUG{PortSuffix}': {
    was: { Code: 'PLUG{PortSuffix}', Description: 'Test plug, use of', Quantity: 'PlugCount', Why: 'Two ends of {TieCount|tie|ties} and {PortsUsed|port|ports}' },
    reason: 'ties are 4 in whatever the ports are: a plug of another size holds no vacuum',
    touchesLife: true,
  },
  IMPORT: {
    was: {
      Quantity: 'MAX(0,BackfillBank_yd3-Dig_yd3-TrenchSpoil_yd3)',
      Why: 'Backfill takes {BackfillBank_yd3} of bank earth, the pit gives {Dig_yd3}, the trenches {TrenchSpoil_yd3}',
    },
    reason: 'what is dug in rock is no fill',
  },
  HAUL: { was: { Description: 'Haul surplus earth, a truck load' }, reason: 'rock is hauled too' },
  RISER: sized('Riser section with gasket'),
  'RISER-LID': sized('Locking riser lid'),
  'PORT-STUB{PortSuffix}': sized('Schedule 40 stub at a port'),
  'PORT-CLAMP{PortSuffix}': sized('Stainless band clamp at a port'),
  'PORT-BEND{PortSuffix}': sized('Quarter bend at a port'),
  'DRAIN-BEND{DrainSuffix}': sized('Eighth bend'),
  'DRAIN-WYE{DrainSuffix}': sized('Wye where a trunk splits to the ports'),
  'FLAP{PortSuffix}': sized('Backwater flap and screen on the overflow'),
  'DRAIN-CLEANOUT{DrainSuffix}': {
    was: {
      Description: 'Cleanout with tee and plug',
      Quantity: 'InletCount*MAX(1,ROUNDUP(InletRun_ft/CleanoutEvery_ft,0))',
      Why: 'One on each inlet, and each {CleanoutEvery_ft} of {InletRun_ft}',
    },
    reason: 'long overflow drains have cleanouts too',
  },
  'PVC-CEMENT': {
    was: { Quantity: 'PortsUsed*4', Unit: 'joint', Lot: 40, Why: 'Four joints for each of {PortsUsed|port|ports}; a set makes 40' },
    reason: 'sold by the set; joints of the pipe counted',
  },
  TAPE: { was: { Description: 'Warning tape over line and cable' }, reason: 'a plastic line is found by the wire in its tape' },
}

/** Prices of a row whose unit is another one now: so many of the old unit make one of the new. */
export const repriced070: Readonly<Record<string, { was: string; now: string; times: number }>> = { 'PVC-CEMENT': { was: 'joint', now: 'set', times: 40 } }
