/** Pictures as vector shapes of a sheet (DrawingML, ISO/IEC 29500): one group a picture, anchored at its top left cell, so that rows put in above move it and none inside stretch it. */
import { laidOut, OUR_PICTURE, type Shape } from '../../plan/drawing/picture.js'
import { LEADER, LEAST_PIPE_POINTS, MEASURE, paperLooks, type Drawn } from '../../plan/drawing/paperLooks.js'
import { palette } from '../../plan/looks.js'
import type { SheetDrawing } from '../../plan/plan.js'
import { HEAD } from './book.js'
import { escapeXml, inside, tags, type Edit } from './xml.js'

const EMU_PER_POINT = 12_700
export const NAMESPACES =
  'xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
export const DRAWING_TYPE = 'application/vnd.openxmlformats-officedocument.drawing+xml'

/** Shapes of people have lower numbers. */
export const LOGO_ID = 10_000
const FIRST_ID = LOGO_ID + 1

/** The part of a sheet that holds pictures of ours alone. */
export const drawingXml = (drawings: readonly SheetDrawing[], more = ''): string => `${HEAD}<xdr:wsDr ${NAMESPACES}>${anchors(drawings)}${more}</xdr:wsDr>`

/** Places of our pictures in the drawing of a sheet, and whether anything else is drawn there. */
export function picturesIn(xml: string): { ours: Edit[]; hasOthers: boolean } {
  const ours: Edit[] = []
  let hasOthers = false
  for (const tag of tags(xml)) {
    if (tag.isEnd || !/^(?:oneCell|twoCell|absolute)Anchor$/.test(tag.name)) continue
    const { end } = inside(xml, tag)
    if (new RegExp(`\\sname\\s*=\\s*["']${OUR_PICTURE}`).test(xml.slice(tag.start, end))) ours.push({ from: tag.start, to: end, text: '' })
    else hasOthers = true
  }
  return { ours, hasOthers }
}

/** Pictures as anchored groups, to stand in the drawing of a sheet. */
export function anchors(drawings: readonly SheetDrawing[]): string {
  let nextId = FIRST_ID
  return drawings.map(anchored).join('')

  function anchored(drawing: SheetDrawing): string {
    const { picture, row, column, offset = 0, ownRow_pt = 0 } = drawing
    const layout = laidOut(picture, { ...drawing.page, withBar: !picture.isChart })
    const [wide, high] = [emu(layout.width), emu(layout.height)]
    const frame = `<a:off x="0" y="0"/><a:ext cx="${wide}" cy="${high}"/>`
    const parts = [
      // Without a sheet of paper under them some readers shrink the group to its shapes.
      shape('Paper', picture.description, box(0, 0, layout.width, layout.height), 'rect', '<a:noFill/><a:ln><a:noFill/></a:ln>'),
      ...picture.shapes.map(placedShape),
      ...layout.measures.map((points) => polyline('measure', points, MEASURE, false)),
      ...layout.texts.flatMap(({ words, x, y, width, anchor, leader }) => [
        ...(leader ? [polyline('leader', leader, LEADER, false)] : []),
        label(words, anchor === 'middle' ? x - width / 2 : x - width, y, width, anchor, drawing.page.size),
      ]),
    ]
    return [
      `<xdr:oneCellAnchor ${NAMESPACES}><xdr:from><xdr:col>${column - 1}</xdr:col><xdr:colOff>${emu(offset)}</xdr:colOff><xdr:row>${row - 1}</xdr:row><xdr:rowOff>${emu(ownRow_pt)}</xdr:rowOff></xdr:from><xdr:ext cx="${wide}" cy="${high}"/>`,
      `<xdr:grpSp><xdr:nvGrpSpPr><xdr:cNvPr id="${nextId++}" name="${escapeXml(OUR_PICTURE + picture.title)}" descr="${escapeXml(picture.description)}"/><xdr:cNvGrpSpPr><a:grpSpLocks noChangeAspect="1"/></xdr:cNvGrpSpPr></xdr:nvGrpSpPr>`,
      `<xdr:grpSpPr><a:xfrm>${frame}<a:chOff x="0" y="0"/><a:chExt cx="${wide}" cy="${high}"/></a:xfrm></xdr:grpSpPr>`,
      ...parts,
      '</xdr:grpSp><xdr:clientData/></xdr:oneCellAnchor>',
    ].join('')

    function placedShape(one: Shape): string {
      const look = paperLooks[one.role]
      if (one.kind === 'circle') {
        const [x, y, r] = [layout.x(one.at[0]), layout.y(one.at[1]), one.radius_ft * layout.scale]
        return shape(one.role, '', box(x - r, y - r, 2 * r, 2 * r), 'ellipse', filled(look) + lined(look))
      }
      const points = one.points.map(([x, y]) => [layout.x(x), layout.y(y)] as const)
      if (one.kind === 'area') return polyline(one.role, points, look, true) + (one.role === 'stone' ? pebbles(points) : '')
      const thick = one.outside_in === undefined ? look.thick : Math.max(LEAST_PIPE_POINTS, (one.outside_in / 12) * layout.scale)
      // A line alone is not filled, whatever an area of its kind is.
      return polyline(one.role, points, { ...look, fill: undefined, thick }, false)
    }
  }

  function shape(name: string, description: string, transform: string, geometry: 'rect' | 'ellipse' | { path: string }, looks: string, text = ''): string {
    const form = typeof geometry === 'string' ? `<a:prstGeom prst="${geometry}"><a:avLst/></a:prstGeom>` : geometry.path
    return `<xdr:sp macro="" textlink=""><xdr:nvSpPr><xdr:cNvPr id="${nextId++}" name="${escapeXml(name)}"${description ? ` descr="${escapeXml(description)}"` : ''}/><xdr:cNvSpPr/></xdr:nvSpPr><xdr:spPr>${transform}${form}${looks}</xdr:spPr>${text}</xdr:sp>`
  }

  /** A line of several points, or an area: one shape with a path in its own box. */
  function polyline(name: string, points: readonly (readonly [number, number])[], look: Drawn, isClosed: boolean): string {
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
    const [left, top] = [Math.min(...xs), Math.min(...ys)]
    const [wide, high] = [Math.max(...xs) - left, Math.max(...ys) - top]
    return shape(name, '', box(left, top, wide, high), custom(wide, high, steps(points, left, top) + (isClosed ? '<a:close/>' : ''), isClosed), filled(look) + lined(look))
  }

  /** Stone as small broken pieces of five sides inside an area, all in one shape, at places that are the same every time. */
  function pebbles(points: readonly (readonly [number, number])[]): string {
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
    const [left, top, right, bottom] = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)]
    const radius = PEBBLE_POINTS
    // Over a large area they lie farther apart, so that it is covered to its other side.
    const pitch = Math.max(radius * 2.7, Math.sqrt(((right - left) * (bottom - top)) / MOST_PEBBLES))
    let state = 20
    const jitter = () => ((state = (state * 48271) % 2147483647) / 2147483647 - 0.5) * radius
    const paths: string[] = []
    for (let row = 0, y = top + radius * 1.2; y < bottom - radius; y += pitch, row++)
      for (let x = left + (row % 2 ? pitch / 2 : 0); x < right && paths.length < MOST_PEBBLES; x += pitch) {
        const [cx, cy] = [x + jitter(), y + jitter()]
        if (![0, 1, 2, 3].every((at) => isInside(points, cx + radius * Math.cos((at * Math.PI) / 2), cy + radius * Math.sin((at * Math.PI) / 2)))) continue
        const turn = jitter()
        const corners = Array.from({ length: 5 }, (_, at) => {
          const angle = turn + (at * 2 * Math.PI) / 5
          return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)] as const
        })
        paths.push(`${steps(corners, left, top)}<a:close/>`)
      }
    if (!paths.length) return ''
    const look: Drawn = { line: palette.stoneDark, thick: 0.3 }
    return shape('stone', '', box(left, top, right - left, bottom - top), custom(right - left, bottom - top, paths.join(''), false), filled(look) + lined(look))
  }

  function label(words: string, left: number, middle: number, width: number, anchor: 'middle' | 'end', size: number): string {
    const high = size * 1.3
    const text = `<xdr:txBody><a:bodyPr wrap="none" lIns="0" tIns="0" rIns="0" bIns="0" anchor="ctr" vertOverflow="overflow" horzOverflow="overflow"><a:noAutofit/></a:bodyPr><a:p><a:pPr algn="${anchor === 'middle' ? 'ctr' : 'r'}"/><a:r><a:rPr lang="en-US" sz="${Math.round(size * 100)}"><a:solidFill><a:srgbClr val="${palette.ink}"/></a:solidFill><a:latin typeface="Calibri"/></a:rPr><a:t>${escapeXml(words)}</a:t></a:r></a:p></xdr:txBody>`
    return shape('label', '', box(left, middle - high / 2, width, high), 'rect', '<a:noFill/><a:ln><a:noFill/></a:ln>', text)
  }
}

