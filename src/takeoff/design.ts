/** One job worked through: fields, sized choices, named results, months, curve, verdicts, cautions. Evaluated on demand, once each. */
import { callByName, calculationOf } from '../calc/callByName.js'
import { tableColumn } from '../calc/working.js'
import { InputError } from '../errors.js'
import { formula, type Scope } from '../formula/formula.js'
import { FormulaError, isError, type Single, type Value } from '../formula/value.js'
import { bareName } from '../units.js'
import { cautionRules, type CautionRule } from './cautions.js'
import { type CellValue } from './fields.js'
import { officeColumn, type Office, type Row } from './office.js'
import { CURVE_POINTS, fieldsOf, jobFields, monthNames, tableNames, type TableName } from './officeTables.js'
import { curveCell, curveColumns, monthColumns, monthDays, monthRain, monthStart, results } from './results.js'
import { templateFormula } from './template.js'
import { verdictRules, verdictWords, type Verdict } from './verdicts.js'

/** Inputs that the tool fills in when the row leaves them empty; they stay inputs on the Design sheet. */
export const sizedFields = ['TankCount', 'PumpModel', 'LineFittings'] as const
const RUN_FIELDS = ['InletRun_ft', 'OverflowRun_ft', 'WaterLineRun_ft', 'PowerRun_ft'] as const
const MOST_TANKS = 12
/** With rain too short for the wanted reliability, a further tank must bring at least this much to be worth it. */
const WORTH_A_TANK = 0.005

const resultByName = new Map(results.map((rule) => [rule.name, rule]))
const verdictByName = new Map(verdictRules.map((rule) => [rule.name, rule]))
const monthByName = new Map(monthColumns.map((rule) => [rule.name, rule]))
const curveNames = new Set(curveColumns.map((rule) => rule.name))

/** Every name that an item rule may use. */
export const knownNames: ReadonlySet<string> = new Set([
  ...Object.keys(jobFields),
  ...resultByName.keys(),
  ...verdictByName.keys(),
  ...monthByName.keys(),
  ...curveNames,
  'Curve',
  'RunsAssumed',
  'GroundwaterAssumed',
])

/** A function name in a formula: a cell function, or one column of what it spills ("PUMPDUTY.FLOW"). */
export function readCall(name: string): { id: string; column?: string } | undefined {
  const [id, column] = name.replace(/^CISTERN\./, '').split('.')
  const calculation = calculationOf(id!)
  if (!calculation) return undefined
  if (column === undefined) return calculation.spills ? undefined : { id: calculation.id }
  const found = Object.keys(calculation.spills ?? {}).find((key) => bareName(key).toUpperCase() === column)
  return found ? { id: calculation.id, column: found } : undefined
}

/** Calls a cell function from a formula; a refusal becomes the error a cell would show. */
export function callFromFormula(name: string, args: readonly Value[]): Value | undefined {
  const call = readCall(name)
  if (!call) return undefined
  try {
    const result = callByName(call.id, args)
    if (!Array.isArray(result)) return result
    const header = result[0]!
    if (call.column === undefined) return result.map((row) => row[0]!)
    return result[1]![header.indexOf(bareName(call.column))]!
  } catch (error) {
    if (error instanceof InputError) return new FormulaError(error.code, error.message)
    throw error
  }
}

export interface RaisedVerdict {
  name: string
  label: string
  verdict: Verdict
  words: string
}
export interface RaisedCaution extends CautionRule {
  words: string
}

export class Design {
  private readonly known = new Map<string, Value>()
  private readonly scope: Scope
  /** Fields that the tool sized, with the value it took. */
  readonly sized = new Map<string, CellValue>()

  constructor(
    private readonly office: Office,
    readonly job: Row,
    sized: Readonly<Record<string, CellValue>> = {},
    figures: Readonly<Record<string, number>> = {},
  ) {
    this.scope = { value: (name) => this.value(name), call: callFromFormula }
    for (const name of Object.keys(jobFields)) this.known.set(name, job.cells[name] ?? '')
    for (const [name, value] of Object.entries(sized)) {
      this.known.set(name, value ?? '')
      this.sized.set(name, value)
    }
    for (const [name, value] of Object.entries(figures)) this.known.set(name, value)
    this.known.set('GroundwaterAssumed', job.defaulted.has('GroundwaterDepth_ft') ? 1 : 0)
    this.known.set('RunsAssumed', RUN_FIELDS.filter((name) => job.defaulted.has(name)).length)
  }

  get name(): string {
    return String(this.job.cells.Job ?? '')
  }

  /** The value of a field, result, verdict, month or curve column, or table column. */
  value(name: string): Value | undefined {
    const known = this.known.get(name)
    if (known !== undefined) return known
    const computed = this.compute(name)
    if (computed !== undefined) this.known.set(name, computed)
    return computed
  }

  /** Why a field that the row leaves empty has its value. */
  whySized(name: string): string {
    const isShort = name === 'TankCount' && this.number('Reliability') < this.number('WantedReliability')
    return isShort ? 'sized by the tool: no count up to 12 reaches the wanted reliability, and a tank more brings next to nothing' : 'sized by the tool'
  }

  /** A single value, as a sheet or a drawing wants it. */
  single(name: string): Single {
    const value = this.value(name)
    return value === undefined ? null : Array.isArray(value) ? (value[0] as Single) : (value as Single)
  }

  number(name: string): number {
    const value = this.single(name)
    return typeof value === 'number' ? value : NaN
  }

  column(name: string): readonly number[] {
    return this.value(name) as readonly number[]
  }

  evaluate(text: string): Value {
    return formula(text).evaluate(this.scope)
  }

