/** The Options: the job side by side with one tank fewer or more, and with the variants that the office named; as they were when it was made. */
import { SheetDraft, TITLE_ROWS, type SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'

const columns = { name: 2, tanks: 3, storage: 4, met: 5, price: 6, more: 7, perMet: 8, stops: 9 } as const
const headings: Readonly<Record<keyof typeof columns, string>> = {
  name: 'Option',
  tanks: 'Tanks',
  storage: 'Stored, gal',
  met: 'Demand met, %',
  price: 'Price, $',
  more: 'More or less, $',
  perMet: '$ a further %',
  stops: 'Stops and checks',
}

export const options = sheetKind({ kind: 'options', place: 25, prefix: 'Options', plan: optionsSheet })

function optionsSheet({ takeoff, design, names, heading }: JobContext, sheet: string): SheetPlan {
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, 'Options: the same job with other tanks, and the variants of the sheet Variants')
  draft.next()
  for (const [name, column] of Object.entries(columns)) draft.put(column, name === 'name' || name === 'stops' ? 'heading' : 'headingRight', headings[name as keyof typeof columns])
  draft.next()
  const chosen = { name: 'as it is', takeoff, reason: '', isOnQuote: false }
  const met = design.number('SizingShare')
  for (const { name, takeoff: other, reason, isOnQuote } of [chosen, ...takeoff.options()]) {
    draft.put(columns.name, other === takeoff ? 'subtotalLabel' : 'wrapped', name)
    if (!other) {
      draft.put(columns.stops, 'wrapped', `cannot be made: ${reason}`)
      draft.next()
      continue
    }
    const more = other.total - takeoff.total
    const further = 100 * (other.design.number('SizingShare') - met)
    const verdicts = other.design.verdicts().filter(({ verdict }) => verdict !== 'pass')
    draft.put(columns.tanks, 'number', other.design.number('TankCount'), { format: 0 })
    draft.put(columns.storage, 'number', other.design.number('Storage_gal'), { format: 0 })
    draft.put(columns.met, 'number', 100 * other.design.number('SizingShare'), { format: 1 })
    draft.put(columns.price, 'number', other.total, { format: 2 })
    draft.put(columns.more, 'number', other === takeoff ? null : more, { format: 2 })
    draft.put(columns.perMet, 'number', further > 0.05 && more > 0 ? more / further : null, { format: 2 })
    draft.put(
      columns.stops,
      'wrapped',
      [
        ...(isOnQuote && verdicts.some(({ verdict }) => verdict === 'stop') ? ['not on the quote while a stop stands'] : []),
        ...verdicts.map(({ verdict, label }) => `${verdict}: ${label.toLowerCase()}`),
      ].join('; ') || 'all pass',
    )
    draft.next()
  }
  draft.next()
  draft.put(columns.name, 'faint', 'Figures as they were when this was made: change the row of Jobs to take one of them, and make the takeoff again.')
  return draft.sheet(sheet, {
    kind: 'options',
    widths: [1, 24, 7, 12, 13, 13, 14, 13, 40],
    headingRow: TITLE_ROWS,
    landscape: true,
    footer: design.name,
  })
}
