/** Reads rain of days as weather services give it: by-station CSV, .dly, or a plain CSV with a date and a rain column. */
import { dateText } from './fields.js'

export interface RainDay {
  date: string
  /** Millimeters or inches as the file has them, in inches; undefined where nothing was read. */
  rain_in: number | undefined
}
export interface RainFile {
  days: readonly RainDay[]
  station: string | undefined
  /** What a reader should know: readings not used, and why. */
  notes: readonly string[]
}
export class RainFileError extends Error {}

const INCH_TENTHS_MM = 254
const ELEMENT = 'PRCP'

/** `unit` is needed for a plain CSV whose heading does not say it; `station` picks one of several. */
export function readRainFile(text: string, name: string, { unit, station }: { unit?: 'in' | 'mm'; station?: string } = {}): RainFile {
  const lines = text
    .replace(/^\ufeff/, '')
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '')
  if (!lines.length) throw new RainFileError(`${name}: rain of days; the file is empty.`)
  const days = isDly(lines[0]!) ? fromDly(lines, name, station) : isByStation(lines[0]!) ? fromByStation(lines, name, station) : fromPlain(lines, name, unit)
  return withoutTwice(days, name)
}

interface Read {
  days: RainDay[]
  station: string | undefined
  notes: string[]
}

const isDly = (line: string): boolean => /^[A-Z0-9_-]{11}\d{6}[A-Z0-9]{4}/.test(line) && line.length > 29
const isByStation = (line: string): boolean => /^"?[A-Z0-9_-]{11}"?,"?\d{8}"?,"?[A-Z0-9]{4}"?,/.test(line)

function oneStation(ids: ReadonlySet<string>, wanted: string | undefined, name: string): string {
  const [first] = ids
  if (wanted !== undefined && ids.has(wanted)) return wanted
  if (ids.size > 1) throw new RainFileError(`${name}: one station, or --id to pick one; it has ${[...ids].slice(0, 5).join(', ')}.`)
  return first!
}
function elements(found: ReadonlyMap<string, number>, name: string): void {
  if (!found.has(ELEMENT)) throw new RainFileError(`${name}: readings of ${ELEMENT}, rain; it has ${[...found.keys()].slice(0, 6).join(', ')}.`)
}

/** ID, YYYYMMDD, ELEMENT, VALUE, M-FLAG, Q-FLAG, S-FLAG, time: tenths of a millimeter; a value with a quality flag is not used. */
function fromByStation(lines: readonly string[], name: string, station: string | undefined): Read {
  const rows = lines.map((line) => line.split(',').map((field) => field.replace(/^"|"$/g, '').trim()))
  const counts = new Map<string, number>()
  for (const row of rows) counts.set(row[2] ?? '', (counts.get(row[2] ?? '') ?? 0) + 1)
  elements(counts, name)
  const id = oneStation(new Set(rows.map((row) => row[0]!)), station, name)
  let [doubted, missing] = [0, 0]
  const days = rows
    .filter((row) => row[0] === id && row[2] === ELEMENT)
    .map((row, at): RainDay => {
      const date = /^(\d{4})(\d{2})(\d{2})$/.exec(row[1] ?? '')
      const value = Number(row[3])
      if (!date || row[3] === '' || !Number.isInteger(value)) throw new RainFileError(`${name}, line ${at + 1}: ID, YYYYMMDD, ELEMENT, VALUE; got "${lines[at]!.slice(0, 60)}".`)
      return { date: `${date[1]}-${date[2]}-${date[3]}`, rain_in: used(value, row[5] ?? '') }
    })
  function used(value: number, flag: string): number | undefined {
    if (value === -9999) return (missing++, undefined)
    if (flag !== '') return (doubted++, undefined)
    return value / INCH_TENTHS_MM
  }
  return { days, station: id, notes: notesOf(doubted, missing) }
}

