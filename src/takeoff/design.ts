/** One job worked through: fields, sized choices, named results, months, record, curve, verdicts, cautions. Evaluated on demand, once each. */
import { tableColumn } from '../calc/working.js'
import { formula, type Scope } from '../formula/formula.js'
import { FormulaError, isError, toTruth, type Single, type Value } from '../formula/value.js'
import { assumable, assumableFields, runFields } from './assumed.js'
import { callFromFormula } from './call.js'
import { cautionRules, type CautionRule } from './cautions.js'
import { dailyBalance, medianYear, type DailyBalance } from './dailyBalance.js'
import { movedBy } from './dependents.js'
import { type CellValue } from './fields.js'
import type { JobName } from './names.js'
import { officeColumn, type Office, type Row } from './office.js'
import { CURVE_POINTS, fieldsOf, jobFields, MOST_TANKS, monthNames, tableNames, type TableName } from './officeTables.js'
import type { RainRecord } from './rainDays.js'
import { catchmentColumns, curveCell, curveColumns, monthColumns, monthDays, monthRain, monthStart, recordColumns, recordFigures, results } from './results/index.js'
import { templateFormula, type Words } from './template.js'
import { verdictRules, verdictWords, type RestingVerdict, type Verdict, type VerdictName } from './verdicts.js'

const resultByName = new Map<string, (typeof results)[number]>(results.map((rule) => [rule.name, rule]))
const verdictByName = new Map<string, RestingVerdict>(verdictRules.map((rule) => [rule.name, rule]))
const monthByName = new Map<string, (typeof monthColumns)[number]>(monthColumns.map((rule) => [rule.name, rule]))
const curveNames = new Set<string>(curveColumns.map((rule) => rule.name))
const catchmentNames = new Set<string>(catchmentColumns.map((rule) => rule.name))
const recordNames = new Set<string>([...recordColumns.map((rule) => rule.name), ...recordFigures])

export interface RaisedVerdict {
  name: VerdictName
  label: string
  verdict: Verdict
  words: string
  rule: RestingVerdict
}
export interface RaisedCaution extends CautionRule {
  words: string
}
/** A roof of a job. */
export interface Catchment {
  area_ft2: number
  surface: string
  inlet: string
}
export interface MonthlyUse {
  use: string
  months: readonly number[]
}

/** The cells of a row of Jobs, and which of them were left empty. */
function inputsOf(office: Office, job: Row): ReadonlyMap<string, Value> {
  const inputs = new Map<string, Value>([...Object.keys(jobFields), ...office.ownFields].map((name) => [name, job.cells[name] ?? '']))
  for (const field of assumableFields) inputs.set(assumable[field], job.defaulted.has(field) ? 1 : 0)
  return inputs.set('RunsAssumed', runFields.filter((name) => job.defaulted.has(name)).length)
}

export class Design {
  /** What the row says. */
  private readonly inputs: ReadonlyMap<string, Value>
  /** What the tool sized or found, and figures typed over: they stand before the row. */
  private readonly choices = new Map<string, Value>()
  private readonly known = new Map<string, Value>()
  /** The names that are not as they are on the design that this one is a trial of. */
  private readonly moved: ReadonlySet<string> | undefined
  private readonly scope: Scope
  /** Fields that the tool sized, with the value it took. */
  readonly sized = new Map<string, CellValue>()
  /** The roofs: that of the row first. */
  readonly catchments: readonly Catchment[]
  readonly uses: readonly MonthlyUse[]
  readonly record: RainRecord | undefined

  constructor(
    private readonly office: Office,
    readonly job: Row,
    sized: Readonly<Record<string, CellValue>> = {},
    figures: Readonly<Record<string, number>> = {},
    /** Figures found for this job that no formula gives. */
    found: Readonly<Record<string, CellValue>> = {},
    /** The same job before some inputs changed: what does not rest on them is taken from there. */
    private readonly base?: Design,
  ) {
    this.scope = { value: (name) => this.value(name), call: callFromFormula }
    this.inputs = base?.job === job ? base.inputs : inputsOf(office, job)
    for (const [name, value] of Object.entries(sized)) {
      this.choices.set(name, value ?? '')
      this.sized.set(name, value)
    }
    for (const [name, value] of [...Object.entries(figures), ...Object.entries(found)]) this.choices.set(name, value)
    this.moved = base && movedBy(this.changedSince(base))
    if (base?.job === job) {
      this.catchments = base.catchments
      this.uses = base.uses
      this.record = base.record
      return
    }
    const own = (table: TableName) => office.tables[table].filter(({ cells }) => String(cells.Job ?? '').toLowerCase() === this.name.toLowerCase())
    this.catchments = [
      { area_ft2: Number(job.cells.RoofArea_ft2), surface: String(job.cells.RoofSurface ?? ''), inlet: 'far' },
      ...own('Catchments').map(({ cells }) => ({ area_ft2: Number(cells.Area_ft2), surface: String(cells.Surface ?? ''), inlet: String(cells.Inlet ?? 'far') })),
    ]
    this.uses = own('Uses').map(({ cells }) => ({ use: String(cells.Use ?? ''), months: monthNames.map((month) => Number(cells[`${month}_gal_per_day`] ?? 0)) }))
    const record = office.rain.get(String(job.cells.RainStation ?? '').toLowerCase())
    this.record = record?.years.length ? record : undefined
  }

