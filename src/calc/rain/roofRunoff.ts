import { calc, step } from '../../calc.js'
import { roofKey } from '../../keys.js'
import { citeRows, lookUp } from '../../table.js'
import { roofs } from '../../tables/roofs.js'

export const roofRunoff = calc({
  id: 'ROOFRUNOFF',
  chapter: 'rain',
  summary: 'Long-term runoff coefficient of a roof surface, from the table of roof surfaces.',
  takes: { surface: roofKey },
  gives: { runoff: 'Runoff coefficient' },
  steps: [
    step(
      'runoff',
      'Runoff coefficient',
      'INDEX(RoofSurfaces[runoff],MATCH(surface,RoofSurfaces[surface],0))',
      citeRows(roofs, 'derivation', 'table of roof surfaces, source by row'),
    ),
  ],
  example: ['metal'],
  run: ({ surface }) => lookUp(roofs, { surface }, 'runoff') as number,
})
