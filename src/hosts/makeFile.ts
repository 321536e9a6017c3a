/** Takeoffs as a file, all or none of them: what the commands do with a workbook. */
import { ProblemsError } from '../takeoff/fields.js'
import type { FileHost } from './fileHost.js'
import { WorkbookError } from './file.js'
import { makeTakeoffs, type Finished, type MakeOptions } from './makeTakeoffs.js'

interface FileOptions extends Pick<MakeOptions, 'flavor' | 'made' | 'onWorked'> {
  /** What people typed on the sheets may be written over. */
  mayLose?: boolean
}

/** Writes the jobs into the file of the host, which is taken out afterwards. What would be lost is told of all jobs at once. */
export async function makeFile(host: FileHost, jobs: readonly string[], { mayLose = false, ...options }: FileOptions): Promise<readonly Finished[]> {
  const lost: string[] = []
  const mayGoOn = (words: readonly string[], why?: 'newer'): boolean => {
    if (why === 'newer') return mayLose
    lost.push(...words)
    return true
  }
  const { made, problems } = await makeTakeoffs(host, jobs, { ...options, isWhole: true, mayLose: mayGoOn })
  if (problems.length) throw new ProblemsError(problems)
  const refusal = host.refusal([...lost, ...host.lostTables])
  if (refusal && !mayLose) throw new WorkbookError(`${refusal} Nothing was written.`)
  return made
}
