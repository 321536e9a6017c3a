/** What stands in a workbook that is about to be rewritten: what is ours, what is somebody's own, and what would be lost. */
import { columnLetters, isMadeLine, type PlanCell, type SheetPlan } from '../plan/plan.js'
import { pointsInto } from '../plan/definedNames.js'
import { placesInWords } from '../takeoff/fields.js'
import { tableNames } from '../takeoff/officeTables.js'
import { plainCell, readSheet, Workbook, WorkbookError } from './file.js'
import type { SheetCell, SheetContent } from './host.js'
import { isOurs, typingLostOf } from './lostTyping.js'
import { shortHash } from '../shortHash.js'
import type { Book, BookSheet } from './xlsx/book.js'
import type { BookRows } from './xlsx/cells.js'
import { picturesIn } from './xlsx/drawingPart.js'
import { DRAWN } from './xlsx/writeSheet.js'
import { attribute, inside, tags } from './xlsx/xml.js'

/** The heading lines of a sheet stand within so many letters of its part. */
const HEADING_WITHIN = 20_000

/** Refuses to write a plan over a sheet that was not made by this tool, or into a workbook that takes no sheet. */
export function refuseTaken(workbook: Workbook, plans: readonly SheetPlan[]): void {
  const { book, file } = workbook
  const adds = plans.some(({ name }) => !book.sheetNamed(name))
  if (book.isLocked && adds)
    throw new WorkbookError(`${file}: its structure is protected: no sheet can be added. Remove the protection (Review, Protect Workbook), then try again. Nothing was written.`)
  for (const { name, kind } of plans) {
    const standing = readSheet(workbook, name)
    if (standing && !isOurs(standing, kind === 'office'))
      throw new WorkbookError(`${file}: the sheet ${name} stands there and was not made by this tool: rename it, then try again. Nothing was written.`)
  }
}

/** The first two lines of a sheet of a job say which job, and which sheet. */
const isHeadedAlike = (content: SheetContent, { cells }: SheetPlan): boolean =>
  [1, 2].every((row) => content[row - 1]?.[1]?.value === cells.find((cell) => cell.row === row)?.value)

/**
 * Refuses to make a sheet anew beside the same one under another name, where something was typed there: it would be left behind.
 * `named` are the names that sheets of jobs have, in small letters; `isTyped` looks into one as if it stood under its own.
 */
export function refuseRenamed(workbook: Workbook, plans: readonly SheetPlan[], named: ReadonlySet<string>, isTyped: (plan: SheetPlan, content: SheetContent) => boolean): void {
  const { book, file } = workbook
  const strangers = book.sheets.filter((sheet) => !named.has(sheet.name.toLowerCase()) && isOfJob(workbook, sheet))
  for (const plan of strangers.length ? plans : []) {
    if (book.sheetNamed(plan.name)) continue
    const twin = strangers.find(({ name }) => {
      const content = readSheet(workbook, name)!
      return isHeadedAlike(content, plan) && isTyped(plan, content)
    })
    if (twin)
      throw new WorkbookError(
        `${file}: the sheet ${twin.name} is what ${plan.name} was: give it that name again, so that what was typed there is read, or add --replace to go on without it. Nothing was written.`,
      )
  }
}

const isTable = (name: string): boolean => tableNames.some((table) => table.toLowerCase() === name.toLowerCase())

/** A sheet of a job, or the published tables, as we wrote it: known without reading its cells, for there may be thousands. */
export function isOfJob({ book, cells }: Workbook, { name, part }: BookSheet): boolean {
  if (isTable(name)) return false
  const start = book.start(part, HEADING_WITHIN)
  // Other programs keep the third line among the texts of the workbook; rows and columns may have been put before it.
  const shared = start.matchAll(/<(?:\w+:)?c r="[A-T](?:1?\d|20)"[^>]*\st="s"[^>]*><(?:\w+:)?v>(\d+)</g)
  return isMadeLine(start) || [...shared].some(([, number]) => isMadeLine(cells.sharedText(Number(number))))
}

