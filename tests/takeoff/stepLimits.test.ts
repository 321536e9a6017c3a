/**
 * Each condition of a crew step and of a caution at its limit, on both sides, and each wording where it is said: what the limit is stands in
 * JOB and the published rules beside the verdicts; whether a step is there at all is common practice, no source. A condition without such
 * rows turns this red.
 */
import { describe, expect, it } from 'vitest'
import { formula } from '../../src/formula/formula.js'
import type { Value } from '../../src/formula/value.js'
import { cautionRules } from '../../src/takeoff/cautions.js'
import { crewSteps } from '../../src/takeoff/crewSteps.js'
import type { Words } from '../../src/takeoff/template.js'

type Given = Readonly<Record<string, Value>>
/** A name that a row says nothing of is none that the condition rests on. */
const worked = (text: string, given: Given): Value => formula(text).evaluate({ value: (name) => given[name] })

/** Groundwater is read off the row, the bed of the inlet drain lies 4 ft down. */
const groundwater = { PitWater: 'wet', GroundwaterDepth_ft: 4, DrainFoot_ft: 4 }
const unknownWater = { ...groundwater, PitWater: 'not known' }
const floating = { PitWater: 'dry', WaterAboveBase_ft: 0, FloatDepth_ft: 6, TankHeight_ft: 6 }
const ballast = { PitWater: 'dry', WaterAboveBase_ft: 0.1, Ballast_in: 1 }
/** On both sides of the limit: the given figures, and whether it is said. */
const conditions: Readonly<Record<string, readonly (readonly [given: Given, isSaid: boolean])[]>> = {
  A4: [
    [{ PitWater: 'wet' }, true],
    [{ PitWater: 'not known' }, true],
    [{ PitWater: 'dry' }, false],
  ],
  E9: [
    [{ ByGravity: 0 }, true],
    [{ ByGravity: 1 }, false],
  ],
  K1: [
    [{ ByGravity: 0 }, true],
    [{ ByGravity: 1 }, false],
  ],
  F1: [
    [{ ByGravity: 0 }, true],
    [{ ByGravity: 1 }, false],
  ],
  F2: [
    [{ ByGravity: 0 }, true],
    [{ ByGravity: 1 }, false],
  ],
  H3: [
    [{ ByGravity: 0 }, true],
    [{ ByGravity: 1 }, false],
  ],
  electricity: [
    [{ ByGravity: 0 }, true],
    [{ ByGravity: 1 }, false],
  ],
  relief: [
    [{ ByGravity: 0 }, true],
    [{ ByGravity: 1 }, false],
  ],
  E11: [
    [{ ByGravity: 0 }, false],
    [{ ByGravity: 1 }, true],
  ],
  H7: [
    [{ ByGravity: 0 }, false],
    [{ ByGravity: 1 }, true],
  ],
  H8: [
    [{ ByGravity: 0 }, false],
    [{ ByGravity: 1 }, true],
  ],
  A5: [
    [{ PitEngineered: 1 }, true],
    [{ PitEngineered: 0 }, false],
  ],
  A7: [
    [{ PitWater: 'dry' }, true],
    [{ PitWater: 'not known' }, false],
    [{ PitWater: 'wet' }, false],
  ],
  B1: [
    [{ PitEngineered: 0 }, true],
    [{ PitEngineered: 1 }, false],
  ],
  B2: [
    [{ PitEngineered: 0, Batter: 0.1 }, true],
    [{ PitEngineered: 0, Batter: 0 }, false],
    [{ PitEngineered: 1, Batter: 1 }, false],
  ],
  B4: [
    [{ PitEngineered: 0, Batter: 0 }, true],
    [{ PitEngineered: 0, Batter: 0.1 }, false],
    [{ PitEngineered: 1, Batter: 0 }, false],
  ],
  B6: [
    [{ PitEngineered: 1 }, true],
    [{ PitEngineered: 0 }, false],
  ],
  B7: [
    [{ PitLaddered: 1 }, true],
    [{ PitLaddered: 0 }, false],
  ],
  C1: [
    [{ TankCount: 2 }, true],
    [{ TankCount: 1 }, false],
  ],
  C2: [
    [{ TankCount: 2 }, true],
    [{ TankCount: 1 }, false],
  ],
  C3: [
    [{ TankCount: 2 }, true],
    [{ TankCount: 1 }, false],
  ],
  C5: [
    [{ TankCount: 1 }, true],
    [{ TankCount: 2 }, false],
  ],
  C6: [
    [{ TankCount: 1 }, true],
    [{ TankCount: 2 }, false],
  ],
  C8: [
    [{ SecondTanks: 1 }, true],
    [{ SecondTanks: 0 }, false],
  ],
  E8: [
    [{ LineBeyond_ft: 0.1 }, true],
    [{ LineBeyond_ft: 0 }, false],
  ],
  // A reducer stands where drain and port differ, a wye where more than one port of a kind hangs on a drain.
  I4: [
    [{ DrainSize_in: 6, TankPort_in: 4, PortsUsed: 2, InletCount: 1 }, true],
    [{ DrainSize_in: 4, TankPort_in: 4, PortsUsed: 3, InletCount: 1 }, true],
    [{ DrainSize_in: 4, TankPort_in: 4, PortsUsed: 2, InletCount: 1 }, false],
  ],
  G10: [
    [{ FrostDepth_in: 31, WaterLevel_ft: 2.5 }, true],
    [{ FrostDepth_in: 30, WaterLevel_ft: 2.5 }, false],
    [{ FrostDepth_in: 0, WaterLevel_ft: -0.1 }, false],
  ],
  E1: [
    [{ LineFittings: 'IPS insert' }, true],
    [{ LineFittings: 'CTS compression' }, false],
  ],
  E2: [
    [{ LineFittings: 'CTS compression' }, true],
    [{ LineFittings: 'IPS insert' }, false],
  ],
  E6: [
    [{ Siphons: 1 }, true],
    [{ Siphons: 0 }, false],
  ],
  E12: [
    [{ ByGravity: 1 }, true],
    [{ ByGravity: 0 }, false],
  ],
  G1: [
    [ballast, true],
    [{ ...ballast, WaterAboveBase_ft: 0 }, false],
    [{ ...ballast, WaterAboveBase_ft: 0, PitWater: 'not known' }, true],
    [{ ...ballast, Ballast_in: 0 }, false],
  ],
  // The pit pump stops once the tanks are covered, where groundwater stays under the bed of the drains; else it runs until they lie.
  G4: [
    [groundwater, true],
    [{ ...groundwater, GroundwaterDepth_ft: 3.9 }, false],
    [unknownWater, false],
    [{ ...groundwater, PitWater: 'dry' }, false],
  ],
  G8: [
    [{ ...groundwater, GroundwaterDepth_ft: 3.9 }, true],
    [groundwater, false],
    [unknownWater, true],
    [{ ...groundwater, GroundwaterDepth_ft: 3, PitWater: 'dry' }, false],
  ],
  I2: [
    [{ InletBeyond_ft: 1, OverflowBeyond_ft: 0 }, true],
    [{ InletBeyond_ft: 0, OverflowBeyond_ft: 1 }, true],
    [{ InletBeyond_ft: 0, OverflowBeyond_ft: 0 }, false],
  ],
  I3: [
    [{ FilterShare: 0.99 }, true],
    [{ FilterShare: 1 }, false],
  ],
  // IPC 604.8 from memory: a reducing valve over 80 psi standing.
  K2: [
    [{ HouseStanding_psi: 80.1, HouseMost_psi: 80 }, true],
    [{ HouseStanding_psi: 80, HouseMost_psi: 80 }, false],
  ],
  K3: [
    [{ TreatmentLoss_psi: 0.1 }, true],
    [{ TreatmentLoss_psi: 0 }, false],
  ],
  K4: [
    [{ Backflow: 'preventer' }, true],
    [{ Backflow: 'air gap' }, true],
    [{ Backflow: 'none' }, false],
  ],
  H6: [
    [{ FrostDepth_in: 1 }, true],
    [{ FrostDepth_in: 0 }, false],
  ],
  'deep pit': [
    [{ PitEngineered: 1 }, true],
    [{ PitEngineered: 0 }, false],
  ],
  'pit walls': [
    [{ PitProtected: 1 }, true],
    [{ PitProtected: 0 }, false],
  ],
  // 29 CFR 1926.652(a)(1)(ii): protection from 5 ft.
  'trench walls': [
    [{ DeepestTrench_ft: 5 }, true],
    [{ DeepestTrench_ft: 4.99 }, false],
  ],
  'wet trench': [
    [{ TrenchWet: 1 }, true],
    [{ TrenchWet: 0 }, false],
  ],
  rock: [
    [{ SoilClass: 'rock' }, true],
    [{ SoilClass: 'A' }, false],
  ],
  footings: [
    [{ PitLaddered: 1, TrenchUnder_in: 0 }, true],
    [{ PitLaddered: 0, TrenchUnder_in: 0.1 }, true],
    [{ PitLaddered: 0, TrenchUnder_in: 0 }, false],
  ],
  flotation: [
    [floating, false],
    [{ ...floating, FloatDepth_ft: 5.9 }, true],
    [{ ...floating, WaterAboveBase_ft: 0.1 }, true],
    [{ ...floating, PitWater: 'not known' }, true],
  ],
  // 29 CFR 1926.651(c)(2): a way out from 4 ft; (j)(2): spoil 2 ft back; (k)(1): looked at daily.
  spoil: [
    [{ PitLaddered: 0, DeepestTrench_ft: 4 }, true],
    [{ PitLaddered: 0, DeepestTrench_ft: 3.99 }, false],
    [{ PitLaddered: 1, DeepestTrench_ft: 2 }, true],
  ],
  'daily inspection': [
    [{ PitLaddered: 1 }, true],
    [{ PitLaddered: 0 }, false],
  ],
  siphon: [
    [{ HouseBelow_ft: 0.1 }, true],
    [{ HouseBelow_ft: 0 }, false],
  ],
  // Texas manual on rainwater harvesting: what stands on asphalt, gravel and soil is not for drinking.
  'roof surface': [
    [{ People: 1, CatchSurface: ['flat gravel'] }, true],
    [{ People: 1, CatchSurface: ['smooth membrane', 'asphalt shingle'] }, true],
    [{ People: 1, CatchSurface: ['compacted soil'] }, true],
    [{ People: 1, CatchSurface: ['smooth membrane', 'metal'] }, false],
    [{ People: 0, CatchSurface: ['flat gravel'] }, false],
  ],
  'ground water': [
    [{ GroundwaterAssumed: 0, GroundwaterDepth_ft: 2.4, WaterLevel_ft: 2.5 }, true],
    [{ GroundwaterAssumed: 0, GroundwaterDepth_ft: 2.5, WaterLevel_ft: 2.5 }, false],
    [{ GroundwaterAssumed: 1, GroundwaterDepth_ft: 1, WaterLevel_ft: 2.5 }, false],
  ],
  ice: [
    [{ FrostDepth_in: 31, WaterLevel_ft: 2.5 }, true],
    [{ FrostDepth_in: 30, WaterLevel_ft: 2.5 }, false],
    [{ FrostDepth_in: 0, WaterLevel_ft: -0.1 }, false],
  ],
  'closed system': [
    [{ Backflow: 'preventer', HouseStanding_psi: 60, HouseMost_psi: 80 }, true],
    [{ Backflow: 'air gap', HouseStanding_psi: 80.1, HouseMost_psi: 80 }, true],
    [{ Backflow: 'none', HouseStanding_psi: 80, HouseMost_psi: 80 }, false],
  ],
}

