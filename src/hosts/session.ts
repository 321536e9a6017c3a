/** What the pane does with a workbook, whatever its host: read the jobs, set up tables, make takeoffs. */
import type { Flavor } from '../plan/calls.js'
import { officeSheets } from '../plan/officeSheets.js'
import { PUBLISHED_SHEET } from '../plan/places.js'
import type { Made, SheetPlan } from '../plan/plan.js'
import { badInput } from '../errors.js'
import { checkField, placesInWords, problemAt, ProblemsError, type Problem } from '../takeoff/fields.js'
import { readOffice, rowNamed, type Office } from '../takeoff/office.js'
import { makeTakeoff, type Takeoff } from '../takeoff/takeoff.js'
import { changesSince, inShort } from '../takeoff/changes.js'
import { jobFields, keyColumn, tableNames, type JobFieldName, type TableName } from '../takeoff/officeTables.js'
import type { RainChoice } from '../takeoff/withRain.js'
import { HostError, type Host } from './host.js'

export interface Opened {
  office: Office | undefined
  missing: readonly string[]
}

export async function open(host: Host): Promise<Opened> {
  const { office, missing } = await host.read([])
  return { office: office && readOffice(office, { isLive: true }), missing }
}

/** Adds the tables that are missing; what exists is left alone. */
export async function setUp(host: Host, made: Made, demo: boolean): Promise<readonly string[]> {
  const { missing: needed, absent, sheets: standing } = await host.read(tableNames)
  const missing = [...needed, ...absent]
  const taken = missing.filter((name) => standing.get(name)?.some((row) => row.some(({ value }) => value !== null)))
  if (taken.length)
    throw new HostError(
      `The sheet ${taken.join(', ')} stands here already, without a table of that name: give its headings their names again, or rename the sheet. Nothing was changed.`,
    )
  // Wanted once in the life of a workbook: the pane fetches it then.
  const { startingOffice } = await import(/* webpackChunkName: "setup" */ '../takeoff/demo.js')
  const sheets = officeSheets(startingOffice(demo), made).filter((sheet) => missing.includes(sheet.tables[0]!.name))
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
  const { office: raw, absent } = await host.read([])
  if (!raw) return
  const cells = { Table: table, Heading: heading, ...(isOurs ? { Field: field } : {}) }
  if (!absent.includes('Headings')) await host.addRow('Headings', cells)
  else await host.write(officeSheets({ ...raw, Headings: { ...raw.Headings, rows: [{ row: 0, cells }] } }, made).filter(({ name }) => name === 'Headings'))
}

/** Adds the days of a rain file to the sheet RainDays; says in words what the record holds now. */
export async function addRainDays(host: Host, text: string, file: string, choice: RainChoice, made: Made): Promise<string> {
  const { office: raw, missing, absent } = await host.read([])
  if (!raw) throw new HostError(`The tables ${missing.join(', ')} of the workbook are missing; set it up first.`)
  const stations = raw.Rain.rows.map(({ cells }) => String(cells.Station ?? '')).filter(Boolean)
  if (!stations.includes(choice.station))
    throw new HostError(`Daily rain goes to a station of the sheet ${raw.Rain.sheet}${stations.length ? `: ${stations.join(', ')}` : ', which has none yet'}.`)
  const { withRain } = await import(/* webpackChunkName: "setup" */ '../takeoff/withRain.js')
  const { table, words } = withRain(raw.RainDays, text, file, choice)
  if (absent.includes('RainDays')) await host.write(officeSheets({ ...raw, RainDays: table }, made).filter(({ name }) => name === 'RainDays'))
  else
    await host.putRows(
      'RainDays',
      table.columns,
      table.rows.map(({ cells }) => table.columns.map((name) => (cells[name] ?? null) as string | number | null)),
    )
  return words
}

export interface Progress {
  job: string
  done: number
  of: number
}
export interface Finished {
  job: string
  takeoff: Takeoff
  /** What changed since it was made before, in a few words. */
  changed: string
  /** What the host says of what it wrote. */
  notes: readonly string[]
  sheets: readonly string[]
}
export interface Outcome {
  made: readonly Finished[]
  problems: readonly Problem[]
  cancelled: boolean
  /** The job at which the host broke off; those before it are made. */
  failed?: { job: string; words: string }
}

