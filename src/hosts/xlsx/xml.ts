/** XML as tags with their places, so that a part can be read in one pass and changed without being rebuilt. */
export interface Tag {
  /** Without its prefix. */
  name: string
  prefix: string
  /** The tag's own place: from its "<" to behind its ">". */
  start: number
  end: number
  isEnd: boolean
  /** A tag that is closed in itself. */
  isEmpty: boolean
}

export class XmlError extends Error {}

const [LESS, SLASH, GREATER, BANG, QUESTION, QUOTE, APOSTROPHE, COLON] = [...'</>!?"\':'].map((letter) => letter.charCodeAt(0)) as [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
]
const isSpace = (code: number) => code === 32 || code === 10 || code === 13 || code === 9

/** Every tag from a place on; comments, CDATA and instructions are passed over. */
export function* tags(xml: string, from = 0, to = xml.length): Generator<Tag> {
  let at = from
  for (;;) {
    const start = xml.indexOf('<', at)
    if (start < 0 || start >= to) return
    const next = xml.charCodeAt(start + 1)
    if (next === QUESTION) at = xml.indexOf('?>', start) + 2
    else if (next === BANG) {
      if (xml.startsWith('<!--', start)) at = xml.indexOf('-->', start) + 3
      else if (xml.startsWith('<![CDATA[', start)) at = xml.indexOf(']]>', start) + 3
      else throw new XmlError('a document type, which no spreadsheet program writes')
      if (at < 3) throw new XmlError('a comment that is not closed')
    } else {
      const tag = tagAt(xml, start)
      yield tag
      at = tag.end
    }
    if (at < start) throw new XmlError('a tag that is not closed')
  }
}

function tagAt(xml: string, start: number): Tag {
  const isEnd = xml.charCodeAt(start + 1) === SLASH
  let at = start + (isEnd ? 2 : 1)
  const nameStart = at
  let colon = -1
  for (; at < xml.length; at++) {
    const code = xml.charCodeAt(at)
    if (isSpace(code) || code === GREATER || code === SLASH) break
    if (code === COLON) colon = at
    if (code === LESS) throw new XmlError('a tag that is not closed')
  }
  const nameEnd = at
  // A ">" may stand in a value, so quotes are followed.
  let quote = 0
  for (; at < xml.length; at++) {
    const code = xml.charCodeAt(at)
    if (quote) {
      if (code === quote) quote = 0
    } else if (code === QUOTE || code === APOSTROPHE) quote = code
    else if (code === GREATER) break
  }
  if (at >= xml.length) throw new XmlError('a tag that is not closed')
  return {
    name: xml.slice(colon < 0 ? nameStart : colon + 1, nameEnd),
    prefix: colon < 0 ? '' : xml.slice(nameStart, colon),
    start,
    end: at + 1,
    isEnd,
    isEmpty: xml.charCodeAt(at - 1) === SLASH,
  }
}

/** The attributes of a tag, by their names as written. */
export function attributes(xml: string, { start, end }: Tag): Map<string, string> {
  const found = new Map<string, string>()
  const text = xml.slice(start, end)
  for (const match of text.matchAll(/\s([^\s=/>]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) found.set(match[1]!, unescapeXml(match[2] ?? match[3] ?? ''))
  return found
}

const EQUALS = '='.charCodeAt(0)
function behindSpaces(xml: string, from: number): number {
  let at = from
  while (isSpace(xml.charCodeAt(at))) at++
  return at
}

/** One attribute without a map of all: cells are many. */
export function attribute(xml: string, { start, end }: Tag, name: string): string | undefined {
  // Not in the whole text: a name that no tag has would be looked for to its end, once a cell.
  const tag = xml.slice(start, end)
  let at = tag.indexOf(name)
  while (at > 0) {
    let after = behindSpaces(tag, at + name.length)
    if (isSpace(tag.charCodeAt(at - 1)) && tag.charCodeAt(after) === EQUALS) {
      after = behindSpaces(tag, after + 1)
      return unescapeXml(tag.slice(after + 1, tag.indexOf(tag.charAt(after), after + 1)))
    }
    at = tag.indexOf(name, at + 1)
  }
  return undefined
}

const entities: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" }
/** No letter has a number beyond the last of Unicode: what asks for one stays as it is written. */
const letter = (code: number, whole: string): string => (code <= 0x10ffff ? String.fromCodePoint(code) : whole)
export const unescapeXml = (text: string): string =>
  text.includes('&')
    ? text.replace(/&(?:#x([0-9a-fA-F]+)|#(\d+)|(\w+));/g, (whole: string, hex?: string, decimal?: string, name?: string) =>
        hex !== undefined ? letter(parseInt(hex, 16), whole) : decimal !== undefined ? letter(Number(decimal), whole) : (entities[name!] ?? whole),
      )
    : text

/** Text that is set apart from tags, written as all other text. */
export const withoutCdata = (xml: string): string => (xml.includes('<![CDATA[') ? xml.replace(/<!\[CDATA\[([\s\S]*?)\]\]>/g, (_, text: string) => escapeXml(text)) : xml)

/** What a spreadsheet writes for control characters, and for text that looks like one: _x0007_. */
export const decodeText = (text: string): string => (text.includes('_x') ? text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) => String.fromCharCode(parseInt(hex, 16))) : text)

/** All that is no letter of XML 1.0 (2.2, Char; halves of a pair are let through): written as codes. */
const controls = /[^\t\n\r\u0020-\ufffd]/g
export const escapeXml = (text: string): string => (/[&<>"]/.test(text) ? text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;') : text)
/** Text as a cell holds it. */
export const encodeText = (text: string): string =>
  escapeXml(
    (text.includes('_x') ? text.replace(/_(x[0-9A-Fa-f]{4}_)/g, '_x005F_$1') : text).replace(
      controls,
      (letter) => `_x${letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`,
    ),
  )

/** The text between a start tag and its end tag, and where it ends. */
export function inside(xml: string, open: Tag): { text: string; end: number } {
  if (open.isEmpty) return { text: '', end: open.end }
  const close = `</${open.prefix ? `${open.prefix}:` : ''}${open.name}`
  const end = xml.indexOf(close, open.end)
  return { text: xml.slice(open.end, end < 0 ? xml.length : end), end: end < 0 ? xml.length : xml.indexOf('>', end) + 1 }
}

export interface Edit {
  from: number
  to: number
  text: string
}
/** The text with places replaced; edits stand in no order and do not overlap. */
export function edited(xml: string, edits: readonly Edit[]): string {
  let result = ''
  let at = 0
  for (const { from, to, text } of [...edits].sort((one, other) => one.from - other.from)) {
    result += xml.slice(at, from) + text
    at = to
  }
  return result + xml.slice(at)
}
