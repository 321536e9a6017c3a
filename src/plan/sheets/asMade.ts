/**
 * What a takeoff came to when it was made, beside its Changes: lines, sums, verdicts, and marks of what its sheets hold.
 * The next making is held against these, so that what somebody types between two makings is a change like any other, and nothing of theirs
 * is taken for ours. It stands hidden in few cells, as a request of Excel holds so much and no more.
 */
import { fieldsByName, linesByCode, type Before, type Change, type EarlierLine, type KeptChange } from '../../takeoff/changes.js'
import { roundTo } from '../../rounding.js'
import type { Takeoff } from '../../takeoff/takeoff.js'
import { MARK, markOfFigure, markOfWords } from '../cellMarks.js'
import { text, type Rows } from '../keptCells.js'
import type { PlanCell, SheetPlan } from '../plan.js'

export const AS_LAST_MADE = 'As last made'
/** Between the parts of an entry, and between entries: signs that no sheet of ours uses. */
const [PART, ENTRY] = ['│', '┃']
/** A cell of a file holds 32,767 characters. */
const LONGEST = 30_000
/** Words without those signs. */
export const bareOf = (words: string): string => words.replace(/[│┃]/g, ' ')
const inOneEntry = (parts: readonly (string | number)[]): string => parts.map((part) => bareOf(String(part))).join(PART)
/** How often a figure stands on a sheet, in so many hexadecimal digits. */
const COUNT = 2
/** So many, or more. */
export const MOST_COUNTED = 16 ** COUNT - 1
const inDigits = (count: number): string => Math.min(count, MOST_COUNTED).toString(16).padStart(COUNT, '0')

/** Marks of the words of a sheet, and of its numbers and formulas with how often each stands there. */
function marksOf({ kind, cells }: SheetPlan): string[] {
  const words = new Set<string>()
  for (const { value, formula } of cells) if (typeof value === 'string' && value !== '' && formula === undefined) words.add(markOfWords(value))
  const figures = countsOf(cells)
  return [
    ['words', kind, [...words].join('')],
    ['figures', kind, [...figures].map(([mark, count]) => `${mark}${inDigits(count)}`).join('')],
  ].flatMap((entry) => (entry[2]!.length > LONGEST / 2 ? [] : [inOneEntry(entry)]))
}

/** How often each number and each formula stands among cells. */
export function countsOf(cells: Iterable<Parameters<typeof markOfFigure>[0]>): Map<string, number> {
  const counts = new Map<string, number>()
  for (const cell of cells) {
    const mark = markOfFigure(cell)
    if (mark !== undefined) counts.set(mark, (counts.get(mark) ?? 0) + 1)
  }
  return counts
}

/** A figure is told from words, and both from nothing. */
const asText = (value: Change['from']): string => (value === null ? '' : typeof value === 'number' ? `=${value}` : `'${value}`)
const asValue = (written: string): Change['from'] => (written === '' ? null : written.startsWith('=') ? Number(written.slice(1)) : written.slice(1))

/** The Changes with what was made behind what is printed. */
export function withAsMade(changes: SheetPlan, kept: readonly KeptChange[], takeoff: Takeoff, plans: readonly SheetPlan[]): SheetPlan {
  const entries = [
    ...kept.map(({ revision, date, what, code, words, from, to, money }) => inOneEntry(['change', revision, date, what, code, words, asText(from), asText(to), asText(money)])),
    ...[...linesByCode(takeoff)].map(([key, { description, order, price, amount, net, unit = '' }]) =>
      inOneEntry(['line', key, description, order, price, amount, net === undefined ? '' : roundTo(net, 4), unit]),
    ),
    inOneEntry(['sums', takeoff.orderCost, takeoff.total]),
    ...[...fieldsByName(takeoff)].map(([name, value]) => inOneEntry(['field', name, value])),
    ...takeoff.design.verdicts().map(({ label, verdict }) => inOneEntry(['verdict', label, verdict])),
    ...plans.flatMap(marksOf),
  ]
  return behind(changes, entries)
}

/** A sheet with the marks of what it holds behind what is printed. */
export const withOwnMarks = (plan: SheetPlan): SheetPlan => behind(plan, marksOf(plan))

function behind(plan: SheetPlan, entries: readonly string[]): SheetPlan {
  const pieces = ['']
  for (const entry of entries) {
    const last = pieces.at(-1)!
    if (last.length + entry.length < LONGEST) pieces[pieces.length - 1] = last === '' ? entry : last + ENTRY + entry
    else pieces.push(entry)
  }
  const column = plan.hiddenColumn!
  const cells = [AS_LAST_MADE, ...pieces].map((value, at): PlanCell => ({ row: 1 + at, column, role: 'faint', value, format: 'text' }))
  return { ...plan, cells: [...plan.cells, ...cells] }
}

/** The entries of a sheet of changes; nothing where it was made before they were kept. */
function entriesIn(rows: Rows): string[][] {
  const heading = rows.findIndex((row) => row.some((cell) => text(cell) === AS_LAST_MADE))
  if (heading < 0) return []
  const column = rows[heading]!.findIndex((cell) => text(cell) === AS_LAST_MADE)
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
  // Somebody took off rows that held them: nothing is known of how it was made.
  if (cost === undefined || total === undefined) return undefined
  return {
    lines: new Map(
      of('line').map(([, key, description, order, price, amount, net, unit]): [string, EarlierLine] => [
        key!,
        { description: description!, order: Number(order), price: Number(price), amount: Number(amount), ...(net ? { net: Number(net) } : {}), ...(unit ? { unit } : {}) },
      ]),
    ),
    cost: Number(cost),
    total: Number(total),
    verdicts: new Map(of('verdict').map(([, label, word]) => [label!, word!])),
    ...(of('field').length ? { fields: new Map(of('field').map(([, name, value]) => [name!, value!])) } : {}),
  }
}

/** The changes that the sheet was written with, newest first; none where it was made before they were kept. */
export const changesMadeIn = (rows: Rows): readonly KeptChange[] =>
  entriesIn(rows)
    .filter(([kind]) => kind === 'change')
    .map(([, revision, date, what, code, words, from, to, sum]) => ({
      revision: Number(revision),
      date: date!,
      what: what as Change['what'],
      code: code!,
      words: words!,
      from: asValue(from!),
      to: asValue(to!),
      money: asValue(sum!) as number | null,
    }))

/** What a sheet was made with; sheets of earlier versions know of their words alone, or of nothing. */
export interface MadeWith {
  words?: ReadonlySet<string>
  figures?: ReadonlyMap<string, number>
}
const pieces = (marks: string, length: number): string[] => marks.match(new RegExp(`.{${length}}`, 'g')) ?? []

export function madeWithIn(rows: Rows): ReadonlyMap<string, MadeWith> {
  const made = new Map<string, MadeWith>()
  for (const [what, kind, marks] of entriesIn(rows)) {
    if (what === 'words') made.set(kind!, { ...made.get(kind!), words: new Set(pieces(marks!, MARK)) })
    else if (what === 'figures')
      made.set(kind!, { ...made.get(kind!), figures: new Map(pieces(marks!, MARK + COUNT).map((piece) => [piece.slice(0, MARK), parseInt(piece.slice(MARK), 16)])) })
  }
  return made
}
