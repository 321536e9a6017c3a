import { arg, calc, short, step } from '../../calc.js'
import { badInput } from '../../errors.js'
import { cite } from '../../sources.js'

export const stoneBedding = calc({
  id: 'STONEBEDDING',
  chapter: 'earth',
  summary: 'Stone in place in a bed or fill, less what displaces it.',
  takes: {
    length_ft: arg('Length', { least: 0, most: 10_000 }),
    width_ft: arg('Width', { least: 0, most: 10_000 }),
    thickness_in: arg('Thickness', { least: 0, most: 600 }),
    displaced_ft3: arg('Volume displaced', { least: 0, most: 10_000_000, default: 0, hint: 'not above the volume itself' }),
  },
  gives: { inPlace_yd3: 'Stone in place' },
  steps: [
    step('gross_ft3', 'Volume of the bed', 'length_ft*width_ft*thickness_in/12', cite('derivation', 'volume of a box')),
    step('inPlace_yd3', 'Stone in place', 'MAX(0,gross_ft3-displaced_ft3)/27', cite('definitions', '27 ft³ = 1 yd³')),
  ],
  example: [14, 10, 6],
  run({ length_ft, width_ft, thickness_in, displaced_ft3 }) {
    const gross = (length_ft * width_ft * thickness_in) / 12
    // The bed itself, worked out by somebody else, may be over it in the last digits.
    if (displaced_ft3 > gross * (1 + 1e-12)) throw badInput('Volume displaced (displaced)', `0 to the volume of the bed, ${short(gross)} ft³`, displaced_ft3)
    return Math.max(0, gross - displaced_ft3) / 27
  },
})
