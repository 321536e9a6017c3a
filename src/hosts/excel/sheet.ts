/** A planned sheet in Excel: its content and looks, and how it is printed. */
import { rowHeights } from '../../plan/heights.js'
import { pagesOf } from '../../plan/pages.js'
import { cellFormat, looks, palette, type Look } from '../../plan/looks.js'
import { address, columnLetters, extentOf, footOf, LONGEST_ALERT, MARGINS_IN, printedArea, TITLE_ROWS, type PlanCell, type SheetPlan } from '../../plan/plan.js'

/** Points that a unit of column width takes here. */
export const POINTS_PER_WIDTH = 5.4
const points = (inches: number): number => Math.round(inches * 720) / 10
/** Points that Excel lets a row be. */
const HIGHEST_ROW = 409
/** Excel takes addresses of areas up to 8,192 characters. */
const LONGEST_AREAS = 7000

/** Cells, looks, sizes, tables and rules of entry. How it is printed is set apart from them: a refusal there costs no content. */
export function writeSheet(sheet: Excel.Worksheet, plan: SheetPlan, mayFold: boolean): void {
  const { lastRow, lastColumn } = extentOf(plan.cells)
  const block = <T>(fill: T): T[][] => Array.from({ length: lastRow }, () => Array<T>(lastColumn).fill(fill))
  const formulas = block<string | number | boolean>('')
  // What is not named stays as a new sheet, or a cleared one, has it.
  const formats = block<string | null>(null)
  for (const cell of plan.cells) {
    formulas[cell.row - 1]![cell.column - 1] = excelContent(cell)
    formats[cell.row - 1]![cell.column - 1] = cellFormat(cell) ?? null
  }
  const range = sheet.getRange(`A1:${address(lastRow, lastColumn, false)}`)
  range.numberFormat = formats
  range.formulas = formulas
  for (const [look, cells] of byLook(plan)) for (const areas of areasOf(cells)) dressCells(sheet.getRanges(areas).format, look)
  for (const { from, to, width } of widthRuns(plan)) sheet.getRange(`${columnLetters(from)}:${columnLetters(to)}`).format.columnWidth = width * POINTS_PER_WIDTH
  sheet.getRange().format.useStandardHeight = true
  for (const { height, areas } of rowsByHeight(rowHeights(plan))) sheet.getRanges(areas).format.rowHeight = height
  sheet.showGridlines = false
  if (plan.folded && mayFold) {
    const columns = sheet.getRange(`${columnLetters(plan.folded.first)}:${columnLetters(plan.folded.last)}`)
    columns.group('ByColumns')
    columns.hideGroupDetails('ByColumns')
  }
  if (plan.hiddenColumn !== undefined) sheet.getRange(`${columnLetters(plan.hiddenColumn)}:${columnLetters(plan.hiddenColumn)}`).columnHidden = true
  if (plan.frozenColumns === undefined) sheet.freezePanes.freezeRows(plan.frozenRows)
  else sheet.freezePanes.freezeAt(`A1:${address(plan.frozenRows, plan.frozenColumns, false)}`)
  for (const { name, row, column, headings, rows } of plan.tables) {
    const table = sheet.tables.add(`${address(row, column, false)}:${address(row + rows, column + headings.length - 1, false)}`, true)
    table.name = name
    table.showFilterButton = false
    table.showBandedRows = false
  }
  for (const { firstRow, lastRow: last, column, list, range: source, span, isAdvice, message } of plan.validations) {
    const target = sheet.getRange(`${address(firstRow, column, false)}:${address(last, column, false)}`).dataValidation
    target.rule = span
      ? { decimal: { formula1: span[0], formula2: span[1], operator: 'Between' } }
      : { list: { inCellDropDown: true, source: source ? `=${source}` : list!.join(',') } }
    target.errorAlert = { message: `Allowed: ${message}`.slice(0, LONGEST_ALERT), showAlert: true, style: span || isAdvice ? 'Warning' : 'Stop', title: 'Not allowed here' }
  }
}

/** Rows by their height, in addresses that Excel takes: a call to it costs half a kilobyte of a request, and a job has some two thousand rows. */
function rowsByHeight(heights: ReadonlyMap<number, number>): { height: number; areas: string }[] {
  const rows = new Map<number, number[]>()
  for (const [row, wanted] of heights) {
    const height = Math.min(wanted, HIGHEST_ROW)
    rows.set(height, [...(rows.get(height) ?? []), row])
  }
  return [...rows].flatMap(([height, some]) => {
    const runs: [from: number, to: number][] = []
    for (const row of [...some].sort((one, other) => one - other)) {
      const last = runs.at(-1)
      if (last?.[1] === row - 1) last[1] = row
      else runs.push([row, row])
    }
    return inPieces(runs.map(([from, to]) => `${from}:${to}`)).map((areas) => ({ height, areas }))
  })
}

/** Columns side by side that are as wide. */
function widthRuns({ widths }: SheetPlan): { from: number; to: number; width: number }[] {
  const runs: { from: number; to: number; width: number }[] = []
  widths.forEach((width, at) => {
    const last = runs.at(-1)
    if (last?.width === width) last.to = at + 1
    else runs.push({ from: at + 1, to: at + 1, width })
  })
  return runs
}

/** Addresses joined, in pieces that Excel takes. */
function inPieces(addresses: readonly string[]): string[] {
  const pieces: string[] = []
  for (const text of addresses) {
    const last = pieces.at(-1)
    if (last !== undefined && last.length + text.length < LONGEST_AREAS) pieces[pieces.length - 1] = `${last},${text}`
    else pieces.push(text)
  }
  return pieces
}

