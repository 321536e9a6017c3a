/** The item rules that a new workbook starts with. They are rows of its Items table, to be changed there; quantities live nowhere else. */
import { FROST_REACHES_WATER } from './frost.js'
import type { CellValue } from './fields.js'
import type { ItemKind, Section } from './officeTables.js'

interface ItemRow {
  code: string
  description: string
  when?: string
  quantity: string
  unit: string
  waste?: number
  lot?: number
  pieces?: string
  stock?: string
  hours?: number
  price?: string
  /** What the money buys; material where nothing is said. */
  kind?: ItemKind
  /** Paid by its price where a subcontractor digs, by its hours where the own crew does. */
  earth?: true
  /** Settled afterwards by what it comes to. */
  allowance?: 'yes'
  why: string
}

const bySection: Record<Section, readonly ItemRow[]> = {
  Earthwork: [
    { code: 'LOCATE', description: 'Marking of buried lines', quantity: '1', unit: 'job', hours: 0.5, kind: 'other', why: 'Buried lines are marked before any digging' },
    { code: 'LAYOUT', description: 'Set out pit, grades and trenches', quantity: '1', unit: 'job', hours: 2, kind: 'other', why: 'One set-out a job' },
    { code: 'STRIP', description: 'Strip and stack topsoil, kept apart within the dig', quantity: 'Topsoil_yd3', unit: 'yd³', hours: 0.01, kind: 'subcontract', earth: true, why: '{Topsoil_in} over the pit top, {PitTopLength_ft} by {PitTopWidth_ft}, and over the trenches' },
    { code: 'DIG', description: 'Dig the tank pit, bank measure', when: 'SoilClass<>"rock"', quantity: 'DigNet_yd3', unit: 'yd³', hours: 0.02, kind: 'subcontract', earth: true, why: 'Prismoid: bottom {PitLength_ft} by {PitWidth_ft}, {PitDepth_ft} deep, walls {Batter} across to 1 up, less {PitTopsoil_yd3} of topsoil' },
    { code: 'DIG-ROCK', description: 'Dig the tank pit, bank measure, in rock', when: 'SoilClass="rock"', quantity: 'DigNet_yd3', unit: 'yd³', hours: 0.02, kind: 'subcontract', earth: true, why: 'Prismoid: bottom {PitLength_ft} by {PitWidth_ft}, {PitDepth_ft} deep, walls {Batter} across to 1 up, less {PitTopsoil_yd3} of topsoil' },
    { code: 'TRENCH-LINE', description: 'Trench for water line{FeedToo}, bank measure', when: 'AND(SoilClass<>"rock",LineDig_yd3>0)', quantity: 'LineDig_yd3', unit: 'yd³', hours: 0.24, kind: 'subcontract', earth: true, why: 'One trench for both: the longer of {WaterLineRun_ft} of line and {FeedRun_ft} of feed, of which {LineBeyond_ft} lie beyond the pit' },
    { code: 'TRENCH-LINE-ROCK', description: 'Trench for water line{FeedToo}, bank measure, in rock', when: 'AND(SoilClass="rock",LineDig_yd3>0)', quantity: 'LineDig_yd3', unit: 'yd³', hours: 0.24, kind: 'subcontract', earth: true, why: 'One trench for both: the longer of {WaterLineRun_ft} of line and {FeedRun_ft} of feed, of which {LineBeyond_ft} lie beyond the pit' },
    { code: 'TRENCH-DRAIN', description: 'Trenches for inlet and overflow drains, bank measure', when: 'AND(SoilClass<>"rock",DrainDig_yd3>0)', quantity: 'DrainDig_yd3', unit: 'yd³', hours: 0.2, kind: 'subcontract', earth: true, why: 'Drains of one run lie in one trench {DrainTrench_ft} wide: {InletBeyond_ft} of inlet and {OverflowBeyond_ft} of overflow beyond the pit, {DrainDeepest_ft} deep at the deep end' },
    { code: 'TRENCH-DRAIN-ROCK', description: 'Trenches for inlet and overflow drains, bank measure, in rock', when: 'AND(SoilClass="rock",DrainDig_yd3>0)', quantity: 'DrainDig_yd3', unit: 'yd³', hours: 0.2, kind: 'subcontract', earth: true, why: 'Drains of one run lie in one trench {DrainTrench_ft} wide: {InletBeyond_ft} of inlet and {OverflowBeyond_ft} of overflow beyond the pit, {DrainDeepest_ft} deep at the deep end' },
    { code: 'HAUL', description: 'Haul surplus earth or rock, a truck load', quantity: 'Loads', unit: 'load', kind: 'subcontract', why: '{SpoilLoose_yd3} loose of pit and trenches in trucks of {Truck_yd3}' },
    { code: 'FENCE', description: 'Fence and signs round the open pit', quantity: '2*(PitTopLength_ft+PitTopWidth_ft)+8*FenceClear_ft', unit: 'ft', lot: 50, hours: 0.01, kind: 'equipment', why: 'Round the pit top, {FenceClear_ft} off each edge' },
    { code: 'LADDER', description: 'Ladder, pit and trenches', when: 'OR(PitLaddered=1,DeepestTrench_ft>=4)', quantity: 'IF(PitLaddered=1,ROUNDUP(2*(PitLength_ft+PitWidth_ft)/LadderEvery_ft,0),0)+IF(DeepestTrench_ft>=4,1,0)', unit: 'each', hours: 0.25, kind: 'equipment', why: 'From 4 ft on, within 25 ft of everyone: pit {PitDepth_ft}, deepest trench {DeepestTrench_ft}' },
    { code: 'TRENCH-BOX', description: 'Trench box, a day', when: 'TrenchBoxed=1', quantity: 'TrenchBox_day', unit: 'day', hours: 2, kind: 'equipment', why: 'A trench is {DeepestTrench_ft} deep: in a box, or sloped {FillBatter} across to 1 up' },
    { code: 'DEWATER', description: 'Pump pit or trench dry, a day', when: 'Dewater_day>0', quantity: 'Dewater_day', unit: 'day', hours: 1, kind: 'equipment', allowance: 'yes', why: 'Pit: {PitWater}, open {PitOpen_day} until the tanks are ballasted and backfilled, with the weekends between; deepest trench {DeepestTrench_ft}' },
  ],
  Tanks: [
    { code: 'TANK', description: 'Precast tank {TankModel}', quantity: 'FirstTanks', unit: 'each', hours: 1.5, price: 'TankPrice_usd', why: '{FirstTanks|tank|tanks} of {TankVolume_gal} each' },
    { code: 'TANK-2', description: 'Precast tank {SecondModel}', when: 'SecondTanks>0', quantity: 'SecondTanks', unit: 'each', hours: 1.5, price: 'SecondPrice_usd', why: '{SecondTanks|tank|tanks} of {SecondVolume_gal} each, at the far end' },
    { code: 'RISER', description: 'Riser section with gasket, opening {TankOpening_in}', quantity: 'OpeningsFirst*RiserSections*RiserSection_ft', unit: 'ft', hours: 0.2, why: '{OpeningsFirst|opening|openings}, cover {Cover_ft} in whole sections' },
    { code: 'RISER-{SecondOpening_in}', description: 'Riser section with gasket, opening {SecondOpening_in}', when: 'OpeningsSecond>0', quantity: 'OpeningsSecond*RiserSections*RiserSection_ft', unit: 'ft', hours: 0.2, price: 'SecondRiser_usd', why: '{OpeningsSecond|opening|openings} of {SecondModel}, cover {Cover_ft} in whole sections' },
    { code: 'RISER-LID', description: 'Locking riser lid, opening {TankOpening_in}', quantity: 'OpeningsFirst', unit: 'each', hours: 0.1, why: 'One for each of {OpeningsFirst|opening|openings}' },
    { code: 'RISER-LID-{SecondOpening_in}', description: 'Locking riser lid, opening {SecondOpening_in}', when: 'OpeningsSecond>0', quantity: 'OpeningsSecond', unit: 'each', hours: 0.1, price: 'SecondRiserLid_usd', why: 'One for each of {OpeningsSecond|opening|openings} of {SecondModel}' },
    { code: 'LID-INSUL', description: 'Insulation under a riser lid, opening {TankOpening_in}', when: 'FrostDepth_in>0', quantity: 'OpeningsFirst', unit: 'each', hours: 0.1, why: 'Frost {FrostDepth_in}: the riser crosses it; one for each of {OpeningsFirst|opening|openings}' },
    { code: 'LID-INSUL-{SecondOpening_in}', description: 'Insulation under a riser lid, opening {SecondOpening_in}', when: 'AND(FrostDepth_in>0,OpeningsSecond>0)', quantity: 'OpeningsSecond', unit: 'each', hours: 0.1, price: 'SecondInsulation_usd', why: 'Frost {FrostDepth_in}: the riser crosses it; one for each of {OpeningsSecond|opening|openings} of {SecondModel}' },
    { code: 'TANK-INSUL', description: 'Insulation board over and beside the tanks', when: FROST_REACHES_WATER, quantity: '(RowLength_ft+2*InsulationBeside_ft)*(MAX(TankLength_ft,SecondLength_ft)+2*InsulationBeside_ft)', unit: 'ft²', waste: 0.05, lot: 32, hours: 0.01, why: 'Frost {FrostDepth_in} reaches the water, {WaterLevel_ft} down: over the row and {InsulationBeside_ft} beside it' },
    { code: 'MASTIC', description: 'Butyl sealant for risers', quantity: 'RiserSections*PI()*(FirstTanks*TankOpenings*TankOpening_in+SecondTanks*SecondOpenings*SecondOpening_in)/12', unit: 'ft', waste: 0.1, lot: 15, why: 'Round each riser joint, opening {OpeningWords}' },
    { code: 'SIGN', description: 'Sign: cistern water, not for drinking', quantity: 'OpeningCount+1', unit: 'each', hours: 0.1, why: 'One a lid, and one at the house, where it is treated at the tap ahead of it' },
    { code: 'VENT', description: 'Screened vent', quantity: 'TankCount', unit: 'each', hours: 0.5, why: 'One on each tank: ties under water share no air' },
    { code: 'DOSE', description: 'Chlorine for first disinfection', quantity: 'Bleach_gal*8', unit: 'pint', lot: 4, hours: 0.05, why: '{Dose_mg_per_L} in {Storage_gal} with bleach of {BleachStrength%}' },
    { code: 'NEUTRALIZER', description: 'Vitamin C (ascorbic acid), to neutralize the chlorine that is left', quantity: 'Neutralizer_lb', unit: 'lb', lot: 1, hours: 0.25, why: 'The water stays in the tanks below the cut-off, and is no use before {ChlorineUse_mg_per_L}: up to {Dose_mg_per_L} in {Storage_gal}' },
  ],
  'Ties between tanks': [
    { code: 'TIE-PIPE', description: '4 in Schedule 40 pipe for ties', when: 'TankCount>1', quantity: 'TieCount*TieLength_in/12', unit: 'ft', waste: 0.05, lot: 10, pieces: 'TieCount', stock: '4 in Schedule 40 pipe', hours: 0.1, why: '{TieCount|tie|ties} of {TieLength_in}: gap, two walls and a stub inside each' },
    { code: 'TIE-BOOT', description: '4 in rubber boot for a tie', when: 'TankCount>1', quantity: '2*TieCount', unit: 'each', hours: 0.15, why: 'Two for each of {TieCount|tie|ties}' },
    { code: 'TIE-CLAMP', description: '4 in stainless band clamp for a tie', when: 'TankCount>1', quantity: '2*TieCount', unit: 'each', hours: 0.1, why: 'Two for each of {TieCount|tie|ties}' },
    { code: 'TIE-LUBE', description: 'Pipe lubricant', when: 'TankCount>1', quantity: 'TieCount*TieLube_quart', unit: 'quart', why: '{TieLube_quart} for each of {TieCount|tie|ties}' },
  ],
  'Inlet and overflow': [
    { code: 'PORT-STUB{PortSuffix}', description: '{TankPort_in} Schedule 40 stub at a port', quantity: 'PortsUsed*PortStub_ft', unit: 'ft', waste: 0.05, lot: 10, pieces: 'PortsUsed', stock: '{TankPort_in} Schedule 40 pipe', hours: 0.1, why: '{PortStub_ft} for each of {PortsUsed|port|ports} of {TankPort_in}' },
    { code: 'PORT-CLAMP{PortSuffix}', description: '{TankPort_in} stainless band clamp at a port', quantity: 'PortsUsed', unit: 'each', hours: 0.1, why: 'One for each of {PortsUsed|port|ports}' },
    { code: 'PORT-BEND{PortSuffix}', description: '{TankPort_in} quarter bend at a port', quantity: 'PortsUsed', unit: 'each', hours: 0.2, why: 'One for each of {PortsUsed|port|ports}' },
    { code: 'DRAIN-{DrainCode}', description: 'Drain pipe, {DrainKind}, {DrainSize_in}', quantity: 'DrainRun_ft', unit: 'ft', waste: 0.05, lot: 10, hours: 0.04, why: '{InletCount|line|lines} of {InletRun_ft} in and {OverflowRun_ft} out, falling {InletSlope_in_per_ft} in and {OverflowSlope_in_per_ft} out, and {DrainBeside_ft} past the far tank' },
    { code: 'DRAIN-BEND{DrainSuffix}', description: '{DrainSize_in} eighth bend', quantity: '2*PortsUsed', unit: 'each', hours: 0.15, why: 'Two for each of {PortsUsed|port|ports}' },
    { code: 'PORT-REDUCER{PortSuffix}', description: '{DrainSize_in} x {TankPort_in} reducer, drain to port', when: 'DrainSize_in<>TankPort_in', quantity: 'PortsUsed', unit: 'each', hours: 0.2, why: 'One for each of {PortsUsed|port|ports}' },
    { code: 'DRAIN-ADAPTER{DrainSuffix}', description: '{DrainSize_in} adapter, SDR 35 to Schedule 40', when: 'DrainKind="PVC SDR 35"', quantity: 'PortsUsed', unit: 'each', hours: 0.2, why: 'The stubs are Schedule 40, thicker outside: one for each of {PortsUsed|port|ports}' },
    { code: 'DRAIN-WYE{DrainSuffix}', description: '{DrainSize_in} wye where a trunk splits to the ports', when: 'PortsUsed>2*InletCount', quantity: 'MAX(0,InletPorts-InletCount)+MAX(0,OverflowCount-InletCount)', unit: 'each', hours: 0.3, why: '{InletCount|trunk|trunks} to {InletPorts} inlet and {OverflowCount} overflow ports' },
    { code: 'DRAIN-CLEANOUT{DrainSuffix}', description: '{DrainSize_in} cleanout with tee and plug', quantity: 'InletCount*(MAX(1,ROUNDUP(InletRun_ft/CleanoutEvery_ft,0))+MAX(0,ROUNDUP(OverflowRun_ft/CleanoutEvery_ft,0)-1))', unit: 'each', hours: 0.3, why: 'One on each inlet, and each {CleanoutEvery_ft} of {InletRun_ft} in and {OverflowRun_ft} out; the outfall is open' },
    { code: 'WASHER', description: 'First-wash diverter with screen, {FirstWash_gal} of first wash', when: 'FirstWash_gal>0', quantity: 'InletCount', unit: 'each', hours: 1, why: '{FirstWash_gal} of first wash, {FirstFlush_in} off the roofs, over {InletCount|drain|drains}' },
    { code: 'FILTER', description: 'Inlet filter for a drain of {DrainSize_in}', when: 'FilterShare<1', quantity: 'InletCount', unit: 'each', hours: 1, why: '{FilterShare%} of the water passes it; one on each inlet drain' },
    { code: 'CALM', description: 'Calmed inlet, {TankPort_in}: drop pipe and splash bend', quantity: 'InletPorts', unit: 'each', hours: 0.75, why: 'Inlet enters low and turned up, so that settled matter is not stirred' },
    { code: 'FLAP{PortSuffix}', description: '{TankPort_in} backwater flap and screen on the overflow', quantity: 'OverflowCount', unit: 'each', hours: 0.5, why: 'Keeps animals and backflow out of each overflow' },
    { code: 'OUTFALL', description: 'Stone apron at the outfall', quantity: 'InletCount*OutfallStone_ton', unit: 'ton', lot: 0.5, hours: 1, why: '{OutfallStone_ton} where each overflow line spills' },
    { code: 'PVC-CEMENT', description: 'PVC primer and cement', quantity: 'CementJoints/CementSet', unit: 'set', lot: 1, why: '{CementJoints|joint|joints}: four for each of {PortsUsed|port|ports}, one a stick of drain; a set makes {CementSet|joint|joints}' },
  ],
  'Water line': [
    { code: 'PE-{WaterLinePipe}-{WaterLineSize}', description: '{WaterLineSize} in polyethylene pipe, {WaterLinePipe}', quantity: 'LineLength_ft', unit: 'ft', waste: 0.02, lot: 100, hours: 0.02, why: 'Run {WaterLineRun_ft}, slack {LineSlack_ft} and drop pipe {DropPipe_ft}, by the 100 ft from coils of {Coil_ft}' },
    { code: 'ADAPTER-MALE', description: '1-1/4 x {WaterLineSize} male adapter, long insert', when: 'LineFittings="IPS insert"', quantity: '1', unit: 'each', hours: 0.25, why: 'Into the 1-1/4 in brass coupling cast in the wall of the pump tank' },
    { code: 'ADAPTER-HOUSE', description: '{WaterLineSize} in insert adapter at the house', when: 'LineFittings="IPS insert"', quantity: '1', unit: 'each', hours: 0.25, why: 'House end of the line' },
    { code: 'COUPLING', description: '{WaterLineSize} in insert coupling', when: 'LineFittings="IPS insert"', quantity: 'Couplings', unit: 'each', hours: 0.25, why: '{LineLength_ft} in coils of {Coil_ft}' },
    { code: 'CLAMP', description: 'All-stainless clamp, {WaterLineSize} in insert', when: 'LineFittings="IPS insert"', quantity: '2*LineJoints', unit: 'each', lot: 10, hours: 0.05, why: 'Two on each of {LineJoints|joint|joints}, screws where a driver reaches them' },
    { code: 'CTS-WALL', description: '1-1/4 x {WaterLineSize} in male adapter, compression for CTS', when: 'LineFittings="CTS compression"', quantity: '1', unit: 'each', hours: 0.25, why: 'Into the 1-1/4 in brass coupling cast in the wall of the pump tank' },
    { code: 'CTS-FITTING', description: '{WaterLineSize} in compression x 1 in thread adapter for CTS', when: 'LineFittings="CTS compression"', quantity: '3', unit: 'each', hours: 0.25, why: 'House, pitless adapter and pump' },
    { code: 'CTS-COUPLING', description: '{WaterLineSize} in compression coupling for CTS', when: 'LineFittings="CTS compression"', quantity: 'Couplings', unit: 'each', hours: 0.25, why: '{LineLength_ft} in coils of {Coil_ft}' },
    { code: 'CTS-STIFFENER', description: '{WaterLineSize} in stiffener for CTS', when: 'LineFittings="CTS compression"', quantity: 'LineJoints', unit: 'each', lot: 5, hours: 0.05, why: 'One in each of {LineJoints|joint|joints}' },
    { code: 'LINE-EARTH', description: 'Clean earth over the line, on the truck', quantity: 'LineEarthLoose_yd3', unit: 'yd³', waste: 0.1, hours: 0.1, why: '{LineEarth_yd3} in place: {CleanEarth_in} over the line in its trench, {LineWidth_ft} wide, and over the pump-end stone to the walls; in rock {LineBed_in} under it too' },
    { code: 'TAPE', description: 'Warning tape with a wire that is found from above', quantity: 'WaterLineRun_ft+FeedRun_ft', unit: 'ft', waste: 0.05, lot: 1000, why: '12 in above each: {WaterLineRun_ft} of line, {FeedRun_ft} of feed' },
    { code: 'WALL-SLEEVE', description: 'House wall sleeve with seal', quantity: '1', unit: 'each', hours: 1, why: 'Where the line enters the house' },
    { code: 'HOUSE-VALVE', description: 'House valve, drain and pressure gauge', when: 'OR(HouseSet="yes",HouseBelow_ft>0)', quantity: '1', unit: 'set', hours: 1, why: 'Where the job brings the house set, and where the house lies below the water' },
    { code: 'PRESSURE-TANK', description: 'Pressure tank with switch and gauge, {PressureTankModel}', when: 'ByGravity=0', quantity: '1', unit: 'each', hours: 2, price: 'PressureTankPrice_usd', why: '{PressureTank_gal}, so that the pump runs {LeastRun_min} at each start: {PressureTankNeeded_gal} needed' },
    { code: 'RELIEF', description: 'Pressure relief valve at the pressure tank, piped to a drain', when: 'ByGravity=0', quantity: '1', unit: 'each', hours: 0.5, why: 'Should the switch stick, {ShutOffAtHouseFull_psi} stand at a tank made for {PressureTankRating_psi}' },
    { code: 'TREATMENT', description: 'Treatment set: filters and lamp', when: 'TreatmentLoss_psi>0', quantity: '1', unit: 'set', hours: 2, why: 'Where the job brings treatment, {TreatmentLoss_psi} lost in it' },
    { code: 'REDUCER', description: 'Pressure-reducing valve, after tank and switch', when: 'HouseStanding_psi>HouseMost_psi', quantity: '1', unit: 'each', hours: 0.75, why: '{HouseStanding_psi} can stand at the house; {HouseMost_psi} at most' },
    { code: 'SIPHON-BREAK', description: 'Siphon breaker at the high point of the line', when: 'Siphons=1', quantity: '1', unit: 'each', hours: 0.5, why: 'The house lies {HouseBelow_ft} below the water' },
    { code: 'BACKFLOW', description: 'Backflow preventer', when: 'Backflow="preventer"', quantity: '1', unit: 'each', hours: 1, why: 'Where a public supply can reach the house' },
    { code: 'AIR-GAP', description: 'Air-gap fill from the public supply, float valve with it', when: 'Backflow="air gap"', quantity: '1', unit: 'each', hours: 1, why: 'Where a public supply can reach the house' },
  ],
  'Pump and drop': [
    { code: 'PUMP', description: 'Submersible pump {PumpModel}', quantity: '1', unit: 'each', hours: 2, price: 'PumpPrice_usd', why: '{PumpHead_ftw} at {HouseFlow_gpm}; {TotalHead_ftw} is needed' },
    { code: 'BUSHING', description: '1-1/4 x 1 in reducing bushing, brass', quantity: '1', unit: 'each', hours: 0.1, why: 'Inside, in the cast coupling' },
    { code: 'NIPPLE', description: '1 x 10 in nipple, brass', quantity: '1', unit: 'each', hours: 0.1, why: 'From bushing to the pitless adapter' },
    { code: 'PITLESS', description: '1 in pitless adapter', quantity: '1', unit: 'each', hours: 0.5, why: 'Lets the pump be drawn from above' },
    { code: 'DROP-ADAPTER', description: 'Insert adapter of the drop pipe, {WaterLineSize} in insert x 1 in thread', when: 'LineFittings="IPS insert"', quantity: '2', unit: 'each', hours: 0.25, why: 'Pitless adapter and pump' },
    { code: 'CHECK-VALVE', description: '1 in check valve', quantity: '1', unit: 'each', hours: 0.25, why: 'At the pump' },
    { code: 'PULL-ROD', description: '1 in threaded pull rod', quantity: 'Cover_ft+TankHeight_ft-LineOverBed_in/12', unit: 'ft', lot: 5, hours: 0.1, why: 'From the adapter to the riser lid: {LineCentre_ft} down' },
    { code: 'SAFETY-ROPE', description: 'Safety rope for the pump', quantity: 'Cover_ft+TankHeight_ft+RopeKnots_ft', unit: 'ft', lot: 25, why: 'Lid to pump and a knot at each end' },
    { code: 'FLOAT', description: 'Low-water cut-off', quantity: '1', unit: 'each', hours: 0.5, why: 'So that the pump never runs dry' },
    { code: 'CONTROL', description: '{ControlWords}, for {PumpModel}', quantity: '1', unit: 'each', hours: 0.5, why: 'Overload by the nameplate, {PumpPower_hp}' },
    { code: 'FLOAT-CABLE', description: 'Float cable to the control box', quantity: 'FeederLength_ft', unit: 'ft', waste: 0.05, lot: 25, hours: 0.01, why: 'Beside the pump cable, {FeederLength_ft}' },
    { code: 'INTAKE', description: 'Flow sleeve, 4 in off the floor', quantity: '1', unit: 'each', hours: 0.25, why: 'Cools the motor and keeps the intake off the floor' },
    { code: 'THREAD-SEAL', description: 'Thread sealant', quantity: '1', unit: 'each', why: 'One a job' },
  ],
  Power: [
    { code: 'CABLE-{CableMetal}-{Cable}{CoreSuffix}', description: 'Direct-burial, submersible-rated cable, {Cable} AWG {CableMetal}, {CableCores} conductors, ground {GroundWire} AWG or larger', quantity: 'FeederLength_ft', unit: 'ft', waste: 0.05, lot: 25, hours: 0.015, why: 'Run {PowerRun_ft}, conduit {ConduitRun_ft}, down the tank to the pump, slack {CableSlack_ft}; drop {FeederDrop_V}' },
    { code: 'SLEEVE', description: 'Gasketed sleeve in the riser, {ConduitSize} in', quantity: '1', unit: 'each', hours: 0.5, why: 'Power enters through the riser' },
    { code: 'CONDUIT-{ConduitSize}', description: '{ConduitSize} in PVC conduit', quantity: 'ConduitRun_ft', unit: 'ft', waste: 0.05, lot: 10, hours: 0.08, why: 'From the riser to just beyond the tank edge, and down outside the edge' },
    { code: 'CONDUIT-BODY', description: 'Conduit body with cover and gasket, {ConduitSize} in', quantity: '1', unit: 'each', hours: 0.25, why: 'Pull point at the tank edge' },
    { code: 'CONDUIT-FITTING', description: 'Conduit fittings, {ConduitSize} in', quantity: '4', unit: 'each', hours: 0.05, why: 'Two bends and two ends; sleeve and body have lines of their own' },
    { code: 'CORD-GRIP', description: 'Cord grip, watertight', quantity: '2', unit: 'each', hours: 0.1, why: 'Pump cable and float cable at the riser' },
    { code: 'SPLICE', description: 'Submersible splice kit', quantity: '1', unit: 'each', hours: 0.75, why: 'Pump leads to cable, a slack loop on both sides' },
    { code: 'PROTECTION', description: 'Conduit guard where the cable leaves the ground', quantity: '2', unit: 'each', hours: 0.25, why: 'At the tank and at the house' },
    { code: 'DISCONNECT', description: 'Disconnect and breaker to {Breaker_A}', quantity: '1', unit: 'set', hours: 1.5, why: 'Full-load current {MotorCurrent_A}; set by the licensed electrician' },
    { code: 'ELECTRICIAN', description: 'Licensed electrician, connection and test', quantity: 'Electrician_h', unit: 'h', kind: 'subcontract', why: 'Connection at panel, disconnect and pump' },
  ],
  'Stone and backfill': [
    { code: 'STONE-BED', description: 'Crushed stone for the bed', quantity: 'STONEWEIGHT(Bed_yd3,0.12,0)', unit: 'ton', waste: 0.1, hours: 0.06, why: '{Bed_yd3} in place, {BedThickness_in} thick to the walls, 12 % for compaction' },
    { code: 'STONE-PUMP', description: 'Crushed stone at the pump end', quantity: 'STONEWEIGHT(PumpEndStone_yd3,0.12,0)', unit: 'ton', waste: 0.1, hours: 0.08, why: '{PumpEndStone_yd3} in place, up to {PumpEndStone_in} over the bed, to the walls' },
    { code: 'STONE-TIE', description: 'Crushed stone round the ties', when: 'TankCount>1', quantity: 'STONEWEIGHT(TieStone_yd3,0.12,0)', unit: 'ton', waste: 0.1, hours: 0.1, why: '{TieStone_yd3} in place: {TieCount|gap|gaps} of {TankGap_in} between tanks, {TieStone_in} up from the bed' },
    { code: 'STONE-DRAIN', description: 'Bedding stone for the drains', quantity: 'STONEWEIGHT(DrainBedding_yd3,0.12,0)', unit: 'ton', waste: 0.1, hours: 0.1, why: '{DrainBedding_yd3} in place, {DrainUnder_in} under and {DrainOver_in} over, no higher than the trench is deep' },
    { code: 'FABRIC', description: 'Filter fabric over the pump-end stone', quantity: 'PumpEnd_ft2', unit: 'ft²', waste: 0.1, lot: 100, hours: 0.005, why: 'Keeps earth out of the stone, whose top reaches the sloped walls' },
    { code: 'BACKFILL', description: 'Backfill in layers, free of rock', quantity: 'Backfill_yd3-PumpEndEarth_yd3-TieStone_yd3', unit: 'yd³', hours: 0.03, kind: 'subcontract', earth: true, why: 'Dig {Dig_yd3} less bed, tanks and their risers, pump-end stone, that round the ties, drains in the pit, and topsoil; the clean earth over the stone has a line of its own' },
    { code: 'IMPORT', description: 'Clean fill to bring in, on the truck', quantity: 'Import_yd3', unit: 'yd³', waste: 0.1, why: '{ImportBank_yd3} of bank earth: backfill takes {BackfillBank_yd3}, the pit gives {Dig_yd3}, the trenches {TrenchSpoil_yd3}, less its topsoil, nothing of either where it is rock; bought loose' },
    { code: 'TRENCH-FILL', description: 'Backfill trenches', quantity: 'TrenchFill_yd3', unit: 'yd³', hours: 0.04, kind: 'subcontract', earth: true, why: '{TrenchDig_yd3} dug less {DrainsBeyond_yd3} of drains and their bedding, {TrenchEarth_yd3} of clean earth and {TrenchTopsoil_yd3} of topsoil' },
    { code: 'PLACE', description: 'Place stone and clean earth in layers, and topsoil back', when: 'EarthworkBy="subcontract"', quantity: 'StonePlaced_yd3+TopsoilBack_yd3', unit: 'yd³', kind: 'subcontract', why: '{StonePlaced_yd3} of stone and clean earth, {TopsoilBack_yd3} of topsoil; the own crew’s excavator has its hours' },
    { code: 'SEED', description: 'Topsoil raked and seeded', quantity: 'PitTop_ft2+Trench_ft2', unit: 'ft²', hours: 0.002, why: 'Over the pit top and the trenches' },
  ],
  Test: [
    { code: 'PLATE', description: 'Test plate with sealant, opening {TankOpening_in}, use of', quantity: 'OpeningsFirst', unit: 'each', hours: 0.2, kind: 'equipment', why: 'One on each of {OpeningsFirst|opening|openings}' },
    { code: 'PLATE-{SecondOpening_in}', description: 'Test plate with sealant, opening {SecondOpening_in}, use of', when: 'OpeningsSecond>0', quantity: 'OpeningsSecond', unit: 'each', hours: 0.2, kind: 'equipment', price: 'SecondPlate_usd', why: 'One on each of {OpeningsSecond|opening|openings} of {SecondModel}' },
    { code: 'PLUG', description: '4 in test plug, use of', quantity: 'TiePlugs+IF(TankPort_in=4,PortsUsed,0)', unit: 'each', hours: 0.1, kind: 'equipment', why: 'Both ends of each tie ({TieCount}), and each port of 4 in' },
    { code: 'PLUG-{TankPort_in}', description: '{TankPort_in} test plug, use of', when: 'TankPort_in<>4', quantity: 'PortsUsed', unit: 'each', hours: 0.1, kind: 'equipment', why: 'One for each of {PortsUsed|port|ports}' },
    { code: 'PLUG-PUMP', description: '1-1/4 in plug for the pump coupling', quantity: '1', unit: 'each', hours: 0.1, kind: 'equipment', why: 'In the cast coupling of the pump tank' },
    { code: 'VACUUM', description: 'Vacuum test, a tank', quantity: 'TankCount', unit: 'each', hours: 0.75, kind: 'equipment', why: '{TestVacuum_inHg} watched for {TestHold_min}, before backfill' },
    { code: 'LINE-TEST', description: 'Hand pump and end plugs for the line test, use of', quantity: '1', unit: 'day', hours: 0.5, kind: 'equipment', why: '{LinePressureMost_psi} with water, joints open' },
    { code: 'WATER-TEST', description: 'Water for first fill, ballast and commissioning', quantity: 'CommissionWater_gal/1000', unit: 'kgal', lot: 1, kind: 'subcontract', why: '{CommissionWater_gal}: over the intake for the pump test, or {BallastHeld_in} of ballast' },
  ],
  'Labor and equipment': [
    { code: 'LABOR', description: 'Hours of people', quantity: 'LaborHours', unit: 'h', price: 'LaborRate_usd_per_h', kind: 'labor', why: 'Hours of all lines above and below, at {LaborRate_usd_per_h}' },
    { code: 'EXCAVATOR', description: 'Excavator with operator', when: 'EarthworkBy="own crew"', quantity: 'Excavator_h', unit: 'h', lot: 4, kind: 'equipment', why: '{DigNet_yd3} dug at {DigRate_yd3_per_h}, {PitTopsoil_yd3} of topsoil at {ExcavatorRate_yd3_per_h}, {Backfill_yd3} filled at {FillRate_yd3_per_h}, no faster than it is compacted, trenches {Trench_h}; stone of the pit, and {PitTopsoilBack_yd3} of topsoil back' },
    { code: 'HAMMER', description: 'Hydraulic hammer for the excavator, a day', when: 'AND(EarthworkBy="own crew",SoilClass="rock")', quantity: 'Hammer_day', unit: 'day', lot: 1, kind: 'equipment', why: 'Rock: {DigNet_yd3} at {DigRate_yd3_per_h}, trenches at {TrenchRate_ft_per_h}' },
    { code: 'COMPACTOR', description: 'Plate compactor, a day', when: 'EarthworkBy="own crew"', quantity: 'Compactor_day', unit: 'day', kind: 'equipment', why: '{Backfill_yd3}, the bed and the trenches at {CompactorRate_yd3_per_day}' },
    { code: 'CRANE', description: 'Crane to set tanks: {CraneWords}, {PickLoad_lb} at {PickRadius_ft}', quantity: 'MAX(CraneLeast_h,TankCount*TankSet_h)', unit: 'h', lot: 2, price: 'CraneHour_usd', kind: 'equipment', why: '{CraneWords}: {TankSet_h} for each of {TankCount|tank|tanks}, {CraneLeast_h} at least; {PickLoad_lb} on the hook at {PickRadius_ft}' },
    { code: 'CRANE-TRAVEL', description: 'Crane, to the site and back', when: 'CraneTravel_usd>0', quantity: '1', unit: 'job', price: 'CraneTravel_usd', kind: 'equipment', why: '{CraneModel}' },
    { code: 'SHORING', description: 'Pit protection designed by an engineer', when: 'PitEngineered=1', quantity: '1', unit: 'job', kind: 'subcontract', why: 'The pit is {PitDepth_ft} deep, over 20 ft' },
    { code: 'GAS-METER', description: 'Air meter, blower and retrieval set, a day', quantity: 'Entry_day', unit: 'day', hours: 2, kind: 'equipment', why: 'Tanks are confined spaces: {Entry_day|day|days} with somebody in one, from their setting to the end of the tests and when the line is joined; an attendant stands at the lid' },
  ],
  Delivery: [
    { code: 'HAUL-TANKS', description: 'Delivery of tanks, a truck', quantity: 'ROUNDUP(FirstTanks/MAX(1,INT(TruckLoad_lb/MAX(TankWeight_lb,WeightFigured_lb)))+SecondTanks/MAX(1,INT(TruckLoad_lb/MAX(SecondWeight_lb,SecondFigured_lb)))-0.000001,0)', unit: 'load', kind: 'subcontract', why: '{TankCount|tank|tanks} of up to {HeaviestTank_lb}: whole tanks to {TruckLoad_lb} a truck; a heavier tank rides alone, by permit' },
    { code: 'HAUL-STONE', description: 'Delivery of stone, a load', quantity: 'ROUNDUP(StoneOrdered/StoneLoad_ton,0)', unit: 'load', kind: 'subcontract', why: 'All that is bought by the ton, waste with it, {StoneLoad_ton} a load' },
    { code: 'MOVE-IN', description: 'Move excavator in and out', when: 'EarthworkBy="own crew"', quantity: '1', unit: 'job', hours: 1, kind: 'equipment', why: 'Once a job' },
    { code: 'PERMIT', description: 'Permits and inspection', quantity: '1', unit: 'job', hours: 2, kind: 'other', why: 'As the local authority asks' },
  ],
}

/** The rules as rows of the Items table. */
export const defaultItems: readonly Readonly<Record<string, CellValue>>[] = (Object.keys(bySection) as Section[]).flatMap((section) =>
  bySection[section].map((item) => ({
    Code: item.code, Section: section, Description: item.description, When: item.when ?? null, Quantity: item.quantity, Unit: item.unit,
    Waste: item.waste ?? null, Lot: item.lot ?? null, Pieces: item.pieces ?? null, Stock: item.stock ?? null, LaborHours: item.hours ?? null, Price: item.price ?? null, Kind: item.kind ?? null, PaidBy: item.earth ? 'earthwork' : null, Allowance: item.allowance ?? null, Why: item.why,
  })),
)
