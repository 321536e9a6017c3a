import { calc, step, type PeriodTable } from '../../calc.js'
import { cite } from '../../sources.js'
import { demandArg, checkDemand, inflowArg } from './balance.js'

const periods: PeriodTable = {
  start: { short_gal: '0' },
  passes: 2,
  columns: [step('short_gal', 'Shortage carried so far', 'MAX(0,before_short_gal+demand_gal-inflow_gal)', cite('sequentPeak'))],
}

export const sequentPeak = calc({
  id: 'SEQUENTPEAK',
  chapter: 'rain',
  summary: 'Storage that never fails: the largest shortage carried through the record, run twice.',
  takes: { inflow_gal: inflowArg, demand_gal: demandArg },
  gives: { capacity_gal: 'Capacity' },
  steps: [step('capacity_gal', 'Largest shortage carried', 'MAX(short_gal)', cite('sequentPeak'))],
  periods,
  notes: ['Where demand is above inflow over the whole record, the shortage grows without end; the result is then only what two passes show.'],
  example: [[1, 3, 3, 5, 8, 6, 7, 2, 1], 3.5],
  run({ inflow_gal, demand_gal }) {
    checkDemand(demand_gal, inflow_gal.length)
    let short = 0
    let largest = 0
    for (let pass = 0; pass < 2; pass++) {
      for (let at = 0; at < inflow_gal.length; at++) {
        short = Math.max(0, short + (typeof demand_gal === 'number' ? demand_gal : demand_gal[at]!) - inflow_gal[at]!)
        if (short > largest) largest = short
      }
    }
    return largest
  },
})
