/** An invented daily record: wet and dry spells from a fixed recipe, scaled so that its mean months are those of the demo's rain table. */
import { DAY_MS } from '../days.js'

const FIRST_YEAR = 2011
const YEARS = 12
/** Chance of rain after a dry and after a wet day, by month: winters wetter than summers. */
const afterDry = [0.34, 0.32, 0.3, 0.24, 0.17, 0.12, 0.06, 0.07, 0.13, 0.24, 0.34, 0.36]
const afterWet = [0.68, 0.66, 0.64, 0.58, 0.5, 0.44, 0.34, 0.36, 0.46, 0.58, 0.67, 0.69]

export interface DemoDay {
  date: string
  rain_in: number
}

export function demoRain(monthMeans_in: readonly number[]): DemoDay[] {
  // A multiplicative congruence of prime modulus: the same days on every machine.
  let state = 20_261
  const next = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647
  const days: { date: Date; rain: number }[] = []
  let isWet = true
  for (let day = Date.UTC(FIRST_YEAR, 0, 1); day < Date.UTC(FIRST_YEAR + YEARS, 0, 1); day += DAY_MS) {
    const date = new Date(day)
    const month = date.getUTCMonth()
    isWet = next() < (isWet ? afterWet : afterDry)[month]!
    const depth = -Math.log(1 - next())
    days.push({ date, rain: isWet ? depth : 0 })
  }
  const sums = monthMeans_in.map((_, month) => days.reduce((sum, { date, rain }) => sum + (date.getUTCMonth() === month ? rain : 0), 0) / YEARS)
  return days.map(({ date, rain }) => {
    const month = date.getUTCMonth()
    return { date: date.toISOString().slice(0, 10), rain_in: Math.round(((rain * monthMeans_in[month]!) / sums[month]!) * 100) / 100 }
  })
}
