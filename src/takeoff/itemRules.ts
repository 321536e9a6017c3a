/** Reads the Items table: each rule's formulas are parsed, their names and units checked before any job is made. */
import { formula, FormulaSyntaxError, type Formula } from '../formula/formula.js'
import { beyondLimits } from '../formula/limits.js'
import { roundTo } from '../rounding.js'
import { physicalSize, unitNamed, type PhysicalSize } from '../units.js'
import { readCall } from './call.js'
import { misfit, strangeWord } from './checkRules.js'
import { strangeValue } from './ruleValues.js'
import type { Problem } from './fields.js'
import type { Office, Row } from './office.js'
import { sectionNamed, sections, type ItemKind } from './officeTables.js'
import { numberOfRow010, rows010 } from './older/rows010.js'
import { isSumWord } from './sumWords.js'
import { readTemplate, templateFormula } from './template.js'

/** Sums over other lines that When and Quantity may use: hours of people, and tons of stone ordered. */
export const LABOR_HOURS = 'LaborHours'
export const STONE_ORDERED = 'StoneOrdered'
export const lineSums = [STONE_ORDERED, LABOR_HOURS] as const
export type LineSum = (typeof lineSums)[number]
/** What trucks bring by the ton: its loads are counted, whatever its code. What is figured on those loads is none of them. */
export const isStone = (rule: ItemRule): boolean => rule.sum === undefined && rule.kind === 'material' && unitRatio(pricedUnit(rule.unit), pricedUnit('ton')) === 1

export interface ItemRule {
  row: number
  /** The code as written, braces and all: what the row of Items is found by. */
  key: string
  section: string
  code: string | undefined
  description: { text: string; formula: string | undefined }
  why: { text: string; formula: string | undefined }
  when: Formula | undefined
  quantity: Formula
  unit: string
  waste: number
  lot: number
  /** Count of equal pieces that the quantity is cut into, and what they are cut from. */
  pieces: Formula | undefined
  stock: string | undefined
  laborHours: number
  price: Formula | undefined
  kind: ItemKind
  /** Its quantity is settled afterwards: the quote says what a unit costs. */
  isAllowance: boolean
  /** Taken only where a job names this set; empty for every job. */
  set: string
  /** Paid by its price where a subcontractor digs, by its hours where the own crew does. */
  isEarthwork: boolean
  /** What the quantity is made of, where that is the other lines. */
  sum: LineSum | undefined
}

export interface PricedUnit {
  name: string
  /** Pieces of it that one price is for: 100 in "100 ft". */
  count: number
}
/** "100 ft" is a hundred of a foot; spellings of one unit are one. */
export function pricedUnit(text: string): PricedUnit {
  const bare = text.trim().toLowerCase().replace(/\s+/g, ' ').replace(/\.$/, '')
  const parts = /^(\d[\d,]*)\s*(.+)$/.exec(bare)
  if (parts) return { ...pricedUnit(parts[2]!), count: Number(parts[1]!.replace(/,/g, '')) }
  const known = unitNamed(bare)
  if (known) return { name: known, count: 1 }
  return { name: /^(?:each|ea|pc|pcs|piece|pieces)$/.test(bare) ? 'each' : bare, count: 1 }
}
/** How many of `counted` one of `priced` is: a load of "4000 gal" for a line in kgal is 4; nothing where they measure different things. */
export function unitRatio(priced: PricedUnit, counted: PricedUnit): number | undefined {
  const pieces = priced.count / counted.count
  if (priced.name === counted.name) return pieces
  const [one, other] = [physicalSize(priced.name), physicalSize(counted.name)]
  if (!one || !other || !isSameDimension(one, other)) return undefined
  return roundTo((pieces * one.size) / other.size, RATIO_DECIMALS)
}
/** Digits beyond which a ratio of two units is rounding alone. */
const RATIO_DECIMALS = 12
const isSameDimension = ({ dimensions: one }: PhysicalSize, { dimensions: other }: PhysicalSize): boolean =>
  [...new Set([...Object.keys(one), ...Object.keys(other)])].every((base) => (one[base] ?? 0) === (other[base] ?? 0)) && Object.keys(one).length > 0

/** The size of the unit that a line is counted in; nothing for pieces, jobs and loads. */
const sizeOfUnit = (text: string): PhysicalSize => physicalSize(unitNamed(text) ?? '') ?? { dimensions: {}, size: 1 }

/** Rows that 0.1.0 wrote and nobody touched: their units are not held against the office. */
const isOlderRow = (row: Row): boolean => rows010.has(numberOfRow010(row.cells))

