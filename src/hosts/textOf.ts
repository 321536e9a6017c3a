/** The text of a file: UTF-8, or UTF-16 where its first two bytes say so, as spreadsheet programs save "Unicode text". */
export function textOf(bytes: Uint8Array): string {
  const mark = `${bytes[0]} ${bytes[1]}`
  const encoding = mark === '255 254' ? 'utf-16le' : mark === '254 255' ? 'utf-16be' : 'utf-8'
  return new TextDecoder(encoding).decode(bytes)
}
