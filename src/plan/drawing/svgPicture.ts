/** A picture as SVG; classes carry the look, so that themes and paper can differ. */
import { laidOut, type Picture, type Shape } from './picture.js'

const TEXT_SIZE = 11
/** A pipe is drawn at its true size, and never so thin that it vanishes. */
const LEAST_PIPE = 2

const f = (value: number): string => String(Math.round(value * 100) / 100)
/** Names come from cells: none may end the attribute or the element that it stands in. */
export const svgEscaped = (words: string): string => words.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;')
const PIPES: readonly string[] = ['inlet', 'overflow', 'tie', 'waterline', 'conduit']

/** `kind` is a class of the whole; `mostHeight` keeps a deep picture from filling the pane. */
export function svgPicture(picture: Picture, kind: string, width: number, mostHeight = Infinity): string {
  const layout = laidOut(picture, { size: TEXT_SIZE, width, mostHeight })
  const points = (list: readonly (readonly [number, number])[]) => list.map(([x, y]) => `${f(x)},${f(y)}`).join(' ')
  const placed = (list: readonly (readonly [number, number])[]) => points(list.map(([x, y]) => [layout.x(x), layout.y(y)] as const))
  const shape = (one: Shape): string => {
    if (one.kind === 'area') return `<polygon class="${one.role}" points="${placed(one.points)}"/>`
    if (one.kind === 'circle') return `<circle class="${one.role}" cx="${f(layout.x(one.at[0]))}" cy="${f(layout.y(one.at[1]))}" r="${f(one.radius_ft * layout.scale)}"/>`
    const isPipe = PIPES.includes(one.role)
    const thick = isPipe && one.role !== 'conduit' ? ` stroke-width="${f(Math.max(LEAST_PIPE, ((one.outside_in ?? 0) / 12) * layout.scale))}"` : ''
    return `<polyline class="${isPipe ? 'pipe ' : ''}${one.role}" points="${placed(one.points)}"${thick}/>`
  }
  const line = (list: readonly (readonly [number, number])[], role: string) => `<polyline class="${role}" points="${points(list)}"/>`
  const texts = layout.texts.map(
    ({ words, x, y, anchor, leader }) =>
      `${leader ? line(leader, 'leader') : ''}<text class="label" x="${f(x)}" y="${f(y + TEXT_SIZE * 0.35)}" text-anchor="${anchor}">${svgEscaped(words)}</text>`,
  )
  return [
    `<svg class="${kind}" viewBox="0 0 ${f(width)} ${f(layout.height)}" role="img" aria-label="${svgEscaped(picture.description)}" xmlns="http://www.w3.org/2000/svg">`,
    PATTERNS,
    ...picture.shapes.map(shape),
    ...layout.measures.map((list) => line(list, 'dimension')),
    ...texts,
    '</svg>',
  ].join('')
}

const PATTERNS =
  '<defs><pattern id="stone-pattern" width="7" height="7" patternUnits="userSpaceOnUse"><circle class="pebble" cx="2" cy="2" r="1.1"/><circle class="pebble" cx="5.4" cy="5.2" r="1.1"/></pattern>' +
  '<pattern id="earth-pattern" width="14" height="9" patternUnits="userSpaceOnUse"><path class="dash" d="M1 2h4M8 6h4"/></pattern>' +
  '<pattern id="short-pattern" width="5" height="5" patternUnits="userSpaceOnUse"><path class="hatch" d="M0 5L5 0"/></pattern></defs>'
