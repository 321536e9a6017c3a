/**
 * Each wording of a verdict where its figures ask for it, on both sides of its limit: the limits are those of verdictLimits, the words what a
 * person is to be told there. A wording that no row reaches turns this red.
 */
import { describe, expect, it } from 'vitest'
import { formula } from '../../src/formula/formula.js'
import type { Value } from '../../src/formula/value.js'
import { verdictRules } from '../../src/takeoff/verdicts.js'
import { others } from '../support/verdictNames.js'

/** Figures, and words of the sentence that is said of them. */
type Row = readonly [given: Readonly<Record<string, Value>>, words: string]

const wet = { PitWater: 'wet', PitDrained: 'no', SoilClass: 'B' }
const storm = { StormRise_ft: 0.4, AirSpace_ft: 0.5, OverflowCount: 2, BlockedRise_ft: 0.5 }
const met = { RecordYears: 12, RecordAgrees: 1, RoofShare: 0.9, Reliability: 0.9, WantedReliability: 0.9, RecordDryMonths: 0, ReliabilityLow: 0.85, ReliabilityHigh: 0.95 }
const frost = { FrostDepth_in: 30, WaterLevel_ft: 2.5, DrainCover_in: 30 }
const drain = { DrainCover_in: 30, DrainWants_in: 12, InletSlope_in_per_ft: 0.25, FilterShare: 1, FilterFall_in: 0 }
const duty = { TotalHead_ftw: 100, PumpHead_ftw: 100, OffCurve: 0, PumpNote: '', LineDeeper_ft: 0 }
const tank = { HouseStanding_psi: 60, PressureTankRating_psi: 125, ShutOffAtHouseFull_psi: 125 }
const pressed = { GroundwaterAssumed: 0, WaterAboveBase_ft: 0.01, WaterOutsideAllowed_ft: 0 }
const reached = { ShutOffAtHouse_psi: 90, CutOut_psi: 60, CutIn_psi: 40, SwitchWanted_psi: 45 }
const held = { GroundwaterAssumed: 0, UpliftSafety: 1.3, UpliftAtGrade: 1.1, WeightRatio: 1.15 }

