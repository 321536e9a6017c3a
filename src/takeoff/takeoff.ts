/** A job row becomes an itemized takeoff: the item rules evaluated over the design, each line with its quantities and its reason. */
import { sticksOfEqual } from './sticksOfEqual.js'
import { isError, toTruth, type Value } from '../formula/value.js'
import { orderQuantity } from '../calc/index.js'
import { roundTo } from '../rounding.js'
import { Design } from './design.js'
import { designJob } from './sizing.js'
import { shown } from '../errors.js'
import { problemText, ProblemsError, type Problem } from './fields.js'
import { isStone, LABOR_HOURS, lineSums, pricedUnit, readItemRules, STONE_ORDERED, type ItemRule } from './itemRules.js'
import { rowNamed, type Office, type Row } from './office.js'
import { stationOf } from './rainDays.js'
import { itemKinds, jobFields, MOST_TANKS, type ItemKind } from './officeTables.js'
import { alternativesOf, changedRow, withTanks } from './alternatives.js'
import { chosenItems, isOff } from './chosenItems.js'
import { houseOf, shareOf, type House } from './house.js'
import { isWrongUnit010 } from './older/prices010.js'
import { results } from './results/index.js'

/** What an estimator typed over on an earlier takeoff of the job, by the code of the line. */
export interface Override {
  quantity?: number
  price?: number
  /** The line as it stood, should no rule make it any more. */
  line?: AddedLine
}
/** A line that the estimator added by hand. */
export interface AddedLine {
  code: string
  description: string
  unit: string
  quantity: number | null
  price: number | null
  why: string
}
/** What the crew wrote, by the code of the step, tank or reading and what it is. */
export type CrewEntries = Readonly<Record<string, Readonly<Record<string, string | number>>>>
export interface CrewWritten {
  cells: CrewEntries
  added: readonly { text: string; done: string }[]
}
/** An input of the Design sheet that somebody typed over. */
export interface TypedInput {
  sheet: string
  row: number
  name: string
  value: string
  asMade: string
}
export interface Kept {
  overrides: Readonly<Record<string, Override>>
  added: readonly AddedLine[]
  /** House figures of the Design sheet, typed over. */
  figures: Readonly<Record<string, number>>
  inputs: readonly TypedInput[]
  crew: CrewWritten
  /** What was typed and cannot be kept as it is. */
  problems: readonly Problem[]
}
export const nothingKept: Kept = { overrides: {}, added: [], figures: {}, inputs: [], crew: { cells: {}, added: [] }, problems: [] }

export interface Line {
  rule: ItemRule
  code: string
  description: string
  why: string
  net: number
  override: number | undefined
  /** Equal pieces that the quantity is cut into, and what they are cut from. */
  cut: { count: number; stock: string } | undefined
  order: number
  /** What one unit costs; nothing while the price list is silent. */
  price: number | undefined
  /** Pieces that the listed price is for. */
  priceFor: number
  priceOverride: number | undefined
  /** What the list or the rule says, whatever was typed over it. */
  listed: number | undefined
  /** What a subcontractor would be paid, where the own crew digs. */
  subcontract: number
  /** Of the price list; empty where it names none. */
  supplier: string
  /** When the price was asked, where the list says it. */
  priceDate: string | undefined
  amount: number
  hours: number
}
/** A job in another shape: its takeoff, or why there is none. */
export interface Option {
  name: string
  /** Where it is the same job with so many tanks. */
  tanks: number | undefined
  /** The quote offers it as an alternate. */
  isOnQuote: boolean
  takeoff: Takeoff | undefined
  reason: string
}
/** So many tanks: what they meet, and what the job costs with them. */
export interface StairStep {
  tanks: number
  usable_gal: number
  met: number
  /** Share of the worst year; nothing where means alone are known. */
  worst: number | undefined
  /** Where it was worked out, and the job can be made so. */
  price: number | undefined
}
export interface Takeoff {
  design: Design
  /** What the office says of itself and of its money. */
  house: House
  /** Codes that the job leaves out. */
  without: readonly string[]
  /** What those would have been, in words. */
  leftOut: ReadonlyMap<string, string>
  /** The job with other tanks and in the variants of the office, worked out when asked for. */
  options: () => readonly Option[]
  /** One tank to twelve; prices of them all, or of those that the options have. */
  stair: (allPrices: boolean) => readonly StairStep[]
  lines: readonly Line[]
  added: readonly AddedLine[]
  crew: CrewWritten
  sections: readonly { section: string; lines: readonly Line[]; total: number }[]
  laborHours: number
  /** Days of the whole crew; they change no cost. */
  crewDays: number
  addedTotal: number
  orderCost: number
  byKind: Readonly<Record<ItemKind, number>>
  overhead: number
  markup: number
  tax: number
  total: number
  /** Overrides whose line is no longer part of the takeoff. */
  unused: readonly string[]
}
/** A job worked through as far as it goes: with problems the takeoff may be there all the same, its prices not complete. */
export interface Worked {
  design: Design | undefined
  takeoff: Takeoff | undefined
  problems: readonly Problem[]
}

