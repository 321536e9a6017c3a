/** The published tables that native formulas look up, printed with their sources. */
import { citationText } from '../sources.js'
import { tables } from '../tables/index.js'
import { bareName, symbolOf } from '../units.js'
import { PUBLISHED_SHEET, publishedRows } from './places.js'
import { madeLine, SheetDraft, type Made, type SheetPlan } from './plan.js'

export function tablesSheet(made: Made): SheetPlan {
  const draft = new SheetDraft()
  draft.heading('Published tables', 'What the formulas of this workbook look up, each row with its source and grade', madeLine(made))
  const widest = Math.max(...tables.map((table) => table.columns.length))
  for (const table of tables) {
    const heading = publishedRows.get(table.id)!
    draft.row = heading - 1 - table.notes.length
    draft.put(2, 'section', table.title.toUpperCase())
    table.notes.forEach((note) => {
      draft.next()
      draft.put(2, 'faint', note)
    })
    draft.row = heading
    const sourceColumn = table.columns.length + 2
    table.columns.forEach((name, at) =>
      draft.put(at + 2, typeof table.rows[0]![name] === 'string' ? 'heading' : 'headingRight', `${bareName(name)}${symbolOf(name) ? `, ${symbolOf(name)}` : ''}`),
    )
    draft.put(sourceColumn, 'heading', 'Grade and source')
    table.rows.forEach((row, index) => {
      draft.next()
      table.columns.forEach((name, at) => {
        const value = row[name] ?? null
        draft.put(at + 2, typeof value === 'string' ? 'text' : 'number', value, typeof value === 'string' ? { format: 'text' } : {})
      })
      const source = table.sourceOf(index)
      draft.put(sourceColumn, 'faint', `${source.grade}: ${citationText(source)}`)
    })
  }
  return draft.sheet(PUBLISHED_SHEET, {
    kind: 'tables',
    widths: [2, 26, ...Array.from({ length: widest }, () => 13)],
    headingRow: 3,
    landscape: true,
    footer: 'Published tables',
  })
}
