/** Reads back from a takeoff sheet the estimator's own quantities, prices and lines. */
import type { Problem } from '../takeoff/fields.js'
import type { AddedLine, Kept, Override } from '../takeoff/takeoff.js'
import type { JobSheetNames } from './jobSheets.js'
import { amount, movedHeading, PASTED, text, type Rows } from './keptCells.js'
import { sumLabels, TAKEOFF_HEADING_ROW, takeoffColumns, takeoffHeading, takeoffSections } from './sheets/takeoffSheet.js'

/** What each worked-out column of our lines begins with. */
const formulaOf: Readonly<Record<'waste' | 'lot' | 'order' | 'amount' | 'hours', string>> = { waste: 'INDEX(', lot: 'MAX(', order: 'ROUNDUP(', amount: 'ROUND(', hours: 'IF(' }

export function fromTakeoff(rows: Rows, names: JobSheetNames): Pick<Kept, 'overrides' | 'added' | 'problems'> {
  const sheet = names.takeoff
  const overrides: Record<string, Override> = {}
  const added: AddedLine[] = []
  const problems: Problem[] = []
  const moved = movedHeading(rows, sheet, TAKEOFF_HEADING_ROW, takeoffColumns.code, takeoffHeading('code'))
  if (moved) return { overrides, added, problems: [moved] }
  /** Our own price of a line looks its code up, is a figure of the rule, or points to the job's own sheets. */
  const isOurPrice = (formula: string): boolean =>
    /^INDEX\(.+,MATCH\(\$?[A-Z]+\$?\d+,.+,0\)\)(?:\/[\d.]+)?$/.test(formula.replace(/\s/g, '')) ||
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
      if ((isPlain('code') || quantity !== undefined) && isAgain(rows, at, code)) added.push(asLine(quantity ?? Number(text(cell('net')))))
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
