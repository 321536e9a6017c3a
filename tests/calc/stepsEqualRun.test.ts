/**
 * The two statements of every calculation held equal: its steps, as native formulas evaluated by the grid's engine,
 * against run, over random inputs. Changing a constant in either turns this red (tried with FRICTIONLOSS and DARCYLOSS).
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { callWithCells, checkedCells, type AnyCalculation, type Columns, type Step } from '../../src/calc.js'
import { callAny as callByName } from '../../src/calc/callWorking.js'
import { calculations } from '../../src/calc/index.js'
import { argumentValues } from '../../src/calc/working.js'
import { InputError } from '../../src/errors.js'
import { formula } from '../../src/formula/formula.js'
import type { Value } from '../../src/formula/value.js'
import { columnLetters, GridEngine, gridContent, type SheetRows } from '../../src/hosts/gridEngine.js'
import { tables } from '../../src/tables/index.js'
import { asCells, inputsOf } from '../support/calculations.js'

const RUNS = 300
const PERIODS = 12
/** Two orders of the same arithmetic differ in the last digits only. */
const WITHIN = 1e-9

const tableSheets: Record<string, SheetRows> = Object.fromEntries(
  tables.map((table) => [table.id, [table.columns, ...table.rows.map((row) => table.columns.map((name) => row[name] ?? null))]]),
)
const tableRange = (name: string): string | undefined => {
  const parts = /^(\w+)\[(\w+)\]$/.exec(name)
  const table = parts && tables.find(({ id }) => id === parts[1])
  if (!table) return undefined
  const letter = columnLetters(table.columns.indexOf(parts[2]!))
  return `${table.id}!$${letter}$2:$${letter}$${table.rows.length + 1}`
}

interface Sample {
  cells: unknown[]
  values: Map<string, Value>
  result: unknown
}

/** Inputs that have an answer: random ones, with those that are refused left out. */
function samples(calculation: AnyCalculation): Sample[] {
  const found: Sample[] = []
  // A need of whole lots, no flow and a flow of one are what a random draw never meets.
  const listed: Readonly<Record<string, unknown[][]>> = {
    ORDERQUANTITY: [
      [100, 0, 100],
      [250, 0, 50],
      [3, 0, 1],
    ],
    DARCYLOSS: [
      [0, 100, 1.049],
      [1, 100, 1.049],
    ],
    FRICTIONLOSS: [
      [0, 100, 1.049],
      [1, 100, 1.049],
    ],
  }
  const drawn = fc.sample(inputsOf(calculation, PERIODS), { numRuns: RUNS * 8, seed: 20261125 }).map(asCells)
  for (const cells of [...(listed[calculation.id] ?? []), ...drawn]) {
    if (found.length === RUNS) break
    try {
      const result = callWithCells(calculation, cells)
      const values = argumentValues(calculation, checkedCells(calculation, cells))
      if (calculation.id === 'STORAGENEEDED') values.set('capacity_gal', result as number)
      found.push({ cells, values, result })
    } catch (error) {
      if (!(error instanceof InputError)) throw error
    }
  }
  return found
}

/** Inputs that are right each by itself and have no answer together. */
function refused(calculation: AnyCalculation): Sample[] {
  // Keys that are right and rows that the tables do not have: a random draw rarely meets them.
  const listed: Readonly<Record<string, unknown[]>> = { MOTORCURRENT: [1, 300, 1], PIPEBORE: ['PE CTS', '8'], CONDUITFILL: ['PVC 80', '1/4', [0.1]] }
  const drawn = fc.sample(inputsOf(calculation, PERIODS), { numRuns: RUNS * 4, seed: 20261126 }).map(asCells)
  return [...(listed[calculation.id] ? [listed[calculation.id]!] : []), ...drawn].flatMap((cells) => {
    let checked: ReturnType<typeof checkedCells>
    try {
      checked = checkedCells(calculation, cells)
    } catch (error) {
      if (error instanceof InputError) return []
      throw error
    }
    try {
      callWithCells(calculation, cells)
      return []
    } catch (error) {
      if (error instanceof InputError) return error.code === '#N/A' ? [{ cells, values: argumentValues(calculation, checked), result: undefined }] : []
      throw error
    }
  })
}

