/** The pane of the Excel build in Chromium: office.js blocked, and against the Excel in memory. The strict CSP holds in both. */
import { readFileSync } from 'node:fs'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'
import { hasChromium } from '../support/browser.js'
import { inBrowser, unlessChromiumDies } from '../support/inBrowser.js'

const OFFICE = 'https://appsforoffice.microsoft.com/'

/** What office.js would bring, with the Excel in memory behind it. */
function officeStandIn(): string {
  const source = readFileSync(new URL('../support/memoryExcel.ts', import.meta.url), 'utf8')
  const { outputText } = ts.transpileModule(source, { compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext } })
  return `(() => {
    ${outputText.replace(/^export /gm, '')}
    const book = new MemoryExcel()
    window.memoryBook = book
    window.Excel = { run: book.run }
    window.Office = { onReady: async (callback) => callback({ host: 'Excel' }), HostType: { Excel: 'Excel' }, context: { requirements: { isSetSupported: () => true } }, StartupBehavior: { load: 'Load' }, addin: { setStartupBehavior: async () => undefined } }
    window.CustomFunctions = { bound: [], associate(id) { this.bound.push(id) }, Error: class extends Error {}, ErrorCode: { invalidValue: 1, notAvailable: 2 } }
  })()`
}

describe.runIf(hasChromium)('the pane of the Excel build', unlessChromiumDies, () => {
  const watchedPage = inBrowser()

  it('says in words that office.js did not load', async () => {
    const { page, errors, strangers, address } = await watchedPage()
    await page.route(`${OFFICE}**`, (route) => route.abort())
    await page.goto(`${address}taskpane.html`)
    await page.waitForFunction(() => document.querySelector('#pane')?.textContent?.includes('office.js did not load'))
    expect(errors.filter((text) => !text.includes('ERR_FAILED'))).toEqual([])
    expect(strangers.every((url) => url.startsWith(OFFICE))).toBe(true)
  })

  it('sets a workbook up and makes a takeoff in Excel’s stead, under the strict CSP', async () => {
    const { page, errors, strangers, address } = await watchedPage({ viewport: { width: 350, height: 900 } })
    await page.route(`${OFFICE}**`, (route) => route.fulfill({ contentType: 'text/javascript', body: officeStandIn() }))
    await page.goto(`${address}taskpane.html`)
    await page.click('button.set-up-demo')
    await page.waitForSelector('.glance h2')
    await page.selectOption('#job-picker', 'Wicket Mill')
    await page.click('button.make')
    await page.waitForFunction(() => document.querySelector('.status')?.textContent?.includes('1 takeoff made'))
    const book = await page.evaluate(() => {
      const { memoryBook, CustomFunctions: custom } = window as unknown as {
        memoryBook: { sheets: { name: string; formulas: Map<string, string> }[] }
        CustomFunctions: { bound: string[] }
      }
      return {
        bound: custom.bound.length,
        sheets: memoryBook.sheets.map(({ name, formulas }) => ({
          name,
          cells: formulas.size,
          calls: [...formulas.values()].filter((text) => String(text).includes('CISTERN.')).length,
        })),
      }
    })
    expect(book.bound).toBe(45)
    const design = book.sheets.find(({ name }) => name === 'Design Wicket Mill')!
    expect(design.calls).toBeGreaterThan(20)
    expect(book.sheets.map(({ name }) => name)).toEqual(expect.arrayContaining(['Jobs', 'Takeoff Wicket Mill', 'Year Wicket Mill', 'Published tables']))
    // A breach of the CSP would be a console error.
    expect(errors).toEqual([])
    expect(strangers.every((url) => url.startsWith(OFFICE))).toBe(true)
    const csp = await page.getAttribute('meta[http-equiv="Content-Security-Policy"]', 'content')
    expect(csp).not.toMatch(/unsafe/)
  })
})
