// Builds dist/ when anything it is made of has changed; says nothing when it is current.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { transformSync } from 'esbuild'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const stamp = join(root, 'dist', '.stamp')

function* files(path) {
  if (statSync(path).isDirectory()) for (const name of readdirSync(path).sort()) yield* files(join(path, name))
  else yield path
}

export function build() {
  const hash = createHash('sha256')
  for (const part of ['src', 'functions', 'taskpane', 'scripts', 'docs', 'manifest.xml', 'webpack.config.mjs', 'package-lock.json', 'tsconfig.json']) {
    if (!existsSync(join(root, part))) continue
    for (const file of files(join(root, part))) if (!/\.png$/.test(file) || file.includes('assets')) hash.update(file.slice(root.length)).update(readFileSync(file))
  }
  const now = hash.digest('hex')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === now) return
  console.log('build: making the pages (half a minute the first time)')
  const run = (command, ...words) => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, 'node_modules', command), ...words], { cwd: root, encoding: 'utf8' })
    if (status !== 0) {
      console.error(`${stdout}\n${stderr}`)
      console.error(`build: ${command} failed.`)
      process.exit(1)
    }
  }
  run('tsx/dist/cli.mjs', 'src/cli/rules.ts')
  run('webpack/bin/webpack.js')
  makeSmall()
  run('tsx/dist/cli.mjs', 'scripts/write-generated.ts', '--dist')
  writeFileSync(stamp, now)
}

/** The page's own scripts, without what only people read; webpack's minifier takes a minute for what this does in a second. Names stay: the grid finds its parts by them. */
function makeSmall() {
  for (const name of readdirSync(join(root, 'dist'))) {
    if (!/^local.*\.js$/.test(name)) continue
    const file = join(root, 'dist', name)
    const { code } = transformSync(readFileSync(file, 'utf8'), { minify: true, keepNames: true, legalComments: 'inline', target: 'es2022' })
    writeFileSync(file, code)
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) build()