/** Lays the samples out on a sheet: arguments, series, periods and steps in cells, and answers where each step stands. */
function layOut(calculation: AnyCalculation, list: readonly Sample[]) {
  const cells: Record<string, string> = {}
  const steps = calculation.steps as readonly Step[]
  const resultCells: Map<string, string>[] = []
  let column = 0
  for (const { values } of list) {
    const places = new Map<string, string>()
    let row = 1
    const put = (content: string) => {
      const at = `${columnLetters(column)}${row++}`
      cells[at] = content
      return `$${at.replace(/(\d+)/, '$$$1')}`
    }
    for (const [name, value] of values) {
      if (Array.isArray(value)) {
        const first = put(gridContent(value[0] as number))
        let last = first
        for (const item of value.slice(1)) last = put(gridContent(item as number))
        places.set(name, `${first}:${last}`)
      } else places.set(name, put(gridContent(value as number)))
    }
    const periods = calculation.periods
    if (periods) {
      const inputs = calculation.names.filter((name) => calculation.takes[name].kind === 'series')
      const record = values.get(inputs[0]!) as readonly number[]
      const columns = new Map<string, string[]>([...inputs, ...periods.columns.map((step: Step) => step.symbol)].map((name) => [name, []]))
      for (let at = 0; at < record.length * periods.passes; at++) {
        for (const name of inputs) {
          const series = values.get(name)!
          columns.get(name)!.push(put(gridContent((Array.isArray(series) ? series[at % record.length] : series) as number)))
        }
        for (const step of periods.columns as readonly Step[]) {
          const text = formula(step.formula).render((name) => {
            if (name.startsWith('before_')) {
              const own = name.slice('before_'.length)
              return at > 0 ? columns.get(own)![at - 1]! : `(${formula(periods.start[own]!).render((wanted) => places.get(wanted)!)})`
            }
            return columns.get(name)?.[at] ?? places.get(name) ?? tableRange(name)!
          })
          columns.get(step.symbol)!.push(put(`=${text}`))
        }
      }
      // Columns of the period table, gathered into one run of cells each, so that a range can name them.
      for (const [name, refs] of columns) {
        const copies = refs.map((ref) => put(`=${ref}`))
        places.set(name, `${copies[0]}:${copies.at(-1)}`)
      }
    }
    for (const step of steps) places.set(step.symbol, put(`=${formula(step.formula).render((name) => places.get(name) ?? tableRange(name)!)}`))
    resultCells.push(places)
    column++
  }
  return { cells, resultCells }
}

const expectedOf = (calculation: AnyCalculation, { result }: Sample): Record<string, unknown> => {
  if (calculation.id === 'STORAGENEEDED') return { enough: true }
  if (calculation.id === 'WATERBALANCE') return { last_gal: [...((result as Columns).stored_gal as Float64Array)].at(-1) }
  if (calculation.spills) return Object.fromEntries(Object.entries(result as Columns).map(([name, list]) => [name, list[0]]))
  return { [calculation.resultName]: result }
}

describe('steps equal run', () => {
  for (const calculation of calculations) {
    it(`${calculation.id}`, () => {
      const single = calculation.shapeOf
        ? { ...calculation, takes: { ...calculation.takes, [calculation.shapeOf]: { kind: 'number', label: 'Rain', least: 0, most: 1000 } } }
        : calculation
      const list = samples(single as AnyCalculation)
      expect(list.length).toBe(RUNS)
      const { cells, resultCells } = layOut(single as AnyCalculation, list)
      const engine = new GridEngine(tableSheets, cells)
      list.forEach((sample, at) => {
        for (const [name, expected] of Object.entries(expectedOf(calculation, sample))) {
          const place = resultCells[at]!.get(name)!
          const { value, message } = engine.cell(place.replace(/\$/g, ''))
          const about = `${JSON.stringify(sample.cells)}: run ${expected}, steps ${value} ${message ?? ''}`
          if (typeof expected === 'number' && typeof value === 'number') expect(Math.abs(value - expected) / Math.max(1, Math.abs(expected)), about).toBeLessThanOrEqual(WITHIN)
          else expect(value, about).toBe(expected)
        }
      })
    })
  }
})

