/** A workbook as plain data: what every host writes, and nothing of any host. Rows and columns count from 1. */
import { closingWords } from '../takeoff/cautions.js'
import type { DefinedName } from './definedNames.js'
import { laidOut, type Page, type Picture } from './drawing/picture.js'
import type { Look } from './looks.js'

export type Align = 'left' | 'right' | 'center'

/** What a cell is; how that looks is said once, in looks.ts. */
export type Role =
  | 'title'
  | 'titleLong'
  | 'subtitle'
  | 'firm'
  | 'made'
  | 'section'
  | 'heading'
  | 'headingRight'
  | 'text'
  | 'wrapped'
  | 'faint'
  | 'faintRight'
  | 'faintWrapped'
  | 'number'
  | 'unit'
  | 'input'
  | 'inputText'
  | 'entry'
  | 'verdict'
  | 'caution'
  | 'subtotal'
  | 'subtotalLabel'
  | 'total'
  | 'totalLabel'
  | 'help'
  | 'site'
  | 'siteLabel'
  | 'siteOther'
  | 'siteFact'
  | 'siteBox'
  | 'siteCode'
  | 'siteFigure'
  | 'siteHold'
  | 'siteEntry'
  | 'hazard'
  | 'tableHeading'

export interface PlanCell {
  row: number
  column: number
  role: Role
  /** The plain value, or the result that a formula has now. */
  value: string | number | boolean | null
  /** Without the equals sign. */
  formula?: string
  /** Decimals of a number; 'text' keeps entries such as 1/2 from becoming dates; 'date' is a day; a code is a format of somebody else's. */
  format?: number | 'text' | 'date' | { code: string }
  /** How many cells its formula fills, itself among them, where those are more than one (a workbook saved from the grid). */
  spill?: { rows: number; columns: number }
  /** A look of its own, for cells that no layout of ours made (a workbook saved from the grid). */
  look?: Look
}

export interface PlanTable {
  name: string
  /** Row of the headings. */
  row: number
  column: number
  headings: readonly string[]
  rows: number
}

export interface PlanValidation {
  firstRow: number
  lastRow: number
  column: number
  /** A list written out, or the range that holds it. */
  list?: readonly string[]
  range?: string
  span?: readonly [least: number, most: number]
  /** Another value may stand there too. */
  isAdvice?: true
  message: string
}

/** A picture at a cell, its page in points. */
export interface SheetDrawing {
  picture: Picture
  row: number
  column: number
  /** Points from the column's left edge. */
  offset?: number
  page: Page
  /** Its row is as high as it is, so that no page ends within it; with so many points of air above and below. */
  ownRow_pt?: number
}

export interface SheetPlan {
  name: string
  /** 'office', 'tables', 'own' of a sheet that somebody made, or a kind of sheet of a job. */
  kind: string
  widths: readonly number[]
  cells: readonly PlanCell[]
  frozenRows: number
  /** Columns that stand still where a sheet is wider than a screen, the key of its rows among them. */
  frozenColumns?: number
  landscape: boolean
  footer: string
  tables: readonly PlanTable[]
  validations: readonly PlanValidation[]
  hidden?: boolean
  /** Cells that have a name in the whole workbook. */
  definedNames?: readonly DefinedName[]
  drawings?: readonly SheetDrawing[]
  /** The firm's name stands in its first row: a host that knows the firm's logo shows it above. */
  letterhead?: true
  /** Points that the logo takes above the first row. */
  logo_pt?: number
  /** Columns that are folded together, so that those that matter stay in sight. */
  folded?: { first: number; last: number }
  /** Widths count digits of the workbook that it comes from. */
  isOfBook?: true
  /** A row that begins a page, where the sheet takes more than one. */
  breakBefore?: number | undefined
  /** A column that is for the next making and not for people. */
  hiddenColumn?: number
  /** Columns and rows that somebody hid on a sheet of their own. */
  hiddenColumns?: readonly number[]
  hiddenRows?: readonly number[]
  /** Letter, where nothing is said. */
  paper?: 'letter' | 'A4'
  /** Printed at this share of its size, over as many pages as it takes, else made as narrow as a page; columns behind the last one stand on the screen alone. */
  print?: { percent?: number; lastColumn?: number }
  /** A sheet that is a drawing to scale: printed as large as it is, no smaller, and a host that draws nothing leaves it out. */
  toScale?: { lastRow: number; lastColumn: number }
}

