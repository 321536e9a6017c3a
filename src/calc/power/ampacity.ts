import { calc, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { wireKey } from '../../keys.js'
import { citeRows, lookUp } from '../../table.js'
import { conductors } from '../../tables/conductors.js'
import { ampacityFormula, atSize, columnArg, metalArg } from './conductorArgs.js'

export const ampacity = calc({
  id: 'AMPACITY',
  chapter: 'power',
  summary: 'Current a conductor may carry, at 30 °C ambient, by the column of its terminals.',
  takes: { size: wireKey, metal: metalArg, column_C: columnArg },
  gives: { ampacity_A: 'Ampacity' },
  steps: [
    step('listed_A', 'Ampacity of the table; 0 where none is published', ampacityFormula(atSize), citeRows(conductors, 'nec', 'Table 310.16 (310.15(B)(16) in 2011 to 2017)')),
    step('ampacity_A', 'Ampacity', 'IF(listed_A>0,listed_A,NA())', citeRows(conductors, 'nec', 'Table 310.16 (310.15(B)(16) in 2011 to 2017)')),
  ],
  notes: ['Up to three current-carrying conductors. Ambient above 30 °C and bundling lower it: the adopted code and a licensed electrician decide.'],
  example: ['10'],
  run({ size, metal, column_C }) {
    const ampacity_A = lookUp(conductors, { size }, `${metal}${column_C}_A`)
    if (typeof ampacity_A !== 'number') throw noAnswer('Wire size (size)', `no ${metal} ampacity is published for this size`, size)
    return ampacity_A
  },
})
