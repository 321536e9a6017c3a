/** Storage through the year as a small chart: what is stored at each month's end against what the tanks hold. */
import type { Design } from '../takeoff/design.js'
import { monthNames } from '../takeoff/officeTables.js'

const WIDTH = 340
const HEIGHT = 96
const LEFT = 44
const TOP = 14
const FLOOR = 78

/** `volume` writes gallons in the units that the reader chose, such as "5,306 gal". */
export function yearChart(design: Design, volume: (gallons: number) => string): string {
  const stored = design.column('MonthStored_gal')
  const most = Math.max(design.number('Storage_gal'), 1)
  const step = (WIDTH - LEFT - 4) / stored.length
  const height = (gallons: number) => ((FLOOR - TOP) * gallons) / most
  const figure = (gallons: number) => volume(gallons).split(' ')[0]!
  const unit = volume(0).split(' ').slice(1).join(' ')
  const bars = stored.map((value, at) => {
    const tall = height(value)
    return `<rect class="bar" x="${(LEFT + at * step + 2).toFixed(1)}" y="${(FLOOR - tall).toFixed(1)}" width="${(step - 4).toFixed(1)}" height="${Math.max(tall, 0.5).toFixed(1)}"><title>${monthNames[at]}: ${volume(value)}</title></rect><text class="label" x="${(LEFT + (at + 0.5) * step).toFixed(1)}" y="${FLOOR + 12}" text-anchor="middle">${monthNames[at]![0]}</text>`
  })
  const words = `Stored at each month’s end, of ${volume(most)}: ${stored.map((value, at) => `${monthNames[at]} ${figure(value)}`).join(', ')}.`
  return `<svg class="year" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${words}" xmlns="http://www.w3.org/2000/svg"><line class="axis" x1="${LEFT}" x2="${WIDTH - 4}" y1="${FLOOR}" y2="${FLOOR}"/><line class="full" x1="${LEFT}" x2="${WIDTH - 4}" y1="${TOP}" y2="${TOP}"/><text class="label" x="${LEFT - 4}" y="${TOP + 3}" text-anchor="end">${figure(most)}</text><text class="label" x="${LEFT - 4}" y="${FLOOR + 3}" text-anchor="end">0 ${unit}</text>${bars.join('')}</svg>`
}
