import { cite } from '../sources.js'
import { table } from '../table.js'

const epa = cite('epaManual', 'Table 3.3')
const hi = cite('hiData', 'section III-B, Figs 3.B.1a, 3.B.1b')

/** Resistance coefficients K: head lost = K V²/2g. Published values scatter by 20 to 40 %. */
export const fittings = table({
  id: 'Fittings',
  title: 'Resistance of fittings, K',
  source: epa,
  notes: ['No published loss of insert (barb) fittings was found: they are taken as sudden contractions of K 0.5, common practice.'],
  rows: [
    { fitting: 'globe valve, open', resistance: 10 }, { fitting: 'angle valve, open', resistance: 5, source: cite('epaManual', 'Table 3.3', 'from memory') },
    { fitting: 'swing check valve, open', resistance: 2.5 }, { fitting: 'gate valve, open', resistance: 0.2 },
    { fitting: 'short-radius elbow', resistance: 0.9, source: cite('epaManual', 'Table 3.3', 'from memory') }, { fitting: 'medium-radius elbow', resistance: 0.8 },
    { fitting: 'long-radius elbow', resistance: 0.6 }, { fitting: '45 degree elbow', resistance: 0.4 },
    { fitting: 'closed return bend', resistance: 2.2, source: cite('epaManual', 'Table 3.3', 'from memory') },
    { fitting: 'standard tee, run', resistance: 0.6 }, { fitting: 'standard tee, branch', resistance: 1.8, source: cite('epaManual', 'Table 3.3', 'from memory') },
    { fitting: 'square entrance', resistance: 0.5 }, { fitting: 'exit', resistance: 1 },
    { fitting: 'screwed elbow, 1 in', resistance: 1.5, source: hi }, { fitting: 'screwed swing check, 1 in', resistance: 3, source: hi },
    { fitting: 'screwed gate valve, 1 in', resistance: 0.24, source: hi }, { fitting: 'screwed tee, run', resistance: 0.9, source: hi },
    { fitting: 'screen, clean', resistance: 0.2, source: cite('practice', 'coarse screen at an overflow, kept clean') }, { fitting: 'hinged flap, hanging free', resistance: 0.5, source: cite('practice', 'light flap at an overflow') },
    { fitting: 'insert (barb) joint', resistance: 0.5, source: cite('practice', 'taken as a sudden contraction') },
  ],
})
