/**
 * Checks that a formula adds, compares and gives like with like: lengths with lengths, feet with feet. Every name wears
 * its unit, so the check needs no list of its own. A bare number in a sum or comparison takes the unit of its neighbour;
 * in a product it is a pure number or one of the conversions below, so "run * 1.5 * depth" shows that 1.5 hides a width.
 */
import type { AstExpression } from '@borgar/fx'
import { physicalSize, symbolOf, unitOf, type Dimensions, type PhysicalSize } from '../units.js'
import { formula } from './formula.js'

/** What a function takes and gives, as names that wear units; undefined for a name that is no cell function. */
export type Signature = (name: string) => { takes: readonly string[]; gives: string } | undefined

interface Measure {
  kind: 'text' | 'truth' | 'literal' | 'number'
  /** What a number may be: usually one size, more where a bare number may convert. */
  sizes: readonly PhysicalSize[]
}

class DimensionError extends Error {}

const PURE: PhysicalSize = { dimensions: {}, size: 1 }
const words: Measure = { kind: 'text', sizes: [] }
const truth: Measure = { kind: 'truth', sizes: [PURE] }
const pure: Measure = { kind: 'number', sizes: [PURE] }
/** Sizes that differ by less are one: printed conversions such as 2.31 ft a psi are rounded to three figures. */
const SAME_WITHIN = 0.01
/** Bare numbers multiply the sizes that an expression may have; more than this says nothing any more. */
const MOST_SIZES = 200

const times = (one: PhysicalSize, other: PhysicalSize, power = 1): PhysicalSize => {
  const dimensions: Record<string, number> = { ...one.dimensions }
  for (const [base, exponent] of Object.entries(other.dimensions)) {
    dimensions[base] = (dimensions[base] ?? 0) + exponent * power
    if (Math.abs(dimensions[base]!) < 1e-9) delete dimensions[base]
  }
  return { dimensions, size: one.size * other.size ** power }
}
const keyOf = (dimensions: Dimensions): string =>
  Object.keys(dimensions)
    .sort()
    .map((base) => `${base}${Number(dimensions[base]!.toFixed(4))}`)
    .join(' ')
const isSame = (one: PhysicalSize, other: PhysicalSize): boolean => keyOf(one.dimensions) === keyOf(other.dimensions) && Math.abs(Math.log(one.size / other.size)) < SAME_WITHIN

function distinct(sizes: readonly PhysicalSize[]): PhysicalSize[] {
  const found: PhysicalSize[] = []
  for (const size of sizes) if (found.length < MOST_SIZES && !found.some((known) => isSame(known, size))) found.push(size)
  return found
}

/** Bare numbers that people write for a conversion or a physical constant: number times size is one and the same thing. */
const perUnit = (unit: string, of: string): PhysicalSize => times(physicalSize(unit)!, physicalSize(of)!, -1)
const conversions: readonly (readonly [value: number, size: PhysicalSize])[] = [
  ...[7, 8, 12, 24, 27, 60, 100, 144, 231, 365, 1000, 1440, 1728, 2000, 3600].map((value) => [value, { dimensions: {}, size: 1 / value }] as const),
  [2.31, perUnit('ftw', 'psi')],
  [62.4, physicalSize('lb_per_ft3')!],
  [32.174, physicalSize('fps2')!],
  [0.003141, perUnit('kWh_per_kgal', 'ftw')],
]

function literal(value: number): Measure {
  const known = conversions.find(([number]) => number === value)
  return { kind: 'literal', sizes: known ? [PURE, known[1]] : [PURE] }
}

export function nameSize(name: string): PhysicalSize | undefined {
  const column = /\[(\w+)\]$/.exec(name)?.[1] ?? name
  const unit = unitOf(column)
  return unit === undefined ? undefined : physicalSize(unit)
}

const show = (measure: Measure): string => {
  if (measure.kind !== 'number') return measure.kind === 'literal' ? 'a bare number' : `a ${measure.kind}`
  const [size] = measure.sizes
  return size && Object.keys(size.dimensions).length ? dimensionWords(size.dimensions) : 'a pure number'
}
const dimensionWords = (dimensions: Dimensions): string =>
  Object.entries(dimensions)
    .map(([base, exponent]) => (exponent === 1 ? base : `${base}^${Number(exponent.toFixed(3))}`))
    .join(' ')

/** What several parts have in common, where they must be of one kind. */
function common(parts: readonly Measure[], doing: string): Measure {
  const numbers = parts.filter(({ kind }) => kind === 'number')
  if (!numbers.length) return parts.find(({ kind }) => kind === 'literal') ? { kind: 'literal', sizes: [PURE] } : (parts[0] ?? pure)
  const [first, ...rest] = numbers
  let sizes = first!.sizes
  for (const other of rest) {
    const shared = sizes.filter((size) => other.sizes.some((known) => isSame(known, size)))
    if (!shared.length) {
      const isScale = sizes.some((size) => other.sizes.some((known) => keyOf(known.dimensions) === keyOf(size.dimensions)))
      throw new DimensionError(isScale ? `${doing} ${show(first!)} in two different units` : `${doing} ${show(first!)} and ${show(other)}`)
    }
    sizes = shared
  }
  return { kind: 'number', sizes }
}

const product = (left: Measure, right: Measure, power: number): Measure => ({
  kind: left.kind === 'literal' && right.kind === 'literal' ? 'literal' : 'number',
  sizes: distinct(left.sizes.flatMap((one) => right.sizes.map((other) => times(one, other, power)))),
})
const toPower = (base: Measure, power: number): Measure => ({ ...base, sizes: base.sizes.map((size) => times(PURE, size, power)) })

