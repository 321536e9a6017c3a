/** Lists of like rows: what a row says of the one above it, and where the first row begins. */
import { describe, expect, it } from 'vitest'
import { columnsOf, column, type RowList } from '../../src/takeoff/rowLists/rowList.js'
import { cite } from '../../src/sources.js'
import { isError } from '../../src/formula/value.js'
import { demoRows, leastRow, takeoffOf } from '../support/office.js'

describe('the months of a job', () => {
  it('are two like years from empty by yield after and before spillage, worked out here by plain arithmetic', () => {
    for (const station of demoRows('Rain').map(({ Station }) => Station)) {
      const { design } = takeoffOf({ ...leastRow, RainStation: station, TankCount: 2, People: 3 })
      const [inflow, demand, storage] = [design.column('MonthInflow_gal'), design.column('MonthDemand_gal'), design.number('UsableStorage_gal')]
      let [after, before] = [0, 0]
      for (const year of [1, 2])
        for (let month = 0; month < 12; month++) {
          const supplied = Math.min(demand[month]!, after)
          after = Math.min(after + inflow[month]! - supplied, storage - supplied)
          const most = Math.min(demand[month]!, before + inflow[month]!)
          before = Math.min(before + inflow[month]! - most, storage)
          const [stored, high] = (year === 1 ? ['FirstYear_gal', 'HighFirst_gal'] : ['MonthStored_gal', 'HighStored_gal']).map((name) => design.column(name)[month]!)
          // The same few operations, in another order.
          expect(stored, `${station}, year ${year}, month ${month + 1}`).toBeCloseTo(after, 6)
          expect(high, `${station}, year ${year}, month ${month + 1}`).toBeCloseTo(before, 6)
          if (year === 2) expect(design.column('MonthSupplied_gal')[month]).toBeCloseTo(supplied, 6)
        }
    }
  })
})

describe('half months', () => {
  it('are yield after spillage on half of each month, two like years from empty; nothing is worked where there are days', () => {
    const { design } = takeoffOf({ ...leastRow, RainStation: 'Low Fallow', TankCount: 2, People: 3 })
    const [inflow, demand, storage] = [design.column('MonthInflow_gal'), design.column('MonthDemand_gal'), design.number('UsableStorage_gal')]
    let [stored, met] = [0, 0]
    for (const year of [1, 2])
      for (let half = 0; half < 24; half++) {
        const [comes, goes] = [inflow[half >> 1]! / 2, demand[half >> 1]! / 2]
        const supplied = Math.min(goes, stored)
        stored = Math.min(stored + comes - supplied, storage - supplied)
        if (year === 2) met += supplied
      }
    expect(design.number('SizingShare')).toBeCloseTo(met / demand.reduce((sum, one) => sum + one, 0), 9)
    const withDays = takeoffOf({ ...leastRow, TankCount: 2, People: 3 }).design
    expect([withDays.column('HalfSupplied_gal'), withDays.number('SizingShare')]).toEqual([[''], withDays.number('Reliability')])
  })
  it('count as many tanks as the days of the same station, or nearly so', () => {
    const means = demoRows('Rain').map((row) => (row.Station === 'Alder Reach' ? { ...row, Station: 'Without days' } : row))
    for (const [RoofArea_ft2, People, most] of [
      // Yield after spillage on whole months took seven for the first, where the days take two.
      [1400, 4, 2],
      [2000, 2, 0],
      [3000, 3, 1],
      [5000, 2, 0],
    ] as const) {
      const row = { ...leastRow, TankModel: 'Quern 1200', RoofArea_ft2, People }
      const [byDays, byMeans] = [takeoffOf(row), takeoffOf({ ...row, RainStation: 'Without days' }, { Rain: means })].map(({ design }) => design.number('TankCount')) as [
        number,
        number,
      ]
      expect(Math.abs(byMeans - byDays), `${RoofArea_ft2} ft²: ${byDays} and ${byMeans}`).toBeLessThanOrEqual(most)
    }
  })
})

describe('a list', () => {
  const source = cite('definitions')
  const listOf = (...columns: ReturnType<typeof column>[]): RowList => ({ title: () => '', heading: '', columns, rows: () => [], restsOn: [] })
  const rows = [1, 2, 3].map((given) => ({ name: String(given), cells: { Given: given } }))
  const worked = (list: RowList, name: string) => columnsOf(list, rows, { value: () => undefined }, () => undefined)(name)
  it('adds up row by row, and begins where another column ends', () => {
    const sum = column('Sum', '', 'before_Sum+Given', source)
    expect(worked(listOf(column('Given', '', '', source), sum), 'Sum')).toEqual([1, 3, 6])
    const again = column('Again', '', 'before_Again+Given', source, { startsAt: 'Sum' })
    expect(worked(listOf(column('Given', '', '', source), sum, again), 'Again')).toEqual([7, 9, 12])
  })
  it('a text a row where each has its own, and a given value before a formula', () => {
    expect(worked(listOf(column('Given', '', '5', source)), 'Given')).toEqual([1, 2, 3])
    expect(worked(listOf(column('Own', '', ['2*3', '7'], source)), 'Own')).toEqual([6, 7, null])
  })
  it('a column that rests on itself is an error, and no endless walk', () => {
    const round = listOf(column('One', '', 'Two+1', source), column('Two', '', 'One+1', source))
    expect(worked(round, 'One').every((value) => isError(value as never))).toBe(true)
  })
})
