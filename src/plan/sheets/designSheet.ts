/** The Design sheet: verdicts and cautions first, every result live with its unit and source, inputs copied from the row last. */
import type { Design } from '../../takeoff/design.js'
import type { NamePlaces } from '../places.js'
import { address, SheetDraft, TITLE_ROWS, type PlanValidation, type SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { wordsPlace } from '../words.js'
import { designColumns, designHeadings } from './designColumns.js'
import { putDesignRow } from './designPut.js'
import { designRows } from './designRows.js'

const FIRST_ROW = TITLE_ROWS + 1

export const design = sheetKind({ kind: 'design', place: 40, prefix: 'Design', placed: placeDesign, plan: designSheet })

function placeDesign(names: NamePlaces, sheet: string, design: Design): void {
  designRows(design).forEach((row, at) => {
    if ('name' in row) names.set(row.name, sheet, address(FIRST_ROW + at, designColumns.value))
    if (row.kind === 'verdict') names.set(wordsPlace(row.name), sheet, address(FIRST_ROW + at, designColumns.words))
  })
}

function designSheet(job: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  const validations: PlanValidation[] = []
  headed(draft, job, sheet, 'Design: inputs, results, verdicts and cautions behind the takeoff')
  draft.next()
  for (const [name, column] of Object.entries(designColumns))
    draft.put(column, name === 'value' || name === 'asMade' ? 'headingRight' : 'heading', designHeadings[name as keyof typeof designColumns])
  draft.next()
  const rows = designRows(job.design)
  for (const row of rows) {
    putDesignRow({ draft, job, sheet, rows, firstRow: FIRST_ROW, validations }, row)
    draft.next()
  }
  return draft.sheet(sheet, {
    kind: 'design',
    widths: [1, 27.5, 23.5, 13, 9, 54, 13, 11],
    headingRow: TITLE_ROWS,
    landscape: true,
    footer: job.design.name,
    validations,
  })
}
