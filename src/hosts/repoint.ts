/** Formulas of an office's own sheets that point to cells of ours: they follow the line or name they meant when rows move. */
import { ofJob, pointsInto } from '../plan/definedNames.js'
import type { SheetPlan } from '../plan/plan.js'
import { readSheet, type Workbook } from './file.js'
import { isOfJob } from './standing.js'
import { follow, moveOf, plainName, type Move, type Moves } from './moves.js'
import type { Book, BookSheet } from './xlsx/book.js'
import { attribute, edited, escapeXml, inside, unescapeXml, type Edit, type Tag } from './xlsx/xml.js'

/** Tags that hold a formula: of a cell, a name, a format, a list of allowed values, a chart, a column of a table. */
const FORMULAS = new Set(['f', 'formula', 'formula1', 'formula2', 'definedName', 'calculatedColumnFormula'])

/** A sheet's name before the sign that parts it from a cell, in quotes or bare, as the text of a part has it. */
const sheetInXml = /(?:'|&apos;|&#39;)((?:[^'&!<>]|&(?!apos;|#39;)|''|&apos;&apos;)+)(?:'|&apos;|&#39;)!|(?<![\w.'])([A-Za-z_][\w.]*)!/g

/** References from elsewhere into sheets that are made again: noted sheet by sheet before that, followed when all are written. */
export class References {
  /** The sheets that each part points into, its own and those of the same job left out: they are made again together, or not at all. */
  private readonly pointing = new Map<string, ReadonlySet<string>>()
  private readonly wanted = new Set<string>()
  private readonly moves = new Map<string, Move>()
  private readonly written = new Set<string>()
  /** Names of ours are written with their sheets, as print areas and titles are. */
  private readonly ours = new Set<string>()
  /** What names of ours begin with, and the sheet that they point into: one that is not written any more goes. */
  private readonly ofJobs = new Map<string, string>()

  constructor(
    private readonly workbook: Workbook,
    sheetsOfJobs: readonly (readonly string[])[],
  ) {
    const { book } = workbook
    const jobOf = new Map(sheetsOfJobs.flatMap((names, job) => names.map((name) => [name.toLowerCase(), job] as const)))
    const names = new Map(book.sheets.map(({ name, part }) => [part, name.toLowerCase()]))
    for (const part of book.names()) {
      if (!/\.xml$/i.test(part) || !(names.has(part) || part === book.mainPart || /\/(?:charts|tables|pivotCache|drawings)\/[^/]+$/i.test(part))) continue
      const job = jobOf.get(names.get(part) ?? '')
      const found = new Set<string>()
      // Print areas and titles are written with their sheets.
      const text = part === book.mainPart ? book.text(part).replace(/<(?:\w+:)?definedName name="_xlnm[^>]*>[^<]*/g, '') : book.text(part)
      const named = [...text.matchAll(sheetInXml)].flatMap(([, quoted, bare]) => plainName(unescapeXml(quoted ?? bare!)).split(':'))
      const sources = [...text.matchAll(/<(?:\w+:)?worksheetSource\b[^>]*\ssheet="([^"]*)"/g)].map(([, sheet]) => plainName(unescapeXml(sheet!)))
      for (const name of [...named, ...sources]) {
        if (job === undefined || jobOf.get(name) !== job) found.add(name)
      }
      if (job !== undefined) book.close(part)
      if (found.size) this.pointing.set(part, found)
      for (const name of found) this.wanted.add(name)
    }
  }

  /** Remembers where the rows of a sheet stand, and where they will. */
  note(plan: SheetPlan): void {
    const { book } = this.workbook
    for (const { name } of plan.definedNames ?? []) {
      this.ours.add(name)
      this.ofJobs.set(ofJob(name), plan.name)
    }
    const standing = book.sheetNamed(plan.name)
    if (!standing) return
    this.written.add(standing.part)
    if (!this.wanted.has(plan.name.toLowerCase())) return
    this.moves.set(plan.name.toLowerCase(), moveOf(plan, readSheet(this.workbook, plan.name)!))
  }

  /**
   * Sheets of the office's own that have to do with what was made again are worked out anew by whatever opens the file. Those that
   * tables stand on are left: what their formulas came to is what the next making reads.
   */
  forgetResults(tables: ReadonlySet<string>): void {
    const { book } = this.workbook
    const own = book.sheets.filter((sheet) => !tables.has(sheet.name.toLowerCase()) && !this.written.has(sheet.part) && !isOfJob(this.workbook, sheet))
    const named = [...this.ours].map((name) => name.toLowerCase())
    const pointsTo = (part: string, wanted: (name: string) => boolean) => [...(this.pointing.get(part) ?? [])].some(wanted)
    const looks = ({ part }: BookSheet): boolean => {
      if (pointsTo(part, (name) => this.written.has(book.sheetNamed(name)?.part ?? ''))) return true
      const text = named.length ? book.text(part).toLowerCase() : ''
      return named.some((name) => text.includes(name))
    }
    const stale = new Set(own.filter(looks).map(({ name }) => name.toLowerCase()))
    // And those that point to such a sheet; a set grows while it is walked through.
    for (const name of stale) for (const sheet of own) if (pointsTo(sheet.part, (into) => into === name)) stale.add(sheet.name.toLowerCase())
    for (const { name, part } of own) if (stale.has(name.toLowerCase())) book.put(part, withoutResults(book, part))
  }

  /** Follows every reference into the sheets noted; answers, in words, those that could not be followed. */
  follow(): string[] {
    const { book } = this.workbook
    const { moves, ours } = this
    if (!moves.size) return []
    const names = new Map(book.sheets.map(({ name, part }) => [part, name]))
    const gone = this.namesGone()
    const lost = gone.flatMap((name) => this.usesOf(name))
    for (const [part, into] of this.pointing) {
      if (this.written.has(part) || ![...into].some((name) => moves.has(name))) continue
      const xml = book.text(part)
      const edits: Edit[] = []
      const where = names.get(part)
      let at = ''
      for (const tag of book.tags(part)) {
        if (tag.isEnd) continue
        if (tag.name === 'c' && where !== undefined) at = `${where}!${/\sr="([A-Z]+\d+)"/.exec(xml.slice(tag.start, tag.end))?.[1] ?? ''}`
        const place = tag.name === 'definedName' ? `the name ${attribute(xml, tag, 'name')}` : tag.name === 'f' && where !== undefined ? at : (where ?? part)
        if (tag.name === 'hyperlink') link(xml, tag, place, moves, edits, lost)
        if (tag.name === 'sp') follow(unescapeXml(attribute(xml, tag, 'textlink') ?? ''), moves, `a shape of ${part}`, lost, true)
        if (tag.name === 'worksheetSource' && moves.has((attribute(xml, tag, 'sheet') ?? '').toLowerCase()))
          lost.push(`a pivot table reads ${attribute(xml, tag, 'sheet')}!${attribute(xml, tag, 'ref') ?? ''}: look whether these are still its rows`)
        const word = attribute(xml, tag, 'name') ?? ''
        if (!FORMULAS.has(tag.name) || tag.isEmpty || /^_xlnm\./.test(word) || (tag.name === 'definedName' && (ours.has(word) || gone.includes(word)))) continue
        const { text } = inside(xml, tag)
        const formula = unescapeXml(text)
        const isShared = attribute(xml, tag, 't') === 'shared'
        const followed = follow(formula, moves, place, lost)
        if (followed === formula) continue
        // The cells that share a formula stand for other rows: moving the first would move all by as much.
        if (isShared) lost.push(`${place} shares its formula with other cells (=${formula.slice(0, 60)}): look whether they still mean what they did`)
        else edits.push({ from: tag.end, to: tag.end + text.length, text: escapeXml(followed) })
      }
      if (edits.length) book.put(part, edited(xml, edits))
    }
    return lost
  }

  /** Names that an earlier making gave its sums, and this one has no more. */
  private namesGone(): string[] {
    const { book } = this.workbook
    const xml = book.text(book.mainPart)
    const stand = [...book.tags(book.mainPart)].flatMap((tag) =>
      tag.name === 'definedName' && !tag.isEnd && !tag.isEmpty ? [{ name: attribute(xml, tag, 'name') ?? '', place: unescapeXml(inside(xml, tag).text) }] : [],
    )
    const isOfOurs = (name: string, place: string): boolean => {
      const sheet = this.ofJobs.get(ofJob(name))
      return sheet !== undefined && pointsInto(place, sheet) && /!\$[A-Z]+\$\d+$/.test(place)
    }
    return stand.filter(({ name, place }) => !this.ours.has(name) && isOfOurs(name, place)).map(({ name }) => name)
  }

  /** Cells of the office's own sheets whose formulas have a name, in words. */
  private usesOf(name: string): string[] {
    const { book } = this.workbook
    const used = new RegExp(`(?<![\\w.])${name.replace(/\./g, '\\.')}(?![\\w.])`, 'i')
    return book.sheets.flatMap((sheet) => {
      if (this.written.has(sheet.part) || !used.test(book.text(sheet.part))) return []
      const xml = book.text(sheet.part)
      let at = ''
      return [...book.tags(sheet.part)].flatMap((tag) => {
        if (tag.name === 'c' && !tag.isEnd) at = `${sheet.name}!${/\sr="([A-Z]+\d+)"/.exec(xml.slice(tag.start, tag.end))?.[1] ?? ''}`
        const formula = tag.name === 'f' && !tag.isEnd && !tag.isEmpty ? unescapeXml(inside(xml, tag).text) : ''
        return used.test(formula) ? [`${at} uses ${name}, and the job has no such sum any more`] : []
      })
    })
  }
}

/** A part without the saved results of its formulas: a spreadsheet that trusts them would show the money of before. */
function withoutResults(book: Book, part: string): string {
  const xml = book.text(part)
  const edits: Edit[] = []
  let hasFormula = false
  for (const tag of book.tags(part)) {
    if (tag.name === 'c') hasFormula = false
    else if (tag.name === 'f') hasFormula = true
    else if (tag.name === 'v' && hasFormula && !tag.isEnd && !tag.isEmpty) edits.push({ from: tag.start, to: inside(xml, tag).end, text: '' })
  }
  return edits.length ? edited(xml, edits) : xml
}

/** A link to a place in the workbook. */
function link(xml: string, tag: Tag, place: string, moves: Moves, edits: Edit[], lost: string[]): void {
  const location = attribute(xml, tag, 'location')
  if (location === undefined) return
  const followed = follow(location, moves, place, lost)
  if (followed === location) return
  const text = xml.slice(tag.start, tag.end)
  edits.push({ from: tag.start, to: tag.end, text: text.replace(/(\slocation\s*=\s*)(?:"[^"]*"|'[^']*')/, (_, start: string) => `${start}"${escapeXml(followed)}"`) })
}
