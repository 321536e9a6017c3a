/** Any job that an office may be asked for, within what it can build. */
import fc from 'fast-check'

export const jobs = fc.record({
  RoofArea_ft2: fc.integer({ min: 300, max: 12_000 }),
  People: fc.integer({ min: 0, max: 20 }),
  TankModel: fc.constantFrom('Quern 1200', 'Quern 1800', 'Quern 2600'),
  TankCount: fc.integer({ min: 1, max: 12 }),
  Cover_ft: fc.integer({ min: 0, max: 4 }),
  SoilClass: fc.constantFrom('rock', 'A', 'B', 'C'),
  GroundwaterDepth_ft: fc.integer({ min: 0, max: 40 }),
  RainIntensity_in_per_h: fc.integer({ min: 1, max: 8 }),
  InletRun_ft: fc.integer({ min: 0, max: 120 }),
  OverflowRun_ft: fc.integer({ min: 0, max: 120 }),
  OutfallDrop_ft: fc.integer({ min: 0, max: 20 }),
  WaterLineRise_ft: fc.integer({ min: -80, max: 60 }),
  HouseFlow_gpm: fc.integer({ min: 3, max: 12 }),
  HousePressure_psi: fc.integer({ min: 20, max: 50 }),
  EarthworkBy: fc.constantFrom('own crew', 'subcontract'),
  Markup: fc.constantFrom(0, 0.15, 0.2),
  Overhead: fc.constantFrom(0, 0.08),
  Tax: fc.constantFrom(0, 0.06, 0.0725),
})
