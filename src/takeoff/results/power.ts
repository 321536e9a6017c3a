import { cite } from '../../sources.js'
import { citeRows } from '../../table.js'
import { breakers } from '../../tables/breakers.js'
import { conductors } from '../../tables/conductors.js'
import { conduits } from '../../tables/conduits.js'
import { motors } from '../../tables/motors.js'
import { geometry, practice, result, sum } from './rule.js'

const ampacityTable = 'Table 310.16 from 2020 and to 2008, 310.15(B)(16) in 2011 to 2017'
/** Six times full load stands until somebody types another multiple; of a small three-phase motor it is more. */
const STARTS = 'IF(StartMultiple=6,MAX(StartMultiple,StartThree),StartMultiple)'

export const powerResults = [
  result('TableCurrent_A', 'Full-load current of the table', 'MOTORCURRENT(PumpPower_hp,PumpVoltage_V,PumpPhases)', citeRows(motors, 'nec', 'Tables 430.248 and 430.250, by the volts of the motor')),
  result('MotorCurrent_A', 'Full-load current, of table or nameplate', 'MAX(TableCurrent_A,PumpCurrent_A)', citeRows(motors, 'nec', '430.6(A)(1): the table; the nameplate where it says more')),
  result('CableCores', 'Conductors of the feed, beside the ground', 'IF(OR(PumpPhases=3,PumpWires=3),3,2)', practice('three-phase, or single-phase with a control box: three')),
  result('CoreSuffix', 'Cores of the cable in the price list', 'IF(CableCores=3,"-3","")', practice('a cable of two conductors and ground has the bare name')),
  result(
    'ControlWords',
    'Control of the pump, in words',
    'IF(PumpPhases=3,"Three-pole starter with overload",IF(PumpWires=3,"Control box with overload","Motor switch with overload"))',
    practice('three-phase pumps take a starter, three-wire ones a control box'),
  ),
  result('ConduitRun_ft', 'Conduit, riser to edge and down outside', 'TankLength_ft+PastEdge_ft+TrenchDepth_in/12', geometry),
  result('PastEdge_ft', 'Conduit past the tank edge', '2', practice('just beyond the edge')),
  result('FeederLength_ft', 'Feed, one way, to the pump', 'PowerRun_ft+ConduitRun_ft+Cover_ft+TankHeight_ft+CableSlack_ft', sum),
  result(
    'Cable',
    'Cable size, AWG',
    'IF(CableSize="",CONDUCTORSIZE(MotorCurrent_A,FeederLength_ft,Voltage_V,DropLimit,PumpPhases,CableMetal),CableSize)',
    citeRows(conductors, 'nec', `${ampacityTable}; Chapter 9 Table 8`),
  ),
  result(
    'FeederDrop_V',
    'Voltage drop',
    'VOLTAGEDROP(MotorCurrent_A,FeederLength_ft,Cable,PumpPhases,CableMetal)',
    citeRows(conductors, 'nec', '2 I L R / 1000; resistance of Chapter 9 Table 8'),
  ),
  result('FeederDropShare', 'Voltage drop, share of the voltage', 'FeederDrop_V/Voltage_V', sum),
  result('MotorShare', 'Voltage at the motor, share of its nameplate', '(Voltage_V-FeederDrop_V)/PumpVoltage_V', sum),
  result('MotorLeastShare', 'Share that a motor runs on, at the least', '0.9', cite('memory', 'NEMA MG 1: within 10 % of the nameplate')),
  result('LowVoltage_V', 'A motor of less volts is told of the higher ones', '150', practice('motors come for 115 V and for 208 V and more')),
  result('MotorStallShare', 'Share under which no motor is run', '0.8', practice('two thirds of its torque are left, and it burns')),
  result('StartMultiple', 'Locked rotor over full load', '6', practice('six times; the nameplate decides')),
  result(
    'StartThree',
    'Locked rotor over full load of a small three-phase motor',
    'IF(PumpPhases=3,IF(PumpPower_hp<=0.5,9.2,IF(PumpPower_hp<1,7.9,IF(PumpPower_hp<=3,7.4,6.1))),0)',
    cite('nec', 'Table 430.251(B), design B, over Table 430.250: the largest of each group, from memory', 'from memory'),
  ),
  result('StartRatio', 'Locked rotor over full load, the larger', STARTS, cite('derivation', 'another multiple that somebody typed, as of a soft starter, counts alone')),
  result('StartDropShare', 'Voltage drop at the start, share', `${STARTS}*FeederDrop_V/Voltage_V`, sum),
  result('StartDropLimit', 'Drop at the start that the office allows', '0.2', practice('20 %')),
  result('StartDropMost', 'Drop at which a motor does not start', '0.5', practice('torque falls with the square of the voltage: a quarter is left')),
  result('CableAmpacity_A', 'Ampacity of the cable', 'AMPACITY(Cable,CableMetal)', citeRows(conductors, 'nec', `${ampacityTable}, 60 °C column`)),
  result('Breaker_A', 'Largest breaker', 'BREAKERSIZE(IF(PumpCurrent_A=0,MotorCurrent_A,TableCurrent_A))', citeRows(breakers, 'nec', 'Table 430.52 and 240.6(A), on the current of the table (430.6(A)(1))')),
  result('BaseWire', 'Size by ampacity alone, AWG', 'CONDUCTORSIZE(MotorCurrent_A,0,Voltage_V,DropLimit,PumpPhases,CableMetal)', citeRows(conductors, 'nec', '430.22')),
  result('GroundTable', 'Ground by the breaker, AWG', 'GROUNDSIZE(Breaker_A,CableMetal)', citeRows(breakers, 'nec', 'Table 250.122')),
  result(
    'GroundArea_cmil',
    'Ground needed, grown with the line',
    'MIN(1,INDEX(Conductors[area_cmil],MATCH(GroundTable,Conductors[size],0))/INDEX(Conductors[area_cmil],MATCH(BaseWire,Conductors[size],0)))*INDEX(Conductors[area_cmil],MATCH(Cable,Conductors[size],0))',
    citeRows(conductors, 'nec', '250.122(A) and (B): in the ratio of circular mils, never larger than the line'),
  ),
  result('GroundWire', 'Least ground, AWG', 'INDEX(Conductors[size],SUMPRODUCT((Conductors[area_cmil]<GroundArea_cmil-0.5)*1)+1)', citeRows(conductors, 'nec', '250.122')),
  result('CableOutside_in', 'Outside diameter of the cable', '1', practice('thickest cable of a house pump')),
  result('CableCover_in', 'Least cover over the cable', 'IF(TrafficRank>1,COVERDEPTH("direct burial","road"),COVERDEPTH("direct burial"))', cite('nec', 'Table 300.5')),
  result('ConduitCover_in', 'Least cover over the conduit', 'IF(TrafficRank>2,ConduitRoad_in,IF(TrafficRank=2,COVERDEPTH("PVC conduit","driveway"),COVERDEPTH("PVC conduit")))', cite('nec', 'Table 300.5: under cars the drive of a one- or two-family house (that column from memory), under trucks a road', 'from memory')),
  result('ConduitRoad_in', 'Least cover over the conduit under a road or a public lot', 'COVERDEPTH("PVC conduit","road")', cite('nec', 'Table 300.5')),
  result(
    'ConduitOutside_in',
    'Outside diameter of the conduit',
    'SUMPRODUCT((Pipes[pipe]="PVC 40")*(Pipes[size]=ConduitSize),Pipes[outside_in])',
    cite('astmD1785', 'rigid PVC conduit has the outside diameters of iron pipe'),
  ),
  result('ConduitHas_in', 'Cover that the conduit over the lid has', '12*Cover_ft-ConduitOutside_in', cite('derivation', 'laid on the lid')),
  result('CableWide_in', 'Cable in the conduit, wide side', 'IFERROR(INDEX(Cables[Diameter_in],MATCH(Cable,Cables[Size],0))*(CableCores+1)/3,0)', cite('office', 'sheet Cables, of two conductors and ground; a third lies beside them')),
  result('CableThick_in', 'Cable in the trench', 'MAX(CableOutside_in,CableWide_in)', cite('derivation', 'the sheet Cables, where it says more')),
  result('FloatCable_in', 'Float cable beside it', '0.3', practice('three-core float cable')),
  result(
    'ConduitFillLeast',
    'Share of the conduit filled by the listed width alone',
    'IF(CableWide_in=0,0,CONDUITFILL("PVC 40",ConduitSize,CableWide_in*3/(CableCores+1))+CONDUITFILL("PVC 40",ConduitSize,FloatCable_in))',
    citeRows(conduits, 'nec', 'Chapter 9 Tables 1 and 4, notes'),
  ),
  result(
    'ConduitFill',
    'Share of the conduit filled',
    'IF(CableWide_in=0,0,CONDUITFILL("PVC 40",ConduitSize,CableWide_in)+CONDUITFILL("PVC 40",ConduitSize,FloatCable_in))',
    citeRows(conduits, 'nec', 'Chapter 9 Tables 1 and 4, notes: a flat cable counts as a circle of its wide side'),
  ),
] as const