/** No quantity of a line and no price of a unit comes near it. */
const MOST = 1e9
export const isAmount = (value: unknown): value is number => typeof value === 'number' && value >= 0 && value <= MOST
const came = (value: Value): string => (isError(value) ? `${value.code} ${value.message}`.trim() : typeof value === 'string' ? `"${value}"` : String(value))

export const money = (value: number): number => roundTo(value, 2)

/** Sheet names: Excel allows 31 characters and none of these; the grid takes no straight apostrophe. */
export function sheetNameProblem(name: string): string | undefined {
  if (name.length > 31) return 'at most 31 characters in a sheet name'
  if (/[[\]:*?/\\]/.test(name)) return 'no [ ] : * ? / or \\ in a sheet name'
  // eslint-disable-next-line no-control-regex -- those are what is refused
  if (/[\u0000-\u001f]/.test(name)) return 'no line break and no tab in a sheet name'
  if (name.includes("'")) return 'no straight apostrophe in a sheet name; the curly one, ’, is taken'
  return undefined
}

/** Makes the takeoff of one job; refuses with all problems of the job at once. */
export function makeTakeoff(office: Office, job: Row, kept: Kept = nothingKept): Takeoff {
  const { takeoff, problems } = workJob(office, job, kept)
  if (problems.length || !takeoff) throw new ProblemsError(problems)
  return takeoff
}

/** Works a job through; what stands in the way is listed, and what can be worked out all the same is there. `like` is the same job with other inputs. */
export function workJob(office: Office, job: Row, kept: Kept = nothingKept, like?: Design): Worked {
  const { rules, problems: ruleProblems } = rulesOf(office)
  const first = [...problemsOf(office, job), ...ruleProblems, ...kept.problems]
  if (!first.every(isUnpriced)) return { design: undefined, takeoff: undefined, problems: first }
  const design = designJob(office, job, kept.figures, like)
  const { problems: variantProblems } = alternativesOf(office, job, design.number('TankCount'))
  const problems: Problem[] = [
    ...first.filter((problem) => isOfChosen(office, design, problem)),
    ...variantProblems,
    ...chosenItems(office, job, rules).problems,
    ...houseOf(office).problems,
    ...rowProblems(office, job, design),
    ...designProblems(office, job, design),
    ...typedProblems(office, design, kept.inputs),
    ...siteProblems(office, design, kept),
  ]
  if (!problems.every(isUnpriced)) return { design, takeoff: undefined, problems }
  const { lines, laborHours } = makeLines(office, design, rules, kept, problems)
  return { design, takeoff: summed(office, job, design, rules, lines, laborHours, kept), problems }
}

/** A price that nobody has filled in yet stands in the way of the total alone. */
const isUnpriced = ({ unpriced }: Problem): boolean => unpriced !== undefined
/** Of pumps and pressure tanks without a price the one that was chosen matters; before, any might have been. */
function isOfChosen(office: Office, design: Design, { sheet, row }: Problem): boolean {
  if (sheet === office.sheets.Pumps) return rowNamed(office, 'Pumps', String(design.single('PumpModel') ?? ''))?.row === row
  if (sheet === office.sheets.PressureTanks) return office.tables.PressureTanks.find(({ cells }) => cells.Volume_gal === design.single('PressureTank_gal'))?.row === row
  return true
}

