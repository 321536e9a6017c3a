/** Reads back from a takeoff sheet the estimator's own quantities, prices and lines: by heading and code, wherever rows and columns have moved to. */
import { isErrorText, type Problem } from '../takeoff/fields.js'
import { itemKinds } from '../takeoff/officeTables.js'
import { isLineFormula, isWholeUnit, lineFigures, type LineFigure } from '../takeoff/lineFigures.js'
import { ADDED_SECTION, ADDED_SUM, partHeadings, sectionsBySums, sumLabels } from '../takeoff/sumWords.js'
import type { AddedLine, Kept, Override } from '../takeoff/typed.js'
import type { JobSheetNames } from './jobSheets.js'
import { columnLetters } from './plan.js'
import { amount, isEmptySheet, isUnworked, PASTED, text, type Cell, type Rows } from './keptCells.js'
import { takeoffColumns, takeoffHeading, workedColumns, type TakeoffColumn } from './sheets/takeoffColumns.js'

/** What each worked-out column of our lines begins with. */
const formulaOf: Readonly<Record<Exclude<(typeof workedColumns)[number], 'net'>, string>> = {
  waste: 'INDEX(',
  lot: 'MAX(',
  order: start('order'),
  amount: start('amount'),
  hours: start('hours'),
}
function start(figure: LineFigure): string {
  return lineFigures[figure].slice(0, lineFigures[figure].indexOf('(') + 1)
}
const worked = Object.keys(formulaOf) as (keyof typeof formulaOf)[]
const allColumns = Object.keys(takeoffColumns) as TakeoffColumn[]
/** Columns that every takeoff has had; without them nothing is known of a row. */
const needed: readonly TakeoffColumn[] = ['code', 'description', 'net', 'yours', 'waste', 'lot', 'order', 'price', 'amount']
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
  const headings = takeoffHeadings(rows)
  if (!headings) {
    const missing = needed.find((column) => !rows.some((row) => row.some((cell) => text(cell) === takeoffHeading(column)))) ?? 'code'
    return {
      overrides: {},
      added: [],
      problems: isEmptySheet(rows)
        ? []
        : [{ sheet: names.takeoff, row: 0, column: takeoffHeading(missing), allowed: 'headings in one row, as the sheet was made', came: 'none of that name' }],
    }
  }
  const read = new TakeoffRows(rows, headings, names)
  return read.all()
}

/** Cells that are read back or refused by name, as "row column" from 1: nothing in them goes without a word. */
export function settledOnTakeoff(rows: Rows, names: StandingNames): ReadonlySet<string> {
  const headings = takeoffHeadings(rows)
  if (!headings) return new Set()
  const read = new TakeoffRows(rows, headings, names)
  read.all()
  return read.settled
}

/** The sheets of a job that stand: some are not made in every flavour. */
export type StandingNames = Partial<JobSheetNames> & Pick<JobSheetNames, 'takeoff'>
type Headings = NonNullable<ReturnType<typeof takeoffHeadings>>
/** A row below the headings, its cells by the name of their column. */
interface TakeoffRow {
  at: number
  cell: (name: TakeoffColumn) => Cell | undefined
  code: string
  description: string
}

/** The rows of one takeoff, each read as what it is: a heading, a sum, a line of ours, a line by hand. */
class TakeoffRows {
  private readonly overrides: Record<string, Override> = {}
  private readonly added: AddedLine[] = []
  private readonly problems: Problem[] = []
  private readonly rows: readonly TakeoffRow[]
  readonly settled = new Set<string>()

  constructor(
    rows: Rows,
    private readonly headings: Headings,
    private readonly names: StandingNames,
  ) {
    this.rows = rows.slice(headings.row + 1).map((row, at) => {
      const cell = (name: TakeoffColumn) => row[headings.columns.get(name) ?? -1]
      return { at, cell, code: text(cell('code')), description: text(cell('description')) }
    })
  }

