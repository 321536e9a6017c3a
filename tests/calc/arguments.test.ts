/** Arguments as spreadsheets hand them over, and the words for those that are refused. */
import { describe, expect, it } from 'vitest'
import { callByName } from '../../src/calc/callByName.js'
import { InputError } from '../../src/errors.js'

const refusal = (id: string, ...cells: unknown[]): string => {
  try {
    callByName(id, cells)
  } catch (error) {
    if (error instanceof InputError) return error.message
    throw error
  }
  throw new Error(`${id} took ${JSON.stringify(cells)}.`)
}

describe('one demand for every period', () => {
  // Three periods of 300 gal in, 150 gal of use: by the definition of a mean, nothing is short.
  const inflow = [[300], [0], [900]]
  it.each<[string, (demand: unknown) => readonly unknown[]]>([
    ['SEQUENTPEAK', (demand) => [inflow, demand]],
    ['STORAGENEEDED', (demand) => [inflow, demand, 0.5]],
    ['WATERBALANCE', (demand) => [inflow, demand, 600]],
    ['SUPPLYRELIABILITY', (demand) => [inflow, demand, 600]],
  ])('%s takes it as a number, as text, in a cell of its own and as a range of one', (id, args) => {
    const plain = callByName(id, args(150))
    for (const demand of ['150 gal', [150], [[150]], [['150']]]) expect(callByName(id, args(demand))).toEqual(plain)
    expect(() => callByName(id, args([[null]]))).toThrow(InputError)
  })
})

describe('what is refused', () => {
  it('says why a unit does not fit', () => {
    expect(refusal('FLOWVELOCITY', '10 kg', 1)).toMatch(/0 to 20,000 gpm; got "10 kg", a unit that cannot be turned into gpm\.$/)
    expect(refusal('FLOWVELOCITY', '10 blobs', 1)).toMatch(/got "10 blobs", a unit that is not known here\.$/)
    for (const text of ['1,5', '0,750 gpm', '-12,25 gpm', '3,1416']) expect(refusal('FLOWVELOCITY', text, 1), text).toMatch(/, with a comma where a point goes\.$/)
    expect(refusal('FLOWVELOCITY', '99,999 gpm', 1)).not.toMatch(/comma/)
    expect(refusal('ORDERQUANTITY', 10, '3 h/day')).toMatch(/got "3 h\/day", a unit where a number alone belongs\.$/)
    expect(refusal('FLOWVELOCITY', 'ten', 1)).toMatch(/gpm; got "ten"\.$/)
  })
  it('as much of an entry of a range, whose place it names', () => {
    expect(refusal('CATCHMENTYIELD', 2000, [[1], ['3 kg']], 0.9)).toMatch(/^Rain \(rain\), entry 2 of the range: .* in; got "3 kg", a unit that cannot be turned into in\.$/)
    const curve = [
      [0, 200],
      [10, 'high'],
    ]
    expect(refusal('PUMPDUTY', curve, 100, 10)).toMatch(/entry 2 of the range, column 2: 0 to 5,000 ft of water; got "high"\.$/)
  })
  it('names the voltages that a motor of one phase is listed for (NEC Table 430.248)', () => {
    expect(refusal('MOTORCURRENT', 1, 460)).toBe('Voltage (voltage): 110 to 120, 200, 208, 220 to 240 V for motors of 1 phase; got 460.')
  })
  it('more lots than their digits can tell apart', () => {
    expect(refusal('ORDERQUANTITY', 1e9, 2, 0.001)).toMatch(/at least 3: .*; got 0\.001\.$/)
    expect(callByName('ORDERQUANTITY', [1e9, 0, 1])).toBe(1e9)
  })
  it('a page of text in a cell, unread', () => {
    expect(refusal('PIPEBORE', 'PVC 40', `1${' '.repeat(30_000)}x`)).toMatch(/; got "1 +\.\.\."\.$/)
  })
})
