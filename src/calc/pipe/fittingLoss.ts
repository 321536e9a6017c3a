import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'
import { flowVelocity } from './flowVelocity.js'

export const GRAVITY_FT_PER_S2 = 32.174

export const fittingLoss = calc({
  id: 'FITTINGLOSS',
  chapter: 'pipe',
  summary: 'Head lost in fittings: their resistance K times the velocity head.',
  takes: {
    flow_gpm: arg('Flow', { least: 0, most: 20_000 }),
    bore_in: arg('Inside diameter', { least: 0.1, most: 120 }),
    resistance: arg('Sum of resistances K', { least: 0, most: 10_000 }),
  },
  gives: { loss_ftw: 'Head lost' },
  steps: [
    step('velocity_fps', 'Velocity', 'flow_gpm*231/1728/60/(PI()/4*(bore_in/12)^2)', cite('derivation', 'flow over area')),
    step('loss_ftw', 'Head lost', 'resistance*velocity_fps^2/(2*32.174)', cite('epaManual', 'chapter 12, minor losses')),
  ],
  notes: ['Take K from the table of fittings. Published K scatter by 20 to 40 % for screwed fittings.'],
  example: [10, 1.049, 2.5],
  run: ({ flow_gpm, bore_in, resistance }) => (resistance * flowVelocity.run({ flow_gpm, bore_in }) ** 2) / (2 * GRAVITY_FT_PER_S2),
})
