/** Pieces of a drawing as SVG, shared by the section and the plan; classes carry the look. */
export const f = (value: number): string => String(Math.round(value * 100) / 100)
const attributes = (all: Record<string, string | number>): string =>
  Object.entries(all)
    .map(([name, value]) => ` ${name}="${typeof value === 'number' ? f(value) : value}"`)
    .join('')
export const rect = (left: number, top: number, width: number, height: number, kind: string): string =>
  `<rect${attributes({ class: kind, x: left, y: top, width: Math.max(0, width), height: Math.max(0, height) })}/>`
export const line = (points: readonly (readonly [number, number])[], kind: string, width?: number): string =>
  `<polyline${attributes({ class: kind, points: points.map(([x, y]) => `${f(x)},${f(y)}`).join(' '), ...(width === undefined ? {} : { 'stroke-width': width }) })}/>`
/** Names come from cells: none may end the attribute or the element that it stands in. */
export const escaped = (words: string): string => words.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;')
export const text = (x: number, y: number, words: string, kind = 'label', anchor = 'start'): string =>
  `<text${attributes({ class: kind, x, y, 'text-anchor': anchor })}>${escaped(words)}</text>`
