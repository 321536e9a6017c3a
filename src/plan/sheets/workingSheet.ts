/** The Working sheet: every engineering figure step by step. The call writer fills it while the other sheets are laid out. */
import { workingHeader } from '../../calc/working.js'
import { SheetDraft, TITLE_ROWS } from '../plan.js'
import { sheetKind } from '../sheetKind.js'

/** A draft with its headings, ready for blocks. */
export function workingDraft({ title, made }: { title: string; made: string }): SheetDraft {
  const draft = new SheetDraft()
  draft.heading(title, 'Working: every engineering figure step by step, as ordinary formulas', made)
  draft.next()
  workingHeader.forEach((text, at) => draft.put(at + 2, text === 'value' ? 'headingRight' : 'heading', text))
  draft.next()
  return draft
}

export const working = sheetKind({
  kind: 'working',
  place: 90,
  prefix: 'Working',
  plan: ({ flavor, working: draft, design }, sheet) =>
    flavor === 'cells'
      ? undefined
      : draft.sheet(sheet, {
          kind: 'working',
          widths: [1, 14, 28, 13, 9, 46, 41],
          headingRow: TITLE_ROWS,
          landscape: true,
          footer: design.name,
        }),
})
