/** What can hurt someone on this job, worst first, each with the rule it points to and the stage where it acts. Local codes and licensed practice decide. */
import { FROST_REACHES_WATER } from './frost.js'
import type { Words } from './template.js'

export interface CautionRule {
  name: string
  /** Three words for the pane and the head of the crew sheet. */
  short: string
  /** Raised unless this is plainly false. */
  when: string
  text: Words
  points: string
  /** Stages of the work where it acts. */
  stages: readonly CrewStage[]
  /** Of these stages, when: it acts at some of them in one job and at others in the next. */
  onlyWhen: Readonly<Partial<Record<CrewStage, string>>>
}
export const crewStages = ['Before digging', 'Pit and bed', 'Tanks, ties and ports', 'Vacuum test', 'Water line', 'Ballast and lower backfill', 'Drains', 'Upper backfill', 'Power', 'First fill', 'Handing over'] as const
export type CrewStage = (typeof crewStages)[number]

type At = CrewStage | readonly [stage: CrewStage, when: string]
const caution = (name: string, short: string, when: string, text: Words, points: string, ...at: readonly At[]): CautionRule => ({
  name,
  short,
  when,
  text,
  points,
  stages: at.map((one) => (typeof one === 'string' ? one : one[0])),
  onlyWhen: Object.fromEntries(at.filter((one) => typeof one !== 'string')),
})
const ALWAYS = 'TRUE'

