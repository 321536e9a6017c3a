/** The depths from which 29 CFR 1926 Subpart P asks for something, each at its limit, just inside and just beyond, as it is printed. */
import { describe, expect, it } from 'vitest'
import { formula } from '../../src/formula/formula.js'
import { results } from '../../src/takeoff/results/index.js'
import { leastRow, takeoffOf } from '../support/office.js'

const flag = (name: string, given: Readonly<Record<string, number | string>>) =>
  formula(results.find((one) => one.name === name)!.formula).evaluate({ value: (wanted: string) => given[wanted] })

describe('29 CFR 1926', () => {
  // 1926.651(c)(2): 4 ft or more; 1926.652(a)(1): 5 ft or more; Appendix F: over 20 ft.
  it.each([
    ['PitLaddered', 'PitDepth_ft', 3.99, 0],
    ['PitLaddered', 'PitDepth_ft', 3.996, 1],
    ['PitLaddered', 'PitDepth_ft', 4, 1],
    ['PitProtected', 'PitDepth_ft', 4.99, 0],
    ['PitProtected', 'PitDepth_ft', 4.996, 1],
    ['PitProtected', 'PitDepth_ft', 5, 1],
    ['PitEngineered', 'PitDepth_ft', 20, 0],
    ['PitEngineered', 'PitDepth_ft', 20.004, 0],
    ['PitEngineered', 'PitDepth_ft', 20.01, 1],
    ['LineProtected', 'LineDug_in', 59.8, 0],
    ['LineProtected', 'LineDug_in', 59.95, 1],
    ['LineProtected', 'LineDug_in', 60, 1],
    ['DrainsProtected', 'DrainDeepest_ft', 4.99, 0],
    ['DrainsProtected', 'DrainDeepest_ft', 4.996, 1],
    ['DrainsProtected', 'DrainDeepest_ft', 5, 1],
  ])('%s of %s %d is %d', (name, of, depth, wanted) => {
    expect(flag(name, { [of]: depth, PitSoil: 'B' })).toBe(wanted)
  })
  it('a pit of the least job takes ladder and protection, and no engineer', () => {
    const { design } = takeoffOf(leastRow)
    const raised = design.cautions().map(({ name }) => name)
    expect([design.number('PitDepth_ft') > 5, design.number('PitDepth_ft') < 20]).toEqual([true, true])
    expect(raised).toEqual(expect.arrayContaining(['footings', 'spoil', 'daily inspection']))
    expect(raised).not.toContain('deep pit')
  })
})
