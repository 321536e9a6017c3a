/** Reads back from a takeoff sheet the estimator's own quantities, prices and lines: by heading and code, wherever rows and columns have moved to. */
import type { Problem } from '../takeoff/fields.js'
import { itemKinds } from '../takeoff/officeTables.js'
import type { AddedLine, Kept, Override } from '../takeoff/typed.js'
import type { JobSheetNames } from './jobSheets.js'
import { amount, isEmptySheet, PASTED, text, type Cell, type Rows } from './keptCells.js'
import { partHeadings, sectionsBySums, sumLabels, takeoffColumns, takeoffHeading, type TakeoffColumn } from './sheets/takeoffSheet.js'

/** What each worked-out column of our lines begins with. */
const formulaOf: Readonly<Record<'waste' | 'lot' | 'order' | 'amount' | 'hours', string>> = { waste: 'INDEX(', lot: 'MAX(', order: 'ROUNDUP(', amount: 'ROUND(', hours: 'IF(' }
const allColumns = Object.keys(takeoffColumns) as TakeoffColumn[]
/** Columns that every takeoff has had; without them nothing is known of a row. */
const needed: readonly TakeoffColumn[] = ['code', 'description', 'net', 'yours', 'order', 'price', 'amount']
/** Units that a thing is counted in as a whole. */
const isWhole = (unit: string): boolean => ['', 'job', 'lump', 'lump sum', 'ls', 'each', 'ea', 'set', 'lot'].includes(unit.toLowerCase())
/** A price that came from the list is the same to the last digits. */
const SAME_PRICE = 1e-9

/** Where the headings of a takeoff stand, and which column is which; undefined where they are not all there. */
export function takeoffHeadings(rows: Rows): { row: number; columns: ReadonlyMap<TakeoffColumn, number> } | undefined {
  for (const [at, cells] of rows.entries()) {
    const columns = new Map<TakeoffColumn, number>()
    for (const column of allColumns) {
      const found = cells.findIndex((cell) => text(cell) === takeoffHeading(column))
      if (found >= 0) columns.set(column, found)
    }
    if (needed.every((column) => columns.has(column))) return { row: at, columns }
  }
  return undefined
}

