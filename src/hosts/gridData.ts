/** Plans as the data of the grid: cells, looks, formats, widths, lists. Used for a new workbook and for single cells. */
import { heightsWith, rowHeights } from '../plan/heights.js'
import { gridError } from './gridErrors.js'
import { looks, numberFormat, palette, type Look } from '../plan/looks.js'
import { extentOf, columnLetters, type PlanCell, type SheetPlan, type WorkbookPlan } from '../plan/plan.js'

export interface GridStyle {
  bold?: boolean
  italic?: boolean
  align?: string
  wrapping?: string
  fontSize?: number
  textColor?: string
  fillColor?: string
}

/** Letters on a line of the grid, against those of other programs: what a column takes is read there in full. */
const IN_GRID = 0.85
/** Pixels for a unit of column width. */
export const PIXELS_PER_WIDTH = 7.2
export const PIXELS_PER_POINT = 96 / 72

export function gridStyle(look: Look): GridStyle {
  return {
    textColor: `#${look.color ?? palette.ink}`,
    fontSize: look.size ?? 10,
    ...(look.bold ? { bold: true } : {}),
    ...(look.italic ? { italic: true } : {}),
    ...(look.align ? { align: look.align } : {}),
    ...(look.wrap ? { wrapping: 'wrap' } : {}),
    ...(look.fill ? { fillColor: `#${look.fill}` } : {}),
  }
}

/** A text for a formula of the grid, which has no sign for a quote within quotes that it would read back: signs by their number. */
const literal = (text: string): string => `"${text.replace(/["\\]/g, (sign) => `"&CHAR(${sign.charCodeAt(0)})&"`)}"`

/** A formula as the grid reads it: a doubled quote within a text becomes one by its number. */
export const gridFormula = (formula: string): string =>
  formula.replace(/"(?:[^"]|"")*"/g, (quoted) => {
    const text = quoted.slice(1, -1).replace(/""/g, '"')
    return /["\\]/.test(text) ? `(${literal(text)})` : quoted
  })

/** Whether a formula of the grid is but a text of its own, as `gridContent` writes one. */
export const isOwnText = (formula: string): boolean => /^"[^"\\]*"(?:&CHAR\((?:34|92)\)&"[^"\\]*")*$/.test(formula.replace(/\s/g, ' '))

/** The grid knows no text format: a text that could be read as a number, date or formula is written as a formula of itself. */
export function gridContent(value: PlanCell['value'], formula?: string): string {
  if (formula !== undefined) return `=${gridFormula(formula)}`
  if (value === null) return ''
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE'
  if (typeof value === 'number') return String(value)
  const error = gridError(value)
  if (error !== undefined) return error
  return /^[A-Za-zÀ-ÿ]/.test(value) && !/^(?:true|false)$/i.test(value) ? value : `=${literal(value)}`
}

export const cellContent = (cell: PlanCell): string =>
  cell.format === 'date' && typeof cell.value === 'string' && cell.formula === undefined ? cell.value : gridContent(cell.value, cell.formula)

/** A code of numbers without its colors, conditions, languages, words and room for signs: what is left of a number or a moment. */
export const bareCode = (code: string): string => code.replace(/"[^"]*"|\\.|[_*].|\[(?!(?:h+|m+|s+)\])[^\]]*\]/gi, '')
/** Whether a code shows a number as a day or an hour. */
export const isOfTime = (code: string): boolean => /[dymhs]/i.test(bareCode(code).replace(/General/gi, ''))

/** The grid does not know the space that keeps a figure off its unit. */
export const gridFormat = (format: PlanCell['format']): string | undefined => (format === 'text' ? undefined : numberFormat(format)?.replace('_ ', ''))

export const gridBorder = (look: Look) => ({
  ...(look.above ? { top: { style: look.above === 'medium' ? 'medium' : 'thin', color: `#${palette.ink}` } } : {}),
  ...(look.below ? { bottom: { style: 'thin', color: `#${look.below === 'hair' ? palette.stone : palette.stoneDark}` } } : {}),
  ...(look.left ? { left: { style: 'thick', color: `#${palette.clay}` } } : {}),
})

