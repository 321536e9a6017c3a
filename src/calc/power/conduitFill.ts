import { calc, series, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { conduitKey, conduitSizeKey } from '../../keys.js'
import { cite } from '../../sources.js'
import { citeRows, lookUp } from '../../table.js'
import { conduits } from '../../tables/conduits.js'

export const conduitFill = calc({
  id: 'CONDUITFILL',
  chapter: 'power',
  summary: 'Share of a conduit’s inside area taken by conductors or cables.',
  takes: {
    conduit: conduitKey,
    size: conduitSizeKey,
    widths_in: series('Diameters, or wide sides of flat cables', { least: 0, most: 12 }),
  },
  gives: { fill: 'Share filled' },
  steps: [
    step(
      'area_in2',
      'Inside area of the conduit',
      'SUMPRODUCT((Conduits[conduit]=conduit)*(Conduits[size]=size),Conduits[area_in2])',
      citeRows(conduits, 'nec', 'Chapter 9 Table 4'),
    ),
    step('fill', 'Share filled', 'PI()/4*SUMPRODUCT(widths_in,widths_in)/area_in2', cite('nec', 'Chapter 9 Table 1, notes')),
  ],
  notes: ['Allowed: 0.53 with one conductor or cable, 0.31 with two, 0.40 with more. A flat cable counts as a circle of its wide side.'],
  example: ['PVC 40', 1, [0.4, 0.4]],
  run({ conduit, size, widths_in }) {
    const area = lookUp(conduits, { conduit, size }, 'area_in2')
    if (typeof area !== 'number') throw noAnswer('Trade size (size)', conduitSizeKey.allowed, size)
    let squares = 0
    for (const width of widths_in) squares += width * width
    return ((Math.PI / 4) * squares) / area
  },
})
