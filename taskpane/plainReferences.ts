/** Columns of tables and names of the workbook, which the grid does not know, in formulas of others: as the cells that they mean. */
import { attribute, inside, unescapeXml } from '../src/hosts/xlsx/xml.js'
import { readAddress } from '../src/hosts/xlsx/cells.js'
import type { Book, BookSheet } from '../src/hosts/xlsx/book.js'
import { columnLetters, inQuotes } from '../src/plan/plan.js'

interface TableArea {
  sheet: string
  headingRow: number
  /** Below the last row of data. */
  end: number
  totalsRow: number | undefined
  first: number
  columns: readonly string[]
}
/** One formula of a sheet at a row, its references written out; as it was where one of them is not found. */
export type ToPlain = (formula: string, sheet: string, row: number) => string

/** Words in quotes; what stands on a sheet in quotes; a table and what of it; a name that is no function, no cell of a sheet and no column of a range. */
const PIECES =
  /("(?:[^"]|"")*")|('(?:[^']|'')*'(?:![\w.$]*)?)|([A-Za-z_\\][\w.\\]*)(\[(?:'.|[^[\]']|\[(?:'.|[^[\]'])*\])*\])|(?<![\w.$:!\]])((?:[A-Za-z_][\w.]*!)?[A-Za-z_\\][\w.\\]*)(?![\w.$]*[([!:])/g
/** A name whose text is this, every part of it held fast, means the same from every cell. */
const FIXED = /^(?:(?:'(?:[^']|'')*'|[A-Za-z_][\w.]*)!\$[A-Z]{1,3}\$\d+(?::\$[A-Z]{1,3}\$\d+)?|-?\d+(?:\.\d+)?|"[^"]*")$/

export function plainReferences(book: Book): ToPlain {
  const tables = new Map(book.sheets.flatMap((sheet) => tablesOn(book, sheet)))
  const names = namesOf(book)
  if (!tables.size && !names.size) return (formula) => formula
  return (formula, sheet, row) => {
    let isWhole = true
    const plain = formula.replace(PIECES, (whole, words?: string, quoted?: string, table?: string, part?: string, name?: string) => {
      if (words !== undefined || quoted !== undefined) return whole
      // A table alone is all its rows.
      const found = tables.get((table ?? name!).toLowerCase())
      const area = found && areaOf(found, part ?? '[]', sheet, row)
      isWhole &&= table === undefined || area !== undefined
      return area ?? (name === undefined ? undefined : (names.get(`${sheet.toLowerCase()}!${name.toLowerCase()}`) ?? names.get(name.toLowerCase()))) ?? whole
    })
    return isWhole ? plain : formula
  }
}

function tablesOn(book: Book, { name: sheet, part }: BookSheet): (readonly [string, TableArea])[] {
  return book.relations(part).flatMap(({ type, target }) => {
    if (!type.endsWith('/table') || !book.has(target)) return []
    const xml = book.text(target)
    const columns: string[] = []
    let found: readonly [string, TableArea] | undefined
    for (const tag of book.tags(target)) {
      if (tag.isEnd) continue
      // A line feed in a heading is written by its number.
      if (tag.name === 'tableColumn') columns.push((attribute(xml, tag, 'name') ?? '').replace(/_x000[aA]_/g, '\n').toLowerCase())
      if (tag.name !== 'table') continue
      const [from, to] = (attribute(xml, tag, 'ref') ?? '').split(':').map(readAddress)
      if (!from || !to || attribute(xml, tag, 'headerRowCount') === '0') return []
      const totals = Number(attribute(xml, tag, 'totalsRowCount') ?? 0)
      const area = { sheet, headingRow: from.row, end: to.row + 1 - totals, totalsRow: totals ? to.row : undefined, first: from.column, columns }
      found = [(attribute(xml, tag, 'displayName') ?? attribute(xml, tag, 'name') ?? '').toLowerCase(), area]
    }
    return found ? [found] : []
  })
}

function namesOf(book: Book): ReadonlyMap<string, string> {
  const names = new Map<string, string>()
  const xml = book.text(book.mainPart)
  for (const tag of book.tags(book.mainPart)) {
    if (tag.name !== 'definedName' || tag.isEnd || tag.isEmpty) continue
    const text = unescapeXml(inside(xml, tag).text)
    const name = (attribute(xml, tag, 'name') ?? '').toLowerCase()
    const of = attribute(xml, tag, 'localSheetId')
    if (!name.startsWith('_xlnm') && FIXED.test(text)) names.set(of === undefined ? name : `${book.sheets[Number(of)]?.name.toLowerCase()}!${name}`, text)
  }
  return names
}

/** What stands between the brackets after the name of a table, as cells; undefined where it names what the table has not. */
function areaOf({ sheet, headingRow, end, totalsRow, first, columns }: TableArea, part: string, here: string, row: number): string | undefined {
  const inner = part.slice(1, -1).trim()
  const bracketed = [...inner.matchAll(/\[((?:'.|[^[\]'])*)\]/g)].map(([, text]) => text!)
  const pieces = bracketed.length ? [...(inner.startsWith('@') ? ['#This Row'] : []), ...bracketed] : inner.startsWith('@') ? ['#This Row', inner.slice(1)] : inner ? [inner] : []
  const items = pieces.filter((piece) => piece.startsWith('#')).map((piece) => piece.toLowerCase())
  const named = pieces.filter((piece) => !piece.startsWith('#') && piece !== '').map((piece) => columns.indexOf(piece.replace(/'(.)/g, '$1').toLowerCase()))
  // Two columns apart from each other would be two areas.
  if (named.includes(-1) || named.length > 2 || (named.length === 2 && !/\]\s*:\s*\[/.test(inner))) return undefined
  const rows = rowsOf(items, { headingRow, end, totalsRow }, row)
  if (!rows) return undefined
  const [from, to] = named.length ? [Math.min(...named), Math.max(...named)] : [0, columns.length - 1]
  const cell = (column: number, at: number) => `$${columnLetters(first + column)}$${at}`
  const place = `${cell(from, rows[0])}${from === to && rows[0] === rows[1] ? '' : `:${cell(to, rows[1])}`}`
  return here === sheet ? place : `${inQuotes(sheet)}!${place}`
}

function rowsOf(items: readonly string[], { headingRow, end, totalsRow }: Pick<TableArea, 'headingRow' | 'end' | 'totalsRow'>, row: number): [number, number] | undefined {
  const [item, ...more] = items
  if (more.length) return undefined
  if (item === undefined || item === '#data') return [headingRow + 1, end - 1]
  if (item === '#headers') return [headingRow, headingRow]
  if (item === '#all') return [headingRow, totalsRow ?? end - 1]
  if (item === '#totals') return totalsRow === undefined ? undefined : [totalsRow, totalsRow]
  return item === '#this row' && row > headingRow && row < end ? [row, row] : undefined
}
