/** Reads back from a takeoff sheet what the estimator changed: own quantities and prices, and added lines. */
import type { AddedLine, Kept, Override } from '../takeoff/takeoff.js'
import { ADDED_SECTION, TAKEOFF_HEADING_ROW, takeoffColumns as columns } from './takeoffSheet.js'

interface Cell {
  value: unknown
  formula?: string
}

const number = (cell: Cell | undefined): number | undefined => (cell && cell.formula === undefined && typeof cell.value === 'number' ? cell.value : undefined)
const text = (cell: Cell | undefined): string => String(cell?.value ?? '').trim()

export function keptFrom(rows: readonly (readonly Cell[])[]): Kept {
  const overrides: Record<string, Override> = {}
  const added: AddedLine[] = []
  let isAdded = false
  for (const row of rows.slice(TAKEOFF_HEADING_ROW)) {
    const cell = (name: keyof typeof columns) => row[columns[name] - 1]
    const code = text(cell('code'))
    const description = text(cell('description'))
    if (code === ADDED_SECTION) isAdded = true
    else if (isAdded && code === '' && description === 'Added by hand, total') break
    else if (isAdded || (description !== '' && cell('order')?.formula === undefined && cell('amount')?.formula?.startsWith('SUM') !== true && !/, total$/.test(description))) {
      const quantity = number(cell('yours')) ?? number(cell('net')) ?? number(cell('order')) ?? null
      const price = number(cell('price')) ?? null
      if (code !== '' || description !== '') added.push({ code, description, unit: text(cell('unit')), quantity, price, why: text(cell('why')) })
    } else if (code !== '' && cell('order')?.formula !== undefined) {
      const quantity = number(cell('yours')) ?? number(cell('net'))
      const price = number(cell('price'))
      if (quantity !== undefined || price !== undefined) overrides[code] = { ...(quantity === undefined ? {} : { quantity }), ...(price === undefined ? {} : { price }) }
    }
  }
  return { overrides, added }
}
