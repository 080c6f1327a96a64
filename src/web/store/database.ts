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
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })
  return opening
}

async function inStore<T>(
  store: StoreName,
  mode: IDBTransactionMode,
  work: (objects: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const database = await open()
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(store, mode, { durability: 'strict' })
    const request = work(transaction.objectStore(store))
    // Only a committed transaction is kept.
    transaction.oncomplete = () => resolve(request.result)
    transaction.onerror = () => reject(transaction.error)
    transaction.onabort = () => reject(transaction.error)
  })
}

export function read<T>(store: StoreName, key: string): Promise<T | undefined> {
  return inStore<T | undefined>(store, 'readonly', (objects) => objects.get(key))
}

export function readAll<T>(store: StoreName): Promise<T[]> {
  return inStore<T[]>(store, 'readonly', (objects) => objects.getAll())
}

export async function write(store: StoreName, key: string, value: unknown): Promise<void> {
  await inStore(store, 'readwrite', (objects) => objects.put(value, key))
}

export async function erase(store: StoreName, key: string): Promise<void> {
  await inStore(store, 'readwrite', (objects) => objects.delete(key) as IDBRequest<undefined>)
}
