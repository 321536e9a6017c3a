/** Speed as ratios within one run; absolute times only where a ratio has no partner. `npm run bench` */
import ExcelJS from 'exceljs'
import { gzipSync } from 'node:zlib'
import { readFileSync } from 'node:fs'
import { all, create } from 'mathjs'
import { frictionLoss, storageNeeded, waterBalance } from '../src/index.js'
import { callByName } from '../src/calc/callByName.js'
import { GridEngine } from '../src/hosts/gridEngine.js'
import { writeWorkbook } from '../src/hosts/file.js'
import { GridHost } from '../src/hosts/grid.js'
import { cellContent, gridData, gridFormat, gridStyle } from '../src/hosts/gridData.js'
import { registerTogether } from '../src/hosts/gridTogether.js'
import { makeTakeoffs } from '../src/hosts/session.js'
import { looks } from '../src/plan/looks.js'
import { jobSheets } from '../src/plan/jobSheets.js'
import { standardPlaces } from '../src/plan/places.js'
import { takeoffWorkbook, templateWorkbook } from '../src/plan/workbook.js'
import { startingOffice } from '../src/takeoff/demo.js'
import { readOffice, type RawOffice } from '../src/takeoff/office.js'
import { makeTakeoff } from '../src/takeoff/takeoff.js'

const made = { date: '2026-11-25', revision: 1, version: 'bench' }
let sink = 0

/** The best of several rounds: the least disturbed by the machine. */
function time(work: () => void, rounds = 7): number {
  let best = Infinity
  for (let round = 0; round < rounds; round++) {
    const start = performance.now()
    work()
    best = Math.min(best, performance.now() - start)
  }
  return best
}
async function timeAsync(work: () => Promise<unknown>, rounds = 3): Promise<number> {
  let best = Infinity
  for (let round = 0; round < rounds; round++) {
    const start = performance.now()
    await work()
    best = Math.min(best, performance.now() - start)
  }
  return best
}
const report = (what: string, ratio: number, limit?: number) =>
  console.log(`${what.padEnd(78)} ${ratio.toFixed(2)} x${limit === undefined ? '' : `   (at most ${limit} x${ratio <= limit ? '' : ', MISSED'})`}`)

const inputs = (count: number) =>
  Array.from({ length: count }, (_, at) => ({ flow_gpm: 1 + (at % 97) / 4, length_ft: 50 + (at % 311), bore_in: 0.6 + (at % 13) / 8, smoothness: 140 + (at % 11) }))

function friction(): void {
  const inlined = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const { flow_gpm, length_ft, bore_in, smoothness } of list)
      total += (4.727 * length_ft * ((flow_gpm * 231) / 1728 / 60) ** 1.852) / (smoothness ** 1.852 * (bore_in / 12) ** 4.871)
    sink += total
  }
  const unchecked = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const input of list) total += frictionLoss.run(input)
    sink += total
  }
  const checked = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const input of list) total += frictionLoss(input)
    sink += total
  }
  const mathjs = create(all!)
  const compiled = mathjs.compile('4.727*length_ft*(flow_gpm*231/1728/60)^1.852/(smoothness^1.852*(bore_in/12)^4.871)')
  const evaluated = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const input of list) total += compiled.evaluate(input) as number
    sink += total
  }
  const cells = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const { flow_gpm, length_ft, bore_in, smoothness } of list) total += callByName('FRICTIONLOSS', [flow_gpm, length_ft, bore_in, smoothness]) as number
    sink += total
  }
  for (const work of [inlined, unchecked, checked, evaluated, cells]) work(inputs(50_000))
  const list = inputs(100_000)
  const base = time(() => inlined(list))
  report('FRICTIONLOSS.run against a hand-inlined loop', time(() => unchecked(list)) / base, 1.2)
  report('FRICTIONLOSS checked, plain numbers, against the loop', time(() => checked(list)) / base, 3)
  report('FRICTIONLOSS through the door of a cell, against the loop', time(() => cells(list)) / base)
  report('mathjs on the same formula, against the loop', time(() => evaluated(list), 3) / base)
  for (const count of [1000, 10_000, 100_000]) {
    const some = inputs(count)
    console.log(
      `  growth at ${String(count).padStart(7)}: run ${((time(() => unchecked(some)) / count) * 1e6).toFixed(0)} ns, checked ${((time(() => checked(some)) / count) * 1e6).toFixed(0)} ns a call`,
    )
  }
}

