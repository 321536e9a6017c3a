/** A published table: rows as records, the unit in every column name, each row with its own source where they differ. */
import type { Citation } from './sources.js'

export type Cell = string | number | null
export type Row = Readonly<Record<string, Cell>>

export interface Table {
  id: string
  title: string
  columns: readonly string[]
  rows: readonly Row[]
  /** The source of a row. */
  sourceOf(row: number): Citation
  notes: readonly string[]
}

export function table(options: {
  id: string
  title: string
  source: Citation
  notes?: readonly string[]
  rows: readonly (Readonly<Record<string, Cell | Citation | undefined>> & { source?: Citation })[]
}): Table {
  const rows = options.rows.map(({ source: _source, ...row }) => row as Row)
  return {
    id: options.id,
    title: options.title,
    columns: Object.keys(rows[0]!),
    rows,
    sourceOf: (at) => options.rows[at]?.source ?? options.source,
    notes: options.notes ?? [],
  }
}

/** A column of a table as a list. */
export const column = (from: Table, name: string): Cell[] => from.rows.map((row) => row[name]!)

/** The cell in the row whose named columns hold the wanted values; undefined when no row does. */
export function lookUp(from: Table, where: Row, name: string): Cell | undefined {
  const wanted = Object.entries(where)
  return from.rows.find((row) => wanted.every(([key, value]) => row[key] === value))?.[name]
}
