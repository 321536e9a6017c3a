import { MOUTH_DISCHARGE } from '../../calc/pipe/overflowHead.js'
import { cite } from '../../sources.js'
import { fitting, geometry, practice, result, sum } from './rule.js'

const split = cite('derivation', 'both levels from the flow that the tool found to pass the tie; the larger one is never too low')
const TIE_HEAD = (flow: string) => `(${flow}*231/1728/60/(PI()/4*(PIPEBORE("PVC 40",4)/12)^2)/${MOUTH_DISCHARGE})^2/(2*32.174)`
const head = (flow: string, count: string) => `IF(${count}=0,0,OVERFLOWHEAD(MAX(0,${flow})/MAX(1,${count}),PortBore_in,OverflowLosses))`
/** Mean of the bedding's height over a trench whose depth goes evenly from one end to the other: no bedding stands over the ground. */
const beddingOf = (one: string, other: string): string => {
  const depth = (end: string) => `MAX(0,${end}+DrainUnder_in/12)`
  const [deep, flat] = [`MAX(${depth(one)},${depth(other)})`, `MIN(${depth(one)},${depth(other)})`]
  return `IF(${flat}>=DrainSection_ft,DrainSection_ft,IF(${deep}<=DrainSection_ft,(${deep}+${flat})/2,((${deep}-DrainSection_ft)*DrainSection_ft+(DrainSection_ft^2-${flat}^2)/2)/(${deep}-${flat})))`
}
const shallow = cite('derivation', 'the depth goes evenly from end to end; where it is less than the section, the trench’s own depth')

