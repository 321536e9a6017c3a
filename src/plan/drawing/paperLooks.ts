/** How shapes look on paper: also in black and white, so no state hangs on a colour. Measures in points. */
import { palette } from '../looks.js'
import type { ShapeRole } from './picture.js'

export interface Drawn {
  fill?: string | undefined
  /** Strokes from the lower left to the upper right instead of a full area. */
  isHatched?: true
  line?: string
  thick?: number | undefined
  dash?: 'dash' | 'lgDashDot' | 'sysDot'
}
export const paperLooks: Readonly<Record<ShapeRole, Drawn>> = {
  earth: { fill: 'EDE9E2' },
  fill: { fill: palette.stoneLight },
  stone: { fill: palette.paper, line: palette.stone, thick: 0.35 },
  concrete: { fill: palette.stone, line: palette.ink, thick: 0.8 },
  air: { fill: palette.paper, line: palette.stoneDark, thick: 0.35 },
  water: { fill: 'CFE0E8', line: palette.water, thick: 0.35 },
  riser: { fill: palette.stone, line: palette.ink, thick: 0.6 },
  pump: { fill: palette.ink },
  ground: { line: palette.ink, thick: 1.4 },
  groundwater: { fill: palette.water, line: palette.water, thick: 0.8, dash: 'lgDashDot' },
  pit: { line: palette.stoneDark, thick: 0.8 },
  hip: { line: palette.stoneDark, thick: 0.5 },
  spoil: { line: palette.stoneDark, thick: 0.5, dash: 'sysDot' },
  break: { line: palette.ink, thick: 0.6 },
  crane: { line: palette.stoneDark, thick: 0.6 },
  inlet: { line: palette.clay },
  overflow: { line: palette.clay, dash: 'dash' },
  tie: { line: palette.ink },
  waterline: { line: palette.ink },
  conduit: { line: palette.stoneDark, thick: 0.8, dash: 'dash' },
  short: { fill: palette.clay, isHatched: true, line: palette.clay, thick: 0.5 },
  demand: { line: palette.ink, thick: 1.2 },
  axis: { line: palette.stoneDark, thick: 0.6 },
  full: { line: palette.stoneDark, thick: 0.5, dash: 'dash' },
  rod: { line: palette.stoneDark, thick: 0.35 },
}
/** A pipe as thin as this would vanish in print. */
export const LEAST_PIPE_POINTS = 0.75
export const MEASURE: Drawn = { line: palette.stoneDark, thick: 0.5 }
export const LEADER: Drawn = { line: palette.stoneDark, thick: 0.35 }