function mustBePure(measure: Measure, doing: string): void {
  if (measure.kind === 'number' && !measure.sizes.some((size) => isSame(size, PURE))) throw new DimensionError(`${doing} ${show(measure)}, where a pure number belongs`)
}

const numberIn = (node: AstExpression | null): number | undefined => {
  if (node?.type === 'Literal' && typeof node.value === 'number') return node.value
  if (node?.type === 'UnaryExpression' && node.operator === '-') {
    const value = numberIn(node.arguments[0] as AstExpression)
    return value === undefined ? undefined : -value
  }
  if (node?.type === 'BinaryExpression' && node.operator === '/') {
    const [over, under] = node.arguments.map((part) => numberIn(part as AstExpression))
    return over === undefined || under === undefined ? undefined : over / under
  }
  return undefined
}

/** The measure of a formula; throws DimensionError with the reason where its parts do not fit together. */
function measureOf(node: AstExpression | null, sizeOf: (name: string) => PhysicalSize | undefined, signature: Signature): Measure {
  const inner = (part: unknown) => measureOf(part as AstExpression | null, sizeOf, signature)
  if (node === null) return words
  switch (node.type) {
    case 'Literal':
      return typeof node.value === 'number' ? literal(node.value) : typeof node.value === 'boolean' ? truth : words
    case 'ReferenceIdentifier': {
      const size = sizeOf(node.value)
      return size ? { kind: 'number', sizes: [size] } : pure
    }
    case 'UnaryExpression':
      return inner(node.arguments[0])
    case 'BinaryExpression': {
      const [leftNode, rightNode] = node.arguments as [AstExpression, AstExpression]
      if (node.operator === '&') return (inner(leftNode), inner(rightNode), words)
      const [left, right] = [inner(leftNode), inner(rightNode)]
      if (node.operator === '*') return product(left, right, 1)
      if (node.operator === '/') return product(left, right, -1)
      if (node.operator === '^') {
        mustBePure(right, 'raises to')
        const power = numberIn(rightNode)
        if (power === undefined) mustBePure(left, 'raises')
        return power === undefined ? pure : toPower(left, power)
      }
      if (node.operator === '+' || node.operator === '-') return common([left, right], 'adds')
      common([left, right], 'compares')
      return truth
    }
    case 'CallExpression':
      return callMeasure(node.callee.type === 'Identifier' ? node.callee.name.toUpperCase() : '', node.arguments.map(inner), signature)
    default:
      return words
  }
}

function callMeasure(name: string, args: readonly Measure[], signature: Signature): Measure {
  const called = signature(name)
  if (called) {
    args.forEach((arg, at) => {
      const wanted = called.takes[at]
      if (wanted === undefined || arg.kind !== 'number') return
      const size = nameSize(wanted) ?? PURE
      if (!arg.sizes.some((known) => isSame(known, size))) throw new DimensionError(`gives ${name} ${show(arg)} where it takes ${symbolOf(wanted) || 'a pure number'}`)
    })
    const given = nameSize(called.gives)
    return given ? { kind: 'number', sizes: [given] } : pure
  }
  switch (name) {
    case 'IF':
      return common(args.slice(1), 'takes one of')
    case 'IFERROR':
    case 'MIN':
    case 'MAX':
    case 'SUM':
      return common(args, name === 'SUM' ? 'adds' : 'takes one of')
    case 'SUMPRODUCT':
      return args.reduce((left, right) => product(left, right, 1))
    case 'INDEX':
    case 'ABS':
    case 'INT':
    case 'ROUND':
    case 'ROUNDUP':
    case 'ROUNDDOWN':
      return args[0] ?? pure
    case 'SQRT':
      return toPower(args[0]!, 0.5)
    case 'AND':
    case 'OR':
    case 'NOT':
    case 'ISNUMBER':
      return truth
    case 'EXP':
    case 'LN':
    case 'SIN':
    case 'ATAN':
      mustBePure(args[0]!, `takes ${name} of`)
      return pure
    case 'TEXT':
    case 'LOWER':
      return words
    default:
      return pure
  }
}

export interface Wanted {
  /** A name that wears the unit of the result, or the result's own size; undefined where any will do. */
  gives?: string | PhysicalSize
  /** True where a bare number may carry the unit, as an estimator writes "0.5 * InletCount" tons. */
  mayBePure?: boolean
  sizeOf?: (name: string) => PhysicalSize | undefined
}

/** The reason why a formula does not fit its units, or undefined. */
export function dimensionProblem(text: string, signature: Signature, { gives, mayBePure = false, sizeOf = nameSize }: Wanted): string | undefined {
  try {
    const measure = measureOf(formula(text).tree, sizeOf, signature)
    if (gives === undefined || measure.kind !== 'number') return undefined
    const wanted = typeof gives === 'string' ? (sizeOf(gives) ?? PURE) : gives
    if (measure.sizes.some((size) => isSame(size, wanted))) return undefined
    if (mayBePure && measure.sizes.some((size) => isSame(size, PURE))) return undefined
    return `gives ${show(measure)}${measure.sizes.some((size) => keyOf(size.dimensions) === keyOf(wanted.dimensions)) ? ' in another unit' : `, not ${show({ kind: 'number', sizes: [wanted] })}`}`
  } catch (error) {
    if (error instanceof DimensionError) return error.message
    throw error
  }
}
