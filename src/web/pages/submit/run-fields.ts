import { FLIGHT_SPECS, leg } from './run-specs/flight.ts'
import { GROUND_SPECS } from './run-specs/ground.ts'
import type { NumberSpec, RunKind, RunSpec } from './run-specs/spec.ts'

export type { ChoiceSpec, NumberSpec, RunKind, RunSpec } from './run-specs/spec.ts'

/** The interface takes this many. */
export const LEGS = { least: 3, most: 12 } as const

/** What each kind of run asks for, in words of the field. */
export const RUN_SPECS: Readonly<Record<RunKind, RunSpec>> = {
  climb: FLIGHT_SPECS.climb,
  fuelBurn: FLIGHT_SPECS.fuelBurn,
  energyUse: FLIGHT_SPECS.energyUse,
  ...GROUND_SPECS,
  sink: FLIGHT_SPECS.sink,
  levelSpeed: FLIGHT_SPECS.levelSpeed,
}

export const RUN_KINDS = Object.keys(RUN_SPECS) as RunKind[]

/** The readings of a run with so many legs; other kinds have none. */
export function numbersOf(kind: RunKind, legs: number): readonly NumberSpec[] {
  const { numbers } = RUN_SPECS[kind]
  if (kind !== 'levelSpeed') return numbers
  const more = Array.from({ length: Math.max(0, legs - LEGS.least) }, (_, i) => leg(LEGS.least + i))
  return [...numbers.slice(0, 2 * LEGS.least), ...more.flat(), ...numbers.slice(2 * LEGS.least)]
}

/** Whether the runs of a kind most likely have it alike: all but the time and the legs. */
export function isSharedByRuns(at: string): boolean {
  return at !== 'durationS' && !at.startsWith('legs/')
}
