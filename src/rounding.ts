/** Spreadsheets round the decimal they show, so 2.675 rounds to 2.68 although its binary form lies below. */
export function roundTo(x: number, digits: number, how: (value: number) => number = Math.round): number {
  const factor = 10 ** Math.trunc(digits)
  const scaled = Number((Math.abs(x) * factor).toPrecision(15))
  return (Math.sign(x) * how(scaled)) / factor
}

/** What differs from a short number by the last digits of a double alone is that number: else "120 in" would lie beyond a limit of 120 in. `from` is the largest number that it was worked out from. */
export function shortNumber(value: number, from = Math.abs(value)): number {
  const short = Number(value.toPrecision(12))
  return Math.abs(short - value) <= 4 * Number.EPSILON * Math.max(Math.abs(value), from) ? short : value
}

/** Money to the cent. */
export const money = (value: number): number => roundTo(value, 2)

/** A value rounded to so many decimals, its thousands set apart by commas: what `toLocaleString` writes, which makes a formatter for each. */
export function withCommas(value: number, decimals: number): string {
  const [whole, fraction] = roundTo(value, decimals).toFixed(decimals).split('.') as [string, string?]
  const apart = whole.replace(/\B(?=(?:\d{3})+$)/g, ',')
  return fraction === undefined ? apart : `${apart}.${fraction}`
}

/** Money in words, to the cent. */
export const dollars = (value: number): string => `$${withCommas(value, 2)}`
