/** Speed as ratios within one run. */
export const made = { date: '2026-11-25', revision: 1, version: 'bench' }
/** What the work came to, so that no work is left out for being of no use. */
export const sink = { total: 0 }

/** The best of several rounds: the least disturbed by the machine. */
export function time(work: () => void, rounds = 7): number {
  let best = Infinity
  for (let round = 0; round < rounds; round++) {
    const start = performance.now()
    work()
    best = Math.min(best, performance.now() - start)
  }
  return best
}
export async function timeAsync(work: () => Promise<unknown>, rounds = 3): Promise<number> {
  let best = Infinity
  for (let round = 0; round < rounds; round++) {
    const start = performance.now()
    await work()
    best = Math.min(best, performance.now() - start)
  }
  return best
}
export const many = (work: () => void, times: number): number =>
  time(() => {
    for (let at = 0; at < times; at++) work()
  }) / times

/** A planted slow-down, to see that a miss is printed: `BENCH_SLOWER=10 npm run bench`. */
const slower = Number(process.env.BENCH_SLOWER ?? 1)
export function report(what: string, ratio: number, limit?: number, unit = 'x'): void {
  const came = limit === undefined ? ratio : ratio * slower
  console.log(`${what.padEnd(92)} ${came.toFixed(2).padStart(7)} ${unit}${limit === undefined ? '' : `   (at most ${limit} ${unit}${came <= limit ? '' : ', MISSED'})`}`)
}