/** Makes the takeoffs of jobs, one at a time. A job with problems is passed over and its problems reported. */
export async function makeTakeoffs(
  host: Host,
  jobs: readonly string[],
  options: {
    flavor: Flavor
    made: Made
    onProgress?: (progress: Progress) => void | Promise<void>
    signal?: AbortSignal
    /** Asked before words of people on the sheets are written over; without an answer they are not. */
    mayLose?: (words: readonly string[]) => boolean
  },
): Promise<Outcome> {
  const finished: Finished[] = []
  const problems: Problem[] = []
  for (const [at, job] of jobs.entries()) {
    if (options.signal?.aborted) return { made: finished, problems, cancelled: true }
    await options.onProgress?.({ job, done: at, of: jobs.length })
    try {
      finished.push(await makeOne(host, job, options))
    } catch (error) {
      if (!(error instanceof ProblemsError)) {
        if (!finished.length) throw error
        return { made: finished, problems, cancelled: false, failed: { job, words: error instanceof Error ? error.message : String(error) } }
      }
      problems.push(...error.problems)
    }
  }
  await options.onProgress?.({ job: '', done: jobs.length, of: jobs.length })
  return { made: finished, problems, cancelled: false }
}

async function makeOne(host: Host, name: string, { flavor, made, mayLose }: Parameters<typeof makeTakeoffs>[2]): Promise<Finished> {
  // The layouts are fetched when the first takeoff is made: the pane shows a job without them.
  const { earlierFrom, isOurs, jobSheetNames, jobSheets, keptFrom, lostWords, renewedNote, renewedWords, tablesSheet } = await import(
    /* webpackChunkName: "making" */ './making.js'
  )
  const names = jobSheetNames(name)
  const { office: raw, absent, places, sheets } = await host.read([...Object.values(names), PUBLISHED_SHEET])
  if (!raw) throw new Error('The tables of the workbook are missing; set it up first.')
  const office = readOffice(raw, { isLive: true })
  const job = rowNamed(office, 'Jobs', name)
  if (!job) throw new Error(`${office.sheets.Jobs} has no job ${name}.`)
  const strange = [...sheets].find(([, content]) => !isOurs(content, true))
  if (strange) throw new HostError(`The sheet ${strange[0]} stands here already and was not made by this tool: rename it, and make the takeoff then. Nothing was changed.`)
  const earlier = earlierFrom(names, (sheet) => sheets.get(sheet))
  if (earlier.problems.length) throw new ProblemsError(earlier.problems)
  const takeoff = makeTakeoff(
    office,
    job,
    keptFrom(names, (sheet) => sheets.get(sheet)),
  )
  const revision = (earlier.before?.revision ?? 0) + 1
  const plans: SheetPlan[] = jobSheets(takeoff, places, flavor, { ...made, revision }, earlier)
  const lost = plans.flatMap((plan) => lostWords(plan, sheets.get(plan.name)))
  if (lost.length && !mayLose?.(lost))
    throw new HostError(
      `Words on sheets that are made again would be lost: ${placesInWords(lost)}. Move them to a sheet of your own, or make the takeoff once more to write over them. Nothing was changed.`,
    )
  const renewed = renewedNote(plans.flatMap((plan) => renewedWords(plan, sheets.get(plan.name))))
  if (!sheets.has(PUBLISHED_SHEET)) plans.push(tablesSheet(made))
  // Formulas point into every table: those that an older workbook lacks are added, empty.
  plans.push(...officeSheets(raw, made).filter(({ name: sheet }) => absent.some((table) => table === sheet)))
  const notes = [...renewed.map((note) => `${note}.`), ...(await host.write(plans))]
  return {
    job: name,
    takeoff,
    changed: earlier.before ? inShort(changesSince(earlier.before, takeoff), earlier.before.revision) : '',
    notes,
    sheets: plans.map((plan) => plan.name),
  }
}
