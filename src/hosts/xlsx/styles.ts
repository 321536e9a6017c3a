/** Looks as cell formats of a workbook: appended to its own, and found again when the same sheet is made once more. */
import type { Look } from '../../plan/looks.js'
import { palette } from '../../plan/looks.js'
import { HEAD, type Book } from './book.js'
import { plainStyles } from './newBook.js'
import { attribute, edited, escapeXml, inside, type Tag } from './xml.js'
import { WorkbookError } from './zip.js'

/** Excel takes no more. */
const MOST_FORMATS = 65_490
const LISTS = ['numFmts', 'fonts', 'fills', 'borders', 'cellXfs'] as const
type ListName = (typeof LISTS)[number]
const CHILD: Readonly<Record<ListName, string>> = { numFmts: 'numFmt', fonts: 'font', fills: 'fill', borders: 'border', cellXfs: 'xf' }
/** The order that the schema asks for. */
const ORDER = ['numFmts', 'fonts', 'fills', 'borders', 'cellStyleXfs', 'cellXfs', 'cellStyles', 'dxfs', 'tableStyles', 'colors', 'extLst']

interface List {
  open: Tag | undefined
  close: Tag | undefined
  /** Children as written, prefixes off. */
  items: string[]
  indexOf: Map<string, number>
  own: number
}

const STYLES = 'xl/styles.xml'
/** Points of the usual font of a workbook that we make. */
const OUR_SIZE = 10

export class StyleBook {
  private readonly part: string
  private readonly lists = new Map<ListName, List>()
  private readonly known = new Map<string, number>()
  /** Most cells wear one of our looks, which are the same things all along. */
  private readonly byLook = new Map<Look, Map<string | undefined, number>>()
  private readonly face: string
  /** Widths count digits of the workbook's usual font, ours those of 10 points: in a workbook of larger type a column of ours takes fewer. */
  readonly widthShare: number
  private prefix = ''
  private isChanged = false

