/** The Changes: what each making changed, newest first, kept from one to the next; the last of them as a change order to be signed. */
import { changesSince, type KeptChange } from '../../takeoff/changes.js'
import { money } from '../../rounding.js'
import { shortHash } from '../../shortHash.js'
import { SheetDraft, TITLE_ROWS, type SheetPlan } from '../plan.js'
import { sheetKind, type JobContext } from '../sheetKind.js'

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
const PREFIX = 'C '
const entryHeadings: Readonly<Record<string, string>> = { code: 'To sign', text: 'Who', done: 'Name and date' }
const entries: readonly (readonly [code: string, what: string])[] = [
  ['offer', 'Offered by'],
  ['agree', 'Agreed by the customer'],
]

/** A few letters of what a row says. */
export const markOf = ({ revision, date, what, code, words, from, to, money: sum }: KeptChange): string =>
  shortHash([[revision, date, what, code, words, from ?? '', to ?? '', sum ?? ''].map(String).join('\n')]).slice(0, 8)

export const changes = sheetKind({
  kind: 'changes',
  place: 35,
  prefix: 'Changes',
  lists: [
    {
      prefix: PREFIX,
      onlyEntries: true,
      headings: entryHeadings,
      entries: ['done'],
      isCode: (code) => entries.some(([known]) => known === code),
      isOurWord: (_, key) => key === 'text',
    },
  ],
  codes: () => entries.map(([code]) => `${PREFIX}${code}`),
  plan: changesSheet,
})

function changesSheet({ takeoff, earlier, made, heading, design }: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  const latest = changesSince(earlier.before, takeoff).map((change): KeptChange => ({ ...change, revision: made.revision, date: made.date }))
  const all = [...latest, ...earlier.changes]
  draft.heading(heading.title, 'Changes: what each making changed, newest first', heading.made)
  draft.next()
  const last = all[0]?.revision
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
  draft.next(2)
  signatures()

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

  function signatures(): void {
    draft.put(
      columns.revision,
      'text',
      last === undefined ? 'Nothing changed yet.' : `Change order: revision ${last}, as listed above. The work of it is not begun before both have signed.`,
    )
    draft.next()
    draft.put(columns.revision, 'heading', entryHeadings.code!)
    draft.put(columns.what, 'heading', entryHeadings.text!)
    draft.put(columns.words, 'heading', entryHeadings.done!)
    draft.next()
    for (const [code, who] of entries) {
      draft.put(columns.revision, 'faint', code, { format: 'text' })
      draft.put(columns.what, 'text', who)
      draft.put(columns.words, 'siteEntry', takeoff.crew.cells[`${PREFIX}${code}`]?.done ?? null, { format: 'text' })
      draft.next()
    }
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
