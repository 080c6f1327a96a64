import type { PredictedWing } from './types.ts'

/**
 * The reference state R1: what every normalised figure refers to.
 *
 * ISA sea level, dry air; a wing flown at 5.0 kg/m². Stored with every result; a different state
 * needs a new id.
 *
 * @source chosen by this project (normalisation specification 1)
 */
export const REFERENCE = {
  id: 'R1',
  allUpMassKg: 120,
  elevationM: 0,
  temperatureC: 15,
  stationPressureHPa: 1013.25,
  relativeHumidityPct: 0,
  wing: { flatAreaM2: 24, glideRatio: 7, trimSpeedMps: 10.5, trimAtAllUpMassKg: 120 },
} as const

/** Loading of the reference wing [kg/m²]. */
export const REFERENCE_WING_LOADING_KG_PER_M2 = REFERENCE.allUpMassKg / REFERENCE.wing.flatAreaM2

/**
 * The reference wing in the size that suits an all-up mass: same loading, glide and trim speed.
 *
 *     S = m / 5.0 kg/m²
 *
 * @param allUpMassKg all-up mass m [kg], above 0
 * @returns a wing; at 120 kg the reference wing itself
 * @source chosen by this project: equal loading means equal trim speed
 * @example referenceWingFor(100).flatAreaM2 // 20
 */
export function referenceWingFor(allUpMassKg: number): PredictedWing {
  return {
    flatAreaM2: allUpMassKg / REFERENCE_WING_LOADING_KG_PER_M2,
    glideRatio: REFERENCE.wing.glideRatio,
    trimSpeedMps: REFERENCE.wing.trimSpeedMps,
    trimAtAllUpMassKg: allUpMassKg,
  }
}
