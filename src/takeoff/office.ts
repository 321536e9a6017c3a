/** Reads the office's tables: raw rows in, checked rows and problems out. Nothing is thrown away in silence. */
import { badInput, grouped, shown } from '../errors.js'
import { roundTo } from '../rounding.js'
import { bareLetters, checkedOrRaw, isBlank, checkField, problemAt, WILDCARDS, type CellValue, type Field, type Problem } from './fields.js'
import { CRANE_RADII_FT, CURVE_POINTS, fieldsOf, isHeadingOf, keyColumn, MOST_ROWS, optionalTables, tableNames, type TableName } from './officeTables.js'
import { renamedHeadings, renamedProblem, withOurHeadings, wrongHeadings, yourHeadings } from './headings.js'
import { ownCell, ownFieldsIn } from './ownFields.js'
import { readRainDays, type RainRecord } from './rainDays.js'

/** A price can come later than all else: without it there is no total, and every figure is there all the same. */
const PRICE = 'Price_usd'

export interface RawRow {
  /** Row number on its sheet, for messages. */
  row: number
  cells: Readonly<Record<string, unknown>>
}
export interface RawTable {
  sheet: string
  columns: readonly string[]
  rows: readonly RawRow[]
  /** The table is not there, and a sheet of another name has its columns. */
  elsewhere?: string
}
export type RawOffice = Readonly<Record<TableName, RawTable>>

export interface Row {
  row: number
  cells: Readonly<Record<string, CellValue>>
  /** Fields whose cell was empty and took their default. */
  defaulted: ReadonlySet<string>
}
export interface Office {
  tables: Readonly<Record<TableName, readonly Row[]>>
  sheets: Readonly<Record<TableName, string>>
  /** Columns of Jobs that the office added and its rules use. */
  ownFields: readonly string[]
  /** What the office heads columns of ours with, where it renamed them. */
  headings: ReadonlyMap<TableName, ReadonlyMap<string, string>>
  /** Daily records by station, in small letters. */
  rain: ReadonlyMap<string, RainRecord>
  problems: readonly Problem[]
}

/** A table that the workbook lacks: no row, under its own name. */
export const emptyTable = (table: TableName): RawTable => ({ sheet: table, columns: Object.keys(fieldsOf(table)), rows: [] })
/** Tables as they were found; those that a workbook may lack are empty where it does. */
export const withOptional = (found: Partial<Record<TableName, RawTable>>, elsewhere: ReadonlyMap<TableName, string> = new Map()): RawOffice =>
  ({
    ...Object.fromEntries(optionalTables.map((table) => [table, { ...emptyTable(table), ...(elsewhere.has(table) && { elsewhere: elsewhere.get(table) }) }])),
    ...Object.fromEntries(Object.entries(found).filter(([, raw]) => raw)),
  }) as unknown as RawOffice

/** The name that the row of a job says it had before; nothing where it says none. */
export const formerNameOf = ({ cells }: Pick<RawRow, 'cells'>): string | undefined => String(cells.FormerName ?? '').trim() || undefined

/** Names of jobs in small letters: the sheets of a job end with its name. */
export function jobNamesIn({ rows }: RawTable): readonly string[] {
  const names = rows.map(({ cells }) => String(cells.Job ?? ''))
  return names.map((name) => name.trim().toLowerCase()).filter(Boolean)
}

/** Sheets of other names that have the columns of tables which are not there; those of jobs are not asked. */
export function tablesElsewhere(
  absent: readonly TableName[],
  jobs: readonly string[],
  sheets: Iterable<{ name: string; rows: () => Iterable<readonly string[]> }>,
): Map<TableName, string> {
  const found = new Map<TableName, string>()
  if (!absent.length) return found
  for (const { name, rows } of sheets) {
    if (tableNames.includes(name as TableName) || jobs.some((job) => name.toLowerCase().endsWith(job))) continue
    for (const words of rows()) for (const table of absent) if (isHeadingOf(table, words)) found.set(table, name)
  }
  return found
}

const isEmptyRow = ({ cells }: RawRow) => Object.values(cells).every(isBlank)

/**
 * `isLive` says that formulas will read the very cells of these tables, not a written copy:
 * a cell must then hold the value itself, and "3 m" is refused with the number to type.
 */
