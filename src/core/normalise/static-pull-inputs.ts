import type { UncertainInput } from '../uncertainty/propagate.ts'
import { DEFAULT_U } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import { diameterInput, modelFactor } from './inputs/run.ts'
import { statedOr } from './inputs/stated.ts'
import { positionsOf } from './inputs/vector.ts'
import type { Equipment, StaticPullRun } from './types.ts'

/** The inputs of a static pull, in the order of its model. */
export const PULL_INPUTS = [
  'thrustN',
  'lineAngleDeg',
  'headwindMps',
  'elevationM',
  'temperatureC',
  'pressureHPa',
  'relativeHumidityPct',
  'diameterM',
  'densityFactor',
  'powerRatioFactor',
] as const

export const X = positionsOf(PULL_INPUTS)

type PullInputs = Readonly<Record<(typeof PULL_INPUTS)[number], UncertainInput>>

/**
 * All that a static pull is worked out from, each with its standard uncertainty.
 *
 * @param known air of the session, gaps filled
 * @param submitted run and equipment as submitted
 * @returns inputs by name; the two model factors still without their uncertainty, which needs the air
 * @source METHOD.md, sections f and j
 */
export function pullInputs(
  { air, windMps }: KnownSession,
  { run, equipment }: { readonly run: StaticPullRun; readonly equipment: Equipment },
): PullInputs {
  const { uncertainty } = run
  const own = { sharedWithinSession: false } as const
  const cellU = Math.max(DEFAULT_U.loadCellN, DEFAULT_U.loadCellRatio * run.thrustN)
  return {
    thrustN: {
      source: 'pull on the load cell',
      value: run.thrustN,
      standardUncertainty: statedOr(uncertainty, 'thrustN', cellU),
      ...own,
    },
    lineAngleDeg: {
      source: 'angle of the line',
      value: run.lineAngleDeg ?? 0,
      standardUncertainty: statedOr(uncertainty, 'lineAngleDeg', DEFAULT_U.lineAngleDeg),
      ...own,
    },
    headwindMps: {
      source: 'headwind',
      value: run.headwindMps ?? 0,
      standardUncertainty: statedOr(uncertainty, 'headwindMps', headwindU(run, windMps)),
      ...own,
    },
    elevationM: air.elevationM,
    temperatureC: air.temperatureC,
    pressureHPa: air.pressureHPa,
    relativeHumidityPct: air.relativeHumidityPct,
    diameterM: diameterInput(equipment),
    densityFactor: modelFactor('static thrust in this air', 0),
    powerRatioFactor: modelFactor('full-throttle power in this air', 0),
  }
}

/** Wind from anywhere where no headwind is given: rectangular over ± the wind at the field. */
function headwindU(run: StaticPullRun, windMps: number | undefined): number {
  if (run.headwindMps !== undefined || windMps === undefined) return DEFAULT_U.headwindMps
  return Math.max(DEFAULT_U.headwindMps, windMps / Math.sqrt(3))
}
