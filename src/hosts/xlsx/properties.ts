/** What a workbook remembers of itself for us: custom document properties, beside those of others. */
import { HEAD, type Book } from './book.js'
import { attribute, decodeText, escapeXml, inside, unescapeXml } from './xml.js'

const PART = 'docProps/custom.xml'
const KIND = 'application/vnd.openxmlformats-officedocument.custom-properties+xml'
const TYPE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/custom-properties'
const FORMAT = '{D5CDD505-2E9C-101B-9397-08002B2CF9AE}'
const NAMESPACE = 'http://schemas.openxmlformats.org/officeDocument/2006/custom-properties'
const VALUES = 'http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes'
const EMPTY = `${HEAD}<Properties xmlns="${NAMESPACE}"></Properties>`

const partOf = (book: Book): string | undefined => book.relations('').find(({ type }) => type.endsWith('/custom-properties'))?.target

export function readProperty(book: Book, name: string): string | undefined {
  const part = partOf(book)
  if (!part || !book.has(part)) return undefined
  const text = book.text(part)
  for (const tag of book.tags(part)) {
    if (tag.name !== 'property' || tag.isEnd || attribute(text, tag, 'name') !== name) continue
    return decodeText(unescapeXml(inside(text, tag).text.replace(/<[^>]*>/g, '')))
  }
  return undefined
}

export function writeProperty(book: Book, name: string, value: string): void {
  let part = partOf(book)
  if (!part || !book.has(part)) {
    part = PART
    book.put(part, EMPTY)
    book.declare(part, KIND)
    book.relate('', TYPE, part)
  }
  const text = book.text(part)
  let most = 1
  for (const tag of book.tags(part)) {
    if (tag.name !== 'property' || tag.isEnd) continue
    most = Math.max(most, Number(attribute(text, tag, 'pid') ?? 1))
    if (attribute(text, tag, 'name') !== name) continue
    const { text: old, end } = inside(text, tag)
    book.put(part, text.slice(0, tag.end) + old.replace(/>[^<]*</, () => `>${escapeXml(value)}<`) + text.slice(tag.end + old.length, end) + text.slice(end))
    return
  }
  book.insertBeforeEnd(
    part,
    'Properties',
    `<property xmlns="${NAMESPACE}" fmtid="${FORMAT}" pid="${most + 1}" name="${escapeXml(name)}"><vt:lpwstr xmlns:vt="${VALUES}">${escapeXml(value)}</vt:lpwstr></property>`,
  )
}
