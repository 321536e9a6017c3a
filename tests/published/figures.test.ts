/** Every function against figures that others published; each figure stands in figures.json with its source and the reason of its tolerance. */
import { afterAll, describe, expect, it } from 'vitest'
import { calculations } from '../../src/calc/index.js'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import figures from './figures.json'
import { tally, type Figure } from './tally.js'

const engine = new GridEngine()

function valueOf(formula: string): number | string {
  const result = engine.evaluate(formula)
  const { value, message } = Array.isArray(result) ? result[0]![0]! : result
  if (typeof value !== 'number' && typeof value !== 'string') throw new Error(`${formula} gave ${value}`)
  if (typeof value === 'string' && value.startsWith('#')) throw new Error(`${formula}: ${value} ${message}`)
  return value
}

const list = figures as Figure[]
const byFunction = new Map(calculations.map(({ id }) => [id, list.filter(({ formula }) => formula.includes(`CISTERN.${id}(`))]))

describe('published figures', () => {
  for (const [id, own] of byFunction) {
    if (!own.length) continue
    it(`${id}: ${own.length} figures`, () => {
      for (const { formula, expected, tolerance, why, source } of own) {
        const value = valueOf(formula)
        if (typeof expected === 'string') {
          expect(value, `${formula} (${source})`).toBe(expected)
          continue
        }
        const allowed = Math.max((tolerance.rel ?? 0) * Math.abs(expected), tolerance.abs ?? 0)
        expect(Math.abs((value as number) - expected), `${formula} gave ${value}, published ${expected}: ${source}; ${why}`).toBeLessThanOrEqual(allowed)
      }
    })
  }

  it('holds at least 250 figures that were read in a source, and every figure says where from and why its tolerance', () => {
    expect(list.filter(({ status }) => status === 'published').length).toBeGreaterThanOrEqual(250)
    for (const { formula, source, why, status } of list) {
      expect(source.length, formula).toBeGreaterThan(3)
      expect(why.length, formula).toBeGreaterThan(5)
      expect(['published', 'derived', 'from memory']).toContain(status)
    }
  })

  it('checks every function by at least two figures; DRYSPELL and STORAGENEEDED are checked on open rain data (openRain.test.ts)', () => {
    const few = [...byFunction].filter(([id, own]) => own.length < 2 && !['DRYSPELL', 'STORAGENEEDED'].includes(id)).map(([id, own]) => `${id} ${own.length}`)
    expect(few).toEqual([])
  })
})

afterAll(() => {
  const { functions, checked, sources, published, derived, fromMemory, worst } = tally(list, valueOf)
  console.log(
    `Tally: ${functions} functions, ${checked} figures checked (${published} published, ${derived} derived, ${fromMemory} from memory), ${sources} sources; worst difference as a share of its tolerance ${worst.share.toFixed(3)} (${worst.formula})`,
  )
})