/** A number for each sheet that is not one of a job: its cells, and how many drawings and remarks it has. `written` are sheets whose number is known, `ofJobs` sheets of jobs that are. */
export function sheetStates(workbook: Workbook, written: ReadonlyMap<string, string> = new Map(), ofJobs: ReadonlySet<string> = new Set()): Record<string, string> {
  const states: Record<string, string> = {}
  for (const sheet of workbook.book.sheets) {
    const known = written.get(sheet.name)
    if (known !== undefined) states[sheet.name] = known
    if (known !== undefined || ofJobs.has(sheet.name)) continue
    if (isOfJob(workbook, sheet)) continue
    const rows = workbook.cells.rows(sheet)
    if (!isTable(sheet.name) && isMadeLine(rows.get(3)?.get(2)?.value)) continue
    const drawn = workbook.book.relations(sheet.part).filter(({ type }) => DRAWN.test(type)).length
    states[sheet.name] = shortHash(cellTexts(filledIn(rows), drawn))
  }
  return states
}
/** The number that a sheet of plain cells will have when it is read again. */
export function stateOfPlan({ cells, drawings = [] }: SheetPlan): string {
  const isAfter = (one: PlanCell, other: PlanCell) => one.row - other.row || one.column - other.column
  // A record of days is laid out in order already.
  const inOrder = cells.every((cell, at) => at === 0 || isAfter(cell, cells[at - 1]!) > 0) ? cells : [...cells].sort(isAfter)
  return shortHash(
    cellTexts(
      inOrder.map(({ row, column, value }) => ({ row: row - 1, column: column - 1, value })),
      drawings.length ? 1 : 0,
    ),
  )
}
interface Filled extends SheetCell {
  row: number
  column: number
}
/** The cells of a sheet that hold something, row by row, places from 0: a log of somebody's may be longer than any sheet of a job. */
function* filledIn(rows: BookRows): Generator<Filled> {
  for (const row of [...rows.keys()].sort((one, other) => one - other)) {
    const cells = rows.get(row)!
    for (const column of [...cells.keys()].sort((one, other) => one - other)) yield { row: row - 1, column: column - 1, ...plainCell(cells.get(column)!) }
  }
}
function* cellTexts(cells: Iterable<Filled>, drawn: number): Generator<string> {
  yield `${drawn}`
  for (const { row, column, value, formula } of cells)
    if (formula !== undefined) yield `${row} ${column}=${formula.replace(/\s/g, '')}\n`
    // The third line of our sheets says when they were made and by which version.
    else if (value !== null && value !== '' && !isMadeLine(value)) yield `${row} ${column} ${String(value)}\n`
}

/** Cells that a person filled where a sheet of ours has none, or over words of a formula of ours: they would be gone when it is made again. */
export const typingLost = (workbook: Workbook, plans: readonly SheetPlan[]): string[] => [
  ...typingLostOf(plans, (sheet) => readSheet(workbook, sheet)),
  ...plans.flatMap((plan) => tablesOn(workbook.book, plan)),
]
/** Tables that somebody made of lines of a job: formulas that name them would find nothing. */
export const tablesOn = (book: Book, { name, kind }: SheetPlan): string[] =>
  (kind === 'office' ? [] : book.relations(book.sheetNamed(name)?.part ?? '')).flatMap(({ type, target }) => {
    if (!type.endsWith('/table') || !book.has(target)) return []
    return [`${name}!${/\sref="([^"]*)"/.exec(book.text(target))?.[1] ?? ''} (the table ${/\sdisplayName="([^"]*)"/.exec(book.text(target))?.[1] ?? ''})`]
  })
/** Whether somebody else drew or remarked something there. */
const isDrawnOn = (book: Book, { part }: BookSheet): boolean =>
  book.relations(part).some(({ type, target }) => DRAWN.test(type) && (!type.endsWith('/drawing') || !book.has(target) || picturesIn(book.text(target)).hasOthers))

