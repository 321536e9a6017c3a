/** A rain record made short for searching: between two wet periods only the sum of demand matters. */
import type { Series } from '../../calc.js'
import { FULL_WITHIN_GAL, MOST_GAL, type Rule } from './balance.js'

/** Sums of 40,000 periods in another order differ by less than this share. */
const SUMS_DIFFER = 1e-11
/** The search stops when it knows the capacity to this. */
const CLOSE_GAL = 0.001

export class RainRecord {
  /** Periods without inflow before each wet one, and after the last. */
  private readonly dryPeriods: Float64Array
  private readonly inflow: Float64Array
  /** Demand of each wet period, or of every period where it is even. */
  private readonly demands: Float64Array | undefined
  private readonly even: number
  private readonly wet: number
  private readonly wanted: number
  private readonly periods: number
  private readonly isAfter: boolean
  /** The most that would ever be stored: no larger tank does better. */
  readonly highest: number
  private readonly mostSupplied: number

  constructor(inflow: Series, demands: number | Series, rule: Rule) {
    const periods = inflow.length
    this.periods = periods
    this.isAfter = rule === 'YAS'
    const dryPeriods = new Float64Array(periods + 1)
    if (typeof demands === 'number') {
      const wetInflow = new Float64Array(periods)
      let wet = 0
      let spell = 0
      for (let at = 0; at < periods; at++) {
        const came = inflow[at]!
        if (came === 0) spell++
        else {
          dryPeriods[wet] = spell
          wetInflow[wet] = came
          spell = 0
          wet++
        }
      }
      dryPeriods[wet] = spell
      this.inflow = wetInflow
      this.wet = wet
      this.even = demands
      this.wanted = demands * periods
    } else {
      this.inflow = Float64Array.from(inflow)
      this.demands = Float64Array.from(demands)
      this.wet = periods
      this.even = 0
      this.wanted = this.demands.reduce((sum, demand) => sum + demand, 0)
    }
    this.dryPeriods = dryPeriods
    const { volume, highest } = this.supplied(MOST_GAL)
    this.highest = highest
    this.mostSupplied = volume
  }

  /** Volume supplied by a tank, and how fast that grows with its capacity (it is a concave broken line). */
  private supplied(capacity: number): { volume: number; slope: number; highest: number } {
    const { dryPeriods, inflow, demands, even, wet, isAfter } = this
    let stored = 0
    let grows = 0
    let volume = 0
    let slope = 0
    let highest = 0
    for (let at = 0; at < wet; at++) {
      const spell = dryPeriods[at]! * even
      if (stored < spell) {
        volume += stored
        slope += grows
        stored = 0
        grows = 0
      } else {
        volume += spell
        stored -= spell
      }
      const came = inflow[at]!
      const wish = demands === undefined ? even : demands[at]!
      const reach = isAfter ? stored : stored + came
      let drawn = wish
      let drawnGrows = 0
      if (reach < wish) {
        drawn = reach
        drawnGrows = grows
      }
      volume += drawn
      slope += drawnGrows
      const kept = stored + came - drawn
      const room = isAfter ? capacity - drawn : capacity
      const held = isAfter ? kept + drawn : kept
      if (held > highest) highest = held
      if (kept > room) {
        stored = room
        grows = isAfter ? 1 - drawnGrows : 1
      } else {
        stored = kept
        grows -= drawnGrows
      }
    }
    const last = dryPeriods[wet]! * even
    return stored < last ? { volume: volume + stored, slope: slope + grows, highest } : { volume: volume + last, slope, highest }
  }

  /** Whether a tank reaches the target by volume; undefined where the two are within what the order of sums can change. */
  clearlyEnough(capacity: number, target: number): boolean | undefined {
    const goal = target * this.wanted
    const { volume } = this.supplied(capacity)
    return Math.abs(volume - goal) <= SUMS_DIFFER * this.wanted ? undefined : volume > goal
  }

  /**
   * Closes in from below along the tangent and from above along the chord; both land on the broken line itself.
   * Where the line runs flat at the goal the chord says nothing, and the span is halved instead.
   */
  capacityForVolume(target: number): number {
    const goal = Math.min(target * this.wanted, this.mostSupplied)
    let low = 0
    let below = this.supplied(0)
    if (below.volume >= goal) return 0
    let high = this.highest
    let above = this.mostSupplied
    while (high - low > CLOSE_GAL) {
      const tangent = below.slope > 0 ? low + (goal - below.volume) / below.slope : high
      // The line lies below its tangent and above its chord, so the answer lies between the two.
      if (tangent < high) {
        const there = this.supplied(tangent)
        if (there.volume >= goal * (1 - 1e-15)) return tangent
        low = tangent
        below = there
      }
      const chord = low + ((goal - below.volume) * (high - low)) / (above - below.volume)
      if (above > goal && chord > low && chord < high) {
        const across = this.supplied(chord)
        if (across.volume < goal || high - chord < CLOSE_GAL) return chord
        high = chord
        above = across.volume
      } else {
        const middle = (low + high) / 2
        const halfway = this.supplied(middle)
        if (halfway.volume >= goal * (1 - SUMS_DIFFER)) {
          high = middle
          above = halfway.volume
        } else {
          low = middle
          below = halfway
        }
      }
    }
    return high
  }

  /** Time reliability climbs in steps, so it is halved down to a fraction of the grain. */
  capacityForTime(target: number): number {
    let low = 0
    let high = this.highest
    while (high - low > CLOSE_GAL) {
      const middle = (low + high) / 2
      if (this.metInFull(middle) / this.periods >= target) high = middle
      else low = middle
    }
    return high
  }

  private metInFull(capacity: number): number {
    const { dryPeriods, inflow, demands, even, wet, isAfter } = this
    let stored = 0
    let full = 0
    for (let at = 0; at <= wet; at++) {
      const spell = dryPeriods[at]! * even
      if (stored < spell) {
        full += Math.min(dryPeriods[at]!, Math.floor((stored + FULL_WITHIN_GAL) / even))
        stored = 0
      } else {
        full += dryPeriods[at]!
        stored -= spell
      }
      if (at === wet) break
      const came = inflow[at]!
      const wish = demands === undefined ? even : demands[at]!
      const reach = isAfter ? stored : stored + came
      const drawn = wish < reach ? wish : reach
      if (drawn >= wish - FULL_WITHIN_GAL) full++
      const kept = stored + came - drawn
      const room = isAfter ? capacity - drawn : capacity
      stored = kept < room ? kept : room
    }
    return full
  }
}
