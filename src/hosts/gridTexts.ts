/**
 * The grid knows no text format and takes "1-1/4" for a date. In the text columns of the office's tables what is typed,
 * pasted or picked from a list stays the text it is; in their number columns and in those of a takeoff 3/4 is 0.75 and 25% is 0.25, and
 * what is no number of the column's unit stays the text that was typed: it is refused in words, and never becomes a day or other money.
 */
import { registries, UIPlugin } from '@odoo/o-spreadsheet'
import { crewColumns } from '../plan/sheets/crewDraft.js'
import { jobSheetNames } from '../plan/jobSheets.js'
import { OFFICE_HEADING_ROW } from '../plan/places.js'
import { isTextual } from '../plan/officeSheets.js'
import { HEADINGS_WITHIN } from '../takeoff/headings.js'
import type { Field } from '../takeoff/fields.js'
import { fieldsOf, jobFields, tableNames, type TableName } from '../takeoff/officeTables.js'
import { constantNames, designColumns } from '../plan/sheets/designColumns.js'
import { TAKEOFF_HEADING_ROW, takeoffColumns } from '../plan/sheets/takeoffColumns.js'
import { LOG_ENTRIES } from '../takeoff/vacuumLog.js'
import { sheetKinds } from '../plan/sheets/index.js'
import { readAs, unitOf, type UnitName } from '../units.js'
import { gridContent, gridFormula, isOfTime } from './gridData.js'

/** Columns of a job's own sheets in which people write words wherever they like: a date in a remark stays as it was written. */
const writtenColumns: Readonly<Record<string, readonly number[]>> = {
  [jobSheetNames('').takeoff]: (['code', 'description', 'unit', 'why'] as const).map((name) => takeoffColumns[name]),
  [jobSheetNames('').crew]: [crewColumns.text],
}
/** Columns of a takeoff in which people write numbers, with their unit; of a quantity the line says it. */
const numberColumns: ReadonlyMap<number, Kind> = new Map([
  [takeoffColumns.yours, { unit: undefined }],
  [takeoffColumns.price, { unit: 'usd' }],
])
/** Sheets of a job with entries, by the beginning of their names: which of the words above an entry are their headings, and which head entries. */
const entrySheets = sheetKinds.flatMap(({ kind, lists }) =>
  lists
    ? [
        {
          start: jobSheetNames('')[kind],
          headings: new Set(lists.flatMap(({ headings }) => Object.values(headings))),
          ofEntries: new Set(lists.flatMap(({ headings, entries }) => entries.flatMap((key) => headings[key] ?? []))),
          ofReadings: new Set(lists.flatMap(({ headings }) => ['reading', ...LOG_ENTRIES].flatMap((key) => headings[key] ?? []))),
        },
      ]
    : [],
)

/** What the grid would take for a day, an hour, a share or money: figures parted by a stroke, a dash, a space or a colon, or with a sign of their own. */
const MISREAD = /^\s*[-+]?\d[\d.,]*\s*[-/:\s]\s*\d|[%$€£¥]|\d\s*[ap]m?\s*$/i
/** A day as people write it, or its number, as the grid moves and copies one. */
const DAY = /^\s*(?:\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}|\d+(?:\.\d+)?)\s*$/

const BEGINS_AS_FIGURE = /^\s*[-+$€£¥]?\s*\d/
const FIGURE = /^\s*[-+]?\d[\d.,]*\s*$/
/** Behind what is refused: neither the grid nor a spreadsheet counts with it as with a number. It shows nowhere. */
export const WORD_JOINER = '\u2060'

interface Update {
  type: string
  sheetId: string
  col: number
  row: number
  content?: string
  /** What the grid makes of what was typed: it would stay with the cell for good. */
  format?: string | undefined
}
type Kind = 'text' | 'day' | { unit: UnitName | undefined }
/** A number that is no share, whatever it measures. */
const A_NUMBER: Kind = { unit: 'in' }

