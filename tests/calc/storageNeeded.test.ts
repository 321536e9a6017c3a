/** The smallest tank is what it says: a whole number of hundredths of a gallon, enough, and a hundredth less is not. */
import { expect, it } from 'vitest'
import { storageNeeded, supplyReliability } from '../../src/index.js'

const inflow_gal = [0, 310, 0, 955, 0, 0, 57, 703, 0, 41, 0, 0]
it.each(
  [0.21, 0.37, 0.5, 0.613, 0.7].flatMap((target) => (['YAS', 'YBS'] as const).flatMap((rule) => (['volume', 'time'] as const).map((measure) => ({ target, rule, measure })))),
)('$target, $rule, $measure', ({ target, rule, measure }) => {
  const given = { inflow_gal, demand_gal: inflow_gal.map(() => 97), rule, measure }
  const capacity = storageNeeded.run({ ...given, target } as never) as number
  expect(Math.round(capacity * 100) / 100).toBe(capacity)
  const reached = (capacity_gal: number) => supplyReliability.run({ ...given, capacity_gal, start_gal: 0 } as never) as number
  expect(reached(capacity)).toBeGreaterThanOrEqual(target)
  if (capacity > 0) expect(reached(Math.round(capacity * 100 - 1) / 100)).toBeLessThan(target)
})
