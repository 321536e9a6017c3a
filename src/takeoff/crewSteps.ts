/** The crew's sequence: what is done in which order, the figure to check it against, and where to hold until someone has looked. */
import type { CrewStage } from './cautions.js'
import type { Design } from './design.js'
import { FROST_REACHES_WATER } from './frost.js'
import type { Words } from './template.js'

export interface CrewStep {
  /** Stays with the step for good: what the crew writes is kept under it. */
  code: string
  stage: CrewStage
  /** The step is left out only where this is plainly false. */
  when: string
  text: Words
  figure: Words
  /** Who lets the work go on. */
  hold: string
  /** The item that it sets: left out with it. */
  of: string
}
type Rest = Partial<Pick<CrewStep, 'when' | 'figure' | 'hold' | 'of'>>
const stage = (name: CrewStage, ...steps: readonly (readonly [code: string, text: Words, rest?: Rest])[]): CrewStep[] =>
  steps.map(([code, text, { when = 'TRUE', figure = '', hold = '', of = '' } = {}]) => ({ code, stage: name, when, text, figure, hold, of }))

const isWetOrUnknown = 'PitWater<>"dry"'
/** Groundwater above the bed of the drains, or nobody knows. */
const highWater = 'OR(PitWater="not known",GroundwaterDepth_ft<DrainFoot_ft)'
const floats = 'OR(PitWater="not known",WaterAboveBase_ft>0)'

