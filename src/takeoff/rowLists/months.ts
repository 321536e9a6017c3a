import { cite } from '../../sources.js'
import { monthNames } from '../officeTables.js'
import { sum } from '../results/rule.js'
import { column, type RowList } from './rowList.js'

const spilling = cite('yield', 'yield after spillage')
const high = cite('yield', 'yield before spillage')
const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const

/** The storage through a year of mean months: two like years from empty, the second one counted. */
export const months = {
  title: () => 'Mean months: two like years from empty, yield after spillage, the second one counted; the high bound is yield before spillage',
  heading: 'Month',
  restsOn: [],
  sum: 'Year',
  rows: () => monthNames.map((name, at) => ({ name, cells: { MonthDays: monthDays[at]! } })),
  columns: [
    column(
      'MonthRain_in',
      'Rain',
      monthNames.map((month) => `INDEX(Rain[${month}_in],MATCH(RainStation,Rain[Station],0))`),
      cite('practice', 'the office’s rain table'),
      { isSummed: true },
    ),
    column('MonthDays', 'Days', '', cite('derivation', 'a common year'), { isSummed: true, decimals: 0 }),
    column(
      'MonthUse_gal_per_day',
      'Use a day',
      monthNames.map((month) => `DailyUse_gal_per_day+SUM(Use${month}_gal_per_day)`),
      sum,
    ),
    column(
      'MonthInflow_gal',
      'Inflow',
      'CATCHMENTYIELD(CatchmentArea_ft2,MonthRain_in,Runoff,MIN(MonthRain_in,FirstFlush_in*MAX(1,MonthRain_in/Shower_in)),FilterShare)',
      cite('definitions', 'the first flush of each wet day or spell'),
      { isSummed: true },
    ),
    column('MonthDemand_gal', 'Demand', 'MonthUse_gal_per_day*MonthDays', sum, { isSummed: true }),
    column(
      'FirstYear_gal',
      'Stored, first year',
      'MIN(before_FirstYear_gal+MonthInflow_gal-MIN(MonthDemand_gal,before_FirstYear_gal),UsableStorage_gal-MIN(MonthDemand_gal,before_FirstYear_gal))',
      spilling,
    ),
    column('MonthSupplied_gal', 'Supplied', 'MIN(MonthDemand_gal,before_MonthStored_gal)', spilling, { isSummed: true }),
    column('MonthStored_gal', 'Stored', 'MIN(before_MonthStored_gal+MonthInflow_gal-MonthSupplied_gal,UsableStorage_gal-MonthSupplied_gal)', spilling, {
      startsAt: 'FirstYear_gal',
    }),
    column('MonthOverflow_gal', 'Spilled', 'before_MonthStored_gal+MonthInflow_gal-MonthSupplied_gal-MonthStored_gal', sum, { isSummed: true }),
    column('HighFirst_gal', 'High bound, first year', 'MIN(MAX(before_HighFirst_gal+MonthInflow_gal-MonthDemand_gal,0),UsableStorage_gal)', high),
    column('HighSupplied_gal', 'High bound, supplied', 'MIN(MonthDemand_gal,before_HighStored_gal+MonthInflow_gal)', high, { isSummed: true }),
    column('HighStored_gal', 'High bound, stored', 'MIN(before_HighStored_gal+MonthInflow_gal-HighSupplied_gal,UsableStorage_gal)', high, { startsAt: 'HighFirst_gal' }),
  ],
} as const satisfies RowList
