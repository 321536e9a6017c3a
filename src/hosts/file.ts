/** The .xlsx host: writes a plan with exceljs, and reads the office's tables and an estimator's overrides back. */
import ExcelJS from 'exceljs'
import { unzipSync, Unzip, UnzipInflate } from 'fflate'
import { keyColumn, requiredTables, tableNames, fieldsOf, type TableName } from '../takeoff/officeTables.js'
import { withOptional, type RawOffice, type RawTable } from '../takeoff/office.js'
import { isErrorText } from '../takeoff/fields.js'
import type { SheetCell, SheetContent } from './host.js'
import { callsCellFunction, storeCalls } from './cellFunctionCalls.js'
import { isTall, rowHeights } from '../plan/heights.js'
import { cellFormat, looks, palette, type Look } from '../plan/looks.js'
import { columnLetters, type PlanCell, type SheetPlan, type WorkbookPlan } from '../plan/plan.js'

/** A workbook that unpacks to more than this is refused: no takeoff comes near it, and a zip bomb does. */
export const MOST_UNPACKED_BYTES = 200 * 1024 * 1024
export const MOST_PACKED_BYTES = 50 * 1024 * 1024
const CREATED = new Date(Date.UTC(2026, 0, 1))

export class WorkbookError extends Error {}

function borderOf(look: Look): Partial<ExcelJS.Borders> | undefined {
  const side = (style: ExcelJS.BorderStyle | undefined, color: string) => (style ? { style, color: { argb: `FF${color}` } } : undefined)
  const border = {
    ...(look.above ? { top: side(look.above, palette.ink) } : {}),
    ...(look.below ? { bottom: side(look.below, palette.stoneDark) } : {}),
    ...(look.left ? { left: side(look.left, palette.clay) } : {}),
  }
  return Object.keys(border).length ? border : undefined
}

/** One style object for each look and format, shared by all cells that wear it. */
const styles = new Map<string, Partial<ExcelJS.Style>>()
function styleOf(cell: PlanCell, isTallRow: boolean): Partial<ExcelJS.Style> {
  const numFmt = cellFormat(cell)
  const key = `${cell.look ? JSON.stringify(cell.look) : cell.role} ${numFmt ?? ''} ${isTallRow}`
  let style = styles.get(key)
  if (style) return style
  const look: Look = cell.look ?? looks[cell.role]
  const border = borderOf(look)
  style = {
    font: { name: 'Calibri', size: look.size ?? 10, bold: look.bold ?? false, italic: look.italic ?? false, color: { argb: `FF${look.color ?? palette.ink}` } },
    alignment: {
      vertical: isTallRow ? 'top' : 'middle',
      wrapText: look.wrap ?? false,
      ...(look.indent ? { indent: look.indent, horizontal: 'left' } : {}),
      ...(look.align ? { horizontal: look.align } : {}),
    },
    protection: { locked: !look.unlocked },
    ...(look.fill ? { fill: { type: 'pattern', pattern: 'solid', fgColor: { argb: `FF${look.fill}` } } } : {}),
    ...(border ? { border } : {}),
    ...(numFmt ? { numFmt } : {}),
  }
  styles.set(key, style)
  return style
}

function fileValue(cell: PlanCell): ExcelJS.CellValue {
  const { value, formula } = cell
  if (formula !== undefined) return { formula, result: errorValue(value) } as ExcelJS.CellFormulaValue
  if (cell.format === 'date' && typeof value === 'string') return new Date(`${value}T00:00:00Z`)
  return value
}

/** A cached error is an error, not the text of one. */
function errorValue(value: PlanCell['value']): unknown {
  return typeof value === 'string' && isErrorText(value) ? { error: value } : (value ?? undefined)
}

