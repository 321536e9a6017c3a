/** Pieces cut from sticks or coils of one length: the fewest sticks, proved by the bound of the same problem without whole numbers. */
import { solve, type Model } from 'yalps'
import { firstFit } from './firstFit.js'
import { CUT_SLACK_NUMBER as ROUNDING } from './cutSlack.js'

export interface Piece {
  /** What it is for. */
  of: string
  length: number
  count: number
}
export interface CutPattern {
  /** How many sticks are cut so. */
  times: number
  pieces: readonly Piece[]
  left: number
}
export interface CutPlan {
  sticks: number
  patterns: readonly CutPattern[]
  /** No plan can do with fewer. */
  least: number
}

/** More ways to fill a stick than this are not looked through: they come from pieces far shorter than the stick, where cutting the longest first does. */
const MOST_PATTERNS = 20_000
/** A search that has not ended after so many trials keeps the best that it found: counted, not timed, so that a job is cut alike on every machine. */
const MOST_TRIALS = 4_000

/** Ways to fill a stick so that no further piece fits: counts of each length. A cut takes its kerf, but for the last where nothing is left. */
function fillings(stock: number, kerf: number, pieces: readonly Piece[]): number[][] | undefined {
  const found: number[][] = []
  const counts = pieces.map(() => 0)
  const fill = (at: number, room: number): boolean => {
    const { length, count } = pieces[at]!
    const most = Math.min(count, Math.floor((room + ROUNDING) / (length + kerf)))
    const isLast = at === pieces.length - 1
    for (let taken = most; taken >= (isLast ? most : 0); taken--) {
      counts[at] = taken
      const left = room - taken * (length + kerf)
      if (!isLast) {
        if (!fill(at + 1, left)) return false
      } else if (!pieces.some((piece, other) => counts[other]! < piece.count && piece.length + kerf <= left + ROUNDING)) {
        found.push([...counts])
        if (found.length > MOST_PATTERNS) return false
      }
    }
    counts[at] = 0
    return true
  }
  return fill(0, stock + kerf) ? found.filter((filling) => filling.some((count) => count > 0)) : undefined
}

/** Undefined where a piece is longer than the stick. */
export function cutStock(stock: number, kerf: number, wanted: readonly Piece[]): CutPlan | undefined {
  const pieces = wanted.filter(({ count }) => count > 0).sort((one, other) => other.length - one.length)
  if (!pieces.length) return { sticks: 0, patterns: [], least: 0 }
  if (pieces.some(({ length }) => length > stock + ROUNDING || length <= 0)) return undefined
  const ways = fillings(stock, kerf, pieces)
  if (!ways) return longestFirst()
  const model: Model = {
    direction: 'minimize',
    objective: 'sticks',
    constraints: pieces.map(({ count }, at) => [`piece ${at}`, { min: count }]),
    variables: ways.map((filling, way) => [`${way}`, [['sticks', 1], ...filling.flatMap((count, at): [string, number][] => (count > 0 ? [[`piece ${at}`, count]] : []))]]),
    integers: true,
  }
  const bound = solve({ ...model, integers: false }).result
  const least = Math.ceil(bound - 1e-7)
  // Whole sticks: what lies within the next whole number above the bound is the least.
  const best = solve(model, { maxIterations: MOST_TRIALS, tolerance: (least - bound) / bound + ROUNDING })
  if (!Number.isFinite(best.result)) return longestFirst(least)
  const left = pieces.map(({ count }) => count)
  const patterns = best.variables.flatMap(([way, times]): CutPattern[] => cutBy(ways[Number(way)]!, Math.round(times)))
  return { sticks: patterns.reduce((sum, { times }) => sum + times, 0), patterns, least }

  /** A plan without proof; no plan can do with fewer sticks than the lengths together fill. */
  function longestFirst(atLeast = Math.ceil(pieces.reduce((sum, { length, count }) => sum + length * count, 0) / stock - ROUNDING)): CutPlan {
    const patterns = firstFit(stock, kerf, pieces)
    return { sticks: patterns.reduce((sum, { times }) => sum + times, 0), patterns, least: atLeast }
  }

  /** A plan may hold more pieces than are wanted: the last sticks are cut no further than that. */
  function cutBy(filling: readonly number[], times: number): CutPattern[] {
    const whole = Math.min(times, ...filling.flatMap((count, at) => (count > 0 ? [Math.floor(left[at]! / count)] : [])))
    const made: CutPattern[] = []
    const cut = (counts: readonly number[], sticks: number): void => {
      if (sticks === 0 || counts.every((count) => count === 0)) return
      counts.forEach((count, at) => (left[at]! -= count * sticks))
      const taken = counts.flatMap((count, at) => (count > 0 ? [{ ...pieces[at]!, count }] : []))
      const used = taken.reduce((sum, { length, count }) => sum + count * (length + kerf), 0)
      made.push({ times: sticks, pieces: taken, left: Math.max(0, stock - used) })
    }
    cut(filling, whole)
    for (let stick = whole; stick < times; stick++)
      cut(
        filling.map((count, at) => Math.min(count, left[at]!)),
        1,
      )
    return made
  }
}
