import { calc, step } from '../../calc.js'
import { cite } from '../../sources.js'
import { balanceTable, capacityArg, checkDemand, checkStart, demandArg, inflowArg, ruleArg, startArg } from './balance.js'

export const waterBalance = calc({
  id: 'WATERBALANCE',
  chapter: 'rain',
  summary: 'What a tank supplies, spills and keeps, period by period.',
  takes: { inflow_gal: inflowArg, demand_gal: demandArg, capacity_gal: capacityArg, start_gal: startArg, rule: ruleArg },
  spills: { period: 'Period', inflow_gal: 'Inflow', supplied_gal: 'Supplied', overflow_gal: 'Overflow', stored_gal: 'Stored at the end' },
  steps: [step('last_gal', 'Stored after the last period', 'INDEX(stored_gal,COUNT(stored_gal))', cite('yield'))],
  periods: balanceTable('start_gal'),
  notes: [
    'YAS (yield after spillage) is the cautious rule for daily rain. With monthly rain use YBS: a month’s rain serves the same month.',
    'An empty tail of the range is ignored; a gap or a text in the middle is refused.',
  ],
  example: [[0, 300, 0, 900, 0], 150, 600, 100, 'YAS'],
  run({ inflow_gal, demand_gal, capacity_gal, start_gal, rule }) {
    checkStart(start_gal, capacity_gal)
    checkDemand(demand_gal, inflow_gal.length)
    const periods = inflow_gal.length
    const room = new Float64Array(3 * periods)
    const supplied = room.subarray(0, periods)
    const overflow = room.subarray(periods, 2 * periods)
    const stored = room.subarray(2 * periods)
    const isAfter = rule === 'YAS'
    const even = typeof demand_gal === 'number'
    let before = start_gal
    for (let at = 0; at < periods; at++) {
      const inflow = inflow_gal[at]!
      const demand = even ? demand_gal : demand_gal[at]!
      const reach = isAfter ? before : before + inflow
      const drawn = demand < reach ? demand : reach
      const kept = before + inflow - drawn
      const most = isAfter ? capacity_gal - drawn : capacity_gal
      const after = kept < most ? kept : most
      supplied[at] = drawn
      stored[at] = after
      overflow[at] = kept - after
      before = after
    }
    return { inflow_gal, supplied_gal: supplied, overflow_gal: overflow, stored_gal: stored }
  },
})
