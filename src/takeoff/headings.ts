/** Headings that an office renamed: the sheet Headings says which column of ours each one is, or that it is the office's own. */
import { fieldsOf, tableNames, type TableName } from './officeTables.js'
import { bareLetters, checkField, type Field, type Problem } from './fields.js'
import type { RawOffice, RawTable } from './office.js'

/** A heading of a table stands within so many rows and columns of its sheet, in every host. */
export const HEADINGS_WITHIN = 60

/** A heading that may be a column of ours under another name. */
export interface RenamedHeading {
  table: TableName
  heading: string
  field: string
}

/** Stations head the columns of the daily rain, and a sheet that explains headings is not explained by itself. */
const isMapped = (table: TableName): boolean => table !== 'RainDays' && table !== 'Headings'
const textOf = (value: unknown): string => (typeof value === 'string' ? value.trim() : '')

/** What stands on the sheet: the office's heading by table and column of ours. */
export function yourHeadings(raw: RawOffice): ReadonlyMap<TableName, ReadonlyMap<string, string>> {
  const found = new Map<TableName, Map<string, string>>()
  for (const { cells } of raw.Headings.rows) {
    const table = tableNames.find((name) => name.toLowerCase() === textOf(cells.Table).toLowerCase())
    const [heading, field] = [textOf(cells.Heading), textOf(cells.Field)]
    if (!table || !isMapped(table) || heading === '' || !Object.hasOwn(fieldsOf(table), field)) continue
    // A column that stands there under its own name is the one.
    if (raw[table].columns.includes(field) || !raw[table].columns.includes(heading)) continue
    found.set(table, (found.get(table) ?? new Map<string, string>()).set(field, heading))
  }
  return found
}

/** The tables with our names over the columns that were renamed. */
export function withOurHeadings(raw: RawOffice): RawOffice {
  const yours = yourHeadings(raw)
  if (!yours.size) return raw
  const renamed = (table: RawTable, names: ReadonlyMap<string, string>): RawTable => {
    const ours = new Map([...names].map(([field, heading]) => [heading, field]))
    const nameOf = (heading: string) => ours.get(heading) ?? heading
    return {
      ...table,
      columns: table.columns.map(nameOf),
      rows: table.rows.map(({ row, cells }) => ({ row, cells: Object.fromEntries(Object.entries(cells).map(([heading, value]) => [nameOf(heading), value])) })),
    }
  }
  return { ...raw, ...Object.fromEntries([...yours].map(([table, names]) => [table, renamed(raw[table], names)])) }
}

const SMALL_WORDS: readonly string[] = ['the', 'and', 'per', 'for', 'our', 'all', 'gal', 'psi', 'usd', 'day', 'min', 'gpm', 'yes', 'not']
/** Words of a heading or a label that say what it is about; units and small words do not. */
const aboutWords = (words: string): string[] =>
  words
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((word) => word.length > 2 && !SMALL_WORDS.includes(word))

const fits = (name: string, field: Field, values: readonly unknown[], raw: RawOffice): boolean =>
  values.every((value) => {
    try {
      checkField(name, field, value, (table) => raw[table as TableName].rows.map(({ cells }) => textOf(Object.values(cells)[0])))
      return true
    } catch {
      return false
    }
  })

/** Columns of ours that would stand at the place of a heading: those between its neighbours, as a new workbook has them. */
function standsFor(heading: string, columns: readonly string[], ours: readonly string[]): readonly string[] {
  const at = columns.indexOf(heading)
  const left = columns
    .slice(0, at)
    .filter((name) => ours.includes(name))
    .at(-1)
  const right = columns.slice(at + 1).find((name) => ours.includes(name))
  return ours.slice(left === undefined ? 0 : ours.indexOf(left) + 1, right === undefined ? (left === undefined ? 0 : ours.length) : ours.indexOf(right))
}

/** Columns of ours that a table lacks, each with a heading that says the same, or stands where it would, and whose cells it could hold: nobody shall price a default where a column was renamed. */
export function renamedHeadings(raw: RawOffice, table: TableName, used: readonly string[]): RenamedHeading[] {
  if (!isMapped(table)) return []
  const { columns, rows } = raw[table]
  const fields = Object.entries(fieldsOf(table))
  const missing = fields.filter(([name]) => !columns.includes(name))
  if (!missing.length || missing.length === fields.length) return []
  const known = new Set(raw.Headings.rows.filter(({ cells }) => textOf(cells.Table).toLowerCase() === table.toLowerCase()).map(({ cells }) => textOf(cells.Heading)))
  // A heading that is all but one of ours, letter for letter, is told as such.
  const isNear = (heading: string) => fields.some(([name]) => bareLetters(name) === bareLetters(heading))
  const strangers = columns.filter((heading) => heading !== '' && !isNear(heading) && !Object.hasOwn(fieldsOf(table), heading) && !known.has(heading) && !used.includes(heading))
  return strangers.flatMap((heading): RenamedHeading[] => {
    const values = rows.map(({ cells }) => (Object.hasOwn(cells, heading) ? cells[heading] : null)).filter((value) => value !== null && value !== undefined && value !== '')
    if (!values.length) return []
    const about = aboutWords(heading)
    const saysSame = ([name, field]: (typeof missing)[number]) => [...aboutWords(name.replace(/_.*$/, '')), ...aboutWords(field.label)].some((word) => about.includes(word))
    const between = standsFor(
      heading,
      columns,
      fields.map(([name]) => name),
    )
    const able = missing.filter(([name, field]) => fits(name, field, values, raw))
    const best = (able.find(saysSame) ?? able.find(([name]) => between.includes(name)))?.[0]
    return best === undefined ? [] : [{ table, heading, field: best }]
  })
}

export const renamedProblem = (sheet: string, headings: string, { table, heading, field }: RenamedHeading): Problem => ({
  sheet,
  row: 0,
  column: heading,
  allowed: `${field}, or a row of the sheet ${headings} that says what it is: ${table}, ${heading}, and ${field} or nothing where it is your own`,
  came: `"${heading}"`,
  renamed: { table, heading, field },
})

/** Rows of the sheet that explain nothing. */
export function wrongHeadings(raw: RawOffice): Problem[] {
  const { sheet, rows } = raw.Headings
  return rows.flatMap(({ row, cells }): Problem[] => {
    const [given, heading, field] = [textOf(cells.Table), textOf(cells.Heading), textOf(cells.Field)]
    if (given === '' && heading === '' && field === '') return []
    const table = tableNames.find((name) => name.toLowerCase() === given.toLowerCase())
    if (!table || !isMapped(table)) return [{ sheet, row, column: 'Table', allowed: `one of ${tableNames.filter(isMapped).join(', ')}`, came: `"${given}"` }]
    if (!raw[table].columns.includes(heading)) return [{ sheet, row, column: 'Heading', allowed: `a heading of the sheet ${raw[table].sheet}`, came: `"${heading}"` }]
    if (field === '') return []
    if (!Object.hasOwn(fieldsOf(table), field))
      return [{ sheet, row, column: 'Field', allowed: `a column of ours of ${table}, as ${Object.keys(fieldsOf(table)).at(-1)}, or nothing`, came: `"${field}"` }]
    return raw[table].columns.includes(field)
      ? [{ sheet, row, column: 'Field', allowed: `a column that ${raw[table].sheet} lacks; ${field} stands there itself`, came: `"${field}"` }]
      : []
  })
}
