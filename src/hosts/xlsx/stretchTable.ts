/** A table of a workbook made to reach over rows and columns that were added at its end. */
import { columnLetters } from '../../plan/plan.js'
import type { Book } from './book.js'
import { readAddress } from './cells.js'
import { attribute, edited, escapeXml, type Tag } from './xml.js'
import { WorkbookError } from './zip.js'

/** A real table reaches over its new columns and rows. What stands below its totals is no part of it: `leave` it there, or it is refused. */
export function stretchTable(book: Book, sheetName: string, table: string, more: { row?: number; columns?: readonly string[]; first?: number; belowTotals?: 'leave' }): void {
  const sheet = book.sheetNamed(sheetName)!
  const part = book
    .relations(sheet.part)
    .find(({ type, target }) => type.endsWith('/table') && book.has(target) && new RegExp(`displayName\\s*=\\s*["']${table}["']`, 'i').test(book.text(target)))?.target
  if (!part) return
  const text = book.text(part)
  const edits = []
  let names: string[] = []
  let most = 0
  let list: Tag | undefined
  for (const tag of book.tags(part)) {
    if (tag.name === 'tableColumns') list = tag.isEnd ? list : tag
    if (tag.name === 'tableColumns' && tag.isEnd && more.columns) {
      const added = more.columns.slice(names.length).map((name, at) => `<${tag.prefix ? `${tag.prefix}:` : ''}tableColumn id="${most + at + 1}" name="${escapeXml(name)}"/>`)
      edits.push({ from: tag.start, to: tag.start, text: added.join('') })
      edits.push({ from: list!.start, to: list!.end, text: text.slice(list!.start, list!.end).replace(/count\s*=\s*"\d+"/, `count="${more.columns.length}"`) })
    }
    if (tag.isEnd) continue
    if (tag.name === 'tableColumn') {
      names = [...names, attribute(text, tag, 'name') ?? '']
      most = Math.max(most, Number(attribute(text, tag, 'id') ?? 0))
    }
    if (tag.name !== 'table' && tag.name !== 'autoFilter') continue
    const reference = attribute(text, tag, 'ref') ?? ''
    const [from, to] = reference.split(':').map(readAddress)
    if (!from || !to) continue
    if (tag.name === 'table' && (more.row ?? 0) >= to.row && Number(attribute(text, tag, 'totalsRowCount') ?? 0) > 0) {
      if (more.belowTotals === 'leave') return
      throw new WorkbookError(
        `${book.file}: the table ${table} of the sheet ${sheetName} has a row of totals, below which no row can be added: switch it off there, then try again. Nothing was written.`,
      )
    }
    const last = more.columns ? (more.first ?? from.column) + more.columns.length - 1 : to.column
    const next = `${columnLetters(from.column)}${from.row}:${columnLetters(Math.max(to.column, last))}${Math.max(to.row, more.row ?? 0)}`
    edits.push({ from: tag.start, to: tag.end, text: text.slice(tag.start, tag.end).replace(`"${reference}"`, `"${next}"`) })
  }
  book.put(part, edited(text, edits))
}
