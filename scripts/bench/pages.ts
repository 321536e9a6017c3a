/** The page and the pane: takeoffs in the grid, an edit, opening and saving, the Excel host, sizes, first paint. */
import { gzipSync } from 'node:zlib'
import type { Page } from 'playwright-core'
import { readFileSync } from 'node:fs'
import { writeWorkbook } from '../../src/hosts/file.js'
import { FileHost } from '../../src/hosts/fileHost.js'
import { sourceOf } from '../../src/hosts/fileSession.js'
import { makeFile } from '../../src/hosts/makeFile.js'
import { ExcelHost } from '../../src/hosts/excel.js'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { GridHost } from '../../src/hosts/grid.js'
import { gridData } from '../../src/hosts/gridData.js'
import { registerTogether } from '../../src/hosts/gridTogether.js'
import { makeTakeoffs } from '../../src/hosts/makeTakeoffs.js'
import { open } from '../../src/hosts/session.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import { takeoffWorkbook, templateWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { readOffice, rowNamed } from '../../src/takeoff/office.js'
import { makeTakeoff, workJob } from '../../src/takeoff/takeoff.js'
import { MemoryExcel } from '../../tests/support/memoryExcel.js'
import { made, report, sink, timeAsync } from './measure.js'
import { manyJobs } from './offices.js'

export async function page(): Promise<void> {
  const { Model } = await import('@odoo/o-spreadsheet')
  void new GridEngine()
  registerTogether()
  const demo = () => new Model(gridData(templateWorkbook(startingOffice(true), made)) as never)
  const office = readOffice(startingOffice(true))
  const jobs = office.tables.Jobs.map(({ cells }) => String(cells.Job))
  const plans = office.tables.Jobs.flatMap((job) => jobSheets(makeTakeoff(office, job), standardPlaces(), 'native', made))
  const ours = await timeAsync(async () => makeTakeoffs(new GridHost(demo()), jobs, { flavor: 'native', made }))
  const writing = await timeAsync(async () => new GridHost(demo()).write(plans))
  const making = await timeAsync(async () => void demo())
  // The same cells and the template's, loaded as data.
  const template = templateWorkbook(startingOffice(true), made)
  const loaded = await timeAsync(async () => void new Model(gridData({ sheets: [...template.sheets, ...plans] }) as never))
  report('page: all takeoffs of the demo written, against the same cells loaded as data', (writing - making) / (loaded - making), 2)
  report('page: takeoffs of all demo jobs worked out, laid out and written, against that', (ours - making) / (loaded - making), 2)
}

/** A cell of Jobs typed, and the pane's figures of that job again; the pause that waits for more typing is no work. */
export async function edit(): Promise<void> {
  const { Model } = await import('@odoo/o-spreadsheet')
  const raw = manyJobs(50)
  const office = readOffice(raw)
  const takeoffs = office.tables.Jobs.map((job) => makeTakeoff(office, job))
  const typed = async (withTakeoffs: boolean): Promise<number> => {
    const model = new Model(gridData(takeoffWorkbook(raw, withTakeoffs ? takeoffs : [], 'native', made)) as never)
    const host = new GridHost(model)
    const sheetId = (model.getters as unknown as { getSheetIdByName(name: string): string }).getSheetIdByName('Jobs')
    let people = 2
    return timeAsync(async () => {
      people = people === 2 ? 3 : 2
      model.dispatch('UPDATE_CELL' as never, { sheetId, row: 5, col: standardPlaces().Jobs.columnOf('People')! - 1, content: String(people) } as never)
      const { office: now } = await open(host)
      sink.total += workJob(now!, rowNamed(now!, 'Jobs', 'Job 1')!).takeoff?.total ?? 0
    }, 6)
  }
  report('page: an edit to the pane with 50 takeoffs present, against none', (await typed(true)) / (await typed(false)), 1.5)
}

/** As many takeoffs as an office makes in a season: 650,000 cells, of the 700,000 that the page shows. */
const SHOWN_JOBS = 50

