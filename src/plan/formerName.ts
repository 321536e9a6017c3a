/** A job that has another name now: what was typed on its sheets stands under the one it had, until something is typed under the new one. */
import { isNothing, type Kept } from '../takeoff/typed.js'
import { earlierFrom, type Earlier } from './earlier.js'
import { jobSheetNames } from './jobSheets.js'
import { keptFrom } from './kept.js'
import type { Rows } from './keptCells.js'

type Read = (sheet: string) => Rows | undefined
export interface StandingWork {
  kept: Kept
  earlier: Earlier
  /** It is that of the former name. */
  isFormer: boolean
}

/** What stands of a job: typed words by `read`, which finds sheets of ours alone, and how it was made by `look`. */
export function standingWork(job: string, former: string | undefined, read: Read, look: Read = read): StandingWork {
  const names = jobSheetNames(job)
  const own: StandingWork = { kept: keptFrom(names, read), earlier: earlierFrom(names, look), isFormer: false }
  if (former === undefined || !isNothing(own.kept)) return own
  const before = jobSheetNames(former)
  const kept = keptFrom(before, read)
  const earlier = earlierFrom(before, look)
  const isMade = own.earlier.before !== undefined || own.earlier.changes.length > 0
  if (isNothing(kept) && (isMade || !earlier.before)) return own
  return { kept, earlier: isMade ? own.earlier : earlier, isFormer: true }
}
