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

/** A wire size: 12, "12 AWG", "#12" are "12"; 0 is "1/0". */
function wireSize(raw: string | number): string | undefined {
  const text = String(raw)
    .replace(/^(?:no\.?|#)\s*/i, '')
    .replace(/\s*awg$/i, '')
    .trim()
  const sizes = column(conductors, 'size').map(String)
  return sizes.find((size) => size === (text === '0' ? '1/0' : text))
}

/** Finds the one spelling of a name, whatever its case and signs. */
export function nameIn(names: readonly string[]) {
  const tidy = (text: string) =>
    text
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, ' ')
      .trim()
  const byName = new Map(names.map((name) => [tidy(name), name]))
  return (raw: string | number) => byName.get(tidy(String(raw)))
}

const named = (label: string, names: readonly string[], fallback?: string) => {
  const options = { find: nameIn(names), allowed: `one of ${names.join(', ')}`, samples: names }
  return key(label, fallback === undefined ? options : { ...options, default: fallback })
}

export const pipeNames = distinct(pipes, 'pipe')
export const pipeKey = key('Kind of pipe', { find: nameIn(pipeNames), allowed: `one of ${pipeNames.join(', ')}`, samples: pipeNames })
export const pipeSizeKey = key('Nominal size', { find: nominalSize, allowed: 'a nominal size of that pipe, such as 1, 1.25 or "1-1/4"', samples: ['1', '1-1/4', '2'] })
export const wireKey = key('Wire size', { find: wireSize, allowed: `one of ${distinct(conductors, 'size').join(', ')} AWG`, samples: distinct(conductors, 'size') })
export const roofKey = named('Roof surface', distinct(roofs, 'surface'))
export const coverKey = named('Wiring method', distinct(coverDepths, 'method'))
export const conduitKey = named('Kind of conduit', distinct(conduits, 'conduit'))
export const conduitSizeKey = key('Trade size', { find: nominalSize, allowed: `one of ${distinct(conduits, 'size').join(', ')}`, samples: distinct(conduits, 'size') })
export const largestBreaker_A = Math.max(...column(breakers, 'rating_A').map(Number))
