/** Reads CSV as RFC 4180 writes it: quoted fields, doubled quotes, either line ending. Numbers become numbers. */
import { parseNumber } from '../units.js'

export function parseCsv(text: string): (string | number | null)[][] {
  const rows: (string | number | null)[][] = []
  const field = /(?:"((?:[^"]|"")*)"|([^",\r\n][^,\r\n]*|))(,|\r?\n|\r|$)/gy
  const body = text.replace(/^\ufeff/, '')
  if (body.includes('\0') || body.includes('\ufffd')) throw new Error('CSV: a text in UTF-8 is needed; this one is in another encoding.')
  let row: (string | number | null)[] = []
  while (field.lastIndex < body.length) {
    const match = field.exec(body)
    if (!match) throw new Error(`CSV line ${rows.length + 1}: a quote is not closed, or something stands behind a closed one.`)
    row.push(match[1] !== undefined ? match[1].replace(/""/g, '"') : plainField(match[2]!))
    if (match[3] !== ',') {
      rows.push(row)
      row = []
    } else if (field.lastIndex === body.length) row.push(null)
  }
  if (row.length) rows.push(row)
  return rows
}

function plainField(text: string): string | number | null {
  if (text.trim() === '') return null
  return /^[-+\d.]/.test(text.trim()) && !/[/]/.test(text) ? (parseNumber(text) ?? text) : text
}
