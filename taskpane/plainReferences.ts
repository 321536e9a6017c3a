/** Columns of tables and names of the workbook, which the grid does not know, in formulas of others: as the cells that they mean. */
import { attribute, inside, unescapeXml } from '../src/hosts/xlsx/xml.js'
import { tablesIn, type BookTable } from '../src/hosts/xlsx/tables.js'
import type { Book } from '../src/hosts/xlsx/book.js'
import { columnLetters, inQuotes } from '../src/plan/plan.js'

/** One formula of a sheet at a row, its references written out; as it was where one of them is not found. */
export type ToPlain = (formula: string, sheet: string, row: number) => string

/** Words in quotes; what stands on a sheet in quotes; a table and what of it; a name that is no function, no cell of a sheet and no column of a range. */
const PIECES =
  /("(?:[^"]|"")*")|('(?:[^']|'')*'(?:![\w.$]*)?)|([A-Za-z_\\][\w.\\]*)(\[(?:'.|[^[\]']|\[(?:'.|[^[\]'])*\])*\])|(?<![\w.$:!\]])((?:[A-Za-z_][\w.]*!)?[A-Za-z_\\][\w.\\]*)(?![\w.$]*[([!:])/g
/** A name whose text is this, every part of it held fast, means the same from every cell. */
const FIXED = /^(?:(?:'(?:[^']|'')*'|[A-Za-z_][\w.]*)!\$[A-Z]{1,3}\$\d+(?::\$[A-Z]{1,3}\$\d+)?|-?\d+(?:\.\d+)?|"[^"]*")$/

export function plainReferences(book: Book): ToPlain {
  const tables = new Map(tablesIn(book).flatMap((table) => (table.hasHeadings ? [[table.name, table] as const] : [])))
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
function areaOf(table: BookTable, part: string, here: string, row: number): string | undefined {
  const { sheet, firstColumn: first } = table
  const columns = table.columns.map((name) => name.toLowerCase())
  const inner = part.slice(1, -1).trim()
  const bracketed = [...inner.matchAll(/\[((?:'.|[^[\]'])*)\]/g)].map(([, text]) => text!)
  const pieces = bracketed.length ? [...(inner.startsWith('@') ? ['#This Row'] : []), ...bracketed] : inner.startsWith('@') ? ['#This Row', inner.slice(1)] : inner ? [inner] : []
  const items = pieces.filter((piece) => piece.startsWith('#')).map((piece) => piece.toLowerCase())
  const named = pieces.filter((piece) => !piece.startsWith('#') && piece !== '').map((piece) => columns.indexOf(piece.replace(/'(.)/g, '$1').toLowerCase()))
  // Two columns apart from each other would be two areas.
  if (named.includes(-1) || named.length > 2 || (named.length === 2 && !/\]\s*:\s*\[/.test(inner))) return undefined
  const rows = rowsOf(items, table, row)
  if (!rows) return undefined
  const [from, to] = named.length ? [Math.min(...named), Math.max(...named)] : [0, columns.length - 1]
  const cell = (column: number, at: number) => `$${columnLetters(first + column)}$${at}`
  const place = `${cell(from, rows[0])}${from === to && rows[0] === rows[1] ? '' : `:${cell(to, rows[1])}`}`
  return here === sheet.name ? place : `${inQuotes(sheet.name)}!${place}`
}

function rowsOf(items: readonly string[], { firstRow: headingRow, lastRow, totals }: BookTable, row: number): [number, number] | undefined {
  const [item, ...more] = items
  const lastOfData = lastRow - totals
  if (more.length) return undefined
  if (item === undefined || item === '#data') return [headingRow + 1, lastOfData]
  if (item === '#headers') return [headingRow, headingRow]
  if (item === '#all') return [headingRow, lastRow]
  if (item === '#totals') return totals ? [lastRow, lastRow] : undefined
  return item === '#this row' && row > headingRow && row <= lastOfData ? [row, row] : undefined
}
