import { cite } from '../sources.js'
import { table } from '../table.js'

/** Long-term runoff coefficients of roofs; `runoff` is the value used, inside the published span. */
export const roofs = table({
  id: 'RoofSurfaces',
  title: 'Roof surfaces and runoff coefficients',
  source: cite('memory'),
  notes: ['Sources differ: yearly coefficients, coefficients after a wetting loss, and single storms are different things. Do not count one loss twice: with a first-flush depth taken off, use the upper end.'],
  rows: [
    { surface: 'metal', runoff: 0.85, low: 0.8, high: 0.9, source: cite('enHealth', 'appendix B: 0.8 to 0.85 after wetting loss; Farreny and others measured 0.9 on a smooth sloping roof') },
    { surface: 'tile', runoff: 0.8, low: 0.8, high: 0.8, source: cite('runoffUnicef', 'impermeable roof') },
    { surface: 'asphalt shingle', runoff: 0.85, low: 0.75, high: 0.9, source: cite('twdb', 'up to 10 % loss; whole systems 0.75 to 0.9. Not above a metal roof') },
    { surface: 'smooth membrane', runoff: 0.9, low: 0.9, high: 0.9, source: cite('runoffStudy', 'sloping smooth roof, measured') },
    { surface: 'concrete', runoff: 0.8, low: 0.7, high: 0.9, source: cite('memory', 'roof coefficient of concrete') },
    { surface: 'flat gravel', runoff: 0.5, low: 0.5, high: 0.7, source: cite('memory', 'flat gravel roof') },
    { surface: 'compacted soil', runoff: 0.15, low: 0.1, high: 0.2, source: cite('memory', 'compacted soil') },
  ],
})
