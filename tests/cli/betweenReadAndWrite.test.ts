/** What the commands share: a file that somebody wrote meanwhile, the day where a person sits, and odd words of people. */
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { stateOf, writeWhole } from '../../src/cli/common.js'
import { makeTemplate } from '../../src/hosts/fileSession.js'
import { today } from '../../src/hosts/today.js'
import { startingOffice } from '../../src/takeoff/demo.js'

const folder = mkdtempSync(join(tmpdir(), 'cistern-between-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const run = (...words: string[]): string => execFileSync(process.execPath, ['scripts/cli.mjs', ...words], { encoding: 'utf8' })

describe('a file that was changed while another was made from it', () => {
  it('stays as it is, and so does one that came to be', () => {
    const file = join(folder, 'out.xlsx')
    const none = stateOf(file)
    writeWhole(file, new Uint8Array([1]), none)
    expect(() => writeWhole(file, new Uint8Array([2, 3]), none)).toThrow(/it was changed while this was made: make it once more.*Nothing was written/)
    const was = stateOf(file)
    writeFileSync(file, 'somebody else')
    expect(() => writeWhole(file, new Uint8Array([2, 3]), was)).toThrow(/changed while this was made/)
    expect(readFileSync(file, 'utf8')).toBe('somebody else')
    writeWhole(file, new Uint8Array([4]), stateOf(file))
    expect([...readFileSync(file)]).toEqual([4])
  })
})

describe('what goes wrong while a file is written', () => {
  it('is said as it is where it is no fault of the file', () => {
    const pieces = function* (): Generator<Uint8Array> {
      yield new Uint8Array([1])
      throw new RangeError('Array buffer allocation failed')
    }
    const file = join(folder, 'pieces.xlsx')
    expect(() => writeWhole(file, pieces(), stateOf(file))).toThrow(/^Array buffer allocation failed$/)
    expect(existsSync(file)).toBe(false)
  })
})

describe('today', () => {
  it('is the day of the clock on the wall', () => {
    expect(today(new Date(2026, 10, 25, 23, 30))).toBe('2026-11-25')
    expect(today(new Date(2026, 0, 5, 0, 10))).toBe('2026-01-05')
  })
})

describe('takeoff', () => {
  it('as JSON stays JSON where a calendar is written too', () => {
    const plan = join(folder, 'plan.ics')
    const { jobs } = JSON.parse(run('takeoff', '--job', 'Pipit Hollow', '--json', '--calendar', plan)) as { jobs: unknown[] }
    expect(jobs).toHaveLength(1)
    expect(readFileSync(plan, 'utf8')).toContain('BEGIN:VCALENDAR')
  })
  it('finds a job whose name was typed with a space that does not break', () => {
    const office = startingOffice(true)
    const rows = office.Jobs.rows.map((row) => ({ ...row, cells: { ...row.cells, Job: String(row.cells.Job).replace(' ', '\u00a0') } }))
    const file = join(folder, 'office.xlsx')
    writeFileSync(file, makeTemplate({ ...office, Jobs: { ...office.Jobs, rows } }, { date: '2026-11-25', revision: 1, version: 'test' }))
    expect(run('takeoff', file, '--job', 'Pipit Hollow', '--out', join(folder, 'made.xlsx'))).toContain('Written: ')
  })
})

describe('cell', () => {
  it('refuses a formula beyond what a spreadsheet takes', () => {
    const long = `=${Array(4300).fill('1').join('+')}`
    const { status, stdout } = spawnSync(process.execPath, ['scripts/cli.mjs', 'cell', long], { encoding: 'utf8' })
    expect([status, stdout.trim()]).toEqual([1, '#NAME? a formula of at most 8,192 characters and 64 levels of brackets; got 8600 characters, 0 levels'])
    expect(run('cell', `=${Array(2000).fill('1').join('+')}`).trim()).toBe('2000')
  })
})
