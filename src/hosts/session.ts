/** What the pane does with a workbook, whatever its host: read the jobs, set up tables, make takeoffs. */
import type { Flavor } from '../plan/calls.js'
import { officeSheets } from '../plan/officeSheets.js'
import { PUBLISHED_SHEET, type OfficePlaces } from '../plan/places.js'
import type { OrderTogether } from '../plan/orderTogether.js'
import type { Made, SheetPlan } from '../plan/plan.js'
import { badInput } from '../errors.js'
import { checkField, placesInWords, problemAt, ProblemsError, problemText, type Problem } from '../takeoff/fields.js'
import { readOffice, rowNamed, type Office } from '../takeoff/office.js'
import { makeTakeoff, type Takeoff } from '../takeoff/takeoff.js'
import type { Kept } from '../takeoff/typed.js'
import { changesSince, inShort, revisionOf } from '../takeoff/changes.js'
import { jobFields, keyColumn, tableNames, type JobFieldName, type TableName } from '../takeoff/officeTables.js'
import { newStationProblem } from '../takeoff/monthMeans.js'
import type { RainChoice } from '../takeoff/withRain.js'
import { HostError, type Host, type SheetContent, type Writing } from './host.js'

export interface Opened {
  office: Office | undefined
  missing: readonly string[]
  /** Names of all sheets, in small letters. */
  sheetNames: ReadonlySet<string>
}

export async function open(host: Host): Promise<Opened> {
  const { office, missing, sheetNames } = await host.read([])
  return { office: office && readOffice(office, { isLive: true }), missing, sheetNames }
}

/** What people typed on the sheets of a job that move its price; nothing where it was never made. */
export async function keptOf(host: Host, job: string): Promise<Kept> {
  const making = await import(/* webpackChunkName: "making" */ './making.js')
  const names = making.jobSheetNames(job)
  const standing = await host.readSheets([names.takeoff, names.design])
  return making.keptFrom(names, (sheet) => {
    const content = standing.get(sheet)
    return content && making.isOurs(content, false) ? content : undefined
  })
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
  const { office: raw, sheetNames } = await host.read([])
  if (!raw) return
  const cells = { Table: table, Heading: heading, ...(isOurs ? { Field: field } : {}) }
  if (sheetNames.has('headings')) await host.addRow('Headings', cells)
  else await host.write(officeSheets({ ...raw, Headings: { ...raw.Headings, rows: [{ row: 0, cells }] } }, made).filter(({ name }) => name === 'Headings'))
}

