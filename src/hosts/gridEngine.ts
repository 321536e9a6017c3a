/** The grid's engine without a page: evaluates formulas for the command line, and workbooks for tests. */
import './headlessDom.js'
import { Model } from '@odoo/o-spreadsheet'
import { columnLetters as lettersFromOne } from '../plan/plan.js'
import { gridContent, gridFormula } from './gridData.js'
import { registerGridFunctions } from './gridFunctions.js'

export { gridContent }
export type SheetRows = readonly (readonly (string | number | boolean | null)[])[]
export interface GridValue {
  value: number | string | boolean | null
  message?: string
}

/** The engine prints how long each step took; that is of no use to anyone here. */
console.debug = () => undefined

/** Letters of a column counted from 0. */
export const columnLetters = (column: number): string => lettersFromOne(column + 1)

export class GridEngine {
  private readonly model: InstanceType<typeof Model>
  private static readonly SHEET = 'formulas'

  /** Sheets by name; a cell that begins with "=" in `formulas` is a formula, everything in `data` is plain. */
  constructor(data: Record<string, SheetRows> = {}, formulas: Record<string, string> = {}) {
    registerGridFunctions()
    const dataSheets = Object.entries(data).map(([name, rows], at) => ({
      id: `data${at}`,
      name,
      colNumber: rows.reduce((most, row) => Math.max(most, row.length), 1),
      rowNumber: Math.max(1, rows.length),
      cells: Object.fromEntries(rows.flatMap((row, y) => row.flatMap((value, x) => (value === null || value === '' ? [] : [[`${columnLetters(x)}${y + 1}`, gridContent(value)]])))),
    }))
    const places = Object.keys(formulas).map(place)
    const colNumber = Math.max(60, ...places.map(({ col }) => col + 1))
    const rowNumber = Math.max(200, ...places.map(({ row }) => row + 1))
    this.model = new Model({ sheets: [{ id: GridEngine.SHEET, name: 'Formulas', colNumber, rowNumber, cells: formulas }, ...dataSheets] })
  }

  /** The value of one formula: a single value, or the rows it spills. */
  evaluate(text: string): GridValue | GridValue[][] {
    const getters = this.model.getters as unknown as { evaluateFormulaResult(sheet: string, formula: string): GridValue | GridValue[][] }
    const result = getters.evaluateFormulaResult(GridEngine.SHEET, gridFormula(text))
    if (!Array.isArray(result)) return result
    return (result[0] ?? []).map((_, row) => result.map((column) => column[row]!))
  }

  cell(address: string, sheet = GridEngine.SHEET): GridValue {
    return this.model.getters.getEvaluatedCell({ sheetId: sheet, ...place(address) }) as GridValue
  }
}

function place(address: string): { col: number; row: number } {
  const [, letters, digits] = /^([A-Z]+)(\d+)$/.exec(address)!
  return { col: [...letters!].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1, row: Number(digits) - 1 }
}
