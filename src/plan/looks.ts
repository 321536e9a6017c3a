/** How each role looks. One palette, no state told by colour alone. */
import { FIRM_POINTS, LONG_TITLE_POINTS, TITLE_LETTER_POINTS, type Align, type PlanCell, type Role } from './plan.js'

export const palette = { ink: '1F2A30', paper: 'FFFFFF', stoneLight: 'F4F2EE', stone: 'DAD5CC', stoneDark: '6B675F', clay: '8A4B2A', water: '2B6A86' } as const

export interface Look {
  bold?: boolean
  italic?: boolean
  size?: number
  color?: string
  fill?: string
  wrap?: boolean
  align?: Align
  /** Hairline or rule above and below. */
  above?: 'thin' | 'medium'
  below?: 'hair' | 'thin'
  left?: 'thick'
  indent?: number
  /** At the foot of its row, and not in the middle. */
  isLow?: boolean
  unlocked?: boolean
}

export const looks: Readonly<Record<Role, Look>> = {
  // A text that runs from the right would spill off the page's left edge.
  title: { bold: true, size: TITLE_LETTER_POINTS, color: palette.ink, align: 'left' },
  titleLong: { bold: true, size: LONG_TITLE_POINTS, color: palette.ink, align: 'left' },
  subtitle: { size: 11, color: palette.clay, align: 'left' },
  firm: { bold: true, size: FIRM_POINTS, color: palette.ink, align: 'right' },
  made: { size: 10, color: palette.stoneDark },
  section: { bold: true, size: 10, color: palette.ink, below: 'hair' },
  heading: { bold: true, size: 10, color: palette.stoneDark, below: 'thin', wrap: true },
  headingRight: { bold: true, size: 10, color: palette.stoneDark, below: 'thin', align: 'right', wrap: true },
  tableHeading: { bold: true, size: 10, color: palette.ink, below: 'thin' },
  help: { size: 10, color: palette.stoneDark, wrap: true },
  text: { color: palette.ink },
  wrapped: { color: palette.ink, wrap: true, indent: 1 },
  faint: { size: 10, color: palette.stoneDark },
  faintRight: { size: 10, color: palette.stoneDark, align: 'right' },
  faintWrapped: { size: 10, color: palette.stoneDark, wrap: true, indent: 1 },
  number: { color: palette.ink, align: 'right' },
  unit: { color: palette.stoneDark, align: 'left' },
  input: { color: palette.ink, fill: palette.stoneLight, align: 'right', unlocked: true },
  inputText: { color: palette.ink, fill: palette.stoneLight, align: 'left', unlocked: true },
  entry: { color: palette.ink, fill: palette.stoneLight, below: 'hair', wrap: true, unlocked: true },
  /** For people on site: larger, rows high enough for a gloved hand. */
  site: { size: 11, color: palette.ink, wrap: true, indent: 1 },
  siteOther: { size: 11, italic: true, color: palette.ink, wrap: true, indent: 1 },
  siteLabel: { size: 10.5, bold: true, color: palette.stoneDark },
  siteFact: { size: 11, color: palette.ink },
  siteBox: { size: 14, color: palette.ink, align: 'center' },
  siteCode: { size: 11, color: palette.stoneDark },
  siteFigure: { size: 11, bold: true, color: palette.ink, wrap: true, align: 'right' },
  siteHold: { size: 10.5, bold: true, color: palette.ink, wrap: true, indent: 1 },
  siteEntry: { size: 11, color: palette.ink, fill: palette.stoneLight, below: 'thin', wrap: true, unlocked: true },
  hazard: { size: 10.5, color: palette.ink, wrap: true, left: 'thick', indent: 1 },
  verdict: { bold: true, color: palette.ink, left: 'thick', align: 'left', indent: 1 },
  caution: { color: palette.ink, wrap: true, indent: 1 },
  subtotalLabel: { bold: true, color: palette.ink, above: 'thin' },
  subtotal: { bold: true, color: palette.ink, align: 'right', above: 'thin' },
  totalLabel: { bold: true, size: 12, color: palette.ink, above: 'medium' },
  total: { bold: true, size: 12, color: palette.ink, align: 'right', above: 'medium' },
}

/** The format of a cell. A spreadsheet takes a formula in a cell of text for the text of one. */
export const cellFormat = ({ format, formula }: PlanCell): string | undefined => (format === 'text' && formula !== undefined ? undefined : numberFormat(format))

/** The number format: thousands separated, decimals by meaning. */
export function numberFormat(format: PlanCell['format']): string | undefined {
  if (format === undefined) return undefined
  if (format === 'text') return '@'
  if (format === 'date') return 'yyyy-mm-dd'
  if (typeof format === 'object') return format.code
  return withDecimals[format] ?? decimalFormat(format)
}
/** The space at the end keeps the figure off the unit in the next column. */
const decimalFormat = (decimals: number): string => `${decimals === 0 ? '#,##0' : `#,##0.${'0'.repeat(decimals)}`}_ `
/** Every cell asks for one: those of a takeoff are made once. */
const withDecimals: readonly string[] = Array.from({ length: 10 }, (_, decimals) => decimalFormat(decimals))
