import { arg, calc, step } from '../../calc.js'
import { badInput } from '../../errors.js'
import { cite } from '../../sources.js'

const boyle = cite('drawdown', 'Boyle’s law with absolute pressures')

export const tankDrawdown = calc({
  id: 'TANKDRAWDOWN',
  chapter: 'pipe',
  summary: 'Water that a pressure tank gives between cut-out and cut-in.',
  takes: {
    volume_gal: arg('Volume of the pressure tank', { least: 0, most: 100_000 }),
    cutIn_psi: arg('Cut-in pressure', { least: 0, most: 300 }),
    cutOut_psi: arg('Cut-out pressure', { least: 0, most: 300, hint: 'above the cut-in' }),
    precharge_psi: arg('Pre-charge pressure', { least: 0, most: 300, optional: 'cut-in less 2 psi', hint: 'not above the cut-in' }),
    atmosphere_psi: arg('Air pressure', { least: 5, most: 20, default: 14.7 }),
  },
  gives: { drawdown_gal: 'Drawdown' },
  steps: [
    step('charge_psi', 'Pre-charge', 'IF(precharge_psi="",MAX(0,cutIn_psi-2),precharge_psi)', cite('practice', 'pre-charge 2 psi below cut-in')),
    step('full', 'Share of air left at cut-out', '(charge_psi+atmosphere_psi)/(cutOut_psi+atmosphere_psi)', boyle),
    step('empty', 'Share of air at cut-in', '(charge_psi+atmosphere_psi)/(cutIn_psi+atmosphere_psi)', boyle),
    step('drawdown_gal', 'Drawdown', 'volume_gal*(empty-full)', boyle),
  ],
  example: [85, 30, 50],
  run({ volume_gal, cutIn_psi, cutOut_psi, precharge_psi, atmosphere_psi }) {
    if (cutOut_psi <= cutIn_psi) throw badInput('Cut-out pressure (cutOut)', `above the cut-in, ${cutIn_psi} psi`, cutOut_psi)
    const charge = precharge_psi ?? Math.max(0, cutIn_psi - 2)
    if (charge > cutIn_psi) throw badInput('Pre-charge pressure (precharge)', `0 to the cut-in, ${cutIn_psi} psi`, charge)
    const airAt = (pressure: number) => (charge + atmosphere_psi) / (pressure + atmosphere_psi)
    return volume_gal * (airAt(cutIn_psi) - airAt(cutOut_psi))
  },
})
