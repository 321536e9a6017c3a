/** Single cells of a sheet set to a number or a text; look and everything round them stay. */
import { attribute, edited, encodeText, inside, tags, type Edit } from './xml.js'

export function setNumbers(xml: string, values: ReadonlyMap<string, number | string>): string {
  const edits: Edit[] = []
  for (const tag of tags(xml)) {
    if (tag.name !== 'c' || tag.isEnd) continue
    const reference = attribute(xml, tag, 'r')
    const value = reference === undefined ? undefined : values.get(reference)
    if (value === undefined) continue
    const prefix = tag.prefix ? `${tag.prefix}:` : ''
    const style = attribute(xml, tag, 's')
    const open = `<${prefix}c r="${reference}"${style === undefined ? '' : ` s="${style}"`}`
    const content =
      typeof value === 'number'
        ? `><${prefix}v>${value}</${prefix}v></${prefix}c>`
        : ` t="inlineStr"><${prefix}is><${prefix}t xml:space="preserve">${encodeText(value)}</${prefix}t></${prefix}is></${prefix}c>`
    edits.push({ from: tag.start, to: inside(xml, tag).end, text: open + content })
  }
  return edited(xml, edits)
}
