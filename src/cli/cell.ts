/** Evaluates formulas with the cell functions on the command line: one as an argument, or many from standard input. */
import { readFileSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { GridEngine, type GridValue, type SheetRows } from '../hosts/gridEngine.js'
import { parseCsv } from './csv.js'

interface Answer {
  value?: unknown
  rows?: unknown[][]
  error?: string
  message?: string
}

const errorCodes = /^#(?:N\/A|ERROR|DIV\/0!|NUM!|REF|NAME\?|SPILL!|CYCLE|NULL!|BAD_EXPR)$/
const isError = (cell: GridValue) => typeof cell.value === 'string' && errorCodes.test(cell.value)
const errorOf = (cell: GridValue): Answer => ({
  error: cell.value === '#ERROR' ? '#VALUE!' : cell.value === '#BAD_EXPR' ? '#NAME?' : String(cell.value),
  message: cell.message ?? '',
})

function answer(engine: GridEngine, text: string): Answer {
  const formula = text.trim().startsWith('=') ? text.trim() : `=${text.trim()}`
  let result: GridValue | GridValue[][]
  try {
    result = engine.evaluate(formula)
  } catch (error) {
    return { error: '#NAME?', message: error instanceof Error ? error.message : String(error) }
  }
  if (!Array.isArray(result)) return isError(result) ? errorOf(result) : { value: result.value }
  const failed = result.flat().find(isError)
  if (failed) return errorOf(failed)
  return { rows: result.map((row) => row.map((cell) => cell.value)) }
}

function fileText(file: string): string {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    throw new Error(`--sheet: a CSV file that can be read; got ${file}.`)
  }
}

function options(args: readonly string[]): { sheets: Record<string, SheetRows>; formula: string | undefined } {
  const sheets: Record<string, SheetRows> = {}
  let formula: string | undefined
  for (let at = 0; at < args.length; at++) {
    const word = args[at]!
    if (word === '--sheet' || word.startsWith('--sheet=')) {
      const given = word === '--sheet' ? args[++at] : word.slice('--sheet='.length)
      const cut = given?.indexOf('=') ?? -1
      if (!given || cut < 1) throw new Error(`--sheet takes NAME=FILE.csv; got ${given ?? 'nothing'}.`)
      const [name, file] = [given.slice(0, cut), given.slice(cut + 1)]
      if (Object.keys(sheets).some((known) => known.toLowerCase() === name.toLowerCase())) throw new Error(`--sheet: each name once; ${name} came again.`)
      sheets[name] = parseCsv(fileText(file))
    } else if (formula === undefined) formula = word
    else throw new Error(`One formula at a time, in quotes; got a second: ${word}`)
  }
  return { sheets, formula }
}

async function main(): Promise<void> {
  const { sheets, formula } = options(process.argv.slice(2))
  const engine = new GridEngine(sheets)
  if (formula !== undefined) {
    const { value, rows, error, message } = answer(engine, formula)
    if (error) {
      console.log(`${error} ${message}`.trim())
      process.exitCode = 1
    } else console.log(rows ? JSON.stringify(rows) : String(value))
    return
  }
  // Each answer carries its own error, so the stream as a whole has not failed.
  for await (const line of createInterface({ input: process.stdin })) if (line.trim()) process.stdout.write(`${JSON.stringify(answer(engine, line))}\n`)
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error)
  process.exitCode = 1
})
