/**
 * A tank walked through a record many times, in search of a size: the sums of SUPPLYRELIABILITY, in the same order. For speed the
 * rule enters as factors of 0 and 1 (a choice inside the loop takes three times as long), and a size is walked together with
 * the next smaller one, which costs hardly more and proves an answer at once. The loops say one rule and are written out for the
 * same reason; tests hold each to SUPPLYRELIABILITY. Sizes are whole hundredths of a gallon.
 */
import type { Series } from '../../calc.js'
import { FULL_WITHIN_GAL, type Rule } from './balance.js'

/** A record longer than this is searched first in its first eighth, for a place to begin. */
const LONG_PERIODS = 2000
/** A little more of a tank, to see what it adds: not a whole number, which the engine would hold to whole numbers at each step. */
const MORE_GAL = 0.5

export const gallons = (size: number) => size / 100
/** The least size that holds so much; what rounding adds makes none larger. */
export const sizeOf = (capacity_gal: number) => Math.max(0, Math.ceil(capacity_gal * 100 - 1e-6))

export class TankWalk {
  private readonly demand: Series
  readonly wanted_gal: number
  /** Share of a period's inflow that its yield can draw on, and share of its yield that the spill is reckoned with still in the tank. */
  private readonly early: number
  private readonly late: number

  constructor(
    readonly inflow: Series,
    demand: number | Series,
    private readonly rule: Rule,
  ) {
    this.demand = typeof demand === 'number' ? new Float64Array(inflow.length).fill(demand) : demand
    this.wanted_gal = typeof demand === 'number' ? demand * inflow.length : Array.from(demand).reduce((sum, wish) => sum + wish, 0)
    this.early = rule === 'YAS' ? 0 : 1
    this.late = 1 - this.early
  }

  /** The same tank in the first eighth of the record, where that is long enough to tell something. */
  begin(): TankWalk | undefined {
    const some = Math.floor(this.inflow.length / 8)
    return this.inflow.length > LONG_PERIODS ? new TankWalk(this.inflow.slice(0, some), this.demand.slice(0, some), this.rule) : undefined
  }

  /** Volume supplied by a size and by the next smaller one, and wanted. */
  bothSupplied(size: number): readonly [supplied: number, suppliedBelow: number, wanted: number] {
    const { inflow, demand, early, late } = this
    const [capacity, less] = [gallons(size), gallons(size - 1)]
    let [stored, storedBelow] = [0, 0]
    let [supplied, suppliedBelow] = [0, 0]
    let wanted = 0
    for (let at = 0; at < inflow.length; at++) {
      const came = inflow[at]!
      const wish = demand[at]!
      const drawn = Math.min(wish, stored + early * came)
      stored = Math.min(stored + came - drawn, capacity - late * drawn)
      supplied += drawn
      const drawnBelow = Math.min(wish, storedBelow + early * came)
      storedBelow = Math.min(storedBelow + came - drawnBelow, less - late * drawnBelow)
      suppliedBelow += drawnBelow
      wanted += wish
    }
    return [supplied, suppliedBelow, wanted]
  }

  /** Periods met in full. */
  metInFull(size: number): number {
    const { inflow, demand, early, late } = this
    const capacity = gallons(size)
    const within = FULL_WITHIN_GAL
    let stored = 0
    let full = 0
    for (let at = 0; at < inflow.length; at++) {
      const came = inflow[at]!
      const wish = demand[at]!
      const drawn = Math.min(wish, stored + early * came)
      stored = Math.min(stored + came - drawn, capacity - late * drawn)
      if (drawn >= wish - within) full++
    }
    return full
  }

  /** Periods met in full by a size and by the next smaller one. */
  bothMetInFull(size: number): readonly [met: number, metBelow: number] {
    const { inflow, demand, early, late } = this
    const [capacity, less] = [gallons(size), gallons(size - 1)]
    const within = FULL_WITHIN_GAL
    let [stored, storedBelow] = [0, 0]
    let [full, fullBelow] = [0, 0]
    for (let at = 0; at < inflow.length; at++) {
      const came = inflow[at]!
      const wish = demand[at]!
      const drawn = Math.min(wish, stored + early * came)
      stored = Math.min(stored + came - drawn, capacity - late * drawn)
      if (drawn >= wish - within) full++
      const drawnBelow = Math.min(wish, storedBelow + early * came)
      storedBelow = Math.min(storedBelow + came - drawnBelow, less - late * drawnBelow)
      if (drawnBelow >= wish - within) fullBelow++
    }
    return [full, fullBelow]
  }

  /** Volume supplied, and what another gallon of capacity would add: the volume is a concave broken line over the capacity. */
  supplied(size: number): { volume: number; slope: number } {
    const { inflow, demand, early, late } = this
    const capacity = gallons(size)
    let stored = 0
    let volume = 0
    // How stored water and volume grow with a larger tank.
    let grows = 0
    let slope = 0
    for (let at = 0; at < inflow.length; at++) {
      const came = inflow[at]!
      const wish = demand[at]!
      const reach = stored + early * came
      const drawn = Math.min(wish, reach)
      const drawnGrows = reach < wish ? grows : 0
      const kept = stored + came - drawn
      const room = capacity - late * drawn
      grows = room < kept ? MORE_GAL - late * drawnGrows : grows - drawnGrows
      stored = Math.min(kept, room)
      volume += drawn
      slope += drawnGrows
    }
    return { volume, slope: slope / MORE_GAL }
  }

  /** By how much a larger tank would meet each period that is not met, as long as it fills and empties when it does now; smallest first. */
  missing_gal(size: number, within_gal: number): number[] {
    const { inflow, demand, early, late } = this
    const capacity = gallons(size)
    const within = FULL_WITHIN_GAL
    const missing: number[] = []
    let stored = 0
    let grows = 0
    for (let at = 0; at < inflow.length; at++) {
      const came = inflow[at]!
      const wish = demand[at]!
      const reach = stored + early * came
      const drawn = Math.min(wish, reach)
      const drawnGrows = reach < wish ? grows : 0
      // Far fewer are within reach than not met.
      if ((wish - reach) * MORE_GAL < within_gal * drawnGrows && drawn < wish - within) missing.push(((wish - reach) * MORE_GAL) / drawnGrows)
      const kept = stored + came - drawn
      const room = capacity - late * drawn
      grows = room < kept ? MORE_GAL - late * drawnGrows : grows - drawnGrows
      stored = Math.min(kept, room)
    }
    return missing.sort((one, other) => one - other)
  }
}
