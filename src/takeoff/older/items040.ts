/** Cells of Items that were other ones in 0.4.0, when all tanks of a row were of one model: what an untouched row of such an office says. */
import type { CellValue } from '../fields.js'

export const items040: Readonly<Record<string, Readonly<Record<string, CellValue>>>> = {
  TANK: { Quantity: 'TankCount', Why: '{TankCount|tank|tanks} of {TankVolume_gal} each' },
  RISER: { Quantity: 'TankCount*TankOpenings*RiserSections*RiserSection_ft', Why: '{TankOpenings|opening|openings} a tank, cover {Cover_ft} in whole sections' },
  'RISER-LID': { Quantity: 'TankCount*TankOpenings' },
  MASTIC: { Quantity: 'TankCount*TankOpenings*RiserSections*PI()*TankOpening_in/12' },
  SIGN: { Quantity: 'TankCount*TankOpenings+1' },
  'HAUL-TANKS': {
    Quantity: 'ROUNDUP(TankCount/MAX(1,INT(TruckLoad_lb/TankWeight_lb)),0)',
    Why: '{TankCount|tank|tanks} of {TankWeight_lb}: whole tanks to {TruckLoad_lb} a truck; a heavier tank rides alone, by permit',
  },
}
