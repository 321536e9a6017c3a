/** Items that a job leaves out, and sets of items that it takes in: two cells of its row instead of a changed rule. */
import type { Design } from './design.js'
import { bareLetters, type Problem } from './fields.js'
import { rulesOf, type ItemRule } from './itemRules.js'
import { isOfPump } from './withoutPump.js'
import type { Office, Row } from './office.js'
import { ruleOfCode } from './ruleOfCode.js'

export interface Chosen {
  /** Codes as they stand on the sheet Items. */
  without: readonly string[]
  /** What they would have been, in words. */
  leftOut: readonly string[]
  /** Sets, in small letters. */
  sets: ReadonlySet<string>
  problems: readonly Problem[]
}

const listed = (value: unknown): string[] =>
  String(value ?? '')
    .split(',')
    .map((one) => one.trim())
    .filter(Boolean)

/** Whether a code of the sheet Items is the one that is meant; one that ends in a brace stands for all that begin so. */
export const isMeant = (meant: string, key: string): boolean => key === meant || (meant.endsWith('{') && key.startsWith(meant))
/** Cable of the feed, of any metal and size. */
export const CABLE = 'CABLE-{'

/** What tanks of a second model have under a code of their own: left out with that of the first. */
const OF_SECOND_MODEL = ['-2', '-{SecondOpening_in}'] as const

export function chosenItems(office: Office, design: Design, rules: readonly ItemRule[]): Chosen {
  const { cells, row } = design.job
  const problems: Problem[] = []
  const at = (column: string, allowed: string, came: string) => problems.push({ sheet: office.sheets.Jobs, row, column, allowed, came: `"${came}"` })
  const left = listed(cells.Without).flatMap((word) => {
    const found = leftOutBy(word, design, rules)
    if (!found) at('Without', `codes of the sheet ${office.sheets.Items}, or names of its sections, commas between`, word)
    return found ?? []
  })
  const sets = [...new Set(rules.map(({ set }) => set).filter(Boolean))]
  const wanted = listed(cells.With)
  for (const name of wanted)
    if (!sets.some((set) => set.toLowerCase() === name.toLowerCase()))
      at('With', sets.length ? `sets of the sheet ${office.sheets.Items}: ${sets.join(', ')}` : `nothing, as no item of ${office.sheets.Items} has a Set`, name)
  return {
    without: left.flatMap(({ rules: of }) => of.map(({ key }) => key)),
    // What gravity makes needless nobody else brings.
    leftOut: left.filter(({ rules: of }) => design.number('ByGravity') !== 1 || !of.every(isOfPump)).map(({ words }) => words),
    sets: new Set(wanted.map((name) => name.toLowerCase())),
    problems,
  }
}

/** A code as it stands on the sheet Items or on a takeoff of this job, or a whole section; nothing where there is none of that name. */
function leftOutBy(word: string, design: Design, rules: readonly ItemRule[]): { rules: readonly ItemRule[]; words: string } | undefined {
  const isNamed = (code: string) => code.toLowerCase() === word.toLowerCase()
  const rule = rules.find(({ key }) => isNamed(key)) ?? rules.find(({ code }) => code !== undefined && isNamed(String(design.evaluate(code))))
  if (rule) return { rules: [rule, ...rules.filter(({ key }) => OF_SECOND_MODEL.some((end) => key === `${rule.key}${end}`))], words: wordsOf(rule, design) }
  const inSection = rules.filter(({ section }) => bareLetters(section) === bareLetters(word))
  return inSection.length ? { rules: inSection, words: `all of the section ${inSection[0]!.section}` } : undefined
}

function wordsOf({ description }: ItemRule, design: Design): string {
  const words = description.formula === undefined ? description.text : design.evaluate(description.formula)
  return typeof words === 'string' ? words : description.text
}

/** Whether a job leaves out an item, by its code or with its section. */
export function leavesOut(office: Office, job: Row, meant: string): boolean {
  const { rules } = rulesOf(office)
  const isOfSection = (word: string) => rules.some(({ key, section }) => isMeant(meant, key) && bareLetters(section) === bareLetters(word))
  return listed(job.cells.Without).some((word) => isMeant(meant, ruleOfCode(rules, word)?.key ?? word.toUpperCase()) || isOfSection(word))
}

/** Left out for this job, or of a set that it does not name. */
export const isOff = (rule: ItemRule, { without, sets }: Chosen): boolean => without.includes(rule.key) || (rule.set !== '' && !sets.has(rule.set.toLowerCase()))
