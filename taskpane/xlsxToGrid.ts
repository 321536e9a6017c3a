/** Opens an .xlsx file in the grid: values, formulas, looks, widths, frozen rows, lists. */
import { Model } from '@odoo/o-spreadsheet'
import type { Cell, Worksheet } from 'exceljs'
import { openForGrid, plainCell, type NotKept } from './openForGrid.js'
import type { CodesOfFile, Getters } from './gridToXlsx.js'
import { plainReferences, type ToPlain } from './plainReferences.js'
import { openWorkbook } from '../src/hosts/file.js'
import { isOfJob } from '../src/hosts/standing.js'
import type { BookSheet } from '../src/hosts/xlsx/book.js'
import type { BookCell, BookRows } from '../src/hosts/xlsx/cells.js'
import { STORED_PREFIX, withoutPrefixes } from '../src/hosts/xlsx/writeSheet.js'
import { bareCode, GridDataWriter, isOfTime } from '../src/hosts/gridData.js'
import { looks, type Look } from '../src/plan/looks.js'
import { tableNames } from '../src/takeoff/officeTables.js'
import { serialOfMoment } from '../src/days.js'
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

/** Our own formats as such, others as the grid can show them; one that it cannot is shown plainly and stays in the file. */
function formatOf(numFmt: string | undefined, shown: ReadonlyMap<string, string | undefined>): PlanCell['format'] {
  if (!numFmt || numFmt === 'General') return undefined
  if (numFmt === '@') return 'text'
  if (numFmt === 'yyyy-mm-dd') return 'date'
  const decimals = /^#,##0(?:\.(0+))?_ $/.exec(numFmt)
  if (decimals) return (decimals[1] ?? '').length
  const code = shown.get(numFmt)
  return code === undefined ? undefined : { code }
}

/** What the grid takes for a code of a file: the code itself, or the same with the letters that it knows. */
const asTheGridWrites = (code: string): string => {
  const known = code.replace(/\[\$-[^\]]*\]|\[(?!\$|(?:h+|m+|s+)\])[^\]]*\]|;@$/gi, '').replace(/\[\$([^\]-]+)-[^\]]*\]/g, '[$$$1]')
  if (!isOfTime(code)) return known.replace(/[_*]./g, '').replace(/\\(.)/g, '"$1"')
  return known
    .replace(/\\(?=.)/g, '')
    .replace(/[YMDHS]+/g, (letters) => letters.toLowerCase())
    .replace(/\[h+\]/g, 'hhhh')
    .replace(/(?<!h)h(?!h)/g, 'hh')
    .replace(/AM\/PM/i, 'a')
}
/** How a number is shown whose code the grid cannot show. */
const PLAIN_NUMBER = '0.##########'
/** Words of no letters: they make one code of the grid unlike another, and show nothing. */
const NOTHING = '""'
/** A moment that has a day and a time, so that every letter of a code shows. */
const A_MOMENT = '45000.61'

/** Each code tried in the grid itself: a constant must never become an error because of how it looks. */
function formatsShown(codes: ReadonlySet<string>): ReadonlyMap<string, string | undefined> {
  const tries = [...codes].flatMap((code) =>
    [
      ...new Set([
        // The grid shows the number of a language as figures.
        ...(/\[\$[^\]]*-/.test(code) ? [] : [code]),
        asTheGridWrites(code),
        ...(isOfTime(code) ? [/[dy]/i.test(bareCode(code)) ? 'yyyy-mm-dd hh:mm:ss' : 'hh:mm:ss'] : [asTheGridWrites(code).split(';')[0]!, PLAIN_NUMBER]),
      ]),
    ].map((candidate) => ({ code, candidate })),
  )
  const place = (index: number) => `A${index + 1}`
  const model = new Model({
    sheets: [
      {
        id: 'formats',
        rowNumber: tries.length + 1,
        cells: Object.fromEntries(tries.map((_, index) => [place(index), A_MOMENT])),
        formats: Object.fromEntries(tries.map((_, index) => [place(index), index + 1])),
      },
    ],
    formats: Object.fromEntries(tries.map(({ candidate }, index) => [index + 1, candidate])),
  } as never)
  const getters = model.getters as unknown as { getEvaluatedCell(position: object): { type: string } }
  const shown = new Map<string, string>()
  tries.forEach(({ code, candidate }, row) => {
    if (!shown.has(code) && getters.getEvaluatedCell({ sheetId: 'formats', row, col: 0 }).type === 'number') shown.set(code, candidate)
  })
  // No two codes are shown by one: written anew, each is known by its own. A code that the grid knows stays as it is.
  const taken = new Set([...shown].flatMap(([code, one]) => (code === one ? [one] : [])))
  for (const [code, one] of shown) {
    if (code === one) continue
    let own = one
    while (taken.has(own)) own += NOTHING
    taken.add(own)
    shown.set(code, own)
  }
  return shown
}

