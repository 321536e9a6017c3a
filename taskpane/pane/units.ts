/** Shows figures in US or metric units; the workbook itself stays in US units. */
import { convert, decimalsOf, symbolOf, unitOf, type UnitName } from '../../src/units.js'

export type Shown = 'US' | 'metric'

const metric: Partial<Record<UnitName, { unit: UnitName; symbol: string; decimals: number }>> = {
  ft: { unit: 'm', symbol: 'm', decimals: 2 },
  in: { unit: 'mm', symbol: 'mm', decimals: 0 },
  ft2: { unit: 'm2', symbol: 'm²', decimals: 1 },
  gal: { unit: 'L', symbol: 'L', decimals: 0 },
  yd3: { unit: 'm3', symbol: 'm³', decimals: 1 },
  gpm: { unit: 'Lpmin', symbol: 'L/min', decimals: 1 },
  ftw: { unit: 'mw', symbol: 'm of water', decimals: 1 },
  psi: { unit: 'bar', symbol: 'bar', decimals: 2 },
  lb: { unit: 'kg', symbol: 'kg', decimals: 0 },
  fps: { unit: 'mps', symbol: 'm/s', decimals: 2 },
  gal_per_day: { unit: 'L_per_day', symbol: 'L/day', decimals: 0 },
}

/** Shares that read better as percent. */
const shares: readonly string[] = ['Reliability', 'FeederDropShare']

/** Nominal sizes are names and no lengths: DN of ISO 6708 for each size in inches. */
const nominal: readonly string[] = ['DrainSize_in', 'TankPort_in']
const nominalDiameter: Readonly<Record<number, number>> = { 3: 80, 4: 100, 6: 150, 8: 200 }

/** A value with its unit in words, such as "5,306 gal". */
export function inUnits(name: string, value: unknown, shown: Shown): string {
  if (typeof value !== 'number') return String(value ?? '')
  if (shares.includes(name)) return `${(100 * value).toLocaleString('en-US', { maximumFractionDigits: 1 })} %`
  const diameter = shown === 'metric' && nominal.includes(name) ? nominalDiameter[value] : undefined
  if (diameter) return `DN ${diameter} (${value} in)`
  const unit = unitOf(name)
  const other = shown === 'metric' && unit ? metric[unit] : undefined
  const [figure, decimals, symbol] = other
    ? [convert(value, unit!, other.unit), other.decimals, other.symbol]
    : [value, unit || !Number.isInteger(value) ? decimalsOf(name) : 0, symbolOf(name)]
  return `${figure.toLocaleString('en-US', { minimumFractionDigits: 0, maximumFractionDigits: decimals })}${symbol ? ` ${symbol}` : ''}`
}
