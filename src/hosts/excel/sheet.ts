/** A planned sheet in Excel: its content and looks, and how it is printed. */
import { rowHeights } from '../../plan/heights.js'
import { pagesOf, titlesOf } from '../../plan/pages.js'
import { cellFormat, looks, palette, type Look } from '../../plan/looks.js'
import { RANGE_SET_BYTES } from './requestBytes.js'
import { address, columnLetters, extentOf, footOf, LONGEST_ALERT, MARGINS_IN, printedArea, type PlanCell, type SheetPlan } from '../../plan/plan.js'

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
  const formulas = Array.from({ length: lastRow }, () => Array<string | number | boolean>(lastColumn).fill(''))
  for (const cell of plan.cells) formulas[cell.row - 1]![cell.column - 1] = excelContent(cell)
  const range = sheet.getRange(`A1:${address(lastRow, lastColumn, false)}`)
  for (const { column, firstRow, lastRow: last, format } of formatRuns(plan))
    sheet.getRange(`${address(firstRow, column, false)}:${address(last, column, false)}`).numberFormat = format
  range.formulas = formulas
  // What most cells look like is said once; a sheet that is new, or cleared, has no other look.
  range.format.font.size = BASE.size
  range.format.font.color = `#${BASE.color}`
  range.format.verticalAlignment = 'Center'
  for (const [look, cells] of byLook(plan)) for (const areas of areasOf(cells)) dressCells(sheet.getRanges(areas).format, look)
  for (const { size, areas } of bySize(
    plan.widths.map((width, at) => [at + 1, width]),
    columnLetters,
  ))
    sheet.getRanges(areas).format.columnWidth = size * POINTS_PER_WIDTH
  sheet.getRange().format.useStandardHeight = true
  for (const { size, areas } of bySize(rowHeights(plan), String)) sheet.getRanges(areas).format.rowHeight = Math.min(size, HIGHEST_ROW)
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

/** Rows or columns by their size, in addresses that Excel takes: a call to it costs half a kilobyte of a request, and a job has some two thousand rows. */
function bySize(sizes: Iterable<readonly [at: number, size: number]>, name: (at: number) => string): { size: number; areas: string }[] {
  const runs = new Map<number, [from: number, to: number][]>()
  for (const [at, size] of [...sizes].sort(([one], [other]) => one - other)) {
    const some = runs.get(size) ?? []
    const last = some.at(-1)
    if (last?.[1] === at - 1) last[1] = at
    else some.push([at, at])
    runs.set(size, some)
  }
  return [...runs].flatMap(([size, some]) => inPieces(some.map(([from, to]) => `${name(from)}:${name(to)}`)).map((areas) => ({ size, areas })))
}

