/** Commands as whole processes, against a bare start of node. */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { report, sink, time } from './measure.js'

const cli = join(import.meta.dirname, '..', 'cli.mjs')
const run = (words: readonly string[]) => () => void (sink.total += execFileSync(process.execPath, words, { stdio: ['ignore', 'pipe', 'inherit'] }).length)

export function commands(): void {
  const folder = mkdtempSync(join(tmpdir(), 'bench-'))
  const cell = run([cli, 'cell', '=CISTERN.FRICTIONLOSS(10,100,1.049)'])
  const takeoff = run([cli, 'takeoff', '--job', 'Wicket Mill', '--replace', '--out', join(folder, 'out.xlsx')])
  // The first start makes the one file of each.
  for (const work of [cell, takeoff]) work()
  const bare = time(run(['-e', '0']), 7)
  report('cell as a whole process, against node -e 0', time(cell, 5) / bare, 4)
  report('one takeoff as a whole process, against node -e 0', time(takeoff, 5) / bare, 10)
  rmSync(folder, { recursive: true, force: true })
}
