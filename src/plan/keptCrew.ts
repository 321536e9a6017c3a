/** Reads back what was written on the crew sheet and the test record: by code and heading, wherever rows and columns have moved to. */
import { cautionRules, closingCaution } from '../takeoff/cautions.js'
import { crewSteps, LOG_ENTRIES } from '../takeoff/crewSteps.js'
import { readingRules } from '../takeoff/readings.js'
import type { CrewWritten, Kept } from '../takeoff/takeoff.js'
import { BOX, BY_HAND, CREW_CLOSING, crewHeadings, DO_NOT_START, isCrewHeading, isOurStepWord } from './crewSheet.js'
import { plain, text, type Rows } from './keptCells.js'
import { isQuoteCode, QUOTE_PREFIX, quoteHeadings } from './quoteSheet.js'
import { ORDER_PREFIX, orderHeadings } from './orderSheet.js'
import { entryWords, isTankCode, logHeading, logHeadings, readingHeadings, tankWords } from './testSheet.js'

interface List {
  /** Before the code of an entry, where another sheet has the same codes. */
  prefix?: string
  /** Beside its entries nothing is written on the sheet by hand. */
  onlyEntries?: true
  /** Words of the headings, by what is kept under them. */
  headings: Readonly<Record<string, string>>
  /** Keys of the cells that people write into. */
  entries: readonly string[]
  isCode(code: string): boolean
  isOurWord(code: string, key: string, words: string): boolean
}

const steps: List = { headings: crewHeadings, entries: ['done'], isCode: (code) => crewSteps.some((step) => step.code === code), isOurWord: isOurStepWord }
const log: List = {
  headings: { ...logHeadings, ...Object.fromEntries(LOG_ENTRIES.map((name) => [name, logHeading(name)])) },
  entries: [...LOG_ENTRIES, 'done'],
  isCode: isTankCode,
  isOurWord: (_, key, words) => key === 'text' && Object.values(tankWords).includes(words),
}
const readings: List = {
  headings: readingHeadings,
  entries: ['reading', 'done'],
  isCode: (code) => readingRules.some((rule) => rule.code === code),
  isOurWord: (code, _key, words) => {
    const rule = readingRules.find((known) => known.code === code)
    return rule !== undefined && (words === rule.label || words === rule.wanted || words === rule.unit)
  },
}
const quote: List = { prefix: QUOTE_PREFIX, onlyEntries: true, headings: quoteHeadings, entries: ['done'], isCode: isQuoteCode, isOurWord: (_, key) => key === 'text' }
const order: List = { prefix: ORDER_PREFIX, onlyEntries: true, headings: orderHeadings, entries: ['done'], isCode: (code) => code !== '', isOurWord: (_, key) => key !== 'done' }
const lists = [steps, log, readings, quote, order]
const SIGNATURE = /^(Tested by|For the owner|Inspector), date$/

/** Where the words of a list's headings stand in a row; undefined where it is no heading of that list. */
function headingAt(row: Rows[number], list: List): ReadonlyMap<string, number> | undefined {
  const found = new Map<string, number>()
  for (const [key, words] of Object.entries(list.headings)) {
    const at = row.findIndex((cell) => text(cell) === words)
    if (at >= 0) found.set(key, at)
  }
  return found.has('code') && found.has('done') ? found : undefined
}

/** Entries under our own codes. All else that was written is kept in words, as a line of the crew's own. */
export function fromCrew(rows: Rows, sheet: string): Pick<Kept, 'crew' | 'problems'> {
  const cells: Record<string, Record<string, string | number>> = {}
  const added: { text: string; done: string }[] = []
  let list: List | undefined
  let columns: ReadonlyMap<string, number> = new Map()
  for (const row of rows) {
    const heading = lists.map((known) => ({ known, at: headingAt(row, known) })).find(({ at }) => at)
    if (heading) {
      list = heading.known
      columns = heading.at!
      continue
    }
    if (!list) continue
    readRow(row, list)
  }
  if (!list) {
    const [heading] = Object.values(crewHeadings)
    return {
      crew: { cells, added },
      problems: rows.some((row) => row.some((cell) => text(cell) !== ''))
        ? [{ sheet, row: 0, column: heading!, allowed: 'headings as the sheet was made', came: 'none of them' }]
        : [],
    }
  }
  return { crew: { cells, added }, problems: [] }

  function readRow(row: Rows[number], of: List): void {
    const keyOf = (at: number) => [...columns].find(([, column]) => column === at)?.[0] ?? `column ${at + 1}`
    const codeAt = columns.get('code')!
    const code = text(row[codeAt])
    const typed = row.map((cell, at) => ({ at, key: keyOf(at), words: plain(cell) })).filter(({ at, words }) => at !== codeAt && words !== '' && words !== BOX)
    const done = typed.find(({ key }) => key === 'done')?.words ?? ''
    const inWords = (some: typeof typed) => some.map(({ key, words }) => entryWords(key, words)).join('; ')
    const known = `${of.prefix ?? ''}${code}`
    if (of.isCode(code) && !Object.hasOwn(cells, known)) {
      const entries = typed.filter(({ key }) => of.entries.includes(key))
      if (entries.length) cells[known] = Object.fromEntries(entries.map(({ at, key, words }) => [key, typeof row[at]!.value === 'number' ? (row[at]!.value as number) : words]))
      const over = of.onlyEntries ? [] : typed.filter(({ key, words }) => !of.entries.includes(key) && !of.isOurWord(code, key, words))
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
      const words = typed.filter(({ key, words: said }) => key !== 'done' && said !== CREW_CLOSING && !isOurLine(said)).map(({ words: said }) => said)
      if (isCrewHeading(code) || [BY_HAND, DO_NOT_START].includes(typed[0]?.words ?? '')) return
      if (words.length || done) added.push({ text: [code, ...words].filter(Boolean).join(' '), done })
    }
  }
}

/** Lines of ours that stand between the rows: sections, hazards in a few words, terms. */
const isOurLine = (words: string): boolean =>
  isCrewHeading(words) || /^(?:LOG OF THE VACUUM TEST|LINE, PUMP, SWITCH AND FIRST FILL|SIGNED|Still: .*)$/.test(words) || ourShortWords.has(words)
const ourShortWords = new Set<string>([
  'engineer or licensed person',
  'office',
  closingCaution,
  ...cautionRules.flatMap(({ short, text: words }) => [short, ...(typeof words === 'string' ? [words] : [])]),
])

export const bothWritten = (one: CrewWritten, other: CrewWritten): CrewWritten => ({ cells: { ...one.cells, ...other.cells }, added: [...one.added, ...other.added] })
