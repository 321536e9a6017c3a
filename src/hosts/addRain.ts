/** Adds the days of a rain file to an office's workbook: the sheet RainDays is written anew with what it had, everything else stays. */
import { officeSheets } from '../plan/officeSheets.js'
import type { Made } from '../plan/plan.js'
import { placesInWords } from '../takeoff/fields.js'
import { RainFileError } from '../takeoff/rainFiles.js'
import { newStationProblem } from '../takeoff/monthMeans.js'
import { withRain, type RainChoice } from '../takeoff/withRain.js'
import { readOfficeTables, Workbook, writeInto, WorkbookError } from './file.js'
import { addTableRow } from './addTableRow.js'
import { remember, type Source } from './fileSession.js'
import { References } from './repoint.js'
import { drawnNotes, refuseTaken, typingLost } from './standing.js'

export interface WithRain {
  bytes: Uint8Array
  words: string
  notes: readonly string[]
}

export function addRain(source: Source, text: string, file: string, choice: RainChoice, made: Made, mayLose = false): WithRain {
  const workbook = source.workbook!
  const stations = source.raw.Rain.rows.map(({ cells }) => String(cells.Station ?? '')).filter(Boolean)
  if (choice.isNew) newStation(source, choice.station, stations)
  else if (!stations.some((known) => known.toLowerCase() === choice.station.trim().toLowerCase()))
    throw new WorkbookError(
      `--station: a name in the sheet ${source.raw.Rain.sheet}: ${stations.join(', ') || 'it has none yet'}; got ${choice.station}. A station that is new there: --new-station.`,
    )
  try {
    const { table, words, row } = withRain(source.raw.RainDays, text, file, choice)
    const raw = { ...source.raw, RainDays: table }
    const isAbsent = source.absent.includes('RainDays')
    const sheet = officeSheets(raw, made).find(({ name }) => name === 'RainDays')!
    const plan = { ...sheet, name: isAbsent ? sheet.name : table.sheet }
    refuseTaken(workbook, [plan])
    const lost = [...typingLost(workbook, [plan]), ...formulasIn(source)]
    if (lost.length && !mayLose)
      throw new WorkbookError(
        `${workbook.file}: what stands on its sheet beside the record would be lost: ${placesInWords(lost)}. Move it to a sheet of your own or add --replace. Nothing was written.`,
      )
    const references = new References(workbook, [])
    references.note(plan)
    const notes = [...drawnNotes(workbook.book, [plan]), ...references.follow()]
    if (row) addTableRow(source, 'Rain', row)
    writeInto(workbook.book, [plan])
    remember(workbook.book, { name: source.name, raw: row ? readOfficeTables(new Workbook(workbook.book)).raw : raw })
    return { bytes: workbook.book.bytes(), words, notes }
  } catch (error) {
    if (error instanceof RainFileError) throw new WorkbookError(error.message)
    throw error
  }
}

function newStation({ raw }: Source, station: string, stations: readonly string[]): void {
  const reason = newStationProblem(station, stations)
  if (reason) throw new WorkbookError(`--new-station: ${reason} in the sheet ${raw.Rain.sheet}. Nothing was written.`)
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
