/** Packing and unpacking where there is a browser: in plain JavaScript. package.json (`#deflate`) says where Node's own takes its place. */
import { deflateSync, inflateSync } from 'fflate'

const PACK_LEVEL = 6

export const deflate = (content: Uint8Array): Uint8Array => deflateSync(content, { level: PACK_LEVEL })
/** Content of a known length; a packed text that grows beyond it is refused. */
export const inflate = (packed: Uint8Array, size: number): Uint8Array => inflateSync(packed, { out: new Uint8Array(size) })

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1
  return value >>> 0
})
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff
  for (let at = 0; at < bytes.length; at++) crc = (crc >>> 8) ^ table[(crc ^ bytes[at]!) & 255]!
  return (crc ^ 0xffffffff) >>> 0
}
