import { arg, calc, step } from '../../calc.js'
import { cite } from '../../sources.js'

export const digVolume = calc({
  id: 'DIGVOLUME',
  chapter: 'earth',
  summary: 'Earth to dig for a pit with sloped sides, in the bank (prismoidal rule).',
  takes: {
    length_ft: arg('Length of the bottom', { least: 0, most: 10_000 }),
    width_ft: arg('Width of the bottom', { least: 0, most: 10_000 }),
    depth_ft: arg('Depth', { least: 0, most: 100 }),
    batter: arg('Batter, run per 1 of depth', { least: 0, most: 5, default: 0 }),
  },
  gives: { bank_yd3: 'Volume in the bank' },
  steps: [
    step('bottom_ft2', 'Area of the bottom', 'length_ft*width_ft', cite('derivation', 'area')),
    step('middle_ft2', 'Area at half depth', '(length_ft+batter*depth_ft)*(width_ft+batter*depth_ft)', cite('prismoid', 'mean of the sides')),
    step('top_ft2', 'Area at the top', '(length_ft+2*batter*depth_ft)*(width_ft+2*batter*depth_ft)', cite('prismoid', 'top = bottom + 2 x run x depth')),
    step('bank_yd3', 'Volume in the bank', 'depth_ft/6*(bottom_ft2+4*middle_ft2+top_ft2)/27', cite('prismoid', 'V = h/6 (A1 + 4 Am + A2)')),
  ],
  notes: [
    'Average end areas give too much, the more so the flatter the batter and the deeper the pit (3 % and 7 % in two worked examples). Batter by soil: see the table of pit batters; from 5 ft a protective system is needed, over 20 ft an engineer.',
  ],
  example: [14, 10, 9, 1],
  run({ length_ft, width_ft, depth_ft, batter }) {
    const bottom = length_ft * width_ft
    const middle = (length_ft + batter * depth_ft) * (width_ft + batter * depth_ft)
    const top = (length_ft + 2 * batter * depth_ft) * (width_ft + 2 * batter * depth_ft)
    return ((depth_ft / 6) * (bottom + 4 * middle + top)) / 27
  },
})
