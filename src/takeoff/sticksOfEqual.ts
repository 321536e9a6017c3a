/** What the last digits of a quotient may lose, as a formula writes it. */
export const CUT_SLACK = '0.000000001'
const ROUNDING = Number(CUT_SLACK)

/** Sticks for equal pieces: as many as a stick gives are cut from each. Undefined where the piece is longer than the stick. */
export function sticksOfEqual(stock: number, kerf: number, length: number, count: number): number | undefined {
  if (length > stock + ROUNDING) return undefined
  return Math.ceil(count / Math.floor((stock + kerf) / (length + kerf) + ROUNDING) - ROUNDING)
}
