/** The machine's view of a job: everything that a sheet says of it, as plain data for other programs of the office. */
import { citationText } from '../sources.js'
import { isError, type Single } from '../formula/value.js'
import { money } from '../rounding.js'
import { symbolOf } from '../units.js'
import { assumable } from './assumed.js'
import { stepsOf } from './crewSteps.js'
import type { Design } from './design.js'
import type { Problem } from './fields.js'
import { jobFields } from './officeTables.js'
import { restsOnMemory } from './results/grades.js'
import { foundFigures, results } from './results/index.js'
import type { Takeoff, Worked } from './takeoff.js'

const plain = (value: Single): string | number | boolean | null => (isError(value) ? value.code : value === '' ? null : value)
const measured = (design: Design, name: string) => ({ value: plain(design.singleOf(name)), unit: symbolOf(name) })

/** An input and where it is from; a depth of groundwater or a footing that nobody measured is none, whatever stands in for it. */
function inputView(design: Design, name: string) {
  if ((name === 'GroundwaterDepth_ft' || name === 'FootingAway_ft') && design.number(assumable[name]) === 1) return { value: null, unit: symbolOf(name), from: 'default' }
  const from = design.origin(name)
  return { ...measured(design, name === 'CableSize' && from === 'sized' ? 'Cable' : name), from }
}

export function jobView(job: string, { design, takeoff, problems }: Worked, all: readonly Problem[]) {
  const view = { job, problems: distinct([...problems, ...all]) }
  if (!design) return { ...view, inputs: {}, results: {}, verdicts: {}, cautions: [], crew: [], lines: [], totals: null }
  return {
    ...view,
    inputs: Object.fromEntries([...Object.keys(jobFields), ...design.ownFields].map((name) => [name, inputView(design, name)])),
    results: Object.fromEntries(
      [...results, ...foundFigures].map(({ name, source }) => [
        name,
        { ...measured(design, name), source: citationText(source), grade: source.grade, restsOnMemory: restsOnMemory(name) },
      ]),
    ),
    verdicts: Object.fromEntries(
      design
        .verdicts()
        .map(({ name, label, verdict, words, rule }) => [name, { verdict, label, words, limit: `${rule.limit} (${citationText(rule.source)})`, grade: rule.source.grade }]),
    ),
    cautions: design.cautions().map(({ name, words, points }) => ({ name, words, points })),
    crew: crewView(design, takeoff?.without ?? []),
    lines: takeoff ? linesView(takeoff) : [],
    totals: takeoff
      ? {
          cost: takeoff.orderCost,
          overhead: takeoff.overhead,
          profit: takeoff.markup,
          tax: takeoff.tax,
          total: takeoff.total,
          byKind: takeoff.byKind,
          hours: takeoff.laborHours,
          days: takeoff.crewDays,
        }
      : null,
  }
}

/** The steps in the order of work; every stop stands before the first as a barrier. */
function crewView(design: Design, without: readonly string[]) {
  const barriers = design.verdicts().filter(({ verdict }) => verdict === 'stop')
  return [
    ...barriers.map(({ name, label, words, rule }) => ({
      code: `STOP ${name}`,
      stage: 'Do not start',
      words: `${label}: ${words}`,
      figure: '',
      hold: rule.touchesLife ? 'engineer or licensed person' : 'office',
    })),
    ...stepsOf(design, without).map(({ code, stage, text, figure, hold }) => ({ code, stage, words: design.words(text), figure: figure ? design.words(figure) : '', hold })),
  ]
}

const linesView = (takeoff: Takeoff) => [
  ...takeoff.lines.map(({ rule, code, description, net, cut, order, price, amount, hours, why, override }) => ({
    section: rule.section,
    code,
    description,
    kind: rule.kind,
    net,
    ...(override === undefined ? {} : { yours: override }),
    unit: rule.unit,
    waste: rule.waste,
    lot: rule.lot,
    ...(cut ? { pieces: cut.count, stock: cut.stock } : {}),
    order,
    price: price ?? null,
    amount,
    hours,
    why,
  })),
  ...takeoff.added.map(({ code, description, unit, quantity, price, kind = 'other', why }) => ({
    section: 'Added by hand',
    code,
    description,
    kind,
    net: quantity ?? 0,
    unit,
    waste: 0,
    lot: 1,
    order: quantity ?? 0,
    price,
    amount: money((quantity ?? 0) * (price ?? 0)),
    hours: 0,
    why,
  })),
]

const distinct = (problems: readonly Problem[]): Problem[] => [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()]
