import type { UncertainInput } from '../../uncertainty/propagate.ts'
import type { AirMotion } from '../types.ts'
import { AIR_MOTION_FLOOR_MPS, AIR_MOTION_U_MPS } from './defaults.ts'

/**
 * Mean vertical air motion over a run: nothing known but its spread, in two parts. One is new in
 * every run and averages out over several; the other, 0.05 m/s, is taken to last all session.
 *
 * @param airMotion the pilot's word for it
 * @param factor how much smaller it is than over a climb [1]
 * @returns both parts as inputs of value 0 [m/s], the run's own first
 * @source METHOD.md, section j (editorial)
 */
export function airMotionInputs(
  airMotion: AirMotion,
  factor: number,
): readonly [UncertainInput, UncertainInput] {
  const total = Math.max(factor * AIR_MOTION_U_MPS[airMotion], AIR_MOTION_FLOOR_MPS)
  return [
    {
      source: 'vertical air motion in this run',
      value: 0,
      standardUncertainty: Math.sqrt(total ** 2 - AIR_MOTION_FLOOR_MPS ** 2),
      sharedWithinSession: false,
    },
    {
      source: 'vertical air motion of the session',
      value: 0,
      standardUncertainty: AIR_MOTION_FLOOR_MPS,
      sharedWithinSession: true,
    },
  ]
}
