/** The three jobs that the tests work by hand; Calc recalculates them too. */
import type { RawOffice } from '../../src/takeoff/office.js'
import type { TableName } from '../../src/takeoff/officeTables.js'
import { officeWith } from './office.js'

export interface WorkedRow {
  row: Readonly<Record<string, unknown>>
  more?: Partial<Record<TableName, readonly Readonly<Record<string, unknown>>[]>>
  days?: readonly [string, number][]
}
const whole2001 = Array.from({ length: 365 }, (_, at): [string, number] => [new Date(Date.UTC(2001, 0, 1 + at)).toISOString().slice(0, 10), at === 0 ? 1 : 0])
/** What was found on each of these sites. */
export const given = {
  InletRun_ft: 20,
  OverflowRun_ft: 20,
  WaterLineRun_ft: 90,
  PowerRun_ft: 100,
  WaterLineRise_ft: 5,
  FrostDepth_in: 0,
  OutfallDrop_ft: 9,
  HouseFlow_gpm: 8,
  HousePressure_psi: 45,
}

export const shallow: WorkedRow = {
  row: {
    ...given,
    Job: 'A',
    RoofArea_ft2: 1000,
    RainStation: 'Low Fallow',
    People: 1,
    UsePerPerson_gal_per_day: 10,
    TankModel: 'Quern 1200',
    TankCount: 1,
    Cover_ft: 1,
    SoilClass: 'C',
    GroundwaterDepth_ft: 60,
    RainIntensity_in_per_h: 3,
    DailyProof: 'yes',
  },
  days: whole2001,
}
export const wetPit: WorkedRow = {
  row: {
    ...given,
    Job: 'B',
    RoofArea_ft2: 2250,
    RainStation: 'Low Fallow',
    People: 3,
    TankModel: 'Quern 1800',
    TankCount: 4,
    Cover_ft: 2,
    SoilClass: 'C',
    GroundwaterDepth_ft: 2.5,
    RainIntensity_in_per_h: 3.85,
    InletTanks: 1,
    DrainSize_in: 4,
  },
}
export const lowHouse: WorkedRow = {
  row: {
    ...given,
    Job: 'C',
    RoofArea_ft2: 2000,
    RainStation: 'Low Fallow',
    People: 2,
    TankModel: 'Quern 1800',
    TankCount: 2,
    Cover_ft: 2,
    SoilClass: 'B',
    GroundwaterDepth_ft: 60,
    RainIntensity_in_per_h: 2,
    WaterLineRise_ft: -40,
    PumpModel: 'Lark 50',
    HousePressure_psi: 40,
    CutIn_psi: 30,
    CutOut_psi: 50,
  },
  more: {
    Catchments: [{ Job: 'C', Area_ft2: 1000, Surface: 'tile', Inlet: 'next' }],
    Uses: [{ Job: 'C', Use: 'Garden', Jun_gal_per_day: 50, Jul_gal_per_day: 80, Aug_gal_per_day: 80 }],
  },
}

/** The demo's office with these jobs alone, and with the days of rain of the first that has some. */
export function officeOf(jobs: readonly WorkedRow[]): RawOffice {
  const raw = officeWith({ ...Object.assign({}, ...jobs.map(({ more }) => more ?? {})), Jobs: jobs.map(({ row }) => row) })
  const days = jobs.find((job) => job.days)?.days
  return days
    ? { ...raw, RainDays: { sheet: 'RainDays', columns: ['Date', 'Low Fallow'], rows: days.map(([Date, rain], at) => ({ row: 6 + at, cells: { Date, 'Low Fallow': rain } })) } }
    : raw
}
