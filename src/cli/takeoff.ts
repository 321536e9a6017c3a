/** Makes takeoff workbooks, or prints what they say: `takeoff [OFFICE.xlsx] [--job NAME | --all] [--out OUT.xlsx] [--json] …`. */
import { existsSync, statSync } from 'node:fs'
import { openWorkbook, WorkbookError, type Workbook } from '../hosts/file.js'
import { FileHost } from '../hosts/fileHost.js'
import { PapersHost } from '../hosts/papersHost.js'
import { demoSource, sourceOf } from '../hosts/fileSession.js'
import { makeFile } from '../hosts/makeFile.js'
import type { Finished, MakeOptions } from '../hosts/makeTakeoffs.js'
import type { Flavor } from '../plan/calls.js'
import { stopsOfRecord } from '../takeoff/testRecord.js'
import { openStops } from '../plan/stopAnswers.js'
import { careCalendar } from '../takeoff/careCalendar.js'
import { startingOffice } from '../takeoff/demo.js'
import { dollars } from '../rounding.js'
import { plainSpaces, ProblemsError, problemText } from '../takeoff/fields.js'
import { readOffice, type Office, type Row } from '../takeoff/office.js'
import { rulesOf } from '../takeoff/itemRules.js'
import type { Takeoff } from '../takeoff/takeoff.js'
import { jobView } from '../takeoff/view.js'
import { argumentsOf, bytesOf, fail, fileSpool, helpAsked, isSameFile, made, stateOf, writeWhole } from './common.js'

const usage =
  'npm run -s takeoff -- [OFFICE.xlsx] [--job NAME | --all] [--out OUT.xlsx] [--json] [--quote] [--change] [--order] [--record] [--handover] [--calendar PLAN.ics] [--flavor native|cells] [--replace]'
const help = `Makes the takeoff of one job, of several, or of all: sheets with live formulas in an .xlsx file.

  ${usage}

  OFFICE.xlsx      a workbook with the office's tables; left out, the demo
  --job NAME       one job; may be given several times. --all, or neither: every job
  --out OUT.xlsx   the file to write; left out, only what the jobs come to, and what changed since they were made, is said
  --json           print everything that is known of the jobs as one JSON document; a file is written only with --out or --calendar
  --quote, --change, --order, --record, --handover
                   that paper alone, as values: a file that can be handed out, with no cost and no formula behind it
  --calendar FILE  the care plan of one job as a calendar file (.ics)
  --flavor cells   formulas call the cell functions instead of being spelled out
  --replace        write over a file where sheets, or what was typed on them, would be lost

Example: npm run -s takeoff -- OFFICE.xlsx --job "Wicket Mill" --out WICKET.xlsx`
/** The sheets of so many jobs are held in memory; of more they are laid aside on disk. */
const IN_MEMORY = 50
/** Papers that are handed out, by the word that asks for them. */
const papers = { quote: 'quote', change: 'amend', order: 'order', record: 'test', handover: 'handover' } as const
const flavors: readonly Flavor[] = ['native', 'cells']

