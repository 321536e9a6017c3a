/** Heights of rows, from the length of their wrapped texts: no host measures text for us. */
import { laidOut } from './drawing/picture.js'
import { looks } from './looks.js'
import { extentOf, EMPTY_ROW_POINTS, type SheetPlan } from './plan.js'

const LINE_POINTS = 12.6
export const ROW_POINTS = 16
/** 8.5 mm: a row that is written into on site. */
const SITE_POINTS = 25
const TITLE_POINTS = 24
/** The firm's logo above the letterhead: as large as it may be, and the air under it. */
export const LOGO_POINTS = { width: 150, height: 34, air: 4 } as const
export const logoScale = ({ width, height }: { width: number; height: number }): number => Math.min(LOGO_POINTS.width / width, LOGO_POINTS.height / height)
/** Above and below several lines together: no rule touches a text. */
const AIR_POINTS = 6
/** Characters of our sizes that fit into one unit of column width, on the safe side. */
const CHARACTERS_PER_WIDTH = 1.22

/** Share of a short line that a text may fill and be sure to stand on it: letters differ, and in a long line they even out. */
const [SHORT, SURE] = [50, 0.93]
/** How much wider bold letters are. */
const BOLD = 1.08

/** Lines that a text takes when words are not broken. */
function linesOf(text: string, width: number): number {
  const isShort = width < SHORT
  if (text.length <= (isShort ? width * SURE : width)) return 1
  let [lines, used] = [1, 0]
  for (const word of text.split(' ')) {
    const length = word.length
    if (used > 0 && used + 1 + length > width) {
      lines++
      used = length
    } else used += length + (used > 0 ? 1 : 0)
    while (used > width) {
      lines++
      used -= width
    }
  }
  // What nearly fills its only line may run over it: letters differ.
  return Math.max(2, lines)
}

/** The width that letter and A4 both hold between our margins, upright, and the height of each; and points that a unit of column width takes in the widest program. */
const [PAGE_WIDTH, WIDTH_POINTS] = [523, 5.25]
const PAGE_HEIGHTS = { letter: 700, A4: 749 } as const
const LEAST_PERCENT = 89

/** Widths of the columns that are printed. */
export const printedWidths = ({ widths, print }: SheetPlan): readonly number[] => widths.slice(0, print?.lastColumn)
/** Points from the left that a sheet's columns take in the widest program. */
export const widthPoints = (widths: readonly number[]): number => widths.reduce((sum, width) => sum + width, 0) * WIDTH_POINTS

/** At this size of print the rows of a sheet fill one page. */
function percentByHeight(plan: SheetPlan): number {
  const heights = rowHeights(plan)
  const last = extentOf(plan.cells).lastRow
  let high = 0
  for (let row = 1; row <= last; row++) high += heights.get(row) ?? EMPTY_ROW_POINTS
  return Math.floor((100 * PAGE_HEIGHTS[plan.paper ?? 'letter']) / high)
}
export const fitsPage = (plan: SheetPlan): boolean => percentByHeight(plan) >= LEAST_PERCENT

/** An upright sheet made to fit one page, as long as it stays readable; else made as narrow as a page. */
export function fittedToPage(plan: SheetPlan): SheetPlan {
  const byWidth = Math.min(100, Math.floor((100 * PAGE_WIDTH) / widthPoints(printedWidths(plan))))
  const byHeight = percentByHeight(plan)
  return { ...plan, print: { percent: byHeight >= LEAST_PERCENT ? Math.min(byWidth, byHeight) : byWidth } }
}

const known = new WeakMap<SheetPlan, ReadonlyMap<number, number>>()
/** Asked for several times of a plan, which does not change. */
export function rowHeights(plan: SheetPlan): ReadonlyMap<number, number> {
  let heights = known.get(plan)
  if (!heights) known.set(plan, (heights = heightsOf(plan)))
  return heights
}

/** Heights where fewer letters stand on a line, at so many of what others take: the grid of the page has wider ones. */
export const heightsWith = (plan: SheetPlan, share: number): ReadonlyMap<number, number> => heightsOf(plan, CHARACTERS_PER_WIDTH * share)

function heightsOf(plan: SheetPlan, perWidth = CHARACTERS_PER_WIDTH): ReadonlyMap<number, number> {
  const heights = new Map<number, number>()
  for (const { row, column, role, value, look = looks[role] } of plan.cells) {
    const width = ((plan.widths[column - 1] ?? 10) * perWidth * (10 / (look.size ?? 10))) / (look.bold ? BOLD : 1)
    const needed = look.wrap && typeof value === 'string' ? linesOf(value, Math.max(4, width - (look.indent ? 2 : 0))) : 1
    const points = needed === 1 ? ROW_POINTS : (needed * LINE_POINTS * Math.max(10, look.size ?? 10)) / 10 + AIR_POINTS
    heights.set(row, Math.max(heights.get(row) ?? 0, points, role === 'siteEntry' ? SITE_POINTS : 0))
  }
  for (const { row, picture, page, ownRow_pt } of plan.drawings ?? [])
    if (ownRow_pt !== undefined) heights.set(row, Math.max(heights.get(row) ?? 0, Math.ceil(laidOut(picture, { ...page, withBar: true }).height) + 2 * ownRow_pt))
  return heights.set(1, TITLE_POINTS + (plan.logo_pt ?? 0))
}
