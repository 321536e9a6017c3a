import { cite } from '../../sources.js'
import { geometry, isEmptyIn, office, ofRow, practice, result, sum } from './rule.js'

/** A column of the second model; without one it counts as the first, and no tank is of it. */
const ofSecond = (column: string, first: string) => `IF(SecondTanks=0,${first},${ofRow('Tanks', 'Model', 'SecondModel', column)})`

/** Whether a column of one of the models that the row has is empty. */
const isUnasked = (column: string) =>
  `IF(OR(${isEmptyIn('Tanks', 'Model', 'TankModel', column)},IF(SecondTanks=0,FALSE,${isEmptyIn('Tanks', 'Model', 'SecondModel', column)})),1,0)`

/** Two models in one row: the first at the pump, the second at the far end, where the roof water enters. Heights are the same, as they stand on one bed and are tied low. */
export const secondTankResults = [
  result('SecondTanks', 'Tanks of the second model', 'IF(SecondModel="",0,MIN(SecondCount,TankCount-1))', practice('the pump tank is of the first model')),
  result('FirstTanks', 'Tanks of the first model', 'TankCount-SecondTanks', sum),
  result('SecondLength_ft', 'Second model, outside length', ofSecond('Length_ft', 'TankLength_ft'), office),
  result('SecondWidth_ft', 'Second model, outside width', ofSecond('Width_ft', 'TankWidth_ft'), office),
  result('SecondWall_in', 'Second model, wall', ofSecond('Wall_in', 'TankWall_in'), office),
  result('SecondOpenings', 'Second model, lid openings', ofSecond('Openings', 'TankOpenings'), office),
  result('SecondOpening_in', 'Second model, diameter of an opening', ofSecond('Opening_in', 'TankOpening_in'), office),
  result('SecondPorts', 'Second model, upper ports', ofSecond('Ports', 'TankPorts'), office),
  result('SecondMostCover_ft', 'Second model, most cover allowed', ofSecond('MostCover_ft', 'TankMostCover_ft'), office),
  result('SecondVacuumLimit_inHg', 'Second model, highest test vacuum', ofSecond('VacuumLimit_inHg', 'TankVacuumLimit_inHg'), office),
  result('SecondWaterOutside_ft', 'Second model, groundwater designed for', ofSecond('WaterOutside_ft', 'TankWaterOutside_ft'), office),
  result('SecondTraffic', 'Second model, traffic allowed', ofSecond('Traffic', 'TankTraffic'), office),
  result('SecondWeight_lb', 'Second model, weight empty', ofSecond('Weight_lb', 'TankWeight_lb'), office),
  result('SecondPrice_usd', 'Second model, price of a tank', ofSecond('Price_usd', 'TankPrice_usd'), office),
  result('SecondPlan_ft2', 'Second model, plan area, outside', 'SecondLength_ft*SecondWidth_ft', geometry),
  result('SecondInside_ft2', 'Second model, plan area, inside', '(SecondLength_ft-2*SecondWall_in/12)*(SecondWidth_ft-2*SecondWall_in/12)', geometry),
  result('SecondVolume_gal', 'Second model, water in a tank', 'SecondInside_ft2*TankWaterDepth_ft*1728/231', geometry),
  result('Concrete_lb_per_ft3', 'Unit weight of concrete', '150', cite('femaP259', 'normal-weight concrete')),
  result(
    'SecondFigured_lb',
    'Second model, weight figured from the walls',
    'Concrete_lb_per_ft3*(SecondPlan_ft2*TankHeight_ft-SecondInside_ft2*(TankHeight_ft-(TankFloor_in+TankLid_in)/12))',
    cite('derivation', 'outside less inside'),
  ),
  result('RowInside_ft2', 'All tanks, plan area, inside', 'FirstTanks*TankInside_ft2+SecondTanks*SecondInside_ft2', sum),
  result('HeaviestTank_lb', 'Heaviest tank', 'MAX(TankWeight_lb,SecondWeight_lb,WeightFigured_lb,SecondFigured_lb)', cite('derivation', 'the heavier of typed and figured weight: what crane and slings are chosen by')),
  result('FarTankPorts', 'Upper ports of the far tank', 'IF(SecondTanks>0,SecondPorts,TankPorts)', geometry),
  result('NextTankPorts', 'Upper ports of the next tank', 'IF(SecondTanks>1,SecondPorts,TankPorts)', geometry),
  result('CoverAllowed_ft', 'Most cover that every tank takes', 'MIN(TankMostCover_ft,SecondMostCover_ft)', sum),
  result('VacuumAllowed_inHg', 'Highest test vacuum that every tank takes', 'MIN(TankVacuumLimit_inHg,SecondVacuumLimit_inHg)', sum),
  result('CoverUnasked', 'Most cover is not on the sheet Tanks: 1 where its default is taken', isUnasked('MostCover_ft'), office),
  result('VacuumUnasked', 'Vacuum limit is not on the sheet Tanks: 1 where its default is taken', isUnasked('VacuumLimit_inHg'), office),
  result('PortsUnasked', 'Upper ports are not on the sheet Tanks: 1 where their default is taken', isUnasked('Ports'), office),
  result('Models', 'Tanks by model', 'IF(SecondTanks=0,TankModel,FirstTanks&" "&TankModel&" + "&SecondTanks&" "&SecondModel)', sum),
] as const
