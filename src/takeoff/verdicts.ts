/** Verdicts on a job: a word from a formula, the limit behind it, and its source. */
import { formula } from '../formula/formula.js'
import { cite, type Citation } from '../sources.js'
import { assumable, assumableFields, assumedWords } from './assumed.js'
import { BELOW_FROST_IN } from './frost.js'
import { results } from './results/index.js'
import { templateFormula, type Words } from './template.js'
import { WITHOUT_PUMP } from './withoutPump.js'

export const verdictWords = ['stop', 'check', 'pass'] as const
export type Verdict = (typeof verdictWords)[number]

export interface VerdictRule<N extends string = string> {
  name: N
  label: string
  /** Gives "pass", "check" or "stop", before what was assumed is looked at. */
  rule: string
  /** What was compared with what; braces take in a field or result, and [[ ]] what is said to the office alone. */
  says: Words
  /** The limit in words. */
  limit: string
  source: Citation
  /** True for a stop that can hurt someone: only a change of the job or a named licensed person clears it. */
  touchesLife: boolean
  /** What was assumed and is taken as it stands here, because a verdict of its own says so, its rule asks itself, or it cannot turn this one: all of it, or these fields. */
  asTaken: true | readonly (typeof assumableFields)[number][]
}
const verdict = <const N extends string>(name: N, label: string, rule: string, says: Words, limit: string, source: Citation, touchesLife = false, asTaken: VerdictRule['asTaken'] = []): VerdictRule<N> => ({
  name,
  label,
  rule,
  says,
  limit,
  source,
  touchesLife,
  asTaken,
})
const LIFE = true
const AS_TAKEN = true
/** What a rule looks at and its words say again. */
const tooDeepVacuum = 'ROUND(TestVacuum_inHg,2)>ROUND(VacuumAllowed_inHg,2)'
const weakTest = 'OR(ROUND(TestVacuum_inHg,2)<TestLeast_inHg,ROUND(TestHold_min,2)<TestLeast_min,ROUND(TestLoss,4)>TestLossMost)'
/** The inlet drain stands out of the ground somewhere. */
const drainIsOut = 'AND(InletRun_ft>0,DrainCover_in<0)'
const flatInFrost = 'AND(InletRun_ft>0,DrainCover_in<FrostDepth_in,ROUND(InletSlope_in_per_ft,4)<RunsEmpty_in_per_ft)'
const lowMotor = 'ROUND(MotorShare,3)<MotorLeastShare'
const withRecord = 'RecordYears>0'
/** Share of a conduit that two conductors may take. */
const FILL_OF_TWO = 0.31

