/** Jobs and their files: the engine, the layouts, the writer, reading back, memory, Calc. */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { zipSync } from 'fflate'
import { writeWorkbook } from '../../src/hosts/file.js'
import { pack, writeZip } from '../../src/hosts/xlsx/zip.js'
import { sourceOf } from '../../src/hosts/fileSession.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import type { WorkbookPlan } from '../../src/plan/plan.js'
import { takeoffWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { readOffice, type RawOffice } from '../../src/takeoff/office.js'
import { makeTakeoff, workJob } from '../../src/takeoff/takeoff.js'
import { keptIn, revisionIn } from '../../tests/support/makings.js'
import { convertWithCalc, hasCalc } from '../../tests/support/calc.js'
import { made, report, sink, time } from './measure.js'
import { manyJobs, withDays } from './offices.js'

const planOf = (raw: RawOffice): WorkbookPlan => {
  const office = readOffice(raw)
  return takeoffWorkbook(
    raw,
    office.tables.Jobs.map((job) => makeTakeoff(office, job)),
    'native',
    made,
  )
}

/** A job on forty years of days against the same job on its means; the tanks counted, so that both do the same. */
export function days(): void {
  const demo = startingOffice(true)
  const station = 'Low Fallow'
  const office = (raw: RawOffice) => readOffice({ ...raw, Jobs: { ...raw.Jobs, rows: raw.Jobs.rows.map((row) => ({ ...row, cells: { ...row.cells, RainStation: station } })) } })
  const [means, record] = [office({ ...demo, RainDays: { ...demo.RainDays, rows: [] } }), office(withDays(demo, station))]
  const work = (of: typeof means) => () => {
    for (const job of of.tables.Jobs) sink.total += workJob(of, job).takeoff?.total ?? 0
  }
  work(means)()
  report('jobs on 40 years of days, against the same on means', time(work(record), 4) / time(work(means), 4), 3)
}

/** Names as short as a bare writer has them: the same cells as XML, a part a sheet. */
function bareParts({ sheets }: WorkbookPlan): (readonly [name: string, content: Uint8Array])[] {
  const escaped = (text: string) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;')
  const encoder = new TextEncoder()
  return sheets.map(({ cells }, at) => {
    const rows = new Map<number, string[]>()
    for (const { row, column, value, formula } of cells) {
      if (!rows.has(row)) rows.set(row, [])
      const content = formula === undefined ? '' : `<f>${escaped(formula)}</f>`
      rows.get(row)!.push(`<c r="${String.fromCharCode(64 + (column % 27))}${row}">${content}<v>${value === null ? '' : escaped(String(value))}</v></c>`)
    }
    return [`sheet${at}.xml`, encoder.encode([...rows].map(([row, list]) => `<row r="${row}">${list.join('')}</row>`).join(''))] as const
  })
}

export function layouts(): WorkbookPlan {
  const raw = manyJobs(50)
  const office = readOffice(raw)
  const takeoffs = office.tables.Jobs.map((job) => makeTakeoff(office, job))
  for (const takeoff of takeoffs) takeoff.options()
  // The options are jobs worked through too: engine, not layout.
  const engine = time(() => {
    for (const job of office.tables.Jobs) makeTakeoff(office, job).options()
  }, 2)
  const sheets = () => {
    for (const takeoff of takeoffs) sink.total += jobSheets(takeoff, standardPlaces(), 'native', made).length
  }
  report('layouts of 50 jobs, against the engine (options counted there)', time(sheets, 2) / engine, 2)
  const plan = planOf(raw)
  const written = time(() => void (sink.total += writeWorkbook(plan).length), 2)
  // Ours packs with Node's zlib here and with fflate in a browser: both are set against it.
  const bare = {
    fflate: () => zipSync(Object.fromEntries(bareParts(plan)), { level: 6 }),
    'Node’s zlib': () => writeZip(bareParts(plan).map(([name, content]) => pack(name, content))),
  }
  for (const [packer, write] of Object.entries(bare))
    report(`50 jobs written, against a bare XML of the same cells packed by ${packer}`, written / time(() => void (sink.total += write().length), 2), 1.5)
  return plan
}

export function reading(plan: WorkbookPlan): void {
  const [few, whole] = [writeWorkbook(planOf(manyJobs(5))), writeWorkbook(planOf(manyJobs(200)))]
  const one = (bytes: Uint8Array) => () => {
    const { workbook } = sourceOf(bytes, 'x.xlsx')
    sink.total += Object.keys(keptIn(workbook, 'Job 3').crew.cells).length + revisionIn(workbook, 'Job 3')
  }
  report('reading one job out of a 200-job file, against a 5-job file', time(one(whole), 3) / time(one(few), 5), 3)
  console.log(`  a 50-job file has ${plan.sheets.length} sheets, ${plan.sheets.reduce((sum, sheet) => sum + sheet.cells.length, 0)} cells`)
}

/** The whole way from a table of jobs to bytes, in a process of its own: the most memory that it held. */
export function memory(): void {
  const most = (count: number) =>
    Number(execFileSync(process.execPath, ['--import', 'tsx', join(import.meta.dirname, 'memoryOf.ts'), String(count)], { encoding: 'utf8', maxBuffer: 1e6 }).trim())
  const [small, large] = [most(200), most(1000)]
  console.log(`  200 jobs: ${small} MB, 1,000 jobs: ${large} MB`)
  report('memory at 1,000 jobs, against 200', large / small, 1.3)
}

/** LibreOffice loads and recalculates 50 jobs; the same sheets with every formula an =1+1. */
export async function calc(plan: WorkbookPlan): Promise<void> {
  if (!hasCalc) return console.log('No LibreOffice Calc: 50 jobs there not measured.')
  const folder = mkdtempSync(join(tmpdir(), 'calc-bench-'))
  const ones: WorkbookPlan = {
    sheets: plan.sheets.map((sheet) => ({ ...sheet, cells: sheet.cells.map((cell) => (cell.formula === undefined ? cell : { ...cell, value: 2, formula: '1+1' })) })),
  }
  const loaded = async (name: string, of: WorkbookPlan): Promise<number> => {
    const file = join(folder, `${name}.xlsx`)
    writeFileSync(file, writeWorkbook(of))
    const start = performance.now()
    await convertWithCalc(file, 'csv', folder, 600_000)
    return performance.now() - start
  }
  const [ours, bare] = [await loaded('jobs', plan), await loaded('ones', ones)]
  rmSync(folder, { recursive: true, force: true })
  console.log(`  50 jobs in Calc: ${(ours / 1000).toFixed(0)} s; with =1+1 in every formula ${(bare / 1000).toFixed(0)} s`)
  report('Calc: loading and recalculating 50 jobs, against as many =1+1', ours / bare, 1.3)
}
