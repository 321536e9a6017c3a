/** The Checks: sums that must agree, each a live formula with both sides, so that a cell typed over or a row put in shows. */
import { address, SheetDraft, TITLE_ROWS, type SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { checkList } from './checkList.js'

const columns = { text: 2, left: 3, right: 4, unit: 5, verdict: 6 } as const
const headings: Readonly<Record<keyof typeof columns, string>> = { text: 'What must agree', left: 'One side', right: 'Other side', unit: 'Unit', verdict: 'Verdict' }
export const checks = sheetKind({ kind: 'checks', place: 80, prefix: 'Checks', plan: checksSheet })

function checksSheet(job: JobContext, sheet: string): SheetPlan {
  const { design, names, heading } = job
  const all = checkList(job, sheet)
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, 'Checks: what must agree, worked out afresh')
  draft.next()
  for (const [name, column] of Object.entries(columns)) draft.put(column, name === 'left' || name === 'right' ? 'headingRight' : 'heading', headings[name as keyof typeof columns])
  draft.next()
  const first = draft.row
  for (const { what, unit, within, left, right } of all) {
    draft.put(columns.text, 'wrapped', what)
    draft.put(columns.left, 'number', left[0], { format: 2, formula: left[1] })
    draft.put(columns.right, 'number', right[0], { format: 2, ...(right[1] === undefined ? {} : { formula: right[1] }) })
    draft.put(columns.unit, 'unit', unit)
    const [one, other] = [address(draft.row, columns.left, false), address(draft.row, columns.right, false)]
    draft.put(columns.verdict, 'verdict', Math.abs(left[0] - right[0]) < within ? 'pass' : 'stop', { formula: `IFERROR(IF(ABS(${one}-${other})<${within},"pass","stop"),"stop")` })
    draft.next()
  }
  const rows = `${address(first, columns.verdict)}:${address(draft.row - 1, columns.verdict)}`
  draft.next()
  const failed = all.filter(({ left, right, within }) => Math.abs(left[0] - right[0]) >= within).length
  draft.put(columns.text, 'totalLabel', 'Checks that fail')
  for (const column of [columns.left, columns.right, columns.unit]) draft.put(column, 'totalLabel', null)
  draft.put(columns.verdict, 'total', failed, { format: 0, formula: `SUMPRODUCT((${rows}<>"pass")*1)` })

  return draft.sheet(sheet, {
    kind: 'checks',
    widths: [2, 60, 14, 14, 8, 10],
    headingRow: TITLE_ROWS,
    landscape: false,
    footer: design.name,
  })
}
