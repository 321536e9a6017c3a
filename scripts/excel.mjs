// Sideloads the add-in into the Excel of this machine, with the debugging tool of Office, which npx brings for the occasion.
// (As a normal dependency it breaks `npm ci` on Linux: its peer needs a native keyring.)
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { homedir } from 'node:os'
import { join } from 'node:path'
import { createServer } from 'node:https'
import { build } from './build.mjs'
import { handler, listen } from './serve.mjs'

if (process.platform === 'linux') {
  console.error('excel: there is no Excel for Linux. Use Excel on the web: see docs/EXCEL.md, "Excel on the web".')
  process.exit(1)
}

const npx = (...words) => spawnSync('npx', ['--yes', ...words], { stdio: 'inherit', shell: process.platform === 'win32' }).status === 0
build()
if (!npx('office-addin-dev-certs@3.0.0', 'install')) {
  console.error('excel: the certificate for https://localhost could not be installed; see the message above.')
  process.exit(1)
}
const certificates = join(homedir(), '.office-addin-dev-certs')
const server = createServer({ key: readFileSync(join(certificates, 'localhost.key')), cert: readFileSync(join(certificates, 'localhost.crt')) }, handler)
const port = await listen(server, 3000)
if (port !== 3000) {
  console.error('excel: the manifest names port 3000 and something else uses it. Free the port and try again.')
  process.exit(1)
}
console.log('excel: serving https://localhost:3000 for Excel; Ctrl+C ends it.')
npx('office-addin-debugging@6.0.3', 'start', 'manifest.xml', 'desktop', '--app', 'excel', '--no-debug')
