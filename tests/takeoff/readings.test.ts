/** Each reading of the test record at its limit, just inside and just beyond; limits as the Wanted column says them. */
import { describe, expect, it } from 'vitest'
import { startingOffice } from '../../src/takeoff/demo.js'
import { readingRules } from '../../src/takeoff/readings.js'
import { demoTakeoff } from '../support/office.js'

const { design } = demoTakeoff('Wicket Mill')
const n = design.number.bind(design)
/** Of the pump's curve in the demo's table. */
const curveFlows = [1, 2, 3, 4, 5].map((at) => Number(startingOffice(true).Pumps.rows.find(({ cells }) => cells.Model === design.single('PumpModel'))!.cells[`Flow${at}_gpm`]))
/** Code, last reading that passes, the way to worse, and the verdict beyond. A gauge shows half a psi, a switch holds within 2 psi (common practice, no source). */
const limits: readonly (readonly [code: string, limit: number, worse: -1 | 1, beyond: string, within?: string])[] = [
  ['X2', n('LinePressureMost_psi') - 0.5, -1, 'check'],
  ['X3', 0.5, 1, 'check'],
  // ASTM F2164 (from memory): stretched polyethylene may lose 5 %.
  ['X3', 0.05 * n('LinePressureMost_psi'), 1, 'stop', 'check'],
  // Common practice, no source: what was let in, read to an inch; the float stops the pump far below it.
  ['X4', n('FirstFill_in') - 1, -1, 'check'],
  // NEC 430.6(A)(2): the nameplate decides over the table; overloads trip by 125 % of it (430.32).
  ['X5', n('MotorCurrent_A'), 1, 'check'],
  ['X5', 1.25 * n('MotorCurrent_A'), 1, 'stop', 'check'],
  ['X6', n('CutIn_psi') + 2, 1, 'check'],
  ['X6', n('CutIn_psi') - 2, -1, 'check'],
  ['X7', n('CutOut_psi') + 2, 1, 'check'],
  ['X7', n('CutOut_psi') - 2, -1, 'check'],
  ['X8', n('HouseFlow_gpm'), -1, 'check'],
  ['X9', n('HousePressure_psi'), -1, 'check'],
  // A tenth less chlorine than the first fill asks for, and a tenth more than full tanks do, is still a dose (house figure).
  ['X12', 0.9 * 8 * n('BleachFirst_gal'), -1, 'check'],
  ['X12', 1.1 * 8 * n('Bleach_gal'), 1, 'check'],
  // AWWA C652, from memory: 10 mg/L left after a day. 40 CFR 141.65, from memory: 4.0 mg/L in water that is used.
  ['X14', 10, -1, 'check'],
  ['X15', 4, 1, 'check'],
  // What cannot be so is looked into: over the rating of the pipe, the shut-off of the pump, the end of its curve, the tank's rim.
  ['X2', n('LineRating_psi') * n('LineDerating'), 1, 'check'],
  // ASTM F2164 (from memory): 1.5 times the design pressure at the most.
  ['X2', 1.5 * n('LineRating_psi') * n('LineDerating'), 1, 'stop', 'check'],
  // A pressure that rose by itself is no drop, and no strip reads less than nothing, or more chlorine than was put in.
  ['X3', 0, -1, 'check'],
  ['X15', 0, -1, 'check'],
  // The bleach is measured to a tenth.
  ['X14', 1.1 * n('Dose_mg_per_L'), 1, 'check'],
  ['X4', 12 * n('TankWaterDepth_ft'), 1, 'check'],
  ['X8', Math.max(...curveFlows), 1, 'check'],
  // Two psi of a gauge (common practice, no source).
  ['X9', n('ShutOffAtHouseFull_psi') + 2, 1, 'check'],
  // A third of full load: the motor turns nothing (common practice, no source).
  ['X5', n('MotorCurrent_A') / 3, -1, 'check'],
]
/** Nearer to a limit than any gauge reads; far above the rounding of the arithmetic. */
const HAIR = 1e-6

describe('readings', () => {
  it.each(limits.map(([code, limit, worse, beyond, within = 'pass']) => ({ code, limit, worse, beyond, within })))(
    '$code holds up to $limit and not beyond',
    ({ code, limit, worse, beyond, within }) => {
      const { verdict } = readingRules.find((rule) => rule.code === code)!
      const said = (reading: number) => design.evaluateWith(verdict, { reading })
      expect([said(limit - worse * HAIR), said(limit), said(limit + worse * HAIR)]).toEqual([within, within, beyond])
    },
  )
})
