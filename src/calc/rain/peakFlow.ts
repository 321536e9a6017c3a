import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const peakFlow = calc({
  id: 'PEAKFLOW',
  chapter: 'rain',
  summary: 'Flow off a roof in the design storm.',
  takes: {
    area_ft2: arg('Plan area of the roof', { least: 0, most: 10_000_000 }),
    intensity_in_per_h: arg('Rain intensity', { least: 0, most: 40 }),
  },
  gives: { flow_gpm: 'Flow' },
  steps: [step('flow_gpm', 'Flow off the roof', 'area_ft2*intensity_in_per_h/96.25', cite('definitions', '96.25 = 60 x 12 x 231/1728'))],
  notes: ['No runoff coefficient: a design storm is taken to run off whole. Add the share of walls that shed on the roof to the area as the adopted code asks.'],
  example: [2500, 4.7],
  run: ({ area_ft2, intensity_in_per_h }) => (area_ft2 * intensity_in_per_h) / 96.25,
})
