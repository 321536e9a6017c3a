/** How a storm divides between the overflows of the inlet tank and those of its neighbour behind a tie: so that the levels agree. */
import { MOUTH_DISCHARGE, overflowHead } from '../calc/pipe/overflowHead.js'

export interface Storm {
  far_gpm: number
  next_gpm: number
  overflowsAtInlet: number
  overflowsNext: number
  portBore_in: number
  losses: number
  /** Level that the whole storm would take at a tie. */
  tieHeadAtAll_ft: number
}

/** Each halving leaves half of the doubt: the heads themselves are known to some millionths, and so is the share. */
const HALVINGS = 24

/** Share of the whole storm that passes the tie towards the next tank; negative the other way. */
export function tieShare(storm: Storm): number {
  const { far_gpm, next_gpm, overflowsAtInlet, overflowsNext, portBore_in, losses, tieHeadAtAll_ft } = storm
  const all = far_gpm + next_gpm
  if (all <= 0 || overflowsAtInlet + overflowsNext <= 0) return 0
  if (overflowsAtInlet === 0) return far_gpm / all
  if (overflowsNext === 0) return -next_gpm / all
  const head = (flow: number, count: number) => overflowHead.run({ flow_gpm: Math.max(0, flow) / count, bore_in: portBore_in, losses, discharge: MOUTH_DISCHARGE })
  const surplus = (share: number) =>
    head(far_gpm - share * all, overflowsAtInlet) - head(next_gpm + share * all, overflowsNext) - Math.sign(share) * tieHeadAtAll_ft * share * share
  let [low, high] = [-next_gpm / all, far_gpm / all]
  for (let at = 0; at < HALVINGS; at++) {
    const middle = (low + high) / 2
    if (surplus(middle) > 0) low = middle
    else high = middle
  }
  return (low + high) / 2
}
