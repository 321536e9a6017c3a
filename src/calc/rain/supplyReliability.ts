import { calc, type Series } from '../../calc.js'
import {
  balanceTable,
  capacityArg,
  checkDemand,
  checkStart,
  demandArg,
  FULL_WITHIN_GAL,
  inflowArg,
  measureArg,
  reliabilityStep,
  ruleArg,
  startArg,
  type Measure,
  type Rule,
} from './balance.js'
import { shortNumber } from '../../rounding.js'

export const supplyReliability = calc({
  id: 'SUPPLYRELIABILITY',
  chapter: 'rain',
  summary: 'Share of the demand that a tank meets: by volume, or by time (periods met in full).',
  takes: { inflow_gal: inflowArg, demand_gal: demandArg, capacity_gal: capacityArg, start_gal: startArg, rule: ruleArg, measure: measureArg },
  gives: { reliability: 'Reliability' },
  steps: [reliabilityStep],
  periods: balanceTable('start_gal'),
  notes: ['A record without any demand counts as fully met.'],
  example: [[0, 300, 0, 900, 0], 150, 600, 100, 'YAS', 'volume'],
  run({ inflow_gal, demand_gal, capacity_gal, start_gal, rule, measure }) {
    checkStart(start_gal, capacity_gal)
    checkDemand(demand_gal, inflow_gal.length)
    return reliabilityAt(inflow_gal, demand_gal, capacity_gal, start_gal, rule as Rule, measure as Measure)
  },
})

/** The plain walk through the record. */
function reliabilityAt(inflows: Series, demands: number | Series, capacity: number, start: number, rule: Rule, measure: Measure): number {
  const isAfter = rule === 'YAS'
  const even = typeof demands === 'number'
  let before = start
  let wanted = 0
  let met = 0
  const isByTime = measure === 'time'
  let full = 0
  for (let at = 0; at < inflows.length; at++) {
    const inflow = inflows[at]!
    const demand = even ? demands : demands[at]!
    const reach = isAfter ? before : before + inflow
    const drawn = demand < reach ? demand : reach
    const kept = before + inflow - drawn
    const most = isAfter ? capacity - drawn : capacity
    before = kept < most ? kept : most
    wanted += demand
    met += drawn
    if (isByTime && drawn >= demand - FULL_WITHIN_GAL) full++
  }
  if (isByTime) return full / inflows.length
  return wanted === 0 ? 1 : shortNumber(met / wanted)
}
