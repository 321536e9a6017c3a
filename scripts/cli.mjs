// Starts a command in this very process, from one file made of its sources: made anew when a source is newer.
import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { setFlagsFromString } from 'node:v8'
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

/** The command as one file; the minutes that a build takes are its caller's, so they are said. */
export async function bundled(name) {
  const file = join(out, `${name}.mjs`)
  const changed = Math.max(newest(join(root, 'src')), statSync(join(root, 'package.json')).mtimeMs, statSync(join(root, 'package-lock.json')).mtimeMs)
  if (existsSync(file) && statSync(file).mtimeMs > changed) return file
  rmSync(join(out, `${name}-parts`), { recursive: true, force: true })
  mkdirSync(out, { recursive: true })
  const { build } = await import('esbuild')
  await build({
    entryPoints: [join(root, 'src', 'cli', `${name}.ts`)],
    // What a command may do without stands in files of their own, read when it is asked for.
    outdir: out,
    entryNames: '[name]',
    chunkNames: `${name}-parts/[name]-[hash]`,
    outExtension: { '.js': '.mjs' },
    splitting: true,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'error',
    // Words of packages that expect to be asked for by require.
    banner: { js: "import { createRequire as cliRequire } from 'node:module'; const require = cliRequire(import.meta.url);" },
  })
  return file
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  setFlagsFromString(`--interrupt-budget=${OPTIMISE_AFTER}`)
  setFlagsFromString(`--semi-space-growth-factor=${ROOM_GROWS}`)
  installPackages()
  const [name, ...words] = process.argv.slice(2)
  const file = await bundled(name)
  process.argv = [process.argv[0], file, ...words]
  await import(pathToFileURL(file).href)
}
