import { calc, step } from '../../calc.js'
import { wireKey } from '../../keys.js'
import { citeRows, lookUp } from '../../table.js'
import { conductors } from '../../tables/conductors.js'
import { atSize, metalArg, resistanceFormula } from './conductorArgs.js'

export const conductorResistance = calc({
  id: 'CONDUCTORRESISTANCE',
  chapter: 'power',
  summary: 'Direct-current resistance of a stranded conductor at 75 °C.',
  takes: { size: wireKey, metal: metalArg },
  gives: { resistance_ohm_per_kft: 'Resistance' },
  steps: [step('resistance_ohm_per_kft', 'Resistance', resistanceFormula(atSize), citeRows(conductors, 'nec', 'Chapter 9 Table 8'))],
  notes: ['A buried feeder runs cooler than 75 °C, so drops figured with it are on the safe side.'],
  example: ['12'],
  run: ({ size, metal }) => lookUp(conductors, { size }, `${metal}_ohm_per_kft`) as number,
})
