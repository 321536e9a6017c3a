/** Prices to look at before they are relied on: older than the office allows, or moved further than it allows since the takeoff was last made. */
import { serialOfDay } from '../days.js'
import { roundTo } from '../rounding.js'
import type { Before } from './changes.js'
import type { Line } from './lines.js'
import type { Takeoff } from './takeoff.js'

/** What is to be said of the price of a line on a date; empty where it is in order. A price that somebody typed over is theirs. */
export function priceFlag({ house }: Takeoff, line: Line, date: string, before: Before | undefined): string {
  if (line.priceOverride !== undefined) return ''
  const age = line.priceDate ? serialOfDay(date) - serialOfDay(line.priceDate) : 0
  const was = before?.lines.get(line.code)?.price ?? 0
  const moved = was > 0 && line.price !== undefined ? roundTo(line.price / was - 1, 6) : 0
  return [
    ...(age > house.oldestPrice_day ? [`price of ${line.priceDate!}: older than ${house.oldestPrice_day} days`] : []),
    ...(Math.abs(moved) > house.priceMove ? [`price moved ${moved > 0 ? '+' : ''}${Math.round(100 * moved)} % since revision ${before!.revision}`] : []),
  ].join('; ')
}
