/** A zip as a list of parts: those that stay pass through packed as they came, byte for byte. */
import { crc32, deflate, inflate } from '#deflate'
import { Inflate } from 'fflate'

export class WorkbookError extends Error {}

/** A workbook that unpacks to more than this is refused: no office comes near it, and a zip bomb does. A thousand jobs are 1.7 GB. */
export const MOST_UNPACKED_BYTES = 2560 * 1024 * 1024
/** No part of a workbook that people work with is larger. */
export const MOST_PART_BYTES = 400 * 1024 * 1024
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
    const inflate = new Inflate((bytes) => {
      start.set(bytes.subarray(0, start.length - filled), filled)
      filled = Math.min(start.length, filled + bytes.length)
    })
    for (let at = 0; filled < start.length && at < part.raw.length; at += STEP_BYTES) inflate.push(part.raw.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= part.raw.length)
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
  for (const { raw, size } of parts) {
    count++
    packed += raw.length
    unpacked += size
  }
  if (count <= MOST_PARTS && packed <= MOST_PACKED_BYTES && unpacked <= MOST_UNPACKED_BYTES) return
  throw new WorkbookError(
    `The file would be too large to be read again: ${count.toLocaleString('en-US')} parts of at most ${MOST_PARTS.toLocaleString('en-US')}, ${megabytes(packed)} MB of at most ${megabytes(MOST_PACKED_BYTES)}, ${megabytes(unpacked)} MB unpacked of at most ${megabytes(MOST_UNPACKED_BYTES)}. Put the jobs into several files. Nothing was written.`,
  )
}

/** The parts as the bytes of a zip, in their order. */
export function writeZip(parts: Iterable<Part>): Uint8Array {
  const encoder = new TextEncoder()
  const list = [...parts].map((part) => ({ part, name: encoder.encode(part.name) }))
  const length = list.reduce((sum, { part, name }) => sum + 30 + 46 + 2 * name.length + part.raw.length, 22)
  const bytes = new Uint8Array(length)
  const view = new DataView(bytes.buffer)
  let at = 0
  const places = list.map(({ part, name }) => {
    const place = at
    view.setUint32(at, LOCAL, true)
    header(at + 4, part, name.length)
    bytes.set(name, at + 30)
    bytes.set(part.raw, at + 30 + name.length)
    at += 30 + name.length + part.raw.length
    return place
  })
  const directory = at
  list.forEach(({ part, name }, index) => {
    view.setUint32(at, CENTRAL, true)
    view.setUint16(at + 4, 20, true)
    header(at + 6, part, name.length)
    view.setUint32(at + 42, places[index]!, true)
    bytes.set(name, at + 46)
    at += 46 + name.length
  })
  view.setUint32(at, END, true)
  view.setUint16(at + 8, list.length, true)
  view.setUint16(at + 10, list.length, true)
  view.setUint32(at + 12, at - directory, true)
  view.setUint32(at + 16, directory, true)
  return bytes

  function header(from: number, { method, crc, size, raw, flags, time }: Part, nameLength: number): void {
    view.setUint16(from, 20, true)
    view.setUint16(from + 2, flags, true)
    view.setUint16(from + 4, method, true)
    view.setUint32(from + 6, time, true)
    view.setUint32(from + 10, crc, true)
    view.setUint32(from + 14, raw.length, true)
    view.setUint32(from + 18, size, true)
    view.setUint16(from + 22, nameLength, true)
  }
}
