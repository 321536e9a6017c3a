/** Numbers in words, held against the formatter of the language's own library. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dollars, roundTo, withCommas } from '../src/rounding.js'

describe('thousands set apart', () => {
  it('as Intl.NumberFormat sets them, whatever the size, the sign and the decimals', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e12, max: 1e12, noNaN: true }), fc.integer({ min: 0, max: 4 }), (value, decimals) => {
        const rounded = roundTo(value, decimals)
        // A spreadsheet shows no sign before a zero.
        const shown = new Intl.NumberFormat('en-US', { minimumFractionDigits: decimals, maximumFractionDigits: decimals }).format(rounded === 0 ? 0 : rounded)
        expect(withCommas(value, decimals)).toBe(shown)
      }),
      { seed: 11, numRuns: 1000 },
    )
  })
  it('money rounds the decimal that is shown, not its binary form', () => {
    expect(dollars(2.675)).toBe('$2.68')
    expect(dollars(1234567.891)).toBe('$1,234,567.89')
  })
})
