/** Prices to look at before they are relied on: older than the office allows, or moved further than it allows since the takeoff was last made. */
import { serialOfDay } from '../days.js'
import { roundTo } from '../rounding.js'
import type { Before, KeptChange } from './changes.js'
import type { Line } from './lines.js'
import type { Takeoff } from './takeoff.js'

/** What is known of a job from before it is made: as revision `revision`, on the day `today`. */
export interface Making {
  before: Before | undefined
  changes: readonly KeptChange[]
  revision: number
  today: string
}

/** What a line cost in the revision before this one. Where this one stands and is made again, Changes has what it was held against. */
function costBefore(code: string, { before, changes, revision }: Making): number {
  if (!before) return 0
  if (before.revision < revision) return before.lines.get(code)?.price ?? 0
  return Number(changes.find((change) => change.revision === revision && change.what === 'price' && change.code === code)?.from ?? 0)
}

/** What is to be said of the price of a line on the date of the job; empty where it is in order. A price that somebody typed over is theirs. */
export function priceFlag({ house, design }: Takeoff, line: Line, making: Making): string {
  if (line.priceOverride !== undefined) return ''
  const date = String(design.single('Date') || making.today)
  const age = line.priceDate ? serialOfDay(date) - serialOfDay(line.priceDate) : 0
  const isAhead = line.priceDate !== undefined && line.priceDate > date && line.priceDate > making.today
  const was = costBefore(line.code, making)
  const moved = was > 0 && line.price !== undefined ? roundTo(line.price / was - 1, 6) : 0
  return [
    ...(age > house.oldestPrice_day ? [`price of ${line.priceDate!}: older than ${house.oldestPrice_day} days`] : []),
    ...(isAhead ? [`price dated ${line.priceDate!}, a day that is yet to come`] : []),
    ...(Math.abs(moved) > house.priceMove ? [`price moved ${moved > 0 ? '+' : ''}${Math.round(100 * moved)} % since revision ${making.revision - 1}`] : []),
  ].join('; ')
}
