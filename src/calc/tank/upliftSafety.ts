import { arg, calc, step } from '../../calc.js'
import { noAnswer } from '../../errors.js'
import { cite } from '../../sources.js'
import { outsideHeight, outsideLength, outsideWidth } from './boxArgs.js'

export const upliftSafety = calc({
  id: 'UPLIFTSAFETY',
  chapter: 'tank',
  summary: 'Holding weight of an empty buried tank over the uplift of groundwater.',
  takes: {
    length_ft: outsideLength,
    width_ft: outsideWidth,
    height_ft: outsideHeight,
    weight_lb: arg('Weight of the empty tank', { least: 0, most: 10_000_000 }),
    waterDepth_ft: arg('Groundwater above the base', { least: 0, most: 200 }),
    cover_ft: arg('Earth cover', { least: 0, most: 100, default: 0 }),
    soil_lb_per_ft3: arg('Effective unit weight of the cover', { least: 0, most: 150, default: 57.6, hint: 'submerged when it lies under water' }),
    risers_ft2: arg('Risers through the cover, outside area', { least: 0, most: 10_000, default: 0, hint: 'no earth stands there, and water is kept out' }),
  },
  gives: { safety: 'Holding weight over uplift' },
  steps: [
    step(
      'holding_lb',
      'Holding weight',
      'weight_lb+MAX(0,length_ft*width_ft-risers_ft2)*cover_ft*soil_lb_per_ft3',
      cite('dd41', 'empty structure and submerged soil over it; no wall friction'),
    ),
    step(
      'uplift_lb',
      'Uplift',
      '62.4*(length_ft*width_ft*MIN(waterDepth_ft,height_ft)+risers_ft2*MAX(0,MIN(waterDepth_ft-height_ft,cover_ft)))',
      cite('femaP259', 'buoyancy = 62.4 x volume displaced'),
    ),
    step('safety', 'Holding weight over uplift', 'IF(uplift_lb>0,holding_lb/uplift_lb,NA())', cite('femaP259'), { none: 'no uplift' }),
  ],
  notes: ['Factors in use: FEMA P-259 1.3 for tanks; others 1.1 to 2.0. Soil default 57.6 = 120 - 62.4 lb/ft³. No friction on the walls is counted, and no weight of the risers.'],
  example: [10, 6, 6, 18479, 6],
  run({ length_ft, width_ft, height_ft, weight_lb, waterDepth_ft, cover_ft, soil_lb_per_ft3, risers_ft2 }) {
    const holding = weight_lb + Math.max(0, length_ft * width_ft - risers_ft2) * cover_ft * soil_lb_per_ft3
    const uplift = 62.4 * (length_ft * width_ft * Math.min(waterDepth_ft, height_ft) + risers_ft2 * Math.max(0, Math.min(waterDepth_ft - height_ft, cover_ft)))
    if (uplift <= 0) throw noAnswer('Groundwater above the base (waterDepth)', 'there is no uplift', waterDepth_ft)
    return holding / uplift
  },
})
