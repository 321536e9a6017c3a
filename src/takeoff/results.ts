/**
 * The engineering of a job as named results: each a spreadsheet formula over fields, table columns, cell
 * functions and earlier results. The Design sheet writes them live; the pane and the takeoff evaluate them.
 */
import { cite, type Citation } from '../sources.js'
import { CURVE_POINTS, monthNames } from './officeTables.js'

export interface ResultRule {
  name: string
  label: string
  formula: string
  source: Citation
}
const result = (name: string, label: string, formula: string, source: Citation): ResultRule => ({ name, label, formula, source })

const office = cite('office')
const sum = cite('derivation', 'from the lines above')
const geometry = cite('derivation', 'geometry of the layout')
const ofTank = (column: string) => `INDEX(Tanks[${column}],MATCH(TankModel,Tanks[Model],0))`
const ofPump = (column: string) => `INDEX(Pumps[${column}],MATCH(PumpModel,Pumps[Model],0))`

export const resultGroups: readonly { title: string; results: readonly ResultRule[] }[] = [
  {
    title: 'Tank',
    results: [
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
      result('TankMostCover_ft', 'Most cover allowed', ofTank('MostCover_ft'), office),
      result('TankWeight_lb', 'Weight empty', ofTank('Weight_lb'), office),
      result('TankPrice_usd', 'Price of a tank', ofTank('Price_usd'), office),
    ],
  },
  {
    title: 'Water',
    results: [
      result('Runoff', 'Runoff coefficient', 'INDEX(Roofs[Runoff],MATCH(RoofSurface,Roofs[Surface],0))', office),
      result('DailyUse_gal_per_day', 'Use a day', 'People*UsePerPerson_gal_per_day+OutdoorUse_gal_per_day', sum),
      result('TankVolume_gal', 'Water in one tank', 'TANKVOLUME(TankLength_ft-2*TankWall_in/12,TankWidth_ft-2*TankWall_in/12,TankWaterDepth_ft)', geometry),
      result('Storage_gal', 'Water in all tanks', 'TankVolume_gal*TankCount', geometry),
      result('YearInflow_gal', 'Caught in a year', 'SUM(MonthInflow_gal)', sum),
      result('YearDemand_gal', 'Wanted in a year', 'SUM(MonthDemand_gal)', sum),
      result('YearOverflow_gal', 'Spilled in a year', 'SUM(MonthOverflow_gal)', sum),
      result('Reliability', 'Share of the demand met', 'IF(YearDemand_gal=0,1,SUM(MonthSupplied_gal)/YearDemand_gal)', cite('reliability', 'volumetric; monthly balance, yield before spillage, second of two like years')),
      result('LowestStored_gal', 'Least stored at a month’s end', 'MIN(MonthStored_gal)', sum),
    ],
  },
  {
    title: 'Layout and pit',
    results: [
      result('TieCount', 'Ties between tanks', 'TankCount-1', cite('practice', 'tanks in one row, each tied to the next')),
      result('TieStub_in', 'Stub of a tie inside each wall', '3', cite('practice', 'stub inside each wall')),
      result('TieLength_in', 'Length of a tie', 'TankGap_in+2*TankWall_in+2*TieStub_in', cite('practice', 'gap, two walls, a stub inside each')),
      result('RowLength_ft', 'Length of the row', 'TankCount*TankWidth_ft+TieCount*TankGap_in/12', geometry),
      result('PitLength_ft', 'Pit bottom, along the row', 'RowLength_ft+2*WorkingRoom_ft', geometry),
      result('PitWidth_ft', 'Pit bottom, across the row', 'TankLength_ft+2*WorkingRoom_ft', geometry),
      result('PitDepth_ft', 'Pit depth', 'Cover_ft+TankHeight_ft+BedThickness_in/12', geometry),
      result('Batter', 'Batter of the pit walls', 'INDEX(PitBatters[batter],MATCH(SoilClass,PitBatters[soil],0))', cite('osha1926', 'Appendix B, Table B-1')),
      result('PitTopLength_ft', 'Pit top, along the row', 'PitLength_ft+2*Batter*PitDepth_ft', geometry),
      result('PitTopWidth_ft', 'Pit top, across the row', 'PitWidth_ft+2*Batter*PitDepth_ft', geometry),
      result('Dig_yd3', 'Dig, in the bank', 'DIGVOLUME(PitLength_ft,PitWidth_ft,PitDepth_ft,Batter)', cite('prismoid')),
      result('Bed_yd3', 'Stone bed between the sloped walls, in place', 'STONEBEDDING(PitLength_ft+Batter*BedThickness_in/12,PitWidth_ft+Batter*BedThickness_in/12,BedThickness_in)', geometry),
      result('TanksOutside_yd3', 'Tanks, outside volume', 'TankCount*TankLength_ft*TankWidth_ft*TankHeight_ft/27', geometry),
      result('LineOverBed_in', 'Water line over the bed', 'TankFloor_in+TankCoupling_in', geometry),
      result('PumpEndStone_in', 'Height of the pump-end stone', 'LineOverBed_in+StoneOverLine_in', cite('practice', 'stone rises to and above the water line at the pump end')),
      result('PumpEndSpread_ft', 'Spread of the walls at half its height', 'Batter*(BedThickness_in/12+PumpEndStone_in/24)', geometry),
      result('PumpEndStone_yd3', 'Pump-end stone, in place', 'STONEBEDDING(WorkingRoom_ft+PumpEndSpread_ft,PitWidth_ft+2*PumpEndSpread_ft,PumpEndStone_in)', geometry),
      result('Backfill_yd3', 'Backfill, in place', 'Dig_yd3-Bed_yd3-TanksOutside_yd3-PumpEndStone_yd3', cite('derivation', 'dig = bed + tanks + pump-end stone + backfill')),
      result('CompactedShare', 'Bank earth left after compaction', 'INDEX(Soils[compacted],MATCH("common earth",Soils[material],0))', cite('navy', 'loam 0.9')),
      result('BackfillBank_yd3', 'Bank earth that the backfill takes', 'Backfill_yd3/CompactedShare', cite('navy')),
      result('TrenchDig_yd3', 'Dig of the trenches, in the bank', '(MAX(WaterLineRun_ft,PowerRun_ft)+DrainRun_ft)*1.5*TrenchDepth_in/12/27', cite('practice', 'one trench for line and cable, one for the drains, 18 in wide')),
      result('TrenchFill_yd3', 'Fill of the trenches, in place', 'MAX(0,TrenchDig_yd3-DrainBedding_yd3-TrenchEarth_yd3)', sum),
      result('TrenchSpoil_yd3', 'Earth left over from the trenches, in the bank', 'MAX(0,TrenchDig_yd3-TrenchFill_yd3/CompactedShare)', sum),
      result('Spoil_yd3', 'Earth left over, in the bank', 'MAX(0,Dig_yd3-BackfillBank_yd3+TrenchSpoil_yd3)', sum),
      result('SpoilLoose_yd3', 'Earth left over, on the truck', 'LOOSEVOLUME(Spoil_yd3,Swell)', cite('estimating')),
      result('Truck_yd3', 'A truck holds, loose', '12', cite('practice', 'tandem truck 10 to 14 yd³')),
      result('Loads', 'Truck loads', 'ROUNDUP(SpoilLoose_yd3/Truck_yd3,0)', cite('estimating', 'loads rounded up last')),
    ],
  },
  {
    title: 'Inlet and overflow',
    results: [
      result('RoofFlow_gpm', 'Flow in the design storm', 'PEAKFLOW(RoofArea_ft2,RainIntensity_in_per_h)', cite('definitions')),
      result('DrainBore_in', 'Bore of a drain', 'PIPEBORE(DrainPipe,4)', cite('astmD1785')),
      result('DrainCapacity_gpm', 'Capacity of a drain', 'DRAINCAPACITY(DrainBore_in,DrainSlope_in_per_ft)', cite('epanet', 'Chezy–Manning, n 0.010')),
      result('InletCount', 'Inlet drains', 'MIN(IF(TankCount=1,1,3),MAX(1,ROUNDUP(RoofFlow_gpm/DrainCapacity_gpm,0)))', cite('practice', 'a tank has three upper ports; a single tank keeps one for its overflow')),
      result('PortsUsed', 'Upper ports cut open', '2*InletCount', cite('memory', 'overflow at least the area of all inlets (IPC chapter 13)')),
      result('OverflowsAtInlet', 'Overflows on the far tank itself', 'MIN(InletCount,3-InletCount)', cite('practice', 'overflow beside the inlet, so that a storm need not pass the ties')),
      result('TieFlow_gpm', 'Storm flow that must pass a tie', 'RoofFlow_gpm*(InletCount-OverflowsAtInlet)/InletCount', cite('derivation', 'the rest overflows from the next tank')),
      result('TieHead_ft', 'Level it raises in the far tank', '(TieFlow_gpm*231/1728/60/(PI()/4*(PIPEBORE("PVC 40",4)/12)^2)/0.6)^2/(2*32.174)', cite('orifice', 'discharge 0.6')),
      result('AirSpace_ft', 'Room between water and lid', 'TankHeight_ft-(TankFloor_in+TankLid_in)/12-TankWaterDepth_ft', geometry),
      result('InletFall_in', 'Fall of the inlet drain', 'InletRun_ft*DrainSlope_in_per_ft', geometry),
      result('DrainRun_ft', 'Drain pipe in the ground', 'InletCount*(InletRun_ft+OverflowRun_ft)', sum),
      result('DrainBedding_yd3', 'Bedding of the drains, in place', 'TRENCHBEDDING(DrainRun_ft,1.5,4.5,4,6)', cite('bedding', '4 in under the pipe')),
    ],
  },
  {
    title: 'Water line and pump',
    results: [
      result('LineFit', 'Fittings that the pipe takes', 'INDEX(Pipes[fit],MATCH(WaterLinePipe,Pipes[pipe],0))', cite('astmD2239', 'IPS by inside diameter; CTS by outside diameter (D2737)')),
      result('LineBore_in', 'Bore of the line', 'PIPEBORE(WaterLinePipe,WaterLineSize)', cite('astmD2239')),
      result('LineRating_psi', 'Rating of the line', 'SUMPRODUCT((Pipes[pipe]=WaterLinePipe)*(Pipes[size]=WaterLineSize),Pipes[rating_psi])', cite('astmD2239')),
      result('DropPipe_ft', 'Drop pipe in the tank', '3', cite('practice', 'from the slide-apart fitting, low in the wall, to the pump')),
      result('LineSlack_ft', 'Slack of the line in the trench', '2', cite('practice', '12 to 24 in at a tank wall')),
      result('LineLength_ft', 'Length of the line', 'WaterLineRun_ft+LineSlack_ft+DropPipe_ft', sum),
      result('Coil_ft', 'Length of a coil', '300', cite('practice', 'sold by the 100 ft from coils of 300 ft')),
      result('Couplings', 'Couplings between coils', 'MAX(0,ROUNDUP(LineLength_ft/Coil_ft,0)-1)', cite('practice', 'one where a coil ends')),
      result('InsertJoints', 'Joints of the line', '4+2*Couplings', cite('practice', 'tank wall, house, slide-apart fitting, pump; two at a coupling')),
      result('FittingResistance', 'Resistance of the fittings, K', 'InsertJoints*INDEX(Fittings[resistance],MATCH("insert (barb) joint",Fittings[fitting],0))+INDEX(Fittings[resistance],MATCH("screwed elbow, 1 in",Fittings[fitting],0))+INDEX(Fittings[resistance],MATCH("swing check valve, open",Fittings[fitting],0))+INDEX(Fittings[resistance],MATCH("square entrance",Fittings[fitting],0))', cite('epanet', 'Table 3.3, and common practice for inserts')),
      result('TrenchEarth_yd3', 'Clean earth over the line, in its trench', 'WaterLineRun_ft*1.5*6/12/27', cite('practice', '6 in over the line, trench 18 in wide')),
      result('LineEarth_yd3', 'Clean earth over line and pump-end stone', 'TrenchEarth_yd3+WorkingRoom_ft*PitWidth_ft*6/12/27', cite('practice', '6 in over both; at the pump end it is the first layer of the backfill')),
      result('LineVelocity_fps', 'Velocity in the line', 'FLOWVELOCITY(HouseFlow_gpm,LineBore_in)', geometry),
      result('LineFriction_ftw', 'Friction in the line', 'FRICTIONLOSS(HouseFlow_gpm,LineLength_ft,LineBore_in)', cite('epanet', 'Hazen–Williams, C 150')),
      result('LineFittings_ftw', 'Loss in the fittings', 'FITTINGLOSS(HouseFlow_gpm,LineBore_in,FittingResistance)', cite('epanet')),
      result('LineLoss_ftw', 'Loss of the line', 'LineFriction_ftw+LineFittings_ftw', sum),
      result('Lift_ftw', 'Lift from an empty tank', 'WaterLineRise_ft+Cover_ft+TankHeight_ft-TankFloor_in/12', geometry),
      result('TotalHead_ftw', 'Head the pump must give', 'TOTALHEAD(Lift_ftw,HousePressure_psi,LineLoss_ftw)', cite('hiData', 'section I-A')),
      result('PumpPower_hp', 'Pump motor', ofPump('Power_hp'), office),
      result('PumpVoltage_V', 'Pump voltage', ofPump('Voltage_V'), office),
      result('PumpPhases', 'Pump phases', ofPump('Phases'), office),
      result('PumpPrice_usd', 'Price of the pump', ofPump('Price_usd'), office),
      result('CurvePoint', 'Point of the curve below the flow', `MIN(MATCH(HouseFlow_gpm,CurveFlow_gpm,1),${CURVE_POINTS - 1})`, cite('derivation', 'straight line between points')),
      result('PumpHead_ftw', 'Head of the pump at the house flow', 'IF(HouseFlow_gpm>MAX(CurveFlow_gpm),0,INDEX(CurveHead_ftw,CurvePoint)+(HouseFlow_gpm-INDEX(CurveFlow_gpm,CurvePoint))*(INDEX(CurveHead_ftw,CurvePoint+1)-INDEX(CurveHead_ftw,CurvePoint))/(INDEX(CurveFlow_gpm,CurvePoint+1)-INDEX(CurveFlow_gpm,CurvePoint)))', cite('derivation', 'straight line between points')),
      result('DutyFlow_gpm', 'Flow where pump and line meet', 'IFERROR(PUMPDUTY.FLOW(Curve,Lift_ftw+2.31*HousePressure_psi,HouseFlow_gpm,LineLoss_ftw),"off the curve")', cite('hiData', 'section I-A')),
      result('ShutOff_psi', 'Shut-off pressure', 'MAX(CurveHead_ftw)/2.31', cite('hiData', 'section I-A, H = 2.31 p')),
    ],
  },
  {
    title: 'Power',
    results: [
      result('MotorCurrent_A', 'Full-load current', 'MOTORCURRENT(PumpPower_hp,Voltage_V,PumpPhases)', cite('nec', 'Tables 430.248 and 430.250')),
      result('ConduitRun_ft', 'Conduit, riser to edge and down outside', 'TankLength_ft+2+TrenchDepth_in/12', geometry),
      result('FeederLength_ft', 'Feed, one way, to the pump', 'PowerRun_ft+ConduitRun_ft+Cover_ft+TankHeight_ft+CableSlack_ft', sum),
      result('Cable', 'Cable size, AWG', 'IF(CableSize="",CONDUCTORSIZE(MotorCurrent_A,FeederLength_ft,Voltage_V,DropLimit,PumpPhases,CableMetal),CableSize)', cite('nec', 'Table 310.16 and Chapter 9 Table 8')),
      result('FeederDrop_V', 'Voltage drop', 'VOLTAGEDROP(MotorCurrent_A,FeederLength_ft,Cable,PumpPhases,CableMetal)', cite('nec')),
      result('FeederDropShare', 'Voltage drop, share of the voltage', 'FeederDrop_V/Voltage_V', sum),
      result('CableAmpacity_A', 'Ampacity of the cable', 'AMPACITY(Cable,CableMetal)', cite('nec', 'Table 310.16, 60 °C column')),
      result('Breaker_A', 'Largest breaker', 'BREAKERSIZE(MotorCurrent_A)', cite('nec', 'Table 430.52 and 240.6(A)')),
      result('BaseWire', 'Size by ampacity alone, AWG', 'CONDUCTORSIZE(MotorCurrent_A,0,Voltage_V,DropLimit,PumpPhases,CableMetal)', cite('nec', '430.22')),
      result('GroundTable', 'Ground by the breaker, AWG', 'GROUNDSIZE(Breaker_A,CableMetal)', cite('nec', 'Table 250.122')),
      result('GroundArea_cmil', 'Ground needed, grown with the line', 'MIN(1,INDEX(Conductors[area_cmil],MATCH(GroundTable,Conductors[size],0))/INDEX(Conductors[area_cmil],MATCH(BaseWire,Conductors[size],0)))*INDEX(Conductors[area_cmil],MATCH(Cable,Conductors[size],0))', cite('nec', '250.122(A) and (B): in the ratio of circular mils, never larger than the line')),
      result('GroundWire', 'Least ground, AWG', 'INDEX(Conductors[size],SUMPRODUCT((Conductors[area_cmil]<GroundArea_cmil-0.5)*1)+1)', cite('nec', '250.122')),
      result('CableCover_in', 'Least cover over the cable', 'COVERDEPTH("direct burial")', cite('nec', 'Table 300.5')),
    ],
  },
  {
    title: 'Flotation, lifting, test',
    results: [
      result('WaterAboveBase_ft', 'Groundwater above the tank base', 'MAX(0,Cover_ft+TankHeight_ft-GroundwaterDepth_ft)', geometry),
      result('GroundwaterGiven', 'Groundwater depth', 'IF(GroundwaterAssumed=1,"not given: find it out","as given")', cite('practice', 'an unknown depth is looked into, not passed')),
      result('UpliftSafety', 'Holding weight over uplift, tank empty', 'IF(WaterAboveBase_ft>0,UPLIFTSAFETY(TankLength_ft,TankWidth_ft,TankHeight_ft,TankWeight_lb,WaterAboveBase_ft,Cover_ft),"no uplift")', cite('femaP259')),
      result('LegPull_lb', 'Pull in a sling leg, two counted, 60°', 'SLINGTENSION(TankWeight_lb,2,60)', cite('slings')),
      result('OpeningCount', 'Openings to plate', 'TankCount*TankOpenings', cite('practice', 'every opening of every tank')),
      result('PlugCount', '4 in holes to plug', '2*TieCount+PortsUsed', cite('practice', 'both ends of each tie, and each port cut open')),
      result('PlateForce_lbf', 'Air force on a plate', 'COVERFORCE(PI()/4*TankOpening_in^2,TestVacuum_inHg)', cite('definitions')),
      result('LidForce_lbf', 'Air force on a lid', 'COVERFORCE(TankLength_ft*TankWidth_ft*144,TestVacuum_inHg)', cite('definitions')),
    ],
  },
]
export const results: readonly ResultRule[] = resultGroups.flatMap((group) => group.results)

