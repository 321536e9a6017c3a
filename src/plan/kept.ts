/** Reads back what people wrote on the sheets of a job: the estimator's quantities, prices, lines and figures, the crew's entries and readings. */
import { closingCaution } from '../takeoff/cautions.js'
import { problemAt, type Problem } from '../takeoff/fields.js'
import { badInput } from '../errors.js'
import { isAmount, nothingKept, type AddedLine, type Kept, type Override, type TypedInput } from '../takeoff/takeoff.js'
import { CREW_DONE, CREW_HEADING_ROW, crewColumns, entryColumnsOf, entryWords, isCrewHeading, isOurWord } from './crewSheet.js'
import { AS_MADE, constantNames, DESIGN_HEADING_ROW, designColumns, typedNames, workedNames } from './designSheet.js'
import type { jobSheetNames } from './jobSheets.js'
import { sumLabels, TAKEOFF_HEADING_ROW, takeoffColumns, takeoffHeading, takeoffSections } from './takeoffSheet.js'

interface Cell {
  value: unknown
  formula?: string
}
type Rows = readonly (readonly Cell[])[]

const text = (cell: Cell | undefined): string => String(cell?.value ?? '').trim()
const plain = (cell: Cell | undefined): string => (cell?.formula === undefined ? text(cell) : '')

/** What stands on the sheets of a job, given as `read` finds them; what cannot be kept is a problem at its place. */
type JobSheetNames = ReturnType<typeof jobSheetNames>

