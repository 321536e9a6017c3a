/** Items that a job leaves out, and sets of items that it takes in: two cells of its row instead of a changed rule. */
import type { Problem } from './fields.js'
import type { ItemRule } from './itemRules.js'
import type { Office, Row } from './office.js'

export interface Chosen {
  /** Codes as they stand on the sheet Items. */
  without: readonly string[]
  /** Sets, in small letters. */
  sets: ReadonlySet<string>
  problems: readonly Problem[]
}

const listed = (value: unknown): string[] =>
  String(value ?? '')
    .split(',')
    .map((one) => one.trim())
    .filter(Boolean)

export function chosenItems(office: Office, job: Row, rules: readonly ItemRule[]): Chosen {
  const problems: Problem[] = []
  const at = (column: string, allowed: string, came: string) => problems.push({ sheet: office.sheets.Jobs, row: job.row, column, allowed, came: `"${came}"` })
  const byCode = new Map(rules.map(({ key }) => [key.toLowerCase(), key]))
  const without = listed(job.cells.Without).flatMap((code) => {
    const key = byCode.get(code.toLowerCase())
    if (key === undefined) at('Without', `codes of the sheet ${office.sheets.Items} as they stand there, commas between`, code)
    return key ?? []
  })
  const sets = [...new Set(rules.map(({ set }) => set).filter(Boolean))]
  const wanted = listed(job.cells.With)
  for (const name of wanted)
    if (!sets.some((set) => set.toLowerCase() === name.toLowerCase()))
      at('With', sets.length ? `sets of the sheet ${office.sheets.Items}: ${sets.join(', ')}` : `nothing, as no item of ${office.sheets.Items} has a Set`, name)
  return { without, sets: new Set(wanted.map((name) => name.toLowerCase())), problems }
}

/** Left out for this job, or of a set that it does not name. */
export const isOff = (rule: ItemRule, { without, sets }: Chosen): boolean => without.includes(rule.key) || (rule.set !== '' && !sets.has(rule.set.toLowerCase()))
