/** The rule of Items that a line's code is of. */
import type { ItemRule } from './itemRules.js'

/** A code of Items may hold names in braces, which stand for what the job has there; a suffix is empty for the usual size. */
const patternOf = (key: string): RegExp =>
  new RegExp(
    `^${key
      .split(/(\{\w+\})/)
      .map((part) => (/^\{\w+\}$/.test(part) ? (part.endsWith('Suffix}') ? '.*' : '.+') : part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')))
      .join('')}$`,
  )

/** The rule whose code this is or could be; nothing where no rule could give it. */
export const ruleOfCode = (rules: readonly ItemRule[], code: string): ItemRule | undefined =>
  rules.find(({ key }) => key === code) ?? rules.find(({ key }) => patternOf(key).test(code))