  all(): Pick<Kept, 'overrides' | 'added' | 'problems'> {
    // A sum of a section has no code, and its words are ours.
    const sections = sectionsBySums(this.rows.filter((row) => isSum(row)).map(({ description }) => description))
    const [heads, labels] = [partHeadings(sections), sumLabels(sections)]
    let isAmongAdded = false
    for (const row of this.rows) {
      if (row.description === '' && heads.includes(row.code)) {
        isAmongAdded = row.code === ADDED_SECTION
        continue
      }
      if (row.description === ADDED_SUM) isAmongAdded = false
      // Between that heading and its sum a line is one, whatever its name.
      if (!isAmongAdded && labels.includes(row.description) && (isSum(row) || !isTyped(row))) this.readSum(row)
      else if (row.code !== '' && isThere(row, 'waste') && isThere(row, 'lot')) {
        const pasted = this.readOurLine(row)
        if (pasted) return { overrides: this.overrides, added: this.added, problems: [pasted] }
      } else {
        const known = this.added.length
        this.readLineByHand(row)
        // A formula of such a line filled down into an empty row is nobody's work.
        const filled = (['order', 'amount'] as const).filter((name) => isByHand(row.cell(name)?.formula))
        this.settle(row, this.added.length > known ? ofLinesByHand : filled)
      }
    }
    return { overrides: this.overrides, added: this.added, problems: this.problems }
  }

  /** Nothing is read of a sum; what somebody typed beside it or over it is told. */
  private readSum(row: TakeoffRow): void {
    this.settle(row, besideSums)
    if (isPlain(row, 'amount') && text(row.cell('amount')) !== '') this.refuse(row, 'amount', 'its formula', text(row.cell('amount')))
    for (const name of besideSums)
      if (text(row.cell(name)) !== '')
        this.refuse(row, name, `nothing beside the sum "${row.description}"; lines of your own stand under ${ADDED_SECTION.toLowerCase()}`, text(row.cell(name)))
  }

  /** A line that a rule of the office gave: its own quantity and price, and a problem where a formula was typed over; answers where the sheet holds pasted values. */
  private readOurLine(row: TakeoffRow): Problem | undefined {
    if (isErrorText(row.code)) return this.readNameless(row)
    this.formulasWithoutResult(row)
    const strange = worked.filter((name) => this.headings.columns.has(name) && !row.cell(name)?.formula?.trimStart().startsWith(formulaOf[name]))
    if (strange.length >= PASTED) return this.problem(row, strange[0]!, 'formulas, as the takeoff was made', 'values')
    for (const name of strange) this.refuse(row, name, `its formula; own figures go into ${takeoffHeading('yours')} and ${takeoffHeading('price')}`, text(row.cell(name)))
    if (isPlain(row, 'net') && text(row.cell('net')) === '') this.refuse(row, 'net', `its formula; own figures go into ${takeoffHeading('yours')}`, 'nothing')
    this.settle(row, ['yours', 'price'])
    this.settle(
      row,
      workedColumns.filter((name) => isPlain(row, name)),
    )
    const quantity = this.typed(row, 'yours') ?? (isPlain(row, 'net') ? this.typed(row, 'net') : undefined)
    const price = this.ownPrice(row)
    const line = () => this.asLine(row, quantity ?? Number(text(row.cell('net'))))
    if ((isPlain(row, 'code') || quantity !== undefined) && this.isAgain(row)) {
      this.settle(row, allColumns)
      this.added.push(line())
    } else if (quantity !== undefined || price !== undefined)
      this.overrides[row.code] = { ...(quantity === undefined ? {} : { quantity }), ...(price === undefined ? {} : { price }), line: line() }
    return undefined
  }

  /** A line of ours whose code shows an error: what was typed on it belongs to a line that nobody can name, and without that it is none. */
  private readNameless(row: TakeoffRow): undefined {
    this.settle(row, allColumns)
    const isOwnPrice = isPlain(row, 'price') ? this.ownPrice(row) !== undefined : !this.isOurPrice(row)
    const typed = text(row.cell('yours')) !== '' ? 'yours' : text(row.cell('price')) !== '' && isOwnPrice ? 'price' : undefined
    if (!typed) return
    const shows = `${text(row.cell(typed))}, on a line whose code shows ${row.code}`
    this.refuse(
      row,
      typed,
      'the code of its line: a sheet that it points to is gone, or this program does not know a function of it. Save it where the code shows, or clear this entry',
      shows,
    )
  }