/** They are opened, a cell is typed, and saved; and the same file is made anew by the file host, as the command does. */
export async function files(): Promise<void> {
  const { Model } = await import('@odoo/o-spreadsheet')
  const { gridFromWorkbook } = await import('../../taskpane/xlsxToGrid.js')
  const { OpenedFile } = await import('../../taskpane/openedFile.js')
  const raw = manyJobs(SHOWN_JOBS)
  const office = readOffice(raw)
  const plan = takeoffWorkbook(
    raw,
    office.tables.Jobs.map((job) => makeTakeoff(office, job)),
    'native',
    made,
  )
  const bytes = writeWorkbook(plan)
  const onPage = async (): Promise<void> => {
    const { data, ofSheets, codes } = await gridFromWorkbook(bytes, 'jobs.xlsx')
    const model = new Model(data as never)
    const opened = new OpenedFile(bytes, 'jobs.xlsx', model as never, ofSheets, codes)
    const sheetId = (model.getters as unknown as { getSheetIdByName(name: string): string }).getSheetIdByName('Jobs')
    model.dispatch('UPDATE_CELL' as never, { sheetId, row: 5, col: standardPlaces().Jobs.columnOf('People')! - 1, content: '3' } as never)
    sink.total += opened.saved(model as never, new Map())!.bytes.length
  }
  const names = raw.Jobs.rows.map(({ cells }) => String(cells.Job))
  const inFile = async (): Promise<void> => {
    const host = new FileHost(sourceOf(bytes, 'jobs.xlsx'))
    await makeFile(host, names, { flavor: 'native', made, mayLose: true })
    for (const piece of host.pieces()) sink.total += piece.length
  }
  report(`page: opening and saving a file of ${SHOWN_JOBS} takeoffs, against the file host`, (await timeAsync(onPage, 2)) / (await timeAsync(inFile, 2)), 2)
}

/** What the page sends at its first start, against 0.1.0, which sent 4.7 MB each time (measured then), and at the second. */
export async function start(): Promise<void> {
  await inChromium('the start of the page', async (workbook, address) => {
    const sent = async (): Promise<number> => {
      await workbook.goto(address)
      await workbook.waitForSelector('.glance h2')
      return workbook.evaluate(() => performance.getEntriesByType('resource').reduce((sum, one) => sum + (one as PerformanceResourceTiming).transferSize, 0) / 1000)
    }
    const [first, second] = [await sent(), await sent()]
    report('page: sent at the first start, against the 4.7 MB of 0.1.0', first / 4700, 0.5)
    console.log(`  ${first.toFixed(0)} kB; at the second start ${second.toFixed(0)} kB`)
  })
}

export async function syncs(): Promise<void> {
  const book = new MemoryExcel()
  const host = new ExcelHost(book.run as never, (set) => set !== 'ExcelApi')
  await host.write(templateWorkbook(manyJobs(50), made).sheets)
  const jobs = (await open(host)).office!.tables.Jobs.map(({ cells }) => String(cells.Job))
  const before = book.syncs
  await makeTakeoffs(host, jobs, { flavor: 'cells', made })
  report('Excel host: syncs for 50 jobs; drawings, where Excel takes them, come with six more', book.syncs - before, 12, 'syncs')
}

export function bundles(): void {
  for (const [file, limit] of [
    ['functions', 40],
    ['taskpane', 120],
    // Fetched when a workbook is set up, and when the first takeoff is made.
    ['setup', 8],
    ['making', 20],
  ] as const) {
    const size = gzipSync(readFileSync(new URL(`../../dist/${file}.js`, import.meta.url)), { level: 9 }).length / 1024
    console.log(`${`${file}.js`.padEnd(78)} ${size.toFixed(1)} kB gzip   (at most ${limit} kB${size <= limit ? '' : ', MISSED'})`)
  }
}

export async function firstPaint(): Promise<void> {
  await inChromium('first paint', async (pane, address) => {
    await pane.route('https://appsforoffice.microsoft.com/**', (route) => route.abort())
    const times: number[] = []
    for (let round = 0; round < 5; round++) {
      await pane.goto(`${address}taskpane.html`)
      await pane.waitForFunction(() => (document.querySelector('#pane')?.textContent?.length ?? 0) > 20)
      times.push(await pane.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? performance.now()))
    }
    console.log(`${'First useful paint of the pane, median of five'.padEnd(78)} ${times.sort((one, other) => one - other)[2]!.toFixed(0)} ms`)
  })
}

async function inChromium(what: string, work: (page: Page, address: string) => Promise<void>): Promise<void> {
  const { hasChromium, launch, serve, watchedPage } = await import('../../tests/support/browser.js')
  if (!hasChromium) return console.log(`No Chromium: ${what} is not measured.`)
  const browser = await launch()
  const { server, address } = await serve()
  await work((await watchedPage(browser, address)).page, address)
  await browser.close()
  server.close()
}
