import { cite } from '../sources.js'
import { table } from '../table.js'

const practice = cite('practice', 'one wheel, loaded')

/** What one wheel carries, from the lightest traffic to the heaviest. */
export const wheelLoads = table({
  id: 'WheelLoads',
  title: 'Wheel loads by traffic',
  source: cite('moser', 'H-20 truck'),
  notes: ['For the engineer and the tank’s maker, who say what a lid carries; nothing here designs one.'],
  rows: [
    { traffic: 'none', wheel_lb: 0, source: practice }, { traffic: 'lawn machines', wheel_lb: 800, source: practice },
    { traffic: 'cars', wheel_lb: 3000, source: cite('memory', 'ASCE 7 garage, 3,000 lb') }, { traffic: 'trucks', wheel_lb: 16_000 },
  ],
})