/** The data of one sheet; style numbers come from the registers shared by the workbook. */
export class GridDataWriter {
  private readonly styleIds = new Map<string, number>()
  private readonly formatIds = new Map<string, number>()
  private readonly borderIds = new Map<string, number>()

  private idOf(register: Map<string, number>, value: unknown): number {
    const key = JSON.stringify(value)
    let id = register.get(key)
    if (id === undefined) register.set(key, (id = register.size + 1))
    return id
  }

  sheet(
    plan: SheetPlan,
    id: string,
    look: (cell: PlanCell) => Look = (cell) => looks[cell.role],
    heights: ReadonlyMap<number, number> = plan.kind === 'office' ? heightsWith(plan, IN_GRID) : rowHeights(plan),
  ): object {
    const cells: Record<string, string> = {}
    const styles: Record<string, number> = {}
    const formats: Record<string, number> = {}
    const borders: Record<string, number> = {}
    for (const cell of plan.cells) {
      const at = `${columnLetters(cell.column)}${cell.row}`
      const content = cellContent(cell)
      if (content !== '') cells[at] = content
      styles[at] = this.idOf(this.styleIds, gridStyle(look(cell)))
      const format = gridFormat(cell.format)
      if (format) formats[at] = this.idOf(this.formatIds, format)
      const border = gridBorder(look(cell))
      if (Object.keys(border).length) borders[at] = this.idOf(this.borderIds, border)
    }
    const { lastRow, lastColumn } = extentOf(plan.cells)
    return {
      id,
      name: plan.name,
      colNumber: Math.max(lastColumn + 2, plan.widths.length + 2),
      rowNumber: lastRow + (plan.kind === 'office' ? 200 : 30),
      cells,
      styles,
      formats,
      borders,
      cols: Object.fromEntries(
        plan.widths.map((width, at) => [
          at,
          { size: Math.round(width * PIXELS_PER_WIDTH), ...((at + 1 === plan.hiddenColumn || plan.hiddenColumns?.includes(at + 1)) && { isHidden: true }) },
        ]),
      ),
      rows: Object.fromEntries([
        ...[...heights].map(([row, points]) => [row - 1, { size: Math.round(points * PIXELS_PER_POINT) }] as const),
        ...(plan.hiddenRows ?? []).map((row) => [row - 1, { isHidden: true, ...(heights.has(row) && { size: Math.round(heights.get(row)! * PIXELS_PER_POINT) }) }] as const),
      ]),
      // The grid cuts a title at a column that stands still: on the page none of ours does; in the file it does.
      panes: { xSplit: plan.tables.length ? 0 : (plan.frozenColumns ?? 0), ySplit: plan.frozenRows },
      headerGroups: { ROW: [], COL: plan.folded ? [{ start: plan.folded.first - 1, end: plan.folded.last - 1, isFolded: true }] : [] },
      areGridLinesVisible: false,
      isVisible: !plan.hidden,
      dataValidationRules: plan.validations.flatMap(({ list, range, firstRow, lastRow: last, column }, at) => {
        if ((!list && !range) || list?.some(isTakenForDate)) return []
        const letters = columnLetters(column)
        return [
          {
            id: `${id}-${at}`,
            ranges: [`${letters}${firstRow}:${letters}${last}`],
            isBlocking: false,
            criterion: list
              ? { type: 'isValueInList', values: [...list], displayStyle: 'plainText' }
              : { type: 'isValueInRange', values: [range!.replace(/\$/g, '')], displayStyle: 'plainText' },
          },
        ]
      }),
    }
  }

  workbook(sheets: readonly object[]): object {
    const table = (register: Map<string, number>) => Object.fromEntries([...register].map(([key, id]) => [id, JSON.parse(key) as unknown]))
    return { sheets, styles: table(this.styleIds), formats: table(this.formatIds), borders: table(this.borderIds) }
  }
}

/** A list of sizes would be read as dates, and every right size be marked wrong. */
const isTakenForDate = (text: string): boolean => /^\d+[-/]\d/.test(text)

export function gridData(plan: WorkbookPlan): object {
  const writer = new GridDataWriter()
  return writer.workbook(plan.sheets.map((sheet, at) => writer.sheet(sheet, `sheet${at + 1}`)))
}
