/** Reads rain of days as weather services give it: by-station CSV, .dly, or a plain CSV with a date and a rain column. */
import { MM_PER_INCH } from '../units.js'
import { dateText } from '../days.js'
import { MOST_IN, rainUnits, type RainUnit } from './rainDays.js'

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
  /** Unit that the readings were taken in. */
  unit: RainUnit
}
export class RainFileError extends Error {}

/** How many of a unit an inch has; by-station files and many exports count tenths of a millimeter. */
const PER_INCH: Readonly<Record<RainUnit, number>> = { in: 1, mm: MM_PER_INCH, tenths: 10 * MM_PER_INCH }
const ELEMENT = 'PRCP'
/** No spreadsheet counts days before this one. */
const FIRST_DAY = '1900-03-01'

/** `unit` is needed for a plain CSV whose heading does not say it; `station` picks one of several. */
export function readRainFile(text: string, name: string, { unit, station }: { unit?: RainUnit; station?: string } = {}): RainFile {
  const lines = text
    .replace(/^\ufeff/, '')
    .split(/\r\n?|\n/)
    .map((words, at): Line => ({ words, number: at + 1 }))
    .filter(({ words }) => words.trim() !== '')
  const [first, second] = lines
  if (!first) throw new RainFileError(`${name}: rain of days; the file is empty.`)
  const hasHeading = second !== undefined && !isByStation(first.words) && isByStation(second.words)
  const read = isDly(first.words)
    ? fromDly(lines, name, station)
    : isByStation(first.words) || hasHeading
      ? fromByStation(hasHeading ? lines.slice(1) : lines, name, station)
      : fromPlain(lines, name, unit, station)
  if (!read.days.some(({ rain_in }) => rain_in !== undefined)) throw new RainFileError(`${name}: rain of days; it has no day with a reading.`)
  return withoutEarly(withoutTwice(read, name), name)
}

interface Line {
  words: string
  /** As an editor counts them. */
  number: number
}
interface Read {
  days: RainDay[]
  station: string | undefined
  notes: string[]
  unit: RainUnit
}

const isDly = (line: string): boolean => /^[A-Z0-9_-]{11}\d{6}[A-Z0-9]{4}/.test(line) && line.length > 29
const isByStation = (line: string): boolean => /^"?[A-Z0-9_-]{11}"?,"?\d{8}"?,"?[A-Z0-9]{4}"?,/.test(line)

function oneStation(ids: ReadonlySet<string>, wanted: string | undefined, name: string): string {
  const [first] = ids
  if (wanted !== undefined && ids.has(wanted)) return wanted
  if (ids.size > 1 || wanted !== undefined)
    throw new RainFileError(`${name}: one station, or the ID of one of them (--id); it has ${[...ids].slice(0, 5).join(', ')}${wanted === undefined ? '' : `; got ${wanted}`}.`)
  return first!
}
function elements(found: ReadonlyMap<string, number>, name: string): void {
  if (!found.has(ELEMENT)) throw new RainFileError(`${name}: readings of ${ELEMENT}, rain; it has ${[...found.keys()].slice(0, 6).join(', ')}.`)
}

/** The fields of a line; a separator within quotes is part of its field. */
function fieldsOfLine(words: string, separator: string): string[] {
  const fields: string[] = []
  let [field, isQuoted] = ['', false]
  for (let at = 0; at < words.length; at++) {
    const letter = words[at]!
    if (letter === '"' && isQuoted && words[at + 1] === '"') field += words[++at]!
    else if (letter === '"') isQuoted = !isQuoted
    else if (letter === separator && !isQuoted) {
      fields.push(field.trim())
      field = ''
    } else field += letter
  }
  return [...fields, field.trim()]
}

/** Rain of a day in inches; more than was ever measured, or less than nothing, is a slip. */
function inInches(value: number, unit: RainUnit, place: string, came: string): number {
  const rain_in = value / PER_INCH[unit]
  if (!Number.isFinite(value) || rain_in < 0 || rain_in > MOST_IN)
    throw new RainFileError(
      `${place}: rain of a day, 0 to ${Math.floor(MOST_IN * PER_INCH[unit])} ${unit === 'tenths' ? 'tenths of a millimeter' : unit}, or nothing; got "${came}".`,
    )
  return rain_in
}

