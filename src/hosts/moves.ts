/** Rows of sheets that are made again, known by their words: where each stood and where it stands, and formulas that follow them. */
import { columnLetters, type SheetPlan } from '../plan/plan.js'
import { takeoffHeadings } from '../plan/keptTakeoff.js'
import { takeoffColumns } from '../plan/sheets/takeoffColumns.js'
import type { SheetContent } from './host.js'

/** Columns whose words tell a row of a sheet of ours from the others: code and description, name; a table's first column. */
export const keyColumns = ({ kind }: Pick<SheetPlan, 'kind'>): readonly number[] => (kind === 'office' ? [2] : [2, 3])
const wordOf = (value: unknown): string => (value instanceof Date ? value.toISOString().slice(0, 10) : String(value ?? ''))

/** The words by which each row is known, the first row of a word counting. */
export function keysOf(
  value: (row: number, column: number) => unknown,
  rows: Iterable<number>,
  columns: readonly number[],
): { byRow: Map<number, string>; byKey: Map<string, number> } {
  const byRow = new Map<number, string>()
  const byKey = new Map<string, number>()
  for (const row of rows) {
    const key = columns.map((column) => wordOf(value(row, column))).join('\n')
    if (key.trim() === '' || byKey.has(key)) continue
    byRow.set(row, key)
    byKey.set(key, row)
  }
  return { byRow, byKey }
}

export interface Move {
  before: ReadonlyMap<number, string>
  after: ReadonlyMap<string, number>
  /** Letters of columns that stand elsewhere now. */
  column: ReadonlyMap<string, string>
}
export type Moves = ReadonlyMap<string, Move>

/** What becomes of the rows of a sheet, `standing` as they are before it is made again. */
export function moveOf(plan: SheetPlan, standing: SheetContent): Move {
  const planned = new Map(plan.cells.map((cell) => [`${cell.row} ${cell.column}`, cell.value]))
  const columns = keyColumns(plan)
  const headings = plan.kind === 'takeoff' ? takeoffHeadings(standing) : undefined
  const oldColumns = headings ? [headings.columns.get('code')! + 1, headings.columns.get('description')! + 1] : columns
  return {
    before: keysOf(
      (row, column) => standing[row - 1]?.[column - 1]?.value,
      Array.from(standing.keys(), (at) => at + 1),
      oldColumns,
    ).byRow,
    after: keysOf(
      (row, column) => planned.get(`${row} ${column}`),
      [...new Set(plan.cells.map(({ row }) => row))].sort((one, other) => one - other),
      columns,
    ).byKey,
    column: new Map([...(headings?.columns ?? [])].map(([name, at]) => [columnLetters(at + 1), columnLetters(takeoffColumns[name])])),
  }
}

/** The name of a sheet as people see it. */
export const plainName = (quoted: string): string => quoted.replace(/''/g, "'").toLowerCase()

/** A cell, or a range of cells, of another sheet. */
const elsewhere = /(?<![\w'.])('(?:[^']|'')+'|[A-Za-z_][\w.]*)!(\$?[A-Z]{1,3}\$?)(\d+)(?::(\$?[A-Z]{1,3}\$?)(\d+))?/gi

/** Whole rows of another sheet, and a cell of several sheets at once: they are told, and not followed. */
const wholeRows = /(?<![\w.'])('(?:[^']|'')+'|[A-Za-z_][\w.]*)!\$?(\d+):\$?\d+(?![\d:])/gi
const throughSheets = /(?<![\w.'])('(?:[^':]|'')+:(?:[^']|'')+'|[A-Za-z_][\w.]*:[A-Za-z_][\w.]*)!/gi

const LOOK = ': look whether it still means what it did'

/** `isOnlyTold`: what stands in a place that is not written anew. */
export function follow(formula: string, moves: Moves, place: string, lost: string[], isOnlyTold = false): string {
  const bare = (sheet: string) => plainName(sheet.replace(/^'(.*)'$/s, '$1'))
  for (const [whole, sheet, row] of formula.matchAll(wholeRows)) {
    const move = moves.get(bare(sheet!))
    if (move && move.after.get(move.before.get(Number(row)) ?? '') !== Number(row)) lost.push(`${place} points to ${whole}${LOOK}`)
  }
  for (const [whole, sheets] of formula.matchAll(throughSheets))
    if (
      bare(sheets!)
        .split(':')
        .some((name) => moves.has(name))
    )
      lost.push(`${place} points through ${whole.slice(0, -1)}${LOOK}`)
  return formula.replace(elsewhere, (whole: string, sheet: string, column: string, digits: string, toColumn?: string, toDigits?: string) => {
    const move = moves.get(bare(sheet))
    if (!move) return whole
    const { before, after } = move
    const moved = (row: number) => {
      const key = before.get(row)
      return key === undefined ? undefined : after.get(key)
    }
    const across = (letters: string) => letters.replace(/[A-Z]+/i, (bare) => move.column.get(bare.toUpperCase()) ?? bare)
    const [from, to] = [Number(digits), Number(toDigits ?? digits)]
    const next = moved(from)
    // A range follows where each of its rows moved by as much as the first.
    const isWhole =
      next !== undefined && Array.from({ length: Math.max(0, to - from) + 1 }, (_, step) => from + step).every((row) => !before.has(row) || moved(row) === next + row - from)
    if (next === from && isWhole && isOnlyTold) return whole
    if (next !== undefined && isWhole && !isOnlyTold) return `${sheet}!${across(column)}${next}${toColumn === undefined ? '' : `:${across(toColumn)}${next + to - from}`}`
    if (toDigits !== undefined || before.has(from) || isOnlyTold)
      lost.push(`${place} points to ${whole}${before.has(from) ? ` (${before.get(from)!.replace('\n', ' ').trim()})` : ''}${LOOK}`)
    return whole
  })
}
