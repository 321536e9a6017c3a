/**
 * What a line of a takeoff comes to: one formula a figure, over the cells of the line. Worked out for the pane and for saved results,
 * written live by the sheet Takeoff, and known again by how they begin.
 */
import { LOTS_SLACK } from '../calc/estimate/orderQuantity.js'
import { formula } from '../formula/formula.js'
import { CUT_SLACK } from './cutSlack.js'

/** Units that a thing is counted in as a whole. */
const wholeUnits = ['job', 'lump', 'lump sum', 'ls', 'each', 'ea', 'set', 'lot'] as const
export const isWholeUnit = (unit: string): boolean => ['', ...wholeUnits].includes(unit.trim().toLowerCase())

/** Cells of a line, and figures of its job. */
export type LineCell = 'Yours' | 'Net' | 'Waste' | 'Lot' | 'Order' | 'Price' | 'Listed' | 'Unit' | 'LaborHours' | 'Pieces' | 'SawKerf_in' | 'EarthworkBy'

/** The quantity that counts: the estimator's own where there is one. */
const used = 'IF(Yours="",Net,Yours)'
/** The price that counts: where somebody took theirs back, that of the list. */
const paid = 'IF(Price="",Listed,Price)'
/** As many lots as a quantity takes with its waste (the steps of ORDERQUANTITY). */
const lotsOf = (quantity: string): string => `${quantity}*(1+Waste)/Lot*(1-${LOTS_SLACK})`
const lots = lotsOf(used)
const pieces = 'ROUNDUP(Pieces,0)'
const kerf_ft = 'SawKerf_in/12'
/** As many sticks as equal pieces are cut from, the saw's share with them; a piece longer than a stick is joined as it comes. An own quantity is what is bought, and makes no piece longer. */
const sticks = `IF(OR(Yours<>"",${pieces}<=0,Net<=0),${lots},IF(Net>${pieces}*Lot,${lots},MAX(${lots},${pieces}/INT((Lot+${kerf_ft})/(Net/${pieces}+${kerf_ft})+${CUT_SLACK})-${CUT_SLACK})))`

export const lineFigures = {
  order: `ROUNDUP(${lots},0)*Lot`,
  /** Of several jobs: `Net` is what all of them use. */
  orderTogether: `ROUNDUP(${lotsOf('Net')},0)*Lot`,
  orderCut: `ROUNDUP(${sticks},0)*Lot`,
  price: paid,
  amount: `ROUND(Order*${paid},2)`,
  hours: `${used}*LaborHours`,
  /** Where a subcontractor digs, no hours of the own crew are paid. */
  hoursOfEarth: `IF(EarthworkBy="own crew",${used}*LaborHours,0)`,
  /** Of a line by hand: a price for the whole is one of it; of feet or hours somebody must say how many. */
  orderByHand: `IF(Yours<>"",Yours,IF(Price="","",IF(OR(Unit="",${wholeUnits.map((unit) => `Unit="${unit}"`).join(',')}),1,"")))`,
  amountByHand: 'IF(Order="",0,ROUND(Order*Price,2))',
  /** The same until 0.10, when the estimator's own quantity alone was looked at. */
  product: 'ROUND(Yours*Price,2)',
} as const
export type LineFigure = keyof typeof lineFigures

/** The formula over the cells of a sheet. */
export const lineFormula = (figure: LineFigure, cell: (name: LineCell) => string): string => formula(lineFigures[figure]).render((name) => cell(name as LineCell))

/** Whether a formula of a sheet is that figure, in whatever cells it stands. */
export function isLineFormula(figure: LineFigure, text: string): boolean {
  const escaped = (part: string) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
  const names = new Set(formula(lineFigures[figure]).names)
  const pattern = lineFigures[figure].split(/(\b[A-Za-z_]+\b)/).map((part) => (names.has(part) ? String.raw`\$?[A-Z]+\$?\d+` : escaped(part)))
  return new RegExp(`^${pattern.join('')}$`).test(text.replace(/\s/g, ''))
}
