/** The item rules that version 0.1.0 wrote into new workbooks: how an office's untouched rows are known again. They make nothing. */
import type { CellValue } from '../fields.js'
import type { Section } from '../officeTables.js'

interface ItemRow {
  code: string
  description: string
  when?: string
  quantity: string
  unit: string
  waste?: number
  lot?: number
  hours?: number
  price?: string
  why: string
}

const bySection: Record<Section, readonly ItemRow[]> = {
  Earthwork: [
    { code: 'LOCATE', description: 'Marking of buried lines', quantity: '1', unit: 'job', hours: 0.5, why: 'Buried lines are marked before any digging' },
    { code: 'LAYOUT', description: 'Set out pit, grades and trenches', quantity: '1', unit: 'job', hours: 2, why: 'One set-out a job' },
    { code: 'STRIP', description: 'Strip and stack topsoil, kept apart within the dig', quantity: 'PitTopLength_ft*PitTopWidth_ft*0.5/27', unit: 'yd³', hours: 0.01, why: '6 in over the pit top, PitTopLength {PitTopLength_ft} by PitTopWidth {PitTopWidth_ft}' },
    { code: 'DIG', description: 'Dig the tank pit, bank measure', quantity: 'Dig_yd3', unit: 'yd³', hours: 0.02, why: 'Prismoid of PitLength {PitLength_ft}, PitWidth {PitWidth_ft}, PitDepth {PitDepth_ft}, Batter {Batter}' },
    { code: 'TRENCH-LINE', description: 'Trench for water line and power feed', quantity: 'MAX(WaterLineRun_ft,PowerRun_ft)', unit: 'ft', hours: 0.04, why: 'One trench for both: the longer of WaterLineRun {WaterLineRun_ft} and PowerRun {PowerRun_ft}' },
    { code: 'TRENCH-DRAIN', description: 'Trench for inlet and overflow drains', quantity: 'DrainRun_ft', unit: 'ft', hours: 0.05, why: 'InletCount {InletCount} times InletRun {InletRun_ft} and OverflowRun {OverflowRun_ft}' },
    { code: 'HAUL', description: 'Haul surplus earth, a truck load', quantity: 'Loads', unit: 'load', why: 'SpoilLoose {SpoilLoose_yd3} of pit and trenches in trucks of {Truck_yd3}' },
    { code: 'FENCE', description: 'Fence and signs round the open pit', quantity: '2*(PitTopLength_ft+PitTopWidth_ft)+16', unit: 'ft', lot: 50, hours: 0.01, why: 'Round the pit top, 2 ft off each edge' },
    { code: 'LADDER', description: 'Ladder in the pit', when: 'PitDepth_ft>=4', quantity: 'ROUNDUP(PitLength_ft/50,0)', unit: 'each', hours: 0.25, why: 'Within 25 ft of everyone, PitDepth {PitDepth_ft}' },
    { code: 'DEWATER', description: 'Pump the pit dry, a day', when: 'PitDepth_ft>GroundwaterDepth_ft', quantity: '3', unit: 'day', hours: 1, why: 'PitDepth {PitDepth_ft} below GroundwaterDepth {GroundwaterDepth_ft}' },
  ],
  Tanks: [
    { code: 'TANK', description: 'Precast tank {TankModel}', quantity: 'TankCount', unit: 'each', hours: 1.5, price: 'TankPrice_usd', why: 'TankCount {TankCount}, {TankVolume_gal} each' },
    { code: 'RISER', description: 'Riser section with gasket', quantity: 'TankCount*TankOpenings*ROUNDUP(MAX(1,Cover_ft),0)', unit: 'ft', hours: 0.2, why: 'Openings {TankOpenings} a tank, Cover {Cover_ft} in whole feet' },
    { code: 'RISER-LID', description: 'Locking riser lid', quantity: 'TankCount*TankOpenings', unit: 'each', hours: 0.1, why: 'One for each of OpeningCount {OpeningCount}' },
    { code: 'MASTIC', description: 'Butyl sealant for risers', quantity: 'TankCount*TankOpenings*ROUNDUP(MAX(1,Cover_ft),0)*PI()*TankOpening_in/12', unit: 'ft', waste: 0.1, lot: 15, why: 'Round each riser joint, opening {TankOpening_in}' },
    { code: 'SIGN', description: 'Sign: cistern water, not for drinking', quantity: 'TankCount*TankOpenings+1', unit: 'each', hours: 0.1, why: 'One a lid and one at the house' },
    { code: 'VENT', description: 'Screened vent', quantity: 'TankCount', unit: 'each', hours: 0.5, why: 'One on each of TankCount {TankCount}: ties under water share no air' },
    { code: 'DOSE', description: 'Chlorine for first disinfection', quantity: 'Storage_gal/1000', unit: 'pint', lot: 4, hours: 0.05, why: 'About a pint of household bleach for each 1,000 of Storage {Storage_gal}' },
  ],
  'Ties between tanks': [
    { code: 'TIE-PIPE', description: '4 in Schedule 40 pipe for ties', when: 'TankCount>1', quantity: 'TieCount*TieLength_in/12', unit: 'ft', waste: 0.05, lot: 10, hours: 0.1, why: 'TieCount {TieCount} of TieLength {TieLength_in}: gap, two walls and a stub inside each' },
    { code: 'TIE-BOOT', description: '4 in rubber boot for a tie', when: 'TankCount>1', quantity: '2*TieCount', unit: 'each', hours: 0.15, why: 'Two for each of TieCount {TieCount}' },
    { code: 'TIE-CLAMP', description: '4 in stainless band clamp for a tie', when: 'TankCount>1', quantity: '2*TieCount', unit: 'each', hours: 0.1, why: 'Two for each of TieCount {TieCount}' },
    { code: 'TIE-LUBE', description: 'Pipe lubricant', when: 'TankCount>1', quantity: 'TieCount*0.1', unit: 'quart', why: 'A tenth for each of TieCount {TieCount}' },
  ],
  'Inlet and overflow': [
    { code: 'PORT-STUB', description: '4 in Schedule 40 stub at a port', quantity: 'PortsUsed*1.5', unit: 'ft', waste: 0.05, lot: 10, hours: 0.1, why: '18 in for each of PortsUsed {PortsUsed}' },
    { code: 'PORT-CLAMP', description: '4 in stainless band clamp at a port', quantity: 'PortsUsed', unit: 'each', hours: 0.1, why: 'One for each of PortsUsed {PortsUsed}' },
    { code: 'PORT-BEND', description: '4 in quarter bend at a port', quantity: 'PortsUsed', unit: 'each', hours: 0.2, why: 'One for each of PortsUsed {PortsUsed}' },
    { code: 'DRAIN-{DrainPipe}', description: '4 in drain pipe, {DrainPipe}', quantity: 'DrainRun_ft', unit: 'ft', waste: 0.05, lot: 10, hours: 0.04, why: 'InletCount {InletCount} times InletRun {InletRun_ft} and OverflowRun {OverflowRun_ft}, fall {DrainSlope_in_per_ft}' },
    { code: 'DRAIN-BEND', description: '4 in eighth bend', quantity: '2*PortsUsed', unit: 'each', hours: 0.15, why: 'Two for each of PortsUsed {PortsUsed}' },
    { code: 'DRAIN-CLEANOUT', description: '4 in cleanout with tee and plug', quantity: 'InletCount*MAX(1,ROUNDUP(InletRun_ft/100,0))', unit: 'each', hours: 0.3, why: 'One on each inlet, and each 100 ft of InletRun {InletRun_ft}' },
    { code: 'WASHER', description: 'First-wash diverter with screen', quantity: 'InletCount', unit: 'each', hours: 1, why: 'One for each of InletCount {InletCount}' },
    { code: 'CALM', description: 'Calmed inlet: drop pipe and splash bend', quantity: 'InletCount', unit: 'each', hours: 0.75, why: 'Inlet enters low and turned up, so that settled matter is not stirred' },
    { code: 'FLAP', description: '4 in backwater flap and screen on the overflow', quantity: 'InletCount', unit: 'each', hours: 0.5, why: 'Keeps animals and backflow out of each overflow' },
    { code: 'OUTFALL', description: 'Stone apron at the outfall', quantity: 'InletCount*0.5', unit: 'ton', lot: 0.5, hours: 1, why: 'Half a ton where each overflow spills' },
    { code: 'PVC-CEMENT', description: 'PVC primer and cement', quantity: 'PortsUsed*4', unit: 'joint', lot: 40, why: 'Four joints for each of PortsUsed {PortsUsed}; a set makes 40' },
  ],
  'Water line': [
    { code: 'PE-{WaterLinePipe}-{WaterLineSize}', description: '{WaterLineSize} in polyethylene pipe, {WaterLinePipe}', quantity: 'LineLength_ft', unit: 'ft', waste: 0.02, lot: 100, hours: 0.02, why: 'WaterLineRun {WaterLineRun_ft}, LineSlack {LineSlack_ft} and DropPipe {DropPipe_ft}, by the 100 ft from coils of {Coil_ft}' },
    { code: 'ADAPTER-MALE', description: '1-1/4 x {WaterLineSize} male adapter, long insert', when: 'LineFittings="IPS insert"', quantity: '1', unit: 'each', hours: 0.25, why: 'Into the 1-1/4 in brass coupling cast in the wall of the pump tank' },
    { code: 'ADAPTER-HOUSE', description: '{WaterLineSize} in insert adapter at the house', when: 'LineFittings="IPS insert"', quantity: '1', unit: 'each', hours: 0.25, why: 'House end of the line' },
    { code: 'COUPLING', description: '{WaterLineSize} in insert coupling', when: 'LineFittings="IPS insert"', quantity: 'Couplings', unit: 'each', hours: 0.25, why: 'LineLength {LineLength_ft} in coils of {Coil_ft}' },
    { code: 'CLAMP', description: 'All-stainless clamp, {WaterLineSize} in insert', when: 'LineFittings="IPS insert"', quantity: '2*InsertJoints', unit: 'each', lot: 10, hours: 0.05, why: 'Two on each of InsertJoints {InsertJoints}, screw heads up' },
    { code: 'CTS-WALL', description: '1-1/4 x {WaterLineSize} in male adapter, compression for CTS', when: 'LineFittings="CTS compression"', quantity: '1', unit: 'each', hours: 0.25, why: 'Into the 1-1/4 in brass coupling cast in the wall of the pump tank' },
    { code: 'CTS-FITTING', description: '{WaterLineSize} in compression adapter for CTS', when: 'LineFittings="CTS compression"', quantity: '3', unit: 'each', hours: 0.25, why: 'House, slide-apart fitting and pump' },
    { code: 'CTS-COUPLING', description: '{WaterLineSize} in compression coupling for CTS', when: 'LineFittings="CTS compression"', quantity: 'Couplings', unit: 'each', hours: 0.25, why: 'LineLength {LineLength_ft} in coils of {Coil_ft}' },
    { code: 'CTS-STIFFENER', description: '{WaterLineSize} in stiffener for CTS', when: 'LineFittings="CTS compression"', quantity: 'InsertJoints', unit: 'each', lot: 5, hours: 0.05, why: 'One in each of InsertJoints {InsertJoints}' },
    { code: 'LINE-EARTH', description: 'Clean earth over the line', quantity: 'LineEarth_yd3', unit: 'yd³', waste: 0.1, hours: 0.1, why: '6 in over the trench, 18 in wide, and over the pump-end stone' },
    { code: 'TAPE', description: 'Warning tape over line and cable', quantity: 'WaterLineRun_ft+PowerRun_ft', unit: 'ft', waste: 0.05, lot: 1000, why: 'WaterLineRun {WaterLineRun_ft} and PowerRun {PowerRun_ft}, 12 in above each' },
    { code: 'WALL-SLEEVE', description: 'House wall sleeve with seal', quantity: '1', unit: 'each', hours: 1, why: 'Where the line enters the house' },
    { code: 'HOUSE-VALVE', description: 'House valve, drain and pressure gauge', quantity: '1', unit: 'set', hours: 1, why: 'One a house' },
    { code: 'PRESSURE-TANK', description: 'Pressure tank with switch', quantity: '1', unit: 'each', hours: 2, why: 'So that the pump runs a minute at least at each start' },
    { code: 'BACKFLOW', description: 'Backflow preventer or air-gap fill', quantity: '1', unit: 'each', hours: 1, why: 'Where a public supply can reach the house' },
  ],
  'Pump and drop': [
    { code: 'PUMP', description: 'Submersible pump {PumpModel}', quantity: '1', unit: 'each', hours: 2, price: 'PumpPrice_usd', why: '{PumpHead_ftw} at HouseFlow {HouseFlow_gpm}; TotalHead {TotalHead_ftw} is needed' },
    { code: 'BUSHING', description: '1-1/4 x 1 in reducing bushing, brass', quantity: '1', unit: 'each', hours: 0.1, why: 'Inside, in the cast coupling' },
    { code: 'NIPPLE', description: '1 x 10 in nipple, brass', quantity: '1', unit: 'each', hours: 0.1, why: 'From bushing to the slide-apart fitting' },
    { code: 'PITLESS', description: '1 in slide-apart (pitless) fitting', quantity: '1', unit: 'each', hours: 0.5, why: 'Lets the pump be drawn from above' },
    { code: 'DROP-ADAPTER', description: 'Insert adapter of the drop pipe, {WaterLineSize} in insert x 1 in thread', when: 'LineFittings="IPS insert"', quantity: '2', unit: 'each', hours: 0.25, why: 'Slide-apart fitting and pump' },
    { code: 'CHECK-VALVE', description: '1 in check valve', quantity: '1', unit: 'each', hours: 0.25, why: 'At the pump' },
    { code: 'PULL-ROD', description: '1 in threaded pull rod', quantity: 'Cover_ft+TankHeight_ft-LineOverBed_in/12', unit: 'ft', lot: 5, hours: 0.1, why: 'From the fitting to the riser lid: Cover {Cover_ft} and TankHeight {TankHeight_ft} less LineOverBed {LineOverBed_in}' },
    { code: 'SAFETY-ROPE', description: 'Safety rope for the pump', quantity: 'Cover_ft+TankHeight_ft+3', unit: 'ft', lot: 25, why: 'Lid to pump and a knot at each end' },
    { code: 'FLOAT', description: 'Low-water cut-off', quantity: '1', unit: 'each', hours: 0.5, why: 'So that the pump never runs dry' },
    { code: 'INTAKE', description: 'Flow sleeve, 4 in off the floor', quantity: '1', unit: 'each', hours: 0.25, why: 'Cools the motor and keeps the intake off the floor' },
    { code: 'THREAD-SEAL', description: 'Thread sealant', quantity: '1', unit: 'each', why: 'One a job' },
  ],
  Power: [
    { code: 'CABLE-{CableMetal}-{Cable}', description: 'Direct-burial, submersible-rated cable, {Cable} AWG {CableMetal} with ground', quantity: 'FeederLength_ft', unit: 'ft', waste: 0.05, lot: 25, hours: 0.015, why: 'PowerRun {PowerRun_ft}, ConduitRun {ConduitRun_ft}, down the tank to the pump, CableSlack {CableSlack_ft}; FeederDrop {FeederDrop_V}' },
    { code: 'SLEEVE', description: 'Gasketed sleeve in the riser, {ConduitSize} in', quantity: '1', unit: 'each', hours: 0.5, why: 'Power enters through the riser' },
    { code: 'CONDUIT-{ConduitSize}', description: '{ConduitSize} in PVC conduit', quantity: 'ConduitRun_ft', unit: 'ft', waste: 0.05, lot: 10, hours: 0.08, why: 'From the riser to just beyond the tank edge, and down outside the edge' },
    { code: 'CONDUIT-BODY', description: 'Conduit body with cover and gasket, {ConduitSize} in', quantity: '1', unit: 'each', hours: 0.25, why: 'Pull point at the tank edge' },
    { code: 'CONDUIT-FITTING', description: 'Conduit fittings, {ConduitSize} in', quantity: '4', unit: 'each', hours: 0.05, why: 'Two bends and two ends; sleeve and body have lines of their own' },
    { code: 'CORD-GRIP', description: 'Cord grip, watertight', quantity: '2', unit: 'each', hours: 0.1, why: 'Pump cable and float cable at the riser' },
    { code: 'SPLICE', description: 'Submersible splice kit', quantity: '1', unit: 'each', hours: 0.75, why: 'Pump leads to cable, with slack on both sides' },
    { code: 'PROTECTION', description: 'Conduit guard where the cable leaves the ground', quantity: '2', unit: 'each', hours: 0.25, why: 'At the tank and at the house' },
    { code: 'DISCONNECT', description: 'Disconnect and breaker to {Breaker_A}', quantity: '1', unit: 'set', hours: 1.5, why: 'MotorCurrent {MotorCurrent_A}; set by the licensed electrician' },
    { code: 'ELECTRICIAN', description: 'Licensed electrician, connection and test', quantity: '4', unit: 'h', why: 'Connection at panel, disconnect and pump' },
  ],
  'Stone and backfill': [
    { code: 'STONE-BED', description: 'Crushed stone for the bed', quantity: 'STONEWEIGHT(Bed_yd3,0.12,0)', unit: 'ton', waste: 0.1, hours: 0.06, why: 'Bed {Bed_yd3} in place, BedThickness {BedThickness_in}, 12 % for compaction' },
    { code: 'STONE-PUMP', description: 'Crushed stone at the pump end', quantity: 'STONEWEIGHT(PumpEndStone_yd3,0.12,0)', unit: 'ton', waste: 0.1, hours: 0.08, why: 'PumpEndStone {PumpEndStone_yd3} in place, up to {PumpEndStone_in} over the bed' },
    { code: 'STONE-DRAIN', description: 'Bedding stone for the drains', quantity: 'STONEWEIGHT(DrainBedding_yd3,0.12,0)', unit: 'ton', waste: 0.1, hours: 0.1, why: 'DrainBedding {DrainBedding_yd3} in place, 4 in under and 6 in over' },
    { code: 'FABRIC', description: 'Filter fabric over the pump-end stone', quantity: '(WorkingRoom_ft+2)*(PitWidth_ft+2)', unit: 'ft²', waste: 0.1, lot: 100, hours: 0.005, why: 'Keeps earth out of the stone, WorkingRoom {WorkingRoom_ft} by PitWidth {PitWidth_ft}' },
    { code: 'BACKFILL', description: 'Backfill in layers, free of rock', quantity: 'Backfill_yd3', unit: 'yd³', hours: 0.03, why: 'Dig {Dig_yd3} less bed, tanks and pump-end stone' },
    { code: 'IMPORT', description: 'Clean fill to bring in', quantity: 'MAX(0,BackfillBank_yd3-Dig_yd3-TrenchSpoil_yd3)', unit: 'yd³', waste: 0.1, why: 'Backfill takes {BackfillBank_yd3} of bank earth, Dig gives {Dig_yd3}, the trenches {TrenchSpoil_yd3}' },
    { code: 'TRENCH-FILL', description: 'Backfill trenches', quantity: 'TrenchFill_yd3', unit: 'yd³', hours: 0.04, why: 'TrenchDig {TrenchDig_yd3} less DrainBedding {DrainBedding_yd3} and clean earth over the line {TrenchEarth_yd3}' },
    { code: 'SEED', description: 'Topsoil back, rake and seed', quantity: 'PitTopLength_ft*PitTopWidth_ft', unit: 'ft²', hours: 0.002, why: 'Over the pit top' },
  ],
  Test: [
    { code: 'PLATE', description: 'Test plate with sealant, use of', quantity: 'OpeningCount', unit: 'each', hours: 0.2, why: 'One on each of OpeningCount {OpeningCount}' },
    { code: 'PLUG', description: '4 in test plug, use of', quantity: 'PlugCount', unit: 'each', hours: 0.1, why: 'Two ends of TieCount {TieCount} ties and PortsUsed {PortsUsed}' },
    { code: 'PLUG-PUMP', description: '1-1/4 in plug for the pump coupling', quantity: '1', unit: 'each', hours: 0.1, why: 'In the cast coupling of the pump tank' },
    { code: 'VACUUM', description: 'Vacuum test, a tank', quantity: 'TankCount', unit: 'each', hours: 0.75, why: '{TestVacuum_inHg} watched for {TestHold_min}, before backfill' },
    { code: 'WATER-TEST', description: 'Water for the first fill and ballast', when: 'WaterAboveBase_ft>0', quantity: 'Storage_gal/2/1000', unit: '1000 gal', lot: 1, why: 'Half of Storage {Storage_gal} against flotation, groundwater {WaterAboveBase_ft} above the base' },
  ],
  'Labor and equipment': [
    { code: 'LABOR', description: 'Crew hours', quantity: 'LaborHours', unit: 'h', price: 'LaborRate_usd_per_h', why: 'Hours of all lines above and below, at LaborRate {LaborRate_usd_per_h}' },
    { code: 'EXCAVATOR', description: 'Excavator with operator', quantity: 'ROUNDUP((Dig_yd3+Backfill_yd3)/40+(MAX(WaterLineRun_ft,PowerRun_ft)+DrainRun_ft)/60,0)', unit: 'h', lot: 4, why: 'Dig {Dig_yd3} and Backfill {Backfill_yd3} at 40 an hour, trenches at 60 ft an hour' },
    { code: 'COMPACTOR', description: 'Plate compactor, a day', quantity: 'ROUNDUP(Backfill_yd3/120,0)', unit: 'day', why: 'Backfill {Backfill_yd3} at 120 a day' },
    { code: 'CRANE', description: 'Crane to set tanks', quantity: 'MAX(2,TankCount)', unit: 'h', lot: 2, why: 'An hour for each of TankCount {TankCount}, two at least; a tank weighs {TankWeight_lb}' },
    { code: 'SHORING', description: 'Pit protection designed by an engineer', when: 'PitDepth_ft>20', quantity: '1', unit: 'job', why: 'PitDepth {PitDepth_ft} is over 20 ft' },
    { code: 'GAS-METER', description: 'Air meter and retrieval set, a day', quantity: '1', unit: 'day', why: 'Tanks are confined spaces' },
  ],
  Delivery: [
    { code: 'HAUL-TANKS', description: 'Delivery of tanks, a truck', quantity: 'ROUNDUP(TankCount/MAX(1,INT(44000/TankWeight_lb)),0)', unit: 'load', why: 'TankCount {TankCount} of {TankWeight_lb}: whole tanks to 44,000 lb a truck; a heavier tank rides alone, by permit' },
    { code: 'HAUL-STONE', description: 'Delivery of stone, a load', quantity: 'ROUNDUP(STONEWEIGHT(Bed_yd3+PumpEndStone_yd3+DrainBedding_yd3)/15,0)', unit: 'load', why: '15 ton a load' },
    { code: 'MOVE-IN', description: 'Move excavator in and out', quantity: '1', unit: 'job', hours: 1, why: 'Once a job' },
    { code: 'PERMIT', description: 'Permits and inspection', quantity: '1', unit: 'job', hours: 2, why: 'As the local authority asks' },
  ],
}

/** As rows of the Items table. */
export const items010: readonly Readonly<Record<string, CellValue>>[] = (Object.keys(bySection) as Section[]).flatMap((section) =>
  bySection[section].map((item) => ({
    Code: item.code, Section: section, Description: item.description, When: item.when ?? null, Quantity: item.quantity, Unit: item.unit,
    Waste: item.waste ?? null, Lot: item.lot ?? null, LaborHours: item.hours ?? null, Price: item.price ?? null, Why: item.why,
  })),
)
