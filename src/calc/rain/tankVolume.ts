import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const tankVolume = calc({
  id: 'TANKVOLUME',
  chapter: 'rain',
  summary: 'Water held by box tanks, from inside dimensions.',
  takes: {
    length_ft: arg('Inside length', { least: 0, most: 1000 }),
    width_ft: arg('Inside width', { least: 0, most: 1000 }),
    depth_ft: arg('Water depth', { least: 0, most: 200 }),
    count: arg('Number of tanks', { least: 0, most: 1000, default: 1 }),
  },
  gives: { volume_gal: 'Volume' },
  steps: [step('volume_gal', 'Volume', 'length_ft*width_ft*depth_ft*count*1728/231', cite('definitions', '1 gal = 231 in³'))],
  example: [9, 5, 5, 2],
  run: ({ length_ft, width_ft, depth_ft, count }) => (length_ft * width_ft * depth_ft * count * 1728) / 231,
})
