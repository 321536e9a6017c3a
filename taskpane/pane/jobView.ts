/** A job at a glance: what it is and costs, what is not in order, what can hurt, the drawings, then the rest in folds. */
import { planPicture } from '../../src/plan/drawing/planPicture.js'
import { sectionPicture } from '../../src/plan/drawing/sectionPicture.js'
import { svgPicture } from '../../src/plan/drawing/svgPicture.js'
import { yearPicture, yearSource } from '../../src/plan/drawing/yearPicture.js'
import { closingCaution } from '../../src/takeoff/cautions.js'
import { assumable, assumableFields, assumedLabel, NOT_MEASURED } from '../../src/takeoff/assumed.js'
import type { Standing } from '../../src/hosts/session.js'
import type { Design, RaisedVerdict } from '../../src/takeoff/design.js'
import type { JobName } from '../../src/takeoff/names.js'
import { results } from '../../src/takeoff/results/index.js'
import { withCommas } from '../../src/rounding.js'
import { isPriced, type Takeoff } from '../../src/takeoff/takeoff.js'
import { h, svg } from './element.js'
import { inUnits, type Shown } from './units.js'

const figures: readonly JobName[] = [
  'UsableStorage_gal',
  'Reliability',
  'PitDepth_ft',
  'Dig_yd3',
  'TotalHead_ftw',
  'ActualFlow_gpm',
  'LineVelocity_fps',
  'Cable',
  'FeederDropShare',
  'UpliftSafety',
  'PickLoad_lb',
]
const labels = new Map<string, string>(results.map(({ name, label }) => [name, label]))
const dollars = (value: number, digits = 2) => `$${withCommas(value, digits)}`
/** As wide as the pane; a plan of a square pit is kept low. */
export const PICTURE_WIDTH = 340
const PLAN_HEIGHT = 66
/** Words of a drawing in a face that is wider than was reckoned with are drawn together: none runs out of it or into another. */
export function fitLabels(root: HTMLElement): void {
  for (const text of root.querySelectorAll<SVGTextElement>('svg text[data-room]')) {
    const room = Number(text.dataset.room)
    if (text.getComputedTextLength() <= room) continue
    text.setAttribute('textLength', String(room))
    text.setAttribute('lengthAdjust', 'spacingAndGlyphs')
  }
}
/** So many hazards are said without opening the list. */
const FIRST_HAZARDS = 3

/** `takeoff` is left out while something stands in its way: quantities, drawings and verdicts are shown all the same. */
export function jobView(design: Design, takeoff: Takeoff | undefined, shown: Shown, standing: Standing): HTMLElement {
  const measure = (name: string) => inUnits(name, design.singleOf(name), shown)
  return h(
    'div',
    { class: 'glance' },
    h('h2', { class: 'unseen' }, design.name),
    h(
      'p',
      { class: 'sum' },
      h('span', {}, `${design.number('SecondTanks') ? design.text('Models') : `${design.number('TankCount')} × ${design.text('TankModel')}`}, ${measure('Storage_gal')}`),
      h('strong', takeoff && isPriced(takeoff) ? {} : { class: 'open' }, totalWords(takeoff)),
    ),
    ...sinceMade(takeoff, standing),
    ...verdicts(design, (raised) => raised.verdict === 'stop' && takeoff !== undefined && standing.isAnswered(takeoff, raised)),
    hazards(design),
    h('figure', {}, h('figcaption', {}, 'Section, house to the right'), svg(svgPicture(sectionPicture(design, measure), 'section', PICTURE_WIDTH))),
    h('figure', {}, h('figcaption', { class: 'unseen' }, 'Plan'), svg(svgPicture(planPicture(design, measure), 'section plan', PICTURE_WIDTH, PLAN_HEIGHT))),
    fold(
      'water',
      'Water through the year',
      h(
        'figure',
        {},
        svg(
          svgPicture(
            yearPicture(design, (gallons) => inUnits('Storage_gal', gallons, shown)),
            'section year',
            PICTURE_WIDTH,
          ),
        ),
        h('figcaption', {}, yearSource(design)),
      ),
    ),
    ...(takeoff ? [optionsFold(takeoff)] : []),
    fold(
      'figures',
      'Figures',
      h(
        'dl',
        { class: 'results' },
        ...(design.sized.has('TankCount') ? row('Tanks', `${design.number('TankCount')} (sized)`) : []),
        ...row('Pump', `${design.text('PumpModel')}${design.sized.has('PumpModel') ? ' (sized)' : ''}`),
        ...figures.flatMap((name) => row(labels.get(name) ?? name, measure(name))),
        ...(takeoff ? row('Lines', String(takeoff.lines.length)) : []),
        ...(takeoff && isPriced(takeoff) ? [...row('Order cost', dollars(takeoff.orderCost)), ...row('Total', dollars(takeoff.total))] : []),
      ),
    ),
  )
}

/** A sum of some of the lines is no total. */
function totalWords(takeoff: Takeoff | undefined): string {
  const open = takeoff?.lines.filter(({ price }) => price === undefined).length
  if (!takeoff || open === undefined) return 'no total yet'
  return open ? `no total yet: ${open} ${open === 1 ? 'line has' : 'lines have'} no price` : dollars(takeoff.total, 0)
}