const said: Readonly<Record<string, readonly Row[]>> = {
  SoilVerdict: [
    [{ PitWater: 'not known' }, 'nobody has said how deep the groundwater lies'],
    [{ ...wet, SoilClass: 'rock' }, 'rock under water that is not stable is class C'],
    [wet, 'soil under water is class C, not'],
    [{ ...wet, SoilClass: 'C' }, 'nobody works where water stands or rises'],
    [{ ...wet, PitDrained: 'yes' }, 'classed again with the water drawn down'],
    [{ PitWater: 'dry', PitSoil: 'A', TrafficRank: 3 }, 'no soil is class A that heavy traffic shakes'],
    [{ PitWater: 'dry', PitSoil: 'A', TrafficRank: 2, WaterNear: 0 }, 'the walls stand as class {PitSoil} allows'],
    [{ PitWater: 'dry', PitSoil: 'B', TrafficRank: 3, WaterNear: 1 }, 'soil draws it up'],
  ],
  PitVerdict: [
    [{ PitDepth_ft: 20 }, 'The pit is {PitDepth_ft:2} deep.'],
    [{ PitDepth_ft: 20.01 }, 'an engineer designs its protection'],
    [{ PitDepth_ft: 20.01, PitEngineered: 0 }, 'only where all of it is dug in stable rock'],
  ],
  DeepTrenchVerdict: [
    [{ DeepestTrench_ft: 20 }, 'The deepest trench is'],
    [{ DeepestTrench_ft: 20.01 }, 'no box of the yard will do'],
    [{ DeepestTrench_ft: 20.01, TrenchBoxed: 0 }, 'only where all of it is dug in stable rock'],
  ],
  FootingVerdict: [
    [{ NearestBuilding_ft: 9.9, PitEdge_ft: 10, FootingClear_ft: 15, FenceClear_ft: 2 }, 'nothing is dug under a footing'],
    [{ NearestBuilding_ft: 14.9, PitEdge_ft: 10, FootingClear_ft: 15, FenceClear_ft: 2 }, 'loads them'],
    [{ NearestBuilding_ft: 15.4, PitEdge_ft: 14, FootingClear_ft: 15, FenceClear_ft: 2 }, 'on the lip of a pit'],
    [{ NearestBuilding_ft: 15, PitEdge_ft: 10, FootingClear_ft: 15, FenceClear_ft: 2, FootingAssumed: 0, FootingAway_ft: 15.1 }, 'which of the two holds is measured again'],
    [{ NearestBuilding_ft: 15, PitEdge_ft: 10, FootingClear_ft: 15, FenceClear_ft: 2, FootingAssumed: 1 }, 'and may stand nearer'],
    [{ NearestBuilding_ft: 15, PitEdge_ft: 10, FootingClear_ft: 15, FenceClear_ft: 2, FootingAssumed: 0, FootingAway_ft: 15 }, 'The nearest footing is {NearestBuilding_ft} away'],
  ],
  UpliftVerdict: [
    [{ GroundwaterAssumed: 1 }, 'Depth of the groundwater is not known'],
    [{ ...held, UpliftSafety: 'no uplift', UpliftAtGrade: 0.99 }, 'A storm that fills the ground round an empty tank lifts it'],
    [{ ...held, UpliftSafety: 'no uplift', UpliftAtGrade: 1.09 }, '1.1 is the least in use'],
    [{ ...held, UpliftSafety: 'no uplift', UpliftAtGrade: 1.1 }, 'stays below the tanks’ base; should a storm'],
    [{ ...held, WeightRatio: 1.16 }, 'Have the maker confirm the weight'],
    [{ ...held, SecondRatio: 1.16 }, 'Have the maker confirm the weight'],
    [{ ...held, UpliftAtGrade: 0.99 }, 'a storm that fills the ground round it lifts it'],
    [{ ...held, UpliftAtGrade: 1.09 }, 'drain the pit’s foot to daylight'],
    [held, 'times that of a storm that fills the ground round it'],
  ],
  BallastVerdict: [
    [{ Ballast_in: 0, BallastMost_in: 57 }, 'No ballast is needed'],
    [{ Ballast_in: 57.1, BallastMost_in: 57 }, 'keep the water down'],
    [{ Ballast_in: 57, BallastMost_in: 57 }, 'Leave {Ballast_in} of water in each tank'],
  ],
  WeightVerdict: [
    [{ SecondTanks: 1 }, '{SecondWeight_lb}'],
    [{ SecondTanks: 0 }, 'make about {WeightFigured_lb}.'],
  ],
  LiftVerdict: [
    [{ CraneModel: '' }, 'No crane of the table is chosen'],
    [{ CraneModel: 'Heron', CraneCapacity_lb: 20_000, PickLoad_lb: 15_000 }, 'tank and rigging weigh {PickLoad_lb}.'],
    // 29 CFR 1926.1417(o)(3): over three quarters the weight is verified.
    [{ CraneModel: 'Heron', CraneCapacity_lb: 20_000, PickLoad_lb: 15_001 }, 'the first hoist verifies the weight'],
    [{ CraneModel: 'Heron', CraneCapacity_lb: 20_000, PickLoad_lb: 20_000 }, 'the first hoist verifies the weight'],
    [{ CraneModel: 'Heron', CraneCapacity_lb: 20_000, PickLoad_lb: 20_001 }, 'a larger crane'],
  ],
  VacuumVerdict: [
    [{ VacuumUnasked: 1, TestVacuum_inHg: 4.01, VacuumAllowed_inHg: 4 }, 'nobody has asked the maker'],
    [{ VacuumUnasked: 1, TestVacuum_inHg: 4, VacuumAllowed_inHg: 4 }, 'nobody has asked what the maker allows'],
    [{ TestVacuum_inHg: 4.01, VacuumAllowed_inHg: 4 }, 'a tank made for it'],
    [{ TestVacuum_inHg: 1.99, VacuumAllowed_inHg: 4 }, 'weaker than every published test'],
    [{ TestVacuum_inHg: 4, VacuumAllowed_inHg: 4, TestHold_min: 1.99 }, 'weaker than every published test'],
    [{ TestVacuum_inHg: 4, VacuumAllowed_inHg: 4, TestLoss: 0.1001 }, 'weaker than every published test'],
    [{ TestVacuum_inHg: 4, VacuumAllowed_inHg: 4, TestHold_min: 2, TestLoss: 0.1 }, 'Air then presses {LidForce_lbf} on a lid.'],
  ],
  CoverVerdict: [
    [{ Cover_ft: 3.01, CoverAllowed_ft: 3, CoverUnasked: 1 }, 'is the most over these lids'],
    [{ Cover_ft: 3, CoverAllowed_ft: 3, CoverUnasked: 1 }, 'nobody has asked the maker'],
    [{ Cover_ft: 3, CoverAllowed_ft: 3 }, 'the maker allows {CoverAllowed_ft:2}.'],
  ],
  TrafficVerdict: [
    [{ TrafficRank: 0, TrafficAllowed: 0 }, 'Nothing drives over the tanks'],
    [{ TrafficRank: 1, TrafficAllowed: 1 }, 'the maker allows: {TrafficOver}.'],
    [{ TrafficRank: 2, TrafficAllowed: 2 }, 'rims stand flush'],
    [{ TrafficRank: 2, TrafficAllowed: 1 }, 'would pass'],
  ],
  WallVerdict: [
    [{ GroundwaterAssumed: 1 }, 'whose depth is not known'],
    [{ ...pressed, WaterOutsideAllowed_ft: 0.01 }, 'With {WaterAboveBase_ft:2} of groundwater'],
    [pressed, 'the maker’s word is for'],
    [{ ...pressed, WaterAboveBase_ft: 0, TrafficRank: 2 }, 'wheels beside them'],
    [{ ...pressed, WaterAboveBase_ft: 0, TrafficRank: 1 }, 'heavy wheels and cranes keep away'],
  ],
  BearingVerdict: [
    [{ Bearing_psf: 2251, BearingAllowed_psf: 1500 }, 'the ground may give way'],
    [{ Bearing_psf: 2250, BearingAllowed_psf: 1500, AxleLoad_psf: 0 }, 'Full and covered, a tank presses {Bearing_psf}; the earth'],
    [{ Bearing_psf: 1001, BearingAllowed_psf: 1500, BearingAssumed: 1 }, 'nobody has said'],
    [{ Bearing_psf: 1000, BearingAllowed_psf: 1500, BearingAssumed: 1, AxleLoad_psf: 1 }, 'under an axle'],
  ],
  RatingVerdict: [
    [{ ByGravity: 1, LineSurge_psi: 401, LineRating_psi: 200, LineDerating: 1 }, 'a larger line, or less flow'],
    [{ LineSurge_psi: 401, MostSurge_psi: 0, LineRating_psi: 200, LineDerating: 1 }, 'just after the pump cut in with {MostSurge_psi}, over twice'],
    [{ LineSurge_psi: 400, MostSurge_psi: 401, LineRating_psi: 200, LineDerating: 1 }, 'just after the pump cut in with {MostSurge_psi}, over twice'],
    [{ LineSurge_psi: 400, MostSurge_psi: 0, LineRating_psi: 200, LineDerating: 1, LinePressureMost_psi: 190, LineHoldsLeast_psi: 189 }, 'by those in use'],
    [{ ByGravity: 1, LineSurge_psi: 400, MostSurge_psi: 0, LineRating_psi: 200, LineDerating: 1, LinePressureMost_psi: 190 }, 'stopped at once, {LineSurge_psi}; it is rated'],
    [{ LineSurge_psi: 400, MostSurge_psi: 0, LineRating_psi: 200, LineDerating: 1, LinePressureMost_psi: 190 }, 'just after the pump cut in {MostSurge_psi}; it is rated'],
  ],
  SwitchVerdict: [
    [{ ...reached, HousePressure_psi: 80.1 }, 'codes let {HouseMost_psi} in at the most'],
    [{ ...reached, SwitchWanted_psi: 60 }, 'that pressure never comes'],
    [{ ...reached, GravityAtSwitch_psi: 40 }, 'the pump adds nothing'],
    // Half of the way between 40 and 60 psi.
    [{ ...reached, SwitchWanted_psi: 50.1 }, 'less than half of the time'],
    [{ ...reached, HouseStanding_psi: 81, HousePressure_psi: 70.1, SwitchWanted_psi: 50 }, 'it falls off by about'],
    [{ ...reached, CutIn_psi: 50.1, SwitchWanted_psi: 50 }, 'that switches can be set to: the pump starts often'],
    [{ ...reached, CutIn_psi: 29.9, SwitchWanted_psi: 40 }, 'that usual switches can be set to'],
    [{ ...reached, ShutOffAtHouse_psi: 60 }, 'would never stop'],
    [{ ...reached, ShutOffAtHouse_psi: 64.9 }, 'less than 5 psi over it'],
    [{ ...reached, ShutOffAtHouse_psi: 65, CutIn_psi: 30, SwitchWanted_psi: 45 }, 'with full tanks'],
  ],
  SupplyVerdict: [
    [{ PumpNote: 'The row asks for a pump that is not there.', PumpPhases: 3 }, '{PumpNote}'],
    [{ PumpNote: '', PumpPhases: 3 }, 'three-phase power'],
    // 5 % of 230 V: 218.5 to 241.5.
    [{ PumpNote: '', Voltage_V: 218 }, 'more than 5 % apart'],
    [{ PumpNote: '', Voltage_V: 242 }, 'more than 5 % apart'],
    [{ PumpNote: 'A note', Voltage_V: 219 }, 'The circuit is {Voltage_V}, the pump {PumpVoltage_V}.'],
  ],
  ReliefVerdict: [
    [{ ...tank, HouseStanding_psi: 126, CutOut_psi: 125 }, 'gravity alone puts {HouseStanding_psi} on the pressure tank, which is made for'],
    [{ ...tank, HouseStanding_psi: 126, CutOut_psi: 126 }, 'The switch stops the pump at {CutOut_psi}; the pressure tank is made for'],
    [{ ...tank, ReliefLeftOut: 1 }, 'No relief valve is in this job'],
    [{ ...tank, RatingUnasked: 1 }, 'look at its plate'],
    [{ ...tank, PressureTankListed: 0 }, 'is not on the sheet PressureTanks'],
    [{ ...tank, HouseStanding_psi: 116, CutOut_psi: 115 }, 'Gravity alone puts'],
    [{ ...tank, HouseStanding_psi: 116, CutOut_psi: 116 }, 'it drips or opens at every stop'],
    [{ ...tank, ShutOffAtHouseFull_psi: 126 }, 'the relief valve opens there at the latest'],
    [tank, 'the pump reaches {ShutOffAtHouseFull_psi} at the tank, which is made for {PressureTankRating_psi}.'],
  ],
  ConduitCoverVerdict: [
    [{ TrafficRank: 2, ConduitHas_in: 18, ConduitCover_in: 18 }, 'under the drive of a one- or two-family house'],
    [{ TrafficRank: 1, ConduitHas_in: 18, ConduitCover_in: 18 }, 'are needed.'],
    [{ TrafficRank: 2, ConduitHas_in: 17.9, ConduitCover_in: 18 }, 'another way out of the riser'],
  ],
  StorageVerdict: [
    [{ ...met, RecordAgrees: 0 }, 'have changed since it was made'],
    [{ ...met, DeadDepth_in: 3.9 }, 'counts water that is never drawn'],
    // 4 in of intake and 4.574 in over it: 9 in, to the inch.
    [{ ...met, DeadDepth_in: 8.4 }, 'draws with air'],
    [{ ...met, YearDemand_gal: 0 }, 'No use is given'],
    [{ ...met, RoofShare: 0.89, Reliability: 0.89 }, 'the roof catches {RoofShare%} of the demand in a year of mean rain; {Reliability%}'],
    [{ ...met, RecordYears: 0, RoofShare: 0.89 }, '{SizingShare%} of the demand is met, {WantedReliability%} wanted'],
    [{ ...met, RecordDryMonths: 1 }, 'in the year of median rain'],
    [met, 'worst year {WorstYear}'],
    [{ ...met, RecordYears: 0, ReliabilityLow: 0.95 }, 'about {SizingShare%} of the demand is met; {WantedReliability%} is wanted'],
    [{ ...met, RecordYears: 0 }, '({ReliabilityLow%} to {ReliabilityHigh%})'],
  ],
  DrainVerdict: [
    [{ ...drain, DrainCover_in: -0.1 }, 'comes out of the ground'],
    [{ ...drain, DrainCover_in: -0.1, InletRun_ft: 0 }, '{RoofFlow_gpm} off the roof; {InletCount|drain|drains}'],
    [{ ...drain, DrainCover_in: 23.9, TrafficRank: 2 }, 'or a slab as the engineer says'],
    [{ ...drain, InletSlope_in_per_ft: 2.41 }, 'anchored or laid in steps'],
    [{ ...drain, DrainCover_in: 11.9 }, 'are wanted: its bedding alone takes'],
    [{ ...drain, FilterShare: 0.9 }, 'ask its maker'],
    [{ ...drain, FilterShare: 0.9, FilterFall_in: 1 }, '{RoofFlow_gpm} off the roof; {InletCount|drain|drains}'],
  ],
  PortVerdict: [
    [{ PortsShort: 1 }, 'more than the tanks have'],
    [{ PortsShort: 0, AirSpace_ft: 0.335 }, 'reaches into the lid'],
    [{ PortsShort: 0, PortsUnasked: 1 }, 'nobody has asked the maker'],
    [{ PortsShort: 0, OverflowCount: 1, InletPorts: 2 }, 'has to get out'],
    [{ PortsShort: 0, OverflowCount: 2, InletPorts: 2 }, 'the far tank has {FarTankPorts|upper port|upper ports}.'],
  ],
  TieVerdict: [
    [{ ...storm, StormRise_ft: 0.51 }, 'there is {AirSpace_ft} of room under the lid. {LayoutNote}'],
    [{ ...storm, OverflowCount: 1 }, 'There is one overflow only'],
    [{ ...storm, BlockedRise_ft: 0.51 }, 'keep them clean'],
    [storm, 'with one blocked {BlockedRise_ft}; {AirSpace_ft}'],
  ],
  DaylightVerdict: [
    [{ OutfallAssumed: 1, OutfallDepth_ft: 0 }, 'the ground must fall {OutfallNeeded_ft}'],
    [{ OutfallAssumed: 0, OutfallDepth_ft: 0, OverflowSlope_in_per_ft: 2.41 }, 'the overflow follows it'],
    [{ OutfallAssumed: 0, OutfallDepth_ft: 0 }, '{OutfallNeeded_ft} are needed'],
    [{ OutfallAssumed: 0, OutfallDepth_ft: 0.1, OverflowSlope_in_per_ft: 2.41 }, 'that much fall is missing'],
  ],
  RoomVerdict: [
    [{ WorkingRoom_ft: 1.49, TankCount: 1 }, 'nobody can work or get away there'],
    [{ WorkingRoom_ft: 1.5, TankCount: 2, TieLength_in: 120.1 }, 'takes a coupling'],
    [{ WorkingRoom_ft: 1.5, TankCount: 1, TieLength_in: 120.1 }, 'Between the tank and the pit walls'],
    [{ WorkingRoom_ft: 1.5, TankCount: 2, TieLength_in: 120 }, 'between two tanks'],
  ],
  SlopeVerdict: [
    [{ DrainSlope_in_per_ft: 0.124, DrainSize_in: 6 }, 'flatter than the least'],
    [{ DrainSlope_in_per_ft: 0.125, DrainSize_in: 6 }, '{DrainSlope_in_per_ft}.'],
    [{ DrainSlope_in_per_ft: 0.062, DrainSize_in: 8 }, 'flatter than the least'],
    [{ DrainSlope_in_per_ft: 0.0625, DrainSize_in: 8 }, '{DrainSlope_in_per_ft}.'],
  ],
  FrostVerdict: [
    [{ ...frost, FrostDepth_in: 0, WaterLevel_ft: 0 }, 'No frost depth'],
    [{ ...frost, WaterLevel_ft: 2.49 }, 'water, ports and overflow can freeze'],
    [{ ...frost, DrainCover_in: -0.1 }, 'it freezes there'],
    [{ ...frost, DrainCover_in: 29.9, InletSlope_in_per_ft: 0.124 }, 'it does not run empty'],
    [{ ...frost, DrainCover_in: 29.9, InletSlope_in_per_ft: 0.125 }, 'it runs empty'],
    [{ ...frost, DrainCover_in: 29.9, InletRun_ft: 0 }, 'the inlet drain has {DrainCover_in} over it'],
    [frost, 'the inlet drain has {DrainCover_in} over it'],
  ],
  DutyVerdict: [
    [{ ...duty, PumpLeftOut: 1, TotalHead_ftw: 0.1 }, 'gravity alone is {TotalHead_ftw} short'],
    [{ ...duty, PumpLeftOut: 1, TotalHead_ftw: 0, ByGravity: 1, LineDeeper_ft: 0.1 }, 'The line falls all the way from its coupling'],
    [{ ...duty, PumpLeftOut: 1, TotalHead_ftw: 0, ByGravity: 1 }, 'no pump is part of this job. Its screened intake'],
    [{ ...duty, TotalHead_ftw: 0, OffCurve: 1 }, 'would run off the end of its curve as soon as it starts'],
    [{ ...duty, TotalHead_ftw: 0 }, 'no pump is needed'],
    // Half of the 45 psi wanted at the switch.
    [{ ...duty, OffCurve: 1, GravityAtSwitch_psi: 22.6 }, 'Want a little less'],
    [{ ...duty, OffCurve: 1, GravityAtSwitch_psi: 22.5 }, 'it wears out'],
    [{ ...duty, PumpNote: 'A note', PumpHead_ftw: 99.9 }, '{PumpNote}'],
    [{ ...duty, PumpHead_ftw: 99.9 }, 'short by {PumpShort_ftw}'],
    [{ ...duty, PumpNote: 'A note' }, '{TotalHead_ftw} is needed. With full tanks'],
  ],
  VelocityVerdict: [
    [{ FittingVelocity_fps: 10.1 }, '1 in fittings at the pump'],
    [{ FittingVelocity_fps: 10, ByGravity: 1 }, 'with full tanks; {LineVelocity_fps} at the wanted'],
    [{ FittingVelocity_fps: 10 }, 'after the pump cuts in'],
  ],
  PressureTankVerdict: [
    [{ FlowAtMean_gpm: 0 }, 'no pressure tank can be sized'],
    [{ LeastRun_min: 0.99 }, 'a motor wants {LeastRunWanted_min} to cool'],
    [{ LeastRun_min: 1 }, 'A pressure tank of {PressureTank_gal} gives'],
  ],
  DoseVerdict: [
    [{ Dose_mg_per_L: 50.1 }, 'is more than'],
    [{ Dose_mg_per_L: 24.9 }, 'is weak'],
    [{ Dose_mg_per_L: 50 }, 'the health authority decides'],
    [{ Dose_mg_per_L: 25 }, 'the health authority decides'],
  ],
  DropVerdict: [
    [{ MotorShare: 0.799, FeederDropShare: 0.03, DropLimit: 0.03 }, 'It does not run on that, or burns'],
    [{ MotorShare: 0.899, FeederDropShare: 0.03, DropLimit: 0.03 }, 'it wants {MotorLeastShare%}'],
    [{ PumpVoltage_V: 115, CableAmpacity_A: 51, MotorCurrent_A: 10, FeederDropShare: 0.03, DropLimit: 0.03 }, 'The length asks for'],
    [{ PumpVoltage_V: 115, CableAmpacity_A: 50, MotorCurrent_A: 10, FeederDropShare: 0.03, DropLimit: 0.03 }, 'at most {DropLimit%}.'],
    [{ PumpVoltage_V: 230, CableAmpacity_A: 51, MotorCurrent_A: 10, FeederDropShare: 0.03, DropLimit: 0.03 }, 'at most {DropLimit%}.'],
  ],
  StartDropVerdict: [
    [{ StartDropShare: 0.5 }, 'hums until it burns'],
    [{ StartDropShare: 0.499 }, 'the office allows'],
  ],
  FillVerdict: [
    [{ CableWide_in: 0, ConduitFill: 0 }, 'How wide is the cable'],
    [{ CableWide_in: 0.43, ConduitFill: 0.32, ConduitFillLeast: 0.31 }, 'measure the cable'],
    [{ CableWide_in: 0.43, ConduitFill: 0.32, ConduitFillLeast: 0.32 }, 'a larger one'],
    [{ CableWide_in: 0.43, ConduitFill: 0.31, ConduitFillLeast: 0.31 }, 'of {ConduitSize} in conduit.'],
  ],
  RunsVerdict: [
    [{ RunsTooShort: 1, RunsAssumed: 0 }, 'shorter than what it rises or falls'],
    [{ RunsTooShort: 0, RunsAssumed: 0 }, 'Each of the four runs has its length'],
    [{ RunsTooShort: 0, RunsAssumed: 1 }, 'measure before pricing'],
  ],
}

describe('a wording of a verdict', () => {
  const worded = verdictRules.flatMap(({ name, says }) => (typeof says === 'string' ? [] : [{ name, cases: says as readonly (readonly [when: string, words: string])[] }]))
  it.each(worded)('$name: each is said where its figures say so', ({ name, cases }) => {
    const reached = new Set<number>()
    for (const [given, words] of said[name] ?? []) {
      const worth = (text: string): Value => formula(text).evaluate({ value: (wanted) => given[wanted] ?? others[wanted] ?? 0 })
      const at = cases.findIndex(([when]) => when === '' || worth(when) === true)
      expect(cases[at]![1], JSON.stringify(given)).toContain(words)
      reached.add(at)
    }
    expect(
      cases.filter((_, at) => !reached.has(at)).map(([when, words]) => `${when}: ${words.slice(0, 60)}`),
      'said of no row',
    ).toEqual([])
  })
})
