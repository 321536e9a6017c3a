// Everything that is checked before the tests, in two lanes side by side; what fails is printed whole, by name.
import { spawn } from 'node:child_process'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const tool = (name, ...words) => [process.execPath, [join(root, 'node_modules', ...name.split('/')), ...words]]
const lanes = [
  {
    'the generated index': [process.execPath, [join(root, 'scripts', 'make-index.mjs'), '--check']],
    'the generated files': tool('tsx/dist/cli.mjs', join(root, 'scripts', 'write-generated.ts'), '--check'),
    types: tool('typescript/bin/tsc', '--noEmit'),
    'the pages': [process.execPath, [join(root, 'scripts', 'build.mjs')]],
  },
  {
    lint: tool('eslint/bin/eslint.js', 'src', 'functions', 'taskpane', 'tests', 'scripts'),
    format: tool('prettier/bin/prettier.cjs', '--check', '--log-level', 'warn', '.'),
  },
]

const run = (name, [command, words]) =>
  new Promise((resolve) => {
    const child = spawn(command, words, { cwd: root })
    let said = ''
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text))
    child.on('error', (error) => resolve({ name, said: String(error), failed: true }))
    child.on('close', (code) => resolve({ name, said, failed: code !== 0 }))
  })

const failed = []
await Promise.all(
  lanes.map(async (lane) => {
    for (const [name, call] of Object.entries(lane)) {
      const outcome = await run(name, call)
      if (outcome.failed) failed.push(outcome)
    }
  }),
)
for (const { name, said } of failed) console.error(`check: ${name} failed\n${said}`)
process.exitCode = failed.length ? 1 : 0
