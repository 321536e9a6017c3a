/** How a storm divides between two tanks, held to the orifice equation by hand. */
import { expect, it } from 'vitest'
import { tieShare } from '../../src/takeoff/stormSplit.js'

it('covered mouths: both levels agree, less what the tie takes', () => {
  // A mouth under water, discharge 0.6 (any text on orifices, from memory): h = D/2 + k Q², k = 1 / (0.6 A)² / 2g.
  const [bore_in, all_gpm, tieHeadAtAll_ft] = [4.026, 600, 3.34]
  const area_ft2 = (Math.PI / 4) * (bore_in / 12) ** 2
  const all_cfs = (all_gpm * 231) / 1728 / 60
  const headAtAll_ft = (all_cfs / (0.6 * area_ft2)) ** 2 / (2 * 32.174)
  // All falls into the far tank, the share s passes the tie of head T s²: H (1 - s)² - H s² = T s², so T s² + 2 H s - H = 0.
  const share = (-2 * headAtAll_ft + Math.sqrt(4 * headAtAll_ft ** 2 + 4 * tieHeadAtAll_ft * headAtAll_ft)) / (2 * tieHeadAtAll_ft)
  const found = tieShare({ far_gpm: all_gpm, next_gpm: 0, overflowsAtInlet: 1, overflowsNext: 1, portBore_in: bore_in, losses: 0, tieHeadAtAll_ft })
  // Twenty-four halvings leave a share of 6e-8.
  expect(found).toBeCloseTo(share, 6)
})
