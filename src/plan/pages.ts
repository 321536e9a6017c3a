/** Where the pages of a sheet begin: no heading stands alone at the foot of one, and every program breaks at the same rows. */
import { EMPTY_ROW_POINTS, extentOf, MARGINS_IN, printedArea, TITLE_ROWS, type Role, type SheetPlan } from './plan.js'
import { laidOut } from './drawing/picture.js'
import { printedWidths, rowHeights, widthPoints } from './heights.js'

/** Paper, upright. */
const papers_in = { letter: { width: 8.5, height: 11 }, A4: { width: 8.27, height: 11.69 } } as const
const POINTS_PER_INCH = 72
/** Rows come out a little higher in some programs. */
const SAFE = 0.97
/** Points that a lying page is sure to hold. */
const PAGE_POINTS = 500
/** A last page with less than this share is drawn to the others, at so many percent smaller type at the most. */
const LEAST_ON_LAST = 0.35
const MOST_SMALLER = 4
/** Lines that stay with their heading. */
const WITH_HEADING = 2
/** Sheets of sections that are read on paper; a quote is one page, and says itself where a second one begins. */
const PAGED: readonly string[] = ['takeoff', 'crew', 'order', 'test', 'year', 'handover', 'together']
/** Their sections stay whole as far as a page holds them: nobody orders from lines whose supplier stands a page before. */
const WHOLE: readonly string[] = ['test', 'order', 'together']
/** The last section, which is signed, stays with the short one before it: nobody signs a page that says nothing. */
const SIGNED: readonly string[] = ['test']
/** Sheets of a job that are worked out as a whole: what is printed of them ends where they end. On a quote, a change order and a handover people put a last word below. */
const CLOSED: readonly string[] = ['options', 'order', 'design', 'site', 'crew', 'year', 'checks', 'working']
/** A page is not left before so much of it is filled: a section that is longer breaks within. */
const LEAST_FILLED = 0.6
const headings: readonly Role[] = ['section', 'heading', 'headingRight']

/** How large a sheet is printed, and what a page holds of it in points of the sheet. */
function pageOf(plan: SheetPlan, smaller = 0): { percent: number; holds: number; isWider: boolean } {
  const paper = papers_in[plan.paper ?? 'letter']
  const [width_in, height_in] = plan.landscape ? [paper.height, paper.width] : [paper.width, paper.height]
  const width = (width_in - 2 * MARGINS_IN.side) * POINTS_PER_INCH
  const whole = widthPoints(printedWidths(plan))
  const percent = (plan.print?.percent ?? Math.min(100, Math.floor((100 * width) / whole))) - smaller
  return { percent, holds: ((height_in - MARGINS_IN.top - MARGINS_IN.bottom) * POINTS_PER_INCH * SAFE * 100) / percent, isWider: whole * percent > width * 100 * SAFE }
}

export interface Pages {
  /** Rows that begin a page, the first page left out. */
  breaks: readonly number[]
  /** At which size it is printed; a sheet without it is made as narrow as a page. Programs pass over breaks where they fit a sheet to its page themselves. */
  percent: number | undefined
}

export function pagesOf(plan: SheetPlan): Pages {
  if (plan.breakBefore !== undefined) return { breaks: [plan.breakBefore], percent: plan.print?.percent }
  if (!PAGED.includes(plan.kind)) return { breaks: [], percent: plan.print?.percent }
  const rows = new Rows(plan)
  const full = pageOf(plan)
  const { breaks, onLast } = rows.broken(full.holds)
  if (!breaks.length) return { breaks, percent: plan.print?.percent }
  // A few lines alone on a last page are drawn to the others, if the type hardly shrinks.
  for (let smaller = 1; smaller <= MOST_SMALLER && onLast < LEAST_ON_LAST * full.holds; smaller++) {
    const page = pageOf(plan, smaller)
    const closer = rows.broken(page.holds)
    if (closer.breaks.length < breaks.length) return { breaks: closer.breaks, percent: page.percent }
  }
  return { breaks, percent: full.percent }
}

/** Rows and columns that are printed on each page of a sheet, counted from its edge: a table grows beyond its page, and one that is wider is unreadable without its keys. */
export function titlesOf(plan: SheetPlan): { rows: number | undefined; columns: number | undefined } {
  const isTable = plan.frozenColumns !== undefined && plan.frozenRows > 0
  return {
    rows: isTable || hasTitles(plan) ? plan.frozenRows : undefined,
    columns: isTable && plan.print?.percent !== undefined && pageOf(plan).isWider ? plan.frozenColumns : undefined,
  }
}
/** Whether the heading lines of a sheet of a job are printed on each of its pages. */
const hasTitles = (plan: SheetPlan): boolean => plan.frozenRows === TITLE_ROWS && plan.kind !== 'working' && isLong(plan)

/** Whether a sheet takes more than a page and a bit. */
function isLong(plan: SheetPlan): boolean {
  const { lastRow } = printedArea(plan) ?? { lastRow: Infinity }
  let points = 0
  for (const [row, height] of rowHeights(plan)) if (row <= lastRow) points += height
  // Sheets are shrunk to the width of the page: a wide one takes more rows.
  const width = plan.widths.reduce((sum, one) => sum + one, 0)
  const shrunk = Math.min(1, (plan.landscape ? 130 : 95) / Math.max(1, width))
  return points * shrunk > (plan.landscape ? PAGE_POINTS : PAGE_POINTS * 1.35)
}

