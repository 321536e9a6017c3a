/** Words of the sums of a takeoff: what stands beside them, and as the heading of a part. No section of an office is called so. */
import { itemKinds, sections, type ItemKind } from './officeTables.js'

export const ADDED_SECTION = 'ADDED BY HAND'
export const ADDED_SECTION_WORDS = 'Added by hand'
export const SUMMARY = 'SUMMARY'
export const ORDER_COST = 'Order cost'
export const CREW_DAYS = 'Days of the crew'
export const PER_GALLON = 'Price a gallon stored'
export const LIST_MOVED = 'List prices have moved the order cost by'
/** Typed under the sum of the lines by hand, or on a row put in among lines without its formulas. */
export const UNCOUNTED = 'Prices by hand that no amount counts'
export const kindLabel = (kind: ItemKind): string => `Of the order cost: ${kind}`
/** Of lines by hand, on the quote. */
export const FURTHER_WORK = ['Further work', 'Further work and credits'] as const
/** Sums from the cost to the price; they have a name in the workbook, beside those of the sections. */
export const PRICE_SUMS = [ORDER_COST, 'Overhead', 'Markup', 'Tax', 'Total'] as const

const SUM_END = ', total'
export const sumOf = (section: string): string => `${section}${SUM_END}`
export const sectionOfSum = (label: string): string => label.slice(0, -SUM_END.length)
export const ADDED_SUM = sumOf(ADDED_SECTION_WORDS)
/** Sections by the words beside their sums, with ours: an office may have sections of its own. */
export const sectionsBySums = (words: readonly string[]): readonly string[] => [...new Set([...sections, ...words.filter((label) => label.endsWith(SUM_END)).map(sectionOfSum)])]

/** What stands as the heading of a part, where the sections are these. */
export const partHeadings = (all: readonly string[]): readonly string[] => [...all.map((section) => section.toUpperCase()), ADDED_SECTION, SUMMARY]
/** What stands beside a sum. */
export const sumLabels = (all: readonly string[]): readonly string[] => [
  ...all,
  ADDED_SECTION_WORDS,
  ...all.map(sumOf),
  ADDED_SUM,
  ...PRICE_SUMS,
  ...itemKinds.map(kindLabel),
  CREW_DAYS,
  PER_GALLON,
  LIST_MOVED,
  UNCOUNTED,
]
/** Whether a section of that name would be taken for a sum. */
export const isSumWord = (section: string): boolean =>
  section.toLowerCase().endsWith(SUM_END) || [...sumLabels([]), ...FURTHER_WORK, SUMMARY].some((label) => label.toLowerCase() === section.toLowerCase())
