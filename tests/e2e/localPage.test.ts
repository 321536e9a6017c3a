/** The local workbook page as a person uses it, in headless Chromium: from a job row to a takeoff, overridden, saved and opened again. */
import { takeoffColumns } from '../../src/plan/sheets/takeoffColumns.js'
import { readingColumns } from '../../src/plan/sheets/testDraft.js'
import { mkdtempSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import ExcelJS from 'exceljs'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { fieldsOf, jobFields } from '../../src/takeoff/officeTables.js'
import { writeWorkbook } from '../../src/hosts/file.js'
import { Book } from '../../src/hosts/xlsx/book.js'
import { templateWorkbook } from '../../src/plan/workbook.js'
import { hasChromium } from '../support/browser.js'
import { inBrowser, unlessChromiumDies } from '../support/inBrowser.js'
import { demoRows, leastRow, officeWith } from '../support/office.js'
import { inExceljs } from '../support/xlsx.js'
import { startingOffice } from '../../src/takeoff/demo.js'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const fieldNames = Object.keys(jobFields)
const NEW_ROW = 11
/** Wicket Mill is the fourth of the demo. */
const OF_WICKET_MILL = 9

interface GridWindow {
  cisternModel: {
    getters: Record<string, (...args: unknown[]) => unknown>
    dispatch(type: string, payload: object): unknown
    selection: { selectCell(column: number, row: number): void }
  }
}

/** What the grid holds in a cell. */
const cellIn = (page: Page, sheet: string, row: number, column: number) =>
  page.evaluate(
    ([name, y, x]) => {
      const { getters } = (window as unknown as GridWindow).cisternModel
      const position = { sheetId: getters.getSheetIdByName!(name), row: (y as number) - 1, col: (x as number) - 1 }
      return { text: String(getters.getCellText!(position, { showFormula: true })), value: (getters.getEvaluatedCell!(position) as { value: unknown }).value }
    },
    [sheet, row, column] as const,
  )
const activeCell = (page: Page) =>
  page.evaluate(() => {
    const { getters } = (window as unknown as GridWindow).cisternModel
    const { sheetId, row, col } = getters.getActivePosition!() as { sheetId: string; row: number; col: number }
    return { sheet: getters.getSheetName!(sheetId) as string, row: row + 1, column: col + 1 }
  })
const statusSays = (page: Page, words: RegExp) =>
  page.waitForFunction((source) => new RegExp(source).test(document.querySelector('.status')?.textContent ?? ''), words.source, { timeout: 60_000 })
const columnOf = (field: string) => fieldNames.indexOf(field) + 2

/** Moves the grid's selection as the name box would, then types, as fast as keys can come. */
async function typeInto(page: Page, sheet: string, row: number, column: number, text: string, holds = text): Promise<void> {
  await page.click('.o-grid-overlay', { position: { x: 200, y: 80 } })
  await page.evaluate(
    ([name, y, x]) => {
      const model = (window as unknown as GridWindow).cisternModel
      const to = model.getters.getSheetIdByName!(name)
      const from = model.getters.getActiveSheetId!()
      if (from !== to) model.dispatch('ACTIVATE_SHEET', { sheetIdFrom: from, sheetIdTo: to })
      // Nobody types into a column that is folded.
      model.dispatch('UNFOLD_ALL_HEADER_GROUPS', { sheetId: to, dimension: 'COL' })
      model.selection.selectCell((x as number) - 1, (y as number) - 1)
    },
    [sheet, row, column] as const,
  )
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
  expect((await cellIn(page, sheet, row, column)).text).toBe(holds)
}

/** The first row of a sheet that holds a value in a column; 0 where none does. */
const rowHolding = (page: Page, sheet: string, column: number, value: string): Promise<number> =>
  page.evaluate(
    ([sheet, column, value]) => {
      const { getters } = (window as unknown as GridWindow).cisternModel
      const sheetId = getters.getSheetIdByName!(sheet)
      for (let row = 0; row < 200; row++) if ((getters.getEvaluatedCell!({ sheetId, row, col: column - 1 }) as { value: unknown }).value === value) return row + 1
      return 0
    },
    [sheet, column, value] as const,
  )

/** Runs in the page: how many unsaved workbooks the browser's own database holds. */
async function keptCount(): Promise<number> {
  if (!(await indexedDB.databases()).some(({ name }) => name === 'cistern-sheet')) return 0
  const result = <T>(request: IDBRequest<T>) =>
    new Promise<T>((resolve, reject) => ((request.onsuccess = () => resolve(request.result)), (request.onerror = () => reject(request.error!))))
  const database = await result(indexedDB.open('cistern-sheet'))
  const count = await result(database.transaction('workbook').objectStore('workbook').count())
  database.close()
  return count
}

/** The pane draws a job once more when it has read what stands of it: what is measured meanwhile is gone under the eye. */
const settled = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const drawn = () => document.querySelector('.glance svg')
    for (let before; before !== drawn();) {
      before = drawn()
      await new Promise((resolve) => setTimeout(resolve, 500))
    }
  })

/** The grid lays itself out anew some frames after the page's size or zoom changed; what is measured between lies nowhere a person sees it. */
async function layoutRests(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const places = () => JSON.stringify([...document.querySelectorAll('#grid *, .halves > *, .bar')].map((one) => Object.values(one.getBoundingClientRect().toJSON() as object)))
    const frame = () => new Promise(requestAnimationFrame)
    let before = ''
    for (let still = 0; still < 5;) {
      await frame()
      const now = places()
      still = now === before ? still + 1 : 0
      before = now
    }
  })
}

