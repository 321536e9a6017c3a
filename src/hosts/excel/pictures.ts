/**
 * What is drawn: the logo above the letterhead, section, plan and chart where sheets have room for them, and the sheet that is a drawing.
 * This interface draws no such shapes, so they come from a file that is inserted, copied from and taken away. Without them the takeoff is whole.
 */
import { OUR_PICTURE } from '../../plan/drawing/picture.js'
import { LOGO_POINTS, logoScale, rowHeights } from '../../plan/heights.js'
import { address, isMadeLine, type SheetDrawing, type SheetPlan } from '../../plan/plan.js'
import { POINTS_PER_WIDTH } from './sheet.js'

const LOGO = `${OUR_PICTURE}logo`
/** A sheet that stands while pictures are copied from it, and one that an older drawing stands on until the new one is there. */
const PICTURES = 'cistern pictures'
const OLD_DRAWING = 'cistern drawing'
const ROWS_A_PICTURE = 60
/** Shapes that come in one file: each takes up to 390 bytes of a request, measured on jobs of 1 to 12 tanks, and a request holds 5 MB. */
const SHAPES_TOGETHER = 11_500

/** Bytes as Excel takes them in a call. */
function inBase64(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000))
  return btoa(text)
}

/** What is drawn on a sheet, or the sheet that is a drawing itself. */
export interface Drawn {
  name: string
  drawings: readonly SheetDrawing[]
  scaled: SheetPlan | undefined
  /** A sheet with a letterhead has the firm's picture above it: how wide the sheet is, and its first row high. */
  letterhead: { width: number; height: number } | undefined
}
export function drawnOf(plan: SheetPlan): Drawn | undefined {
  const { name, drawings = [], toScale, letterhead } = plan
  if (!drawings.length && !toScale && !letterhead) return undefined
  return {
    name,
    drawings: toScale ? [] : drawings,
    scaled: toScale ? plan : undefined,
    letterhead: letterhead && { width: plan.widths.reduce((sum, width) => sum + width * POINTS_PER_WIDTH, 0), height: rowHeights(plan).get(1)! },
  }
}

/** Draws on sheets that are written; answers what a person should know. `logoSheet` has the firm's picture. */
export async function drawOn(context: Excel.RequestContext, all: readonly Drawn[], takesFiles: boolean, logoSheet: string | undefined): Promise<readonly string[]> {
  const said: string[] = []
  let together: Drawn[] = []
  let shapes = 0
  for (const one of all) {
    const more = [...one.drawings, ...(one.scaled?.drawings ?? [])].reduce((sum, { picture }) => sum + picture.shapes.length, 0)
    if (shapes && shapes + more > SHAPES_TOGETHER) {
      said.push(...(await drawSome(context, together, takesFiles, logoSheet)))
      together = []
      shapes = 0
    }
    together.push(one)
    shapes += more
  }
  return [...said, ...(await drawSome(context, together, takesFiles, logoSheet))]
}

/** Sheets that are drawings come from a file as they are; pictures for other sheets stand on one more of its sheets while they are copied. */
async function drawSome(context: Excel.RequestContext, all: readonly Drawn[], takesFiles: boolean, logoSheet: string | undefined): Promise<readonly string[]> {
  const pictured = takesFiles ? all.filter(({ drawings }) => drawings.length) : []
  const scaled = takesFiles ? all.flatMap((one) => one.scaled ?? []) : []
  const headed = all.filter(({ letterhead }) => letterhead && logoSheet !== undefined)
  if (!pictured.length && !scaled.length && !headed.length) return []
  const { worksheets } = context.workbook
  const papers = [...new Set([...headed, ...pictured])].map(({ name }) => worksheets.getItem(name))
  for (const sheet of papers) sheet.shapes.load('items/name')
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
  const before = papers.flatMap(({ shapes }) => shapes.items.filter(({ name }) => name.startsWith(OUR_PICTURE)))
  const stamp = Date.now().toString(36)
  const pictures = `${PICTURES} ${stamp}`
  const aside = fresh.flatMap(({ sheet, plan }, at) => (sheet.isNullObject ? [] : [{ name: plan.name, away: `${OLD_DRAWING} ${stamp} ${at + 1}` }]))
  try {
    for (const { name, away } of aside) worksheets.getItem(name).name = away
    const sheets = [...fresh.map(({ plan }) => plan), ...(pictured.length ? [allPictures(pictures, pictured)] : [])]
    const copied = sheets.length ? await insertSheets(context, sheets, pictured.length ? pictures : undefined, pictured) : undefined
    copied?.()
    for (const { away } of aside) worksheets.getItem(away).delete()
    for (const shape of before) shape.delete()
    const logo = logoShapes?.items.find(({ type }) => type === 'Image')
    if (logo) for (const { name, letterhead } of headed) putLogo(logo, worksheets.getItem(name), letterhead!)
    await context.sync()
  } catch (error) {
    await putBack(context, aside, pictures)
    throw error
  }
  return strange.map(({ plan }) => `The sheet ${plan.name} stands here and was not made by this tool: the drawing is left out.`)
}