class TextsPlugin extends UIPlugin {
  override beforeHandle(given: unknown): void {
    const command = given as Update
    if (command.type !== 'UPDATE_CELL' || !command.content) return
    if (command.content.startsWith('=')) {
      // A quote within quotes is doubled in every spreadsheet; the grid has a stroke for it.
      if (/""/.test(command.content) && !command.content.includes('\\')) command.content = gridFormula(command.content)
      return
    }
    const kind = this.kindOf(command)
    if (kind === undefined || (kind === 'day' && DAY.test(command.content))) return
    command.content = contentFor(kind, command.content)
    if (isOfTime(command.format ?? this.formatOf(command))) command.format = ''
  }

  private formatOf({ sheetId, col, row }: Update): string {
    return (this.getters as unknown as { getCell(position: object): { format?: string } | undefined }).getCell({ sheetId, col, row })?.format ?? ''
  }

  /** Whether words belong there, a day, or a number and its unit; undefined where the grid may read what it likes. */
  private kindOf({ sheetId, col, row, content = '' }: Update): Kind | undefined {
    const getters = this.getters as unknown as { getSheetName(id: string): string; getEvaluatedCell(position: object): { value: unknown } }
    const name = getters.getSheetName(sheetId)
    const own = Object.entries(writtenColumns).find(([start]) => name.startsWith(start))
    if (own && row >= TAKEOFF_HEADING_ROW && own[1].includes(col + 1)) return 'text'
    if (name.startsWith(jobSheetNames('').takeoff) && row >= TAKEOFF_HEADING_ROW && numberColumns.has(col + 1)) return numberColumns.get(col + 1)
    if (name.startsWith(jobSheetNames('').design) && col + 1 === designColumns.value) {
      return this.fieldKind(String(getters.getEvaluatedCell({ sheetId, col: designColumns.name - 1, row }).value ?? ''), jobFields)
    }
    const entries = entrySheets.find(({ start }) => name.startsWith(start))
    // A figure is a figure there; what looks like a day or an hour is what somebody wrote.
    if (entries && BEGINS_AS_FIGURE.test(content) && !FIGURE.test(content)) {
      for (let above = row - 1; above >= 0; above--) {
        const word = String(getters.getEvaluatedCell({ sheetId, col, row: above }).value ?? '')
        if (entries.ofReadings.has(word)) return A_NUMBER
        if (entries.headings.has(word)) return entries.ofEntries.has(word) ? 'text' : undefined
      }
    }
    if (own ?? entries) return undefined
    if (!tableNames.includes(name as TableName)) return undefined
    const fields = fieldsOf(name as TableName)
    // A station's rain stands under its name.
    const isRain = name === 'RainDays'
    for (let above = 0; above < Math.min(row, HEADINGS_WITHIN); above++) {
      const heading = String(getters.getEvaluatedCell({ sheetId, col, row: above }).value ?? '').trim()
      const kind = heading === '' ? undefined : this.fieldKind(heading, fields)
      if (kind) return kind
      if (above !== OFFICE_HEADING_ROW - 1 || heading === '') continue
      // A column of somebody's own may hold days.
      return isRain ? A_NUMBER : DAY.test(content) ? undefined : { unit: undefined }
    }
    return undefined
  }

  /** What belongs under a heading, or beside a name: a field of the table, or a name of somebody's own with a unit. */
  private fieldKind(name: string, fields: Readonly<Record<string, Field>>): Kind | undefined {
    const field = Object.hasOwn(fields, name) ? fields[name]! : undefined
    if (field) return field.kind === 'date' ? 'day' : isTextual(field) ? 'text' : { unit: unitOf(name) }
    const unit = unitOf(name)
    return unit || constantNames.includes(name) ? { unit } : undefined
  }
}

/** What is written into the cell: a number where one was meant, else the text that was typed. */
function contentFor(kind: Kind, typed: string): string {
  if (typeof kind === 'string') return gridContent(typed)
  if (!MISREAD.test(typed)) return typed
  const isMoney = kind.unit === 'usd' || kind.unit === 'usd_per_h'
  const reading = readAs(isMoney ? typed.replace('$', '') : typed, kind.unit)
  return reading.ok ? String(reading.value) : gridContent(`${typed}${WORD_JOINER}`)
}

let registered = false

/** Must be called before a model is made. */
export function registerTexts(): void {
  if (registered) return
  registered = true
  registries.featurePluginRegistry.add('cistern_texts', TextsPlugin as never)
}
