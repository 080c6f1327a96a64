import { useEffect, useState } from 'preact/hooks'

/** A value that several parts of a page look at. */
export interface Shared<T> {
  get(): T
  set(value: T): void
  subscribe(listener: () => void): () => void
}

export function shared<T>(initial: T): Shared<T> {
  let current = initial
  const listeners = new Set<() => void>()
  return {
    get: () => current,
    set(value) {
      current = value
      for (const listener of listeners) listener()
    },
    subscribe(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

/** The value, and a new drawing whenever it changes. */
export function useShared<T>(source: Shared<T>): T {
  const [value, setValue] = useState(source.get)
  useEffect(() => {
    const update = () => setValue(() => source.get())
    update()
    return source.subscribe(update)
  }, [source])
  return value
}
