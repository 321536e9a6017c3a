import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const frictionLoss = calc({
  id: 'FRICTIONLOSS',
  chapter: 'pipe',
  summary: 'Head lost to friction in a full pipe (Hazen–Williams).',
  takes: {
    flow_gpm: arg('Flow', { least: 0, most: 20_000 }),
    length_ft: arg('Length of pipe', { least: 0, most: 100_000 }),
    bore_in: arg('Inside diameter', { least: 0.1, most: 120 }),
    smoothness: arg('Hazen–Williams C', { least: 40, most: 160, default: 150 }),
  },
  gives: { loss_ftw: 'Head lost' },
  steps: [
    step('flow_cfs', 'Flow', 'flow_gpm*231/1728/60', cite('definitions')),
    step('bore_ft', 'Inside diameter', 'bore_in/12', cite('definitions')),
    step('loss_ftw', 'Head lost', '4.727*length_ft*flow_cfs^1.852/(smoothness^1.852*bore_ft^4.871)', cite('epaManual', 'Table 3.1, Hazen–Williams')),
  ],
  notes: [
    'For water near room temperature in turbulent flow. C is 150 for new PE and PVC, 140 the cautious value.',
    'Published constants differ: the plumbing form (0.2083, exponent 4.8655) runs 0.5 to 1.5 % higher over 1/2 to 4 in.',
  ],
  example: [9, 180, 1.049, 145],
  run({ flow_gpm, length_ft, bore_in, smoothness }) {
    const flow_cfs = (flow_gpm * 231) / 1728 / 60
    const bore_ft = bore_in / 12
    return (4.727 * length_ft * flow_cfs ** 1.852) / (smoothness ** 1.852 * bore_ft ** 4.871)
  },
})