export interface WorkbookPlan {
  sheets: readonly SheetPlan[]
}

/** When and by what a sheet was made; hosts bring the clock. */
export interface Made {
  date: string
  revision: number
  version: string
}

/** Every cell of a file says its column: those of one and two letters are spelled once. */
const letters: readonly string[] = Array.from({ length: 1 + 26 + 26 * 26 }, (_, column) => spelled(column))
export const columnLetters = (column: number): string => letters[column] ?? spelled(column)
function spelled(column: number): string {
  let letters = ''
  for (let left = column; left > 0; left = Math.floor((left - 1) / 26)) letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters
  return letters
}

export const address = (row: number, column: number, fixed = true): string => (fixed ? `$${columnLetters(column)}$${row}` : `${columnLetters(column)}${row}`)
export const range = (firstRow: number, lastRow: number, column: number, lastColumn = column): string => `${address(firstRow, column)}:${address(lastRow, lastColumn)}`

/** A sheet's name as a formula writes it. */
export const inQuotes = (name: string): string => `'${name.replace(/'/g, "''")}'`
export const quotedSheet = (name: string): string => (/^[A-Za-z_][A-Za-z0-9_]*$/.test(name) && !/^[A-Za-z]{1,3}\d+$/.test(name) ? name : inQuotes(name))

/** What a layout says of its sheet beside the cells. */
export interface SheetFrame
  extends
    Pick<SheetPlan, 'kind' | 'widths' | 'landscape' | 'footer'>,
    Partial<Pick<SheetPlan, 'tables' | 'validations' | 'print' | 'paper' | 'toScale' | 'definedNames' | 'folded' | 'hiddenColumn' | 'breakBefore' | 'frozenColumns'>> {
  headingRow: number
}

/**
 * Sheets with headings over all their columns have them in this row, and print the rows down to it on every page: LibreOffice lays out
 * a workbook whose sheets all repeat as many rows in a fifth of the time that it takes where one repeats three and another five.
 */
export const TITLE_ROWS = 5

/** Smaller than the line above it, and still read at a desk. */
const CLOSING_POINTS = 9
/** The foot of a printed page: the sheet with its job, and under it who decides; the page, and under it of which making it is. */
export function footOf({ footer, name, kind, cells }: SheetPlan): { left: string; center: string; right: string } {
  const plain = (text: string) => text.replace(/&/g, '&&')
  // A sheet of somebody's own, saved from the page, says nothing for us.
  const line = kind !== 'office' && kind !== 'tables' ? cells.find(({ row, value }) => row === 3 && isMadeLine(value))?.value : undefined
  const under = (words: string) => (line === undefined ? '' : `\n&${CLOSING_POINTS}${words}`)
  // A page that lies by itself says which revision it belongs to.
  const [made] = String(line).split(MADE_BY)
  // In the middle there is no room for it beside those words on an upright page.
  const hasJob = name.includes(footer)
  return { left: `${plain(hasJob ? name : footer)}${under(closingWords)}`, center: hasJob ? '' : plain(name), right: `Page &P of &N${under(made!)}` }
}

/** Letters that Excel takes of the words of a refused entry (MS-OI29500, 2.1.613). */
export const LONGEST_ALERT = 224
/** Edges of a printed page, the same in every host. */
export const MARGINS_IN = { side: 0.5, top: 0.6, bottom: 0.65, head: 0.3 } as const
/** The last row and column that cells reach to; a sheet of a record has too many of them for the arguments of a call. */
export function extentOf(cells: readonly Pick<PlanCell, 'row' | 'column'>[]): { lastRow: number; lastColumn: number } {
  let [lastRow, lastColumn] = [1, 1]
  for (const { row, column } of cells) {
    if (row > lastRow) lastRow = row
    if (column > lastColumn) lastColumn = column
  }
  return { lastRow, lastColumn }
}
/** What of a sheet is printed, where it is less than all. */
export function printedArea({ toScale, print, cells }: SheetPlan): { lastRow: number; lastColumn: number } | undefined {
  const last = print?.lastColumn
  return toScale ?? (last === undefined ? undefined : { lastRow: extentOf(cells.filter(({ column }) => column <= last)).lastRow, lastColumn: last })
}

