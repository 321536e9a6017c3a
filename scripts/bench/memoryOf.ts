/** Jobs into one workbook, and what that took at the most, in MB: a process of its own for `memory` in jobs.ts. */
import { demoSource } from '../../src/hosts/fileSession.js'
import { mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileSpool, writeWhole } from '../../src/cli/common.js'
import { makeFile } from '../../src/hosts/makeFile.js'
import { readOffice } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { made } from './measure.js'
import { manyJobs } from './offices.js'

const raw = manyJobs(Number(process.argv[2]))
const office = readOffice(raw)
const folder = mkdtempSync(join(tmpdir(), 'memory-'))
const file = makeFile(
  demoSource(raw),
  (function* () {
    for (const job of office.tables.Jobs) yield { takeoff: makeTakeoff(office, job), revision: 1 }
  })(),
  'native',
  made,
  { spool: fileSpool() },
)
writeWhole(join(folder, 'jobs.xlsx'), file.pieces(), '')
if (statSync(join(folder, 'jobs.xlsx')).size < 1e6) throw new Error('Nothing was written.')
rmSync(folder, { recursive: true })
console.log(Math.round(process.resourceUsage().maxRSS / 1024))
