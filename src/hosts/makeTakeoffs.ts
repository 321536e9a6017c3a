/** Takeoffs made into a workbook, whatever its host: read what stands there, laid out job by job, written several at once. */
import type { Flavor } from '../plan/calls.js'
import type { Earlier } from '../plan/earlier.js'
import { officeSheets } from '../plan/officeSheets.js'
import type { OrderTogether } from '../plan/orderTogether.js'
import { PUBLISHED_SHEET, type OfficePlaces } from '../plan/places.js'
import { columnLetters, PUT_BEFORE, versionIn, type Made, type SheetPlan } from '../plan/plan.js'
import { changesSince, inShort, revisionOf } from '../takeoff/changes.js'
import { placesInWords, ProblemsError, problemText, type Problem } from '../takeoff/fields.js'
import { formerNameOf, readOffice, rowNamed, type Office } from '../takeoff/office.js'
import { workJob, type Worked } from '../takeoff/takeoff.js'
import type { Kept } from '../takeoff/typed.js'
import { HostError, type Host, type SheetCell, type SheetContent, type Writing } from './host.js'
import { refuseTakenSheets, unusedRows } from './session.js'

export interface Progress {
  job: string
  done: number
  of: number
}
export interface Finished {
  job: string
  total: number
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
export interface MakeOptions {
  flavor: Flavor
  made: Made
  onProgress?: (progress: Progress) => void | Promise<void>
  signal?: AbortSignal
  /** Asked before words of people on the sheets are written over; without an answer they are not. */
  mayLose?: (words: readonly string[], why?: 'newer') => boolean
  /** Told of each job that was worked through, with what stood on its sheets before; nothing of it is held. */
  onWorked?: (job: string, worked: Worked, earlier: Earlier) => void
  /** Nothing is written where one of the jobs has a problem; all of them are looked at. */
  isWhole?: boolean
}
/** A takeoff that is laid out and not yet written. */
interface LaidOut {
  finished: Finished
  plans: readonly SheetPlan[]
}
const lostWords = (places: readonly string[]): string =>
  `What was typed on sheets that are made again would be lost: ${placesInWords(places)}. Move them to a sheet of your own, or make the takeoff once more to write over them. Nothing was changed.`
type Look = (sheet: string) => SheetContent | undefined

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

/** Makes the takeoffs of jobs. A job with problems is passed over and its problems reported. */
export async function makeTakeoffs(host: Host, jobs: readonly string[], options: MakeOptions): Promise<Outcome> {
  // The layouts are fetched when the first takeoff is made: the pane shows a job without them.
  const making = await import(/* webpackChunkName: "making" */ './making.js')
  const finished: Finished[] = []
  const problems: Problem[] = []
  const namesOf = (some: readonly string[]) => some.flatMap((job) => Object.values(making.jobSheetNames(job)))
  const first = jobs.slice(0, READ_TOGETHER)
  const { office: raw, absent, places, sheets: read, sheetNames } = await host.read([...namesOf(first), making.ORDER_TOGETHER, PUBLISHED_SHEET])
  if (!raw) throw new Error('The tables of the workbook are missing; set it up first.')
  const office = readOffice(raw, host)
  const standing = new Map(read)
  const replaced = new Map((await host.readReplaced?.(namesOf(first))) ?? [])
  const told: string[] = []
  const seen = new Set(first)
  // Formulas point into every table and into the published ones: those that the workbook lacks come with the first takeoff.
  await refuseTakenSheets(host, absent)
  let missing = [...publishedOf(making, read.get(PUBLISHED_SHEET), options), ...officeSheets(raw, options.made).filter(({ name }) => absent.some((table) => table === name))]
  let waiting: LaidOut[] = []
  const orders = new making.OrderTogether()
  let writing: Writing | undefined
  const write = async (): Promise<void> => {
    if ((!waiting.length && !(finished.length && missing.length)) || (options.isWhole && problems.length)) return
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
    if (!(options.isWhole && problems.length)) await end()
  }
  /** Sheets under the name that a job had before. */
  const readFormer = async (job: string): Promise<void> => {
    const row = rowNamed(office, 'Jobs', job)
    const former = row && formerNameOf(row)
    if (former === undefined) return
    for (const [name, content] of await host.readSheets(namesOf([former]))) standing.set(name, content)
    for (const [name, content] of (await host.readReplaced?.(namesOf([former]))) ?? []) replaced.set(name, content)
  }
  /** Jobs with problems of their own. */
  const passedOver = new Set<string>()
  let current = jobs[0] ?? ''
  try {
    for (const [at, job] of jobs.entries()) {
      if (options.signal?.aborted) {
        await writeLast()
        return { made: finished, problems, cancelled: true }
      }
      current = job
      await options.onProgress?.({ job, done: at, of: jobs.length })
      if (!seen.has(job)) {
        const next = jobs.slice(at, at + READ_TOGETHER)
        for (const one of next) seen.add(one)
        if (namesOf(next).some((name) => sheetNames.has(name.toLowerCase()))) for (const [name, content] of await host.readSheets(namesOf(next))) standing.set(name, content)
        for (const [name, content] of (await host.readReplaced?.(namesOf(next))) ?? []) replaced.set(name, content)
      }
      await readFormer(job)
      try {
        const looks: Look[] = [(sheet) => replaced.get(sheet), (sheet) => standing.get(sheet)]
        const { worked, ...laidOut } = layOut(making, office, places, job, looks, jobs.length > 1, options)
        const together = [...waiting.flatMap(({ plans }) => plans), ...laidOut.plans, ...missing]
        if (waiting.length && (cellsOf(together) > WRITTEN_TOGETHER || host.holds?.(together) === false)) {
          current = waiting[0]!.finished.job
          await write()
          current = job
        }
        waiting.push(laidOut)
        orders.add(
          worked,
          laidOut.plans.find(({ kind }) => kind === 'takeoff')!,
        )
      } catch (error) {
        if (!(error instanceof ProblemsError)) throw error
        problems.push(...error.problems)
        passedOver.add(job)
      }
      for (const name of namesOf([job])) for (const known of [standing, replaced]) known.delete(name)
    }
    told.push(...withoutJob(making, office, sheetNames), ...unusedRows(office).map((problem) => `Not used: ${problemText(problem)}`))
    current = waiting[0]?.finished.job ?? current
    await writeLast()
  } catch (error) {
    // Those that wait are whole: what stopped one of them stops no other.
    const left = waiting.map(({ finished: { job } }) => job)
    const failures = [wordsOf(error)]
    if (left.length) await write().catch((second: unknown) => failures.push(`${left.join(', ')}: ${wordsOf(second)}`))
    if (!finished.length || options.isWhole) throw failures.length > 1 ? new HostError(failures.join(' ')) : error
    await end()
    const notMade = jobs.filter((job) => job !== current && !passedOver.has(job) && !finished.some((one) => one.job === job))
    if (notMade.length) failures.push(`Not made either: ${placesInWords(notMade)}.`)
    return { made: finished, problems, cancelled: false, failed: { job: current, words: failures.join(' ') } }
  }
  await options.onProgress?.({ job: '', done: jobs.length, of: jobs.length })
  return { made: finished, problems, cancelled: false }
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

/** Takeoffs of jobs that are no more, or have another name now: what was typed there belongs to nobody. `sheetNames` by themselves in small letters. */
function withoutJob({ jobSheetNames }: Making, office: Office, sheetNames: ReadonlyMap<string, string>): string[] {
  const takeoffOf = (job: string): string => jobSheetNames(job).takeoff.toLowerCase()
  const known = new Set(office.tables.Jobs.map(({ cells }) => takeoffOf(String(cells.Job ?? '').trim())))
  const formers = new Map(office.tables.Jobs.flatMap((job) => (formerNameOf(job) === undefined ? [] : [[takeoffOf(formerNameOf(job)!), String(job.cells.Job)] as const])))
  const start = takeoffOf('')
  const left = [...sheetNames]
    .filter(([name]) => name.startsWith(start) && !known.has(name))
    .map(([name, written]) => ({ job: written.slice(start.length).trim(), now: formers.get(name) }))
  const nobodys = left.filter(({ now }) => now === undefined).map(({ job }) => job)
  return [
    ...left.flatMap(({ job, now }) =>
      now === undefined
        ? []
        : [`Sheets of ${job} still stand here, as ${now} was called before: look whether all that you need of them stands on those of ${now}, and delete them.`],
    ),
    ...(nobodys.length
      ? [
          `Sheets of ${nobodys.join(', ')} stand here, and no job has that name: what was typed on them goes with none. If a job only has another name now, put the old one into the column FormerName of its row in ${office.sheets.Jobs}.`,
        ]
      : []),
  ]
}

/** The published tables, where they are not there or of another version; none where they stand as they are. What somebody changed or added on them is asked about. */
function publishedOf({ isOurs, tablesSheet, typingLostOf }: Making, standing: SheetContent | undefined, { made, mayLose }: MakeOptions): SheetPlan[] {
  const plan = tablesSheet(made)
  if (!standing) return [plan]
  if (!isOurs(standing, true))
    throw new HostError(`The sheet ${plan.name} stands here already and was not made by this tool: rename it, and make the takeoff then. Nothing was changed.`)
  const isSameVersion = String(standing[2]?.[1]?.value).endsWith(` ${made.version}`)
  const ours = new Map(plan.cells.map(({ row, column, value }) => [`${row} ${column}`, value]))
  const changed = standing.flatMap((cells, row) =>
    cells.flatMap(({ value }, at) => {
      const our = ours.get(`${row + 1} ${at + 1}`) ?? null
      return row === 2 || isSame(value, our) ? [] : [`${plan.name}!${columnLetters(at + 1)}${row + 1} ("${String(value).slice(0, 40)}")`]
    }),
  )
  const lost = isSameVersion ? changed : typingLostOf([plan], () => standing)
  if (lost.length && !mayLose?.(lost)) throw new HostError(lostWords(lost))
  return isSameVersion && !changed.length ? [] : [plan]
}

/** Programs keep numbers to so many digits. */
const isSame = (one: SheetCell['value'], other: SheetCell['value']): boolean =>
  typeof one === 'number' && typeof other === 'number' ? one.toPrecision(SAME_DIGITS) === other.toPrecision(SAME_DIGITS) : (one ?? '') === (other ?? '')
const SAME_DIGITS = 12

/** The order of several jobs that are made in one go; where one of them was made by itself, the order that stands says that it is out of date. */
function orderOf(making: Making, standing: SheetContent | undefined, orders: OrderTogether, { made, mayLose }: MakeOptions): { plan?: SheetPlan; note?: string } {
  const { ORDER_TOGETHER: name } = making
  if (standing && !making.isOurs(standing, true))
    return orders.jobs > 1 ? { note: `The sheet ${name} stands here and was not made by this tool: the jobs have no order together. Rename it, and make them again.` } : {}
  if ((!standing || orders.isUnchanged) && orders.jobs < 2) return {}
  const plan = orders.jobs > 1 ? orders.sheet(made) : making.orderOutOfDate(orders.names[0]!, made, standing ?? [])
  const lost = making.typingLostOf([plan], () => standing)
  if (lost.length && !mayLose?.(lost)) return { note: `${name} was left as it is: what was typed on it would be lost: ${placesInWords(lost)}.` }
  return { plan, ...(orders.jobs > 1 ? {} : { note: `${making.ORDER_OUT_OF_DATE}.` }) }
}

/** What people typed on the sheets of a job and what it was made as, here or in what takes its place; not two things at once. */
function foundOn(
  { isOurs, standingWork, isNothing }: Making,
  job: string,
  former: string | undefined,
  looks: readonly Look[],
): { kept: Kept; earlier: Earlier; isFormer: boolean } {
  // A sheet of that name that was not made by this tool is told of when the job is laid out.
  const ours = (look: Look) => (sheet: string) => {
    const content = look(sheet)
    return content && isOurs(content, false) ? content : undefined
  }
  const works = looks.map((look) => standingWork(job, former, ours(look), look))
  const all = works.map(({ kept }) => kept)
  const typed = all.filter((kept) => !isNothing(kept))
  if (new Set(typed.map((kept) => JSON.stringify(kept))).size > 1)
    throw new HostError(`People typed on the sheets of ${job} in both files, not the same: give another name, or add --replace. Nothing was written.`)
  const earlier = works.map((work) => work.earlier)
  const last = Math.max(...earlier.map(({ before }) => before?.revision ?? 0))
  const { before, ...more } = earlier.find((one) => one.before) ?? earlier.at(-1)!
  return { kept: typed[0] ?? all.at(-1)!, earlier: { before: before && { ...before, revision: last }, ...more }, isFormer: works.some(({ isFormer }) => isFormer) }
}

/** What is said of a job whose work stood under another name; what its sheets had beside our cells stays there. */
function formerNotes({ jobSheetNames, typingLostOf }: Making, job: string, former: string, plans: readonly SheetPlan[], here: Look): string[] {
  const names: Readonly<Record<string, string>> = jobSheetNames(former)
  const left = typingLostOf(
    plans.map((plan) => ({ ...plan, name: names[plan.kind] ?? plan.name })),
    here,
  )
  return [`${job} was ${former} before: what was typed on those sheets came along`, ...(left.length ? [`Not come along: ${placesInWords(left)}`] : [])]
}

/** A sheet that a later version made holds what this one does not know; versions as 0.16.0. */
function madeByNewer(sheet: string, here: Look, version: string): string | undefined {
  const numbers = (text: string): number[] => text.split('.').map(Number)
  const found = (here(sheet) ?? []).slice(0, PUT_BEFORE).flatMap((row) => row.flatMap(({ value }) => versionIn(value) ?? []))[0]
  if (found === undefined || !/^\d+\.\d+\.\d+$/.test(version)) return undefined
  const [theirs, ours] = [numbers(found), numbers(version)]
  const at = theirs.findIndex((one, index) => one !== ours[index])
  if (at < 0 || theirs[at]! < ours[at]!) return undefined
  return `${sheet} was made by version ${found}, newer than this ${version}, which does not know all that stands there: make it with the newer one. Nothing was changed.`
}
function layOut(
  making: Making,
  office: Office,
  places: OfficePlaces,
  name: string,
  looks: readonly Look[],
  isOneOfSeveral: boolean,
  { flavor, made, mayLose, onWorked }: MakeOptions,
): LaidOut & { worked: Parameters<OrderTogether['add']>[0] } {
  const { isOurs, jobSheetNames, jobSheets, makingNotes, renewedNote, renewedWords, typingLostOf } = making
  const here = looks.at(-1)!
  const job = rowNamed(office, 'Jobs', name)
  if (!job) throw new Error(`${office.sheets.Jobs} has no job ${name}.`)
  const strange = Object.values(jobSheetNames(name)).find((sheet) => here(sheet) && !isOurs(here(sheet)!, true))
  if (strange !== undefined)
    throw new HostError(`The sheet ${strange} stands here already and was not made by this tool: rename it, and make the takeoff then. Nothing was changed.`)
  const former = formerNameOf(job)
  const { kept, earlier, isFormer } = foundOn(making, name, former, looks)
  const worked = workJob(office, job, kept)
  const problems = [...worked.problems, ...earlier.problems]
  onWorked?.(name, { ...worked, problems }, earlier)
  if (problems.length || !worked.takeoff) throw new ProblemsError(problems)
  const { takeoff } = worked
  const revision = revisionOf(earlier.before, takeoff)
  const plans: SheetPlan[] = jobSheets(takeoff, places, flavor, { ...made, revision }, earlier, isOneOfSeveral)
  const newer = madeByNewer(jobSheetNames(name).takeoff, here, made.version)
  if (newer && !mayLose?.([newer], 'newer')) throw new HostError(newer)
  const lost = typingLostOf(plans, here)
  if (lost.length && !mayLose?.(lost)) throw new HostError(lostWords(lost))
  const renewed = renewedNote([...new Set(looks.flatMap((look) => renewedWords(plans, look)))])
  const finished: Finished = {
    job: name,
    total: takeoff.total,
    changed: earlier.before ? inShort(changesSince(earlier.before, takeoff), earlier.before.revision) : '',
    notes: [...(isFormer ? formerNotes(making, name, former!, plans, here) : []), ...renewed, ...makingNotes(takeoff, earlier, { ...made, revision })].map((note) => `${note}.`),
    sheets: plans.map((plan) => plan.name),
  }
  return { finished, plans, worked: { takeoff, earlier, made: { ...made, revision } } }
}
