import { calc, type Series } from '../../calc.js'
import {
  balanceTable,
  capacityArg,
  checkStart,
  demandArg,
  demandOf,
  FULL_WITHIN_GAL,
  inflowArg,
  measureArg,
  reliabilityStep,
  ruleArg,
  startArg,
  storedAfter,
  suppliedIn,
  type Measure,
  type Rule,
} from './balance.js'

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
    return reliabilityAt(inflow_gal, demand_gal, capacity_gal, start_gal, rule as Rule, measure as Measure)
  },
})

/** The plain walk through the record; STORAGENEEDED proves its answer with it. */
export function reliabilityAt(inflow: Series, demands: number | Series, capacity: number, start: number, rule: Rule, measure: Measure): number {
  const demandIn = demandOf(demands, inflow.length)
  let before = start
  let wanted = 0
  let met = 0
  let full = 0
  for (let at = 0; at < inflow.length; at++) {
    const demand = demandIn(at)
    const supplied = suppliedIn(rule, before, inflow[at]!, demand)
    before = storedAfter(rule, before, inflow[at]!, supplied, capacity)
    wanted += demand
    met += supplied
    if (supplied >= demand - FULL_WITHIN_GAL) full++
  }
  if (measure === 'time') return full / inflow.length
  return wanted === 0 ? 1 : met / wanted
}
