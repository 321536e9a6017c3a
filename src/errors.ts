/** What a calculation answers when it cannot give a result: data first, the sentence is made from it. */
export interface Refusal {
  code: '#VALUE!' | '#N/A'
  /** The argument, field or place concerned; empty for the calculation as a whole. */
  place: string
  allowed: string
  came: string
}

export class InputError extends Error {
  readonly refusal: Refusal
  constructor(refusal: Refusal) {
    super(sentence(refusal))
    this.name = 'InputError'
    this.refusal = refusal
  }
  get code(): Refusal['code'] {
    return this.refusal.code
  }
}

function sentence({ place, allowed, came }: Refusal): string {
  const start = place ? `${place}: ` : ''
  return came ? `${start}${allowed}; got ${came}.` : `${start}${allowed}.`
}

/** Bad input: shown as #VALUE! with this message. */
export const badInput = (place: string, allowed: string, came: unknown) => new InputError({ code: '#VALUE!', place, allowed, came: shown(came) })

/** Good input that has no answer (a table miss, a curve that is never met): shown as #N/A with this message. */
export const noAnswer = (place: string, why: string, came: unknown = '') => new InputError({ code: '#N/A', place, allowed: why, came: came === '' ? '' : shown(came) })

/** A value as it is shown in a message: short, quoted when it is text, "nothing" when it is empty. */
export function shown(value: unknown): string {
  if (value === null || value === undefined || value === '') return 'nothing'
  if (typeof value === 'number') return Number.isFinite(value) ? grouped(value) : 'a number too large to use'
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE'
  if (value instanceof Date) return value.toISOString().slice(0, 10)
  if (Array.isArray(value)) return 'a range'
  if (typeof value === 'object') return 'an error or a value of another kind'
  const text = String(value)
  return `"${text.length > 40 ? `${text.slice(0, 37)}...` : text}"`
}

export function grouped(value: number): string {
  const size = Math.abs(value)
  if (size !== 0 && (size < 1e-4 || size >= 1e15)) return String(value)
  const [whole, decimals] = String(value).split('.')
  const withCommas = whole!.replace(/\B(?=(\d{3})+(?!\d))/g, ',')
  return decimals ? `${withCommas}.${decimals}` : withCommas
}
