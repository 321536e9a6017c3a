/** Pieces cut in the order of their lengths, each from the first stick that has room: no proof that it is the fewest, but always a plan. */
import type { CutPattern, Piece } from './cutStock.js'
import { CUT_SLACK_NUMBER as ROUNDING } from './cutSlack.js'

export function firstFit(stock: number, kerf: number, longestFirst: readonly Piece[]): CutPattern[] {
  // A cut takes its kerf, but for the last where nothing is left.
  const sticks: { room: number; counts: number[] }[] = []
  longestFirst.forEach(({ length, count }, at) => {
    for (let piece = 0; piece < count; piece++) {
      let stick = sticks.find(({ room }) => length + kerf <= room + ROUNDING)
      if (!stick) sticks.push((stick = { room: stock + kerf, counts: longestFirst.map(() => 0) }))
      stick.room -= length + kerf
      stick.counts[at]!++
    }
  })
  const alike = new Map<string, CutPattern & { times: number }>()
  for (const { room, counts } of sticks) {
    const known = alike.get(counts.join())
    if (known) known.times++
    else alike.set(counts.join(), { times: 1, pieces: longestFirst.flatMap((piece, at) => (counts[at] ? [{ ...piece, count: counts[at]! }] : [])), left: Math.max(0, room - kerf) })
  }
  return [...alike.values()]
}
