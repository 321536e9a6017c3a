import { arg, calc, step, type Step } from '../../calc.js'
import { cite } from '../../sources.js'
import { GRAVITY_FT_PER_S2 } from './fittingLoss.js'

/** Of a sharp-edged opening under water, as every text on orifices has it (from memory). */
export const MOUTH_DISCHARGE = 0.6
/** Each halving leaves half of the doubt about the critical depth; eighteen leave 4 millionths of the bore. */
const HALVINGS = 18
const critical = cite('channels', 'critical flow in a circular section, Q² / g = A³ / T')
const energy = cite('channels', 'head over the invert = critical depth + (1 + losses) V² / 2g')

/** Flow that is critical at a depth of `u` bores, as Q / (√g D^2.5): the square root of A³ / T, both in bores. */
const criticalFlow = (u: string): string => `SQRT(((4*ATAN(SQRT(${u}/(1-${u})))-SIN(4*ATAN(SQRT(${u}/(1-${u})))))/8)^3/(2*SQRT(${u}*(1-${u}))))`

const halvings: Step[] = Array.from({ length: HALVINGS }, (_, at) =>
  step(
    `depth${at + 1}`,
    `Critical depth in bores, halving ${at + 1}`,
    `depth${at}+IF(${criticalFlow(`depth${at}`)}<wanted,1,-1)*0.5^${at + 2}`,
    cite('derivation', 'halving: more flow needs more depth'),
  ),
)

export const overflowHead = calc({
  id: 'OVERFLOWHEAD',
  chapter: 'pipe',
  summary: 'Head of water over the invert of a round overflow that drives a flow into it.',
  takes: {
    flow_gpm: arg('Flow', { least: 0, most: 20_000 }),
    bore_in: arg('Inside diameter of the mouth', { least: 0.5, most: 120 }),
    losses: arg('Losses at the mouth, K', { least: 0, most: 20, default: 0.5 }),
    discharge: arg('Discharge coefficient of the covered mouth', { least: 0.5, most: 1, default: MOUTH_DISCHARGE }),
  },
  gives: { head_ft: 'Head over the invert' },
  steps: [
    step('flow_cfs', 'Flow', 'flow_gpm*231/1728/60', cite('definitions')),
    step('bore_ft', 'Bore', 'bore_in/12', cite('definitions')),
    step('wanted', 'Flow over √g D^2.5', 'flow_cfs/(SQRT(32.174)*bore_ft^2.5)', critical),
    step('depth0', 'Critical depth in bores, first guess', '0.5', cite('derivation', 'the middle of the bore')),
    ...halvings,
    step(
      'area_ft2',
      'Water at critical depth',
      `bore_ft^2*(4*ATAN(SQRT(depth${HALVINGS}/(1-depth${HALVINGS})))-SIN(4*ATAN(SQRT(depth${HALVINGS}/(1-depth${HALVINGS})))))/8`,
      cite('derivation', 'segment of a circle'),
    ),
    step('open_ft', 'Head while the mouth is open', `depth${HALVINGS}*bore_ft+(1+losses)*(flow_cfs/area_ft2)^2/(2*32.174)`, energy),
    step('covered_ft', 'Head while the mouth is covered', 'bore_ft/2+(flow_cfs/(discharge*PI()/4*bore_ft^2))^2/(2*32.174)', cite('orifice', 'head over the centre of the mouth')),
    step(
      'head_ft',
      'Head over the invert',
      'IF(flow_gpm=0,0,MAX(open_ft,IF(covered_ft>=bore_ft,covered_ft,0)))',
      cite('derivation', 'the larger of the two; covered only where the water reaches the top of the bore'),
    ),
  ],
  notes: ['Losses are the entrance (0.5) and what stands in the mouth: bend, screen, flap. The pipe behind it must carry the flow without backing up.'],
  example: [103, 4.026],
  run({ flow_gpm, bore_in, losses, discharge }) {
    if (flow_gpm === 0) return 0
    const flow_cfs = (flow_gpm * 231) / 1728 / 60
    const bore_ft = bore_in / 12
    const wanted = flow_cfs / (Math.sqrt(GRAVITY_FT_PER_S2) * bore_ft ** 2.5)
    const segment = (u: number) => {
      const angle = 4 * Math.atan(Math.sqrt(u / (1 - u)))
      return (angle - Math.sin(angle)) / 8
    }
    let depth = 0.5
    for (let at = 0; at < HALVINGS; at++) depth += (Math.sqrt(segment(depth) ** 3 / (2 * Math.sqrt(depth * (1 - depth)))) < wanted ? 1 : -1) * 0.5 ** (at + 2)
    const area_ft2 = bore_ft ** 2 * segment(depth)
    const open_ft = depth * bore_ft + ((1 + losses) * (flow_cfs / area_ft2) ** 2) / (2 * GRAVITY_FT_PER_S2)
    const covered_ft = bore_ft / 2 + (flow_cfs / (((discharge * Math.PI) / 4) * bore_ft ** 2)) ** 2 / (2 * GRAVITY_FT_PER_S2)
    return Math.max(open_ft, covered_ft >= bore_ft ? covered_ft : 0)
  },
})
