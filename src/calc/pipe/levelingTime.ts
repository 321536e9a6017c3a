import { arg, calc, step } from '../../calc.js'
import { badInput } from '../../errors.js'
import { cite } from '../../sources.js'
import { GRAVITY_FT_PER_S2 } from './fittingLoss.js'

export const levelingTime = calc({
  id: 'LEVELINGTIME',
  chapter: 'pipe',
  summary: 'Time for two tied tanks to come from one level difference to another.',
  takes: {
    areaA_ft2: arg('Water surface of one tank', { least: 0, most: 100_000, above: true }),
    areaB_ft2: arg('Water surface of the other', { least: 0, most: 100_000, above: true }),
    bore_in: arg('Inside diameter of the tie', { least: 0.1, most: 120 }),
    from_ft: arg('Level difference at the start', { least: 0, most: 200 }),
    to_ft: arg('Level difference at the end', { least: 0, most: 200, default: 0, hint: 'not above the start' }),
    discharge: arg('Discharge coefficient', { least: 0.1, most: 1, default: 0.6 }),
  },
  gives: { time_s: 'Time' },
  steps: [
    step('tie_ft2', 'Area of the tie', 'PI()/4*(bore_in/12)^2', cite('derivation', 'area of a circle')),
    step('joint_ft2', 'Areas taken together', 'areaA_ft2*areaB_ft2/(areaA_ft2+areaB_ft2)', cite('orifice')),
    step('time_s', 'Time', '2*joint_ft2*(SQRT(from_ft)-SQRT(to_ft))/(discharge*tie_ft2*SQRT(2*32.174))', cite('orifice')),
  ],
  notes: ['For a pipe the discharge coefficient is 1/sqrt(sum of K + f L/D); 0.73 for 6 ft of 4 in pipe.'],
  example: [45, 45, 4.026, 1],
  run({ areaA_ft2, areaB_ft2, bore_in, from_ft, to_ft, discharge }) {
    if (to_ft > from_ft) throw badInput('Level difference at the end (to)', `0 to the start, ${from_ft} ft`, to_ft)
    const tie_ft2 = (Math.PI / 4) * (bore_in / 12) ** 2
    const joint_ft2 = (areaA_ft2 * areaB_ft2) / (areaA_ft2 + areaB_ft2)
    return (2 * joint_ft2 * (Math.sqrt(from_ft) - Math.sqrt(to_ft))) / (discharge * tie_ft2 * Math.sqrt(2 * GRAVITY_FT_PER_S2))
  },
})
