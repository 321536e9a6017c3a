import { cite } from '../sources.js'
import { table } from '../table.js'

/** A row is graded by its weakest cell; what was read in it is said. */
const single = cite('nec', 'Table 430.248: 115 and 230 V read, other columns from memory', 'from memory')
const three = cite('nec', 'Table 430.250: 208 and 460 V read, other columns from memory', 'from memory')
const memory = cite('nec', 'Tables 430.248 and 430.250', 'from memory')

type Row = readonly [power_hp: number, v115: number | null, v200: number | null, v208: number | null, v230: number | null, v460: number | null, v575: number | null, read: boolean]
const rows = (phases: number, list: readonly Row[]) =>
  list.map(([power_hp, at115_A, at200_A, at208_A, at230_A, at460_A, at575_A, read]) => ({ phases, power_hp, at115_A, at200_A, at208_A, at230_A, at460_A, at575_A, source: read ? (phases === 1 ? single : three) : memory }))

/** Full-load currents. In the read rows the 115 and 230 V columns (one phase) and the 208 and 460 V columns (three phase) were read; the columns between are from memory. */
export const motors = table({
  id: 'Motors',
  title: 'Full-load current of alternating-current motors, A',
  source: memory,
  notes: ['The 115 V column serves 110 to 120 V systems, the 230 V column 220 to 240 V, the 460 V column 440 to 480 V, the 575 V column 550 to 600 V. Columns of 200 V, of 208 V single-phase, and of 115, 230 and 575 V three-phase are from memory.'],
  rows: [
    ...rows(1, [
      [1 / 6, 4.4, 2.5, 2.4, 2.2, null, null, false], [1 / 4, 5.8, 3.3, 3.2, 2.9, null, null, false], [1 / 3, 7.2, 4.1, 4, 3.6, null, null, false],
      [1 / 2, 9.8, 5.6, 5.4, 4.9, null, null, true], [3 / 4, 13.8, 7.9, 7.6, 6.9, null, null, true], [1, 16, 9.2, 8.8, 8, null, null, true],
      [1.5, 20, 11.5, 11, 10, null, null, true], [2, 24, 13.8, 13.2, 12, null, null, true], [3, 34, 19.6, 18.7, 17, null, null, true],
      [5, 56, 32.2, 30.8, 28, null, null, true], [7.5, 80, 46, 44, 40, null, null, false], [10, 100, 57.5, 55, 50, null, null, false],
    ]),
    ...rows(3, [
      [1 / 2, 4.4, 2.5, 2.4, 2.2, 1.1, 0.9, true], [3 / 4, 6.4, 3.7, 3.5, 3.2, 1.6, 1.3, true], [1, 8.4, 4.8, 4.6, 4.2, 2.1, 1.7, true],
      [1.5, 12, 6.9, 6.6, 6, 3, 2.4, true], [2, 13.6, 7.8, 7.5, 6.8, 3.4, 2.7, true], [3, null, 11, 10.6, 9.6, 4.8, 3.9, true],
      [5, null, 17.5, 16.7, 15.2, 7.6, 6.1, true], [7.5, null, 25.3, 24.2, 22, 11, 9, true], [10, null, 32.2, 30.8, 28, 14, 11, false],
    ]),
  ],
})
