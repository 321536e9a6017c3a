import { cite } from '../../sources.js'
import { CURVE_POINTS, fieldsOf } from '../officeTables.js'
import { geometry, isEmptyIn, office, ofPump, ofRow, practice, result, sum } from './rule.js'

const system = cite('hiData', 'section I-A, system head')
const chord = cite('derivation', 'straight line between points')
/** Flow where the pump meets a lift and pressure: none where it starts below, the curve's last where it ends above. */
const meets = (lift: string, psi: string, loss: string) =>
  `IFERROR(PUMPDUTY.FLOW(Curve,${lift}+2.31*(${psi}),HouseFlow_gpm,${loss}),IF(${lift}+2.31*(${psi})>=MAX(CurveHead_ftw),0,MAX(CurveFlow_gpm)))`
/** What comes with full tanks where the house lies so low that it needs no pump. */
const gravity = (psi: string) => `HouseFlow_gpm*(MAX(0,0-LiftFull_ftw-2.31*${psi})/NewLineLoss_ftw)^0.54`
const headAt = (flow: string, point: string) =>
  `INDEX(CurveHead_ftw,${point})+(${flow}-INDEX(CurveFlow_gpm,${point}))*(INDEX(CurveHead_ftw,${point}+1)-INDEX(CurveHead_ftw,${point}))/(INDEX(CurveFlow_gpm,${point}+1)-INDEX(CurveFlow_gpm,${point}))`
/** The rating of the tank of that volume; of a volume that the table lacks, as of an empty cell, the usual one. */
const RATED = ofRow('PressureTanks', 'Volume_gal', 'PressureTank_gal', 'Rating_psi')
const USUAL_RATING = Number(fieldsOf('PressureTanks').Rating_psi!.default)
const ofSwitch = (what: string) => cite('derivation', `${what}, lowest water, C of the job; the switch ahead of the filters`)

