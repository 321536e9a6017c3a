/** Offices of any size. */
import { startingOffice } from '../../src/takeoff/demo.js'
import type { RawOffice } from '../../src/takeoff/office.js'

/** The demo with its jobs repeated under other names. */
export function manyJobs(count: number): RawOffice {
  const demo = startingOffice(true)
  const rows = Array.from({ length: count }, (_, at) => {
    const { cells } = demo.Jobs.rows[at % demo.Jobs.rows.length]!
    return { row: 6 + at, cells: { ...cells, Job: `Job ${at + 1}` } }
  })
  return { ...demo, Jobs: { ...demo.Jobs, rows } }
}

/** Forty years of days for the station of a job that has means alone. */
export function withDays(raw: RawOffice, station: string): RawOffice {
  const rows: { row: number; cells: Readonly<Record<string, unknown>> }[] = []
  for (let day = new Date(Date.UTC(1980, 0, 1)), at = 0; day.getUTCFullYear() < 2020; day = new Date(day.getTime() + 86_400_000), at++)
    rows.push({ row: 6 + at, cells: { Date: day.toISOString().slice(0, 10), [station]: (at * 7919) % 13 < 3 ? ((at * 104_729) % 97) / 100 : 0 } })
  return { ...raw, RainDays: { sheet: 'RainDays', columns: ['Date', station], rows } }
}
