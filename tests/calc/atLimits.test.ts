/** What stands exactly at a limit is within it, by hand arithmetic: the last digits of a double decide nothing. */
import { describe, expect, it } from 'vitest'
import { ampacity, conductorSize, pumpDuty, stoneBedding, storageNeeded, supplyReliability } from '../../src/index.js'

describe('exactly at the limit', () => {
  it('three of five periods are 0.6 of the demand', () => {
    // 1,000 gal come in the second of five periods; each of the three that follow is met whole from 2.1 gal, at 0.7 gal each.
    const record = { inflow_gal: [0, 1000, 0, 0, 0], demand_gal: 0.7 }
    expect(storageNeeded({ ...record, target: 0.6 })).toBe(2.1)
    expect(supplyReliability({ ...record, capacity_gal: 2.1 })).toBe(0.6)
  })
  it('a duty on the last point of the curve is on the curve', () => {
    const curve: readonly (readonly [number, number])[] = [
      [0, 80.3],
      [10, 30.3],
    ]
    // 10.1 + 20.2 = 30.3 ft at 10 gpm.
    expect(pumpDuty({ curve, lift_ftw: 10.1, testFlow_gpm: 10, testLoss_ftw: 20.2 })).toEqual({ flow_gpm: [10], head_ftw: [expect.closeTo(30.3, 9)] })
    expect(() => pumpDuty({ curve, lift_ftw: 10.1, testFlow_gpm: 10, testLoss_ftw: 20.1 })).toThrow('past its last point')
  })
  it('a drop of the limit is within it', () => {
    // NEC Chapter 9 Table 8: 1.28 ohm/1000 ft of 8 AWG aluminum; 2 x 7.5 A x 375 ft x 1.28/1000 = 7.2 V, 3 % of 240 V.
    expect(conductorSize({ current_A: 7.5, length_ft: 375, voltage_V: 240, limit: 0.03, metal: 'aluminum', column_C: 75 })).toBe('8')
    expect(conductorSize({ current_A: 7.5, length_ft: 375.1, voltage_V: 240, limit: 0.03, metal: 'aluminum', column_C: 75 })).toBe('6')
  })
  it('what displaces the whole bed leaves none of it', () => {
    // 1.2 x 4.3 x 1 = 5.16 ft³.
    expect(stoneBedding({ length_ft: 1.2, width_ft: 4.3, thickness_in: 12, displaced_ft3: 5.16 })).toBe(0)
    expect(() => stoneBedding({ length_ft: 1.2, width_ft: 4.3, thickness_in: 12, displaced_ft3: 5.17 })).toThrow('0 to the volume of the bed, 5.16 ft³')
  })
  it('names as the trade writes them', () => {
    // NEC Table 310.16: 30 A for 10 AWG copper at 60 °C.
    for (const size of ['AWG 10', '10 ga', '#10', 'No. 10']) expect(ampacity({ size, metal: 'Cu', column_C: '140 °F' })).toBe(30)
    // 145 A for 2/0.
    expect(ampacity({ size: '00' })).toBe(145)
  })
})