/** What somebody laid over cells of ours: a part of the sheet behind its cells, what one of them is called, and which places it tells. */
const LAID_OVER: Readonly<Record<string, string>> = {
  autoFilter: 'the filter',
  mergeCell: 'the merged cells',
  hyperlink: 'the link',
  conditionalFormatting: 'the conditional format',
  oddHeader: 'the header of its pages',
}
/** Filters, links, merged cells, formats with conditions, page headers and hidden columns on sheets that are made again: we make none, so they are somebody's, and go with the cells they lay on. `goesToo` is what a file at whose place another one is written has besides. */
export function laidOverNotes(book: Book, plans: readonly SheetPlan[], goesToo: Readonly<Record<string, string>> = {}): string[] {
  const wordsOf = { ...LAID_OVER, ...goesToo }
  return plans.flatMap((plan) => {
    const { name, kind } = plan
    const sheet = kind === 'office' ? undefined : book.sheetNamed(name)
    if (!sheet) return []
    const xml = book.text(sheet.part)
    const start = xml.slice(0, xml.lastIndexOf('<', xml.indexOf('sheetData')))
    const laid = hiddenColumnsIn(start, plan).map((column) => `the hidden column ${column}`)
    if (/<(?:\w+:)?tabColor\b/.test(start)) laid.push('the color of its tab')
    for (const tag of tags(xml, Math.max(0, xml.lastIndexOf('sheetData')))) {
      const words = Object.hasOwn(wordsOf, tag.name) && !tag.isEnd ? wordsOf[tag.name] : undefined
      // Another program writes a header that says nothing.
      if (tag.name === 'oddHeader' && !tag.isEnd && inside(xml, tag).text.trim() === '') continue
      if (words !== undefined) laid.push(`${words} ${attribute(xml, tag, 'ref') ?? attribute(xml, tag, 'sqref') ?? ''}`.trim())
    }
    return laid.length ? [`${name}: made anew without ${placesInWords(laid)}`] : []
  })
}
/** Letters of the columns that somebody hid, which the sheet itself does not hide or fold. */
function hiddenColumnsIn(start: string, { hiddenColumn, hiddenColumns = [], folded, widths }: SheetPlan): string[] {
  const found: string[] = []
  for (const tag of tags(start)) {
    if (tag.name !== 'col' || tag.isEnd || !/^(?:1|true)$/.test(attribute(start, tag, 'hidden') ?? '')) continue
    const [from, to] = [Number(attribute(start, tag, 'min')), Number(attribute(start, tag, 'max'))]
    for (let column = from; column <= Math.min(to, widths.length); column++)
      if (column !== hiddenColumn && !hiddenColumns.includes(column) && !(folded && column >= folded.first && column <= folded.last)) found.push(columnLetters(column))
  }
  return found
}

/** Tags that we write on no sheet of an office: somebody made them. */
const OWN_LOOKS: Readonly<Record<string, string>> = { cfRule: 'conditional formats', hyperlink: 'links', sheetProtection: 'protection', tabColor: 'the color of its tab' }
/** What a workbook has beside the cells of its sheets, and the one that would take its place has not: names, hidden sheets, looks with conditions. */
export function looksLost(standing: Workbook, next: Book): string[] {
  const { book } = standing
  const found: string[] = []
  const ofJobs = book.sheets.filter((sheet) => isOfJob(standing, sheet))
  const gone = [...book.definedNames].filter(([name, place]) => !next.definedNames.has(name) && !ofJobs.some((sheet) => pointsInto(place, sheet.name))).map(([name]) => name)
  if (gone.length) found.push(`the ${gone.length === 1 ? 'name' : 'names'} ${gone.join(', ')} would be lost`)
  for (const sheet of book.sheets) {
    const other = next.sheetNamed(sheet.name)
    if (!other || ofJobs.includes(sheet)) continue
    const count = (of: Book, part: string) => {
      const counts = new Map<string, number>()
      for (const tag of of.tags(part)) if (!tag.isEnd && Object.hasOwn(OWN_LOOKS, tag.name)) counts.set(tag.name, (counts.get(tag.name) ?? 0) + 1)
      return counts
    }
    const [has, keeps] = [count(book, sheet.part), count(next, other.part)]
    const lost = [...has].filter(([tag, some]) => some > (keeps.get(tag) ?? 0)).map(([tag]) => OWN_LOOKS[tag]!)
    if (sheet.isHidden && !other.isHidden) lost.push('that it is hidden')
    if (lost.length) found.push(`of ${sheet.name} would be lost: ${lost.join(', ')}`)
  }
  return found
}
/** Drawings and remarks on sheets that are made again stay at their place on the sheet, whatever stands there now. */
export function drawnNotes(book: Book, plans: readonly SheetPlan[]): string[] {
  return plans.flatMap(({ name }) => {
    const sheet = book.sheetNamed(name)
    return sheet && isDrawnOn(book, sheet) ? [`${name}: the drawings and remarks on it stay where they stood; its rows may have moved`] : []
  })
}
