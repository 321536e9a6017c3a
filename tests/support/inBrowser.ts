/** What the tests of both panes share: one Chromium, one server, watched pages. */
import type { Server } from 'node:http'
import type { Browser, BrowserContextOptions } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest'
import { launch, serve, watchedPage } from './browser.js'

/** Chromium itself dies now and then in its first second; such a test is tried once more in a new one. Any other failure stands. */
export const unlessChromiumDies = { retry: { count: 1, condition: /browser has been closed/ } }

export function inBrowser() {
  let browser: Browser | undefined
  let server: Server
  let address: string
  beforeAll(async () => {
    ;({ server, address } = await serve())
  })
  beforeEach(async () => {
    if (!browser?.isConnected()) browser = await launch()
  })
  // A page left open works on beside the next ones.
  afterEach(async () => {
    await Promise.all(browser?.contexts().map((context) => context.close()) ?? [])
  })
  afterAll(async () => {
    await browser?.close()
    server.close()
  })
  return async (options: BrowserContextOptions = {}) => ({ ...(await watchedPage(browser!, address, options)), address })
}
