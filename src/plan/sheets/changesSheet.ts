/** The Changes: what each making changed in cost, newest first, kept from one to the next. The office's own; the customer signs the Amend sheet. */
import { changesSince, type KeptChange } from '../../takeoff/changes.js'
import { money } from '../../rounding.js'
import { shortHash } from '../../shortHash.js'
import { SheetDraft, TITLE_ROWS, type SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { AMEND_PREFIX, signers } from './amendSheet.js'

const columns = { revision: 2, date: 3, what: 4, code: 5, words: 6, from: 7, to: 8, money: 9, mark: 10 } as const
export const changesHeadings = {
  revision: 'Revision',
  date: 'Made on',
  what: 'Change',
  code: 'Line',
  words: 'What',
  from: 'Before',
  to: 'After',
  money: 'Money, $',
  mark: 'Mark',
} as const
/** Behind what is printed, and hidden: what the next making is held against. */
const AS_MADE = columns.mark + 2

/** A few letters of what a row says. */
export const markOf = ({ revision, date, what, code, words, from, to, money: sum }: KeptChange): string =>
  shortHash([[revision, date, what, code, words, from ?? '', to ?? '', sum ?? ''].map(String).join('\n')]).slice(0, 8)

export const changes = sheetKind({
  kind: 'changes',
  place: 35,
  prefix: 'Changes',
  hadEntries: true,
  plan: changesSheet,
})

/** All changes of a job, newest first. */
export function changesOf({ takeoff, earlier, made }: Pick<JobContext, 'takeoff' | 'earlier' | 'made'>): readonly KeptChange[] {
  const latest = changesSince(earlier.before, takeoff).map((change): KeptChange => ({ ...change, revision: made.revision, date: made.date }))
  return [...latest, ...signed(), ...earlier.changes]

  /** Who had signed the revision before this one: their names stay with it. Up to 0.7 a first one was signed here, and has no sheet for it now. */
  function signed(): KeptChange[] {
    const { before } = earlier
    if (!before || (before.revision === made.revision && made.revision > 1)) return []
    return signers.flatMap(([code, who]): KeptChange[] => {
      const name = takeoff.crew.cells[`${AMEND_PREFIX}${code}`]?.done
      return name === undefined ? [] : [{ revision: before.revision, date: before.date, what: 'signed', code: '', words: `${who}: ${name}`, from: null, to: null, money: null }]
    })
  }
}

function changesSheet(job: JobContext, sheet: string): SheetPlan {
  const { design } = job
  const draft = new SheetDraft()
  const all = changesOf(job)
  headed(draft, job, sheet, 'Changes: what each making changed, newest first')
  draft.next()
  for (const [key, column] of Object.entries(columns))
    draft.put(column, ['from', 'to', 'money'].includes(key) ? 'headingRight' : 'heading', changesHeadings[key as keyof typeof columns])
  draft.next()
  let revision: number | undefined
  for (const change of all) {
    if (revision !== undefined && change.revision !== revision) {
      total(revision)
      draft.next()
    }
    revision = change.revision
    row(change)
  }
  if (revision !== undefined) total(revision)
  draft.next()
  draft.put(columns.revision, 'faint', 'For the office: costs and margins stand here. What the customer signs is the sheet Amend.')

  function row(change: KeptChange): void {
    const figure = (column: number, value: string | number | null) =>
      draft.put(column, typeof value === 'number' ? 'number' : 'faintRight', value, { format: typeof value === 'number' ? 2 : 'text' })
    draft.put(columns.revision, 'unit', change.revision)
    draft.put(columns.date, 'faint', change.date, { format: 'text' })
    draft.put(columns.what, 'text', change.what, { format: 'text' })
    draft.put(columns.code, 'faintWrapped', change.code || null, { format: 'text' })
    draft.put(columns.words, 'wrapped', change.words, { format: 'text' })
    figure(columns.from, change.from)
    figure(columns.to, change.to)
    figure(columns.money, change.money)
    draft.put(columns.mark, 'faint', markOf(change), { format: 'text' })
    draft.next()
  }

  /** What a revision added to the price. */
  function total(of: number): void {
    const sum = money(all.filter((change) => change.revision === of).reduce((added, change) => added + (change.money ?? 0), 0))
    draft.put(columns.words, 'subtotalLabel', `Revision ${of}, change of the price`)
    for (let column = columns.from; column < columns.money; column++) draft.put(column, 'subtotalLabel', null)
    draft.put(columns.money, 'subtotal', sum, { format: 2 })
    draft.next()
  }

  return draft.sheet(sheet, {
    kind: 'changes',
    widths: [1, 9, 11, 14, 17, 34, 12, 12, 13, 10, 2, 14],
    hiddenColumn: AS_MADE,
    print: { lastColumn: columns.mark },
    headingRow: TITLE_ROWS,
    landscape: true,
    footer: design.name,
  })
}
