import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const flowVelocity = calc({
  id: 'FLOWVELOCITY',
  chapter: 'pipe',
  summary: 'Mean velocity in a full pipe.',
  takes: {
    flow_gpm: arg('Flow', { least: 0, most: 20_000 }),
    bore_in: arg('Inside diameter', { least: 0.1, most: 120 }),
  },
  gives: { velocity_fps: 'Velocity' },
  steps: [
    step('flow_cfs', 'Flow', 'flow_gpm*231/1728/60', cite('definitions')),
    step('area_ft2', 'Area of the bore', 'PI()/4*(bore_in/12)^2', cite('derivation', 'area of a circle')),
    step('velocity_fps', 'Velocity', 'flow_cfs/area_ft2', cite('derivation', 'flow over area')),
  ],
  example: [10, 1.049],
  run: ({ flow_gpm, bore_in }) => (flow_gpm * 231) / 1728 / 60 / ((Math.PI / 4) * (bore_in / 12) ** 2),
})
