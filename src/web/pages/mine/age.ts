import { counted } from '../../units.ts'

const MINUTE_MS = 60_000

const STEPS = [
  [1440, 'day'],
  [60, 'hour'],
  [1, 'minute'],
] as const

/** How long ago something was, as people say it: "3 hours ago"; a clock set back counts as now. */
export function ageOf(thenMs: number, nowMs: number): string {
  const minutes = Math.floor((nowMs - thenMs) / MINUTE_MS)
  for (const [size, name] of STEPS) {
    const count = Math.floor(minutes / size)
    if (count >= 1) return `${counted(count, name)} ago`
  }
  return 'a moment ago'
}