function grid(): void {
  const rows = (count: number, formula: (row: number) => string) => {
    const cells: Record<string, string> = {}
    for (let row = 1; row <= count; row++)
      Object.assign(cells, { [`A${row}`]: String(1 + (row % 97) / 4), [`B${row}`]: String(50 + (row % 311)), [`C${row}`]: String(0.6 + (row % 13) / 8), [`D${row}`]: formula(row) })
    return cells
  }
  const call = rows(10_000, (row) => `=CISTERN.FRICTIONLOSS(A${row},B${row},C${row})`)
  const native = rows(10_000, (row) => `=4.727*B${row}*(A${row}*231/1728/60)^1.852/(150^1.852*(C${row}/12)^4.871)`)
  const run = (cells: Record<string, string>) => time(() => void (sink += new GridEngine({}, cells).cell('D10000').value as number), 4)
  run(native)
  report('10,000 cells of FRICTIONLOSS in the grid, against the native formula', run(call) / run(native), 1.5)
}

function rain(): void {
  const days = 30 * 365
  const inflow = Float64Array.from({ length: days }, (_, day) => ((day * 7919) % 13 < 3 ? ((day * 104729) % 997) / 1.7 : 0))
  const demand = 60
  const bare = (record: Float64Array) => {
    let stored = 0
    for (let day = 0; day < record.length; day++) stored = Math.min(Math.max(stored + record[day]! - demand, 0), 3000)
    sink += stored
  }
  const balance = (record: Float64Array) =>
    void (sink += (waterBalance.run({ inflow_gal: record, demand_gal: demand, capacity_gal: 3000, start_gal: 0, rule: 'YAS' }) as { stored_gal: Float64Array }).stored_gal[
      record.length - 1
    ]!)
  const needed = (record: Float64Array) => void (sink += storageNeeded.run({ inflow_gal: record, demand_gal: demand, target: 0.95, rule: 'YAS', measure: 'volume' }))
  for (let at = 0; at < 200; at++) bare(inflow)
  for (let at = 0; at < 150; at++) balance(inflow)
  for (let at = 0; at < 150; at++) needed(inflow)
  const many = (work: () => void, times: number) =>
    time(() => {
      for (let at = 0; at < times; at++) work()
    }) / times
  const base = many(() => bare(inflow), 40)
  report('WATERBALANCE on 30 years of days, against a bare min/max loop', many(() => balance(inflow), 20) / base, 4)
  report('STORAGENEEDED on 30 years of days, in passes of that loop', many(() => needed(inflow), 10) / base, 12)
  for (const count of [1000, 10_000, 40_000]) {
    const record = Float64Array.from({ length: count }, (_, day) => inflow[day % days]!)
    console.log(
      `  growth at ${String(count).padStart(7)}: balance ${((many(() => balance(record), 5) / count) * 1e6).toFixed(1)} ns, storage ${((many(() => needed(record), 3) / count) * 1e6).toFixed(0)} ns a day`,
    )
  }
}

/** The demo with its jobs repeated under other names. */
function manyJobs(count: number): RawOffice {
  const demo = startingOffice(true)
  const rows = Array.from({ length: count }, (_, at) => {
    const { cells } = demo.Jobs.rows[at % demo.Jobs.rows.length]!
    return { row: 6 + at, cells: { ...cells, Job: `Job ${at + 1}` } }
  })
  return { ...demo, Jobs: { ...demo.Jobs, rows } }
}

