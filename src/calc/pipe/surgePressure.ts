import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'
import { GRAVITY_FT_PER_S2 } from './fittingLoss.js'

export const surgePressure = calc({
  id: 'SURGEPRESSURE',
  chapter: 'pipe',
  summary: 'Pressure rise when flow is stopped at once (Joukowsky).',
  takes: {
    velocity_fps: arg('Velocity stopped', { least: 0, most: 100 }),
    waveSpeed_fps: arg('Speed of the pressure wave in this pipe', { least: 0, most: 6000 }),
  },
  gives: { surge_psi: 'Pressure rise' },
  steps: [step('surge_psi', 'Pressure rise', 'waveSpeed_fps*velocity_fps/(2.31*32.174)', cite('surge', 'Joukowsky; checked by the example there'))],
  notes: ['The wave runs slower in softer pipe: about 1,070 ft/s in PE DR 11 and 1,500 ft/s in PVC Schedule 40 1-1/4 in, 4,660 ft/s in rigid pipe.'],
  example: [5, 1069],
  run: ({ velocity_fps, waveSpeed_fps }) => (waveSpeed_fps * velocity_fps) / (2.31 * GRAVITY_FT_PER_S2),
})
