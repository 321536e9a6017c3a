/** The sheets of the office's own tables: heading, help row, table, validation. */
import { allowedIn, checkedOrRaw, type CellValue, type Field } from '../takeoff/fields.js'
import { stationOf } from '../takeoff/rainDays.js'
import type { RawOffice, RawTable } from '../takeoff/office.js'
import { fieldsOf, foldedFields, isSeldom, keyColumn, MOST_ROWS, officeTables, tableNames, type TableName } from '../takeoff/officeTables.js'
import { OFFICE_FIRST_COLUMN, OFFICE_HEADING_ROW, standardPlaces } from './places.js'
import { madeLine, quotedSheet, range, SheetDraft, type Made, type PlanCell, type PlanValidation, type SheetPlan } from './plan.js'

const stationHelp = (heading: string): string => `Rain of the day at ${stationOf(heading).station}, ${stationOf(heading).unit}; T is a trace, empty is no reading`
const HELP_ROW = OFFICE_HEADING_ROW - 1
/** Columns out of sight are wide, so that the line above the headings need not be high for them. */
const FOLDED_WIDTH = 30
/** In per cent of its size on the screen: as many pages as it takes, and read without a glass. */
export const OFFICE_PRINT = { percent: 90 } as const
/** Empty rows that a new table holds ready. */
const LEAST_ROWS = 1

/** So many lines of help stand over a column, at the most where its heading is short. */
const HELP_LINES = 9
const widthOf = (name: string, field: Field): number => {
  if (['Description', 'Why', 'Source', 'Quantity'].includes(name)) return 44
  if (['Site', 'When', 'Price'].includes(name)) return 28
  if (field.kind === 'text' || field.kind === 'row' || field.kind === 'rule') return 20
  return Math.max(12, name.length + 3, Math.ceil(helpOf(name, field).length / HELP_LINES))
}

export const officeSheets = (office: RawOffice, made: Made): SheetPlan[] =>
  tableNames.filter((table) => !isSeldom(table) || office[table].rows.length > 0).map((table) => officeSheet(table, office[table], made))

function officeSheet(table: TableName, raw: RawTable, made: Made): SheetPlan {
  const fields = Object.entries(fieldsOf(table))
  // Columns of the office's own, and the stations of the daily rain, stand behind ours.
  const own = raw.columns.filter((name) => name !== '' && !Object.hasOwn(fieldsOf(table), name))
  const folded = foldedFields(table)
  const isFolded = (at: number): boolean => folded !== undefined && at >= folded.first && at <= folded.last
  const draft = new SheetDraft()
  draft.heading(officeTables[table].title, 'Filled cells are yours to type over; the line above each heading says what it takes', madeLine(made))
  fields.forEach(([name, field], at) => {
    draft.put(OFFICE_FIRST_COLUMN + at, 'help', helpOf(name, field), { row: HELP_ROW })
    draft.put(OFFICE_FIRST_COLUMN + at, 'tableHeading', name, { row: OFFICE_HEADING_ROW })
  })
  own.forEach((name, at) => {
    if (table === 'RainDays') draft.put(OFFICE_FIRST_COLUMN + fields.length + at, 'help', stationHelp(name), { row: HELP_ROW })
    draft.put(OFFICE_FIRST_COLUMN + fields.length + at, 'tableHeading', name, { row: OFFICE_HEADING_ROW })
  })
  const rows = Math.max(LEAST_ROWS, raw.rows.length)
  for (let at = 0; at < rows; at++) {
    fields.forEach(([name, field], column) => {
      const value = checkedOrRaw(name, field, raw.rows[at]?.cells[name])
      draft.put(OFFICE_FIRST_COLUMN + column, isTextual(field) ? 'inputText' : 'input', plain(value), { row: OFFICE_HEADING_ROW + 1 + at, format: formatOf(field) })
    })
    own.forEach((name, column) => {
      const cells = raw.rows[at]?.cells
      const value = plain(cells && Object.hasOwn(cells, name) ? cells[name] : null)
      draft.put(OFFICE_FIRST_COLUMN + fields.length + column, typeof value === 'string' ? 'inputText' : 'input', value, { row: OFFICE_HEADING_ROW + 1 + at })
    })
  }
  return draft.sheet(table, {
    kind: 'office',
    widths: [
      2,
      ...fields.map(([name, field], at) => (isFolded(at) ? Math.max(FOLDED_WIDTH, widthOf(name, field)) : widthOf(name, field))),
      ...own.map((name) => Math.max(12, name.length + 3)),
    ],
    headingRow: OFFICE_HEADING_ROW,
    frozenColumns: OFFICE_FIRST_COLUMN,
    landscape: true,
    footer: table,
    ...foldedColumns(table),
    // Tables are as wide as they are: more pages, and never smaller type.
    print: OFFICE_PRINT,
    tables: [{ name: table, row: OFFICE_HEADING_ROW, column: OFFICE_FIRST_COLUMN, headings: [...fields.map(([name]) => name), ...own], rows }],
    validations: standardValidations(table),
  })
}

