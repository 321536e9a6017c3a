/** Takeoffs made into a workbook as the command makes them: what was typed comes along, the revision counts up. */
import { openWorkbook } from '../../src/hosts/file.js'
import { keptIn, revisionIn, type Source } from '../../src/hosts/fileSession.js'
import { makeFile } from '../../src/hosts/makeFile.js'
import type { Flavor } from '../../src/plan/calls.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'

export const made = { date: '2026-11-25', revision: 1, version: 'test' }

/** The jobs of a workbook made; `standing` is the file that is written over. */
export function makeJobs(source: Source, jobs: readonly string[], flavor: Flavor = 'native', standing?: Uint8Array) {
  const office = readOffice(source.raw)
  return makeFile(
    source,
    jobs.map((job) => ({ takeoff: makeTakeoff(office, rowNamed(office, 'Jobs', job)!, keptIn(source.workbook, job)), revision: revisionIn(source.workbook, job) + 1 })),
    flavor,
    made,
    { standing: standing && openWorkbook(standing, 'OUT.xlsx') },
  )
}