export function readOffice(found: RawOffice, { isLive = false } = {}): Office {
  const raw = withOurHeadings(found)
  const problems: Problem[] = []
  const known = new Map<string, readonly string[]>()
  const names = (table: string): readonly string[] => {
    let found = known.get(table)
    if (!found) known.set(table, (found = namesIn(table)))
    return found
  }
  const namesIn = (table: string): readonly string[] => {
    const source = raw[table as TableName]
    const key = keyColumn(table as TableName)
    return source.rows
      .filter((row) => !isEmptyRow(row))
      .map((row) => String(row.cells[key] ?? '').trim())
      .filter(Boolean)
  }
  const ownFields = ownFieldsIn(raw)
  const tables = Object.fromEntries(
    tableNames.map((table) => [table, table === 'RainDays' ? [] : readTable(table, raw[table], table === 'Jobs' ? ownFields : [], names, isLive, problems)]),
  ) as unknown as Office['tables']
  const rain = readRainDays(raw.RainDays, problems)
  for (const table of tableNames)
    problems.push(...renamedHeadings(raw, table, table === 'Jobs' ? ownFields : []).map((one) => renamedProblem(raw[table].sheet, raw.Headings.sheet, one)))
  problems.push(...wrongHeadings(found), ...tableNames.flatMap((table) => elsewhereProblem(table, found[table])))
  const headings = yourHeadings(found)
  return { tables, ownFields, headings, rain, sheets: Object.fromEntries(tableNames.map((table) => [table, raw[table].sheet])) as Office['sheets'], problems }
}

/** Columns that may be empty and may not be gone: without them money would leave a price unsaid. */
const NEEDED_COLUMNS: Partial<Record<TableName, readonly string[]>> = { Items: ['When', 'Waste', 'Lot', 'LaborHours', 'Price'] }

function readTable(table: TableName, raw: RawTable, ownFields: readonly string[], names: (table: string) => readonly string[], isLive: boolean, problems: Problem[]): Row[] {
  const fields = fieldsOf(table)
  problems.push(...headingProblems(table, raw))
  for (const [name, field] of Object.entries(fields)) {
    if (!raw.columns.includes(name) && (field.required || NEEDED_COLUMNS[table]?.includes(name)))
      problems.push({ sheet: raw.sheet, row: 0, column: name, allowed: `a column headed ${name}`, came: 'no such column' })
  }
  const key = keyColumn(table)
  const seen = new Map<string, number>()
  const most = MOST_ROWS[table]
  for (const [at, row] of raw.rows.entries()) {
    if (at >= most && !isEmptyRow(row))
      problems.push({ sheet: raw.sheet, row: row.row, column: key, allowed: `within ${most} rows below the heading, which formulas look through`, came: `row ${at + 1} below it` })
  }
  return raw.rows
    .filter((row) => !isEmptyRow(row))
    .map((rawRow) => {
      const cells: Record<string, CellValue> = {}
      const defaulted = new Set<string>()
      for (const [name, field] of Object.entries(fields)) {
        const cell = rawRow.cells[name]
        const isEmpty = isBlank(cell)
        try {
          cells[name] = checkField(name, field, cell, names)
          if (isEmpty && field.default !== undefined) defaulted.add(name)
          if (name === key && WILDCARDS.test(String(cells[name]))) throw badInput(name, 'no * ? or ~, which a spreadsheet takes for wildcards', cell)
          if (isLive && !READ_BY_US.includes(table)) mustHoldItself(name, field, cell)
          if ('unique' in field && field.unique) {
            const known = String(cells[name]).toLowerCase()
            const first = seen.get(`${name}\n${known}`)
            if (first !== undefined) throw badInput(name, `each ${field.label.toLowerCase()} once; row ${first} has it already`, cell)
            seen.set(`${name}\n${known}`, rawRow.row)
          }
        } catch (error) {
          const isMissingPrice = name === PRICE && isEmpty
          problems.push({ ...problemAt(raw.sheet, rawRow.row, name, error), ...(isMissingPrice ? { unpriced: String(cells[key] ?? '') } : {}) })
          cells[name] = null
        }
      }
      for (const name of ownFields) {
        try {
          cells[name] = ownCell(name, Object.hasOwn(rawRow.cells, name) ? rawRow.cells[name] : null)
        } catch (error) {
          problems.push(problemAt(raw.sheet, rawRow.row, name, error))
          cells[name] = null
        }
      }
      if (table === 'Tanks') checkTank(raw.sheet, rawRow.row, cells, problems)
      if (table === 'Pumps') checkCurve(raw.sheet, rawRow.row, cells, problems)
      if (table === 'Cranes') checkLoadChart(raw.sheet, rawRow.row, cells, problems)
      return { row: rawRow.row, cells, defaulted }
    })
}

/** A table whose sheet somebody gave another name would count as empty in silence. */
const elsewhereProblem = (table: TableName, { elsewhere }: RawTable): Problem[] =>
  elsewhere === undefined
    ? []
    : [{ sheet: elsewhere, row: 0, column: keyColumn(table), allowed: `the name ${table} on the tab of this sheet, which has the columns of that table`, came: `"${elsewhere}"` }]

