/** A short number of texts: the same texts in the same order have the same. Not for keeping secrets. */
export function shortHash(texts: Iterable<string>): string {
  let [one, other] = [0xdeadbeef, 0x41c6ce57]
  for (const text of texts) {
    for (let at = 0; at < text.length; at++) {
      const code = text.charCodeAt(at)
      one = Math.imul(one ^ code, 2654435761)
      other = Math.imul(other ^ code, 1597334677)
    }
  }
  return `${(other >>> 0).toString(16).padStart(8, '0')}${(one >>> 0).toString(16).padStart(8, '0')}`
}
