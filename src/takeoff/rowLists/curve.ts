import { CURVE_POINTS } from '../officeTables.js'
import { office, ofPump } from '../results/rule.js'
import { column, type RowList } from './rowList.js'

const points = Array.from({ length: CURVE_POINTS }, (_, at) => String(at + 1))

/** The curve of the chosen pump; the name `Curve` is both columns as one block. */
export const curve = {
  title: () => 'Pump curve',
  heading: 'Point',
  restsOn: [],
  rows: () => points.map((name) => ({ name, cells: {} })),
  columns: [
    column(
      'CurveFlow_gpm',
      'Flow',
      points.map((point) => ofPump(`Flow${point}_gpm`)),
      office,
    ),
    column(
      'CurveHead_ftw',
      'Head',
      points.map((point) => ofPump(`Head${point}_ftw`)),
      office,
    ),
  ],
} as const satisfies RowList
