import { arg, calc, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { cite } from '../../sources.js'
import { balanceTable, checkDemand, demandArg, inflowArg, measureArg, reliabilityStep, ruleArg, type Rule } from './balance.js'
import { smallestByTime, smallestByVolume } from './smallestTank.js'
import { TankWalk } from './tankWalk.js'

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
    const tank = new TankWalk(inflow_gal, demand_gal, rule as Rule)
    const answer = measure === 'time' ? smallestByTime(tank, target) : smallestByVolume(tank, target)
    if (answer === undefined) throw noAnswer('Wanted reliability (target)', 'no tank reaches it, however large', target)
    return answer
  },
})
