/** An .xlsx workbook as its parts: read sheet by sheet as asked for, written with every part that is not ours left as it was. */
import { attribute, attributes, type Edit, edited, escapeXml, inside, type Tag, tags, unescapeXml, withoutCdata, XmlError } from './xml.js'
import { joined, laidAside, mustBeReadable, pack, readZip, unpack, unpackStart, WorkbookError, zipPieces, type Part, type Spool } from './zip.js'

/** How every part begins that this project writes. */
export const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
export const RELATIONSHIPS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
export const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'

export interface BookSheet {
  name: string
  part: string
  isHidden: boolean
}
export interface Relation {
  id: string
  type: string
  target: string
  isExternal: boolean
}

/** So many entries of a list wait each by itself. */
const ENTRIES_APART = 500

/** "../tables/table1.xml" seen from a part, as a path from the root. */
function resolvePart(from: string, target: string): string {
  if (target.startsWith('/')) return target.slice(1)
  const path = from.split('/').slice(0, -1)
  for (const step of target.split('/')) {
    if (step === '..') path.pop()
    else if (step !== '.') path.push(step)
  }
  return path.join('/')
}
/** The way from a part to another: some readers know no path from the root. */
export function relativeTo(from: string, target: string): string {
  const here = from.split('/').slice(0, -1)
  const there = target.split('/')
  let shared = 0
  while (shared < here.length && shared < there.length - 1 && here[shared] === there[shared]) shared++
  return [...here.slice(shared).map(() => '..'), ...there.slice(shared)].join('/')
}
export const relsOf = (part: string): string => part.replace(/([^/]*)$/, '_rels/$1.rels')

export class Book {
  /** Packed; those whose text is being worked on are packed when they are closed. */
  private readonly parts: Map<string, Part | undefined>
  private readonly byLowerName = new Map<string, string>()
  private readonly texts = new Map<string, string>()
  /** Entries that wait to be put before the end of a list: a thousand sheets are listed in one go. */
  private readonly waiting = new Map<string, Map<string, string[]>>()
  /** How often each part was put: what was read of an earlier one is no longer so. */
  private readonly puts = new Map<string, number>()
  private readonly nextRelation = new Map<string, number>()
  private knowsRelations: boolean | undefined
  readonly mainPart: string
  /** Where parts that are done with are laid aside; they stay in memory where there is no such place. */
  spool: Spool | undefined
  private list: BookSheet[] = []
  private readonly byName = new Map<string, BookSheet>()

  constructor(
    bytes: Uint8Array,
    readonly file: string,
    mayBeEmpty = false,
  ) {
    this.parts = readZip(bytes, file)
    for (const name of this.parts.keys()) this.byLowerName.set(name.toLowerCase(), name)
    if (this.has('mimetype')) throw new WorkbookError(`${file}: an .xlsx workbook is needed; this is an OpenDocument file (.ods): save it as .xlsx.`)
    if (!this.has('[Content_Types].xml')) throw new WorkbookError(`${file}: the workbook is damaged: it has no list of its parts.`)
    const main = this.relations('').find(({ type }) => type.endsWith('/officeDocument'))
    if (!main || !this.has(main.target)) throw new WorkbookError(`${file}: an .xlsx workbook is needed; this is a file of another kind.`)
    if (main.type.includes('purl.oclc.org')) throw new WorkbookError(`${file}: it is kept in the strict form of the format: save it as an ordinary Excel workbook.`)
    this.mainPart = main.target
    if (/\.bin$/i.test(this.mainPart)) throw new WorkbookError(`${file}: an .xlsx workbook is needed; this is an .xlsb.`)
    this.readSheets()
    if (!this.sheets.length && !mayBeEmpty) throw new WorkbookError(`${file}: the workbook holds no sheet.`)
  }

