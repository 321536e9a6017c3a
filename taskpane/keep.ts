/** Keeps the unsaved workbook in the browser's own database, to be offered again after a reload. */
const DATABASE = 'cistern-sheet'
const STORE = 'workbook'
const KEY = 'unsaved'

function opened(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1)
    request.onupgradeneeded = () => request.result.createObjectStore(STORE)
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error ?? new Error('The database of the browser cannot be opened.'))
  })
}

async function ask<T>(mode: IDBTransactionMode, work: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const database = await opened()
  try {
    return await new Promise<T>((resolve, reject) => {
      const request = work(database.transaction(STORE, mode).objectStore(STORE))
      request.onsuccess = () => resolve(request.result)
      request.onerror = () => reject(request.error ?? new Error('The database of the browser refused.'))
    })
  } finally {
    database.close()
  }
}

export interface Unsaved {
  when: string
  data: unknown
}
export const keepUnsaved = (unsaved: Unsaved): Promise<unknown> => ask('readwrite', (store) => store.put(unsaved, KEY))
export const readUnsaved = (): Promise<Unsaved | undefined> => ask('readonly', (store) => store.get(KEY) as IDBRequest<Unsaved | undefined>)
export const forgetUnsaved = (): Promise<unknown> => ask('readwrite', (store) => store.delete(KEY))
