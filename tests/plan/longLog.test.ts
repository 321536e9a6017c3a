/** A log of many tanks goes on to a second page: its headings with it, and what is written there is read as on the first. */
import { expect, it } from 'vitest'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { fromEntries } from '../../src/plan/keptEntries.js'
import { pagesOf } from '../../src/plan/pages.js'
import { standardPlaces } from '../../src/plan/places.js'
import type { SheetPlan } from '../../src/plan/plan.js'
import { logHeadings, testColumns } from '../../src/plan/sheets/testDraft.js'
import { nothingKept } from '../../src/takeoff/typed.js'
import { makeTakeoff } from '../../src/takeoff/takeoff.js'
import { readOffice } from '../../src/takeoff/office.js'
import { made } from '../support/makings.js'
import { leastRow, officeWith } from '../support/office.js'

const record = (TankCount: number, paper: 'letter' | 'A4', cells = {}): SheetPlan => {
  const office = readOffice(officeWith({ Jobs: [{ ...leastRow, TankCount }] }))
  const takeoff = makeTakeoff(office, office.tables.Jobs[0]!, { ...nothingKept, crew: { cells, added: [] } })
  return { ...jobSheets(takeoff, standardPlaces(), 'native', made).find(({ kind }) => kind === 'test')!, paper }
}
const rowsWith = (plan: SheetPlan, column: number, fits: (value: string) => boolean): number[] =>
  plan.cells.filter((cell) => cell.column === column && fits(String(cell.value ?? ''))).map(({ row }) => row)

it.each([1, 3, 6, 8, 9, 10, 11, 12].flatMap((tanks) => (['letter', 'A4'] as const).map((paper) => [tanks, paper] as const)))(
  '%s tanks, %s: no line of the log stands on a page without its headings',
  (tanks, paper) => {
    const plan = record(tanks, paper)
    const pages = [1, ...pagesOf(plan).breaks]
    const pageOf = (row: number) => pages.filter((from) => from <= row).length
    const heads = rowsWith(plan, testColumns.code, (value) => value === logHeadings.code)
    const lines = rowsWith(plan, testColumns.code, (value) => /^[TR]\d+$/.test(value))
    expect(lines).toHaveLength(tanks + 2)
    for (const row of lines) expect(heads.filter((head) => head < row).map(pageOf), `row ${row}`).toContain(pageOf(row))
  },
)
it.each(Array.from({ length: 12 }, (_, at) => at + 1))('%s tanks: the readings of a part stand on one page, and its signatures with the last', (tanks) => {
  for (const paper of ['letter', 'A4'] as const) {
    const plan = record(tanks, paper)
    const bars = ['READINGS AT LINE AND FIRST FILL', 'DISINFECTION AND BACKFLOW', 'SIGNED'].map((title) => rowsWith(plan, testColumns.code, (value) => value === title)[0]!)
    const [line, disinfection, signed] = bars as [number, number, number]
    const { breaks } = pagesOf(plan)
    expect(breaks.filter((row) => (row > line && row < disinfection) || (row > disinfection && row <= signed))).toEqual([])
  }
})
it('what is written below the second headings is read, and a test done again passes its tank', () => {
  const passed = { start_inHg: 4.2, end_inHg: 4.2, watched_min: 60, done: 'R. Voss' }
  const plan = record(12, 'letter', { T12: { ...passed, end_inHg: 2 }, R1: { ...passed, text: 'T12, new seal' } })
  const rows = Array.from({ length: Math.max(...plan.cells.map(({ row }) => row)) }, (_, at) =>
    Array.from({ length: 14 }, (_unused, column) => {
      const cell = plan.cells.filter((one) => one.row === at + 1 && one.column === column + 1).at(-1)
      return { value: cell?.value ?? null, ...(cell?.formula === undefined ? {} : { formula: cell.formula }) }
    }),
  )
  expect(fromEntries(rows, plan.name).crew).toMatchObject({ cells: { T12: { end_inHg: 2, done: 'R. Voss' }, R1: { text: 'T12, new seal' } }, added: [] })
  const said = (code: string, column: number) =>
    plan.cells.find(({ row, column: at }) => at === column && row === rowsWith(plan, testColumns.code, (value) => value === code)[0])?.value
  expect([said('T12', testColumns.verdict), said('T12', testColumns.passed), said('R1', testColumns.verdict)]).toEqual(['stop', 1, 'pass'])
})
