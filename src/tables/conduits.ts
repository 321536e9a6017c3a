import { cite } from '../sources.js'
import { table } from '../table.js'

const memory = cite('nec', 'Chapter 9 Table 4, rigid PVC', 'from memory')
const rows = (conduit: string, list: readonly (readonly [size: string, inside_in: number, area_in2: number])[]) => list.map(([size, inside_in, area_in2]) => ({ conduit, size, inside_in, area_in2 }))

export const conduits = table({
  id: 'Conduits',
  title: 'Rigid PVC conduit: inside diameter and area',
  source: memory,
  notes: ['Each area is pi/4 of the square of its diameter to the printed figure. Fill allowed: one conductor 53 %, two 31 %, more 40 % (Chapter 9 Table 1). A cable counts as one conductor, a flat one as a circle of its wide side.'],
  rows: [
    ...rows('PVC 40', [['1/2', 0.602, 0.285], ['3/4', 0.804, 0.508], ['1', 1.029, 0.832], ['1-1/4', 1.36, 1.453], ['1-1/2', 1.59, 1.986], ['2', 2.047, 3.291], ['2-1/2', 2.445, 4.695], ['3', 3.042, 7.268], ['3-1/2', 3.521, 9.737], ['4', 3.998, 12.554]]),
    ...rows('PVC 80', [['1/2', 0.526, 0.217], ['3/4', 0.722, 0.409], ['1', 0.936, 0.688], ['1-1/4', 1.255, 1.237], ['1-1/2', 1.476, 1.711], ['2', 1.913, 2.874], ['2-1/2', 2.29, 4.119], ['3', 2.864, 6.442], ['3-1/2', 3.326, 8.688], ['4', 3.786, 11.258]]),
  ],
})
