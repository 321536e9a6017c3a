/** The section through the row of tanks, to scale both ways, from the same figures as the sheets. The far tank with the inlet stands left, the house lies to the right. */
import type { Design } from '../../takeoff/design.js'
import type { Measure } from './measure.js'
import type { Height, Picture } from './picture.js'
import { PictureDraft } from './pictureDraft.js'
import { drawDrains, drawLineAndPower } from './sectionPipes.js'
import { drawGroundwater, drawPit, pitSection } from './sectionPit.js'
import { drawTanks } from './sectionTanks.js'
import { tankRow } from './tankRow.js'

/** Over the ground, at the least. */
const SKY_FT = 1

export function sectionPicture(design: Design, measure: Measure): Picture {
  const draft = new PictureDraft()
  const row = tankRow(design)
  const pit = pitSection(design)
  const [farTank, pumpTank] = [row[0]!, row.at(-1)!]
  const [lids, bed] = [design.number('LidTop_ft'), design.number('BedTop_ft')]

  drawPit(draft, design, pit, pumpTank.right_ft)
  drawGroundwater(draft, design, pit, measure('GroundwaterDepth_ft'))
  drawTanks(draft, design, row)
  drawDrains(draft, design, measure, pit, farTank)
  drawLineAndPower(draft, design, pit, pumpTank)
  draft.name('below', modelWords(design, measure), [pit.length_ft / 2, bed], 1)
  if (row.length > 1) {
    const tie = design.number('TieCentre_ft')
    draft.name('below', `tied by 4 in pipe ${measure('TieCentre_ft')} down`, [farTank.right_ft + design.number('TankGap_in') / 24, tie], 3)
  }
  draft.name('below', `stone bed ${measure('BedThickness_in')}`, [pumpTank.right_ft + design.number('WorkingRoom_ft') / 2, bed], 5)

  const cover: readonly Height[] = design.number('Cover_ft') > 0 ? [{ words: `cover ${measure('Cover_ft')}`, from_ft: 0, to_ft: lids }] : []
  const tanks = row.length === 1 ? 'one tank' : `${row.length} tanks`
  const outlet = design.number('ByGravity') === 1 ? 'water line' : 'pump and water line'
  return {
    left_ft: pit.left_ft,
    right_ft: pit.right_ft,
    top_ft: Math.min(design.number('RiserRim_ft'), -SKY_FT),
    bottom_ft: pit.bottom_ft,
    shapes: draft.shapes,
    labels: draft.labels,
    heights: [...cover, { words: `tank ${measure('TankHeight_ft')}`, from_ft: lids, to_ft: bed }],
    length: { words: `pit ${measure('PitLength_ft')} × ${measure('PitWidth_ft')} at its foot, ${measure('PitDepth_ft')} deep`, from_ft: 0, to_ft: pit.length_ft },
    title: 'Section, house to the right',
    description: `Section through ${tanks} ${design.text('Models')} in a pit ${measure('PitDepth_ft')} deep under ${measure('Cover_ft')} of cover, water ${measure('TankWaterDepth_ft')} deep, inlet and overflow left, ${outlet} right.`,
  }
}

/** How many of which model, and what they hold. */
function modelWords(design: Design, measure: Measure): string {
  const [tanks, second, openings] = [design.number('TankCount'), design.number('SecondTanks'), design.number('TankOpenings')]
  const model = String(design.single('TankModel'))
  if (second > 0) return `${design.number('FirstTanks')} × ${model} right, ${second} × ${String(design.single('SecondModel'))} left, ${measure('Storage_gal')}`
  const each = tanks > 1 ? ' each' : ''
  return `${tanks} × ${model}, ${measure('TankVolume_gal')}${each}${openings > 1 ? `, ${openings} openings${each}` : ''}`
}
