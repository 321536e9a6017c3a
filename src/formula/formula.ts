/**
 * A spreadsheet formula over names ("TankCount-1", "IF(Line_ft>0,...)"): read once, then evaluated for
 * many jobs, or rendered with each name replaced by the cell that holds it. Reading is done by
 * @borgar/fx; this file gives its syntax tree a meaning.
 */
import { parse, tokenize, type AstExpression } from '@borgar/fx'
import { allowedFunctions, countProblem, nativeFunctions } from './functions.js'
import { FormulaError, finite, isColumn, isError, toNumber, toText, toTruth, type Single, type Value } from './value.js'

export interface Scope {
  /** The value that a name or a table column (`Pipes[bore_in]`) stands for; undefined if there is none. */
  value(name: string): Value | undefined
  /** Calls a function that is no native spreadsheet function; undefined if there is none of that name. */
  call?(name: string, args: readonly Value[]): Value | undefined
}

type Compiled = (scope: Scope) => Value

export interface Call {
  name: string
  /** The arguments as rendered; made only when asked for. */
  readonly args: readonly string[]
  start: number
  end: number
}

export interface Formula {
  readonly text: string
  /** Names and table columns, in the order met, once each. */
  readonly names: readonly string[]
  /** Every function called, once each. */
  readonly functions: readonly string[]
  /** The syntax tree, for checks that look at more than names. */
  readonly tree: AstExpression
  evaluate(scope: Scope): Value
  /** The formula with names replaced, and with calls replaced where `call` answers with a text. */
  render(name: (name: string) => string, call?: (call: Call) => string | undefined): string
}

export class FormulaSyntaxError extends Error {}

/** A formula is worked out from within: longer rows of signs would run out of room. */
const MOST_PARTS = 2000

/** Formulas read so far: a job asks for the same few thousand again and again. A pane that stays open for days forgets them now and then. */
const read = new Map<string, Formula>()
const MOST_READ = 20_000

/** Reads a formula; the leading equals sign may be left out. */
export function formula(text: string): Formula {
  let found = read.get(text)
  if (!found) {
    found = readFormula(text)
    if (read.size >= MOST_READ) read.clear()
    read.set(text, found)
  }
  return found
}

function readFormula(text: string): Formula {
  const source = text.trim().startsWith('=') ? text.trim() : `=${text.trim()}`
  let tree: AstExpression
  try {
    const tokens = tokenize(source, { withLocation: true, mergeRefs: true })
    if (tokens.length > MOST_PARTS) {
      const [most, has] = [MOST_PARTS, tokens.length].map((count) => count.toLocaleString('en-US'))
      throw new FormulaSyntaxError(`a formula of at most ${most} names, numbers and signs can be read; this one has ${has}`)
    }
    tree = parse(tokens)
  } catch (error) {
    throw error instanceof FormulaSyntaxError ? error : new FormulaSyntaxError(`"${text}" cannot be read as a formula`)
  }
  const names = new Set<string>()
  const functions = new Set<string>()
  const compiled = compile(tree, names, functions)
  const places: NamePlace[] = []
  placesIn(tree, places)
  // Calls that stay as they are need no look into the tree: most formulas have no other ones.
  const hasCalls = [...functions].some((name) => !allowedFunctions.includes(name))
  return {
    text: source.slice(1),
    names: [...names],
    functions: [...functions],
    tree,
    evaluate: compiled,
    render: (name, call) => (call && hasCalls ? rendered(tree, source, name, call) : named(places, source, name)).slice(1),
  }
}

