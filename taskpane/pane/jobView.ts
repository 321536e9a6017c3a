/** A job at a glance: drawing, storage, key results, verdicts worst first, cautions. */
import { sectionDrawing } from '../../src/plan/sectionDrawing.js'
import { yearChart } from '../../src/plan/yearChart.js'
import { closingCaution } from '../../src/takeoff/cautions.js'
import type { Design } from '../../src/takeoff/design.js'
import { results } from '../../src/takeoff/results/index.js'
import type { Takeoff } from '../../src/takeoff/takeoff.js'
import { h, svg } from './element.js'
import { inUnits, type Shown } from './units.js'

const keyResults = ['Storage_gal', 'Reliability', 'PitDepth_ft', 'Dig_yd3', 'TotalHead_ftw', 'LineVelocity_fps', 'Cable', 'FeederDropShare', 'UpliftSafety'] as const
const labels = new Map<string, string>(results.map(({ name, label }) => [name, label]))
const dollars = (value: number) => value.toLocaleString('en-US', { style: 'currency', currency: 'USD' })

export function jobView({ design, orderCost, total, lines }: Takeoff, shown: Shown): HTMLElement {
  return h(
    'div',
    { class: 'glance' },
    h('h2', {}, String(design.single('Job'))),
    h('p', { class: 'site' }, String(design.single('Site') ?? '')),
    h('figure', {}, svg(sectionDrawing(design, (name) => inUnits(name, design.singleOf(name), shown))), h('figcaption', {}, 'Section through the row of tanks, to scale')),
    h('figure', {}, svg(yearChart(design, (gallons) => inUnits('Storage_gal', gallons, shown))), h('figcaption', {}, 'Stored at each month’s end')),
    h(
      'dl',
      { class: 'results' },
      ...row('Tanks', `${design.single('TankCount')} × ${design.single('TankModel')}${design.sized.has('TankCount') ? ' (sized)' : ''}`),
      ...row('Pump', `${design.single('PumpModel')}${design.sized.has('PumpModel') ? ' (sized)' : ''}`),
      ...keyResults.flatMap((name) => row(labels.get(name) ?? name, inUnits(name, design.single(name), shown))),
      ...row('Lines', String(lines.length)),
      ...row('Order cost', dollars(orderCost)),
      ...row('Total', dollars(total)),
    ),
    h('h3', {}, 'Verdicts'),
    h(
      'ul',
      { class: 'verdicts' },
      ...design.verdicts().map(({ verdict, label, words }) => h('li', { class: verdict }, h('strong', {}, verdict), ` ${label}. `, h('span', { class: 'words' }, words))),
    ),
    cautions(design),
  )
}

const row = (label: string, value: string) => [h('dt', {}, label), h('dd', {}, value)]

function cautions(design: Design): HTMLElement {
  const raised = design.cautions()
  return h(
    'details',
    { class: 'cautions' },
    h('summary', {}, `Cautions: ${raised.length}`),
    h('ul', {}, ...raised.map(({ name, words, points }) => h('li', {}, h('strong', {}, name), `: ${words} `, h('span', { class: 'source' }, points))), h('li', {}, closingCaution)),
  )
}
