import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const waterPower = calc({
  id: 'WATERPOWER',
  chapter: 'pipe',
  summary: 'Power in the water, or at the shaft when an efficiency is given.',
  takes: {
    flow_gpm: arg('Flow', { least: 0, most: 20_000 }),
    head_ftw: arg('Head', { least: 0, most: 10_000 }),
    efficiency: arg('Efficiency', { least: 0.01, most: 1, default: 1 }),
  },
  gives: { power_hp: 'Power' },
  steps: [step('power_hp', 'Power', 'flow_gpm*head_ftw/(3960*efficiency)', cite('hiData', 'section I-B, P = Q H / 3960'))],
  example: [12, 160, 0.45],
  run: ({ flow_gpm, head_ftw, efficiency }) => (flow_gpm * head_ftw) / (3960 * efficiency),
})
