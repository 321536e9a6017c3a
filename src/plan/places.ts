/** Where every name stands: fields and results on a job's own sheets, columns of the office and published tables on theirs. */
import { FIRST_ROW } from '../takeoff/firstRow.js'
import { keyColumn, fieldsOf, MOST_ROWS, type TableName } from '../takeoff/officeTables.js'
import { tables as published } from '../tables/index.js'
import { quotedSheet, range } from './plan.js'

export interface TablePlace {
  sheet: string
  /** First row below the headings. */
  firstRow: number
  /** Column number of a heading. */
  columnOf(name: string): number | undefined
}
export type OfficePlaces = Readonly<Record<TableName, TablePlace>>

export const OFFICE_HEADING_ROW = FIRST_ROW - 1
export const OFFICE_FIRST_COLUMN = 2

/** The places of the tables as our own template lays them out. */
export function standardPlaces(): OfficePlaces {
  return Object.fromEntries(
    (Object.keys(MOST_ROWS) as TableName[]).map((table) => {
      const names = Object.keys(fieldsOf(table))
      const columnOf = (name: string) => (names.includes(name) ? names.indexOf(name) + OFFICE_FIRST_COLUMN : undefined)
      return [table, { sheet: table, firstRow: OFFICE_HEADING_ROW + 1, columnOf }]
    }),
  ) as unknown as OfficePlaces
}

export const PUBLISHED_SHEET = 'Published tables'
const PUBLISHED_FIRST_ROW = 5

/** Row of the headings of each published table on its sheet: title, notes, headings, rows, a gap. */
export const publishedRows: ReadonlyMap<string, number> = (() => {
  const rows = new Map<string, number>()
  let row = PUBLISHED_FIRST_ROW
  for (const table of published) {
    rows.set(table.id, row + 1 + table.notes.length)
    row += table.notes.length + table.rows.length + 4
  }
  return rows
})()

/** The range of `Table[column]`, of an office or a published table; undefined when there is none. */
function columnRange(name: string, places: OfficePlaces): string | undefined {
  const parts = /^(\w+)\[(\w+)\]$/.exec(name)
  if (!parts) return undefined
  const [, table, column] = parts as unknown as [string, string, string]
  const print = published.find((known) => known.id === table)
  if (print) {
    const at = print.columns.indexOf(column)
    const heading = publishedRows.get(table)!
    return at < 0 ? undefined : `${quotedSheet(PUBLISHED_SHEET)}!${range(heading + 1, heading + print.rows.length, at + 2)}`
  }
  const place = places[table as TableName] as TablePlace | undefined
  const at = place?.columnOf(column)
  return place && at !== undefined ? `${quotedSheet(place.sheet)}!${range(place.firstRow, place.firstRow + MOST_ROWS[table as TableName] - 1, at)}` : undefined
}

/** What stands for a column that an older workbook lacks, until its lookup is made an empty text. */
const LACKING = 'LACKING_COLUMN'
/** A lookup in a column that is not there finds nothing, as an empty cell would: the default of the column counts. */
export const withoutLacking = (formula: string): string =>
  formula.includes(LACKING) ? formula.replace(new RegExp(`INDEX\\(${LACKING},MATCH\\((?:[^()]|\\([^()]*\\))*\\)\\)`, 'g'), '""') : formula
const isLacking = (name: string, places: OfficePlaces): boolean => {
  const parts = /^(\w+)\[(\w+)\]$/.exec(name)
  const table = parts?.[1] as TableName | undefined
  return table !== undefined && Object.hasOwn(places, table) && Object.hasOwn(fieldsOf(table), parts![2]!) && places[table].columnOf(parts![2]!) === undefined
}

/** A lookup in an office table by its first column. */
export const lookup = (places: OfficePlaces, table: TableName, column: string, wanted: string): string =>
  `INDEX(${columnRange(`${table}[${column}]`, places)},MATCH(${wanted},${columnRange(`${table}[${keyColumn(table)}]`, places)},0))`

/** Where columns of ours stand that the office heads otherwise. */
export const withYourHeadings = (places: OfficePlaces, yours: ReadonlyMap<TableName, ReadonlyMap<string, string>>): OfficePlaces => ({
  ...places,
  ...Object.fromEntries([...yours].map(([table, names]) => [table, { ...places[table], columnOf: (name: string) => places[table].columnOf(names.get(name) ?? name) }])),
})

/** The names of one job, each with its cell or range. */
export class NamePlaces {
  private readonly known = new Map<string, { sheet: string; ref: string }>()
  constructor(private readonly places: OfficePlaces) {}

  set(name: string, sheet: string, ref: string): void {
    this.known.set(name, { sheet, ref })
  }

  /** How a formula on `sheet` points to a name. */
  from(sheet: string) {
    return (name: string): string => {
      const place = this.known.get(name)
      if (place) return place.sheet === sheet ? place.ref : `${quotedSheet(place.sheet)}!${place.ref}`
      const column = columnRange(name, this.places)
      if (column === undefined && isLacking(name, this.places)) return LACKING
      if (column === undefined) throw new Error(`${name} has no place on the sheets.`)
      return column
    }
  }
}
