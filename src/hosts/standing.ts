/** What stands in a workbook that is about to be rewritten: what is ours, what is somebody's own, and what would be lost. */
import { columnLetters, type SheetPlan } from '../plan/plan.js'
import { takeoffHeadings } from '../plan/keptTakeoff.js'
import { TAKEOFF_HEADING_ROW, takeoffColumns, type TakeoffColumn } from '../plan/sheets/takeoffSheet.js'
import { tableNames } from '../takeoff/officeTables.js'
import { readSheet, Workbook, WorkbookError } from './file.js'
import type { SheetContent } from './host.js'
import { shortHash } from '../shortHash.js'
import type { Book, BookSheet } from './xlsx/book.js'
import { picturesIn } from './xlsx/drawingPart.js'
import { DRAWN } from './xlsx/writeSheet.js'

/** The heading lines of a sheet stand within so many letters of its part. */
const HEADING_WITHIN = 6000

/** Empty, or with the heading lines of our sheets. */
export const isOurs = (content: SheetContent, mayBeEmpty: boolean): boolean =>
  /, Cistern Sheet /.test(String(content[2]?.[1]?.value)) || (mayBeEmpty && content.every((row) => row.every(({ value }) => value === null)))

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

const isTable = (name: string): boolean => tableNames.some((table) => table.toLowerCase() === name.toLowerCase())

/** A sheet of a job, or the published tables, as we wrote it: known without reading its cells, for there may be thousands. */
const isOfJob = (book: Book, { name, part }: BookSheet): boolean => !isTable(name) && book.text(part).slice(0, HEADING_WITHIN).includes(', Cistern Sheet ')

/** A number for each sheet that is not one of a job: its cells, and how many drawings and remarks it has. */
export function sheetStates(workbook: Workbook): Record<string, string> {
  const states: Record<string, string> = {}
  for (const sheet of workbook.book.sheets) {
    if (isOfJob(workbook.book, sheet)) continue
    const content = readSheet(workbook, sheet.name)!
    if (!isTable(sheet.name) && isOurs(content, false)) continue
    const drawn = workbook.book.relations(sheet.part).filter(({ type }) => DRAWN.test(type)).length
    states[sheet.name] = shortHash(cellTexts(content, drawn))
  }
  return states
}
function* cellTexts(content: SheetContent, drawn: number): Generator<string> {
  yield `${drawn}`
  for (const [row, cells] of content.entries())
    for (const [column, { value, formula }] of cells.entries())
      if (formula !== undefined) yield `${row} ${column}=${formula.replace(/\s/g, '')}\n`
      // The third line of our sheets says when they were made and by which version.
      else if (value !== null && value !== '' && !/, Cistern Sheet /.test(String(value))) yield `${row} ${column} ${String(value)}\n`
}

/** Cells that a person filled where a sheet of ours has none: they would be gone when it is made again. */
export function wordsLost(workbook: Workbook, plans: readonly SheetPlan[]): string[] {
  const lost: string[] = []
  for (const plan of plans) {
    // What the crew writes beside its sheets is read back with them.
    if (plan.kind === 'crew' || plan.kind === 'test') continue
    const standing = readSheet(workbook, plan.name)
    if (!standing || !isOurs(standing, false)) continue
    const content = plan.kind === 'takeoff' ? aligned(standing) : standing
    const columns = new Set(plan.cells.map(({ column }) => column))
    const words = plan.kind === 'takeoff' ? wordsOver(plan, content) : []
    lost.push(...words)
    const headings = new Set(plan.cells.filter(({ row }) => row <= plan.frozenRows).map(({ row, column }) => `${row} ${column}`))
    for (const [row, cells] of content.entries())
      for (const [at, { value, formula }] of cells.entries()) {
        if ((value === null || value === '') && formula === undefined) continue
        const isFree = !columns.has(at + 1) || (row < plan.frozenRows && !headings.has(`${row + 1} ${at + 1}`))
        if (isFree) lost.push(`${plan.name}!${columnLetters(at + 1)}${row + 1} (${formula === undefined ? `"${String(value).slice(0, 40)}"` : `=${formula.slice(0, 40)}`})`)
      }
  }
  return lost
}

/** A takeoff whose columns stand in another order, or rows lower, as if they stood where they are written now; columns of somebody's own come behind. */
function aligned(content: SheetContent): SheetContent {
  const headings = takeoffHeadings(content)
  if (!headings) return content
  const down = headings.row - (TAKEOFF_HEADING_ROW - 1)
  const known = new Map([...headings.columns].map(([name, at]) => [at, takeoffColumns[name as TakeoffColumn] - 1]))
  const ours = new Set(known.values())
  const across = headings.columns.get('code')! - (takeoffColumns.code - 1)
  return content.slice(Math.max(0, down)).map((row, at) => {
    const cells = row.map((cell, from) => ({ cell, to: at < TAKEOFF_HEADING_ROW - 1 ? from - across : (known.get(from) ?? (ours.has(from) ? BEHIND + from : from)) }))
    const moved = Array.from({ length: Math.max(0, ...cells.map(({ to }) => to)) + 1 }, (): SheetContent[number][number] => ({ value: null }))
    for (const { cell, to } of cells) if (to >= 0 && (cell.value !== null || cell.formula !== undefined)) moved[to] = cell
    return moved
  })
}
/** Where one of ours stands now, a column of somebody's own is told behind them all. */
const BEHIND = 30

/** Words typed over a description or a reason that a formula of ours writes: they would be written anew. */
function wordsOver(plan: SheetPlan, content: SheetContent): string[] {
  const cellOf = (row: number, column: number) => plan.cells.find((cell) => cell.row === row && cell.column === column)
  const rowOfCode = new Map(plan.cells.flatMap(({ row, column, value }) => (column === takeoffColumns.code && value ? [[String(value), row] as const] : [])))
  return [...content.entries()].flatMap(([at, cells]) => {
    const row = rowOfCode.get(String(cells[takeoffColumns.code - 1]?.value ?? ''))
    if (row === undefined) return []
    return (['description', 'why'] as const).flatMap((name) => {
      const column = takeoffColumns[name]
      const { value, formula } = cells[column - 1] ?? { value: null }
      const ours = cellOf(row, column)
      if (ours?.formula === undefined || formula !== undefined || value === null || value === '' || value === ours.value) return []
      return [`${plan.name}!${columnLetters(column)}${at + 1} ("${String(value).slice(0, 40)}")`]
    })
  })
}

/** Whether somebody else drew or remarked something there. */
const isDrawnOn = (book: Book, { part }: BookSheet): boolean =>
  book.relations(part).some(({ type, target }) => DRAWN.test(type) && (!type.endsWith('/drawing') || !book.has(target) || picturesIn(book.text(target)).hasOthers))

/** Drawings and remarks on sheets that are made again stay at their place on the sheet, whatever stands there now. */
export function drawnNotes(book: Book, plans: readonly SheetPlan[]): string[] {
  return plans.flatMap(({ name }) => {
    const sheet = book.sheetNamed(name)
    return sheet && isDrawnOn(book, sheet) ? [`${name}: the drawings and remarks on it stay where they stood; its rows may have moved`] : []
  })
}
