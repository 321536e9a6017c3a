/** The care plan of the hand-over as a calendar file (RFC 5545). */
import { careOf } from './careTasks.js'
import type { Design } from './design.js'

const monthOf = (month: number): string => String(month).padStart(2, '0')
/** RFC 5545: text escapes, lines folded at 75 octets. */
const escaped = (text: string): string => text.replace(/([\\;,])/g, '\\$1').replace(/\n/g, '\\n')
function folded(line: string): string {
  const bytes = new TextEncoder()
  const parts: string[] = []
  let part = ''
  for (const letter of line) {
    if (bytes.encode(part + letter).length > (parts.length ? 74 : 75)) {
      parts.push(part)
      part = ''
    }
    part += letter
  }
  return [...parts, part].join('\r\n ')
}

/** The care plan as a calendar file: an entry a task, on the first of its months, every year from `date` on. */
export function careCalendar(design: Design, date: string, version: string): string {
  const [year, month] = [Number(date.slice(0, 4)), Number(date.slice(5, 7))]
  const stamp = `${date.replace(/-/g, '')}T000000Z`
  const events = careOf(design).flatMap(({ code, task: words, months }) => {
    if (!months.length) return []
    const next = months.find((one) => one > month)
    const start = `${next === undefined ? year + 1 : year}${monthOf(next ?? months[0]!)}01`
    return [
      'BEGIN:VEVENT',
      `UID:${code.toLowerCase()}-${encodeURIComponent(design.name)}@cistern-sheet.invalid`,
      `DTSTAMP:${stamp}`,
      `DTSTART;VALUE=DATE:${start}`,
      `RRULE:FREQ=YEARLY;BYMONTH=${months.join(',')};BYMONTHDAY=1`,
      `SUMMARY:${escaped(`${design.name}, cistern: ${design.words(words)}`)}`,
      'TRANSP:TRANSPARENT',
      'END:VEVENT',
    ]
  })
  return ['BEGIN:VCALENDAR', 'VERSION:2.0', `PRODID:-//Cistern Sheet//${version}//EN`, 'CALSCALE:GREGORIAN', ...events, 'END:VCALENDAR', ''].map(folded).join('\r\n')
}
