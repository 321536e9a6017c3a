/** What the water line of a job may be made of: polyethylene, in the sizes that it is made in. */
import { key } from '../calc.js'
import { nameIn, nominalSize, pipeNames } from '../keys.js'
import { pipes } from '../tables/pipes.js'

const lineNames = pipeNames.filter((name) => name.startsWith('PE '))
export const linePipeKey = key('Kind of pipe', { find: nameIn(lineNames), allowed: `polyethylene, one of ${lineNames.join(', ')}`, samples: lineNames })

const lineSizes = [...new Set(pipes.rows.filter((row) => String(row.pipe).startsWith('PE ')).map((row) => String(row.size)))]
export const lineSizeKey = key('Nominal size', { find: nominalSize, allowed: `a nominal size of that pipe, of ${lineSizes.join(', ')}`, samples: lineSizes })
