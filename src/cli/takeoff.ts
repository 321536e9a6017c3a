/** Makes takeoff workbooks: `takeoff [JOBS.xlsx] [--job NAME | --all] --out OUT.xlsx [--flavor native|cells] [--replace]`. */
import { parseArgs } from 'node:util'
import { writeWorkbook } from '../hosts/file.js'
import type { Flavor } from '../plan/calls.js'
import { takeoffWorkbook } from '../plan/workbook.js'
import { startingOffice } from '../takeoff/demo.js'
import { ProblemsError, problemText, type Problem } from '../takeoff/fields.js'
import { readOffice, type Row } from '../takeoff/office.js'
import { makeTakeoff, nothingKept, type Takeoff } from '../takeoff/takeoff.js'
import { fail, made, readOfficeFile, writeWhole } from './common.js'
import { refuseLoss } from './refuseLoss.js'

const usage = 'Usage: npm run -s takeoff -- [JOBS.xlsx] [--job NAME | --all] --out OUT.xlsx [--flavor native|cells] [--replace]'
const flavors: readonly Flavor[] = ['native', 'cells']

async function main(): Promise<void> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      job: { type: 'string', multiple: true },
      all: { type: 'boolean' },
      out: { type: 'string' },
      flavor: { type: 'string', default: 'native' },
      replace: { type: 'boolean' },
    },
  })
  if (!values.out) throw new Error(`--out is missing. ${usage}`)
  if (positionals.length > 1) throw new Error(`One workbook at a time. ${usage}`)
  const flavor = flavors.find((known) => known === values.flavor)
  if (!flavor) throw new Error(`--flavor takes ${flavors.join(' or ')}; got ${values.flavor}.`)
  if (values.all && values.job) throw new Error(`--job or --all, not both. ${usage}`)
  const { raw, kept } = positionals[0] ? await readOfficeFile(positionals[0]) : { raw: startingOffice(true), kept: () => nothingKept }
  const office = readOffice(raw)
  const jobs = chosen(office.tables.Jobs, values.all ? [] : (values.job ?? []))
  const takeoffs: Takeoff[] = []
  const problems = new Map<string, Problem>()
  for (const job of jobs) {
    try {
      takeoffs.push(makeTakeoff(office, job, kept(String(job.cells.Job ?? ''))))
    } catch (error) {
      if (!(error instanceof ProblemsError)) throw error
      for (const problem of error.problems) problems.set(problemText(problem), problem)
    }
  }
  if (problems.size) throw new Error([...problems.keys(), `${problems.size} ${problems.size === 1 ? 'problem' : 'problems'}; nothing was written.`].join('\n'))
  const plan = takeoffWorkbook(raw, takeoffs, flavor, made())
  if (!values.replace) await refuseLoss(values.out, plan, raw, positionals[0])
  writeWhole(values.out, await writeWorkbook(plan))
  for (const takeoff of takeoffs) {
    console.log(line(takeoff))
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
