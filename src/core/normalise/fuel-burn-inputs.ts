import type { UncertainInput } from '../uncertainty/propagate.ts'
import { DEFAULT_U } from './inputs/defaults.ts'
import type { KnownSession } from './inputs/known.ts'
import { modelFactor, SAME_FOR_ALL } from './inputs/run.ts'
import { statedOr } from './inputs/stated.ts'
import { positionsOf } from './inputs/vector.ts'
import { LEVEL_INPUTS, levelInputs, type SubmittedLevel } from './level-inputs.ts'
import type { FuelBurnRun } from './types.ts'

/** The inputs of a fuel burn, in the order of its model. */
export const BURN_INPUTS = [
  ...LEVEL_INPUTS,
  'volumeMl',
  'fuelTemperatureC',
  'expansionFactor',
  'mixtureFactor',
] as const

export const X = positionsOf(BURN_INPUTS)

type BurnInputs = Readonly<Record<(typeof BURN_INPUTS)[number], UncertainInput>>

/**
 * All that a fuel burn is worked out from, each with its standard uncertainty.
 *
 * A measured filling is uncertain by its reading and by the instant at which the engine starves; a
 * refill to the same mark by the mark alone.
 *
 * @param known air and wing of the session, gaps filled
 * @param submitted entry, run and equipment as submitted
 * @returns inputs by name; `partLoadFactor` and `mixtureFactor` still without their uncertainty, which needs the air
 * @source METHOD.md, sections e and j
 */
export function burnInputs(
  known: KnownSession,
  submitted: SubmittedLevel<FuelBurnRun>,
): BurnInputs {
  const { run } = submitted
  const { uncertainty } = run
  const refilled = run.method === 'refill'
  const volumeU = refilled ? DEFAULT_U.refillMl : DEFAULT_U.volumeRatio * run.volumeMl
  return {
    ...levelInputs(known, submitted, refilled ? REFILLED : STARVED),
    volumeMl: {
      source: 'fuel volume',
      value: run.volumeMl,
      standardUncertainty: statedOr(uncertainty, 'volumeMl', volumeU),
      sharedWithinSession: false,
    },
    fuelTemperatureC: {
      source: 'fuel temperature',
      value: run.fuelTemperatureC ?? known.air.temperatureC.value,
      standardUncertainty: statedOr(uncertainty, 'fuelTemperatureC', DEFAULT_U.fuelTemperatureC),
      sharedWithinSession: true,
    },
    expansionFactor: modelFactor(
      'expansion of the fuel',
      DEFAULT_U.fuelExpansionRatio,
      SAME_FOR_ALL,
    ),
    mixtureFactor: modelFactor('mixture in thin air', 0),
  }
}

const STARVED = {
  source: 'burn time and instant of starvation',
  defaultU: Math.hypot(DEFAULT_U.starvationS, DEFAULT_U.stopwatchS),
} as const
const REFILLED = { source: 'burn time', defaultU: DEFAULT_U.stopwatchS } as const
