/** Site and contract figures that nobody may guess: where a row leaves one empty, no verdict that rests on it passes. */
import { jobFields, type JobFieldName } from './officeTables.js'

/** The field, and the name of the flag that says it was left empty. */
export const assumable = {
  InletRun_ft: 'InletRunAssumed',
  DownspoutRise_ft: 'DownspoutRiseAssumed',
  OverflowRun_ft: 'OverflowRunAssumed',
  WaterLineRun_ft: 'WaterLineRunAssumed',
  PowerRun_ft: 'PowerRunAssumed',
  WaterLineRise_ft: 'RiseAssumed',
  RainIntensity_in_per_h: 'RainIntensityAssumed',
  GroundwaterDepth_ft: 'GroundwaterAssumed',
  SoilClass: 'SoilAssumed',
  FootingAway_ft: 'FootingAssumed',
  FrostDepth_in: 'FrostAssumed',
  OutfallDrop_ft: 'OutfallAssumed',
  HouseFlow_gpm: 'HouseFlowAssumed',
  HousePressure_psi: 'HousePressureAssumed',
  BearingAllowed_psf: 'BearingAssumed',
} as const satisfies Partial<Record<JobFieldName, string>>
export type AssumedFlag = (typeof assumable)[keyof typeof assumable]

export const assumableFields = Object.keys(assumable) as (keyof typeof assumable)[]
export const runFields = ['InletRun_ft', 'OverflowRun_ft', 'WaterLineRun_ft', 'PowerRun_ft'] as const

/** What was left empty, in one sentence: the fields stand between. */
export const NOT_MEASURED = 'Not measured yet, and taken as is usual: '
export const AS_FOUND = 'price and work follow what is found.'

export const assumedLabel = (field: keyof typeof assumable): string => jobFields[field].label.toLowerCase()

/** What an assumed figure says for itself, behind a verdict that rests on it. */
export const assumedWords = (field: keyof typeof assumable): string => ` Not given: ${assumedLabel(field)}; find it out.`