async function axeFindsNothing(page: Page): Promise<void> {
  await layoutRests(page)
  await page.evaluate(axeSource)
  // What is scrolled out of the pane lies where the grid is, and would be measured on the colors of the grid.
  const showGrid = (isShown: boolean) =>
    page.evaluate((visibility) => document.querySelector<HTMLElement>('#grid')?.style.setProperty('visibility', visibility), isShown ? '' : 'hidden')
  await showGrid(false)
  const found = await page.evaluate(async (scope) => {
    const { axe } = window as unknown as { axe: { run(scope: string, options: object): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }> } }
    const { violations } = await axe.run(scope, { resultTypes: ['violations'] })
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`)
  }, '#pane')
  await showGrid(true)
  expect(found).toEqual([])
}

describe.runIf(hasChromium)('the local workbook page', unlessChromiumDies, () => {
  const watchedPage = inBrowser()

  async function opened(options = {}) {
    const watched = await watchedPage(options)
    await watched.page.goto(watched.address)
    await watched.page.waitForSelector('.glance h2', { timeout: 60_000 })
    return watched
  }

  it('price, what is not pass, section and plan stand over the button on the first screen, whatever the job', async () => {
    const { page } = await opened({ viewport: { width: 1280, height: 820 } })
    const seen = async (job: string) => {
      await page.selectOption('#job-picker', job)
      await page.waitForFunction((name) => document.querySelector('.glance h2')?.textContent === name, job)
      return page.evaluate(() => {
        const button = document.querySelector('button.make')!.getBoundingClientRect().top
        const of = (selector: string) => [...document.querySelectorAll(selector)].filter((one) => one.getBoundingClientRect().height > 0)
        const under = (selector: string) => of(selector).filter((one) => one.getBoundingClientRect().bottom > button).length
        return { items: of('.glance > .verdicts > li').length, price: under('.sum strong'), verdicts: under('.glance > .verdicts > li'), drawings: under('.glance > figure svg') }
      })
    }
    for (const job of ['Fernlow 12', 'Pipit Hollow', 'Thistle Brow', 'Wicket Mill', 'Ember Yard'])
      expect(await seen(job), job).toMatchObject({ price: 0, verdicts: 0, drawings: 0 })
    // Twelve tanks too close to the house, with too much over them: many stops, each in sight by its name, its words a press away.
    await seen('Wicket Mill')
    for (const [field, text] of Object.entries({ TankCount: '12', FootingAway_ft: '2', Cover_ft: '5', Traffic: 'trucks', TestVacuum_inHg: '6' }))
      await typeInto(page, 'Jobs', OF_WICKET_MILL, columnOf(field), text)
    await page.waitForFunction(() => document.querySelectorAll('.glance > .verdicts > li.stop').length > 3)
    const many = await seen('Wicket Mill')
    expect(many).toMatchObject({ price: 0, verdicts: 0 })
    expect(many.items).toBeGreaterThan(5)
    const first = page.locator('.glance > .verdicts > li').first()
    await first.locator('summary').press('Enter')
    expect(await first.innerText()).toMatch(/^stop\s+\S.*\s.{40}/s)
  })

  it('takes a job row to a takeoff, keeps an override, saves and opens again', async () => {
    const { page, errors, strangers } = await opened()
    // A row typed into the grid becomes a job of the pane.
    const row = {
      Job: 'Typed 1',
      Site: 'By hand',
      RoofArea_ft2: '2400',
      RainStation: 'Alder Reach',
      People: '2',
      TankModel: 'Quern 1800',
      TankCount: '2',
      WaterLineRun_ft: '80',
      PowerRun_ft: '90',
      InletRun_ft: '20',
      OverflowRun_ft: '20',
    }
    for (const [field, text] of Object.entries(row)) await typeInto(page, 'Jobs', NEW_ROW, columnOf(field), text)
    await page.waitForSelector('#job-picker option[value="Typed 1"]', { state: 'attached' })
    await page.selectOption('#job-picker', 'Typed 1')
    await page.waitForFunction(() => document.querySelector('.glance h2')?.textContent === 'Typed 1')
    const verdict = () =>
      page.evaluate(() => [...document.querySelectorAll('.verdicts li')].find((item) => item.textContent?.includes('Cover over the lids'))?.querySelector('strong')?.textContent)
    expect(await verdict()).toBe('pass')
    await typeInto(page, 'Jobs', NEW_ROW, columnOf('Cover_ft'), '5')
    await page.waitForFunction(() => [...document.querySelectorAll('.verdicts li.stop')].some((item) => item.textContent?.includes('Cover over the lids')))
    await typeInto(page, 'Jobs', NEW_ROW, columnOf('Cover_ft'), '2')

    // Two tanks: one tie, two boots.
    await page.click('button.make')
    await statusSays(page, /1 takeoff made: Takeoff Typed 1/)
    expect((await activeCell(page)).sheet).toBe('Takeoff Typed 1')
    const boots = await rowHolding(page, 'Takeoff Typed 1', takeoffColumns.code, 'TIE-BOOT')
    expect((await cellIn(page, 'Takeoff Typed 1', boots, takeoffColumns.order)).value).toBe(2)
    await typeInto(page, 'Takeoff Typed 1', boots, takeoffColumns.yours, '7')
    expect((await cellIn(page, 'Takeoff Typed 1', boots, takeoffColumns.order)).value).toBe(7)
    await page.click('button.make')
    await page.waitForFunction(() => document.querySelector('.cancel')?.hasAttribute('hidden'))
    await statusSays(page, /1 takeoff made/)
    expect((await cellIn(page, 'Takeoff Typed 1', boots, takeoffColumns.order)).value).toBe(7)
    expect((await cellIn(page, 'Takeoff Typed 1', 3, 2)).text).toContain('revision 2')

    // A reading that cannot be is named for as long as it stands there, beside the job's figures, and the words after a making point to it.
    const dosed = await rowHolding(page, 'Test Typed 1', 2, 'X14')
    await typeInto(page, 'Test Typed 1', dosed, readingColumns.reading, '1001')
    const refused = `Test Typed 1, row ${dosed}, Read: 0 to 500 mg/L; got X14 1001.`
    await page.waitForFunction((words) => document.querySelector('.problem')?.textContent === words, refused)
    expect(await verdict()).toBe('pass')
    await page.click('button.make')
    await statusSays(page, /No takeoff was made. 1 problem above/)
    await page.waitForTimeout(1000)
    expect(await page.textContent('.problem')).toBe(refused)
    await typeInto(page, 'Test Typed 1', dosed, readingColumns.reading, '5')
    await statusSays(page, /What was wrong with Typed 1 is mended/)
    expect(await page.isVisible('.problem')).toBe(false)

    // Saved, and opened again.
    const [download] = await Promise.all([page.waitForEvent('download'), page.click('#save-file')])
    const file = join(tmpdir(), `cistern-e2e-${process.pid}.xlsx`)
    await download.saveAs(file)
    await page.setInputFiles('#file', file)
    await page.waitForFunction(() => document.querySelector('#bar-status')?.textContent?.includes('is open'), null, { timeout: 60_000 })
    await page.waitForSelector('#job-picker option[value="Typed 1"]', { state: 'attached' })
    expect((await cellIn(page, 'Takeoff Typed 1', boots, takeoffColumns.yours)).value).toBe(7)
    expect((await cellIn(page, 'Takeoff Typed 1', boots, takeoffColumns.order)).value).toBe(7)
    expect(errors).toEqual([])
    expect(strangers).toEqual([])
  })

  it('names a wrong cell, and a click selects it', async () => {
    const { page, errors } = await opened()
    await typeInto(page, 'Jobs', 6, columnOf('RoofArea_ft2'), 'big')
    await page.selectOption('#job-picker', 'Fernlow 12')
    await page.waitForSelector('.problem')
    expect(await page.textContent('.problem')).toBe('Jobs, row 6, RoofArea_ft2: 1 to 1,000,000 ft²; got "big".')
    await page.evaluate(() => {
      const model = (window as unknown as GridWindow).cisternModel
      model.dispatch('ACTIVATE_SHEET', { sheetIdFrom: model.getters.getActiveSheetId!(), sheetIdTo: model.getters.getSheetIdByName!('Tanks') })
    })
    await page.click('.problem')
    expect(await activeCell(page)).toEqual({ sheet: 'Jobs', row: 6, column: columnOf('RoofArea_ft2') })
    expect(errors).toEqual([])
  })

  it('a cell typed over holds what was typed, however fast the keys come', async () => {
    const { page, errors } = await opened()
    const roofArea = columnOf('RoofArea_ft2')
    await page.click('.o-grid-overlay', { position: { x: 200, y: 80 } })
    await page.evaluate((x) => (window as unknown as GridWindow).cisternModel.selection.selectCell(x - 1, 5), roofArea)
    // The editor holds the old text of the cell from the next frame on; an extra key must not land in it.
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))))
    for (const text of ['1234', '56', '789']) {
      await page.keyboard.type(text)
      await page.keyboard.press('Enter')
    }
    for (const [index, value] of [1234, 56, 789].entries()) expect((await cellIn(page, 'Jobs', 6 + index, roofArea)).value).toBe(value)
    expect(errors).toEqual([])
  })

  it('a pipe size typed into a text column is no date, and a job name no number', async () => {
    const { page } = await opened()
    await typeInto(page, 'Jobs', 6, columnOf('WaterLineSize'), '1-1/4', '="1-1/4"')
    expect((await cellIn(page, 'Jobs', 6, columnOf('WaterLineSize'))).value).toBe('1-1/4')
    await typeInto(page, 'Jobs', 6, columnOf('Job'), '12-3', '="12-3"')
    await page.waitForSelector('#job-picker option[value="12-3"]', { state: 'attached' })
    await typeInto(page, 'Jobs', 6, columnOf('WaterLineSize'), '9', '="9"')
    await page.selectOption('#job-picker', '12-3')
    await page.waitForSelector('.problem')
    await page.click('.problem')
    expect(await activeCell(page)).toEqual({ sheet: 'Jobs', row: 6, column: columnOf('WaterLineSize') })
  })

  it('a fraction and a share typed into number cells are numbers, and so is what is typed over them', async () => {
    const { page } = await opened()
    const shown = (row: number, column: number) =>
      page.evaluate(
        ([y, x]) => {
          const { getters } = (window as unknown as GridWindow).cisternModel
          return (getters.getEvaluatedCell!({ sheetId: getters.getSheetIdByName!('Jobs'), row: y! - 1, col: x! - 1 }) as { formattedValue: string }).formattedValue
        },
        [row, column],
      )
    for (const [field, typed, held, next] of [
      ['Cover_ft', '1/2', '0.5', '3'],
      ['HouseFlow_gpm', '7 1/2', '7.5', '8'],
      ['Markup', '25%', '0.25', '0.3'],
    ] as const) {
      await typeInto(page, 'Jobs', 6, columnOf(field), typed, held)
      expect(await shown(6, columnOf(field)), field).toBe(held)
      await typeInto(page, 'Jobs', 6, columnOf(field), next)
      expect(await shown(6, columnOf(field)), field).toBe(next)
    }
  })

  it('a takeoff that is undone is not said to be made, and a new workbook is not the file that was open', async () => {
    const { page } = await opened()
    await page.click('button.make')
    await statusSays(page, /^1 takeoff made/)
    await page.click('.o-grid-overlay', { position: { x: 200, y: 80 } })
    await page.keyboard.press('Control+z')
    await statusSays(page, /^Takeoff [^:]+: not here any more, undone or taken away/)
    await page.keyboard.press('Control+y')
    await statusSays(page, /^Takeoff [^:]+: here again/)
    page.on('dialog', (dialog) => void dialog.accept())
    await page.click('#new-empty')
    await page.waitForFunction(() => document.querySelector('#bar-status')?.textContent === 'A new, empty workbook is open.', null, { timeout: 60_000 })
  })

  it('asks before unsaved work leaves the page, and keeps it all the same', async () => {
    const { page } = await opened()
    await typeInto(page, 'Jobs', 6, columnOf('Job'), 'Precious')
    const asked: string[] = []
    page.on('dialog', (dialog) => {
      asked.push(dialog.message())
      void dialog.accept()
    })
    await page.click('#new-demo')
    await page.waitForSelector('#job-picker option[value="Fernlow 12"]', { state: 'attached' })
    expect(asked).toEqual(['This workbook has changes that are not saved as .xlsx. Continue without saving? They stay in this browser until they are thrown away.'])
    await typeInto(page, 'Jobs', 7, columnOf('Job'), 'Second')
    await expect.poll(() => page.evaluate(keptCount), { timeout: 60_000 }).toBe(2)
    await page.reload()
    await page.waitForSelector('#restore:not([hidden]) p:nth-child(2)', { timeout: 60_000 })
    await page.click('#restore p:nth-child(1) button')
    await page.waitForSelector('#job-picker option[value="Precious"]', { state: 'attached', timeout: 60_000 })
  })

  it('keeps what was typed right before a reload, with a takeoff in the workbook', async () => {
    const { page } = await opened()
    page.on('dialog', (dialog) => void dialog.accept())
    await page.click('button.make')
    await statusSays(page, /1 takeoff made/)
    await typeInto(page, 'Jobs', 6, columnOf('Cover_ft'), '2')
    await page.reload()
    await page.waitForSelector('#restore:not([hidden]) button', { timeout: 60_000 })
    await page.click('#restore p:nth-child(1) button')
    await expect.poll(async () => (await cellIn(page, 'Jobs', 6, columnOf('Cover_ft'))).value, { timeout: 60_000 }).toBe(2)
  })

  it('a saved file has its lists, borders and hidden sheets', async () => {
    const { page } = await opened()
    await page.click('button.make')
    await statusSays(page, /1 takeoff made/)
    await page.evaluate(() => {
      const model = (window as unknown as GridWindow).cisternModel
      model.dispatch('HIDE_SHEET', { sheetId: model.getters.getSheetIdByName!('Roofs') })
    })
    await typeInto(page, 'Jobs', 6, columnOf('Site'), '12" culvert \\ road', '="12"&CHAR(34)&" culvert "&CHAR(92)&" road"')
    await typeInto(page, 'Jobs', 40, 3, '=IF(1>0,"5"&CHAR(34),"no")')
    const [download] = await Promise.all([page.waitForEvent('download'), page.click('#save-file')])
    const file = join(tmpdir(), `cistern-e2e-saved-${process.pid}.xlsx`)
    await download.saveAs(file)
    const workbook = new ExcelJS.Workbook()
    await workbook.xlsx.readFile(file)
    expect(workbook.getWorksheet('Roofs')!.state).toBe('hidden')
    const jobs = workbook.getWorksheet('Jobs')!
    expect(jobs.getCell(6, columnOf('Site')).value).toBe('12" culvert \\ road')
    expect(jobs.getCell(40, 3).formula).toBe('IF(1>0,"5"&CHAR(34),"no")')
    expect(jobs.getCell(6, columnOf('SoilClass')).dataValidation.formulae).toEqual(['"rock,A,B,C"'])
    const takeoff = workbook.getWorksheet('Takeoff Fernlow 12')!
    expect(takeoff.getCell(5, 2).border?.bottom?.style).toBe('thin')
    // Saved: nothing is offered after a reload.
    await page.reload()
    await page.waitForSelector('.glance h2', { timeout: 60_000 })
    expect(await page.evaluate(keptCount)).toBe(0)
  })

  it('a first job in an empty office by keyboard alone: at most 40 cells to its figures, then prices, takeoff and a quote that can be printed', async () => {
    const { page, errors } = await opened()
    let [typed, pressed] = [0, 0]
    const press = async (selector: string) => {
      await page.focus(selector)
      await page.keyboard.press('Enter')
      pressed++
    }
    /** Cells side by side; an empty one keeps its default. */
    const typeAcross = async (values: readonly unknown[]) => {
      for (const [at, value] of values.entries()) {
        if (at) await page.keyboard.press('Tab')
        if (value === '') continue
        await page.keyboard.type(String(value))
        typed++
      }
    }
    /** What a row must say, in the order of its columns; the price comes later. */
    const required = (table: 'Tanks' | 'Pumps'): unknown[] => {
      const cells = demoRows(table)[table === 'Tanks' ? 2 : 4]!
      return Object.entries(fieldsOf(table)).flatMap(([name, field]) => (name === 'Price_usd' ? [] : [field.required ? cells[name] : '']))
    }
    await press('#new-empty')
    await page.waitForSelector('.first-steps')
    await press('.first-steps li:nth-child(1) button')
    await typeAcross(required('Tanks'))
    await page.keyboard.press('Enter')
    await press('.first-steps li:nth-child(3) button')
    await typeAcross(required('Pumps'))
    await page.keyboard.press('Enter')
    // A station from its file of days: no mean is typed.
    await press('#first-rain')
    const days = Array.from({ length: 3 * 365 }, (_, at) => `${new Date(Date.UTC(2021, 0, 1 + at)).toISOString().slice(0, 10)},${at % 4 ? 0 : 0.4}`)
    await page.setInputFiles('#rain-file', { name: 'gauge.csv', mimeType: 'text/csv', buffer: Buffer.from(`date,rain_in\n${days.join('\n')}`) })
    await page.focus('#rain-new')
    await typeAcross(['Heron Edge'])
    await press('.add-rain')
    await statusSays(page, /Heron Edge: 3 years of days, 2021 to 2023; .*its means of the months are in row 6 of Rain/)
    await press('.first-steps li:nth-child(4) button')
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('new-Job')
    await typeAcross(['Sedge End', '300 m2', 'Heron', '3', 'Quern', '20', '20', '90', '100'])
    await page.keyboard.press('Enter')
    await page.waitForSelector('.glance .section', { timeout: 60_000 })
    expect(await page.textContent('.glance h2')).toBe('Sedge End')
    expect(await page.textContent('.glance .sum')).toMatch(/\d+ × Quern \d+(?: \(count sized\))?, [\d,]+ gal.*no total yet/)
    expect(await page.textContent('.glance .verdicts')).toContain('Not given')
    // 9 cells of the tank, 13 of the pump, the station’s name, 9 of the job; the rain file is chosen beside. Aims: 40 and 6.
    expect([typed, pressed]).toEqual([32, 6])

    // Prices, in any order: what is missing is a list, and each place a button away. Down the column every row gets one.
    for (const sheet of ['Tanks', 'Pumps']) {
      await page.locator(`button.problem:has-text("${sheet}, row 6, Price_usd")`).press('Enter')
      await expect.poll(async () => (await activeCell(page)).sheet).toBe(sheet)
      await page.keyboard.type('900')
      await page.keyboard.press('Enter')
      await page.waitForSelector(`button.problem:has-text("${sheet}, row 6, Price_usd")`, { state: 'detached' })
    }
    await page.focus('.missing-prices > button')
    await page.keyboard.press('Enter')
    const first = await activeCell(page)
    expect([first.sheet, first.row]).toEqual(['Prices', 6])
    const rows = startingOffice(false).Prices.rows.length
    for (let row = 0; row < rows; row++) {
      await page.keyboard.type('12.5')
      await page.keyboard.press('Enter')
      expect((await cellIn(page, 'Prices', 6 + row, first.column)).value, `row ${6 + row}`).toBe(12.5)
    }
    await expect.poll(() => page.textContent('.glance .sum'), { timeout: 60_000 }).toMatch(/\$[\d,]{4,}/)
    await page.focus('button.make')
    await page.keyboard.press('Enter')
    await statusSays(page, /1 takeoff made: Takeoff Sedge End/)
    await page.focus('#save-file')
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')])
    const folder = mkdtempSync(join(tmpdir(), 'first-job-'))
    await download.saveAs(join(folder, 'first.xlsx'))
    expect(errors).toEqual([])
    const quote = (await inExceljs(readFileSync(join(folder, 'first.xlsx')))).getWorksheet('Quote Sedge End')!
    const words: string[] = []
    quote.eachRow((row) => row.eachCell((cell) => words.push(cell.text)))
    expect(words.join('\n')).toMatch(/Sedge End[\s\S]*PRICE[\s\S]*Tanks\n\d+/)
    expect(quote.pageSetup.fitToWidth).toBe(1)
  })

  it('a second job by keyboard alone: nine fields at the most, and its figures stand there', async () => {
    const { page } = await opened()
    await page.focus('#new-job > summary')
    await page.keyboard.press('Enter')
    let typed = 0
    const field = async (words: string) => {
      await page.keyboard.press('Tab')
      if (words) typed++
      await page.keyboard.type(words)
    }
    // Job, roof, station, people, tank; then the four runs. A list takes the first letters of a name.
    for (const words of ['Sedge End', '300 m2', 'Low', 'some', 'Quern 18', '20', '20', '90', '100']) await field(words)
    await page.keyboard.press('Enter')
    // What is wrong is said beside its field, which has the focus.
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('new-People')
    expect(await page.textContent('#new-People-said')).toContain('some')
    await axeFindsNothing(page)
    await page.keyboard.press('Control+A')
    await page.keyboard.type('3')
    await page.keyboard.press('Enter')
    await statusSays(page, /Sedge End is in row 11 of Jobs/)
    // Its total and verdicts are in sight, not the form.
    await page.waitForFunction(
      () => {
        const { top, bottom } = document.querySelector('.sum')!.getBoundingClientRect()
        return top > 0 && bottom < innerHeight
      },
      null,
      { timeout: 10_000 },
    )
    expect(typed).toBeLessThanOrEqual(12)
    expect(await page.inputValue('#job-picker')).toBe('Sedge End')
    await page.waitForSelector('.glance .section')
    expect(await page.textContent('.glance .sum')).toMatch(/\d × Quern 1800(?: \(count sized\))?, [\d,]+ gal\$[\d,]+/)
    // What nobody typed is open, and said.
    expect(await page.textContent('.glance .verdicts')).toContain('Not given')
  })

  it('takes a file of daily rain from the pane, and says what it holds', async () => {
    const { page } = await opened()
    await page.selectOption('#job-picker', 'Wicket Mill')
    await page.click('#rain > summary')
    // A leap year of a wet day a week, in the plain form, for a station that has means alone.
    const days = Array.from({ length: 366 }, (_, at) => `${new Date(Date.UTC(2024, 0, 1 + at)).toISOString().slice(0, 10)},${at % 7 ? 0 : 12.7}`)
    await page.setInputFiles('#rain-file', { name: 'gauge.csv', mimeType: 'text/csv', buffer: Buffer.from(`date,rain_mm\n${days.join('\n')}`) })
    await page.selectOption('#rain-station', 'Low Fallow')
    await page.click('.add-rain')
    await statusSays(page, /Low Fallow: 1 year of days, 2024 to 2024; largest day 0\.5 in on 2024-01-01/)
    // What is wrong with a file is said, and nothing is written.
    await page.setInputFiles('#rain-file', { name: 'gauge.csv', mimeType: 'text/csv', buffer: Buffer.from('date,temperature_F\n2024-01-01,40') })
    await page.click('.add-rain')
    await statusSays(page, /gauge\.csv/)
    await axeFindsNothing(page)
  })

  it('keeps unsaved work and offers it after a reload', async () => {
    const { page } = await opened()
    await typeInto(page, 'Jobs', 6, columnOf('Job'), 'Renamed')
    await expect.poll(() => page.evaluate(keptCount), { timeout: 60_000 }).toBe(1)
    await page.reload()
    await page.waitForSelector('#restore:not([hidden]) button', { timeout: 60_000 })
    await page.click('#restore button')
    await page.waitForSelector('#job-picker option[value="Renamed"]', { state: 'attached', timeout: 60_000 })
  })

  it('work that one tab goes on with is neither taken nor thrown away by another, and what is broken is told and stays', async () => {
    const { page, address } = await opened()
    await typeInto(page, 'Jobs', 6, columnOf('Job'), 'Renamed')
    await expect.poll(() => page.evaluate(keptCount), { timeout: 60_000 }).toBe(1)
    // Records that no page of ours wrote.
    await page.evaluate(async () => {
      const database = await new Promise<IDBDatabase>((resolve) => {
        const request = indexedDB.open('cistern-sheet')
        request.onsuccess = () => resolve(request.result)
      })
      const store = database.transaction('workbook', 'readwrite').objectStore('workbook')
      store.put(null, 'z nothing')
      store.put({ session: 'z broken', format: 2, data: { sheets: 'x' } }, 'z broken')
      await new Promise((resolve) => (store.transaction.oncomplete = resolve))
      database.close()
    })
    await page.reload()
    await page.waitForSelector('#restore:not([hidden]) p:nth-child(3)', { timeout: 60_000 })
    const other = await page.context().newPage()
    await other.goto(address)
    await other.waitForSelector('#restore:not([hidden]) p:nth-child(3)', { timeout: 60_000 })
    await page.click('#restore p:nth-child(1) button')
    await page.waitForSelector('#job-picker option[value="Renamed"]', { state: 'attached', timeout: 60_000 })
    for (const words of ['Continue with it', 'Throw it away']) {
      await other.click(`#restore p:nth-child(1) >> text=${words}`)
      await expect.poll(() => other.textContent('#bar-status')).toMatch(/^That work is open in another tab of this browser/)
    }
    expect(await page.evaluate(keptCount)).toBe(3)
    // What cannot be shown leaves the workbook that stands here.
    await other.click('#restore p:nth-child(2) >> text=Continue with it')
    await expect.poll(() => other.textContent('#bar-status')).toMatch(/cannot be shown .* It stays where it is kept/)
    expect((await cellIn(other, 'Jobs', 6, columnOf('Job'))).text).toBe('Fernlow 12')
    expect(await other.textContent('#restore')).toContain('that this version of the page cannot read')
    await other.close()
    await page.close({ runBeforeUnload: false })
  })

  it('keeps the work of somebody who types on and on', async () => {
    const { page } = await opened()
    // A change every half second, which is never long enough to think that the typing is over.
    await page.evaluate(() => {
      const { cisternModel: model } = window as unknown as GridWindow
      let people = 1
      setInterval(() => model.dispatch('UPDATE_CELL', { sheetId: model.getters.getSheetIdByName!('Jobs'), row: 5, col: 1, content: `Job ${people++}` }), 500)
    })
    await expect.poll(() => page.evaluate(keptCount), { timeout: 60_000 }).toBe(1)
  })

  it('a takeoff that was made before a reload has its drawings on the page and in the file that is saved after it', async () => {
    const { page } = await opened()
    await page.click('button.make')
    await statusSays(page, /^1 takeoff made/)
    const shown = () =>
      page.evaluate(() => {
        const { getters } = (window as unknown as GridWindow).cisternModel
        return (getters.getSheetIds!() as string[]).reduce((sum, id) => sum + (getters.getFigures!(id) as unknown[]).length, 0)
      })
    const before = await shown()
    expect(before).toBeGreaterThan(5)
    await expect.poll(() => page.evaluate(keptCount), { timeout: 60_000 }).toBe(1)
    await page.reload()
    await page.waitForSelector('#restore:not([hidden]) button', { timeout: 60_000 })
    await page.click('#restore button')
    await expect.poll(shown, { timeout: 60_000 }).toBe(before)
    const [download] = await Promise.all([page.waitForEvent('download'), page.click('#save-file')])
    const saved = join(mkdtempSync(join(tmpdir(), 'drawn-')), 'saved.xlsx')
    await download.saveAs(saved)
    const drawn = new Book(readFileSync(saved), 'saved.xlsx').names().filter((name) => /drawings\/drawing\d+\.xml$/.test(name))
    // Quote, Crew, Design, Handover and Year have pictures, and Drawing is one.
    expect(drawn).toHaveLength(6)
  })

  it('keyboard alone: picks a job, makes its takeoff, finds and inserts a function', async () => {
    const { page, errors } = await opened()
    // Tab stays in the grid; F6 walks on.
    for (let presses = 0; presses < 3 && !(await page.evaluate(() => document.activeElement?.id === 'job-search')); presses++) await page.keyboard.press('F6')
    await page.keyboard.type('pipit')
    await page.waitForFunction(() => document.querySelector('.glance h2')?.textContent === 'Pipit Hollow')
    const reach = async (matches: string) => {
      for (let presses = 0; presses < 60; presses++) {
        if (await page.evaluate((selector) => document.activeElement?.matches(selector) ?? false, matches)) return
        await page.keyboard.press('Tab')
      }
      throw new Error(`Tab never reaches ${matches}.`)
    }
    await reach('#job-picker')
    await reach('button.make')
    await page.keyboard.press('Enter')
    await statusSays(page, /1 takeoff made: Takeoff Pipit Hollow/)
    await reach('#functions > summary')
    await page.keyboard.press('Enter')
    await reach('#function-search')
    await page.keyboard.type('PEAKFLOW')
    await reach('#function-PEAKFLOW > summary')
    await page.keyboard.press('Enter')
    await reach('#function-PEAKFLOW button.insert')
    const before = await activeCell(page)
    await page.keyboard.press('Enter')
    await statusSays(page, /=CISTERN\.PEAKFLOW\(2500,4\.7\) is in /)
    const cell = await cellIn(page, before.sheet, before.row, before.column)
    // 2,500 ft² at 4.7 in/h: 122.08 gpm, the Miami rate of IPC Appendix B.
    expect(cell.text).toBe('=CISTERN.PEAKFLOW(2500,4.7)')
    expect(cell.value).toBeCloseTo(122.08, 2)
    expect(errors).toEqual([])
  })

  it('the menus by keyboard alone: F10 opens them, arrows walk, and File prints', async () => {
    const { page, errors } = await opened()
    const seen = () =>
      page.evaluate(() => ({
        menu: document.querySelector('.o-topbar-menu.active')?.textContent ?? '',
        line: document.querySelector('.o-menu-item-active')?.textContent ?? '',
        open: document.querySelectorAll('.o-menu-wrapper').length,
      }))
    const press = async (key: string, sees: Partial<Awaited<ReturnType<typeof seen>>>) => {
      await page.keyboard.press(key)
      await expect.poll(seen, { timeout: 5000 }).toMatchObject(sees)
    }
    await press('F10', { menu: 'File', open: 1 })
    await press('ArrowDown', { line: 'Print' })
    await press('ArrowRight', { menu: 'Edit', open: 1 })
    await press('ArrowRight', { menu: 'View' })
    await press('ArrowLeft', { menu: 'Edit' })
    await press('Escape', { menu: '', open: 0 })
    // A line with lines of its own opens them.
    await press('F10', { menu: 'File' })
    await press('ArrowLeft', { menu: 'Data' })
    for (const menu of ['File', 'Edit', 'View']) await press('ArrowRight', { menu })
    await press('ArrowDown', { line: 'Show' })
    await press('ArrowRight', { menu: 'View', open: 2 })
    await press('Escape', { menu: 'View', open: 1 })
    await press('Escape', { menu: '', open: 0 })
    expect(errors).toEqual([])
  })

  it('shows the message of a refused function on its cell', async () => {
    const { page } = await opened()
    await typeInto(page, 'Jobs', 30, 3, '=CISTERN.PEAKFLOW(-1,4)')
    const message = await page.evaluate(() => {
      const { getters } = (window as unknown as GridWindow).cisternModel
      return (getters.getEvaluatedCell!({ sheetId: getters.getSheetIdByName!('Jobs'), row: 29, col: 2 }) as { message?: string }).message
    })
    expect(message).toBe('Plan area of the roof (area): 0 to 10,000,000 ft²; got -1.')
  })

  it('makes a native copy and all jobs, with words for what was made', async () => {
    const { page } = await opened()
    await page.check('#all-jobs')
    await page.selectOption('#flavor', 'native')
    await page.click('button.make')
    await statusSays(page, /5 takeoffs made/)
    const errors = await page.evaluate(() => {
      const { getters } = (window as unknown as GridWindow).cisternModel
      return (getters.getSheetIds!() as string[]).flatMap((id) => {
        const name = getters.getSheetName!(id) as string
        return (getters.getEvaluatedCellsPositions!(id) as object[])
          .map((position) => getters.getEvaluatedCell!(position) as { type: string; value: unknown })
          .filter(({ type }) => type === 'error')
          .map(({ value }) => `${name} ${String(value)}`)
      })
    })
    expect(errors).toEqual([])
  })

  describe('an office of many and long names, with little known', () => {
    const site = 'Behind the third gate on the lane that leads down from the upper reservoir to the mill race, ask for the key at no. 7 first'
    const jobs = [
      { ...leastRow, Job: 'Twenty-three characters', Site: site.slice(0, 120), TankCount: 12, PumpModel: 'Lark 150' },
      // Right to left: an invented place in Hebrew letters.
      { ...leastRow, Job: 'חוות הגפן העליונה', Site: 'שביל הבאר 4', TankCount: 3 },
      ...Array.from({ length: 198 }, (_, at) => ({
        ...leastRow,
        Job: `Plot ${at + 1}`,
        ...(at === 0 ? { Cover_ft: -1, People: 'some', RoofArea_ft2: 0, HouseFlow_gpm: 'much', TankGap_in: 1 } : {}),
      })),
    ]
    const raw = officeWith({ Jobs: jobs, Prices: demoRows('Prices').map((row) => ({ ...row, Price_usd: null })) })
    const file = {
      name: 'many.xlsx',
      mimeType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
      buffer: Buffer.from(writeWorkbook(templateWorkbook(raw, { date: '2026-11-26', revision: 1, version: 'test' }))),
    }
    /** Elements of the pane whose words are cut or run out of it. */
    const cut = (page: Page) =>
      page.evaluate(() => {
        const pane = document.querySelector('#pane')!.getBoundingClientRect()
        return [...document.querySelectorAll<HTMLElement>('#pane *')]
          .filter(
            (element) =>
              element.checkVisibility() &&
              !element.closest('svg, select, .unseen') &&
              [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent!.trim() !== ''),
          )
          .filter((element) => {
            const box = element.getBoundingClientRect()
            const isCut = getComputedStyle(element).overflow !== 'visible' && element.scrollWidth > element.clientWidth + 1
            return isCut || box.right > pane.right + 1 || box.left < pane.left - 1
          })
          .map((element) => `${element.tagName} ${element.className}: ${element.textContent!.slice(0, 60)}`)
      })
    it.each([
      [1280, 820, 1],
      [320, 900, 1],
      [350, 900, 2],
    ])('%d by %d px at a zoom of %d: nothing is cut or runs out of the pane, every job can be picked and found', async (width, height, zoom) => {
      const { page } = await opened({ viewport: { width, height } })
      await page.setInputFiles('#file', file)
      await page.waitForFunction(() => document.querySelector('#bar-status')?.textContent?.includes('is open'), null, { timeout: 60_000 })
      await page.evaluate((size) => (document.documentElement.style.zoom = String(size)), zoom)
      expect(await page.locator('#job-picker option').count()).toBeGreaterThanOrEqual(200)
      for (const { Job } of jobs.slice(0, 3)) {
        await page.selectOption('#job-picker', Job)
        await page.waitForFunction((name) => [...document.querySelectorAll('#pane h2')].some(({ textContent }) => textContent === name), Job)
        // Quantities and drawings are there before a price is; what lacks one is under its sheet.
        if (Job !== 'Plot 1') {
          expect(await page.locator('.glance svg').count()).toBeGreaterThan(1)
          expect(await page.textContent('.glance .sum strong')).toMatch(/^no total yet: \d+ lines have no price$/)
          expect(await page.textContent('.problems .missing-prices summary')).toMatch(/^\d+ prices are missing: /)
        }
        expect(await page.locator('.problems').isVisible()).toBe(true)
        expect(await cut(page), Job).toEqual([])
      }
      expect(await page.locator('.problems li').count()).toBeGreaterThan(4)
      await page.fill('#job-search', 'הגפן')
      await expect.poll(() => page.locator('#job-picker option').count()).toBeLessThan(10)
      await axeFindsNothing(page)
      // Nothing of another job stays in sight, its problems neither; and all is there again with the words taken back.
      await page.fill('#job-search', 'no such word')
      await expect.poll(() => page.textContent('.glance-holder')).toBe('No job or site holds "no such word".')
      expect(await page.locator('.problems').isVisible()).toBe(false)
      await page.fill('#job-search', '')
      await page.locator('.problems').waitFor()
    })
  })

  it('the cells of the grid are light or dark as the system is, in its own colours too', async () => {
    /** How bright a picture is on the whole, from 0 to 1. */
    const brightness = async (page: Page): Promise<number> => {
      const picture = await page.locator('#grid canvas').first().screenshot()
      const blank = await page.context().newPage()
      const bright = await blank.evaluate(
        async (source) => {
          const image = new Image()
          image.src = source
          await image.decode()
          const canvas = document.createElement('canvas')
          ;[canvas.width, canvas.height] = [image.width, image.height]
          const context = canvas.getContext('2d')!
          context.drawImage(image, 0, 0)
          const { data } = context.getImageData(0, 0, image.width, image.height)
          let sum = 0
          for (let at = 0; at < data.length; at += 4) sum += (data[at]! + data[at + 1]! + data[at + 2]!) / 3
          return sum / (data.length / 4) / 255
        },
        `data:image/png;base64,${picture.toString('base64')}`,
      )
      await blank.close()
      return bright
    }
    for (const [theme, isDark] of [
      [{ colorScheme: 'light' }, false],
      [{ colorScheme: 'dark' }, true],
      [{ forcedColors: 'active', colorScheme: 'light' }, false],
      [{ forcedColors: 'active', colorScheme: 'dark' }, true],
    ] as const) {
      const { page } = await opened(theme)
      const bright = await brightness(page)
      // White paper with some ink, or the same turned over.
      if (isDark) expect(bright, JSON.stringify(theme)).toBeLessThan(0.3)
      else expect(bright, JSON.stringify(theme)).toBeGreaterThan(0.7)
    }
  })

  it('its menus offer nothing that a saved file would not hold', async () => {
    const { page } = await opened()
    await page.locator('.o-topbar-menu', { hasText: 'Insert' }).click()
    const items = await page.locator('.o-menu').innerText()
    expect(items).toMatch(/Function/)
    expect(items).not.toMatch(/Chart|Pivot|Image|Carousel/)
  })

  it.each([{}, { forcedColors: 'active' as const }])('the sheet takes the mouse, %o', async (theme) => {
    const { page } = await opened({ viewport: { width: 1280, height: 820 }, ...theme })
    const box = (await page.locator('.o-grid-overlay').boundingBox())!
    await page.mouse.click(box.x + 300, box.y + 200)
    const position = () =>
      page.evaluate(() => (window as unknown as { cisternModel: { getters: { getActivePosition(): { col: number; row: number } } } }).cisternModel.getters.getActivePosition())
    expect(await position()).toMatchObject({ col: expect.any(Number) })
    expect((await position()).col).toBeGreaterThan(0)
  })

  it.each([{ colorScheme: 'light' as const }, { colorScheme: 'dark' as const }, { forcedColors: 'active' as const }])(
    'axe finds nothing serious at 320, 340 and 350 px, %o, plain and at 200 %%',
    async (theme) => {
      const { page } = await opened({ viewport: { width: 320, height: 900 }, ...theme })
      await settled(page)
      await page.evaluate(() => document.querySelectorAll('details').forEach((fold) => fold.setAttribute('open', '')))
      for (const width of [320, 340, 350]) {
        await page.setViewportSize({ width, height: 900 })
        for (const zoom of ['1', '2']) {
          await page.evaluate((size) => (document.documentElement.style.zoom = size), zoom)
          await axeFindsNothing(page)
          const overflow = await page.evaluate(() => document.querySelector('#pane')!.scrollWidth - document.querySelector('#pane')!.clientWidth)
          expect(overflow, `${width} px, ${zoom}`).toBeLessThanOrEqual(1)
          // The page as a whole neither, and its bar leaves the sheet its room.
          expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), `page, ${width} px`).toBeLessThanOrEqual(0)
          if (zoom === '1') expect(await page.evaluate(() => document.querySelector('.bar')!.clientHeight), `bar, ${width} px`).toBeLessThan(170)
        }
      }
    },
  )
})
