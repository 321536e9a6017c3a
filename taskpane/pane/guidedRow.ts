/** A new job in nine cells: five fields and the four runs. All else has a default and can be filled in on the sheet. */
import { guidedFields, type GuidedField } from '../../src/hosts/session.js'
import { refusalText, type Problem } from '../../src/takeoff/fields.js'
import type { Office } from '../../src/takeoff/office.js'
import { jobFields, keyColumn, type TableName } from '../../src/takeoff/officeTables.js'
import { symbolOf } from '../../src/units.js'
import { fill, h } from './element.js'

export interface GuidedRow {
  element: HTMLDetailsElement
  /** Offers the names of the office's tables. */
  show(office: Office): void
  /** Opens it at its first field. */
  start(): void
}

/** `add` answers what is wrong with the fields; nothing where the row could not be written for another reason, which was said. `added` is called when it was, and the form is closed. */
export function guidedRow(
  goTo: (table: TableName) => void,
  add: (typed: Readonly<Record<GuidedField, string>>) => Promise<readonly Problem[] | undefined>,
  added: () => void,
): GuidedRow {
  const inputs = Object.fromEntries(
    guidedFields.map((name) => {
      const field = jobFields[name]
      const id = `new-${name}`
      return [name, field.kind === 'row' ? h('select', { id }) : h('input', { type: 'text', id, class: 'search', autocomplete: 'off' })]
    }),
  ) as Record<GuidedField, HTMLInputElement | HTMLSelectElement>
  // A list of an empty table offers nothing: the way to its first row stands in its place.
  const ways: Partial<Record<GuidedField, HTMLElement>> = Object.fromEntries(
    guidedFields.flatMap((name) => {
      const field = jobFields[name]
      if (field.kind !== 'row') return []
      const table = field.table as TableName
      return [
        [
          name,
          h(
            'button',
            { type: 'button', class: 'problem', hidden: true, id: `new-${name}-way`, on: { click: () => goTo(table) } },
            h('strong', {}, table),
            ' is empty: type its first row',
          ),
        ],
      ]
    }),
  )
  const said = Object.fromEntries(guidedFields.map((name) => [name, h('span', { class: 'refusal', role: 'alert', id: `new-${name}-said` })])) as Record<GuidedField, HTMLElement>
  const write = async (): Promise<void> => {
    const problems = await add(Object.fromEntries(guidedFields.map((name) => [name, inputs[name].value])) as Record<GuidedField, string>)
    for (const name of guidedFields) {
      const own = problems?.find(({ column }) => column === name)
      said[name].textContent = own ? refusalText(own).replace(/^: /, '').trim() : ''
      inputs[name].setAttribute('aria-invalid', own ? 'true' : 'false')
    }
    const first = guidedFields.find((name) => said[name].textContent)
    if (first) inputs[first].focus()
    else if (problems) {
      for (const name of guidedFields) if (inputs[name] instanceof HTMLInputElement) inputs[name].value = ''
      element.open = false
      // A field that is hidden while it has the focus draws the view back to it.
      element.querySelector('summary')!.focus({ preventScroll: true })
      added()
    }
  }
  const form = h(
    'form',
    {
      on: {
        submit: (event) => {
          event.preventDefault()
          void write()
        },
      },
    },
    ...guidedFields.map((name) => {
      const unit = symbolOf(name)
      inputs[name].setAttribute('aria-describedby', `new-${name}-said`)
      return h('p', {}, h('label', { for: `new-${name}` }, `${jobFields[name].label}${unit ? `, ${unit}` : ''} `), inputs[name], ways[name] ?? '', said[name])
    }),
    h('button', { type: 'submit', class: 'write-row' }, 'Write the row'),
  )
  const element = h(
    'details',
    { class: 'fold', id: 'new-job' },
    h('summary', {}, 'New job…'),
    h('p', { class: 'note' }, 'Five fields and the four runs; a run left empty counts as assumed, and the verdicts say so. “45 m” is understood.'),
    form,
  )
  return {
    element,
    show(office) {
      for (const name of guidedFields) {
        const field = jobFields[name]
        const input = inputs[name]
        if (field.kind !== 'row' || !(input instanceof HTMLSelectElement)) continue
        const before = input.value
        const names = office.tables[field.table as TableName].map(({ cells }) => String(cells[keyColumn(field.table as TableName)] ?? '')).filter(Boolean)
        input.hidden = !names.length
        ways[name]!.hidden = names.length > 0
        fill(input, ...names.map((known) => h('option', { value: known, selected: known === before }, known)))
      }
    },
    start() {
      element.open = true
      element.scrollIntoView({ block: 'nearest' })
      inputs[guidedFields[0]].focus()
    },
  }
}
