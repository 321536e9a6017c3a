/** The year as a chart: what is stored at each month's end, what the month asks for, and hatched what is missing. The mean of the daily record where there is one, else mean months. */
import type { Design } from '../../takeoff/design.js'
import { monthNames } from '../../takeoff/officeTables.js'
import { rectangle, type Picture, type PlacedWords, type Shape } from './picture.js'

/** In units of the chart: a month, a bar, the height of full tanks, the room for the names of the months. */
const [MONTH, BAR, HIGH, FOOT] = [2, 1.4, 5, 1.3]
/** A month that ends within this share of full tanks counts as full, one that lacks more than this share of its use as short. */
const [FULL, SHORT] = [0.995, 0.01]
const isShort = (missing_gal: number, wanted_gal: number): boolean => missing_gal > 0.5 && missing_gal > SHORT * wanted_gal

const figures = ['stored', 'wanted', 'supplied'] as const
const ofMeans = { stored: 'MonthStored_gal', wanted: 'MonthDemand_gal', supplied: 'MonthSupplied_gal' } as const
interface Year {
  stored: readonly number[]
  wanted: readonly number[]
  missing: readonly number[]
  holds: number
}
function yearOf(design: Design): Year {
  const [stored, wanted, supplied] = figures.map((name) => design.balance?.months.map((month) => month[`${name}_gal`]) ?? design.column(ofMeans[name])) as [
    readonly number[],
    readonly number[],
    readonly number[],
  ]
  return { stored, wanted, missing: wanted.map((gallons, at) => Math.max(0, gallons - supplied[at]!)), holds: Math.max(1, design.number('UsableStorage_gal')) }
}

/** What the chart is drawn from and how many months end full or fall short, in words. */
export function yearSource(design: Design): string {
  const { stored, wanted, missing, holds } = yearOf(design)
  const years = design.balance?.years.length
  const full = stored.filter((gallons) => gallons >= FULL * holds).length
  const short = missing.filter((gallons, at) => isShort(gallons, wanted[at]!)).length
  const from = years === undefined ? 'Mean months' : `Mean of ${years} ${years === 1 ? 'year' : 'years'} of days`
  return `${from}: stored above the dead depth at the month’s end. ${full} ${full === 1 ? 'month ends' : 'months end'} full${short ? `; ${short} short, hatched` : ''}`
}

/** `volume` writes gallons in the units that the reader chose, such as "5,306 gal". */
export function yearPicture(design: Design, volume: (gallons: number) => string): Picture {
  const { stored, wanted, missing, holds } = yearOf(design)
  // A demand larger than the tanks would leave the page.
  const tall = (gallons: number) => HIGH * Math.min(1, gallons / holds)
  const shapes: Shape[] = []
  const texts: PlacedWords[] = []
  monthNames.forEach((month, at) => {
    const left = at * MONTH + (MONTH - BAR) / 2
    const top = tall(stored[at]!)
    const short = tall(missing[at]!)
    if (top > 0) shapes.push({ kind: 'area', role: 'water', points: rectangle(left, HIGH - top, BAR, top) })
    if (isShort(missing[at]!, wanted[at]!)) shapes.push({ kind: 'area', role: 'short', points: rectangle(left, Math.max(0, HIGH - top - short), BAR, Math.min(short, HIGH - top)) })
    const tick = HIGH - tall(wanted[at]!)
    shapes.push({
      kind: 'path',
      role: 'demand',
      points: [
        [at * MONTH + 0.1, tick],
        [(at + 1) * MONTH - 0.1, tick],
      ],
    })
    texts.push({ words: month[0]!, at: [(at + 0.5) * MONTH, HIGH + FOOT / 2] })
  })
  const right = monthNames.length * MONTH
  shapes.push(
    {
      kind: 'path',
      role: 'axis',
      points: [
        [0, HIGH],
        [right, HIGH],
      ],
    },
    {
      kind: 'path',
      role: 'full',
      points: [
        [0, 0],
        [right, 0],
      ],
    },
  )
  const lowest = stored.indexOf(Math.min(...stored))
  // One line of the narrowest pane: a longer one would be cut at both ends.
  const words = `lowest ${volume(stored[lowest]!)} in ${monthNames[lowest]}; tick: use`
  return {
    left_ft: 0,
    right_ft: right,
    top_ft: 0,
    bottom_ft: HIGH + FOOT,
    shapes,
    texts,
    labels: [],
    heights: [{ words: volume(holds), from_ft: 0, to_ft: HIGH }],
    length: { words, from_ft: 0, to_ft: right },
    isChart: true,
    title: 'Water through the year',
    description: `Stored at each month’s end, of ${volume(holds)} above the dead depth: ${stored.map((gallons, at) => `${monthNames[at]} ${volume(gallons)}${isShort(missing[at]!, wanted[at]!) ? `, ${volume(missing[at]!)} missing` : ''}`).join('; ')}.`,
  }
}
