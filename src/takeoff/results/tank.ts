import { geometry, office, ofTank, result } from './rule.js'

export const tankResults = [
  result('TankLength_ft', 'Outside length', ofTank('Length_ft'), office),
  result('TankWidth_ft', 'Outside width', ofTank('Width_ft'), office),
  result('TankHeight_ft', 'Outside height', ofTank('Height_ft'), office),
  result('TankWall_in', 'Wall', ofTank('Wall_in'), office),
  result('TankFloor_in', 'Floor', ofTank('Floor_in'), office),
  result('TankLid_in', 'Lid', ofTank('Lid_in'), office),
  result('TankWaterDepth_ft', 'Water depth', ofTank('WaterDepth_ft'), office),
  result('TankCoupling_in', 'Coupling over the floor', ofTank('Coupling_in'), office),
  result('TankOpenings', 'Lid openings', ofTank('Openings'), office),
  result('TankOpening_in', 'Diameter of an opening', ofTank('Opening_in'), office),
  result('TankPorts', 'Upper ports', ofTank('Ports'), office),
  result('TankPort_in', 'Nominal size of an upper port', ofTank('Port_in'), office),
  result('TankMostCover_ft', 'Most cover allowed', ofTank('MostCover_ft'), office),
  result('TankVacuumLimit_inHg', 'Highest test vacuum allowed', ofTank('VacuumLimit_inHg'), office),
  result('TankTraffic', 'Traffic allowed over the tank', ofTank('Traffic'), office),
  result('TankWaterOutside_ft', 'Groundwater over the base that the maker designed for', ofTank('WaterOutside_ft'), office),
  result('TankWeight_lb', 'Weight empty', ofTank('Weight_lb'), office),
  result('TankPrice_usd', 'Price of a tank', ofTank('Price_usd'), office),
  result('TankPlan_ft2', 'Plan area, outside', 'TankLength_ft*TankWidth_ft', geometry),
  result('TankInside_ft2', 'Plan area, inside', '(TankLength_ft-2*TankWall_in/12)*(TankWidth_ft-2*TankWall_in/12)', geometry),
] as const
