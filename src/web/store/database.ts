/** What is kept on this device beyond a closed tab: the draft, and what waits to be sent. */
export type StoreName = 'drafts' | 'outbox' | 'setups'

const NAME = 'fairclimb'
const VERSION = 1
const STORES: readonly StoreName[] = ['drafts', 'outbox', 'setups']

let opening: Promise<IDBDatabase> | null = null

function open(): Promise<IDBDatabase> {
  opening ??= new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION)
    request.onupgradeneeded = () => {
      for (const store of STORES) request.result.createObjectStore(store)
    }
    request.onsuccess = () => {
      // The browser may close it, or another tab may bring a newer version: then it is opened anew.
      request.result.onclose = () => {
        opening = null
      }
      request.result.onversionchange = () => {
        request.result.close()
        opening = null
      }
      resolve(request.result)
    }
    request.onerror = () => {
      opening = null
      reject(request.error)
    }
  })
  return opening
}

async function inStore<T>(
  store: StoreName,
  work: (objects: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const database = await open()
  return new Promise((resolve, reject) => {
    const request = work(database.transaction(store, 'readonly').objectStore(store))
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })
}

export function read<T>(store: StoreName, key: string): Promise<T | undefined> {
  return inStore<T | undefined>(store, (objects) => objects.get(key))
}

export function readAll<T>(store: StoreName): Promise<T[]> {
  return inStore<T[]>(store, (objects) => objects.getAll())
}

/** A value to be kept under a key; undefined erases what is there. */
export interface Change {
  readonly store: StoreName
  readonly key: string
  readonly value?: unknown
}

/** All of the changes or none of them: what moves from one store to another is never in neither. */
export async function writeAll(changes: readonly Change[]): Promise<void> {
  if (changes.length === 0) return
  const database = await open()
  const stores = [...new Set(changes.map(({ store }) => store))]
  await new Promise<void>((resolve, reject) => {
    const transaction = database.transaction(stores, 'readwrite', { durability: 'strict' })
    for (const { store, key, value } of changes) {
      const objects = transaction.objectStore(store)
      if (value === undefined) objects.delete(key)
      else objects.put(value, key)
    }
    // Only a committed transaction is kept.
    transaction.oncomplete = () => resolve()
    transaction.onerror = () => reject(transaction.error)
    transaction.onabort = () => reject(transaction.error)
  })
}
