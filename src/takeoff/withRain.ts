/** The days of a rain file put among those that the office has. */
import { FIRST_ROW } from './firstRow.js'
import { MM_PER_INCH } from '../units.js'
import { dateText } from '../days.js'
import { placesInWords, problemText, type Problem } from './fields.js'
import { stationRow } from './monthMeans.js'
import type { RawTable } from './office.js'
import { readRainDays, recordWords, stationKey, stationOf, type RainUnit } from './rainDays.js'
import { readRainFile, RainFileError } from './rainFiles.js'

export interface RainChoice {
  station: string
  unit?: RainUnit | undefined
  id?: string | undefined
  /** The station has no row in the sheet Rain yet: it gets one, its means from the days. */
  isNew?: boolean | undefined
}
export interface WithRain {
  table: RawTable
  words: string
  /** The row of a new station. */
  row?: Readonly<Record<string, string | number>>
}

const unitWords = { in: 'inches', mm: 'millimeters', tenths: 'tenths of a millimeter' } as const
/** Two readings of a day that differ by less are one reading, rounded twice. */
const SAME_IN = 0.006

/** The sheet's rows with a station's days in them: a day of the file takes the place of the same day, all other days stay. */
export function withRain(table: RawTable, text: string, file: string, { station, unit, id, isNew = false }: RainChoice): WithRain {
  const { days, notes, unit: counted } = readRainFile(text, file, { ...(unit ? { unit } : {}), ...(id ? { station: id } : {}) })
  const first: Problem[] = []
  readRainDays(table, first)
  if (first.length) throw new RainFileError(`${placesInWords(first.map(problemText))}: mend the sheet first. Nothing was written.`)
  const heading = table.columns.find((column) => column !== 'Date' && stationKey(stationOf(column).station) === stationKey(station)) ?? station.trim()
  const perInch = stationOf(heading).unit === 'mm' ? MM_PER_INCH : 1
  const byDate = new Map<string, Record<string, unknown>>()
  for (const { cells } of table.rows) {
    const date = dateText(cells.Date)
    if (date !== undefined) byDate.set(date, { ...cells, Date: date })
  }
  let replaced = 0
  for (const { date, rain_in } of days) {
    const cells = byDate.get(date) ?? { Date: date }
    byDate.set(date, cells)
    // A day that the file has no reading for keeps the one that stands.
    if (rain_in === undefined) continue
    const before = cells[heading]
    if (typeof before === 'number' && Math.abs(before / perInch - rain_in) > SAME_IN) replaced++
    // A file gives tenths of a millimeter or hundredths of an inch: digits beyond them are none.
    cells[heading] = Number((rain_in * perInch).toFixed(4))
  }
  const rows = [...byDate.entries()].sort(([one], [other]) => (one < other ? -1 : 1)).map(([, cells], at) => ({ row: FIRST_ROW + at, cells }))
  const columns = ['Date', ...table.columns.filter((column) => column && column !== 'Date'), ...(table.columns.includes(heading) ? [] : [heading])]
  const next: RawTable = { sheet: table.sheet, columns, rows }
  const problems: Problem[] = []
  const record = readRainDays(next, problems).get(stationKey(stationOf(heading).station))!
  if (problems.length) throw new RainFileError(`${file}: ${placesInWords(problems.map(({ allowed, came }) => `${allowed}; got ${came}`))}. Nothing was written.`)
  const changed = replaced ? [`${replaced} earlier ${replaced === 1 ? 'reading' : 'readings'} of the same days replaced by other ones`] : []
  if (isNew && !record.years.length)
    throw new RainFileError(`${file}: a whole year of days at least, to give the station its means; got ${recordWords(record)}. Nothing was written.`)
  return {
    table: next,
    words: [recordWords(record), `readings taken as ${unitWords[counted]}`, ...changed, ...notes].join('; '),
    ...(isNew ? { row: stationRow(station.trim(), record, file) } : {}),
  }
}
