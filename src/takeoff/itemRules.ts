/** Reads the Items table: each rule's formulas are parsed and their names checked before any job is made. */
import { calculationOf } from '../calc/callByName.js'
import { calculations } from '../calc/index.js'
import { formula, FormulaSyntaxError, type Formula } from '../formula/formula.js'
import { allowedFunctions } from '../formula/functions.js'
import { knownNames, readCall } from './design.js'
import type { Problem } from './fields.js'
import type { Office, Row } from './office.js'
import { sections, type Section } from './officeTables.js'
import { readTemplate, templateFormula } from './template.js'

/** Crew hours of all other lines; only lines of labor use it. */
export const LABOR_HOURS = 'LaborHours'

export interface ItemRule {
  row: number
  /** The code as written, braces and all: what the row of Items is found by. */
  key: string
  section: Section
  code: string | undefined
  description: { text: string; formula: string | undefined }
  why: { text: string; formula: string | undefined }
  when: Formula | undefined
  quantity: Formula
  unit: string
  waste: number
  lot: number
  laborHours: number
  price: Formula | undefined
  /** True when the quantity is made of the hours of the other lines. */
  isLabor: boolean
}

const namesAllowed = (name: string) => knownNames.has(name) || name === LABOR_HOURS
/** A calculation that runs through months or years has no place in one line of the working. */
const isOneCell = (id: string) => !calculationOf(id)?.periods
const functionAllowed = (name: string) => {
  const call = readCall(name)
  return call ? isOneCell(call.id) : allowedFunctions.includes(name)
}

/** The reason why a formula is refused, or undefined. */
function refusal(read: Formula, mayUseHours: boolean): string | undefined {
  if (!mayUseHours && read.names.includes(LABOR_HOURS)) return `${LABOR_HOURS} stands in When and Quantity only`
  const unknown = read.names.find((name) => !namesAllowed(name))
  if (unknown) return `no field or result is called ${unknown}${nearest(unknown)}`
  const stranger = read.functions.find((name) => !functionAllowed(name))
  if (stranger)
    return `the function ${stranger} is not among ${[...allowedFunctions, ...calculations.filter((known) => !known.spills && isOneCell(known.id)).map((known) => known.id)].join(', ')}`
  if (read.names.includes(LABOR_HOURS) && read.functions.some((name) => readCall(name))) return `a formula over ${LABOR_HOURS} takes spreadsheet functions only`
  return undefined
}

function nearest(unknown: string): string {
  const bare = (name: string) => name.toLowerCase().replace(/_.*$/, '')
  const close = [...knownNames].find((name) => bare(name) === bare(unknown))
  return close ? `; did you mean ${close}` : ''
}

export function readItemRules(office: Office): { rules: ItemRule[]; problems: Problem[] } {
  const problems: Problem[] = []
  const sheet = office.sheets.Items
  const rules: ItemRule[] = []
  for (const item of office.tables.Items) {
    const before = problems.length
    const problem = (column: string, allowed: string, came: string) => problems.push({ sheet, row: item.row, column, allowed, came })
    const read = (column: string): Formula | undefined => {
      const text = cellText(item, column)
      if (text === '') return undefined
      try {
        const found = formula(text)
        const reason = refusal(found, column === 'When' || column === 'Quantity')
        if (reason) problem(column, `a formula over the names of fields and results; ${reason}`, `"${text}"`)
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
      const reason = found && refusal(found, false)
      if (reason) problem(column, `braces around the name of a field or result; ${reason}`, `"${text}"`)
      return { text, formula: templateFormula(text, bare) }
    }
    const code = words('Code', true)
    const description = words('Description')
    const why = words('Why')
    const when = read('When')
    const quantity = read('Quantity')
    const price = read('Price')
    if (problems.length > before || !quantity || item.cells.Section === null) continue
    rules.push({
      row: item.row,
      key: code.text,
      code: code.formula,
      section: item.cells.Section as Section,
      description,
      why,
      when,
      quantity,
      price,
      unit: cellText(item, 'Unit'),
      waste: Number(item.cells.Waste),
      lot: Number(item.cells.Lot),
      laborHours: Number(item.cells.LaborHours),
      isLabor: [quantity, when].some((part) => part?.names.includes(LABOR_HOURS)),
    })
  }
  rules.sort((one, other) => sections.indexOf(one.section) - sections.indexOf(other.section) || one.row - other.row)
  return { rules, problems }
}

const cellText = (row: Row, column: string) => String(row.cells[column] ?? '').trim()
