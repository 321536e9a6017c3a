/** The crew's sequence: what is done in which order, the figure to check it against, and where to hold until someone has looked. */
export interface CrewStep {
  /** Stays with the step for good: what the crew writes is kept under it. */
  code: string
  stage: string
  /** The step is left out where this is not true. */
  when: string
  text: string
  figure: string
  /** Who lets the work go on. */
  hold: string
}
type Rest = Partial<Pick<CrewStep, 'when' | 'figure' | 'hold'>>
const stage = (name: string, ...steps: readonly (readonly [code: string, text: string, rest?: Rest])[]): CrewStep[] =>
  steps.map(([code, text, { when = 'TRUE', figure = '', hold = '' } = {}]) => ({ code, stage: name, when, text, figure, hold }))

export const crewSteps: readonly CrewStep[] = [
  ...stage(
    'Before digging',
    ['A1', 'Have buried lines marked; dig by hand near the marks. Look up: power lines over crane and excavator.', { hold: 'foreman' }],
    ['A2', 'Look the tanks over on the truck: model {TankModel}, no cracks, boots and cast coupling whole.', { figure: 'tanks: {TankCount}, each {TankWeight_lb}' }],
    ['A3', 'Crane on firm ground, the maker’s lifting points, nobody under or beside a hanging tank.', { figure: '{LegPull_lb} a leg: two count, 60°', hold: 'crane operator' }],
    [
      'A4',
      'Pump the pit before it reaches groundwater, and until the tanks are ballasted and backfilled.',
      { when: 'PitDepth_ft>GroundwaterDepth_ft', figure: 'water at {GroundwaterDepth_ft}', hold: 'foreman' },
    ],
    ['A5', 'The pit is over 20 ft: the engineer’s design of its protection is here before anyone digs.', { when: 'PitDepth_ft>20', hold: 'engineer' }],
  ),
  ...stage(
    'Pit and bed',
    [
      'B1',
      'Set out the pit: {PitTopLength_ft} along the row by {PitTopWidth_ft} at the top, house end marked; spoil, stone and machines 2 ft back.',
      { when: 'PitDepth_ft<=20', figure: 'bottom {PitLength_ft} x {PitWidth_ft}' },
    ],
    ['B2', 'Dig, walls sloped {Batter} across to 1 up, or benched or shored instead.', { when: 'AND(PitDepth_ft<=20,Batter>0)', figure: '{PitDepth_ft} deep' }],
    ['B4', 'Dig; the walls may stand plumb only in stable rock.', { when: 'AND(PitDepth_ft<=20,Batter=0)', figure: '{PitDepth_ft} deep' }],
    ['B6', 'Set out and dig as the engineer drew it; spoil, stone and machines 2 ft back.', { when: 'PitDepth_ft>20', figure: '{PitDepth_ft} deep' }],
    ['B3', 'The soil is classed and the walls are inspected, today and after rain. Nobody enters before.', { hold: 'competent person' }],
    ['B7', 'A ladder stands within 25 ft of everyone in the pit.', { when: 'PitDepth_ft>=4' }],
    ['B5', 'Stone bed over the whole bottom, compacted and level from end to end.', { figure: '{BedThickness_in} thick, level', hold: 'foreman' }],
  ),
  ...stage(
    'Tanks, ties and ports',
    ['C1', 'Set the pump tank first, at the house end, its cast coupling to the house; then the next ones.', { when: 'TankCount>1', figure: '{TankGap_in} clear between' }],
    ['C6', 'Set the tank, its cast coupling to the house.', { when: 'TankCount=1' }],
    [
      'C2',
      'Ties low through the boots, {TieStub_in} inside each wall, two boots and two band clamps each.',
      { when: 'TankCount>1', figure: 'ties: {TieCount}, each {TieLength_in}' },
    ],
    [
      'C3',
      'Cut open only the upper ports in use. Roof water enters the tank farthest from the house; overflows beside it: {OverflowsAtInlet}, the rest on the next tank. Stub, quarter bend and band clamp at each.',
      { when: 'TankCount>1', figure: '{InletCount} in and {InletCount} out' },
    ],
    [
      'C5',
      'Cut open only the upper ports in use, for inlet and overflow. Stub, quarter bend and band clamp at each.',
      { when: 'TankCount=1', figure: '{InletCount} in and {InletCount} out' },
    ],
    ['C7', 'Risers on sealant to grade, locking lids.', { figure: 'openings: {OpeningCount}' }],
    ['C4', 'A tank is a confined space, also new and empty: where someone must enter, permit, air test, ventilation, attendant and rescue first.', { hold: 'entry supervisor' }],
  ),
  ...stage(
    'Vacuum test, before any backfill',
    ['D1', 'Plates with sealant on all openings, plugs in all 4 in holes and one in the pump coupling.', { figure: 'plates {OpeningCount}, plugs {PlugCount} and 1' }],
    [
      'D2',
      'Draw the air out of one tank after the other and watch the gauge. Keep off lids and plates: {PlateForce_lbf} on a plate. Readings go into the log below; a test done again gets a line of its own.',
      { figure: '{TestVacuum_inHg} for {TestHold_min}' },
    ],
    ['D3', 'Let air in until the gauge reads zero, then loosen. No backfill before every tank has passed.', { hold: 'foreman' }],
  ),
  ...stage('Drains', [
    'I1',
    'Inlet and overflow drains on their bedding, first-wash diverter and cleanouts; calmed inlet, screened vents, flap and stone apron at the outfall.',
    { figure: 'fall {DrainSlope_in_per_ft}' },
  ]),
  ...stage(
    'Water line and pump',
    [
      'E1',
      'Long male adapter, 1-1/4 x {WaterLineSize}, into the cast coupling; {WaterLinePipe} pipe on inserts, two all-stainless clamps a joint, screw heads up. No flame in or over a tank.',
      { when: 'LineFittings="IPS insert"', figure: 'joints: {InsertJoints}' },
    ],
    [
      'E2',
      'Male adapter, 1-1/4 x {WaterLineSize} compression, into the cast coupling; {WaterLinePipe} tubing in compression fittings, a stiffener in each end; no insert fittings, no flame.',
      { when: 'LineFittings="CTS compression"', figure: 'joints: {InsertJoints}' },
    ],
    ['E3', 'Lay the line loose in the trench, {LineSlack_ft} of slack at the tank wall.', { figure: 'trench {TrenchDepth_in}, line {LineRating_psi}' }],
    [
      'E4',
      'Inside: bushing, nipple, slide-apart fitting, drop pipe, pump {PumpModel}, low-water cut-off. The rod draws the pump from above: try it.',
      { figure: 'coupling {TankCoupling_in} over the floor' },
    ],
    ['E5', 'Line under pressure with its joints open to view, before anything covers them; no drop may show.', { figure: 'shut-off {ShutOff_psi}', hold: 'foreman' }],
  ),
  ...stage(
    'Power',
    [
      'F1',
      'Gasketed sleeve in the riser, {ConduitSize} in conduit to just beyond the tank’s edge, conduit body there, drop down outside the edge.',
      { figure: 'conduit {ConduitRun_ft}' },
    ],
    [
      'F2',
      'Direct-burial, submersible-rated cable with slack in the tank and under the drop, so that settling draws slack and not the splice.',
      { figure: '{Cable} AWG {CableMetal}, cover {CableCover_in}' },
    ],
    [
      'F3',
      'A licensed electrician connects, locked out: disconnect, ground-fault protection and breaker as the adopted code asks.',
      { figure: '{MotorCurrent_A}, {Voltage_V}, drop {FeederDrop_V}', hold: 'licensed electrician' },
    ],
  ),
  ...stage(
    'Backfill',
    ['G1', 'Water into the tanks as ballast before the pit pump stops: an empty tank can float.', { when: 'WaterAboveBase_ft>0', hold: 'foreman' }],
    ['G2', 'Stone at the pump end to above the water line, fabric, then 6 in of clean earth over the line.', { figure: '{PumpEndStone_in} over the bed' }],
    ['G3', 'Backfill in even layers round the tanks, free of rock and debris. Warning tape 12 in over line and cable.', { figure: 'cover {Cover_ft}' }],
  ),
  ...stage(
    'Handing over',
    ['H4', 'Disinfect tanks and line, and flush, before anyone uses the water.', { figure: '{Storage_gal} in all' }],
    ['H1', 'Run the pump with the house tap open; read flow and pressure.', { figure: '{HouseFlow_gpm} at {HousePressure_psi}' }],
    ['H2', 'Lids locked; “not drinking water” at every outlet; backflow protection where a public supply can reach.', { hold: 'inspector' }],
    ['H3', 'Owner shown: filter, first-wash diverter, cut-off, drawing the pump. This sheet and the test log handed over.'],
  ),
]

/** The log of the vacuum test, a row a tank: cells written on site, then what they say. */
export const LOG_ENTRIES = ['start_inHg', 'end_inHg', 'watched_min', 'startTemp_F', 'endTemp_F'] as const
export const logLoss = 'IF(COUNT(start_inHg,end_inHg)<2,"",IF(COUNT(startTemp_F,endTemp_F)=1,"both °F or none",VACUUMLOSS(start_inHg,end_inHg,startTemp_F,endTemp_F)))'
/**
 * Nothing before both readings stand. Anything but a full test of good readings is looked into: a gauge beyond the 29.92 inHg of the
 * standard air, or one that rose by more than half of the tenth it is read to (common practice, no source), was read wrong.
 */
export const logVerdict =
  'IF(OR(start_inHg="",end_inHg=""),"",IF(NOT(ISNUMBER(loss_inHg)),"check",IF(COUNT(watched_min)=0,"check",IF(OR(start_inHg<TestVacuum_inHg,start_inHg>29.92,end_inHg<0,watched_min<TestHold_min,loss_inHg<-0.05),"check",IF(ROUND(loss_inHg,2)<=ROUND(TestLoss*TestVacuum_inHg,2),"pass","stop")))))'
