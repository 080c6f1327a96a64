import { shared, useShared } from './shared.ts'

/**
 * A newer build of these pages on this device: it waits until it is asked for, or it has taken over
 * because another tab asked. Until then everything goes on in the version that is open.
 */
export type NewVersion = 'none' | 'waiting' | 'tookOver'

const state = shared<NewVersion>('none')
const HOUR_MS = 3_600_000

let waiting: ServiceWorker | null = null
let isAskedHere = false

export function useNewVersion(): NewVersion {
  return useShared(state)
}

/** Registers the service worker, and watches out for a newer one. */
export async function keepUpToDate(): Promise<void> {
  const { serviceWorker } = navigator
  let isControlled = serviceWorker.controller !== null
  serviceWorker.addEventListener('controllerchange', () => {
    if (isAskedHere) location.reload()
    else if (isControlled) state.set('tookOver')
    isControlled = true
  })
  const registration = await serviceWorker.register('/service-worker.js')
  const look = () => {
    if (registration.waiting === null || serviceWorker.controller === null) return
    waiting = registration.waiting
    state.set('waiting')
  }
  look()
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', look)
  })
  // A tab that stays open for days looks for a newer one by itself.
  const ask = () => void registration.update().catch(() => {}) // without a network: next time
  addEventListener('online', ask)
  addEventListener('visibilitychange', () => document.visibilityState === 'visible' && ask())
  setInterval(ask, HOUR_MS)
}

/** Opens this page anew in the newer version. */
export function changeOver(): void {
  if (state.get() === 'tookOver' || waiting === null) location.reload()
  else {
    isAskedHere = true
    waiting.postMessage('takeOver')
  }
}
