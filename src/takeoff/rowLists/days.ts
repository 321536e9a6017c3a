import { cite } from '../../sources.js'
import { office, sum } from '../results/rule.js'
import { column, type RowList } from './rowList.js'

const spilling = cite('yield', 'yield after spillage')

/** The daily balance once more, a row a day, as formulas: the proof of the values of the record. It begins with empty tanks and an empty diverter. */
export const days = {
  title: () => 'Daily proof: yield after spillage, empty at the start; rain is copied from the sheet RainDays, a day without a reading is dry',
  heading: 'Day',
  restsOn: [],
  sum: 'Sum',
  rows: ({ record }) =>
    (record?.years ?? []).flatMap(({ year, rain_in }) =>
      Array.from(rain_in, (rain, at) => {
        const date = new Date(Date.UTC(year, 0, 1 + at))
        return { name: date.toISOString().slice(0, 10), cells: { DayMonth: date.getUTCMonth() + 1, DayRain_in: rain } }
      }),
    ),
  columns: [
    column('DayMonth', 'Month', '', office, { decimals: 0 }),
    column('DayRain_in', 'Rain', '', office, { isSummed: true }),
    column('DayWanted_gal', 'Wanted', 'INDEX(MonthUse_gal_per_day,DayMonth)', sum, { isSummed: true }),
    column(
      'DayLost_in',
      'First flush',
      'IF(DayRain_in>0,MIN(DayRain_in,FirstFlush_in-IF(FirstFlushEach="wet spell",before_DayFlushed_in,0)),0)',
      cite('practice', 'the diverter fills first'),
    ),
    column('DayFlushed_in', 'Flushed in this wet spell', 'IF(DayRain_in>0,before_DayFlushed_in+DayLost_in,0)', sum),
    column('DayCaught_gal', 'Caught', 'CATCHMENTYIELD(CatchmentArea_ft2,DayRain_in,Runoff,DayLost_in,FilterShare)', cite('definitions'), { isSummed: true }),
    column('DaySupplied_gal', 'Supplied', 'MIN(DayWanted_gal,before_DayStored_gal)', spilling, { isSummed: true }),
    column('DayStored_gal', 'Stored', 'MIN(before_DayStored_gal+DayCaught_gal-DaySupplied_gal,UsableStorage_gal-DaySupplied_gal)', spilling),
    column('DaySpilled_gal', 'Spilled', 'before_DayStored_gal+DayCaught_gal-DaySupplied_gal-DayStored_gal', sum, { isSummed: true }),
  ],
} as const satisfies RowList
