/** What was found wrong while the tables were read, as far as it bears on one job. */
import type { Design } from './design.js'
import type { Problem } from './fields.js'
import { keyColumn } from './officeTables.js'
import { rowNamed, type Office, type Row } from './office.js'
import { stationKey, stationOf } from './rainDays.js'

/** Sheet names: Excel allows 31 characters and none of these; the grid takes no straight apostrophe. */
export function sheetNameProblem(name: string): string | undefined {
  if (name.length > 31) return 'at most 31 characters in a sheet name'
  if (/[[\]:*?/\\]/.test(name)) return 'no [ ] : * ? / or \\ in a sheet name'
  if ([...name].some((letter) => letter < ' ')) return 'no line break and no tab in a sheet name'
  if (name.includes("'")) return 'no straight apostrophe in a sheet name; the curly one, ’, is taken'
  return undefined
}

/** The sheet of several jobs' orders would be that of a job of this name. */
const TAKEN = 'together'

/** Problems found while reading that bear on this job: its own row, and every table it draws on. */
export function problemsOf(office: Office, job: Row): Problem[] {
  const name = String(job.cells.Job ?? '')
  const isNamesake = ({ sheet, column, came }: Problem) => sheet === office.sheets.Jobs && column === 'Job' && came.toLowerCase() === `"${name.toLowerCase()}"`
  const own = office.problems.filter((problem) => bearsOn(office, job, problem) || isNamesake(problem))
  if (!office.tables.Pumps.length) own.push({ sheet: office.sheets.Pumps, row: 0, column: 'Model', allowed: 'one pump at least', came: 'no row' })
  const reason = name.toLowerCase() === TAKEN ? 'another name: the sheet Order together is that of several jobs' : sheetNameProblem(`Takeoff ${name}`)
  if (name && reason) own.push({ sheet: office.sheets.Jobs, row: job.row, column: 'Job', allowed: reason, came: `"${name}"` })
  return own
}

/** A mistake in a tank or pump that the job does not use is no reason to refuse it. */
function bearsOn(office: Office, job: Row, { sheet, row, column, came }: Problem): boolean {
  if (row === 0) return true
  if (sheet === office.sheets.Jobs) return row === job.row
  const ofJobs = (['Catchments', 'Uses', 'Variants'] as const).find((name) => office.sheets[name] === sheet)
  if (ofJobs) {
    // A row that names no job is drawn on by none: it is told with the workbook, and stands in no job's way.
    if (column === 'Job') return false
    const of = office.tables[ofJobs].find((known) => known.row === row)?.cells.Job
    return of === null || of === undefined || String(of).toLowerCase() === String(job.cells.Job ?? '').toLowerCase()
  }
  if (sheet === office.sheets.RainDays) return column === 'Date' || stationKey(stationOf(column).station) === stationKey(String(job.cells.RainStation ?? ''))
  const usedBy = { Tanks: ['TankModel', 'SecondModel'], Pumps: ['PumpModel'], Rain: ['RainStation'], Cranes: ['CraneModel'] } as const
  const table = (Object.keys(usedBy) as (keyof typeof usedBy)[]).find((name) => office.sheets[name] === sheet)
  if (!table) return true
  const wanted = usedBy[table].flatMap((field) => job.cells[field] ?? [])
  // Of two rows with the name that is wanted the second is the wrong one, and which of them is meant nobody knows.
  const isNamesake = (name: string) => column === keyColumn(table) && came.toLowerCase() === `"${name.toLowerCase()}"`
  return !wanted.length || wanted.some((name) => rowNamed(office, table, name)?.row === row || isNamesake(String(name)))
}

/** Of pumps and pressure tanks without a price the one that was chosen matters; before, any might have been. */
export function isOfChosen(office: Office, design: Design, { sheet, row }: Problem): boolean {
  if (sheet === office.sheets.Pumps) return rowNamed(office, 'Pumps', String(design.single('PumpModel') ?? ''))?.row === row
  if (sheet === office.sheets.PressureTanks) return office.tables.PressureTanks.find(({ cells }) => cells.Volume_gal === design.single('PressureTank_gal'))?.row === row
  return true
}
