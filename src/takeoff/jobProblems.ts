/** What stands in a job's way though each of its cells is well: figures that do not go together, results without a value, words typed where they do not count. */
import { shown } from '../errors.js'
import { assumable } from './assumed.js'
import { isError } from '../formula/value.js'
import { roundTo } from '../rounding.js'
import type { Design } from './design.js'
import { checkedOrRaw, type CellValue, type Problem } from './fields.js'
import { rulesOf, type ItemRule } from './itemRules.js'
import { rowNamed, type Office, type Row } from './office.js'
import { jobFields, type JobFieldName } from './officeTables.js'
import { results } from './results/index.js'
import { ruleOfCode } from './ruleOfCode.js'
import type { Kept, TypedInput } from './typed.js'

/** The field to look at first where a result has no value. */
const fieldBehind: Readonly<Record<string, string>> = {
  LineBore_in: 'WaterLineSize',
  LineWidth_ft: 'WaterLineSize',
  TrenchFill_yd3: 'RoofArea_ft2',
  WaterPower_hp: 'HouseFlow_gpm',
  NextHead_ft: 'RoofArea_ft2',
  DrawdownShare: 'CutOut_psi',
  TableCurrent_A: 'PumpModel',
  Cable: 'PowerRun_ft',
  CableAmpacity_A: 'CableSize',
  FeederDrop_V: 'CableSize',
}

/** Share of a lid that may be holes: beyond it is a slip (common practice). */
const MOST_HOLES = 0.5

/** Figures of a row that do not go together. */
export function rowProblems(office: Office, job: Row, design: Design): Problem[] {
  const at = (column: string, allowed: string, value: unknown): Problem => ({ sheet: office.sheets.Jobs, row: job.row, column, allowed, came: shown(value) })
  const found: Problem[] = []
  const [cutIn, cutOut] = [design.number('CutIn_psi'), design.number('CutOut_psi')]
  if (cutIn >= cutOut) found.push(at('CutOut_psi', `above the cut-in, ${cutIn} psi`, cutOut))
  if (design.number('TrenchDepth_in') < design.number('FrostDepth_in'))
    found.push(at('TrenchDepth_in', `at least the frost depth, ${design.number('FrostDepth_in')} in`, design.number('TrenchDepth_in')))
  if (design.single('CableMetal') === 'aluminum') found.push(at('CableMetal', 'copper: the cable goes down into the water', 'aluminum'))
  if (job.cells.Backflow === 'preventer' && job.cells.BackflowLoss_psi === 0) found.push(at('BackflowLoss_psi', 'above 0 where there is a preventer', 0))
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
  const models = [
    [job.cells.TankModel, 'TankOpenings', 'TankOpening_in', 'TankPlan_ft2'],
    ...(design.number('SecondTanks') > 0 ? [[job.cells.SecondModel, 'SecondOpenings', 'SecondOpening_in', 'SecondPlan_ft2'] as const] : []),
  ] as const
  for (const [model, count, across, plan] of models) {
    const holes_ft2 = design.number(count) * (Math.PI / 4) * (design.number(across) / 12) ** 2
    if (holes_ft2 > MOST_HOLES * design.number(plan))
      found.push({
        sheet: office.sheets.Tanks,
        row: rowNamed(office, 'Tanks', model ?? null)?.row ?? 0,
        column: 'Opening_in',
        allowed: `openings that leave at least half of the lid, ${roundTo(design.number(plan), 1)} ft²`,
        came: `${design.number(count)} of ${design.number(across)} in, ${roundTo(holes_ft2, 1)} ft²`,
      })
  }
  found.push(...nameProblems(office, job))
  if (job.cells.InletTanks === 1 && design.number('NextShare') > 0) found.push(at('InletTanks', `2, or empty: a roof of ${office.sheets.Catchments} drains into the next tank`, 1))
  if (design.number('InletTanks') === 2 && design.number('TankCount') === 1) found.push(at('InletTanks', '1 where there is one tank', 2))
  return found
}

