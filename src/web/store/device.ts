/** What this device remembers between visits, as JSON by name. Storage may be closed to us: then nothing. */
export function recall<T>(name: string): T | null {
  try {
    const text = localStorage.getItem(`fairclimb.${name}`)
    return text === null ? null : (JSON.parse(text) as T)
  } catch {
    return null
  }
}

/** Remembers a value; null forgets it. Says whether it did: storage may be full or closed to us. */
export function remember(name: string, value: unknown): boolean {
  try {
    if (value === null) localStorage.removeItem(`fairclimb.${name}`)
    else localStorage.setItem(`fairclimb.${name}`, JSON.stringify(value))
    return true
  } catch {
    return false // A page that cannot remember still works until it is closed.
  }
}

/** Tells when another tab has remembered something else under a name, or forgotten it. */
export function onRemembered(name: string, listener: () => void): void {
  addEventListener('storage', ({ key }) => {
    if (key === `fairclimb.${name}`) listener()
  })
}