/** What Excel takes for a range: one format for all of its cells, or a row for each. The types of the interface know rows alone. */
type Formats = (string | null)[][]
interface FormatRun {
  column: number
  firstRow: number
  lastRow: number
  format: Formats
}
/** The formats of a column from the first cell that has one to the last; what has none stays as a new sheet, or a cleared one, has it. Long runs of one format are set by a single word. */
function formatRuns({ cells }: SheetPlan): FormatRun[] {
  const columns = new Map<number, Map<number, string | null>>()
  for (const cell of cells) {
    const format = cellFormat(cell)
    // Words look the same in a format of numbers: a run goes on over them, as over cells that are not there.
    if (format === undefined && cell.formula === undefined && typeof cell.value !== 'number') continue
    if (!columns.has(cell.column)) columns.set(cell.column, new Map())
    columns.get(cell.column)!.set(cell.row, format ?? null)
  }
  return [...columns].flatMap(([column, rows]) => {
    const runs: { firstRow: number; lastRow: number; format: string | null }[] = []
    for (const row of [...rows.keys()].sort((one, other) => one - other)) {
      const format = rows.get(row)!
      const last = runs.at(-1)
      if (last?.format === format && (format !== '@' || row === last.lastRow + 1)) last.lastRow = row
      else runs.push({ firstRow: row, lastRow: row, format })
    }
    const some = runs.filter(({ format }) => format !== null)
    const [first, last] = [some[0], some.at(-1)]
    if (!first || !last) return []
    const all = Array.from({ length: last.lastRow - first.firstRow + 1 }, (_, at) => [rows.get(first.firstRow + at) ?? null])
    if (JSON.stringify(all).length < some.length * RANGE_SET_BYTES) return [{ column, firstRow: first.firstRow, lastRow: last.lastRow, format: all }]
    return some.map(({ firstRow, lastRow, format }) => ({ column, firstRow, lastRow, format: format as unknown as Formats }))
  })
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

/** How a sheet is printed, as in files. */
export interface Page {
  isLandscape: boolean
  percent: number | undefined
  breaks: readonly number[]
  area: string | undefined
  titleRows: string | undefined
  titleColumns: string | undefined
  paper: 'A4' | 'Letter'
  foot: ReturnType<typeof footOf>
}
export function pageOf(plan: SheetPlan): Page {
  const area = printedArea(plan)
  const { rows, columns } = titlesOf(plan)
  return {
    ...pagesOf(plan),
    isLandscape: plan.landscape,
    area: area && `A1:${address(area.lastRow, area.lastColumn, false)}`,
    titleRows: rows ? `$1:$${rows}` : undefined,
    titleColumns: columns ? `$A:$${columnLetters(columns)}` : undefined,
    paper: plan.paper === 'A4' ? 'A4' : 'Letter',
    foot: footOf(plan),
  }
}
export function setPage(sheet: Excel.Worksheet, page: Page): void {
  const { pageLayout } = sheet
  pageLayout.orientation = page.isLandscape ? 'Landscape' : 'Portrait'
  pageLayout.zoom = page.percent === undefined ? { horizontalFitToPages: 1 } : { scale: page.percent }
  if (page.area) pageLayout.setPrintArea(page.area)
  // Those of an earlier making stay on a sheet that is cleared.
  sheet.horizontalPageBreaks.removePageBreaks()
  for (const row of page.breaks) sheet.horizontalPageBreaks.add(`A${row}`)
  if (page.titleRows) pageLayout.setPrintTitleRows(page.titleRows)
  if (page.titleColumns) pageLayout.setPrintTitleColumns(page.titleColumns)
  pageLayout.paperSize = page.paper
  pageLayout.leftMargin = pageLayout.rightMargin = points(MARGINS_IN.side)
  pageLayout.topMargin = points(MARGINS_IN.top)
  pageLayout.bottomMargin = points(MARGINS_IN.bottom)
  pageLayout.headerMargin = pageLayout.footerMargin = points(MARGINS_IN.head)
  const footers = pageLayout.headersFooters.defaultForAllPages
  footers.leftFooter = page.foot.left
  footers.centerFooter = page.foot.center
  footers.rightFooter = page.foot.right
}

/** A text that begins like a formula, or looks like a number or a day, is put in as text. */
export function excelContent({ value, formula, format }: Pick<PlanCell, 'value' | 'formula' | 'format'>): string | number | boolean {
  if (formula !== undefined) return `=${formula}`
  if (value === null) return ''
  return typeof value === 'string' && (/^[=+\-@']/.test(value) || (format !== 'text' && /^[\s$(]*[\d.,]+(?:[/:-][\d.,]+)*[\s%)]*$/.test(value))) ? `'${value}` : value
}

/** Cells by how they look; roles may look alike, and cells that look as the sheet does need no word. */
function byLook(plan: SheetPlan): [Look, PlanCell[]][] {
  const groups = new Map<string, [Look, PlanCell[]]>()
  for (const cell of plan.cells) {
    const look = besideBase(looks[cell.role])
    const key = JSON.stringify(look)
    if (key === '{}') continue
    const group = groups.get(key) ?? [look, []]
    group[1].push(cell)
    groups.set(key, group)
  }
  return [...groups.values()]
}
/** What a look has where it says nothing else. */
const BASE = { size: 10, color: palette.ink }
/** What of a look is otherwise than the sheet: each property set is a part of the request. */
function besideBase({ size, color, ...look }: Look): Look {
  return { ...(size === undefined || size === BASE.size ? {} : { size }), ...(color === undefined || color === BASE.color ? {} : { color }), ...look }
}

/** Addresses of cells, runs along a row joined and equal runs of rows below each other too, in pieces that Excel takes. */
function areasOf(cells: readonly PlanCell[]): string[] {
  const sorted = [...cells].sort((one, other) => one.row - other.row || one.column - other.column)
  const runs: Run[] = []
  for (const { row, column } of sorted) {
    const last = runs.at(-1)
    if (last && last.row === row && last.to === column - 1) last.to = column
    else runs.push({ row, from: column, to: column, last: row })
  }
  const blocks: Run[] = []
  const open = new Map<string, Run>()
  for (const run of runs) {
    const across = `${run.from} ${run.to}`
    const above = open.get(across)
    if (above?.last === run.row - 1) above.last = run.row
    else {
      open.set(across, run)
      blocks.push(run)
    }
  }
  return inPieces(blocks.map(({ row, last, from, to }) => (from === to && row === last ? address(row, from, false) : `${address(row, from, false)}:${address(last, to, false)}`)))
}
interface Run {
  row: number
  from: number
  to: number
  /** The last row of equal runs below each other. */
  last: number
}

function dressCells(format: Excel.RangeFormat, look: Look): void {
  if (look.bold) format.font.bold = true
  if (look.italic) format.font.italic = true
  if (look.size !== undefined) format.font.size = look.size
  if (look.color !== undefined) format.font.color = `#${look.color}`
  if (look.wrap) format.wrapText = true
  if (look.align) format.horizontalAlignment = look.align === 'right' ? 'Right' : look.align === 'center' ? 'Center' : 'Left'
  if (look.indent) format.indentLevel = look.indent
  if (look.fill) format.fill.color = `#${look.fill}`
  if (look.unlocked) format.protection.locked = false
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
