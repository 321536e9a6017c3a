import { calc, step } from '../../calc.js'
import { wireKey } from '../../keys.js'
import { cite } from '../../sources.js'
import { citeRows } from '../../table.js'
import { conductors } from '../../tables/conductors.js'
import { atSize, currentArg, lengthArg, metalArg, phasesArg, resistanceFormula, runFactor, runFactorFormula } from './conductorArgs.js'
import { conductorResistance } from './conductorResistance.js'

export const voltageDrop = calc({
  id: 'VOLTAGEDROP',
  chapter: 'power',
  summary: 'Voltage lost along a feeder.',
  takes: { current_A: currentArg, length_ft: lengthArg, size: wireKey, phases: phasesArg, metal: metalArg },
  gives: { drop_V: 'Voltage drop' },
  steps: [
    step('resistance_ohm_per_kft', 'Resistance at 75 °C', resistanceFormula(atSize), citeRows(conductors, 'nec', 'Chapter 9 Table 8')),
    step('factor', 'Length factor: 2, or the square root of 3', runFactorFormula, cite('nec', 'voltage-drop formulas in common use')),
    step('drop_V', 'Voltage drop', 'factor*current_A*length_ft*resistance_ohm_per_kft/1000', cite('nec', 'VD = 2 I L R / 1000')),
  ],
  notes: ['Use the running current, not 125 % of it. Direct-current resistance: reactance and power factor are left out, which matters little up to 1/0 AWG.'],
  example: [8, 250, '10'],
  run: ({ current_A, length_ft, size, phases, metal }) => (runFactor(phases) * current_A * length_ft * conductorResistance.run({ size, metal })) / 1000,
})
