/** Saves the grid as an .xlsx file through our own file host, the office's tables as real tables. */
import { extentOf } from '../src/plan/plan.js'
import type { Model } from '@odoo/o-spreadsheet'
import { HEADINGS_WITHIN } from '../src/takeoff/headings.js'
import { writeWorkbook } from '../src/hosts/file.js'
import { isGridError, spreadsheetCode } from '../src/hosts/gridErrors.js'
import { isOwnText, PIXELS_PER_WIDTH } from '../src/hosts/gridData.js'
import { palette, type Look } from '../src/plan/looks.js'
import { foldedColumns, OFFICE_PRINT, standardValidations } from '../src/plan/officeSheets.js'
import { OFFICE_FIRST_COLUMN, OFFICE_HEADING_ROW } from '../src/plan/places.js'
import { formulaShape } from '../src/plan/cellMarks.js'
import { isErrorText } from '../src/takeoff/fields.js'
import type { PlanCell, PlanValidation, SheetPlan } from '../src/plan/plan.js'
import { fieldsOf, keyColumn, tableNames, type TableName } from '../src/takeoff/officeTables.js'

interface Style {
  bold?: boolean
  fontSize?: number
  textColor?: string
  fillColor?: string
  align?: 'left' | 'right' | 'center'
  wrapping?: string
}
export interface Getters {
  getSheetIds(): string[]
  getSheetName(id: string): string
  getSheetSize(id: string): { numberOfRows: number; numberOfCols: number }
  getEvaluatedCell(position: object): { value: PlanCell['value']; type: string; format?: string }
  getCell(position: object): { isFormula?: boolean; content?: string; format?: string } | undefined
  getCellText(position: object, options: object): string
  /** What a formula fills; nothing where something stands in its way, or it fills no cell but its own. */
  getSpreadZone(position: object): { top: number; bottom: number; left: number; right: number } | undefined
  /** The cell whose formula fills this one. */
  getArrayFormulaSpreadingOn(position: object): { row: number; col: number } | undefined
  getCellStyle(position: object): Style
  /** The width that a column has, folded away or not. */
  getColSize(sheet: string, index: number): number
  getPaneDivisions(sheet: string): { xSplit: number; ySplit: number }
  getCellBorder(position: object): Record<'top' | 'bottom' | 'left', { style: string; color: string } | undefined> | null
  getDataValidationRules(sheet: string): readonly Rule[]
  isSheetVisible(sheet: string): boolean
  isColHiddenByUser(sheet: string, column: number): boolean
  isRowHiddenByUser(sheet: string, row: number): boolean
}
interface Rule {
  ranges: readonly { zone: { top: number; bottom: number; left: number } }[]
  criterion: { type: string; values: readonly string[] }
}

const lookOf = (style: Style, border: ReturnType<Getters['getCellBorder']>): Look => ({
  ...(style.bold ? { bold: true } : {}),
  ...(style.fontSize ? { size: style.fontSize } : {}),
  ...(style.textColor ? { color: style.textColor.replace('#', '').toUpperCase() } : {}),
  ...(style.fillColor ? { fill: style.fillColor.replace('#', '').toUpperCase(), unlocked: true } : {}),
  ...(style.align ? { align: style.align } : {}),
  ...(style.wrapping === 'wrap' ? { wrap: true } : {}),
  ...(border?.top ? { above: border.top.style === 'medium' ? 'medium' : 'thin' } : {}),
  ...(border?.bottom ? { below: border.bottom.color.toUpperCase() === `#${palette.stone}` ? 'hair' : 'thin' } : {}),
  ...(border?.left?.style === 'thick' ? { left: 'thick' } : {}),
})

/** Our own formats as such, others by their code. */
function formatOf(format: string | undefined): PlanCell['format'] {
  if (!format) return undefined
  if (format === 'yyyy-mm-dd') return 'date'
  const decimals = /^#,##0(?:\.(0+))?$/.exec(format)
  return decimals ? (decimals[1] ?? '').length : { code: format }
}