const tanks = [
  [{ TankCount: 1 }, 0],
  [{ TankCount: 2 }, 1],
] as const
const vacuum = { TestVacuum_inHg: 4, VacuumAllowed_inHg: 4, TankCount: 2 }
const treated = [
  [{ TreatmentLoss_psi: 1 }, 0],
  [{ TreatmentLoss_psi: 0 }, 1],
] as const
const dryBallast = { Ballast_in: 1, BallastMost_in: 2, PitWater: 'dry', WaterAboveBase_ft: 1 }
/** Which wording is said, counted from 0: text and figure of a step apart. */
const wordings: Readonly<Record<string, readonly (readonly [given: Given, at: number])[]>> = {
  'A4 text': [
    [{ PitWater: 'not known' }, 0],
    [{ PitWater: 'wet' }, 1],
  ],
  'B2 text': [
    [{ PitSoil: 'C' }, 0],
    [{ PitSoil: 'B' }, 1],
  ],
  'C3 text': [
    [{ NextPorts: 1 }, 0],
    [{ NextPorts: 0 }, 1],
  ],
  'C7 text': [
    [{ RiserOver_in: 1, RimProud_in: 0 }, 0],
    [{ RiserOver_in: 1, RimProud_in: 1 }, 1],
    [{ RiserOver_in: 0, RimProud_in: 0 }, 2],
    [{ RiserOver_in: 0, RimProud_in: 1 }, 3],
  ],
  'D2 text': [
    [{ ...vacuum, TestVacuum_inHg: 4.01 }, 0],
    [{ ...vacuum, TankCount: 1 }, 1],
    [vacuum, 2],
  ],
  'D2 figure': [
    [{ ...vacuum, TestVacuum_inHg: 4.01 }, 0],
    [vacuum, 1],
  ],
  'C8 text': [
    [{ SecondTanks: 1 }, 0],
    [{ SecondTanks: 2 }, 1],
  ],
  'E5 figure': [
    [{ LineTestAtTank_psi: 40, LinePressureMost_psi: 41 }, 0],
    [{ LineTestAtTank_psi: 41, LinePressureMost_psi: 41 }, 1],
  ],
  'I4 text': [
    [{ DrainSize_in: 6, TankPort_in: 4, PortsUsed: 3, InletCount: 1 }, 0],
    [{ DrainSize_in: 6, TankPort_in: 4, PortsUsed: 2, InletCount: 1 }, 1],
    [{ DrainSize_in: 4, TankPort_in: 4, PortsUsed: 3, InletCount: 1 }, 2],
  ],
  'D5 text': tanks,
  'D5 figure': tanks,
  'E3 text': [
    [{ LineBed_in: 1 }, 0],
    [{ LineBed_in: 0 }, 1],
  ],
  'E8 text': [
    [{ LineDeeper_ft: 0.1, LineProtected: 1, TrenchBoxed: 0 }, 0],
    [{ LineDeeper_ft: 0, LineProtected: 1, TrenchBoxed: 0 }, 1],
    [{ LineDeeper_ft: 0, LineProtected: 1, TrenchBoxed: 1 }, 2],
    [{ LineDeeper_ft: 0, LineProtected: 0, TrenchBoxed: 0 }, 3],
  ],
  'G1 text': tanks,
  'G1 figure': tanks,
  'G2 text': [
    [{ TankCount: 2 }, 0],
    [{ TankCount: 1 }, 1],
  ],
  'G7 text': [
    [{ ByGravity: 1 }, 0],
    [{ ByGravity: 0 }, 1],
  ],
  'siphon text': [
    [{ ByGravity: 1, CrestUnderFull_ft: 1 }, 0],
    [{ ByGravity: 0, CrestUnderFull_ft: 0.1 }, 1],
    [{ ByGravity: 0, CrestUnderFull_ft: 0 }, 2],
  ],
  'H2 text': treated,
  'H4 text': treated,
  'H5 text': [
    [ballast, 0],
    [{ ...ballast, WaterAboveBase_ft: 0, PitWater: 'not known' }, 0],
    [{ ...ballast, WaterAboveBase_ft: 0 }, 1],
    [{ ...ballast, Ballast_in: 0 }, 1],
  ],
  'I1 text': [
    [{ InletRun_ft: 0, OverflowRun_ft: 0, FirstWash_gal: 1 }, 0],
    [{ InletRun_ft: 1, OverflowRun_ft: 0, FirstWash_gal: 1 }, 1],
    [{ InletRun_ft: 0, OverflowRun_ft: 1, FirstWash_gal: 0 }, 2],
  ],
  'I2 text': [
    [{ DrainsProtected: 1, TrenchBoxed: 0 }, 0],
    [{ DrainsProtected: 1, TrenchBoxed: 1 }, 1],
    [{ DrainsProtected: 0, TrenchBoxed: 0 }, 2],
  ],
  'I3 figure': [
    [{ FilterFall_in: 1 }, 0],
    [{ FilterFall_in: 0 }, 1],
  ],
  'K4 text': [
    [{ Backflow: 'air gap' }, 0],
    [{ Backflow: 'preventer' }, 1],
  ],
  'pit walls text': [
    [{ PitSoil: 'C', Batter: 1.5 }, 0],
    [{ PitSoil: 'A', Batter: 0 }, 1],
    [{ PitSoil: 'B', Batter: 1 }, 2],
  ],
  'trench walls text': [
    [{ TrenchBoxed: 0 }, 0],
    [{ TrenchBoxed: 1 }, 1],
  ],
  'footings text': [
    [{ PitLaddered: 1, TrenchUnder_in: 1 }, 0],
    [{ PitLaddered: 0, TrenchUnder_in: 1 }, 1],
    [{ PitLaddered: 1, TrenchUnder_in: 0 }, 2],
  ],
  'flotation text': [
    [{ ...dryBallast, Ballast_in: 2.1, PitWater: 'not known' }, 0],
    [{ ...dryBallast, Ballast_in: 2.1 }, 1],
    [{ ...dryBallast, Ballast_in: 2, PitWater: 'not known' }, 2],
    [{ ...dryBallast, WaterAboveBase_ft: 0 }, 3],
    [{ ...dryBallast, Ballast_in: 0 }, 4],
    [dryBallast, 5],
  ],
  'traffic text': [
    [{ TrafficRank: 2, TrafficAllowed: 1 }, 0],
    [{ TrafficRank: 2, TrafficAllowed: 2 }, 1],
    [{ TrafficRank: 1, TrafficAllowed: 2 }, 2],
  ],
  'drinking water text': [
    [{ People: 1, TreatmentLoss_psi: 0 }, 0],
    [{ People: 1, TreatmentLoss_psi: 1 }, 1],
    [{ People: 0, TreatmentLoss_psi: 0 }, 1],
  ],
}

