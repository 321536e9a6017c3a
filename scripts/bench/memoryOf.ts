/** Jobs into one workbook, and what that took at the most, in MB: a process of its own for `memory` in jobs.ts. */
import { demoSource } from '../../src/hosts/fileSession.js'
import { mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileSpool, writeWhole } from '../../src/cli/common.js'
import { FileHost } from '../../src/hosts/fileHost.js'
import { makeFile } from '../../src/hosts/makeFile.js'
import { made } from './measure.js'
import { manyJobs } from './offices.js'

const raw = manyJobs(Number(process.argv[2]))
const folder = mkdtempSync(join(tmpdir(), 'memory-'))
const host = new FileHost(demoSource(raw), { spool: fileSpool() })
await makeFile(
  host,
  raw.Jobs.rows.map(({ cells }) => String(cells.Job)),
  { flavor: 'native', made },
)
writeWhole(join(folder, 'jobs.xlsx'), host.pieces(), '')
if (statSync(join(folder, 'jobs.xlsx')).size < 1e6) throw new Error('Nothing was written.')
rmSync(folder, { recursive: true })
console.log(Math.round(process.resourceUsage().maxRSS / 1024))