/** Sizes of type of a title, of one that is long, and of the firm's name beside it. */
export const TITLE_LETTER_POINTS = 16
export const LONG_TITLE_POINTS = 12
export const FIRM_POINTS = 12
/** So much of the first line a firm's name may take. */
const FIRM_SHARE = 0.6
/** Columns that an upright page holds. */
const LEAST_TITLE_WIDTH = 95
/** Bold letters are wider than the figures that a column's width is counted in. */
const TITLE_FILL = 0.9
/** The lines under a title are smaller than the figures that widths are counted in. */
const LINE_FILL = 1.05
/** Column A is a thin margin. */
const FIRST_COLUMN = 2
/** A row with nothing in it, as files of ours say it. */
export const EMPTY_ROW_POINTS = 15

/** Collects the cells of a sheet row by row. */
export class SheetDraft {
  readonly cells: PlanCell[] = []
  readonly drawings: SheetDrawing[] = []
  private letterheadLines: readonly string[] = []
  private letterheadColumn = 0
  row = 1

  put(column: number, role: Role, value: PlanCell['value'], more: { formula?: string; format?: PlanCell['format']; row?: number } = {}): PlanCell {
    const { row = this.row, formula, format } = more
    const cell: PlanCell = { row, column, role, value, ...(formula === undefined ? {} : { formula }), ...(format === undefined ? {} : { format }) }
    this.cells.push(cell)
    return cell
  }

  next(rows = 1): void {
    this.row += rows
  }

  /** Pictures side by side below what stands there, each from its column on, with as many empty rows as the highest takes. */
  draw(...pictures: readonly (readonly [column: number, picture: Picture, page: Page])[]): void {
    let most = 0
    for (const [column, picture, page] of pictures) {
      this.drawings.push({ picture, row: this.row, column, page })
      most = Math.max(most, laidOut(picture, { ...page, withBar: true }).height)
    }
    this.next(Math.ceil(most / EMPTY_ROW_POINTS) + 1)
  }

  /** Who makes the paper, at the right of the heading lines. */
  letterhead(column: number, [name, ...rest]: readonly string[]): void {
    if (name === undefined) return
    this.put(column, 'firm', name, { row: 1 })
    this.letterheadColumn = column
    this.letterheadLines = rest
  }

  /** Address, contact and licence beside the second and third line, and below them where they must, divided so that none runs into what stands left of it; cut where nothing else helps. */
  private beside(widths: readonly number[]): readonly PlanCell[] {
    const lines = this.letterheadLines
    if (!lines.length) return []
    const line = widths.slice(FIRST_COLUMN - 1, this.letterheadColumn).reduce((sum, width) => sum + width, 0)
    const room = (row: number): number => {
      const left = String(this.cells.find((cell) => cell.row === row && cell.column === FIRST_COLUMN)?.value ?? '')
      return Math.floor(line * LINE_FILL - left.length) - 3
    }
    const divided = lines.map((_, at) => [lines.slice(0, at + 1), lines.slice(at + 1)].map((some) => some.join(' · ')) as [string, string])
    // The line below the heading lines is empty on most sheets.
    // It has nothing at its left: what is longest stands there where it fits nowhere else.
    const [first = '', second = '', ...last] = lines
    const inThree = this.cells.some(({ row }) => row === 4)
      ? []
      : [
          [first, second, last.join(' · ')],
          ...(last.length
            ? [
                [first, last.join(' · '), second],
                [second, last.join(' · '), first],
              ]
            : []),
        ]
    const fitting = [...divided, ...inThree].find((some) => some.every((words, at) => words.length <= room(2 + at))) ?? inThree[0] ?? this.licenceFirst(lines, [room(2), room(3)])
    const cut = (words: string, most: number) => (words.length <= most ? words : `${words.slice(0, Math.max(8, most - 1)).trimEnd()}…`)
    return fitting.flatMap((words, at): PlanCell[] => (words ? [{ row: 2 + at, column: this.letterheadColumn, role: 'faintRight', value: cut(words, room(2 + at)) }] : []))
  }

  /** Where all is too long, what stands last, the licence, is whole if it can be: beside the shorter of the two lines. */
  private licenceFirst(lines: readonly string[], [room2, room3]: readonly [number, number]): readonly string[] {
    const [rest, licence] = [lines.slice(0, -1).join(' · '), lines.at(-1)!]
    return licence.length <= room3 || room3 >= room2 ? [rest, licence] : [licence, rest]
  }