/** The storage through the year: two like years from empty, the second one counted. Columns, a row a month. */
export const monthColumns: readonly ResultRule[] = [
  result('MonthRain_in', 'Rain', '', cite('practice', 'the office’s rain table')),
  result('MonthDays', 'Days', '', cite('derivation', 'a common year')),
  result('MonthInflow_gal', 'Inflow', 'CATCHMENTYIELD(RoofArea_ft2,MonthRain_in,Runoff,FirstFlush_in,FilterShare)', cite('definitions')),
  result('MonthDemand_gal', 'Demand', 'DailyUse_gal_per_day*MonthDays', sum),
  result('FirstYear_gal', 'Stored, first year', 'MIN(MAX(before_FirstYear_gal+MonthInflow_gal-MonthDemand_gal,0),Storage_gal)', cite('yield', 'yield before spillage')),
  result('MonthSupplied_gal', 'Supplied', 'MIN(MonthDemand_gal,before_MonthStored_gal+MonthInflow_gal)', cite('yield', 'yield before spillage')),
  result('MonthStored_gal', 'Stored', 'MIN(before_MonthStored_gal+MonthInflow_gal-MonthSupplied_gal,Storage_gal)', cite('yield', 'yield before spillage')),
  result('MonthOverflow_gal', 'Spilled', 'before_MonthStored_gal+MonthInflow_gal-MonthSupplied_gal-MonthStored_gal', sum),
]
/** What stands before January: nothing in the first year, the first December in the second. */
export const monthStart: Readonly<Record<string, string>> = { before_FirstYear_gal: '0', before_MonthStored_gal: 'FirstYear_gal' }
export const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const
export const monthRain = (month: number) => `INDEX(Rain[${monthNames[month]}_in],MATCH(RainStation,Rain[Station],0))`

/** The curve of the chosen pump, a row a point; `Curve` is both columns as one block. */
export const curveColumns: readonly ResultRule[] = [
  result('CurveFlow_gpm', 'Flow', '', office),
  result('CurveHead_ftw', 'Head', '', office),
]
export const curveCell = (column: string, point: number) => ofPump(`${column === 'CurveFlow_gpm' ? 'Flow' : 'Head'}${point + 1}${column === 'CurveFlow_gpm' ? '_gpm' : '_ftw'}`)
