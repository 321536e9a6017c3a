import { arg, calc, step } from '../../calc.js'
import { largestBreaker_A } from '../../keys.js'
import { citeRows } from '../../table.js'
import { breakers } from '../../tables/breakers.js'
import { metalArg } from './conductorArgs.js'

export const groundSize = calc({
  id: 'GROUNDSIZE',
  chapter: 'power',
  summary: 'Least equipment grounding conductor behind a breaker.',
  takes: { breaker_A: arg('Breaker', { least: 0, most: largestBreaker_A }), metal: metalArg },
  gives: { size: 'Size, AWG' },
  steps: [
    step('row', 'First rating not below the breaker', 'SUMPRODUCT((Breakers[rating_A]<breaker_A)*1)+1', citeRows(breakers, 'nec', 'Table 250.122')),
    step('size', 'Size, AWG', 'IF(metal="copper",INDEX(Breakers[copper],row),INDEX(Breakers[aluminum],row))', citeRows(breakers, 'nec', 'Table 250.122')),
  ],
  notes: ['Never needs to be larger than the line conductors; grows with them when they are enlarged for voltage drop.'],
  example: [20],
  run: ({ breaker_A, metal }) => breakers.rows.find((row) => (row.rating_A as number) >= breaker_A)![metal] as string,
})
