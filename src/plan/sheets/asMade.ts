/**
 * What a takeoff came to when it was made, beside its Changes: lines, sums, verdicts, and marks of the words that its sheets have.
 * The next making is held against these, so that what somebody types between two makings is a change like any other, and no word of theirs
 * is taken for one of ours. It stands hidden in few cells, as a request of Excel holds so much and no more.
 */
import { shortHash } from '../../shortHash.js'
import { fieldsByName, linesByCode, type Before, type EarlierLine } from '../../takeoff/changes.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import { text, type Rows } from '../keptCells.js'
import type { PlanCell, SheetPlan } from '../plan.js'

const HEADING = 'As last made'
/** Between the parts of an entry, and between entries: signs that no sheet of ours uses. */
const [PART, ENTRY] = ['│', '┃']
/** A cell of a file holds 32,767 characters. */
const LONGEST = 30_000
/** A few letters of a text: enough to know one of ours again among some hundred. */
const MARK = 5
/** Most words of a sheet are those of every job. */
const known = new Map<string, string>()
const MOST_KNOWN = 20_000
export function markOfWords(words: string): string {
  let mark = known.get(words)
  if (mark === undefined) {
    if (known.size >= MOST_KNOWN) known.clear()
    known.set(words, (mark = shortHash([words.trim()]).slice(0, MARK)))
  }
  return mark
}

const inOneEntry = (parts: readonly (string | number)[]): string => parts.map((part) => String(part).replace(/[│┃]/g, ' ')).join(PART)
const wordsEntry = ({ kind, cells }: SheetPlan): string => {
  // Nobody writes between the steps of calls that are worked through.
  if (kind === 'working') return ''
  const marks = new Set(cells.flatMap(({ value, formula }) => (typeof value === 'string' && value !== '' && formula === undefined ? [markOfWords(value)] : [])))
  return marks.size * MARK > LONGEST / 2 ? '' : inOneEntry(['words', kind, [...marks].join('')])
}

/** The Changes with what was made behind what is printed. */
export function withAsMade(changes: SheetPlan, takeoff: Takeoff, plans: readonly SheetPlan[]): SheetPlan {
  const entries = [
    ...[...linesByCode(takeoff)].map(([key, { description, order, price, amount }]) => inOneEntry(['line', key, description, order, price, amount])),
    inOneEntry(['sums', takeoff.orderCost, takeoff.total]),
    ...[...fieldsByName(takeoff)].map(([name, value]) => inOneEntry(['field', name, value])),
    ...takeoff.design.verdicts().map(({ label, verdict }) => inOneEntry(['verdict', label, verdict])),
    ...plans.map(wordsEntry).filter(Boolean),
  ]
  const pieces = ['']
  for (const entry of entries) {
    const last = pieces.at(-1)!
    if (last.length + entry.length < LONGEST) pieces[pieces.length - 1] = last === '' ? entry : last + ENTRY + entry
    else pieces.push(entry)
  }
  const column = changes.hiddenColumn!
  const cells = [HEADING, ...pieces].map((value, at): PlanCell => ({ row: changes.frozenRows + at, column, role: 'faint', value, format: 'text' }))
  return { ...changes, cells: [...changes.cells, ...cells] }
}

/** The entries of a sheet of changes; nothing where it was made before they were kept. */
function entriesIn(rows: Rows): string[][] {
  const heading = rows.findIndex((row) => row.some((cell) => text(cell) === HEADING))
  if (heading < 0) return []
  const column = rows[heading]!.findIndex((cell) => text(cell) === HEADING)
  return rows
    .slice(heading + 1)
    .flatMap((row) => text(row[column]).split(ENTRY).filter(Boolean))
    .map((entry) => entry.split(PART))
}

export type AsMade = Pick<Before, 'lines' | 'cost' | 'total' | 'verdicts' | 'fields'>

export function asMadeIn(rows: Rows): AsMade | undefined {
  const entries = entriesIn(rows)
  if (!entries.length) return undefined
  const of = (kind: string) => entries.filter(([what]) => what === kind)
  const [, cost, total] = of('sums')[0] ?? []
  return {
    lines: new Map(
      of('line').map(([, key, description, order, price, amount]): [string, EarlierLine] => [
        key!,
        { description: description!, order: Number(order), price: Number(price), amount: Number(amount) },
      ]),
    ),
    cost: Number(cost),
    total: Number(total),
    verdicts: new Map(of('verdict').map(([, label, word]) => [label!, word!])),
    ...(of('field').length ? { fields: new Map(of('field').map(([, name, value]) => [name!, value!])) } : {}),
  }
}

/** Marks of the words that each kind of sheet was made with. */
export const wordsMadeIn = (rows: Rows): ReadonlyMap<string, ReadonlySet<string>> =>
  new Map(entriesIn(rows).flatMap(([what, kind, marks]) => (what === 'words' ? [[kind!, new Set(marks!.match(new RegExp(`.{${MARK}}`, 'g')))] as const] : [])))
