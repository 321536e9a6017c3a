/** A job that has another name now: what was typed on its sheets stands under the one it had, until they are made under the new one. */
import { jobSheetNames, type JobSheetNames } from './jobSheets.js'

/** Names of the sheets on which the work of a job stands. `isThere` says whether a sheet does. */
export function sheetsStanding(job: string, former: string | undefined, isThere: (sheet: string) => boolean): JobSheetNames {
  const [now, before] = [jobSheetNames(job), former === undefined ? undefined : jobSheetNames(former)]
  const stands = (names: JobSheetNames): boolean => isThere(names.takeoff) || isThere(names.changes)
  return before && !stands(now) && stands(before) ? before : now
}