/** What a cell costs in a request beside its content, empty or not: its places in two arrays. */
const CELL_BYTES = 9
/** A call with its object and its property, and the calls of a look: reckoned from the whole requests of a job as Microsoft's own script puts them together. */
const CALL_BYTES = 520
const LOOK_BYTES = 1600
/** What it takes of a request to write a sheet, a little more than less. */
export function requestBytes(plan: SheetPlan): number {
  const { lastRow, lastColumn } = extentOf(plan.cells)
  const content = plan.cells.reduce((sum, { value, formula }) => sum + (formula ?? String(value ?? '')).length, 0)
  const areas = [...byLook(plan)].flatMap(([, cells]) => areasOf(cells))
  const heights = rowsByHeight(rowHeights(plan))
  const calls = heights.length + widthRuns(plan).length + plan.tables.length * 4 + plan.validations.length * 3
  const addresses = [...areas, ...heights.map(({ areas: rows }) => rows)].reduce((sum, text) => sum + text.length, 0)
  return lastRow * lastColumn * CELL_BYTES + content + areas.length * LOOK_BYTES + calls * CALL_BYTES + addresses
}

/** How it is printed, as in files. */
export function setPage(sheet: Excel.Worksheet, plan: SheetPlan): void {
  const { pageLayout } = sheet
  pageLayout.orientation = plan.landscape ? 'Landscape' : 'Portrait'
  const { breaks, percent } = pagesOf(plan)
  pageLayout.zoom = percent === undefined ? { horizontalFitToPages: 1 } : { scale: percent }
  const area = printedArea(plan)
  if (area) pageLayout.setPrintArea(`A1:${address(area.lastRow, area.lastColumn, false)}`)
  for (const row of breaks) sheet.horizontalPageBreaks.add(`A${row}`)
  if (plan.frozenRows === TITLE_ROWS) pageLayout.setPrintTitleRows(`$1:$${TITLE_ROWS}`)
  if (plan.frozenColumns !== undefined) pageLayout.setPrintTitleColumns(`$A:$${columnLetters(plan.frozenColumns)}`)
  pageLayout.paperSize = plan.paper === 'A4' ? 'A4' : 'Letter'
  pageLayout.leftMargin = pageLayout.rightMargin = points(MARGINS_IN.side)
  pageLayout.topMargin = points(MARGINS_IN.top)
  pageLayout.bottomMargin = points(MARGINS_IN.bottom)
  pageLayout.headerMargin = pageLayout.footerMargin = points(MARGINS_IN.head)
  const { left, center, right } = footOf(plan)
  const footers = pageLayout.headersFooters.defaultForAllPages
  footers.leftFooter = left
  footers.centerFooter = center
  footers.rightFooter = right
}

/** A text that begins like a formula, or looks like a number or a day, is put in as text. */
export function excelContent({ value, formula, format }: Pick<PlanCell, 'value' | 'formula' | 'format'>): string | number | boolean {
  if (formula !== undefined) return `=${formula}`
  if (value === null) return ''
  return typeof value === 'string' && (/^[=+\-@']/.test(value) || (format !== 'text' && /^[\s$(]*[\d.,]+(?:[/:-][\d.,]+)*[\s%)]*$/.test(value))) ? `'${value}` : value
}

function byLook(plan: SheetPlan): [Look, PlanCell[]][] {
  const groups = new Map<string, [Look, PlanCell[]]>()
  for (const cell of plan.cells) {
    const group = groups.get(cell.role) ?? [looks[cell.role], []]
    group[1].push(cell)
    groups.set(cell.role, group)
  }
  return [...groups.values()]
}

/** Addresses of cells, runs along a row joined, in pieces that Excel takes. */
function areasOf(cells: readonly PlanCell[]): string[] {
  const sorted = [...cells].sort((one, other) => one.row - other.row || one.column - other.column)
  const runs: [row: number, from: number, to: number][] = []
  for (const { row, column } of sorted) {
    const last = runs.at(-1)
    if (last && last[0] === row && last[2] === column - 1) last[2] = column
    else runs.push([row, column, column])
  }
  return inPieces(runs.map(([row, from, to]) => (from === to ? address(row, from, false) : `${address(row, from, false)}:${address(row, to, false)}`)))
}

function dressCells(format: Excel.RangeFormat, look: Look): void {
  format.font.bold = look.bold ?? false
  format.font.size = look.size ?? 10
  format.font.color = `#${look.color ?? palette.ink}`
  format.wrapText = look.wrap ?? false
  format.verticalAlignment = 'Center'
  if (look.align) format.horizontalAlignment = look.align === 'right' ? 'Right' : look.align === 'center' ? 'Center' : 'Left'
  if (look.indent) format.indentLevel = look.indent
  if (look.fill) format.fill.color = `#${look.fill}`
  format.protection.locked = !look.unlocked
  const line = (edge: 'EdgeTop' | 'EdgeBottom' | 'EdgeLeft', weight: 'Hairline' | 'Thin' | 'Medium' | 'Thick', color: string) => {
    const border = format.borders.getItem(edge)
    border.style = 'Continuous'
    border.weight = weight
    border.color = `#${color}`
  }
  if (look.above) line('EdgeTop', look.above === 'medium' ? 'Medium' : 'Thin', palette.ink)
  if (look.below) line('EdgeBottom', look.below === 'hair' ? 'Hairline' : 'Thin', palette.stoneDark)
  if (look.left) line('EdgeLeft', 'Thick', palette.clay)
}
