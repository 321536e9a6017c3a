/** What the pane remembers between openings, in the browser's own storage: units shown, what was open. Nothing leaves the machine. */
import type { Storage } from '@microsoft/office-js-helpers'
import type { Shown } from './units.js'

interface Kept {
  units: Shown
  job: string
  functionsOpen: boolean
  /** The job follows the row selected in the sheet Jobs. */
  follow: boolean
}
const defaults: Kept = { units: 'US', job: '', functionsOpen: false, follow: false }

export class Settings {
  private constructor(private readonly storage: Pick<Storage<unknown>, 'get' | 'set'>) {}

  /** The storage comes in a chunk of its own: its one file brings more than is used here. */
  static async open(): Promise<Settings> {
    try {
      const { Storage } = await import(/* webpackChunkName: "storage" */ '@microsoft/office-js-helpers')
      const storage = new Storage<unknown>('CisternSheet')
      storage.get('units')
      return new Settings(storage)
    } catch {
      // A browser that keeps nothing for pages: what is set holds as long as the page is open.
      const held = new Map<string, unknown>()
      return new Settings({ get: (name) => held.get(name), set: (name, value) => void held.set(name, value) } as Pick<Storage<unknown>, 'get' | 'set'>)
    }
  }

  get<K extends keyof Kept>(name: K): Kept[K] {
    const value = this.storage.get(name) as Kept[K] | null | undefined
    return typeof value === typeof defaults[name] ? value! : defaults[name]
  }

  set<K extends keyof Kept>(name: K, value: Kept[K]): void {
    this.storage.set(name, value)
  }
}
