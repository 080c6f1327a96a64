import { counted } from '../../units.ts'

/** A stopwatch as it is kept: instants of the device's clock [ms], so that it runs on in a closed tab. */
export interface Watch {
  /** The run whose time it takes. */
  readonly runKey: string
  readonly startedAt: number | null
  readonly lapsAt: readonly number[]
  readonly stoppedAt: number | null
}

/** What a press does to a watch. `at` is the instant the finger came down [ms]. */
export type Press =
  | { readonly what: 'start' | 'lap' | 'stop'; readonly at: number }
  | { readonly what: 'goOn' | 'undoLap' | 'reset' }

/** The watch after a press. Going on after a stop counts the pause too: it was a slip. */
export function pressed(watch: Watch, press: Press): Watch {
  switch (press.what) {
    case 'start':
      return { ...watch, startedAt: press.at }
    case 'lap':
      return { ...watch, lapsAt: [...watch.lapsAt, press.at] }
    case 'stop':
      return { ...watch, stoppedAt: press.at }
    case 'goOn':
      return { ...watch, stoppedAt: null }
    case 'undoLap':
      return { ...watch, lapsAt: watch.lapsAt.slice(0, -1) }
    case 'reset':
      return freshWatch(watch.runKey)
  }
}

export function freshWatch(runKey: string): Watch {
  return { runKey, startedAt: null, lapsAt: [], stoppedAt: null }
}

/** Time since the start [s], up to now or to the stop. */
export function totalS({ startedAt, stoppedAt }: Watch, now: number): number {
  return startedAt === null ? 0 : Math.max(0, ((stoppedAt ?? now) - startedAt) / 1000)
}

/** The times between the laps [s]; the last ends at the stop. Their sum is the whole time. */
export function lapTimesS(watch: Watch, now: number): number[] {
  if (watch.startedAt === null) return []
  const ends = [...watch.lapsAt, watch.stoppedAt ?? now]
  return ends.map((end, index) => (end - (ends[index - 1] ?? watch.startedAt!)) / 1000)
}

/** As a stopwatch shows it: 1:03.4 */
export function clockText(seconds: number): string {
  const tenths = Math.floor(seconds * 10 + 1e-6)
  const minutes = Math.floor(tenths / 600)
  const rest = (tenths % 600) / 10
  return `${minutes}:${rest.toFixed(1).padStart(4, '0')}`
}

/** As a screen reader says it: 1 minute 3.4 seconds. */
export function spokenTime(seconds: number): string {
  const tenths = Math.floor(seconds * 10 + 1e-6)
  const minutes = Math.floor(tenths / 600)
  const rest = `${(tenths % 600) / 10} seconds`
  return minutes === 0 ? rest : `${counted(minutes, 'minute')} ${rest}`
}
