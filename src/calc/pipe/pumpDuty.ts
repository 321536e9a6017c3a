import { arg, calc, curve, step, type Points, type Step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { cite } from '../../sources.js'

/** Newton comes in from the right of a rising curve, so each step lands nearer; eight leave less than 1e-9 gpm. */
const NEWTON_STEPS = 8
/** Feet by which heads that are the same may differ in their last digits: a duty on the last point of a curve is on the curve. */
const HEADS_DIFFER = '0.000000001'
const straight = cite('derivation', 'straight line between the points of the curve')
const search = cite('derivation', 'Newton steps towards the crossing')

const newton: Step[] = Array.from({ length: NEWTON_STEPS }, (_, at) =>
  step(
    `try${at + 1}_gpm`,
    `Crossing, Newton step ${at + 1}`,
    `try${at}_gpm-(lift_ftw+testLoss_ftw*(try${at}_gpm/testFlow_gpm)^1.852-lowHead_ftw+fall*(try${at}_gpm-lowFlow_gpm))/(1.852*testLoss_ftw/testFlow_gpm*(try${at}_gpm/testFlow_gpm)^0.852+fall)`,
    search,
  ),
)

export const pumpDuty = calc({
  id: 'PUMPDUTY',
  chapter: 'pipe',
  summary: 'Where a pump curve meets the head that the line asks for.',
  takes: {
    curve: curve('Pump curve', { columns: ['curveFlow_gpm', 'curveHead_ftw'], most: [20_000, 5000] }),
    lift_ftw: arg('Lift and pressure, as head', { least: -1000, most: 5000 }),
    testFlow_gpm: arg('Flow at which the loss is known', { least: 0.001, most: 20_000 }),
    testLoss_ftw: arg('Loss at that flow', { least: 0, most: 100_000 }),
  },
  spills: { flow_gpm: 'Flow', head_ftw: 'Head' },
  steps: [
    step(
      'points',
      'Points of the curve at or above the line',
      `SUMPRODUCT((curveHead_ftw>=lift_ftw+testLoss_ftw*(curveFlow_gpm/testFlow_gpm)^1.852-${HEADS_DIFFER})*1)`,
      cite('hiData', 'section I-A, system curve'),
    ),
    step('ends', 'Points of the curve', 'COUNT(curveFlow_gpm)', straight),
    step(
      'low',
      'Point left of the crossing; none where the curve starts below the line or ends above it',
      `IF(OR(points=0,INDEX(curveHead_ftw,ends)>lift_ftw+testLoss_ftw*(INDEX(curveFlow_gpm,ends)/testFlow_gpm)^1.852+${HEADS_DIFFER}),NA(),MIN(points,ends-1))`,
      straight,
    ),
    step('lowFlow_gpm', 'Flow left of the crossing', 'INDEX(curveFlow_gpm,low)', straight),
    step('lowHead_ftw', 'Head left of the crossing', 'INDEX(curveHead_ftw,low)', straight),
    step('fall', 'Fall of the curve, ft per gpm', '(lowHead_ftw-INDEX(curveHead_ftw,low+1))/(INDEX(curveFlow_gpm,low+1)-lowFlow_gpm)', straight),
    step(
      'try0_gpm',
      'Crossing, from the right',
      'IF(testLoss_ftw=0,INDEX(curveFlow_gpm,low+1),MIN(INDEX(curveFlow_gpm,low+1),testFlow_gpm*(MAX(0,lowHead_ftw-lift_ftw)/testLoss_ftw)^(1/1.852)))',
      search,
    ),
    ...newton,
    step('flow_gpm', 'Flow', `MAX(lowFlow_gpm,MIN(INDEX(curveFlow_gpm,low+1),try${NEWTON_STEPS}_gpm))`, search),
    step('head_ftw', 'Head', 'lowHead_ftw-fall*(flow_gpm-lowFlow_gpm)', straight),
  ],
  notes: ['Loss is taken to grow with the 1.852 power of flow. Between two points the curve is a straight line, which lies below the true curve of a centrifugal pump.'],
  example: [
    [
      [0, 180],
      [8, 160],
      [16, 110],
      [22, 50],
    ],
    117.5,
    10,
    12,
  ],
  run({ curve, lift_ftw, testFlow_gpm, testLoss_ftw }) {
    const asked = (flow: number) => lift_ftw + testLoss_ftw * (flow / testFlow_gpm) ** 1.852
    const slack = Number(HEADS_DIFFER)
    const points = countWhile(curve, ([flow, head]) => head >= asked(flow) - slack)
    if (points === 0) throw noAnswer('Lift and pressure, as head (lift)', `the curve starts at ${curve[0]![1]} ft, below the head asked for`, asked(curve[0]![0]))
    const last = curve[curve.length - 1]!
    if (points === curve.length && last[1] > asked(last[0]) + slack) {
      throw noAnswer('Pump curve (curve)', `the duty lies past its last point, ${last[0]} gpm at ${last[1]} ft`)
    }
    const low = Math.min(points, curve.length - 1) - 1
    const [lowFlow, lowHead] = curve[low]!
    const [highFlow, highHead] = curve[low + 1]!
    const fall = (lowHead - highHead) / (highFlow - lowFlow)
    let flow = testLoss_ftw === 0 ? highFlow : Math.min(highFlow, testFlow_gpm * (Math.max(0, lowHead - lift_ftw) / testLoss_ftw) ** (1 / 1.852))
    for (let at = 0; at < NEWTON_STEPS; at++) {
      const miss = asked(flow) - lowHead + fall * (flow - lowFlow)
      flow -= miss / (((1.852 * testLoss_ftw) / testFlow_gpm) * (flow / testFlow_gpm) ** 0.852 + fall)
    }
    flow = Math.max(lowFlow, Math.min(highFlow, flow))
    return { flow_gpm: [flow], head_ftw: [lowHead - fall * (flow - lowFlow)] }
  },
})

function countWhile(points: Points, holds: (point: readonly [number, number]) => boolean): number {
  const end = points.findIndex((point) => !holds(point))
  return end < 0 ? points.length : end
}
