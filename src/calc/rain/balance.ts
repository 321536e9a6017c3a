/** The tank simulation that WATERBALANCE, SUPPLYRELIABILITY and STORAGENEEDED share: arguments, rules, period table. */
import { arg, choice, series, step, type PeriodTable, type Series } from '../../calc.js'
import { badInput } from '../../errors.js'
import { cite } from '../../sources.js'

export type Rule = 'YAS' | 'YBS'
export type Measure = 'volume' | 'time'
export const MOST_GAL = 1e9

export const inflowArg = series('Inflow', { least: 0, most: MOST_GAL })
export const demandArg = series('Demand', { least: 0, most: MOST_GAL, orNumber: true, hint: 'one number for every period, or a range as long as the inflow' })
export const capacityArg = arg('Tank capacity', { least: 0, most: MOST_GAL })
export const startArg = arg('Stored at the start', { least: 0, most: MOST_GAL, default: 0, hint: 'not above the capacity' })
export const ruleArg = choice('Order of yield and spill', { options: ['YAS', 'YBS'], default: 'YAS' })
export const measureArg = choice('Measure of reliability', { options: ['volume', 'time'], default: 'volume' })

/** A period counts as met in full when the shortfall is within this, so that rounding does not fail it. */
export const FULL_WITHIN_GAL = 1e-9

/** A range of demands must be as long as the inflow. */
export function checkDemand(demand: number | Series, periods: number): void {
  if (typeof demand !== 'number' && demand.length !== periods) throw badInput('Demand (demand)', `one number, or as many entries as the inflow has (${periods})`, demand.length)
}

export function checkStart(start_gal: number, capacity_gal: number): void {
  if (start_gal > capacity_gal) throw badInput('Stored at the start (start)', `0 to the capacity, ${capacity_gal} gal`, start_gal)
}

/**
 * The rules as the steps below state them, and as the loops walk them. YAS: rain comes in, the excess spills, then the
 * yield, limited to what was stored before, is drawn. YBS: the yield is drawn from store and inflow, then the excess spills.
 */
export const balanceTable = (start: string): PeriodTable => ({
  start: { stored_gal: start },
  passes: 1,
  columns: [
    step(
      'supplied_gal',
      'Supplied',
      'IF(rule="YAS",MIN(demand_gal,before_stored_gal),MIN(demand_gal,before_stored_gal+inflow_gal))',
      cite('yield', 'yield after spillage, yield before spillage'),
    ),
    step(
      'stored_gal',
      'Stored at the end',
      'MIN(before_stored_gal+inflow_gal-supplied_gal,IF(rule="YAS",capacity_gal-supplied_gal,capacity_gal))',
      cite('yield', 'yield after spillage, yield before spillage'),
    ),
    step('overflow_gal', 'Overflow', 'before_stored_gal+inflow_gal-supplied_gal-stored_gal', cite('derivation', 'what is neither supplied nor stored')),
  ],
})

export const reliabilityStep = step(
  'reliability',
  'Share of demand met, by volume or by periods met in full',
  'IF(measure="volume",IF(SUM(demand_gal)=0,1,SUM(supplied_gal)/SUM(demand_gal)),SUMPRODUCT((supplied_gal>=demand_gal-0.000000001)*1)/COUNT(demand_gal))',
  cite('reliability', 'definitions of volume and time reliability'),
)
