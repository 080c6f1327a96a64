import { recall, remember } from '../../store/device.ts'
import type { Watch } from './stopwatch-times.ts'

/** Watches by the run whose time they take: one may run on while another is read. */
type Watches = Readonly<Record<string, Watch>>

const STORED = 'stopwatches'

/** The watch of a run, perhaps left running in a tab that was closed since. */
export function watchOf(runKey: string): Watch | null {
  return recall<Watches>(STORED)?.[runKey] ?? null
}

/** Written down at once: a locked screen or a closed tab takes nothing away. */
export function keepWatch(watch: Watch): void {
  remember(STORED, { ...recall<Watches>(STORED), [watch.runKey]: watch })
}

export function forgetWatch(runKey: string): void {
  const { [runKey]: _, ...others } = recall<Watches>(STORED) ?? {}
  remember(STORED, others)
}
