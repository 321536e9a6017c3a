/** Spreadsheets round the decimal they show, so 2.675 rounds to 2.68 although its binary form lies below. */
export function roundTo(x: number, digits: number, how: (value: number) => number = Math.round): number {
  const factor = 10 ** Math.trunc(digits)
  const scaled = Number((Math.abs(x) * factor).toPrecision(15))
  return (Math.sign(x) * how(scaled)) / factor
}

/** Money to the cent. */
export const money = (value: number): number => roundTo(value, 2)

/** Money in words, to the cent. */
export const dollars = (value: number): string => `$${value.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 })}`
