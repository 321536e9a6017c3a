/** Browse the functions, read their working and source, put one into the active cell. */
import { allowedText, chapters, leftOutText, type AnyCalculation, type Step } from '../../src/calc.js'
import { calculations } from '../../src/calc/index.js'
import { sampleCall, signature } from '../../src/calc/sampleCall.js'
import { gradedText } from '../../src/sources.js'
import { bareName, symbolOf } from '../../src/units.js'
import { h } from './element.js'

function described(calculation: AnyCalculation, insert: (formula: string) => void): HTMLElement {
  const gives = calculation.gives ?? calculation.spills ?? {}
  const call = sampleCall(calculation)
  return h(
    'details',
    { class: 'function', id: `function-${calculation.id}` },
    h('summary', {}, h('span', { class: 'signature' }, signature(calculation)), h('span', { class: 'gives' }, ` ${calculation.summary}`)),
    h(
      'dl',
      { class: 'arguments' },
      ...calculation.names.flatMap((name) => {
        const spec = calculation.takes[name]
        const leftOut = leftOutText(spec)
        return [
          h('dt', {}, bareName(name)),
          h('dd', {}, `${spec.label}: ${allowedText(name, spec)}${leftOut === undefined ? '' : `; left out: ${leftOut}`}${spec.hint ? `; ${spec.hint}` : ''}`),
        ]
      }),
      h('dt', {}, 'gives'),
      h(
        'dd',
        {},
        Object.entries(gives)
          .map(([name, label]) => `${label}${symbolOf(name) ? `, ${symbolOf(name)}` : ''}`)
          .join('; '),
      ),
    ),
    h(
      'ol',
      { class: 'steps' },
      ...[...((calculation.periods?.columns ?? []) as readonly Step[]), ...(calculation.steps as readonly Step[])].map((step) =>
        h('li', {}, h('code', {}, `${step.symbol} = ${step.formula}`), h('span', { class: 'source' }, ` ${step.meaning}. ${gradedText(step.source)}`)),
      ),
    ),
    ...(calculation.notes ?? []).map((note: string) => h('p', { class: 'note' }, note)),
    h('p', { class: 'sample' }, h('code', {}, call)),
    h('button', { type: 'button', class: 'button insert', on: { click: () => insert(call) } }, 'Insert into the active cell'),
  )
}

export function functionsView(insert: (formula: string) => void): HTMLElement {
  const list = h('div', { class: 'functions' })
  const items = calculations.map((calculation) => ({
    element: described(calculation, insert),
    chapter: calculation.chapter,
    words: `${calculation.id} ${calculation.summary} ${calculation.names.join(' ')}`.toLowerCase(),
  }))
  const sections = Object.entries(chapters).map(([chapter, title]) => {
    const own = items.filter((item) => item.chapter === chapter)
    return { own, element: h('section', {}, h('h3', {}, title), ...own.map(({ element }) => element)) }
  })
  const none = h('p', { class: 'empty', hidden: true }, 'No function fits. Try a word such as head, conductor or stone.')
  list.append(...sections.map(({ element }) => element), none)
  const search = h('input', { type: 'search', id: 'function-search', class: 'search', autocomplete: 'off' })
  search.addEventListener('input', () => {
    const wanted = search.value.trim().toLowerCase()
    for (const item of items) item.element.hidden = !wanted.split(/\s+/).every((word) => item.words.includes(word))
    for (const { own, element } of sections) element.hidden = own.every((item) => item.element.hidden)
    none.hidden = sections.some(({ element }) => !element.hidden)
  })
  return h('div', {}, h('label', { for: 'function-search' }, 'Find a function'), search, list)
}