/** ID, YYYYMMDD, ELEMENT, VALUE, M-FLAG, Q-FLAG, S-FLAG, time: tenths of a millimeter; a value with a quality flag is not used. */
function fromByStation(lines: readonly Line[], name: string, station: string | undefined): Read {
  const rows = lines.map(({ words, number }) => ({ fields: fieldsOfLine(words, ','), words, number }))
  const counts = new Map<string, number>()
  for (const { fields } of rows) counts.set(fields[2] ?? '', (counts.get(fields[2] ?? '') ?? 0) + 1)
  elements(counts, name)
  const id = oneStation(new Set(rows.map(({ fields }) => fields[0]!)), station, name)
  let [doubted, missing] = [0, 0]
  const days: RainDay[] = []
  for (const { fields, words, number } of rows) {
    if (fields[0] !== id || fields[2] !== ELEMENT) continue
    const place = `${name}, line ${number}`
    const date = dateText((fields[1] ?? '').replace(/^(\d{4})(\d{2})(\d{2})$/, '$1-$2-$3'))
    const value = Number(fields[3])
    if (!date || fields[3] === '' || !Number.isInteger(value)) throw new RainFileError(`${place}: ID, YYYYMMDD, ELEMENT, VALUE; got "${words.slice(0, 60)}".`)
    if (value === -9999) missing++
    else if (fields[5]) doubted++
    days.push({ date, rain_in: value === -9999 || fields[5] ? undefined : inInches(value, 'tenths', place, fields[3]!) })
  }
  return { days, station: id, notes: notesOf(doubted, missing), unit: 'tenths' }
}

/** Fixed columns: ID 1–11, year 12–15, month 16–17, element 18–21, then 31 times value 5 and three flags from column 22. */
function fromDly(lines: readonly Line[], name: string, station: string | undefined): Read {
  const counts = new Map<string, number>()
  for (const { words } of lines) counts.set(words.slice(17, 21), 1)
  elements(counts, name)
  const id = oneStation(new Set(lines.map(({ words }) => words.slice(0, 11))), station, name)
  let [doubted, missing] = [0, 0]
  const days: RainDay[] = []
  for (const { words, number } of lines) {
    if (words.slice(0, 11) !== id || words.slice(17, 21) !== ELEMENT) continue
    const [year, month] = [Number(words.slice(11, 15)), Number(words.slice(15, 17))]
    if (!(month >= 1 && month <= 12)) throw new RainFileError(`${name}, line ${number}: a month, 01 to 12; got "${words.slice(15, 17)}".`)
    const length = new Date(Date.UTC(year, month, 0)).getUTCDate()
    for (let day = 1; day <= length; day++) {
      const from = 21 + (day - 1) * 8
      const came = words.slice(from, from + 5).trim()
      const value = Number(came)
      const flag = words.slice(from + 6, from + 7).trim()
      const date = `${words.slice(11, 15)}-${words.slice(15, 17)}-${String(day).padStart(2, '0')}`
      if (!Number.isInteger(value) || came === '') throw new RainFileError(`${name}, line ${number}: 31 values of 5 characters a line; ${date} is not one.`)
      if (value === -9999) missing++
      else if (flag) doubted++
      days.push({ date, rain_in: value === -9999 || flag ? undefined : inInches(value, 'tenths', `${name}, line ${number}, ${date}`, came) })
    }
  }
  return { days, station: id, notes: notesOf(doubted, missing), unit: 'tenths' }
}

/** The unit that a heading ends in, "Rain, mm" or "PRCP (in)"; nothing where it says more of it, as "0.1 mm" or "hundredths of inches". */
function unitIn(heading: string): 'mm' | 'in' | undefined {
  const unit = /(?:^|[\s,(_[])(mm|in|inch|inches)\.?(?:\s*\/\s*d(?:ay)?| per day| a day)?[\])]?$/i.exec(heading.trim())?.[1]
  if (unit === undefined || /\d|tenth|hundredth|\bcm\b/i.test(heading)) return undefined
  return unit.toLowerCase() === 'mm' ? 'mm' : 'in'
}

