/** The library: friction, the grid, and the tanks day by day, against bare loops. */
import { all, create } from 'mathjs'
import { frictionLoss, storageNeeded, supplyReliability, waterBalance } from '../../src/index.js'
import { callByName } from '../../src/calc/callByName.js'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { many, report, sink, time } from './measure.js'

const inputs = (count: number) =>
  Array.from({ length: count }, (_, at) => ({ flow_gpm: 1 + (at % 97) / 4, length_ft: 50 + (at % 311), bore_in: 0.6 + (at % 13) / 8, smoothness: 140 + (at % 11) }))

export function friction(): void {
  const inlined = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const { flow_gpm, length_ft, bore_in, smoothness } of list)
      total += (4.727 * length_ft * ((flow_gpm * 231) / 1728 / 60) ** 1.852) / (smoothness ** 1.852 * (bore_in / 12) ** 4.871)
    sink.total += total
  }
  const unchecked = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const input of list) total += frictionLoss.run(input)
    sink.total += total
  }
  const checked = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const input of list) total += frictionLoss(input)
    sink.total += total
  }
  const mathjs = create(all!)
  const compiled = mathjs.compile('4.727*length_ft*(flow_gpm*231/1728/60)^1.852/(smoothness^1.852*(bore_in/12)^4.871)')
  const evaluated = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const input of list) total += compiled.evaluate(input) as number
    sink.total += total
  }
  const cells = (list: ReturnType<typeof inputs>) => {
    let total = 0
    for (const { flow_gpm, length_ft, bore_in, smoothness } of list) total += callByName('FRICTIONLOSS', [flow_gpm, length_ft, bore_in, smoothness]) as number
    sink.total += total
  }
  for (const work of [inlined, unchecked, checked, evaluated, cells]) work(inputs(50_000))
  const list = inputs(100_000)
  const base = time(() => inlined(list))
  report('FRICTIONLOSS.run against a hand-inlined loop', time(() => unchecked(list)) / base, 1.2)
  report('FRICTIONLOSS checked, plain numbers, against the loop', time(() => checked(list)) / base, 3)
  report('FRICTIONLOSS through the door of a cell, against the loop', time(() => cells(list)) / base)
  report('mathjs on the same formula, against the loop', time(() => evaluated(list), 3) / base)
  for (const count of [1000, 10_000, 100_000]) {
    const some = inputs(count)
    console.log(
      `  growth at ${String(count).padStart(7)}: run ${((time(() => unchecked(some)) / count) * 1e6).toFixed(0)} ns, checked ${((time(() => checked(some)) / count) * 1e6).toFixed(0)} ns a call`,
    )
  }
}

export function grid(): void {
  const rows = (count: number, formula: (row: number) => string) => {
    const cells: Record<string, string> = {}
    for (let row = 1; row <= count; row++)
      Object.assign(cells, { [`A${row}`]: String(1 + (row % 97) / 4), [`B${row}`]: String(50 + (row % 311)), [`C${row}`]: String(0.6 + (row % 13) / 8), [`D${row}`]: formula(row) })
    return cells
  }
  const call = rows(10_000, (row) => `=CISTERN.FRICTIONLOSS(A${row},B${row},C${row})`)
  const native = rows(10_000, (row) => `=4.727*B${row}*(A${row}*231/1728/60)^1.852/(150^1.852*(C${row}/12)^4.871)`)
  const run = (cells: Record<string, string>) => time(() => void (sink.total += new GridEngine({}, cells).cell('D10000').value as number), 4)
  run(native)
  report('10,000 cells of FRICTIONLOSS in the grid, against the native formula', run(call) / run(native), 1.5)
}

export function rain(): void {
  const days = 30 * 365
  const inflow = Float64Array.from({ length: days }, (_, day) => ((day * 7919) % 13 < 3 ? ((day * 104729) % 997) / 1.7 : 0))
  const demand = 60
  const bare = (record: Float64Array) => {
    let stored = 0
    for (let day = 0; day < record.length; day++) stored = Math.min(Math.max(stored + record[day]! - demand, 0), 3000)
    sink.total += stored
  }
  const balance = (record: Float64Array) =>
    void (sink.total += (waterBalance.run({ inflow_gal: record, demand_gal: demand, capacity_gal: 3000, start_gal: 0, rule: 'YAS' }) as { stored_gal: Float64Array }).stored_gal[
      record.length - 1
    ]!)
  const needed = (record: Float64Array, measure: 'volume' | 'time') =>
    void (sink.total += storageNeeded.run({ inflow_gal: record, demand_gal: demand, target: 0.95, rule: 'YAS', measure }))
  for (let at = 0; at < 200; at++) bare(inflow)
  for (let at = 0; at < 150; at++) balance(inflow)
  for (let at = 0; at < 150; at++) needed(inflow, 'volume')
  for (let at = 0; at < 50; at++) needed(inflow, 'time')
  const base = many(() => bare(inflow), 40)
  report('WATERBALANCE on 30 years of days, against a bare min/max loop', many(() => balance(inflow), 20) / base, 4)
  report('smallest tank by volume on 30 years of days, in passes of that loop', many(() => needed(inflow, 'volume'), 10) / base, 8)
  report('smallest tank by time, in passes of that loop', many(() => needed(inflow, 'time'), 10) / base, 12)
  const century = Float64Array.from({ length: 100 * 365 }, (_, day) => inflow[day % days]!)
  report('balance, time a day at 100 years against 30', many(() => balance(century), 10) / century.length / (many(() => balance(inflow), 20) / days), 1.2)
  const range = [...inflow].map((gallons) => [gallons])
  const reliability = () =>
    void (sink.total += supplyReliability.run({ inflow_gal: inflow, demand_gal: demand, capacity_gal: 3000, start_gal: 0, rule: 'YAS', measure: 'volume' }) as number)
  const asCell = () => void (sink.total += callByName('SUPPLYRELIABILITY', [range, demand, 3000, 0, 'YAS', 'volume']) as number)
  const spilled = () => void (sink.total += (callByName('WATERBALANCE', [range, demand, 3000, 0, 'YAS']) as unknown[][]).length)
  for (let at = 0; at < 100; at++) [reliability, asCell, spilled].forEach((work) => work())
  report('reliability as a cell over 30 years of days, against its kernel', many(asCell, 10) / many(reliability, 10), 2)
  report('a spilled balance as a cell, against its kernel', many(spilled, 5) / many(() => balance(inflow), 10), 8)
}
