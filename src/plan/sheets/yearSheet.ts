/** Storage through the year, roofs and uses behind it, the daily record by year, and the curve of the chosen pump. */
import type { Design } from '../../takeoff/design.js'
import { curve } from '../../takeoff/rowLists/curve.js'
import { months } from '../../takeoff/rowLists/months.js'
import { roofs } from '../../takeoff/rowLists/roofs.js'
import { rowLists } from '../../takeoff/rowLists/index.js'
import { yearPicture, yearSource } from '../drawing/yearPicture.js'
import type { NamePlaces } from '../places.js'
import { range, SheetDraft, type SheetPlan } from '../plan.js'
import { ABOVE, columnOf, FIRST_COLUMN, placeBlock, putHeadings, putRows, putSums, type Block } from '../rowBlock.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'

const FIRST_ROW = 7

/** The lists of a job, one below the other. */
function blocksOf(design: Design): readonly Block[] {
  let firstRow = FIRST_ROW
  return rowLists.map((list): Block => {
    const block: Block = { list, firstRow, ...design.listed(list) }
    firstRow += block.rows.length + ABOVE
    return block
  })
}

function placeYear(names: NamePlaces, sheet: string, design: Design): void {
  for (const { list, rows, firstRow } of blocksOf(design)) {
    placeBlock(names, sheet, list, firstRow, rows.length)
    if (list === curve) names.set('Curve', sheet, range(firstRow, firstRow + rows.length - 1, ...(curve.columns.map(({ name }) => columnOf(list, name)) as [number, number])))
  }
}

export const year = sheetKind({ kind: 'year', place: 70, prefix: 'Year', placed: placeYear, plan: yearSheet })

/** Letters that the columns of the sheet hold in a line: longer ones would print a page of their own. */
const LONGEST_TITLE = 150

function yearSheet({ design, takeoff, names, heading, flavor }: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, 'Storage through the year, the daily record, and the pump curve')
  for (const block of blocksOf(design)) {
    draft.row = block.firstRow - 2
    const title = block.list.title(design)
    draft.put(2, 'subtitle', title.length > LONGEST_TITLE ? `${title.slice(0, LONGEST_TITLE - 1)}…` : title)
    draft.next()
    putHeadings(draft, block)
    putRows(draft, block, { names, flavor, sheet })
    if (block.list.sum) putSums(draft, block)
  }
  stair()
  chart()

  /** What the next tank brings: values, as they were when this was made. */
  function stair(): void {
    draft.next()
    draft.put(2, 'subtitle', 'One tank to twelve: what each count meets; prices of those that the sheet Options works out')
    draft.next()
    ;['Tanks', 'Usable, gal', 'Demand met, %', 'Worst year, %', 'Price, $'].forEach((text, at) => draft.put(2 + at, at ? 'headingRight' : 'heading', text))
    draft.next()
    for (const { tanks, usable_gal, met, worst, price } of takeoff.stair(false)) {
      draft.put(2, tanks === design.number('TankCount') ? 'subtotalLabel' : 'text', String(tanks), { format: 'text' })
      draft.put(3, 'number', usable_gal, { format: 0 })
      draft.put(4, 'number', 100 * met, { format: 1 })
      draft.put(5, 'number', worst === undefined ? null : 100 * worst, { format: 1 })
      draft.put(6, 'number', price ?? null, { format: 0 })
      draft.next()
    }
  }

  /** The months once more, as a picture. */
  function chart(): void {
    draft.next()
    draft.put(2, 'subtitle', yearSource(design))
    draft.next()
    draft.draw([2, yearPicture(design, (gallons) => `${gallons.toLocaleString('en-US', { maximumFractionDigits: 0 })} gal`), { size: 9, width: 460 }])
  }

  return draft.sheet(sheet, {
    kind: 'year',
    // The names of roofs are longer than figures.
    widths: [1, 14, ...months.columns.map((_, at) => (at + FIRST_COLUMN === columnOf(roofs, 'CatchSurface') ? 17 : 11))],
    headingRow: 3,
    landscape: true,
    footer: design.name,
  })
}
