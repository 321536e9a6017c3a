/** Cells of Items that were other ones in 0.4.0: what an untouched row of such an office says, and why it is another one now. */
import type { CellValue } from '../fields.js'

type Was = Readonly<Record<string, CellValue>>
export interface ChangedItem {
  was: Was
  reason: string
  touchesLife?: true
}
const twoModels = (was: Was) => ({ was, reason: 'a row may hold tanks of two models' })

export const items040: Readonly<Record<string, ChangedItem>> = {
  DEWATER: { was: { Allowance: null }, reason: 'days of pumping are an allowance: the quote says what a day costs' },
  TANK: twoModels({ Quantity: 'TankCount', Why: '{TankCount|tank|tanks} of {TankVolume_gal} each' }),
  RISER: twoModels({ Quantity: 'TankCount*TankOpenings*RiserSections*RiserSection_ft', Why: '{TankOpenings|opening|openings} a tank, cover {Cover_ft} in whole sections' }),
  'RISER-LID': twoModels({ Quantity: 'TankCount*TankOpenings' }),
  MASTIC: twoModels({ Quantity: 'TankCount*TankOpenings*RiserSections*PI()*TankOpening_in/12' }),
  SIGN: twoModels({ Quantity: 'TankCount*TankOpenings+1' }),
  'HAUL-TANKS': twoModels({
    Quantity: 'ROUNDUP(TankCount/MAX(1,INT(TruckLoad_lb/TankWeight_lb)),0)',
    Why: '{TankCount|tank|tanks} of {TankWeight_lb}: whole tanks to {TruckLoad_lb} a truck; a heavier tank rides alone, by permit',
  }),
}
