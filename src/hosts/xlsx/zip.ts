/** A zip as a list of parts: those that stay pass through packed as they came, byte for byte. */
import { crc32, deflate, inflate } from '#deflate'
import { Inflate } from 'fflate'

export class WorkbookError extends Error {}

/** A workbook that unpacks to more than this is refused: no office comes near it, and a zip bomb does. A thousand jobs are 1.7 GB. */
export const MOST_UNPACKED_BYTES = 2560 * 1024 * 1024
/** No part of a workbook that people work with is larger. */
const MOST_PART_BYTES = 400 * 1024 * 1024
export const MOST_PACKED_BYTES = 400 * 1024 * 1024
/** A workbook of a thousand jobs has some 25,000 parts. */
export const MOST_PARTS = 40_000

export interface Part {
  readonly name: string
  /** Packed as it stands in the file. */
  readonly raw: Uint8Array
  readonly method: number
  readonly crc: number
  readonly size: number
  readonly flags: number
  readonly time: number
  /** The length of `raw`, where that is not at hand. */
  readonly packedSize?: number
}

/** Where packed parts are laid aside, out of memory; answers how to fetch them. */
export interface Spool {
  put(bytes: Uint8Array): () => Uint8Array
}
export function laidAside(part: Part, spool: Spool): Part {
  const { name, method, crc, size, flags, time, raw } = part
  const fetch = spool.put(raw)
  return {
    ...{ name, method, crc, size, flags, time, packedSize: raw.length },
    get raw() {
      return fetch()
    },
  }
}

const CENTRAL = 0x02014b50
const LOCAL = 0x04034b50
const END = 0x06054b50
/** Names in UTF-8. */
const UTF8 = 0x800
const DEFLATED = 8

const megabytes = (bytes: number) => Math.round(bytes / 2 ** 20)

/** Reads the directory of a zip; nothing is unpacked yet. */
export function readZip(bytes: Uint8Array, file: string): Map<string, Part> {
  const refuse = (why: string): never => {
    throw new WorkbookError(`${file}: ${why}`)
  }
  if (bytes.length > MOST_PACKED_BYTES) refuse(`at most ${megabytes(MOST_PACKED_BYTES)} MB are read; it has ${megabytes(bytes.length)} MB.`)
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf) refuse('an .xlsx workbook is needed; this is an older .xls, or one protected with a password: save it as .xlsx without one.')
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) refuse('an .xlsx workbook is needed; this is no such file.')
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  let end = bytes.length - 22
  while (end >= 0 && view.getUint32(end, true) !== END && end > bytes.length - 65_558) end--
  if (end < 0 || view.getUint32(end, true) !== END) refuse('the workbook is damaged or cut short.')
  const count = view.getUint16(end + 10, true)
  if (count === 0xffff || count > MOST_PARTS)
    refuse(`at most ${MOST_PARTS.toLocaleString('en-US')} parts are read; it has ${count === 0xffff ? 'more' : count.toLocaleString('en-US')}.`)
  const parts = new Map<string, Part>()
  const seen = new Set<string>()
  const decoder = new TextDecoder()
  let at = view.getUint32(end + 16, true)
  let unpacked = 0
  for (let entry = 0; entry < count; entry++) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== CENTRAL) refuse('the workbook is damaged or cut short.')
    const flags = view.getUint16(at + 8, true)
    const method = view.getUint16(at + 10, true)
    const [crc, packed, size] = [16, 20, 24].map((offset) => view.getUint32(at + offset, true)) as [number, number, number]
    const lengths = [28, 30, 32].map((offset) => view.getUint16(at + offset, true))
    const name = decoder.decode(bytes.subarray(at + 46, at + 46 + lengths[0]!))
    const local = view.getUint32(at + 42, true)
    if (flags & 1) refuse('it is protected with a password: save it without one.')
    if (method !== 0 && method !== DEFLATED) refuse(`part ${name} is packed in a way that no spreadsheet program uses.`)
    if (seen.has(name.toLowerCase())) refuse(`part ${name} stands in it twice.`)
    unpacked += size
    if (size > MOST_PART_BYTES || unpacked > MOST_UNPACKED_BYTES)
      refuse(`it unpacks to more than ${megabytes(size > MOST_PART_BYTES ? MOST_PART_BYTES : MOST_UNPACKED_BYTES)} MB and is refused.`)
    if (local + 30 > bytes.length || view.getUint32(local, true) !== LOCAL) refuse('the workbook is damaged or cut short.')
    const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true)
    if (from + packed > bytes.length) refuse('the workbook is damaged or cut short.')
    seen.add(name.toLowerCase())
    if (!name.endsWith('/')) parts.set(name, { name, raw: bytes.subarray(from, from + packed), method, crc, size, flags: flags & UTF8, time: view.getUint32(at + 12, true) })
    at += 46 + lengths[0]! + lengths[1]! + lengths[2]!
  }
  return parts
}

