import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const drainCapacity = calc({
  id: 'DRAINCAPACITY',
  chapter: 'pipe',
  summary: 'Flow of a sloped drain, pipe just full (Manning).',
  takes: {
    bore_in: arg('Inside diameter', { least: 0.1, most: 120 }),
    slope_in_per_ft: arg('Slope', { least: 0, most: 12 }),
    n: arg('Manning n', { least: 0.005, most: 0.05, default: 0.01 }),
  },
  gives: { flow_gpm: 'Flow' },
  steps: [
    step('area_ft2', 'Area of the bore', 'PI()/4*(bore_in/12)^2', cite('derivation', 'area of a circle')),
    step('radius_ft', 'Hydraulic radius, a quarter of the bore', 'bore_in/12/4', cite('derivation', 'area over wetted perimeter')),
    step('flow_cfs', 'Flow', '1.486/n*area_ft2*radius_ft^(2/3)*(slope_in_per_ft/12)^0.5', cite('epaManual', 'Table 3.1, Chezy–Manning')),
    step('flow_gpm', 'Flow', 'flow_cfs*60*1728/231', cite('definitions')),
  ],
  notes: [
    'n 0.010 is common practice for PVC drains; EPA prints 0.011 to 0.015 for plastic.',
    'A number, and a fraction such as 1/4, is in/ft. So is the 0.02 that a cell formatted as percent hands over for 2 %: write the text "2 %" or "1:50" where the fall is a share.',
  ],
  example: [4.026, 0.25],
  run({ bore_in, slope_in_per_ft, n }) {
    const area_ft2 = (Math.PI / 4) * (bore_in / 12) ** 2
    const flow_cfs = (1.486 / n) * area_ft2 * (bore_in / 12 / 4) ** (2 / 3) * (slope_in_per_ft / 12) ** 0.5
    return (flow_cfs * 60 * 1728) / 231
  },
})