export const crewSteps: readonly CrewStep[] = [
  ...stage(
    'Before digging',
    ['A1', 'Have buried lines marked; dig by hand near the marks. Look up: power lines over crane and excavator.', { hold: 'foreman' }],
    ['A5', 'The pit is over 20 ft: the engineer’s design of its protection is here before anyone digs.', { when: 'PitEngineered=1', hold: 'engineer' }],
    [
      'A6',
      'Stand of the crane: firm, drained, outriggers outside the line from the pit’s foot at the soil’s slope, {CraneSetback_ft} and more from the edge.',
      { figure: 'radius {PickRadius_ft}, {PickLoad_lb} on the hook' },
    ],
  ),
  ...stage(
    'Pit and bed',
    [
      'A4',
      [
        ['PitWater="not known"', 'Groundwater is not known: a pump stands ready; pump the pit before water rises, and until the tanks are ballasted and backfilled.'],
        ['', 'Pump the pit before it reaches groundwater, and until the tanks are ballasted and backfilled.'],
      ],
      { when: isWetOrUnknown, figure: 'a tank floats in {FloatDepth_ft}', hold: 'foreman' },
    ],
    [
      'A7',
      'Bank the pit’s edge against surface water, a pump of the firm stands ready; before a storm, water into the tanks.',
      { when: 'PitWater="dry"', figure: 'a tank floats in {FloatDepth_ft}' },
    ],
    [
      'B1',
      'Set out the pit: {PitTopLength_ft} along the row by {PitTopWidth_ft} at the top, house end marked; spoil, stone and machines 2 ft back.',
      { when: 'PitEngineered=0', figure: 'bottom {PitLength_ft} x {PitWidth_ft}' },
    ],
    ['B8', 'Strip topsoil over pit and trenches and stack it apart.', { figure: '{Topsoil_in} deep' }],
    [
      'B2',
      [
        ['PitSoil="C"', 'Dig, walls sloped {Batter} across to 1 up, or shored instead; no benches in class C.'],
        ['', 'Dig, walls sloped {Batter} across to 1 up, or shored instead, or benched where the soil is cohesive.'],
      ],
      { when: 'AND(PitEngineered=0,Batter>0)', figure: '{PitDepth_ft:2} deep' },
    ],
    ['B4', 'Dig; the walls may stand plumb only in stable rock.', { when: 'AND(PitEngineered=0,Batter=0)', figure: '{PitDepth_ft:2} deep' }],
    ['B6', 'Set out and dig as the engineer drew it; spoil, stone and machines 2 ft back.', { when: 'PitEngineered=1', figure: '{PitDepth_ft:2} deep' }],
    ['B9', 'Fence and signs round the open pit before anyone leaves it; they stand until it is filled.', { figure: '{FenceClear_ft} off the edge', of: 'FENCE' }],
    ['B7', 'A ladder stands within 25 ft of everyone in the pit.', { when: 'PitLaddered=1' }],
    ['B3', 'The soil is classed and the walls are inspected, today and after rain. Nobody enters before.', { hold: 'competent person' }],
    ['B5', 'Stone bed over the whole bottom, compacted and level from end to end.', { figure: '{BedThickness_in} thick, top {BedTop_ft:2} down', hold: 'foreman' }],
  ),
  ...stage(
    'Tanks, ties and ports',
    ['A2', 'Look the tanks over on the truck: {Models}, no cracks, boots and cast coupling whole.', { figure: 'tanks: {TankCount}, up to {HeaviestTank_lb}' }],
    [
      'A3',
      'Lift: the maker’s cast inserts, slings as figured, tag lines, nobody under or beside a hanging tank, nobody in the pit below it.',
      { figure: '{LegPull_lb} a leg: two count, 60°', hold: 'crane operator' },
    ],
    ['C1', 'Set the pump tank first, at the house end, its cast coupling to the house; then the next ones.', { when: 'TankCount>1', figure: '{TankGap_in} clear between' }],
    [
      'C8',
      [
        ['SecondTanks=1', 'The tank of model {SecondModel} stands at the far end of the row, where the roof water enters.'],
        ['', 'The {SecondTanks} of model {SecondModel} stand at the far end of the row, where the roof water enters.'],
      ],
      { when: 'SecondTanks>0' },
    ],
    ['C6', 'Set the tank, its cast coupling to the house.', { when: 'TankCount=1' }],
    ['C4', 'A tank is a confined space, also new and empty: where someone must enter, permit, air test, ventilation, attendant and rescue first.', { hold: 'entry supervisor' }],
    [
      'C2',
      'Ties low through the boots, {TieStub_in} inside each wall, two boots and two band clamps each, tightened as far as their maker says.',
      { when: 'TankCount>1', figure: 'ties: {TieCount}, each {TieLength_in}, centre {TieCentre_ft:2} down' },
    ],
    [
      'C3',
      [
        [
          'NextPorts>0',
          'Cut open only the upper ports in use, wet, with a mask. Roof water enters the tank farthest from the house ({FarPorts}) and the next one ({NextPorts}); overflows on the far one: {OverflowsAtInlet}, on the next: {OverflowsNext}. Stub, quarter bend and band clamp at each.',
        ],
        [
          '',
          'Cut open only the upper ports in use, wet, with a mask. Roof water enters the tank farthest from the house; overflows beside it: {OverflowsAtInlet}, on the next tank: {OverflowsNext}. Stub, quarter bend and band clamp at each.',
        ],
      ],
      { when: 'TankCount>1', figure: '{InletPorts|inlet port|inlet ports}, {OverflowCount|overflow|overflows}' },
    ],
    [
      'C5',
      'Cut open only the upper ports in use, for inlet and overflow, wet, with a mask. Stub, quarter bend and band clamp at each.',
      { when: 'TankCount=1', figure: '{InletPorts|inlet port|inlet ports}, {OverflowCount|overflow|overflows}' },
    ],
    [
      'C7',
      [
        ['AND(RiserOver_in>0,RimProud_in=0)', 'Risers on sealant to grade, the top section {RiserOver_in} shorter, ordered or cut so; rims flush with the ground, locking lids.'],
        ['RiserOver_in>0', 'Risers on sealant to grade, the top section {RiserOver_in} shorter, ordered or cut so; rims {RimProud_in} proud, locking lids.'],
        ['RimProud_in=0', 'Risers on sealant to grade, rims flush with the ground, locking lids.'],
        ['', 'Risers on sealant to grade, rims {RimProud_in} proud, locking lids.'],
      ],
      { figure: 'openings: {OpeningCount}' },
    ],
  ),
  ...stage(
    'Vacuum test',
    [
      'D5',
      [
        ['TankCount=1', 'Plugs in every port, and one in the coupling of the line.'],
        ['', 'Plugs in every tie and port, tie ends from inside, and one in the coupling of the line.'],
      ],
      {
        figure: [
          ['TankCount=1', 'ports {PortsUsed} of {TankPort_in}, coupling 1'],
          ['', 'ties {TiePlugs} of 4 in, ports {PortsUsed} of {TankPort_in}, coupling 1'],
        ],
      },
    ],
    ['D4', 'Everyone is out of every tank and counted. Only then does a plate go on.', { hold: 'entry supervisor' }],
    ['D1', 'Lids off, plates with sealant on the rims of all risers.', { figure: 'plates: {OpeningCount}' }],
    [
      'D2',
      [
        [
          'ROUND(TestVacuum_inHg,2)>ROUND(VacuumAllowed_inHg,2)',
          'No vacuum is drawn: the job asks for more than the maker allows, and a lid breaks inward. The office puts it right first.',
        ],
        [
          'TankCount=1',
          'Draw the air out of the tank; once it has settled draw it to the level once more, then watch the gauge. Keep off lid and plates: {PlateForce_lbf} on a plate. Readings go into the log; a test done again gets a line of its own.',
        ],
        [
          '',
          'Draw the air out of one tank after the other, every one of them; once it has settled draw it to the level once more, then watch the gauge. Keep off lids and plates: {PlateForce_lbf} on a plate. Readings go into the log; a test done again gets a line of its own.',
        ],
      ],
      {
        figure: [
          ['ROUND(TestVacuum_inHg,2)>ROUND(VacuumAllowed_inHg,2)', '{VacuumAllowed_inHg} at the most'],
          ['', '{TestVacuum_inHg} for {TestHold_min}'],
        ],
      },
    ],
    ['D3', 'Let air in until the gauge reads zero, then loosen. No backfill before every tank has passed.', { hold: 'foreman' }],
    [
      'D6',
      'Plates off, every plug out again and counted: as many as went in. Plugs inside come out under the entry permit: air test, ventilation, attendant, rescue.',
      { figure: 'plugs: {PlugCount}, and the one in the coupling', hold: 'entry supervisor' },
    ],
  ),
  ...stage(
    'Water line',
    [
      'E8',
      [
        [
          'LineDeeper_ft>0',
          'Dig the trench so that the line falls all the way from its coupling, {LineCentre_ft:2} down at the tanks: as deep as the figure from where the ground has fallen as far, {DeepReach_ft} beyond the pit where it falls evenly. From 5 ft in a trench box, or sloped {FillBatter} across to 1 up, unless the competent person finds rock stable all along; ladder within 25 ft.',
        ],
        [
          'AND(LineProtected=1,TrenchBoxed=0)',
          'Dig the trench from tanks to house in rock that the competent person has found stable all along; where it runs out into earth, a trench box, or sloped {FillBatter} across to 1 up; ladder within 25 ft.',
        ],
        ['LineProtected=1', 'Dig the trench from tanks to house, {LineWidth_ft} wide, in a trench box, or sloped {FillBatter} across to 1 up; ladder within 25 ft.'],
        ['', 'Dig the trench from tanks to house; spoil back from the edge.'],
      ],
      { when: 'LineBeyond_ft>0', figure: '{LineDug_in} deep, {LineBeyond_ft} long' },
    ],
    [
      'G2',
      [
        ['TankCount>1', 'Stone round the ties and at the house end of the pit up to the line, so that both lie on it.'],
        ['', 'Stone at the house end of the pit up to the line, so that it lies on it.'],
      ],
      { figure: 'line {LineOverBed_in} over the bed' },
    ],
    [
      'E1',
      'Long male adapter, 1-1/4 x {WaterLineSize}, into the cast coupling; {WaterLinePipe} pipe on inserts, two all-stainless clamps a joint, screws where a driver reaches them. No flame in or over tank, pit or trench.',
      { when: 'LineFittings="IPS insert"', figure: 'joints: {LineJoints}' },
    ],
    [
      'E2',
      'Male adapter, 1-1/4 x {WaterLineSize} compression, into the cast coupling; {WaterLinePipe} tubing in compression fittings, a stiffener in each end; no insert fittings, no flame.',
      { when: 'LineFittings="CTS compression"', figure: 'joints: {LineJoints}' },
    ],
    [
      'E9',
      'Inside the pump tank while it is dry, under the entry permit: bushing, nipple and the fixed half of the pitless adapter into the coupling.',
      { when: 'ByGravity=0', figure: 'coupling {TankCoupling_in} over the floor', hold: 'entry supervisor' },
    ],
    [
      'E3',
      [
        ['LineBed_in>0', 'Lay the line loose in the trench on {LineBed_in} of clean earth over the rock, {LineSlack_ft} of slack at the tank wall.'],
        ['', 'Lay the line loose in the trench, {LineSlack_ft} of slack at the tank wall.'],
      ],
      { figure: 'trench {TrenchDepth_in}, line {LineRating_psi}' },
    ],
    [
      'E12',
      'From the coupling on the line falls all the way to the house: no point of it stands higher, or air gathers there and the water stops.',
      { when: 'ByGravity=1', figure: 'coupling {LineCentre_ft:2} down', hold: 'foreman' },
    ],
    ['E6', 'Siphon breaker at the high point of the line, where it can be reached.', { when: 'Siphons=1', figure: 'house {HouseBelow_ft} below the water' }],
    [
      'E5',
      'Close both ends of the line with plugs, inside a tank under the entry permit; press it with a hand pump and water, never air, while its joints lie open to view; top it up until the pipe has stretched: then no drop may show, no joint may weep.',
      {
        figure: [
          ['LineTestAtTank_psi<LinePressureMost_psi', 'to {LinePressureMost_psi} on a gauge at the house end, the lower one ({LineTestAtTank_psi} at the tank wall), held 15 min'],
          ['', 'to {LinePressureMost_psi} on a gauge at the tank wall, the lower end, held 15 min'],
        ],
        hold: 'foreman',
      },
    ],
    ['E13', 'At the house: the line through its sleeve, sealed; plug out, the line joined to its valve, and that shut. Where the valve comes later the plug stays in.'],
    [
      'E10',
      'Plug out at the tank end, under the entry permit where it is inside. The house end is shut, or keeps its plug, before water goes into the tanks: the coupling is open into it, and ballast would run out.',
      { hold: 'entry supervisor' },
    ],
    [
      'G6',
      'Stone carried over the water line at the house end of the pit, fabric, then {CleanEarth_in} of clean earth over the line.',
      { figure: '{PumpEndStone_in} over the bed' },
    ],
  ),
  ...stage(
    'Ballast and lower backfill',
    [
      'G1',
      [
        ['TankCount=1', 'Water into the tank as ballast.'],
        ['', 'Water into the tanks as ballast; tied tanks stand at one level.'],
      ],
      {
        when: `AND(${floats},Ballast_in>0)`,
        figure: [
          ['TankCount=1', '{BallastHeld_in}'],
          ['', '{BallastHeld_in} in each tank'],
        ],
        hold: 'foreman',
      },
    ],
    [
      'G5',
      'Rock-free fill round the tanks, all sides alike, up to the foot of the drains’ stone, in layers of {FillLayer_in}, each compacted.',
      { figure: '{DrainFoot_ft:2} down' },
    ],
    ['G4', 'Only now may the pit pump stop.', { when: `AND(${isWetOrUnknown},NOT(${highWater}))`, hold: 'foreman' }],
  ),
  ...stage(
    'Drains',
    [
      'I2',
      [
        [
          'AND(DrainsProtected=1,TrenchBoxed=0)',
          'Dig the trenches of the drains in rock that the competent person has found stable all along; where they run out into earth, a trench box, or sloped {FillBatter} across to 1 up; ladder within 25 ft.',
        ],
        ['DrainsProtected=1', 'Dig the trenches of the drains in a trench box, or sloped {FillBatter} across to 1 up, fill being class C; ladder within 25 ft.'],
        ['', 'Dig the trenches of the drains; spoil back from the edge.'],
      ],
      { when: 'InletBeyond_ft+OverflowBeyond_ft>0', figure: '{DrainTrench_ft} wide, {DrainDeepest_ft:2} at the deep end beyond the pit' },
    ],
    [
      'I4',
      [
        ['AND(DrainSize_in<>TankPort_in,PortsUsed>2*InletCount)', 'Reducers at the ports, {DrainSize_in} to {TankPort_in}; wyes where a trunk splits to them.'],
        ['DrainSize_in<>TankPort_in', 'Reducers at the ports, {DrainSize_in} to {TankPort_in}.'],
        ['', 'Wyes where a trunk splits to the ports.'],
      ],
      { when: 'OR(DrainSize_in<>TankPort_in,PortsUsed>2*InletCount)', figure: 'ports: {PortsUsed}' },
    ],
    [
      'I1',
      [
        ['InletRun_ft+OverflowRun_ft=0', 'Downspouts straight into the ports: calmed inlet, screened vents, flap and stone apron at the overflow.'],
        [
          'FirstWash_gal>0',
          'Drains of {DrainSize_in} on {DrainUnder_in} of stone and under {DrainOver_in} of it, on the compacted fill; first-wash diverter and cleanouts; calmed inlet, screened vents, flap and stone apron at the outfall.',
        ],
        [
          '',
          'Drains of {DrainSize_in} on {DrainUnder_in} of stone and under {DrainOver_in} of it, on the compacted fill; cleanouts; calmed inlet, screened vents, flap and stone apron at the outfall.',
        ],
      ],
      { figure: 'fall in {InletSlope_in_per_ft:3}, out {OverflowSlope_in_per_ft:3}; inverts {OverflowInvert_ft:2} down at the tank' },
    ],
    [
      'I3',
      'Inlet filter in each inlet drain at the tanks, where it can be cleaned from above.',
      {
        when: 'FilterShare<1',
        figure: [
          ['FilterFall_in>0', 'filters: {InletCount}, fall {FilterFall_in}'],
          ['', 'filters: {InletCount}'],
        ],
        of: 'FILTER',
      },
    ],
  ),
  ...stage(
    'Upper backfill',
    ['G3', 'Backfill on, rock-free, in layers of {FillLayer_in}, each compacted, up to the lids.', { figure: 'lids {LidTop_ft:2} down' }],
    [
      'F1',
      'Gasketed sleeve and cord grips in the riser, {ConduitSize} in conduit to just beyond the tank’s edge, conduit body there, drop down outside the edge.',
      { when: 'ByGravity=0', figure: 'conduit {ConduitRun_ft}, {ConduitCover_in} of cover' },
    ],
    [
      'F2',
      'Direct-burial, submersible-rated cable, a slack loop on both sides of the splice and under the drop, so that settling draws slack and not the splice.',
      { when: 'ByGravity=0', figure: '{Cable} AWG {CableMetal}, cover {CableCover_in}' },
    ],
    [
      'G10',
      'Frost reaches down to the water: insulation boards over the tanks and {InsulationBeside_ft} beside them, before fill covers them.',
      { when: FROST_REACHES_WATER, figure: 'frost {FrostDepth_in}', hold: 'foreman', of: 'TANK-INSUL' },
    ],
    [
      'G7',
      [
        ['ByGravity=1', 'Looked at, then the rest of the fill, rock-free, over lids and drains; warning tape 12 in over the line; trenches filled and tamped.'],
        ['', 'Looked at, then the rest of the fill, rock-free, over lids, conduit, drains and cable; warning tape 12 in over line and cable; trenches filled and tamped.'],
      ],
      { figure: 'cover {Cover_ft:2}', hold: 'inspector' },
    ],
    ['G9', 'Topsoil back over pit and trenches, raked and seeded.', { of: 'SEED' }],
    ['G8', 'Groundwater may stand higher than the drains: only now may the pit pump stop.', { when: `AND(${isWetOrUnknown},${highWater})`, hold: 'foreman' }],
  ),
  ...stage('Power', [
    'F3',
    'A licensed electrician connects, locked out: disconnect, ground-fault protection, overload and breaker as the adopted code asks.',
    { figure: '{MotorCurrent_A}, {Voltage_V}, drop {FeederDrop_V}', hold: 'licensed electrician', of: 'PUMP' },
  ]),
  ...stage(
    'First fill',
    [
      'H5',
      [
        [`AND(${floats},Ballast_in>0)`, 'First fill: the ballast that is in counts; clean water up to {FirstFill_in} over the floor.'],
        ['', 'First fill: clean water over the intake, up to {FirstFill_in} over the floor.'],
      ],
      { figure: '{CommissionWater_gal} in all' },
    ],
    [
      'E4',
      'From above, locked out: pump {PumpModel} in its flow sleeve, check valve and safety rope on it, on its drop pipe, by the rod into the pitless adapter; the low-water cut-off hung so that it stops the pump at the dead depth. The rod draws the pump from above: try it.',
      { figure: 'cut-off {DeadDepth_in} over the floor', of: 'PUMP' },
    ],
    [
      'K1',
      'At the house, before any water: pressure tank with switch and gauge, its air charge set while it is empty; relief valve set no higher than the tank’s plate, piped to a drain.',
      { when: 'ByGravity=0', figure: 'charge {Charge_psi}, plate {PressureTankRating_psi}', of: 'PRESSURE-TANK' },
    ],
    ['K2', 'Reducing valve behind tank and switch.', { when: 'HouseStanding_psi>HouseMost_psi', figure: 'to {HouseMost_psi} at the most' }],
    [
      'K3',
      'Treatment set behind tank and switch: filters, lamp, a tap ahead of it and one behind, a way round it that is open until the line is disinfected and flushed; its cartridges go in then.',
      { when: 'TreatmentLoss_psi>0' },
    ],
    [
      'K4',
      [
        [
          'Backflow="air gap"',
          'Air gap for the public supply: the fill ends at least two of its bores, and no less than an inch, over the highest rim that water can reach; float valve.',
        ],
        ['', 'Backflow preventer where a public supply can reach the house, tested by who is licensed for it.'],
      ],
      { when: 'Backflow<>"none"', hold: 'licensed plumber' },
    ],
    ['E14', 'The valve at the house is open; where a plug stayed in, the valve comes first and the plug out.', { hold: 'foreman' }],
    ['E7', 'Pump on: look at every joint in reach again under pressure; the switch stops it.', { figure: 'off at {CutOut_psi}, on at {CutIn_psi}', hold: 'foreman', of: 'PUMP' }],
    ['E11', 'Water on: look at every joint in reach again under pressure.', { when: 'ByGravity=1', hold: 'foreman' }],
  ),
  ...stage(
    'Handing over',
    [
      'H4',
      [
        [
          'TreatmentLoss_psi>0',
          'Disinfect tanks and line before anyone uses the water, round the treatment set and not through it: goggles, gloves, from outside; the same water over walls and lids by hose through the openings, and drawn to every outlet until it smells of chlorine; leave it {Contact_h}, after which {ChlorineLeft_mg_per_L} and more are left; then vitamin C (ascorbic acid, and no other acid), a little at a time, stirred, until {ChlorineUse_mg_per_L} or less is read in each tank; flush line and taps with it, where the local rules allow.',
        ],
        [
          '',
          'Disinfect tanks and line before anyone uses the water: goggles, gloves, from outside; the same water over walls and lids by hose through the openings, and drawn to every outlet until it smells of chlorine; leave it {Contact_h}, after which {ChlorineLeft_mg_per_L} and more are left; then vitamin C (ascorbic acid, and no other acid), a little at a time, stirred, until {ChlorineUse_mg_per_L} or less is read in each tank; flush line and taps with it, where the local rules allow.',
        ],
      ],
      {
        figure:
          'for each 1,000 gal that are in: {BleachRate_pint} of {BleachStrength%} bleach, then up to {NeutralizerRate_lb:1} of vitamin C; full tanks {Bleach_pint}, {Neutralizer_lb:1}',
      },
    ],
    [
      'H1',
      'Run the pump with the house tap open; read flow, pressure and amperes, and hold those against the nameplate.',
      { figure: '{HouseFlow_gpm} at {HousePressure_psi}', of: 'PUMP' },
    ],
    ['H8', 'Open the house tap; read flow and pressure.', { when: 'ByGravity=1', figure: '{HouseFlow_gpm} at {HousePressure_psi}' }],
    [
      'H2',
      [
        [
          'TreatmentLoss_psi>0',
          'Lids locked; “not drinking water” at the lids and at every outlet ahead of the treatment; behind it as the health authority says. Backflow protection where a public supply can reach.',
        ],
        ['', 'Lids locked; “not drinking water” at every outlet; backflow protection where a public supply can reach.'],
      ],
      { hold: 'inspector' },
    ],
    ['H6', 'Insulation under every riser lid.', { when: 'FrostDepth_in>0', figure: 'openings: {OpeningCount}', of: 'LID-INSUL' }],
    ['H3', 'Owner shown: what is cleaned and when, the cut-off, drawing the pump. The handover and the test log go to him.', { when: 'ByGravity=0' }],
    ['H7', 'Owner shown: what is cleaned and when, the valve at the house. The handover and the test log go to him.', { when: 'ByGravity=1' }],
  ),
]

/** The steps of a job: those whose case it is, without what sets an item that the job leaves out. */
export const stepsOf = (design: Pick<Design, 'holds'>, without: readonly string[]): readonly CrewStep[] =>
  crewSteps.filter(({ when, of }) => design.holds(when) && !without.includes(of))
