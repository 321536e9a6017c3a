/** The firm's logo: the first picture on the sheet House of a workbook, shown above the letterhead of the papers. */
import { fittedToPage, LOGO_POINTS, logoScale, widthPoints } from '../../plan/heights.js'
import { looks } from '../../plan/looks.js'
import type { SheetPlan } from '../../plan/plan.js'
import type { Book } from './book.js'
import { OUR_PICTURE } from '../../plan/drawing/picture.js'
import { LOGO_ID, NAMESPACES, emu } from './drawingPart.js'

export interface Logo {
  bytes: Uint8Array
  ending: 'png' | 'jpeg'
  width_pt: number
  height_pt: number
}

/** The size of a picture in its own dots; undefined for what is neither PNG nor JPEG. */
function sizeOf(bytes: Uint8Array): { ending: Logo['ending']; width: number; height: number } | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  // PNG (ISO/IEC 15948): an eight-byte mark, then the chunk IHDR with width and height.
  if (bytes.length > 24 && view.getUint32(0) === 0x89504e47) return { ending: 'png', width: view.getUint32(16), height: view.getUint32(20) }
  if (bytes.length < 4 || view.getUint16(0) !== 0xffd8) return undefined
  // JPEG (ITU-T T.81): segments by length until a start of frame, which holds height and width.
  for (let at = 2; at + 9 < bytes.length; at += 2 + view.getUint16(at + 2)) {
    const marker = view.getUint16(at)
    if (marker >= 0xffc0 && marker <= 0xffcf && ![0xffc4, 0xffc8, 0xffcc].includes(marker)) return { ending: 'jpeg', height: view.getUint16(at + 5), width: view.getUint16(at + 7) }
    if (marker < 0xff00 || view.getUint16(at + 2) < 2) return undefined
  }
  return undefined
}

/** The first picture of a sheet that can be shown; undefined where there is none. */
export function logoOn(book: Book, sheet: string): Logo | undefined {
  const part = book.sheetNamed(sheet)?.part
  const drawing = part === undefined ? undefined : book.relations(part).find(({ type }) => type.endsWith('/drawing'))?.target
  if (drawing === undefined || !book.has(drawing)) return undefined
  for (const { type, target, isExternal } of book.relations(drawing)) {
    if (!type.endsWith('/image') || isExternal || !book.has(target)) continue
    const bytes = book.content(target)
    const size = sizeOf(bytes)
    if (!size || size.width < 1 || size.height < 1) continue
    const scale = logoScale(size)
    return { bytes, ending: size.ending, width_pt: size.width * scale, height_pt: size.height * scale }
  }
  return undefined
}

/** Room above the letterhead, whose words stand at the foot of their row; a sheet that is made to fit its page fits it still. */
export function withRoom(plan: SheetPlan): SheetPlan {
  const cells = plan.cells.map((cell) => (cell.row === 1 ? { ...cell, look: { ...(cell.look ?? looks[cell.role]), isLow: true } } : cell))
  const higher = { ...plan, cells, logo_pt: LOGO_POINTS.height + LOGO_POINTS.air }
  return plan.print?.percent === undefined ? higher : fittedToPage(higher)
}

/** The part of the workbook that holds the logo; its kind is declared once. */
export function putLogo(book: Book, { bytes, ending }: Logo): string {
  const part = `xl/media/cistern-sheet-logo.${ending}`
  book.put(part, bytes)
  if (!new RegExp(`<(?:\\w+:)?Default\\b[^>]*Extension\\s*=\\s*["']${ending}["']`, 'i').test(book.text('[Content_Types].xml')))
    book.insertBeforeEnd('[Content_Types].xml', 'Types', `<Default Extension="${ending}" ContentType="image/${ending}"/>`)
  return part
}

/** The logo at the right end of the first row, by the columns' widths. */
export function logoAnchor(plan: SheetPlan, { width_pt, height_pt }: Logo, relation: string): string {
  const { widths } = plan
  const from = Math.max(0, widthPoints(widths) - width_pt)
  // The last column that begins left of it.
  const column = widths.filter((_, at) => widthPoints(widths.slice(0, at)) <= from).length - 1
  const left = from - widthPoints(widths.slice(0, column))
  const size = `cx="${emu(width_pt)}" cy="${emu(height_pt)}"`
  return [
    `<xdr:oneCellAnchor ${NAMESPACES}><xdr:from><xdr:col>${column}</xdr:col><xdr:colOff>${emu(left)}</xdr:colOff><xdr:row>0</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:ext ${size}/>`,
    `<xdr:pic><xdr:nvPicPr><xdr:cNvPr id="${LOGO_ID}" name="${OUR_PICTURE}logo" descr="Logo"/><xdr:cNvPicPr><a:picLocks noChangeAspect="1"/></xdr:cNvPicPr></xdr:nvPicPr>`,
    `<xdr:blipFill><a:blip r:embed="${relation}"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill>`,
    `<xdr:spPr><a:xfrm><a:off x="0" y="0"/><a:ext ${size}/></a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr></xdr:pic><xdr:clientData/></xdr:oneCellAnchor>`,
  ].join('')
}
