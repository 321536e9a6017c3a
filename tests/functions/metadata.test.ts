/** The functions' metadata against the published rules, and the binding as Excel calls it. */
import { beforeAll, describe, expect, it } from 'vitest'
import '../../functions/first.js'
import { bindFunctions } from '../../functions/bind.js'
import { functionsMetadata } from '../../functions/metadata.js'
import { calculations } from '../../src/calc/index.js'

const metadata = functionsMetadata()
const bound = new Map<string, (...args: unknown[]) => unknown>()
const twice: string[] = []

beforeAll(() => {
  const custom = globalThis.CustomFunctions as unknown as { associate(id: string, work: (...args: unknown[]) => unknown): void }
  custom.associate = (id, work) => {
    if (bound.has(id)) twice.push(id)
    bound.set(id, work)
  }
  bindFunctions()
})

/** Excel hands its invocation object over as the last argument. */
const invocation = { functionName: 'x' }
const call = (id: string, ...args: unknown[]) => bound.get(id)!(...args, invocation)

describe('metadata', () => {
  it('has every function once, each bound once', () => {
    const ids = metadata.functions.map(({ id }) => id)
    expect(new Set(ids).size).toBe(ids.length)
    expect([...bound.keys()].sort()).toEqual([...ids].sort())
    expect(twice).toEqual([])
    expect(ids.length).toBe(calculations.length + 1)
  })
  it.each(metadata.functions.map((entry) => [entry.id, entry] as const))('%s keeps the rules', (id, entry) => {
    expect(id).toMatch(/^[A-Z][A-Z0-9.]{2,}$/)
    expect(id).not.toMatch(/^[A-Z]{1,3}\d+$/)
    expect(id).not.toContain('_')
    expect(entry.description.length).toBeGreaterThan(10)
    expect(entry.description.length).toBeLessThanOrEqual(255)
    let isOptional = false
    for (const parameter of entry.parameters as { name: string; description: string; type: string; dimensionality: string; optional?: boolean; repeating?: boolean }[]) {
      expect(parameter.name).toMatch(/^[A-Za-z][A-Za-z0-9]*$/)
      expect(parameter.description.length).toBeLessThanOrEqual(255)
      expect(['any', 'string']).toContain(parameter.type)
      expect(['scalar', 'matrix']).toContain(parameter.dimensionality)
      // Once one parameter is optional, all after it are.
      if (isOptional) expect(parameter.optional, parameter.name).toBe(true)
      isOptional = parameter.optional === true
    }
  })
  it('is plain JSON', () => {
    expect(JSON.parse(JSON.stringify(metadata))).toEqual(metadata)
  })
})

describe('the binding', () => {
  it('takes null for what is left out, and ranges as rows', () => {
    // 1000 ft² and 1 in of rain: 144/231 gal each, 623 gal as published (Home Power, whole gallons).
    expect(call('CATCHMENTYIELD', 1000, 1, 1, null, null)).toBeCloseTo(623, -0.5)
    expect(call('CATCHMENTYIELD', 1000, [[1], [2]], 1, null, null)).toEqual([[expect.closeTo(623.377, 2)], [expect.closeTo(1246.753, 2)]])
  })
  it('words its errors: #VALUE! for bad input, #N/A for a table miss', () => {
    expect(() => call('PEAKFLOW', -1, 4)).toThrow(
      expect.objectContaining({ code: '#VALUE!', message: expect.stringContaining('Plan area of the roof (area): 0 to 10,000,000 ft²; got -1') }),
    )
    expect(() => call('PIPEBORE', 'PE IPS 200', 9)).toThrow(expect.objectContaining({ code: '#N/A' }))
    expect(() => call('PEAKFLOW', '', 4)).toThrow(expect.objectContaining({ code: '#VALUE!' }))
  })
  it('passes the error of another cell on', () => {
    const error = { code: '#N/A', message: 'from the other cell' }
    expect(() => call('PEAKFLOW', error, 4)).toThrow(expect.objectContaining(error))
    expect(() => call('DRYSPELL', [[0], [error]], null)).toThrow(expect.objectContaining(error))
  })
  it('spills, with a header row and no empty cell', () => {
    // A parameter of any shape comes as rows of cells, of one cell too.
    const rows = call('WATERBALANCE', [[0], [300]], [[150]], 600, 100, null) as unknown[][]
    expect(rows[0]).toEqual(['period', 'inflow', 'supplied', 'overflow', 'stored'])
    expect(rows.flat().every((cell) => cell !== null && cell !== undefined)).toBe(true)
  })
  it('WORKING takes its repeating arguments as Excel groups them', async () => {
    const rows = (await bound.get('WORKING')!('PEAKFLOW', [[[2500]], [[4.7]]], invocation)) as unknown[][]
    expect(rows.at(-1)!.slice(0, 3)).toEqual(['flow_gpm', 'Flow off the roof', expect.closeTo(122.08, 1)])
  })
})
