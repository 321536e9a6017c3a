/** A picture of a sheet as an SVG of its own, with the looks of paper: for hosts that show a picture and draw no shapes. */
import { palette } from '../looks.js'
import type { SheetDrawing } from '../plan.js'
import { drawnSvg, round, svgEscaped } from './drawnSvg.js'
import { LEADER, LEAST_PIPE_POINTS, MEASURE, paperLooks, type Drawn } from './paperLooks.js'
import { laidOut } from './picture.js'

const DASHES = { dash: '4 3', lgDashDot: '8 3 1 3', sysDot: '1 1' } as const
const HATCH = 'strokes'

function attributes({ fill, isHatched, line, thick = 0.5, dash }: Drawn): string {
  const area = isHatched ? `url(#${HATCH})` : fill ? `#${fill}` : 'none'
  return `fill="${area}"${line ? ` stroke="#${line}" stroke-width="${round(thick)}"` : ''}${dash ? ` stroke-dasharray="${DASHES[dash]}"` : ''}`
}
const others: Readonly<Record<string, Drawn>> = { measure: MEASURE, leader: LEADER, words: { fill: palette.ink } }

/** Measures in points; the sheet of paper under it keeps it readable on a dark screen. */
export function paperSvg({ picture, page }: SheetDrawing): { svg: string; width_pt: number; height_pt: number } {
  const layout = laidOut(picture, { ...page, withBar: !picture.isChart })
  const { width, height } = layout
  const looks: Readonly<Record<string, Drawn>> = { ...paperLooks, ...others }
  const drawn = drawnSvg(picture, layout, page.size, (role, isLine, pipe) =>
    attributes({ ...looks[role]!, ...(isLine && { fill: undefined }), ...(pipe !== undefined && { thick: Math.max(LEAST_PIPE_POINTS, pipe) }) }),
  )
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${round(width)} ${round(height)}" width="${round(width)}" height="${round(height)}" font-family="Calibri, Carlito, sans-serif" font-size="${page.size}">`,
    `<title>${svgEscaped(picture.title)}</title><desc>${svgEscaped(picture.description)}</desc>`,
    `<defs><pattern id="${HATCH}" width="4" height="4" patternUnits="userSpaceOnUse"><path d="M0 4L4 0" ${attributes({ line: palette.clay })}/></pattern></defs>`,
    `<rect width="${round(width)}" height="${round(height)}" fill="#${palette.paper}"/>`,
    drawn,
    '</svg>',
  ].join('')
  return { svg, width_pt: width, height_pt: height }
}
