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

/** Letters of a code that stand for themselves. */
const literal = ({ key }: ItemRule): number => key.replace(/\{\w+\}/g, '').length
/** The rule whose code this is or could be, of several the narrowest; nothing where no rule could give it. */
export const ruleOfCode = (rules: readonly ItemRule[], code: string): ItemRule | undefined =>
  rules.find(({ key }) => key === code) ?? rules.filter(({ key }) => patternOf(key).test(code)).sort((one, other) => literal(other) - literal(one))[0]
