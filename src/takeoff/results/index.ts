/**
 * The engineering of a job as named results: each a spreadsheet formula over fields, table columns, cell
 * functions and other results. The Design sheet writes them live; the pane and the takeoff evaluate them.
 */
import { cite } from '../../sources.js'
import { monthNames, trafficKinds } from '../officeTables.js'
import { heightResults } from './heights.js'
import { lineResults } from './line.js'
import { pitResults } from './pit.js'
import { powerResults } from './power.js'
import { pumpResults } from './pump.js'
import { quantityResults } from './quantities.js'
import { office, ofPump, result, sum, type ResultRule } from './rule.js'
import { safetyResults } from './safety.js'
import { secondTankResults } from './secondTank.js'
import { stormResults } from './storm.js'
import { tankResults } from './tank.js'
import { waterResults } from './water.js'

export type { ResultRule } from './rule.js'

const groups = [
  { title: 'Tank', results: tankResults },
  { title: 'Second model of the row', results: secondTankResults },
  { title: 'Water', results: waterResults },
  { title: 'Layout and pit', results: pitResults },
  { title: 'Heights below the ground at the tanks', results: heightResults },
  { title: 'Inlet and overflow', results: stormResults },
  { title: 'Water line', results: lineResults },
  { title: 'Pump station', results: pumpResults },
  { title: 'Power', results: powerResults },
  { title: 'Flotation, load, lifting, test', results: safetyResults(trafficKinds) },
  { title: 'Quantities', results: quantityResults },
] as const
export const resultGroups: readonly { title: string; results: readonly ResultRule[] }[] = groups
export const results: readonly ResultRule[] = resultGroups.flatMap((group) => group.results)
export type ResultName = (typeof groups)[number]['results'][number]['name']

/** The storage through a year of mean months: two like years from empty, the second one counted. Columns, a row a month. */
export const monthColumns = [
  result('MonthRain_in', 'Rain', '', cite('practice', 'the office’s rain table')),
  result('MonthDays', 'Days', '', cite('derivation', 'a common year')),
  result('MonthUse_gal_per_day', 'Use a day', '', sum),
  result('MonthInflow_gal', 'Inflow', 'CATCHMENTYIELD(CatchmentArea_ft2,MonthRain_in,Runoff,FirstFlush_in,FilterShare)', cite('definitions')),
  result('MonthDemand_gal', 'Demand', 'MonthUse_gal_per_day*MonthDays', sum),
  result(
    'FirstYear_gal',
    'Stored, first year',
    'MIN(before_FirstYear_gal+MonthInflow_gal-MIN(MonthDemand_gal,before_FirstYear_gal),UsableStorage_gal-MIN(MonthDemand_gal,before_FirstYear_gal))',
    cite('yield', 'yield after spillage'),
  ),
  result('MonthSupplied_gal', 'Supplied', 'MIN(MonthDemand_gal,before_MonthStored_gal)', cite('yield', 'yield after spillage')),
  result('MonthStored_gal', 'Stored', 'MIN(before_MonthStored_gal+MonthInflow_gal-MonthSupplied_gal,UsableStorage_gal-MonthSupplied_gal)', cite('yield', 'yield after spillage')),
  result('MonthOverflow_gal', 'Spilled', 'before_MonthStored_gal+MonthInflow_gal-MonthSupplied_gal-MonthStored_gal', sum),
  result('HighFirst_gal', 'High bound, first year', 'MIN(MAX(before_HighFirst_gal+MonthInflow_gal-MonthDemand_gal,0),UsableStorage_gal)', cite('yield', 'yield before spillage')),
  result('HighSupplied_gal', 'High bound, supplied', 'MIN(MonthDemand_gal,before_HighStored_gal+MonthInflow_gal)', cite('yield', 'yield before spillage')),
  result('HighStored_gal', 'High bound, stored', 'MIN(before_HighStored_gal+MonthInflow_gal-HighSupplied_gal,UsableStorage_gal)', cite('yield', 'yield before spillage')),
] as const
/** What stands before January: nothing in the first year, the first December in the second. */
export const monthStart: Readonly<Record<string, string>> = {
  before_FirstYear_gal: '0',
  before_MonthStored_gal: 'FirstYear_gal',
  before_HighFirst_gal: '0',
  before_HighStored_gal: 'HighFirst_gal',
}
export const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const
export const monthRain = (month: number) => `INDEX(Rain[${monthNames[month]}_in],MATCH(RainStation,Rain[Station],0))`

/** The curve of the chosen pump, a row a point; `Curve` is both columns as one block. */
export const curveColumns = [result('CurveFlow_gpm', 'Flow', '', office), result('CurveHead_ftw', 'Head', '', office)] as const
export const curveCell = (column: string, point: number) => ofPump(`${column === 'CurveFlow_gpm' ? 'Flow' : 'Head'}${point + 1}${column === 'CurveFlow_gpm' ? '_gpm' : '_ftw'}`)

