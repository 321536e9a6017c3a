/** Every rule of our own held to one check before any job runs: a name that nobody knows would leave a caution out, or raise it everywhere. */
import { careTasks } from '../takeoff/careTasks.js'
import { cautionRules } from '../takeoff/cautions.js'
import { ruleProblem, type RuleCheck } from '../takeoff/checkRules.js'
import { crewSteps } from '../takeoff/crewSteps.js'
import { defaultItems } from '../takeoff/defaultItems.js'
import { lineSums } from '../takeoff/itemRules.js'
import { readingRules } from '../takeoff/readings.js'
import { results } from '../takeoff/results/index.js'
import { days } from '../takeoff/rowLists/days.js'
import { rowLists } from '../takeoff/rowLists/index.js'
import { textsOf } from '../takeoff/rowLists/rowList.js'
import { spanishCautions, spanishFigures, spanishSteps } from '../takeoff/spanish.js'
import { templateFormula, type Words } from '../takeoff/template.js'
import { LOG_ENTRIES, logLoss, logVerdict } from '../takeoff/vacuumLog.js'
import { verdictRules } from '../takeoff/verdicts.js'
import { physicalSize } from '../units.js'
import { built } from './sheets/handoverSheet.js'
import { scope, type Part } from './sheets/quoteWords.js'

interface OwnRule extends Omit<RuleCheck, 'text'> {
  /** Which rule it is, for who mends it. */
  where: string
  text: string | undefined
}

const words = (where: string, said: Words): OwnRule => ({ where, text: templateFormula(said) })
const when = (where: string, text: string): OwnRule => ({ where, text })
/** Units that items are counted in, where a formula has one. */
const counted: Readonly<Record<string, string>> = { ft: 'ft', 'yd³': 'yd3', 'ft²': 'ft2', ton: 'ton', h: 'h', day: 'day', pint: 'pint', quart: 'quart', kgal: 'kgal' }

function* ownRules(): Generator<OwnRule> {
  for (const { name, formula } of results) yield { where: `result ${name}`, text: formula, gives: name, columns: true }
  for (const list of [...rowLists, days]) {
    const also = list.columns.flatMap(({ name }) => [name, `before_${name}`])
    for (const column of list.columns)
      for (const text of textsOf(column)) {
        // What a day wants is a rate over the one day of its row.
        const gives = column.name === 'DayWanted_gal' ? 'DayWanted_gal_per_day' : column.name
        yield { where: `column ${column.name}`, text, gives, columns: true, also }
      }
  }
  for (const rule of verdictRules) {
    yield { where: `verdict ${rule.name}`, text: rule.formula }
    yield { where: `words of the verdict ${rule.name}`, text: rule.wordsFormula }
  }
  for (const rule of cautionRules)
    yield* [
      when(`caution ${rule.name}`, rule.when),
      ...Object.entries(rule.onlyWhen).map(([stage, asked]) => when(`caution ${rule.name} at ${stage}`, asked)),
      words(`words of the caution ${rule.name}`, rule.text),
    ]
  for (const step of crewSteps)
    yield* [when(`crew step ${step.code}`, step.when), words(`words of the crew step ${step.code}`, step.text), words(`figure of the crew step ${step.code}`, step.figure)]
  for (const task of careTasks) yield* [when(`task of care ${task.code}`, task.when), words(`words of the task ${task.code}`, task.task)]
  for (const [code, said] of [...Object.entries(spanishSteps), ...Object.entries(spanishFigures)]) yield words(`Spanish of the crew step ${code}`, said)
  for (const [name, [, said]] of Object.entries(spanishCautions)) yield words(`Spanish of the caution ${name}`, said)
  for (const part of [...built, ...scope].flatMap((one): readonly Part[] => ('words' in one ? [one] : one.joined))) yield words('words of quote and handover', part.words)
  for (const { code, when: asked, verdict, wanted, unit } of readingRules) {
    // Within its own rule a reading is of the unit that stands beside it.
    const worn = `reading_${unit.replace('/', '_per_')}`
    yield* [when(`reading ${code}`, asked), words(`what the reading ${code} wants`, wanted)]
    yield { where: `verdict of the reading ${code}`, text: verdict.replace(/\breading\b/g, worn), also: [worn] }
  }
  for (const text of [logLoss, logVerdict]) yield { where: 'log of the vacuum test', text, also: [...LOG_ENTRIES, 'loss_inHg', 'which'] }
  for (const item of defaultItems) {
    const [code, quantity] = [String(item.Code), String(item.Quantity)]
    const unit = counted[String(item.Unit)]
    yield { where: `quantity of the item ${code}`, text: quantity, also: lineSums.filter((name) => quantity.includes(name)), ...(unit ? { gives: physicalSize(unit)! } : {}) }
    if (item.When) yield when(`item ${code}`, String(item.When))
    for (const said of [code, String(item.Description), String(item.Why)]) yield words(`words of the item ${code}`, said)
  }
}

/** What is wrong with our own rules, a line each, and how many were looked at. */
export function ownRuleProblems(): { looked: number; problems: string[] } {
  const problems: string[] = []
  let looked = 0
  for (const { where, text, ...check } of ownRules()) {
    if (!text) continue
    looked++
    try {
      const problem = ruleProblem({ ...check, text })
      if (problem !== undefined) problems.push(`${where}: ${problem}; got ${text}`)
    } catch (error) {
      problems.push(`${where}: ${error instanceof Error ? error.message : String(error)}; got ${text}`)
    }
  }
  return { looked, problems }
}
