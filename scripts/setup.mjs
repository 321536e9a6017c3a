// Brings what `npm start` and `npm test` need, and nothing that is there already. No dependencies of its own.
// --tests also looks for a Chromium and LibreOffice Calc, installs them where it may, and says plainly what is missing.
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const isCi = process.env.CI === 'true'
/** Beside what a command answers: that may be read by another program. */
const say = (text) => console.error(`setup: ${text}`)

if (Number(process.versions.node.split('.')[0]) < 20) {
  console.error(`setup: Node.js 20 or later is needed; this is ${process.version}.`)
  process.exit(1)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  installPackages()
  if (process.argv.includes('--tests')) installPrograms()
}

/** `npm ci` when node_modules is missing, or was made from another lock file; one at a time, for two in one folder break each other. */
export function installPackages() {
  if (isInstalled()) return
  const busy = join(root, '.cache', 'installing')
  mkdirSync(dirname(busy), { recursive: true })
  for (let waited = 0; !taken(busy); waited++) {
    if (!waited) say('another command is installing packages here; waiting for it')
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1000)
  }
  try {
    if (isInstalled()) return
    say('installing packages (npm ci)')
    const { status } = spawnSync('npm', ['ci', '--no-audit', '--no-fund'], { cwd: root, stdio: ['ignore', 'ignore', 'inherit'], shell: process.platform === 'win32' })
    if (status !== 0) {
      console.error('setup: npm ci failed; see its message above.')
      process.exitCode = 1
    }
  } finally {
    rmSync(busy, { force: true })
  }
  if (process.exitCode) process.exit()
}

/** What npm wrote down of an install, whoever started it, against the lock file; packages of other machines are left out of it. */
function isInstalled() {
  const done = join(root, 'node_modules', '.package-lock.json')
  const wanted = join(root, 'package-lock.json')
  if (!existsSync(done)) return false
  // The usual case, at each command: installed since the lock file was written.
  if (statSync(done).mtimeMs >= statSync(wanted).mtimeMs) return true
  const packagesOf = (file) => JSON.parse(readFileSync(file, 'utf8')).packages
  const here = packagesOf(done)
  return Object.entries(packagesOf(wanted)).every(([path, { version, optional }]) => path === '' || (here[path] ? here[path].version === version : optional))
}

/** Whether this command may install: a file is made by one alone, and holds its process; one whose process is gone, as after Ctrl+C, counts no more. */
function taken(busy) {
  try {
    writeFileSync(busy, String(process.pid), { flag: 'wx' })
    return true
  } catch (error) {
    if (error.code !== 'EEXIST') throw error
    if (!isRunning(Number(existsSync(busy) ? readFileSync(busy, 'utf8') : 0))) rmSync(busy, { force: true })
    return false
  }
}
function isRunning(pid) {
  try {
    return pid > 0 && process.kill(pid, 0)
  } catch (error) {
    return error.code === 'EPERM'
  }
}

/** Programs that some tests drive: where they may stand, and the Debian packages that bring them. */
function installPrograms() {
  const programs = [
    {
      name: 'Chromium',
      variable: 'CHROMIUM',
      paths: [
        '/usr/bin/chromium',
        '/usr/bin/chromium-browser',
        '/usr/bin/google-chrome',
        '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
        '/Applications/Chromium.app/Contents/MacOS/Chromium',
        'C:/Program Files/Google/Chrome/Application/chrome.exe',
      ],
      packages: ['chromium', 'fonts-liberation'],
      skipped: 'the tests in a browser',
    },
    {
      name: 'LibreOffice Calc',
      variable: 'SOFFICE',
      paths: [
        '/usr/bin/soffice',
        '/usr/lib/libreoffice/program/soffice',
        '/Applications/LibreOffice.app/Contents/MacOS/soffice',
        'C:/Program Files/LibreOffice/program/soffice.exe',
      ],
      packages: ['libreoffice-calc-nogui', 'fonts-liberation', 'fonts-crosextra-carlito'],
      skipped: 'the recalculation of workbooks by Calc',
    },
    {
      name: 'pdftotext',
      variable: 'PDFTOTEXT',
      paths: ['/usr/bin/pdftotext', '/usr/local/bin/pdftotext', '/opt/homebrew/bin/pdftotext'],
      packages: ['poppler-utils'],
      skipped: 'the counting of printed pages',
    },
  ]
  const isThere = ({ variable, paths }) => (process.env[variable] && existsSync(process.env[variable])) || paths.some(existsSync)
  const missing = programs.filter((program) => !isThere(program))
  if (missing.length && mayInstall()) {
    say(`installing ${missing.map(({ name }) => name).join(' and ')}`)
    const apt = (...words) => spawnSync('apt-get', words, { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } })
    apt('update', '-qq')
    apt('install', '-y', '-qq', '--no-install-recommends', ...new Set(missing.flatMap(({ packages }) => packages)))
  }
  const still = missing.filter((program) => !isThere(program))
  for (const { name, variable, packages, skipped } of still) {
    say(`no ${name} was found: ${skipped} will be skipped. To get it: install the packages ${packages.join(' ')}, or set ${variable} to its path.`)
  }
  if (still.length && isCi) {
    console.error('setup: in CI nothing may be skipped.')
    process.exit(1)
  }
}

function mayInstall() {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return false
  try {
    execFileSync('apt-get', ['--version'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
}
