/** Sheet plans as parts of a workbook: the XML of a sheet, its tables, its place in the list of sheets. */
import { NAMESPACE } from '../../calc/callByName.js'
import { serialOfDay } from '../../days.js'
import { ofJob, placeOfName, pointsInto } from '../../plan/definedNames.js'
import { rowHeights } from '../../plan/heights.js'
import { cellFormat, looks } from '../../plan/looks.js'
import { areaOf, pagesOf, titlesOf } from '../../plan/pages.js'
import { address, columnLetters, EMPTY_ROW_POINTS, footOf, inQuotes, LONGEST_ALERT, MARGINS_IN, type PlanCell, type PlanValidation, type SheetPlan } from '../../plan/plan.js'
import { isErrorText } from '../../takeoff/fields.js'
import { LONGEST_FORMULA } from '../../formula/limits.js'
import { HEAD, MAIN, RELATIONSHIPS, relsOf, type Book } from './book.js'
import { dayZero } from './cells.js'
import { dynamicMark, filledBy } from './dynamicMark.js'
import { anchors, DRAWING_TYPE, drawingXml, picturesIn } from './drawingPart.js'
import { logoAnchor, putLogo, withRoom, type Logo } from './logo.js'
import { StyleBook } from './styles.js'
import { attribute, attributes, edited, encodeText, escapeXml, inside, unescapeXml, type Edit } from './xml.js'
import { WorkbookError } from './zip.js'

