import { arg, calc, step, type Series } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { cite } from '../../sources.js'
import { balanceTable, demandArg, demandOf, FULL_WITHIN_GAL, inflowArg, measureArg, MOST_GAL, reliabilityStep, ruleArg, type Measure, type Rule } from './balance.js'
import { reliabilityAt } from './supplyReliability.js'

/** The answer is a whole number of hundredths of a gallon. */
const GRAIN_GAL = 0.01
const gallons = (grains: number) => grains / 100

export const storageNeeded = calc({
  id: 'STORAGENEEDED',
  chapter: 'rain',
  summary: 'The smallest tank, empty at the start, that reaches a reliability; to 0.01 gal and never short of it.',
  takes: {
    inflow_gal: inflowArg,
    demand_gal: demandArg,
    target: arg('Wanted reliability', { least: 0, most: 1, default: 0.95 }),
    rule: ruleArg,
    measure: measureArg,
  },
  gives: { capacity_gal: 'Capacity' },
  steps: [
    reliabilityStep,
    step('enough', 'Target reached, but for rounding', 'reliability>=target-0.000000000001', cite('derivation', 'the search ends at the smallest capacity for which this holds')),
  ],
  periods: balanceTable('0'),
  notes: [
    'Reliability never falls when the tank grows, so the answer is unique. #N/A when even a tank that keeps every drop falls short of the target.',
    'The working shows the period table at the capacity found; the search itself is not a formula.',
  ],
  example: [[0, 300, 0, 900, 0, 0, 50, 700], 100, 0.6, 'YAS', 'volume'],
  run({ inflow_gal, demand_gal, target, rule, measure }) {
    const isEnough = (capacity: number) => reliabilityAt(inflow_gal, demand_gal, capacity, 0, rule as Rule, measure as Measure) >= target
    if (isEnough(0)) return 0
    const record = new RainRecord(inflow_gal, demand_gal, rule as Rule)
    if (!isEnough(MOST_GAL)) throw noAnswer('Wanted reliability (target)', 'no tank reaches it, however large', target)
    const close = measure === 'volume' ? record.capacityForVolume(target) : record.capacityForTime(target)
    let grains = Math.ceil(close / GRAIN_GAL - 1e-6)
    while (!isEnough(gallons(grains))) grains++
    while (grains > 0 && isEnough(gallons(grains - 1))) grains--
    return gallons(grains)
  },
})

/** The record with its dry spells drawn together: between two wet periods only the sum of demand matters. */
class RainRecord {
  private readonly dry: Float64Array
  private readonly dryPeriods: Float64Array
  private readonly inflow: Float64Array
  private readonly demand: Float64Array
  private readonly wet: number
  private readonly wanted: number
  private readonly periods: number
  private readonly evenDemand: number | undefined

  constructor(
    inflow: Series,
    demands: number | Series,
    private readonly rule: Rule,
  ) {
    const demandIn = demandOf(demands, inflow.length)
    const room = inflow.length + 1
    this.dry = new Float64Array(room)
    this.dryPeriods = new Float64Array(room)
    this.inflow = new Float64Array(room)
    this.demand = new Float64Array(room)
    this.periods = inflow.length
    this.evenDemand = typeof demands === 'number' ? demands : undefined
    let wet = 0
    let wanted = 0
    for (let at = 0; at < inflow.length; at++) {
      const demand = demandIn(at)
      wanted += demand
      if (inflow[at] === 0 && this.evenDemand !== undefined) {
        this.dry[wet]! += demand
        this.dryPeriods[wet]!++
      } else {
        this.inflow[wet] = inflow[at]!
        this.demand[wet] = demand
        wet++
      }
    }
    this.wet = wet
    this.wanted = wanted
  }

  /** Volume supplied by a tank, and how fast that grows with its capacity (it is a concave broken line). */
  private supplied(capacity: number): { volume: number; slope: number; full: number; highest: number } {
    const yas = this.rule === 'YAS'
    let stored = 0
    let grows = 0
    let volume = 0
    let slope = 0
    let full = 0
    let highest = 0
    for (let at = 0; at <= this.wet; at++) {
      const spell = this.dry[at]!
      if (spell > 0) {
        if (stored < spell) {
          volume += stored
          slope += grows
          full += Math.min(this.dryPeriods[at]!, Math.floor((stored + FULL_WITHIN_GAL) / this.evenDemand!))
          stored = 0
          grows = 0
        } else {
          volume += spell
          full += this.dryPeriods[at]!
          stored -= spell
        }
      } else full += this.dryPeriods[at]!
      if (at === this.wet) break
      const inflow = this.inflow[at]!
      const demand = this.demand[at]!
      const reach = yas ? stored : stored + inflow
      let drawn = demand
      let drawnGrows = 0
      if (reach < demand) {
        drawn = reach
        drawnGrows = grows
      }
      if (drawn >= demand - FULL_WITHIN_GAL) full++
      volume += drawn
      slope += drawnGrows
      const kept = stored + inflow - drawn
      const room = yas ? capacity - drawn : capacity
      if (stored + inflow - (yas ? 0 : drawn) > highest) highest = stored + inflow - (yas ? 0 : drawn)
      if (kept > room) {
        stored = room
        grows = 1 - (yas ? drawnGrows : 0)
      } else {
        stored = kept
        grows -= drawnGrows
      }
    }
    return { volume, slope, full, highest }
  }

  /** Closes in from below along the tangent and from above along the chord; both land on the broken line itself. */
  capacityForVolume(target: number): number {
    const goal = target * this.wanted
    let low = 0
    let lowVolume = this.supplied(0)
    let high = this.supplied(MOST_GAL).highest
    let highVolume = this.supplied(high).volume
    for (let round = 0; round < 60 && high - low > GRAIN_GAL / 10; round++) {
      const tangent = lowVolume.slope > 0 ? low + (goal - lowVolume.volume) / lowVolume.slope : (low + high) / 2
      const chord = low + ((goal - lowVolume.volume) * (high - low)) / (highVolume - lowVolume.volume)
      const next = Math.min(tangent, high)
      const there = this.supplied(next)
      if (there.volume >= goal) {
        high = next
        highVolume = there.volume
        if (next === tangent) return next
      } else {
        low = next
        lowVolume = there
      }
      if (chord > low && chord < high) {
        const across = this.supplied(chord)
        if (across.volume >= goal) {
          high = chord
          highVolume = across.volume
        } else {
          low = chord
          lowVolume = across
        }
      }
    }
    return high
  }

  /** Time reliability climbs in steps, so it is halved down to a fraction of the grain. */
  capacityForTime(target: number): number {
    let low = 0
    let high = this.supplied(MOST_GAL).highest
    while (high - low > GRAIN_GAL / 4) {
      const middle = (low + high) / 2
      if (this.supplied(middle).full / this.periods >= target) high = middle
      else low = middle
    }
    return high
  }
}
