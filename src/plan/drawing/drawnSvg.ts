/** The shapes of a laid-out picture as the inside of an SVG; how each looks is said by who asks. */
import type { Layout, Picture, Shape, ShapeRole } from './picture.js'

export const round = (value: number): string => String(Math.round(value * 100) / 100)
/** Names come from cells: none may end the attribute or the element that it stands in. */
export const svgEscaped = (words: string): string => words.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;')

/** What a line can be beside a shape: a measure down the edge, or the thin line from words to what they name. */
export type LineRole = 'measure' | 'leader'

/** Gives the attributes of a role; a line has no area, and a pipe comes with its width on the page. */
export type SvgLook = (role: ShapeRole | LineRole | 'words', isLine: boolean, pipe?: number) => string

export function drawnSvg(picture: Picture, layout: Layout, size: number, look: SvgLook): string {
  type Points = readonly (readonly [number, number])[]
  const points = (list: Points) => list.map(([x, y]) => `${round(x)},${round(y)}`).join(' ')
  const placed = (list: Points) => points(list.map(([x, y]) => [layout.x(x), layout.y(y)] as const))
  const line = (list: Points, role: LineRole) => `<polyline points="${points(list)}" ${look(role, true)}/>`

  function shape(one: Shape): string {
    if (one.kind === 'circle')
      return `<circle cx="${round(layout.x(one.at[0]))}" cy="${round(layout.y(one.at[1]))}" r="${round(one.radius_ft * layout.scale)}" ${look(one.role, false)}/>`
    if (one.kind === 'area') return `<polygon points="${placed(one.points)}" ${look(one.role, false)}/>`
    const pipe = one.outside_in === undefined ? undefined : (one.outside_in / 12) * layout.scale
    return `<polyline points="${placed(one.points)}" ${look(one.role, true, pipe)}/>`
  }

  return [
    ...picture.shapes.map(shape),
    ...layout.measures.map((list) => line(list, 'measure')),
    ...layout.texts.map(
      ({ words, x, y, width, anchor, leader }) =>
        `${leader ? line(leader, 'leader') : ''}<text x="${round(x)}" y="${round(y + size * 0.35)}" text-anchor="${anchor}" data-room="${round(width)}" ${look('words', false)}>${svgEscaped(words)}</text>`,
    ),
  ].join('')
}