describe('what has no answer', () => {
  it('has none in its steps either: no formula of a sheet gives a figure where the function refuses one', () => {
    const tried = new Map<string, number>()
    for (const calculation of calculations) {
      if (calculation.periods || calculation.shapeOf) continue
      const list = refused(calculation).slice(0, 60)
      if (!list.length) continue
      tried.set(calculation.id, list.length)
      const { cells, resultCells } = layOut(calculation, list)
      const engine = new GridEngine(tableSheets, cells)
      list.forEach((sample, at) => {
        for (const name of calculation.spills ? Object.keys(calculation.spills) : [calculation.resultName])
          expect(String(engine.cell(resultCells[at]!.get(name)!.replace(/\$/g, '')).value), `${calculation.id} ${JSON.stringify(sample.cells)} ${name}`).toMatch(/^#/)
      })
    }
    expect([...tried.keys()]).toEqual(expect.arrayContaining(['PUMPDUTY', 'UPLIFTSAFETY', 'MOTORCURRENT', 'PIPEBORE']))
    console.log(`No answer: ${[...tried].map(([id, count]) => `${id} ${count}`).join(', ')}`)
  })
})

describe('the end of a pump curve', () => {
  const curve = [
    [0, 100],
    [10, 50],
  ]
  it('is a duty still; past it there is none', () => {
    // 50 ft at any flow meets the last point; a hair less lies past it.
    expect(callByName('PUMPDUTY', [curve, 50, 5, 0])).toEqual([
      ['flow', 'head'],
      [10, 50],
    ])
    expect(() => callByName('PUMPDUTY', [curve, 49.9, 5, 0])).toThrow('the duty lies past its last point, 10 gpm at 50 ft')
  })
})

describe('WORKING', () => {
  const SHOWN = 25
  for (const calculation of calculations) {
    it(`${calculation.id}: ends in the result, every cell of its tables right`, () => {
      for (const { cells, result } of samples(calculation as AnyCalculation).slice(0, SHOWN)) {
        if (calculation.shapeOf && typeof result !== 'number') continue
        const rows = callByName('WORKING', [calculation.id, ...cells]) as (string | number)[][]
        const about = `${JSON.stringify(cells)}: ${JSON.stringify(rows.slice(-4))}`
        if (calculation.id === 'WATERBALANCE') {
          const heading = rows.findIndex(([first]) => first === 'period')
          for (const [name, list] of Object.entries(result as Columns)) {
            const column = rows[heading]!.indexOf(name)
            Array.from(list).forEach((value, at) =>
              expect(Math.abs((rows[heading + 1 + at]![column] as number) - value), `${name} ${about}`).toBeLessThanOrEqual(WITHIN * Math.max(1, value)),
            )
          }
        }
        for (const [name, expected] of Object.entries(expectedOf(calculation, { cells, result, values: new Map() }))) {
          const value = rows.find(([symbol]) => symbol === name)?.[2]
          if (typeof expected === 'number') expect(Math.abs((value as number) - expected) / Math.max(1, Math.abs(expected)), about).toBeLessThanOrEqual(WITHIN)
          else expect(value, about).toBe(expected === true ? 'TRUE' : expected)
        }
      }
    })
  }
  it('of a range of rain asks for one entry', () => {
    expect(() => callByName('WORKING', ['CATCHMENTYIELD', 1600, [[0.5], [1], [0.01]], 0.85])).toThrow('Rain (rain): one number for a working')
  })
  it('of an aluminum feed shows its size, though the table has an empty cell', () => {
    // 8 A over 250 ft at 230 V and 3 %: 2*8*250*R/1000 <= 6.9, R at most 1.725; aluminum 8 AWG has 1.28 (NEC Chapter 9 Table 8), 10 AWG 2.04.
    const rows = callByName('WORKING', ['CONDUCTORSIZE', 8, 250, 230, 0.03, 1, 'aluminum']) as (string | number)[][]
    expect(rows.at(-1)![2]).toBe('8')
  })
})
