/** Reads back from a design sheet what was typed over its figures. */
import type { Problem } from '../takeoff/fields.js'
import type { Kept, TypedInput } from '../takeoff/takeoff.js'
import { AS_MADE, constantNames, DESIGN_HEADING_ROW, designColumns, inputNames, workedNames } from './sheets/designSheet.js'
import { amount, movedHeading, PASTED, text, type Rows } from './keptCells.js'

/** Figures of the Design sheet that were typed over since it was made. */
export function fromDesign(rows: Rows, sheet: string): Pick<Kept, 'figures' | 'inputs' | 'problems'> {
  const figures: Record<string, number> = {}
  const inputs: TypedInput[] = []
  const problems: Problem[] = []
  const moved = movedHeading(rows, sheet, DESIGN_HEADING_ROW, designColumns.asMade, AS_MADE)
  if (moved) return { figures, inputs, problems: [moved] }
  for (const [at, row] of rows.slice(DESIGN_HEADING_ROW).entries()) {
    const [name, value, asMade] = [designColumns.name, designColumns.value, designColumns.asMade].map((column) => text(row[column - 1])) as [string, string, string]
    const place = { sheet, row: DESIGN_HEADING_ROW + at + 1 }
    const cell = row[designColumns.value - 1]
    if (inputNames.includes(name)) {
      if (value !== asMade) inputs.push({ ...place, name, value, asMade })
    } else if (constantNames.includes(name)) {
      if (value === asMade) continue
      const figure = amount(cell, sheet, place.row, name, problems)
      if (figure !== undefined) figures[name] = figure
      else if (value === '') problems.push({ ...place, column: name, allowed: `a number, such as ${asMade}`, came: 'nothing' })
    } else if (workedNames.includes(name) && cell?.formula === undefined)
      problems.push({ ...place, column: name, allowed: 'its formula; filled cells are the inputs', came: value || 'nothing' })
  }
  if (problems.length > PASTED && problems.every(({ allowed }) => allowed.startsWith('its formula')))
    problems.splice(1, problems.length, { ...problems[0]!, column: 'Value', allowed: 'formulas, as the sheet was made', came: 'values' })
  return { figures, inputs, problems }
}
