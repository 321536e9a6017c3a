/** Sheets that are written in one step, and what the grid is spared, against the same sheets loaded as data: cell by cell, and back and forth. */
import { Model } from '@odoo/o-spreadsheet'
import { describe, expect, it } from 'vitest'
import { GridEngine } from '../../src/hosts/gridEngine.js'
import { GridHost } from '../../src/hosts/grid.js'
import { gridData } from '../../src/hosts/gridData.js'
import { registerTogether } from '../../src/hosts/gridTogether.js'
import { makeTakeoffs } from '../../src/hosts/makeTakeoffs.js'
import { laidOut } from '../../src/plan/drawing/picture.js'
import { jobSheets } from '../../src/plan/jobSheets.js'
import { standardPlaces } from '../../src/plan/places.js'
import type { SheetPlan } from '../../src/plan/plan.js'
import { tablesSheet } from '../../src/plan/tablesSheet.js'
import { templateWorkbook } from '../../src/plan/workbook.js'
import { startingOffice } from '../../src/takeoff/demo.js'
import { demoTakeoff } from '../support/office.js'

void new GridEngine()
registerTogether()
const made = { date: '2026-11-25', revision: 1, version: 'test' }
const template = () => templateWorkbook(startingOffice(true), made)
const onGrid = (plans: readonly SheetPlan[]) => plans.filter(({ toScale }) => !toScale)

interface Getters {
  getSheetIdByName(name: string): string | undefined
  getSheetIds(): string[]
  getSheetName(id: string): string
  getCell(position: object): { style?: object; format?: string } | undefined
  getCellText(position: object, options: object): string
  getEvaluatedCell(position: object): { value: unknown; formattedValue: string }
  getCellBorder(position: object): object | null
  getColSize(sheetId: string, col: number): number
  getRowSize(sheetId: string, row: number): number
  getPaneDivisions(sheetId: string): object
  getRowDimensions(sheetId: string, row: number): { start: number }
  getSheetSize(sheetId: string): { numberOfRows: number }
  isRowHidden(sheetId: string, row: number): boolean
  getCustomColors(): string[]
  getFigures(sheetId: string): readonly { id: string }[]
  getImage(id: string): { path: string }
}
const gettersOf = (model: Model) => model.getters as unknown as Getters
/** All that is seen of a sheet within the reach of its plan. */
function seen(model: Model, { name, cells }: SheetPlan): unknown[] {
  const getters = gettersOf(model)
  const sheetId = getters.getSheetIdByName(name)!
  const [rows, cols] = [Math.max(...cells.map(({ row }) => row)), Math.max(...cells.map(({ column }) => column))]
  const list: unknown[] = [getters.getPaneDivisions(sheetId)]
  for (let col = 0; col < cols; col++) list.push(['col', col, getters.getColSize(sheetId, col)])
  for (let row = 0; row < rows; row++) {
    list.push(['row', row, getters.getRowSize(sheetId, row)])
    for (let col = 0; col < cols; col++) {
      const position = { sheetId, row, col }
      const { style = {}, format = '' } = getters.getCell(position) ?? {}
      const { value } = getters.getEvaluatedCell(position)
      const text = getters.getCellText(position, { showFormula: true })
      const border = getters.getCellBorder(position)
      if (text !== '' || border || Object.keys(style).length) list.push([row, col, text, value, style, format, border])
    }
  }
  return list
}