function optionsOf(office: Office, job: Row, design: Design, kept: Kept): readonly Option[] {
  return alternativesOf(office, job, design.number('TankCount')).alternatives.map((alternative) => {
    const { takeoff, problems } = workJob(office, changedRow(job, alternative), { ...kept, inputs: [], problems: [] }, design)
    return {
      name: alternative.name,
      tanks: alternative.tanks,
      isOnQuote: alternative.isOnQuote ?? false,
      takeoff: problems.length ? undefined : takeoff,
      reason: problems[0] ? problemText(problems[0]) : '',
    }
  })
}

function stairOf(office: Office, job: Row, design: Design, total: number, options: readonly Option[], allPrices: boolean, kept: Kept): readonly StairStep[] {
  const chosen = design.number('TankCount')
  return Array.from({ length: MOST_TANKS }, (_, at): StairStep => {
    const alternative = withTanks(at + 1)
    const row = changedRow(job, alternative)
    const trial = at + 1 === chosen ? design : new Design(office, row, {}, kept.figures, {}, design)
    const known = options.find(({ tanks }) => tanks === at + 1)
    const priced = known?.takeoff ?? (allPrices && !known && at + 1 !== chosen ? workJob(office, row, { ...kept, inputs: [], problems: [] }, design).takeoff : undefined)
    return {
      tanks: at + 1,
      usable_gal: trial.number('UsableStorage_gal'),
      met: trial.number('Reliability'),
      worst: trial.number('RecordYears') > 0 ? trial.number('WorstYearShare') : undefined,
      price: at + 1 === chosen ? total : priced?.total,
    }
  })
}

const wordsOf = (design: Design, part: ItemRule['description']): string => {
  const value = part.formula === undefined ? part.text : design.evaluate(part.formula)
  return typeof value === 'string' ? value : part.text
}

function summed(office: Office, job: Row, design: Design, rules: readonly ItemRule[], lines: readonly Line[], laborHours: number, kept: Kept): Takeoff {
  const grouped = [...new Set(rules.map(({ section }) => section))].map((section) => {
    const own = lines.filter((line) => line.rule.section === section)
    return { section, lines: own, total: money(own.reduce((sum, line) => sum + line.amount, 0)) }
  })
  const codes = new Set(lines.map((line) => line.code))
  const dropped = Object.entries(kept.overrides).filter(([code]) => !codes.has(code))
  /** A code that no rule could give is a line that somebody put in; one of a rule is a line that this job needs no more. */
  const isOfRule = (code: string) =>
    rules.some(({ key }) =>
      new RegExp(
        `^${key
          .split(/\{\w+\}/)
          .map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
          .join('.+')}$`,
      ).test(code),
    )
  const added = [...kept.added, ...dropped.flatMap(([code, { line }]) => (line && !isOfRule(code) ? [line] : []))]
  const addedTotal = money(added.reduce((sum, line) => sum + money((line.quantity ?? 0) * (line.price ?? 0)), 0))
  const orderCost = money(grouped.reduce((sum, { total }) => sum + total, 0) + addedTotal)
  const ofKind = (kind: ItemKind) => money(lines.filter(({ rule }) => rule.kind === kind).reduce((sum, line) => sum + line.amount, kind === 'other' ? addedTotal : 0))
  const byKind = Object.fromEntries(itemKinds.map((kind) => [kind, ofKind(kind)])) as Record<ItemKind, number>
  const { house } = houseOf(office)
  const share = (kinds: readonly ItemKind[]) => shareOf(kinds, byKind, orderCost)
  const overhead = money(orderCost * share(house.overheadOn) * design.number('Overhead'))
  const markup = money(orderCost * share(house.markupOn) * design.number('Markup'))
  const tax = money((orderCost + overhead + markup) * share(house.taxOn) * design.number('Tax'))
  const total = money(orderCost + overhead + markup + tax)
  let worked: readonly Option[] | undefined
  const options = () => (worked ??= optionsOf(office, job, design, kept))
  return {
    design,
    house,
    without: chosenItems(office, job, rules).without,
    options,
    stair: (allPrices) => stairOf(office, job, design, total, options(), allPrices, kept),
    leftOut: new Map(rules.map((rule) => [rule.key, wordsOf(design, rule.description)])),
    lines,
    added,
    crew: kept.crew,
    sections: grouped.filter((group) => group.lines.length),
    laborHours,
    crewDays: laborHours / (design.number('CrewSize') * design.number('Workday_h_per_day')),
    addedTotal,
    orderCost,
    byKind,
    overhead,
    markup,
    tax,
    total,
    unused: dropped.filter(([code, { line }]) => !line || isOfRule(code)).map(([code]) => code),
  }
}

