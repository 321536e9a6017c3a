/**
 * The spreadsheet functions that our formulas may use: each is known, with the same meaning, to Excel,
 * to the grid of the local page and to LibreOffice Calc 7.4. A formula with any other function is refused.
 */
import { roundTo, withCommas } from '../rounding.js'
import { FormulaError, finite, isColumn, isError, toNumber, toText, toTruth, type Single, type Value } from './value.js'

type Native = (args: readonly Value[]) => Value

const wrong = () => new FormulaError('#VALUE!')
const flat = (args: readonly Value[]): Single[] => args.flatMap((arg) => (isColumn(arg) ? arg : [arg]))

/** Numbers among the arguments: text and blanks inside a range are passed over, as a spreadsheet does. */
function numbers(args: readonly Value[]): number[] | FormulaError {
  const found: number[] = []
  for (const arg of args) {
    for (const item of isColumn(arg) ? arg : [arg]) {
      if (isError(item)) return item
      if (typeof item === 'number') found.push(item)
      else if (!isColumn(arg)) {
        const number = toNumber(item)
        if (isError(number)) return number
        found.push(number)
      }
    }
  }
  return found
}

function ofNumbers(compute: (list: number[]) => number): Native {
  return (args) => {
    const list = numbers(args)
    return isError(list) ? list : finite(compute(list))
  }
}

function ofOne(compute: (x: number) => number): Native {
  return (args) => {
    const x = toNumber(args[0] ?? null)
    return isError(x) ? x : finite(compute(x))
  }
}

function ofTwo(compute: (x: number, y: number) => number): Native {
  return (args) => {
    const x = toNumber(args[0] ?? null)
    const y = toNumber(args[1] ?? null)
    return isError(x) ? x : isError(y) ? y : finite(compute(x, y))
  }
}

function sameText(one: Single, other: Single): boolean {
  if (typeof one === 'string' && typeof other === 'string') return one.toLowerCase() === other.toLowerCase()
  return one === other
}

function match([wanted, list, kind]: readonly Value[]): Value {
  if (wanted === undefined || list === undefined || isColumn(wanted)) return wrong()
  if (isError(wanted)) return wanted
  const column = isColumn(list) ? list : [list]
  const order = kind === undefined ? 1 : toNumber(kind)
  if (order === 0) {
    const at = column.findIndex((item) => sameText(item, wanted))
    return at < 0 ? new FormulaError('#N/A') : at + 1
  }
  const target = toNumber(wanted)
  if (isError(target)) return target
  let found = 0
  column.forEach((item, at) => {
    if (typeof item === 'number' && (order === 1 ? item <= target : item >= target) && at === found) found = at + 1
  })
  return found === 0 ? new FormulaError('#N/A') : found
}

function index([list, position, across]: readonly Value[]): Value {
  if (list === undefined) return wrong()
  // Our ranges are one column wide.
  if (across !== undefined && across !== 1) return new FormulaError('#REF!')
  if (isError(list)) return list
  const at = toNumber(position ?? null)
  if (isError(at)) return at
  const column = isColumn(list) ? list : [list]
  const item = column[Math.trunc(at) - 1]
  return item === undefined ? new FormulaError('#REF!') : item
}

function sumProduct(args: readonly Value[]): Value {
  const columns = args.map((arg) => (isColumn(arg) ? arg : [arg]))
  const length = columns[0]?.length ?? 0
  if (columns.some((column) => column.length !== length)) return wrong()
  let total = 0
  for (let at = 0; at < length; at++) {
    let product = 1
    for (const column of columns) {
      const item = column[at]!
      if (isError(item)) return item
      product *= typeof item === 'number' ? item : 0
    }
    total += product
  }
  return finite(total)
}

/** The two formats that words use: thousands with a comma, with or without decimals. */
function asText([given, format]: readonly Value[]): Value {
  const value = toNumber(given ?? null)
  if (isError(value)) return value
  const decimals = /^#,##0(?:\.(0+))?$/.exec(String(format))
  if (!decimals) return wrong()
  const places = decimals[1]?.length ?? 0
  return withCommas(value, places)
}

function truths(combine: (list: boolean[]) => boolean): Native {
  return (args) => {
    const list: boolean[] = []
    for (const item of flat(args)) {
      const truth = toTruth(item)
      if (isError(truth)) return truth
      list.push(truth)
    }
    return combine(list)
  }
}

export const nativeFunctions: Readonly<Record<string, Native>> = {
  ABS: ofOne(Math.abs),
  AND: truths((list) => list.every(Boolean)),
  ATAN: ofOne(Math.atan),
  COUNT: (args) => flat(args).filter((item) => typeof item === 'number').length,
  EXP: ofOne(Math.exp),
  INDEX: index,
  INT: ofOne(Math.floor),
  ISNUMBER: (args) => typeof (args[0] ?? null) === 'number',
  LEN: (args) => {
    const text = toText(args[0] ?? null)
    return isError(text) ? text : text.length
  },
  LN: ofOne((x) => (x > 0 ? Math.log(x) : NaN)),
  LOWER: (args) => {
    const text = toText(args[0] ?? null)
    return isError(text) ? text : text.toLowerCase()
  },
  MATCH: match,
  MAX: ofNumbers((list) => (list.length ? Math.max(...list) : 0)),
  MIN: ofNumbers((list) => (list.length ? Math.min(...list) : 0)),
  MOD: ofTwo((x, y) => (y === 0 ? NaN : x - y * Math.floor(x / y))),
  NA: () => new FormulaError('#N/A'),
  NOT: (args) => {
    const truth = toTruth(args[0] ?? null)
    return isError(truth) ? truth : !truth
  },
  OR: truths((list) => list.some(Boolean)),
  PI: () => Math.PI,
  ROUND: ofTwo((x, digits) => roundTo(x, digits)),
  ROUNDDOWN: ofTwo((x, digits) => roundTo(x, digits, Math.floor)),
  ROUNDUP: ofTwo((x, digits) => roundTo(x, digits, Math.ceil)),
  SIN: ofOne(Math.sin),
  SQRT: ofOne((x) => (x >= 0 ? Math.sqrt(x) : NaN)),
  SUM: ofNumbers((list) => list.reduce((total, x) => total + x, 0)),
  SUMPRODUCT: sumProduct,
  TEXT: asText,
}

/** Functions by how many arguments a spreadsheet asks of them, where it is not one or more. */
const counts: readonly [least: number, most: number, names: string][] = [
  [0, 0, 'NA PI'],
  [1, 1, 'ABS ATAN EXP INT ISNUMBER LEN LN LOWER NOT SIN SQRT'],
  [2, 2, 'IFERROR MOD ROUND ROUNDDOWN ROUNDUP TEXT'],
  [2, 3, 'IF INDEX MATCH'],
]
/** What is wrong with the number of arguments of a native function. */
export function countProblem(name: string, given: number): string | undefined {
  const [least, most] = counts.find(([, , names]) => names.split(' ').includes(name)) ?? [allowedFunctions.includes(name) ? 1 : 0, Infinity]
  return given < least || given > most
    ? `${name} takes ${most === Infinity ? `${least} or more` : least === most ? least : `${least} to ${most}`} arguments; it has ${given}`
    : undefined
}

/** IF and IFERROR look at an argument before they take another, so the evaluator handles them itself. */
const lazyFunctions = ['IF', 'IFERROR'] as const
export const allowedFunctions: readonly string[] = [...Object.keys(nativeFunctions), ...lazyFunctions].sort()
