import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const thermalChange = calc({
  id: 'THERMALCHANGE',
  chapter: 'tank',
  summary: 'Change in length of a pipe with temperature, free to move.',
  takes: {
    length_ft: arg('Length of pipe', { least: 0, most: 100_000 }),
    change_deltaF: arg('Change of temperature', { least: -300, most: 300 }),
    coefficient_per_F: arg('Coefficient of expansion', { least: 0, most: 0.001, default: 9e-5 }),
  },
  gives: { change_in: 'Change in length' },
  steps: [step('change_in', 'Change in length', 'length_ft*12*change_deltaF*coefficient_per_F', cite('ppiThermal', '9e-5 in/in/°F for polyethylene'))],
  notes: ['Rule of thumb: 1 in per 100 ft per 10 °F. PVC conduit: 3.38e-5.'],
  example: [100, 10],
  run: ({ length_ft, change_deltaF, coefficient_per_F }) => length_ft * 12 * change_deltaF * coefficient_per_F,
})
