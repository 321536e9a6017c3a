/** The page's own server: what it shows, and to whom. */
import { spawnSync } from 'node:child_process'
import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, get, type IncomingMessage, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { handler } from '../scripts/serve.mjs'

const root = join(import.meta.dirname, '..')
const beside = join(root, 'dist-private-test')
const own = join(root, 'dist', 'server-test.html')
let server: Server

beforeAll(async () => {
  for (const [folder, file] of [
    [beside, join(beside, 'secret.txt')],
    [join(root, 'dist'), own],
  ] as const) {
    mkdirSync(folder, { recursive: true })
    writeFileSync(file, 'words')
  }
  server = createServer(handler as never)
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
})
afterAll(() => {
  server.close()
  rmSync(beside, { recursive: true })
  rmSync(own)
})

// Node's own client: fetch would tidy the path before it asks.
const ask = (path: string, headers: Record<string, string> = {}) =>
  new Promise<IncomingMessage>((resolve, reject) => {
    get({ host: '127.0.0.1', port: (server.address() as AddressInfo).port, path, headers }, (response) => resolve(response.resume())).on('error', reject)
  })

describe('the server of the page', () => {
  it('shows no folder beside its own, however the way is written', async () => {
    expect((await ask('/server-test.html')).statusCode).toBe(200)
    for (const path of ['/..%2fdist-private-test/secret.txt', '/../dist-private-test/secret.txt', '/%2e%2e/package.json']) expect((await ask(path)).statusCode, path).toBe(404)
  })
  it('answers this machine alone, and not into another page’s frame', async () => {
    expect((await ask('/server-test.html', { Host: 'elsewhere.example' })).statusCode).toBe(403)
    expect((await ask('/server-test.html')).headers['content-security-policy']).toBe("frame-ancestors 'none'")
  })
  it('sends nothing again that has not changed', async () => {
    const { headers } = await ask('/server-test.html')
    const answer = async (asked: string) => (await ask('/server-test.html', { 'If-None-Match': asked })).statusCode
    // RFC 9110, 13.1.2: one tag, a list, weak ones compared as strong, or any.
    for (const asked of [headers.etag!, `W/${headers.etag!}`, `"other", ${headers.etag!}`, '*']) expect(await answer(asked), asked).toBe(304)
    expect(await answer('"other"')).toBe(200)
  })
  it('packs for who takes it', async () => {
    // RFC 9110, 12.4.2: a weight of 0 is "not acceptable".
    const coding = async (accepted: string) => (await ask('/server-test.html', { 'Accept-Encoding': accepted })).headers['content-encoding']
    expect([await coding('gzip, br'), await coding('gzip;q=0.5'), await coding('gzip;q=0, br'), await coding('br')]).toEqual(['gzip', 'gzip', undefined, undefined])
  })
  it('says what PORT takes', () => {
    const { status, stderr } = spawnSync(process.execPath, ['scripts/serve.mjs'], { cwd: root, env: { ...process.env, PORT: 'soon', NO_BROWSER: '1' }, encoding: 'utf8' })
    expect(stderr).toContain('PORT: a whole number, 1 to 65485; got soon.')
    expect(status).toBe(1)
  }, 120_000)
})
