import { arg, calc, step, type Step } from '../../calc.js'
import { badInput } from '../../errors.js'
import { cite } from '../../sources.js'
import { water } from '../../tables/water.js'
import { GRAVITY_FT_PER_S2 } from './fittingLoss.js'
import { flowVelocity } from './flowVelocity.js'

const LAMINAR_BELOW = 2000
/** From the Swamee–Jain start, three Newton steps leave less than 1e-12 of the Colebrook equation over the whole span. */
const NEWTON_STEPS = 3
const colebrook = cite('hiData', 'section III-A, equation 3.A.4 (Colebrook)')

const newton: Step[] = Array.from({ length: NEWTON_STEPS }, (_, at) =>
  step(
    `guess${at + 1}`,
    `1/sqrt(f), Newton step ${at + 1}`,
    `guess${at}-(guess${at}+2*LN(rough+smooth*guess${at})/LN(10))/(1+2*smooth/(LN(10)*(rough+smooth*guess${at})))`,
    colebrook,
  ),
)

export const darcyLoss = calc({
  id: 'DARCYLOSS',
  chapter: 'pipe',
  summary: 'Head lost to friction in a full pipe (Darcy–Weisbach with the Colebrook friction factor).',
  takes: {
    flow_gpm: arg('Flow', { least: 0, most: 20_000 }),
    length_ft: arg('Length of pipe', { least: 0, most: 100_000 }),
    bore_in: arg('Inside diameter', { least: 0.1, most: 120 }),
    roughness_in: arg('Roughness of the wall', { least: 0, most: 1, default: 0.00006, hint: 'not above 0.05 of the bore' }),
    temperature_F: arg('Temperature of the water', { least: 32, most: 140, default: 60 }),
  },
  gives: { loss_ftw: 'Head lost' },
  steps: [
    step(
      'row',
      'Row of the water table below this temperature',
      `MIN(MATCH(temperature_F,Water[temperature_F],1),${water.rows.length - 1})`,
      cite('hiData', 'section II-A, Table 2.A.2'),
    ),
    step(
      'viscosity_ft2_per_s',
      'Kinematic viscosity, straight line between rows',
      'INDEX(Water[viscosity_ft2_per_s],row)+(temperature_F-INDEX(Water[temperature_F],row))*(INDEX(Water[viscosity_ft2_per_s],row+1)-INDEX(Water[viscosity_ft2_per_s],row))/(INDEX(Water[temperature_F],row+1)-INDEX(Water[temperature_F],row))',
      cite('hiData', 'section II-A, Table 2.A.2'),
    ),
    step('velocity_fps', 'Velocity', 'flow_gpm*231/1728/60/(PI()/4*(bore_in/12)^2)', cite('derivation', 'flow over area')),
    step('reynolds', 'Reynolds number', 'velocity_fps*bore_in/12/viscosity_ft2_per_s', cite('hiData', 'section III-A')),
    step('rough', 'Roughness term of Colebrook', 'roughness_in/bore_in/3.7', colebrook),
    step('smooth', 'Viscosity term of Colebrook', '2.51/MAX(reynolds,2000)', colebrook),
    step('guess0', '1/sqrt(f), first guess', '-2*LN(rough+5.74/MAX(reynolds,2000)^0.9)/LN(10)', cite('epaManual', 'chapter 12, Swamee–Jain')),
    ...newton,
    step('friction', 'Friction factor', `IF(reynolds<2000,64/MAX(reynolds,0.000000001),1/guess${NEWTON_STEPS}^2)`, cite('hiData', 'section III-A; laminar 64/Re')),
    step('loss_ftw', 'Head lost', 'IF(flow_gpm=0,0,friction*length_ft/(bore_in/12)*velocity_fps^2/(2*32.174))', cite('hiData', 'section III-A, equation 3.A.1')),
  ],
  notes: [
    'Below Reynolds number 2000 the flow is laminar (64/Re).',
    'Between 2000 and 4000 no formula holds (the critical zone; Engineering Fluid Mechanics, bookboon, p. 61): the Colebrook value is used there, which is the larger loss and so on the safe side.',
  ],
  example: [10, 100, 1.049],
  run({ flow_gpm, length_ft, bore_in, roughness_in, temperature_F }) {
    if (roughness_in > 0.05 * bore_in) throw badInput('Roughness of the wall (roughness)', `0 to 0.05 of the bore, ${0.05 * bore_in} in`, roughness_in)
    if (flow_gpm === 0) return 0
    const velocity = flowVelocity.run({ flow_gpm, bore_in })
    const reynolds = (velocity * bore_in) / 12 / viscosityAt(temperature_F)
    const friction = reynolds < LAMINAR_BELOW ? 64 / Math.max(reynolds, 1e-9) : colebrookFactor(reynolds, roughness_in / bore_in)
    return ((friction * length_ft) / (bore_in / 12)) * (velocity ** 2 / (2 * GRAVITY_FT_PER_S2))
  },
})

/** The friction factor that solves Colebrook for a Reynolds number and a relative roughness. */
export function colebrookFactor(reynolds: number, relativeRoughness: number): number {
  const rough = relativeRoughness / 3.7
  const smooth = 2.51 / reynolds
  let guess = -2 * Math.log10(rough + 5.74 / reynolds ** 0.9)
  for (let at = 0; at < NEWTON_STEPS; at++) {
    const inside = rough + smooth * guess
    guess -= (guess + 2 * Math.log10(inside)) / (1 + (2 * smooth) / (Math.LN10 * inside))
  }
  return 1 / guess ** 2
}

const waterRows = water.rows.map((row) => ({ temperature: row.temperature_F as number, viscosity: row.viscosity_ft2_per_s as number }))

function viscosityAt(temperature_F: number): number {
  let at = waterRows.length - 2
  while (at > 0 && waterRows[at]!.temperature > temperature_F) at--
  const below = waterRows[at]!
  const above = waterRows[at + 1]!
  return below.viscosity + ((temperature_F - below.temperature) * (above.viscosity - below.viscosity)) / (above.temperature - below.temperature)
}
