/** Reads back what people wrote on the sheets of a job: the estimator's quantities, prices, lines and figures, the crew's entries and readings. */
import { closingCaution } from '../takeoff/cautions.js'
import { problemAt, type Problem } from '../takeoff/fields.js'
import { badInput } from '../errors.js'
import { isAmount, nothingKept, type AddedLine, type CrewWritten, type Kept, type Override, type TypedInput } from '../takeoff/takeoff.js'
import { CREW_HEADING_ROW, crewColumns, entryColumnsOf, LOG_DONE } from './crewSheet.js'
import { AS_MADE, constantNames, DESIGN_HEADING_ROW, designColumns, typedNames } from './designSheet.js'
import type { jobSheetNames } from './jobSheets.js'
import { ADDED_SECTION, TAKEOFF_HEADING_ROW, takeoffColumns, takeoffHeading } from './takeoffSheet.js'

interface Cell {
  value: unknown
  formula?: string
}
type Rows = readonly (readonly Cell[])[]

const text = (cell: Cell | undefined): string => String(cell?.value ?? '').trim()
const plain = (cell: Cell | undefined): string => (cell?.formula === undefined ? text(cell) : '')

/** What stands on the sheets of a job, given as `read` finds them; what cannot be kept is a problem at its place. */
export function keptFrom(names: ReturnType<typeof jobSheetNames>, read: (sheet: string) => Rows | undefined): Kept {
  const [takeoff, design, crew] = [read(names.takeoff), read(names.design), read(names.crew)]
  const lines = takeoff ? fromTakeoff(takeoff, names.takeoff) : nothingKept
  const figures = design ? fromDesign(design, names.design) : nothingKept
  return {
    overrides: lines.overrides,
    added: lines.added,
    figures: figures.figures,
    inputs: figures.inputs,
    crew: crew ? fromCrew(crew) : nothingKept.crew,
    problems: [...lines.problems, ...figures.problems],
  }
}

/** A typed number; a formula counts as its result. Text that is no number is a problem, not an empty cell. */
function amount(cell: Cell | undefined, sheet: string, row: number, column: string, problems: Problem[]): number | undefined {
  const typed = text(cell)
  if (typed === '') return undefined
  const value = Number(typed)
  if (isAmount(value)) return value
  problems.push(problemAt(sheet, row, column, badInput(column, 'a number, 0 to 1,000,000,000', cell!.value)))
  return undefined
}

/** Our own price of a line looks its code up, or points to another sheet. */
const isOurPrice = (formula: string): boolean => /^INDEX\(.+,MATCH\(\$?[A-Z]+\$?\d+,.+,0\)\)$/.test(formula.replace(/\s/g, '')) || formula.includes('!')

function fromTakeoff(rows: Rows, sheet: string): Pick<Kept, 'overrides' | 'added' | 'problems'> {
  const overrides: Record<string, Override> = {}
  const added: AddedLine[] = []
  const problems: Problem[] = []
  let isAdded = false
  rows.slice(TAKEOFF_HEADING_ROW).forEach((row, at) => {
    const cell = (name: keyof typeof takeoffColumns) => row[takeoffColumns[name] - 1]
    const typed = (name: 'yours' | 'net' | 'order' | 'price') => amount(cell(name), sheet, TAKEOFF_HEADING_ROW + at + 1, takeoffHeading(name), problems)
    const isPlain = (name: keyof typeof takeoffColumns) => cell(name)?.formula === undefined
    const [code, description] = [text(cell('code')), text(cell('description'))]
    const isOurs = !isPlain('waste')
    if (code === ADDED_SECTION) isAdded = true
    else if (/, total$/.test(description) && !isPlain('amount')) isAdded = false
    else if (isOurs && code !== '') {
      if (isPlain('order'))
        problems.push({
          sheet,
          row: TAKEOFF_HEADING_ROW + at + 1,
          column: takeoffHeading('order'),
          allowed: `its formula; an own quantity goes into ${takeoffHeading('yours')}`,
          came: text(cell('order')),
        })
      const quantity = typed('yours') ?? (isPlain('net') ? typed('net') : undefined)
      const price = isPlain('price') || !isOurPrice(cell('price')!.formula!) ? typed('price') : undefined
      if (quantity !== undefined || price !== undefined) overrides[code] = { ...(quantity === undefined ? {} : { quantity }), ...(price === undefined ? {} : { price }) }
    } else if (isAdded || (description !== '' && isPlain('amount')) || (description !== '' && text(cell('unit')) !== '')) {
      const quantity = typed('yours') ?? typed('net') ?? typed('order') ?? null
      if (code !== '' || description !== '' || quantity !== null)
        added.push({ code, description, unit: text(cell('unit')), quantity, price: typed('price') ?? null, why: text(cell('why')) })
    }
  })
  return { overrides, added, problems }
}

/** Figures of the Design sheet that were typed over since it was made. */
function fromDesign(rows: Rows, sheet: string): Pick<Kept, 'figures' | 'inputs' | 'problems'> {
  const figures: Record<string, number> = {}
  const inputs: TypedInput[] = []
  const problems: Problem[] = []
  if (text(rows[DESIGN_HEADING_ROW - 1]?.[designColumns.asMade - 1]) !== AS_MADE) return { figures, inputs, problems }
  rows.slice(DESIGN_HEADING_ROW).forEach((row, at) => {
    const [name, value, asMade] = [designColumns.name, designColumns.value, designColumns.asMade].map((column) => text(row[column - 1])) as [string, string, string]
    const place = { sheet, row: DESIGN_HEADING_ROW + at + 1 }
    if (value === asMade) return
    if (typedNames.includes(name)) inputs.push({ ...place, name, value, asMade })
    else if (constantNames.includes(name)) {
      const figure = amount(row[designColumns.value - 1], sheet, place.row, 'Value', problems)
      if (figure !== undefined) figures[name] = figure
    }
  })
  return { figures, inputs, problems }
}

/** Entries beside our own steps and tanks; any other line is the crew's own. */
function fromCrew(rows: Rows): CrewWritten {
  const cells: Record<string, Record<number, string | number>> = {}
  const added: { text: string; done: string }[] = []
  for (const row of rows.slice(CREW_HEADING_ROW)) {
    const code = text(row[crewColumns.code - 1])
    const [words, done] = [plain(row[crewColumns.text - 1]), plain(row[crewColumns.done - 1])]
    const columns = entryColumnsOf(code)
    if (columns) {
      for (const column of columns) {
        const { value } = row[column - 1] ?? {}
        if ((typeof value === 'string' && value.trim() !== '') || typeof value === 'number') (cells[code] ??= {})[column] = value
      }
    } else if ((words !== '' || done !== '') && words !== closingCaution && done !== LOG_DONE) added.push({ text: [code, words].filter(Boolean).join(' '), done })
  }
  return { cells, added }
}
