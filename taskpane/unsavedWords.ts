/** Which of several unsaved workbooks one is: its file, its first jobs, and when it was left, by the clock of whoever reads it. */
import { columnLetters } from '../src/plan/plan.js'
import { OFFICE_FIRST_COLUMN, OFFICE_HEADING_ROW } from '../src/plan/places.js'
import type { Unsaved } from './keep.js'

/** So many jobs are named. */
const JOBS_NAMED = 3

/** Names of jobs where a template puts them. */
function jobsIn(data: unknown): string[] {
  // What a browser kept may be broken: it is offered all the same.
  const { sheets } = data as { sheets?: unknown }
  const jobs: unknown = Array.isArray(sheets) ? sheets.find((sheet) => (sheet as { name?: unknown } | null)?.name === 'Jobs') : undefined
  const cells = ((jobs as { cells?: unknown } | undefined)?.cells ?? {}) as Readonly<Record<string, unknown>>
  const names: string[] = []
  for (let row = OFFICE_HEADING_ROW + 1; names.length <= JOBS_NAMED; row++) {
    const cell = cells[`${columnLetters(OFFICE_FIRST_COLUMN)}${row}`]
    const content = typeof cell === 'string' ? cell : ((cell as { content?: unknown } | null | undefined)?.content ?? '')
    if (typeof content !== 'string' || content === '') break
    names.push(content)
  }
  return names
}

export function unsavedWords({ when, data, file }: Pick<Unsaved, 'when' | 'data' | 'file'>): string {
  const left = typeof when === 'string' ? new Date(when) : undefined
  const jobs = jobsIn(data)
  const what = [
    ...(typeof file?.name === 'string' ? [file.name] : []),
    ...(jobs.length ? [`${jobs.length === 1 ? 'job' : 'jobs'} ${jobs.slice(0, JOBS_NAMED).join(', ')}${jobs.length > JOBS_NAMED ? ' and more' : ''}`] : []),
  ].join('; ')
  return `${left && !Number.isNaN(left.getTime()) ? ` of ${left.toLocaleString('en-US', { dateStyle: 'medium', timeStyle: 'short' })}` : ''}${what ? ` (${what})` : ''}`
}
