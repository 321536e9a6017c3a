/** A published table: rows as records, the unit in every column name, each row with its own source where they differ. */
import { cite, trustedLess, type Citation, type WorkId } from './sources.js'

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

/** A place in a table that any row may be taken from: no figure of it is trusted more than the least trusted row. */
export function citeRows(from: Table, work: WorkId, locator: string): Citation {
  const own = cite(work, locator)
  const grades = from.rows.map((_, at) => from.sourceOf(at).grade)
  const worst = grades.reduce((least, grade) => (trustedLess(grade, least) ? grade : least), own.grade)
  return worst === own.grade || grades.every((grade) => grade === worst) ? cite(work, locator, worst) : cite(work, `${locator}; some rows ${worst}`, worst)
}

/** A column of a table as a list. */
export const column = (from: Table, name: string): Cell[] => from.rows.map((row) => row[name]!)

/** The cell in the row whose named columns hold the wanted values; undefined when no row does. */
export function lookUp(from: Table, where: Row, name: string): Cell | undefined {
  const wanted = Object.entries(where)
  return from.rows.find((row) => wanted.every(([key, value]) => row[key] === value))?.[name]
}
