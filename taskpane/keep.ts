/** Keeps unsaved workbooks in the browser's own database, each under the session that made it, to be offered again after a reload. */
import type { SheetPlan } from '../src/plan/plan.js'

const DATABASE = 'cistern-sheet'
const STORE = 'workbook'

/** What a saved file takes from the plan of a sheet that was made here: the rows that names point to; a sheet that is a drawing is in no grid and kept whole. */
const keptPlans = new WeakMap<SheetPlan, string>()
export function keptPlan(plan: SheetPlan): string {
  let text = keptPlans.get(plan)
  if (text === undefined) {
    const named = new Set(plan.definedNames?.map(({ row }) => row))
    const cells = plan.toScale ? plan.cells : plan.cells.filter(({ row }) => named.has(row))
    keptPlans.set(plan, (text = JSON.stringify({ ...plan, cells })))
  }
  return text
}

/** Held open: what is kept as a page closes has no time to wait for it. */
let database: Promise<IDBDatabase> | undefined
function opened(): Promise<IDBDatabase> {
  database ??= new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1)
    request.onupgradeneeded = () => request.result.createObjectStore(STORE)
    request.onsuccess = () => {
      const { result } = request
      // The browser itself closes it where its data are cleared; a later version of the page wants it closed.
      result.onclose = () => (database = undefined)
      result.onversionchange = () => {
        database = undefined
        result.close()
      }
      resolve(result)
    }
    request.onerror = () => reject(request.error ?? new Error('The database of the browser cannot be opened.'))
  })
  database.catch(() => (database = undefined))
  return database
}

async function ask<T>(mode: IDBTransactionMode, work: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const open = await opened()
  return new Promise<T>((resolve, reject) => {
    const transaction = open.transaction(STORE, mode)
    const request = work(transaction.objectStore(STORE))
    // Only a transaction that is complete has kept anything: one that runs out of room breaks off after its request succeeded.
    transaction.oncomplete = () => resolve(request.result)
    transaction.onabort = transaction.onerror = () => reject(transaction.error ?? request.error ?? new Error('The database of the browser refused.'))
    // Else it waits for the answer to the request, and a page that goes has nobody to hear it.
    transaction.commit()
  })
}

/** Of what stands in the database: a page that finds a later one leaves it alone. */
export const KEPT_FORMAT = 2
export interface Unsaved {
  format?: number
  session: string
  when: string
  data: unknown
  /** Sheets of jobs that were made here, as JSON, for the drawings that a file gets. */
  made?: readonly string[]
  /** The file that stands behind the grid, where one was opened, and what of it the page does not show. */
  file?: { bytes: Uint8Array; name: string; lacking: string } | undefined
}
export const keepUnsaved = (unsaved: Unsaved): Promise<unknown> => ask('readwrite', (store) => store.put(unsaved, unsaved.session))
/** All that is kept, each under the session that it stands at, whatever it says of itself. */
export async function readUnsaved(): Promise<Unsaved[]> {
  const [keys, all] = await Promise.all([ask('readonly', (store) => store.getAllKeys()), ask('readonly', (store) => store.getAll() as IDBRequest<unknown[]>)])
  return keys.map((key, at) => ({ ...(all[at] as Partial<Unsaved> | null), session: String(key) }) as Unsaved)
}
export const forgetUnsaved = (session: string): Promise<unknown> => ask('readwrite', (store) => store.delete(session))
