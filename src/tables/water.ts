import { cite } from '../sources.js'
import { table } from '../table.js'

const computed = cite('derivation', 'viscosity IAPWS R12-08 equation 10, density Kell 1975, to 0.1 %')

/** Liquid water on its saturation line. Kinematic viscosity is dynamic viscosity over density. */
export const water = table({
  id: 'Water',
  title: 'Water: density and kinematic viscosity',
  source: cite('hiData', 'section II-A, Table 2.A.2 (NIST data)'),
  rows: [
    { temperature_F: 32, density_lb_per_ft3: 62.415, viscosity_ft2_per_s: 1.9284e-5 },
    { temperature_F: 40, density_lb_per_ft3: 62.423, viscosity_ft2_per_s: 1.6635e-5 },
    { temperature_F: 50, density_lb_per_ft3: 62.409, viscosity_ft2_per_s: 1.4059e-5, source: computed },
    { temperature_F: 60, density_lb_per_ft3: 62.364, viscosity_ft2_per_s: 1.208e-5 },
    { temperature_F: 70, density_lb_per_ft3: 62.299, viscosity_ft2_per_s: 1.0516e-5 },
    { temperature_F: 80, density_lb_per_ft3: 62.213, viscosity_ft2_per_s: 9.261e-6, source: computed },
    { temperature_F: 90, density_lb_per_ft3: 62.11, viscosity_ft2_per_s: 8.2338e-6 },
    { temperature_F: 100, density_lb_per_ft3: 61.991, viscosity_ft2_per_s: 7.3838e-6 },
    { temperature_F: 110, density_lb_per_ft3: 61.858, viscosity_ft2_per_s: 6.672e-6, source: computed },
    { temperature_F: 120, density_lb_per_ft3: 61.71, viscosity_ft2_per_s: 6.0673e-6 },
    { temperature_F: 130, density_lb_per_ft3: 61.55, viscosity_ft2_per_s: 5.551e-6, source: computed },
    { temperature_F: 140, density_lb_per_ft3: 61.38, viscosity_ft2_per_s: 5.105e-6, source: computed },
  ],
})
