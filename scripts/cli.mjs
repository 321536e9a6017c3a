// Starts a command in this very process, from one file made of its sources: made anew when a source is newer.
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { execFileSync } from 'node:child_process'
import Module, { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { setFlagsFromString } from 'node:v8'
import { Script } from 'node:vm'
import { installPackages } from './setup.mjs'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const out = join(root, '.cache', 'cli')
/** Node optimises what ran so many bytes of code; thirty times as many as it does of itself. One job is over before that pays (a quarter of its time), fifty are as quick. */
const OPTIMISE_AFTER = 2_000_000
/** Times by which the room for new objects grows: a command fills it at once, and a quarter of its time went into clearing it. */
const ROOM_GROWS = 8

function newest(folder) {
  let most = 0
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name)
    most = Math.max(most, entry.isDirectory() ? newest(path) : statSync(path).mtimeMs)
  }
  return most
}

/** When a source changed last. */
const changedAt = () => Math.max(newest(join(root, 'src')), statSync(join(root, 'package.json')).mtimeMs, statSync(join(root, 'package-lock.json')).mtimeMs)

/** The command as one file; made in a second, and only after a source has changed. */
export async function bundled(name, changed = changedAt()) {
  const file = join(out, `${name}.cjs`)
  if (existsSync(file) && statSync(file).mtimeMs > changed) return file
  mkdirSync(out, { recursive: true })
  for (const old of readdirSync(out)) if (old.startsWith(`${name}.`) && old.endsWith('.compiled')) rmSync(join(out, old), { force: true })
  const { build } = await import('esbuild')
  const part = `${file}.${process.pid}`
  await build({
    entryPoints: [join(root, 'src', 'cli', `${name}.ts`)],
    outfile: part,
    bundle: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    logLevel: 'error',
  })
  renameSync(part, file)
  return file
}

/** A rule with a name that nobody knows is refused before any job runs on it: looked at once after a source has changed. */
async function checkRules(changed) {
  const passed = join(out, 'rules.passed')
  if (existsSync(passed) && statSync(passed).mtimeMs > changed) return
  try {
    execFileSync(process.execPath, [await bundled('rules', changed)], { stdio: ['ignore', 'ignore', 'inherit'] })
  } catch {
    process.exit(1)
  }
  writeFileSync(passed, '')
}

/** What Node made of the file when it ran first: an eighth of a takeoff's time went into making it anew, and two fifths of a formula's. Of this very file: Node tells another one by its length alone. */
const compiledOf = (file) => `${file}.${Math.round(statSync(file).mtimeMs)}.compiled`

/** Runs the file in this process, and keeps what Node made of it where the work is worth keeping. Node itself refuses what another version of it compiled: that is made anew. */
function runCompiled(file, isWorth) {
  const compiled = compiledOf(file)
  const kept = wholeOf(compiled)
  const script = new Script(Module.wrap(readFileSync(file, 'utf8')), {
    filename: file,
    cachedData: kept,
  })
  if (isWorth && script.cachedDataRejected !== false) process.once('exit', () => keep(compiled, script.createCachedData()))
  const module = { exports: {} }
  script.runInThisContext()(module.exports, createRequire(file), module, file, dirname(file))
}

const sumOf = (bytes) => createHash('sha256').update(bytes).digest()
const SUM_BYTES = 32

/** What was kept, where it is all there: Node believes whatever it is given, and dies of half of it. */
function wholeOf(file) {
  if (!existsSync(file)) return undefined
  const all = readFileSync(file)
  const bytes = all.subarray(SUM_BYTES)
  return sumOf(bytes).equals(all.subarray(0, SUM_BYTES)) ? bytes : undefined
}

/** Whole or not at all, for another command may read it meanwhile. Where it cannot be kept, the next command is a little slower, and nothing else. */
function keep(file, bytes) {
  const part = `${file}.${process.pid}`
  try {
    writeFileSync(part, Buffer.concat([sumOf(bytes), bytes]))
    renameSync(part, file)
  } catch {
    rmSync(part, { force: true })
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  setFlagsFromString(`--interrupt-budget=${OPTIMISE_AFTER}`)
  setFlagsFromString(`--semi-space-growth-factor=${ROOM_GROWS}`)
  installPackages()
  const [name, ...words] = process.argv.slice(2)
  const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
  const commands = Object.keys(scripts).filter((one) => scripts[one] === `node scripts/cli.mjs ${one}`)
  if (!commands.includes(name)) {
    const isAsked = name === undefined || name === '--help' || name === '-h'
    console.error(`${commands.map((one) => `npm run -s ${one} -- …`).join('\n')}\n${isAsked ? 'Each takes --help.' : `One of these is wanted; got ${name}.`}`)
    process.exit(isAsked ? 0 : 2)
  }
  const changed = changedAt()
  if (name === 'takeoff') await checkRules(changed)
  const file = await bundled(name, changed)
  process.argv = [process.argv[0], file, ...words]
  // Help uses next to nothing of the file.
  runCompiled(file, !words.some((word) => /^(?:-h|--help)$/.test(word)))
}