/** Brings sheets of a file into the workbook; answers what copies the pictures among them to their places and takes their sheet away. */
async function insertSheets(context: Excel.RequestContext, sheets: readonly SheetPlan[], from: string | undefined, pictured: readonly Drawn[]): Promise<() => void> {
  const { writeWorkbook } = await import(/* webpackChunkName: "drawing" */ '../file.js')
  const { worksheets } = context.workbook
  context.workbook.insertWorksheetsFromBase64(inBase64(writeWorkbook({ sheets: [...sheets] })), { sheetNamesToInsert: sheets.map((sheet) => sheet.name), positionType: 'End' })
  const shapes = from === undefined ? undefined : worksheets.getItem(from).shapes
  shapes?.load('items/name')
  // Where a picture stands hangs on the rows and columns of this Excel.
  const cells = pictured.flatMap(({ name, drawings }) =>
    drawings.map((drawing) => {
      const cell = worksheets.getItem(name).getRange(address(drawing.row, drawing.column, false))
      cell.load('left,top')
      return { name, drawing, cell }
    }),
  )
  await context.sync()
  return () => {
    if (!shapes) return
    const drawn = [...shapes.items]
    for (const { name, drawing, cell } of cells) {
      const shape = drawn.shift()
      if (!shape) break
      const copy = shape.copyTo(worksheets.getItem(name))
      copy.name = OUR_PICTURE + drawing.picture.title
      copy.left = cell.left + (drawing.offset ?? 0)
      copy.top = cell.top + (drawing.ownRow_pt ?? 0)
    }
    worksheets.getItem(from!).delete()
  }
}

/** After a failure: older drawings get their names again where they still stand, and nothing of the file stays. */
async function putBack(context: Excel.RequestContext, aside: readonly { name: string; away: string }[], pictures: string): Promise<void> {
  const { worksheets } = context.workbook
  const found = aside.map(({ name, away }) => ({ name, old: worksheets.getItemOrNullObject(away), next: worksheets.getItemOrNullObject(name) }))
  const from = worksheets.getItemOrNullObject(pictures)
  for (const sheet of [from, ...found.flatMap(({ old, next }) => [old, next])]) sheet.load('name')
  await context.sync()
  if (!from.isNullObject) from.delete()
  for (const { name, old, next } of found) {
    if (old.isNullObject) continue
    if (!next.isNullObject) next.delete()
    old.name = name
  }
  await context.sync()
}

/** The firm's picture at the right end of the first row, above the letterhead. */
function putLogo(logo: Excel.Shape, sheet: Excel.Worksheet, { width, height }: { width: number; height: number }): void {
  if (!(logo.width > 0) || !(logo.height > 0)) return
  const scale = logoScale(logo)
  const copy = logo.copyTo(sheet)
  copy.name = LOGO
  copy.lockAspectRatio = false
  copy.width = logo.width * scale
  copy.height = logo.height * scale
  copy.top = 0
  copy.left = Math.max(0, width - logo.width * scale)
  const head = sheet.getRange('1:1').format
  head.rowHeight = height + LOGO_POINTS.height + LOGO_POINTS.air
  head.verticalAlignment = 'Bottom'
}

/** A sheet that holds the pictures of several, one below the other. */
function allPictures(name: string, pictured: readonly Drawn[]): SheetPlan {
  const drawings = pictured.flatMap(({ drawings: some }) => some).map(({ picture, page }, at) => ({ picture, page, row: 1 + at * ROWS_A_PICTURE, column: 1 }))
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
