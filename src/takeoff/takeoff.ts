/** A job row becomes an itemized takeoff: the design, its lines and their sums, or what stands in the way. */
import { alternativesOf, changedRow, withTanks } from './alternatives.js'
import { ruleOfCode } from './ruleOfCode.js'
import { chosenItems } from './chosenItems.js'
import { Design } from './design.js'
import { isUnpriced, problemText, ProblemsError, type Problem } from './fields.js'
import { houseOf, type House } from './house.js'
import { rulesOf } from './itemRules.js'
import { designProblems, rowProblems, siteProblems, typedProblems, withoutRule } from './jobProblems.js'
import { makeLines, type Line } from './lines.js'
import type { Office, Row } from './office.js'
import { MOST_TANKS, type ItemKind } from './officeTables.js'
import { designJob } from './sizing.js'
import { isOfChosen, problemsOf } from './tableProblems.js'
import { totalsOf, type Totals } from './totals.js'
import { nothingKept, type CrewWritten, type Kept } from './typed.js'

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
export interface Takeoff extends Totals {
  design: Design
  /** What the office says of itself and of its money. */
  house: House
  /** Codes that the job leaves out. */
  without: readonly string[]
  /** What they would have been, in words. */
  leftOut: readonly string[]
  /** What a dollar of a line, by its code or a hand line's description, is to the customer: with the overhead, markup and tax that lie on its kind; nothing where nobody knows it, as of a line by hand that is gone. */
  priceShare: (code: string) => number | undefined
  /** The same of a line before the tax: what a unit of an allowance is settled at. */
  shareBeforeTax: (kind: ItemKind) => number
  /** The job with other tanks and in the variants of the office, worked out when asked for. */
  options: () => readonly Option[]
  /** One tank to twelve; prices of them all, or of those that the options have. */
  stair: (allPrices: boolean) => readonly StairStep[]
  lines: readonly Line[]
  crew: CrewWritten
  laborHours: number
  /** Days of the whole crew; they change no cost. */
  crewDays: number
}
/** A job worked through as far as it goes: with problems the takeoff may be there all the same, its prices not complete. */
export interface Worked {
  design: Design | undefined
  takeoff: Takeoff | undefined
  problems: readonly Problem[]
}

/** A sum of some of the lines is no total: whether each of them has its price. */
export const isPriced = ({ lines }: Takeoff): boolean => lines.every(({ price }) => price !== undefined)

/** Makes the takeoff of one job; refuses with all problems of the job at once. */
export function makeTakeoff(office: Office, job: Row, kept: Kept = nothingKept): Takeoff {
  const { takeoff, problems } = workJob(office, job, kept)
  if (problems.length || !takeoff) throw new ProblemsError(problems)
  return takeoff
}

/** Works a job through; what stands in the way is listed, and what can be worked out all the same is there. `like` is the same job with other inputs. */
export function workJob(office: Office, job: Row, kept: Kept = nothingKept, like?: Design): Worked {
  const { rules, problems: ruleProblems } = rulesOf(office)
  const first = [...problemsOf(office, job), ...ruleProblems]
  if (!first.every(isUnpriced)) return { design: undefined, takeoff: undefined, problems: [...first, ...kept.problems] }
  const design = designJob(office, job, kept.figures, like)
  const { problems: variantProblems } = alternativesOf(office, job, design.number('TankCount'))
  const chosen = chosenItems(office, design, rules)
  const problems: Problem[] = [
    ...first.filter((problem) => isOfChosen(office, design, problem)),
    ...kept.problems,
    ...variantProblems,
    ...chosen.problems,
    ...houseOf(office).problems,
    ...rowProblems(office, job, design),
    ...designProblems(office, job, design),
    ...typedProblems(office, design, kept.inputs),
    ...siteProblems(office, design, kept),
    ...withoutRule(office, rules, kept),
  ]
  if (!problems.every(isUnpriced)) return { design, takeoff: undefined, problems }
  const { lines, laborHours } = makeLines(office, design, rules, kept, problems)
  const totals = totalsOf(office, design, rules, lines, kept)
  let worked: readonly Option[] | undefined
  const options = () => (worked ??= optionsOf(office, job, design, kept))
  const takeoff: Takeoff = {
    ...totals,
    design,
    house: houseOf(office).house,
    without: chosen.without,
    leftOut: chosen.leftOut,
    options,
    stair: (allPrices) => stairOf(office, job, takeoff, options(), allPrices, kept),
    shareBeforeTax: (kind) => shareOfKind(houseOf(office).house, design, kind, false),
    priceShare: (code) => {
      const added = totals.added.find((line) => (line.code || line.description) === code)
      const kind = added ? (added.kind ?? 'other') : ruleOfCode(rules, code)?.kind
      return kind && shareOfKind(houseOf(office).house, design, kind)
    },
    lines,
    crew: kept.crew,
    laborHours,
    crewDays: Math.max(laborHours / (design.number('CrewSize') * design.number('Workday_h_per_day')), design.number('PitOpen_day')),
  }
  return { design, takeoff, problems }
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

function stairOf(office: Office, job: Row, own: Takeoff, options: readonly Option[], allPrices: boolean, kept: Kept): readonly StairStep[] {
  const { design } = own
  const chosen = design.number('TankCount')
  return Array.from({ length: MOST_TANKS }, (_, at): StairStep => {
    const alternative = withTanks(at + 1)
    const row = changedRow(job, alternative)
    const trial = at + 1 === chosen ? design : new Design(office, row, {}, kept.figures, {}, design)
    const known = options.find(({ tanks }) => tanks === at + 1)
    const worked = known?.takeoff ?? (allPrices && !known && at + 1 !== chosen ? workJob(office, row, { ...kept, inputs: [], problems: [] }, design).takeoff : undefined)
    const priced = at + 1 === chosen ? own : worked
    return {
      tanks: at + 1,
      usable_gal: trial.number('UsableStorage_gal'),
      met: trial.number('SizingShare'),
      worst: trial.number('RecordYears') > 0 ? trial.number('WorstYearShare') : undefined,
      price: priced && isPriced(priced) ? priced.total : undefined,
    }
  })
}

/** What a dollar of cost of a kind is to the customer. */
function shareOfKind({ overheadOn, markupOn, taxOn }: House, design: Design, kind: ItemKind, isTaxed = true): number {
  const on = (kinds: readonly ItemKind[], name: 'Overhead' | 'Markup' | 'Tax') => (kinds.includes(kind) ? design.number(name) : 0)
  return (1 + on(overheadOn, 'Overhead') + on(markupOn, 'Markup')) * (isTaxed ? 1 + on(taxOn, 'Tax') : 1)
}
