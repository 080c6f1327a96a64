import type { UncertainInput } from '../uncertainty/propagate.ts'
import { airMotionInputs } from './inputs/air-motion.ts'
import { DEFAULT_U } from './inputs/defaults.ts'
import { heightCorrectionInputs, heightInput } from './inputs/height-reading.ts'
import type { KnownSession } from './inputs/known.ts'
import { exactUnlessStated, massInput } from './inputs/run.ts'
import { statedOr } from './inputs/stated.ts'
import { positionsOf } from './inputs/vector.ts'
import type { FlownEntry, SinkRun } from './types.ts'

/** The inputs of a sink run, in the order of its model. */
export const SINK_INPUTS = [
  'heightLossM',
  'gainScale',
  'barometricShare',
  'durationS',
  'ownAirMps',
  'sessionAirMps',
  'allUpMassKg',
  'trimSpeedMps',
  'trimMassKg',
  'elevationM',
  'temperatureC',
  'lapseKPerM',
  'pressureHPa',
  'relativeHumidityPct',
  'startHeightM',
] as const

export const X = positionsOf(SINK_INPUTS)

/**
 * All that a sink run is worked out from, each with its standard uncertainty.
 *
 * @param known air and wing of the session, gaps filled
 * @param flown entry and run as submitted
 * @returns inputs by name
 * @source METHOD.md, section j
 */
export function sinkInputs(
  known: KnownSession,
  { entry, run }: { readonly entry: FlownEntry; readonly run: SinkRun },
): Readonly<Record<(typeof SINK_INPUTS)[number], UncertainInput>> {
  const { air, wing } = known
  const [ownAirMps, sessionAirMps] = airMotionInputs(known.airMotion, 1)
  const { uncertainty, heightSource } = run
  return {
    heightLossM: heightInput({
      source: 'height loss',
      field: 'heightLossM',
      heightM: run.heightLossM,
      heightSource,
      uncertainty,
    }),
    ...heightCorrectionInputs(heightSource),
    durationS: {
      source: 'sink time',
      value: run.durationS,
      standardUncertainty: statedOr(uncertainty, 'durationS', DEFAULT_U.stopwatchS),
      sharedWithinSession: false,
    },
    ownAirMps,
    sessionAirMps,
    allUpMassKg: massInput(entry),
    trimSpeedMps: wing.trimSpeedMps,
    trimMassKg: wing.trimMassKg,
    elevationM: air.elevationM,
    temperatureC: air.temperatureC,
    lapseKPerM: air.lapseKPerM,
    pressureHPa: air.pressureHPa,
    relativeHumidityPct: air.relativeHumidityPct,
    startHeightM: exactUnlessStated('height at the start', run.startHeightAboveSiteM, {
      uncertainty,
      field: 'startHeightAboveSiteM',
    }),
  }
}
