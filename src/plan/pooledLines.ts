/** Lines of several jobs bought as one: what is used is added before it is rounded up to lots, and what comes in lengths keeps each length whole. */
import { orderQuantity } from '../calc/index.js'
import { money } from '../rounding.js'

/** A line of one job: what of it is used and ordered, and where it stands. Of a thousand jobs there are fifty thousand. */
export interface Ordered {
  used: number
  order: number
  price: number
  row: number
  sheet: string
}
/** Lines of the same code and words, waste, lot and supplier; TANK is another thing to buy where its model is another. */
export interface Shared {
  code: string
  supplier: string
  description: string
  unit: string
  waste: number
  lot: number
  /** Goods that one truck brings to a yard; hire and services are of one site, and what is cut for a job has its own list. */
  isPooled: boolean
  /** Comes in sticks, rods, rolls and coils: no length is joined from the ends that others leave. */
  isByLength: boolean
  lines: Ordered[]
}

/** Of a lot; what doubles round off. */
const END_SLACK = 1e-9
/** The longest stick, ft (common practice: steel comes in 21 ft): what comes in longer lots is rolled up, and is one length from end to end. */
const LONGEST_STICK_FT = 21
/** Lots that hold all lengths. Sticks: whole ones of each job, and its rest from the first end that is long enough. Coils: each length whole, from its own lots or an end of others. */
function lotsByLength(lengths_lots: readonly number[], lot: number): number {
  const whole = lengths_lots.map((length) => (lot > LONGEST_STICK_FT ? 0 : Math.floor(length + END_SLACK)))
  const rests = lengths_lots.map((length, at) => length - whole[at]!).filter((rest) => rest > END_SLACK)
  const ends: number[] = []
  let lots = whole.reduce((sum, some) => sum + some, 0)
  for (const rest of rests.sort((one, other) => other - one)) {
    const end = ends.findIndex((room) => rest <= room + END_SLACK)
    if (end >= 0) ends[end]! -= rest
    else {
      const own = Math.ceil(rest - END_SLACK)
      lots += own
      ends.push(own - rest)
    }
  }
  return lots
}

export function together({ lines, waste, lot, isPooled, isByLength }: Shared): { order: number; apart: number; saved: number; price: number } {
  const apart = lines.reduce((sum, line) => sum + line.order, 0)
  const pooled = () =>
    isByLength
      ? lotsByLength(
          lines.map(({ used }) => (used * (1 + waste)) / lot),
          lot,
        ) * lot
      : orderQuantity.run({ net: lines.reduce((sum, line) => sum + line.used, 0), waste, lot })
  const order = isPooled ? pooled() : apart
  // Prices may have been typed over for one job: the lowest is the one to ask for.
  const price = Math.min(...lines.map((line) => line.price))
  return { order, apart, price, saved: money((apart - order) * price) }
}
