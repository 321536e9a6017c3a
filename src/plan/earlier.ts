/** Reads a job's sheets as they stand before they are made again: what the takeoff said, and the changes kept so far. */
import { isErrorText, type Problem } from '../takeoff/fields.js'
import { ORDER_COST } from '../takeoff/sumWords.js'
import { verdictWords } from '../takeoff/verdicts.js'
import type { Before, EarlierLine, KeptChange } from '../takeoff/changes.js'
import type { JobSheetNames } from './jobSheets.js'
import { text, type Cell, type Rows } from './keptCells.js'
import { designHeadings } from './keptDesign.js'
import { takeoffHeadings } from './keptTakeoff.js'
import { asMadeIn, bareOf, changesMadeIn } from './sheets/asMade.js'
import { changesHeadings, markOf } from './sheets/changesSheet.js'

export interface Earlier {
  before: Before | undefined
  changes: readonly KeptChange[]
  /** Those of them whose rows somebody took off since: they come back. */
  backAgain?: readonly KeptChange[]
  problems: readonly Problem[]
}
export const nothingEarlier: Earlier = { before: undefined, changes: [], problems: [] }

const number = (cell: Cell | undefined): number => (text(cell) === '' ? 0 : Number(text(cell)))

export function earlierFrom(names: JobSheetNames, read: (sheet: string) => Rows | undefined): Earlier {
  const [takeoff, design, changes] = [read(names.takeoff), read(names.design), read(names.changes)]
  const kept = changes ? keptChanges(changes, names.changes) : { changes: [], problems: [] }
  return { before: beforeOf(takeoff, design, changes), ...kept }
}

const madeIn = (rows: Rows): { date: string; revision: number } | undefined =>
  rows
    .slice(0, 6)
    .flatMap((row) => row.map((cell) => /Made (\S+), revision (\d+)/.exec(text(cell))))
    .flatMap((found) => (found ? [{ date: found[1]!, revision: Number(found[2]) }] : []))[0]

/** As it was made; sheets of earlier versions tell how they stand alone. Where somebody took the takeoff away, its Changes still count the revisions. */
function beforeOf(rows: Rows | undefined, design: Rows | undefined, changes: Rows | undefined): Before | undefined {
  const asMade = changes && asMadeIn(changes)
  if (!rows) {
    const made = changes && madeIn(changes)
    return asMade && made && { ...made, ...asMade, isTakeoffGone: true }
  }
  const headings = takeoffHeadings(rows)
  const made = madeIn(rows)
  if (!headings || !made) return undefined
  const { date, revision } = made
  if (asMade) {
    const named = new Set(rows.flatMap((row) => (['code', 'description'] as const).map((name) => text(row[headings.columns.get(name) ?? -1]))))
    // Where codes show an error nobody can tell whose line is gone.
    const gone = [...named].some(isErrorText) ? [] : [...asMade.lines.keys()].filter((key) => !named.has(key))
    return { date, revision, ...asMade, lines: withUnits(asMade.lines, rows, headings), gone }
  }
  const lines = new Map<string, EarlierLine>()
  let [cost, total] = [0, 0]
  for (const row of rows.slice(headings.row + 1)) {
    const cell = (name: 'code' | 'description' | 'order' | 'price' | 'amount' | 'yours' | 'unit') => row[headings.columns.get(name) ?? -1]
    const [code, description, amount] = [text(cell('code')), text(cell('description')), number(cell('amount'))]
    if (description === ORDER_COST && code === '') cost = amount
    else if (description === 'Total' && code === '') total = amount
    else if (code !== '' && description !== '' && cell('amount') !== undefined) add(code)
    else if (text(cell('unit')) !== '' && amount !== 0) add(description)

    function add(key: string): void {
      const order = text(cell('order')) === '' ? number(cell('yours')) : number(cell('order'))
      const known = lines.get(key)
      lines.set(key, known ? { ...known, order: known.order + order, amount: known.amount + amount } : { description, order, price: number(cell('price')), amount })
    }
  }
  return { date, revision, lines, cost, total, verdicts: verdictsIn(design) }
}