function writeSheet(workbook: ExcelJS.Workbook, plan: SheetPlan): void {
  const sheet = workbook.addWorksheet(plan.name, {
    views: [{ state: 'frozen', ySplit: plan.frozenRows, xSplit: 0, showGridLines: false }],
    pageSetup: {
      paperSize: 1 as ExcelJS.PaperSize,
      orientation: plan.landscape ? 'landscape' : 'portrait',
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: 0,
      printTitlesRow: `${plan.titleRows[0]}:${plan.titleRows[1]}`,
      margins: { left: 0.5, right: 0.5, top: 0.6, bottom: 0.6, header: 0.3, footer: 0.3 },
    },
    headerFooter: { oddFooter: `&L${plan.footer.replace(/&/g, '&&')}&C${plan.name.replace(/&/g, '&&')}&RPage &P of &N` },
  })
  if (plan.hidden) sheet.state = 'hidden'
  plan.widths.forEach((width, at) => (sheet.getColumn(at + 1).width = width))
  const heights = rowHeights(plan)
  for (const [row, height] of heights) sheet.getRow(row).height = height
  for (const planned of plan.cells) {
    const cell = sheet.getCell(planned.row, planned.column)
    if (planned.value !== null || planned.formula !== undefined) cell.value = fileValue(planned)
    cell.style = styleOf(planned, isTall(heights.get(planned.row)))
  }
  for (const table of plan.tables) {
    const rows = Array.from({ length: table.rows }, (_, row) => table.headings.map((_heading, column) => sheet.getCell(table.row + 1 + row, table.column + column).value))
    sheet.addTable({
      name: table.name,
      ref: `${columnLetters(table.column)}${table.row}`,
      headerRow: true,
      style: { showRowStripes: false },
      columns: table.headings.map((name) => ({ name, filterButton: false })),
      rows: rows as unknown[][],
    })
  }
  for (const { firstRow, lastRow, column, list, range, span, message } of plan.validations) {
    const rule: ExcelJS.DataValidation = span ? { type: 'decimal', operator: 'between', formulae: [...span] } : { type: 'list', formulae: [range ?? `"${list!.join(',')}"`] }
    const target = `${columnLetters(column)}${firstRow}${lastRow > firstRow ? `:${columnLetters(column)}${lastRow}` : ''}`
    // exceljs types leave out the range form of its own validations.
    ;(sheet as unknown as { dataValidations: { add(ref: string, rule: ExcelJS.DataValidation): void } }).dataValidations.add(target, {
      ...rule,
      allowBlank: true,
      showErrorMessage: true,
      errorStyle: span ? 'warning' : 'stop',
      errorTitle: 'Not allowed here',
      error: `Allowed: ${message}`.slice(0, 250),
    })
  }
}

/** The plan as the bytes of an .xlsx file. */
export async function writeWorkbook(plan: WorkbookPlan): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook()
  workbook.creator = 'Cistern Sheet'
  workbook.created = CREATED
  const hasCalls = plan.sheets.some((sheet) => sheet.cells.some(({ formula }) => formula !== undefined && callsCellFunction(formula)))
  // Without the add-in a recalculation would turn every call into #NAME?: such a file opens with the results it was saved with.
  workbook.calcProperties.fullCalcOnLoad = !hasCalls
  for (const sheet of plan.sheets) writeSheet(workbook, sheet)
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer())
  return hasCalls ? storeCalls(bytes) : bytes
}

/** Opens a workbook after looking at its size packed and unpacked; refuses what is no workbook. */
export async function openWorkbook(bytes: Uint8Array, name: string): Promise<ExcelJS.Workbook> {
  checkSize(bytes, name)
  const workbook = new ExcelJS.Workbook()
  try {
    await workbook.xlsx.load(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer)
  } catch {
    throw new WorkbookError(`${name}: an .xlsx workbook is needed; this one is damaged or of another kind.`)
  }
  if (!workbook.worksheets.length) throw new WorkbookError(`${name}: the workbook holds no sheet.`)
  return workbook
}

function checkSize(bytes: Uint8Array, name: string): void {
  if (bytes.length > MOST_PACKED_BYTES) throw new WorkbookError(`${name}: at most ${MOST_PACKED_BYTES / 2 ** 20} MB are read; it has ${Math.round(bytes.length / 2 ** 20)} MB.`)
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) throw new WorkbookError(`${name}: an .xlsx workbook is needed; this is no such file.`)
  // A header may lie about the size inside, so the contents are unpacked in pieces and counted.
  let total = 0
  const unzip = new Unzip((file) => {
    file.ondata = (error, piece) => {
      if (error) throw error
      total += piece.length
      if (total > MOST_UNPACKED_BYTES) throw new WorkbookError('too large')
    }
    file.start()
  })
  unzip.register(UnzipInflate)
  const PIECE = 1 << 16
  try {
    for (let at = 0; at < bytes.length; at += PIECE) unzip.push(bytes.subarray(at, at + PIECE), at + PIECE >= bytes.length)
    if (!Object.keys(unzipSync(bytes, { filter: ({ name: entry }) => entry === '[Content_Types].xml' })).length) throw new WorkbookError('no content types')
  } catch {
    if (total > MOST_UNPACKED_BYTES) throw new WorkbookError(`${name}: it unpacks to more than ${MOST_UNPACKED_BYTES / 2 ** 20} MB and is refused.`)
    throw new WorkbookError(`${name}: the workbook is damaged or cut short.`)
  }
}

