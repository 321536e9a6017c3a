/** Reads CSV as RFC 4180 writes it: quoted fields, doubled quotes, either line ending; with semicolons and decimal commas where a file has them. Numbers become numbers. */
import { parseNumber } from '../units.js'

export function parseCsv(text: string): (string | number | null)[][] {
  const rows: (string | number | null)[][] = []
  const body = text.replace(/^\ufeff/, '')
  const mark = hasSemicolons(body) ? ';' : ','
  const field = new RegExp(`(?:"((?:[^"]|"")*)"|([^"${mark}\\r\\n][^${mark}\\r\\n]*|))(${mark}|\\r?\\n|\\r|$)`, 'gy')
  if (body.includes('\0') || body.includes('\ufffd')) throw new Error('CSV: a text in UTF-8 is needed; this one is in another encoding.')
  let row: (string | number | null)[] = []
  while (field.lastIndex < body.length) {
    const match = field.exec(body)
    if (!match) throw new Error(`CSV line ${rows.length + 1}: a quote is not closed, or something stands behind a closed one.`)
    row.push(match[1] !== undefined ? match[1].replace(/""/g, '"') : plainField(mark === ';' ? withPoint(match[2]!) : match[2]!))
    if (match[3] !== mark) {
      rows.push(row)
      row = []
    } else if (field.lastIndex === body.length) row.push(null)
  }
  if (row.length) rows.push(row)
  return rows
}

/** As much of a file as tells how it is written. */
const LOOKED_AT = 20_000
/** Every line as many semicolons, and no comma but between digits: a file of a place that writes 0,5. */
function hasSemicolons(body: string): boolean {
  const lines = body
    .slice(0, LOOKED_AT)
    .split(/\r?\n|\r/)
    // The last line of a piece is cut off anywhere.
    .slice(0, body.length > LOOKED_AT ? -1 : undefined)
    .filter((line) => line.trim() !== '')
    .map((line) => line.replace(/"(?:[^"]|"")*"/g, ''))
  const counts = new Set(lines.map((line) => line.split(';').length - 1))
  return counts.size === 1 && !counts.has(0) && !lines.some((line) => /(?<!\d),|,(?!\d)/.test(line))
}
const withPoint = (text: string): string => (/^\s*[-+]?\d+,\d+\s*$/.test(text) ? text.replace(',', '.') : text)

function plainField(text: string): string | number | null {
  if (text.trim() === '') return null
  return /^[-+\d.]/.test(text.trim()) && !/[/]/.test(text) ? (parseNumber(text) ?? text) : text
}
