/**
 * A second job worked through by hand: three tanks with two openings each, riser sections that do not come out even,
 * class B, known groundwater. Waste, lots and hours a piece are the house figures of our own items (common practice, no source).
 */
import { describe, expect, it } from 'vitest'
import { leastRow, lineOf, takeoffOf } from '../support/office.js'

const takeoff = takeoffOf({
  ...leastRow,
  TankModel: 'Quern 2600',
  TankCount: 3,
  Cover_ft: 1.25,
  SoilClass: 'B',
  GroundwaterDepth_ft: 30,
  RainIntensity_in_per_h: 1,
  InletRun_ft: 30,
  OverflowRun_ft: 25,
  PumpModel: 'Lark 100',
  TankGap_in: 12,
})
const { design } = takeoff

// Tank 12 x 7 x 7 ft, walls 5 in, floor 6 in; two openings of 24 in. Gap 12 in, room 2 ft, bed 6 in, cover 1.25 ft.
const [pitLength, pitWidth, pitDepth] = [3 * 7 + 2 * 1 + 2 * 2, 12 + 2 * 2, 1.25 + 7 + 0.5]
// Class B slopes 1 to 1 (29 CFR 1926 Subpart P, Appendix B).
const [topLength, topWidth] = [pitLength + 2 * pitDepth, pitWidth + 2 * pitDepth]
const dig = ((pitDepth / 6) * (pitLength * pitWidth + 4 * (pitLength + pitDepth) * (pitWidth + pitDepth) + topLength * topWidth)) / 27
const bed = ((0.5 / 6) * (pitLength * pitWidth + 4 * (pitLength + 0.5) * (pitWidth + 0.5) + (pitLength + 1) * (pitWidth + 1))) / 27
// Line 6 + 9 in over the bed, stone 6 in over it: 21 in; its walls have spread by 0.5 + 10.5/12 ft at half its height; what the corners widen beyond that section is a sixth of the cube of 21 in.
const spread = 0.5 + 10.5 / 12
const pumpEnd = (((2 + spread) * (pitWidth + 2 * spread) * 21) / 12 + (21 / 12) ** 3 / 6) / 27
// Two gaps of 12 in, filled to the top of the ties: 6 in of floor, 6 in to their centre, half of 4.5 in.
const ties = (2 * 12 * (14.25 / 12)) / 27
// Two risers a tank of 24 in and walls of 3 in through the cover.
// The pit's edge stands 2 + 8.75 ft from the tanks: what lies within it is dug with the pit. 6 in of topsoil over the pit top, and over the trenches, 18 in wide.
const edge = 2 + pitDepth
const trench_ft = 100 + 30 + 25 - 3 * edge
// Ports 1.25 + 7 - 0.5 - 5.25 ft down, 4 in of bedding under the drains; 1/4 in/ft up to the downspouts and down to the outfall, on level ground.
const [foot, inletEnd, outfall] = [2.5 + 4 / 12, 2.5 - (30 * 0.25) / 12 + 4 / 12, 2.5 + (25 * 0.25) / 12 + 4 / 12]
const drainDig = (1.5 * ((30 - edge) * (foot + ((inletEnd - foot) * edge) / 30 + inletEnd) + (25 - edge) * (foot + ((outfall - foot) * edge) / 25 + outfall))) / 2 / 27
// 4 in under, 6 in over a pipe of 4.5 in.
const section = (1.5 * (4 + 4.5 + 6)) / 12 / 27
const pitTopsoil = (topLength * topWidth * 0.5) / 27
const trenchTopsoil = (trench_ft * 1.5 * 0.5) / 27
const backfill = dig - pitTopsoil - bed - pumpEnd - (3 * 12 * 7 * 7) / 27 - (3 * 2 * (Math.PI / 4) * 2.5 ** 2 * 1.25) / 27 - 2 * edge * section
// 40 yd³ an hour dug, and of topsoil put back; filled, and stone of the pit placed, no faster than a plate compacts, 120 a day of 8 hours; trenches by the foot with all that goes into them.
const excavator_h = (dig + pitTopsoil) / 40 + (backfill + bed + pumpEnd) / 15 + trench_ft / 60
const conduit = 12 + 2 + 36 / 12
const feeder = 100 + conduit + 1.25 + 7 + 10
const storage_gal = (((12 - 10 / 12) * (7 - 10 / 12) * 5.25 * 1728) / 231) * 3

