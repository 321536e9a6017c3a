import { calc, choice, step } from '../../calc.js'
import { coverKey } from '../../keys.js'
import { citeRows, lookUp } from '../../table.js'
import { coverDepths } from '../../tables/coverDepths.js'

const places = ['yard', 'trenchConcrete', 'building', 'slab', 'road', 'driveway'] as const

export const coverDepth = calc({
  id: 'COVERDEPTH',
  chapter: 'power',
  summary: 'Least earth cover over buried wiring, to the top of cable or raceway.',
  takes: { method: coverKey, place: choice('What lies above', { options: places, default: 'yard' }) },
  gives: { cover_in: 'Cover' },
  steps: [
    step('row', 'Row of the wiring method', 'MATCH(method,CoverDepths[method],0)', citeRows(coverDepths, 'nec', 'Table 300.5 (300.5(A) from 2023)')),
    step(
      'cover_in',
      'Cover',
      places.slice(0, -1).reduceRight<string>((rest, place) => `IF(place="${place}",INDEX(CoverDepths[${place}_in],row),${rest})`, 'INDEX(CoverDepths[driveway_in],row)'),
      citeRows(coverDepths, 'nec', 'Table 300.5 (300.5(A) from 2023)'),
    ),
  ],
  notes: [coverDepths.notes[0]!, 'The adopted code and its local amendments decide; frost and the maker may ask for more.'],
  example: ['direct burial'],
  run: ({ method, place }) => lookUp(coverDepths, { method }, `${place}_in`) as number,
})
