import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const totalHead = calc({
  id: 'TOTALHEAD',
  chapter: 'pipe',
  summary: 'Head a pump must give: lift, pressure wanted at the house, and losses.',
  takes: {
    lift_ftw: arg('Lift from water level to outlet', { least: -1000, most: 2000 }),
    pressure_psi: arg('Pressure wanted', { least: 0, most: 500 }),
    loss_ftw: arg('Losses', { least: 0, most: 100_000 }),
  },
  gives: { head_ftw: 'Total head' },
  steps: [step('head_ftw', 'Total head', 'lift_ftw+2.31*pressure_psi+loss_ftw', cite('hiData', 'section I-A, H = 2.31 p for water'))],
  notes: ['A pressure counts 2.31 ft a psi, as the trade’s tables do; one typed for the lift or the losses is converted by the exact 2.3067 (water of 1000 kg/m³).'],
  example: [22, 50, 8.4],
  run: ({ lift_ftw, pressure_psi, loss_ftw }) => lift_ftw + 2.31 * pressure_psi + loss_ftw,
})