/** Each count of tanks beside its price: worked out when the fold is opened. */
function optionsFold(takeoff: Takeoff): HTMLElement {
  const content = h('div', {})
  const details = fold('options', 'Other tanks, other price', content)
  details.addEventListener('toggle', () => {
    if (content.childElementCount) return
    const variants = takeoff.options().filter(({ tanks }) => tanks === undefined)
    const share = (part: number | undefined) => (part === undefined ? '' : (100 * part).toFixed(1))
    const gallons = (volume: number) => withCommas(volume, 0)
    content.append(
      // Where it is wider than a narrow pane, it is moved and the pane stands still.
      h(
        'div',
        { class: 'wide', role: 'region', tabindex: '0', 'aria-label': 'Other tanks, other price' },
        h(
          'table',
          { class: 'options' },
          h('tr', {}, ...['Tanks', 'Usable, gal', 'Demand met, %', 'Worst year, %', 'Price'].map((words) => h('th', {}, words))),
          ...takeoff
            .stair(true)
            .map(({ tanks, usable_gal, met, worst, price }) =>
              h(
                'tr',
                tanks === takeoff.design.number('TankCount') ? { class: 'chosen', 'aria-current': 'true' } : {},
                h('td', {}, String(tanks)),
                h('td', {}, gallons(usable_gal)),
                h('td', {}, share(met)),
                h('td', {}, share(worst)),
                h('td', {}, price === undefined ? (isPriced(takeoff) ? 'cannot be made' : 'no price yet') : dollars(price, 0)),
              ),
            ),
          ...variants.map(({ name, takeoff: other, reason }) =>
            h(
              'tr',
              {},
              h('td', {}, name),
              ...(other
                ? [
                    h('td', {}, gallons(other.design.number('UsableStorage_gal'))),
                    h('td', {}, share(other.design.number('SizingShare'))),
                    h('td', {}, share(other.design.number('RecordYears') > 0 ? other.design.number('WorstYearShare') : undefined)),
                    h('td', {}, `${dollars(other.total, 0)}${other.design.verdicts().some(({ verdict }) => verdict === 'stop') ? ', stop' : ''}`),
                  ]
                : [h('td', { colspan: '4' }, reason)]),
            ),
          ),
        ),
      ),
    )
  })
  return details
}

const row = (label: string, value: string) => [h('dt', {}, label), h('dd', {}, value)]
const fold = (id: string, title: string, content: HTMLElement): HTMLElement => h('details', { class: 'fold', id }, h('summary', {}, title), content)

/** Papers that are of other figures than the job has now. */
function sinceMade(takeoff: Takeoff | undefined, standing: Standing): HTMLElement[] {
  const words = takeoff && isPriced(takeoff) ? standing.sinceMade(takeoff) : ''
  return words ? [h('p', { class: 'older' }, words)] : []
}

/** What is not in order stands open, worst first; what passes is folded away. */
function verdicts(design: Design, isAnswered: (raised: RaisedVerdict) => boolean): HTMLElement[] {
  const all = design.verdicts()
  const item = (raised: RaisedVerdict, shown: 'all' | 'first sentence' | 'name') => {
    const { verdict, label, words } = raised
    const [first = '', ...rest] = shown === 'all' ? [words] : shown === 'name' ? ['', words] : words.split(/(?<=\.) /)
    return h(
      'li',
      { class: verdict },
      h('strong', {}, verdict),
      ` ${label}. `,
      h('span', { class: 'words' }, first),
      ...(rest.length ? [' ', h('details', { class: 'rest', id: `rest-${raised.name}` }, h('summary', { 'aria-label': `more: ${label}` }, 'more'), rest.join(' '))] : []),
      isAnswered(raised) ? h('em', {}, ' Answered for on the quote.') : '',
    )
  }
  const passed = all.filter(({ verdict }) => verdict === 'pass')
  const left = all.filter(({ verdict }) => verdict !== 'pass')
  // What nobody has measured yet is one thing to do, but where a verdict says itself what hangs on it.
  const open = left.filter(({ verdict, name }) => verdict === 'check' && design.bareVerdict(name) === 'pass')
  const others = left.filter((one) => !open.includes(one))
  const shown = others.length > FIRST_SENTENCES ? 'name' : others.length > WHOLE ? 'first sentence' : 'all'
  return [
    h('ul', { class: 'verdicts' }, ...others.map((one) => item(one, shown)), ...notMeasured(design, open)),
    h('details', { class: 'passed' }, h('summary', {}, `${passed.length} of ${all.length} pass`), h('ul', { class: 'verdicts' }, ...passed.map((one) => item(one, 'all')))),
  ]
}
/** So many are said whole; of more the first sentence stands open, of many the name. */
const WHOLE = 1
const FIRST_SENTENCES = 3

function notMeasured(design: Design, open: readonly RaisedVerdict[]): HTMLElement[] {
  if (!open.length) return []
  const fields = assumableFields.filter((field) => open.some(({ rule }) => rule.assumed.includes(field)) && design.number(assumable[field]) === 1)
  return [
    h(
      'li',
      { class: 'check' },
      h('strong', {}, 'check'),
      ` ${NOT_MEASURED}${fields.map(assumedLabel).join('; ')}. `,
      h(
        'details',
        { class: 'rest', id: 'rest-open' },
        h('summary', {}, `${open.length} ${open.length === 1 ? 'verdict rests' : 'verdicts rest'} on that`),
        h('ul', {}, ...open.map(({ label, words }) => h('li', {}, h('strong', {}, label), ` ${words}`))),
      ),
    ),
  ]
}

function hazards(design: Design): HTMLElement {
  const raised = design.cautions()
  const first = raised
    .slice(0, FIRST_HAZARDS)
    .map(({ short }) => `${short[0]!.toUpperCase()}${short.slice(1)}.`)
    .join(' ')
  return h(
    'details',
    { class: 'cautions' },
    h('summary', {}, h('strong', {}, `What can hurt here: ${raised.length}`), h('span', {}, first)),
    h('ul', {}, ...raised.map(({ name, words, points }) => h('li', {}, h('strong', {}, name), `: ${words} `, h('span', { class: 'source' }, points))), h('li', {}, closingCaution)),
  )
}
