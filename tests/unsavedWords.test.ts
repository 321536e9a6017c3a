/** What a person reads of work that was left unsaved: enough to tell one from another. */
import { describe, expect, it } from 'vitest'
import { unsavedWords } from '../taskpane/unsavedWords.js'

const at = '2026-11-28T14:50:00.000Z'
const grid = (...jobs: readonly string[]) => ({
  sheets: [
    { name: 'Tanks', cells: { B6: 'Quern' } },
    { name: 'Jobs', cells: Object.fromEntries(jobs.map((job, index) => [`B${6 + index}`, job])) },
  ],
})

describe('unsaved work', () => {
  it('is told by its file, its first jobs and the time on the clock of whoever reads it', () => {
    const file = { bytes: new Uint8Array(), name: 'OFFICE.xlsx', lacking: '' }
    const clock = new Date(at).toLocaleString('en-US', { dateStyle: 'medium', timeStyle: 'short' })
    expect(unsavedWords({ when: at, data: grid('Sedge End', 'Wicket Mill'), file })).toBe(` of ${clock} (OFFICE.xlsx; jobs Sedge End, Wicket Mill)`)
    expect(unsavedWords({ when: at, data: grid('A', 'B', 'C', 'D'), file: undefined })).toBe(` of ${clock} (jobs A, B, C and more)`)
    expect(unsavedWords({ when: at, data: grid('A'), file: undefined })).toContain('(job A)')
  })
  it('is said without what is not known', () => {
    expect(unsavedWords({ when: 'soon', data: {}, file: undefined })).toBe('')
    for (const data of [{ sheets: 'none' }, { sheets: [null, { name: 'Jobs', cells: null }] }, { sheets: [{ name: 'Jobs', cells: { B6: null } }] }])
      expect(unsavedWords({ when: 'soon', data, file: undefined })).toBe('')
    expect(unsavedWords({ when: undefined as never, data: { sheets: [] }, file: undefined })).toBe('')
  })
})
