/** Reads back from a crew sheet its entries, readings and own lines. */
import type { Kept } from '../takeoff/takeoff.js'
import { CREW_CLOSING, CREW_DONE, CREW_HEADING_ROW, crewColumns, entryColumnsOf, entryWords, isCrewHeading, isOurWord } from './crewSheet.js'
import { movedHeading, plain, text, type Rows } from './keptCells.js'

/** Entries beside our own steps and tanks. All else that was written is kept in words, as a line of the crew's own. */
export function fromCrew(rows: Rows, sheet: string): Pick<Kept, 'crew' | 'problems'> {
  const cells: Record<string, Record<number, string | number>> = {}
  const added: { text: string; done: string }[] = []
  const moved = movedHeading(rows, sheet, CREW_HEADING_ROW, crewColumns.done, CREW_DONE)
  if (moved) return { crew: { cells, added }, problems: [moved] }
  for (const row of rows.slice(CREW_HEADING_ROW)) {
    const code = text(row[crewColumns.code - 1])
    const done = plain(row[crewColumns.done - 1])
    const own = entryColumnsOf(code)
    const typed = row.map((cell, at) => [at + 1, plain(cell)] as const).filter(([column, words]) => column > crewColumns.code && words !== '')
    const inWords = (list: typeof typed) => list.map(([column, words]) => entryWords(code, column, words)).join('; ')
    if (own && !(code in cells)) {
      const entries = typed.filter(([column]) => own.includes(column))
      if (entries.length)
        cells[code] = Object.fromEntries(entries.map(([column, words]) => [column, typeof row[column - 1]!.value === 'number' ? (row[column - 1]!.value as number) : words]))
      const over = typed.filter(([column, words]) => !own.includes(column) && !isOurWord(code, column, words))
      if (over.length) added.push({ text: `${code}, written over: ${inWords(over)}`, done: '' })
    } else if (own) {
      const again = typed.filter(([column, words]) => column !== crewColumns.done && !isOurWord(code, column, words))
      if (again.length || done) added.push({ text: `${code} again: ${inWords(again)}`, done })
    } else if (!isCrewHeading(code) && typed.some(([, words]) => words !== CREW_CLOSING)) {
      const words = typed.filter(([column]) => column !== crewColumns.done).map(([, written]) => written)
      added.push({ text: [code, ...words].filter(Boolean).join(' '), done })
    }
  }
  return { crew: { cells, added }, problems: [] }
}