  constructor(private readonly book: Book) {
    const known = book.relations(book.mainPart).find(({ type }) => type.endsWith('/styles'))?.target
    const isThere = known !== undefined && book.has(known)
    if (!isThere) {
      // A workbook may do without formats: then the plain ones are what it shows.
      book.put(STYLES, `${HEAD}${plainStyles}`)
      book.declare(STYLES, 'application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml')
      book.unrelate(book.mainPart, ({ type }) => type.endsWith('/styles'))
      book.relate(book.mainPart, 'styles', STYLES)
    }
    this.part = isThere ? known : STYLES
    this.read()
    this.face = /<name val="([^"]*)"/.exec(this.lists.get('fonts')!.items[0] ?? '')?.[1] ?? 'Calibri'
    const size = Number(/<sz val="([\d.]+)"/.exec(this.lists.get('fonts')!.items[0] ?? '')?.[1] ?? OUR_SIZE)
    this.widthShare = Math.min(1.5, Math.max(0.5, OUR_SIZE / size))
  }

  private read(): void {
    const xml = this.book.text(this.part)
    for (const name of LISTS) this.lists.set(name, { open: undefined, close: undefined, items: [], indexOf: new Map(), own: 0 })
    let current: ListName | undefined
    let depth = 0
    for (const tag of this.book.tags(this.part)) {
      if (tag.name === 'styleSheet' && !tag.isEnd) this.prefix = tag.prefix ? `${tag.prefix}:` : ''
      const list = LISTS.find((name) => name === tag.name)
      if (list && depth === 0) {
        if (tag.isEnd) {
          this.lists.get(list)!.close = tag
          current = undefined
        } else {
          this.lists.get(list)!.open = tag
          current = tag.isEmpty ? undefined : list
        }
        continue
      }
      if (!current) continue
      if (tag.isEnd) depth--
      else {
        if (depth === 0 && tag.name === CHILD[current]) {
          const of = this.lists.get(current)!
          const text = this.bare(xml.slice(tag.start, tag.isEmpty ? tag.end : inside(xml, tag).end))
          if (!of.indexOf.has(text)) of.indexOf.set(text, of.items.length)
          of.items.push(text)
        }
        if (!tag.isEmpty) depth++
      }
    }
    for (const list of this.lists.values()) list.own = list.items.length
    if (!this.lists.get('cellXfs')!.open) throw new WorkbookError(`${this.book.file}: it has no list of cell formats; open it in a spreadsheet and save it there.`)
  }

  private bare = (text: string): string => (this.prefix ? text.replaceAll(`<${this.prefix}`, '<').replaceAll(`</${this.prefix}`, '</') : text)

  private add(name: ListName, item: string): number {
    const list = this.lists.get(name)!
    const found = list.indexOf.get(item)
    if (found !== undefined) return found
    list.indexOf.set(item, list.items.length)
    list.items.push(item)
    this.isChanged = true
    if (list.items.length > MOST_FORMATS) throw new WorkbookError(`${this.book.file}: it has more cell formats than Excel takes.`)
    return list.items.length - 1
  }

  /** The number of the cell format that wears a look and a number format. */
  of(look: Look, format: string | undefined): number {
    let ofLook = this.byLook.get(look)
    if (!ofLook) this.byLook.set(look, (ofLook = new Map()))
    let index = ofLook.get(format)
    if (index === undefined) ofLook.set(format, (index = this.sameAs(look, format)))
    return index
  }

  /** Looks that are the same, said twice, are one format. */
  private sameAs(look: Look, format: string | undefined): number {
    const key = `${JSON.stringify(look)} ${format ?? ''}`
    let index = this.known.get(key)
    if (index === undefined) this.known.set(key, (index = this.make(look, format)))
    return index
  }

  /** Whether a cell format has a font of another face than the workbook's usual one, or one that leans or is struck or underlined. */
  hasOwnFont(style: number): boolean {
    const font = this.lists.get('fonts')!.items[Number(/\sfontId="(\d+)"/.exec(this.lists.get('cellXfs')!.items[style] ?? '')?.[1] ?? 0)] ?? ''
    const face = /<name val="([^"]*)"/.exec(font)?.[1]
    return /<(?:i|u|strike)\b/.test(font) || (face !== undefined && face !== this.face)
  }

  /** The number of a cell format that is another one in its number format alone. */
  withFormat(style: number, code: string | undefined): number {
    const { items } = this.lists.get('cellXfs')!
    const xf = items[style] ?? items[0]!
    return this.add(
      'cellXfs',
      xf.replace(/\s(?:numFmtId|applyNumberFormat)\s*=\s*(?:"[^"]*"|'[^']*')/g, '').replace(/^<xf\b/, `<xf numFmtId="${this.numberFormat(code)}" applyNumberFormat="1"`),
    )
  }

  private make(look: Look, format: string | undefined): number {
    const font = this.add(
      'fonts',
      `<font>${look.bold ? '<b/>' : ''}${look.italic ? '<i/>' : ''}<sz val="${look.size ?? 10}"/><color rgb="FF${look.color ?? palette.ink}"/><name val="${escapeXml(this.face)}"/><family val="2"/></font>`,
    )
    const fill = look.fill ? this.add('fills', `<fill><patternFill patternType="solid"><fgColor rgb="FF${look.fill}"/><bgColor indexed="64"/></patternFill></fill>`) : 0
    const side = (name: string, style: string | undefined, color: string) => (style ? `<${name} style="${style}"><color rgb="FF${color}"/></${name}>` : `<${name}/>`)
    const border =
      look.above || look.below || look.left
        ? this.add(
            'borders',
            `<border>${side('left', look.left, palette.clay)}<right/>${side('top', look.above, palette.ink)}${side('bottom', look.below, palette.stoneDark)}<diagonal/></border>`,
          )
        : 0
    const horizontal = look.align ?? (look.indent ? 'left' : undefined)
    const alignment = `<alignment${horizontal ? ` horizontal="${horizontal}"` : ''} vertical="${look.isLow ? 'bottom' : 'center'}"${look.wrap ? ' wrapText="1"' : ''}${look.indent ? ` indent="${look.indent}"` : ''}/>`
    const numFmt = this.numberFormat(format)
    return this.add(
      'cellXfs',
      `<xf numFmtId="${numFmt}" fontId="${font}" fillId="${fill}" borderId="${border}"${this.hasBase() ? ' xfId="0"' : ''}${numFmt ? ' applyNumberFormat="1"' : ''} applyFont="1"${fill ? ' applyFill="1"' : ''}${border ? ' applyBorder="1"' : ''} applyAlignment="1"${look.unlocked ? ' applyProtection="1"' : ''}>${alignment}${look.unlocked ? '<protection locked="0"/>' : ''}</xf>`,
    )
  }

  private hasBase = (): boolean => /<(?:\w+:)?cellStyleXfs\b/.test(this.book.text(this.part))

  private numberFormat(code: string | undefined): number {
    if (code === undefined || code === 'General') return 0
    if (code === '@') return 49
    const list = this.lists.get('numFmts')!
    const text = `formatCode="${escapeXml(code)}"`
    const known = list.items.find((item) => item.includes(text))
    if (known) return Number(/numFmtId="(\d+)"/.exec(known)![1])
    const id = Math.max(163, ...list.items.map((item) => Number(/numFmtId="(\d+)"/.exec(item)?.[1] ?? 0))) + 1
    this.add('numFmts', `<numFmt numFmtId="${id}" ${text}/>`)
    return id
  }

  /** Writes what was added; the formats of others keep their numbers. */
  save(): void {
    if (!this.isChanged) return
    const xml = this.book.text(this.part)
    const edits = LISTS.flatMap((name) => {
      const { open, close, items, own } = this.lists.get(name)!
      if (items.length === own) return []
      const added = items.slice(own).join('')
      const prefixed = this.prefix ? added.replace(/<(\/?)(?=[A-Za-z])/g, `<$1${this.prefix}`) : added
      const start = `<${this.prefix}${name} count="${items.length}">`
      const end = `</${this.prefix}${name}>`
      if (!open) return [{ from: this.placeOf(name), to: this.placeOf(name), text: `${start}${prefixed}${end}` }]
      const opened = xml.slice(open.start, open.end)
      const counted = attribute(xml, open, 'count') === undefined ? opened : opened.replace(/count\s*=\s*(["'])\d+\1/, `count="${items.length}"`)
      if (!close || open.isEmpty) return [{ from: open.start, to: open.end, text: `${counted.replace(/\/>$/, '>')}${prefixed}${end}` }]
      return [
        { from: open.start, to: open.end, text: counted },
        { from: close.start, to: close.start, text: prefixed },
      ]
    })
    this.book.put(this.part, edited(xml, edits))
    this.isChanged = false
    this.read()
  }

  /** Where a list that is missing belongs. */
  private placeOf(name: ListName): number {
    const after = ORDER.slice(ORDER.indexOf(name) + 1)
    for (const tag of this.book.tags(this.part)) if (!tag.isEnd && after.includes(tag.name)) return tag.start
    throw new WorkbookError(`${this.book.file}: its list of cell formats is damaged.`)
  }
}