/** A formula of a file that fills several cells: its place, and the last cell that it fills. */
interface FillingFormula {
  row: number
  column: number
  last: NonNullable<BookCell['fills']>
}
function fillingOn(rows: BookRows): FillingFormula[] {
  const found: FillingFormula[] = []
  for (const [row, line] of rows)
    for (const [column, { formula, fills }] of line)
      if (formula !== undefined && fills && fills.row >= row && fills.column >= column && (fills.row - row + 1) * (fills.column - column + 1) > 1)
        found.push({ row, column, last: fills })
  return found
}

/** Cells, as "row column", that formulas of other ones fill: the grid fills them again. */
function filledBy(formulas: readonly FillingFormula[], rows: BookRows): ReadonlySet<string> {
  const filled = new Set<string>()
  for (const { row, column, last } of formulas)
    for (const [down, line] of rows)
      if (down >= row && down <= last.row)
        for (const [across, { formula }] of line)
          if (across >= column && across <= last.column && (down !== row || across !== column) && formula === undefined) filled.add(`${down} ${across}`)
  return filled
}

function planOf(
  sheet: Worksheet,
  shown: ReadonlyMap<string, string | undefined>,
  own: BookRows,
  toPlain: ToPlain,
  filled: ReadonlySet<string>,
): { plan: SheetPlan; look: Map<PlanCell, Look>; heights: Map<number, number> } {
  const look = new Map<PlanCell, Look>()
  const cells: PlanCell[] = []
  const seen = new Set<string>()
  sheet.eachRow({ includeEmpty: false }, (row) =>
    row.eachCell({ includeEmpty: true }, (cell, column) => {
      // What a cell holds our own reader says: the other one stumbles over marks of pronunciation and dates in words.
      const known = own.get(Number(row.number))?.get(column)
      // Merged cells show what their corner holds; a sum counts it once. What a formula fills stands in no formula's way.
      const isFilled = filled.has(`${row.number} ${column}`)
      const isCovered = isFilled || (cell.isMerged && cell.master !== cell)
      const value = isFilled ? null : known ? known.value : isCovered ? null : plainCell(cell)
      const formula = (isCovered ? undefined : (cell.formula as string | undefined)) ?? known?.formula
      seen.add(`${row.number} ${column}`)
      const format = formatOf(cell.numFmt, shown)
      const planned: PlanCell = {
        row: Number(row.number),
        column,
        role: 'text',
        value: value instanceof Date ? (format === 'date' && isWholeDay(value) ? value.toISOString().slice(0, 10) : serialOfMoment(value)) : value,
        ...(formula ? { formula: toPlain(withoutPrefixes(formula).replaceAll(STORED_PREFIX, 'CISTERN.'), sheet.name, Number(row.number)) } : {}),
        ...(format === undefined ? {} : { format }),
      }
      cells.push(planned)
      look.set(planned, { ...looks.text, ...lookOf(cell) })
    }),
  )
  for (const [row, line] of own)
    for (const [column, cell] of line) {
      if (seen.has(`${row} ${column}`) || filled.has(`${row} ${column}`)) continue
      const planned = plainPlanCell(sheet.name, row, column, cell, toPlain)
      cells.push(planned)
      look.set(planned, looks.text)
    }
  const heights = new Map<number, number>()
  sheet.eachRow({ includeEmpty: true }, (row, at) => {
    if (row.height) heights.set(at, row.height)
  })
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
    heights,
    plan: {
      name: sheet.name,
      kind: 'office',
      widths: Array.from({ length: sheet.columnCount }, (_, at) => sheet.getColumn(at + 1).width ?? 10),
      cells,
      frozenRows: view?.state === 'frozen' ? (view.ySplit ?? 0) : 0,
      ...(view?.state === 'frozen' && view.xSplit && !tableNames.some((table) => table === sheet.name) ? { frozenColumns: view.xSplit } : {}),

      landscape: true,
      footer: '',
      tables: [],
      validations: joined(validations),
      ...foldedIn(sheet),
      hidden: sheet.state !== 'visible',
    },
  }
}

