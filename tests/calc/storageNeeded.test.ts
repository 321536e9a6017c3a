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

/** Halving over every size with the published walk: slow, and nothing to get wrong. */
function byHalving(reached: (capacity_gal: number) => number, target: number): number {
  let [short, enough] = [-1, 1e7]
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2)
    if (reached(middle / 100) >= target) enough = middle
    else short = middle
  }
  return enough / 100
}

// Long records are begun in their first eighth; an even demand and one that changes, whole gallons and broken ones.
const days = (count: number, gallons: (day: number) => number) => Array.from({ length: count }, (_, day) => ((day * 7919) % 13 < 3 ? gallons(day) : 0))
const records = {
  'twelve years': days(4380, (day) => ((day * 104_729) % 997) / 1.7),
  'twelve years of whole gallons': days(4380, (day) => ((day * 104_729) % 83) * 10),
  'dry at first': [...Array.from({ length: 250 }, () => 0), ...days(4000, (day) => (day % 7) * 155.5)],
}
it.each(
  Object.entries(records).flatMap(([name, inflow_gal]) =>
    [40, inflow_gal.map((_, day) => 20 + (day % 365) / 12)].flatMap((demand_gal) =>
      [0.001, 0.5, 2 / 3, 0.9].flatMap((target) =>
        (['YAS', 'YBS'] as const).flatMap((rule) => (['volume', 'time'] as const).map((measure) => ({ name, inflow_gal, demand_gal, target, rule, measure }))),
      ),
    ),
  ),
)('as halving finds it: $name, $target, $rule, $measure', ({ inflow_gal, demand_gal, target, rule, measure }) => {
  const given = { inflow_gal, demand_gal, rule, measure }
  const reached = (capacity_gal: number) => supplyReliability.run({ ...given, capacity_gal, start_gal: 0 } as never) as number
  expect(storageNeeded.run({ ...given, target } as never)).toBe(byHalving(reached, target))
})

it.each(['volume', 'time'] as const)('no tank reaches more than its record brings, %s', (measure) => {
  const inflow_gal = days(4380, () => 100)
  expect(() => storageNeeded({ inflow_gal, demand_gal: 60, target: 0.99, rule: 'YAS', measure })).toThrow(/no tank reaches it/)
  expect(storageNeeded({ inflow_gal: [0, 0], demand_gal: 0, target: 1, rule: 'YAS', measure })).toBe(0)
  // The largest amounts that are taken.
  expect(() => storageNeeded({ inflow_gal: [1e9, 0, 0], demand_gal: 1e9, target: 0.9, rule: 'YAS', measure })).toThrow(/no tank reaches it/)
})