export const cautionRules: readonly CautionRule[] = [
  caution('deep pit', 'Engineer designs protection', 'PitEngineered=1', 'The pit is deeper than 20 ft: a registered engineer designs its protection before anyone digs.', '29 CFR 1926 Subpart P, 1926.652 and Appendix F', 'Before digging', 'Pit and bed'),
  caution(
    'pit walls',
    'Walls bury people',
    'PitProtected=1',
    [
      ['PitSoil="C"', 'The pit is {PitDepth_ft} deep in class C soil: slope it {Batter} across to 1 up, or shore it; no benches in class C. A competent person classes the soil and inspects each day and after rain. Nobody enters an unprotected pit.'],
      ['Batter=0', 'The pit is {PitDepth_ft} deep: walls stand plumb only in stable rock, as the competent person finds it each day and after rain. Nobody enters an unprotected pit.'],
      ['', 'The pit is {PitDepth_ft} deep in class {PitSoil} soil: slope it {Batter} across to 1 up, shore it, or bench it where the soil is cohesive. A competent person classes the soil and inspects each day and after rain. Nobody enters an unprotected pit.'],
    ],
    '29 CFR 1926 Subpart P, Appendices A and B',
    'Pit and bed',
    'Tanks, ties and ports',
    'Vacuum test',
    'Water line',
    'Ballast and lower backfill',
  ),
  caution('trench walls', 'Trench of 5 ft', 'DeepestTrench_ft>=5', [
    ['TrenchBoxed=0', 'A trench is {DeepestTrench_ft} deep at its deep end: it stands plumb only while a competent person finds the rock stable all along, and where it runs out into earth or fill it takes a trench box or a slope of {FillBatter} across to 1 up. Inspected each day and after rain.'],
    ['', 'A trench is {DeepestTrench_ft} deep at its deep end: from 5 ft it stands in a trench box, or is sloped {FillBatter} across to 1 up: fill and disturbed soil are class C, whatever the pit is. Inspected each day and after rain.'],
  ], '29 CFR 1926.652(a)(1), Appendices A and B', ['Water line', 'OR(LineProtected=1,ROUND(LineDeep_ft,2)>=5)'], ['Drains', 'DrainsProtected=1'], 'Upper backfill'),
  caution('wet trench', 'Water in trench', 'TrenchWet=1', 'Groundwater at {GroundwaterDepth_ft} stands in the trench of {DeepestTrench_ft}: pump it before anyone steps in, and its walls count as class C whatever the soil is.', '29 CFR 1926.651(h)(1), Appendix A', ['Water line', 'GroundwaterDepth_ft<LineDeep_ft'], ['Drains', 'GroundwaterDepth_ft<DrainDeepest_ft']),
  caution('tank entry', 'Tank: confined space', ALWAYS, 'A tank is a confined space, also while it is empty and new: no entry without permit, air test, ventilation, attendant and rescue.', '29 CFR 1926 Subpart AA; after the job 29 CFR 1910.146', 'Tanks, ties and ports', 'Vacuum test', 'Water line', 'First fill', 'Handing over'),
  caution('lifting', 'Nobody under loads', ALWAYS, 'A tank weighs up to {HeaviestTank_lb}, {PickLoad_lb} on the hook at a radius of {PickRadius_ft}: nobody under or beside it, the maker’s cast inserts only, slings no flatter than the 60° from horizontal that are figured, firm and drained ground for the outriggers, outside the line from the pit’s foot at the soil’s slope.', '29 CFR 1926.1402, .1417, .1425, .704, .251', 'Tanks, ties and ports'),
  caution('struck by', 'Clear of machines', ALWAYS, 'Nobody within the swing of the excavator, behind a machine that backs up, or between a hanging tank and one that stands: the operator sees everyone, or stops.', '29 CFR 1926.602(a)(9)(ii), .601(b)(4), .1424, .651(e)', 'Pit and bed', 'Tanks, ties and ports', 'Water line', 'Ballast and lower backfill', 'Drains', 'Upper backfill'),
  caution('power lines', 'Lines overhead', ALWAYS, 'Keep crane and excavator 20 ft from power lines until the voltage is known; known, 10 ft up to 50 kV, 15 to 200, 20 to 350, 50 above.', '29 CFR 1926.1408 and .1409, Table A; excavators 1926.600(a)(6)', 'Before digging', 'Pit and bed', 'Tanks, ties and ports'),
  caution('buried lines', 'Lines in ground', ALWAYS, 'Have buried lines marked before digging; dig by hand near the marks.', 'State one-call law (811), 29 CFR 1926.651(b)', 'Before digging', 'Pit and bed', 'Water line', 'Drains'),
  caution('rock', 'Rock is no earth', 'SoilClass="rock"', 'Rock is broken by hammer or by a licensed blaster, never by the rates of earth: have it priced. What is dug is hauled off and rock-free fill brought in. Walls stand plumb only where the competent person finds the rock stable, each day and after rain.', '29 CFR 1926 Subpart P, Appendix A; Subpart U for blasting', 'Before digging', 'Pit and bed'),
  caution('footings', 'Undermines walls', 'OR(PitLaddered=1,TrenchUnder_in>0)', [
    ['AND(PitLaddered=1,TrenchUnder_in>0)', 'The pit opens {PitEdge_ft} beyond the tank walls: no wall, footing, pole, tree or pavement stands within it or is dug under, unless it is supported as a registered engineer says. At the house a trench goes {TrenchUnder_in} below the {FootingBase_in} where a footing may end: it meets the wall square, is never dug along it, and the last feet are dug by hand and filled the same day; find the base first.'],
    ['TrenchUnder_in>0', 'At the house a trench goes {TrenchUnder_in} below the {FootingBase_in} where a footing may end: it meets the wall square, is never dug along it, and the last feet are dug by hand and filled the same day; find the base first. Nothing is dug under, unless it is supported as a registered engineer says.'],
    ['', 'The pit opens {PitEdge_ft} beyond the tank walls: no wall, footing, pole, tree or pavement stands within it or is dug under, unless it is supported as a registered engineer says.'],
  ], '29 CFR 1926.651(i)', 'Before digging', 'Pit and bed', 'Water line', 'Drains'),
  caution('out before plates', 'Count everyone out', ALWAYS, 'Before a plate goes on, everyone is out of the tanks and counted; nobody closes a tank that he has not looked into.', '29 CFR 1926 Subpart AA; common practice', 'Vacuum test'),
  caution('vacuum', 'Keep off lids', ALWAYS, 'Under vacuum the air presses {LidForce_lbf} on a lid, {PlateForce_lbf} on a plate and {PlugForce_lbf} on a plug: keep off lids and plates, loosen nothing until the gauge reads zero, do not exceed the test level.', 'The tank maker; the test standard named in the contract', 'Vacuum test'),
  caution(
    'flotation',
    'Empty tank floats',
    'OR(PitWater="not known",WaterAboveBase_ft>0,FloatDepth_ft<TankHeight_ft)',
    [
      ['AND(Ballast_in>BallastMost_in,PitWater="not known")', 'Nobody has said how deep the groundwater lies: {FloatDepth_ft} of water round an empty, uncovered tank lifts it, and were it up to the lids full tanks would not hold themselves down. Keep the pit pumped, day and night, until backfilled, whatever water is in the tanks.'],
      ['Ballast_in>BallastMost_in', 'Groundwater stands {WaterAboveBase_ft} above the tank base; {FloatDepth_ft} of it lifts an empty, uncovered tank, and full tanks do not hold themselves down either. Keep the pit pumped, day and night, until backfilled, whatever water is in the tanks.'],
      ['PitWater="not known"', 'Nobody has said how deep the groundwater lies: {FloatDepth_ft} of water round an empty, uncovered tank lifts it, also after a storm. Keep the pit pumped until backfilled, ballast each tank with {Ballast_in} of water.'],
      ['WaterAboveBase_ft=0', 'The groundwater lies below the tanks, but a storm fills a pit: {FloatDepth_ft} of water round an empty, uncovered tank lifts it. Bank the edge against surface water, keep a pump ready until backfilled, and put water into the tanks before a storm.'],
      ['Ballast_in=0', 'Groundwater stands {WaterAboveBase_ft} above the tank base; {FloatDepth_ft} of it lifts an empty, uncovered tank. Keep the pit pumped until backfilled.'],
      ['', 'Groundwater stands {WaterAboveBase_ft} above the tank base; {FloatDepth_ft} of it lifts an empty, uncovered tank. Keep the pit pumped until backfilled and the tanks ballasted with {Ballast_in} of water.'],
    ],
    'FEMA P-259; 29 CFR 1926.651(h)(1) and (3); the tank maker',
    'Pit and bed',
    'Vacuum test',
    'Ballast and lower backfill',
  ),
  caution('wet pit', 'Ground-fault power', ALWAYS, 'Pumps and tools in a wet pit run on ground-fault protected circuits, cords and plugs out of the water.', '29 CFR 1926.404(b)(1)', 'Pit and bed', 'Tanks, ties and ports', 'Ballast and lower backfill'),
  caution('electricity', 'Locked out first', 'ByGravity=0', 'Electricity in a wet place: a licensed electrician connects the pump; ground-fault protection and a disconnect as the adopted code asks. Lock out before reaching into a tank.', 'NEC 110.3(B), 430.102, 210.8(F); 29 CFR 1926.417', 'Power', 'First fill'),
  caution('traffic', 'Nothing drives over', ALWAYS, [
    ['TrafficRank>TrafficAllowed', 'Over the tanks {Traffic} would pass, and their maker allows: {TrafficOver}. Nothing drives there until the engineer and the maker agree.'],
    ['TrafficRank>1', 'Nothing drives over the tanks but what the maker allows ({TrafficOver}), nor within the pit’s slope, while open and after; and over the overflow drain, which comes up towards its outfall, only where {WheelCover_in} cover it.'],
    ['', 'Nothing drives over the tanks but what the maker allows ({TrafficOver}), nor within the pit’s slope, while open and after.'],
  ], 'The tank maker; 29 CFR 1926.651(f)', 'Ballast and lower backfill', 'Upper backfill', 'Handing over'),
  caution('open lids', 'Lids closed, locked', ALWAYS, 'An open riser is never left alone: lid locked or guarded, children kept off.', '29 CFR 1926.501(b)(4); local rules', 'Tanks, ties and ports', 'First fill', 'Handing over'),
  caution('line test', 'Water, never air', ALWAYS, 'The line is tested with water and never with air: air bursts what it breaks. Stand clear of joints and plugs.', 'The pipe maker; common practice', 'Water line', 'First fill'),
  caution('spoil', 'Back from edge', 'OR(PitLaddered=1,DeepestTrench_ft>=4)', 'Keep spoil, stone and machines 2 ft back from the edge; a ladder within 25 ft of everyone where it is 4 ft deep or deeper, trenches too.', '29 CFR 1926.651(c)(2) and (j)(2)', 'Pit and bed', 'Water line', 'Drains'),
  caution('daily inspection', 'Inspect each morning', 'PitLaddered=1', 'The competent person looks at walls, water and edges before each shift, after rain and after frost.', '29 CFR 1926.651(k)', 'Pit and bed', 'Tanks, ties and ports', 'Vacuum test', 'Water line', 'Ballast and lower backfill', 'Drains', 'Upper backfill'),
  caution('open flame', 'No flame here', ALWAYS, 'Where polyethylene is warmed to slip on an insert, do it outside only: no flame and no fuel gas in or over a tank, pit or trench.', '29 CFR 1926.352 and Subpart AA', 'Water line', 'First fill'),
  caution('silica', 'Wet cut, mask', ALWAYS, 'Cutting or knocking ports out of concrete makes silica dust: wet, with suction, and a respirator as the rule’s table says.', '29 CFR 1926.1153, Table 1', 'Tanks, ties and ports', 'Drains'),
  caution('solvent fumes', 'Fumes burn', ALWAYS, 'Primer and cement give off vapor that burns and stuns: in moving air only, never inside a tank without the entry permit.', 'The maker’s safety sheet; 29 CFR 1926 Subpart AA', 'Drains', 'Upper backfill'),
  caution('chlorine', 'Chlorine: gloves, air', ALWAYS, 'Bleach burns skin and eyes; mixed with acid or cleaners it gives off chlorine gas. Goggles and gloves, from outside the tank, nobody in it, no household mixtures. Rinse water goes where the local rules allow, never into a stream.', 'The label; state health rules', 'Handing over'),
  caution('siphon', 'House below tanks', 'HouseBelow_ft>0', [
    ['ByGravity=1', 'The house lies {HouseBelow_ft} below the water: an open tap or a broken pipe empties the tanks. A valve that closes at the house, and is closed whenever nobody is there.'],
    ['CrestUnderFull_ft>0', 'The house lies {HouseBelow_ft} below the water: the line can run by itself and draw the tanks empty. Its high point lies {CrestUnderFull_ft} under full water: until that much is gone a siphon breaker there lets no air in, and only a valve that closes at the house holds the water.'],
    ['', 'The house lies {HouseBelow_ft} below the water: the line can run by itself and draw the tanks empty. A siphon breaker at its high point, and a valve that closes at the house.'],
  ], 'Common practice; local plumbing code', 'Water line', 'First fill'),
  caution('drinking water', 'Not drinkable untreated', ALWAYS, [
    ['AND(People>0,TreatmentLoss_psi=0)', 'Roof water is not drinking water without treatment, and this job brings none to a house of {People|person|people}. Mark every outlet and line that carries it.'],
    ['', 'Roof water is not drinking water without treatment. Mark every outlet and line that carries it.'],
  ], 'IPC chapter 13; state health rules', 'Handing over'),
  caution('roof surface', 'Roof not for drinking', 'AND(People>0,SUMPRODUCT((CatchSurface="asphalt shingle")+(CatchSurface="flat gravel")+(CatchSurface="compacted soil"))>0)', 'A roof of asphalt shingle or gravel, or bare ground, gives off what filters and lamps do not take out: its water is for toilets, laundry and garden, unless the health authority says otherwise. Metal, tile or a coating made for drinking water is the way to more.', 'Texas Manual on Rainwater Harvesting, 3rd edition 2005, chapter 2 (from memory); state health rules', 'Handing over'),
  caution('ground water', 'Groundwater gets in', 'AND(GroundwaterAssumed=0,GroundwaterDepth_ft<WaterLevel_ft)', 'Groundwater at {GroundwaterDepth_ft} stands over the water in the tanks: it presses in at riser joints, boots and ports, with what is in the ground. Seal and test each of them from outside, and have the water tested before a house drinks from it.', 'IPC chapter 13; state health rules', 'Tanks, ties and ports', 'Handing over'),
  caution('ice', 'Water can freeze', FROST_REACHES_WATER, 'Frost goes {FrostDepth_in} down and the water stands {WaterLevel_ft} below the ground: ice closes overflow and vents and bursts what it fills. Insulate over the lids, or set the tanks deeper.', 'Common practice; the adopted code’s frost depth', 'Before digging', 'Upper backfill', 'Handing over'),
  caution('closed system', 'Heated water pushes', 'OR(Backflow="preventer",HouseStanding_psi>HouseMost_psi)', 'Behind a preventer or a reducing valve heated water has nowhere to go: a thermal expansion tank at the water heater, its relief valve never plugged.', 'IPC 607.3 (from memory); local plumbing code', 'First fill'),
  caution('sewer', 'Clear of sewers', ALWAYS, 'Keep the water line 5 ft of undisturbed earth away from a building sewer, or 12 in above its top, and tanks as far from septic tank and drain field as the health rules say.', 'IPC 603.2; state health rules', 'Before digging', 'Water line'),
  caution('relief', 'Relief valve stays', 'ByGravity=0', 'Behind a switch that sticks the pump reaches {ShutOffAtHouseFull_psi} at the pressure tank: the relief valve is set no higher than the tank’s plate, piped to a drain, never plugged.', 'IPC 606.5.10; the tank maker', 'First fill', 'Handing over'),
  caution('backflow', 'Keep supplies apart', ALWAYS, 'Never join the cistern line to a public supply without an air gap or an approved backflow preventer.', 'IPC 608 and 1301; UPC 603', 'Handing over'),
]
/** The same, short: at the foot of every printed page of a job. */
export const closingWords = 'Local codes, the inspector and licensed practice decide.'
export const closingCaution = 'Local codes, the inspector and licensed practice decide; these sheets are an estimator’s aid and no design.'
