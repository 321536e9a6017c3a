/** The cut list of a job: pieces of all lines that share a stock, cut together from as few sticks as there can be. */
import { grouped } from '../errors.js'
import { cutStock, type CutPlan, type Piece } from './cutStock.js'
import type { Takeoff } from './takeoff.js'

export interface StockCuts {
  stock: string
  stick_ft: number
  plan: CutPlan
  /** Sticks that the lines order each for itself. */
  apart: number
  /** A line a way of cutting, in words. */
  words: readonly string[]
}

const inches = (feet: number): string => `${grouped(Math.round(feet * 120) / 10)} in`

export function cutList({ lines, design }: Takeoff): StockCuts[] {
  const kerf_ft = design.number('SawKerf_in') / 12
  const byStock = new Map<string, { stock: string; stick_ft: number; pieces: Piece[]; apart: number }>()
  for (const { cut, rule, net, order, override, description } of lines) {
    if (!cut || override === 0) continue
    // A quantity that somebody typed says how much is bought; a piece stays as long as it is.
    const length = net / cut.count
    // A piece longer than a stick is joined as it comes.
    if (length > rule.lot || length <= 0) continue
    const key = `${cut.stock}\n${rule.lot}`
    const known = byStock.get(key) ?? { stock: cut.stock, stick_ft: rule.lot, pieces: [], apart: 0 }
    known.pieces.push({ of: description, length, count: cut.count })
    known.apart += Math.round(order / rule.lot)
    byStock.set(key, known)
  }
  return [...byStock.values()].flatMap(({ pieces, ...of }) => {
    const plan = cutStock(of.stick_ft, kerf_ft, pieces)
    return plan ? [{ ...of, plan, words: wordsOf(plan) }] : []
  })
}

/** What is not proved is said: the plan may not be the fewest. */
const wordsOf = ({ patterns, sticks, least }: CutPlan): string[] => [
  ...patterns.map(
    ({ times, pieces, left }) =>
      `${times} ${times === 1 ? 'stick' : 'sticks'}${times === 1 ? '' : ', each'}: ${pieces.map(({ count, length, of }) => `${count} × ${inches(length)} (${of})`).join(', ')}; ${inches(left)} left`,
  ),
  ...(sticks > least ? [`${sticks} sticks so; ${least} at the least: another way of cutting may save one`] : []),
]
