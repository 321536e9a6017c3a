/** Makes takeoff workbooks, or prints what they say: `takeoff [OFFICE.xlsx] [--job NAME | --all] [--out OUT.xlsx] [--json] …`. */
import { existsSync, statSync } from 'node:fs'
import { resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { openWorkbook, WorkbookError, type Workbook } from '../hosts/file.js'
import { demoSource, earlierIn, isNothing, keptIn, makeFile, papersAlone, reasonsAgainst, sourceOf } from '../hosts/fileSession.js'
import type { Flavor } from '../plan/calls.js'
import { openStops } from '../plan/sheets/quoteSheet.js'
import { careCalendar } from '../takeoff/careTasks.js'
import { changesSince, inShort } from '../takeoff/changes.js'
import { startingOffice } from '../takeoff/demo.js'
import { dollars } from '../rounding.js'
import { problemText, type Problem } from '../takeoff/fields.js'
import { readOffice, type Row } from '../takeoff/office.js'
import { rulesOf, workJob, type Takeoff, type Worked } from '../takeoff/takeoff.js'
import { jobView } from '../takeoff/view.js'
import { bytesOf, fail, helpAsked, made, optionsOnly, writeWhole } from './common.js'

const usage =
  'npm run -s takeoff -- [OFFICE.xlsx] [--job NAME | --all] [--out OUT.xlsx] [--json] [--quote] [--order] [--record] [--handover] [--calendar PLAN.ics] [--flavor native|cells] [--replace]'
const help = `Makes the takeoff of one job, of several, or of all: sheets with live formulas in an .xlsx file.

  ${usage}

  OFFICE.xlsx      a workbook with the office's tables; left out, the demo
  --job NAME       one job; may be given several times. --all, or neither: every job
  --out OUT.xlsx   the file to write
  --json           print everything that is known of the jobs as one JSON document; a file is written only with --out
  --quote, --order, --record, --handover
                   that paper alone, as values: a file that can be handed out, with no cost and no formula behind it
  --calendar FILE  the care plan of one job as a calendar file (.ics)
  --flavor cells   formulas call the cell functions instead of being spelled out
  --replace        write over a file whose sheets or typed words would be lost

Example: npm run -s takeoff -- OFFICE.xlsx --job "Wicket Mill" --out WICKET.xlsx`
/** Papers that are handed out, by the word that asks for them. */
const papers = { quote: 'quote', order: 'order', record: 'test', handover: 'handover' } as const
const flavors: readonly Flavor[] = ['native', 'cells']

async function main(): Promise<void> {
  if (helpAsked(help)) return
  optionsOnly(['job', 'all', 'out', 'json', 'flavor', 'replace', 'calendar', ...Object.keys(papers), 'help'], usage)
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      job: { type: 'string', multiple: true },
      all: { type: 'boolean' },
      out: { type: 'string' },
      json: { type: 'boolean' },
      flavor: { type: 'string', default: 'native' },
      replace: { type: 'boolean' },
      calendar: { type: 'string' },
      quote: { type: 'boolean' },
      order: { type: 'boolean' },
      record: { type: 'boolean' },
      handover: { type: 'boolean' },
    },
  })
  const wanted = (Object.keys(papers) as (keyof typeof papers)[]).filter((paper) => values[paper]).map((paper) => papers[paper])
  if (!values.out && !values.json && !values.calendar) throw new Error(`--out is missing. Usage: ${usage}`)
  if (positionals.length > 1) throw new Error(`One workbook at a time. Usage: ${usage}`)
  const flavor = flavors.find((known) => known === values.flavor)
  if (!flavor) throw new Error(`--flavor takes ${flavors.join(' or ')}; got ${values.flavor}.`)
  if (values.all && values.job) throw new Error(`--job or --all, not both. Usage: ${usage}`)
  const [input] = positionals
  const source = input === undefined ? demoSource(startingOffice(true)) : sourceOf(bytesOf(input), input)
  const office = readOffice(source.raw)
  const jobs = chosen(office.tables.Jobs, values.all ? [] : (values.job ?? []))
  const out = values.out
  if (out !== undefined && existsSync(out) && statSync(out).isDirectory()) throw new Error(`--out: a file to write; ${out} is a folder.`)
  if (out !== undefined) kindAgrees(out, source.workbook)
  // What stands at the place of the new file: its takeoffs may hold what people typed.
  const isOnto = input !== undefined && out !== undefined && resolve(input) === resolve(out)
  const standing = out !== undefined && !isOnto && !values.replace && existsSync(out) ? standingAt(out) : undefined
  const before = standing instanceof WorkbookError ? undefined : standing
  const worked = jobs.map((job) => {
    const name = String(job.cells.Job ?? '')
    const [theirs, ours] = [keptIn(before, name), keptIn(source.workbook, name)]
    if (!isNothing(theirs) && !isNothing(ours) && JSON.stringify(theirs) !== JSON.stringify(ours))
      throw new Error(`${out}: people typed on the sheets of ${name} there and in ${input}, not the same: give another name, or add --replace. Nothing was written.`)
    const [there, here] = [earlierIn(before, name), earlierIn(source.workbook, name)]
    const earlier = there.before ? there : here
    const result = workJob(office, job, isNothing(theirs) ? ours : theirs)
    return { name, earlier, revision: Math.max(there.before?.revision ?? 0, here.before?.revision ?? 0) + 1, ...result, problems: [...result.problems, ...earlier.problems] }
  })
  const problems = new Map<string, Problem>(worked.flatMap((job) => job.problems.map((problem) => [problemText(problem), problem])))
  const all = new Map([...office.problems, ...rulesOf(office).problems].map((problem) => [problemText(problem), problem]))
  for (const [text, problem] of problems) all.set(text, problem)
  if (values.json)
    console.log(JSON.stringify({ version: made().version, problems: [...all.values()], jobs: worked.map((job: Worked & { name: string }) => jobView(job.name, job, [])) }))
  if (problems.size) {
    const listed = [...problems.keys(), `${problems.size} ${problems.size === 1 ? 'problem' : 'problems'}; nothing was written.`].join('\n')
    if (!values.json) throw new Error(listed)
    process.exitCode = 1
    return
  }
  if (values.calendar !== undefined) {
    if (!/\.ics$/i.test(values.calendar)) throw new Error(`--calendar: a name that ends in .ics; got ${values.calendar}.`)
    if (worked.length !== 1) throw new Error(`--calendar: the plan of one job; name it with --job. Usage: ${usage}`)
    if (existsSync(values.calendar) && !values.replace)
      throw new Error(`${values.calendar}: it exists and stays as it is. Give another name, or add --replace. Nothing was written.`)
    writeWhole(values.calendar, new TextEncoder().encode(careCalendar(worked[0]!.design!, made().date, made().version)))
    console.log(`Written: ${values.calendar}`)
  }
  if (out === undefined) return
  if (standing instanceof WorkbookError) throw standing
  if (wanted.length) {
    if (standing) throw new Error(`${out}: it exists and stays as it is. Give another name, or add --replace. Nothing was written.`)
    if (isOnto) throw new Error(`--out: another file than ${input}: a paper alone would take the office's place. Nothing was written.`)
    const unpriced = wanted.includes('quote') ? worked.filter(({ takeoff }) => openStops(takeoff!) > 0).map(({ name }) => name) : []
    if (unpriced.length) throw new Error(`--quote: no quote is made while a stop stands that nobody has answered for: ${unpriced.join(', ')}. Nothing was written.`)
    writeWhole(
      out,
      papersAlone(
        worked.map(({ takeoff, revision, earlier }) => ({ takeoff: takeoff!, revision, earlier })),
        wanted,
        source,
        made(),
      ),
    )
    console.log(`Written: ${out}`)
    return
  }
  const file = makeFile(
    source,
    worked.map(({ takeoff, revision, earlier }) => ({ takeoff: takeoff!, revision, earlier })),
    flavor,
    made(),
    values.replace,
  )
  if (standing) {
    const reasons = reasonsAgainst(standing, source, file)
    if (reasons.length) throw new Error(`${out}: it exists and stays as it is: ${reasons.join('; ')}. Give another name, or add --replace. Nothing was written.`)
  }
  writeWhole(out, file.bytes)
  if (values.json) return
  for (const { takeoff, earlier } of worked) {
    report(takeoff!)
    if (earlier.before) console.log(`  ${inShort(changesSince(earlier.before, takeoff!), earlier.before.revision)}`)
  }
  // A row that no job draws on stands in no job's way, but somebody meant something by it.
  for (const [text, { sheet }] of all)
    if (!problems.has(text) && [office.sheets.Catchments, office.sheets.Uses, office.sheets.Variants].includes(sheet)) console.log(`Not used: ${text}`)
  for (const note of file.notes) console.log(note)
  console.log(`Written: ${out}`)
}

