import { cite } from '../../sources.js'
import { geometry, practice, result } from './rule.js'

/** Depths below the ground at the tanks: one list for drawing, crew and quantities. Above the ground they are negative. */
export const heightResults = [
  result('RiserProud_in', 'Riser above the ground', '3', practice('rims stand proud, so that rain stays out')),
  result('RimProud_in', 'the same where cars or trucks pass', 'IF(TrafficRank>1,0,RiserProud_in)', practice('flush under wheels')),
  result('RiserRim_ft', 'Riser rim', '0-RimProud_in/12', geometry),
  result('LidTop_ft', 'Top of the lids', 'Cover_ft', geometry),
  result('WaterLevel_ft', 'Water level, tanks full', 'Cover_ft+TankHeight_ft-TankFloor_in/12-TankWaterDepth_ft', geometry),
  result('OverflowInvert_ft', 'Overflow invert', 'WaterLevel_ft', practice('the water stands at the overflow')),
  result('PortInvert_ft', 'Inlet port invert', 'WaterLevel_ft', practice('upper ports are cast at one height')),
  result('TieOverFloor_in', 'Tie centre over the floor', '6', practice('low in the walls')),
  result('TieCentre_ft', 'Tie centre', 'Cover_ft+TankHeight_ft-(TankFloor_in+TieOverFloor_in)/12', geometry),
  result('LineCentre_ft', 'Water line centre', 'Cover_ft+TankHeight_ft-LineOverBed_in/12', geometry),
  result('BedTop_ft', 'Top of the bed', 'Cover_ft+TankHeight_ft', geometry),
  result('PitBottom_ft', 'Pit bottom', 'PitDepth_ft', geometry),
  result('DrainUnder_in', 'Bedding under a drain', '4', practice('4 in under the pipe')),
  result('DrainOver_in', 'Bedding over a drain', '6', practice('6 in over the pipe')),
  result('InletFall_in', 'Fall of the inlet drain', 'IF(InletRun_ft=0,0,MAX(InletRun_ft*DrainSlope_in_per_ft,12*DownspoutRise_ft))', cite('derivation', 'its slope, and where the ground rises more to the downspouts, that of the ground')),
  result('OverflowFall_in', 'Fall of the overflow drain', 'OverflowRun_ft*DrainSlope_in_per_ft', geometry),
  result('InletAtHouse_ft', 'Inlet drain invert at the house', 'PortInvert_ft-InletFall_in/12+IF(InletRun_ft=0,0,DownspoutRise_ft)', cite('derivation', 'below the ground at the downspouts')),
  result('OutfallDepth_ft', 'Overflow drain below the ground at the outfall', 'OverflowInvert_ft+OverflowFall_in/12-OutfallDrop_ft', geometry),
  result('OutfallMissing_ft', 'Fall of the ground still missing', 'MAX(0,OutfallDepth_ft)', geometry),
  result('OutfallNeeded_ft', 'Fall of the ground needed', 'MAX(0,OverflowInvert_ft+OverflowFall_in/12)', geometry),
  result('InletDeep_ft', 'Inlet trench, deepest end', 'MAX(PortInvert_ft,InletAtHouse_ft)+DrainUnder_in/12', geometry),
  result('InletTrenchDepth_ft', 'Inlet trench, mean depth', '(MAX(0,PortInvert_ft+DrainUnder_in/12)+MAX(0,InletAtHouse_ft+DrainUnder_in/12))/2', geometry),
  result('OverflowDeep_ft', 'Overflow trench, deepest end', 'MAX(OverflowInvert_ft,OutfallDepth_ft)+DrainUnder_in/12', geometry),
  result('OverflowTrenchDepth_ft', 'Overflow trench, mean depth', '(MAX(0,OverflowInvert_ft+DrainUnder_in/12)+MAX(0,OutfallDepth_ft+DrainUnder_in/12))/2', geometry),
  result('WheelCover_in', 'Cover that a drain needs under wheels', '24', cite('memory', 'ASTM D2321, plastic pipe under highway loads')),
  result('DrainWants_in', 'Cover that a drain wants', '12', practice('a foot, so that a spade misses it')),
  result('DrainCover_in', 'Least cover over the inlet drain', '12*InletAtHouse_ft-DrainOutside_in', geometry),
] as const