/** The plain value of a cell; a formula counts as the result it was saved with (exceljs leaves a result of 0 out of `value`). */
export function plainCell(cell: ExcelJS.Cell): string | number | boolean | Date | null {
  return plainValue(cell.type === ExcelJS.ValueType.Formula ? (cell.result as ExcelJS.CellValue) : cell.value)
}

function plainValue(value: ExcelJS.CellValue): string | number | boolean | Date | null {
  if (value === null || value === undefined) return null
  if (typeof value !== 'object' || value instanceof Date) return value
  if ('richText' in value) return value.richText.map((part) => part.text).join('')
  if ('text' in value) return plainValue(value.text as ExcelJS.CellValue)
  if ('error' in value) return value.error
  return null
}

/** The cells of a sheet from A1, for reading an earlier takeoff back; undefined when there is no such sheet. */
export function readSheet(workbook: ExcelJS.Workbook, name: string): SheetContent | undefined {
  const sheet = workbook.getWorksheet(name)
  if (!sheet) return undefined
  return Array.from({ length: sheet.rowCount }, (_, row) =>
    Array.from({ length: sheet.columnCount }, (_unused, column): SheetCell => {
      const cell = sheet.getCell(row + 1, column + 1)
      const value = plainCell(cell)
      const plain = value instanceof Date ? value.toISOString().slice(0, 10) : value
      return cell.formula ? { value: plain, formula: cell.formula } : { value: plain }
    }),
  )
}

/** Finds the office's tables in a workbook: by table name, else by the headings on a sheet of that name. */
export function readOfficeTables(workbook: ExcelJS.Workbook, name: string): RawOffice {
  const missing: string[] = []
  const found = Object.fromEntries(
    tableNames.map((table) => {
      const raw = readTable(workbook, table)
      if (!raw && requiredTables.includes(table)) missing.push(table)
      return [table, raw]
    }),
  )
  if (missing.length) throw new WorkbookError(`${name}: no table ${missing.join(', ')}. A workbook made by \`npm run -s template\` has ${requiredTables.join(', ')}.`)
  return withOptional(found)
}

function readTable(workbook: ExcelJS.Workbook, table: TableName): RawTable | undefined {
  for (const sheet of workbook.worksheets) {
    const tables = (sheet as unknown as { tables: Record<string, { table: { tableRef: string } }> }).tables
    const reference = tables[table]?.table.tableRef
    const match = reference && /^([A-Z]+)(\d+):([A-Z]+)(\d+)$/.exec(reference.replace(/\$/g, ''))
    if (match) return rowsBelow(sheet, Number(match[2]), sheet.getColumn(match[1]!).number, sheet.getColumn(match[3]!).number)
  }
  const sheet = workbook.getWorksheet(table)
  if (!sheet) return undefined
  const key = keyColumn(table)
  for (let row = 1; row <= Math.min(30, sheet.rowCount); row++) {
    for (let column = 1; column <= Math.min(30, sheet.columnCount); column++) {
      const headings = Object.keys(fieldsOf(table))
      const isHeading = plainCell(sheet.getCell(row, column)) === key && (headings.length === 1 || headings.includes(String(plainCell(sheet.getCell(row, column + 1)))))
      if (isHeading) return rowsBelow(sheet, row, column, sheet.columnCount)
    }
  }
  return undefined
}

/** Rows below a heading, through the end of the sheet: a row typed just under a table counts as its own. */
function rowsBelow(sheet: ExcelJS.Worksheet, headingRow: number, first: number, last: number): RawTable {
  const columns = Array.from({ length: last - first + 1 }, (_, at) => String(plainCell(sheet.getCell(headingRow, first + at)) ?? '').trim())
  const rows = []
  for (let row = headingRow + 1; row <= sheet.rowCount; row++) {
    const cells: Record<string, unknown> = {}
    columns.forEach((column, at) => {
      const cell = sheet.getCell(row, first + at)
      // The library cannot tell a missing result from an empty text, which such a formula may well give.
      if (column && cell.formula && cell.result === undefined && !cell.formula.includes('""'))
        throw new WorkbookError(`${sheet.name}!${cell.address}, ${column}: a formula saved without its result; open the workbook in a spreadsheet and save it there.`)
      // Of two columns with one heading the first is read; the second is named as a problem.
      if (column && !Object.hasOwn(cells, column)) cells[column] = plainCell(cell)
    })
    rows.push({ row, cells })
  }
  return { sheet: sheet.name, columns, rows }
}
