/** How people write pipe sizes, wire sizes and names, brought to the one spelling that the tables use. */
import { key } from './calc.js'
import { column, type Table } from './table.js'
import { breakers } from './tables/breakers.js'
import { conductors } from './tables/conductors.js'
import { conduits } from './tables/conduits.js'
import { coverDepths } from './tables/coverDepths.js'
import { pipes } from './tables/pipes.js'
import { roofs } from './tables/roofs.js'
import { parseNumber, plainText } from './units.js'

const distinct = (from: Table, name: string): string[] => [...new Set(column(from, name).map(String))]

/** A nominal size as the trade writes it: 1.25, "1 1/4" and "1-1/4 in" are all "1-1/4". */
export function nominalSize(raw: string | number): string | undefined {
  const value = typeof raw === 'number' ? raw : parseNumber(plainText(raw).replace(/(?:in|inch|inches|")\.?$/i, ''))
  if (value === undefined || !Number.isFinite(value) || value < 0) return undefined
  const whole = Math.floor(value)
  const eighths = Math.round((value - whole) * 8)
  if (Math.abs(whole + eighths / 8 - value) > 1e-9) return undefined
  if (eighths === 0) return String(whole)
  const divisor = eighths % 4 === 0 ? 4 : eighths % 2 === 0 ? 2 : 1
  const fraction = `${eighths / divisor}/${8 / divisor}`
  return whole === 0 ? fraction : `${whole}-${fraction}`
}

/** A wire size: 12, "12 AWG", "#12" are "12"; 0 is "1/0", 00 is "2/0". */
function wireSize(raw: string | number): string | undefined {
  const text = String(raw)
    .replace(/^(?:no\.?|#|awg)\s*/i, '')
    .replace(/\s*(?:awg|ga|gauge)\.?$/i, '')
    .trim()
  const sizes = column(conductors, 'size').map(String)
  return sizes.find((size) => size === (/^0+$/.test(text) ? `${text.length}/0` : text))
}

/** Words that the trade says with a name or without: a metal roof is metal, Schedule 40 is 40. */
const ALSO_SAID = new Set(['schedule', 'sch', 'roof'])

/** Finds the one spelling of a name, whatever its case, its signs, the order of its words and their plurals; `short` are names of the trade for some of them. */
export function nameIn(names: readonly string[], short: Readonly<Record<string, string>> = {}) {
  const tidy = (text: string) =>
    text
      .toLowerCase()
      .replace(/([a-z])(?=\d)|(\d)(?=[a-z])/g, '$& ')
      .split(/[^a-z0-9]+/)
      .filter((word) => word !== '' && !ALSO_SAID.has(word))
      .map((word) => (word.length > 3 ? word.replace(/s$/, '') : word))
      .sort()
      .join(' ')
  const byName = new Map([...Object.entries(short).map(([said, name]) => [tidy(said), name] as const), ...names.map((name) => [tidy(name), name] as const)])
  return (raw: string | number) => byName.get(tidy(String(raw)))
}

const named = (label: string, names: readonly string[], fallback?: string, short?: Readonly<Record<string, string>>) => {
  const options = { find: nameIn(names, short), allowed: `one of ${names.join(', ')}`, samples: names }
  return key(label, fallback === undefined ? options : { ...options, default: fallback })
}

export const pipeNames = distinct(pipes, 'pipe')
export const pipeKey = key('Kind of pipe', { find: nameIn(pipeNames, { 'SDR 35': 'PVC SDR 35' }), allowed: `one of ${pipeNames.join(', ')}`, samples: pipeNames })
export const pipeSizeKey = key('Nominal size', { find: nominalSize, allowed: 'a nominal size of that pipe, such as 1, 1.25 or "1-1/4"', samples: ['1', '1-1/4', '2'] })
export const wireKey = key('Wire size', { find: wireSize, allowed: `one of ${distinct(conductors, 'size').join(', ')} AWG`, samples: distinct(conductors, 'size') })
export const roofKey = named('Roof surface', distinct(roofs, 'surface'))
export const coverKey = named('Wiring method', distinct(coverDepths, 'method'), undefined, { RMC: 'rigid metal conduit', UF: 'direct burial', 'UF cable': 'direct burial' })
export const conduitKey = named('Kind of conduit', distinct(conduits, 'conduit'))
export const conduitSizeKey = key('Trade size', { find: nominalSize, allowed: `one of ${distinct(conduits, 'size').join(', ')}`, samples: distinct(conduits, 'size') })
export const largestBreaker_A = Math.max(...column(breakers, 'rating_A').map(Number))