  private given(name: string): Value | undefined {
    return this.choices.get(name) ?? this.inputs.get(name)
  }

  /** The inputs and choices that are not what they are there. */
  private changedSince(base: Design): string[] {
    const names = new Set([...this.choices.keys(), ...base.choices.keys(), ...(base.inputs === this.inputs ? [] : [...this.inputs.keys(), ...base.inputs.keys()])])
    return [...names].filter((name) => !Object.is(this.given(name), base.given(name)))
  }

  /** Fields of the office's own. */
  get ownFields(): readonly string[] {
    return this.office.ownFields
  }

  get name(): string {
    return String(this.job.cells.Job ?? '')
  }

  /** The value of a field, result, verdict, column of months, roofs, years or curve, or table column. */
  value(name: string): Value | undefined {
    const known = this.given(name) ?? this.known.get(name)
    if (known !== undefined) return known
    if (this.moved && !this.moved.has(name)) return this.base!.value(name)
    const computed = this.compute(name)
    if (computed !== undefined) this.known.set(name, computed)
    return computed
  }

  /** Where the value of an input comes from. */
  origin(name: string): 'row' | 'default' | 'sized' {
    if (this.sized.has(name)) return 'sized'
    return this.job.defaulted.has(name) || this.job.cells[name] === null || this.job.cells[name] === undefined ? 'default' : 'row'
  }

  /** Why a field that the row leaves empty has its value. */
  whySized(name: string): string {
    if (name !== 'TankCount' || this.number('Reliability') >= this.number('WantedReliability')) return 'sized by the tool'
    const more = this.number('TankCount') < MOST_TANKS ? 'a tank more brings next to nothing' : 'what is missing is roof, rain or tanks of a larger model'
    return `sized by the tool: no count up to ${MOST_TANKS} reaches the wanted reliability, and ${more}`
  }

  /** A single value, as a sheet or a drawing wants it. */
  single(name: JobName): Single {
    return this.singleOf(name)
  }

  /** The same for a name that comes from data. */
  singleOf(name: string): Single {
    const value = this.value(name)
    return value === undefined ? null : Array.isArray(value) ? (value[0] as Single) : (value as Single)
  }

  number(name: JobName): number {
    const value = this.singleOf(name)
    return typeof value === 'number' ? value : NaN
  }

  column(name: string): readonly number[] {
    return this.value(name) as readonly number[]
  }

  evaluate(text: string): Value {
    return formula(text).evaluate(this.scope)
  }

  /** Evaluates with further names, such as the hours of the other lines. */
  evaluateWith(text: string, names: Readonly<Record<string, Value>>): Value {
    return formula(text).evaluate({ value: (wanted) => (Object.hasOwn(names, wanted) ? names[wanted] : this.value(wanted)), call: callFromFormula })
  }

  /** The one test of truth of every rule: what is not plainly false holds, so that a rule that fails is raised and not lost. */
  holds(condition: string): boolean {
    return condition === '' || toTruth(this.evaluate(condition)) !== false
  }

  words(words: Words): string {
    const text = templateFormula(words)
    return text === undefined ? (words as string) : this.text(text)
  }

  /** A formula of words; what fails in it is named. */
  text(formulaText: string): string {
    const value = this.evaluate(formulaText)
    return isError(value) ? `${value.code} ${value.message}`.trim() : String(value)
  }

  verdicts(): RaisedVerdict[] {
    return verdictRules
      .map((rule) => ({ name: rule.name as VerdictName, label: rule.label, verdict: this.verdict(rule.name as VerdictName), words: this.text(rule.wordsFormula), rule }))
      .sort((one, other) => verdictWords.indexOf(one.verdict) - verdictWords.indexOf(other.verdict))
  }