export const pumpResults = [
  result('PumpPower_hp', 'Pump motor', ofPump('Power_hp'), office),
  result('PumpVoltage_V', 'Pump voltage', ofPump('Voltage_V'), office),
  result('PumpPhases', 'Pump phases', ofPump('Phases'), office),
  result('PumpWires', 'Wires of the motor', ofPump('Wires'), office),
  result('PumpCurrent_A', 'Current of the nameplate', ofPump('Current_A'), office),
  result('PumpPrice_usd', 'Price of the pump', ofPump('Price_usd'), office),
  result('Lift_ftw', 'Lift from an empty tank', 'WaterLineRise_ft+Cover_ft+TankHeight_ft-TankFloor_in/12', geometry),
  result('LiftFull_ftw', 'Lift from full tanks', 'WaterLineRise_ft+WaterLevel_ft', geometry),
  result('StationLoss_psi', 'Treatment and backflow at the house', 'TreatmentLoss_psi+IF(Backflow="preventer",BackflowLoss_psi,0)', sum),
  result('SwitchWanted_psi', 'Pressure wanted at the switch', 'HousePressure_psi+StationLoss_psi', cite('derivation', 'tank and switch ahead of treatment and backflow')),
  result('TotalHead_ftw', 'Head the pump must give', 'TOTALHEAD(Lift_ftw,SwitchWanted_psi,LineLoss_ftw)', system),
  result('ByGravity', 'Gravity alone serves the house: 1 where the job has no pump and needs none', 'IF(AND(PumpLeftOut=1,TotalHead_ftw<=0),1,0)', cite('derivation', 'no head is left for a pump to give')),
  result('FeedRun_ft', 'Feed from the panel to the tank edge, where there is one', 'IF(ByGravity=1,0,PowerRun_ft)', sum),
  result('FeedToo', 'Feed in the trench, in words', 'IF(ByGravity=1,""," and power feed")', sum),
  result('CableToo', 'Cable in the trench, in words', 'IF(ByGravity=1,""," and cable")', sum),
  result('LineJoints', 'Joints to make', 'InsertJoints-IF(ByGravity=1,2,0)', practice('without a pump none at the pitless adapter and none at the pump')),
  result('CurvePoint', 'Point of the curve below the flow', `MIN(MATCH(HouseFlow_gpm,CurveFlow_gpm,1),${CURVE_POINTS - 1})`, chord),
  result('PumpHead_ftw', 'Head of the pump at the house flow', `IF(HouseFlow_gpm>MAX(CurveFlow_gpm),0,${headAt('HouseFlow_gpm', 'CurvePoint')})`, chord),
  result('PumpShort_ftw', 'Head that is missing', 'MAX(0,TotalHead_ftw-PumpHead_ftw)', sum),
  result('DutyFlow_gpm', 'Flow at the wanted pressure, lowest water', meets('Lift_ftw', 'SwitchWanted_psi', 'LineLoss_ftw'), system),
  result(
    'GravityFlow_gpm',
    'Flow of gravity alone at the wanted pressure, full tanks, new pipe',
    gravity('HousePressure_psi'),
    cite('epaManual', 'Hazen–Williams: flow as the 0.54th power of the head that is left'),
  ),
  result(
    'ActualFlow_gpm',
    'Flow at the wanted pressure, full tanks, new pipe',
    `IF(ByGravity=1,GravityFlow_gpm,MAX(${meets('LiftFull_ftw', 'HousePressure_psi', 'NewLineLoss_ftw')},GravityFlow_gpm))`,
    cite('hiData', 'section I-A; filters new, nothing lost in them'),
  ),
  result(
    'MostFlow_gpm',
    'Most flow: full tanks, new pipe, when the pump cuts in',
    `IF(ByGravity=1,GravityFlow_gpm,MAX(${meets('LiftFull_ftw', 'MIN(HousePressure_psi,CutIn_psi)', 'NewLineLoss_ftw')},${gravity('MIN(HousePressure_psi,CutIn_psi)')}))`,
    cite('hiData', 'section I-A; filters new, nothing lost in them; what gravity gives at that pressure as well'),
  ),
  result(
    'OffCurve',
    'Duty past the end of the curve',
    'IF(MIN(CurveHead_ftw)>LiftFull_ftw+2.31*MIN(HousePressure_psi,CutIn_psi)+NewLineLoss_ftw*(MAX(CurveFlow_gpm)/HouseFlow_gpm)^1.852,1,0)',
    system,
  ),
  result('ActualVelocity_fps', 'Velocity that comes', 'FLOWVELOCITY(ActualFlow_gpm,LineBore_in)', geometry),
  result('MostVelocity_fps', 'Velocity when the pump cuts in', 'FLOWVELOCITY(MostFlow_gpm,LineBore_in)', geometry),
  result('CutInAllowed_fps', 'Velocity allowed when the pump cuts in', '6', practice('5 ft/s in use; for the moment after the pump cuts in a fifth more')),
  result('ShutOff_psi', 'Shut-off pressure of the pump', 'MAX(CurveHead_ftw)/2.31', cite('hiData', 'section I-A, H = 2.31 p')),
  result('ShutOffAtHouse_psi', 'Shut-off pressure at the house, lowest water', '(MAX(CurveHead_ftw)-Lift_ftw)/2.31', cite('hiData', 'section I-A, H = 2.31 p')),
  result('ShutOffAtHouseFull_psi', 'Shut-off pressure at the house, full tanks', '(MAX(CurveHead_ftw)-LiftFull_ftw)/2.31', cite('hiData', 'section I-A, H = 2.31 p')),
  result('GravityAtSwitch_psi', 'Pressure of gravity alone at the switch, lowest water, wanted flow', 'MAX(0,0-Lift_ftw-LineLoss_ftw)/2.31', cite('hiData', 'section I-A, H = 2.31 p')),
  result('FlowAtCutIn_gpm', 'Flow at cut-in', meets('Lift_ftw', 'CutIn_psi', 'LineLoss_ftw'), ofSwitch('cut-in')),
  result('FlowAtCutOut_gpm', 'Flow at cut-out', meets('Lift_ftw', 'CutOut_psi', 'LineLoss_ftw'), ofSwitch('cut-out')),
  result(
    'FlowAtMean_gpm',
    'Flow at the mean of the switch, full tanks',
    meets('LiftFull_ftw', '(CutIn_psi+CutOut_psi)/2', 'NewLineLoss_ftw'),
    cite('derivation', 'full tanks, new pipe, tank and switch ahead of the filters: the most that comes'),
  ),
  result('Barometer_inHg', 'Standard air at this altitude', 'SeaAir_inHg*(1-Altitude_ft/StandardHeight_ft)^5.2559', cite('standardAir')),
  result('SeaAir_inHg', 'Standard air at sea level', '29.92', cite('standardAir')),
  result('SeaAir_psi', 'Standard air at sea level, absolute pressure', '14.7', cite('standardAir')),
  result('StandardHeight_ft', 'Height constant of the standard air', '145442', cite('standardAir')),
  result(
    'DrawdownShare',
    'Drawdown of a pressure tank, share of its volume',
    'TANKDRAWDOWN(DrawdownTest_gal,CutIn_psi,CutOut_psi,Charge_psi,SeaAir_psi*Barometer_inHg/SeaAir_inHg)/DrawdownTest_gal',
    cite('drawdown'),
  ),
  result('SwitchSpan_psi', 'Cut-out over cut-in, at the least', '10', practice('switches come set 20 apart, and few go under 10')),
  result('SwitchSpanMost_psi', 'Cut-out over cut-in, at the most', '30', practice('switches come set 20 apart, and few go over 30')),
  result('Charge_psi', 'Air charge of the pressure tank, without water', 'CutIn_psi-2', practice('2 psi below cut-in, the tank empty of water')),
  result('DrawdownTest_gal', 'Volume that the share is figured for', '100', cite('definitions')),
  result('LeastRunWanted_min', 'Least run that such motors want', '1', practice('a minute, so that the motor cools before the next start')),
  result('PressureTankNeeded_gal', 'Pressure tank needed', 'FlowAtMean_gpm*LeastRun_min/DrawdownShare', cite('drawdown', 'drawdown = flow at the mean pressure x least run')),
  result('PressureTankModel', 'Pressure tank', 'IFERROR(INDEX(PressureTanks[Model],MATCH(PressureTank_gal,PressureTanks[Volume_gal],0)),"of the office’s choice")', office),
  result(
    'PressureTankPrice_usd',
    'Price of the pressure tank',
    'IFERROR(INDEX(PressureTanks[Price_usd],MATCH(PressureTank_gal,PressureTanks[Volume_gal],0)),INDEX(Prices[Price_usd],MATCH("PRESSURE-TANK",Prices[Code],0)))',
    office,
  ),
  result('PressureTankListed', 'Pressure tanks of that volume in the table', 'IFERROR(IF(COUNT(PressureTanks[Volume_gal])=0,1,SUMPRODUCT((PressureTanks[Volume_gal]=PressureTank_gal)*1)),1)', office),
  result('RatingUnasked', 'Its rating is not on the sheet PressureTanks: 1 where the usual one is taken', `IFERROR(IF(${isEmptyIn('PressureTanks', 'Volume_gal', 'PressureTank_gal', 'Rating_psi')},1,0),0)`, office),
  result('ReliefOver_psi', 'Relief valve over the cut-out, at the least', '10', practice('so that it stays shut at every stop')),
  result('PressureTankRating_psi', 'Pressure that the tank is made for', `IFERROR(${RATED},${USUAL_RATING})`, office),
  result('Drawdown_gal', 'Drawdown of the pressure tank', 'PressureTank_gal*DrawdownShare', cite('drawdown')),
  result(
    'ShortestCycle_min',
    'Shortest cycle, house at half the flow',
    'IF(FlowAtMean_gpm=0,0,4*Drawdown_gal/FlowAtMean_gpm)',
    cite('derivation', 'worst cycle at half flow, 4 V / Q'),
  ),
  result(
    'Starts_per_day',
    'Starts by the use of the thirstiest month',
    'IF(Drawdown_gal=0,0,MAX(MonthUse_gal_per_day)/Drawdown_gal)',
    cite('derivation', 'use over drawdown: the pump fills at each start what was drawn'),
  ),
  result('StartsMost_per_day', 'Starts, if the worst cycle went on all day', 'IF(ShortestCycle_min=0,0,1440/ShortestCycle_min)', cite('derivation', '1,440 minutes a day')),
  result('StartsAllowed_per_day', 'Starts allowed', 'IF(PumpPower_hp<1,300,IF(PumpPower_hp<=5,100,50))', cite('starts', '300 below 1 hp, 50 above 5 hp; 100 between, from memory', 'from memory')),
  result('LowPoint_ft', 'Lowest point of the line, below the full water level', 'MAX(LineCentre_ft,0-WaterLineRise_ft)-WaterLevel_ft', geometry),
  result('LinePressureMost_psi', 'Highest standing pressure in the line', '(IF(ByGravity=1,0,MAX(CurveHead_ftw))+LowPoint_ft)/2.31', cite('hiData', 'shut-off, full tanks, lowest point')),
  result('LineTestAtTank_psi', 'The same pressure on a gauge at the tank wall', 'LinePressureMost_psi-MAX(0,0-WaterLineRise_ft-LineCentre_ft)/2.31', cite('hiData', 'H = 2.31 p; the lower end presses more')),
  result('ActualPoint', 'Point of the curve below that flow', `MIN(MATCH(ActualFlow_gpm,CurveFlow_gpm,1),${CURVE_POINTS - 1})`, chord),
  result(
    'LineRunning_psi',
    'Pressure at that point, pump running',
    `(IF(ByGravity=1,0,MAX(0,${headAt('ActualFlow_gpm', 'ActualPoint')}))+LowPoint_ft)/2.31`,
    cite('derivation', 'friction on the way not taken off; past the end of its curve a pump adds nothing'),
  ),
  result('WaveSpeed_fps', 'Speed of the pressure wave', 'INDEX(LineWaves[wave_fps],MATCH(WaterLinePipe,LineWaves[pipe],0))', cite('memory', 'moduli of polyethylene')),
  result('CriticalTime_s', 'Slower closing than this makes less surge', '2*LineLength_ft/WaveSpeed_fps', cite('tm5813', 'critical time 2 L / a')),
  result('LineSurge_psi', 'Highest pressure with surge', 'LineRunning_psi+SURGEPRESSURE(ActualVelocity_fps,WaveSpeed_fps)', cite('surge', 'Joukowsky')),
  result('MostPoint', 'Point of the curve below the most flow', `MIN(MATCH(MostFlow_gpm,CurveFlow_gpm,1),${CURVE_POINTS - 1})`, chord),
  result(
    'MostSurge_psi',
    'Highest pressure with surge, the pump just cut in',
    `(IF(ByGravity=1,0,MAX(0,${headAt('MostFlow_gpm', 'MostPoint')}))+LowPoint_ft)/2.31+SURGEPRESSURE(MostVelocity_fps,WaveSpeed_fps)`,
    cite('surge', 'Joukowsky'),
  ),
  result('HouseBelow_ft', 'House below the full water level', 'MAX(0,0-WaterLineRise_ft-WaterLevel_ft)', geometry),
  result('Siphons', 'Water that runs past a pump by itself: 1 where a pump serves a house below the water', 'IF(AND(HouseBelow_ft>0,ByGravity=0),1,0)', geometry),
  result('CrestUnderFull_ft', 'High point of the line below the full water level', 'MAX(0,TrenchDepth_in/12-WaterLevel_ft)', cite('derivation', 'as deep as its trench all the way; a siphon breaker lets air in only over the water')),
  result('HouseStanding_psi', 'Standing pressure at the house', 'MAX(IF(AND(PumpLeftOut=1,HouseBelow_ft>0),0,CutOut_psi),HouseBelow_ft/2.31)', cite('hiData', 'H = 2.31 p')),
  result('HouseMost_psi', 'Pressure that a house may have', '80', cite('memory', 'IPC 604.8, UPC 608.2: a reducing valve above 80 psi')),
  result('ReducerFall_psi', 'A reducing valve falls off while water flows', '10', practice('5 to 15 psi under its setting')),
  result('PumpEfficiency', 'Wire to water', '0.4', practice('small submersible pumps')),
  result('PumpEnergy_kWh_per_kgal', 'Energy', '0.003141*MAX(0,TotalHead_ftw)/PumpEfficiency', cite('derivation', '8.34 lb a gallon, 2,655,000 ft·lb a kWh')),
  result('WaterPower_hp', 'Power in the water', 'WATERPOWER(HouseFlow_gpm,MAX(0,TotalHead_ftw),PumpEfficiency)', cite('hiData')),
] as const
