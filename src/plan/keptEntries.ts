/** Reads back what was written into the entries of a job's sheets: by code and heading, wherever rows and columns have moved to. */
import { parseNumber } from '../units.js'
import type { CrewWritten, Kept } from '../takeoff/typed.js'
import type { Problem } from '../takeoff/fields.js'
import { isUnworked, plain, text, type Cell, type Rows } from './keptCells.js'
import type { EntryList } from './sheetKind.js'
import { crewHeadings } from './sheets/crewDraft.js'
import { BOX, BY_HAND, DO_NOT_START, isCrewHeading } from './sheets/crewOwnWords.js'
import { sheetKinds } from './sheets/index.js'
import { entryWords } from './sheets/testDraft.js'

const lists = sheetKinds.flatMap(({ lists: own }) => own ?? [])
/** What people put into the box of a step. */
const TICKS: readonly string[] = ['☑', '☒', '✓', '✔', 'x', 'X']
const SIGNATURE = /^(Tested by|For the owner|Inspector), date$/

/** Where the words of a list's headings stand in a row; undefined where it is no heading of that list. */
function headingAt(row: Rows[number], list: EntryList): ReadonlyMap<string, number> | undefined {
  const found = new Map<string, number>()
  for (const [key, words] of Object.entries(list.headings)) {
    const at = row.findIndex((cell) => text(cell) === words)
    if (at >= 0) found.set(key, at)
  }
  return found.has('code') && found.has('done') ? found : undefined
}

/** Entries under our own codes. All else that was written is kept in words, as a line of the crew's own. */
export function fromEntries(rows: Rows, sheet: string, hasEntries = true): Pick<Kept, 'crew' | 'problems'> & { settled: ReadonlySet<string> } {
  const problems: Problem[] = []
  const cells: Record<string, Record<string, string | number>> = {}
  const added: { text: string; done: string }[] = []
  /** Cells that are read back, as "row column" from 1. */
  const settled = new Set<string>()
  let list: EntryList | undefined
  let columns: ReadonlyMap<string, number> = new Map()
  for (const [at, row] of rows.entries()) {
    const heading = lists.map((known) => ({ known, at: headingAt(row, known) })).find(({ at }) => at)
    if (heading) {
      // A bar within the list says the headings of its entries once more, and its own title in the place of one.
      columns = heading.known === list ? new Map([...columns, ...heading.at!]) : heading.at!
      list = heading.known
      continue
    }
    if (!list) continue
    readRow(row, list, at + 1)
  }
  if (!list) {
    const [heading] = Object.values(crewHeadings)
    return {
      settled,
      crew: { cells, added },
      problems:
        hasEntries && rows.some((row) => row.some((cell) => text(cell) !== ''))
          ? [{ sheet, row: 0, column: heading!, allowed: 'headings as the sheet was made', came: 'none of them' }]
          : [],
    }
  }
  return { settled, crew: { cells, added }, problems }

  function readRow(row: Rows[number], of: EntryList, place: number): void {
    const codeAt = columns.get('code')!
    // The box of a step stands before its code and has no heading.
    const keyOf = (at: number) => (at === codeAt - 1 && of.entries.includes('box') ? 'box' : ([...columns].find(([, column]) => column === at)?.[0] ?? `column ${at + 1}`))
    const code = text(row[codeAt])
    /** What stands in an entry; a plain number in letters is one where a number is wanted. */
    const valueOf = (at: number, key: string): string | number => {
      const { value } = row[at]!
      if (typeof value === 'number') return value
      const words = text(row[at])
      return (of.span?.(code, key) ? parseNumber(words) : undefined) ?? words
    }
    // An entry that somebody wrote as a formula counts as its result; where we write formulas, none is an entry.
    const entriesHere = [...of.entries, ...(of.alsoOf?.(code) ?? [])]
    const isEntry = (key: string) => of.isCode(code) && entriesHere.includes(key)
    const wordsIn = (cell: Cell, key: string) => (isEntry(key) ? text(cell) : plain(cell))
    for (const [at, cell] of row.entries())
      if (isEntry(keyOf(at)) && isUnworked(cell) && !/^""$/.test(cell.formula!))
        problems.push({ sheet, row: place, column: of.headings[keyOf(at)] ?? keyOf(at), allowed: 'an entry; the formula was saved without its result', came: `=${cell.formula}` })
    const typed = row.map((cell, at) => ({ at, key: keyOf(at), words: wordsIn(cell, keyOf(at)) })).filter(({ at, words }) => at !== codeAt && words !== '' && words !== BOX)
    const ticked = typed.findIndex(({ key, words }) => key !== 'box' && TICKS.includes(words))
    if (ticked >= 0 && of.isCode(code) && !of.onlyEntries && !typed.some(({ key }) => key === 'done')) typed[ticked]!.key = 'done'
    const done = typed.find(({ key }) => key === 'done')?.words ?? ''
    const inWords = (some: typeof typed) => some.map(({ key, words }) => entryWords(key, words)).join('; ')
    const known = `${of.prefix ?? ''}${code}`
    if (of.isCode(code) && !Object.hasOwn(cells, known)) {
      const entries = typed.filter(({ key }) => entriesHere.includes(key))
      for (const { at, key } of entries) {
        settled.add(`${place} ${at + 1}`)
        const read = valueOf(at, key)
        const span = of.span?.(code, key)
        // Words without a figure are somebody's remark; a figure in words, as of another unit, would be judged by nobody.
        const isIn = !span || (typeof read === 'number' ? read >= span.least && read <= span.most : !/\d/.test(read))
        if (!isIn) problems.push({ sheet, row: place, column: of.headings[key] ?? key, allowed: `${span.least} to ${span.most} ${span.unit}`.trim(), came: `${code} ${read}` })
      }
      if (entries.some(({ key }) => !of.beside?.includes(key))) cells[known] = Object.fromEntries(entries.map(({ at, key }) => [key, valueOf(at, key)]))
      const over = of.onlyEntries ? [] : typed.filter(({ key, words }) => !entriesHere.includes(key) && !of.isOurWord(code, key, words))
      if (over.length) added.push({ text: `${code}, written over: ${inWords(over)}`, done: '' })
    } else if (of.onlyEntries) return
    else if (of.isCode(code)) {
      const again = typed.filter(({ key, words }) => key !== 'done' && !of.isOurWord(code, key, words))
      if (again.length || done) added.push({ text: `${code} again: ${inWords(again)}`, done })
    } else {
      const who = typed.map(({ words }) => SIGNATURE.exec(words)?.[1]).find(Boolean)
      if (who) {
        if (done) cells[`S ${who}`] = { done }
        return
      }
      const words = typed.filter(({ key, words: said }) => key !== 'done' && !isOurLine(said)).map(({ words: said }) => said)
      if (isCrewHeading(code) || [BY_HAND, DO_NOT_START].includes(typed[0]?.words ?? '')) return
      if (words.length || done) added.push({ text: [code, ...words].filter(Boolean).join(' '), done })
    }
  }
}

const isOurLine = (words: string): boolean => sheetKinds.some((kind) => kind.isOurLine?.(words))

export function bothWritten(one: CrewWritten, other: CrewWritten): CrewWritten {
  const brought = [...(one.brought ?? []), ...(other.brought ?? [])]
  return { cells: { ...one.cells, ...other.cells }, added: [...one.added, ...other.added], ...(brought.length ? { brought } : {}) }
}