/**
 * What is printed of a sheet. LibreOffice breaks a million rows into pages for a sheet that does not say where it ends, anew for every
 * sheet whose headings are repeated: said here, 50 jobs load in 35 s and not in 75.
 */
export function areaOf(plan: SheetPlan): { lastRow: number; lastColumn: number } | undefined {
  if (!CLOSED.includes(plan.kind)) return printedArea(plan)
  const pictures = picturesOn(plan, rowHeights(plan))
  const cells = printedArea(plan) ?? { ...extentOf(plan.cells), lastColumn: plan.widths.length }
  return { ...cells, lastRow: Math.max(cells.lastRow, ...pictures.map(({ bottom }) => bottom)) }
}

/** The first and last rows of the pictures of a sheet. */
const picturesOn = ({ drawings = [] }: SheetPlan, heights: ReadonlyMap<number, number>): { row: number; bottom: number }[] =>
  drawings.map(({ row, picture, page }) => {
    const height = (at: number): number => heights.get(at) ?? EMPTY_ROW_POINTS
    let [bottom, left] = [row, laidOut(picture, { ...page, withBar: true }).height - height(row)]
    while (left > 0) left -= height(++bottom)
    return { row, bottom }
  })

/** The rows of a sheet as they are printed. */
class Rows {
  private readonly heights: ReadonlyMap<number, number>
  private readonly lastRow: number
  private readonly titles: number
  /** The last row that stays on the page of each heading, and of each drawing. */
  private readonly stays = new Map<number, number>()
  /** The same for a heading whose section is broken. */
  private readonly short = new Map<number, number>()

  constructor(private readonly plan: SheetPlan) {
    this.heights = rowHeights(plan)
    this.lastRow = (printedArea(plan) ?? extentOf(plan.cells)).lastRow
    for (const { row, bottom } of picturesOn(plan, this.heights)) {
      this.lastRow = Math.max(this.lastRow, bottom)
      // Its own heading stands in the row above.
      this.keep(row - 1, bottom)
    }
    // A title between tables stays with the heads and first lines of its own.
    for (const { row, role } of plan.cells) if (role === 'subtitle' && row > plan.frozenRows) this.keep(row, row + 1 + WITH_HEADING)
    // The same in another language stays with what it says.
    for (const { row, role } of plan.cells) if (role === 'siteOther') this.keep(row - 1, row)
    this.titles = hasTitles(plan) ? this.sum(1, plan.frozenRows) : 0
    const roles = new Map<number, Set<Role>>()
    for (const { row, role } of plan.cells) roles.set(row, (roles.get(row) ?? new Set()).add(role))
    const starts = [...roles.keys()].filter((row) => row > plan.frozenRows && roles.get(row)!.has('section')).sort((one, other) => one - other)
    const isHeading = (row: number): boolean => headings.some((role) => roles.get(row)?.has(role))
    // Column heads without a bar above them, as of the tables of a year.
    for (const row of roles.keys()) {
      if (row <= plan.frozenRows || !isHeading(row) || isHeading(row - 1)) continue
      let last = row
      while (isHeading(last + 1)) last++
      this.keep(row, last + WITH_HEADING)
      // Headings said once more within a section: what stands under them goes to the next page as a whole.
      const [bar, next] = [starts.filter((start) => start < row).at(-1), starts.find((start) => start > row)]
      const isAgain = bar !== undefined && [...roles.keys()].some((other) => other > bar && other < row && isHeading(other))
      if (WHOLE.includes(plan.kind) && isAgain && next !== undefined) this.keep(row, next - 1)
    }
    starts.forEach((row, at) => {
      const end = (starts[at + 1] ?? this.lastRow + 1) - 1
      let last = row
      while (last < end && isHeading(last + 1)) last++
      const isWhole = WHOLE.includes(plan.kind)
      const isSigned = SIGNED.includes(plan.kind) && at > 0 && at === starts.length - 1
      const short = Math.min(end, last + WITH_HEADING)
      const from = isSigned ? starts[at - 1]! : row
      this.stays.set(from, Math.max(isWhole ? end : short, this.stays.get(from) ?? 0))
      // A list of readings goes to the next page as a whole, however little stands on this one: none is read without the heads of its columns.
      if (isSigned || (SIGNED.includes(plan.kind) && at > 0)) this.short.delete(from)
      else this.short.set(row, short)
    })
  }

  /** Rows that begin a page that holds so many points, and how much stands on the last one. */
  broken(holds: number): { breaks: readonly number[]; onLast: number } {
    const breaks: number[] = []
    let used = 0
    for (let row = 1; row <= this.lastRow; row++) {
      const whole = this.sum(row, this.stays.get(row) ?? row)
      const broken = this.short.get(row)
      // A drawing and a signature cannot be broken.
      const mayLeave = whole <= holds - this.titles && (broken === undefined || used >= LEAST_FILLED * holds)
      const needed = mayLeave ? whole : this.sum(row, broken ?? row)
      const isOnTop = row <= this.plan.frozenRows + 1 || breaks.at(-1) === row
      if (used + needed > holds && !isOnTop) {
        breaks.push(row)
        used = this.titles
      }
      used += this.height(row)
    }
    return { breaks, onLast: used }
  }

  /** Keeps the rows through `last` on the page of a row. */
  private keep(row: number, last: number): void {
    this.stays.set(row, Math.max(last, this.stays.get(row) ?? 0))
  }
  private height = (row: number): number => this.heights.get(row) ?? EMPTY_ROW_POINTS
  private sum(from: number, to: number): number {
    let all = 0
    for (let row = from; row <= to; row++) all += this.height(row)
    return all
  }
}
