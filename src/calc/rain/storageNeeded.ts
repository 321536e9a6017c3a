import { arg, calc, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { cite } from '../../sources.js'
import { balanceTable, checkDemand, demandArg, inflowArg, measureArg, reliabilityStep, ruleArg, type Measure, type Rule } from './balance.js'
import { RainRecord } from './rainRecord.js'
import { reliabilityAt } from './supplyReliability.js'

/** The answer is a whole number of hundredths of a gallon. */
const gallons = (grains: number) => grains / 100

/** The least whole number, 0 to `most`, that is enough: looked for around `first` in growing strides, then by halving. */
function leastEnough(first: number, most: number, isEnough: (grains: number) => boolean): number | undefined {
  let short = -1
  let enough = most + 1
  for (let at = first, stride = 1; at > short && at < enough; stride *= 2) {
    if (isEnough(at)) at = (enough = at) - stride
    else at = (short = at) + stride
  }
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2)
    if (isEnough(middle)) enough = middle
    else short = middle
  }
  return enough > most ? undefined : enough
}

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
    'The working shows the period table at the capacity found; the search is no formula.',
  ],
  example: [[0, 300, 0, 900, 0, 0, 50, 700], 100, 0.6, 'YAS', 'volume'],
  run({ inflow_gal, demand_gal, target, rule, measure }) {
    checkDemand(demand_gal, inflow_gal.length)
    const record = new RainRecord(inflow_gal, demand_gal, rule as Rule)
    // The search works on sums in another order; where that could matter the plain walk has the last word.
    const isEnough = (capacity: number) =>
      (measure === 'volume' ? record.clearlyEnough(capacity, target) : undefined) ?? reliabilityAt(inflow_gal, demand_gal, capacity, 0, rule as Rule, measure as Measure) >= target
    const close = measure === 'volume' ? record.capacityForVolume(target) : record.capacityForTime(target)
    const first = Math.max(0, Math.ceil(close * 100 - 1e-6))
    const most = Math.ceil(record.highest * 100) + 1
    const answer = leastEnough(first, most, (grains) => isEnough(gallons(grains)))
    if (answer === undefined) throw noAnswer('Wanted reliability (target)', 'no tank reaches it, however large', target)
    return gallons(answer)
  },
})