/** The content of a part; refuses one whose check sum or length is not what the directory says. */
export function unpack(part: Part, file: string): Uint8Array {
  let content: Uint8Array
  try {
    // The length is what the directory said, so that a part cannot grow beyond it.
    content = part.method === 0 ? part.raw : inflate(part.raw, part.size)
  } catch {
    throw new WorkbookError(`${file}: the workbook is damaged: ${part.name} cannot be unpacked.`)
  }
  if (content.length !== part.size || crc32(content) !== part.crc) throw new WorkbookError(`${file}: the workbook is damaged: ${part.name} is not what it says it is.`)
  return content
}

/** Packed bytes that are unpacked at a time where only the start of a part is wanted. */
const STEP_BYTES = 2048

/** The first bytes of a part, its check sum not looked at. */
export function unpackStart(part: Part, length: number, file: string): Uint8Array {
  if (part.method === 0) return part.raw.subarray(0, length)
  const start = new Uint8Array(Math.min(length, part.size))
  let filled = 0
  try {
    const stream = new Inflate((bytes) => {
      start.set(bytes.subarray(0, start.length - filled), filled)
      filled = Math.min(start.length, filled + bytes.length)
    })
    for (let at = 0; filled < start.length && at < part.raw.length; at += STEP_BYTES) stream.push(part.raw.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= part.raw.length)
  } catch {
    throw new WorkbookError(`${file}: the workbook is damaged: ${part.name} cannot be unpacked.`)
  }
  return start.subarray(0, filled)
}

/** The time that parts of ours carry: the same workbook is the same file. */
const TIME = (((2026 - 1980) << 25) | (1 << 21) | (1 << 16)) >>> 0
export function pack(name: string, content: Uint8Array): Part {
  return { name, raw: deflate(content), method: DEFLATED, crc: crc32(content), size: content.length, flags: UTF8, time: TIME }
}

/** Refuses what could not be read again once it is written. */
export function mustBeReadable(parts: Iterable<Part>): void {
  let [count, packed, unpacked] = [0, 0, 0]
  for (const part of parts) {
    count++
    packed += part.packedSize ?? part.raw.length
    unpacked += part.size
  }
  if (count <= MOST_PARTS && packed <= MOST_PACKED_BYTES && unpacked <= MOST_UNPACKED_BYTES) return
  throw new WorkbookError(
    `The file would be too large to be read again: ${count.toLocaleString('en-US')} parts of at most ${MOST_PARTS.toLocaleString('en-US')}, ${megabytes(packed)} MB of at most ${megabytes(MOST_PACKED_BYTES)}, ${megabytes(unpacked)} MB unpacked of at most ${megabytes(MOST_UNPACKED_BYTES)}. Put the jobs into several files. Nothing was written.`,
  )
}

/** The parts as a zip, in their order, piece by piece: no more than one part is held. */
export function* zipPieces(parts: Iterable<Part>): Generator<Uint8Array> {
  const encoder = new TextEncoder()
  const directory: Uint8Array[] = []
  let at = 0
  for (const part of parts) {
    const name = encoder.encode(part.name)
    const { raw } = part
    directory.push(entry(CENTRAL, part, raw.length, name, at))
    yield entry(LOCAL, part, raw.length, name)
    yield raw
    at += LOCAL_BYTES + name.length + raw.length
  }
  yield* directory
  const end = new Uint8Array(END_BYTES)
  const view = new DataView(end.buffer)
  view.setUint32(0, END, true)
  view.setUint16(8, directory.length, true)
  view.setUint16(10, directory.length, true)
  view.setUint32(
    12,
    directory.reduce((sum, { length }) => sum + length, 0),
    true,
  )
  view.setUint32(16, at, true)
  yield end
}
const LOCAL_BYTES = 30
const CENTRAL_BYTES = 46
const END_BYTES = 22

/** What stands before a part, or, where it tells the part's place, in the directory at the end. */
function entry(kind: typeof LOCAL | typeof CENTRAL, { method, crc, size, flags, time }: Part, packed: number, name: Uint8Array, place = 0): Uint8Array {
  const start = kind === LOCAL ? LOCAL_BYTES : CENTRAL_BYTES
  const bytes = new Uint8Array(start + name.length)
  const view = new DataView(bytes.buffer)
  view.setUint32(0, kind, true)
  // The directory says first by what version of the format the part was written.
  if (kind === CENTRAL) view.setUint16(4, 20, true)
  const from = kind === LOCAL ? 4 : 6
  view.setUint16(from, 20, true)
  view.setUint16(from + 2, flags, true)
  view.setUint16(from + 4, method, true)
  view.setUint32(from + 6, time, true)
  view.setUint32(from + 10, crc, true)
  view.setUint32(from + 14, packed, true)
  view.setUint32(from + 18, size, true)
  view.setUint16(from + 22, name.length, true)
  if (kind === CENTRAL) view.setUint32(42, place, true)
  bytes.set(name, start)
  return bytes
}

/** The parts as the bytes of a zip. */
export const writeZip = (parts: Iterable<Part>): Uint8Array => joined([...zipPieces(parts)])

export function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const piece of pieces) {
    bytes.set(piece, at)
    at += piece.length
  }
  return bytes
}
