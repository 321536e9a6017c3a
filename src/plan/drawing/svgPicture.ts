/** A picture as SVG for the pane; classes carry the look, so that themes and paper can differ. */
import { drawnSvg, round, svgEscaped } from './drawnSvg.js'
import { laidOut, type Picture } from './picture.js'

const TEXT_SIZE = 11
/** Rows of words above and below: the drawing stays on the first screen, and the sheet Drawing has them all. */
const ROWS = 2
/** A pipe is drawn at its true size, and never so thin that it vanishes. */
const LEAST_PIPE = 2
const PIPES: readonly string[] = ['inlet', 'overflow', 'tie', 'waterline', 'conduit']
const CLASSES: Readonly<Record<string, string>> = { measure: 'dimension', words: 'label' }

/** `kind` is a class of the whole; `mostHeight` keeps a deep picture from filling the pane. */
export function svgPicture(picture: Picture, kind: string, width: number, mostHeight = Infinity): string {
  const layout = laidOut(picture, { size: TEXT_SIZE, width, mostHeight, mostRows: ROWS })
  const drawn = drawnSvg(picture, layout, TEXT_SIZE, (role, _isLine, pipe = 0) => {
    const isPipe = PIPES.includes(role)
    const thick = isPipe && role !== 'conduit' ? ` stroke-width="${round(Math.max(LEAST_PIPE, pipe))}"` : ''
    return `class="${isPipe ? 'pipe ' : ''}${CLASSES[role] ?? role}"${thick}`
  })
  return `<svg class="${kind}" viewBox="0 0 ${round(width)} ${round(layout.height)}" role="img" aria-label="${svgEscaped(picture.description)}" xmlns="http://www.w3.org/2000/svg">${PATTERNS}${drawn}</svg>`
}

const PATTERNS =
  '<defs><pattern id="stone-pattern" width="7" height="7" patternUnits="userSpaceOnUse"><circle class="pebble" cx="2" cy="2" r="1.1"/><circle class="pebble" cx="5.4" cy="5.2" r="1.1"/></pattern>' +
  '<pattern id="earth-pattern" width="14" height="9" patternUnits="userSpaceOnUse"><path class="dash" d="M1 2h4M8 6h4"/></pattern>' +
  // Seen where colours are the system's own.
  '<pattern id="water-pattern" width="6" height="5" patternUnits="userSpaceOnUse"><path class="wave" d="M0 3h3"/></pattern>' +
  '<pattern id="short-pattern" width="5" height="5" patternUnits="userSpaceOnUse"><path class="hatch" d="M0 5L5 0"/></pattern></defs>'
