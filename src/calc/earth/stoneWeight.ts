import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const stoneWeight = calc({
  id: 'STONEWEIGHT',
  chapter: 'earth',
  summary: 'Stone to order, by weight, for a volume in place.',
  takes: {
    inPlace_yd3: arg('Stone in place', { least: 0, most: 1_000_000 }),
    compaction: arg('Compaction, share added', { least: 0, most: 1, default: 0.12 }),
    waste: arg('Waste, share added', { least: 0, most: 1, default: 0.1 }),
    density_lb_per_yd3: arg('Weight loose', { least: 500, most: 6000, default: 2600 }),
  },
  gives: { weight_ton: 'Weight to order' },
  steps: [
    step('loose_yd3', 'Loose stone', 'inPlace_yd3*(1+compaction)*(1+waste)', cite('practice', 'compaction 10 to 15 %, waste 5 to 10 %; Gillette 1908 voids give 9 to 15 %')),
    step('weight_ton', 'Weight', 'loose_yd3*density_lb_per_yd3/2000', cite('calRecycle', 'crushed stone loose and dry 2,600 lb/yd³')),
  ],
  notes: ['Wet stone weighs about 20 % more. No standard fixes the weight of AASHTO No. 57.'],
  example: [2.593, 0.1, 0.05],
  run: ({ inPlace_yd3, compaction, waste, density_lb_per_yd3 }) => (inPlace_yd3 * (1 + compaction) * (1 + waste) * density_lb_per_yd3) / 2000,
})
