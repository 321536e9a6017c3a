/** The smallest tank, in whole hundredths of a gallon, that reaches a reliability: it does, and the next smaller one does not. */
import { MOST_GAL } from './balance.js'
import { shortNumber } from '../../rounding.js'
import { gallons, sizeOf, type TankWalk } from './tankWalk.js'

/** With so few periods missing it pays to look at each of them. */
const FEW_PERIODS = 100
/** Sums of 40,000 periods may be off by less than this share. */
const SUMS_DIFFER = 1e-9
const MOST = MOST_GAL * 100

/** The smallest tank that supplies a share of the demand; undefined where none does. */
export function smallestByVolume(tank: TankWalk, share: number): number | undefined {
  const first = nearVolume(tank, share)
  let [short, enough] = [-1, MOST + 1]
  for (let size = first, stride = 1; size !== undefined && enough - short > 1; stride *= 2) {
    const [supplied, suppliedBelow, wanted] = tank.bothSupplied(size)
    const isEnough = wanted === 0 || shortNumber(supplied / wanted) >= share
    const isLess = size > 0 && (wanted === 0 || shortNumber(suppliedBelow / wanted) >= share)
    if (isLess) enough = size - 1
    else if (isEnough) return gallons(size)
    else short = size
    const next = isLess ? size - stride : size + stride
    size = next > short && next < enough ? next : Math.floor((short + enough) / 2)
  }
  return first === undefined || enough > MOST ? undefined : gallons(enough)
}

/** Near the size that supplies a share of the demand: along tangents, which meet the goal where the broken line does or before. */
function nearVolume(tank: TankWalk, share: number): number | undefined {
  const goal_gal = share * tank.wanted_gal
  const some = tank.begin()
  const begin = (some && nearVolume(some, share)) ?? 0
  let size = begin
  for (let slopeBefore = 0; ;) {
    const { volume, slope } = tank.supplied(size)
    const short_gal = goal_gal - volume
    if (slope === 0) {
      if (short_gal > SUMS_DIFFER * goal_gal) return undefined
      // A flat line says nothing about where it began, unless it was come to from below.
      if (size !== begin || size === 0) return size
      size = 0
      continue
    }
    const next = sizeOf(gallons(size) + short_gal / slope)
    // Two points with one slope lie on one piece of the line, and so does the goal; within a gallon the next piece hardly differs.
    if (Math.abs(next - size) <= 100 || (short_gal > 0 && slope === slopeBefore)) return next
    slopeBefore = slope
    size = next
  }
}

/** The smallest tank that meets a share of the periods in full: in growing strides, then along chords, and where few periods are missing, by what the last of them lacks. */
export function smallestByTime(tank: TankWalk, share: number): number | undefined {
  const periods = tank.inflow.length
  // The least count whose share is enough: a product rounded up may be one too many, as 0.07 of 100 is.
  const rounded = Math.ceil(share * periods)
  const wanted = (rounded - 1) / periods >= share ? rounded - 1 : rounded
  const some = tank.begin()
  const begin = some && smallestByTime(some, share)
  let size = Math.min(sizeOf(begin ?? (10 * tank.wanted_gal) / periods), MOST)
  // What an eighth of a record says is a few percent off; a wish that no tank meets is to be known soon.
  let stride = Math.ceil(size / 50) + 1
  let [short, lacking] = [-1, wanted]
  let [enough, over] = [MOST + 1, 0]
  let weight = 1
  let wasEnough: boolean | undefined
  while (enough - short > 1) {
    const met = tank.metInFull(size)
    const isEnough = met >= wanted
    if (isEnough) [enough, over] = [size, met - wanted]
    else [short, lacking] = [size, wanted - met]
    const missing_gal = !isEnough && lacking <= FEW_PERIODS ? tank.missing_gal(size, gallons(enough - size))[lacking - 1] : undefined
    if (missing_gal !== undefined) {
      const foreseen = sizeOf(gallons(size) + missing_gal)
      const [metThere, metBelow] = tank.bothMetInFull(foreseen)
      if (metThere >= wanted && metBelow < wanted) return gallons(foreseen)
      if (metBelow >= wanted) [enough, over] = [foreseen - 1, metBelow - wanted]
      else [short, lacking] = [foreseen, wanted - metThere]
    }
    // An end that stays where it is counts half, and half again: the chord would hardly move it.
    weight = isEnough === wasEnough ? weight / 2 : 1
    wasEnough = isEnough
    if (short >= 0 && enough <= MOST) {
      const under = isEnough ? lacking * weight : lacking
      const above = isEnough ? over + 0.5 : (over + 0.5) * weight
      size = Math.min(short + 1 + Math.floor(((enough - short) * under) / (under + above)), enough - 1)
    } else {
      size = isEnough ? Math.max(0, size - stride) : Math.min(size + stride, MOST)
      stride *= 8
    }
  }
  return enough > MOST ? undefined : gallons(enough)
}
