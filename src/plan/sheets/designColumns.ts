/** Columns of the Design sheet, and which of its names may be typed over. */
import { jobFields } from '../../takeoff/officeTables.js'
import { resultGroups } from '../../takeoff/results/index.js'

export const designColumns = { label: 2, name: 3, value: 4, unit: 5, words: 6, grade: 7, asMade: 8 } as const
export const AS_MADE = 'As made'
export const VALUE = 'Value'
export const designHeadings: Readonly<Record<keyof typeof designColumns, string>> = {
  label: '',
  name: 'Name',
  value: VALUE,
  unit: 'Unit',
  words: 'Source or reason',
  grade: 'Grade',
  asMade: AS_MADE,
}

/** A house figure stands as a bare number. */
export const isConstant = (rule: { formula: string }): boolean => /^[\d.]+$/.test(rule.formula)
/** Inputs, which belong into the row of Jobs. */
export const inputNames: readonly string[] = Object.keys(jobFields)
/** Results that formulas work out. */
export const workedNames: readonly string[] = resultGroups.flatMap((group) => group.results.filter((rule) => !isConstant(rule)).map(({ name }) => name))
/** House figures, which may be typed over and are kept. */
export const constantNames: readonly string[] = resultGroups.flatMap((group) => group.results.filter(isConstant).map(({ name }) => name))