async function workbooks(): Promise<void> {
  const raw = manyJobs(200)
  const office = readOffice(raw)
  const plan = takeoffWorkbook(
    raw,
    office.tables.Jobs.map((job) => makeTakeoff(office, job)),
    'native',
    made,
  )
  const whole = await timeAsync(async () => {
    const fresh = readOffice(manyJobs(200))
    await writeWorkbook(
      takeoffWorkbook(
        raw,
        fresh.tables.Jobs.map((job) => makeTakeoff(fresh, job)),
        'native',
        made,
      ),
    )
  }, 2)
  const alone = await timeAsync(async () => {
    const workbook = new ExcelJS.Workbook()
    for (const sheet of plan.sheets) {
      const target = workbook.addWorksheet(sheet.name)
      for (const { row, column, value, formula } of sheet.cells)
        if (value !== null || formula !== undefined) target.getCell(row, column).value = (formula === undefined ? value : { formula, result: value }) as ExcelJS.CellValue
    }
    await workbook.xlsx.writeBuffer()
  }, 2)
  console.log(`  200 jobs: ${plan.sheets.reduce((sum, sheet) => sum + sheet.cells.length, 0)} cells, ${(whole / 1000).toFixed(1)} s`)
  report('200 jobs into one workbook, against exceljs writing the same cells', whole / alone, 3)
}

async function page(): Promise<void> {
  const { Model } = await import('@odoo/o-spreadsheet')
  void new GridEngine()
  registerTogether()
  const demo = () => new Model(gridData(templateWorkbook(startingOffice(true), made)) as never)
  const office = readOffice(startingOffice(true))
  const plans = jobSheets(makeTakeoff(office, office.tables.Jobs[3]!), standardPlaces(), 'cells', made)
  const ours = await timeAsync(async () => makeTakeoffs(new GridHost(demo()), ['Wicket Mill'], { flavor: 'cells', made }))
  const making = await timeAsync(async () => void demo())
  const bare = await timeAsync(async () => {
    const model = demo()
    for (const plan of plans) model.dispatch('CREATE_SHEET' as never, { sheetId: plan.name, name: plan.name, rows: 400, cols: 20, position: 1 } as never)
    for (const plan of plans)
      for (const cell of plan.cells)
        model.dispatch(
          'UPDATE_CELL' as never,
          {
            sheetId: plan.name,
            col: cell.column - 1,
            row: cell.row - 1,
            content: cellContent(cell),
            style: gridStyle(looks[cell.role]),
            ...(gridFormat(cell.format) ? { format: gridFormat(cell.format) } : {}),
          } as never,
        )
  }, 1)
  report('Takeoff of a demo job in the grid, against the grid filling the same cells bare', (ours - making) / (bare - making), 2)
}

function bundles(): void {
  for (const [file, limit] of [
    ['functions', 40],
    ['taskpane', 120],
    // Fetched when a workbook is set up, and when the first takeoff is made.
    ['setup', 8],
    ['making', 20],
  ] as const) {
    const size = gzipSync(readFileSync(new URL(`../dist/${file}.js`, import.meta.url)), { level: 9 }).length / 1024
    console.log(`${`${file}.js`.padEnd(78)} ${size.toFixed(1)} kB gzip   (at most ${limit} kB${size <= limit ? '' : ', MISSED'})`)
  }
}

async function firstPaint(): Promise<void> {
  const { hasChromium, launch, serve, watchedPage } = await import('../tests/support/browser.js')
  if (!hasChromium) return console.log('No Chromium: first paint not measured.')
  const browser = await launch()
  const { server, address } = await serve()
  const { page: pane } = await watchedPage(browser, address)
  await pane.route('https://appsforoffice.microsoft.com/**', (route) => route.abort())
  const times: number[] = []
  for (let round = 0; round < 5; round++) {
    await pane.goto(`${address}taskpane.html`)
    await pane.waitForFunction(() => (document.querySelector('#pane')?.textContent?.length ?? 0) > 20)
    times.push(await pane.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? performance.now()))
  }
  console.log(`${'First useful paint of the pane, median of five'.padEnd(78)} ${times.sort((one, other) => one - other)[2]!.toFixed(0)} ms`)
  await browser.close()
  server.close()
}

friction()
grid()
rain()
await workbooks()
await page()
bundles()
await firstPaint()
if (!Number.isFinite(sink)) throw new Error('A benchmark computed nothing.')