function compile(node: AstExpression | null, names: Set<string>, functions: Set<string>): Compiled {
  if (node === null) return () => null
  switch (node.type) {
    case 'Literal': {
      const value = node.value as Single
      return () => value
    }
    case 'ErrorLiteral': {
      const error = new FormulaError(node.value as FormulaError['code'])
      return () => error
    }
    case 'ReferenceIdentifier': {
      const name = node.value
      names.add(name)
      return (scope) => {
        const value = scope.value(name)
        return value === undefined ? new FormulaError('#NAME?', `there is no ${name}`) : value
      }
    }
    case 'UnaryExpression': {
      const [inner] = node.arguments.map((part) => compile(part as AstExpression, names, functions))
      const { operator } = node
      if (operator === '-') return (scope) => eachNumber(inner!(scope), (x) => -x)
      if (operator === '%') return (scope) => eachNumber(inner!(scope), (x) => x / 100)
      return inner!
    }
    case 'BinaryExpression': {
      const [left, right] = node.arguments.map((part) => compile(part as AstExpression, names, functions))
      const combine = operators[node.operator]
      if (!combine && node.operator.trim() === '') throw new FormulaSyntaxError('a sign between two names: a name has no blank in it, as FenceRun_ft')
      if (!combine) throw new FormulaSyntaxError(`the operator ${node.operator} is not allowed`)
      return (scope) => pairwise(left!(scope), right!(scope), combine)
    }
    case 'CallExpression': {
      const name = node.callee.type === 'Identifier' ? node.callee.name.toUpperCase() : ''
      functions.add(name)
      return compileCall(
        name,
        node.arguments.map((part) => compile(part as AstExpression | null, names, functions)),
      )
    }
    default:
      throw new FormulaSyntaxError('lists in braces and LET or LAMBDA are not allowed')
  }
}

function compileCall(name: string, args: readonly Compiled[]): Compiled {
  const problem = countProblem(name, args.length)
  if (problem) throw new FormulaSyntaxError(problem)
  if (name === 'IF') {
    return (scope) => {
      const truth = toTruth(args[0]?.(scope) ?? null)
      if (isError(truth)) return truth
      return truth ? (args[1]?.(scope) ?? null) : args[2] ? args[2](scope) : false
    }
  }
  if (name === 'IFERROR') {
    return (scope) => {
      const value = args[0]?.(scope) ?? null
      return isError(value) ? (args[1]?.(scope) ?? null) : value
    }
  }
  const native = nativeFunctions[name]
  if (native) return (scope) => native(args.map((arg) => arg(scope)))
  return (scope) => {
    const values = args.map((arg) => arg(scope))
    return values.find(isError) ?? scope.call?.(name, values) ?? new FormulaError('#NAME?', `there is no function ${name}`)
  }
}

type Combine = (left: Single, right: Single) => Single

const arithmetic =
  (compute: (x: number, y: number) => number): Combine =>
  (left, right) => {
    const x = toNumber(left)
    const y = toNumber(right)
    return isError(x) ? x : isError(y) ? y : finite(compute(x, y))
  }

/** Spreadsheets order numbers before texts before truths, and compare texts without regard to case. */
function order(left: Single, right: Single): number | FormulaError {
  if (isError(left)) return left
  if (isError(right)) return right
  const one = left ?? (typeof right === 'string' ? '' : 0)
  const other = right ?? (typeof left === 'string' ? '' : 0)
  const rank = (value: number | string | boolean) => ['number', 'string', 'boolean'].indexOf(typeof value)
  if (typeof one !== typeof other) return rank(one) - rank(other)
  const a = typeof one === 'string' ? one.toLowerCase() : one
  const b = typeof other === 'string' ? other.toLowerCase() : other
  return a < b ? -1 : a > b ? 1 : 0
}

const comparison =
  (test: (order: number) => boolean): Combine =>
  (left, right) => {
    const result = order(left, right)
    return isError(result) ? result : test(result)
  }

const operators: Readonly<Record<string, Combine | undefined>> = {
  '+': arithmetic((x, y) => x + y),
  '-': arithmetic((x, y) => x - y),
  '*': arithmetic((x, y) => x * y),
  '/': (left, right) => (toNumber(right) === 0 && !isError(left) ? new FormulaError('#DIV/0!') : arithmetic((x, y) => x / y)(left, right)),
  '^': arithmetic((x, y) => x ** y),
  '&': (left, right) => {
    const one = toText(left)
    const other = toText(right)
    return isError(one) ? one : isError(other) ? other : one + other
  },
  '=': comparison((result) => result === 0),
  '<>': comparison((result) => result !== 0),
  '<': comparison((result) => result < 0),
  '<=': comparison((result) => result <= 0),
  '>': comparison((result) => result > 0),
  '>=': comparison((result) => result >= 0),
}

