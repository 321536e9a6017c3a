import { calc, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { pipeKey, pipeSizeKey } from '../../keys.js'
import { cite } from '../../sources.js'
import { lookUp } from '../../table.js'
import { pipes } from '../../tables/pipes.js'

export const pipeBore = calc({
  id: 'PIPEBORE',
  chapter: 'pipe',
  summary: 'Inside diameter of a pipe by kind and nominal size, from the table of pipes.',
  takes: { pipe: pipeKey, size: pipeSizeKey },
  gives: { bore_in: 'Inside diameter' },
  steps: [
    step(
      'listed_in',
      'Inside diameter of the table; 0 where the pipe is not made in this size',
      'SUMPRODUCT((Pipes[pipe]=pipe)*(Pipes[size]=size),Pipes[bore_in])',
      cite('derivation', 'row of the table Pipes, as it cites', 'from memory'),
    ),
    step('bore_in', 'Inside diameter', 'IF(listed_in>0,listed_in,NA())', cite('derivation', 'row of the table Pipes, as it cites', 'from memory')),
  ],
  notes: ['Bore of PVC: outside diameter less two least walls; some lists take 1.03 times the least.'],
  example: ['PE IPS 200', 1],
  run({ pipe, size }) {
    const bore_in = lookUp(pipes, { pipe, size }, 'bore_in')
    if (bore_in === undefined) {
      const sizes = pipes.rows.filter((row) => row.pipe === pipe).map((row) => row.size)
      throw noAnswer('Nominal size (size)', `one of ${sizes.join(', ')} for ${pipe}`, size)
    }
    return bore_in as number
  },
})