/** What older versions did not keep of a line, its unit, as the sheet says it. */
function withUnits(lines: ReadonlyMap<string, EarlierLine>, rows: Rows, { columns }: NonNullable<ReturnType<typeof takeoffHeadings>>): ReadonlyMap<string, EarlierLine> {
  const cell = (row: Rows[number], name: 'code' | 'description' | 'unit') => text(row[columns.get(name) ?? -1])
  const units = new Map(rows.flatMap((row) => (['description', 'code'] as const).map((name) => [cell(row, name), cell(row, 'unit')] as const)))
  return new Map([...lines].map(([key, line]) => [key, line.unit === undefined && units.get(key) ? { ...line, unit: units.get(key) } : line]))
}

/** Verdict words of a Design sheet by their labels, which stand left of the names. */
function verdictsIn(rows: Rows | undefined): Map<string, string> {
  const headings = rows && designHeadings(rows)
  if (!headings) return new Map()
  return new Map(
    rows.slice(headings.row + 1).flatMap((row) => {
      const word = text(row[headings.value])
      return (verdictWords as readonly string[]).includes(word) ? [[text(row[headings.name - 1]), word] as const] : []
    }),
  )
}

/** Rows of the sheet Changes: each carries a mark of what it said, so that one edited by hand is told. */
function keptChanges(rows: Rows, sheet: string): Pick<Earlier, 'changes' | 'backAgain' | 'problems'> {
  const changes: KeptChange[] = []
  const problems: Problem[] = []
  let columns: Map<string, number> | undefined
  for (const [at, row] of rows.entries()) {
    const found = new Map(Object.entries(changesHeadings).map(([key, words]) => [key, row.findIndex((cell) => text(cell) === words)]))
    if ([...found.values()].every((column) => column >= 0)) {
      columns = found
      continue
    }
    if (!columns) continue
    const cell = (key: string) => row[columns!.get(key)!]
    if (text(cell('mark')) === '') continue
    const value = (key: string): string | number | null => (typeof cell(key)?.value === 'number' ? (cell(key)!.value as number) : text(cell(key)) || null)
    const change: KeptChange = {
      revision: number(cell('revision')),
      date: text(cell('date')),
      what: text(cell('what')) as KeptChange['what'],
      code: text(cell('code')),
      words: text(cell('words')),
      from: value('from'),
      to: value('to'),
      money: text(cell('money')) === '' ? null : number(cell('money')),
    }
    if (markOf(change) !== text(cell('mark')))
      problems.push({
        sheet,
        row: at + 1,
        column: changesHeadings.mark,
        allowed: 'the row as it was written: changes are kept and not edited',
        came: `"${change.words}", changed by hand`,
      })
    changes.push(change)
  }
  return problems.length ? { changes, problems } : { ...withTakenOff(changes, changesMadeIn(rows)), problems }
}

/** What was kept of a change has no signs that part it from the next. */
const isSame = (found: KeptChange, made: KeptChange): boolean => {
  const bare = (value: KeptChange['from']) => (typeof value === 'string' ? bareOf(value) : value)
  return markOf({ ...found, code: bareOf(found.code), words: bareOf(found.words), from: bare(found.from), to: bare(found.to) }) === markOf(made)
}

/** Rows that stood there when it was made, back at their places: what they added to the price is in it. */
function withTakenOff(found: readonly KeptChange[], made: readonly KeptChange[]): Pick<Earlier, 'changes' | 'backAgain'> {
  const changes = [...found]
  const backAgain: KeptChange[] = []
  made.forEach((change, at) => {
    if (changes.some((known) => isSame(known, change))) return
    const before = at === 0 ? -1 : changes.findIndex((known) => isSame(known, made[at - 1]!))
    changes.splice(before + 1, 0, change)
    backAgain.push(change)
  })
  return { changes, ...(backAgain.length ? { backAgain } : {}) }
}
