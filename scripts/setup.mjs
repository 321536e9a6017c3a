// Brings what `npm start` and `npm test` need, and nothing that is there already. No dependencies of its own.
// --tests also looks for a Chromium and LibreOffice Calc, installs them where it may, and says plainly what is missing.
import { execFileSync, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const isCi = process.env.CI === 'true'
const say = (text) => console.log(`setup: ${text}`)

if (Number(process.versions.node.split('.')[0]) < 20) {
  console.error(`setup: Node.js 20 or later is needed; this is ${process.version}.`)
  process.exit(1)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  installPackages()
  if (process.argv.includes('--tests')) installPrograms()
}

/** `npm ci` when node_modules is missing, or was made from another lock file. */
export function installPackages() {
  const stamp = join(root, 'node_modules', '.setup-stamp')
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return
  say('installing packages (npm ci)')
  const { status } = spawnSync('npm', ['ci', '--no-audit', '--no-fund'], { cwd: root, stdio: ['ignore', 'ignore', 'inherit'], shell: process.platform === 'win32' })
  if (status !== 0) {
    console.error('setup: npm ci failed; see its message above.')
    process.exit(1)
  }
  mkdirSync(dirname(stamp), { recursive: true })
  writeFileSync(stamp, lock)
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
