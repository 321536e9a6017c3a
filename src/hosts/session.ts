/** What is done with a workbook, whatever its host: read the jobs, set up tables, add a job, a heading, days of rain. */
import { stationKey } from '../takeoff/rainDays.js'
import { officeSheets } from '../plan/officeSheets.js'
import type { Made } from '../plan/plan.js'
import { badInput } from '../errors.js'
import { checkField, problemAt, ProblemsError, type Problem } from '../takeoff/fields.js'
import { readOffice, type Office } from '../takeoff/office.js'
import { changesSince, fieldOf, fieldWords, inShort } from '../takeoff/changes.js'
import type { RaisedVerdict } from '../takeoff/design.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import { dollars } from '../rounding.js'
import { nothingKept, type Kept } from '../takeoff/typed.js'
import { jobFields, keyColumn, requiredTables, type JobFieldName, type TableName } from '../takeoff/officeTables.js'
import { sheetNameProblem } from '../takeoff/tableProblems.js'
import { newStationProblem } from '../takeoff/monthMeans.js'
import type { RainChoice } from '../takeoff/withRain.js'
import { HostError, type Host } from './host.js'

export interface Opened {
  office: Office | undefined
  missing: readonly string[]
  /** Names of all sheets, by themselves in small letters. */
  sheetNames: ReadonlyMap<string, string>
}

export async function open(host: Host): Promise<Opened> {
  const { office, missing, sheetNames } = await host.read([])
  return { office: office && readOffice(office, host), missing, sheetNames }
}

/** What stands on the sheets of a job. */
export interface Standing {
  /** What people typed, and what of it cannot be taken; nothing where it was never made. */
  kept: Kept
  /** In words, what is another thing in its sheets than in the job as it is now; empty where they are one. */
  sinceMade(takeoff: Takeoff): string
  /** Whether somebody has answered for a stop on its quote. */
  isAnswered(takeoff: Takeoff, stop: RaisedVerdict): boolean
}
export const nothingStanding: Standing = { kept: nothingKept, sinceMade: () => '', isAnswered: () => false }

/** So many fields of a row are said. */
const FIELDS_SAID = 3

/** `former` is the name that the job had before. */
export async function standingOf(host: Host, job: string, former?: string): Promise<Standing> {
  const making = await import(/* webpackChunkName: "making" */ './making.js')
  const named = [job, ...(former === undefined ? [] : [former])].map((name) => making.jobSheetNames(name))
  const standing = await host.readSheets(named.flatMap((names) => making.sheetsTypedOn(names)))
  const read = (sheet: string) => {
    const content = standing.get(sheet)
    return content && making.isOurs(content, false) ? content : undefined
  }
  const {
    kept,
    earlier: { before, problems },
  } = making.standingWork(job, former, read)
  return {
    kept: { ...kept, problems: [...kept.problems, ...problems] },
    isAnswered: (takeoff, stop) => making.answerTo(takeoff, stop).isGiven,
    sinceMade: (takeoff) => {
      const changes = before ? changesSince(before, takeoff) : []
      // What was typed on the Takeoff is live on every sheet already.
      const typed = new Set([...Object.keys(kept.overrides), ...kept.added.map(({ code, description }) => code || description)])
      // So are the lines that sum the quantities of others up: hours of people, loads of stone.
      if (Object.values(kept.overrides).some(({ quantity }) => quantity !== undefined)) for (const { code, rule } of takeoff.lines) if (rule.sum) typed.add(code)
      const off = (before?.gone ?? []).filter((code) => takeoff.lines.some((line) => line.code === code))
      if (off.length) return `${off.join(', ')}: taken off its sheet Takeoff by hand, and in this price. Make the takeoff again; the column Without of Jobs leaves an item out.`
      if (!before || !changes.some(({ what, code }) => what !== 'overhead, markup and tax' && !(code && typed.has(code)))) return ''
      const fields = changes.flatMap((change) => {
        const field = fieldOf(change)
        return field ? [`${field.label} ${fieldWords(field.name, change.to)}, made with ${fieldWords(field.name, change.from)}`] : []
      })
      const said = fields.length > FIELDS_SAID ? [...fields.slice(0, FIELDS_SAID), `${fields.length - FIELDS_SAID} more`] : fields
      return `Its sheets were made at ${dollars(before.total)}; ${inShort(changes, before.revision)}${said.length ? ` (${said.join('; ')})` : ''}. Make the takeoff again.`
    },
  }
}

/** Refuses to write tables that a workbook lacks over sheets that have their names and hold something. */
export async function refuseTakenSheets(host: Host, tables: readonly string[]): Promise<void> {
  if (!tables.length) return
  const standing = await host.readSheets(tables)
  const taken = tables.filter((name) => standing.get(name)?.some((row) => row.some(({ value }) => value !== null)))
  if (taken.length)
    throw new HostError(
      `The sheet ${taken.join(', ')} stands here already, without a table of that name: give its headings their names again, or rename the sheet. Nothing was changed.`,
    )
}

/** A workbook that holds nothing of an office yet: the demo takes nobody's place there. */
export const hasNoTable = (missing: readonly string[]): boolean => requiredTables.every((table) => missing.includes(table))

/** Adds the tables that are missing; what exists is left alone. */
export async function setUp(host: Host, made: Made, demo: boolean): Promise<readonly string[]> {
  const { missing: needed, absent } = await host.read([])
  const missing = [...needed, ...absent]
  await refuseTakenSheets(host, missing)
  // Wanted once in the life of a workbook: the pane fetches it then.
  const { startingOffice } = await import(/* webpackChunkName: "setup" */ '../takeoff/demo.js')
  // An office that has tables of its own gets no invented prices, and no demo rows for its jobs.
  const sheets = officeSheets(startingOffice(demo && hasNoTable(needed)), made).filter((sheet) => missing.includes(sheet.tables[0]!.name))
  await host.write(sheets)
  return sheets.map(({ name }) => name)
}

