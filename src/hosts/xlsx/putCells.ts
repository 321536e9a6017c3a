/** Cells set in a sheet, there or not yet there: in their order, with the look of the cell beside or above them. */
import { isErrorText, type CellValue } from '../../takeoff/fields.js'
import { columnLetters } from '../../plan/plan.js'
import { readAddress } from './cells.js'
import { filledBy } from './dynamicMark.js'
import { withPrefixes } from './writeSheet.js'
import { attribute, edited, encodeText, escapeXml, inside, tags, type Edit } from './xml.js'

export interface PutCell {
  row: number
  column: number
  value: CellValue | boolean
  /** The formula that gives the value. `true`: the one that stands there, with a new result. */
  formula?: string | true
  /** How many cells the formula fills, where those are more than its own, and the mark of such cells in the workbook. */
  spill?: { rows: number; columns: number; mark: number }
  /** The code of its number format, where that is another one. */
  format?: string
}
type Formatted = (style: number, code: string) => number

/** A cell that others lean on: its formula is theirs too, and is not changed alone. */
export class SharedCellError extends Error {}
interface KnownCell {
  column: number
  start: number
  end: number
  style: string | undefined
}
interface KnownRow {
  row: number
  start: number
  /** Behind its start tag, and before its end tag. */
  open: number
  close: number
  end: number
  isEmpty: boolean
  cells: KnownCell[]
}

/** `formatted` gives the number of a cell format with another number format, where cells ask for one. */
export function putCells(xml: string, list: readonly PutCell[], formatted?: Formatted): string {
  const rows: KnownRow[] = []
  let data: { start: number; open: number; close: number; isEmpty: boolean; prefix: string } | undefined
  for (const tag of tags(xml)) {
    if (tag.name === 'sheetData') {
      if (tag.isEnd) data!.close = tag.start
      else data = { start: tag.start, open: tag.end, close: tag.end, isEmpty: tag.isEmpty, prefix: tag.prefix ? `${tag.prefix}:` : '' }
      if (tag.isEnd || tag.isEmpty) break
    } else if (tag.name === 'row' && !tag.isEnd) {
      const row = Number(attribute(xml, tag, 'r') ?? (rows.at(-1)?.row ?? 0) + 1)
      rows.push({ row, start: tag.start, open: tag.end, close: tag.end, end: tag.end, isEmpty: tag.isEmpty, cells: [] })
    } else if (tag.name === 'row') {
      const last = rows.at(-1)!
      last.close = tag.start
      last.end = tag.end
    } else if (tag.name === 'c' && !tag.isEnd && rows.length) {
      const last = rows.at(-1)!
      const column = readAddress(attribute(xml, tag, 'r') ?? '')?.column ?? (last.cells.at(-1)?.column ?? 0) + 1
      last.cells.push({ column, start: tag.start, end: inside(xml, tag).end, style: attribute(xml, tag, 's') })
    }
  }
  const { prefix } = data!
  const byRow = new Map<number, PutCell[]>()
  for (const cell of list) byRow.set(cell.row, [...(byRow.get(cell.row) ?? []), cell])
  const edits: Edit[] = []
  const write = ({ row, column, value, formula: given, spill, format }: PutCell, known: string | undefined, there?: KnownCell): string => {
    const style = format === undefined || !formatted ? known : String(formatted(Number(known ?? 0), format))
    const standing = there && /<(?:\w+:)?f\b[^>]*?(?:\/>|>[\s\S]*?<\/(?:\w+:)?f>)/.exec(xml.slice(there.start, there.end))?.[0]
    // A formula that fills cells of its own may fill others now; one that others share may not change alone.
    const isArray = standing !== undefined && /<(?:\w+:)?f\b[^>]*\st="array"/.test(String(standing))
    if (given !== true && standing && /<(?:\w+:)?f\b[^>]*\sref=/.test(standing) && !(spill && isArray)) throw new SharedCellError(`${columnLetters(column)}${row}`)
    const formula =
      given === true
        ? standing
        : given === undefined
          ? undefined
          : `<${prefix}f${spill ? ` t="array" ref="${filledBy({ row, column, spill })}"` : ''}>${escapeXml(withPrefixes(given))}</${prefix}f>`
    // A formula that fills further cells is known by a mark of its cell.
    const marks = given === true ? (/^<[^>]*?((?:\s(?:cm|vm)\s*=\s*(?:"\d+"|'\d+'))+)/.exec(xml.slice(there!.start, there!.end))?.[1] ?? '') : spill ? ` cm="${spill.mark}"` : ''
    const start = `<${prefix}c r="${columnLetters(column)}${row}"${style === undefined ? '' : ` s="${style}"`}${marks}`
    if ((value === null || value === '') && formula === undefined) return `${start}/>`
    const [type, words] =
      typeof value === 'number'
        ? ['', String(value)]
        : typeof value === 'boolean'
          ? ['b', value ? '1' : '0']
          : isErrorText(value ?? '')
            ? ['e', value!]
            : ['str', encodeText(value ?? '')]
    const isText = type === 'str'
    if (formula !== undefined) return `${start}${type ? ` t="${type}"` : ''}>${formula}<${prefix}v>${words}</${prefix}v></${prefix}c>`
    if (!isText) return `${start}${type ? ` t="${type}"` : ''}><${prefix}v>${words}</${prefix}v></${prefix}c>`
    return `${start} t="inlineStr"><${prefix}is><${prefix}t xml:space="preserve">${words}</${prefix}t></${prefix}is></${prefix}c>`
  }
  // Both in their order: a record of days has thousands of rows.
  const inOrder = [...rows].sort((one, other) => one.row - other.row)
  let next = 0
  for (const [row, cells] of [...byRow].sort(([one], [other]) => one - other)) {
    while (inOrder[next] && inOrder[next]!.row < row) next++
    const known = inOrder[next]?.row === row ? inOrder[next] : undefined
    const above = inOrder[next - 1]
    const sorted = [...cells].sort((one, other) => one.column - other.column)
    if (!known) {
      const styleOf = (column: number) => above?.cells.find((cell) => cell.column === column)?.style
      const text = `<${prefix}row r="${row}">${sorted.map((cell) => write(cell, styleOf(cell.column))).join('')}</${prefix}row>`
      const at = above?.end ?? data!.open
      edits.push({ from: at, to: at, text })
      continue
    }
    const added: string[] = []
    for (const cell of sorted) {
      const there = known.cells.find(({ column }) => column === cell.column)
      if (there) edits.push({ from: there.start, to: there.end, text: write(cell, there.style, there) })
      else {
        const behind = known.cells.find(({ column }) => column > cell.column)
        const text = write(cell, known.cells.filter(({ column }) => column < cell.column).at(-1)?.style)
        if (behind) edits.push({ from: behind.start, to: behind.start, text })
        else added.push(text)
      }
    }
    if (added.length && known.isEmpty) edits.push({ from: known.start, to: known.end, text: `${xml.slice(known.start, known.open - 2)}>${added.join('')}</${prefix}row>` })
    else if (added.length) edits.push({ from: known.close, to: known.close, text: added.join('') })
  }
  if (data!.isEmpty && edits.length) return `${xml.slice(0, data!.start)}<${prefix}sheetData>${edits.map(({ text }) => text).join('')}</${prefix}sheetData>${xml.slice(data!.open)}`
  // Edits at one place keep their order.
  return edited(xml, edits)
}
