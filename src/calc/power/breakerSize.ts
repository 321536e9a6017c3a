import { arg, calc, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { largestBreaker_A } from '../../keys.js'
import { cite } from '../../sources.js'
import { citeRows, column } from '../../table.js'
import { breakers } from '../../tables/breakers.js'
import { currentArg } from './conductorArgs.js'

const ratings = column(breakers, 'rating_A') as number[]

export const breakerSize = calc({
  id: 'BREAKERSIZE',
  chapter: 'power',
  summary: 'Standard breaker at or above a multiple of the motor current.',
  takes: { current_A: currentArg, multiple: arg('Multiple of the current', { least: 1, most: 4, default: 2.5 }) },
  gives: { breaker_A: 'Breaker' },
  steps: [
    step('wanted_A', 'Multiple of the current', 'current_A*multiple', cite('nec', 'Table 430.52: 250 % for an inverse-time breaker')),
    step('breaker_A', 'Next standard rating', 'INDEX(Breakers[rating_A],SUMPRODUCT((Breakers[rating_A]<wanted_A-0.000000001)*1)+1)', citeRows(breakers, 'nec', '240.6(A)')),
  ],
  notes: [
    'The largest that motor rules allow; the maker’s instructions may ask for less.',
    `Current times multiple is ${largestBreaker_A} A at the most, the largest rating of the table.`,
  ],
  example: [8],
  run({ current_A, multiple }) {
    const wanted = current_A * multiple
    const found = ratings.find((rating) => rating >= wanted - 1e-9)
    if (found === undefined) throw noAnswer('Current (current)', `a product with the multiple of at most ${largestBreaker_A} A`, wanted)
    return found
  },
})