/** Fixed columns: ID 1–11, year 12–15, month 16–17, element 18–21, then 31 times value 5 and three flags from column 22. */
function fromDly(lines: readonly string[], name: string, station: string | undefined): Read {
  const counts = new Map<string, number>()
  for (const line of lines) counts.set(line.slice(17, 21), 1)
  elements(counts, name)
  const id = oneStation(new Set(lines.map((line) => line.slice(0, 11))), station, name)
  let [doubted, missing] = [0, 0]
  const days: RainDay[] = []
  for (const line of lines) {
    if (line.slice(0, 11) !== id || line.slice(17, 21) !== ELEMENT) continue
    const [year, month] = [Number(line.slice(11, 15)), Number(line.slice(15, 17))]
    const length = new Date(Date.UTC(year, month, 0)).getUTCDate()
    for (let day = 1; day <= length; day++) {
      const from = 21 + (day - 1) * 8
      const value = Number(line.slice(from, from + 5))
      const flag = line.slice(from + 6, from + 7).trim()
      const date = `${line.slice(11, 15)}-${line.slice(15, 17)}-${String(day).padStart(2, '0')}`
      if (!Number.isInteger(value) || line.slice(from, from + 5).trim() === '') throw new RainFileError(`${name}: 31 values of 5 characters a line; ${date} is not one.`)
      if (value === -9999) missing++
      else if (flag) doubted++
      days.push({ date, rain_in: value === -9999 || flag ? undefined : value / INCH_TENTHS_MM })
    }
  }
  return { days, station: id, notes: notesOf(doubted, missing) }
}

/** A heading with a date and a rain column; its unit in the heading, or as the user states it. */
function fromPlain(lines: readonly string[], name: string, unit: 'in' | 'mm' | undefined): Read {
  const split = (line: string) => line.split(/[,;\t]/).map((field) => field.replace(/^"|"$/g, '').trim())
  const headings = split(lines[0]!)
  const dateAt = headings.findIndex((heading) => /^(?:date|day|time)$/i.test(heading))
  const rainAt = headings.findIndex((heading, at) => at !== dateAt && /rain|prcp|precip/i.test(heading))
  if (dateAt < 0 || rainAt < 0) throw new RainFileError(`${name}: a heading with a column date and a column rain, or a file of a weather service; got "${lines[0]!.slice(0, 60)}".`)
  const heading = headings[rainAt]!
  const own = /mm\b|_mm/i.test(heading) ? 'mm' : /\bin\b|_in|inch/i.test(heading) ? 'in' : undefined
  const used = own ?? unit
  if (used === undefined) throw new RainFileError(`${name}: the unit of ${heading}: --unit in or --unit mm.`)
  if (own && unit && own !== unit) throw new RainFileError(`${name}: --unit ${own}, as its heading ${heading} says; got ${unit}.`)
  let missing = 0
  const days = lines.slice(1).map((line, at): RainDay => {
    const fields = split(line)
    const date = dateText(fields[dateAt] ?? '')
    if (!date) throw new RainFileError(`${name}, line ${at + 2}: a date, as 2026-05-31; got "${fields[dateAt] ?? ''}".`)
    const text = fields[rainAt] ?? ''
    if (text === '' || /^(?:na|null|-9999)$/i.test(text)) return (missing++, { date, rain_in: undefined })
    if (/^t(?:race)?$/i.test(text)) return { date, rain_in: 0 }
    const value = Number(text)
    if (!Number.isFinite(value) || value < 0) throw new RainFileError(`${name}, line ${at + 2}: rain of a day, 0 or more ${used}, or nothing; got "${text}".`)
    return { date, rain_in: used === 'mm' ? value / 25.4 : value }
  })
  return { days, station: undefined, notes: notesOf(0, missing) }
}

const notesOf = (doubted: number, missing: number): string[] => [
  ...(doubted ? [`${doubted} ${doubted === 1 ? 'reading that failed' : 'readings that failed'} the service’s own checks left out`] : []),
  ...(missing ? [`${missing} ${missing === 1 ? 'day' : 'days'} without a reading`] : []),
]

/** A day that comes twice with two readings is no record; the same reading twice is one. */
function withoutTwice({ days, station, notes }: Read, name: string): RainFile {
  const byDate = new Map<string, RainDay>()
  for (const day of days) {
    const before = byDate.get(day.date)
    if (before && before.rain_in !== undefined && day.rain_in !== undefined && before.rain_in !== day.rain_in)
      throw new RainFileError(`${name}: each day once; ${day.date} comes twice with two readings.`)
    if (!before || before.rain_in === undefined) byDate.set(day.date, day)
  }
  return { days: [...byDate.values()].sort((one, other) => (one.date < other.date ? -1 : 1)), station, notes }
}
