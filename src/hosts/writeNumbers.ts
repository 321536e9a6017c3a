/** Numbers in the place of words that mean them, and nothing in that of spaces, in the tables of an office. */
import { columnLetters } from '../plan/plan.js'
import { checkedOrRaw } from '../takeoff/fields.js'
import { fieldsOf, tableNames } from '../takeoff/officeTables.js'
import { WorkbookError, type FoundOffice, type Workbook } from './file.js'
import { putCells, type PutCell } from './xlsx/putCells.js'

/** Formulas read the cells of the tables themselves: "3 m" in one of them becomes the number that it means, a space nothing; answers which did. */
export function writeNumbers(workbook: Workbook, { raw, places }: Pick<FoundOffice, 'raw' | 'places'>): string[] {
  const { book, file } = workbook
  const changed: string[] = []
  for (const table of tableNames) {
    if (table === 'Jobs' || table === 'RainDays') continue
    const sheet = book.sheetNamed(raw[table].sheet)
    if (!sheet) continue
    const numbers: PutCell[] = []
    const standing = workbook.cells.rows(sheet)
    for (const { row, cells } of raw[table].rows) {
      for (const [name, field] of Object.entries(fieldsOf(table))) {
        const value = checkedOrRaw(name, field, cells[name])
        const column = places[table].columnOf(name)
        if (column === undefined || typeof cells[name] !== 'string' || value === cells[name] || (typeof value !== 'number' && typeof value !== 'string' && value !== null)) continue
        const place = `${sheet.name}!${columnLetters(column)}${row}`
        if (standing.get(row)?.get(column)?.formula !== undefined)
          throw new WorkbookError(`${file}: ${place}, ${name}: a formula that gives ${value ?? 'nothing'} itself; it gives the text "${cells[name]}". Nothing was written.`)
        numbers.push({ row, column, value })
        if (typeof value === 'number') changed.push(`${place}: "${cells[name]}" is ${value} now`)
        // Formulas take a space for a text.
        else if (value === null) changed.push(`${place}: empty now; a space stood there`)
      }
    }
    if (numbers.length) book.put(sheet.part, putCells(book.text(sheet.part), numbers))
  }
  return changed
}
