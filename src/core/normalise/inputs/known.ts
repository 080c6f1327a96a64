import type { AirMotion } from '../types.ts'
import type { KnownAir } from './air.ts'
import type { KnownWing } from './wing.ts'

/** What the runs of an entry share, gaps filled. */
export interface KnownSession {
  readonly air: KnownAir
  readonly wing: KnownWing
  readonly airMotion: AirMotion
  /** Wind at the field, where it was given [m/s]. */
  readonly windMps: number | undefined
}
