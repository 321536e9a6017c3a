/** The cells of one sheet of a workbook: values, formulas, and nothing of how they look. */
import { DAY_MS, DAY_ZERO } from '../../days.js'
import { isErrorText } from '../../takeoff/fields.js'
import { Book, type BookSheet } from './book.js'
import { attribute, decodeText, inside, tags, unescapeXml, type Tag } from './xml.js'
import { WorkbookError } from './zip.js'

export interface BookCell {
  value: string | number | boolean | Date | null
  formula?: string
  /** The last cell that the formula fills, where it fills more than its own. */
  fills?: { row: number; column: number }
  /** A formula that was saved without its result; an empty text as a result says that it is text. */
  isUnworked?: true
  /** Less than a day in a format of days or hours: a time. */
  isTime?: true
}
export type BookRows = ReadonlyMap<number, ReadonlyMap<number, BookCell>>

/** More cells than any office's sheet has, counted before they are built. */
export const MOST_CELLS = 2_000_000

/** Built-in number formats that show a day or a time. */
const builtInDates = new Set([14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47])

/** "AB12" as row and column, from 1. */
export function readAddress(reference: string): { row: number; column: number } | undefined {
  let column = 0
  let at = 0
  for (; at < reference.length; at++) {
    const code = reference.charCodeAt(at) & ~32
    if (code < 65 || code > 90) break
    column = column * 26 + code - 64
  }
  const row = Number(reference.slice(at))
  return column > 0 && Number.isInteger(row) && row > 0 ? { row, column } : undefined
}

/** The last cell of an area of more than one. */
const lastFilled = (area: string): BookCell['fills'] => (area.includes(':') ? readAddress(area.slice(area.indexOf(':') + 1).replace(/\$/g, '')) : undefined)

/** The moment from which a workbook counts its days: most from 1900, some from 1904. */
export function dayZero(book: Book): number {
  const text = book.text(book.mainPart)
  for (const tag of book.tags(book.mainPart))
    if (tag.name === 'workbookPr' && !tag.isEnd && /^(?:1|true)$/.test(attribute(text, tag, 'date1904') ?? '')) return Date.UTC(1904, 0, 1)
  return DAY_ZERO
}

export class CellReader {
  private shared: readonly string[] | undefined
  private dates: readonly boolean[] | undefined
  private dayZero: number | undefined
  private readonly rowsBySheet = new Map<string, { version: number; rows: BookRows }>()

  constructor(readonly book: Book) {}

  rows(sheet: BookSheet): BookRows {
    const version = this.book.version(sheet.part)
    let known = this.rowsBySheet.get(sheet.part)
    if (known?.version !== version) this.rowsBySheet.set(sheet.part, (known = { version, rows: this.read(sheet) }))
    return known.rows
  }

  forget({ part }: BookSheet): void {
    this.rowsBySheet.delete(part)
  }

  private read({ part, name }: BookSheet): BookRows {
    const xml = this.book.text(part)
    const rows = new Map<number, Map<number, BookCell>>()
    const masters = new Map<string, string>()
    let [row, column, count] = [0, 0, 0]
    let cells: Map<number, BookCell> | undefined
    let isIn = false
    for (const tag of this.book.tags(part)) {
      if (tag.name === 'sheetData') {
        isIn = !tag.isEnd && !tag.isEmpty
        if (!isIn) break
        continue
      }
      if (!isIn || tag.isEnd) continue
      if (tag.name === 'row') {
        row = Number(attribute(xml, tag, 'r') ?? row + 1)
        column = 0
        cells = undefined
        if (++count > MOST_CELLS) throw this.tooMany(name)
      } else if (tag.name === 'c') {
        const at = readAddress(attribute(xml, tag, 'r') ?? '')
        column = at?.column ?? column + 1
        if (++count > MOST_CELLS) throw this.tooMany(name)
        const cell = this.cell(xml, tag, masters)
        if (!cell) continue
        // Rows without content are many where somebody formatted a whole column: none is kept.
        if (!cells) {
          if (rows.has(row)) throw new WorkbookError(`${this.book.file}: the workbook is damaged: ${name} has row ${row} twice.`)
          rows.set(row, (cells = new Map()))
        }
        cells.set(column, cell)
      }
    }
    if (isIn) throw new WorkbookError(`${this.book.file}: the workbook is damaged: ${part}, the sheet ${name}, breaks off.`)
    return rows
  }

  private tooMany(name: string): WorkbookError {
    return new WorkbookError(`${this.book.file}: at most ${MOST_CELLS.toLocaleString('en-US')} rows and cells of a sheet are read; ${name} has more.`)
  }

