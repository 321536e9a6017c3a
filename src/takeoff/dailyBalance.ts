/** The tanks day by day over a whole record: yield after spillage, empty at the start (the rules of calc/rain/balance.ts). */
import { FULL_WITHIN_GAL } from '../calc/rain/balance.js'
import type { RainRecord } from './rainDays.js'

export interface BalanceYear {
  year: number
  days: number
  rain_in: number
  caught_gal: number
  wanted_gal: number
  supplied_gal: number
  spilled_gal: number
  /** Days met in full. */
  met: number
  /** Months at whose end nothing is left. */
  dryMonths: number
}
export interface DailyBalance {
  years: readonly BalanceYear[]
  /** Longest run of days not met in full, over the years. */
  longestShort: number
  /** January to December, the mean of the years. */
  months: readonly BalanceMonth[]
}
export interface BalanceMonth {
  /** At its end, above the dead depth. */
  stored_gal: number
  wanted_gal: number
  supplied_gal: number
}
export interface BalanceInput {
  /** Caught from an inch of rain. */
  inch_gal: number
  flush_in: number
  /** Whether the first flush is taken off each day of rain, or once in a wet spell. */
  flushEach: 'day' | 'wet spell'
  /** Use a day, by month. */
  use_gal_per_day: readonly number[]
  storage_gal: number
}

/** Less than this at a month's end is an empty tank. */
const EMPTY_GAL = 0.5
const monthEnds = (days: number): readonly number[] => {
  let end = 0
  return [31, days === 366 ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31].map((month) => (end += month))
}
const commonEnds = monthEnds(365)
const leapEnds = monthEnds(366)

export function dailyBalance(record: RainRecord, { inch_gal, flush_in, flushEach, use_gal_per_day, storage_gal }: BalanceInput): DailyBalance {
  const bySpell = flushEach === 'wet spell'
  let stored = 0
  let short = 0
  let longestShort = 0
  let flushed = 0
  const months = Array.from({ length: 12 }, () => ({ stored_gal: 0, wanted_gal: 0, supplied_gal: 0 }))
  const years = record.years.map(({ year, rain_in }, at): BalanceYear => {
    // Nobody knows what fell in a year that was left out: no dry spell goes on across it.
    if (year !== (record.years[at - 1]?.year ?? year - 1) + 1) short = 0
    const ends = rain_in.length === 366 ? leapEnds : commonEnds
    let [rain, caught, wanted, supplied, spilled, met, dryMonths, month] = [0, 0, 0, 0, 0, 0, 0, 0]
    let [wantedBefore, suppliedBefore] = [0, 0]
    for (let day = 0; day < rain_in.length; day++) {
      const fell = rain_in[day]!
      let kept = 0
      if (fell > 0) {
        const lost = Math.min(fell, flush_in - (bySpell ? flushed : 0))
        flushed += lost
        kept = fell - lost
      } else flushed = 0
      const demand = use_gal_per_day[month]!
      const inflow = kept * inch_gal
      const drawn = Math.min(demand, stored)
      const left = Math.min(stored + inflow - drawn, storage_gal - drawn)
      rain += fell
      caught += inflow
      wanted += demand
      supplied += drawn
      spilled += stored + inflow - drawn - left
      stored = left
      if (drawn >= demand - FULL_WITHIN_GAL) {
        met++
        short = 0
      } else if (++short > longestShort) longestShort = short
      if (day + 1 === ends[month]) {
        if (stored < EMPTY_GAL) dryMonths++
        const sums = months[month]!
        sums.stored_gal += stored
        sums.wanted_gal += wanted - wantedBefore
        sums.supplied_gal += supplied - suppliedBefore
        ;[wantedBefore, suppliedBefore] = [wanted, supplied]
        month++
      }
    }
    return { year, days: rain_in.length, rain_in: rain, caught_gal: caught, wanted_gal: wanted, supplied_gal: supplied, spilled_gal: spilled, met, dryMonths }
  })
  const count = years.length
  return {
    years,
    longestShort,
    months: months.map(({ stored_gal, wanted_gal, supplied_gal }) => ({ stored_gal: stored_gal / count, wanted_gal: wanted_gal / count, supplied_gal: supplied_gal / count })),
  }
}

/** The year whose rain is in the middle of all; of two middle ones the drier. */
export const medianYear = (years: readonly BalanceYear[]): BalanceYear | undefined =>
  [...years].sort((one, other) => one.rain_in - other.rain_in)[Math.floor((years.length - 1) / 2)]
