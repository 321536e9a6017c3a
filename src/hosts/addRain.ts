/** Adds the days of a rain file to an office's workbook: the sheet RainDays is written anew, everything else stays. */
import { officeSheets } from '../plan/officeSheets.js'
import type { Made } from '../plan/plan.js'
import { dateText, type Problem } from '../takeoff/fields.js'
import type { RawTable } from '../takeoff/office.js'
import { readRainDays, recordWords, stationOf } from '../takeoff/rainDays.js'
import { readRainFile, RainFileError } from '../takeoff/rainFiles.js'
import { writeInto, WorkbookError } from './file.js'
import type { Source } from './fileSession.js'

export interface RainChoice {
  station: string
  unit?: 'in' | 'mm' | undefined
  id?: string | undefined
}

/** The sheet's rows with a station's days in them: its own column is replaced, days of others stay. */
export function withRain(table: RawTable, text: string, file: string, { station, unit, id }: RainChoice): { table: RawTable; words: string } {
  const { days, notes } = readRainFile(text, file, { ...(unit ? { unit } : {}), ...(id ? { station: id } : {}) })
  const heading = table.columns.find((column) => column !== 'Date' && stationOf(column).station.toLowerCase() === station.trim().toLowerCase()) ?? station.trim()
  const inMm = stationOf(heading).unit === 'mm'
  const byDate = new Map<string, Record<string, unknown>>()
  for (const { cells } of table.rows) {
    const date = dateText(cells.Date)
    if (date !== undefined) byDate.set(date, { ...cells, Date: date, [heading]: null })
  }
  for (const { date, rain_in } of days) {
    const cells = byDate.get(date) ?? { Date: date }
    // A file gives tenths of a millimeter or hundredths of an inch: digits beyond them are none.
    cells[heading] = rain_in === undefined ? null : Number((inMm ? rain_in * 25.4 : rain_in).toFixed(4))
    byDate.set(date, cells)
  }
  const rows = [...byDate.entries()].sort(([one], [other]) => (one < other ? -1 : 1)).map(([, cells], at) => ({ row: 6 + at, cells }))
  const columns = ['Date', ...new Set([...table.columns.filter((column) => column && column !== 'Date'), heading])]
  const next: RawTable = { sheet: table.sheet, columns, rows }
  const problems: Problem[] = []
  const record = readRainDays(next, problems).get(stationOf(heading).station.toLowerCase())!
  return { table: next, words: [recordWords(record), ...notes].join('; ') }
}

export function addRain(source: Source, text: string, file: string, choice: RainChoice, made: Made): { bytes: Uint8Array; words: string } {
  const stations = source.raw.Rain.rows.map(({ cells }) => String(cells.Station ?? '')).filter(Boolean)
  if (!stations.some((known) => known.toLowerCase() === choice.station.trim().toLowerCase()))
    throw new WorkbookError(`--station: a name in the sheet ${source.raw.Rain.sheet}: ${stations.join(', ')}; got ${choice.station}.`)
  try {
    const { table, words } = withRain(source.raw.RainDays, text, file, choice)
    const plan = officeSheets({ ...source.raw, RainDays: table }, made).find(({ name }) => name === 'RainDays')!
    const { book } = source.workbook!
    writeInto(book, [{ ...plan, name: source.absent.includes('RainDays') ? plan.name : table.sheet }])
    return { bytes: book.bytes(), words }
  } catch (error) {
    if (error instanceof RainFileError) throw new WorkbookError(error.message)
    throw error
  }
}
