import { cite } from '../sources.js'
import { table } from '../table.js'

const memory = cite('nec', '240.6(A) and Table 250.122', 'from memory')
const read = cite('nec', '240.6(A) and Table 250.122')

/** Standard ratings of inverse-time breakers, each with the least equipment grounding conductor it calls for. */
export const breakers = table({
  id: 'Breakers',
  title: 'Standard breaker ratings to 400 A and equipment grounding conductors',
  source: read,
  notes: ['A grounding conductor need never be larger than the line conductors (250.122(A)); where those are enlarged for voltage drop it grows in the same ratio of circular mils (250.122(B)).'],
  rows: [
    ...[15].map((rating_A) => ({ rating_A, copper: '14', aluminum: '12' })),
    ...[20].map((rating_A) => ({ rating_A, copper: '12', aluminum: '10' })),
    ...[25, 30, 35, 40, 45, 50, 60].map((rating_A) => ({ rating_A, copper: '10', aluminum: '8' })),
    ...[70, 80, 90, 100].map((rating_A) => ({ rating_A, copper: '8', aluminum: '6' })),
    ...[110, 125, 150, 175, 200].map((rating_A) => ({ rating_A, copper: '6', aluminum: '4' })),
    ...[225, 250, 300].map((rating_A) => ({ rating_A, copper: '4', aluminum: '2', source: memory })),
    ...[350, 400].map((rating_A) => ({ rating_A, copper: '3', aluminum: '1', source: memory })),
  ],
})
