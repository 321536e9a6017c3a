/** A call over plain values is answered without a grid, and as the grid answers it. */
import { describe, expect, it } from 'vitest'
import { calculations } from '../../src/calc/index.js'
import { directAnswer } from '../../src/cli/direct.js'
import { GridEngine } from '../../src/hosts/gridEngine.js'

const engine = new GridEngine()
const inGrid = (text: string) => {
  const result = engine.evaluate(text)
  return Array.isArray(result)
    ? { rows: result.map((row) => row.map(({ value }) => value)) }
    : String(result.value).startsWith('#')
      ? { error: result.value, message: result.message }
      : { value: result.value }
}
const plain = calculations.filter(({ example }) => example.every((value) => typeof value === 'number' || typeof value === 'string'))
const called = (id: string, values: readonly unknown[]) => `=CISTERN.${id}(${values.map((value) => (typeof value === 'string' ? `"${value}"` : String(value))).join(', ')})`

describe('a call over plain values', () => {
  it('there are such calls of most functions', () => {
    expect(plain.length).toBeGreaterThan(30)
  })
  it.each(plain.map(({ id, example }) => [called(id, example)]))('%s is answered as the grid answers it', (text) => {
    expect(directAnswer(text)).toEqual(inGrid(text))
    expect(directAnswer(text.replace('=CISTERN', 'cistern'))).toEqual(inGrid(text))
  })
  it.each(plain.slice(0, 12).map(({ id, example }) => [`=CISTERN.WORKING("${id}", ${called(id, example).replace(/^[^(]+\(|\)$/g, '')})`]))('%s too', (text) => {
    expect(directAnswer(text)).toEqual(inGrid(text))
  })
  it('leaves quotes that never close to the grid', () => {
    expect(directAnswer('=CISTERN.TOTALHEAD(22", 50, 8.4)')).toBeUndefined()
  })
  it('refuses in the same words', () => {
    expect(directAnswer('=CISTERN.PEAKFLOW(-1,4)')).toEqual({ error: '#VALUE!', message: inGrid('=CISTERN.PEAKFLOW(-1,4)').message })
    expect(directAnswer('=CISTERN.PEAKFLOW("300 m2","120 mm/h")')).toEqual(inGrid('=CISTERN.PEAKFLOW("300 m2","120 mm/h")'))
    // A place left empty takes the default.
    expect(directAnswer('=CISTERN.FRICTIONLOSS(9,180,1.049,)')).toEqual(inGrid('=CISTERN.FRICTIONLOSS(9,180,1.049,)'))
  })
  it.each([
    '=1+1',
    '=CISTERN.PEAKFLOW(2500,4.7)+1',
    '=CISTERN.PEAKFLOW(A1,4.7)',
    '=CISTERN.PEAKFLOW(2500)',
    '=CISTERN.PEAKFLOW(2500,4,5)',
    '=CISTERN.NOTHING(1)',
    '=CISTERN.PEAKFLOW(SUM(1,2),4)',
    '=CISTERN.WATERBALANCE({0;300},150,600,100)',
    '=CISTERN.PEAKFLOW(TRUE,4)',
    '=CISTERN.PEAKFLOW("a""b",4)',
  ])('%s is the grid’s to answer', (text) => {
    expect(directAnswer(text)).toBeUndefined()
  })
})
