/** Opens a workbook for the grid: looked over part by part first, so that what would be expanded cell by cell is counted before. */
import ExcelJS from 'exceljs'
import { Book, relativeTo } from '../src/hosts/xlsx/book.js'
import { dayZero, readAddress } from '../src/hosts/xlsx/cells.js'
import { columnLetters } from '../src/plan/plan.js'
import { DAY_ZERO } from '../src/days.js'
import { tableNames } from '../src/takeoff/officeTables.js'
import { attribute, edited, escapeXml, inside, type Edit } from '../src/hosts/xlsx/xml.js'
import { WorkbookError } from '../src/hosts/xlsx/zip.js'

/** Rules over more cells than this are not taken into the grid. */
const MOST_EXPANDED = 100_000
/** Cells that the grid shows: fifty takeoffs have 650,000, which take a tab 0.9 GB. */
const MOST_CELLS = 700_000
/** Rows of a sheet times its columns: the grid holds empty places too. */
const MOST_AREA = 20_000_000

/** What a workbook holds that the grid does not keep when it is saved, by kind. */
export type NotKept = ReadonlyMap<string, number>

/** Parts by what they are; the first that fits counts. */
const kinds: readonly (readonly [kind: string, part: RegExp])[] = [
  ['charts', /^xl\/(?:charts\/chart|chartsheets\/)[^/]*\.xml$/i],
  ['pictures', /^xl\/media\//i],
  ['pivot tables', /^xl\/pivotTables\/[^/]+\.xml$/i],
  ['comments', /^xl\/(?:comments|threadedComments)[^/]*(?:\/[^/]+)?\.xml$/i],
  ['macros', /vbaProject\.bin$/i],
  ['slicers', /^xl\/slicers\/[^/]+\.xml$/i],
  ['links to other workbooks', /^xl\/externalLinks\/[^/]+\.xml$/i],
  ['form controls', /^xl\/ctrlProps\/[^/]+\.xml$/i],
]
/** The heading lines of a sheet stand behind its columns, which may be many. */
const HEADING_WITHIN = 20_000
/** Tags of sheets and of the workbook that the grid forgets. */
const forgotten: Readonly<Record<string, string>> = {
  mergeCell: 'merged ranges',
  hyperlink: 'links',
  cfRule: 'conditional formats',
  sheetProtection: 'protected sheets',
  definedName: 'names',
  dataValidation: 'rules for cells',
  autoFilter: 'filters',
  tabColor: 'colors of tabs',
  sparklineGroup: 'sparklines',
  brk: 'page breaks',
  headerFooter: 'headers and footers',
}
/** Tags that our own sheets have too: they are written anew with them. */
const oursToo: readonly string[] = ['dataValidation', 'brk', 'headerFooter']
/** What hangs on a sheet and goes when it is written anew; drawings and remarks stay. */
const hanging: readonly (readonly [end: string, kind: string])[] = [
  ['/table', 'tables'],
  ['/pivotTable', 'pivot tables'],
  ['/slicer', 'slicers'],
  ['/ctrlProp', 'form controls'],
]
/** Of texts that several sheets share nobody knows where they stand. */
const RICH = 'texts of several looks'

export interface ForGrid {
  /** Undefined where the reader of looks stumbles over the file. */
  workbook: ExcelJS.Workbook | undefined
  /** What of the whole workbook the grid does not keep, and what of each sheet. */
  notKept: NotKept
  ofSheets: ReadonlyMap<string, NotKept>
  book: Book
}

export async function openForGrid(bytes: Uint8Array, name: string): Promise<ForGrid> {
  const book = new Book(bytes, name)
  if (dayZero(book) !== DAY_ZERO)
    throw new WorkbookError(
      `${name}: it counts its days from 1904, which the page does not. Switch that off in the spreadsheet program (Excel: Options, Advanced, When calculating this workbook), or make the takeoff by the command.`,
    )
  const counts = new Map<string, number>()
  const count = (kind: string, more = 1) => counts.set(kind, (counts.get(kind) ?? 0) + more)
  const ofSheets = new Map<string, Map<string, number>>()
  for (const part of book.names()) {
    const kind = kinds.find(([, pattern]) => pattern.test(part))
    if (kind) count(kind[0])
  }
  let cells = 0
  const areas = printAreas(book)
  for (const [at, { name: sheet, part }] of book.sheets.entries()) {
    const own = new Map<string, number>()
    ofSheets.set(sheet, own)
    const countHere = (kind: string) => {
      own.set(kind, (own.get(kind) ?? 0) + 1)
      // What is a part of its own is counted for the workbook by its parts.
      if (!kinds.some(([ofParts]) => ofParts === kind)) count(kind)
    }
    cells += lookOver(book, sheet, part, countHere)
    if (areas.has(at) && !madeByUs(book, book.text(part))) countHere('print areas')
    for (const { type, target } of book.relations(part)) {
      const kind = hanging.find(([end]) => type.endsWith(end))?.[1]
      if (kind && !(kind === 'tables' && isOfOffice(book, target))) countHere(kind)
    }
  }
  if (cells > MOST_CELLS)
    throw new WorkbookError(`${name}: at most ${MOST_CELLS.toLocaleString('en-US')} cells are shown; it has ${cells.toLocaleString('en-US')}. Open it in a spreadsheet program.`)
  const texts = book.relations(book.mainPart).find(({ type }) => type.endsWith('/sharedStrings'))?.target
  if (texts && book.has(texts)) for (const tag of book.tags(texts)) if (tag.name === 'rPr' && !tag.isEnd) count(RICH)
  for (const tag of book.tags(book.mainPart)) if (!tag.isEnd && tag.name === 'definedName' && !/_xlnm/.test(book.text(book.mainPart).slice(tag.start, tag.end))) count('names')
  relativeTargets(book)
  lettersInQuotes(book)
  const workbook = new ExcelJS.Workbook()
  const clean = book.bytes()
  try {
    await workbook.xlsx.load(clean.buffer.slice(clean.byteOffset, clean.byteOffset + clean.byteLength) as ArrayBuffer)
    return { workbook, notKept: counts, ofSheets, book }
  } catch {
    // The reader of looks stumbles over some files; our own reads their cells all the same.
    return { workbook: undefined, notKept: counts, ofSheets, book }
  }
}

/** Sheets, by their place among all, of which somebody prints a part alone. */
function printAreas(book: Book): ReadonlySet<number> {
  const xml = book.text(book.mainPart)
  const found = new Set<number>()
  for (const tag of book.tags(book.mainPart))
    if (!tag.isEnd && tag.name === 'definedName' && attribute(xml, tag, 'name') === '_xlnm.Print_Area') found.add(Number(attribute(xml, tag, 'localSheetId')))
  return found
}

/** Counts the cells of a sheet and what the grid forgets; takes out rules that reach over whole sheets. */
function lookOver(book: Book, sheet: string, part: string, count: (kind: string) => void): number {
  const xml = book.text(part)
  const edits: Edit[] = []
  let [cells, lastRow, lastColumn] = [0, 1, 1]
  // Columns that are folded are folded on the page too.
  if (/<(?:\w+:)?row\b[^>]*\soutlineLevel="[1-9]/.test(xml)) count('outlines of rows')
  // Rules of our own sheets are written anew with them.
  const isOurs = madeByUs(book, xml)
  for (const tag of book.tags(part)) {
    if (tag.isEnd) continue
    if (tag.name === 'c') {
      cells++
      const at = readAddress(attribute(xml, tag, 'r') ?? '')
      if (at) [lastRow, lastColumn] = [Math.max(lastRow, at.row), Math.max(lastColumn, at.column)]
    }
    const kind = isOurs && oursToo.includes(tag.name) ? undefined : forgotten[tag.name]
    if (tag.name === 'rPr') count(RICH)
    const isList = tag.name === 'dataValidation' && attribute(xml, tag, 'type') === 'list'
    if (kind && !isList) count(kind)
    // The grid shows none, and the reader behind it holds each against all others: 60,000 of them took it minutes.
    if (tag.name === 'mergeCells') edits.push({ from: tag.start, to: inside(xml, tag).end, text: '' })
    if (tag.name === 'dataValidation') {
      const reach = (attribute(xml, tag, 'sqref') ?? '').split(/\s+/).reduce((sum, area) => sum + cellsIn(area), 0)
      if (reach > MOST_EXPANDED) {
        edits.push({ from: tag.start, to: inside(xml, tag).end, text: '' })
        if (isList && kind) count(kind)
      }
    }
  }
  if (lastRow * lastColumn > MOST_AREA)
    throw new WorkbookError(
      `${book.file}, ${sheet}: it reaches to ${columnLetters(lastColumn)}${lastRow}, further than the page shows (${MOST_AREA.toLocaleString('en-US')} places, empty ones too). Delete the cell that stands so far out, or open it in a spreadsheet program.`,
    )
  if (edits.length) book.put(part, edited(xml, edits))
  return cells
}

/** A table of the office's own data, which the page writes again. */
function isOfOffice(book: Book, part: string): boolean {
  if (!book.has(part)) return false
  const xml = book.text(part)
  for (const tag of book.tags(part)) if (tag.name === 'table') return tableNames.some((table) => table.toLowerCase() === (attribute(xml, tag, 'displayName') ?? '').toLowerCase())
  return false
}

/** The third line of our sheets says which version made them; another program may keep it among the texts of the workbook. */
function madeByUs(book: Book, xml: string): boolean {
  if (xml.slice(0, HEADING_WITHIN).includes(', Cistern Sheet ')) return true
  const index = /<(?:\w+:)?c r="B3"[^>]*t="s"[^>]*><(?:\w+:)?v>(\d+)</.exec(xml.slice(0, HEADING_WITHIN))?.[1]
  const texts = book.relations(book.mainPart).find(({ type }) => type.endsWith('/sharedStrings'))?.target
  if (index === undefined || !texts || !book.has(texts)) return false
  let at = -1
  for (const tag of book.tags(texts)) if (tag.name === 'si' && !tag.isEnd && ++at === Number(index)) return inside(book.text(texts), tag).text.includes(', Cistern Sheet ')
  return false
}

function cellsIn(area: string): number {
  const [from, to] = area.replace(/\$/g, '').split(':').map(readAddress)
  return from ? ((to ?? from).row - from.row + 1) * ((to ?? from).column - from.column + 1) : 0
}

/** The reader behind the grid drops the stroke before a letter of a code, and takes 0\h for hours: in quotes it is the same letter for every program. */
function lettersInQuotes(book: Book): void {
  const part = book.relations(book.mainPart).find(({ type }) => type.endsWith('/styles'))?.target
  if (!part || !book.has(part)) return
  const xml = book.text(part)
  const edits: Edit[] = []
  for (const tag of book.tags(part)) {
    const code = tag.name === 'numFmt' && !tag.isEnd ? attribute(xml, tag, 'formatCode') : undefined
    const quoted = code?.replace(/"[^"]*"|\\(.)/g, (whole, letter?: string) => (letter === undefined || letter === '"' ? whole : `"${letter}"`))
    if (quoted === undefined || quoted === code) continue
    const text = xml.slice(tag.start, tag.end).replace(/(\sformatCode\s*=\s*)(?:"[^"]*"|'[^']*')/, (_, start: string) => `${start}"${escapeXml(quoted)}"`)
    edits.push({ from: tag.start, to: tag.end, text })
  }
  if (edits.length) book.put(part, edited(xml, edits))
}

/** The reader behind the grid knows no path from the root of the package. */
function relativeTargets(book: Book): void {
  for (const part of book.names()) {
    if (!/\.rels$/i.test(part)) continue
    const from = part.replace(/_rels\/([^/]*)\.rels$/, '$1')
    const text = book.text(part)
    const next = text.replace(/(\sTarget\s*=\s*["'])\/([^"']+)/g, (_, start: string, target: string) => start + relativeTo(from, target))
    if (next !== text) book.put(part, next)
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
