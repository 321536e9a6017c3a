/** Opens an .xlsx file in the grid: values, formulas, looks, widths, frozen rows, lists. */
import type { Cell, Worksheet } from 'exceljs'
import { openForGrid, plainCell, type NotKept } from './openForGrid.js'
import { GridDataWriter } from '../src/hosts/gridData.js'
import { looks, type Look } from '../src/plan/looks.js'
import { columnLetters, type PlanCell, type SheetPlan } from '../src/plan/plan.js'

const ownColor = (color: { argb?: string } | undefined): string | undefined => color?.argb?.slice(-6)

function lookOf(cell: Cell): Look {
  const { font, fill, alignment, border } = cell
  const solid = fill && fill.type === 'pattern' && fill.pattern === 'solid' ? ownColor(fill.fgColor) : undefined
  return {
    ...(font?.bold ? { bold: true } : {}),
    ...(font?.size ? { size: font.size } : {}),
    ...(ownColor(font?.color) ? { color: ownColor(font?.color)! } : {}),
    ...(solid ? { fill: solid } : {}),
    ...(alignment?.wrapText ? { wrap: true } : {}),
    ...(alignment?.horizontal === 'right' || alignment?.horizontal === 'center' || alignment?.horizontal === 'left' ? { align: alignment.horizontal } : {}),
    ...(border?.top?.style ? { above: border.top.style === 'medium' ? 'medium' : 'thin' } : {}),
    ...(border?.bottom?.style ? { below: border.bottom.style === 'hair' ? 'hair' : 'thin' } : {}),
    ...(border?.left?.style === 'thick' ? { left: 'thick' } : {}),
  }
}

/** Our own formats as such, others as they are where the grid knows all of their signs. */
function formatOf(cell: Cell): PlanCell['format'] {
  const { numFmt } = cell
  if (!numFmt || numFmt === 'General') return undefined
  if (numFmt === '@') return 'text'
  if (numFmt === 'yyyy-mm-dd') return 'date'
  const decimals = /^#,##0(?:\.(0+))?_ $/.exec(numFmt)
  if (decimals) return (decimals[1] ?? '').length
  return /^[#0,.%$ymdhs:/ -]+$/i.test(numFmt) ? { code: numFmt } : undefined
}

/** The number that a spreadsheet keeps for a day and its time. */
const serialOf = (moment: Date): number => (moment.getTime() - Date.UTC(1899, 11, 30)) / 86_400_000

function planOf(sheet: Worksheet): { plan: SheetPlan; look: Map<PlanCell, Look> } {
  const look = new Map<PlanCell, Look>()
  const cells: PlanCell[] = []
  sheet.eachRow({ includeEmpty: false }, (row) =>
    row.eachCell({ includeEmpty: true }, (cell, column) => {
      const value = plainCell(cell)
      const formula = cell.formula as string | undefined
      const format = formatOf(cell)
      const planned: PlanCell = {
        row: Number(row.number),
        column,
        role: 'text',
        value: value instanceof Date ? (format === 'date' ? value.toISOString().slice(0, 10) : serialOf(value)) : value,
        ...(formula ? { formula: formula.replace(/_xldudf_CISTERN_/g, 'CISTERN.') } : {}),
        ...(format === undefined ? {} : { format }),
      }
      cells.push(planned)
      look.set(planned, { ...looks.text, ...lookOf(cell) })
    }),
  )
  const view = sheet.views?.[0]
  const validations = Object.entries(
    (sheet as unknown as { dataValidations: { model: Record<string, { type: string; formulae?: unknown[]; error?: string }> } }).dataValidations.model ?? {},
  ).flatMap(([reference, rule]) => {
    const parts = /^([A-Z]+)(\d+)(?::[A-Z]+(\d+))?$/.exec(reference)
    const source = String(rule.formulae?.[0] ?? '')
    if (!parts || rule.type !== 'list' || !source) return []
    const at = { firstRow: Number(parts[2]), lastRow: Number(parts[3] ?? parts[2]), column: sheet.getColumn(parts[1]!).number, message: rule.error ?? '' }
    return [source.startsWith('"') ? { ...at, list: source.slice(1, -1).split(',') } : { ...at, range: source }]
  })
  return {
    look,
    plan: {
      name: sheet.name,
      kind: 'office',
      widths: Array.from({ length: sheet.columnCount }, (_, at) => sheet.getColumn(at + 1).width ?? 10),
      cells,
      frozenRows: view?.state === 'frozen' ? (view.ySplit ?? 0) : 0,
      titleRows: [1, 1],
      landscape: true,
      footer: '',
      tables: [],
      validations: joined(validations),
      hidden: sheet.state !== 'visible',
    },
  }
}

/** exceljs hands a list over cell by cell: neighbours in a column with one rule are one again. */
function joined(list: SheetPlan['validations']): SheetPlan['validations'] {
  const found: { -readonly [K in keyof SheetPlan['validations'][number]]: SheetPlan['validations'][number][K] }[] = []
  const key = (rule: SheetPlan['validations'][number]) => `${columnLetters(rule.column)} ${rule.range ?? rule.list?.join(',')}`
  for (const rule of [...list].sort((one, other) => one.column - other.column || one.firstRow - other.firstRow)) {
    const last = found.at(-1)
    if (last && key(last) === key(rule) && last.lastRow === rule.firstRow - 1) last.lastRow = rule.lastRow
    else found.push({ ...rule })
  }
  return found
}

export async function gridFromWorkbook(bytes: Uint8Array, name: string): Promise<{ data: object; notKept: NotKept }> {
  const { workbook, notKept } = await openForGrid(bytes, name)
  const writer = new GridDataWriter()
  const data = writer.workbook(
    workbook.worksheets.map((sheet, at) => {
      const { plan, look } = planOf(sheet)
      return writer.sheet(plan, `sheet${at + 1}`, (cell) => look.get(cell)!)
    }),
  )
  return { data, notKept }
}