export function keptFrom(names: JobSheetNames, read: (sheet: string) => Rows | undefined): Kept {
  const [takeoff, design, crew] = [read(names.takeoff), read(names.design), read(names.crew)]
  const lines = takeoff ? fromTakeoff(takeoff, names) : nothingKept
  const written = crew ? fromCrew(crew, names.crew) : nothingKept
  const figures = design ? fromDesign(design, names.design) : nothingKept
  return {
    overrides: lines.overrides,
    added: lines.added,
    figures: figures.figures,
    inputs: figures.inputs,
    crew: written.crew,
    problems: [...lines.problems, ...figures.problems, ...written.problems],
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

const HEADING_MOVED = 'headings as the sheet was made'
/** Beyond this many cells without their formula a sheet holds pasted values, and one problem says so for all. */
const PASTED = 3

/** What each worked-out column of our lines begins with. */
const formulaOf: Readonly<Record<'waste' | 'lot' | 'order' | 'amount' | 'hours', string>> = { waste: 'INDEX(', lot: 'MAX(', order: 'ROUNDUP(', amount: 'ROUND(', hours: 'IF(' }

function fromTakeoff(rows: Rows, names: JobSheetNames): Pick<Kept, 'overrides' | 'added' | 'problems'> {
  const sheet = names.takeoff
  const overrides: Record<string, Override> = {}
  const added: AddedLine[] = []
  const problems: Problem[] = []
  const moved = movedHeading(rows, sheet, TAKEOFF_HEADING_ROW, takeoffColumns.code, takeoffHeading('code'))
  if (moved) return { overrides, added, problems: [moved] }
  /** Our own price of a line looks its code up, is a figure of the rule, or points to the job's own sheets. */
  const isOurPrice = (formula: string): boolean =>
    /^INDEX\(.+,MATCH\(\$?[A-Z]+\$?\d+,.+,0\)\)$/.test(formula.replace(/\s/g, '')) ||
    /^[\d.]+$/.test(formula) ||
    [names.design, names.working, names.year].some((name) => formula.includes(name.replace(/'/g, "''")))
  for (const [at, row] of rows.slice(TAKEOFF_HEADING_ROW).entries()) {
    const place = { sheet, row: TAKEOFF_HEADING_ROW + at + 1 }
    const cell = (name: keyof typeof takeoffColumns) => row[takeoffColumns[name] - 1]
    const typed = (name: 'yours' | 'net' | 'order' | 'price' | 'amount') => amount(cell(name), sheet, place.row, takeoffHeading(name), problems)
    const isPlain = (name: keyof typeof takeoffColumns) => cell(name)?.formula === undefined
    const isThere = (name: keyof typeof takeoffColumns) => text(cell(name)) !== '' || !isPlain(name)
    const [code, description] = [text(cell('code')), text(cell('description'))]
    if (description === '' && takeoffSections.includes(code)) continue
    const asLine = (quantity: number | null): AddedLine => ({ code, description, unit: text(cell('unit')), quantity, price: typed('price') ?? null, why: text(cell('why')) })
    if (code === '' && sumLabels.includes(description)) {
      if (isPlain('amount') && text(cell('amount')) !== '') problems.push({ ...place, column: takeoffHeading('amount'), allowed: 'its formula', came: text(cell('amount')) })
    } else if (code !== '' && isThere('waste') && isThere('lot')) {
      const strange = (Object.keys(formulaOf) as (keyof typeof formulaOf)[]).filter((name) => !cell(name)?.formula?.trimStart().startsWith(formulaOf[name]))
      if (strange.length >= PASTED)
        return { overrides, added, problems: [{ ...place, column: takeoffHeading(strange[0]!), allowed: 'formulas, as the takeoff was made', came: 'values' }] }
      for (const name of strange)
        problems.push({
          ...place,
          column: takeoffHeading(name),
          allowed: `its formula; own figures go into ${takeoffHeading('yours')} and ${takeoffHeading('price')}`,
          came: text(cell(name)),
        })
      const quantity = typed('yours') ?? (isPlain('net') ? typed('net') : undefined)
      const price = isPlain('price') || !isOurPrice(cell('price')!.formula!) ? typed('price') : undefined
      if (code in overrides || (quantity !== undefined && isAgain(rows, at, code))) added.push(asLine(quantity ?? Number(text(cell('net')))))
      else if (quantity !== undefined || price !== undefined)
        overrides[code] = { ...(quantity === undefined ? {} : { quantity }), ...(price === undefined ? {} : { price }), line: asLine(quantity ?? Number(text(cell('net')))) }
    } else {
      const quantity = typed('yours') ?? typed('net') ?? typed('order') ?? null
      const line = asLine(quantity)
      const lump = quantity === null || line.price === null ? (typed('amount') ?? 0) : 0
      if (code !== '' || description !== '' || quantity !== null || line.price !== null || lump > 0) added.push(lump > 0 ? { ...line, quantity: 1, price: lump } : line)
    }
  }
  return { overrides, added, problems }
}

/** Whether an earlier row of the sheet has this code: the later one is a copy that somebody made. */
const isAgain = (rows: Rows, at: number, code: string): boolean =>
  rows.slice(TAKEOFF_HEADING_ROW, TAKEOFF_HEADING_ROW + at).some((row) => text(row[takeoffColumns.code - 1]) === code)

/** A sheet whose heading is not where it was made cannot be read back: rows or columns were put in before it. */
function movedHeading(rows: Rows, sheet: string, row: number, column: number, heading: string): Problem | undefined {
  const came = text(rows[row - 1]?.[column - 1])
  return came === heading ? undefined : { sheet, row, column: heading, allowed: HEADING_MOVED, came: came ? `"${came}"` : 'nothing' }
}

/** Figures of the Design sheet that were typed over since it was made. */
function fromDesign(rows: Rows, sheet: string): Pick<Kept, 'figures' | 'inputs' | 'problems'> {
  const figures: Record<string, number> = {}
  const inputs: TypedInput[] = []
  const problems: Problem[] = []
  const moved = movedHeading(rows, sheet, DESIGN_HEADING_ROW, designColumns.asMade, AS_MADE)
  if (moved) return { figures, inputs, problems: [moved] }
  for (const [at, row] of rows.slice(DESIGN_HEADING_ROW).entries()) {
    const [name, value, asMade] = [designColumns.name, designColumns.value, designColumns.asMade].map((column) => text(row[column - 1])) as [string, string, string]
    const place = { sheet, row: DESIGN_HEADING_ROW + at + 1 }
    const cell = row[designColumns.value - 1]
    if (typedNames.includes(name)) {
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

/** Entries beside our own steps and tanks. All else that was written is kept in words, as a line of the crew's own. */
function fromCrew(rows: Rows, sheet: string): Pick<Kept, 'crew' | 'problems'> {
  const cells: Record<string, Record<number, string | number>> = {}
  const added: { text: string; done: string }[] = []
  const moved = movedHeading(rows, sheet, CREW_HEADING_ROW, crewColumns.done, CREW_DONE)
  if (moved) return { crew: { cells, added }, problems: [moved] }
  for (const row of rows.slice(CREW_HEADING_ROW)) {
    const code = text(row[crewColumns.code - 1])
    const done = plain(row[crewColumns.done - 1])
    const own = entryColumnsOf(code)
    const typed = row.map((cell, at) => [at + 1, plain(cell)] as const).filter(([column, words]) => column > crewColumns.code && words !== '')
    const inWords = (list: typeof typed) => list.map(([column, words]) => entryWords(code, column, words)).join('; ')
    if (own && !(code in cells)) {
      const entries = typed.filter(([column]) => own.includes(column))
      if (entries.length)
        cells[code] = Object.fromEntries(entries.map(([column, words]) => [column, typeof row[column - 1]!.value === 'number' ? (row[column - 1]!.value as number) : words]))
      const over = typed.filter(([column, words]) => !own.includes(column) && !isOurWord(code, column, words))
      if (over.length) added.push({ text: `${code}, written over: ${inWords(over)}`, done: '' })
    } else if (own) {
      const again = typed.filter(([column, words]) => column !== crewColumns.done && !isOurWord(code, column, words))
      if (again.length || done) added.push({ text: `${code} again: ${inWords(again)}`, done })
    } else if (!isCrewHeading(code) && typed.some(([, words]) => words !== closingCaution)) {
      const words = typed.filter(([column]) => column !== crewColumns.done).map(([, written]) => written)
      added.push({ text: [code, ...words].filter(Boolean).join(' '), done })
    }
  }
  return { crew: { cells, added }, problems: [] }
}
