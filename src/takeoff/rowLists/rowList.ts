/** Like rows of a job, a figure a column: its months, roofs, uses, years and days of rain, points of the pump's curve. One evaluator here, one writer in plan/rowBlock.ts. */
import { formula, type Scope } from '../../formula/formula.js'
import { FormulaError, type Single } from '../../formula/value.js'
import type { Citation } from '../../sources.js'
import type { DailyBalance } from '../dailyBalance.js'
import type { RainRecord } from '../rainDays.js'

export interface Column<N extends string = string> {
  name: N
  label: string
  /** Over names of its own row, of the row above (`before_…`) and of the job; a text a row where each has its own, empty where the value is given. */
  formula: string | readonly string[]
  source: Citation
  /** The column whose last row stands above the first row of this one; nothing stands there where none is named. */
  startsAt?: string
  isSummed?: true
  /** Where they are not those of its unit. */
  decimals?: number
  isYear?: true
  isText?: true
}
export const column = <const N extends string>(
  name: N,
  label: string,
  text: Column['formula'],
  source: Citation,
  more: Omit<Column, 'name' | 'label' | 'formula' | 'source'> = {},
): Column<N> => ({ name, label, formula: text, source, ...more })

export interface ListRow {
  name: string
  /** Values that are given; they stand before a formula. */
  cells: Readonly<Record<string, Single>>
}
/** What a job brings to its lists. */
export interface JobRows {
  readonly catchments: readonly Catchment[]
  readonly uses: readonly MonthlyUse[]
  readonly record: RainRecord | undefined
  /** The tanks day by day over the record. */
  readonly balance: DailyBalance | undefined
}
export interface Catchment {
  area_ft2: number
  surface: string
  inlet: string
}
export interface MonthlyUse {
  use: string
  months: readonly number[]
}

export interface RowList<C extends Column = Column> {
  title: (job: JobRows) => string
  /** Heading above the names of the rows. */
  heading: string
  columns: readonly C[]
  rows: (job: JobRows) => readonly ListRow[]
  /** Names of the job that rows and given values are worked out from. */
  restsOn: readonly string[]
  /** The name of the row of sums. */
  sum?: string
}

/** A list of one job: its rows, and what stands in a column of them. */
export interface Listed {
  rows: readonly ListRow[]
  column: (name: string) => readonly Single[]
}

const BEFORE = 'before_'
/** The column of the row above that a name stands for; undefined for other names. */
export const columnAbove = (name: string): string | undefined => (name.startsWith(BEFORE) ? name.slice(BEFORE.length) : undefined)
/** The texts of a column's formulas, without the empty ones. */
export const textsOf = ({ formula: text }: Column): readonly string[] => (typeof text === 'string' ? [text] : text).filter(Boolean)
/** The formula of a cell; empty where its value is given. */
export const textAt = ({ name, formula: text }: Column, row: ListRow, at: number): string =>
  Object.hasOwn(row.cells, name) ? '' : typeof text === 'string' ? text : (text[at] ?? '')

/** The columns of a list, each cell worked out once, when it is asked for. `taken` gives columns that are known already. */
export function columnsOf(list: RowList, rows: readonly ListRow[], scope: Scope, taken: (name: string) => readonly Single[] | undefined): Listed['column'] {
  const columns = new Map(list.columns.map((one) => [one.name, { rule: one, cells: [...(taken(one.name) ?? Array<Single>(rows.length))] }]))
  type Worked = typeof columns extends Map<string, infer One> ? One : never
  let at = 0
  const inRow: Scope = {
    ...scope,
    value: (name) => {
      const own = columns.get(name)
      if (own) return cell(own, at)
      const above = columns.get(columnAbove(name) ?? '')
      if (!above) return scope.value(name)
      if (at > 0) return cell(above, at - 1)
      const start = columns.get(above.rule.startsAt ?? '')
      return start ? cell(start, rows.length - 1) : 0
    },
  }
  function cell({ rule, cells }: Worked, row: number): Single {
    const known = cells[row]
    if (known !== undefined) return known
    const text = textAt(rule, rows[row]!, row)
    if (text === '') return (cells[row] = rows[row]!.cells[rule.name] ?? null)
    cells[row] = new FormulaError('#REF!', `${rule.name} depends on itself`)
    const reader = at
    at = row
    const value = formula(text).evaluate(inRow) as Single
    at = reader
    return (cells[row] = value)
  }
  return (name) => {
    const worked = columns.get(name)!
    return rows.map((_, row) => cell(worked, row))
  }
}