/** A heading that is all but one of ours would count as a column left out, and its defaults would be taken in silence. */
function headingProblems(table: TableName, raw: RawTable): Problem[] {
  const known = Object.keys(fieldsOf(table))
  return raw.columns.flatMap((heading, at) => {
    const meant = known.find((name) => bareLetters(name) === bareLetters(heading))
    if (!meant || (heading === meant && raw.columns.indexOf(heading) === at)) return []
    const allowed = heading === meant ? `one column headed ${meant}` : `a column headed ${meant}, letter for letter`
    return [{ sheet: raw.sheet, row: 0, column: heading, allowed, came: heading === meant ? 'a second one' : `"${heading}"` }]
  })
}

/** Tables whose cells no formula reads: what a person means there is enough, 2 as well as the text "2". */
const READ_BY_US: readonly TableName[] = ['Jobs', 'Variants', 'Headings']

function mustHoldItself(name: string, field: Field, cell: unknown): void {
  if (typeof cell === 'string' && cell !== '' && isBlank(cell)) throw badInput(name, 'nothing at all: formulas take a space for a text. Clear the cell', cell)
  const value = checkedOrRaw(name, field, cell)
  const isSame = typeof value === 'string' && typeof cell === 'string' ? value.toLowerCase() === cell.toLowerCase() : value === cell
  if (cell !== null && cell !== undefined && cell !== '' && field.kind !== 'date' && !isSame)
    throw badInput(name, `${typeof value === 'string' ? `the text "${value}"` : `the number ${value as number}`} itself: formulas read this cell`, cell)
}

/** The water stands within the box, and the coupling within the water. */
function checkTank(sheet: string, row: number, cells: Record<string, CellValue>, problems: Problem[]): void {
  const [height, floor, lid, water, coupling] = ['Height_ft', 'Floor_in', 'Lid_in', 'WaterDepth_ft', 'Coupling_in'].map((name) => cells[name])
  if (typeof water !== 'number') return
  if (typeof height === 'number' && typeof floor === 'number' && typeof lid === 'number') {
    const inside = height - (floor + lid) / 12
    if (water > inside) problems.push({ sheet, row, column: 'WaterDepth_ft', allowed: `at most the height less floor and lid, ${roundTo(inside, 2)} ft`, came: shown(water) })
  }
  if (typeof coupling === 'number' && coupling > water * 12)
    problems.push({ sheet, row, column: 'Coupling_in', allowed: `below the water, at most ${roundTo(water * 12, 1)} in`, came: shown(coupling) })
}

function checkCurve(sheet: string, row: number, cells: Record<string, CellValue>, problems: Problem[]): void {
  for (let at = 2; at <= CURVE_POINTS; at++) {
    const [flow, before] = [cells[`Flow${at}_gpm`], cells[`Flow${at - 1}_gpm`]]
    const [head, headBefore] = [cells[`Head${at}_ftw`], cells[`Head${at - 1}_ftw`]]
    if (typeof flow === 'number' && typeof before === 'number' && flow <= before)
      problems.push({ sheet, row, column: `Flow${at}_gpm`, allowed: `flow ascending, above ${before} gpm`, came: shown(flow) })
    if (typeof head === 'number' && typeof headBefore === 'number' && head >= headBefore)
      problems.push({ sheet, row, column: `Head${at}_ftw`, allowed: `head descending, below ${headBefore} ft`, came: shown(head) })
  }
}

/** No crane lifts more farther out; 0 stands where its chart has nothing. */
function checkLoadChart(sheet: string, row: number, cells: Record<string, CellValue>, problems: Problem[]): void {
  let nearer = 0
  for (const radius of CRANE_RADII_FT) {
    const load = cells[`At${radius}_lb`]
    if (typeof load !== 'number') continue
    if (nearer > 0 && load > nearer) problems.push({ sheet, row, column: `At${radius}_lb`, allowed: `no more than nearer in, at most ${grouped(nearer)} lb`, came: shown(load) })
    if (load > 0) nearer = load
  }
}

/** The row of a table by its first column. */
export const rowNamed = (office: Office, table: TableName, name: CellValue): Row | undefined => office.tables[table].find((row) => row.cells[keyColumn(table)] === name)

/** A column of a table as a list, as `Tanks[Length_ft]` means it: an empty cell is empty, as on the sheet, and rules take its default (ofRow). */
export function officeColumn(office: Office, table: TableName, column: string): CellValue[] {
  const isFilledByRules = Boolean(fieldsOf(table)[column]?.default)
  return office.tables[table].map(({ cells, defaulted }) => (isFilledByRules && defaulted.has(column) ? null : (cells[column] ?? null)))
}
