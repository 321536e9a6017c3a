/** Makes takeoff workbooks, or prints what they say: `takeoff [OFFICE.xlsx] [--job NAME | --all] [--out OUT.xlsx] [--json] …`. */
import { parseArgs } from 'node:util'
import { writeWorkbook } from '../hosts/file.js'
import type { Flavor } from '../plan/calls.js'
import { takeoffWorkbook } from '../plan/workbook.js'
import { startingOffice } from '../takeoff/demo.js'
import { problemText, type Problem } from '../takeoff/fields.js'
import { readOffice, type Row } from '../takeoff/office.js'
import { nothingKept, rulesOf, workJob, type Takeoff, type Worked } from '../takeoff/takeoff.js'
import { jobView } from '../takeoff/view.js'
import { fail, helpAsked, made, readOfficeFile, writeWhole } from './common.js'
import { refuseLoss } from './refuseLoss.js'

const usage = 'npm run -s takeoff -- [OFFICE.xlsx] [--job NAME | --all] [--out OUT.xlsx] [--json] [--flavor native|cells] [--replace]'
const help = `Makes the takeoff of one job, of several, or of all: sheets with live formulas in an .xlsx file.

  ${usage}

  OFFICE.xlsx      a workbook with the office's tables; left out, the demo
  --job NAME       one job; may be given several times. --all, or neither: every job
  --out OUT.xlsx   the file to write
  --json           print everything that is known of the jobs as one JSON document; a file is written only with --out
  --flavor cells   formulas call the cell functions instead of being spelled out
  --replace        write over a file whose sheets or typed words would be lost

Example: npm run -s takeoff -- OFFICE.xlsx --job "Wicket Mill" --out WICKET.xlsx`
const flavors: readonly Flavor[] = ['native', 'cells']

async function main(): Promise<void> {
  if (helpAsked(help)) return
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      job: { type: 'string', multiple: true },
      all: { type: 'boolean' },
      out: { type: 'string' },
      json: { type: 'boolean' },
      flavor: { type: 'string', default: 'native' },
      replace: { type: 'boolean' },
    },
  })
  if (!values.out && !values.json) throw new Error(`--out is missing. Usage: ${usage}`)
  if (positionals.length > 1) throw new Error(`One workbook at a time. Usage: ${usage}`)
  const flavor = flavors.find((known) => known === values.flavor)
  if (!flavor) throw new Error(`--flavor takes ${flavors.join(' or ')}; got ${values.flavor}.`)
  if (values.all && values.job) throw new Error(`--job or --all, not both. Usage: ${usage}`)
  const { raw, kept } = positionals[0] ? await readOfficeFile(positionals[0]) : { raw: startingOffice(true), kept: () => nothingKept }
  const office = readOffice(raw)
  const jobs = chosen(office.tables.Jobs, values.all ? [] : (values.job ?? []))
  const worked = jobs.map((job) => ({ name: String(job.cells.Job ?? ''), ...workJob(office, job, kept(String(job.cells.Job ?? ''))) }))
  const problems = new Map<string, Problem>(worked.flatMap((job) => job.problems.map((problem) => [problemText(problem), problem])))
  if (values.json) {
    const all = new Map([...office.problems, ...rulesOf(office).problems].map((problem) => [problemText(problem), problem]))
    for (const [text, problem] of problems) all.set(text, problem)
    console.log(JSON.stringify({ version: made().version, problems: [...all.values()], jobs: worked.map((job: Worked & { name: string }) => jobView(job.name, job, [])) }))
  }
  if (problems.size) {
    const listed = [...problems.keys(), `${problems.size} ${problems.size === 1 ? 'problem' : 'problems'}; nothing was written.`].join('\n')
    if (!values.json) throw new Error(listed)
    process.exitCode = 1
    return
  }
  if (!values.out) return
  const takeoffs = worked.map(({ takeoff }) => takeoff!)
  const plan = takeoffWorkbook(raw, takeoffs, flavor, made())
  if (!values.replace) await refuseLoss(values.out, plan, raw, positionals[0])
  writeWhole(values.out, await writeWorkbook(plan))
  if (values.json) return
  for (const takeoff of takeoffs) {
    console.log(line(takeoff))
    for (const { verdict, label, words } of takeoff.design.verdicts()) if (verdict !== 'pass') console.log(`  ${verdict}  ${label}: ${words}`)
    const worst = takeoff.design.cautions().slice(0, 3)
    console.log(`  can hurt here: ${worst.map(({ short }) => short.toLowerCase()).join('; ')}`)
    for (const code of takeoff.unused) console.log(`${takeoff.design.name}: your entry for ${code} has no line any more`)
  }
  console.log(`Written: ${values.out}`)
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

const dollars = (value: number) => `$${value.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 })}`

function line({ design, lines, orderCost, total }: Takeoff): string {
  const verdicts = design.verdicts()
  const count = (word: string) => verdicts.filter(({ verdict }) => verdict === word).length
  return `${design.name}: ${lines.length} lines, order cost ${dollars(orderCost)}, total ${dollars(total)}; ${count('pass')} pass, ${count('check')} check, ${count('stop')} stop; ${design.cautions().length} cautions`
}

main().catch(fail)
