import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

const PSI_PER_INHG = 0.491154

export const coverForce = calc({
  id: 'COVERFORCE',
  chapter: 'tank',
  summary: 'Force of the air on a cover, plate or plug while the tank is under vacuum.',
  takes: {
    area_in2: arg('Area of the cover', { least: 0, most: 1_000_000 }),
    vacuum_inHg: arg('Vacuum', { least: 0, most: 30 }),
  },
  gives: { force_lbf: 'Force' },
  steps: [step('force_lbf', 'Force', 'area_in2*vacuum_inHg*0.491154', cite('definitions', '1 inHg (32 °F) = 0.491154 psi'))],
  notes: ['Nobody stands on a lid, plate or plug under vacuum, and nobody loosens one before the gauge reads zero.'],
  example: [452.4, 4],
  run: ({ area_in2, vacuum_inHg }) => area_in2 * vacuum_inHg * PSI_PER_INHG,
})
