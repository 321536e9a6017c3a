/** Adds the days of a rain file to an office's workbook: the sheet RainDays is written anew with what it had, everything else stays. */
import { officeSheets } from '../plan/officeSheets.js'
import type { Made } from '../plan/plan.js'
import { dateText, problemText, type Problem } from '../takeoff/fields.js'
import type { RawTable } from '../takeoff/office.js'
import { readRainDays, recordWords, stationOf } from '../takeoff/rainDays.js'
import { readRainFile, RainFileError, type RainUnit } from '../takeoff/rainFiles.js'
import { writeInto, WorkbookError } from './file.js'
import { remember, type Source } from './fileSession.js'
import { repoint } from './repoint.js'
import { drawnNotes, placesInWords, refuseTaken, wordsLost } from './standing.js'

export interface RainChoice {
  station: string
  unit?: RainUnit | undefined
  id?: string | undefined
}

/** Two readings of a day that differ by less are one reading, rounded twice. */
const SAME_IN = 0.006

/** The sheet's rows with a station's days in them: a day of the file takes the place of the same day, all other days stay. */
export function withRain(table: RawTable, text: string, file: string, { station, unit, id }: RainChoice): { table: RawTable; words: string } {
  const { days, notes } = readRainFile(text, file, { ...(unit ? { unit } : {}), ...(id ? { station: id } : {}) })
  const first: Problem[] = []
  readRainDays(table, first)
  if (first.length) throw new RainFileError(`${placesInWords(first.map(problemText))}: mend the sheet first. Nothing was written.`)
  const heading = table.columns.find((column) => column !== 'Date' && stationOf(column).station.toLowerCase() === station.trim().toLowerCase()) ?? station.trim()
  const perInch = stationOf(heading).unit === 'mm' ? 25.4 : 1
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
  const rows = [...byDate.entries()].sort(([one], [other]) => (one < other ? -1 : 1)).map(([, cells], at) => ({ row: 6 + at, cells }))
  const columns = ['Date', ...table.columns.filter((column) => column && column !== 'Date'), ...(table.columns.includes(heading) ? [] : [heading])]
  const next: RawTable = { sheet: table.sheet, columns, rows }
  const problems: Problem[] = []
  const record = readRainDays(next, problems).get(stationOf(heading).station.toLowerCase())!
  if (problems.length) throw new RainFileError(`${file}: ${placesInWords(problems.map(({ allowed, came }) => `${allowed}; got ${came}`))}. Nothing was written.`)
  const changed = replaced ? [`${replaced} earlier ${replaced === 1 ? 'reading' : 'readings'} of the same days replaced by other ones`] : []
  return { table: next, words: [recordWords(record), ...changed, ...notes].join('; ') }
}

export interface WithRain {
  bytes: Uint8Array
  words: string
  notes: readonly string[]
}

export function addRain(source: Source, text: string, file: string, choice: RainChoice, made: Made, mayLose = false): WithRain {
  const workbook = source.workbook!
  const stations = source.raw.Rain.rows.map(({ cells }) => String(cells.Station ?? '')).filter(Boolean)
  if (!stations.some((known) => known.toLowerCase() === choice.station.trim().toLowerCase()))
    throw new WorkbookError(`--station: a name in the sheet ${source.raw.Rain.sheet}: ${stations.join(', ')}; got ${choice.station}.`)
  try {
    const { table, words } = withRain(source.raw.RainDays, text, file, choice)
    const raw = { ...source.raw, RainDays: table }
    const isAbsent = source.absent.includes('RainDays')
    const sheet = officeSheets(raw, made).find(({ name }) => name === 'RainDays')!
    const plan = { ...sheet, name: isAbsent ? sheet.name : table.sheet }
    refuseTaken(workbook, [plan])
    const lost = [...wordsLost(workbook, [plan]), ...formulasIn(source)]
    if (lost.length && !mayLose)
      throw new WorkbookError(
        `${workbook.file}: what stands on its sheet beside the record would be lost: ${placesInWords(lost)}. Move it to a sheet of your own or add --replace. Nothing was written.`,
      )
    const notes = [...drawnNotes(workbook.book, [plan]), ...repoint(workbook, [plan])]
    writeInto(workbook.book, [plan])
    remember(workbook.book, { name: source.name, raw })
    return { bytes: workbook.book.bytes(), words, notes }
  } catch (error) {
    if (error instanceof RainFileError) throw new WorkbookError(error.message)
    throw error
  }
}

/** A day that is worked out by a formula would become a number; formulas beside the table are among the words that would be lost. */
function formulasIn({ workbook, raw, places, absent }: Source): string[] {
  const sheet = absent.includes('RainDays') ? undefined : workbook!.book.sheetNamed(raw.RainDays.sheet)
  if (!sheet) return []
  const columns = new Set(raw.RainDays.columns.map((name) => places.RainDays.columnOf(name)))
  return [...workbook!.cells.rows(sheet)].flatMap(([row, cells]) =>
    [...cells].flatMap(([column, { formula }]) => (formula === undefined || !columns.has(column) ? [] : [`row ${row} (=${formula.slice(0, 40)})`])),
  )
}
