/** Takes the pictures of the README: the page and the pane in Chromium, the sheets through Calc. `npm run pictures` */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import packageJson from '../package.json' with { type: 'json' }
import { writeWorkbook } from '../src/hosts/file.js'
import { takeoffWorkbook } from '../src/plan/workbook.js'
import { startingOffice } from '../src/takeoff/demo.js'
import { readOffice, rowNamed } from '../src/takeoff/office.js'
import { makeTakeoff } from '../src/takeoff/takeoff.js'
import { launch, serve, watchedPage } from '../tests/support/browser.js'
import { convertWithCalc } from '../tests/support/calc.js'

const out = 'docs/pictures'
const browser = await launch()
const { server, address } = await serve()
const { page } = await watchedPage(browser, address, { viewport: { width: 1280, height: 820 } })
await page.goto(address)
await page.waitForSelector('.glance h2')
await page.selectOption('#job-picker', 'Wicket Mill')
await page.waitForTimeout(500)
await page.screenshot({ path: `${out}/page.png` })
await page.click('button.make')
await page.waitForFunction(() => document.querySelector('.status')?.textContent?.includes('made'))
await page.waitForTimeout(500)
await page.screenshot({ path: `${out}/takeoff-in-page.png` })
for (const [name, options] of [
  ['light', {}],
  ['dark', { colorScheme: 'dark' as const }],
] as const) {
  const { page: pane } = await watchedPage(browser, address, { viewport: { width: 350, height: 1000 }, ...options })
  await pane.goto(address)
  await pane.waitForSelector('.glance h2')
  await pane.selectOption('#job-picker', 'Wicket Mill')
  await pane.waitForTimeout(400)
  await pane.locator('#pane').screenshot({ path: `${out}/pane-${name}.png` })
  if (name === 'light') {
    await pane.evaluate(() => document.querySelectorAll('#functions, #function-FRICTIONLOSS').forEach((fold) => fold.setAttribute('open', '')))
    await pane.fill('#function-search', 'friction')
    await pane.locator('#functions').screenshot({ path: `${out}/functions.png` })
  }
}
await browser.close()
server.close()

const folder = mkdtempSync(join(tmpdir(), 'pictures-'))
const raw = startingOffice(true)
const office = readOffice(raw)
for (const name of ['Wicket Mill', 'Pipit Hollow']) {
  const file = join(folder, `${name.replace(' ', '-')}.xlsx`)
  writeFileSync(
    file,
    await writeWorkbook(takeoffWorkbook(raw, [makeTakeoff(office, rowNamed(office, 'Jobs', name)!)], 'native', { date: '2026-11-25', revision: 1, version: packageJson.version })),
  )
  const pdf = await convertWithCalc(file, 'pdf', folder)
  const stem = `${out}/${name.toLowerCase().replace(' ', '-')}`
  const pages = execFileSync('pdftotext', [pdf, '-'], { encoding: 'utf8' }).split('\f')
  for (const [sheet, heading] of Object.entries({ takeoff: 'Itemized takeoff', quote: 'Quote', design: 'Design:', crew: 'Crew:', test: 'Test record' })) {
    const page = String(pages.findIndex((text) => text.includes(heading)) + 1)
    execFileSync('pdftoppm', ['-r', '80', '-f', page, '-l', page, '-singlefile', '-png', pdf, `${stem}-${sheet}`])
  }
}
