/** What this device remembers between visits, as JSON by name. Storage may be closed to us: then nothing. */
export function recall<T>(name: string): T | null {
  try {
    const text = localStorage.getItem(`fairclimb.${name}`)
    return text === null ? null : (JSON.parse(text) as T)
  } catch {
    return null
  }
}

/** Remembers a value; null forgets it. */
export function remember(name: string, value: unknown): void {
  try {
    if (value === null) localStorage.removeItem(`fairclimb.${name}`)
    else localStorage.setItem(`fairclimb.${name}`, JSON.stringify(value))
  } catch {
    // A page that cannot remember still works until it is closed.
  }
}
