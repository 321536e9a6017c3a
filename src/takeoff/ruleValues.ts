/** Texts that a name of a rule can have: a rule that asks for another one would leave its line out in silence, job after job. */
import type { AstExpression } from '@borgar/fx'
import { formula } from '../formula/formula.js'
import { jobFields, type JobFieldName } from './officeTables.js'
import { results } from './results/index.js'
import { verdictByName, verdictWords } from './verdicts.js'

/** 'number' where no text can come; undefined where it may be any. */
type Values = readonly string[] | 'number' | undefined

const resultFormulas = new Map<string, string>(results.map(({ name, formula: text }) => [name, text]))

function valuesOf(name: string): Values {
  if (Object.hasOwn(jobFields, name)) {
    const field = jobFields[name as JobFieldName]
    if (field.kind !== 'spec') return undefined
    return field.spec.kind === 'choice' ? field.spec.options : field.spec.kind === 'number' ? 'number' : undefined
  }
  if (verdictByName.has(name)) return verdictWords
  const text = resultFormulas.get(name)
  return text === undefined ? undefined : textsOf(formula(text).tree)
}

/** What an expression can come to, where that is nothing but texts that stand in it or are those of a name. */
function textsOf(node: AstExpression | null | undefined): Values {
  if (!node) return undefined
  if (node.type === 'Literal') return typeof node.value === 'string' ? [node.value] : undefined
  if (node.type === 'ReferenceIdentifier') return valuesOf(node.value)
  if (node.type !== 'CallExpression' || node.callee.type !== 'Identifier' || node.callee.name.toUpperCase() !== 'IF') return undefined
  const [one, other] = node.arguments.slice(1).map((part) => textsOf(part as AstExpression | null))
  return Array.isArray(one) && Array.isArray(other) ? [...new Set([...one, ...other] as string[])] : undefined
}

const compares: readonly string[] = ['=', '<>', '<', '>', '<=', '>=']

/** A text beside a name that never has it, in words; undefined where there is none. Upper and lower case are one, as in every spreadsheet. */
export function strangeValue(text: string): string | undefined {
  return within(formula(text).tree)

  function within(node: AstExpression | null): string | undefined {
    if (!node) return undefined
    if (node.type === 'BinaryExpression' && compares.includes(node.operator)) {
      const [left, right] = node.arguments as readonly AstExpression[]
      const found = beside(left!, right!) ?? beside(right!, left!)
      if (found) return found
    }
    if (node.type !== 'BinaryExpression' && node.type !== 'UnaryExpression' && node.type !== 'CallExpression') return undefined
    for (const part of node.arguments) {
      const found = within(part as AstExpression | null)
      if (found) return found
    }
    return undefined
  }
}

function beside(name: AstExpression, text: AstExpression): string | undefined {
  if (name.type !== 'ReferenceIdentifier' || text.type !== 'Literal' || typeof text.value !== 'string' || text.value === '') return undefined
  const values = valuesOf(name.value)
  if (values === undefined) return undefined
  if (values === 'number') return `${name.value} is a number and never the text "${text.value}"`
  const wanted = text.value.toLowerCase()
  return values.some((value) => value.toLowerCase() === wanted) ? undefined : `${name.value} is never "${text.value}"; it is one of ${values.filter(Boolean).join(', ')}`
}
