import { useEffect } from 'preact/hooks'

/** The screen stays on while something runs, where the browser lets us ask for it. */
export function useStayAwake(isRunning: boolean): void {
  useEffect(() => {
    if (!isRunning || navigator.wakeLock === undefined) return
    let lock: WakeLockSentinel | null = null
    let isOver = false
    const ask = async () => {
      // The browser takes it back whenever the page is hidden: then it is asked for again.
      if (document.visibilityState !== 'visible') return
      lock = await navigator.wakeLock.request('screen').catch(() => null)
      if (isOver) await lock?.release()
    }
    void ask()
    document.addEventListener('visibilitychange', ask)
    return () => {
      isOver = true
      document.removeEventListener('visibilitychange', ask)
      void lock?.release()
    }
  }, [isRunning])
}
