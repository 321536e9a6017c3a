/** One item rule over one job: its formulas worked out, and what is wrong with them said in words that name the cell. */
import { isError, type Value } from '../formula/value.js'
import type { Design } from './design.js'
import type { Problem } from './fields.js'
import type { ItemRule } from './itemRules.js'
import type { Office } from './office.js'

/** No quantity of a line and no price of a unit comes near it. */
export const MOST_AMOUNT = 1e9
export const isAmount = (value: unknown): value is number => typeof value === 'number' && value >= 0 && value <= MOST_AMOUNT
export const came = (value: Value): string => (isError(value) ? `${value.code} ${value.message}`.trim() : typeof value === 'string' ? `"${value}"` : String(value))

export class LineMaking {
  constructor(
    readonly office: Office,
    readonly design: Design,
    readonly rule: ItemRule,
    /** Sums over other lines, by name. */
    private readonly sums: Readonly<Record<string, number>>,
    readonly problems: Problem[],
  ) {}

  evaluate(text: string): Value {
    return this.design.evaluateWith(text, this.sums)
  }

  /** A cell of the rule that gives something else than it may. */
  refuse(column: string, allowed: string, value: unknown, more: Pick<Problem, 'unpriced'> = {}): undefined {
    // A spreadsheet works a rule out itself where it begins with the sign.
    const hint = value === '#NAME?' ? '; typed without the sign = in front' : ''
    this.problems.push({ sheet: this.office.sheets.Items, row: this.rule.row, column, allowed: `${allowed}${hint} (job ${this.design.name})`, came: String(value), ...more })
    return undefined
  }

  words(column: string, part: ItemRule['why']): string {
    const value = part.formula === undefined ? part.text : this.evaluate(part.formula)
    if (typeof value === 'string') return value
    this.refuse(column, 'braces around single values', came(Array.isArray(value) ? (value.find(isError) ?? 'a list') : value))
    return ''
  }
}