/** The grid writes a quote within a text with a stroke before it, a file doubles it. */
export const fileFormula = (formula: string): string =>
  formula.replace(/"(?:[^"\\]|\\.)*"/g, (quoted) => `"${quoted.slice(1, -1).replace(/\\(.)/g, (_, sign: string) => (sign === '"' ? '""' : sign))}"`)

/** A cell of the grid as a file takes it. */
export interface GridCell {
  /** As it was typed. */
  content: string
  value: PlanCell['value']
  formula?: string
  isText: boolean
  format?: string
  /** A formula of another cell fills it, the one at this "row column". */
  isSpilled?: true
  filledFrom?: string
  /** How many cells its formula fills, where those are more than its own. */
  spill?: NonNullable<PlanCell['spill']>
}
export function gridCell(getters: Getters, sheetId: string, row: number, column: number): GridCell | undefined {
  const position = { sheetId, row: row - 1, col: column - 1 }
  const { value, type, format } = getters.getEvaluatedCell(position)
  if (type === 'empty') return undefined
  const own = getters.getCell(position)
  const { isFormula, content } = own ?? {}
  const text = isFormula ? getters.getCellText(position, { showFormula: true }).replace(/^=/, '') : undefined
  const isText = text !== undefined && (isOwnText(text) || (type === 'error' && value === BAD_FORMULA))
  return {
    content: text ?? String(content ?? value),
    value: type === 'error' ? (isText ? `=${text}` : errorOf(value)) : value,
    ...(text === undefined || isText ? {} : { formula: fileFormula(text) }),
    isText: isText || (typeof value === 'string' && type !== 'error'),
    ...(format ? { format } : {}),
    ...(isFormula || content ? {} : { isSpilled: true as const, ...fromOf(getters.getArrayFormulaSpreadingOn(position)) }),
    ...(isFormula && !isText ? spillOf(getters.getSpreadZone(position)) : {}),
  }
}

const fromOf = (anchor: { row: number; col: number } | undefined): Pick<GridCell, 'filledFrom'> => (anchor ? { filledFrom: `${anchor.row + 1} ${anchor.col + 1}` } : {})
function spillOf(zone: ReturnType<Getters['getSpreadZone']>): Pick<GridCell, 'spill'> {
  if (!zone) return {}
  const [rows, columns] = [zone.bottom - zone.top + 1, zone.right - zone.left + 1]
  return rows * columns > 1 ? { spill: { rows, columns } } : {}
}

/** By sheet and by the code that the grid shows: the code of the file. */
export type CodesOfFile = ReadonlyMap<string, ReadonlyMap<string, string>>
/** A formula as the grid shows it, and as the file has it. */
export interface UnreadFormula {
  content: string
  formula: string
  value: PlanCell['value']
}
/** What the grid cannot show of a sheet as the file that was opened has it. */
export interface InFile {
  /** Formulas that it cannot read or work out, row by row, by what they are whatever cells they point to. */
  formulas: ReadonlyMap<string, readonly UnreadFormula[]>
  /** Codes of numbers, by the code that it shows. */
  codes: ReadonlyMap<string, string>
}
const nothingInFile: InFile = { formulas: new Map(), codes: new Map() }

/** A cell whose formula the grid cannot read or work out. */
export const isUnread = ({ content, value }: GridCell): boolean => value === `=${content}` || isErrorText(String(value))

