import { RHO0 } from '../atmosphere/constants.ts'
import { levelPowerW } from './model/level-power.ts'
import type { ClimbingFlight } from './model/steady-climb.ts'
import type { FlownLevelWing } from './types.ts'

/**
 * The reference state R1: what every normalised figure refers to.
 *
 * ISA sea level, dry air (no humidity, so that it is the air of the standard gas law); a wing flown
 * at 5.0 kg/m². Stored with every result; a different state needs a new id.
 *
 * @source chosen by this project (METHOD.md)
 */
export const REFERENCE = {
  id: 'R1',
  allUpMassKg: 120,
  elevationM: 0,
  temperatureC: 15,
  stationPressureHPa: 1013.25,
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
export function referenceWingFor(allUpMassKg: number): FlownLevelWing {
  return {
    flatAreaM2: allUpMassKg / REFERENCE_WING_LOADING_KG_PER_M2,
    glideRatio: REFERENCE.wing.glideRatio,
    trimSpeedMps: REFERENCE.wing.trimSpeedMps,
    trimAtAllUpMassKg: allUpMassKg,
  }
}

/**
 * The reference flight for a propeller of a given disc area; trim speed holds as it stands, because
 * the reference mass, wing and density are those it is stated for.
 *
 * @param discAreaM2 disc area of the propeller [m²], above 0
 * @returns what the reference wing asks of the thrust
 * @source chosen by this project (reference state R1)
 */
export function referenceFlight(discAreaM2: number): ClimbingFlight {
  return {
    allUpMassKg: REFERENCE.allUpMassKg,
    glideRatio: REFERENCE.wing.glideRatio,
    levelAirspeedMps: REFERENCE.wing.trimSpeedMps,
    densityKgPerM3: RHO0,
    discAreaM2,
  }
}

/**
 * Induced power of level flight at the reference state.
 *
 * @param discAreaM2 disc area of the propeller [m²], above 0
 * @returns induced power [W]
 * @source derived in METHOD.md, section e
 */
export function referenceLevelPowerW(discAreaM2: number): number {
  return levelPowerW({
    allUpMassKg: REFERENCE.allUpMassKg,
    glideRatio: REFERENCE.wing.glideRatio,
    airspeedMps: REFERENCE.wing.trimSpeedMps,
    densityKgPerM3: RHO0,
    discAreaM2,
  })
}
