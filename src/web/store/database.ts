/** What is kept on this device beyond a closed tab: drafts, what waits to be sent, and what was read last. */
export type StoreName = 'drafts' | 'outbox' | 'setups' | 'mine'

const NAME = 'fairclimb'
const STORES: readonly StoreName[] = ['drafts', 'outbox', 'setups', 'mine']

let opening: Promise<IDBDatabase> | null = null

function open(): Promise<IDBDatabase> {
  opening ??= openWhole().catch((error: unknown) => {
    opening = null
    throw error
  })
  return opening
}

/**
 * Opens what is there, in whichever version, and adds the stores that are missing. So tabs of an older
 * and of a newer build of the pages share the device's drafts.
 */
async function openWhole(version?: number): Promise<IDBDatabase> {
  const database = await openAt(version).catch((error: unknown) => {
    // Another tab was faster, and went further.
    if (version === undefined) throw error
    return openAt(undefined)
  })
  const isWhole = STORES.every((store) => database.objectStoreNames.contains(store))
  if (isWhole) return database
  const next = database.version + 1
  database.close()
  return openWhole(next)
}

function openAt(version: number | undefined): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, version)
    request.onupgradeneeded = () => {
      const { objectStoreNames } = request.result
      for (const store of STORES) {
        if (!objectStoreNames.contains(store)) request.result.createObjectStore(store)
      }
    }
    request.onsuccess = () => {
      // The browser may close it, or another tab may add a store: then it is opened anew.
      request.result.onclose = () => {
        opening = null
      }
      request.result.onversionchange = () => {
        request.result.close()
        opening = null
      }
      resolve(request.result)
    }
    request.onerror = () => reject(request.error)
  })
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

export function readKeys(store: StoreName): Promise<string[]> {
  return inStore(store, (objects) => objects.getAllKeys() as IDBRequest<string[]>)
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

/** Said where a device has no room left for what it should keep. */
export const NO_ROOM = 'This device has no room to keep it.'

export function isNoRoom(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'QuotaExceededError'
}
