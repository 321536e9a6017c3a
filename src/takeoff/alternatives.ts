/** A job side by side with itself: other counts of tanks, and the named variants of the office, each with price, storage and verdicts. */
import { badInput } from '../errors.js'
import { checkField, problemAt, type CellValue, type Problem } from './fields.js'
import type { Office, Row } from './office.js'
import { ownCell } from './ownFields.js'
import { jobFields, keyColumn, MOST_TANKS, type TableName } from './officeTables.js'

export interface Alternative {
  name: string
  /** Where it is the same job with so many tanks. */
  tanks?: number
  /** The quote offers it. */
  isOnQuote?: boolean
  /** What differs from the row of Jobs. */
  change: Readonly<Record<string, CellValue>>
}

/** Counts of tanks beside the chosen one. */
const BESIDE = [-1, 1, 2]

export const withTanks = (count: number): Alternative => ({ tanks: count, name: `${count} ${count === 1 ? 'tank' : 'tanks'}`, change: { TankCount: count } })

/** Values of variants stand in a column of texts. */
const asNumber = (value: CellValue | undefined): unknown => (typeof value === 'string' && /^-?\d+(?:\.\d+)?$/.test(value.trim()) ? Number(value) : value)

/** One tank fewer, one and two more; then the variants of the sheet Variants. */
export function alternativesOf(office: Office, job: Row, tanks: number): { alternatives: readonly Alternative[]; problems: readonly Problem[] } {
  const counts = BESIDE.map((more) => tanks + more).filter((count) => count >= 1 && count <= MOST_TANKS)
  const stair = counts.map(withTanks)
  const problems: Problem[] = []
  const variants = new Map<string, Record<string, CellValue>>()
  const onQuote = new Set<string>()
  for (const { row, cells } of office.tables.Variants) {
    if (String(cells.Job ?? '').toLowerCase() !== String(job.cells.Job ?? '').toLowerCase()) continue
    const [name, field] = [String(cells.Variant ?? ''), String(cells.Field ?? '')]
    if (cells.OnQuote === 'yes') onQuote.add(name)
    const known = [...Object.keys(jobFields), ...office.ownFields].find((one) => one.toLowerCase() === field.toLowerCase())
    if (!known || known === 'Job' || known === 'FormerName') {
      problems.push({ sheet: office.sheets.Variants, row, column: 'Field', allowed: 'a column of Jobs other than Job and FormerName, as TankModel', came: `"${field}"` })
      continue
    }
    if (Object.hasOwn(variants.get(name) ?? {}, known)) {
      problems.push({ sheet: office.sheets.Variants, row, column: 'Field', allowed: `each column once in a variant; ${name} has it above already`, came: `"${field}"` })
      continue
    }
    try {
      const names = (table: string) => office.tables[table as TableName].map(({ cells: other }) => String(other[keyColumn(table as TableName)] ?? ''))
      const value = office.ownFields.includes(known) ? ownCell(known, asNumber(cells.Value)) : checkField(known, jobFields[known as keyof typeof jobFields], cells.Value, names)
      if (value === null) throw badInput(known, 'what it is in this variant', '')
      variants.set(name, { ...variants.get(name), [known]: value })
    } catch (error) {
      problems.push(problemAt(office.sheets.Variants, row, 'Value', error))
    }
  }
  return { alternatives: [...stair, ...[...variants].map(([name, change]) => ({ name, change, isOnQuote: onQuote.has(name) }))], problems }
}

/** The row of Jobs with what the alternative changes. */
export const changedRow = (job: Row, { change }: Alternative): Row => ({
  ...job,
  cells: { ...job.cells, ...change },
  defaulted: new Set([...job.defaulted].filter((name) => !Object.hasOwn(change, name))),
})
