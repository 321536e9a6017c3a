/** Takeoffs made into a workbook as the command makes them: what was typed comes along, the revision counts up. */
import { openWorkbook, readSheet, type Workbook } from '../../src/hosts/file.js'
import { FileHost } from '../../src/hosts/fileHost.js'
import { PapersHost } from '../../src/hosts/papersHost.js'
import type { Source } from '../../src/hosts/fileSession.js'
import { makeFile } from '../../src/hosts/makeFile.js'
import type { Spool } from '../../src/hosts/xlsx/zip.js'
import type { Flavor } from '../../src/plan/calls.js'
import { earlierFrom, type Earlier } from '../../src/plan/earlier.js'
import { jobSheetNames } from '../../src/plan/jobSheets.js'
import { keptFrom } from '../../src/plan/kept.js'
import type { SheetKindName } from '../../src/plan/sheets/index.js'
import type { Takeoff } from '../../src/takeoff/takeoff.js'

export const made = { date: '2026-11-25', revision: 1, version: 'test' }

interface Options {
  flavor?: Flavor
  /** The file that is written over. */
  standing?: Uint8Array | undefined
  spool?: Spool | undefined
  mayLose?: boolean
}
/** The jobs of a workbook made, each with what stood there before. */
export async function makeJobs(source: Source, jobs: readonly string[], { flavor = 'native', standing, spool, mayLose = false }: Options = {}) {
  const host = new FileHost(source, { standing: standing && openWorkbook(standing, 'OUT.xlsx'), spool, mayLose })
  const list: { takeoff: Takeoff; earlier: Earlier }[] = []
  const finished = await makeFile(host, jobs, { flavor, made, mayLose, onWorked: (_, { takeoff }, earlier) => takeoff && list.push({ takeoff, earlier }) })
  const bytes = new Uint8Array(Buffer.concat([...host.pieces()]))
  return { ...list[0]!, list, source, bytes, revision: revisionIn(openWorkbook(bytes, 'x'), jobs[0]!), notes: finished.flatMap(({ notes }) => notes), reasons: host.reasons() }
}
/** Papers of jobs alone, as the command hands them out. */
export async function papersAlone(source: Source, jobs: readonly string[], kinds: readonly SheetKindName[], mayLose = false): Promise<Uint8Array> {
  const host = new PapersHost(source, kinds)
  await makeFile(host, jobs, { flavor: 'native', made, mayLose })
  return host.bytes
}

export const keptIn = (workbook: Workbook, job: string) => keptFrom(jobSheetNames(job), (sheet) => readSheet(workbook, sheet))
export const revisionIn = (workbook: Workbook, job: string): number => earlierFrom(jobSheetNames(job), (sheet) => readSheet(workbook, sheet)).before?.revision ?? 0
