/**
 * Each verdict at its limit, just inside and just beyond: the words are those of the published rule or of common practice,
 * the figures beside it hand arithmetic. A verdict without such rows turns this red.
 */
import { describe, expect, it } from 'vitest'
import { formula } from '../../src/formula/formula.js'
import { verdictRules } from '../../src/takeoff/verdicts.js'
import { others } from '../support/verdictNames.js'

type Row = readonly [given: Readonly<Record<string, number | string>>, verdict: 'pass' | 'check' | 'stop']
const dry = { GroundwaterAssumed: 0, PitWater: 'dry', WaterNear: 0, SoilClass: 'B', PitDrained: 'no' }
const record = { RecordYears: 12, RecordAgrees: 1, Reliability: 0.9, WantedReliability: 0.9, RecordDryMonths: 0 }
const ports = { PortsShort: 0, OverflowCount: 2, InletPorts: 2 }
const storm = { StormRise_ft: 0.5, AirSpace_ft: 0.67, OverflowCount: 2, BlockedRise_ft: 0.6 }
const outfall = { OutfallAssumed: 0, OutfallDepth_ft: 0 }
const frost = { LineCover_in: 36, FrostDepth_in: 30, DrainCover_in: 30, WaterLevel_ft: 2.5 }
const line = { LineRating_psi: 200, LineDerating: 1, LinePressureMost_psi: 200, LineSurge_psi: 300, MostSurge_psi: 0 }
const fitting = { LineFit: 'IPS', LineFittings: 'IPS insert' }

