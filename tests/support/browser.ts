/** A headless Chromium and the server of the project, for tests in a browser and for pictures. */
import { existsSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright-core'
import { handler } from '../../scripts/serve.mjs'

const candidates = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
]
export const chromiumPath = process.env.CHROMIUM ?? candidates.find((path) => existsSync(path))
export const hasChromium = chromiumPath !== undefined

export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: chromiumPath!,
    headless: true,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  })

export async function serve(): Promise<{ server: Server; address: string }> {
  const server = createServer(handler as never)
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return { server, address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/` }
}

/** A page that remembers what went wrong on it and which requests left its origin. */
export async function watchedPage(browser: Browser, address: string, options: BrowserContextOptions = {}): Promise<{ page: Page; errors: string[]; strangers: string[] }> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options })
  const page = await context.newPage()
  const errors: string[] = []
  const strangers: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text())
  })
  page.on('pageerror', (error) => errors.push(String(error)))
  page.on('request', (request) => {
    if (!request.url().startsWith(address) && !/^(?:data|blob):/.test(request.url())) strangers.push(request.url())
  })
  return { page, errors, strangers }
}
