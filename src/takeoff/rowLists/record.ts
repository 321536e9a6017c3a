import { cite } from '../../sources.js'
import type { Value } from '../../formula/value.js'
import { medianYear, type DailyBalance } from '../dailyBalance.js'
import { recordWords } from '../rainDays.js'
import { office, sum } from '../results/rule.js'
import { column, type RowList } from './rowList.js'

const columns = [
  column('RecordYear', 'Year', '', office, { isYear: true }),
  column('RecordDays', 'Days', '', office, { decimals: 0 }),
  column('RecordRain_in', 'Rain', '', office, { decimals: 2 }),
  column('RecordCaught_gal', 'Caught', '', sum, { decimals: 0 }),
  column('RecordWanted_gal', 'Wanted', '', sum, { decimals: 0 }),
  column('RecordSupplied_gal', 'Supplied', '', sum, { decimals: 0 }),
  column('RecordSpilled_gal', 'Spilled', '', sum, { decimals: 0 }),
  column('RecordMet', 'Days met', '', sum, { decimals: 0 }),
  column('RecordShare', 'Share met', 'IF(RecordWanted_gal=0,1,RecordSupplied_gal/RecordWanted_gal)', cite('reliability', 'volumetric'), { decimals: 4 }),
] as const

/** The daily record by year, a value a year: a balance of thousands of days is no work for cells. Without a record one empty row stands there. */
export const record = {
  title: ({ record: days }) => (days ? `Daily record, yield after spillage, empty at the start: ${recordWords(days)}` : 'Daily record: none for this station'),
  heading: '',
  restsOn: ['RainStation', 'InchYield_gal', 'FirstFlush_in', 'FirstFlushEach', 'MonthUse_gal_per_day', 'UsableStorage_gal', 'YearDemand_gal'],
  rows: ({ balance }) =>
    balance?.years.map(({ year, days, rain_in, caught_gal, wanted_gal, supplied_gal, spilled_gal, met }) => ({
      name: '',
      cells: {
        RecordYear: year,
        RecordDays: days,
        RecordRain_in: rain_in,
        RecordCaught_gal: caught_gal,
        RecordWanted_gal: wanted_gal,
        RecordSupplied_gal: supplied_gal,
        RecordSpilled_gal: spilled_gal,
        RecordMet: met,
      },
    })) ?? [{ name: '', cells: Object.fromEntries(columns.map(({ name }) => [name, ''])) }],
  columns,
} as const satisfies RowList

/** Single figures of the daily balance, and of what it was made for; they rest on what the record does. */
export const recordFigures = {
  RecordLongestShort_days: ({ longestShort }) => longestShort,
  RecordDryMonths: ({ years }) => medianYear(years)?.dryMonths ?? 0,
  RecordForStorage_gal: (_, figure) => figure('UsableStorage_gal'),
  RecordForInch_gal: (_, figure) => figure('InchYield_gal'),
  RecordForYear_gal: (_, figure) => figure('YearDemand_gal'),
  RecordForFlush_in: (_, figure) => figure('FirstFlush_in'),
  RecordForEach: (_, figure) => figure('FirstFlushEach'),
  RecordForStation: (_, figure) => figure('RainStation'),
} as const satisfies Readonly<Record<string, (balance: DailyBalance, figure: (name: BalancedBy) => Value) => Value>>
/** What the balance of the days was made for. */
type BalancedBy = 'UsableStorage_gal' | 'InchYield_gal' | 'YearDemand_gal' | 'FirstFlush_in' | 'FirstFlushEach' | 'RainStation'
