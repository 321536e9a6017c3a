/** Formulas of an office's own sheets that point to cells of ours: they follow the line or name they meant when rows move. */
import { takeoffHeadings } from '../plan/keptTakeoff.js'
import { columnLetters, type SheetPlan } from '../plan/plan.js'
import { takeoffColumns } from '../plan/sheets/takeoffSheet.js'
import { readSheet, type Workbook } from './file.js'
import type { BookRows } from './xlsx/cells.js'
import { attribute, edited, escapeXml, inside, unescapeXml, type Edit, type Tag } from './xlsx/xml.js'

/** Columns whose words tell a row of a sheet of ours from the others: code and description, name; a table's first column. */
const keyColumns = ({ kind }: SheetPlan): readonly number[] => (kind === 'office' ? [2] : [2, 3])
/** Tags that hold a formula: of a cell, a name, a format, a list of allowed values, a chart, a column of a table. */
const FORMULAS = new Set(['f', 'formula', 'formula1', 'formula2', 'definedName', 'calculatedColumnFormula'])

const wordOf = (value: unknown): string => (value instanceof Date ? value.toISOString().slice(0, 10) : String(value ?? ''))

/** The words by which each row is known, the first row of a word counting. */
function keysOf(value: (row: number, column: number) => unknown, rows: Iterable<number>, columns: readonly number[]): { byRow: Map<number, string>; byKey: Map<string, number> } {
  const byRow = new Map<number, string>()
  const byKey = new Map<string, number>()
  for (const row of rows) {
    const key = columns.map((column) => wordOf(value(row, column))).join('\n')
    if (key.trim() === '' || byKey.has(key)) continue
    byRow.set(row, key)
    byKey.set(key, row)
  }
  return { byRow, byKey }
}

/** Follows every reference into sheets that are about to be rewritten; answers, in words, those that could not be followed. */
export function repoint(workbook: Workbook, plans: readonly SheetPlan[]): string[] {
  const { book, cells } = workbook
  const moves = plans.flatMap((plan): Move[] => {
    const standing = book.sheetNamed(plan.name)
    if (!standing) return []
    const old: BookRows = cells.rows(standing)
    const planned = new Map(plan.cells.map((cell) => [`${cell.row} ${cell.column}`, cell.value]))
    const columns = keyColumns(plan)
    const headings = plan.kind === 'takeoff' ? takeoffHeadings(readSheet(workbook, plan.name)!) : undefined
    const oldColumns = headings ? [headings.columns.get('code')! + 1, headings.columns.get('description')! + 1] : columns
    const inOrder = (rows: Iterable<number>) => [...new Set(rows)].sort((one, other) => one - other)
    return [
      {
        plan,
        before: keysOf((row, column) => old.get(row)?.get(column)?.value, inOrder(old.keys()), oldColumns).byRow,
        after: keysOf((row, column) => planned.get(`${row} ${column}`), inOrder(plan.cells.map(({ row }) => row)), columns).byKey,
        column: new Map([...(headings?.columns ?? [])].map(([name, at]) => [columnLetters(at + 1), columnLetters(takeoffColumns[name])])),
      },
    ]
  })
  if (!moves.length) return []
  const rewritten = new Set(plans.flatMap(({ name }) => book.sheetNamed(name)?.part ?? []))
  const names = new Map(book.sheets.map(({ name, part }) => [part, name]))
  const lost: string[] = []
  // Names of ours are written with their sheets, as print areas and titles are.
  const ours = new Set(plans.flatMap(({ definedNames = [] }) => definedNames.map(({ name }) => name)))
  for (const part of book.names()) {
    if (!/\.xml$/i.test(part) || !(names.has(part) || part === book.mainPart || /\/(?:charts|tables|pivotCache)\/[^/]+$/i.test(part)) || rewritten.has(part)) continue
    const xml = book.text(part)
    const small = xml.toLowerCase()
    if (!moves.some(({ plan }) => small.includes(escapeXml(plan.name).toLowerCase()) || small.includes(plan.name.toLowerCase()))) continue
    const edits: Edit[] = []
    const where = names.get(part)
    let at = ''
    for (const tag of book.tags(part)) {
      if (tag.isEnd) continue
      if (tag.name === 'c' && where !== undefined) at = `${where}!${/\sr="([A-Z]+\d+)"/.exec(xml.slice(tag.start, tag.end))?.[1] ?? ''}`
      const place = tag.name === 'definedName' ? `the name ${attribute(xml, tag, 'name')}` : tag.name === 'f' && where !== undefined ? at : (where ?? part)
      if (tag.name === 'hyperlink') link(xml, tag, place, moves, edits, lost)
      const word = attribute(xml, tag, 'name') ?? ''
      if (!FORMULAS.has(tag.name) || tag.isEmpty || /^_xlnm\./.test(word) || (tag.name === 'definedName' && ours.has(word))) continue
      const { text } = inside(xml, tag)
      const formula = unescapeXml(text)
      const isShared = attribute(xml, tag, 't') === 'shared'
      const followed = moves.reduce((words, move) => follow(words, move, place, lost), formula)
      if (followed === formula) continue
      // The cells that share a formula stand for other rows: moving the first would move all by as much.
      if (isShared) lost.push(`${place} shares its formula with other cells (=${formula.slice(0, 60)}): look whether they still mean what they did`)
      else edits.push({ from: tag.end, to: tag.end + text.length, text: escapeXml(followed) })
    }
    if (edits.length) book.put(part, edited(xml, edits))
  }
  return lost
}

