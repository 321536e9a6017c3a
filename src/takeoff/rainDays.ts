/** Daily rain of the sheet RainDays, a station a column: whole years, days without a reading counted, never taken for dry in silence. */
import { shown } from '../errors.js'
import { convert } from '../units.js'
import { DAY_MS, dateText } from '../days.js'
import { plainSpaces, type Problem } from './fields.js'
import type { RawTable } from './office.js'

export interface RainYear {
  year: number
  /** Rain of each day; a day without a reading counts as dry here, and in `missing`. */
  rain_in: Float64Array
  missing: number
}
export interface RainRecord {
  station: string
  years: readonly RainYear[]
  leftOut: readonly { year: number; missing: number }[]
  largest: { date: string; rain_in: number } | undefined
}

/** Units that a file of rain may count in. */
export const rainUnits = ['in', 'mm', 'tenths'] as const
export type RainUnit = (typeof rainUnits)[number]

/** House figure: a year with more days missing than this is left out, for its dry spells cannot be told from its gaps. */
const MOST_MISSING = 10
/** More rain in a day than was ever measured (about 72 in, La Réunion 1966; from memory) is a slip of the unit. */
export const MOST_IN = 75
/** Records longer than this are another unit of time or a slip of the date. */
const MOST_YEARS = 150

const daysIn = (year: number): number => (Date.UTC(year + 1, 0, 1) - Date.UTC(year, 0, 1)) / DAY_MS
const dayOf = (date: string): number => Math.round(Date.parse(`${date}T00:00:00Z`) / DAY_MS)

/** "Alder Reach", "Alder Reach, mm" or "Alder Reach (mm)": a station and the unit of its column. */
export function stationOf(heading: string): { station: string; unit: 'in' | 'mm' } {
  const parts = /^(.*?)(?:\s*,\s*|\s*\(\s*|_)(in|mm)\.?\)?$/i.exec(heading.trim())
  return parts ? { station: parts[1]!.trim(), unit: parts[2]!.toLowerCase() as 'in' | 'mm' } : { station: heading.trim(), unit: 'in' }
}

/** The same station, whatever its capitals and spaces. */
export const stationKey = plainSpaces

/** The record of every station of the sheet, by its name in small letters. */
export function readRainDays(raw: RawTable, problems: Problem[]): ReadonlyMap<string, RainRecord> {
  const dates = new Map<number, number>()
  const rows: { day: number; cells: Readonly<Record<string, unknown>>; row: number }[] = []
  let strange = 0
  for (const { row, cells } of raw.rows) {
    if (Object.values(cells).every((cell) => cell === null || cell === undefined || cell === '')) continue
    const date = dateText(cells.Date)
    const problem = (allowed: string) => problems.push({ sheet: raw.sheet, row, column: 'Date', allowed, came: dateText(cells.Date) ?? shown(cells.Date) })
    if (date === undefined) {
      // Of a whole column in another form the first is named.
      if (strange++ === 0) problem('a date, as 2026-05-31')
      continue
    }
    const day = dayOf(date)
    const before = dates.get(day)
    if (before !== undefined) {
      problem(`each day once; row ${before} has it already`)
      continue
    }
    dates.set(day, row)
    rows.push({ day, cells, row })
  }
  if (strange > 1) problems.push({ sheet: raw.sheet, row: 0, column: 'Date', allowed: 'dates, as 2026-05-31, in all rows', came: `${strange} rows that have none` })
  rows.sort((one, other) => one.day - other.day)
  if (rows.length && (rows.at(-1)!.day - rows[0]!.day) / 365.25 > MOST_YEARS)
    problems.push({ sheet: raw.sheet, row: rows.at(-1)!.row, column: 'Date', allowed: `a record of at most ${MOST_YEARS} years`, came: 'a longer one' })
  const records = new Map<string, RainRecord>()
  for (const heading of raw.columns) {
    if (heading === 'Date' || heading === '') continue
    const record = recordOf(raw, heading, rows, problems)
    if (records.has(stationKey(record.station))) problems.push({ sheet: raw.sheet, row: 0, column: heading, allowed: 'each station once', came: 'a second one' })
    records.set(stationKey(record.station), record)
  }
  return records
}

/** One reading a cell: inches or millimeters, T for a trace, empty where nothing was read. */
function reading(cell: unknown, unit: 'in' | 'mm'): number | undefined | null {
  if (cell === null || cell === undefined || cell === '') return null
  if (typeof cell === 'string' && /^t(?:race)?$/i.test(cell.trim())) return 0
  const value = typeof cell === 'number' ? cell : typeof cell === 'string' && /^\s*\d*\.?\d+\s*$/.test(cell) ? Number(cell) : NaN
  const rain_in = unit === 'mm' ? convert(value, 'mm', 'in') : value
  return rain_in >= 0 && rain_in <= MOST_IN ? rain_in : undefined
}

function recordOf(raw: RawTable, heading: string, rows: readonly { day: number; cells: Readonly<Record<string, unknown>>; row: number }[], problems: Problem[]): RainRecord {
  const { station, unit } = stationOf(heading)
  const byYear = new Map<number, { rain_in: Float64Array; read: number }>()
  let largest: RainRecord['largest']
  for (const { day, cells, row } of rows) {
    const rain_in = reading(cells[heading], unit)
    if (rain_in === null) continue
    if (rain_in === undefined) {
      problems.push({
        sheet: raw.sheet,
        row,
        column: heading,
        allowed: `rain of a day, 0 to ${unit === 'mm' ? Math.round(convert(MOST_IN, 'in', 'mm')) : MOST_IN} ${unit}, T for a trace`,
        came: shown(cells[heading]),
      })
      continue
    }
    const date = new Date(day * DAY_MS)
    const year = date.getUTCFullYear()
    let of = byYear.get(year)
    if (!of) byYear.set(year, (of = { rain_in: new Float64Array(daysIn(year)), read: 0 }))
    of.rain_in[(day * DAY_MS - Date.UTC(year, 0, 1)) / DAY_MS] = rain_in
    of.read++
    if (!largest || rain_in > largest.rain_in) largest = { date: date.toISOString().slice(0, 10), rain_in }
  }
  const all = [...byYear].sort(([one], [other]) => one - other).map(([year, { rain_in, read }]) => ({ year, rain_in, missing: rain_in.length - read }))
  return {
    station,
    years: all.filter(({ missing }) => missing <= MOST_MISSING),
    leftOut: all.filter(({ missing }) => missing > MOST_MISSING).map(({ year, missing }) => ({ year, missing })),
    largest,
  }
}

/** What a record holds, in words for the sheet and the pane. */
export function recordWords({ years, leftOut, largest }: RainRecord): string {
  const span = years.length ? `${years.length} ${years.length === 1 ? 'year' : 'years'} of days, ${years[0]!.year} to ${years.at(-1)!.year}` : 'no whole year of days'
  const gaps = years.filter(({ missing }) => missing > 0)
  return [
    span,
    gaps.length ? `days without a reading, taken as dry: ${gaps.map(({ year, missing }) => `${missing} in ${year}`).join(', ')}` : '',
    leftOut.length ? `left out: ${leftOut.map(({ year, missing }) => `${year}, ${missing} days missing`).join('; ')}` : '',
    largest ? `largest day ${Math.round(largest.rain_in * 100) / 100} in on ${largest.date}` : '',
  ]
    .filter(Boolean)
    .join('; ')
}
