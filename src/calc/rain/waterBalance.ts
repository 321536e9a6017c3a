import { calc, step } from '../../calc.js'
import { cite } from '../../sources.js'
import { balanceTable, capacityArg, checkStart, demandArg, demandOf, inflowArg, ruleArg, startArg, storedAfter, suppliedIn } from './balance.js'

export const waterBalance = calc({
  id: 'WATERBALANCE',
  chapter: 'rain',
  summary: 'What a tank supplies, spills and keeps, period by period.',
  takes: { inflow_gal: inflowArg, demand_gal: demandArg, capacity_gal: capacityArg, start_gal: startArg, rule: ruleArg },
  spills: { period: 'Period', inflow_gal: 'Inflow', supplied_gal: 'Supplied', overflow_gal: 'Overflow', stored_gal: 'Stored at the end' },
  steps: [step('stored_gal', 'Stored after the last period', 'INDEX(stored_gal,COUNT(stored_gal))', cite('yield'))],
  periods: balanceTable('start_gal'),
  notes: [
    'YAS (yield after spillage) is the cautious rule for daily rain. With monthly rain use YBS: a month’s rain serves the same month.',
    'An empty tail of the range is ignored; a gap or a text in the middle is refused.',
  ],
  example: [[0, 300, 0, 900, 0], 150, 600, 100, 'YAS'],
  run({ inflow_gal, demand_gal, capacity_gal, start_gal, rule }) {
    checkStart(start_gal, capacity_gal)
    const periods = inflow_gal.length
    const demand = demandOf(demand_gal, periods)
    const period = new Float64Array(periods)
    const supplied = new Float64Array(periods)
    const overflow = new Float64Array(periods)
    const stored = new Float64Array(periods)
    let before = start_gal
    for (let at = 0; at < periods; at++) {
      const inflow = inflow_gal[at]!
      const drawn = suppliedIn(rule as 'YAS' | 'YBS', before, inflow, demand(at))
      const after = storedAfter(rule as 'YAS' | 'YBS', before, inflow, drawn, capacity_gal)
      period[at] = at + 1
      supplied[at] = drawn
      stored[at] = after
      overflow[at] = before + inflow - drawn - after
      before = after
    }
    return { period, inflow_gal, supplied_gal: supplied, overflow_gal: overflow, stored_gal: stored }
  },
})
