import { arg, calc, series, step } from '../../calc.js'
import { cite } from '../../sources.js'

/** Gallons per cubic foot over inches per foot: one inch of rain on one square foot is 144/231 gal. */
const GALLONS_PER_FT2_INCH = 144 / 231

export const catchmentYield = calc({
  id: 'CATCHMENTYIELD',
  chapter: 'rain',
  summary: 'Water caught from a roof: rain less first flush, times plan area, runoff coefficient and filter share.',
  takes: {
    area_ft2: arg('Plan area of the roof', { least: 0, most: 10_000_000 }),
    rain_in: series('Rain', { least: 0, most: 1000, orNumber: true }),
    runoff: arg('Runoff coefficient', { least: 0, most: 1 }),
    firstFlush_in: arg('First-flush depth', { least: 0, most: 10, default: 0, hint: 'taken off each rain entry, not below zero' }),
    filter: arg('Share that passes the filter', { least: 0, most: 1, default: 1 }),
  },
  gives: { yield_gal: 'Water caught' },
  shapeOf: 'rain_in',
  steps: [
    step('effective_in', 'Rain that reaches the tank', 'MAX(0,rain_in-firstFlush_in)', cite('trca', 'first-flush depth taken off first')),
    step('yield_gal', 'Water caught', 'area_ft2*effective_in*144/231*runoff*filter', cite('definitions', '1 gal = 231 in³')),
  ],
  notes: ['Use the plan (horizontal) area of the roof. With monthly rain a first-flush depth is taken once a month, which is too little: give it with daily rain.'],
  example: [2000, 1, 0.9],
  run({ area_ft2, rain_in, runoff, firstFlush_in, filter }) {
    const caught = (inches: number) => area_ft2 * Math.max(0, inches - firstFlush_in) * GALLONS_PER_FT2_INCH * runoff * filter
    return typeof rain_in === 'number' ? caught(rain_in) : Float64Array.from(rain_in, caught)
  },
})