export function readItemRules(office: Office): { rules: ItemRule[]; problems: Problem[] } {
  const problems: Problem[] = []
  const sheet = office.sheets.Items
  const rules: ItemRule[] = []
  // Sections of the office's own come behind ours, in the order of their first rows.
  const order: string[] = [...sections]
  for (const item of office.tables.Items) {
    const before = problems.length
    const problem = (column: string, allowed: string, came: string) => problems.push({ sheet, row: item.row, column, allowed, came })
    const unit = cellText(item, 'Unit')
    const read = (column: RuleColumn): Formula | undefined => {
      const text = cellText(item, column)
      if (text === '') return undefined
      const beyond = beyondLimits(text)
      if (beyond) {
        problem(column, beyond.allowed, beyond.came)
        return undefined
      }
      try {
        const found = formula(text)
        const reason = refusal(found, column, office.ownFields, sizeOfUnit(unit), isOlderRow(item))
        if (reason) problem(column, reason, `"${text}"`)
        return found
      } catch (error) {
        if (!(error instanceof FormulaSyntaxError)) throw error
        problem(column, 'a spreadsheet formula', `"${text}" (${error.message.replace(`"${text}" `, '')})`)
        return undefined
      }
    }
    const words = (column: string, bare = false) => {
      const text = cellText(item, column)
      const found = readTemplate(text, bare)
      const reason = found && refusal(found, 'words', office.ownFields)
      if (reason) problem(column, reason, `"${text}"`)
      return { text, formula: templateFormula(text, bare) }
    }
    const code = words('Code', true)
    const description = words('Description')
    const why = words('Why')
    const when = read('When')
    const quantity = read('Quantity')
    const price = read('Price')
    const pieces = read('Pieces')
    const stock = words('Stock')
    if (pieces && pricedUnit(unit).name !== 'ft') problem('Pieces', 'empty where the Unit is not ft: lengths are cut, nothing else', `"${unit}"`)
    const named = sectionNamed(cellText(item, 'Section'))
    const section = order.find((known) => known.toLowerCase() === named.toLowerCase()) ?? named
    if (isSumWord(section)) problem('Section', 'a name that no sum of the takeoff has', `"${section}"`)
    if (problems.length > before || !quantity || section === '') continue
    if (!order.includes(section)) order.push(section)
    rules.push({
      row: item.row,
      key: code.text,
      code: code.formula,
      section,
      description,
      why,
      when,
      quantity,
      price,
      unit,
      waste: Number(item.cells.Waste),
      lot: Number(item.cells.Lot),
      pieces,
      stock: stock.text === '' ? undefined : (stock.formula ?? `"${stock.text.replace(/"/g, '""')}"`),
      laborHours: Number(item.cells.LaborHours),
      isAllowance: item.cells.Allowance === 'yes',
      set: cellText(item, 'Set'),
      kind: (item.cells.Kind as ItemKind | null) ?? 'material',
      isEarthwork: item.cells.PaidBy === 'earthwork',
      sum: [...lineSums].reverse().find((name) => [quantity, when].some((part) => part?.names.includes(name))),
    })
  }
  // Rules of a section stay in the order of their rows.
  rules.sort((one, other) => order.indexOf(one.section) - order.indexOf(other.section))
  return { rules, problems }
}

type RuleColumn = 'When' | 'Quantity' | 'Price' | 'Pieces'

/** The reason why a formula is refused, or undefined. */
function refusal(read: Formula, column: RuleColumn | 'words', ownFields: readonly string[], unit?: PhysicalSize, isOlder = false): string | undefined {
  const over = column === 'words' ? 'braces around the name of a field or result' : 'a formula over the names of fields and results'
  const used = lineSums.filter((name) => read.names.includes(name))
  if (used.length && column !== 'When' && column !== 'Quantity') return `${over}; ${used[0]} stands in When and Quantity only`
  if (used.length > 1) return `${over}; ${used.join(' and ')} do not stand in one formula`
  const gives = column === 'Quantity' ? unit : column === 'Price' ? physicalSize('usd') : undefined
  const isPlain = (name: PhysicalSize | undefined) => name === undefined || Object.keys(name.dimensions).length === 0
  // Pieces are counted over anything ("one each 50 ft"); a price by its own unit may be an hourly rate.
  const rule = { text: read.text, also: [...used, ...ownFields], mayBePure: true, ...(isPlain(gives) || column === 'Price' ? {} : { gives: gives! }) }
  const stranger = strangeWord(rule)
  if (stranger) return `${over}; ${stranger}`
  const never = isOlder ? undefined : strangeValue(read.text)
  if (never) return `${over}; ${never}`
  const odd = isOlder ? undefined : misfit(rule)
  if (odd) return `${over}, of the dimension of its Unit; it ${odd}`
  if (used.length && read.functions.some((name) => readCall(name))) return `${over}; a formula over ${used[0]} takes spreadsheet functions only`
  return undefined
}

const cellText = (row: Row, column: string) => String(row.cells[column] ?? '').trim()

/** Rules are read once for an office, however many jobs follow. */
const rulesByOffice = new WeakMap<Office, ReturnType<typeof readItemRules>>()
export function rulesOf(office: Office): ReturnType<typeof readItemRules> {
  let found = rulesByOffice.get(office)
  if (!found) rulesByOffice.set(office, (found = readItemRules(office)))
  return found
}
