import { cite } from '../sources.js'
import { table } from '../table.js'

/** The bore of inside-diameter-controlled PE by nominal size: that of Schedule 40 iron pipe. */
const peBores = [['1/2', 0.622], ['3/4', 0.824], ['1', 1.049], ['1-1/4', 1.38], ['1-1/2', 1.61], ['2', 2.067]] as const
const LEAST_PE_WALL_IN = 0.06

const pe = (pipe: string, sidr: number, rating_psi: number) =>
  peBores.map(([size, bore_in]) => {
    const wall_in = thousandth(Math.max(LEAST_PE_WALL_IN, bore_in / sidr))
    return { pipe, size, bore_in, outside_in: thousandth(bore_in + 2 * wall_in), wall_in, ratio: sidr, rating_psi, fit: 'IPS', source: cite('astmD2239', `SIDR ${sidr}, HDS 800 psi; the Hydraulic Institute steel tables print the same bores`) }
  })

/** Standards print walls and diameters to a thousandth of an inch. */
function thousandth(inches: number): number {
  return Math.round(inches * 1000) / 1000
}

const fromOutside = (pipe: string, fit: string, rows: readonly (readonly [size: string, outside: number, wall: number, rating: number | null, grade: 'read' | 'memory'])[], works: { read: ReturnType<typeof cite>; memory: ReturnType<typeof cite> }) =>
  rows.map(([size, outside_in, wall_in, rating_psi, grade]) => ({
    pipe, size, bore_in: thousandth(outside_in - 2 * wall_in), outside_in, wall_in, ratio: Math.round((outside_in / wall_in) * 10) / 10, rating_psi, fit, source: works[grade],
  }))

const pvcWorks = { read: cite('hiData', 'section IV-E, Tables 4.E.1 to 4.E.4: dimensions read, rating from memory', 'from memory'), memory: cite('astmD1785') }

/** Pipe dimensions. `fit` says which fittings it takes: IPS insert fittings, CTS compression, PVC sockets, or sewer gaskets. */
export const pipes = table({
  id: 'Pipes',
  title: 'Pipe: inside and outside diameter, least wall, pressure rating at 73 °F',
  source: cite('astmD2239'),
  notes: [
    'Bore of PVC = outside diameter less two least walls. Bore of PE IPS is set by the inside diameter; its wall is bore / SIDR, not under 0.060 in.',
    'PE IPS ratings hold for material of 800 psi hydrostatic design stress: 2 x 800 / (SIDR + 1), rounded as marked on pipe. PE CTS SDR 9: 2 x 800 / (SDR - 1).',
    'PVC ratings are 2 x 2000 x wall / (outside - wall) rounded to 10 psi; threaded Schedule 80 carries half. SDR 35 is gravity pipe.',
  ],
  rows: [
    ...pe('PE IPS 80', 19, 80), ...pe('PE IPS 100', 15, 100), ...pe('PE IPS 125', 11.5, 125), ...pe('PE IPS 160', 9, 160), ...pe('PE IPS 200', 7, 200),
    ...fromOutside('PE CTS', 'CTS', [
      ['1/2', 0.625, 0.069, 200, 'memory'], ['3/4', 0.875, 0.097, 200, 'memory'], ['1', 1.125, 0.125, 200, 'memory'],
      ['1-1/4', 1.375, 0.153, 200, 'memory'], ['1-1/2', 1.625, 0.181, 200, 'memory'], ['2', 2.125, 0.236, 200, 'memory'],
    ], { read: cite('fluidsLibrary'), memory: cite('astmD2737', 'SDR 9; outside diameters as in the copper-tube-size list of ASTM D2241') }),
    ...fromOutside('PVC 40', 'PVC', [
      ['1/2', 0.84, 0.109, 600, 'read'], ['3/4', 1.05, 0.113, 480, 'memory'], ['1', 1.315, 0.133, 450, 'read'], ['1-1/4', 1.66, 0.14, 370, 'read'],
      ['1-1/2', 1.9, 0.145, 330, 'read'], ['2', 2.375, 0.154, 280, 'read'], ['2-1/2', 2.875, 0.203, 300, 'memory'], ['3', 3.5, 0.216, 260, 'read'],
      ['3-1/2', 4, 0.226, 240, 'memory'], ['4', 4.5, 0.237, 220, 'read'], ['5', 5.563, 0.258, 190, 'memory'], ['6', 6.625, 0.28, 180, 'memory'], ['8', 8.625, 0.322, 160, 'memory'],
    ], pvcWorks),
    ...fromOutside('PVC 80', 'PVC', [
      ['1/2', 0.84, 0.147, 850, 'memory'], ['3/4', 1.05, 0.154, 690, 'memory'], ['1', 1.315, 0.179, 630, 'memory'], ['1-1/4', 1.66, 0.191, 520, 'memory'],
      ['1-1/2', 1.9, 0.2, 470, 'memory'], ['2', 2.375, 0.218, 400, 'memory'], ['2-1/2', 2.875, 0.276, 420, 'memory'], ['3', 3.5, 0.3, 370, 'memory'],
      ['3-1/2', 4, 0.318, 350, 'memory'], ['4', 4.5, 0.337, 320, 'memory'], ['5', 5.563, 0.375, 290, 'memory'], ['6', 6.625, 0.432, 280, 'memory'],
    ], pvcWorks),
    ...fromOutside('PVC SDR 35', 'sewer', [['4', 4.215, 0.12, null, 'read'], ['6', 6.275, 0.18, null, 'memory'], ['8', 8.4, 0.24, null, 'memory']], {
      read: cite('astmD3034', '4 in'), memory: cite('astmD3034', 'wall from memory, outside / 35 checked', 'from memory'),
    }),
  ],
})
