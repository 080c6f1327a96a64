/** A stopwatch as it is kept: instants of the device's clock [ms], so that it runs on in a closed tab. */
export interface Watch {
  /** The run whose time it takes. */
  readonly runKey: string
  readonly startedAt: number | null
  readonly lapsAt: readonly number[]
  readonly stoppedAt: number | null
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
