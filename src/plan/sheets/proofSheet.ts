/** The daily proof: the balance of the record once more, a row a day, as formulas that recalculate. Made only where a job asks for it. */
import type { Design } from '../../takeoff/design.js'
import { days } from '../../takeoff/rowLists/days.js'
import type { NamePlaces } from '../places.js'
import { address, SheetDraft, TITLE_ROWS, type SheetPlan } from '../plan.js'
import { columnOf, putHeadings, putRows, putSums, type Block } from '../rowBlock.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'

const SUM_ROW = TITLE_ROWS - 1

export const hasProof = (design: Design): boolean => design.single('DailyProof') === 'yes' && design.record !== undefined

/** Sums over the days, by the names that the Checks sheet points at. */
export const proofSums = (['DayWanted_gal', 'DayCaught_gal', 'DaySupplied_gal', 'DaySpilled_gal'] as const).map((day) => ({
  day,
  label: days.columns.find(({ name }) => name === day)!.label,
  record: day.replace('Day', 'Record'),
  proof: day.replace('Day', 'Proof'),
}))

function placeProof(names: NamePlaces, sheet: string, design: Design): void {
  if (!hasProof(design)) return
  for (const { day, proof: name } of proofSums) names.set(name, sheet, address(SUM_ROW, columnOf(days, day)))
}

export const proof = sheetKind({ kind: 'proof', place: 75, prefix: 'Proof', placed: placeProof, plan: proofSheet })

function proofSheet({ design, names, heading, flavor }: JobContext, sheet: string): SheetPlan | undefined {
  if (!hasProof(design)) return undefined
  const block: Block = { list: days, firstRow: TITLE_ROWS + 1, ...design.listed(days) }
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, days.title())
  putSums(draft, block)
  putHeadings(draft, block)
  putRows(draft, block, { names, flavor, sheet })
  return draft.sheet(sheet, {
    kind: 'proof',
    widths: [1, 12, 8, ...days.columns.slice(1).map(() => 13)],
    headingRow: TITLE_ROWS,
    landscape: true,
    footer: design.name,
  })
}