  /** Evaluates with one further name, such as the crew hours of the other lines. */
  evaluateWith(text: string, name: string, value: Value): Value {
    return formula(text).evaluate({ value: (wanted) => (wanted === name ? value : this.value(wanted)), call: callFromFormula })
  }

  words(template: string): string {
    const text = templateFormula(template)
    const value = text === undefined ? template : this.evaluate(text)
    return isError(value) ? template.replace(/\{\w+%?\}/g, 'n/a') : String(value)
  }

  verdicts(): RaisedVerdict[] {
    return verdictRules
      .map(({ name, label, says }) => ({ name, label, verdict: this.verdict(name), words: this.words(says) }))
      .sort((one, other) => verdictWords.indexOf(one.verdict) - verdictWords.indexOf(other.verdict))
  }

  /** A verdict whose formula fails is a stop: what cannot be checked is not passed. */
  verdict(name: string): Verdict {
    const value = this.single(name)
    return value === 'pass' || value === 'check' ? value : 'stop'
  }

  cautions(): RaisedCaution[] {
    return cautionRules.filter((rule) => this.evaluate(rule.when) === true).map((rule) => ({ ...rule, words: this.words(rule.text) }))
  }

  private compute(name: string): Value | undefined {
    const rule = resultByName.get(name) ?? verdictByName.get(name)
    if (rule) {
      this.known.set(name, new FormulaError('#REF!', `${name} depends on itself`))
      return this.evaluate(rule.formula)
    }
    if (monthByName.has(name)) {
      this.walkMonths()
      return this.known.get(name)
    }
    if (curveNames.has(name)) return Array.from({ length: CURVE_POINTS }, (_, point) => this.evaluate(curveCell(name, point)) as Single)
    if (name === 'Curve') {
      const [flow, head] = curveColumns.map((column) => this.value(column.name) as readonly Single[])
      // A block of rows passes untouched from this name to PUMPDUTY.
      return flow!.map((across, at) => [across, head![at]]) as unknown as Single[]
    }
    return tableColumn(name) ?? this.tableColumn(name)
  }

  private tableColumn(name: string): Value | undefined {
    const parts = /^(\w+)\[(\w+)\]$/.exec(name)
    const table = parts && tableNames.find((known) => known === parts[1])
    if (!table || !(parts[2]! in fieldsOf(table as TableName))) return undefined
    return officeColumn(this.office, table as TableName, parts[2]!)
  }

  private walkMonths(): void {
    const columns = new Map<string, Single[]>(monthColumns.map(({ name }) => [name, []]))
    columns.set(
      'MonthRain_in',
      monthNames.map((_, month) => this.evaluate(monthRain(month)) as Single),
    )
    columns.set('MonthDays', [...monthDays])
    this.known.set('MonthRain_in', columns.get('MonthRain_in')!)
    const walk = (names: readonly string[]) => {
      const before = new Map<string, Single>()
      for (const name of names) {
        const start = monthStart[`before_${name}`]
        if (start !== undefined) before.set(`before_${name}`, start === '0' ? 0 : columns.get(start)!.at(-1)!)
      }
      for (let month = 0; month < monthNames.length; month++) {
        const row = (name: string): Single | undefined => before.get(name) ?? columns.get(name)?.[month]
        for (const name of names)
          columns.get(name)![month] = formula(monthByName.get(name)!.formula).evaluate({ value: (wanted) => row(wanted) ?? this.value(wanted), call: callFromFormula }) as Single
        for (const name of names) if (before.has(`before_${name}`)) before.set(`before_${name}`, columns.get(name)![month]!)
      }
    }
    walk(['MonthInflow_gal', 'MonthDemand_gal', 'FirstYear_gal'])
    walk(['MonthSupplied_gal', 'MonthStored_gal', 'MonthOverflow_gal'])
    for (const [name, list] of columns) this.known.set(name, list)
  }
}

/** Works a job through, first sizing what its row leaves empty. `figures` are house figures typed over on the Design sheet. */
export function designJob(office: Office, job: Row, figures: Readonly<Record<string, number>> = {}): Design {
  const sized: Record<string, CellValue> = {}
  const given = (name: string) => job.cells[name] !== null && job.cells[name] !== undefined
  const trial = (more: Readonly<Record<string, CellValue>> = {}) => new Design(office, job, { ...sized, ...more }, figures)
  if (!given('LineFittings')) sized.LineFittings = trial().single('LineFit') === 'CTS' ? 'CTS compression' : 'IPS insert'
  if (!given('TankCount')) sized.TankCount = fewestTanks(trial, Number(job.cells.WantedReliability))
  if (!given('PumpModel')) sized.PumpModel = firstPump(office, trial)
  return trial()
}
type Trial = (more: Readonly<Record<string, CellValue>>) => Design

/** The fewest tanks that reach the wanted reliability; where none do, the fewest beyond which a tank brings next to nothing. */
function fewestTanks(trial: Trial, wanted: number): number {
  const reached: number[] = []
  for (let count = 1; count <= MOST_TANKS; count++) {
    const reliability = trial({ TankCount: count }).number('Reliability')
    if (reliability >= wanted) return count
    reached.push(reliability)
  }
  const best = reached.at(-1)!
  return reached.findIndex((reliability) => reliability >= best - WORTH_A_TANK) + 1
}

/** The first pump of the table, for this voltage, whose head at the house flow is enough; the last one where none is. */
function firstPump(office: Office, trial: Trial): CellValue {
  const models = office.tables.Pumps.map((row) => row.cells.Model ?? null)
  const fits = models.find((PumpModel) => {
    const design = trial({ PumpModel })
    return design.verdict('DutyVerdict') === 'pass' && design.verdict('SupplyVerdict') === 'pass'
  })
  return fits ?? models.at(-1) ?? null
}
