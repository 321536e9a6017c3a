/**
 * What a takeoff came to when it was made, beside its Changes: lines, sums and verdicts, a row each. The next making is held against these,
 * so that what somebody types on the Takeoff between two makings is a change like any other.
 */
import { shortHash } from '../../shortHash.js'
import { linesByCode, type Before, type EarlierLine } from '../../takeoff/changes.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import { text, type Rows } from '../keptCells.js'
import type { PlanCell, SheetDraft, SheetPlan } from '../plan.js'

export type AsMade = Pick<Before, 'lines' | 'cost' | 'total' | 'verdicts'>

const headings = ['As last made', 'Key', 'In words', 'Ordered', 'At, $', 'Amount made, $'] as const
export const AS_MADE_WIDTHS: readonly number[] = [11, 17, 34, 12, 12, 13]
const [LINE, COST, TOTAL, VERDICT, WORDS] = ['line', 'cost', 'total', 'verdict', 'words'] as const

export function putAsMade(draft: SheetDraft, takeoff: Takeoff, row: number, column: number): void {
  headings.forEach((words, at) => draft.put(column + at, at < 3 ? 'heading' : 'headingRight', words, { row }))
  const rows = [
    ...[...linesByCode(takeoff)].map(([key, { description, order, price, amount }]) => [LINE, key, description, order, price, amount]),
    [COST, null, null, null, null, takeoff.orderCost],
    [TOTAL, null, null, null, null, takeoff.total],
    ...takeoff.design.verdicts().map(({ label, verdict }) => [VERDICT, label, verdict, null, null, null]),
  ]
  rows.forEach((cells, down) =>
    cells.forEach((value, at) => {
      if (value !== null) draft.put(column + at, typeof value === 'number' ? 'faintRight' : 'faint', value, { row: row + 1 + down, format: typeof value === 'number' ? 4 : 'text' })
    }),
  )
}

/** Undefined where a sheet was made before such rows were kept. */
export function asMadeIn(rows: Rows): AsMade | undefined {
  const heading = rows.findIndex((row) => headings.every((words) => row.some((cell) => text(cell) === words)))
  if (heading < 0) return undefined
  const [kind, key, words, order, price, amount] = headings.map((wanted) => rows[heading]!.findIndex((cell) => text(cell) === wanted))
  const lines = new Map<string, EarlierLine>()
  const verdicts = new Map<string, string>()
  let [cost, total] = [0, 0]
  for (const row of rows.slice(heading + 1)) {
    const number = (at: number | undefined) => Number(text(row[at!]) || 0)
    const [name, inWords] = [text(row[key!]), text(row[words!])]
    const what = text(row[kind!])
    if (what === LINE) lines.set(name, { description: inWords, order: number(order), price: number(price), amount: number(amount) })
    else if (what === VERDICT) verdicts.set(name, inWords)
    else if (what === COST) cost = number(amount)
    else if (what === TOTAL) total = number(amount)
  }
  return { lines, cost, total, verdicts }
}

/** A few letters of a text: enough to know one of ours again among some hundred. */
const MARK = 5
export const markOfWords = (words: string): string => shortHash([words.trim()]).slice(0, MARK)
/** A cell of a file holds so many characters. */
const LONGEST = 32_767

/** The Changes with the marks of all words that the sheets of this making have, so that the next one knows what somebody wrote among them. */
export function withWordsMade(changes: SheetPlan, plans: readonly SheetPlan[]): SheetPlan {
  const heading = changes.cells.find(({ value }) => value === headings[0])!
  let row = Math.max(...changes.cells.flatMap((cell) => (cell.column === heading.column ? [cell.row] : [])))
  const cells = plans.flatMap(({ kind, cells: own }): PlanCell[] => {
    const marks = new Set(own.flatMap(({ value, formula }) => (typeof value === 'string' && value !== '' && formula === undefined ? [markOfWords(value)] : [])))
    if (!marks.size || marks.size * MARK > LONGEST) return []
    row++
    return [WORDS, kind, [...marks].join('')].map((value, at) => ({ row, column: heading.column + at, role: 'faint', value, format: 'text' }))
  })
  return { ...changes, cells: [...changes.cells, ...cells] }
}

/** Marks of the words that each kind of sheet was made with; empty where a sheet was made before they were kept. */
export function wordsMadeIn(rows: Rows): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, ReadonlySet<string>>()
  for (const row of rows) {
    const at = row.findIndex((cell) => text(cell) === WORDS)
    const marks = text(row[at + 2])
    if (at > 0 && /^[0-9a-f]+$/.test(marks) && marks.length % MARK === 0) found.set(text(row[at + 1]), new Set(marks.match(new RegExp(`.{${MARK}}`, 'g'))))
  }
  return found
}