/** A spreadsheet opens a file only where its ending says what it is. */
function kindAgrees(out: string, workbook: Workbook | undefined): void {
  const hasMacros = workbook?.book.text('[Content_Types].xml').includes('macroEnabled') ?? false
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

function report(takeoff: Takeoff): void {
  console.log(line(takeoff))
  for (const { verdict, label, words } of takeoff.design.verdicts()) if (verdict !== 'pass') console.log(`  ${verdict}  ${label}: ${words}`)
  console.log(
    `  can hurt here: ${takeoff.design
      .cautions()
      .slice(0, 3)
      .map(({ short }) => short.toLowerCase())
      .join('; ')}`,
  )
  for (const code of takeoff.unused) console.log(`${takeoff.design.name}: your entry for ${code} has no line any more`)
}

function chosen(jobs: readonly Row[], names: readonly string[]): readonly Row[] {
  if (!jobs.length) throw new Error('The table Jobs holds no row.')
  if (!names.length) return jobs
  const found = names.map((name) => {
    const [job, second] = jobs.filter((row) => String(row.cells.Job).toLowerCase() === name.trim().toLowerCase())
    if (!job) throw new Error(`--job: one of ${jobs.flatMap((row) => row.cells.Job ?? []).join(', ')}; got ${name}.`)
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
