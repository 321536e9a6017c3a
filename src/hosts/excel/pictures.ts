/**
 * What is drawn: the logo above the letterhead, section, plan and chart where sheets have room for them, and the sheet that is a drawing.
 * This interface draws no such shapes, so they come from a file that is inserted, copied from and taken away. Without them the takeoff is whole.
 */
import { OUR_PICTURE } from '../../plan/drawing/picture.js'
import { LOGO_POINTS, logoScale, rowHeights } from '../../plan/heights.js'
import { address, isMadeLine, type SheetPlan } from '../../plan/plan.js'
import { POINTS_PER_WIDTH } from './sheet.js'

const LOGO = `${OUR_PICTURE}logo`
/** A sheet that stands while pictures are copied from it, and one that an older drawing stands on until the new one is there. */
const PICTURES = 'cistern pictures'
const OLD_DRAWING = 'cistern drawing'
const ROWS_A_PICTURE = 60

/** Bytes as Excel takes them in a call. */
function inBase64(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000))
  return btoa(text)
}

/** Draws on sheets that are written; answers what a person should know. `logoSheet` has the firm's picture. */
export async function drawOn(context: Excel.RequestContext, all: readonly SheetPlan[], takesFiles: boolean, logoSheet: string | undefined): Promise<readonly string[]> {
  const pictured = takesFiles ? all.filter(({ drawings, toScale }) => drawings && !toScale) : []
  const scaled = takesFiles ? all.filter(({ toScale }) => toScale) : []
  const headed = all.filter(({ letterhead }) => letterhead)
  if (!pictured.length && !scaled.length && !headed.length) return []
  const { worksheets } = context.workbook
  const papers = [...new Set([...headed, ...pictured])].map((plan) => ({ plan, sheet: worksheets.getItem(plan.name) }))
  for (const { sheet } of papers) sheet.shapes.load('items/name')
  const olds = scaled.map((plan) => {
    const sheet = worksheets.getItemOrNullObject(plan.name)
    const heading = sheet.getRange('B3')
    sheet.load('name')
    heading.load('values')
    return { plan, sheet, heading }
  })
  const logoShapes = logoSheet === undefined ? undefined : worksheets.getItem(logoSheet).shapes
  logoShapes?.load('items/type,items/width,items/height')
  await context.sync()
  const strange = olds.filter(({ sheet, heading }) => !sheet.isNullObject && !isMadeLine(heading.values[0]?.[0]))
  const fresh = olds.filter((old) => !strange.includes(old))
  // What is drawn there now goes when the new is there, and not before.
  const before = papers.flatMap(({ sheet }) => sheet.shapes.items.filter(({ name }) => name.startsWith(OUR_PICTURE)))
  const stamp = Date.now().toString(36)
  const aside = fresh.flatMap(({ sheet, plan }, at) => (sheet.isNullObject ? [] : [{ name: plan.name, away: `${OLD_DRAWING} ${stamp} ${at + 1}` }]))
  for (const { name, away } of aside) worksheets.getItem(name).name = away
  try {
    if (fresh.length || pictured.length)
      await insertDrawn(
        context,
        stamp,
        pictured,
        fresh.map(({ plan }) => plan),
      )
  } catch (error) {
    const halfway = aside.map(({ name }) => worksheets.getItemOrNullObject(name))
    for (const sheet of halfway) sheet.load('name')
    await context.sync()
    for (const sheet of halfway) if (!sheet.isNullObject) sheet.delete()
    for (const { name, away } of aside) worksheets.getItem(away).name = name
    await context.sync()
    throw error
  }
  for (const { away } of aside) worksheets.getItem(away).delete()
  for (const shape of before) shape.delete()
  const logo = logoShapes?.items.find(({ type }) => type === 'Image')
  if (logo) for (const plan of headed) putLogo(logo, worksheets.getItem(plan.name), plan)
  await context.sync()
  return strange.map(({ plan }) => `The sheet ${plan.name} stands here and was not made by this tool: the drawing is left out.`)
}

/** Sheets that are drawings come from a file as they are; pictures for other sheets stand on one more of its sheets while they are copied. */
async function insertDrawn(context: Excel.RequestContext, stamp: string, pictured: readonly SheetPlan[], scaled: readonly SheetPlan[]): Promise<void> {
  const { writeWorkbook } = await import(/* webpackChunkName: "drawing" */ '../file.js')
  const { worksheets } = context.workbook
  const name = `${PICTURES} ${stamp}`
  const sheets = [...scaled, ...(pictured.length ? [allPictures(name, pictured)] : [])]
  context.workbook.insertWorksheetsFromBase64(inBase64(writeWorkbook({ sheets })), { sheetNamesToInsert: sheets.map((sheet) => sheet.name), positionType: 'End' })
  await context.sync()
  if (!pictured.length) return
  const from = worksheets.getItem(name)
  try {
    const { shapes } = from
    shapes.load('items/name')
    // Where a picture stands hangs on the rows and columns of this Excel.
    const cells = pictured.flatMap((plan) =>
      plan.drawings!.map((drawing) => {
        const cell = worksheets.getItem(plan.name).getRange(address(drawing.row, drawing.column, false))
        cell.load('left,top')
        return { plan, drawing, cell }
      }),
    )
    await context.sync()
    const drawn = [...shapes.items]
    for (const { plan, drawing, cell } of cells) {
      const shape = drawn.shift()
      if (!shape) break
      const copy = shape.copyTo(worksheets.getItem(plan.name))
      copy.name = OUR_PICTURE + drawing.picture.title
      copy.left = cell.left + (drawing.offset ?? 0)
      copy.top = cell.top + (drawing.ownRow_pt ?? 0)
    }
    await context.sync()
  } finally {
    from.delete()
    await context.sync()
  }
}

/** The firm's picture at the right end of the first row, above the letterhead. */
function putLogo(logo: Excel.Shape, sheet: Excel.Worksheet, plan: SheetPlan): void {
  if (!(logo.width > 0) || !(logo.height > 0)) return
  const scale = logoScale(logo)
  const copy = logo.copyTo(sheet)
  copy.name = LOGO
  copy.lockAspectRatio = false
  copy.width = logo.width * scale
  copy.height = logo.height * scale
  copy.top = 0
  copy.left = Math.max(0, plan.widths.reduce((sum, width) => sum + width * POINTS_PER_WIDTH, 0) - logo.width * scale)
  const head = sheet.getRange('1:1').format
  head.rowHeight = rowHeights(plan).get(1)! + LOGO_POINTS.height + LOGO_POINTS.air
  head.verticalAlignment = 'Bottom'
}

/** A sheet that holds the pictures of several, one below the other. */
function allPictures(name: string, plans: readonly SheetPlan[]): SheetPlan {
  const drawings = plans.flatMap((plan) => plan.drawings!).map(({ picture, page }, at) => ({ picture, page, row: 1 + at * ROWS_A_PICTURE, column: 1 }))
  return {
    name,
    kind: 'pictures',
    widths: [1],
    cells: [{ row: 1, column: 1, role: 'faint', value: null }],
    frozenRows: 0,
    landscape: false,
    footer: '',
    tables: [],
    validations: [],
    drawings,
  }
}