export function fromTakeoff(rows: Rows, names: JobSheetNames): Pick<Kept, 'overrides' | 'added' | 'problems'> {
  const sheet = names.takeoff
  const overrides: Record<string, Override> = {}
  const added: AddedLine[] = []
  const problems: Problem[] = []
  const headings = takeoffHeadings(rows)
  if (!headings) {
    const missing = needed.find((column) => !rows.some((row) => row.some((cell) => text(cell) === takeoffHeading(column)))) ?? 'code'
    return {
      overrides,
      added,
      problems: isEmptySheet(rows) ? [] : [{ sheet, row: 0, column: takeoffHeading(missing), allowed: 'headings in one row, as the sheet was made', came: 'none of that name' }],
    }
  }
  /** Our own price of a line looks its code up, is a figure of the rule, or points to the job's own sheets. */
  const isOurPrice = (formula: string): boolean =>
    /^INDEX\(.+,MATCH\(\$?[A-Z]+\$?\d+,.+,0\)\)(?:\/[\d.]+)?$/.test(formula.replace(/\s/g, '')) ||
    /^[\d.]+$/.test(formula) ||
    [names.design, names.working, names.year].some((name) => formula.includes(name.replace(/'/g, "''")))
  const below = rows.slice(headings.row + 1)
  const word = (row: readonly Cell[], name: TakeoffColumn) => text(row[headings.columns.get(name) ?? -1])
  // A sum of a section has no code, and its words are ours: what has a quantity of its own is somebody's line.
  const sections = sectionsBySums(
    below
      .filter((row) => word(row, 'code') === '' && word(row, 'yours') === '' && row[headings.columns.get('amount')!]?.formula !== undefined)
      .map((row) => word(row, 'description')),
  )
  const [heads, labels] = [partHeadings(sections), sumLabels(sections)]
  for (const [at, row] of below.entries()) {
    const place = { sheet, row: headings.row + at + 2 }
    const cell = (name: TakeoffColumn): Cell | undefined => row[headings.columns.get(name) ?? -1]
    let isByHand = false
    const typed = (name: 'yours' | 'net' | 'order' | 'price' | 'amount') => amount(cell(name), sheet, place.row, takeoffHeading(name), problems, isByHand)
    for (const name of ['yours', 'price'] as const) {
      const own = cell(name)?.formula
      if (own !== undefined && text(cell(name)) === '' && !isOurPrice(own))
        problems.push({ ...place, column: takeoffHeading(name), allowed: 'a number; the formula was saved without its result', came: `=${own}` })
    }
    const isPlain = (name: TakeoffColumn) => cell(name)?.formula === undefined
    const isThere = (name: TakeoffColumn) => text(cell(name)) !== '' || !isPlain(name)
    const [code, description] = [text(cell('code')), text(cell('description'))]
    if (description === '' && heads.includes(code)) continue
    const asLine = (quantity: number | null): AddedLine => ({
      code,
      description,
      unit: text(cell('unit')),
      quantity,
      price: typed('price') ?? null,
      ...kindOf(text(cell('kind'))),
      why: text(cell('why')),
    })
    if (code === '' && labels.includes(description) && !isThere('yours') && text(cell('unit')) === '') {
      if (isPlain('amount') && text(cell('amount')) !== '') problems.push({ ...place, column: takeoffHeading('amount'), allowed: 'its formula', came: text(cell('amount')) })
    } else if (code !== '' && isThere('waste') && isThere('lot')) {
      const strange = (Object.keys(formulaOf) as (keyof typeof formulaOf)[]).filter(
        (name) => headings.columns.has(name) && !cell(name)?.formula?.trimStart().startsWith(formulaOf[name]),
      )
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
      const price = ownPrice()
      if ((isPlain('code') || quantity !== undefined) && isAgain(code, at)) added.push(asLine(quantity ?? Number(text(cell('net')))))
      else if (quantity !== undefined || price !== undefined)
        overrides[code] = { ...(quantity === undefined ? {} : { quantity }), ...(price === undefined ? {} : { price }), line: asLine(quantity ?? Number(text(cell('net')))) }
    } else {
      isByHand = true
      const quantity = typed('yours') ?? typed('net') ?? typed('order') ?? null
      if (text(cell('hours')) !== '' && (code !== '' || description !== ''))
        problems.push({
          ...place,
          column: takeoffHeading('hours'),
          allowed: 'nothing on a line by hand: hours are paid by a line of their own, or by a row of Items',
          came: text(cell('hours')),
        })
      const line = asLine(quantity)
      const product = cell('amount')?.formula
      const isOurProduct = product !== undefined && /^ROUND\(\$?[A-Z]+\$?\d+\*\$?[A-Z]+\$?\d+,2\)$/.test(product.replace(/\s/g, ''))
      if (product !== undefined && !isOurProduct && text(cell('amount')) === '')
        problems.push({ ...place, column: takeoffHeading('amount'), allowed: 'a number; the formula was saved without its result', came: `=${product}` })
      const lump = (quantity === null || line.price === null) && !isOurProduct ? typed('amount') : undefined
      if (lump) added.push({ ...line, quantity: 1, price: lump })
      // A price for the whole is one of it; of feet or hours somebody must say how many.
      else if (quantity === null && line.price !== null && isWhole(line.unit)) added.push({ ...line, quantity: 1 })
      else if (code !== '' || description !== '' || quantity !== null || line.price !== null) {
        if ((quantity === null) !== (line.price === null))
          problems.push({
            ...place,
            column: takeoffHeading(quantity === null ? 'yours' : 'price'),
            allowed: `a ${quantity === null ? 'quantity' : 'price'} for "${description || code}"; 0 where it costs nothing`,
            came: 'nothing',
          })
        added.push(line)
      }
    }

    /** What a line by hand buys; a kind that there is not is told. */
    function kindOf(words: string): Pick<AddedLine, 'kind'> {
      const kind = itemKinds.find((known) => known === words.toLowerCase())
      if (words !== '' && !kind) problems.push({ ...place, column: takeoffHeading('kind'), allowed: `one of ${itemKinds.join(', ')}`, came: `"${words}"` })
      return kind && kind !== 'other' ? { kind } : {}
    }

    /** A price that somebody typed: not the one that stood in the list when the takeoff was made. Takeoffs of earlier versions looked it up instead. */
    function ownPrice(): number | undefined {
      if (!isPlain('price') && isOurPrice(cell('price')!.formula!)) return undefined
      const price = typed('price')
      const listed = headings!.columns.has('listed') ? Number(text(cell('listed'))) : NaN
      return price !== undefined && Math.abs(price - listed) <= SAME_PRICE * Math.max(1, price) ? undefined : price
    }
  }
  return { overrides, added, problems }

  /** Whether an earlier row of the sheet has this code: the later one is a copy that somebody made. */
  function isAgain(code: string, at: number): boolean {
    return below.slice(0, at).some((row) => text(row[headings!.columns.get('code')!]) === code)
  }
}
