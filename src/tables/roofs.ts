import { cite } from '../sources.js'
import { table } from '../table.js'

/** Long-term runoff coefficients of roofs; `runoff` is the value used, inside the published span. */
export const roofs = table({
  id: 'RoofSurfaces',
  title: 'Roof surfaces and runoff coefficients',
  source: cite('runoffToolkit'),
  notes: ['Sources differ: yearly coefficients, coefficients after a wetting loss, and single storms are different things. Do not count one loss twice: with a first-flush depth taken off, use the upper end.'],
  rows: [
    { surface: 'metal', runoff: 0.85, low: 0.8, high: 0.85, source: cite('runoffToolkit', 'page 52, well-built corrugated iron, long-term mean') },
    { surface: 'tile', runoff: 0.8, low: 0.8, high: 0.8, source: cite('runoffUnicef', 'impermeable roof') },
    { surface: 'asphalt shingle', runoff: 0.9, low: 0.8, high: 0.9, source: cite('twdb', 'up to 10 % loss') },
    { surface: 'smooth membrane', runoff: 0.9, low: 0.9, high: 0.9, source: cite('runoffStudy', 'sloping smooth roof, measured') },
    { surface: 'concrete', runoff: 0.8, low: 0.7, high: 0.9, source: cite('memory', 'roof coefficient of concrete') },
    { surface: 'flat gravel', runoff: 0.5, low: 0.5, high: 0.7, source: cite('memory', 'flat gravel roof; the toolkit’s span for any roof is 0.5 to 0.9') },
    { surface: 'compacted soil', runoff: 0.15, low: 0.1, high: 0.2, source: cite('runoffToolkit', 'page 52') },
  ],
})
