/** Mean rain of the twelve months, from the whole years of a record of days: what the sheet Rain holds of a station. */
import { roundTo } from '../rounding.js'
import { WILDCARDS } from './fields.js'
import { fieldsOf, monthNames } from './officeTables.js'
import { stationOf, type RainRecord } from './rainDays.js'

/** A hundredth of an inch is what a gauge reads. */
const DECIMALS = 2

export function monthMeans({ years }: RainRecord): readonly number[] {
  const sums = monthNames.map(() => 0)
  for (const { year, rain_in } of years) for (const [day, rain] of rain_in.entries()) sums[new Date(Date.UTC(year, 0, 1 + day)).getUTCMonth()]! += rain
  return sums.map((sum) => roundTo(sum / years.length, DECIMALS))
}

/** Why a name is none for a new station; nothing where it is one. */
export function newStationProblem(station: string, stations: readonly string[]): string | undefined {
  const name = station.trim()
  const { Station } = fieldsOf('Rain')
  const longest = (Station as { longest: number }).longest
  if (name === '' || name.length > longest || WILDCARDS.test(name) || stationOf(name).station !== name || name.toLowerCase() === 'date')
    return `a name of 1 to ${longest} characters other than Date, without * ? or ~, that does not end in a unit; got "${station}"`
  if (stations.some((known) => known.toLowerCase() === name.toLowerCase())) return `a name that no station has yet; ${name} is there: its days are added to it without this`
  return undefined
}

/** A row of the sheet Rain for a station that has days alone. */
export function stationRow(station: string, record: RainRecord, file: string): Readonly<Record<string, string | number>> {
  const years = `${record.years[0]!.year} to ${record.years.at(-1)!.year}`
  return {
    Station: station,
    ...Object.fromEntries(monthMeans(record).map((mean, month) => [`${monthNames[month]}_in`, mean])),
    Source: `Means of the whole years of ${file}, ${years}`,
  }
}
