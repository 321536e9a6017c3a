/** Days as spreadsheets count them. */
export const DAY_MS = 86_400_000
/** Serial number 0 of spreadsheets that count their days from 1900, as they stand from March of that year on. */
export const DAY_ZERO = Date.UTC(1899, 11, 30)
/** The first serial number after the year 9999. */
const AFTER_LAST = 2_958_466

/** A date as year-month-day, from a date, a text in that form, or a spreadsheet's day number. */
export function dateText(raw: unknown): string | undefined {
  if (raw instanceof Date) return Number.isNaN(raw.getTime()) ? undefined : raw.toISOString().slice(0, 10)
  if (typeof raw === 'number') return raw >= 1 && raw < AFTER_LAST ? new Date(DAY_ZERO + Math.floor(raw) * DAY_MS).toISOString().slice(0, 10) : undefined
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(String(raw).trim())
  if (!parts) return undefined
  const day = new Date(`${parts[0]}T00:00:00Z`)
  return Number.isNaN(day.getTime()) || day.toISOString().slice(0, 10) !== parts[0] ? undefined : parts[0]
}

/** The day number of a date written year-month-day. */
export const serialOfDay = (date: string, dayZero = DAY_ZERO): number => (Date.parse(`${date}T00:00:00Z`) - dayZero) / DAY_MS

/** A moment in words: the day, and its hour where it has one; hours alone where it lies before any day that a calendar of a spreadsheet has. */
export function momentText(moment: Date): string {
  if (moment.getTime() < FIRST_DAY) return clockText((moment.getTime() - DAY_ZERO) / DAY_MS)
  const [day, clock] = moment.toISOString().split('T') as [string, string]
  return clock.startsWith('00:00:00') ? day : `${day} ${clock.replace(/(?::00)?\.\d+Z$/, '')}`
}
const FIRST_DAY = Date.UTC(1900, 2, 1)

/** A part of a day, or several days, as hours and minutes: 0.5 is 12:00, 1.25 is 30:00. */
export function clockText(days: number): string {
  const seconds = Math.round(days * 86_400)
  const two = (value: number) => String(value).padStart(2, '0')
  const [hours, minutes, rest] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60]
  return `${two(hours)}:${two(minutes)}${rest ? `:${two(rest)}` : ''}`
}

/** The number that a spreadsheet keeps for a day and its time. */
export const serialOfMoment = (moment: Date): number => (moment.getTime() - DAY_ZERO) / DAY_MS