  /** A bar over the width of the sheet. */
  section(lastColumn: number, text: string): void {
    for (let column = FIRST_COLUMN; column <= lastColumn; column++) this.put(column, 'section', column === FIRST_COLUMN ? text : null)
    this.next()
  }

  /** What was drawn up, as a sheet: `headingRow` is the last row that stands still and is printed on every page. */
  sheet(name: string, { headingRow, ...more }: SheetFrame): SheetPlan {
    return {
      name,
      // Columns behind the last one that is printed hold no title.
      cells: [...this.withTitle(this.withFirm(more.widths), more.widths.slice(0, more.print?.lastColumn)), ...this.beside(more.widths)],
      frozenRows: headingRow,
      tables: [],
      validations: [],
      ...(this.drawings.length ? { drawings: this.drawings } : {}),
      ...(this.letterheadColumn ? { letterhead: true as const } : {}),
      ...more,
    }
  }

  /** A firm's name that leaves room for a title, cut where it does not. */
  private withFirm(widths: readonly number[]): readonly PlanCell[] {
    const line = widths.slice(FIRST_COLUMN - 1, this.letterheadColumn).reduce((sum, width) => sum + width, 0)
    const most = Math.floor((FIRM_SHARE * line * 10) / FIRM_POINTS)
    return this.cells.map((cell) =>
      cell.role === 'firm' && String(cell.value).length > most
        ? {
            ...cell,
            value: `${String(cell.value)
              .slice(0, most - 1)
              .trimEnd()}…`,
          }
        : cell,
    )
  }

  private withTitle(cells: readonly PlanCell[], widths: readonly number[]): readonly PlanCell[] {
    const at = cells.findIndex(({ role }) => role === 'title')
    if (at < 0) return cells
    const title = this.fitted(cells[at]!, cells, widths)
    return title === cells[at] ? cells : [...cells.slice(0, at), title, ...cells.slice(at + 1)]
  }

  /** A title as long as its line leaves room for beside the firm's name: smaller first, then cut. */
  private fitted(title: PlanCell, cells: readonly PlanCell[], widths: readonly number[]): PlanCell {
    const words = String(title.value)
    const firm = cells.find(({ role }) => role === 'firm')
    const room = (points: number): number => {
      // Beside nobody's name a title may run over the last column.
      const line = Math.max(
        firm ? 0 : LEAST_TITLE_WIDTH,
        widths.slice(title.column - 1).reduce((sum, width) => sum + width, 0),
      )
      return Math.floor((line - (firm ? (String(firm.value).length * FIRM_POINTS) / 10 + 2 : 0)) * (10 / points) * TITLE_FILL)
    }
    if (words.length <= room(TITLE_LETTER_POINTS)) return title
    const most = room(LONG_TITLE_POINTS)
    return { ...title, role: 'titleLong', value: words.length <= most ? words : `${words.slice(0, Math.max(8, most - 1)).trimEnd()}…` }
  }

  /** The three heading lines of every sheet; `whatNow` is the second one as a formula. */
  heading(title: string, what: string, made: string, whatNow?: string): void {
    this.put(2, 'title', title)
    this.next()
    this.put(2, 'subtitle', what, whatNow === undefined ? {} : { formula: whatNow })
    this.next()
    this.put(2, 'made', made)
    this.next()
  }
}

/** Between when a sheet was made and by which version. */
const MADE_BY = ', Cistern Sheet '
/** Whether words are the third line of a sheet of ours. */
export const isMadeLine = (words: unknown): boolean => String(words).includes(MADE_BY)
/** Within so many rows and columns the heading lines stand, whatever somebody put in before them. */
export const PUT_BEFORE = 20
/** The version that made a sheet, from the line that says so. */
export const versionIn = (words: unknown): string | undefined => (isMadeLine(words) ? /Cistern Sheet (\d+\.\d+\.\d+)$/.exec(String(words))?.[1] : undefined)
/** A sheet over several jobs is of none of their revisions. */
export const madeLine = ({ date, revision, version }: Made, isOfOne = true): string => `Made ${date}${isOfOne ? `, revision ${revision}` : ''}${MADE_BY}${version}`