/** Finds formulas of the file again where rows and columns have moved: the same one in the same order; where some are more or fewer, by their very words. */
function unreadOn({ formulas }: InFile, cells: readonly GridCell[]): ReadonlyMap<GridCell, Pick<GridCell, 'formula' | 'value'>> {
  const now = new Map<string, GridCell[]>()
  for (const cell of cells) {
    if (!isUnread(cell)) continue
    const shape = formulaShape(cell.content)
    now.set(shape, [...(now.get(shape) ?? []), cell])
  }
  return new Map(
    [...now].flatMap(([shape, some]) => {
      const then = formulas.get(shape) ?? []
      return some.flatMap((cell, at) => {
        const was = then.length === some.length ? then[at] : then.find(({ content }) => content === cell.content)
        // What the grid has moved it has read so far: its places are those that are meant now.
        return was ? [[cell, { formula: was.content === cell.content ? was.formula : fileFormula(cell.content), value: was.value }] as const] : []
      })
    }),
  )
}

/** A sheet as a file takes it. On one of ours texts say that they are texts; somebody else's cells take what is typed over them as they did. */
export function planOf(getters: Getters, sheetId: string, inFile: InFile = nothingInFile, isOurs = true): SheetPlan {
  const name = getters.getSheetName(sheetId)
  const { numberOfRows, numberOfCols } = getters.getSheetSize(sheetId)
  const { codes } = inFile
  const typedCells = new Map<string, GridCell>()
  for (let row = 1; inFile.formulas.size && row <= numberOfRows; row++)
    for (let column = 1; column <= numberOfCols; column++) {
      const typed = gridCell(getters, sheetId, row, column)
      if (typed) typedCells.set(`${row} ${column}`, typed)
    }
  const unread = unreadOn(inFile, [...typedCells.values()])
  const cells: PlanCell[] = []
  for (let row = 1; row <= numberOfRows; row++) {
    for (let column = 1; column <= numberOfCols; column++) {
      const position = { sheetId, row: row - 1, col: column - 1 }
      const style = getters.getCellStyle(position)
      const border = getters.getCellBorder(position)
      const typed = typedCells.get(`${row} ${column}`) ?? gridCell(getters, sheetId, row, column)
      const found = typed && unread.get(typed)
      const cell = typed && found ? { ...typed, ...found, isText: false } : typed
      // How an empty cell will show what is typed into it is kept too.
      const format = cell ? cell.format : getters.getCell(position)?.format
      if (!cell && !style.fillColor && !border && !format) continue
      cells.push({
        row,
        column,
        role: 'text',
        look: lookOf(style, border),
        value: cell?.value ?? null,
        ...(cell?.formula === undefined ? {} : { formula: cell.formula }),
        ...(cell?.spill ? { spill: cell.spill } : {}),
        ...(cell?.isText && (isOurs || format === '@') ? { format: 'text' as const } : { format: formatOf(format === undefined ? undefined : (codes.get(format) ?? format)) }),
      })
    }
  }
  const tables = tableNames.includes(name as TableName) ? tablesOf(name as TableName, cells) : []
  const widths = Array.from({ length: Math.min(numberOfCols, extentOf(cells).lastColumn) }, (_, at) => getters.getColSize(sheetId, at) / PIXELS_PER_WIDTH)
  const { xSplit: frozenColumns, ySplit: frozenRows } = getters.getPaneDivisions(sheetId)
  return {
    name,
    kind: tables.length ? 'office' : 'own',
    widths,
    cells,
    frozenRows,
    ...(frozenColumns || tables.length ? { frozenColumns: frozenColumns || OFFICE_FIRST_COLUMN } : {}),
    landscape: true,
    footer: name,
    tables,
    validations: validationsOf(getters, sheetId, name, tables[0]),
    ...(tables[0] && isStandard(tables[0]) ? { ...foldedColumns(name as TableName), print: OFFICE_PRINT } : {}),
    ...(tables[0] ? {} : hiddenIn(getters, sheetId, widths.length, numberOfRows)),
    hidden: !getters.isSheetVisible(sheetId),
  }
}

/** Columns and rows that are not for people. */
function hiddenIn(getters: Getters, sheetId: string, columns: number, rows: number): Pick<SheetPlan, 'hiddenColumns' | 'hiddenRows'> {
  const upTo = (last: number) => Array.from({ length: last }, (_, at) => at + 1)
  return {
    hiddenColumns: upTo(columns).filter((column) => getters.isColHiddenByUser(sheetId, column - 1)),
    hiddenRows: upTo(rows).filter((row) => getters.isRowHiddenByUser(sheetId, row - 1)),
  }
}