/** Columns that are folded, where the table stands as our template lays it out. */
export function foldedColumns(table: TableName): Pick<SheetPlan, 'folded'> {
  const fields = foldedFields(table)
  return fields ? { folded: { first: OFFICE_FIRST_COLUMN + fields.first, last: OFFICE_FIRST_COLUMN + fields.last } } : {}
}

/** What each column takes, where the table stands as our template lays it out. */
export const standardValidations = (table: TableName): PlanValidation[] =>
  Object.entries(fieldsOf(table)).flatMap(([name, field], at) => validationOf(name, field, OFFICE_FIRST_COLUMN + at, table))

/** Columns that hold texts, whatever they look like: a pipe size is no date. */
export const isTextual = (field: Field): boolean => field.kind !== 'spec' || field.spec.kind !== 'number'
const formatOf = (field: Field): PlanCell['format'] => (field.kind === 'date' ? 'date' : isTextual(field) ? 'text' : undefined)
const plain = (value: unknown): CellValue => (value === undefined || value === '' ? null : value instanceof Date ? value.toISOString().slice(0, 10) : (value as CellValue))

function helpOf(name: string, field: Field): string {
  const required = field.required ? 'Required.' : field.default !== undefined && field.default !== null ? `Empty means ${field.default}.` : ''
  const allowed = field.kind === 'rule' || field.kind === 'text' ? '' : allowedIn(name, field, () => []).replace(', which is empty', '')
  return [`${field.label}:`, required, field.help, allowed && `${allowed.charAt(0).toUpperCase()}${allowed.slice(1)}.`].filter(Boolean).join(' ')
}

function validationOf(name: string, field: Field, column: number, table: TableName): PlanValidation[] {
  const rows = { firstRow: OFFICE_HEADING_ROW + 1, lastRow: OFFICE_HEADING_ROW + MOST_ROWS[table], column }
  const message = allowedIn(name, field, () => []).replace(', which is empty', '')
  if (field.kind === 'row') {
    const place = standardPlaces()[field.table as TableName]
    const key = place.columnOf(keyColumn(field.table as TableName))!
    return [{ ...rows, range: `${quotedSheet(place.sheet)}!${range(place.firstRow, place.firstRow + MOST_ROWS[field.table as TableName] - 1, key)}`, message }]
  }
  if (field.kind === 'text' && field.suggested) return [{ ...rows, list: field.suggested, isAdvice: true, message }]
  if (field.kind !== 'spec') return []
  if (field.spec.kind === 'choice') return [{ ...rows, list: field.spec.options, message }]
  if (field.spec.kind === 'key') return field.spec.samples.join(',').length < 250 ? [{ ...rows, list: field.spec.samples, message }] : []
  return [{ ...rows, span: [field.spec.least, field.spec.most], message }]
}