/** Rules are read once for an office, however many jobs follow. */
const rulesByOffice = new WeakMap<Office, ReturnType<typeof readItemRules>>()
export function rulesOf(office: Office): ReturnType<typeof readItemRules> {
  let found = rulesByOffice.get(office)
  if (!found) rulesByOffice.set(office, (found = readItemRules(office)))
  return found
}

/** Problems found while reading that bear on this job: its own row, and every table it draws on. */
export function problemsOf(office: Office, job: Row): Problem[] {
  const name = String(job.cells.Job ?? '')
  const isNamesake = ({ sheet, column, came }: Problem) => sheet === office.sheets.Jobs && column === 'Job' && came.toLowerCase() === `"${name.toLowerCase()}"`
  const own = office.problems.filter((problem) => bearsOn(office, job, problem) || isNamesake(problem))
  if (!office.tables.Pumps.length) own.push({ sheet: office.sheets.Pumps, row: 0, column: 'Model', allowed: 'one pump at least', came: 'no row' })
  const reason = sheetNameProblem(`Takeoff ${name}`)
  if (name && reason) own.push({ sheet: office.sheets.Jobs, row: job.row, column: 'Job', allowed: reason, came: `"${name}"` })
  return own
}

/** A mistake in a tank or pump that the job does not use is no reason to refuse it. */
function bearsOn(office: Office, job: Row, { sheet, row, column }: Problem): boolean {
  if (row === 0) return true
  if (sheet === office.sheets.Jobs) return row === job.row
  const ofJobs = (['Catchments', 'Uses', 'Variants'] as const).find((name) => office.sheets[name] === sheet)
  if (ofJobs) {
    // A row that names no job is drawn on by none: it is told with the workbook, and stands in no job's way.
    if (column === 'Job') return false
    const of = office.tables[ofJobs].find((known) => known.row === row)?.cells.Job
    return of === null || of === undefined || String(of).toLowerCase() === String(job.cells.Job ?? '').toLowerCase()
  }
  if (sheet === office.sheets.RainDays) return column === 'Date' || stationOf(column).station.toLowerCase() === String(job.cells.RainStation ?? '').toLowerCase()
  const usedBy = { Tanks: ['TankModel', 'SecondModel'], Pumps: ['PumpModel'], Rain: ['RainStation'], Cranes: ['CraneModel'] } as const
  const table = (Object.keys(usedBy) as (keyof typeof usedBy)[]).find((name) => office.sheets[name] === sheet)
  if (!table) return true
  const wanted = usedBy[table].flatMap((field) => job.cells[field] ?? [])
  return !wanted.length || wanted.some((name) => rowNamed(office, table, name)?.row === row)
}

/** The field to look at first where a result has no value. */
const fieldBehind: Readonly<Record<string, string>> = {
  LineBore_in: 'WaterLineSize',
  MotorCurrent_A: 'Voltage_V',
  Cable: 'PowerRun_ft',
  CableAmpacity_A: 'CableSize',
  FeederDrop_V: 'CableSize',
}

