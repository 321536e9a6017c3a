import { cite } from '../sources.js'
import { table } from '../table.js'

/** Steepest permitted pit walls, horizontal run per 1 of depth, for pits under 20 ft. */
export const pitBatters = table({
  id: 'PitBatters',
  title: 'Pit batter by soil class',
  source: cite('osha1926', 'Appendix B, Table B-1'),
  notes: ['Soil is classed by a competent person on site; where nobody has classed it, take C. Deeper than 20 ft an engineer designs the pit.'],
  rows: [
    { soil: 'rock', batter: 0, angle_deg: 90 }, { soil: 'A', batter: 0.75, angle_deg: 53 }, { soil: 'B', batter: 1, angle_deg: 45 }, { soil: 'C', batter: 1.5, angle_deg: 34 },
  ],
})

/** Swell from bank to truck, what is left after compaction, and weight loose. */
export const soils = table({
  id: 'Soils',
  title: 'Earth and stone: swell, compaction, weight',
  source: cite('estimating', 'Fig. 9.1'),
  notes: ['`compacted` is the share of the bank volume that remains. Stone weight for AASHTO No. 57 is fixed by no standard: keep it an input.'],
  rows: [
    { material: 'sand and gravel', swellLow: 0.1, swellHigh: 0.18, compacted: 0.95, loose_lb_per_yd3: 2400, source: cite('estimating', 'Fig. 9.1 swell; compaction: Navy; weight of sand: CalRecycle') },
    { material: 'common earth', swellLow: 0.25, swellHigh: 0.25, compacted: 0.9, loose_lb_per_yd3: 2100, source: cite('navy', 'loam; weight: CalRecycle') },
    { material: 'dense clay', swellLow: 0.2, swellHigh: 0.35, compacted: 0.9, loose_lb_per_yd3: 2100, source: cite('estimating', 'Fig. 9.1 swell, low end of compaction; weight from memory', 'from memory') },
    { material: 'solid rock', swellLow: 0.4, swellHigh: 0.7, compacted: 1.3, loose_lb_per_yd3: 2600, source: cite('estimating', 'Fig. 9.1 swell and compaction; weight from memory', 'from memory') },
    { material: 'crushed stone', swellLow: 0.1, swellHigh: 0.15, compacted: 0.89, loose_lb_per_yd3: 2600, source: cite('calRecycle', 'gravel or crushed stone, loose, dry; settling: Gillette 1908 voids give 9 to 15 %') },
  ],
})
