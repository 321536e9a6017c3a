/** A drawing as data: shapes in feet with a role each, and labels that stand in lanes above and below them. Writers turn it into SVG or into shapes of a sheet. */
import { convert } from '../../units.js'

/** By this word before its name a picture in a workbook is known for ours, and somebody's own beside it stays. */
export const OUR_PICTURE = 'Cistern Sheet: '

export type Point = readonly [x_ft: number, y_ft: number]
/** What a shape is; how it looks is said by its writer. */
export type ShapeRole =
  | 'earth'
  | 'fill'
  | 'stone'
  | 'concrete'
  | 'air'
  | 'water'
  | 'riser'
  | 'pump'
  | 'ground'
  | 'groundwater'
  | 'pit'
  | 'hip'
  | 'spoil'
  | 'break'
  | 'crane'
  | 'inlet'
  | 'overflow'
  | 'tie'
  | 'waterline'
  | 'conduit'
  | 'rod'
  | 'short'
  | 'demand'
  | 'axis'
  | 'full'

export type Shape =
  | { kind: 'area'; role: ShapeRole; points: readonly Point[] }
  | { kind: 'path'; role: ShapeRole; points: readonly Point[]; /** Outside diameter of a pipe. */ outside_in?: number }
  | { kind: 'circle'; role: ShapeRole; at: Point; radius_ft: number }

export interface Label {
  words: string
  /** What it names: a thin line leads there. */
  at: Point
  lane: 'above' | 'below'
  /** What does not fit is left out from the least important; 1 is the most. */
  importance: number
}
/** Words at a fixed place among the shapes. */
export interface PlacedWords {
  words: string
  at: Point
}
/** A measure down the left edge, from one height to another. */
export interface Height {
  words: string
  from_ft: number
  to_ft: number
}
export interface Picture {
  left_ft: number
  right_ft: number
  top_ft: number
  bottom_ft: number
  shapes: readonly Shape[]
  labels: readonly Label[]
  texts?: readonly PlacedWords[]
  heights: readonly Height[]
  /** A measure under the picture. */
  length: { words: string; from_ft: number; to_ft: number }
  /** Its units are no feet: it has no bar. */
  isChart?: true
  title: string
  /** For people who do not see it. */
  description: string
}

export const rectangle = (left: number, top: number, width: number, height: number): readonly Point[] => [
  [left, top],
  [left + width, top],
  [left + width, top + height],
  [left, top + height],
]

export interface PlacedText {
  words: string
  /** Of the middle of the words, or of their right end for a height. */
  x: number
  /** Of the middle of the line. */
  y: number
  width: number
  anchor: 'middle' | 'end'
  /** A thin line from the words to what they name. */
  leader?: readonly (readonly [number, number])[]
}
export interface Layout {
  /** Page units a foot. */
  scale: number
  width: number
  height: number
  x(feet: number): number
  y(feet: number): number
  texts: readonly PlacedText[]
  /** Lines of the measures: the line itself and its two ticks. */
  measures: readonly (readonly (readonly [number, number])[])[]
}

/** Width of a letter as a share of its size, on the safe side for the faces that sheets and panes use. */
const LETTER = 0.54
/** Height of a line of words as a share of its size. */
const LINE = 1.3
const MOST_ROWS = 4
const wordsWidth = (words: string, size: number): number => words.length * LETTER * size

const gapOf = (size: number): number => size * 0.6
/** What the measures at the left take. */
const columnOf = ({ heights }: Picture, size: number): number => (heights.length ? Math.max(...heights.map(({ words }) => wordsWidth(words, size))) + 2 * gapOf(size) : 0)
/** The width that a picture takes at a scale. */
export const widthAt = (picture: Picture, size: number, scale: number): number => columnOf(picture, size) + (picture.right_ft - picture.left_ft) * scale

export interface Page {
  /** Of the words, in page units, as all that follows. */
  size: number
  width: number
  /** Page units a foot; left out, the picture takes the width. */
  scale?: number
  /** Of the shapes alone. */
  mostHeight?: number
  /** A bar of whole feet under the picture. */
  withBar?: boolean
  /** Of words above, and below. */
  mostRows?: number
}
/** Feet of a scale bar. */
const BARS_FT = [1, 2, 5, 10, 20, 50]