const rules = [
  verdict(
    'SoilVerdict',
    'Soil and water of the pit',
    'IF(GroundwaterAssumed=1,"check",IF(AND(PitWater="wet",PitDrained="no"),IF(SoilClass="C","check","stop"),IF(OR(WaterNear=1,AND(PitSoil="A",TrafficRank>2)),"check","pass")))',
    [
      ['PitWater="not known"', 'The pit goes {PitDepth_ft} down and nobody has said how deep the groundwater lies: soil under water is class C.'],
      ['AND(PitWater="wet",SoilClass="rock",PitDrained="no")', 'The pit goes {PitDepth_ft:2} down, below the groundwater at {GroundwaterDepth_ft:2}: rock under water that is not stable is class C, and quantities slope it so. Draw the water down, and have a competent person find it stable[[ (Jobs, Pit drained)]], or take class C.'],
      ['AND(PitWater="wet",SoilClass<>"C",PitDrained="no")', 'The pit goes {PitDepth_ft:2} down, below the groundwater at {GroundwaterDepth_ft:2}: soil under water is class C, not {SoilClass}. Quantities slope it as C. Draw the water down and have a competent person class it again, or take class C.'],
      ['AND(PitWater="wet",PitDrained="no")', '{PitDepth_ft:2} deep, groundwater at {GroundwaterDepth_ft:2}: nobody works where water stands or rises. A bed set in water does not hold, and a floor can heave. Have the water drawn down (29 CFR 1926.651(h))[[, and say so (Jobs, Pit drained)]]. The walls are sloped for class C.'],
      ['AND(PitSoil="A",TrafficRank>2)', 'Class A, and {Traffic} pass: no soil is class A that heavy traffic shakes. Class B, unless the competent person finds that nothing shakes it while the pit is open.'],
      ['AND(PitWater="wet",PitDrained="yes")', 'Class {SoilClass}, classed again with the water drawn down; the walls stand as class {PitSoil} allows. Pumping while the pit is open, {Dewater_day}, is an item of its own; wells or wellpoints that draw it down beforehand are a line by hand.'],
      ['WaterNear=1', 'The pit goes {PitDepth_ft:2} down, and the groundwater at {GroundwaterDepth_ft:2} stands less than {WaterClear_ft} under its bottom: soil draws it up, and a wet week brings it in; earth that water seeps from is class C. A competent person looks at the bottom and the walls each day; have the water kept down where it comes nearer.'],
      ['', 'Class {SoilClass}, {PitWater}; the walls stand as class {PitSoil} allows.'],
    ],
    'class C under water or where it seeps; rock too, unless it is stable; no work in water; no class A beside heavy traffic',
    cite('osha1926', 'Appendix A, submerged or seeping soil; soil that heavy traffic shakes, from memory'),
    LIFE,
  ),
  verdict('PitVerdict', 'Pit depth', 'IF(ROUND(PitDepth_ft,2)>20,IF(PitEngineered=1,"stop","check"),"pass")', [
    ['AND(ROUND(PitDepth_ft,2)>20,PitEngineered=0)', 'The pit is {PitDepth_ft:2} deep: it needs no designed protection only where all of it is dug in stable rock, as the competent person finds it each day. Where earth or broken rock shows in a wall, an engineer designs it.'],
    ['ROUND(PitDepth_ft,2)>20', 'The pit is {PitDepth_ft:2} deep: an engineer designs its protection, and what he draws has its price. Less cover, or lower tanks.'],
    ['', 'The pit is {PitDepth_ft:2} deep.'],
  ], 'over 20 ft an engineer designs its protection, but where all of it is stable rock', cite('osha1926', '1926.652(a)(1)(i), (b), (c) and Appendix F'), LIFE, AS_TAKEN),
  verdict('DeepTrenchVerdict', 'Depth of the trenches', 'IF(ROUND(DeepestTrench_ft,2)>20,IF(TrenchBoxed=1,"stop","check"),"pass")', [
    ['AND(ROUND(DeepestTrench_ft,2)>20,TrenchBoxed=0)', 'A trench is {DeepestTrench_ft:2} deep at its deep end: it needs no designed protection only where all of it is dug in stable rock, as the competent person finds it each day. Where earth or broken rock shows in a wall, an engineer designs it.'],
    ['ROUND(DeepestTrench_ft,2)>20', 'A trench is {DeepestTrench_ft:2} deep at its deep end: over 20 ft an engineer designs its protection, and no box of the yard will do. Another outfall, less fall, or a pump.'],
    ['', 'The deepest trench is {DeepestTrench_ft:2} at its deep end.'],
  ], 'over 20 ft an engineer designs its protection, but where all of it is stable rock', cite('osha1926', '1926.652(a)(1)(i), (b), (c) and Appendix F'), LIFE, AS_TAKEN),
  verdict(
    'FootingVerdict',
    'Buildings beside the pit',
    'IF(ROUND(NearestBuilding_ft,2)<ROUND(PitEdge_ft,2),"stop",IF(OR(NearestBuilding_ft<MAX(FootingClear_ft,PitEdge_ft+FenceClear_ft),AND(FootingAssumed=0,NearestBuilding_ft<FootingAway_ft)),"check","pass"))',
    [
      ['ROUND(NearestBuilding_ft,2)<ROUND(PitEdge_ft,2)', 'The nearest footing is at the most {NearestBuilding_ft:2} away, and the pit opens {PitEdge_ft:2} beyond the tank walls: nothing is dug under a footing without support or the word of a registered engineer. Move the tanks, or shore the pit as the engineer draws it.'],
      ['AND(NearestBuilding_ft>=FootingClear_ft,NearestBuilding_ft<PitEdge_ft+FenceClear_ft)', 'The nearest footing is at the most {NearestBuilding_ft} away, on the lip of a pit that opens {PitEdge_ft} beyond the tank walls: {FenceClear_ft} beyond its edge stay clear. Ask the engineer.'],
      ['NearestBuilding_ft<FootingClear_ft', 'The nearest footing is at the most {NearestBuilding_ft} away; the pit opens {PitEdge_ft} beyond the tank walls, and a footing within {FootingClear_ft} loads them. Ask the engineer.'],
      ['AND(FootingAssumed=0,NearestBuilding_ft<FootingAway_ft)', 'A run of {NearestBuilding_ft} leads to a building, and {FootingAway_ft} were measured to the nearest footing: which of the two holds is measured again before digging. The pit opens {PitEdge_ft} beyond the tank walls.'],
      ['FootingAssumed=1', 'The pit opens {PitEdge_ft} beyond the tank walls; by the runs a building stands {NearestBuilding_ft} away at the most, and may stand nearer.'],
      ['', 'The nearest footing is {NearestBuilding_ft} away; the pit opens {PitEdge_ft} beyond the tank walls.'],
    ],
    'no footing within the pit’s slope, nor near enough to load its walls',
    cite('osha1926', '1926.651(i): no excavation below the base of a footing unsupported'),
    LIFE,
  ),
  verdict(
    'UpliftVerdict',
    'Uplift of an empty tank',
    'IF(GroundwaterAssumed=1,"check",IF(UpliftSafety="no uplift",IF(ROUND(UpliftAtGrade,2)<1.1,"check","pass"),IF(OR(ROUND(UpliftSafety,2)<1.1,AND(MAX(WeightRatio,SecondRatio)>1.15,ROUND(UpliftFigured,2)<1.1)),"stop",IF(OR(ROUND(UpliftSafety,2)<1.3,ROUND(UpliftAtGrade,2)<1.1,AND(MAX(WeightRatio,SecondRatio)>1.15,ROUND(UpliftFigured,2)<1.3)),"check","pass"))))',
    [
      ['GroundwaterAssumed=1', 'Depth of the groundwater is not known: {FloatDepth_ft} of water round an empty, uncovered tank lifts it.'],
      ['AND(UpliftSafety="no uplift",ROUND(UpliftAtGrade,2)<1)', 'A storm that fills the ground round an empty tank lifts it: weight is {UpliftAtGrade} times that uplift, though groundwater at {GroundwaterDepth_ft} stays below. Drain the pit’s foot, hold the tanks down, or never let them stand empty.'],
      ['AND(UpliftSafety="no uplift",ROUND(UpliftAtGrade,2)<1.1)', 'In storm-filled ground it weighs {UpliftAtGrade} times its uplift. 1.1 is the least in use: drain the pit’s foot, hold the tanks down, or never let them stand empty. Groundwater at {GroundwaterDepth_ft} stays below.'],
      ['UpliftSafety="no uplift"', 'The groundwater at {GroundwaterDepth_ft} stays below the tanks’ base; should a storm fill the ground round them, weight is {UpliftAtGrade} times the uplift.'],
      ['MAX(WeightRatio,SecondRatio)>1.15', 'Backfilled and empty, a tank and its cover weigh {UpliftSafety} times the uplift of {WaterAboveBase_ft} of groundwater over its base; by the weight of its walls, floor and lid, well under the typed one, {UpliftFigured} times. Have the maker confirm the weight.'],
      ['AND(ROUND(UpliftSafety,2)>=1.3,ROUND(UpliftAtGrade,2)<1)', 'Backfilled and empty, a tank and its cover weigh {UpliftSafety} times the uplift of {WaterAboveBase_ft} of groundwater over its base; a storm that fills the ground round it lifts it, weight being {UpliftAtGrade} times that uplift. Drain the pit’s foot to daylight, hold the tanks down, or never let them stand empty.'],
      ['AND(ROUND(UpliftSafety,2)>=1.3,ROUND(UpliftAtGrade,2)<1.1)', 'In storm-filled ground it weighs {UpliftAtGrade} times its uplift. 1.1 is the least in use: drain the pit’s foot to daylight, hold the tanks down, or never let them stand empty. Over {WaterAboveBase_ft} of groundwater alone it is {UpliftSafety} times.'],
      ['', 'Backfilled and empty, a tank and its cover, the earth counted as if under water, weigh {UpliftSafety} times the uplift of {WaterAboveBase_ft} of groundwater over its base, and {UpliftAtGrade} times that of a storm that fills the ground round it.'],
    ],
    '1.3 wanted; under 1.1 the tank may float, in ground that a storm has filled too; both weights where the typed one is over 1.15 of the figured',
    cite('femaP259', 'factor 1.3 for tanks; 1.1, the lowest in use, and 1.15 are common practice'),
    LIFE,
  ),
  verdict(
    'BallastVerdict',
    'Ballast while the pit is open',
    'IF(Ballast_in>BallastMost_in,"stop",IF(GroundwaterAssumed=1,"check","pass"))',
    [
      ['Ballast_in=0', 'No ballast is needed.'],
      ['Ballast_in>BallastMost_in', '{Ballast_in} of water would be needed in each tank, which holds {BallastMost_in}: keep the water down until the tanks are covered, or choose a heavier tank.'],
      ['', 'Leave {Ballast_in} of water in each tank until the backfill is up.'],
    ],
    'factor 1.1 on an uncovered tank, water no higher than it holds',
    cite('practice', 'factor 1.1 while the pit is open, the lowest in use; FEMA P-259 takes 1.3 for good'),
    LIFE,
  ),
  verdict(
    'WeightVerdict',
    'Weight of a tank',
    'IF(OR(MAX(WeightRatio,SecondRatio)>1.5,MIN(WeightRatio,SecondRatio)<1/1.5),"stop",IF(OR(MAX(WeightRatio,SecondRatio)>1.25,MIN(WeightRatio,SecondRatio)<0.9),"check","pass"))',
    [
      ['SecondTanks>0', 'The table says {TankWeight_lb} and {SecondWeight_lb}; walls, floor and lid make about {WeightFigured_lb} and {SecondFigured_lb}.'],
      ['', 'The table says {TankWeight_lb}; walls, floor and lid make about {WeightFigured_lb}.'],
    ],
    'within -10 and +25 %; beyond a factor of 1.5 it is a slip',
    cite('femaP259', 'concrete 150 lb/ft³; the span is common practice'),
    LIFE,
  ),
  verdict(
    'LiftVerdict',
    'Crane',
    'IF(CraneModel="","check",IF(CraneCapacity_lb*CriticalLift>=PickLoad_lb,"pass",IF(CraneCapacity_lb>=PickLoad_lb,"check","stop")))',
    [
      ['CraneModel=""', 'No crane of the table is chosen: order one for {PickLoad_lb} on the hook at a radius of {PickRadius_ft}.'],
      ['CraneCapacity_lb*CriticalLift>=PickLoad_lb', '{CraneModel} lifts {CraneCapacity_lb} at {PickRadius_ft}; tank and rigging weigh {PickLoad_lb}.'],
      ['CraneCapacity_lb>=PickLoad_lb', '{CraneModel} lifts {CraneCapacity_lb} at {PickRadius_ft}; tank and rigging weigh {PickLoad_lb}, over {CriticalLift%} of it: the first hoist verifies the weight before the lift goes on, and many owners and crane firms want a written lift plan.'],
      ['', '{CraneModel} lifts {CraneCapacity_lb} at {PickRadius_ft}, and tank and rigging weigh {PickLoad_lb}: a larger crane, more set-ups, or a nearer stand.'],
    ],
    'load chart at the radius of the farthest tank; looked into over three quarters of it',
    cite('osha1926Cranes', '1926.1417(o): within the load chart; over 75 % of it the weight is verified'),
    LIFE,
  ),
  verdict('VacuumVerdict', 'Test vacuum', `IF(${tooDeepVacuum},"stop",IF(OR(VacuumUnasked=1,${weakTest}),"check","pass"))`, [
    [`AND(VacuumUnasked=1,${tooDeepVacuum})`, 'The test draws {TestVacuum_inHg}, {VacuumAllowed_inHg} is taken as allowed, and nobody has asked the maker[[ (Tanks, Vacuum limit)]]: a lid breaks inward. Air would press {LidForce_lbf} on it.'],
    ['VacuumUnasked=1', 'The test draws {TestVacuum_inHg}, and nobody has asked what the maker allows: {VacuumAllowed_inHg} is taken[[ (Tanks, Vacuum limit)]]. Air then presses {LidForce_lbf} on a lid.'],
    [tooDeepVacuum, 'The test draws {TestVacuum_inHg}, and the maker allows {VacuumAllowed_inHg}: a lid breaks inward. Air would press {LidForce_lbf} on it. Draw less, or a tank made for it.'],
    [weakTest, 'The test draws {TestVacuum_inHg} for {TestHold_min:2} and lets {TestLoss%} of it go: weaker than every published test, which draw {TestLeast_inHg} and more, hold {TestLeast_min} and more, and let go {TestLossMost%} at the most. A leak that matters can pass it.'],
    ['', 'The test draws {TestVacuum_inHg}; the maker allows {VacuumAllowed_inHg}. Air then presses {LidForce_lbf} on a lid.'],
  ], 'the maker’s limit; no weaker than the published tests', cite('office', 'sheet Tanks; 4 inHg where it says nothing; the tests on Published tables'), LIFE),
  verdict(
    'TrafficVerdict',
    'Traffic over the tanks',
    'IF(TrafficRank<=TrafficAllowed,"pass","stop")',
    [
      ['TrafficRank=0', 'Nothing drives over the tanks; fence them off.'],
      ['TrafficRank>TrafficAllowed', 'Over the tanks {Traffic} would pass; the maker allows: {TrafficOver}. A wheel presses {WheelPressure_psf} through {Cover_ft} of cover.'],
      ['AND(TrafficRank>1,TrafficRank<=TrafficAllowed)', 'Over the tanks pass {Traffic}, a wheel pressing {WheelPressure_psf} through {Cover_ft} of cover; the maker allows: {TrafficOver}; rims stand flush, with frames and lids rated for it, which the lids of the price list may not be: ask the maker, and price what he names.'],
      ['', 'Over the tanks pass {Traffic}, a wheel pressing {WheelPressure_psf} through {Cover_ft} of cover; the maker allows: {TrafficOver}.'],
    ],
    'what the maker allows',
    cite('office', 'sheet Tanks; none where it says nothing'),
    LIFE,
  ),
  verdict('CoverVerdict', 'Cover over the lids', 'IF(ROUND(Cover_ft,2)<=ROUND(CoverAllowed_ft,2),IF(CoverUnasked=1,"check","pass"),"stop")', [
    ['ROUND(Cover_ft,2)>ROUND(CoverAllowed_ft,2)', '{Cover_ft:2} of earth, and {CoverAllowed_ft:2} is the most over these lids: less cover, or a tank made for it.'],
    ['CoverUnasked=1', '{Cover_ft:2} of earth, and {CoverAllowed_ft:2} is taken as allowed: nobody has asked the maker[[ (Tanks, Most cover)]].'],
    ['', '{Cover_ft:2} of earth; the maker allows {CoverAllowed_ft:2}.'],
  ], 'the maker’s limit', cite('office', 'sheet Tanks'), LIFE),
  verdict('WallVerdict', 'Earth and water on the walls', 'IF(GroundwaterAssumed=1,"check",IF(ROUND(WaterAboveBase_ft,2)<=ROUND(WaterOutsideAllowed_ft,2),"pass","check"))', [
    ['AND(GroundwaterAssumed=0,WaterAboveBase_ft>0,ROUND(WaterAboveBase_ft,2)<=ROUND(WaterOutsideAllowed_ft,2))', 'With {WaterAboveBase_ft:2} of groundwater over the base the walls of an empty tank are pressed with {WallPressure_psf} at their foot; the maker designed for {WaterOutsideAllowed_ft:2} of water.'],
    ['AND(GroundwaterAssumed=0,WaterAboveBase_ft>0)', '{WaterAboveBase_ft:2} of groundwater stand over the base, and the maker’s word is for {WaterOutsideAllowed_ft:2}[[ (Tanks, Water outside): ask what the tank is designed for]]. The walls of an empty tank are pressed with {WallPressure_psf} at their foot, dry with {WallDry_psf}; a crane or truck beside the pit comes on top.'],
    ['GroundwaterAssumed=1', 'Dry, earth presses the walls with {WallDry_psf} at their foot; groundwater, whose depth is not known, adds to it.'],
    ['TrafficRank>1', 'Earth presses the walls with {WallDry_psf} at their foot, wheels beside them with {WallWheels_psf} more, and no groundwater; cranes keep away from an empty tank.'],
    ['', 'Earth presses the walls with {WallDry_psf} at their foot, and no groundwater; heavy wheels and cranes keep away from an empty tank.'],
  ], 'no more groundwater outside than the maker designed the empty tank for', cite('memory', 'ASTM C890, loads on underground precast structures'), LIFE),
  verdict('BearingVerdict', 'Ground under the bed', 'IF(Bearing_psf<=BearingAllowed_psf,IF(AND(BearingAssumed=1,Bearing_psf>DugOut_psf),"check","pass"),IF(AND(Bearing_psf>BearingFails_psf,Bearing_psf>DugOut_psf),"stop","check"))', [
    ['AND(Bearing_psf>BearingFails_psf,Bearing_psf>DugOut_psf)', 'Full and covered, a tank presses {Bearing_psf}, over {BearingFails_psf}, where {BearingAllowed_psf} is allowed and the earth dug out pressed {DugOut_psf}: the ground may give way, and ties and ports tear. Better ground, a bed or slab as a soil engineer draws it, or less on it.'],
    ['AND(BearingAssumed=1,Bearing_psf<=BearingAllowed_psf,Bearing_psf>DugOut_psf)', 'Full and covered, a tank presses {Bearing_psf}, more than the {DugOut_psf} of the earth dug out; {BearingAllowed_psf} is what codes take for clay, and nobody has said what this ground bears: soft ground bears less.'],
    ['AxleLoad_psf>0', 'Full and covered, under an axle of what may pass over it, a tank presses {Bearing_psf}; the earth dug out pressed {DugOut_psf}; {BearingAllowed_psf} is allowed.'],
    ['', 'Full and covered, a tank presses {Bearing_psf}; the earth dug out pressed {DugOut_psf}; {BearingAllowed_psf} is allowed.'],
  ], 'bearing allowed, of the soil report or the code; none asked where the earth dug out pressed as much; never half as much again', cite('office', 'Jobs, Bearing allowed'), false, AS_TAKEN),
  verdict(
    'RatingVerdict',
    'Pressure in the water line',
    'IF(LineRating_psi<160,"stop",IF(LinePressureMost_psi>LineRating_psi*LineDerating,"stop",IF(MAX(LineSurge_psi,MostSurge_psi)>2*LineRating_psi*LineDerating,"stop",IF(OR(MAX(LineSurge_psi,MostSurge_psi)>1.5*LineRating_psi*LineDerating,LinePressureMost_psi>LineHoldsLeast_psi),"check","pass"))))',
    [
      ['AND(ByGravity=1,LineSurge_psi>2*LineRating_psi*LineDerating)', 'Stopped at once, the water in the line strikes with {LineSurge_psi}, over twice the {LineHolds_psi} that the pipe takes: a larger line, or less flow.'],
      ['MAX(LineSurge_psi,MostSurge_psi)>2*LineRating_psi*LineDerating', 'Stopped at once, the water in the line strikes with {LineSurge_psi}, just after the pump cut in with {MostSurge_psi}, over twice the {LineHolds_psi} that the pipe takes: a larger line, or less flow.'],
      ['AND(LinePressureMost_psi<=LineHolds_psi,LinePressureMost_psi>LineHoldsLeast_psi)', 'Standing, the line sees up to {LinePressureMost_psi}; at {WaterTemperature_F} it takes {LineHolds_psi} by the factors read, and {LineHoldsLeast_psi} by those in use for coils of the US: ask the maker of the coil.'],
      ['ByGravity=1', 'Standing, the line sees up to {LinePressureMost_psi}; stopped at once, {LineSurge_psi}; it is rated {LineRating_psi}, of which {LineDerating%} count at {WaterTemperature_F}.'],
      ['', 'Standing, the line sees up to {LinePressureMost_psi}; stopped at once, {LineSurge_psi}, just after the pump cut in {MostSurge_psi}; it is rated {LineRating_psi}, of which {LineDerating%} count at {WaterTemperature_F}.'],
    ],
    '160 psi pipe at least; standing pressure within the rating, warm by both tables of factors (the lower from memory); with surge within 1.5 times at every stop of the pump, within 2 times ever',
    cite('awwaPe'),
    LIFE,
  ),
  verdict(
    'SwitchVerdict',
    'Pressure switch',
    'IF(OR(CutOut_psi>=ShutOffAtHouse_psi,SwitchWanted_psi>=CutOut_psi,HousePressure_psi>HouseMost_psi),"stop",IF(OR(CutOut_psi-CutIn_psi<SwitchSpan_psi,CutOut_psi-CutIn_psi>SwitchSpanMost_psi,CutOut_psi>ShutOffAtHouse_psi-5,SwitchWanted_psi>(CutIn_psi+CutOut_psi)/2,GravityAtSwitch_psi>=CutIn_psi,AND(HouseStanding_psi>HouseMost_psi,HousePressure_psi>HouseMost_psi-ReducerFall_psi)),"check","pass"))',
    [
      ['HousePressure_psi>HouseMost_psi', '{HousePressure_psi} are wanted at the house; codes let {HouseMost_psi} in at the most, and a reducing valve holds it there. Want less.'],
      ['SwitchWanted_psi>=CutOut_psi', '{HousePressure_psi} are wanted at the house and {StationLoss_psi} are lost in treatment and backflow behind the switch, which stops the pump at {CutOut_psi}: that pressure never comes. Raise the switch or want less.'],
      ['AND(GravityAtSwitch_psi>=CutIn_psi,CutOut_psi<ShutOffAtHouse_psi)', 'The tanks lie so high that gravity alone keeps {GravityAtSwitch_psi} at the switch while {HouseFlow_gpm} flow at lowest water: it never falls to the {CutIn_psi} that start the pump, so the pump adds nothing. Raise the switch over what gravity gives, or leave out the pump.'],
      ['AND(SwitchWanted_psi>(CutIn_psi+CutOut_psi)/2,CutOut_psi<ShutOffAtHouse_psi)', '{HousePressure_psi} are wanted at the house, {SwitchWanted_psi} at the switch, treatment and backflow counted; between {CutIn_psi} and {CutOut_psi} they come less than half of the time. The pump reaches {ShutOffAtHouse_psi} there at lowest water.'],
      ['AND(HouseStanding_psi>HouseMost_psi,HousePressure_psi>HouseMost_psi-ReducerFall_psi,CutOut_psi<ShutOffAtHouse_psi)', '{HousePressure_psi} are wanted at the house, where {HouseStanding_psi} can stand: a reducing valve holds it to {HouseMost_psi}, and while water flows it falls off by about {ReducerFall_psi}. Want less, or set the switch so that no valve is needed.'],
      ['AND(CutOut_psi-CutIn_psi<SwitchSpan_psi,CutOut_psi<ShutOffAtHouse_psi)', 'Between {CutIn_psi} and {CutOut_psi} lie less than the {SwitchSpan_psi} that switches can be set to: the pump starts often, or the switch cannot be set so. The pump reaches {ShutOffAtHouse_psi} at the house at lowest water.'],
      ['AND(CutOut_psi-CutIn_psi>SwitchSpanMost_psi,CutOut_psi<ShutOffAtHouse_psi)', 'Between {CutIn_psi} and {CutOut_psi} lie more than the {SwitchSpanMost_psi} that usual switches can be set to, and the house falls to {CutIn_psi} before each start. The pump reaches {ShutOffAtHouse_psi} at the house at lowest water.'],
      ['CutOut_psi>=ShutOffAtHouse_psi', 'The pump reaches {ShutOffAtHouse_psi} at the house at lowest water and the switch waits for {CutOut_psi}: the pump would never stop.'],
      ['CutOut_psi>ShutOffAtHouse_psi-5', 'The switch stops the pump at {CutOut_psi}, and at lowest water it reaches no more than {ShutOffAtHouse_psi:2} at the house: less than 5 psi over it, and a worn pump or a low voltage never gets there.'],
      ['', 'The switch stops the pump at {CutOut_psi}; it reaches {ShutOffAtHouse_psi} at the house at lowest water, {ShutOffAtHouseFull_psi} with full tanks.'],
    ],
    'cut-out at least 5 psi below what the pump reaches, and 10 to 30 over the cut-in; cut-in over what gravity gives; wanted pressure within the switch, and within the 80 psi of IPC 604.8 and UPC 608.2 (from memory)',
    cite('derivation', 'shut-off head less lift'),
  ),
  verdict('AmpacityVerdict', 'Cable ampacity', 'IF(CableAmpacity_A>=1.25*MotorCurrent_A,"pass","stop")', '{Cable} AWG carries {CableAmpacity_A} where it is no warmer than 86 °F; 125 % of {MotorCurrent_A} is needed. Sun or a hot attic on the way takes a larger cable: the electrician’s word.', '125 % of the full-load current, at 86 °F around the cable', cite('nec', '430.22'), LIFE),
  verdict(
    'SupplyVerdict',
    'Pump voltage',
    'IF((Voltage_V>=0.95*PumpVoltage_V)*(Voltage_V<=1.05*PumpVoltage_V)*(PumpPhases<=SupplyPhases)=1,"pass","stop")',
    [
      ['AND(PumpNote<>"",OR(PumpPhases>SupplyPhases,Voltage_V<0.95*PumpVoltage_V,Voltage_V>1.05*PumpVoltage_V))', '{PumpNote}'],
      ['PumpPhases>SupplyPhases', 'The pump takes three-phase power, and the supply is single-phase: another pump[[, or say in the row that the site has three phases (Jobs, Phases of the supply)]].'],
      ['OR(Voltage_V<0.95*PumpVoltage_V,Voltage_V>1.05*PumpVoltage_V)', 'The circuit is {Voltage_V} and the pump {PumpVoltage_V}: more than 5 % apart.'],
      ['', 'The circuit is {Voltage_V}, the pump {PumpVoltage_V}.'],
    ],
    'within 5 % of the nameplate, no more phases than the supply has',
    cite('practice', 'circuit within 5 % of the nameplate'),
    LIFE,
  ),
  verdict(
    'ReliefVerdict',
    'Pressure that the tank at the house stands',
    'IF(HouseStanding_psi>PressureTankRating_psi,"stop",IF(OR(HouseStanding_psi+ReliefOver_psi>PressureTankRating_psi,PressureTankListed=0,RatingUnasked=1,ReliefLeftOut=1),"check","pass"))',
    [
      ['AND(HouseStanding_psi>PressureTankRating_psi,HouseStanding_psi>CutOut_psi)', 'The water lies so high over the house that gravity alone puts {HouseStanding_psi} on the pressure tank, which is made for {PressureTankRating_psi}: the relief valve would run until the cistern is empty. A tank made for it, or a reducing valve ahead of tank and switch, as a licensed plumber says.'],
      ['CutOut_psi>PressureTankRating_psi', 'The switch stops the pump at {CutOut_psi}; the pressure tank is made for {PressureTankRating_psi}.'],
      ['ReliefLeftOut=1', 'No relief valve is in this job, and none may be missing: should the switch stick, the pump reaches {ShutOffAtHouseFull_psi} at a tank made for {PressureTankRating_psi}. Who sets the tank sets the valve, before any water.'],
      ['AND(PressureTankListed=1,RatingUnasked=1)', 'The pressure tank of {PressureTank_gal} is taken for {PressureTankRating_psi}, as such tanks are usually made: look at its plate[[ (PressureTanks, Rating)]].'],
      ['PressureTankListed=0', 'The pressure tank of {PressureTank_gal} [[is not on the sheet PressureTanks: it ]]is taken for {PressureTankRating_psi}, as such tanks are usually made.[[ Look at the plate, and give it a row with its price.]]'],
      ['AND(HouseStanding_psi>CutOut_psi,HouseStanding_psi+ReliefOver_psi>PressureTankRating_psi)', 'Gravity alone puts {HouseStanding_psi} on the pressure tank, day and night, and the relief valve opens at {PressureTankRating_psi} at the latest: less than {ReliefOver_psi} between them, and it can weep until the cistern is empty. A tank made for more, or a reducing valve ahead of tank and switch, as a licensed plumber says.'],
      ['CutOut_psi+ReliefOver_psi>PressureTankRating_psi', 'The switch stops the pump at {CutOut_psi} and the relief valve opens at {PressureTankRating_psi} at the latest: less than {ReliefOver_psi} between them, and it drips or opens at every stop. Lower the switch, or a tank made for more.'],
      ['ShutOffAtHouseFull_psi>PressureTankRating_psi', 'Should the switch stick, the pump reaches {ShutOffAtHouseFull_psi} at the tank, which is made for {PressureTankRating_psi}: the relief valve opens there at the latest and passes the pump’s whole flow.'],
      ['', 'Should the switch stick, the pump reaches {ShutOffAtHouseFull_psi} at the tank, which is made for {PressureTankRating_psi}.'],
    ],
    'cut-out and the pressure of gravity 10 psi below the tank’s rating, as its plate says; a relief valve at each tank',
    cite('memory', 'IPC 606.5.10: a relief valve at each hydropneumatic tank, set no higher than its rating'),
    LIFE,
  ),
  verdict('TrenchVerdict', 'Cover over the cable', 'IF(TrenchDepth_in-CableThick_in>=CableCover_in,"pass","stop")', 'Trench {TrenchDepth_in}, less {CableThick_in} of cable; the cable needs {CableCover_in} over its top.', 'cover by the wiring method', cite('nec', 'Table 300.5'), LIFE),
  verdict('ConduitCoverVerdict', 'Cover over the conduit on the lid', 'IF(ConduitHas_in>=ConduitCover_in,"pass","stop")', [
    ['AND(TrafficRank=2,ConduitHas_in>=ConduitCover_in)', 'On the lid the conduit has {ConduitHas_in:2} over it; {ConduitCover_in} are needed under the drive of a one- or two-family house. Under any other road or lot it is {ConduitRoad_in}.'],
    ['ConduitHas_in>=ConduitCover_in', 'On the lid the conduit has {ConduitHas_in:2} over it; {ConduitCover_in} are needed.'],
    ['', 'On the lid the conduit has {ConduitHas_in:2} over it; {ConduitCover_in} are needed: more cover, another way out of the riser, or metal conduit by the electrician.'],
  ], 'cover by the wiring method', cite('nec', 'Table 300.5; the driveway column from memory', 'from memory'), LIFE),
  verdict(
    'StorageVerdict',
    'Tank volume',
    'IF(OR(RecordYears=0,YearDemand_gal=0,ROUND(DeadDepth_in,0)<ROUND(Intake_in+Submergence_in,0)),"check",IF(RecordAgrees=0,"check",IF(Reliability<WantedReliability,"check",IF(RecordDryMonths>0,"check","pass"))))',
    [
      ['AND(RecordYears>0,RecordAgrees=0)', 'Figures behind the daily balance have changed since it was made[[: make the job again]].'],
      ['DeadDepth_in<Intake_in', 'A dead depth of {DeadDepth_in} counts water that is never drawn: the intake stands {Intake_in} over the floor.'],
      ['ROUND(DeadDepth_in,0)<ROUND(Intake_in+Submergence_in,0)', 'A dead depth of {DeadDepth_in} counts water that the pump draws with air: the intake stands {Intake_in} over the floor and wants {Submergence_in:1} of water over it at the flow that comes.'],
      ['YearDemand_gal=0', 'No use is given[[: people, outdoor use or the sheet Uses]].'],
      [`AND(${withRecord},RoofShare<WantedReliability,Reliability<WantedReliability)`, '{TankCount|tank holds|tanks hold} {UsableStorage_gal} above the dead depth, and the roof catches {RoofShare%} of the demand in a year of mean rain; {Reliability%} is met on {RecordYears|year|years} of days, {WantedReliability%} wanted. More roof, or less use. Worst year {WorstYear} with {WorstYearShare%}, longest run short {LongestShort_days|day|days}.'],
      ['AND(RecordYears=0,RoofShare<WantedReliability)', '{SizingShare%} of the demand is met, {WantedReliability%} wanted. {TankCount|tank holds|tanks hold} {UsableStorage_gal} above the dead depth, and the roof catches {RoofShare%} of the demand in a year of mean rain, whatever the tanks hold: more roof, or less use.'],
      [`AND(${withRecord},RecordDryMonths>0)`, '{TankCount|tank holds|tanks hold} {UsableStorage_gal} above the dead depth; {Reliability%} of the demand is met on {RecordYears|year|years} of days, but in the year of median rain {RecordDryMonths|month ends|months end} dry; worst year {WorstYear} with {WorstYearShare%}, longest run short {LongestShort_days|day|days}; {WantedReliability%} is wanted.'],
      [withRecord, '{TankCount|tank holds|tanks hold} {UsableStorage_gal} above the dead depth; {Reliability%} of the demand is met on {RecordYears|year|years} of days, worst year {WorstYear} with {WorstYearShare%}, longest run short {LongestShort_days|day|days}; {WantedReliability%} is wanted.'],
      ['ROUND(ReliabilityLow,3)=ROUND(ReliabilityHigh,3)', '{TankCount|tank holds|tanks hold} {UsableStorage_gal} above the dead depth: about {SizingShare%} of the demand is met; {WantedReliability%} is wanted. Means hide dry spells[[: add daily rain]].'],
      ['', '{TankCount|tank holds|tanks hold} {UsableStorage_gal} above the dead depth: about {SizingShare%} of the demand is met ({ReliabilityLow%} to {ReliabilityHigh%}); {WantedReliability%} is wanted. Means hide dry spells[[: add daily rain]].'],
    ],
    'the wanted share, on a daily record, no month dry in the median year; the intake under water',
    cite('reliability', 'the wanted share is the owner’s choice'),
  ),
  verdict('DrainVerdict', 'Inlet drains', `IF(${drainIsOut},"stop",IF(AND(InletSlope_in_per_ft<=SteepDrain_in_per_ft,RoofFlow_gpm<=InletCount*DrainCapacity_gpm,OR(InletRun_ft=0,AND(DrainCover_in>=DrainWants_in,OR(TrafficRank<2,DrainCover_in>=WheelCover_in)))),"pass","check"))`, [
    [drainIsOut, 'With this fall, that of the filter in it, the inlet drain comes out of the ground: set the tanks deeper, lay it flatter, or bring the roof water nearer.[[ (Jobs, Downspout rise: {DownspoutRise_ft})]]'],
    ['AND(InletRun_ft>0,TrafficRank>1,DrainCover_in<WheelCover_in)', 'The inlet drain has {DrainCover_in} over it at the least, and {Traffic} pass: where they cross it, {WheelCover_in}, or a slab as the engineer says. {RoofFlow_gpm} off the roof; {InletCount|drain|drains} of {DrainSize_in}, {DrainCapacity_gpm} a drain.'],
    ['InletSlope_in_per_ft>SteepDrain_in_per_ft', 'The ground falls so to the tanks that the inlet drain is laid at {InletSlope_in_per_ft}: from {SteepDrain_in_per_ft} on it is anchored or laid in steps, and its water is braked before the tank.'],
    ['AND(InletRun_ft>0,DrainCover_in<DrainWants_in)', 'The inlet drain has {DrainCover_in} over it at the least, and {DrainWants_in} are wanted: its bedding alone takes {DrainOver_in}. Set the tanks deeper, lay it flatter, or bring the roof water nearer. {RoofFlow_gpm} off the roof; {InletCount|drain|drains} of {DrainSize_in}, {DrainCapacity_gpm} a drain.'],
    ['AND(FilterShare<1,FilterFall_in=0)', 'The inlet filter is taken to have no fall and to pass the {RoofFlow_gpm} off the roof[[: ask its maker (Jobs, Filter fall)]]. {InletCount|drain|drains} of {DrainSize_in}, {DrainCapacity_gpm} a drain, by the {DrainTable} table.'],
    ['', '{RoofFlow_gpm} off the roof; {InletCount|drain|drains} of {DrainSize_in}, {DrainCapacity_gpm} a drain, by the {DrainTable} table.'],
  ], 'flow of the design storm, pipe just full; earth over it, more under wheels; no steeper than 2.4 in/ft', cite('epaManual', 'Manning, pipe just full')),
  verdict('PortVerdict', 'Upper ports', 'IF(OR(PortsShort>0,OverflowCount<1),"stop",IF(OR(PortsUnasked=1,OverflowCount<InletPorts,PortBore_in>12*AirSpace_ft),"check","pass"))', [
    ['PortsShort>0', '{InletPorts|inlet port|inlet ports} and {OverflowCount|overflow|overflows}, {PortsShort} more than the tanks have; the far one has {FarTankPorts}. {LayoutNote}'],
    ['PortBore_in>12*AirSpace_ft', 'An upper port of {TankPort_in} at the water level reaches into the lid, {AirSpace_ft} over it[[: look at Water depth and Port size of the sheet Tanks]].'],
    ['PortsUnasked=1', '{InletPorts|inlet port|inlet ports} and {OverflowCount|overflow|overflows}; the far tank is taken to have {FarTankPorts|upper port|upper ports}, and nobody has asked the maker[[ (Tanks, Upper ports)]].'],
    ['OverflowCount<InletPorts', '{InletPorts|inlet port|inlet ports} and {OverflowCount|overflow|overflows}: what comes in by all of them has to get out. As many overflows as inlets, or a larger drain in place of several.'],
    ['', '{InletPorts|inlet port|inlet ports} and {OverflowCount|overflow|overflows}; the far tank has {FarTankPorts|upper port|upper ports}.'],
  ], 'ports that the tanks have, below the lid; as many out as in', cite('memory', 'overflow at least the area of all inlets (IPC chapter 13)')),
  verdict(
    'TieVerdict',
    'Storm water in the tanks',
    'IF(StormRise_ft>AirSpace_ft,"stop",IF(AND(OverflowCount>1,BlockedRise_ft>AirSpace_ft),"check","pass"))',
    [
      ['StormRise_ft>AirSpace_ft', 'In the design storm water stands {StormRise_ft} over the overflow; there is {AirSpace_ft} of room under the lid. {LayoutNote}'],
      ['OverflowCount=1', 'There is one overflow only: blocked, the water comes out of the lids. In the design storm water stands {StormRise_ft} over it, with {AirSpace_ft} of room under the lid.'],
      ['BlockedRise_ft>AirSpace_ft', 'In the design storm water stands {StormRise_ft} over the overflows, with one blocked {BlockedRise_ft}, and {AirSpace_ft} is the room under the lid: keep them clean.'],
      ['', 'In the design storm water stands {StormRise_ft} over the overflows, with one blocked {BlockedRise_ft}; {AirSpace_ft} of room under the lid.'],
    ],
    'under the lid, also with one of several overflows blocked',
    cite('channels', 'head at the mouths and through the tie'),
  ),
  verdict(
    'DaylightVerdict',
    'Overflow to daylight',
    'IF(OutfallAssumed=1,"check",IF(OutfallDepth_ft>0,"stop",IF(OverflowSlope_in_per_ft>SteepDrain_in_per_ft,"check","pass")))',
    [
      ['OutfallAssumed=1', 'The overflow leaves the tanks {OverflowInvert_ft} down: over {OverflowRun_ft} the ground must fall {OutfallNeeded_ft} for it to come out.'],
      ['AND(OutfallDepth_ft<=0,OverflowSlope_in_per_ft>SteepDrain_in_per_ft)', 'The ground falls {OutfallDrop_ft} over {OverflowRun_ft}: the overflow follows it at {OverflowSlope_in_per_ft}, and from {SteepDrain_in_per_ft} on it is anchored or laid in steps, is longer than its run, and its outfall is armored.'],
      ['OutfallDepth_ft<=0', 'The ground falls {OutfallDrop_ft} to the outfall; {OutfallNeeded_ft} are needed.'],
      ['', 'At the outfall the overflow is still {OutfallMissing_ft} below the ground: that much fall is missing.'],
    ],
    'the drain comes out at or above the ground',
    cite('derivation', 'overflow invert, fall of the drain, fall of the ground'),
  ),
  verdict('RoomVerdict', 'Room to work in the pit', 'IF(WorkingRoom_ft<RoomLeast_ft,"stop",IF(OR(TankCount=1,AND(TankGap_in>=GapLeast_in,TieLength_in<=12*DrainStick_ft)),"pass","check"))', [
    ['WorkingRoom_ft<RoomLeast_ft', '{WorkingRoom_ft:2} between the tanks and the foot of the pit walls: nobody can work or get away there. {RoomLeast_ft:2} at the least.'],
    ['AND(TankCount>1,TieLength_in>12*DrainStick_ft)', 'A tie is {TieLength_in} long, and a stick of pipe {DrainStick_ft}: each takes a coupling in its buried middle, or a longer stick. Set the tanks closer, or add them as lines by hand.'],
    ['TankCount=1', 'Between the tank and the pit walls {WorkingRoom_ft:2}.'],
    ['', 'Between tanks and pit walls {WorkingRoom_ft:2}, between two tanks {TankGap_in}.'],
  ], '18 in beside the tanks, 6 in between two where boots and clamps are set; a tie no longer than a stick of pipe', cite('practice', 'room for a person, and for a hand with a driver'), LIFE),
  verdict('SlopeVerdict', 'Drain slope', 'IF(DrainSlope_in_per_ft>=IF(DrainSize_in<8,0.125,0.0625),"pass","check")', [
    ['DrainSlope_in_per_ft<IF(DrainSize_in<8,0.125,0.0625)', '{DrainSlope_in_per_ft}: flatter than the least for a drain of {DrainSize_in}.'],
    ['', '{DrainSlope_in_per_ft}.'],
  ], '1/8 in/ft (1.04 %) at least for 3 to 6 in pipe, 1/16 (0.52 %) from 8 in', cite('chicago', 'minimum slope')),
  verdict(
    'FrostVerdict',
    'Frost',
    `IF(LineCover_in<FrostDepth_in,"stop",IF(AND(FrostDepth_in>0,OR(${flatInFrost},${drainIsOut},LineCover_in<FrostDepth_in+${BELOW_FROST_IN},12*WaterLevel_ft<FrostDepth_in)),"check","pass"))`,
    [
      ['FrostDepth_in=0', 'No frost depth. A riser is open to the cold all the same.'],
      ['12*WaterLevel_ft<FrostDepth_in', 'Frost {FrostDepth_in}, and the water stands {WaterLevel_ft} below the ground: water, ports and overflow can freeze, and ice lifts lids and closes the overflow. Set the tanks deeper, or insulate over and beside the lids. The line has {LineCover_in} over it, the inlet drain {DrainCover_in} at the least.'],
      [drainIsOut, 'Frost {FrostDepth_in}, and with this fall the inlet drain comes out of the ground: it freezes there. The line has {LineCover_in} over it in its trench of {TrenchDepth_in}.'],
      [flatInFrost, 'Frost {FrostDepth_in}: the inlet drain, {DrainCover_in} deep at the least, lies in the frost, and at {InletSlope_in_per_ft} it does not run empty: lay it at 1/8 in/ft or steeper, or deeper. The line has {LineCover_in} over it in its trench of {TrenchDepth_in}. The riser crosses the frost: insulate its lid, and let no water stand in the conduit.'],
      ['AND(InletRun_ft>0,DrainCover_in<FrostDepth_in)', 'Frost {FrostDepth_in}: the inlet drain, {DrainCover_in} deep at the least, lies in the frost: at {InletSlope_in_per_ft} it runs empty, if it has no sag and no trap, and the first-wash diverter is drained. The line has {LineCover_in} over it in its trench of {TrenchDepth_in}. The riser crosses the frost: insulate its lid, and let no water stand in the conduit.'],
      ['', 'Frost {FrostDepth_in}: the line has {LineCover_in} over it in its trench of {TrenchDepth_in}, the inlet drain has {DrainCover_in} over it at the least. The riser crosses the frost: insulate its lid, and let no water stand in the conduit.'],
    ],
    `the top of the line ${BELOW_FROST_IN} in below frost; drains below it or empty; the water in the tanks below it`,
    cite('memory', 'IPC 305.4: 6 in below frost'),
    false,
    ['DownspoutRise_ft'],
  ),
  verdict(
    'DutyVerdict',
    'Pump duty',
    'IF(ByGravity=1,"pass",IF(AND(PumpLeftOut=1,TotalHead_ftw>0),"check",IF(TotalHead_ftw<=0,IF(OffCurve=1,"stop","check"),IF(PumpHead_ftw<TotalHead_ftw,"stop",IF(OffCurve=1,"stop","pass")))))',
    [
      ['AND(PumpLeftOut=1,TotalHead_ftw>0)', 'No pump is in this job, and gravity alone is {TotalHead_ftw} short: whoever sets one needs that at {HouseFlow_gpm}. The figures take {PumpModel}.'],
      ['AND(ByGravity=1,LineDeeper_ft>0)', 'Gravity gives {HouseFlow_gpm} at {HousePressure_psi}: no pump is part of this job. The line falls all the way from its coupling, {LineCentre_ft:2} down: its trench comes up to {TrenchDepth_in} where the ground has fallen as far, {DeepReach_ft} beyond the pit where it falls evenly. Its screened intake and its way through the tank wall are lines by hand.'],
      ['ByGravity=1', 'Gravity gives {HouseFlow_gpm} at {HousePressure_psi}: no pump is part of this job. Its screened intake and its way through the tank wall are lines by hand.'],
      ['AND(TotalHead_ftw<=0,OffCurve=1)', `The house lies so far below the water that gravity gives flow and pressure, and {PumpModel} would run off the end of its curve as soon as it starts: leave it out[[ (Without: ${WITHOUT_PUMP})]], and set a valve that closes at the house and, where too much comes, a reducing valve.`],
      ['TotalHead_ftw<=0', `The house lies so far below the water that gravity gives flow and pressure: no pump is needed[[ (Without: ${WITHOUT_PUMP})]], but a valve that closes at the house and, where too much comes, a reducing valve.`],
      ['AND(OffCurve=1,GravityAtSwitch_psi>SwitchWanted_psi/2)', `The house lies so far below the water that gravity alone gives {GravityAtSwitch_psi} of the {SwitchWanted_psi} wanted at the switch, and {PumpModel} runs off the end of its curve. Want a little less and leave out the pump[[ (Without: ${WITHOUT_PUMP})]], or hold the flow back with a valve.`],
      ['AND(PumpNote<>"",OR(PumpHead_ftw<TotalHead_ftw,OffCurve=1))', '{PumpNote}'],
      ['PumpHead_ftw<TotalHead_ftw', 'At {HouseFlow_gpm} {PumpModel} gives {PumpHead_ftw}; {TotalHead_ftw} is needed, short by {PumpShort_ftw}.'],
      ['OffCurve=1', 'With full tanks {PumpModel} runs off the end of its curve, past {ActualFlow_gpm}: it wears out. Take a smaller pump or hold it back.'],
      ['', 'At {HouseFlow_gpm} {PumpModel} gives {PumpHead_ftw}; {TotalHead_ftw} is needed. With full tanks {ActualFlow_gpm} come.'],
    ],
    'head at the wanted flow and lowest water; within the curve; by gravity no point of the line over the lowest water',
    cite('hiData', 'section I-A, system head'),
  ),
  verdict(
    'VelocityVerdict',
    'Velocity in the water line',
    'IF(AND(MAX(ActualVelocity_fps,LineVelocity_fps)<=5,MostVelocity_fps<=CutInAllowed_fps,FittingVelocity_fps<=FittingMost_fps),"pass","check")',
    [
      ['FittingVelocity_fps>FittingMost_fps', 'The same water passes the 1 in fittings at the pump at {FittingVelocity_fps}, where {FittingMost_fps} is the most: pitless adapter, nipple and check valve of a larger size. In the line {MostVelocity_fps} come with full tanks at the cut-in.'],
      ['ByGravity=1', '{ActualVelocity_fps} at the {ActualFlow_gpm} that come with full tanks; {LineVelocity_fps} at the wanted {HouseFlow_gpm}.'],
      ['', '{ActualVelocity_fps} at the {ActualFlow_gpm} that come with full tanks. For the moment after the pump cuts in it is {MostVelocity_fps}, and {LineVelocity_fps} at the wanted {HouseFlow_gpm}.'],
    ],
    'at most 5 ft/s in the line, 6 when the pump cuts in, 10 in short brass fittings',
    cite('nrcs', '5 ft/s in plastic pipelines; fittings common practice'),
  ),
  verdict('PressureTankVerdict', 'Pressure tank', 'IF(AND(FlowAtMean_gpm>0,LeastRun_min>=LeastRunWanted_min,PressureTank_gal>=PressureTankNeeded_gal,Starts_per_day<=StartsAllowed_per_day),"pass","check")', [
    ['FlowAtMean_gpm=0', 'The pump gives nothing at the pressures of the switch: no pressure tank can be sized.'],
    ['LeastRun_min<LeastRunWanted_min', 'The pump is to run {LeastRun_min} at each start, and a motor wants {LeastRunWanted_min} to cool: a larger pressure tank. That of {PressureTank_gal} gives {Drawdown_gal} between {CutIn_psi} and {CutOut_psi}.'],
    ['', 'A pressure tank of {PressureTank_gal} gives {Drawdown_gal} between {CutIn_psi} and {CutOut_psi}; {PressureTankNeeded_gal} are needed so that the pump runs {LeastRun_min} at each start. Starts: about {Starts_per_day}, where its motor stands {StartsAllowed_per_day}.'],
  ], 'the least run at each start; starts by motor size', cite('starts')),
  verdict(
    'DoseVerdict',
    'First disinfection',
    'IF(AND(Dose_mg_per_L>=DoseLeast_mg_per_L,Dose_mg_per_L<=DoseMost_mg_per_L),"pass","check")',
    [
      ['Dose_mg_per_L>DoseMost_mg_per_L', '{Dose_mg_per_L} of chlorine in the water for {Contact_h} is more than the {DoseMost_mg_per_L} of the methods that fill a tank; it gives off gas, eats metal, and all of it has to be made harmless before it goes anywhere. The health authority decides.'],
      ['Dose_mg_per_L<DoseLeast_mg_per_L', '{Dose_mg_per_L:1} of chlorine for {Contact_h} is weak: 10 mg/L must be left at the end, new concrete takes some, and methods for a day start at {DoseLeast_mg_per_L}.'],
      ['', '{Dose_mg_per_L} of chlorine, left in for {Contact_h}; the health authority decides.'],
    ],
    'so much that 10 mg/L are left after a day, and no more than 50',
    cite('memory', 'AWWA C652: 10 mg/L left after 24 h, or stronger for less; C651 starts at 25'),
  ),
  verdict('DropVerdict', 'Voltage drop', `IF(ROUND(MotorShare,3)<MotorStallShare,"stop",IF(AND(FeederDropShare<=DropLimit,NOT(${lowMotor})),"pass","check"))`, [
    ['ROUND(MotorShare,3)<MotorStallShare', '{FeederDrop_V} over {FeederLength_ft}, {FeederDropShare%}: of the {PumpVoltage_V} of its nameplate {MotorShare%} are left at the motor. It does not run on that, or burns: under {MotorStallShare%} none is run. A larger cable, or another pump.'],
    [lowMotor, '{FeederDrop_V} over {FeederLength_ft}, {FeederDropShare%}: of the {PumpVoltage_V} of its nameplate {MotorShare%} are left at the motor, and it wants {MotorLeastShare%}. A larger cable, or the pump made for this circuit.'],
    ['AND(PumpVoltage_V<LowVoltage_V,CableAmpacity_A>5*MotorCurrent_A,FeederDropShare<=DropLimit)', '{FeederDrop_V} over {FeederLength_ft}, {FeederDropShare%}; at most {DropLimit%}. The length asks for {Cable} AWG where {BaseWire} carries the current: a pump of 230 V takes a quarter of the copper.'],
    ['', '{FeederDrop_V} over {FeederLength_ft}, {FeederDropShare%}; at most {DropLimit%}.'],
  ], 'the drop limit of the job, and nine tenths of the nameplate at the motor; under eight none is run', cite('nec', 'informational note to 210.19, 3 %: advice, not a rule; the tenth from memory, NEMA MG 1')),
  verdict('StartDropVerdict', 'Voltage drop at the start', 'IF(StartDropShare<=StartDropLimit,"pass",IF(StartDropShare<StartDropMost,"check","stop"))', [
    ['StartDropShare>=StartDropMost', 'At {StartRatio} times full load the feed would lose {StartDropShare%}: from {StartDropMost%} on the motor does not start, and hums until it burns. A larger cable, or a soft starter that its maker allows.'],
    ['', 'At {StartRatio} times full load the feed loses {StartDropShare%}; the office allows {StartDropLimit%}.'],
  ], 'figure of the office; at half of the voltage no motor starts', cite('practice', 'locked rotor six times full load, more of small three-phase motors')),
  verdict(
    'FillVerdict',
    'Conduit fill',
    `IF(CableWide_in=0,"check",IF(ConduitFill<=${FILL_OF_TWO},"pass",IF(ConduitFillLeast>${FILL_OF_TWO},"stop","check")))`,
    [
      ['CableWide_in=0', '[[The sheet Cables has no {Cable} AWG: ]]How wide is the cable of {Cable} AWG?'],
      [`AND(ConduitFill>${FILL_OF_TWO},ConduitFillLeast<=${FILL_OF_TWO})`, 'Pump and float cable would take {ConduitFill%} of {ConduitSize} in conduit, the width of the third conductor figured: measure the cable, or take a larger conduit.'],
      [`ConduitFill>${FILL_OF_TWO}`, 'Pump and float cable take {ConduitFill%} of {ConduitSize} in conduit: a larger one[[ (Jobs, Conduit size)]].'],
      ['', 'Pump and float cable take {ConduitFill%} of {ConduitSize} in conduit.'],
    ],
    `${100 * FILL_OF_TWO} % with two cables`,
    cite('nec', 'Chapter 9 Table 1'),
  ),
  verdict('FittingsVerdict', 'IPS and CTS kept apart', 'IF(OR(AND(LineFit="IPS",LineFittings="IPS insert"),AND(LineFit="CTS",LineFittings="CTS compression")),"pass","stop")', '{WaterLinePipe} takes {LineFit} fittings; the line has {LineFittings}.', 'never mixed', cite('practice', 'IPS pipe takes insert fittings, CTS tubing compression fittings')),
  verdict('RunsVerdict', 'Runs given', 'IF(AND(RunsAssumed=0,RunsTooShort=0),"pass","check")', [
    ['RunsTooShort>0', '{RunsTooShort|run is|runs are} shorter than what it rises or falls: the line has {WaterLineRun_ft} for a rise of {WaterLineRise_ft}, the inlet {InletRun_ft} for {DownspoutRise_ft}, the overflow {OverflowRun_ft} for a fall of {OutfallDrop_ft}. Runs are measured along the ground.'],
    ['RunsAssumed=0', 'Each of the four runs has its length.'],
    ['', '{RunsAssumed|run length was|run lengths were} left empty and taken at the default: measure before pricing.'],
  ], 'measured on site', cite('practice', 'runs are measured on site'), false, AS_TAKEN),
] as const
export type VerdictName = (typeof rules)[number]['name']