/** A formula that cannot be read is saved as the text that was typed. */
const BAD_FORMULA = '#BAD_EXPR'

/** An error as a file knows it; the grid has more kinds. */
const errorOf = (value: unknown): string => (isGridError(value) ? spreadsheetCode(value) : isErrorText(String(value)) ? String(value) : '#N/A')

/** A table that stands where our template puts it. */
const isStandard = ({ name, row, column, headings }: SheetPlan['tables'][number]): boolean =>
  row === OFFICE_HEADING_ROW && column === OFFICE_FIRST_COLUMN && Object.keys(fieldsOf(name as TableName)).every((heading, at) => headings[at] === heading)

/** The full rules of a table that stands where our template puts it; else the lists that the grid knows. */
function validationsOf(getters: Getters, sheetId: string, name: string, table: SheetPlan['tables'][number] | undefined): SheetPlan['validations'] {
  if (table && isStandard(table)) return standardValidations(name as TableName)
  return getters.getDataValidationRules(sheetId).flatMap(({ ranges, criterion: { type, values } }) =>
    ranges.flatMap(({ zone }): PlanValidation[] => {
      const place = { firstRow: zone.top + 1, lastRow: zone.bottom + 1, column: zone.left + 1, message: values.join(', ') }
      if (type === 'isValueInList') return [{ ...place, list: values }]
      return type === 'isValueInRange' ? [{ ...place, range: values[0]!.replace(/^=/, '') }] : []
    }),
  )
}

/** The block under a table's first heading, to its last filled row. */
function tablesOf(name: TableName, cells: readonly PlanCell[]): SheetPlan['tables'] {
  const heading = cells.find(({ value, row }) => value === keyColumn(name) && row <= HEADINGS_WITHIN)
  if (!heading) return []
  const headings = cells.filter(({ row, column, value }) => row === heading.row && column >= heading.column && value !== null).map(({ value }) => String(value))
  const last = Math.max(heading.row + 1, extentOf(cells.filter(({ value }) => value !== null)).lastRow)
  return [{ name, row: heading.row, column: heading.column, headings, rows: last - heading.row }]
}

/** Excel takes no longer name of a sheet, and keeps one for itself. */
const [LONGEST_NAME, RESERVED] = [31, 'history']
export function refuseNames(names: readonly string[]): void {
  for (const name of names) {
    if (name.length > LONGEST_NAME) throw new Error(`The sheet "${name}" has a name of ${name.length} letters, and a file takes ${LONGEST_NAME}: rename it.`)
    if (name.toLowerCase() === RESERVED) throw new Error(`Excel keeps the name ${name} for itself: rename that sheet.`)
  }
}

/** A workbook that was begun on the page, or is written whole; `made` are the sheets of jobs as they were laid out, with their drawings. */
export async function workbookFromGrid(
  model: InstanceType<typeof Model>,
  made: ReadonlyMap<string, SheetPlan> = new Map(),
  inFile: (sheetId: string) => InFile = () => nothingInFile,
): Promise<Uint8Array> {
  const getters = model.getters as unknown as Getters
  refuseNames(getters.getSheetIds().map((id) => getters.getSheetName(id)))
  const sheets = getters.getSheetIds().map((id): SheetPlan => {
    const name = getters.getSheetName(id)
    const plan = planOf(getters, id, inFile(id), made.has(name) || tableNames.includes(name as TableName))
    const own = made.get(plan.name)
    return own ? { ...plan, drawings: own.drawings ?? [], print: own.print!, landscape: own.landscape, paper: own.paper! } : plan
  })
  return writeWorkbook({ sheets: [...sheets, ...[...made.values()].filter(({ toScale }) => toScale)] })
}