const limits: Readonly<Record<string, readonly Row[]>> = {
  // 29 CFR 1926 Subpart P, Appendix A: submerged soil is class C, and submerged rock that is not stable; nobody passes what nobody knows.
  SoilVerdict: [
    [dry, 'pass'],
    [{ ...dry, WaterNear: 1 }, 'check'],
    // Appendix A (b), Type A (ii): no soil is class A that heavy traffic shakes; cars are none.
    [{ ...dry, PitSoil: 'A', TrafficRank: 3 }, 'check'],
    [{ ...dry, PitSoil: 'A', TrafficRank: 2 }, 'pass'],
    [{ ...dry, PitSoil: 'B', TrafficRank: 3 }, 'pass'],
    [{ ...dry, PitWater: 'wet' }, 'stop'],
    // 1926.651(h)(1): no work where water stands or rises, class C or not.
    [{ ...dry, PitWater: 'wet', SoilClass: 'C' }, 'check'],
    [{ ...dry, PitWater: 'wet', SoilClass: 'C', PitDrained: 'yes' }, 'pass'],
    [{ ...dry, PitWater: 'wet', SoilClass: 'rock' }, 'stop'],
    [{ ...dry, PitWater: 'wet', SoilClass: 'rock', PitDrained: 'yes' }, 'pass'],
    [{ ...dry, PitWater: 'wet', PitDrained: 'yes' }, 'pass'],
    [{ ...dry, GroundwaterAssumed: 1, PitWater: 'not known', SoilClass: 'C' }, 'check'],
  ],
  // 1926.652(b), Appendix F: over 20 ft an engineer.
  PitVerdict: [
    [{ PitDepth_ft: 20 }, 'pass'],
    [{ PitDepth_ft: 19.99 }, 'pass'],
    [{ PitDepth_ft: 20.01 }, 'stop'],
    // 1926.652(a)(1)(i): entirely in stable rock none is asked.
    [{ PitDepth_ft: 20.01, PitEngineered: 0 }, 'check'],
  ],
  // The same rule for every excavation, trenches too.
  DeepTrenchVerdict: [
    [{ DeepestTrench_ft: 20 }, 'pass'],
    [{ DeepestTrench_ft: 19.99 }, 'pass'],
    [{ DeepestTrench_ft: 20.01 }, 'stop'],
    [{ DeepestTrench_ft: 20.01, TrenchBoxed: 0 }, 'check'],
  ],
  // FEMA P-259: factor 1.3; 1.1 is the lowest in use.
  UpliftVerdict: [
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.3 }, 'pass'],
    // Compared as it is printed: 1.3 beside a limit of 1.3 is no check.
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.296 }, 'pass'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.294 }, 'check'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.31 }, 'pass'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.29 }, 'check'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.1 }, 'check'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.09 }, 'stop'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 'no uplift' }, 'pass'],
    [{ GroundwaterAssumed: 1, UpliftSafety: 'no uplift' }, 'check'],
    // Under 1 the tank floats in ground that a storm has filled (buoyancy by the same rule), and 1.1 is the lowest factor in use (common practice, no source).
    [{ GroundwaterAssumed: 0, UpliftSafety: 'no uplift', UpliftAtGrade: 1.1 }, 'pass'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 'no uplift', UpliftAtGrade: 1.09 }, 'check'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.4, UpliftAtGrade: 1.1 }, 'pass'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.4, UpliftAtGrade: 1.09 }, 'check'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.09, UpliftAtGrade: 0.99 }, 'stop'],
    // A typed weight of more than 1.15 times walls, floor and lid (common practice, no source) is not what the tank is held down by.
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.4, UpliftFigured: 1.2, WeightRatio: 1.15 }, 'pass'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.4, UpliftFigured: 1.2, WeightRatio: 1.16 }, 'check'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.4, UpliftFigured: 1.3, WeightRatio: 1.16 }, 'pass'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.4, UpliftFigured: 1.1, SecondRatio: 1.16 }, 'check'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.2, UpliftFigured: 1.09, SecondRatio: 1.16 }, 'stop'],
    [{ GroundwaterAssumed: 0, UpliftSafety: 1.2, UpliftFigured: 1.09, WeightRatio: 1.14 }, 'check'],
  ],
  // 29 CFR 1926.651(i): nothing is dug below the base of a footing unsupported. A pit of 9 ft in class C, 2 ft of room: 2 + 1.5 x 9 = 15.5 ft.
  FootingVerdict: [
    // 2 ft beyond the edge are kept clear (29 CFR 1926.651(j)(2)).
    [{ NearestBuilding_ft: 17.5, PitEdge_ft: 15.5, FootingClear_ft: 15.5, FenceClear_ft: 2 }, 'pass'],
    [{ NearestBuilding_ft: 17.4, PitEdge_ft: 15.5, FootingClear_ft: 15.5, FenceClear_ft: 2 }, 'check'],
    [{ NearestBuilding_ft: 15.5, PitEdge_ft: 15.5, FootingClear_ft: 15.5, FenceClear_ft: 2 }, 'check'],
    [{ NearestBuilding_ft: 15.4, PitEdge_ft: 15.5, FootingClear_ft: 15.5, FenceClear_ft: 2 }, 'stop'],
    // Class A opens 2 + 0.75 x 9 = 8.75 ft; common practice, no source: nearer than the line of class C it loads the walls.
    [{ NearestBuilding_ft: 8.75, PitEdge_ft: 8.75, FootingClear_ft: 15.5, FenceClear_ft: 2 }, 'check'],
    [{ NearestBuilding_ft: 8.7, PitEdge_ft: 8.75, FootingClear_ft: 15.5, FenceClear_ft: 2 }, 'stop'],
    [{ NearestBuilding_ft: 15.4, PitEdge_ft: 8.75, FootingClear_ft: 15.5, FenceClear_ft: 2 }, 'check'],
    [{ NearestBuilding_ft: 15.6, PitEdge_ft: 8.75, FootingClear_ft: 15.5, FenceClear_ft: 2 }, 'pass'],
    // A run shorter than what was measured: one of the two is wrong.
    [{ NearestBuilding_ft: 20, PitEdge_ft: 8.75, FootingClear_ft: 15.5, FenceClear_ft: 2, FootingAssumed: 0, FootingAway_ft: 20 }, 'pass'],
    [{ NearestBuilding_ft: 20, PitEdge_ft: 8.75, FootingClear_ft: 15.5, FenceClear_ft: 2, FootingAssumed: 0, FootingAway_ft: 20.1 }, 'check'],
  ],
  // IPC 606.5.10 (from memory): a relief valve at each hydropneumatic tank; none helps where the switch itself is set above the plate.
  ReliefVerdict: [
    // The same where gravity alone stands there day and night.
    [{ HouseStanding_psi: 90, PressureTankRating_psi: 100, ShutOffAtHouseFull_psi: 140 }, 'pass'],
    [{ HouseStanding_psi: 90.1, PressureTankRating_psi: 100, ShutOffAtHouseFull_psi: 90 }, 'check'],
    [{ HouseStanding_psi: 100, PressureTankRating_psi: 100, ShutOffAtHouseFull_psi: 140 }, 'check'],
    [{ HouseStanding_psi: 101, PressureTankRating_psi: 100, ShutOffAtHouseFull_psi: 140 }, 'stop'],
    // Common practice, no source: a relief valve at the plate stays shut at every stop where 10 psi are between.
    [{ HouseStanding_psi: 90, CutOut_psi: 90, PressureTankRating_psi: 100 }, 'pass'],
    [{ HouseStanding_psi: 91, CutOut_psi: 91, PressureTankRating_psi: 100 }, 'check'],
    [{ HouseStanding_psi: 100, CutOut_psi: 100, PressureTankRating_psi: 100 }, 'check'],
    // What nobody listed has no plate that was read.
    [{ HouseStanding_psi: 60, PressureTankRating_psi: 100, PressureTankListed: 0 }, 'check'],
    [{ HouseStanding_psi: 60, PressureTankRating_psi: 100, RatingUnasked: 1 }, 'check'],
    // A valve that the job leaves out is nobody's until somebody sets it.
    [{ HouseStanding_psi: 60, PressureTankRating_psi: 100, ReliefLeftOut: 1 }, 'check'],
    [{ HouseStanding_psi: 101, PressureTankRating_psi: 100, ReliefLeftOut: 1, RatingUnasked: 1 }, 'stop'],
  ],
  // AWWA C652 (from memory): 10 mg/L left after a day, so more than that goes in.
  DoseVerdict: [
    [{ Dose_mg_per_L: 25 }, 'pass'],
    [{ Dose_mg_per_L: 25.1 }, 'pass'],
    [{ Dose_mg_per_L: 24.9 }, 'check'],
    [{ Dose_mg_per_L: 10 }, 'check'],
    // The same, from memory: 50 mg/L in the water at the most; 200 mg/L are for wetting walls.
    [{ Dose_mg_per_L: 50 }, 'pass'],
    [{ Dose_mg_per_L: 50.1 }, 'check'],
  ],
  BallastVerdict: [
    [{ Ballast_in: 57, BallastMost_in: 57, GroundwaterAssumed: 0 }, 'pass'],
    [{ Ballast_in: 56, BallastMost_in: 57, GroundwaterAssumed: 0 }, 'pass'],
    [{ Ballast_in: 57.1, BallastMost_in: 57, GroundwaterAssumed: 0 }, 'stop'],
    [{ Ballast_in: 20, BallastMost_in: 57, GroundwaterAssumed: 1 }, 'check'],
  ],
  // Common practice, no source: -10/+25 %; a factor of 1.5 is a slip.
  WeightVerdict: [
    [{ WeightRatio: 0.9, SecondRatio: 1 }, 'pass'],
    [{ WeightRatio: 0.91, SecondRatio: 1 }, 'pass'],
    [{ WeightRatio: 0.89, SecondRatio: 1 }, 'check'],
    [{ WeightRatio: 1.25, SecondRatio: 1 }, 'pass'],
    [{ WeightRatio: 1.26, SecondRatio: 1 }, 'check'],
    [{ WeightRatio: 1.5, SecondRatio: 1 }, 'check'],
    [{ WeightRatio: 1.51, SecondRatio: 1 }, 'stop'],
    [{ WeightRatio: 0.67, SecondRatio: 1 }, 'check'],
    [{ WeightRatio: 0.66, SecondRatio: 1 }, 'stop'],
    // The second model is held to the same span.
    [{ WeightRatio: 1, SecondRatio: 0.89 }, 'check'],
    [{ WeightRatio: 1, SecondRatio: 1.26 }, 'check'],
    [{ WeightRatio: 1, SecondRatio: 1.51 }, 'stop'],
    [{ WeightRatio: 1, SecondRatio: 0.66 }, 'stop'],
  ],
  // 29 CFR 1926.1417(o), from memory: within the load chart, the weight verified over three quarters of it.
  LiftVerdict: [
    [{ CraneModel: 'Heron', CraneCapacity_lb: 26_667, PickLoad_lb: 20_000 }, 'pass'],
    [{ CraneModel: 'Heron', CraneCapacity_lb: 26_666, PickLoad_lb: 20_000 }, 'check'],
    [{ CraneModel: 'Heron', CraneCapacity_lb: 20_000, PickLoad_lb: 20_000 }, 'check'],
    [{ CraneModel: 'Heron', CraneCapacity_lb: 19_999, PickLoad_lb: 20_000 }, 'stop'],
    [{ CraneModel: '', CraneCapacity_lb: 0, PickLoad_lb: 20_000 }, 'check'],
  ],
  VacuumVerdict: [
    [{ TestVacuum_inHg: 4, VacuumAllowed_inHg: 4 }, 'pass'],
    [{ TestVacuum_inHg: 3.9, VacuumAllowed_inHg: 4 }, 'pass'],
    [{ TestVacuum_inHg: 4.1, VacuumAllowed_inHg: 4 }, 'stop'],
    [{ TestVacuum_inHg: 10, VacuumAllowed_inHg: 4 }, 'stop'],
    // ASTM C1227 of the 1990s (EPA 2002): 2 inHg, 2 min, a tenth lost: weaker than that no published test is.
    [{ TestVacuum_inHg: 2, VacuumAllowed_inHg: 4, TestHold_min: 2, TestLoss: 0.1 }, 'pass'],
    [{ TestVacuum_inHg: 1.9, VacuumAllowed_inHg: 4 }, 'check'],
    [{ TestVacuum_inHg: 4, VacuumAllowed_inHg: 4, TestHold_min: 1.9 }, 'check'],
    [{ TestVacuum_inHg: 4, VacuumAllowed_inHg: 4, TestLoss: 0.101 }, 'check'],
    // What nobody asked the maker is no word of his.
    [{ TestVacuum_inHg: 4, VacuumAllowed_inHg: 4, VacuumUnasked: 1 }, 'check'],
    [{ TestVacuum_inHg: 4.1, VacuumAllowed_inHg: 4, VacuumUnasked: 1 }, 'stop'],
  ],
  TrafficVerdict: [
    [{ TrafficRank: 1, TrafficAllowed: 1 }, 'pass'],
    [{ TrafficRank: 0, TrafficAllowed: 1 }, 'pass'],
    [{ TrafficRank: 2, TrafficAllowed: 1 }, 'stop'],
  ],
  // What the maker designed the empty tank for, to the hundredth that is printed.
  WallVerdict: [
    [{ GroundwaterAssumed: 0, WaterAboveBase_ft: 4, WaterOutsideAllowed_ft: 4 }, 'pass'],
    [{ GroundwaterAssumed: 0, WaterAboveBase_ft: 4.01, WaterOutsideAllowed_ft: 4 }, 'check'],
    [{ GroundwaterAssumed: 0, WaterAboveBase_ft: 0, WaterOutsideAllowed_ft: 0 }, 'pass'],
    [{ GroundwaterAssumed: 1, WaterAboveBase_ft: 0, WaterOutsideAllowed_ft: 4 }, 'check'],
  ],
  CoverVerdict: [
    [{ Cover_ft: 4, CoverAllowed_ft: 4 }, 'pass'],
    [{ Cover_ft: 3.99, CoverAllowed_ft: 4 }, 'pass'],
    [{ Cover_ft: 4.01, CoverAllowed_ft: 4 }, 'stop'],
    // 1.22 m is 4.0026 ft, half an hundredth of which nobody measures.
    [{ Cover_ft: 1.22 / 0.3048, CoverAllowed_ft: 4 }, 'pass'],
    [{ Cover_ft: 3, CoverAllowed_ft: 4, CoverUnasked: 1 }, 'check'],
    [{ Cover_ft: 4.01, CoverAllowed_ft: 4, CoverUnasked: 1 }, 'stop'],
  ],
  // Common practice, no source: a person beside the tanks, a hand with a driver between two.
  RoomVerdict: [
    [{ WorkingRoom_ft: 1.5, TankGap_in: 6, TankCount: 2 }, 'pass'],
    [{ WorkingRoom_ft: 1.49, TankGap_in: 6, TankCount: 2 }, 'stop'],
    [{ WorkingRoom_ft: 1.49, TankGap_in: 4, TankCount: 1 }, 'stop'],
    [{ WorkingRoom_ft: 2, TankGap_in: 5.9, TankCount: 2 }, 'check'],
    [{ WorkingRoom_ft: 2, TankGap_in: 4, TankCount: 1 }, 'pass'],
    // Common practice, no source: sticks of 10 ft.
    [{ WorkingRoom_ft: 2, TankGap_in: 106, TieLength_in: 120, TankCount: 2 }, 'pass'],
    [{ WorkingRoom_ft: 2, TankGap_in: 107, TieLength_in: 121, TankCount: 2 }, 'check'],
    [{ WorkingRoom_ft: 2, TankGap_in: 107, TieLength_in: 121, TankCount: 1 }, 'pass'],
  ],
  BearingVerdict: [
    [{ Bearing_psf: 1500, BearingAllowed_psf: 1500 }, 'pass'],
    [{ Bearing_psf: 1499, BearingAllowed_psf: 1500 }, 'pass'],
    [{ Bearing_psf: 1501, BearingAllowed_psf: 1500 }, 'check'],
    // NAVFAC DM-7.02, from memory: three against failure wanted, two the least: 1.5 x 1,500 = 2,250. No ground gives way under less than it bore.
    [{ Bearing_psf: 2250, BearingAllowed_psf: 1500 }, 'check'],
    [{ Bearing_psf: 2251, BearingAllowed_psf: 1500 }, 'stop'],
    [{ Bearing_psf: 2251, BearingAllowed_psf: 1500, DugOut_psf: 2251 }, 'check'],
    // Nobody has said what the ground bears: no more is asked of it than the earth that lay there.
    [{ Bearing_psf: 1100, BearingAllowed_psf: 1500, BearingAssumed: 1, DugOut_psf: 1100 }, 'pass'],
    [{ Bearing_psf: 1101, BearingAllowed_psf: 1500, BearingAssumed: 1, DugOut_psf: 1100 }, 'check'],
    [{ Bearing_psf: 1101, BearingAllowed_psf: 1500, DugOut_psf: 1100 }, 'pass'],
  ],
  // AWWA M55 (from memory): standing within the class, with recurring surge within 1.5 times, with an occasional one within 2; common practice: 160 psi pipe at least.
  RatingVerdict: [
    [line, 'pass'],
    [{ ...line, LinePressureMost_psi: 199 }, 'pass'],
    [{ ...line, LinePressureMost_psi: 201 }, 'stop'],
    // Warm water: between the factors read and the lower ones in use for US coils (from memory) somebody asks.
    [{ ...line, LinePressureMost_psi: 180, LineHoldsLeast_psi: 180 }, 'pass'],
    [{ ...line, LinePressureMost_psi: 181, LineHoldsLeast_psi: 180 }, 'check'],
    [{ ...line, LineSurge_psi: 301 }, 'check'],
    [{ ...line, LineSurge_psi: 0, MostSurge_psi: 301 }, 'check'],
    [{ ...line, LineSurge_psi: 0, MostSurge_psi: 401 }, 'stop'],
    [{ ...line, LineSurge_psi: 400 }, 'check'],
    [{ ...line, LineSurge_psi: 401 }, 'stop'],
    [{ ...line, LineDerating: 0.94 }, 'stop'],
    [{ ...line, LineRating_psi: 125, LinePressureMost_psi: 90, LineSurge_psi: 90 }, 'stop'],
    [{ ...line, LineRating_psi: 160, LinePressureMost_psi: 160, LineSurge_psi: 240 }, 'pass'],
    [{ ...line, LineRating_psi: 160, LinePressureMost_psi: 177, LineSurge_psi: 200 }, 'stop'],
  ],
  // A pump that never reaches the cut-out never stops.
  SwitchVerdict: [
    // A pressure that the switch never lets come, and one that comes half of the time.
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 90, SwitchWanted_psi: 60 }, 'stop'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 90, SwitchWanted_psi: 59.9 }, 'check'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 90, SwitchWanted_psi: 50.1 }, 'check'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 90, SwitchWanted_psi: 50 }, 'pass'],
    // Common practice, no source: switches come set 20 psi apart, and few go over 30.
    [{ CutOut_psi: 60, CutIn_psi: 30, ShutOffAtHouse_psi: 90, HousePressure_psi: 40, SwitchWanted_psi: 40 }, 'pass'],
    [{ CutOut_psi: 60, CutIn_psi: 29.9, ShutOffAtHouse_psi: 90, HousePressure_psi: 40, SwitchWanted_psi: 40 }, 'check'],
    // IPC 604.8 and UPC 608.2 (from memory): no more than 80 psi in a house, whatever the switch is set to.
    [{ CutOut_psi: 115, CutIn_psi: 95, ShutOffAtHouse_psi: 150, HousePressure_psi: 80, SwitchWanted_psi: 80 }, 'pass'],
    [{ CutOut_psi: 115, CutIn_psi: 95, ShutOffAtHouse_psi: 150, HousePressure_psi: 80.1, SwitchWanted_psi: 80.1 }, 'stop'],
    // Gravity of 40 psi at a cut-in of 40 never lets the switch close.
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 90, GravityAtSwitch_psi: 40 }, 'check'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 90, GravityAtSwitch_psi: 40.1 }, 'check'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 90, GravityAtSwitch_psi: 39.9 }, 'pass'],
    // Common practice, no source: a valve set to 80 psi falls off by 10 while water flows.
    [{ CutOut_psi: 88, CutIn_psi: 70, ShutOffAtHouse_psi: 150, HousePressure_psi: 70, SwitchWanted_psi: 70, HouseStanding_psi: 88 }, 'pass'],
    [{ CutOut_psi: 88, CutIn_psi: 70, ShutOffAtHouse_psi: 150, HousePressure_psi: 70.1, SwitchWanted_psi: 70.1, HouseStanding_psi: 88 }, 'check'],
    [{ CutOut_psi: 80, CutIn_psi: 66, ShutOffAtHouse_psi: 150, HousePressure_psi: 72, SwitchWanted_psi: 72, HouseStanding_psi: 80 }, 'pass'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 60 }, 'stop'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 59 }, 'stop'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 60.1 }, 'check'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 64.9 }, 'check'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 65 }, 'pass'],
    [{ CutOut_psi: 60, ShutOffAtHouse_psi: 65.1 }, 'pass'],
    // Common practice, no source: no switch is set to less than 10 psi between its two.
    [{ CutIn_psi: 50, CutOut_psi: 60, ShutOffAtHouse_psi: 90 }, 'pass'],
    [{ CutIn_psi: 50.1, CutOut_psi: 60, ShutOffAtHouse_psi: 90 }, 'check'],
  ],
  // NEC 430.22: 125 % of 12 A is 15 A.
  AmpacityVerdict: [
    [{ CableAmpacity_A: 15, MotorCurrent_A: 12 }, 'pass'],
    [{ CableAmpacity_A: 15, MotorCurrent_A: 11.9 }, 'pass'],
    [{ CableAmpacity_A: 15, MotorCurrent_A: 12.1 }, 'stop'],
  ],
  // Common practice, no source: 5 % of 230 V is 11.5 V.
  SupplyVerdict: [
    [{ Voltage_V: 218.5, PumpVoltage_V: 230 }, 'pass'],
    [{ Voltage_V: 241.5, PumpVoltage_V: 230 }, 'pass'],
    [{ Voltage_V: 230, PumpVoltage_V: 230 }, 'pass'],
    [{ Voltage_V: 218, PumpVoltage_V: 230 }, 'stop'],
    [{ Voltage_V: 242, PumpVoltage_V: 230 }, 'stop'],
    // Three phases where there is one.
    [{ Voltage_V: 230, PumpVoltage_V: 230, PumpPhases: 3, SupplyPhases: 1 }, 'stop'],
    [{ Voltage_V: 230, PumpVoltage_V: 230, PumpPhases: 3, SupplyPhases: 3 }, 'pass'],
    [{ Voltage_V: 230, PumpVoltage_V: 230, PumpPhases: 1, SupplyPhases: 3 }, 'pass'],
  ],
  // NEC Table 300.5: 24 in over a direct-burial cable, 18 in over PVC conduit.
  TrenchVerdict: [
    [{ TrenchDepth_in: 25, CableThick_in: 1, CableCover_in: 24 }, 'pass'],
    [{ TrenchDepth_in: 25.1, CableThick_in: 1, CableCover_in: 24 }, 'pass'],
    [{ TrenchDepth_in: 24.9, CableThick_in: 1, CableCover_in: 24 }, 'stop'],
  ],
  ConduitCoverVerdict: [
    [{ ConduitHas_in: 18, ConduitCover_in: 18 }, 'pass'],
    [{ ConduitHas_in: 18.1, ConduitCover_in: 18 }, 'pass'],
    [{ ConduitHas_in: 17.9, ConduitCover_in: 18 }, 'stop'],
    [{ ConduitHas_in: 18, ConduitCover_in: 18, TrafficRank: 2 }, 'pass'],
    [{ ConduitHas_in: 17.9, ConduitCover_in: 18, TrafficRank: 2 }, 'stop'],
  ],
  StorageVerdict: [
    [record, 'pass'],
    [{ ...record, Reliability: 0.91 }, 'pass'],
    [{ ...record, Reliability: 0.89 }, 'check'],
    [{ ...record, RecordDryMonths: 1 }, 'check'],
    [{ ...record, RecordAgrees: 0 }, 'check'],
    [{ ...record, RecordYears: 0, Reliability: 1 }, 'check'],
    [{ ...record, YearDemand_gal: 0 }, 'check'],
    // Water under the intake is no storage.
    // Hydraulic Institute 9.8 (from memory): 4 in of sleeve at 8 gpm want 4 + 0.574 x 8 / 4^1.5 = 4.6 in over an intake at 4 in; a float is set to an inch.
    [{ ...record, DeadDepth_in: 9 }, 'pass'],
    [{ ...record, DeadDepth_in: 8 }, 'check'],
    [{ ...record, Submergence_in: 5.49 }, 'pass'],
    [{ ...record, Submergence_in: 5.51 }, 'check'],
  ],
  DrainVerdict: [
    [{ RoofFlow_gpm: 320, InletCount: 2, DrainCapacity_gpm: 160 }, 'pass'],
    // Common practice, no source: a foot over a drain.
    [{ DrainCover_in: 11.9, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'check'],
    [{ DrainCover_in: 0, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'check'],
    [{ RoofFlow_gpm: 319, InletCount: 2, DrainCapacity_gpm: 160 }, 'pass'],
    [{ RoofFlow_gpm: 321, InletCount: 2, DrainCapacity_gpm: 160 }, 'check'],
    [{ DrainCover_in: -0.1, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'stop'],
    // No drain lies in the ground: nothing covers it.
    [{ DrainCover_in: -0.1, InletRun_ft: 0, TrafficRank: 3, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'pass'],
    // Common practice, no source: a fifth, 2.4 in/ft, is steep for a drain.
    [{ InletSlope_in_per_ft: 2.4, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'pass'],
    [{ InletSlope_in_per_ft: 2.41, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'check'],
    // ASTM D2321 (from memory): 24 in under wheels of cars and trucks.
    [{ DrainCover_in: 24, TrafficRank: 2, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'pass'],
    [{ DrainCover_in: 23.9, TrafficRank: 2, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'check'],
    [{ DrainCover_in: 12, TrafficRank: 1, RoofFlow_gpm: 1, InletCount: 1, DrainCapacity_gpm: 160 }, 'pass'],
    [{ DrainCover_in: 30, TrafficRank: 3, RoofFlow_gpm: 161, InletCount: 1, DrainCapacity_gpm: 160 }, 'check'],
  ],
  PortVerdict: [
    [ports, 'pass'],
    [{ ...ports, OverflowCount: 3 }, 'pass'],
    [{ ...ports, OverflowCount: 1 }, 'check'],
    [{ ...ports, PortsShort: 1 }, 'stop'],
    [{ ...ports, OverflowCount: 0 }, 'stop'],
    // 4.026 in of bore are 0.3355 ft: the crown of a port at the water level lies below the lid.
    [{ ...ports, AirSpace_ft: 0.3355 }, 'pass'],
    [{ ...ports, AirSpace_ft: 0.335 }, 'check'],
    [{ ...ports, PortsUnasked: 1 }, 'check'],
    [{ ...ports, PortsShort: 1, PortsUnasked: 1 }, 'stop'],
  ],
  TieVerdict: [
    [{ ...storm, StormRise_ft: 0.67 }, 'pass'],
    [storm, 'pass'],
    [{ ...storm, StormRise_ft: 0.68 }, 'stop'],
    [{ ...storm, BlockedRise_ft: 0.67 }, 'pass'],
    [{ ...storm, BlockedRise_ft: 0.68 }, 'check'],
    [{ ...storm, OverflowCount: 1, BlockedRise_ft: 0 }, 'pass'],
  ],
  DaylightVerdict: [
    [outfall, 'pass'],
    [{ ...outfall, OutfallDepth_ft: -0.01 }, 'pass'],
    [{ ...outfall, OutfallDepth_ft: 0.01 }, 'stop'],
    [{ ...outfall, OutfallAssumed: 1, OutfallDepth_ft: -5 }, 'check'],
    // Common practice, no source: from a fifth, 2.4 in/ft, a drain is anchored.
    [{ ...outfall, OverflowSlope_in_per_ft: 2.4 }, 'pass'],
    [{ ...outfall, OverflowSlope_in_per_ft: 2.41 }, 'check'],
  ],
  // City of Chicago, Table 18-29-704.1: 1/8 in/ft from 3 to 6 in, 1/16 from 8 in.
  SlopeVerdict: [
    [{ DrainSlope_in_per_ft: 0.0625, DrainSize_in: 8 }, 'pass'],
    [{ DrainSlope_in_per_ft: 0.06, DrainSize_in: 8 }, 'check'],
    [{ DrainSlope_in_per_ft: 0.12, DrainSize_in: 6 }, 'check'],
    [{ DrainSlope_in_per_ft: 0.125 }, 'pass'],
    [{ DrainSlope_in_per_ft: 0.13 }, 'pass'],
    [{ DrainSlope_in_per_ft: 0.12 }, 'check'],
  ],
  // IPC 305.4 (from memory): 6 in below frost.
  FrostVerdict: [
    [frost, 'pass'],
    [{ ...frost, LineCover_in: 37 }, 'pass'],
    [{ ...frost, LineCover_in: 35.9 }, 'check'],
    [{ ...frost, LineCover_in: 29.9 }, 'stop'],
    // A drain in the frost runs empty at an eighth of an inch a foot, and stands in water where it is flatter.
    [{ ...frost, DrainCover_in: 29.9 }, 'pass'],
    [{ ...frost, DrainCover_in: 29.9, InletSlope_in_per_ft: 0.124 }, 'check'],
    [{ ...frost, DrainCover_in: 29.9, InletSlope_in_per_ft: 0.124, InletRun_ft: 0 }, 'pass'],
    // Water 29.9 in down lies within a frost of 30.
    [{ ...frost, WaterLevel_ft: 29.9 / 12 }, 'check'],
    [{ ...frost, FrostDepth_in: 0, DrainCover_in: 2 }, 'pass'],
  ],
  DutyVerdict: [
    [{ PumpHead_ftw: 150, TotalHead_ftw: 150, OffCurve: 0 }, 'pass'],
    [{ PumpHead_ftw: 150.1, TotalHead_ftw: 150, OffCurve: 0 }, 'pass'],
    [{ PumpHead_ftw: 149.9, TotalHead_ftw: 150, OffCurve: 0 }, 'stop'],
    [{ PumpHead_ftw: 200, TotalHead_ftw: 150, OffCurve: 1 }, 'stop'],
    // Gravity alone gives flow and pressure: nothing breaks, but no pump is needed.
    [{ PumpHead_ftw: 200, TotalHead_ftw: 0, OffCurve: 0 }, 'check'],
    // Past its curve a pump wears out, needed or not, unless it is left out.
    [{ PumpHead_ftw: 200, TotalHead_ftw: -0.1, OffCurve: 1 }, 'stop'],
    [{ PumpHead_ftw: 200, TotalHead_ftw: 0, OffCurve: 1, ByGravity: 1 }, 'pass'],
    [{ PumpHead_ftw: 200, TotalHead_ftw: 0.1, OffCurve: 0 }, 'pass'],
    // A pump that others set is no pump of this job.
    [{ PumpHead_ftw: 200, TotalHead_ftw: 0.1, OffCurve: 0, PumpLeftOut: 1 }, 'check'],
  ],
  // USDA NRCS 516 (from memory): 5 ft/s.
  VelocityVerdict: [
    [{ ActualVelocity_fps: 1, LineVelocity_fps: 5.01 }, 'check'],
    // Common practice, no source: 10 ft/s in short brass fittings.
    [{ ActualVelocity_fps: 1, FittingVelocity_fps: 10 }, 'pass'],
    [{ ActualVelocity_fps: 1, FittingVelocity_fps: 10.1 }, 'check'],
    [{ ActualVelocity_fps: 5 }, 'pass'],
    [{ ActualVelocity_fps: 4.99 }, 'pass'],
    [{ ActualVelocity_fps: 5.01 }, 'check'],
    // Common practice, no source: a fifth more for the moment after the pump cuts in.
    [{ ActualVelocity_fps: 1, MostVelocity_fps: 6 }, 'pass'],
    [{ ActualVelocity_fps: 1, MostVelocity_fps: 6.01 }, 'check'],
  ],
  PressureTankVerdict: [
    [{ PressureTank_gal: 52, PressureTankNeeded_gal: 0, FlowAtMean_gpm: 0, Starts_per_day: 0, StartsAllowed_per_day: 300 }, 'check'],
    [{ PressureTank_gal: 52, PressureTankNeeded_gal: 52, Starts_per_day: 300, StartsAllowed_per_day: 300 }, 'pass'],
    [{ PressureTank_gal: 53, PressureTankNeeded_gal: 52, Starts_per_day: 20, StartsAllowed_per_day: 300 }, 'pass'],
    [{ PressureTank_gal: 51, PressureTankNeeded_gal: 52, Starts_per_day: 20, StartsAllowed_per_day: 300 }, 'check'],
    [{ PressureTank_gal: 53, PressureTankNeeded_gal: 52, Starts_per_day: 301, StartsAllowed_per_day: 300 }, 'check'],
    // Common practice, no source: a minute.
    [{ PressureTank_gal: 53, PressureTankNeeded_gal: 52, Starts_per_day: 20, StartsAllowed_per_day: 300, LeastRun_min: 0.99 }, 'check'],
  ],
  // NEC 210.19, informational note: 3 %.
  DropVerdict: [
    [{ FeederDropShare: 0.03, DropLimit: 0.03 }, 'pass'],
    [{ FeederDropShare: 0.029, DropLimit: 0.03 }, 'pass'],
    [{ FeederDropShare: 0.031, DropLimit: 0.03 }, 'check'],
    // NEMA MG 1, from memory: nine tenths of the nameplate at the motor. 219 V less 7.19 % are 203.3 of 230.
    [{ FeederDropShare: 0.0719, DropLimit: 0.1, MotorShare: (219 * (1 - 0.0719)) / 230 }, 'check'],
    [{ FeederDropShare: 0.0719, DropLimit: 0.1, MotorShare: 0.9 }, 'pass'],
    // Common practice, no source: torque falls with the square of the voltage, at 0.8 to 64 %.
    [{ FeederDropShare: 0.2, DropLimit: 0.1, MotorShare: 0.8 }, 'check'],
    [{ FeederDropShare: 0.2, DropLimit: 0.1, MotorShare: 0.799 }, 'stop'],
  ],
  StartDropVerdict: [
    [{ StartDropShare: 0.15, StartDropLimit: 0.15 }, 'pass'],
    [{ StartDropShare: 0.149, StartDropLimit: 0.15 }, 'pass'],
    [{ StartDropShare: 0.151, StartDropLimit: 0.15 }, 'check'],
    // The same: at half of the voltage a quarter of the torque.
    [{ StartDropShare: 0.499, StartDropLimit: 0.15 }, 'check'],
    [{ StartDropShare: 0.5, StartDropLimit: 0.15 }, 'stop'],
  ],
  // NEC Chapter 9 Table 1: 31 % with two.
  FillVerdict: [
    [{ CableWide_in: 0.43, ConduitFill: 0.31 }, 'pass'],
    [{ CableWide_in: 0.43, ConduitFill: 0.3 }, 'pass'],
    [{ CableWide_in: 0.43, ConduitFill: 0.32 }, 'stop'],
    [{ CableWide_in: 0, ConduitFill: 0 }, 'check'],
    // The width of a third conductor is figured, not measured.
    [{ CableWide_in: 0.43, ConduitFill: 0.32, ConduitFillLeast: 0.31 }, 'check'],
    [{ CableWide_in: 0.43, ConduitFill: 0.95, ConduitFillLeast: 0.57 }, 'stop'],
  ],
  FittingsVerdict: [
    [fitting, 'pass'],
    [{ LineFit: 'CTS', LineFittings: 'CTS compression' }, 'pass'],
    [{ ...fitting, LineFittings: 'CTS compression' }, 'stop'],
    [{ LineFit: 'CTS', LineFittings: 'IPS insert' }, 'stop'],
  ],
  RunsVerdict: [
    [{ RunsAssumed: 0 }, 'pass'],
    [{ RunsAssumed: 1 }, 'check'],
    [{ RunsAssumed: 4 }, 'check'],
    // Along the ground nothing is shorter than it rises.
    [{ RunsAssumed: 0, RunsTooShort: 1 }, 'check'],
  ],
}

describe('each verdict at its limit, just inside and just beyond', () => {
  it('every verdict has its rows, three at least', () => {
    expect(verdictRules.map(({ name }) => name).filter((name) => (limits[name]?.length ?? 0) < 3)).toEqual([])
    expect(Object.keys(limits).filter((name) => !verdictRules.some((rule) => rule.name === name))).toEqual([])
  })
  for (const { name, rule } of verdictRules) {
    it(name, () => {
      for (const [given, expected] of limits[name] ?? []) {
        const value = formula(rule).evaluate({ value: (wanted) => given[wanted] ?? others[wanted] })
        expect(value, JSON.stringify(given)).toBe(expected)
      }
    })
  }
  it('a verdict with a name that is missing is no pass', () => {
    for (const { rule } of verdictRules) expect(formula(rule).evaluate({ value: () => undefined })).not.toBe('pass')
  })
})

/** Sentences that state figures and leave the word to the verdict. */
const plain: readonly string[] = ['UpliftVerdict', 'WeightVerdict', 'RatingVerdict', 'TrafficVerdict', 'PortVerdict', 'FrostVerdict', 'DutyVerdict', 'FillVerdict']

describe('the sentence of a verdict', () => {
  it('asks for more roof only where what is wanted is not met, by days as by means', () => {
    const cases = verdictRules.find(({ name }) => name === 'StorageVerdict')!.says as readonly (readonly [when: string, words: string])[]
    const said = (given: Readonly<Record<string, number>>) => {
      const all: Readonly<Record<string, number | string>> = {
        ...others,
        RecordAgrees: 1,
        YearDemand_gal: 1,
        WantedReliability: 0.9,
        ReliabilityLow: 0.7,
        ReliabilityHigh: 0.8,
        ...given,
      }
      return cases.find(([when]) => when === '' || formula(when).evaluate({ value: (wanted) => all[wanted] ?? 0 }) === true)![1]
    }
    expect(said({ RecordYears: 12, RoofShare: 0.89, Reliability: 0.89 })).toMatch(/More roof.*Worst year/)
    expect(said({ RecordYears: 12, RoofShare: 0.89, Reliability: 0.9 })).toMatch(/worst year/)
    expect(said({ RecordYears: 12, RoofShare: 0.89, Reliability: 0.9 })).not.toMatch(/[Mm]ore roof/)
    expect(said({ RecordYears: 12, RoofShare: 0.9, Reliability: 0.89 })).not.toMatch(/[Mm]ore roof/)
    expect(said({ RoofShare: 0.89 })).toMatch(/[Mm]ore roof/)
    expect(said({ RoofShare: 0.9 })).toMatch(/Means hide dry spells/)
  })
  it.each(verdictRules.filter(({ name, says }) => typeof says !== 'string' && !plain.includes(name)))('$name: what is said of a stop is said of nothing else', ({ name, says }) => {
    const cases = says as readonly (readonly [when: string, words: string])[]
    const verdictsOf = new Map<number, Set<string>>()
    for (const [given, verdict] of limits[name] ?? []) {
      const all: Readonly<Record<string, number | string>> = { ...others, ...given }
      const holds = (when: string) => when === '' || formula(when).evaluate({ value: (wanted) => all[wanted] ?? 0 }) === true
      const at = cases.findIndex(([when]) => holds(when))
      verdictsOf.set(at, (verdictsOf.get(at) ?? new Set()).add(verdict))
    }
    for (const [at, verdicts] of verdictsOf) expect(verdicts.has('stop') && verdicts.size > 1, `${cases[at]![1]} (${[...verdicts].join(', ')})`).toBe(false)
  })
})