/** A field with what it rests on, through every result between. */
const byName = new Map<string, string>(results.map(({ name, formula: text }) => [name, text]))
function restsOn(text: string): ReadonlySet<string> {
  const found = new Set<string>()
  const look = (inner: string) => {
    for (const name of formula(inner).names) {
      if (found.has(name)) continue
      found.add(name)
      const rule = byName.get(name)
      if (rule) look(rule)
    }
  }
  look(text)
  return found
}

export interface RestingVerdict extends VerdictRule {
  /** The rule, and "check" instead of "pass" where something that it rests on was assumed. */
  formula: string
  /** The words, and what was assumed. */
  wordsFormula: string
  /** The words as the customer reads them: without what the office is told to do, and of that the first sentence. */
  quoted: Words
  quotedShort: Words
  /** Fields that it rests on and that nobody may guess. */
  assumed: readonly (typeof assumableFields)[number][]
}

const each = (words: Words, change: (text: string) => string): Words => (typeof words === 'string' ? change(words) : words.map(([when, text]) => [when, change(text)] as const))
const TO_OFFICE = /\[\[(.*?)\]\]/g

const NO_PUMP = 'ByGravity=1'
/** Verdicts of pump, switch and feed, and where they have nothing to judge: how much is wanted at the house is judged with and without a pump. */
const ofPump: Readonly<Partial<Record<VerdictName, string>>> = {
  SwitchVerdict: `AND(${NO_PUMP},HousePressure_psi<=HouseMost_psi)`,
  AmpacityVerdict: NO_PUMP,
  SupplyVerdict: NO_PUMP,
  ReliefVerdict: NO_PUMP,
  TrenchVerdict: NO_PUMP,
  ConduitCoverVerdict: NO_PUMP,
  PressureTankVerdict: NO_PUMP,
  DropVerdict: NO_PUMP,
  StartDropVerdict: NO_PUMP,
  FillVerdict: NO_PUMP,
}