  /** A workbook with macros says so of its main part; the ending of its name has to agree. */
  get hasMacros(): boolean {
    const list = this.text('[Content_Types].xml')
    for (const tag of this.tags('[Content_Types].xml'))
      if (tag.name === 'Override' && (attribute(list, tag, 'PartName') ?? '').toLowerCase() === `/${this.mainPart}`.toLowerCase())
        return (attribute(list, tag, 'ContentType') ?? '').includes('macroEnabled')
    return false
  }

  has(part: string): boolean {
    return this.byLowerName.has(part.toLowerCase())
  }

  names(): string[] {
    return [...this.parts.keys()]
  }

  /** The text of a part. */
  text(part: string): string {
    this.settle(part)
    const name = this.byLowerName.get(part.toLowerCase())
    if (name === undefined) throw new WorkbookError(`${this.file}: the workbook is damaged: it has no part ${part}.`)
    let text = this.texts.get(name)
    if (text !== undefined) return text
    const bytes = unpack(this.packed(name), this.file)
    if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
      throw new WorkbookError(`${this.file}: ${name} is written in UTF-16, which is not read.`)
    try {
      text = withoutCdata(new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes))
    } catch {
      throw new WorkbookError(`${this.file}: the workbook is damaged: ${name} is no text.`)
    }
    this.texts.set(name, text)
    return text
  }

  /** The bytes of a part. */
  content(part: string): Uint8Array {
    this.settle(part)
    const name = this.byLowerName.get(part.toLowerCase())
    if (name === undefined) throw new WorkbookError(`${this.file}: the workbook is damaged: it has no part ${part}.`)
    return unpack(this.packed(name), this.file)
  }

  /** How a part begins: of a long one no more is unpacked, and nothing is kept. */
  start(part: string, letters: number): string {
    this.settle(part)
    const name = this.byLowerName.get(part.toLowerCase())
    if (name === undefined) throw new WorkbookError(`${this.file}: the workbook is damaged: it has no part ${part}.`)
    const text = this.texts.get(name)
    return text === undefined ? new TextDecoder().decode(unpackStart(this.packed(name), letters, this.file)) : text.slice(0, letters)
  }

  /** Replaces a part, or adds it at the end. */
  put(part: string, content: string | Uint8Array): void {
    const name = this.byLowerName.get(part.toLowerCase()) ?? part
    this.byLowerName.set(name.toLowerCase(), name)
    this.puts.set(name, this.version(name) + 1)
    if (typeof content === 'string') {
      this.texts.set(name, content)
      this.parts.set(name, undefined)
    } else {
      this.texts.delete(name)
      this.parts.set(name, pack(name, content))
    }
  }

  version(part: string): number {
    return this.puts.get(part) ?? 0
  }

  private packed(name: string): Part {
    let part = this.parts.get(name)
    if (!part) this.parts.set(name, (part = pack(name, new TextEncoder().encode(this.texts.get(name)))))
    return part
  }

  /** Lets go of the text of a part that is done with: of a thousand jobs only what is packed is held. */
  close(part: string): void {
    this.settle(part)
    const name = this.byLowerName.get(part.toLowerCase())
    if (name === undefined) return
    const packed = this.packed(name)
    if (this.spool && this.texts.has(name)) this.parts.set(name, laidAside(packed, this.spool))
    this.texts.delete(name)
  }

  remove(part: string): void {
    const name = this.byLowerName.get(part.toLowerCase())
    if (name === undefined) return
    this.waiting.delete(part)
    this.parts.delete(name)
    this.byLowerName.delete(name.toLowerCase())
    this.texts.delete(name)
  }

  bytes(): Uint8Array {
    return joined([...this.pieces()])
  }

  /** The bytes of the file, piece by piece; refused before the first where it could not be read again. */
  pieces(): Iterable<Uint8Array> {
    for (const part of [...this.waiting.keys()]) this.settle(part)
    const parts = [...this.parts.keys()].map((name) => this.packed(name))
    mustBeReadable(parts)
    return zipPieces(parts)
  }

  /** Walks through the tags of a part; what is no XML is refused in words. */
  tags(part: string): Generator<Tag> {
    const text = this.text(part)
    const { file } = this
    return (function* () {
      try {
        yield* tags(text)
      } catch (error) {
        if (error instanceof XmlError) throw new WorkbookError(`${file}: the workbook is damaged: ${part} has ${error.message}.`)
        throw error
      }
    })()
  }

  /** What a part points to; '' is the package itself. */
  relations(part: string): Relation[] {
    const rels = part === '' ? '_rels/.rels' : relsOf(part)
    if (!this.has(rels)) return []
    const text = this.text(rels)
    const found: Relation[] = []
    for (const tag of this.tags(rels)) {
      if (tag.name !== 'Relationship' || tag.isEnd) continue
      const all = attributes(text, tag)
      const isExternal = all.get('TargetMode') === 'External'
      const target = all.get('Target') ?? ''
      found.push({ id: all.get('Id') ?? '', type: all.get('Type') ?? '', target: isExternal ? target : resolvePart(part, target), isExternal })
    }
    return found
  }

  /** Adds a relationship; answers its id. */
  relate(part: string, type: string, target: string): string {
    const rels = relsOf(part)
    const numbers = () => this.relations(part).map(({ id: known }) => Number(/^rId(\d+)$/.exec(known)?.[1] ?? 0))
    const number = this.nextRelation.get(part) ?? Math.max(0, ...numbers()) + 1
    this.nextRelation.set(part, number + 1)
    const id = `rId${number}`
    const entry = `<Relationship Id="${id}" Type="${type.includes(':') ? type : `${RELATIONSHIPS}/${type}`}" Target="${escapeXml(relativeTo(part, target))}"/>`
    if (!this.has(rels)) {
      this.put(rels, `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${entry}</Relationships>`)
      this.knowsRelations ??= /<(?:\w+:)?Default\b[^>]*Extension\s*=\s*["']rels["']/i.test(this.text('[Content_Types].xml'))
      if (!this.knowsRelations) this.declare(rels, 'application/vnd.openxmlformats-package.relationships+xml')
      return id
    }
    this.insertBeforeEnd(rels, 'Relationships', entry)
    return id
  }

  /** Takes away the relationships that a test picks. */
  unrelate(part: string, isGone: (relation: Relation) => boolean): void {
    const rels = relsOf(part)
    if (!this.has(rels)) return
    const gone = new Set(
      this.relations(part)
        .filter(isGone)
        .map(({ id }) => id),
    )
    if (!gone.size) return
    const text = this.text(rels)
    const edits: Edit[] = []
    for (const tag of this.tags(rels))
      if (tag.name === 'Relationship' && !tag.isEnd && gone.has(attribute(text, tag, 'Id') ?? '')) edits.push({ from: tag.start, to: inside(text, tag).end, text: '' })
    this.put(rels, edited(text, edits))
  }

  /** Says of what kind a part is. `isNew` says that it was not there before. */
  declare(part: string, type: string, isNew = false): void {
    const entry = `PartName="/${escapeXml(part)}"`
    if (!isNew && this.text('[Content_Types].xml').includes(entry)) return
    this.insertBeforeEnd('[Content_Types].xml', 'Types', `<Override ${entry} ContentType="${type}"/>`)
  }

  undeclare(part: string): void {
    const list = '[Content_Types].xml'
    const text = this.text(list)
    const edits: Edit[] = []
    for (const tag of this.tags(list))
      if (tag.name === 'Override' && !tag.isEnd && (attribute(text, tag, 'PartName') ?? '').toLowerCase() === `/${part.toLowerCase()}`)
        edits.push({ from: tag.start, to: inside(text, tag).end, text: '' })
    if (edits.length) this.put(list, edited(text, edits))
  }

  /** Puts an entry before the end tag of a part's outermost list, opening one that is closed in itself; it takes the prefix of the list. */
  insertBeforeEnd(part: string, list: string, entry: string): void {
    let lists = this.waiting.get(part)
    if (!lists) this.waiting.set(part, (lists = new Map()))
    const entries = lists.get(list)
    if (!entries) lists.set(list, [entry])
    // A text put together of many takes far more room than its letters until it is joined.
    else if (entries.push(entry) >= ENTRIES_APART) entries.splice(0, entries.length, entries.join(''))
  }

  private settle(part: string): void {
    const lists = this.waiting.get(part)
    if (!lists) return
    this.waiting.delete(part)
    for (const [list, entries] of lists) this.insertNow(part, list, entries.join(''))
  }

  private insertNow(part: string, list: string, entry: string): void {
    const text = this.text(part)
    let open: Tag | undefined
    let close: Tag | undefined
    for (const tag of this.tags(part)) {
      if (tag.name !== list) continue
      if (tag.isEnd) close = tag
      else open ??= tag
    }
    if (!open) throw new WorkbookError(`${this.file}: the workbook is damaged: ${part} has no ${list}.`)
    const prefix = open.prefix ? `${open.prefix}:` : ''
    // An entry that brings its own namespace needs no prefix.
    const written = prefix && !entry.includes(' xmlns="') ? entry.replace(/<(\/?)(?=[A-Za-z])/g, `<$1${prefix}`) : entry
    if (close) this.put(part, `${text.slice(0, close.start)}${written}${text.slice(close.start)}`)
    else this.put(part, `${text.slice(0, open.end - 2)}>${written}</${prefix}${list}>${text.slice(open.end)}`)
  }

  private readSheets(): void {
    const text = this.text(this.mainPart)
    const byId = new Map(this.relations(this.mainPart).map((relation) => [relation.id, relation]))
    let isIn = false
    for (const tag of this.tags(this.mainPart)) {
      if (tag.name === 'workbookProtection' && /^(?:1|true)$/.test(attribute(text, tag, 'lockStructure') ?? '')) this.isLocked = true
      if (tag.name === 'sheets') isIn = !tag.isEnd && !tag.isEmpty
      if (!isIn || tag.name !== 'sheet' || tag.isEnd) continue
      const all = attributes(text, tag)
      const id = [...all].find(([name]) => /:id$/.test(name) || name === 'id')?.[1] ?? ''
      const relation = byId.get(id)
      if (!relation || !relation.type.endsWith('/worksheet') || !this.has(relation.target)) continue
      this.addSheet({ name: all.get('name') ?? '', part: relation.target, isHidden: (all.get('state') ?? 'visible') !== 'visible' })
    }
  }

  /** True when the workbook allows no sheet to be added or taken away. */
  isLocked = false

  /** Sheets with cells, in their order; chart sheets have none. */
  /** Names of the workbook and what each stands for; not those that say how a sheet is printed. */
  get definedNames(): ReadonlyMap<string, string> {
    const xml = this.text(this.mainPart)
    const found = new Map<string, string>()
    for (const tag of this.tags(this.mainPart)) {
      const name = tag.name === 'definedName' && !tag.isEnd ? (attribute(xml, tag, 'name') ?? '') : ''
      if (name && !/^_xlnm\./.test(name)) found.set(name, unescapeXml(inside(xml, tag).text))
    }
    return found
  }

  get sheets(): readonly BookSheet[] {
    return this.list
  }

  addSheet(sheet: BookSheet): void {
    this.list.push(sheet)
    const name = sheet.name.toLowerCase()
    // Of two with one name, which no program writes, the first counts.
    if (!this.byName.has(name)) this.byName.set(name, sheet)
  }

  sheetNamed(name: string): BookSheet | undefined {
    return this.byName.get(name.toLowerCase())
  }

  /** Refreshes the list of sheets after the workbook part was changed. */
  sheetsChanged(): void {
    this.list = []
    this.byName.clear()
    this.readSheets()
  }
}