const PEBBLE_POINTS = 1.1
/** More would only make the file heavy. */
const MOST_PEBBLES = 400
export const emu = (points: number): number => Math.round(points * EMU_PER_POINT)
const box = (left: number, top: number, width: number, height: number): string =>
  `<a:xfrm><a:off x="${emu(left)}" y="${emu(top)}"/><a:ext cx="${emu(width)}" cy="${emu(height)}"/></a:xfrm>`
/** A path has units of its own, so many to a point: half the digits, and finer than any printer. */
const inPath = (points: number): number => Math.round(points * 50)
const steps = (points: readonly (readonly [number, number])[], left: number, top: number): string =>
  points.map(([x, y], at) => `<a:${at ? 'lnTo' : 'moveTo'}><a:pt x="${inPath(x - left)}" y="${inPath(y - top)}"/></a:${at ? 'lnTo' : 'moveTo'}>`).join('')
const custom = (wide: number, high: number, path: string, isFilled: boolean) => ({
  path: `<a:custGeom><a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/><a:rect l="0" t="0" r="r" b="b"/><a:pathLst><a:path w="${inPath(wide)}" h="${inPath(high)}"${isFilled ? '' : ' fill="none"'}>${path}</a:path></a:pathLst></a:custGeom>`,
})
const filled = ({ fill, isHatched }: Drawn): string =>
  isHatched
    ? `<a:pattFill prst="wdUpDiag"><a:fgClr><a:srgbClr val="${fill}"/></a:fgClr><a:bgClr><a:srgbClr val="${palette.paper}"/></a:bgClr></a:pattFill>`
    : fill
      ? `<a:solidFill><a:srgbClr val="${fill}"/></a:solidFill>`
      : '<a:noFill/>'
const lined = ({ line, thick = 0.5, dash }: Drawn): string =>
  line
    ? `<a:ln w="${emu(thick)}" cap="flat"><a:solidFill><a:srgbClr val="${line}"/></a:solidFill>${dash ? `<a:prstDash val="${dash}"/>` : ''}<a:miter lim="800000"/></a:ln>`
    : '<a:ln><a:noFill/></a:ln>'

function isInside(points: readonly (readonly [number, number])[], x: number, y: number): boolean {
  let inside = false
  for (let at = 0, before = points.length - 1; at < points.length; before = at++) {
    const [[ax, ay], [bx, by]] = [points[at]!, points[before]!]
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside
  }
  return inside
}
