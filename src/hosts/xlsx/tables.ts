/** The tables of a workbook, as their parts say them. */
import type { Book, BookSheet } from './book.js'
import { readAddress } from './cells.js'
import { attribute } from './xml.js'

export interface BookTable {
  /** In small letters. */
  name: string
  sheet: BookSheet
  firstRow: number
  lastRow: number
  firstColumn: number
  lastColumn: number
  hasHeadings: boolean
  /** Rows of sums below the data. */
  totals: number
  columns: readonly string[]
}

export function tablesIn(book: Book): BookTable[] {
  return book.sheets.flatMap((sheet) =>
    book.relations(sheet.part).flatMap(({ type, target }) => {
      if (!type.endsWith('/table') || !book.has(target)) return []
      const xml = book.text(target)
      const columns: string[] = []
      let found: Omit<BookTable, 'columns'> | undefined
      for (const tag of book.tags(target)) {
        if (tag.isEnd) continue
        // A line feed in a heading is written by its number.
        if (tag.name === 'tableColumn') columns.push((attribute(xml, tag, 'name') ?? '').replace(/_x000[aA]_/g, '\n'))
        if (tag.name !== 'table' || found) continue
        const [from, to = from] = (attribute(xml, tag, 'ref') ?? '').split(':').map(readAddress)
        if (!from || !to) return []
        found = {
          name: (attribute(xml, tag, 'displayName') ?? attribute(xml, tag, 'name') ?? '').toLowerCase(),
          sheet,
          firstRow: from.row,
          lastRow: to.row,
          firstColumn: from.column,
          lastColumn: to.column,
          hasHeadings: attribute(xml, tag, 'headerRowCount') !== '0',
          totals: Number(attribute(xml, tag, 'totalsRowCount') ?? 0),
        }
      }
      return found ? [{ ...found, columns }] : []
    }),
  )
}
