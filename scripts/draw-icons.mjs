// Draws the icons of this project: two tanks under a ground line, tied low. Plain pixels, no library, PNG written with zlib.
import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import * as zlib from 'node:zlib'

const out = join(dirname(fileURLToPath(import.meta.url)), '..', 'taskpane', 'assets')
const ink = [31, 42, 48]
const clay = [138, 75, 42]
const water = [43, 107, 134]
const paper = [255, 255, 255]

/** The picture in a square of 16: later shapes cover earlier ones. */
const shapes = [
  [0, 0, 16, 16, paper],
  [0, 3, 16, 4, clay],
  [1, 6, 7, 15, ink],
  [9, 6, 15, 15, ink],
  [2, 7, 6, 14, paper],
  [10, 7, 14, 14, paper],
  [2, 9, 6, 14, water],
  [10, 9, 14, 14, water],
  [6, 12, 10, 13, water],
  [6, 11, 10, 12, ink],
  [6, 13, 10, 14, ink],
  [3, 3, 5, 6, ink],
  [11, 3, 13, 6, ink],
]

function colorAt(x, y) {
  let color = paper
  for (const [left, top, right, bottom, own] of shapes) if (x >= left && x < right && y >= top && y < bottom) color = own
  return color
}

function png(size) {
  const rows = Buffer.alloc(size * (1 + size * 3))
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const color = colorAt(((x + 0.5) * 16) / size, ((y + 0.5) * 16) / size)
      rows.set(color, y * (1 + size * 3) + 1 + x * 3)
    }
  }
  const chunk = (type, data) => {
    const body = Buffer.concat([Buffer.from(type), data])
    const head = Buffer.alloc(4)
    head.writeUInt32BE(data.length)
    const tail = Buffer.alloc(4)
    tail.writeUInt32BE(crc(body))
    return Buffer.concat([head, body, tail])
  }
  const header = Buffer.alloc(13)
  header.writeUInt32BE(size, 0)
  header.writeUInt32BE(size, 4)
  header.set([8, 2, 0, 0, 0], 8)
  return Buffer.concat([Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]), chunk('IHDR', header), chunk('IDAT', zlib.deflateSync(rows, { level: 9 })), chunk('IEND', Buffer.alloc(0))])
}

/** zlib has crc32 from Node 20.15 on; before that, bit by bit. */
function crc(bytes) {
  if (zlib.crc32) return zlib.crc32(bytes)
  let value = ~0
  for (const byte of bytes) {
    value ^= byte
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1
  }
  return ~value >>> 0
}

mkdirSync(out, { recursive: true })
for (const size of [16, 20, 24, 32, 40, 48, 64, 80]) writeFileSync(join(out, `icon-${size}.png`), png(size))