  private cell(xml: string, open: Tag, masters: Map<string, string>): BookCell | undefined {
    if (open.isEmpty) return undefined
    const { text, end } = inside(xml, open)
    const type = attribute(xml, open, 't')
    let value: string | undefined
    let formula: string | undefined
    let fills: BookCell['fills']
    let rich = ''
    for (const tag of tags(xml, open.end, end)) {
      if (tag.isEnd) continue
      if (tag.name === 'v') value = unescapeXml(inside(xml, tag).text)
      else if (tag.name === 'f') {
        formula = this.formula(xml, tag, masters)
        if (attribute(xml, tag, 't') === 'array') fills = lastFilled(attribute(xml, tag, 'ref') ?? '')
      } else if (tag.name === 'is') rich = plainText(xml, tag)
    }
    if (text === '') return undefined
    const plain = this.value(type, value, rich, attribute(xml, open, 's'))
    const style = attribute(xml, open, 's')
    const isTime = typeof plain === 'number' && plain > 0 && plain < 1 && style !== undefined && this.isDate(Number(style))
    if (formula === undefined) return plain === null ? undefined : { value: plain, ...(isTime ? { isTime } : {}) }
    return { value: plain, formula, ...(fills ? { fills } : {}), ...(plain === null ? { isUnworked: true as const } : {}) }
  }

  /** A formula that several cells share is written once, with the first of them. */
  private formula(xml: string, tag: Tag, masters: Map<string, string>): string | undefined {
    const text = unescapeXml(inside(xml, tag).text)
    const shared = attribute(xml, tag, 't') === 'shared' ? attribute(xml, tag, 'si') : undefined
    if (shared === undefined) return text === '' ? undefined : text
    if (text !== '') masters.set(shared, text)
    return masters.get(shared)
  }

  private value(type: string | undefined, value: string | undefined, rich: string, style: string | undefined): BookCell['value'] {
    if (type === 'inlineStr') return rich
    if (value === undefined || (value === '' && type !== 'str')) return null
    switch (type) {
      case 's':
        return this.sharedTexts()[Number(value)] ?? ''
      case 'str':
        return decodeText(value)
      case 'b':
        return value === '1' || value === 'true'
      case 'e':
        return isErrorText(value) ? value : '#VALUE!'
      case 'd': {
        const day = new Date(value.endsWith('Z') ? value : `${value}Z`)
        return Number.isNaN(day.getTime()) ? value : day
      }
      default: {
        const number = Number(value)
        if (!Number.isFinite(number)) return value
        return style !== undefined && this.isDate(Number(style)) ? this.dateOf(number) : number
      }
    }
  }

  /** A serial number as a moment; what is no day in the calendar stays a number. */
  private dateOf(serial: number): Date | number {
    this.dayZero ??= dayZero(this.book)
    if (serial < 1 || serial >= 2_958_466) return serial
    return new Date(this.dayZero + Math.round(serial * DAY_MS))
  }

  sharedText(at: number): string {
    return this.sharedTexts()[at] ?? ''
  }

  private sharedTexts(): readonly string[] {
    if (this.shared) return this.shared
    const part = this.book.relations(this.book.mainPart).find(({ type }) => type.endsWith('/sharedStrings'))?.target
    if (!part || !this.book.has(part)) return (this.shared = [])
    const xml = this.book.text(part)
    const list: string[] = []
    for (const tag of this.book.tags(part)) if (tag.name === 'si' && !tag.isEnd) list.push(plainText(xml, tag))
    return (this.shared = list)
  }

  private isDate(style: number): boolean {
    this.dates ??= this.readDates()
    return this.dates[style] ?? false
  }

  /** Which cell formats show a date: one with a year or a day, outside its quoted words. */
  private readDates(): boolean[] {
    const part = this.book.relations(this.book.mainPart).find(({ type }) => type.endsWith('/styles'))?.target
    if (!part || !this.book.has(part)) return []
    const xml = this.book.text(part)
    const codes = new Map<number, string>()
    const formats: number[] = []
    let isIn = false
    for (const tag of this.book.tags(part)) {
      if (tag.name === 'numFmt' && !tag.isEnd) codes.set(Number(attribute(xml, tag, 'numFmtId')), attribute(xml, tag, 'formatCode') ?? '')
      else if (tag.name === 'cellXfs') isIn = !tag.isEnd && !tag.isEmpty
      else if (isIn && tag.name === 'xf' && !tag.isEnd) formats.push(Number(attribute(xml, tag, 'numFmtId') ?? 0))
    }
    return formats.map((id) => builtInDates.has(id) || showsDate(codes.get(id) ?? ''))
  }
}

const showsDate = (code: string): boolean => /[yd]|(?:^|[^a-z])m+(?:[^a-z]|$)|h+:|:s/i.test(code.replace(/"[^"]*"|\\.|\[[^\]]*\]|_.|\*./g, '').replace(/general/gi, ''))

/** The words of a rich text, without what is read aloud beside them. */
function plainText(xml: string, open: Tag): string {
  if (open.isEmpty) return ''
  const { end } = inside(xml, open)
  let text = ''
  let isAside = false
  for (const tag of tags(xml, open.end, end)) {
    if (tag.name === 'rPh') isAside = !tag.isEnd && !tag.isEmpty
    if (tag.name === 't' && !tag.isEnd && !isAside) text += decodeText(unescapeXml(inside(xml, tag).text))
  }
  return text
}