/** Figures of a row that do not go together. */
function rowProblems(office: Office, job: Row, design: Design): Problem[] {
  const at = (column: string, allowed: string, value: unknown): Problem => ({ sheet: office.sheets.Jobs, row: job.row, column, allowed, came: shown(value) })
  const found: Problem[] = []
  const [cutIn, cutOut] = [design.number('CutIn_psi'), design.number('CutOut_psi')]
  if (cutIn >= cutOut) found.push(at('CutOut_psi', `above the cut-in, ${cutIn} psi`, cutOut))
  if (design.number('TrenchDepth_in') < design.number('FrostDepth_in'))
    found.push(at('TrenchDepth_in', `at least the frost depth, ${design.number('FrostDepth_in')} in`, design.number('TrenchDepth_in')))
  if (design.single('CableMetal') === 'aluminum') found.push(at('CableMetal', 'copper: the cable goes down into the water', 'aluminum'))
  found.push(...secondModelProblems(office, job, design))
  const [dead, water] = [design.number('DeadDepth_in'), 12 * design.number('TankWaterDepth_ft')]
  if (dead >= water) found.push(at('DeadDepth_in', `below the water depth of ${String(design.single('TankModel'))}, ${roundTo(water, 1)} in`, dead))
  // Roof water enters the far tank, which is of the second model where there is one.
  const farModel = design.number('SecondTanks') > 0 ? job.cells.SecondModel : job.cells.TankModel
  const ports = design.number('FarTankPorts')
  if (ports < 1 || (ports === 1 && design.number('TankCount') === 1))
    found.push({
      sheet: office.sheets.Tanks,
      row: rowNamed(office, 'Tanks', farModel ?? null)?.row ?? 0,
      column: 'Ports',
      allowed: ports < 1 ? 'one upper port at least, for inlet and overflow; two on a single tank' : 'two upper ports on a single tank, inlet and overflow',
      came: shown(ports),
    })
  if (design.number('InletTanks') === 2 && design.number('TankCount') === 1) found.push(at('InletTanks', '1 where there is one tank', 2))
  return found
}

/** Columns that two models of one row share: they stand on one bed, are tied low, and hold their water at one height. */
const SHARED = ['Height_ft', 'Floor_in', 'Lid_in', 'WaterDepth_ft', 'Port_in'] as const

/** Two models that cannot stand in one row, a count that leaves no tank at the pump, and an office whose rules know one model alone. */
function secondModelProblems(office: Office, job: Row, design: Design): Problem[] {
  const { SecondModel: model = null, SecondCount: count = null, TankModel: first = null } = job.cells
  const at = (column: string, allowed: string, value: unknown): Problem => ({ sheet: office.sheets.Jobs, row: job.row, column, allowed, came: shown(value) })
  if (model === null) return Number(count ?? 1) === jobFields.SecondCount.default ? [] : [at('SecondCount', 'empty where there is no SecondModel', count)]
  if (model === first) return [at('SecondModel', `another model than TankModel, or nothing`, model)]
  const found: Problem[] = []
  const tanks = design.number('TankCount')
  if (Number(count) >= tanks) found.push(at('SecondCount', `fewer than the tanks of the row, ${tanks}: the tank at the pump is of TankModel`, count))
  const [one, other] = [first, model].map((name) => rowNamed(office, 'Tanks', name))
  for (const column of SHARED) {
    const [mine, theirs] = [one?.cells[column] ?? null, other?.cells[column] ?? null]
    if (other && mine !== theirs)
      found.push({
        sheet: office.sheets.Tanks,
        row: other.row,
        column,
        allowed: `${shown(mine)} as ${String(first)} has it: two models in one row stand on one bed and are tied low`,
        came: shown(theirs),
      })
  }
  if (!rulesOf(office).rules.some(({ quantity }) => quantity.names.includes('SecondTanks')))
    found.push({
      sheet: office.sheets.Items,
      row: 0,
      column: 'Quantity',
      allowed: 'a row over SecondTanks, as TANK-2 of a new workbook: the rules of this office know one model alone, and --update brings them',
      came: 'none',
    })
  return found
}

/** Results that came out as errors, and mixes that are never built. */
function designProblems(office: Office, job: Row, design: Design): Problem[] {
  const at = (column: string, allowed: string, value: string): Problem => ({ sheet: office.sheets.Jobs, row: job.row, column, allowed, came: value })
  const failed = results.flatMap(({ name, label }) => {
    const value = design.singleOf(name)
    return isError(value) ? [at(fieldBehind[name] ?? `${label} (${name})`, value.message ? value.message.replace(/\.$/, '') : `a figure; it came out as ${value.code}`, '')] : []
  })
  const distinct = failed.filter((problem, index) => failed.findIndex((other) => other.allowed === problem.allowed) === index)
  // What rests on a failed figure fails without words of its own: the figure that has words is named, else the first.
  const withWords = distinct.filter(({ allowed }) => !allowed.startsWith('a figure;'))
  const named = withWords.length ? withWords : distinct.slice(0, 1)
  if (design.verdict('FittingsVerdict') === 'stop') {
    named.push(
      at(
        'LineFittings',
        `${design.single('LineFit') === 'CTS' ? 'CTS compression' : 'IPS insert'} on ${String(design.single('WaterLinePipe'))}: IPS and CTS are never mixed`,
        `"${String(design.single('LineFittings'))}"`,
      ),
    )
  }
  return named
}