describe('a sheet written in one step', () => {
  const plans = jobSheets(demoTakeoff('Wicket Mill'), standardPlaces(), 'native', made)
  it('is the one that is loaded as data: contents, values, looks, borders, sizes', async () => {
    const model = new Model(gridData(template()) as never)
    await makeTakeoffs(new GridHost(model), ['Wicket Mill'], { flavor: 'native', made })
    const loaded = new Model(gridData({ sheets: [...template().sheets, tablesSheet(made), ...plans] }) as never)
    for (const plan of onGrid(plans)) expect(seen(model, plan), plan.name).toEqual(seen(loaded, plan))
  })
  it('has the pictures of its plan as pictures, once each, made again and undone too; none is more than drawn', async () => {
    const model = new Model(gridData(template()) as never)
    const host = new GridHost(model)
    const pictures = () =>
      onGrid(plans).map(({ name }) => {
        const sheetId = gettersOf(model).getSheetIdByName(name)
        return sheetId === undefined ? 0 : gettersOf(model).getFigures(sheetId).length
      })
    const drawn = onGrid(plans).map(({ drawings = [] }) => drawings.length)
    expect(drawn.reduce((sum, count) => sum + count)).toBeGreaterThan(5)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    expect(pictures()).toEqual(drawn)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    expect(pictures()).toEqual(drawn)
    const sheetId = gettersOf(model).getSheetIdByName('Crew Wicket Mill')!
    const [section] = gettersOf(model).getFigures(sheetId)
    const { path } = gettersOf(model).getImage(section!.id)
    const svg = decodeURIComponent(path.replace('data:image/svg+xml,', ''))
    const crew = plans.find(({ name }) => name === 'Crew Wicket Mill')!.drawings![0]!
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg" .*<\/svg>$/)
    // A shape for a shape, and all the words of the drawing in the file.
    expect(svg.match(/<(?:polygon|circle) /g)).toHaveLength(crew.picture.shapes.filter(({ kind }) => kind !== 'path').length)
    for (const { words } of laidOut(crew.picture, { ...crew.page, withBar: true }).texts) expect(svg).toContain(`>${words}</text>`)
    for (let round = 0; round < 2; round++) model.dispatch('REQUEST_UNDO')
    expect(pictures().every((count) => count === 0)).toBe(true)
  })
  it('is undone and done again as a whole, and made again over what was typed', async () => {
    const model = new Model(gridData(template()) as never)
    const host = new GridHost(model)
    const names = () => gettersOf(model).getSheetIds().length
    const before = names()
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    const first = onGrid(plans).map((plan) => seen(model, plan))
    expect(names()).toBe(before + onGrid(plans).length + 1)
    model.dispatch('REQUEST_UNDO' as never, {} as never)
    expect(names()).toBe(before)
    model.dispatch('REQUEST_REDO' as never, {} as never)
    expect(onGrid(plans).map((plan) => seen(model, plan))).toEqual(first)
    // Words and looks of somebody's own on a sheet of ours go when it is made again, as they did cell by cell.
    const sheetId = gettersOf(model).getSheetIdByName('Working Wicket Mill')!
    model.dispatch('UPDATE_CELL' as never, { sheetId, row: 7, col: 1, content: 'typed', style: { bold: true } } as never)
    await host.write(plans)
    expect(onGrid(plans).map((plan) => seen(model, plan))).toEqual(first)
  })
  it('rows stand where their heights put them, made new, made again and typed over', async () => {
    const model = new Model(gridData(template()) as never)
    const host = new GridHost(model)
    const getters = gettersOf(model)
    const wrong = () =>
      getters.getSheetIds().flatMap((sheetId) => {
        let start = 0
        return Array.from({ length: getters.getSheetSize(sheetId).numberOfRows }, (_, row) => {
          const [at, hidden] = [getters.getRowDimensions(sheetId, row), getters.isRowHidden(sheetId, row)]
          const isRight = at.start === start
          start += hidden ? 0 : getters.getRowSize(sheetId, row)
          return isRight ? [] : [`${getters.getSheetName(sheetId)} ${row}`]
        }).flat()
      })
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    expect(wrong()).toEqual([])
    const [design] = plans.filter(({ kind }) => kind === 'design')
    // Made again with a row that is three times as high.
    await host.write([{ ...design!, cells: design!.cells.map((cell) => (cell.row === 9 ? { ...cell, value: 'word '.repeat(200), formula: undefined as never } : cell)) }])
    expect(wrong()).toEqual([])
    model.dispatch('UPDATE_CELL' as never, { sheetId: getters.getSheetIdByName('Jobs')!, row: 7, col: 1, content: 'x', style: { fontSize: 36, textColor: '#123456' } } as never)
    expect(wrong()).toEqual([])
    // The colors in use are gathered when somebody asks for them.
    expect(getters.getCustomColors()).toEqual(expect.arrayContaining(['#1F2A30', '#123456']))
  })
  it('a cell typed on it afterwards is worked out with all that rests on it', async () => {
    const model = new Model(gridData(template()) as never)
    const host = new GridHost(model)
    await makeTakeoffs(host, ['Wicket Mill'], { flavor: 'native', made })
    const takeoff = plans.find(({ kind }) => kind === 'takeoff')!
    const total = takeoff.definedNames!.find(({ name }) => name.endsWith('.Total'))!
    const getters = gettersOf(model)
    const at = { sheetId: getters.getSheetIdByName(takeoff.name)!, row: total.row - 1, col: total.column - 1 }
    const before = Number(getters.getEvaluatedCell(at).value)
    expect(before).toBeCloseTo(demoTakeoff('Wicket Mill').total, 6)
    // Prices of the list and figures of Design are live: the run of the power feed, typed over.
    const design = plans.find(({ kind }) => kind === 'design')!
    const run = design.cells.find(({ value }) => value === 'PowerRun_ft')!
    model.dispatch('UPDATE_CELL' as never, { sheetId: getters.getSheetIdByName(design.name)!, row: run.row - 1, col: run.column, content: '900' } as never)
    expect(Number(getters.getEvaluatedCell(at).value)).toBeGreaterThan(before)
  })
})
