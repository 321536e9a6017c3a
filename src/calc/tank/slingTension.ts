import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const slingTension = calc({
  id: 'SLINGTENSION',
  chapter: 'tank',
  summary: 'Pull in each sling leg that is counted on.',
  takes: {
    weight_lb: arg('Weight lifted', { least: 0, most: 10_000_000 }),
    legs: arg('Legs counted', { least: 1, most: 4, only: [1, 2, 3, 4] }),
    angle_deg: arg('Angle from horizontal', { least: 30, most: 90 }),
  },
  gives: { tension_lb: 'Pull in a leg' },
  steps: [step('tension_lb', 'Pull in a leg', 'weight_lb/legs/SIN(angle_deg*PI()/180)', cite('slings', 'factor = 1 / sin of the angle from horizontal'))],
  notes: [
    'Of four legs on a rigid tank count two (common practice). Below 30° from horizontal slings are not used. Lifting is planned by a competent person; nobody stands under a load.',
  ],
  example: [18479, 2, 60],
  run: ({ weight_lb, legs, angle_deg }) => weight_lb / legs / Math.sin((angle_deg * Math.PI) / 180),
})