async function main(): Promise<void> {
  if (helpAsked(help)) return
  const { values, positionals } = argumentsOf(
    {
      job: { type: 'string', multiple: true },
      all: { type: 'boolean' },
      out: { type: 'string' },
      json: { type: 'boolean' },
      flavor: { type: 'string', default: 'native' },
      replace: { type: 'boolean' },
      calendar: { type: 'string' },
      quote: { type: 'boolean' },
      change: { type: 'boolean' },
      order: { type: 'boolean' },
      record: { type: 'boolean' },
      handover: { type: 'boolean' },
    },
    usage,
  )
  const wanted = (Object.keys(papers) as (keyof typeof papers)[]).filter((paper) => values[paper]).map((paper) => papers[paper])
  if (!values.out && wanted.length) throw new Error(`--out is missing. Usage: ${usage}`)
  if (positionals.length > 1) throw new Error(`One workbook at a time. Usage: ${usage}`)
  const flavor = flavors.find((known) => known === values.flavor)
  if (!flavor) throw new Error(`--flavor takes ${flavors.join(' or ')}; got ${values.flavor}.`)
  if (values.all && values.job) throw new Error(`--job or --all, not both. Usage: ${usage}`)
  const [input] = positionals
  const stood = values.out === undefined ? '' : stateOf(values.out)
  const calendarStood = values.calendar === undefined ? '' : stateOf(values.calendar)
  const source = input === undefined ? demoSource(startingOffice(true)) : sourceOf(bytesOf(input), input)
  const office = readOffice(source.raw)
  const jobs = chosen(office, values.all ? [] : (values.job ?? []))
  const out = values.out
  if (out !== undefined && existsSync(out) && statSync(out).isDirectory()) throw new Error(`--out: a file to write; ${out} is a folder.`)
  // A paper alone takes no macros along.
  if (out !== undefined) kindAgrees(out, wanted.length ? undefined : source.workbook)
  // What stands at the place of the new file: its takeoffs may hold what people typed.
  const isOnto = input !== undefined && out !== undefined && isSameFile(input, out)
  const standing = out !== undefined && !isOnto && !values.replace && existsSync(out) ? standingAt(out) : undefined
  if (values.calendar !== undefined) mayWriteCalendar(values.calendar, jobs.length, values.replace)
  const problems = new Map([...office.problems, ...rulesOf(office).problems].map((problem) => [problemText(problem), problem] as const))
  const ofJobs = new Set<string>()
  const views: string[] = []
  const reports = new Map<string, string[]>()
  const calendars: string[] = []
  const unanswered: string[] = []
  const onWorked: MakeOptions['onWorked'] = (name, worked) => {
    for (const problem of worked.problems) {
      problems.set(problemText(problem), problem)
      ofJobs.add(problemText(problem))
    }
    if (values.json) views.push(JSON.stringify(jobView(name, worked, [])))
    const { takeoff } = worked
    if (!takeoff || ofJobs.size) return
    reports.set(name, report(takeoff))
    if (values.calendar !== undefined) calendars.push(careCalendar(takeoff.design, made().date, made().version))
    if (openStops(takeoff) > 0) unanswered.push(name)
  }
  // What would be said with --out is said without it too: the office's own file is tried, and left as it is.
  const isTried = out === undefined && input !== undefined && !values.json && values.calendar === undefined
  const alone = wanted.length > 0 || (out === undefined && !isTried) || standing instanceof WorkbookError
  const host = alone
    ? new PapersHost(source, wanted)
    : new FileHost(source, { standing: standing as Workbook | undefined, spool: jobs.length > IN_MEMORY ? fileSpool() : undefined, mayLose: values.replace ?? false })
  if (wanted.length) mayBeAlone()
  const names = jobs.map(({ cells }) => String(cells.Job ?? ''))
  let finished: readonly Finished[]
  try {
    finished = await makeFile(host, names, { flavor, made: made(), onWorked, mayLose: values.replace ?? false })
  } catch (error) {
    if (isTried && error instanceof WorkbookError) {
      if (!ofJobs.size) for (const lines of reports.values()) for (const said of lines) console.log(said)
      throw new Error(`With --out ${input} it would be refused. ${error.message}`)
    }
    if (!(error instanceof ProblemsError)) throw error
    if (!values.json) throw new Error([...ofJobs, `${ofJobs.size} ${ofJobs.size === 1 ? 'problem' : 'problems'}; nothing was written.`].join('\n'))
    printViews()
    process.exitCode = 1
    return
  }
  if (wanted.includes('quote') && unanswered.length)
    throw new Error(`--quote: no quote is made while a stop stands that nobody has answered for: ${unanswered.join(', ')}. Nothing was written.`)
  if (wanted.includes('order') && unanswered.length && !values.json)
    console.log(`Not to be ordered before the quote has a price: a verdict says stop, and nobody has answered for it: ${unanswered.join(', ')}.`)
  if (standing instanceof WorkbookError) throw standing
  const reasons = alone ? [] : host.reasons()
  if (reasons.length) throw new Error(`${out}: it exists and stays as it is: ${reasons.join('; ')}. Give another name, or add --replace. Nothing was written.`)
  if (values.json) printViews()
  if (out !== undefined) writeWhole(out, host.pieces(), stood)
  if (values.calendar !== undefined) {
    writeWhole(values.calendar, new TextEncoder().encode(calendars[0]!), calendarStood)
    if (!values.json) console.log(`Written: ${values.calendar}`)
  }
  if (values.json || (out === undefined && values.calendar !== undefined)) return
  if (!wanted.length) for (const { job, changed, notes } of finished) for (const line of [...reports.get(job)!, ...(changed ? [`  ${changed}`] : []), ...notes]) console.log(line)
  console.log(out === undefined ? 'Nothing was written; with --out FILE it is.' : `Written: ${out}`)

  /** A paper alone takes the place of nothing. */
  function mayBeAlone(): void {
    if (standing instanceof WorkbookError) throw standing
    if (standing) throw new Error(`${out}: it exists and stays as it is. Give another name, or add --replace. Nothing was written.`)
    if (isOnto) throw new Error(`--out: another file than ${input}: a paper alone would take the office's place. Nothing was written.`)
  }
  function printViews(): void {
    console.log(`{"version":${JSON.stringify(made().version)},"problems":${JSON.stringify([...problems.values()])},"jobs":[${views.join(',')}]}`)
  }
}