/** A name that somebody else has or had, and rows of further tables that stand under the one that the job had. */
function nameProblems(office: Office, job: Row): Problem[] {
  const nameIn = ({ cells }: Row, column: 'Job' | 'FormerName'): string => String(cells[column] ?? '').toLowerCase()
  const at = (column: string, allowed: string): Problem => ({ sheet: office.sheets.Jobs, row: job.row, column, allowed, came: shown(job.cells[column]) })
  const others = office.tables.Jobs.filter(({ row }) => row !== job.row)
  const [name, former] = [nameIn(job, 'Job'), nameIn(job, 'FormerName')]
  const heir = others.find((other) => nameIn(other, 'FormerName') === name)
  const found = heir ? [at('Job', `another name while row ${heir.row} says that it was called so before: make that job first, then clear its FormerName`)] : []
  if (!former) return found
  const twin = others.find((other) => nameIn(other, 'FormerName') === former)
  if (others.some((other) => nameIn(other, 'Job') === former))
    found.push(at('FormerName', 'a name that no job has any more, or nothing; to swap two names, give one of them a third name first'))
  else if (twin) found.push(at('FormerName', `a name that one row gives; row ${twin.row} gives it too`))
  // A second roof and uses of the job would be left out of it without a word.
  const further = [office.sheets.Catchments, office.sheets.Uses, office.sheets.Variants]
  const left = office.problems.filter(({ sheet, column, came }) => further.includes(sheet) && column === 'Job' && came.toLowerCase() === `"${former}"`)
  return [...found, ...left.map((problem) => ({ ...problem, allowed: `${String(job.cells.Job)}, as the job is called now` }))]
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
export function designProblems(office: Office, job: Row, design: Design): Problem[] {
  const at = (column: string, allowed: string, value: string): Problem => ({ sheet: office.sheets.Jobs, row: job.row, column, allowed, came: value })
  const failed = results.flatMap(({ name, label }) => {
    const value = design.singleOf(name)
    if (!isError(value)) return []
    const place = `${label} (${name})`
    return value.message
      ? [{ name, hasWords: true, problem: at(place, value.message.replace(/\.$/, ''), '') }]
      : [{ name, hasWords: false, problem: at(place, `a figure; it came out as ${value.code}`, '') }]
  })
  // One mistake makes many figures fail, in the same words: it is told at the first of them that has a field behind it.
  const distinct = failed
    .filter(({ problem }, index) => failed.findIndex((other) => other.problem.allowed === problem.allowed) === index)
    .map((one) => {
      const known = failed.find(({ name, problem }) => problem.allowed === one.problem.allowed && Object.hasOwn(fieldBehind, name))
      return known ? { ...one, problem: { ...one.problem, column: fieldBehind[known.name]! } } : one
    })
  // What rests on a failed figure fails without words of its own: the figure that has words is named, else the first.
  const withWords = distinct.filter(({ hasWords }) => hasWords)
  const named = (withWords.length ? withWords : distinct.slice(0, 1)).map(({ problem }) => problem)
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
export function typedProblems(office: Office, design: Design, inputs: readonly TypedInput[]): Problem[] {
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

/** Whether an entry says what the row says, in whatever unit, spelling or capitals. */
function isSaid(design: Design, name: JobFieldName, entry: CellValue): boolean {
  // The default of an empty cell is nobody's word.
  if (Object.hasOwn(assumable, name) && design.job.defaulted.has(name)) return false
  const value = design.singleOf(name)
  const found = checkedOrRaw(name, jobFields[name], entry)
  if (typeof found === 'number' && typeof value === 'number') return Math.abs(found - value) <= SAME * Math.max(1, Math.abs(value))
  return (
    String(found).trim().toLowerCase() ===
    String(value ?? '')
      .trim()
      .toLowerCase()
  )
}
/** Units convert to so many digits. */
const SAME = 1e-9

/** What was found on site counts once it stands in the row of Jobs: until then the takeoff would price something else. */
/** What was typed on a line whose rule is no more: another line has taken its place, or none. */
export function withoutRule(office: Office, rules: readonly ItemRule[], { overrides }: Kept): Problem[] {
  return Object.entries(overrides)
    .filter(([code, { wasOurs }]) => wasOurs && !ruleOfCode(rules, code))
    .map(([code, { quantity, price }]) => ({
      sheet: office.sheets.Items,
      row: 0,
      column: 'Code',
      allowed: `a row for ${code}, whose line on the takeoff has ${[...(quantity === undefined ? [] : [`the quantity ${quantity}`]), ...(price === undefined ? [] : [`the price $${price}`])].join(' and ')} typed on it. Give its row that code back; or clear what was typed there, and type it on the line that takes its place or among the lines by hand`,
      came: 'no such code',
    }))
}

export function siteProblems(office: Office, design: Design, kept: Kept): Problem[] {
  return Object.entries(kept.crew.cells).flatMap(([code, { done = '' }]) => {
    const name = code.startsWith(SITE_PREFIX) ? code.slice(SITE_PREFIX.length) : ''
    if (!Object.hasOwn(jobFields, name) || done === '' || isSaid(design, name as JobFieldName, done)) return []
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
