/** One job worked through: fields, sized choices, named results, months, record, curve, verdicts, cautions. Evaluated on demand, once each. */
import { tableColumn } from '../calc/working.js'
import { formula, type Scope } from '../formula/formula.js'
import { FormulaError, isError, toTruth, type Single, type Value } from '../formula/value.js'
import { assumable, assumableFields, runFields } from './assumed.js'
import { callFromFormula } from './call.js'
import { cautionRules, type CautionRule } from './cautions.js'
import { CABLE, leavesOut } from './chosenItems.js'
import { dailyBalance, type DailyBalance } from './dailyBalance.js'
import { movedBy } from './dependents.js'
import { type CellValue } from './fields.js'
import type { JobName } from './names.js'
import { officeColumn, type Office, type Row } from './office.js'
import { fieldsOf, jobFields, MOST_TANKS, monthNames, tableNames, type TableName } from './officeTables.js'
import { stationKey, type RainRecord } from './rainDays.js'
import { results } from './results/index.js'
import { curve } from './rowLists/curve.js'
import { rowLists } from './rowLists/index.js'
import { recordFigures } from './rowLists/record.js'
import { columnsOf, type Catchment, type JobRows, type Listed, type MonthlyUse, type RowList } from './rowLists/rowList.js'
import { templateFormula, type Words } from './template.js'
import { verdictByName, verdictRules, verdictWords, type RestingVerdict, type Verdict, type VerdictName } from './verdicts.js'

const resultByName = new Map<string, (typeof results)[number]>(results.map((rule) => [rule.name, rule]))
const listByName = new Map<string, RowList>(rowLists.flatMap((list) => list.columns.map(({ name }) => [name, list] as const)))

export interface RaisedVerdict {
  name: VerdictName
  label: string
  verdict: Verdict
  readonly words: string
  rule: RestingVerdict
}
export interface RaisedCaution extends CautionRule {
  words: string
}

/** The cells of a row of Jobs, and which of them were left empty. */
function inputsOf(office: Office, job: Row): ReadonlyMap<string, Value> {
  const inputs = new Map<string, Value>([...Object.keys(jobFields), ...office.ownFields].map((name) => [name, job.cells[name] ?? '']))
  // Without an inlet drain nobody asks how its ground rises, without a feed nobody how far it runs.
  const hasFeed = !leavesOut(office, job, CABLE)
  const isAsked = (field: string) => (field !== 'DownspoutRise_ft' || job.cells.InletRun_ft !== 0) && (field !== 'PowerRun_ft' || hasFeed)
  for (const field of assumableFields) inputs.set(assumable[field], job.defaulted.has(field) && isAsked(field) ? 1 : 0)
  return inputs.set('RunsAssumed', runFields.filter((name) => job.defaulted.has(name) && isAsked(name)).length)
}

const isOfRecord = (name: string): name is keyof typeof recordFigures => Object.hasOwn(recordFigures, name)

export class Design implements JobRows {
  /** What the row says. */
  private readonly inputs: ReadonlyMap<string, Value>
  /** What the tool sized or found, and figures typed over: they stand before the row. */
  private readonly choices = new Map<string, Value>()
  private readonly known = new Map<string, Value>()
  /** The names that are not as they are on the design that this one is a trial of. */
  private readonly moved: ReadonlySet<string> | undefined
  private readonly scope: Scope
  private readonly lists = new Map<RowList, Listed>()
  private balanced: DailyBalance | undefined
  private raised: readonly RaisedVerdict[] | undefined
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
    const record = office.rain.get(stationKey(String(job.cells.RainStation ?? '')))
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

  /** Where the value of an input comes from; an empty cable is the one that was sized. */
  origin(name: string): 'row' | 'default' | 'sized' {
    if (this.sized.has(name) || (name === 'CableSize' && this.singleOf(name) === '')) return 'sized'
    return this.job.defaulted.has(name) || this.job.cells[name] === null || this.job.cells[name] === undefined ? 'default' : 'row'
  }

  /** Why a field that the row leaves empty has its value. */
  whySized(name: string): string {
    if (name === 'CableSize') return 'sized by the tool, as Cable says'
    if (name !== 'TankCount' || this.number('SizingShare') >= this.number('WantedReliability')) return 'sized by the tool'
    const isRoof = this.number('RoofShare') < this.number('WantedReliability')
    const missing = isRoof ? 'what is missing is roof, or less use' : 'what is missing is roof, rain or tanks of a larger model'
    const more = this.number('TankCount') < MOST_TANKS ? `a tank more brings next to nothing${isRoof ? `: ${missing}` : ''}` : missing
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

  /** All verdicts, worst first; their words are put together when somebody reads them. */
  verdicts(): readonly RaisedVerdict[] {
    const words = (rule: RestingVerdict) => {
      const said = this.evaluate(rule.wordsFormula)
      return isError(said) ? `Not known: ${said.message || said.code}` : String(said)
    }
    return (this.raised ??= verdictRules
      .map((rule): RaisedVerdict => ({
        name: rule.name as VerdictName,
        label: rule.label,
        verdict: this.verdict(rule.name as VerdictName),
        rule,
        get words() {
          return words(rule)
        },
      }))
      .sort((one, other) => verdictWords.indexOf(one.verdict) - verdictWords.indexOf(other.verdict)))
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
    const list = listByName.get(name)
    if (list) return this.listed(list).column(name)
    if (isOfRecord(name)) return this.balance ? recordFigures[name](this.balance, (wanted) => this.value(wanted) ?? null) : 0
    if (name === 'Curve') {
      const [flow, head] = curve.columns.map((column) => this.value(column.name) as readonly Single[])
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

  /** The rows of a list, and its columns worked out for them. */
  listed(list: RowList): Listed {
    let listed = this.lists.get(list)
    if (!listed) {
      const rows = list.rows(this)
      const taken = (column: string) => (this.moved && listByName.has(column) && !this.moved.has(column) ? (this.base!.value(column) as readonly Single[]) : undefined)
      this.lists.set(list, (listed = { rows, column: columnsOf(list, rows, this.scope, taken) }))
    }
    return listed
  }

  /** The tanks day by day over the record; undefined where there is none. */
  get balance(): DailyBalance | undefined {
    if (!this.record) return undefined
    return (this.balanced ??= dailyBalance(this.record, {
      inch_gal: this.number('InchYield_gal'),
      flush_in: this.number('FirstFlush_in'),
      flushEach: this.single('FirstFlushEach') as 'day' | 'wet spell',
      use_gal_per_day: this.column('MonthUse_gal_per_day'),
      storage_gal: this.number('UsableStorage_gal'),
    }))
  }
}