const rules = [
  ...crewSteps.map(({ code, when, text, figure }) => ({ name: code, when, text, figure })),
  ...cautionRules.map(({ name, when, text }) => ({ name, when, text, figure: '' as Words })),
]

describe('a condition of a step or a caution', () => {
  it.each(Object.keys(conditions))('%s', (name) => {
    const { when } = rules.find((rule) => rule.name === name)!
    for (const [given, isSaid] of conditions[name]!) expect(worked(when, given), `${when} with ${JSON.stringify(given)}`).toBe(isSaid)
  })
  it('has rows on both sides, each of them', () => {
    for (const { name, when } of rules) if (when !== 'TRUE') expect(new Set(conditions[name]?.map(([, isSaid]) => isSaid)), `${name}: ${when}`).toEqual(new Set([true, false]))
  })
})

describe('a hazard that acts at one stage in this job and at another in the next', () => {
  // 29 CFR 1926.652(a)(1)(ii): from 5 ft; 1926.651(h)(1): water in the trench itself.
  const given = { LineProtected: 0, LineDeep_ft: 3, DrainsProtected: 0, GroundwaterDepth_ft: 4, DrainDeepest_ft: 3 }
  it.each([
    ['trench walls', 'Water line', { LineProtected: 1 }],
    ['trench walls', 'Water line', { LineDeep_ft: 5 }],
    ['trench walls', 'Drains', { DrainsProtected: 1 }],
    ['wet trench', 'Water line', { LineDeep_ft: 4.1 }],
    ['wet trench', 'Drains', { DrainDeepest_ft: 4.1 }],
  ] as const)('%s at %s: %o', (name, stage, more) => {
    const { onlyWhen, stages } = cautionRules.find((rule) => rule.name === name)!
    expect(stages).toContain(stage)
    expect(worked(onlyWhen[stage]!, given)).toBe(false)
    expect(worked(onlyWhen[stage]!, { ...given, ...more })).toBe(true)
  })
})

describe('a wording of a step or a caution', () => {
  const all = rules.flatMap(({ name, text, figure }) => [[`${name} text`, text] as const, [`${name} figure`, figure] as const]).filter(([, words]) => typeof words !== 'string')
  it.each(all)('%s is said where its figures say so, and each of them somewhere', (name, words) => {
    const cases = words as Exclude<Words, string>
    const rows = wordings[name] ?? []
    for (const [given, at] of rows)
      expect(
        cases.findIndex(([when]) => when === '' || worked(when, given) === true),
        `${name} with ${JSON.stringify(given)}`,
      ).toBe(at)
    expect(new Set(rows.map(([, at]) => at)), name).toEqual(new Set(cases.keys()))
  })
})