/** Puts a picture into a width: heights at its left, then the shapes to one scale, labels in lanes above and below. */
export function laidOut(picture: Picture, { size, width, scale, mostHeight = Infinity, withBar = false, mostRows = MOST_ROWS }: Page): Layout {
  const gap = gapOf(size)
  const column = columnOf(picture, size)
  const [wide, high] = [picture.right_ft - picture.left_ft, picture.bottom_ft - picture.top_ft]
  const taken = scale ?? Math.min((width - column) / wide, mostHeight / high)
  const left = column + Math.max(0, (width - column - wide * taken) / 2)
  const x = (feet: number) => left + (feet - picture.left_ft) * taken
  const above = lane(picture.labels, 'above', { size, width, x, gap, mostRows })
  const below = lane(picture.labels, 'below', { size, width, x, gap, mostRows })
  const top = above.rows * size * LINE + (above.rows ? gap : 0)
  const y = (feet: number) => top + (feet - picture.top_ft) * taken
  const floor = y(picture.bottom_ft)
  const ticks: (readonly (readonly [number, number])[])[] = []
  const texts: PlacedText[] = []
  for (const { label, row, x: at, wide: long } of above.placed) {
    const line = top - gap - (row + 0.5) * size * LINE
    texts.push({ words: label.words, x: at, y: line, width: long, anchor: 'middle', leader: led(at, long, line + size * 0.6, label.at) })
  }
  for (const { words, at } of picture.texts ?? []) texts.push({ words, x: x(at[0]), y: y(at[1]), width: wordsWidth(words, size), anchor: 'middle' })
  const lengthLine = floor + gap
  measure([x(picture.length.from_ft), lengthLine], [x(picture.length.to_ft), lengthLine], 'across')
  const [from, to] = [x(picture.length.from_ft), x(picture.length.to_ft)]
  const lengthWide = wordsWidth(picture.length.words, size)
  texts.push({ words: picture.length.words, x: inside((from + to) / 2, lengthWide, width), y: lengthLine + size * LINE * 0.7, width: lengthWide, anchor: 'middle' })
  const belowTop = lengthLine + size * LINE * 1.4
  for (const { label, row, x: at, wide: long } of below.placed) {
    const line = belowTop + (row + 0.5) * size * LINE
    texts.push({ words: label.words, x: at, y: line, width: long, anchor: 'middle' })
  }
  heights()
  let end = belowTop + below.rows * size * LINE + gap / 2
  if (withBar) end = bar(end)
  return { scale: taken, width, height: end, x, y, texts, measures: ticks }

  /** A bar of a length that the eye can hold. */
  function bar(top_: number): number {
    const feet = [...BARS_FT].reverse().find((one) => one * taken <= width / 4) ?? BARS_FT[0]!
    const line = top_ + gap
    measure([left, line], [left + feet * taken, line], 'across')
    const words = `${feet} ft (${Math.round(convert(feet, 'ft', 'm') * 100) / 100} m)`
    texts.push({ words, x: left + feet * taken + gap + wordsWidth(words, size) / 2, y: line, width: wordsWidth(words, size), anchor: 'middle' })
    return line + size * LINE
  }

  /** From the words to the thing, straight down where the words stand over it. */
  function led(at: number, long: number, from_: number, to_: Point): readonly (readonly [number, number])[] {
    const target = x(to_[0])
    return [
      [Math.min(at + long / 2, Math.max(at - long / 2, target)), from_],
      [target, y(to_[1])],
    ]
  }

  /** A line with a tick at both ends. */
  function measure(one: readonly [number, number], other: readonly [number, number], way: 'across' | 'down'): void {
    const half = size * 0.3
    const tick = ([tx, ty]: readonly [number, number]): readonly (readonly [number, number])[] =>
      way === 'across'
        ? [
            [tx, ty - half],
            [tx, ty + half],
          ]
        : [
            [tx - half, ty],
            [tx + half, ty],
          ]
    ticks.push([one, other], tick(one), tick(other))
  }

  /** Measures down the left edge; where two would touch, the shorter one is left out. */
  function heights(): void {
    const line = left - gap
    const taken_: [number, number][] = []
    for (const { words, from_ft, to_ft } of [...picture.heights].sort((one, other) => other.to_ft - other.from_ft - (one.to_ft - one.from_ft))) {
      const middle = (y(from_ft) + y(to_ft)) / 2
      const [high_, low] = [middle - (size * LINE) / 2, middle + (size * LINE) / 2]
      if (taken_.some(([start, end]) => high_ < end && low > start)) continue
      taken_.push([high_, low])
      measure([line, y(from_ft)], [line, y(to_ft)], 'down')
      texts.push({ words, x: line - gap, y: middle, width: wordsWidth(words, size), anchor: 'end' })
    }
  }
}

/** The words stay on the page. */
const inside = (at: number, long: number, width: number): number => Math.min(width - long / 2, Math.max(long / 2, at))

interface Placed {
  label: Label
  row: number
  x: number
  wide: number
  target: number
}

/** Labels of a lane in rows, the most important nearest; one that finds no room is left out. */
function lane(
  labels: readonly Label[],
  which: Label['lane'],
  { size, width, x, gap, mostRows }: { size: number; width: number; x: (feet: number) => number; gap: number; mostRows: number },
): { placed: Placed[]; rows: number } {
  const placed: Placed[] = []
  const wanted = labels.filter(({ lane: own }) => own === which).sort((one, other) => one.importance - other.importance)
  for (const label of wanted) {
    const wide = wordsWidth(label.words, size)
    const target = x(label.at[0])
    const at = inside(target, wide, width)
    if (wide > width) continue
    const leader = Math.min(at + wide / 2, Math.max(at - wide / 2, target))
    for (let row = 0; row < mostRows; row++) {
      const hits = placed.some(
        (other) =>
          (other.row === row && Math.abs(other.x - at) < (other.wide + wide) / 2 + gap) ||
          // Its leader would run through words nearer to the picture, or theirs through these.
          (which === 'above' && other.row < row && leader > other.x - other.wide / 2 - gap / 2 && leader < other.x + other.wide / 2 + gap / 2) ||
          (which === 'above' && other.row > row && other.target > at - wide / 2 - gap / 2 && other.target < at + wide / 2 + gap / 2),
      )
      if (hits) continue
      placed.push({ label, row, x: at, wide, target: leader })
      break
    }
  }
  return { placed, rows: placed.length ? Math.max(...placed.map(({ row }) => row)) + 1 : 0 }
}
