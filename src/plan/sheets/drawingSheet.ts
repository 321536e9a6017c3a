/** The Drawing: section and plan to a stated scale on one page, with a bar that stays true however the page is printed. */
import { laidOut, widthAt } from '../drawing/picture.js'
import { planPicture } from '../drawing/planPicture.js'
import { sectionPicture } from '../drawing/sectionPicture.js'
import { SheetDraft, type SheetPlan } from '../plan.js'
import { headed, sheetKind, type JobContext } from '../sheetKind.js'
import { measureOf } from '../words.js'

/** What letter and A4 both hold between margins of half an inch, and columns cover: one unit of their width is 5 points in one program and 5.25 in another. */
const [WIDTH, HEIGHT] = [6.75 * 72, 7.4 * 72]
const COLUMNS = [1, 14, 14, 14, 14, 14, 14, 14]
/** Of the words on a drawing, as printed. */
const DRAWING_TYPE_POINTS = 9
/** Inches of paper a foot, the largest that fits is taken. */
const scales: readonly (readonly [words: string, inches: number])[] = [
  ['1/4 in = 1 ft (1:48)', 1 / 4],
  ['3/16 in = 1 ft (1:64)', 3 / 16],
  ['1/8 in = 1 ft (1:96)', 1 / 8],
  ['3/32 in = 1 ft (1:128)', 3 / 32],
  ['1/16 in = 1 ft (1:192)', 1 / 16],
  ['3/64 in = 1 ft (1:256)', 3 / 64],
  ['1/32 in = 1 ft (1:384)', 1 / 32],
  ['1/64 in = 1 ft (1:768)', 1 / 64],
]

export const drawing = sheetKind({ kind: 'drawing', place: 55, prefix: 'Drawing', plan: drawingSheet })

function drawingSheet({ design, names, heading }: JobContext, sheet: string): SheetPlan {
  const measure = measureOf(design)
  const pictures = [sectionPicture(design, measure), planPicture(design, measure, true)]
  const pageOf = (inches: number) => ({ size: DRAWING_TYPE_POINTS, width: WIDTH, scale: inches * 72 })
  const fits = (inches: number) =>
    pictures.every((picture) => widthAt(picture, DRAWING_TYPE_POINTS, inches * 72) <= WIDTH) &&
    pictures.reduce((sum, picture) => sum + laidOut(picture, { ...pageOf(inches), withBar: true }).height, 0) <= HEIGHT
  const [words, inches] = scales.find(([, each]) => fits(each)) ?? scales.at(-1)!
  const draft = new SheetDraft()
  headed(draft, { heading, names }, sheet, `Drawing, ${words}: measure by the bar, not by the edge of the paper`)
  for (const picture of pictures) {
    draft.section(COLUMNS.length, picture.title.toUpperCase())
    draft.draw([2, picture, pageOf(inches)])
  }
  return draft.sheet(sheet, {
    kind: 'drawing',
    widths: COLUMNS,
    headingRow: 0,
    landscape: false,
    footer: design.name,
    toScale: { lastRow: draft.row, lastColumn: COLUMNS.length },
  })
}