export const verdictRules: readonly RestingVerdict[] = rules.map((rule: VerdictRule) => {
  const says = each(rule.says, (text) => text.replace(TO_OFFICE, '$1'))
  const quoted = each(rule.says, (text) => text.replace(TO_OFFICE, ''))
  const names = restsOn(rule.rule)
  const { asTaken } = rule
  const assumed = assumableFields.filter((field) => asTaken !== true && !asTaken.includes(field) && names.has(field))
  const words = templateFormula(says) ?? `"${says as string}"`
  const nothing = ofPump[rule.name as VerdictName]
  const withPump = (text: string, withNone: string) => (nothing === undefined ? text : `IF(${nothing},"${withNone}",${text})`)
  const isAny = assumed.map((field) => assumable[field]).join('+')
  return {
    ...rule,
    says,
    quoted,
    quotedShort: each(quoted, (text) => text.split(/(?<=\.) /)[0]!),
    formula: withPump(assumed.length ? `IF(${rule.rule}<>"pass",${rule.rule},IF(${isAny}>0,"check","pass"))` : rule.rule, 'pass'),
    assumed,
    wordsFormula: withPump([words, ...assumed.map((field) => `IF(${assumable[field]}=1,"${assumedWords(field)}","")`)].join('&'), 'No pump is part of this job.'),
  }
})

export const verdictByName: ReadonlyMap<string, RestingVerdict> = new Map(verdictRules.map((rule) => [rule.name, rule]))
