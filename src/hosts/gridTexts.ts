/**
 * The grid knows no text format and takes "1-1/4" for a date. In the text columns of the office's tables what is typed,
 * pasted or picked from a list stays the text it is; in their number columns 3/4 is 0.75, and what is no number stays the text it is.
 */
import { registries, UIPlugin } from '@odoo/o-spreadsheet'
import { crewColumns } from '../plan/sheets/crewSheet.js'
import { jobSheetNames } from '../plan/jobSheets.js'
import { isTextual } from '../plan/officeSheets.js'
import { HEADINGS_WITHIN } from '../takeoff/headings.js'
import { fieldsOf, tableNames, type TableName } from '../takeoff/officeTables.js'
import { TAKEOFF_HEADING_ROW, takeoffColumns } from '../plan/sheets/takeoffColumns.js'
import { sheetKinds } from '../plan/sheets/index.js'
import { readAs, unitOf, type UnitName } from '../units.js'
import { gridContent, gridFormula } from './gridData.js'

/** Columns of a job's own sheets in which people write words wherever they like: a date in a remark stays as it was written. */
const writtenColumns: Readonly<Record<string, readonly number[]>> = {
  [jobSheetNames('').takeoff]: (['code', 'description', 'unit', 'why'] as const).map((name) => takeoffColumns[name]),
  [jobSheetNames('').crew]: [crewColumns.text],
}
/** Sheets of a job with entries, by the beginning of their names: which of the words above an entry are their headings, and which head entries. */
const entrySheets = sheetKinds.flatMap(({ kind, lists }) =>
  lists
    ? [
        {
          start: jobSheetNames('')[kind],
          headings: new Set(lists.flatMap(({ headings }) => Object.values(headings))),
          ofEntries: new Set(lists.flatMap(({ headings, entries }) => entries.flatMap((key) => headings[key] ?? []))),
        },
      ]
    : [],
)

/** Figures parted by a stroke, a dash or a space, which the grid would take for a day. */
const DATE_LIKE = /^\s*[-+]?\d[\d.,]*\s*[-/\s]\s*\d/

const BEGINS_AS_FIGURE = /^\s*[-+]?\d/
const FIGURE = /^\s*[-+]?\d[\d.,]*\s*%?\s*$/

interface Update {
  type: string
  sheetId: string
  col: number
  row: number
  content?: string
}

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
    if (kind === 'text') command.content = gridContent(command.content)
    else if (kind && DATE_LIKE.test(command.content)) {
      const reading = readAs(command.content, kind.unit)
      command.content = reading.ok ? String(reading.value) : gridContent(command.content)
    }
  }

  /** Whether words belong there, or a number and its unit; undefined where the grid may read what it likes. */
  private kindOf({ sheetId, col, row, content = '' }: Update): 'text' | { unit: UnitName | undefined } | undefined {
    const getters = this.getters as unknown as { getSheetName(id: string): string; getEvaluatedCell(position: object): { value: unknown } }
    const name = getters.getSheetName(sheetId)
    const own = Object.entries(writtenColumns).find(([start]) => name.startsWith(start))
    if (own && row >= TAKEOFF_HEADING_ROW && own[1].includes(col + 1)) return 'text'
    const entries = entrySheets.find(({ start }) => name.startsWith(start))
    // A figure is a figure there; what looks like a day or an hour is what somebody wrote.
    if (entries && BEGINS_AS_FIGURE.test(content) && !FIGURE.test(content)) {
      for (let above = row - 1; above >= 0; above--) {
        const word = String(getters.getEvaluatedCell({ sheetId, col, row: above }).value ?? '')
        if (entries.headings.has(word)) return entries.ofEntries.has(word) ? 'text' : undefined
      }
    }
    if (own ?? entries) return undefined
    if (!tableNames.includes(name as TableName)) return undefined
    const fields = fieldsOf(name as TableName)
    for (let above = 0; above < Math.min(row, HEADINGS_WITHIN); above++) {
      const heading = String(getters.getEvaluatedCell({ sheetId, col, row: above }).value ?? '').trim()
      const field = Object.hasOwn(fields, heading) ? fields[heading]! : undefined
      if (!field) continue
      if (field.kind === 'date') return undefined
      return isTextual(field) ? 'text' : { unit: unitOf(heading) }
    }
    return undefined
  }
}

let registered = false

/** Must be called before a model is made. */
export function registerTexts(): void {
  if (registered) return
  registered = true
  registries.featurePluginRegistry.add('cistern_texts', TextsPlugin as never)
}
