import { arg, calc, short, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { roundTo } from '../../rounding.js'
import { cite } from '../../sources.js'

/** Share by which a count of lots may be off by its arithmetic alone, so that 3.0000000000001 lots do not become 4. */
export const LOTS_SLACK = '0.000000000001'

/** Of more lots than these the slack is as large as a lot in a thousand. */
const MOST_LOTS = 1e9

export const orderQuantity = calc({
  id: 'ORDERQUANTITY',
  chapter: 'estimate',
  summary: 'Amount to order: waste added, then rounded up to whole lots.',
  takes: {
    net: arg('Net quantity', { least: 0, most: 1e9 }),
    waste: arg('Waste, share added', { least: 0, most: 2, default: 0 }),
    lot: arg('Lot, the least amount sold', { least: 0.001, most: 1e6, default: 1 }),
  },
  gives: { order: 'Amount to order' },
  steps: [
    step('need', 'Need with waste', 'net*(1+waste)', cite('practice', 'waste by item')),
    step('order', 'Amount to order', `IF(need/lot>${MOST_LOTS},NA(),ROUNDUP(need/lot*(1-${LOTS_SLACK}),0)*lot)`, cite('derivation', 'whole lots')),
  ],
  example: [182.5, 0.05, 100],
  run({ net, waste, lot }) {
    const lots = (net * (1 + waste)) / lot
    if (lots > MOST_LOTS)
      throw noAnswer('Lot, the least amount sold (lot)', `at least ${short((net * (1 + waste)) / MOST_LOTS)}: beyond a billion lots the last ones are lost in the digits`, lot)
    return roundTo(lots * (1 - Number(LOTS_SLACK)), 0, Math.ceil) * lot
  },
})
