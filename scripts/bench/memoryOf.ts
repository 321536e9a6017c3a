/** Jobs into one workbook, and what that took at the most, in MB: a process of its own for `memory` in jobs.ts. */
import { demoSource } from '../../src/hosts/fileSession.js'
import { makeFile } from '../../src/hosts/makeFile.js'
import { readOffice } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { made } from './measure.js'
import { manyJobs } from './offices.js'

const raw = manyJobs(Number(process.argv[2]))
const office = readOffice(raw)
const { bytes } = makeFile(
  demoSource(raw),
  (function* () {
    for (const job of office.tables.Jobs) yield { takeoff: makeTakeoff(office, job), revision: 1 }
  })(),
  'native',
  made,
)
if (!bytes.length) throw new Error('Nothing was written.')
console.log(Math.round(process.resourceUsage().maxRSS / 1024))