/** The roofs of a job: that of its row, then those of the sheet Catchments. */
export const catchmentColumns = [
  result('CatchArea_ft2', 'Plan area', '', office),
  result('CatchSurface', 'Surface', '', office),
  result('CatchInlet', 'Drains into', '', office),
  result('CatchRunoff', 'Runoff', 'INDEX(Roofs[Runoff],MATCH(CatchSurface,Roofs[Surface],0))', office),
] as const

/** What a job uses by month, beside the use of its row; a row a use. */
export const useColumns = ['Use', ...monthNames] as const

/** The daily record by year, a value a year: a balance of thousands of days is no work for cells. */
export const recordColumns = [
  result('RecordYear', 'Year', '', office),
  result('RecordDays', 'Days', '', office),
  result('RecordRain_in', 'Rain', '', office),
  result('RecordCaught_gal', 'Caught', '', sum),
  result('RecordWanted_gal', 'Wanted', '', sum),
  result('RecordSupplied_gal', 'Supplied', '', sum),
  result('RecordSpilled_gal', 'Spilled', '', sum),
  result('RecordMet', 'Days met', '', sum),
  result('RecordShare', 'Share met', 'IF(RecordWanted_gal=0,1,RecordSupplied_gal/RecordWanted_gal)', cite('reliability', 'volumetric')),
] as const

/** Single figures of the daily balance. */
export const recordFigures = ['RecordLongestShort_days', 'RecordDryMonths', 'RecordForStorage_gal', 'RecordForInch_gal', 'RecordForYear_gal'] as const

/** The daily balance once more, a row a day, as formulas: the proof of the values of the record. Rain and use of the day stand in the row. */
export const dayColumns = [
  result('DayRain_in', 'Rain', '', office),
  result('DayWanted_gal', 'Wanted', '', sum),
  result(
    'DayLost_in',
    'First flush',
    'IF(DayRain_in>0,MIN(DayRain_in,FirstFlush_in-IF(FirstFlushEach="wet spell",before_DayFlushed_in,0)),0)',
    cite('practice', 'the diverter fills first'),
  ),
  result('DayFlushed_in', 'Flushed in this wet spell', 'IF(DayRain_in>0,before_DayFlushed_in+DayLost_in,0)', sum),
  result('DayCaught_gal', 'Caught', 'CATCHMENTYIELD(CatchmentArea_ft2,DayRain_in,Runoff,DayLost_in,FilterShare)', cite('definitions')),
  result('DaySupplied_gal', 'Supplied', 'MIN(DayWanted_gal,before_DayStored_gal)', cite('yield', 'yield after spillage')),
  result('DayStored_gal', 'Stored', 'MIN(before_DayStored_gal+DayCaught_gal-DaySupplied_gal,UsableStorage_gal-DaySupplied_gal)', cite('yield', 'yield after spillage')),
  result('DaySpilled_gal', 'Spilled', 'before_DayStored_gal+DayCaught_gal-DaySupplied_gal-DayStored_gal', sum),
] as const
/** What stands before the first day: empty tanks and an empty diverter. */
export const dayStart = { before_DayFlushed_in: 0, before_DayStored_gal: 0 } as const

/** Figures that are found when a job is made and stand as values: each says where it is used. */
export const foundFigures = [
  result('OverflowCount', 'Overflows in use', '', cite('practice', 'the fewest that keep the storm under the lid, as many as inlet ports at least')),
  result('TieShare', 'Share of the storm that passes the tie towards the next tank', '', cite('derivation', 'so that the levels on both sides agree')),
  result('BlockedAtInlet', 'Overflows left on the far tank, one blocked', '', cite('derivation', 'the worse of the two cases')),
  result('BlockedShare', 'Share of the storm that passes the tie then', '', cite('derivation', 'so that the levels on both sides agree')),
  result('RecordLongestShort_days', 'Longest run of days short, on the record', '', cite('derivation', 'daily balance')),
  result('RecordDryMonths', 'Months that end dry in the year of median rain', '', cite('derivation', 'daily balance')),
  result('RecordForStorage_gal', 'Daily balance made for this storage', '', cite('derivation', 'daily balance')),
  result('RecordForInch_gal', 'and this catch from an inch', '', cite('derivation', 'daily balance')),
  result('RecordForYear_gal', 'and this use a year', '', cite('derivation', 'daily balance')),
  result('PumpNote', 'Pumps of the table', '', office),
  result('LayoutNote', 'Layouts of drains and ports', '', office),
] as const