/** The row of Jobs is what counts: an input typed over on the Design sheet goes there, or back to what it was. */
function typedProblems(office: Office, design: Design, inputs: readonly TypedInput[]): Problem[] {
  return inputs
    .filter(({ name, value }) => String(design.singleOf(name) ?? '') !== value)
    .map(({ sheet, row, name, value, asMade }) => ({
      sheet,
      row,
      column: name,
      allowed: `${asMade || 'empty'} as it was made, or the same in the row of ${office.sheets.Jobs}`,
      came: value || 'nothing',
    }))
}

/** Before the name of a field on the Site list. */
export const SITE_PREFIX = 'V '

/** What was found on site counts once it stands in the row of Jobs: until then the takeoff would price something else. */
function siteProblems(office: Office, design: Design, kept: Kept): Problem[] {
  return Object.entries(kept.crew.cells).flatMap(([code, { done = '' }]) => {
    const name = code.startsWith(SITE_PREFIX) ? code.slice(SITE_PREFIX.length) : ''
    if (!Object.hasOwn(jobFields, name) || done === '' || String(done) === String(design.singleOf(name))) return []
    return [
      {
        sheet: office.sheets.Jobs,
        row: design.job.row,
        column: name,
        allowed: `what was found on site, ${String(done)}, or the Site list cleared of it`,
        came: shown(design.job.cells[name] ?? ''),
      },
    ]
  })
}

/** Lines over other lines come last: first those over the stone ordered, then those over the hours of people. */
function makeLines(office: Office, design: Design, rules: readonly ItemRule[], kept: Kept, problems: Problem[]): { lines: Line[]; laborHours: number } {
  const prices = pricesOf(office)
  const chosen = chosenItems(office, design.job, rules)
  const lines = new Map<ItemRule, Line>()
  const sums: Record<string, number> = { [STONE_ORDERED]: 0, [LABOR_HOURS]: 0 }
  for (const sum of [undefined, ...lineSums]) {
    if (sum === STONE_ORDERED) for (const line of lines.values()) sums[STONE_ORDERED]! += isStone(line.code) ? line.order : 0
    if (sum === LABOR_HOURS) for (const line of lines.values()) sums[LABOR_HOURS]! += line.hours
    for (const rule of rules) {
      if (rule.sum !== sum || isOff(rule, chosen)) continue
      const line = makeLine(office, design, rule, sums, prices, kept, problems)
      if (line) lines.set(rule, line)
    }
  }
  return { lines: rules.flatMap((rule) => lines.get(rule) ?? []), laborHours: sums[LABOR_HOURS]! }
}

type Prices = ReadonlyMap<string, Row>
const pricesByOffice = new WeakMap<Office, Prices>()
function pricesOf(office: Office): Prices {
  let found = pricesByOffice.get(office)
  if (!found) pricesByOffice.set(office, (found = new Map(office.tables.Prices.map((row) => [String(row.cells.Code), row]))))
  return found
}