  /** A verdict whose formula fails is a stop: what cannot be checked is not passed. */
  verdict(name: VerdictName): Verdict {
    const value = this.single(name)
    return value === 'pass' || value === 'check' ? value : 'stop'
  }

  /** The verdict before what was assumed is looked at: what a choice of the tool is made by. */
  bareVerdict(name: VerdictName): Verdict {
    const value = this.evaluate(verdictByName.get(name)!.rule)
    return value === 'pass' || value === 'check' ? value : 'stop'
  }

  cautions(): RaisedCaution[] {
    return cautionRules.filter((rule) => this.holds(rule.when)).map((rule) => ({ ...rule, words: this.words(rule.text) }))
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
    if (recordNames.has(name)) {
      this.balanceRecord()
      return this.known.get(name)
    }
    if (catchmentNames.has(name)) return this.catchmentColumn(name)
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
    if (!table || !Object.hasOwn(fieldsOf(table), parts[2]!)) return undefined
    return officeColumn(this.office, table, parts[2]!)
  }

  private catchmentColumn(name: string): Value {
    const rule = catchmentColumns.find((column) => column.name === name)!
    return this.catchments.map((catchment) => {
      const cells: Readonly<Record<string, Value>> = { CatchArea_ft2: catchment.area_ft2, CatchSurface: catchment.surface, CatchInlet: catchment.inlet }
      return (rule.formula ? this.evaluateWith(rule.formula, cells) : cells[name]) as Single
    })
  }

  private walkMonths(): void {
    const columns = new Map<string, Single[]>(monthColumns.map(({ name }) => [name, []]))
    columns.set(
      'MonthRain_in',
      monthNames.map((_, month) => this.evaluate(monthRain(month)) as Single),
    )
    columns.set('MonthDays', [...monthDays])
    columns.set(
      'MonthUse_gal_per_day',
      monthNames.map((_, month) => this.uses.reduce((sum, { months }) => sum + months[month]!, this.number('DailyUse_gal_per_day'))),
    )
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
    walk(['MonthInflow_gal', 'MonthDemand_gal', 'FirstYear_gal', 'HighFirst_gal'])
    walk(['MonthSupplied_gal', 'MonthStored_gal', 'MonthOverflow_gal', 'HighSupplied_gal', 'HighStored_gal'])
    for (const [name, list] of columns) this.known.set(name, list)
  }

  /** The balance of the daily record; one empty row where there is none. */
  private balanceRecord(): void {
    const balance: DailyBalance | undefined =
      this.record &&
      dailyBalance(this.record, {
        inch_gal: this.number('InchYield_gal'),
        flush_in: this.number('FirstFlush_in'),
        flushEach: this.single('FirstFlushEach') as 'day' | 'wet spell',
        use_gal_per_day: this.column('MonthUse_gal_per_day'),
        storage_gal: this.number('UsableStorage_gal'),
      })
    const put = (name: JobName, values: Value) => this.known.set(name, values)
    const years = balance?.years ?? []
    const column = (pick: (year: (typeof years)[number]) => number): readonly Single[] => (years.length ? years.map(pick) : [''])
    put(
      'RecordYear',
      column(({ year }) => year),
    )
    put(
      'RecordDays',
      column(({ days }) => days),
    )
    put(
      'RecordRain_in',
      column(({ rain_in }) => rain_in),
    )
    put(
      'RecordCaught_gal',
      column(({ caught_gal }) => caught_gal),
    )
    put(
      'RecordWanted_gal',
      column(({ wanted_gal }) => wanted_gal),
    )
    put(
      'RecordSupplied_gal',
      column(({ supplied_gal }) => supplied_gal),
    )
    put(
      'RecordSpilled_gal',
      column(({ spilled_gal }) => spilled_gal),
    )
    put(
      'RecordMet',
      column(({ met }) => met),
    )
    put(
      'RecordShare',
      column(({ wanted_gal, supplied_gal }) => (wanted_gal === 0 ? 1 : supplied_gal / wanted_gal)),
    )
    put('RecordLongestShort_days', balance?.longestShort ?? 0)
    put('RecordDryMonths', medianYear(years)?.dryMonths ?? 0)
    put('RecordForStorage_gal', balance ? this.number('UsableStorage_gal') : 0)
    put('RecordForInch_gal', balance ? this.number('InchYield_gal') : 0)
    put('RecordForYear_gal', balance ? this.number('YearDemand_gal') : 0)
  }
}