interface Move {
  plan: SheetPlan
  before: ReadonlyMap<number, string>
  after: ReadonlyMap<string, number>
  /** Letters of columns that stand elsewhere now. */
  column: ReadonlyMap<string, string>
}

/** A link to a place in the workbook. */
function link(xml: string, tag: Tag, place: string, moves: readonly Move[], edits: Edit[], lost: string[]): void {
  const location = attribute(xml, tag, 'location')
  if (location === undefined) return
  const followed = moves.reduce((words, move) => follow(words, move, place, lost), location)
  if (followed === location) return
  const text = xml.slice(tag.start, tag.end)
  edits.push({ from: tag.start, to: tag.end, text: text.replace(/(\slocation\s*=\s*)(?:"[^"]*"|'[^']*')/, (_, start: string) => `${start}"${escapeXml(followed)}"`) })
}

function follow(formula: string, { plan, before, after, column: columns }: Move, place: string, lost: string[]): string {
  const quoted = plan.name.replace(/'/g, "''")
  const name = [`'${quoted}'`, ...(/^[A-Za-z_]\w*$/.test(plan.name) ? [plan.name] : [])].map((one) => one.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|')
  const moved = (row: number) => {
    const key = before.get(row)
    return key === undefined ? undefined : after.get(key)
  }
  const across = (letters: string) => letters.replace(/[A-Z]+/i, (bare) => columns.get(bare.toUpperCase()) ?? bare)
  return formula.replace(
    new RegExp(`(?<![\\w'])(${name})!(\\$?[A-Z]{1,3}\\$?)(\\d+)(?::(\\$?[A-Z]{1,3}\\$?)(\\d+))?`, 'gi'),
    (whole: string, sheet: string, column: string, digits: string, toColumn?: string, toDigits?: string) => {
      const [from, to] = [Number(digits), Number(toDigits ?? digits)]
      const next = moved(from)
      // A range follows where each of its rows moved by as much as the first.
      const isWhole =
        next !== undefined && Array.from({ length: Math.max(0, to - from) + 1 }, (_, step) => from + step).every((row) => !before.has(row) || moved(row) === next + row - from)
      if (next !== undefined && isWhole) return `${sheet}!${across(column)}${next}${toColumn === undefined ? '' : `:${across(toColumn)}${next + to - from}`}`
      if (toDigits !== undefined || before.has(from))
        lost.push(`${place} points to ${whole}${before.has(from) ? ` (${before.get(from)!.replace('\n', ' ').trim()})` : ''}: look whether it still means what it did`)
      return whole
    },
  )
}
