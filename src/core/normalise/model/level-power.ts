import { G0 } from '../../atmosphere/constants.ts'
import { inducedPowerW } from './induced-power.ts'

/** A wing in level flight at a given mass and air. */
export interface LevelFlight {
  readonly allUpMassKg: number
  readonly glideRatio: number
  readonly airspeedMps: number
  readonly densityKgPerM3: number
  readonly discAreaM2: number
}

/**
 * Induced power of level flight.
 *
 *     P = T·(V + v),  T = W/G
 *
 * For one wing it scales exactly as W^1.5·ρ^−0.5, because V² and v² both scale as W/ρ.
 *
 * @param flight all-up mass [kg], glide ratio [1], airspeed [m/s], density [kg/m³], disc area [m²]
 * @returns induced power [W]
 * @throws {OutOfRangeError} if the thrust is not finite
 * @source derived in METHOD.md, section e
 * @example levelPowerW({ allUpMassKg: 120, glideRatio: 7, airspeedMps: 10.5, densityKgPerM3: 1.225, discAreaM2: 1.2272 }) // 2418.6
 */
export function levelPowerW(flight: LevelFlight): number {
  const thrustN = (flight.allUpMassKg * G0) / flight.glideRatio
  return inducedPowerW(thrustN, flight.airspeedMps, {
    densityKgPerM3: flight.densityKgPerM3,
    areaM2: flight.discAreaM2,
  })
}

/**
 * Factor that takes the fuel flow of a flight not quite level to level flight.
 *
 *     1 / (1 + G·Vc/V)
 *
 * @param climbRateMps mean climb rate through the air Vc [m/s]; sink is negative
 * @param glideRatio system glide ratio G [1], above 0
 * @param airspeedMps airspeed V [m/s], above 0
 * @returns factor [1]; infinite or negative where the wing sank as fast as it glides
 * @source derived in METHOD.md, section e
 * @example levelFlowFactor(10 / 300, 7, 10.5) // 0.97826
 */
export function levelFlowFactor(
  climbRateMps: number,
  glideRatio: number,
  airspeedMps: number,
): number {
  return 1 / (1 + (glideRatio * climbRateMps) / airspeedMps)
}
