/** Every rule list held to one check before any job runs: names known, functions allowed, no circle, units that fit together. */
import { calculationOf } from '../calc/callByName.js'
import { calculations } from '../calc/index.js'
import { dimensionProblem, nameSize } from '../formula/dimensions.js'
import { formula } from '../formula/formula.js'
import { allowedFunctions } from '../formula/functions.js'
import { physicalSize, type PhysicalSize } from '../units.js'
import { readCall, signatureOf } from './call.js'
import { knownNames, nearest } from './names.js'
import { tableNames, fieldsOf } from './officeTables.js'
import { strangeValue } from './ruleValues.js'
import { tables } from '../tables/index.js'

/** Names whose unit does not stand in them. */
const unitsBeside: Readonly<Record<string, string>> = { MonthDays: 'day', RecordDays: 'days', RecordMet: 'days', LaborHours: 'h', StoneOrdered: 'ton' }
export const sizeOfName = (name: string): PhysicalSize | undefined => (Object.hasOwn(unitsBeside, name) ? physicalSize(unitsBeside[name]!) : nameSize(name.replace(/^before_/, '')))

const isTableColumn = (name: string): boolean => {
  const parts = /^(\w+)\[(\w+)\]$/.exec(name)
  if (!parts) return false
  const [, table, column] = parts as unknown as [string, string, string]
  const office = tableNames.find((known) => known === table)
  return office ? Object.hasOwn(fieldsOf(office), column) : tables.some(({ id, columns }) => id === table && columns.includes(column))
}

export interface RuleCheck {
  text: string
  /** The name whose unit the result must have; undefined where any will do. */
  gives?: string | PhysicalSize
  /** Names that this rule alone may use. */
  also?: readonly string[]
  /** Whether table columns may stand in it. */
  columns?: boolean
  mayBePure?: boolean
  /** Functions that run through months or years have no place in one line of the working. */
  periods?: boolean
}

/** A name or function that no rule may use, in words; undefined where there is none. */
export function strangeWord({ text, also = [], columns = false, periods = false }: RuleCheck): string | undefined {
  const read = formula(text)
  const unknown = read.names.find((name) => !knownNames.has(name) && !also.includes(name) && !(columns && isTableColumn(name)))
  if (unknown) return `no field or result is called ${unknown}${nearest(unknown)}`
  const stranger = read.functions.find((name) => {
    const call = readCall(name)
    return call ? !periods && Boolean(calculationOf(call.id)?.periods) : !allowedFunctions.includes(name)
  })
  if (stranger)
    return `the function ${stranger} is not among ${[...allowedFunctions, ...calculations.filter((known) => !known.spills && !known.periods).map((known) => known.id)].join(', ')}`
  return undefined
}

/** What does not fit together in a rule by its units, in words; undefined where all does. Its names are known. */
export const misfit = ({ text, gives, mayBePure = false }: RuleCheck): string | undefined =>
  dimensionProblem(text, signatureOf, { ...(gives === undefined ? {} : { gives }), mayBePure, sizeOf: sizeOfName })

/** The reason why a rule is refused, or undefined. */
export const ruleProblem = (rule: RuleCheck): string | undefined => strangeWord(rule) ?? strangeValue(rule.text) ?? misfit(rule)
