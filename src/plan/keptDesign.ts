/** Reads back from a design sheet what was typed over its figures. */
import type { Problem } from '../takeoff/fields.js'
import { isOwnField } from '../takeoff/ownFields.js'
import { namesGone } from '../takeoff/older/namesGone.js'
import type { Kept, TypedInput } from '../takeoff/typed.js'
import { verdictRules } from '../takeoff/verdicts.js'
import { AS_MADE, constantNames, inputNames, VALUE, workedNames } from './sheets/designColumns.js'
import { CHANGED_SINCE } from './sheetKind.js'
import { amount, isEmptySheet, PASTED, text, type Rows } from './keptCells.js'

/** Names whose cells hold a formula of ours. */
const ofFormulas: readonly string[] = [...workedNames, ...verdictRules.map(({ name }) => name), CHANGED_SINCE]

/** Where the headings stand, wherever rows and columns have moved to. */
export function designHeadings(rows: Rows): { row: number; name: number; value: number; asMade: number } | undefined {
  for (const [row, cells] of rows.entries()) {
    const [name, value, asMade] = [(words: string) => words.startsWith('Name'), (words: string) => words === VALUE, (words: string) => words === AS_MADE].map((isIt) =>
      cells.findIndex((cell) => isIt(text(cell))),
    ) as [number, number, number]
    if (name >= 0 && value >= 0 && asMade >= 0) return { row, name, value, asMade }
  }
  return undefined
}

/** Figures of the Design sheet that were typed over since it was made. */
export function fromDesign(rows: Rows, sheet: string): Pick<Kept, 'figures' | 'inputs' | 'problems'> {
  const figures: Record<string, number> = {}
  const inputs: TypedInput[] = []
  const problems: Problem[] = []
  /** Cells of ours that hold a value in place of their formula. */
  let valuesOnly = 0
  const headings = designHeadings(rows)
  if (!headings) {
    return {
      figures,
      inputs,
      problems: isEmptySheet(rows) ? [] : [{ sheet, row: 0, column: AS_MADE, allowed: 'headings in one row, as the sheet was made', came: 'none of that name' }],
    }
  }
  for (const [at, row] of rows.slice(headings.row + 1).entries()) {
    const [name, value, asMade] = [headings.name, headings.value, headings.asMade].map((column) => text(row[column])) as [string, string, string]
    const place = { sheet, row: headings.row + at + 2 }
    const cell = row[headings.value]
    const isInput = inputNames.includes(name) || (isOwnField(name) && !namesGone.includes(name))
    if (isInput) {
      if (value !== asMade) inputs.push({ ...place, name, value, asMade })
    } else if (constantNames.includes(name)) {
      if (value === asMade) continue
      const figure = amount(cell, sheet, place.row, name, problems)
      if (figure !== undefined) figures[name] = figure
      else if (value === '') problems.push({ ...place, column: name, allowed: `a number, such as ${asMade}`, came: 'nothing' })
    } else if (ofFormulas.includes(name) && cell?.formula === undefined) {
      problems.push({ ...place, column: name, allowed: 'its formula; filled cells are the inputs', came: value || 'nothing' })
      valuesOnly++
    }
  }
  if (problems.length > PASTED && valuesOnly === problems.length)
    problems.splice(1, problems.length, { ...problems[0]!, column: 'Value', allowed: 'formulas, as the sheet was made', came: 'values' })
  return { figures, inputs, problems }
}
