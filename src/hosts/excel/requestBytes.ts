/**
 * What calls to Excel take of a request: the calls themselves, put to an object that counts them. An object of the interface is a path
 * and an action there, a property that is set is an action. Held to the requests that Microsoft's own script puts together for the
 * sheets of a job, the figures come to within 4 % of a sheet and 3 % of a job.
 */
const OBJECT_BYTES = 195
const SET_BYTES = 120
/** A property that is set on a range of its own, without what it is set to. */
export const RANGE_SET_BYTES = OBJECT_BYTES + SET_BYTES
/** Excel on the web takes 5 MB: what is reckoned 3 % too low stays under it. */
export const MOST_REQUEST_BYTES = 4_850_000
const utf8 = new TextEncoder()

/** Bytes of the request that `work` on an object of the interface comes to. */
export function requestBytes<T extends object>(work: (object: T) => void): number {
  let bytes = 0
  const grow = (some: number, content?: unknown): void => {
    bytes += some + (content === undefined ? 0 : utf8.encode(JSON.stringify(content)).length)
  }
  const counted = (): object => {
    const parts = new Map<string | symbol, object>()
    return new Proxy(() => undefined, {
      get: (_own, name) => {
        if (!parts.has(name)) {
          grow(OBJECT_BYTES)
          parts.set(name, counted())
        }
        return parts.get(name)
      },
      set: (_own, _name, value) => {
        grow(SET_BYTES, value)
        return true
      },
      apply: (_own, _object, values) => {
        grow(0, values)
        return counted()
      },
    })
  }
  work(counted() as T)
  return bytes
}