/** Adds the days of a rain file to the sheet RainDays; says in words what the record holds now. */
export async function addRainDays(host: Host, text: string, file: string, choice: RainChoice, made: Made): Promise<string> {
  const { office: raw, missing, absent } = await host.read([])
  if (!raw) throw new HostError(`The tables ${missing.join(', ')} of the workbook are missing; set it up first.`)
  const stations = raw.Rain.rows.map(({ cells }) => String(cells.Station ?? '')).filter(Boolean)
  const reason = choice.isNew ? newStationProblem(choice.station, stations) : undefined
  if (reason) throw new HostError(`The new station: ${reason}. Nothing was changed.`)
  if (!choice.isNew && !stations.includes(choice.station))
    throw new HostError(`Daily rain goes to a station of the sheet ${raw.Rain.sheet}${stations.length ? `: ${stations.join(', ')}` : ', which has none yet'}.`)
  const { withRain } = await import(/* webpackChunkName: "setup" */ '../takeoff/withRain.js')
  const { table, words, row } = withRain(raw.RainDays, text, file, choice)
  if (absent.includes('RainDays')) await host.write(officeSheets({ ...raw, RainDays: table }, made).filter(({ name }) => name === 'RainDays'))
  else
    await host.putRows(
      'RainDays',
      table.columns,
      table.rows.map(({ cells }) => table.columns.map((name) => (cells[name] ?? null) as string | number | null)),
    )
  if (!row) return words
  // The days are there: a station without a row can get one once more.
  const yours = readOffice(raw, { isLive: true }).headings.get('Rain')
  const at = await host.addRow('Rain', Object.fromEntries(Object.entries(row).map(([name, value]) => [yours?.get(name) ?? name, value])))
  return `${words}; its means of the months are in row ${at} of ${raw.Rain.sheet}`
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

type Making = typeof import('./making.js')
interface MakeOptions {
  flavor: Flavor
  made: Made
  onProgress?: (progress: Progress) => void | Promise<void>
  signal?: AbortSignal
  /** Asked before words of people on the sheets are written over; without an answer they are not. */
  mayLose?: (words: readonly string[]) => boolean
}
/** A takeoff that is laid out and not yet written. */
interface LaidOut {
  finished: Finished
  plans: readonly SheetPlan[]
}

/** Sheets of so many jobs are read at once where they stand already: Excel answers with 5 MB at the most. */
const READ_TOGETHER = 4
/** Jobs are written together up to this many cells, and no more than a request of the host holds. */
const WRITTEN_TOGETHER = 120_000
const cellsOf = (plans: readonly SheetPlan[]): number => plans.reduce((sum, { cells }) => sum + cells.length, 0)

/** A host that writes in no parts is asked for each by itself. */
function eachByItself(host: Host): Writing {
  const said: string[] = []
  return { write: async (plans) => void said.push(...(await host.write(plans))), end: () => Promise.resolve(said) }
}

/** Makes the takeoffs of jobs: laid out one after the other, written several at once. A job with problems is passed over and its problems reported. */
export async function makeTakeoffs(host: Host, jobs: readonly string[], options: MakeOptions): Promise<Outcome> {
  // The layouts are fetched when the first takeoff is made: the pane shows a job without them.
  const making = await import(/* webpackChunkName: "making" */ './making.js')
  const finished: Finished[] = []
  const problems: Problem[] = []
  const namesOf = (some: readonly string[]) => some.flatMap((job) => Object.values(making.jobSheetNames(job)))
  const first = jobs.slice(0, READ_TOGETHER)
  const { office: raw, absent, places, sheets: read, sheetNames } = await host.read([...namesOf(first), making.ORDER_TOGETHER])
  if (!raw) throw new Error('The tables of the workbook are missing; set it up first.')
  const office = readOffice(raw, { isLive: true })
  const standing = new Map(read)
  const told: string[] = []
  const seen = new Set(first)
  // Formulas point into every table and into the published ones: those that the workbook lacks come with the first takeoff.
  let missing = [
    ...(sheetNames.has(PUBLISHED_SHEET.toLowerCase()) ? [] : [making.tablesSheet(options.made)]),
    ...officeSheets(raw, options.made).filter(({ name }) => absent.some((table) => table === name)),
  ]
  let waiting: LaidOut[] = []
  const orders = new making.OrderTogether()
  let writing: Writing | undefined
  const write = async (): Promise<void> => {
    if (!waiting.length && !(finished.length && missing.length)) return
    const together = waiting
    waiting = []
    writing ??= await (host.writing?.() ?? eachByItself(host))
    await writing.write([...together.flatMap(({ plans }) => plans), ...missing])
    missing = []
    finished.push(...together.map(({ finished: one }) => one))
  }
  /** What is done once for all that was written. */
  const end = async (): Promise<void> => {
    const notes = [...((await writing?.end()) ?? []), ...told]
    const last = finished.pop()
    if (last) finished.push({ ...last, notes: [...last.notes, ...notes] })
  }
  /** What waits, and the order of the jobs that were made. */
  const writeLast = async (): Promise<void> => {
    const order = orders.jobs ? orderOf(making, standing.get(making.ORDER_TOGETHER), orders, options) : {}
    if (order.plan) missing.push(order.plan)
    if (order.note) told.push(order.note)
    await write()
    await end()
  }
  let current = jobs[0] ?? ''
  try {
    for (const [at, job] of jobs.entries()) {
      if (options.signal?.aborted) {
        await writeLast()
        return { made: finished, problems, cancelled: true }
      }
      current = job
      await options.onProgress?.({ job, done: at, of: jobs.length })
      if (!seen.has(job) && namesOf([job]).some((name) => sheetNames.has(name.toLowerCase()))) {
        const next = jobs.slice(at, at + READ_TOGETHER)
        for (const one of next) seen.add(one)
        for (const [name, content] of await host.readSheets(namesOf(next))) standing.set(name, content)
      }
      try {
        const laidOut = layOut(making, office, places, job, standing, options)
        const together = [...waiting.flatMap(({ plans }) => plans), ...laidOut.plans, ...missing]
        if (waiting.length && (cellsOf(together) > WRITTEN_TOGETHER || host.holds?.(together) === false)) {
          current = waiting[0]!.finished.job
          await write()
          current = job
        }
        waiting.push(laidOut)
        orders.add(
          laidOut.finished.takeoff,
          laidOut.plans.find(({ kind }) => kind === 'takeoff')!,
        )
      } catch (error) {
        if (!(error instanceof ProblemsError)) throw error
        problems.push(...error.problems)
      }
      for (const name of namesOf([job])) standing.delete(name)
    }
    told.push(...withoutJob(making, office, sheetNames), ...unusedRows(office).map((problem) => `Not used: ${problemText(problem)}`))
    current = waiting[0]?.finished.job ?? current
    await writeLast()
  } catch (error) {
    // Those that wait are whole: what stopped one of them stops no other.
    if (waiting.length) await write().catch(() => undefined)
    if (!finished.length) throw error
    await end()
    return { made: finished, problems, cancelled: false, failed: { job: current, words: error instanceof Error ? error.message : String(error) } }
  }
  await options.onProgress?.({ job: '', done: jobs.length, of: jobs.length })
  return { made: finished, problems, cancelled: false }
}

/** Rows of the further tables that no job draws on, as after a job was renamed: they stand in no job's way, but somebody meant something by them. */
export const unusedRows = ({ problems, sheets }: Office): Problem[] => problems.filter(({ sheet }) => [sheets.Catchments, sheets.Uses, sheets.Variants].includes(sheet))

/** Takeoffs of jobs that are no more, or have another name now: what was typed there belongs to nobody. `sheetNames` are in small letters. */
function withoutJob({ jobSheetNames }: Making, office: Office, sheetNames: ReadonlySet<string>): string[] {
  const known = new Set(office.tables.Jobs.map(({ cells }) => jobSheetNames(String(cells.Job ?? '').trim()).takeoff.toLowerCase()))
  const start = jobSheetNames('').takeoff.toLowerCase()
  const left = [...sheetNames].filter((name) => name.startsWith(start) && !known.has(name)).map((name) => name.slice(start.length))
  return left.length ? [`Sheets of ${left.join(', ')} stand here, and no job has that name: what was typed on them goes with none.`] : []
}

/** The order of several jobs that are made in one go; where one of them was made by itself, the order that stands says that it is out of date. */
function orderOf(making: Making, standing: SheetContent | undefined, orders: OrderTogether, { made, mayLose }: MakeOptions): { plan?: SheetPlan; note?: string } {
  const { ORDER_TOGETHER: name } = making
  if (standing ? !making.isOurs(standing, true) : orders.jobs < 2) return {}
  const plan = orders.jobs > 1 ? orders.sheet(made) : making.orderOutOfDate(orders.names[0]!, made, standing ?? [])
  const lost = making.typingLostOf([plan], () => standing)
  if (lost.length && !mayLose?.(lost)) return { note: `${name} was left as it is: what was typed on it would be lost: ${placesInWords(lost)}.` }
  return { plan, ...(orders.jobs > 1 ? {} : { note: `${making.ORDER_OUT_OF_DATE}.` }) }
}

function layOut(making: Making, office: Office, places: OfficePlaces, name: string, standing: ReadonlyMap<string, SheetContent>, { flavor, made, mayLose }: MakeOptions): LaidOut {
  const { earlierFrom, isOurs, jobSheetNames, jobSheets, keptFrom, makingNotes, renewedNote, renewedWords, typingLostOf } = making
  const names = jobSheetNames(name)
  const own = Object.values(names)
  const job = rowNamed(office, 'Jobs', name)
  if (!job) throw new Error(`${office.sheets.Jobs} has no job ${name}.`)
  const strange = own.find((sheet) => standing.has(sheet) && !isOurs(standing.get(sheet)!, true))
  if (strange !== undefined)
    throw new HostError(`The sheet ${strange} stands here already and was not made by this tool: rename it, and make the takeoff then. Nothing was changed.`)
  const earlier = earlierFrom(names, (sheet) => standing.get(sheet))
  if (earlier.problems.length) throw new ProblemsError(earlier.problems)
  const takeoff = makeTakeoff(
    office,
    job,
    keptFrom(names, (sheet) => standing.get(sheet)),
  )
  const revision = revisionOf(earlier.before, takeoff)
  const plans: SheetPlan[] = jobSheets(takeoff, places, flavor, { ...made, revision }, earlier)
  const lost = typingLostOf(plans, (sheet) => standing.get(sheet))
  if (lost.length && !mayLose?.(lost))
    throw new HostError(
      `What was typed on sheets that are made again would be lost: ${placesInWords(lost)}. Move them to a sheet of your own, or make the takeoff once more to write over them. Nothing was changed.`,
    )
  const renewed = renewedNote(plans.flatMap((plan) => renewedWords(plan, standing.get(plan.name))))
  const finished: Finished = {
    job: name,
    takeoff,
    changed: earlier.before ? inShort(changesSince(earlier.before, takeoff), earlier.before.revision) : '',
    notes: [...renewed, ...makingNotes(takeoff, earlier)].map((note) => `${note}.`),
    sheets: plans.map((plan) => plan.name),
  }
  return { finished, plans }
}
