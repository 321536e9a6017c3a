/** A picture of a sheet as an SVG of its own, with the looks of paper: for hosts that show a picture and draw no shapes. */
import { palette } from '../looks.js'
import type { SheetDrawing } from '../plan.js'
import { LEADER, LEAST_PIPE_POINTS, MEASURE, paperLooks, type Drawn } from './paperLooks.js'
import { laidOut, type Shape } from './picture.js'
import { svgEscaped } from './svgPicture.js'

const f = (value: number): string => String(Math.round(value * 100) / 100)
const DASHES = { dash: '4 3', lgDashDot: '8 3 1 3', sysDot: '1 1' } as const
const HATCH = 'strokes'

function look({ fill, isHatched, line, thick = 0.5, dash }: Drawn): string {
  const area = isHatched ? `url(#${HATCH})` : fill ? `#${fill}` : 'none'
  return `fill="${area}"${line ? ` stroke="#${line}" stroke-width="${f(thick)}"` : ''}${dash ? ` stroke-dasharray="${DASHES[dash]}"` : ''}`
}

/** Measures in points; the sheet of paper under it keeps it readable on a dark screen. */
export function paperSvg({ picture, page }: SheetDrawing): { svg: string; width_pt: number; height_pt: number } {
  const layout = laidOut(picture, { ...page, withBar: !picture.isChart })
  const { width, height } = layout
  const points = (list: readonly (readonly [number, number])[]) => list.map(([x, y]) => `${f(x)},${f(y)}`).join(' ')
  const line = (list: readonly (readonly [number, number])[], drawn: Drawn) => `<polyline points="${points(list)}" ${look(drawn)}/>`

  function shape(one: Shape): string {
    const drawn = paperLooks[one.role]
    if (one.kind === 'circle') return `<circle cx="${f(layout.x(one.at[0]))}" cy="${f(layout.y(one.at[1]))}" r="${f(one.radius_ft * layout.scale)}" ${look(drawn)}/>`
    const placed = one.points.map(([x, y]) => [layout.x(x), layout.y(y)] as const)
    if (one.kind === 'area') return `<polygon points="${points(placed)}" ${look(drawn)}/>`
    const thick = one.outside_in === undefined ? drawn.thick : Math.max(LEAST_PIPE_POINTS, (one.outside_in / 12) * layout.scale)
    return line(placed, { ...drawn, fill: undefined, thick })
  }

  const words = layout.texts.map(
    ({ words: text, x, y, anchor, leader }) =>
      `${leader ? line(leader, LEADER) : ''}<text x="${f(x)}" y="${f(y + page.size * 0.35)}" text-anchor="${anchor}">${svgEscaped(text)}</text>`,
  )
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${f(width)} ${f(height)}" width="${f(width)}" height="${f(height)}" font-family="Calibri, Carlito, sans-serif" font-size="${page.size}">`,
    `<title>${svgEscaped(picture.title)}</title><desc>${svgEscaped(picture.description)}</desc>`,
    `<defs><pattern id="${HATCH}" width="4" height="4" patternUnits="userSpaceOnUse"><path d="M0 4L4 0" ${look({ line: palette.clay })}/></pattern></defs>`,
    `<rect width="${f(width)}" height="${f(height)}" fill="#${palette.paper}"/>`,
    ...picture.shapes.map(shape),
    ...layout.measures.map((list) => line(list, MEASURE)),
    `<g fill="#${palette.ink}">${words.join('')}</g>`,
    '</svg>',
  ].join('')
  return { svg, width_pt: width, height_pt: height }
}
