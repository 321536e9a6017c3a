/**
 * Speed as ratios within one run; a ratio that misses its goal is printed as missed. `npm run bench`, or some parts of
 * it: `npm run bench -- library jobs`. `BENCH_SLOWER=10` plants a slow-down, to see that misses are printed.
 */
import { commands } from './bench/commands.js'
import { calc, days, layouts, memory, reading } from './bench/jobs.js'
import { friction, grid, rain } from './bench/library.js'
import { sink } from './bench/measure.js'
import { bundles, edit, files, firstPaint, page, start, syncs } from './bench/pages.js'

const parts = {
  commands: () => commands(),
  library: () => [friction, grid, rain].forEach((part) => part()),
  jobs: async () => {
    days()
    const plan = layouts()
    reading(plan)
    await calc(plan)
  },
  memory: () => memory(),
  pages: async () => {
    await page()
    await edit()
    await files()
    await start()
    await syncs()
    bundles()
    await firstPaint()
  },
}
const wanted = process.argv.slice(2)
const stranger = wanted.find((name) => !Object.hasOwn(parts, name))
if (stranger !== undefined) throw new Error(`No part ${stranger}; there are ${Object.keys(parts).join(', ')}.`)
for (const [name, part] of Object.entries(parts)) if (!wanted.length || wanted.includes(name)) await part()
if (!Number.isFinite(sink.total)) throw new Error('A benchmark computed nothing.')
