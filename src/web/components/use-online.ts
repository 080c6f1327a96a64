import { useEffect, useState } from 'preact/hooks'

/** Whether the device says it has a network. */
export function useOnline(): boolean {
  const [isOnline, setOnline] = useState(navigator.onLine)
  useEffect(() => {
    const update = () => setOnline(navigator.onLine)
    addEventListener('online', update)
    addEventListener('offline', update)
    return () => {
      removeEventListener('online', update)
      removeEventListener('offline', update)
    }
  }, [])
  return isOnline
}