/** Code, net quantity, waste, lot, hours a piece. */
const lines: readonly (readonly [code: string, net: number, waste: number, lot: number, hours: number])[] = [
  ['LAYOUT', 1, 0, 1, 2],
  ['STRIP', pitTopsoil + trenchTopsoil, 0, 1, 0.01],
  ['DIG', dig - pitTopsoil, 0, 1, 0.02],
  ['TRENCH-LINE', ((100 - edge) * 1.5 * 3) / 27, 0, 1, 0.24],
  ['TRENCH-DRAIN', drainDig, 0, 1, 0.2],
  ['FENCE', 2 * (topLength + topWidth) + 8 * 2, 0, 50, 0.01],
  // 29 CFR 1926.651(c)(2): 25 ft either way along the working room round the row, 2 x (27 + 16) = 86 ft; no trench is 4 ft deep.
  ['LADDER', Math.ceil((2 * (pitLength + pitWidth)) / 50), 0, 1, 0.25],
  ['TANK', 3, 0, 1, 1.5],
  // 1.25 ft of cover is two sections of a foot.
  ['RISER', 3 * 2 * 2, 0, 1, 0.2],
  ['RISER-LID', 3 * 2, 0, 1, 0.1],
  ['MASTIC', 3 * 2 * 2 * Math.PI * 2, 0.1, 15, 0],
  ['SIGN', 3 * 2 + 1, 0, 1, 0.1],
  ['VENT', 3, 0, 1, 0.5],
  // 50 mg/L with 5.25 % weight by volume (52,500 mg/L), eight pints a gallon.
  ['DOSE', (storage_gal * 50 * 8) / 52_500, 0, 4, 0.05],
  // Gap 12, two walls of 5, two stubs of 3: 28 in.
  ['TIE-PIPE', (2 * 28) / 12, 0.05, 10, 0.1],
  ['TIE-BOOT', 4, 0, 1, 0.15],
  ['TIE-CLAMP', 4, 0, 1, 0.1],
  ['PORT-STUB', 2 * 1.5, 0.05, 10, 0.1],
  ['PORT-BEND', 2, 0, 1, 0.2],
  ['DRAIN-PVC 40', 30 + 25, 0.05, 10, 0.04],
  ['DRAIN-BEND', 4, 0, 1, 0.15],
  ['DRAIN-CLEANOUT', 1, 0, 1, 0.3],
  ['CALM', 1, 0, 1, 0.75],
  // Four joints at each of two ports, and 60 ft of drain in sticks of 10 ft; a set makes 40.
  ['PVC-CEMENT', (2 * 4 + 6) / 40, 0, 1, 0],
  // 90 ft of run, 2 ft of slack, 3 ft of drop pipe.
  ['PE-PE IPS 200-1', 90 + 2 + 3, 0.02, 100, 0.02],
  ['CLAMP', 8, 0, 10, 0.05],
  ['TAPE', 90 + 100, 0.05, 1000, 0],
  ['PULL-ROD', 1.25 + 7 - 15 / 12, 0, 5, 0.1],
  ['SAFETY-ROPE', 1.25 + 7 + 3, 0, 25, 0],
  ['FLOAT-CABLE', feeder, 0.05, 25, 0.01],
  ['CONDUIT-1', conduit, 0.05, 10, 0.08],
  ['ELECTRICIAN', 4, 0, 1, 0],
  ['PLATE', 6, 0, 1, 0.2],
  ['PLUG', 2 * 2 + 2, 0, 1, 0.1],
  ['VACUUM', 3, 0, 1, 0.75],
  ['EXCAVATOR', excavator_h, 0, 4, 0],
  ['STONE-TIE', (ties * 1.12 * 2600) / 2000, 0.1, 1, 0.1],
  // An hour a tank for the crane, a quarter of a day a tank for its test: 3 x (1/8 + 1/4) = 1.125 days; one more when the line is joined. An attendant's two hours a day.
  ['GAS-METER', 3, 0, 1, 2],
  ['CRANE', 3, 0, 2, 0],
  // One tank of 28,500 lb to a truck of 44,000.
  ['HAUL-TANKS', 3, 0, 1, 0],
]

describe('what a depth asks for', () => {
  // 29 CFR 1926.652(a)(1): protection from 5 ft of trench; 1926.651(c)(2): a ladder from 4 ft.
  it.each([
    [59, false],
    [60, true],
  ])('a trench of %i in: box %s', (TrenchDepth_in, boxed) => {
    const { lines } = takeoffOf({ ...leastRow, TankModel: 'Quern 1200', Cover_ft: 0.5, InletRun_ft: 0, OverflowRun_ft: 0, TrenchDepth_in, RainIntensity_in_per_h: 1 })
    expect(lines.some(({ code }) => code === 'TRENCH-BOX')).toBe(boxed)
    // The pit of 0.5 + 6 + 0.5 ft asks for a ladder in any case.
    expect(lines.some(({ code }) => code === 'LADDER')).toBe(true)
  })
})

describe('three tanks with two openings each, by hand', () => {
  it.each(lines)('%s', (code, net, waste, lot, hours) => {
    const line = lineOf(takeoff, code)!
    // Sums of products in another order: the last digits of a double.
    expect(line.net).toBeCloseTo(net, 9)
    expect(line.order).toBeCloseTo(Math.ceil((net * (1 + waste)) / lot - 1e-9) * lot, 9)
    expect(line.hours).toBeCloseTo(net * hours, 9)
  })
  it('lifts, pulls and presses as worked out here', () => {
    // Two legs counted at 60 degrees (29 CFR 1926.251; sling tables): weight / (2 sin 60°).
    expect(design.number('LegPull_lb')).toBeCloseTo(28_500 / (2 * Math.sin(Math.PI / 3)), 6)
    // 4 inHg of 0.4912 psi each (NIST SP 811, inch of mercury at 32 °F 3,386.38 Pa) on a plate of 24 in; four digits are given.
    expect(design.number('PlateForce_lbf') / (4 * 0.4912 * (Math.PI / 4) * 24 ** 2)).toBeCloseTo(1, 3)
    // Lark 100 stands at 254 ft at shut-off: 2.31 ft a psi (Hydraulic Institute).
    expect(design.number('ShutOff_psi')).toBeCloseTo(254 / 2.31, 9)
    // At 8 gpm between (6, 236) and (11, 208): 236 - 2 x 28 / 5.
    expect(design.number('PumpHead_ftw')).toBeCloseTo(236 - (2 * 28) / 5, 9)
    expect(design.number('PlugCount')).toBe(6)
    expect(design.number('OpeningCount')).toBe(6)
  })
})