/** What a first job needs: five fields, then the four runs; every other column has a default. */
export const guidedFields = [
  'Job',
  'RoofArea_ft2',
  'RainStation',
  'People',
  'TankModel',
  'InletRun_ft',
  'OverflowRun_ft',
  'WaterLineRun_ft',
  'PowerRun_ft',
] as const satisfies readonly JobFieldName[]
export type GuidedField = (typeof guidedFields)[number]

/** Writes a row of Jobs from what was typed, checked as cells of that sheet are; answers the row. */
export async function addJob(host: Host, office: Office, typed: Readonly<Record<GuidedField, string>>): Promise<number> {
  const names = (table: string) => office.tables[table as TableName].map(({ cells }) => String(cells[keyColumn(table as TableName)] ?? '')).filter(Boolean)
  const problems: Problem[] = []
  const cells: Record<string, string | number> = {}
  for (const name of guidedFields) {
    try {
      const text = typed[name].trim()
      const value = checkField(name, jobFields[name], text === '' ? null : text, names)
      if (value === null) continue
      const taken = name === 'Job' && value !== null ? sheetNameProblem(`Takeoff ${value}`) : undefined
      if (taken) throw badInput(name, taken, value)
      if (name === 'Job' && names('Jobs').some((known) => known.toLowerCase() === String(value).toLowerCase())) throw badInput(name, 'a name that no other job has', value)
      // A default that nobody typed stays with the sheet: the cell is left empty, and the figure counts as assumed.
      if (text !== '') cells[name] = value
    } catch (error) {
      problems.push(problemAt(office.sheets.Jobs, 0, name, error))
    }
  }
  if (problems.length) throw new ProblemsError(problems)
  const yours = office.headings.get('Jobs')
  return host.addRow('Jobs', Object.fromEntries(Object.entries(cells).map(([name, value]) => [yours?.get(name) ?? name, value])))
}

/** Says on the sheet Headings that a heading is a column of ours under another name, or the office's own; the sheet is made where there is none. */
export async function nameHeading(host: Host, { table, heading, field }: { table: string; heading: string; field: string }, isOurs: boolean, made: Made): Promise<void> {
  const { office: raw, absent, sheetNames } = await host.read([])
  if (!raw) return
  const cells = { Table: table, Heading: heading, ...(isOurs ? { Field: field } : {}) }
  if (sheetNames.has('headings') && !absent.includes('Headings')) return void (await host.addRow('Headings', cells))
  await refuseTakenSheets(host, ['Headings'])
  await host.write(officeSheets({ ...raw, Headings: { ...raw.Headings, rows: [{ row: 0, cells }] } }, made).filter(({ name }) => name === 'Headings'))
}

/** Adds the days of a rain file to the sheet RainDays; says in words what the record holds now. */
export async function addRainDays(host: Host, text: string, file: string, wanted: RainChoice, made: Made): Promise<string> {
  const { office: raw, missing, absent } = await host.read([])
  if (!raw) throw new HostError(`The tables ${missing.join(', ')} of the workbook are missing; set it up first.`)
  const stations = raw.Rain.rows.map(({ cells }) => String(cells.Station ?? '')).filter(Boolean)
  const reason = wanted.isNew ? newStationProblem(wanted.station, stations) : undefined
  if (reason) throw new HostError(`The new station: ${reason}. Nothing was changed.`)
  const known = stations.find((station) => station.toLowerCase() === wanted.station.trim().toLowerCase())
  if (!wanted.isNew && known === undefined)
    throw new HostError(
      `Daily rain goes to a station of the sheet ${raw.Rain.sheet}${stations.length ? `: ${stations.join(', ')}` : ', which has none yet'}; got ${wanted.station}. One that is not there yet is added as a new station.`,
    )
  const choice = known === undefined ? wanted : { ...wanted, station: known }
  const { withRain } = await import(/* webpackChunkName: "setup" */ '../takeoff/withRain.js')
  const { table, words, row } = withRain(raw.RainDays, text, file, choice)
  if (absent.includes('RainDays')) {
    await refuseTakenSheets(host, ['RainDays'])
    await host.write(officeSheets({ ...raw, RainDays: table }, made).filter(({ name }) => name === 'RainDays'))
  } else
    await host.putRows(
      'RainDays',
      table.columns,
      table.rows.map(({ cells }) => table.columns.map((name) => (cells[name] ?? null) as string | number | null)),
    )
  if (!row) return words
  // The days are there: a station without a row can get one once more.
  const yours = readOffice(raw, host).headings.get('Rain')
  const at = await host.addRow('Rain', Object.fromEntries(Object.entries(row).map(([name, value]) => [yours?.get(name) ?? name, value])))
  return `${words}; its means of the months are in row ${at} of ${raw.Rain.sheet}`
}

/** Rows of the further tables that no job draws on, as after a job was renamed: they stand in no job's way, but somebody meant something by them. */
export const unusedRows = ({ problems, sheets, rain, tables }: Office): Problem[] => {
  const stations = tables.Rain.map(({ cells }) => String(cells.Station ?? ''))
  return [
    ...problems.filter(({ sheet }) => [sheets.Catchments, sheets.Uses, sheets.Variants].includes(sheet)),
    ...[...rain].flatMap(([key, { station }]) =>
      stations.some((known) => stationKey(known) === key)
        ? []
        : [
            {
              sheet: sheets.RainDays,
              row: 0,
              column: station,
              allowed: `a station of the sheet ${sheets.Rain}, its unit behind a comma: ${stations.join(', ')}`,
              came: `"${station}"`,
            },
          ],
    ),
  ]
}
