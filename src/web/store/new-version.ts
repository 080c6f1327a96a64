import { shared, useShared } from './shared.ts'

/**
 * A newer build of these pages on this device: it waits until it is asked for, or it has taken over
 * because another tab asked. Until then everything goes on in the version that is open.
 */
export type NewVersion = 'none' | 'waiting' | 'asked' | 'tookOver'

const state = shared<NewVersion>('none')
const HOUR_MS = 3_600_000
const AGAIN_MS = 3000

let registration: ServiceWorkerRegistration | null = null

export function useNewVersion(): NewVersion {
  return useShared(state)
}

/** Registers the service worker, and watches out for a newer one. */
export async function keepUpToDate(): Promise<void> {
  const { serviceWorker } = navigator
  let isControlled = serviceWorker.controller !== null
  serviceWorker.addEventListener('controllerchange', () => {
    if (state.get() === 'asked') location.reload()
    else if (isControlled) state.set('tookOver')
    isControlled = true
  })
  const found = await serviceWorker.register('/service-worker.js')
  registration = found
  const look = () => {
    const isOffered = found.waiting !== null && serviceWorker.controller !== null
    if (isOffered && state.get() === 'none') state.set('waiting')
  }
  look()
  found.addEventListener('updatefound', () => {
    found.installing?.addEventListener('statechange', look)
  })
  // A tab that stays open for days looks for a newer one by itself.
  const ask = () => void found.update().catch(() => {}) // without a network: next time
  addEventListener('online', ask)
  addEventListener('visibilitychange', () => document.visibilityState === 'visible' && ask())
  setInterval(ask, HOUR_MS)
}

/** Opens this page anew in the newer version, as soon as the one before has answered what it was asked. */
export function changeOver(): void {
  const next = registration?.waiting
  if (next) {
    state.set('asked')
    next.postMessage('takeOver')
    setTimeout(changeOver, AGAIN_MS) // a message to a worker that does not start is lost
  } else location.reload()
}
