import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const looseVolume = calc({
  id: 'LOOSEVOLUME',
  chapter: 'earth',
  summary: 'Dug earth on the truck: bank volume plus swell.',
  takes: {
    bank_yd3: arg('Volume in the bank', { least: 0, most: 10_000_000 }),
    swell: arg('Swell, share added', { least: 0, most: 1 }),
  },
  gives: { loose_yd3: 'Loose volume' },
  steps: [step('loose_yd3', 'Loose volume', 'bank_yd3*(1+swell)', cite('estimating', 'Fig. 9.1 and Example 9-2'))],
  notes: ['Swell: sand and gravel 0.10 to 0.18, common earth about 0.25, dense clay 0.20 to 0.35, rock 0.40 to 0.70.'],
  example: [1000, 0.3],
  run: ({ bank_yd3, swell }) => bank_yd3 * (1 + swell),
})