/** A heading with a date and one rain column; its unit in the heading, or as the user states it; a column of stations where there are several. */
function fromPlain(lines: readonly Line[], name: string, stated: RainUnit | undefined, station: string | undefined): Read {
  const top = lines[0]!.words
  const separator = [';', '\t', ','].find((one) => fieldsOfLine(top, one).length > 1) ?? ','
  const headings = fieldsOfLine(top, separator)
  const dateAt = headings.findIndex((heading) => /^(?:date|day|time)$/i.test(heading))
  const rains = headings.flatMap((heading, at) => (at !== dateAt && /rain|prcp|precip/i.test(heading) && !/attrib|flag|quality/i.test(heading) ? at : []))
  const flagAt = headings.findIndex((heading) => /^prcp_attributes$/i.test(heading))
  const stationAt = headings.findIndex((heading) => /^(?:station|station_?id|id)$/i.test(heading))
  const [rainAt] = rains
  if (dateAt < 0 || rainAt === undefined)
    throw new RainFileError(`${name}: a heading with a column date and a column rain, or a file of a weather service; got "${top.slice(0, 60)}".`)
  if (rains.length > 1) throw new RainFileError(`${name}: one column with the rain of the day; it has ${rains.map((at) => headings[at]).join(', ')}. Leave the others out.`)
  const heading = headings[rainAt]!
  const own = unitIn(heading)
  const unit = own ?? stated
  if (unit === undefined) throw new RainFileError(`${name}: the unit of ${heading}: --unit ${rainUnits.join(', --unit ')} (of a millimeter).`)
  if (own && stated && own !== stated) throw new RainFileError(`${name}: --unit ${own}, as its heading ${heading} says; got ${stated}.`)
  const rows = lines.slice(1).map(({ words, number }) => ({ fields: fieldsOfLine(words, separator), number }))
  const id = stationAt < 0 ? undefined : oneStation(new Set(rows.map(({ fields }) => fields[stationAt] ?? '')), station, name)
  let [doubted, missing] = [0, 0]
  const days: RainDay[] = []
  for (const { fields, number } of rows) {
    const place = `${name}, line ${number}`
    if (fields.length > headings.length) throw new RainFileError(`${place}: as many fields as headings, ${headings.length}; got ${fields.length}.`)
    if (id !== undefined && fields[stationAt] !== id) continue
    // A reading of the day may say at what hour it was taken.
    const date = dateText((fields[dateAt] ?? '').replace(/^(\d{4}-\d\d-\d\d)[T ]\d\d:\d\d(?::\d\d)?Z?$/, '$1'))
    if (!date) throw new RainFileError(`${place}: a date, as 2026-05-31; got "${fields[dateAt] ?? ''}".`)
    const came = fields[rainAt] ?? ''
    const isMissing = came === '' || /^(?:na|null|m|-?9999(?:\.0*)?)$/i.test(came)
    // Flags of a reading: how it was measured, then what the service's own checks found.
    const isDoubted = !isMissing && flagAt >= 0 && (fields[flagAt] ?? '').split(',')[1]?.trim()
    if (isMissing) missing++
    else if (isDoubted) doubted++
    // Where a comma does not part the fields it may part the tenths.
    const value = Number(separator === ',' ? came : came.replace(/^(\d*),(\d+)$/, '$1.$2'))
    days.push({ date, rain_in: isMissing || isDoubted ? undefined : /^t(?:race)?$/i.test(came) ? 0 : inInches(value, unit, place, came) })
  }
  return { days, station: id, notes: notesOf(doubted, missing), unit }
}

/** Days that a sheet cannot count are left out, and said. */
function withoutEarly(file: RainFile, name: string): RainFile {
  const days = file.days.filter(({ date }) => date >= FIRST_DAY)
  const early = file.days.length - days.length
  if (!early) return file
  if (!days.length) throw new RainFileError(`${name}: days from ${FIRST_DAY} on, which a spreadsheet can count; got ${file.days[0]!.date} to ${file.days.at(-1)!.date}.`)
  return { ...file, days, notes: [...file.notes, `${early} days before ${FIRST_DAY} left out: a spreadsheet does not count them`] }
}

const notesOf = (doubted: number, missing: number): string[] => [
  ...(doubted ? [`${doubted} ${doubted === 1 ? 'reading that failed' : 'readings that failed'} the service’s own checks left out`] : []),
  ...(missing ? [`${missing} ${missing === 1 ? 'day' : 'days'} without a reading`] : []),
]

/** A day that comes twice with two readings is no record; the same reading twice is one. */
function withoutTwice({ days, station, notes, unit }: Read, name: string): RainFile {
  const byDate = new Map<string, RainDay>()
  for (const day of days) {
    const before = byDate.get(day.date)
    if (before && before.rain_in !== undefined && day.rain_in !== undefined && before.rain_in !== day.rain_in)
      throw new RainFileError(`${name}: each day once; ${day.date} comes twice with two readings.`)
    if (!before || before.rain_in === undefined) byDate.set(day.date, day)
  }
  return { days: [...byDate.values()].sort((one, other) => (one.date < other.date ? -1 : 1)), station, notes, unit }
}