/** Neighbouring columns that are folded together, of several groups the first; the others that are hidden, and hidden rows. */
function foldedIn(sheet: Worksheet): Pick<SheetPlan, 'folded' | 'hiddenColumns' | 'hiddenRows'> {
  const isFolded = (at: number) => {
    const { hidden, outlineLevel } = sheet.getColumn(at)
    return hidden && (outlineLevel ?? 0) > 0
  }
  const columns = Array.from({ length: sheet.columnCount }, (_, at) => at + 1)
  const first = columns.find(isFolded)
  let last = first
  while (last !== undefined && last < sheet.columnCount && isFolded(last + 1)) last++
  const hiddenColumns = columns.filter((at) => sheet.getColumn(at).hidden && (first === undefined || at < first || at > last!))
  const hiddenRows: number[] = []
  sheet.eachRow({ includeEmpty: true }, (row, at) => {
    if (row.hidden) hiddenRows.push(at)
  })
  return {
    ...(first === undefined ? {} : { folded: { first, last: last! } }),
    ...(hiddenColumns.length ? { hiddenColumns } : {}),
    ...(hiddenRows.length ? { hiddenRows } : {}),
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

export interface InGrid {
  data: object
  /** What of the whole workbook the grid does not keep, and what of each sheet. */
  notKept: NotKept
  ofSheets: ReadonlyMap<string, NotKept>
  /** By sheet and by the code that the grid shows: the code of the file. */
  codes: CodesOfFile
}

export async function gridFromWorkbook(bytes: Uint8Array, name: string): Promise<InGrid> {
  const { workbook, notKept, ofSheets, book } = await openForGrid(bytes, name)
  const plain = openWorkbook(book.bytes(), name)
  const toPlain = plainReferences(plain.book)
  const used = new Map((workbook?.worksheets ?? []).map((sheet) => [sheet.name, codesOn(sheet)]))
  const shown = formatsShown(new Set([...used.values()].flatMap((codes) => [...codes])))
  const codes = new Map([...used].map(([sheet, codesOf]) => [sheet, new Map([...codesOf].flatMap((code) => (shown.get(code) === undefined ? [] : [[shown.get(code)!, code]])))]))
  const rowsOf = (sheet: string): BookRows => {
    const standing = plain.book.sheetNamed(sheet)
    return standing ? plain.cells.rows(standing) : new Map()
  }
  /** The grid's data, without what formulas fill. */
  const dataWith = (filling: FillingBySheet): object => {
    const writer = new GridDataWriter()
    const filledOn = (sheet: string) => filledBy(filling.get(sheet) ?? [], rowsOf(sheet))
    if (!workbook) return writer.workbook(plain.book.sheets.map((sheet, at) => writer.sheet(plainPlan(plain, sheet, toPlain, filledOn(sheet.name)), `sheet${at + 1}`)))
    return writer.workbook(
      workbook.worksheets.map((sheet, at) => {
        const standing = plain.book.sheetNamed(sheet.name)
        const { plan, look, heights } = planOf(sheet, shown, rowsOf(sheet.name), standing && isOfJob(plain, standing) ? (formula) => formula : toPlain, filledOn(sheet.name))
        return writer.sheet(plan, `sheet${at + 1}`, (cell) => look.get(cell)!, heights)
      }),
    )
  }
  const names = workbook ? workbook.worksheets.map((sheet) => sheet.name) : plain.book.sheets.map((sheet) => sheet.name)
  const all: FillingBySheet = new Map(names.map((sheet) => [sheet, fillingOn(rowsOf(sheet))]))
  if (![...all.values()].some((some) => some.length)) return { data: dataWith(all), notKept, ofSheets, codes }
  // Tried in the grid itself: where it fills other cells than the file, what the file has stays, and is told.
  const tried = dataWith(all)
  const alike = filledAlike(tried, names, all)
  const isWhole = names.every((sheet) => alike.get(sheet)!.length === all.get(sheet)!.length)
  const unlike = (sheet: string): number => all.get(sheet)!.length - alike.get(sheet)!.length
  const more = (known: NotKept | undefined, count: number): NotKept => (count ? new Map([...(known ?? []), [FILLING, count]]) : (known ?? new Map()))
  return {
    data: isWhole ? tried : dataWith(alike),
    notKept: more(
      notKept,
      names.reduce((sum, sheet) => sum + unlike(sheet), 0),
    ),
    ofSheets: new Map([...ofSheets].map(([sheet, known]) => [sheet, more(known, all.has(sheet) ? unlike(sheet) : 0)])),
    codes,
  }
}
const FILLING = 'formulas over several cells'
type FillingBySheet = ReadonlyMap<string, readonly FillingFormula[]>

/** The formulas that fill the same cells in the grid as in the file. */
function filledAlike(data: object, names: readonly string[], filling: FillingBySheet): FillingBySheet {
  const getters = new Model(data as never).getters as unknown as Pick<Getters, 'getSpreadZone'>
  return new Map(
    names.map((sheet, at) => [
      sheet,
      filling.get(sheet)!.filter(({ row, column, last }) => {
        const zone = getters.getSpreadZone({ sheetId: `sheet${at + 1}`, row: row - 1, col: column - 1 })
        return zone !== undefined && zone.bottom === last.row - 1 && zone.right === last.column - 1
      }),
    ]),
  )
}

/** The codes of numbers on a sheet. */
function codesOn(sheet: Worksheet): ReadonlySet<string> {
  const codes = new Set<string>()
  sheet.eachRow((row) => row.eachCell({ includeEmpty: true }, ({ numFmt }) => (numFmt ? void codes.add(numFmt) : undefined)))
  return codes
}

/** A date that is shown as a day may hold a time of it all the same. */
const isWholeDay = (moment: Date): boolean => moment.getTime() % 86_400_000 === 0

const plainPlanCell = (sheet: string, row: number, column: number, { value, formula }: BookCell, toPlain: ToPlain): PlanCell => ({
  row,
  column,
  role: 'text',
  value: value instanceof Date ? (isWholeDay(value) ? value.toISOString().slice(0, 10) : serialOfMoment(value)) : value,
  ...(value instanceof Date ? { format: 'date' as const } : {}),
  ...(formula === undefined ? {} : { formula: toPlain(withoutPrefixes(formula).replaceAll(STORED_PREFIX, 'CISTERN.'), sheet, row) }),
})

/** A sheet that only our own reader can read: values and formulas, without their looks. */
function plainPlan(workbook: ReturnType<typeof openWorkbook>, sheet: BookSheet, toPlain: ToPlain, filled: ReadonlySet<string>): SheetPlan {
  const cells: PlanCell[] = []
  for (const [row, line] of workbook.cells.rows(sheet))
    for (const [column, cell] of line) if (!filled.has(`${row} ${column}`)) cells.push(plainPlanCell(sheet.name, row, column, cell, toPlain))
  return { name: sheet.name, kind: 'office', widths: [], cells, frozenRows: 0, landscape: true, footer: '', tables: [], validations: [], hidden: sheet.isHidden }
}