const SHEET_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml'
const TABLE_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml'
export const LONGEST_TEXT = 32_767
/** Numbers of the format for sizes of paper. */
export const PAPER = { letter: 1, A4: 9 } as const
/** Kinds of parts that a person's drawings, charts and remarks on a sheet are. */
export const DRAWN = /\/(?:drawing|vmlDrawing|comments|threadedComment)$/
/** Functions that came after the format: a file writes them with a prefix, a cell shows them without. */
const laterFunctions =
  /(?<![\w.])(XLOOKUP|XMATCH|LET|LAMBDA|FILTER|SORT|SORTBY|UNIQUE|SEQUENCE|RANDARRAY|IFS|SWITCH|TEXTJOIN|CONCAT|MAXIFS|MINIFS|IFNA|XOR|DAYS|ISOWEEKNUM|CEILING\.MATH|FLOOR\.MATH|NUMBERVALUE|UNICODE|UNICHAR|FORMULATEXT|ISFORMULA|SHEET|SHEETS|AGGREGATE|STDEV\.[SP]|VAR\.[SP]|PERCENTILE\.(?:INC|EXC)|QUARTILE\.(?:INC|EXC)|RANK\.(?:EQ|AVG)|MODE\.(?:SNGL|MULT)|COVARIANCE\.[SP]|NORM\.(?:S\.)?(?:DIST|INV)|T\.(?:DIST|INV)(?:\.2T|\.RT)?|CHISQ\.(?:DIST|INV)(?:\.RT)?|TOCOL|TOROW|VSTACK|HSTACK|TAKE|DROP|CHOOSECOLS|CHOOSEROWS|TEXTSPLIT|TEXTBEFORE|TEXTAFTER)\(/g
const inOuterText = (formula: string, change: (part: string) => string): string =>
  formula
    .split(/("(?:[^"]|"")*"|'(?:[^']|'')*')/)
    .map((part, at) => (at % 2 ? part : change(part)))
    .join('')
export const withPrefixes = (formula: string): string =>
  inOuterText(formula, (part) => part.replace(laterFunctions, (_, name: string) => `${name === 'FILTER' || name === 'SORT' ? '_xlfn._xlws' : '_xlfn'}.${name}(`))
export const withoutPrefixes = (formula: string): string => inOuterText(formula, (part) => part.replace(/_xlfn\.(?:_xlws\.)?|_xlpm\./g, ''))

const plainCall = new RegExp(`\\b${NAMESPACE}\\.([A-Z][A-Z0-9]*)\\(`, 'g')
export const STORED_PREFIX = `_xldudf_${NAMESPACE}_`
/** True when a formula calls a cell function. */
const callsCellFunction = (formula: string): boolean => formula.search(plainCall) >= 0
/** What is remembered of a sheet that is written: its names stand in the list of the whole workbook. */
interface Named extends Pick<SheetPlan, 'name' | 'definedNames'> {
  area: { lastRow: number; lastColumn: number } | undefined
  /** Rows and columns that are printed on every page. */
  titles: string | undefined
}
const breaksXml = (rows: readonly number[]): string =>
  rows.length ? `<rowBreaks count="${rows.length}" manualBreakCount="${rows.length}">${rows.map((row) => `<brk id="${row - 1}" max="16383" man="1"/>`).join('')}</rowBreaks>` : ''
/** Rows and columns that stand still; no pane without a split, which spreadsheets refuse. */
function paneXml({ frozenRows: rows, frozenColumns: columns = 0 }: SheetPlan): string {
  if (rows === 0 && columns === 0) return ''
  const split = `${columns ? ` xSplit="${columns}"` : ''}${rows ? ` ySplit="${rows}"` : ''}`
  return `<pane${split} topLeftCell="${address(rows + 1, columns + 1, false)}" activePane="${columns ? (rows ? 'bottomRight' : 'topRight') : 'bottomLeft'}" state="frozen"/>`
}
/** Headings on every page where a sheet takes more than one: LibreOffice breaks every sheet of the workbook into pages anew for each of them. */
const titlesIn = (plan: SheetPlan): string | undefined => {
  const { rows, columns } = titlesOf(plan)
  return [...(columns ? [`$A:$${columnLetters(columns)}`] : []), ...(rows ? [`$1:$${rows}`] : [])].join(',') || undefined
}
const namedOf = (plan: SheetPlan): Named => ({
  name: plan.name,
  definedNames: plan.definedNames,
  area: areaOf(plan),
  titles: titlesIn(plan),
})
interface Own {
  codeName: string
  protection: string
}
interface StoredFormula {
  text: string
  isCall: boolean
}

/** Writes plans into a workbook: a sheet of a plan's name is rewritten in its place, others are added behind. */
export class SheetWriter {
  private readonly styles: StyleBook
  private readonly dayZero: number
  private metadata: number | undefined
  private nextSheetId: number | undefined
  private nextTableId: number | undefined
  private readonly tableNames = new Set<string>()
  private readonly nextPart = new Map<string, number>()
  /** Texts of formulas and words come again and again: each is escaped once. */
  private readonly escaped = new Map<string, string>()
  private readonly formulas = new Map<string, StoredFormula>()
  private readonly written: Named[] = []
  private hasCalls = false

  private readonly logoPart: string | undefined

  constructor(
    private readonly book: Book,
    private readonly logo?: Logo,
  ) {
    this.styles = new StyleBook(book)
    this.dayZero = dayZero(book)
    this.logoPart = logo && putLogo(book, logo)
  }

  /** Writes sheets; more may follow. Only what is packed is held of them. */
  put(plans: readonly SheetPlan[]): void {
    for (const plan of plans) {
      this.sheet(this.logo && plan.letterhead ? withRoom(plan) : plan)
      this.written.push(namedOf(plan))
    }
    // Words of a job come again within it, and seldom in another.
    if (this.escaped.size + this.formulas.size < MOST_WORDS_KEPT) return
    this.escaped.clear()
    this.formulas.clear()
  }

  /** What is said once for all sheets: formats, names, how they are worked out. */
  finish(): void {
    this.styles.save()
    this.book.sheetsChanged()
    this.titles()
    this.dropChain()
    this.calculation()
  }

  private sheet(plan: SheetPlan): void {
    const standing = this.book.sheetNamed(plan.name)
    const part = standing?.part ?? this.freePart('xl/worksheets/sheet', '.xml')
    const drawn = standing ? this.drawnOn(part) : []
    const own = standing ? this.ownOf(part) : { codeName: '', protection: '' }
    if (standing) {
      for (const { target, type } of this.book.relations(part)) if (type.endsWith('/table')) this.takeAway(target)
      this.nextTableId = undefined
      this.tableNames.clear()
      // What people drew or remarked on the sheet stays on it.
      this.book.unrelate(part, ({ type }) => !DRAWN.test(type))
    }
    // The part is there before others count it.
    this.book.put(part, '')
    this.pictures(plan, part, drawn)
    const tables = plan.tables.map((table) => {
      const xml = this.table(table)
      const file = this.freePart('xl/tables/table', '.xml')
      this.book.put(file, xml)
      this.book.declare(file, TABLE_TYPE, true)
      return this.book.relate(part, 'table', file)
    })
    this.book.put(part, this.xml(plan, tables, drawn, own, !standing && this.book.sheets.length === 0))
    for (const { target, isExternal } of this.book.relations(part)) if (!isExternal) [target, relsOf(target)].forEach((one) => this.book.close(one))
    for (const one of [part, relsOf(part)]) this.book.close(one)
    if (standing) return
    this.book.declare(part, SHEET_TYPE, true)
    const id = this.book.relate(this.book.mainPart, 'worksheet', part)
    this.nextSheetId ??= this.mostSheetId() + 1
    const sheetId = this.nextSheetId++
    this.book.insertBeforeEnd(
      this.book.mainPart,
      'sheets',
      `<sheet xmlns:r="${RELATIONSHIPS}" name="${escapeXml(plan.name)}" sheetId="${sheetId}"${plan.hidden ? ' state="hidden"' : ''} r:id="${id}"/>`,
    )
    this.book.addSheet({ name: plan.name, part, isHidden: plan.hidden ?? false })
  }

  /** Our pictures are drawn anew; what somebody else drew on the sheet stays. */
  private pictures(plan: SheetPlan, part: string, drawn: string[]): void {
    const { drawings = [] } = plan
    const isHeaded = plan.logo_pt !== undefined
    const hasAny = drawings.length > 0 || isHeaded
    const standing = this.book.relations(part).find(({ type }) => type.endsWith('/drawing'))
    if (standing && this.book.has(standing.target)) {
      const { ours, hasOthers } = picturesIn(this.book.text(standing.target))
      if (hasOthers) {
        if (ours.length) this.book.put(standing.target, edited(this.book.text(standing.target), ours))
        if (hasAny) this.book.insertBeforeEnd(standing.target, 'wsDr', anchors(drawings) + this.logoIn(plan, standing.target))
        return
      }
      if (hasAny) return this.book.put(standing.target, drawingXml(drawings, this.logoIn(plan, standing.target)))
      this.takeAway(standing.target)
      this.book.unrelate(part, ({ id }) => id === standing.id)
      drawn.splice(0, drawn.length, ...drawn.filter((tag) => !tag.startsWith('<drawing ')))
    }
    if (!hasAny) return
    const file = this.freePart('xl/drawings/drawing', '.xml')
    // The part is there before it points to others.
    this.book.put(file, '')
    this.book.put(file, drawingXml(drawings, this.logoIn(plan, file)))
    this.book.declare(file, DRAWING_TYPE, true)
    drawn.unshift(`<drawing r:id="${this.book.relate(part, 'drawing', file)}"/>`)
  }

  /** The logo as an entry of the drawing of a sheet. */
  private logoIn(plan: SheetPlan, drawing: string): string {
    if (plan.logo_pt === undefined) return ''
    const known = this.book.relations(drawing).find(({ target }) => target === this.logoPart)
    return logoAnchor(plan, this.logo!, known?.id ?? this.book.relate(drawing, 'image', this.logoPart!))
  }

  private mostSheetId(): number {
    const text = this.book.text(this.book.mainPart)
    let most = 0
    for (const tag of this.book.tags(this.book.mainPart)) if (tag.name === 'sheet' && !tag.isEnd) most = Math.max(most, Number(attribute(text, tag, 'sheetId') ?? 0))
    return most
  }

  private takeAway(part: string): void {
    this.book.remove(part)
    this.book.remove(relsOf(part))
    this.book.undeclare(part)
  }

  private freePart(start: string, end: string): string {
    for (let number = this.nextPart.get(start) ?? 1; ; number++) {
      if (this.book.has(`${start}${number}${end}`)) continue
      this.nextPart.set(start, number + 1)
      return `${start}${number}${end}`
    }
  }

  private text(words: string): string {
    let found = this.escaped.get(words)
    if (found === undefined) this.escaped.set(words, (found = encodeText(words)))
    return found
  }

  /** The tags by which a sheet holds its drawings and remarks, in the order in which they stand in a sheet. */
  private drawnOn(part: string): string[] {
    const xml = this.book.text(part)
    const found = new Map<string, string>()
    for (const tag of this.book.tags(part)) {
      if (tag.isEnd || (tag.name !== 'drawing' && tag.name !== 'legacyDrawing')) continue
      const id = [...attributes(xml, tag)].find(([name]) => /(?:^|:)id$/.test(name))?.[1]
      if (id !== undefined) found.set(tag.name, `<${tag.name} r:id="${escapeXml(id)}"/>`)
    }
    return ['drawing', 'legacyDrawing'].flatMap((name) => found.get(name) ?? [])
  }

  /** What somebody gave the sheet that is no cell of it: the name by which macros know it, and its protection. */
  private ownOf(part: string): Own {
    const xml = this.book.text(part)
    const own: Own = { codeName: '', protection: '' }
    for (const tag of this.book.tags(part)) {
      if (tag.isEnd) continue
      if (tag.name === 'sheetPr') own.codeName = attribute(xml, tag, 'codeName') ?? ''
      if (tag.name === 'sheetProtection') own.protection = `<sheetProtection${[...attributes(xml, tag)].map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('')}/>`
    }
    return own
  }

  private xml(plan: SheetPlan, tables: readonly string[], drawn: readonly string[], own: Own, isFirst: boolean): string {
    const heights = rowHeights(plan)
    const pages = pagesOf(plan)
    const fixed = plan.toScale ? 100 : pages.percent
    const byRow = new Map<number, PlanCell[]>()
    let [lastRow, lastColumn] = [1, 1]
    for (const cell of plan.cells) {
      const row = byRow.get(cell.row)
      if (row) row.push(cell)
      else byRow.set(cell.row, [cell])
      lastRow = Math.max(lastRow, cell.row)
      lastColumn = Math.max(lastColumn, cell.column)
    }
    const hiddenRows = new Set(plan.hiddenRows)
    const rows = [...new Set([...byRow.keys(), ...heights.keys(), ...hiddenRows])].sort((one, other) => one - other)
    const data = rows.map((row) => {
      const height = heights.get(row)
      const cells = inColumns(byRow.get(row) ?? [])
      return `<row r="${row}"${height === undefined ? '' : ` ht="${Math.round(height * 100) / 100}" customHeight="1"`}${hiddenRows.has(row) ? ' hidden="1"' : ''}>${cells.map((cell) => this.cell(plan.name, cell)).join('')}</row>`
    })
    const { left, center, right } = footOf(plan)
    const footer = `&L${left}&C${center}&R${right}`
    return [
      `${HEAD}<worksheet xmlns="${MAIN}" xmlns:r="${RELATIONSHIPS}">${sheetProperties(fixed === undefined, plan.folded !== undefined, own.codeName)}<dimension ref="A1:${columnLetters(lastColumn)}${lastRow}"/>`,
      `<sheetViews><sheetView showGridLines="0"${isFirst ? ' tabSelected="1"' : ''} workbookViewId="0">${paneXml(plan)}</sheetView></sheetViews>`,
      `<sheetFormatPr defaultRowHeight="${EMPTY_ROW_POINTS}" customHeight="1"${plan.folded ? ' outlineLevelCol="1"' : ''}/>`,
      plan.widths.length
        ? `<cols>${plan.widths.map((width, at) => `<col min="${at + 1}" max="${at + 1}" width="${Math.round(width * (plan.isOfBook ? 1 : this.styles.widthShare) * 100) / 100}" customWidth="1"${foldOf(plan, at + 1)}/>`).join('')}</cols>`
        : '',
      `<sheetData>${data.join('')}</sheetData>`,
      own.protection,
      this.validations(plan.validations),
      `<pageMargins left="${MARGINS_IN.side}" right="${MARGINS_IN.side}" top="${MARGINS_IN.top}" bottom="${MARGINS_IN.bottom}" header="${MARGINS_IN.head}" footer="${MARGINS_IN.head}"/>`,
      `<pageSetup paperSize="${PAPER[plan.paper ?? 'letter']}"${fixed === undefined ? '' : ` scale="${fixed}"`} orientation="${plan.landscape ? 'landscape' : 'portrait'}"${fixed === undefined ? ' fitToWidth="1" fitToHeight="0"' : ''}/>`,
      `<headerFooter><oddFooter>${escapeXml(footer)}</oddFooter></headerFooter>`,
      breaksXml(pages.breaks),
      ...drawn,
      tables.length ? `<tableParts count="${tables.length}">${tables.map((id) => `<tablePart r:id="${id}"/>`).join('')}</tableParts>` : '',
      '</worksheet>',
    ].join('')
  }

  private cell(sheet: string, cell: PlanCell): string {
    const reference = `${columnLetters(cell.column)}${cell.row}`
    const style = this.styles.of(cell.look ?? looks[cell.role], cellFormat(cell))
    const { value, formula } = cell
    if (formula !== undefined) {
      const { text: stored, isCall } = this.formula(formula, `${sheet}!${reference}`)
      const [type, shown] =
        typeof value === 'number'
          ? ['', String(value)]
          : typeof value === 'boolean'
            ? [' t="b"', value ? '1' : '0']
            : value !== null && isErrorText(value)
              ? [' t="e"', value]
              : [' t="str"', this.text(value ?? '')]
      const isArray = isCall || cell.spill !== undefined
      const f = isArray ? `<f t="array" ref="${filledBy(cell)}">${stored}</f>` : `<f>${stored}</f>`
      return `<c r="${reference}" s="${style}"${type}${isArray ? ` cm="${this.mark()}"` : ''}>${f}<v>${shown}</v></c>`
    }
    if (value === null || value === '') return `<c r="${reference}" s="${style}"/>`
    if (typeof value === 'number') return `<c r="${reference}" s="${style}"><v>${value}</v></c>`
    if (typeof value === 'boolean') return `<c r="${reference}" s="${style}" t="b"><v>${value ? 1 : 0}</v></c>`
    if (isErrorText(value)) return `<c r="${reference}" s="${style}" t="e"><v>${value}</v></c>`
    if (cell.format === 'date') return `<c r="${reference}" s="${style}"><v>${serialOfDay(String(value), this.dayZero)}</v></c>`
    if (value.length > LONGEST_TEXT)
      throw new WorkbookError(
        `${sheet}!${reference}: a text of at most ${LONGEST_TEXT.toLocaleString('en-US')} characters; it has ${value.length.toLocaleString('en-US')}. Nothing was written.`,
      )
    return `<c r="${reference}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${this.text(value)}</t></is></c>`
  }

  private mark(): number {
    return (this.metadata ??= dynamicMark(this.book))
  }

  private formula(formula: string, place: string): StoredFormula {
    let found = this.formulas.get(formula)
    if (found !== undefined) return found
    if (formula.length > LONGEST_FORMULA)
      throw new WorkbookError(
        `${place}: a formula of at most ${LONGEST_FORMULA.toLocaleString('en-US')} characters; it has ${formula.length.toLocaleString('en-US')}. Nothing was written.`,
      )
    const isCall = callsCellFunction(formula)
    this.hasCalls ||= isCall
    this.formulas.set(formula, (found = { isCall, text: escapeXml(withPrefixes(isCall ? formula.replace(plainCall, `${STORED_PREFIX}$1(`) : formula)) }))
    return found
  }

  private validations(list: readonly PlanValidation[]): string {
    if (!list.length) return ''
    const one = ({ firstRow, lastRow, column, list: options, range, span, isAdvice, message }: PlanValidation): string => {
      const letters = columnLetters(column)
      const type = span ? 'type="decimal" operator="between" errorStyle="warning"' : `type="list"${isAdvice ? ' errorStyle="warning"' : ''}`
      const formulas = span ? `<formula1>${span[0]}</formula1><formula2>${span[1]}</formula2>` : `<formula1>${escapeXml(range ?? `"${options!.join(',')}"`)}</formula1>`
      return `<dataValidation ${type} allowBlank="1" showErrorMessage="1" errorTitle="Not allowed here" error="${escapeXml(`Allowed: ${message}`.slice(0, LONGEST_ALERT))}" sqref="${letters}${firstRow}${lastRow > firstRow ? `:${letters}${lastRow}` : ''}">${formulas}</dataValidation>`
    }
    return `<dataValidations count="${list.length}">${list.map(one).join('')}</dataValidations>`
  }

  private table({ name, row, column, headings, rows }: SheetPlan['tables'][number]): string {
    const reference = `${columnLetters(column)}${row}:${columnLetters(column + headings.length - 1)}${row + rows}`
    const columns = headings.map((heading, at) => `<tableColumn id="${at + 1}" name="${escapeXml(heading)}"/>`).join('')
    const free = this.freeTable(name)
    return `${HEAD}<table xmlns="${MAIN}" id="${free.id}" name="${free.name}" displayName="${free.name}" ref="${reference}" totalsRowShown="0"><tableColumns count="${headings.length}">${columns}</tableColumns><tableStyleInfo showFirstColumn="0" showLastColumn="0" showRowStripes="0" showColumnStripes="0"/></table>`
  }

  /** Table numbers and names are of the whole workbook. */
  private freeTable(wanted: string): { id: number; name: string } {
    if (this.nextTableId === undefined) {
      let most = 0
      for (const part of this.book.names()) {
        if (!/^xl\/tables\/[^/]+\.xml$/i.test(part)) continue
        const text = this.book.text(part)
        for (const tag of this.book.tags(part)) {
          if (tag.name !== 'table' || tag.isEnd) continue
          most = Math.max(most, Number(attribute(text, tag, 'id') ?? 0))
          this.tableNames.add((attribute(text, tag, 'displayName') ?? '').toLowerCase())
        }
      }
      this.nextTableId = most + 1
    }
    let name = wanted
    for (let number = 2; this.tableNames.has(name.toLowerCase()); number++) name = `${wanted}_${number}`
    this.tableNames.add(name.toLowerCase())
    return { id: this.nextTableId++, name }
  }

  private titles(): void {
    const main = this.book.mainPart
    const text = this.book.text(main)
    const order: string[] = []
    for (const tag of this.book.tags(main)) if (tag.name === 'sheet' && !tag.isEnd) order.push((attribute(text, tag, 'name') ?? '').toLowerCase())
    const places = new Map(order.map((sheet, at) => [sheet, at]))
    const placeOf = (sheet: string) => places.get(sheet.toLowerCase())
    const written = new Set(this.written.map(({ name }) => placeOf(name)))
    const name = (kind: 'Titles' | 'Area', sheet: string, place: string) =>
      `<definedName name="_xlnm.Print_${kind}" localSheetId="${placeOf(sheet)}">${escapeXml(
        place
          .split(',')
          .map((part) => `${inQuotes(sheet)}!${part}`)
          .join(','),
      )}</definedName>`
    const own = this.ownNames(text)
    // Where every sheet ends stands before the headings of any: so it counts when the pages of all are reckoned for them.
    const names = [
      ...this.written.flatMap(({ name: sheet, area }) => (area ? [name('Area', sheet, `$A$1:$${columnLetters(area.lastColumn)}$${area.lastRow}`)] : [])),
      ...this.written.flatMap(({ name: sheet, titles }) => (titles ? [name('Titles', sheet, titles)] : [])),
      ...this.written.flatMap(({ name: sheet, definedNames = [] }) =>
        definedNames
          .filter(({ name: word }) => !own.taken.has(word.toLowerCase()))
          .map((one) => `<definedName name="${escapeXml(one.name)}">${escapeXml(placeOfName(sheet, one))}</definedName>`),
      ),
    ]
    // What stood for a sheet of ours before goes.
    const gone = [...own.gone]
    let list: { end: number; isEmpty: boolean } | undefined
    let behind = 0
    for (const tag of this.book.tags(main)) {
      if (tag.name === 'definedName' && !tag.isEnd) {
        const all = attributes(text, tag)
        if (/^_xlnm\.Print_(?:Titles|Area)$/.test(all.get('name') ?? '') && written.has(Number(all.get('localSheetId'))))
          gone.push({ from: tag.start, to: inside(text, tag).end, text: '' })
      }
      if (tag.name === 'definedNames' && !tag.isEnd) list = { end: tag.end, isEmpty: tag.isEmpty }
      if (['sheets', 'functionGroups', 'externalReferences'].includes(tag.name) && (tag.isEnd || tag.isEmpty)) behind = tag.end
    }
    if (gone.length) this.book.put(main, edited(text, gone))
    if (!names.length) return this.withoutEmptyNames()
    if (list) this.book.insertBeforeEnd(main, 'definedNames', names.join(''))
    else this.insertAt(behind, `<definedNames>${names.join('')}</definedNames>`)
  }

  /** Names of ours that stand there: those that point into the sheet they are of go, others are somebody's own and stay. */
  private ownNames(text: string): { gone: Edit[]; taken: ReadonlySet<string> } {
    const sheets = new Map(this.written.flatMap(({ name, definedNames }) => (definedNames?.length ? [[ofJob(definedNames[0]!.name), name] as const] : [])))
    const gone: Edit[] = []
    const taken = new Set<string>()
    for (const tag of this.book.tags(this.book.mainPart)) {
      if (tag.name !== 'definedName' || tag.isEnd) continue
      const all = attributes(text, tag)
      const name = (all.get('name') ?? '').toLowerCase()
      const sheet = sheets.get(ofJob(name))
      if (all.has('localSheetId') || sheet === undefined) continue
      const content = inside(text, tag)
      // The name of a section that the job has no more goes with the others.
      if (pointsInto(unescapeXml(content.text), sheet)) gone.push({ from: tag.start, to: content.end, text: '' })
      else taken.add(name)
    }
    return { gone, taken }
  }

  private withoutEmptyNames(): void {
    const text = this.book.text(this.book.mainPart)
    const bare = text.replace(/<((?:\w+:)?definedNames)>\s*<\/\1>/, '')
    if (bare !== text) this.book.put(this.book.mainPart, bare)
  }

  private insertAt(place: number, entry: string): void {
    const text = this.book.text(this.book.mainPart)
    const prefix = /<(\w+:)?workbook\b/.exec(text)?.[1] ?? ''
    const written = prefix ? entry.replace(/<(\/?)(?=[A-Za-z])/g, `<$1${prefix}`) : entry
    this.book.put(this.book.mainPart, text.slice(0, place) + written + text.slice(place))
  }

  /** The order in which cells were worked out last is no longer that of this workbook. */
  private dropChain(): void {
    const chain = this.book.relations(this.book.mainPart).find(({ type }) => type.endsWith('/calcChain'))
    if (!chain) return
    this.book.unrelate(this.book.mainPart, ({ type }) => type.endsWith('/calcChain'))
    this.takeAway(chain.target)
  }

  /**
   * How the workbook is worked out when it opens: at once where its formulas are ordinary ones; where they call cell
   * functions, not before the add-in is there, so the number of the program is one that no Excel takes for an older one.
   */
  private calculation(): void {
    const { hasCalls } = this
    const main = this.book.mainPart
    const text = this.book.text(main)
    const wanted = hasCalls ? { calcId: '191029' } : { fullCalcOnLoad: '1' }
    for (const tag of this.book.tags(main)) {
      if (tag.name !== 'calcPr' || tag.isEnd) continue
      const all = attributes(text, tag)
      for (const [name, value] of Object.entries(wanted)) all.set(name, value)
      if (hasCalls) all.delete('fullCalcOnLoad')
      if (hasCalls && Number(all.get('calcId')) < 191029) all.set('calcId', '191029')
      const prefix = tag.prefix ? `${tag.prefix}:` : ''
      const written = `<${prefix}calcPr${[...all].map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('')}/>`
      this.book.put(main, text.slice(0, tag.start) + written + text.slice(inside(text, tag).end))
      return
    }
    let behind = 0
    for (const tag of this.book.tags(main))
      if (['sheets', 'functionGroups', 'externalReferences', 'definedNames'].includes(tag.name) && (tag.isEnd || tag.isEmpty)) behind = tag.end
    this.insertAt(
      behind,
      `<calcPr${Object.entries(wanted)
        .map(([name, value]) => ` ${name}="${value}"`)
        .join('')}/>`,
    )
  }
}

/** The sign that unfolds stands before the folded columns, beside those that are shown. */
const sheetProperties = (isFitted: boolean, isFolded: boolean, codeName: string): string =>
  isFitted || isFolded || codeName
    ? `<sheetPr${codeName ? ` codeName="${escapeXml(codeName)}"` : ''}>${isFolded ? '<outlinePr summaryRight="0"/>' : ''}${isFitted ? '<pageSetUpPr fitToPage="1"/>' : ''}</sheetPr>`
    : ''
/** From left to right; a cell written twice counts as written last. */
function inColumns(cells: readonly PlanCell[]): readonly PlanCell[] {
  if (cells.every(({ column }, at) => at === 0 || column > cells[at - 1]!.column)) return cells
  return [...new Map(cells.map((cell) => [cell.column, cell])).values()].sort((one, other) => one.column - other.column)
}
const foldOf = ({ folded, hiddenColumn, hiddenColumns }: SheetPlan, column: number): string =>
  column === hiddenColumn || hiddenColumns?.includes(column)
    ? ' hidden="1"'
    : !folded
      ? ''
      : column >= folded.first && column <= folded.last
        ? ' hidden="1" outlineLevel="1"'
        : column === folded.first - 1
          ? ' collapsed="1"'
          : ''

/** So many texts of cells are remembered as they are written; a job of the demo has some 4,600. */
const MOST_WORDS_KEPT = 20_000