export const stormResults = [
  result('RoofFlow_gpm', 'Flow in the design storm', 'PEAKFLOW(CatchmentArea_ft2,RainIntensity_in_per_h)', cite('definitions')),
  result(
    'DrainRoughness',
    'Manning n of the drains',
    'IF(DrainTable="newer IPC",0.01,0.0155)',
    cite('ipcDrains', 'at 1/8 in/ft 4 in carries 115 gpm by the newer tables (n 0.010), by the older 78, and 6 in 222 (n 0.0145 and 0.0155): the rougher counts'),
  ),
  result('DrainKind', 'Pipe of the drains', 'IF(DrainSize_in=8,"PVC SDR 35",DrainPipe)', practice('8 in drains are SDR 35')),
  result('DrainSuffix', 'Drains in the price list', 'IF(DrainSize_in=4,"","-"&DrainSize_in)', practice('4 in has the bare name')),
  result('PortSuffix', 'Ports in the price list', 'IF(TankPort_in=4,"","-"&TankPort_in)', practice('4 in has the bare name')),
  result('DrainCode', 'Drain pipe in the price list', 'DrainKind&DrainSuffix', practice('4 in has the bare name')),
  result('DrainBore_in', 'Bore of a drain', 'PIPEBORE(DrainKind,DrainSize_in&"")', cite('astmD1785')),
  result('DrainOutside_in', 'Outside diameter of a drain', 'SUMPRODUCT((Pipes[pipe]=DrainKind)*(Pipes[size]=DrainSize_in&""),Pipes[outside_in])', cite('astmD1785')),
  result(
    'DrainCapacity_gpm',
    'Capacity of a drain',
    'DRAINCAPACITY(DrainBore_in,DrainSlope_in_per_ft,DrainRoughness)',
    cite('epaManual', 'Manning, pipe just full, n of the drain table'),
  ),
  result(
    'NextShare',
    'Share of the storm into the next tank',
    'IF(TankCount=1,0,IF(SUMPRODUCT((CatchInlet="next")*1,CatchArea_ft2)>0,SUMPRODUCT((CatchInlet="next")*1,CatchArea_ft2)/CatchmentArea_ft2,IF(InletTanks=2,0.5,0)))',
    practice('by the roofs that drain there, or half'),
  ),
  result('FarFlow_gpm', 'Storm into the far tank', 'RoofFlow_gpm*(1-NextShare)', sum),
  result('NextFlow_gpm', 'Storm into the next tank', 'RoofFlow_gpm*NextShare', sum),
  result('FarInlets', 'Inlet drains of the far tank', 'MAX(1,ROUNDUP(FarFlow_gpm/DrainCapacity_gpm,0))', practice('as many as carry the storm')),
  result('NextInlets', 'Inlet drains of the next tank', 'IF(NextFlow_gpm>0,MAX(1,ROUNDUP(NextFlow_gpm/DrainCapacity_gpm,0)),0)', practice('as many as carry the storm')),
  result('InletCount', 'Inlet drains', 'FarInlets+NextInlets', sum),
  result('PortBore_in', 'Bore of a port', 'PIPEBORE("PVC 40",TankPort_in&"")', cite('astmD1785')),
  result('PortFall_in_per_ft', 'Fall of the stub into a port', '0.5', practice('a trunk larger than the ports splits at the tank')),
  result('PortCapacity_gpm', 'An inlet port takes', 'DRAINCAPACITY(PortBore_in,PortFall_in_per_ft,DrainRoughness)', cite('epaManual', 'Manning, pipe just full')),
  result('FarPorts', 'Inlet ports of the far tank', 'MAX(FarInlets,ROUNDUP(FarFlow_gpm/PortCapacity_gpm,0))', sum),
  result('NextPorts', 'Inlet ports of the next tank', 'IF(NextInlets=0,0,MAX(NextInlets,ROUNDUP(NextFlow_gpm/PortCapacity_gpm,0)))', sum),
  result('InletPorts', 'Inlet ports in use', 'FarPorts+NextPorts', sum),
  result(
    'OverflowsAtInlet',
    'Overflows on the far tank itself',
    'MAX(0,MIN(OverflowCount,FarTankPorts-FarPorts))',
    practice('overflow beside the inlet, so that a storm need not pass the ties'),
  ),
  result('OverflowsNext', 'Overflows on the next tank', 'OverflowCount-OverflowsAtInlet', sum),
  result('PortsUsed', 'Upper ports cut open', 'InletPorts+OverflowCount', sum),
  result('PortsShort', 'Ports that are missing', 'MAX(0,FarPorts-FarTankPorts)+MAX(0,NextPorts+OverflowsNext-IF(TankCount>1,NextTankPorts,0))', sum),
  result(
    'OverflowLosses',
    'Losses at an overflow’s mouth, K',
    `${fitting('square entrance')}+${fitting('medium-radius elbow')}+${fitting('screen, clean')}+${fitting('hinged flap, hanging free')}`,
    cite('epaManual', 'Table 3.3 for entrance and bend; screen and flap common practice'),
  ),
  result('TieFlow_gpm', 'Storm flow that must pass a tie', 'RoofFlow_gpm*ABS(TieShare)', split),
  result('TieHead_ft', 'Head lost through the tie', TIE_HEAD('TieFlow_gpm'), cite('orifice', 'discharge 0.6')),
  result('FarHead_ft', 'Head over the far tank’s overflows', head('FarFlow_gpm-RoofFlow_gpm*TieShare', 'OverflowsAtInlet'), cite('channels')),
  result('NextHead_ft', 'Head over the next tank’s overflows', head('NextFlow_gpm+RoofFlow_gpm*TieShare', 'OverflowsNext'), cite('channels')),
  result('TrunkHead_ft', 'Head at the upper end of that pipe', 'IF(OverflowRun_ft=0,0,OVERFLOWHEAD(RoofFlow_gpm/InletCount,DrainBore_in,0))', cite('channels', 'all that leaves enters it at the invert of the mouths: no less than a mouth of its bore asks for')),
  result(
    'OutletHead_ft',
    'Head that the pipe behind them asks for',
    'MAX(TrunkHead_ft,IF(RoofFlow_gpm<=InletCount*DrainCapacity_gpm,0,DrainBore_in/12+((RoofFlow_gpm/InletCount/DrainCapacity_gpm)^2-1)*OverflowLeast_in/12+FLOWVELOCITY(RoofFlow_gpm/InletCount,DrainBore_in)^2/(2*32.174)))',
    cite('derivation', 'at its upper end; where it runs full, bore, friction less fall, and exit'),
  ),
  result('OverflowHead_ft', 'Head over the overflow invert', 'MAX(FarHead_ft,NextHead_ft,OutletHead_ft)', cite('channels')),
  result('StormRise_ft', 'Highest water over the overflow invert', 'MAX(MAX(FarHead_ft,IF(OverflowsAtInlet>0,OutletHead_ft,0))+IF(TieShare<0,TieHead_ft,0),MAX(NextHead_ft,IF(OverflowsNext>0,OutletHead_ft,0))+IF(TieShare>0,TieHead_ft,0),OutletHead_ft)', split),
  result('AirSpace_ft', 'Room between water and lid', 'TankHeight_ft-(TankFloor_in+TankLid_in)/12-TankWaterDepth_ft', geometry),
  result('BlockedNext', 'Overflows left on the next tank, one blocked', 'OverflowCount-1-BlockedAtInlet', sum),
  result('BlockedTie_ft', 'Head lost through the tie, one overflow blocked', TIE_HEAD('RoofFlow_gpm*ABS(BlockedShare)'), cite('orifice', 'discharge 0.6')),
  result(
    'BlockedRise_ft',
    'Highest water with one overflow blocked',
    `IF(OverflowCount<2,0,MAX(MAX(${head('FarFlow_gpm-RoofFlow_gpm*BlockedShare', 'BlockedAtInlet')},IF(BlockedAtInlet>0,OutletHead_ft,0))+IF(BlockedShare<0,BlockedTie_ft,0),MAX(${head('NextFlow_gpm+RoofFlow_gpm*BlockedShare', 'BlockedNext')},IF(BlockedNext>0,OutletHead_ft,0))+IF(BlockedShare>0,BlockedTie_ft,0),OutletHead_ft))`,
    split,
  ),
  result('DrainBeside_ft', 'Drain past the far tank to the ports of the next', 'IF(TankCount=1,0,(NextInlets+IF(OverflowsNext>0,1,0))*(IF(SecondTanks>0,SecondWidth_ft,TankWidth_ft)+TankGap_in/12))', cite('derivation', 'runs are measured to the far tank: a tank’s width and the gap more')),
  result('DrainRun_ft', 'Drain pipe in the ground', 'InletCount*(InletRun_ft+OverflowRun_ft)+DrainBeside_ft', sum),
  result(
    'DrainBedding_yd3',
    'Bedding of the drains, in place',
    'MAX(0,TRENCHBEDDING(InletRun_ft+OverflowRun_ft,DrainTrench_ft,DrainOutside_in,DrainUnder_in,DrainOver_in)-(InletCount-1)*(InletRun_ft+OverflowRun_ft)*DrainPipe_ft2/27-BeddingShort_yd3)+BesideBedding_yd3',
    cite('bedding', '4 in under the pipe, every pipe taken out; no higher than the trench is deep'),
  ),
  result('DrainPipe_ft2', 'Section of a drain, outside', 'PI()/4*(DrainOutside_in/12)^2', geometry),
  result('DrainPipes_yd3', 'Drains, outside volume', 'DrainRun_ft*DrainPipe_ft2/27', geometry),
  result('BesideBedding_yd3', 'Bedding of the drain past the far tank', 'DrainBeside_ft*(TrenchWidth_ft*DrainSection_ft-DrainPipe_ft2)/27', cite('bedding')),
  result(
    'DrainsBeyond_yd3',
    'Drains and their bedding beyond the pit',
    'IF(InletRun_ft+OverflowRun_ft=0,0,(DrainBedding_yd3-BesideBedding_yd3+(DrainRun_ft-DrainBeside_ft)*DrainPipe_ft2/27)*(InletBeyond_ft+OverflowBeyond_ft)/MAX(1,InletRun_ft+OverflowRun_ft))',
    cite('derivation', 'by the share of the runs that lies beyond'),
  ),
  result('DrainsInPit_yd3', 'Drains and their bedding in the pit', 'DrainBedding_yd3+DrainPipes_yd3-DrainsBeyond_yd3', sum),
  result('DrainSection_ft', 'Bedding and drain, from the trench’s bottom to the top of the bedding', '(DrainUnder_in+DrainOutside_in+DrainOver_in)/12', geometry),
  result('InletBedding_ft', 'The same, mean of the inlet’s trench', beddingOf('PortInvert_ft', 'InletAtHouse_ft'), shallow),
  result('OverflowBedding_ft', 'The same, mean of the overflow’s trench', beddingOf('OverflowInvert_ft', 'OutfallDepth_ft'), shallow),
  result('BeddingShort_yd3', 'Bedding that shallow ends lack', 'DrainTrench_ft*(InletRun_ft*(DrainSection_ft-InletBedding_ft)+OverflowRun_ft*(DrainSection_ft-OverflowBedding_ft))/27', sum),
  result('PortWorth_ft', 'A port with its work costs as much as so much 4 in drain', '18', practice('about ninety dollars to five; it chooses a layout, no price is figured by it')),
  result('DrainPricePower', 'Drain pipe grows dearer with its size, to the power of', '1.6', practice('it chooses a layout, no price is figured by it')),
  result('DrainStick_ft', 'Stick of drain pipe', '10', practice('10 ft')),
  result('CementSet', 'Joints that a set of cement makes', '40', practice('a quart of each')),
  result(
    'CementJoints',
    'Joints to cement',
    'PortsUsed*4+IF(DrainKind="PVC 40",ROUNDUP(DrainRun_ft/DrainStick_ft,0),0)',
    practice('four at a port, one a stick; SDR 35 has gaskets'),
  ),
  result('FirstWash_gal', 'First wash of the roofs', 'CATCHMENTYIELD(CatchmentArea_ft2,FirstFlush_in,1,0,1)', cite('definitions', 'depth times plan area')),
  result(
    'LevelingTime_s',
    'Tied tanks come level from 1 ft apart in',
    'IF(TankCount=1,0,LEVELINGTIME(MAX(TankInside_ft2,SecondInside_ft2),MAX(TankInside_ft2,SecondInside_ft2),PIPEBORE("PVC 40",4),1,0.01))',
    cite('orifice', 'to a hundredth of a foot'),
  ),
] as const