  private readLineByHand(row: TakeoffRow): void {
    this.formulasWithoutResult(row)
    const { code, description } = row
    const quantity = this.typed(row, 'yours', true) ?? this.typed(row, 'net', true) ?? this.typed(row, 'order', true) ?? null
    if (text(row.cell('hours')) !== '' && (code !== '' || description !== ''))
      this.refuse(row, 'hours', 'nothing on a line by hand: hours are paid by a line of their own, or by a row of Items', text(row.cell('hours')))
    for (const name of ['order', 'net'] as const)
      if (quantity !== null && isPlain(row, name) && text(row.cell(name)) !== '' && Number(text(row.cell(name))) !== quantity)
        this.refuse(row, name, `nothing, or ${quantity}, as ${takeoffHeading('yours')} of this line by hand says`, text(row.cell(name)))
    const line = this.asLine(row, quantity, true)
    const product = row.cell('amount')?.formula
    const isOurs = product !== undefined && isOurProduct(product)
    if (!isOurs && isUnworked(row.cell('amount'))) this.refuse(row, 'amount', 'a number; the formula was saved without its result', `=${product}`)
    if (product !== undefined && !isOurs && this.addsAmounts(product)) {
      this.refuse(row, 'amount', 'a number of its own; this formula adds up amounts that are counted already', `=${product}`)
      return
    }
    const lump = (quantity === null || line.price === null) && !isOurs ? this.typed(row, 'amount', true) : undefined
    if (lump && code === '' && description === '') this.refuse(row, 'description', 'words for this amount, which the customer reads', 'nothing')
    else if (lump) this.added.push({ ...line, quantity: 1, price: lump })
    // A price for the whole is one of it; of feet or hours somebody must say how many.
    else if (quantity === null && line.price !== null && isWholeUnit(line.unit)) this.added.push({ ...line, quantity: 1 })
    else if (code !== '' || description !== '' || quantity !== null || line.price !== null) {
      if ((quantity === null) !== (line.price === null))
        this.refuse(
          row,
          quantity === null ? 'yours' : 'price',
          `a ${quantity === null ? 'quantity' : 'price'} for ${description || code ? `"${description || code}"` : 'this line'}; 0 where it costs nothing`,
          'nothing',
        )
      this.added.push(line)
    }
  }

  /** Whether a formula does nothing but add up amounts of this sheet; a share of them is a line of its own. */
  private addsAmounts(formula: string): boolean {
    const column = columnLetters(this.headings.columns.get('amount')! + 1)
    return new RegExp(`^(?:SUM|SUBTOTAL)\\((?:9,|109,)?\\$?${column}\\$?\\d+:\\$?${column}\\$?\\d+\\)$`, 'i').test(formula.replace(/\s/g, ''))
  }

  private asLine(row: TakeoffRow, quantity: number | null, isByHand = false): AddedLine {
    return {
      code: row.code,
      description: row.description,
      unit: text(row.cell('unit')),
      quantity,
      price: this.typed(row, 'price', isByHand) ?? null,
      ...this.kindOf(row, text(row.cell('kind'))),
      why: text(row.cell('why')),
    }
  }

  /** What a line by hand buys; a kind that there is not is told. */
  private kindOf(row: TakeoffRow, words: string): Pick<AddedLine, 'kind'> {
    const kind = itemKinds.find((known) => known === words.toLowerCase())
    if (words !== '' && !kind) this.refuse(row, 'kind', `one of ${itemKinds.join(', ')}`, `"${words}"`)
    return kind && kind !== 'other' ? { kind } : {}
  }

  /** A price that somebody typed: not the one that stood in the list when the takeoff was made. Takeoffs of earlier versions looked it up instead. */
  private ownPrice(row: TakeoffRow): number | undefined {
    if (!isPlain(row, 'price') && this.isOurPrice(row)) return undefined
    const price = this.typed(row, 'price')
    const listed = this.headings.columns.has('listed') ? Number(text(row.cell('listed'))) : NaN
    return price !== undefined && Math.abs(price - listed) <= SAME_PRICE * Math.max(1, price) ? undefined : price
  }

