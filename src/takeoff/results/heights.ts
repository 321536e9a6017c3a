import { cite } from '../../sources.js'
import { geometry, practice, result } from './rule.js'

/** A trench within the pit is dug with the pit: its depth where it leaves it, on the straight line from the tank to the other end. */
const atEdge = (end: string, run: string): string => `MAX(0,DrainFoot_ft+(${end}-DrainFoot_ft)*MIN(1,PitEdge_ft/MAX(1,${run})))`
const evenly = cite('derivation', 'the depth goes evenly from the tank to the other end')

/** Depths below the ground at the tanks: one list for drawing, crew and quantities. Above the ground they are negative. */
export const heightResults = [
  result('RiserProud_in', 'Riser above the ground', '3', practice('rims stand proud, so that rain stays out')),
  result('RimProud_in', 'Riser above the ground, traffic counted', 'IF(TrafficRank>1,0,RiserProud_in)', practice('flush under wheels')),
  result('RiserRim_ft', 'Riser rim', '0-RimProud_in/12', geometry),
  result('LidTop_ft', 'Top of the lids', 'Cover_ft', geometry),
  result('WaterLevel_ft', 'Water level, tanks full', 'Cover_ft+TankHeight_ft-TankFloor_in/12-TankWaterDepth_ft', geometry),
  result('OverflowInvert_ft', 'Overflow invert', 'WaterLevel_ft', practice('the water stands at the overflow')),
  result('PortInvert_ft', 'Inlet port invert', 'WaterLevel_ft', practice('upper ports are cast at one height')),
  result('TieOutside_in', 'Outside diameter of a tie', 'SUMPRODUCT((Pipes[pipe]="PVC 40")*(Pipes[size]="4"),Pipes[outside_in])', cite('astmD1785')),
  result('TieOverFloor_in', 'Tie centre over the floor', '6', practice('low in the walls')),
  result('SiltMost_in', 'Settled matter that is pumped out', 'MIN(Intake_in,IF(TankCount>1,TieOverFloor_in-TieOutside_in/2,Intake_in))/2', practice('half of what lies under the intake and the ties')),
  result('TieCentre_ft', 'Tie centre', 'Cover_ft+TankHeight_ft-(TankFloor_in+TieOverFloor_in)/12', geometry),
  result('LineCentre_ft', 'Water line centre', 'Cover_ft+TankHeight_ft-LineOverBed_in/12', geometry),
  result('BedTop_ft', 'Top of the bed', 'Cover_ft+TankHeight_ft', geometry),
  result('PitBottom_ft', 'Pit bottom', 'PitDepth_ft', geometry),
  result('DrainUnder_in', 'Bedding under a drain', '4', practice('4 in under the pipe')),
  result('DrainOver_in', 'Bedding over a drain', '6', practice('6 in over the pipe')),
  result('FilterDrop_in', 'Fall through the inlet filter', 'IF(FilterShare<1,FilterFall_in,0)', geometry),
  result('InletFall_in', 'Fall of the inlet drain', 'IF(InletRun_ft=0,0,MAX(InletRun_ft*DrainSlope_in_per_ft,12*DownspoutRise_ft-FilterDrop_in))', cite('derivation', 'its slope, and where the ground rises more to the downspouts, that of the ground')),
  result('InletSlope_in_per_ft', 'Slope that the inlet drain is laid to', 'IF(InletRun_ft=0,DrainSlope_in_per_ft,InletFall_in/InletRun_ft)', geometry),
  result('OverflowLeast_in', 'Least fall of the overflow drain', 'OverflowRun_ft*DrainSlope_in_per_ft', geometry),
  result('OverflowFall_in', 'Fall of the overflow drain', 'IF(OverflowRun_ft=0,0,MAX(OverflowLeast_in,12*(OutfallDrop_ft-OverflowInvert_ft)))', cite('derivation', 'its slope, and where the ground falls more, so much that it comes out at the outfall and not before')),
  result('OverflowSlope_in_per_ft', 'Slope that the overflow drain is laid to', 'IF(OverflowRun_ft=0,DrainSlope_in_per_ft,OverflowFall_in/OverflowRun_ft)', geometry),
  result('InletAtHouse_ft', 'Inlet drain invert at the house', 'PortInvert_ft-(InletFall_in+FilterDrop_in)/12+IF(InletRun_ft=0,0,DownspoutRise_ft)', cite('derivation', 'below the ground at the downspouts; the filter stands at the tank')),
  result('OutfallDepth_ft', 'Overflow drain below the ground at the outfall', 'OverflowInvert_ft+OverflowLeast_in/12-OutfallDrop_ft', geometry),
  result('OutfallMissing_ft', 'Fall of the ground still missing', 'MAX(0,OutfallDepth_ft)', geometry),
  result('OutfallNeeded_ft', 'Fall of the ground needed', 'MAX(0,OverflowInvert_ft+OverflowLeast_in/12)', geometry),
  result('RunsTooShort', 'Runs shorter than their rise or fall', 'IF(ABS(WaterLineRise_ft)>WaterLineRun_ft,1,0)+IF(AND(InletRun_ft>0,ABS(DownspoutRise_ft)>InletRun_ft),1,0)+IF(AND(OutfallAssumed=0,ABS(OutfallDrop_ft)>OverflowRun_ft),1,0)', cite('derivation', 'along the ground a run is as long as it rises, at the least')),
  result('SteepDrain_in_per_ft', 'Slope from which a drain is anchored or stepped', '2.4', practice('a fifth')),
  result('DrainFoot_ft', 'Foot of the drains’ bedding at the tanks', 'PortInvert_ft+DrainUnder_in/12', geometry),
  result('InletEnd_ft', 'Inlet trench at the downspouts, depth', 'MAX(0,InletAtHouse_ft+DrainUnder_in/12)', geometry),
  result('InletEdge_ft', 'Inlet trench at the pit’s edge, depth', atEdge('InletEnd_ft', 'InletRun_ft'), evenly),
  result('InletDeep_ft', 'Inlet trench beyond the pit, deepest end', 'MAX(InletEdge_ft,InletEnd_ft)', geometry),
  result('InletTrenchDepth_ft', 'Inlet trench beyond the pit, mean depth', '(InletEdge_ft+InletEnd_ft)/2', geometry),
  result('OverflowEnd_ft', 'Overflow trench at the outfall, depth', 'MAX(0,OutfallDepth_ft+DrainUnder_in/12)', geometry),
  result('OverflowEdge_ft', 'Overflow trench at the pit’s edge, depth', atEdge('OverflowEnd_ft', 'OverflowRun_ft'), evenly),
  result('OverflowDeep_ft', 'Overflow trench beyond the pit, deepest end', 'MAX(OverflowEdge_ft,OverflowEnd_ft)', geometry),
  result('OverflowTrenchDepth_ft', 'Overflow trench beyond the pit, mean depth', '(OverflowEdge_ft+OverflowEnd_ft)/2', geometry),
  result('RunsEmpty_in_per_ft', 'Slope at which a drain runs empty', '0.125', cite('chicago', 'minimum slope of 3 to 6 in pipe')),
  result('WheelCover_in', 'Cover that a drain needs under wheels', '24', cite('memory', 'ASTM D2321, plastic pipe under highway loads')),
  result('DrainWants_in', 'Cover that a drain wants', '12', practice('a foot, so that a spade misses it')),
  result('DrainCover_in', 'Least cover over the inlet drain', '12*MIN(InletAtHouse_ft,PortInvert_ft-FilterDrop_in/12)-DrainOutside_in', cite('derivation', 'at the house, or before the filter at the tank')),
] as const
