/** The pit in section: earth, fill, stone bed, stone at the pump's end, the cut itself, the ground and the water in it. */
import type { Design } from '../../takeoff/design.js'
import { rectangle } from './picture.js'
import type { PictureDraft } from './pictureDraft.js'

/** Flat batters run far out: beyond this the earth is cut with a break mark, and the tanks stay large enough to see. */
const MOST_SPREAD_FT = 9
/** Level ground beside the pit, and earth under it. */
const BESIDE_FT = 2
const UNDER_FT = 1
/** The mark of a water surface on the groundwater. */
const MARK_FT = { half: 0.3, height: 0.5, in: 0.9 }

export interface PitSection {
  left_ft: number
  right_ft: number
  /** Of its foot. */
  length_ft: number
  depth_ft: number
  /** Of the picture. */
  bottom_ft: number
  /** Where the sloped wall stands at a depth, measured outward from the pit's foot. */
  out_ft(depth_ft: number): number
  /** How far it runs out in the picture, and down to which depth it is cut off there. */
  seen_ft: number
  cut_ft: number
}

export function pitSection(design: Design): PitSection {
  const [length, depth, batter] = [design.number('PitLength_ft'), design.number('PitBottom_ft'), design.number('Batter')]
  const seen = Math.min(batter * depth, MOST_SPREAD_FT)
  return {
    left_ft: -seen - BESIDE_FT,
    right_ft: length + seen + BESIDE_FT,
    length_ft: length,
    depth_ft: depth,
    bottom_ft: depth + UNDER_FT,
    out_ft: (at) => Math.min(seen, batter * (depth - at)),
    seen_ft: seen,
    cut_ft: seen < batter * depth ? depth - seen / batter : 0,
  }
}

/** `pumpEnd_ft` is the outside of the last tank, where stone stands under the water line. */
export function drawPit(draft: PictureDraft, design: Design, pit: PitSection, pumpEnd_ft: number): void {
  const { left_ft: left, right_ft: right, length_ft: length, depth_ft: depth, seen_ft: seen, cut_ft: cut } = pit
  const bed = design.number('BedTop_ft')
  draft.area('earth', rectangle(left, 0, right - left, pit.bottom_ft))
  draft.area('fill', [
    [-seen, 0],
    [-seen, cut],
    [0, depth],
    [length, depth],
    [length + seen, cut],
    [length + seen, 0],
  ])
  draft.area('stone', [
    [-pit.out_ft(bed), bed],
    [0, depth],
    [length, depth],
    [length + pit.out_ft(bed), bed],
  ])
  const stoneTop = Math.max(design.number('LidTop_ft'), bed - design.number('PumpEndStone_in') / 12)
  draft.area('stone', [
    [pumpEnd_ft, stoneTop],
    [pumpEnd_ft, bed],
    [length + pit.out_ft(bed), bed],
    [length + pit.out_ft(stoneTop), stoneTop],
  ])
  draft.path('pit', [
    [-seen, cut],
    [0, depth],
    [length, depth],
    [length + seen, cut],
  ])
  if (cut > 0) {
    breakMark(draft, -seen, cut, -1)
    breakMark(draft, length + seen, cut, 1)
  }
  draft.path('ground', [
    [left, 0],
    [right, 0],
  ])
}

function breakMark(draft: PictureDraft, at: number, top: number, way: number): void {
  draft.path('break', [
    [at, -0.6],
    [at, top * 0.35],
    [at + way * 0.5, top * 0.45],
    [at - way * 0.5, top * 0.6],
    [at, top * 0.7],
    [at, top + 0.4],
  ])
}

/** A line with the mark of a water surface, where the depth is known and in the picture. */
export function drawGroundwater(draft: PictureDraft, design: Design, pit: PitSection, depthWords: string): void {
  const depth = design.number('GroundwaterDepth_ft')
  if (design.single('GroundwaterGiven') !== 'as given' || depth >= pit.bottom_ft) return
  const mark = pit.right_ft - MARK_FT.in
  draft.path('groundwater', [
    [pit.left_ft, depth],
    [pit.right_ft, depth],
  ])
  draft.area('groundwater', [
    [mark - MARK_FT.half, depth - MARK_FT.height],
    [mark + MARK_FT.half, depth - MARK_FT.height],
    [mark, depth],
  ])
  draft.name('below', `groundwater ${depthWords} down`, [mark, depth], 2)
}
