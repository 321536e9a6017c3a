import { cite } from '../../sources.js'
import { fitting, geometry, practice, result, sum } from './rule.js'


export const lineResults = [
  result(
    'LineFit',
    'Fittings that the pipe takes',
    'INDEX(Pipes[fit],MATCH(WaterLinePipe,Pipes[pipe],0))',
    cite('astmD2239', 'IPS by inside diameter; CTS by outside diameter (D2737)'),
  ),
  result('LineBore_in', 'Bore of the line', 'PIPEBORE(WaterLinePipe,WaterLineSize)', cite('astmD2239')),
  result(
    'LineOutside_in',
    'Outside diameter of the line',
    'SUMPRODUCT((Pipes[pipe]=WaterLinePipe)*(Pipes[size]=WaterLineSize),Pipes[outside_in])',
    cite('astmD2239'),
  ),
  result('LineCover_in', 'Cover over the line in its trench', 'TrenchDepth_in-LineOutside_in', geometry),
  result(
    'LineRating_psi',
    'Rating of the line, cold',
    'SUMPRODUCT((Pipes[pipe]=WaterLinePipe)*(Pipes[size]=WaterLineSize),Pipes[rating_psi])',
    cite('astmD2239', 'at 800 psi design stress: a coil of today’s PE4710 (1,000 psi) marks the same wall higher'),
  ),
  result('LineDerating', 'Share of the rating left in the warmest water', 'INDEX(LineHeat[left],SUMPRODUCT((LineHeat[upTo_F]<WaterTemperature_F)*1)+1)', cite('pe100Heat')),
  result('LineHolds_psi', 'Pressure that the line takes, warm', 'LineRating_psi*LineDerating', cite('pe100Heat')),
  result(
    'LineHoldsLeast_psi',
    'Pressure that the line takes, warm, by factors in use for US coils',
    'LineRating_psi*INDEX(LineHeatUs[left],SUMPRODUCT((LineHeatUs[upTo_F]<WaterTemperature_F)*1)+1)',
    cite('memory', 'Plastics Pipe Institute handbook: 1.00 at 73 °F, straight down to 0.50 at 140 °F'),
  ),
  result('DropPipe_ft', 'Drop pipe in the tank', '3', practice('from the pitless adapter, low in the wall, to the pump')),
  result('LineSlack_ft', 'Slack of the line in the trench', '2', practice('12 to 24 in at a tank wall')),
  result('LineLength_ft', 'Length of the line', 'WaterLineRun_ft+LineSlack_ft+DropPipe_ft', sum),
  result('Coil_ft', 'Length of a coil', '300', practice('sold by the 100 ft from coils of 300 ft')),
  result('Couplings', 'Couplings between coils', 'MAX(0,ROUNDUP(LineLength_ft/Coil_ft,0)-1)', practice('one where a coil ends')),
  result('InsertJoints', 'Joints of the line', '4+2*Couplings', practice('tank wall, house, pitless adapter, pump; two at a coupling')),
  result(
    'FittingResistance',
    'Resistance of the fittings, K',
    `InsertJoints*${fitting('insert (barb) joint')}`,
    practice('inserts, in the bore of the line'),
  ),
  result(
    'ScrewedResistance',
    'Resistance of the 1 in fittings at the pump, K',
    `${fitting('screwed elbow, 1 in')}+${fitting('swing check valve, open')}+${fitting('square entrance')}`,
    cite('hiData', 'pitless adapter as a screwed elbow of 1 in, Fig. 3.B.1b; check valve and entrance after EPA, Table 3.3'),
  ),
  result('ScrewedBore_in', 'Bore of 1 in fittings', 'PIPEBORE("PVC 40","1")', cite('astmD1785', '1 in iron pipe size')),
  result('LineVelocity_fps', 'Velocity at the wanted flow', 'FLOWVELOCITY(HouseFlow_gpm,LineBore_in)', geometry),
  result('FittingMost_fps', 'Velocity that short fittings of brass may have', '10', practice('twice that of the line, over a foot of pipe')),
  result('FittingVelocity_fps', 'Velocity in the 1 in fittings at the pump', 'IF(ByGravity=1,0,FLOWVELOCITY(MAX(HouseFlow_gpm,MostFlow_gpm),ScrewedBore_in))', geometry),
  result('LineFriction_ftw', 'Friction in the line', 'FRICTIONLOSS(HouseFlow_gpm,LineLength_ft,LineBore_in,PipeC)', cite('epaManual', 'Hazen–Williams, C of the job')),
  result('LineFittings_ftw', 'Loss in the fittings', 'FITTINGLOSS(HouseFlow_gpm,LineBore_in,FittingResistance)+FITTINGLOSS(HouseFlow_gpm,ScrewedBore_in,ScrewedResistance)', cite('epaManual')),
  result('LineLoss_ftw', 'Loss of the line', 'LineFriction_ftw+LineFittings_ftw', sum),
  result('NewLineLoss_ftw', 'Loss of the line, pipe new', 'FRICTIONLOSS(HouseFlow_gpm,LineLength_ft,LineBore_in,150)+LineFittings_ftw', cite('epaManual', 'Hazen–Williams, C 150')),
  result('LineMovement_in', 'Movement of the line, 30 °F', 'THERMALCHANGE(WaterLineRun_ft,30)', cite('ppiThermal')),
] as const