function mayWriteCalendar(file: string, jobs: number, mayReplace: boolean | undefined): void {
  if (!/\.ics$/i.test(file)) throw new Error(`--calendar: a name that ends in .ics; got ${file}.`)
  if (jobs !== 1) throw new Error(`--calendar: the plan of one job; name it with --job. Usage: ${usage}`)
  if (existsSync(file) && !mayReplace) throw new Error(`${file}: it exists and stays as it is. Give another name, or add --replace. Nothing was written.`)
}

/** A spreadsheet opens a file only where its ending says what it is. */
function kindAgrees(out: string, workbook: Workbook | undefined): void {
  const hasMacros = workbook?.book.hasMacros ?? false
  const ending = hasMacros ? '.xlsm' : '.xlsx'
  if (!out.toLowerCase().endsWith(ending)) throw new Error(`--out: a name that ends in ${ending}${hasMacros ? ', as the workbook has macros' : ''}; got ${out}.`)
}

/** The file that would be written over, or why it cannot be looked into. */
function standingAt(out: string): Workbook | WorkbookError {
  try {
    return openWorkbook(bytesOf(out), `${out} (the file to write over; give another name, or add --replace)`)
  } catch (error) {
    if (error instanceof WorkbookError) return error
    throw error
  }
}

function report(takeoff: Takeoff): string[] {
  const { design } = takeoff
  const worst = design.cautions().slice(0, 3)
  const failed = stopsOfRecord(takeoff)
  return [
    line(takeoff),
    ...design.verdicts().flatMap(({ verdict, label, words }) => (verdict === 'pass' ? [] : [`  ${verdict}  ${label}: ${words}`])),
    `  main hazards: ${worst.map(({ short }) => short.toLowerCase()).join('; ')}`,
    ...(failed.length ? [`  stop  Test record: ${failed.join(', ')}; to be mended and tested again before it is handed over`] : []),
  ]
}

function chosen({ tables: { Jobs: jobs }, problems, sheets }: Office, names: readonly string[]): readonly Row[] {
  if (!jobs.length) throw new Error('The table Jobs holds no row.')
  // A row whose name no sheet can have goes by none.
  const nameless = problems.filter(({ sheet, row, column }) => sheet === sheets.Jobs && column === 'Job' && jobs.some((job) => job.row === row && job.cells.Job === null))
  const why = nameless.map((problem) => `\n${problemText(problem)}`).join('')
  if (!names.length && nameless.length) throw new Error(`A job without a name that can be used; nothing was written.${why}`)
  if (!names.length) return jobs
  const found = names.map((name) => {
    const [job, second] = jobs.filter((row) => plainSpaces(String(row.cells.Job)) === plainSpaces(name))
    if (!job) throw new Error(`--job: one of ${jobs.flatMap((row) => row.cells.Job ?? []).join(', ')}; got ${name}.${why}`)
    if (second) throw new Error(`--job: a name that one row has; rows ${job.row} and ${second.row} are both called ${name}.`)
    return job
  })
  return [...new Set(found)]
}

function line({ design, lines, orderCost, total }: Takeoff): string {
  const verdicts = design.verdicts()
  const count = (word: string) => verdicts.filter(({ verdict }) => verdict === word).length
  return `${design.name}: ${lines.length} lines, order cost ${dollars(orderCost)}, total ${dollars(total)}; ${count('pass')} pass, ${count('check')} check, ${count('stop')} stop; ${design.cautions().length} cautions`
}

main().catch(fail)