function makeLine(office: Office, design: Design, rule: ItemRule, sums: Readonly<Record<string, number>>, prices: Prices, kept: Kept, problems: Problem[]): Line | undefined {
  const evaluate = (text: string): Value => design.evaluateWith(text, sums)
  const problem = (column: string, allowed: string, value: unknown) => {
    problems.push({ sheet: office.sheets.Items, row: rule.row, column, allowed: `${allowed} (job ${design.name})`, came: String(value) })
    return undefined
  }
  const truth = rule.when ? toTruth(evaluate(rule.when.text)) : true
  if (isError(truth)) return problem('When', 'a formula that gives TRUE or FALSE', came(truth))
  if (!truth) return undefined
  const net = evaluate(rule.quantity.text)
  if (!isAmount(net)) return problem('Quantity', 'a formula that gives a number, 0 to 1,000,000,000', came(net))
  if (net === 0) return undefined
  const code = rule.code === undefined ? rule.key : String(evaluate(rule.code))
  const row = prices.get(code)
  const { quantity: override, price: priceOverride } = kept.overrides[code] ?? {}
  const [listed, priceFor] = listedPrice()
  const used = override ?? net
  const plain = orderQuantity.run({ net: used, waste: rule.waste, lot: rule.lot })
  const cut = cutOf()
  if (cut === 'refused') return undefined
  const sticks = cut && sticksOfEqual(rule.lot, design.number('SawKerf_in') / 12, used / cut.count, cut.count)
  const order = sticks === undefined ? plain : Math.max(plain, sticks * rule.lot)
  const price = priceOverride ?? listed
  const words = (column: string, part: ItemRule['why']): string => {
    const value = part.formula === undefined ? part.text : evaluate(part.formula)
    if (typeof value === 'string') return value
    problem(column, 'braces around single values', came(Array.isArray(value) ? (value.find(isError) ?? 'a list') : value))
    return ''
  }
  const [description, why] = [words('Description', rule.description), words('Why', rule.why)]
  const hours = rule.isEarthwork && design.single('EarthworkBy') === 'subcontract' ? 0 : used * rule.laborHours
  return {
    rule,
    code,
    description,
    why,
    net: net as number,
    override,
    cut,
    order,
    price,
    priceFor,
    priceOverride,
    listed,
    subcontract: Number(row?.cells.Price_usd ?? 0) / priceFor,
    supplier: String(row?.cells.Supplier ?? ''),
    priceDate: typeof row?.cells.PriceDate === 'string' ? row.cells.PriceDate : undefined,
    amount: money(order * (price ?? 0)),
    hours,
  }

  /** The pieces of a line that is cut; none where the rule says none. */
  function cutOf(): Line['cut'] | 'refused' {
    if (!rule.pieces) return undefined
    const count = evaluate(rule.pieces.text)
    if (!isAmount(count)) return problem('Pieces', 'a formula that gives a count, 0 to 1,000,000,000', came(count)) ?? 'refused'
    const stock = rule.stock === undefined ? code : evaluate(rule.stock)
    return count > 0 ? { count: Math.ceil(count), stock: String(stock) } : undefined
  }

  /** What one unit costs by the rule or the list, and how many pieces the list prices at once. */
  function listedPrice(): [price: number | undefined, count: number] {
    if (rule.isEarthwork && design.single('EarthworkBy') === 'own crew') return [0, 1]
    if (rule.price) {
      const value = evaluate(rule.price.text)
      if (isAmount(value)) return [value, 1]
      // The price of the tank, pump or pressure tank itself is missing: that is said where it belongs.
      if ((value === null || value === '') && problems.some((one) => isUnpriced(one) && one.sheet !== office.sheets.Prices)) return [undefined, 1]
      problem('Price', 'a formula that gives a price, $0 to 1,000,000,000', came(value))
      return [undefined, 1]
    }
    if (!row) {
      problem('Code', `a code with a row in ${office.sheets.Prices}`, `"${code}"`)
      return [undefined, 1]
    }
    const at = (column: string, allowed: string, value: string, more: Pick<Problem, 'unpriced'> = {}) =>
      problems.push({ sheet: office.sheets.Prices, row: row.row, column, allowed: `${allowed} (job ${design.name})`, came: value, ...more })
    const listedUnit = String(row.cells.Unit ?? '')
    const [priced, counted] = [pricedUnit(listedUnit === '' || isWrongUnit010(code, listedUnit) ? rule.unit : listedUnit), pricedUnit(rule.unit)]
    if (priced.name !== counted.name) at('Unit', `${rule.unit}, as the item ${code} is counted, or a number of it, as 100 ${rule.unit}`, `"${String(row.cells.Unit)}"`)
    const listed = row.cells.Price_usd ?? null
    if (!isAmount(listed)) {
      if (priceOverride === undefined) at('Price_usd', `a price for ${code}, $0 to 1,000,000`, 'nothing', { unpriced: code })
      return [undefined, 1]
    }
    if (houseOf(office).house.needsPriceDates && (row.cells.PriceDate ?? null) === null)
      at('PriceDate', `the date of the price, which the sheet ${office.sheets.House} asks for`, 'nothing')
    return [(listed * counted.count) / priced.count, priced.count / counted.count]
  }
}