  /**
   * A price that we made live stands beside the same formula, or one that points to it, as the price of the list. Takeoffs that have no such
   * column looked their prices up: by code, as a figure of the rule, or on the job's own sheets.
   */
  private isOurPrice(row: TakeoffRow): boolean {
    const formula = row.cell('price')?.formula ?? ''
    const { design, working, year } = this.names
    const listed = row.cell('listed')?.formula?.replace(/\s/g, '')
    const column = columnLetters(this.headings.columns.get('price')! + 1)
    const isLive = listed !== undefined && new RegExp(`^\\$?${column}\\$?\\d+$`, 'i').test(listed)
    if (this.headings.columns.has('listed') && !isLive) return listed === formula.replace(/\s/g, '')
    return (
      /^INDEX\(.+,MATCH\(\$?[A-Z]+\$?\d+,.+,0\)\)(?:\/[\d.]+)?$/.test(formula.replace(/\s/g, '')) ||
      /^[\d.]+$/.test(formula) ||
      [design, working, year].some((name) => name !== undefined && formula.includes(name.replace(/'/g, "''")))
    )
  }

  /** Another program may save a formula that somebody wrote and leave its result out. */
  private formulasWithoutResult(row: TakeoffRow): void {
    for (const name of ['yours', 'price'] as const) {
      const own = row.cell(name)?.formula
      if (isUnworked(row.cell(name)) && !(name === 'price' && this.isOurPrice(row))) this.refuse(row, name, 'a number; the formula was saved without its result', `=${own}`)
    }
  }

  /** Whether an earlier row of the sheet has this code: the later one is a copy that somebody made. */
  private isAgain({ code, at }: TakeoffRow): boolean {
    return this.rows.slice(0, at).some((row) => row.code === code && isThere(row, 'waste') && isThere(row, 'lot'))
  }

  private settle({ at }: TakeoffRow, names: readonly TakeoffColumn[]): void {
    for (const name of names) this.settled.add(`${this.rowOf({ at })} ${(this.headings.columns.get(name) ?? -1) + 1}`)
  }
  private typed(row: TakeoffRow, name: TakeoffColumn, mayBeLess = false): number | undefined {
    return amount(row.cell(name), this.names.takeoff, this.rowOf(row), takeoffHeading(name), this.problems, mayBeLess)
  }
  private rowOf = ({ at }: Pick<TakeoffRow, 'at'>): number => this.headings.row + at + 2
  private problem(row: TakeoffRow, name: TakeoffColumn, allowed: string, came: string): Problem {
    return { sheet: this.names.takeoff, row: this.rowOf(row), column: takeoffHeading(name), allowed, came }
  }
  private refuse(row: TakeoffRow, name: TakeoffColumn, allowed: string, came: string): void {
    this.problems.push(this.problem(row, name, allowed, came))
  }
}

const isPlain = (row: TakeoffRow, name: TakeoffColumn): boolean => row.cell(name)?.formula === undefined
const isThere = (row: TakeoffRow, name: TakeoffColumn): boolean => text(row.cell(name)) !== '' || !isPlain(row, name)
/** A formula that we put into lines by hand. */
const isByHand = (formula: string | undefined): boolean => formula !== undefined && (isLineFormula('orderByHand', formula) || isOurProduct(formula))
/** The amount of a line by hand: its quantity times its price. */
const isOurProduct = (formula: string): boolean => isLineFormula('amountByHand', formula) || isLineFormula('product', formula)
/** A sum has a formula for its amount, and no quantity times a price. */
const isSum = (row: TakeoffRow): boolean => {
  const formula = row.cell('amount')?.formula
  return formula !== undefined && !isOurProduct(formula) && !isThere(row, 'waste')
}
/** What is read of a line by hand. */
const ofLinesByHand: readonly TakeoffColumn[] = ['code', 'description', 'unit', 'yours', 'net', 'order', 'price', 'amount', 'hours', 'kind', 'why']
/** Columns that are empty beside a sum. */
const besideSums: readonly TakeoffColumn[] = ['code', 'unit', 'yours', 'price', 'net', 'order', 'hours']
/** Somebody's own line may have the words of a sum: it has a quantity or a unit of its own. */
const isTyped = (row: TakeoffRow): boolean => row.code !== '' || text(row.cell('yours')) !== '' || text(row.cell('unit')) !== ''
