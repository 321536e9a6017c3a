/** Formulas of an office's own sheets that point to cells of ours: they follow the line or name they meant when rows move. */
import { columnLetters, quotedSheet, type SheetPlan } from '../plan/plan.js'
import type { Workbook } from './file.js'
import { readAddress, type BookRows } from './xlsx/cells.js'
import { edited, escapeXml, inside, unescapeXml, type Edit } from './xlsx/xml.js'

/** Columns whose words tell a row of a sheet of ours from the others: code and description, name. */
const KEY_COLUMNS = [2, 3] as const

/** The words by which each row is known, the first row of a word counting. */
function keysOf(value: (row: number, column: number) => unknown, rows: Iterable<number>): { byRow: Map<number, string>; byKey: Map<string, number> } {
  const byRow = new Map<number, string>()
  const byKey = new Map<string, number>()
  for (const row of rows) {
    const key = KEY_COLUMNS.map((column) => String(value(row, column) ?? '')).join('\n')
    if (key.trim() === '' || byKey.has(key)) continue
    byRow.set(row, key)
    byKey.set(key, row)
  }
  return { byRow, byKey }
}

/** Follows every reference into sheets that are about to be rewritten; answers, in words, those that could not be followed. */
export function repoint(workbook: Workbook, plans: readonly SheetPlan[]): string[] {
  const { book, cells } = workbook
  const moves = plans.flatMap((plan) => {
    const standing = book.sheetNamed(plan.name)
    if (!standing) return []
    const old: BookRows = cells.rows(standing)
    const planned = new Map(plan.cells.map((cell) => [`${cell.row} ${cell.column}`, cell.value]))
    return [
      {
        plan,
        before: keysOf(
          (row, column) => old.get(row)?.get(column)?.value,
          [...old.keys()].sort((one, other) => one - other),
        ).byRow,
        after: keysOf(
          (row, column) => planned.get(`${row} ${column}`),
          [...new Set(plan.cells.map(({ row }) => row))].sort((one, other) => one - other),
        ).byKey,
      },
    ]
  })
  const lost: string[] = []
  const rewritten = new Set(plans.map(({ name }) => name.toLowerCase()))
  for (const sheet of book.sheets) {
    if (rewritten.has(sheet.name.toLowerCase())) continue
    const xml = book.text(sheet.part)
    if (!moves.some(({ plan }) => xml.includes(escapeXml(plan.name)) || xml.includes(plan.name))) continue
    const edits: Edit[] = []
    let at = ''
    for (const tag of book.tags(sheet.part)) {
      if (tag.name === 'c' && !tag.isEnd) at = /\sr="([A-Z]+\d+)"/.exec(xml.slice(tag.start, tag.end))?.[1] ?? ''
      if (tag.name !== 'f' || tag.isEnd || tag.isEmpty) continue
      const { text } = inside(xml, tag)
      const formula = unescapeXml(text)
      const followed = moves.reduce((words, move) => follow(words, move, `${sheet.name}!${at}`, lost), formula)
      if (followed !== formula) edits.push({ from: tag.end, to: tag.end + text.length, text: escapeXml(followed) })
    }
    if (edits.length) book.put(sheet.part, edited(xml, edits))
  }
  return lost
}

interface Move {
  plan: SheetPlan
  before: ReadonlyMap<number, string>
  after: ReadonlyMap<string, number>
}

function follow(formula: string, { plan, before, after }: Move, place: string, lost: string[]): string {
  const names = [`'${plan.name.replace(/'/g, "''")}'`, quotedSheet(plan.name)]
  const name = [...new Set(names)].map((one) => one.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|')
  return formula.replace(
    new RegExp(`(${name})!(\\$?)([A-Z]{1,3})(\\$?)(\\d+)(:\\$?[A-Z]{1,3}\\$?\\d+)?`, 'g'),
    (whole: string, sheet: string, fixedColumn: string, letters: string, fixedRow: string, digits: string, to?: string) => {
      const row = Number(digits)
      const key = before.get(row)
      const next = key === undefined ? undefined : after.get(key)
      if (to !== undefined || next === undefined) {
        // A range, or a row that no line of the new sheet answers to.
        if (to !== undefined || key !== undefined)
          lost.push(`${place} points to ${plan.name}!${letters}${digits}${to ?? ''}${key ? ` (${key.replace('\n', ' ').trim()})` : ''}: look whether it still means what it did`)
        return whole
      }
      const column = readAddress(`${letters}1`)!.column
      return `${sheet}!${fixedColumn}${columnLetters(column)}${fixedRow}${next}`
    },
  )
}