function eachNumber(value: Value, compute: (x: number) => number): Value {
  return pairwise(
    value,
    0,
    arithmetic((x) => compute(x)),
  )
}

function pairwise(left: Value, right: Value, combine: Combine): Value {
  if (!isColumn(left) && !isColumn(right)) return combine(left, right)
  const length = Math.max(isColumn(left) ? left.length : 1, isColumn(right) ? right.length : 1)
  const item = (value: Value, at: number): Single => (isColumn(value) ? (value.length === 1 ? value[0]! : at < value.length ? value[at]! : new FormulaError('#N/A')) : value)
  return Array.from({ length }, (_, at) => combine(item(left, at), item(right, at)))
}

/** Where the arguments of a call stand, between its brackets and commas; brackets and quotes inside them left alone. */
export function argumentSpans(source: string, start: number, end: number): [from: number, to: number][] {
  const open = source.indexOf('(', start)
  const spans: [number, number][] = []
  let from = open + 1
  let depth = 0
  let quote = ''
  for (let at = from; at < end; at++) {
    const letter = source[at]!
    if (quote) quote = letter === quote ? '' : quote
    else if (letter === '"' || letter === "'") quote = letter
    else if (letter === '(') depth++
    else if (letter === ')' && depth > 0) depth--
    else if (letter === ',' || letter === ')') {
      if (depth > 0) continue
      spans.push([from, at])
      from = at + 1
    }
  }
  return spans
}

/** Where a name stands in the text of its formula. */
interface NamePlace {
  start: number
  end: number
  name: string
}

function placesIn(node: AstExpression | null, places: NamePlace[]): void {
  if (node === null || !node.loc) return
  const [start, end] = node.loc as [number, number]
  if (node.type === 'ReferenceIdentifier') places.push({ start, end, name: node.value })
  else if ('arguments' in node) for (const child of node.arguments) placesIn(child as AstExpression | null, places)
}

/** The text of a formula that calls nothing of its own, with its names replaced. */
function named(places: readonly NamePlace[], source: string, name: (name: string) => string): string {
  let text = ''
  let at = 0
  for (const place of places) {
    text += source.slice(at, place.start) + name(place.name)
    at = place.end
  }
  return text + source.slice(at)
}

/** Rebuilds the text of a node with its names and calls replaced; everything between them stays as it was. */
function rendered(node: AstExpression, source: string, name: (name: string) => string, call: ((call: Call) => string | undefined) | undefined): string {
  const write = (part: AstExpression, from: number, to: number): string => {
    const holes = replacements(part)
    let text = ''
    let at = from
    for (const hole of holes) {
      text += source.slice(at, hole.start) + hole.text
      at = hole.end
    }
    return text + source.slice(at, to)
  }
  const replacements = (part: AstExpression | null): { start: number; end: number; text: string }[] => {
    if (part === null || !part.loc) return []
    const [start, end] = part.loc as [number, number]
    if (part.type === 'ReferenceIdentifier') return [{ start, end, text: name(part.value) }]
    if (part.type === 'CallExpression' && part.callee.type === 'Identifier') {
      // Brackets round an argument belong to it and stand outside its place in the tree: its text runs from comma to comma.
      const renderArgs = () => {
        const spans = argumentSpans(source, start, end)
        return part.arguments.map((arg, at) => (arg?.loc ? write(arg as AstExpression, ...spans[at]!) : ''))
      }
      let args: string[] | undefined
      const text = call?.({
        name: part.callee.name.toUpperCase(),
        start,
        end,
        get args() {
          return (args ??= renderArgs())
        },
      })
      if (text !== undefined) return [{ start, end, text }]
    }
    const inner = 'arguments' in part ? part.arguments : []
    return inner.flatMap((child) => replacements(child as AstExpression | null))
  }
  return write(node, 0, source.length)
}
