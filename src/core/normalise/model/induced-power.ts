import { requireInRange } from '../../atmosphere/range.ts'

const THRUST_RANGE_N = { min: 0, max: 1e6 } as const

/**
 * Area swept by a propeller.
 *
 *     A = π·D²/4
 *
 * @param diameterM diameter D [m], above 0
 * @returns disc area [m²]
 * @source geometry
 * @example discAreaM2(1.25) // 1.2272
 */
export function discAreaM2(diameterM: number): number {
  return (Math.PI * diameterM * diameterM) / 4
}

/**
 * Velocity a propeller adds to the air at its disc.
 *
 *     v = −V/2 + √( V²/4 + T/(2ρA) )
 *
 * @param thrustN thrust T [N], 0 to 1e6
 * @param airspeedMps airspeed V [m/s], 0 or more
 * @param disc air density ρ [kg/m³] and disc area A [m²], above 0
 * @returns induced velocity [m/s]
 * @throws {OutOfRangeError} if the thrust is NaN or lies outside its range
 * @source momentum theory of the actuator disc (Rankine, Froude); common practice
 * @example inducedVelocityMps(500, 10, { densityKgPerM3: 1.225, areaM2: 1.2272 }) // 8.831
 */
export function inducedVelocityMps(
  thrustN: number,
  airspeedMps: number,
  disc: { readonly densityKgPerM3: number; readonly areaM2: number },
): number {
  requireInRange('thrustN', thrustN, THRUST_RANGE_N)
  const half = airspeedMps / 2
  return Math.sqrt(half * half + thrustN / (2 * disc.densityKgPerM3 * disc.areaM2)) - half
}

/**
 * Power that reaches the air: the least shaft power for this thrust, speed and propeller size.
 *
 *     P_i = T·(V + v)
 *
 * @param thrustN thrust T [N], 0 to 1e6
 * @param airspeedMps airspeed V [m/s], 0 or more
 * @param disc air density ρ [kg/m³] and disc area A [m²], above 0
 * @returns induced power [W]
 * @throws {OutOfRangeError} if the thrust is NaN or lies outside its range
 * @source momentum theory of the actuator disc (Rankine, Froude); common practice
 * @example inducedPowerW(500, 10, { densityKgPerM3: 1.225, areaM2: 1.2272 }) // 9415.5
 */
export function inducedPowerW(
  thrustN: number,
  airspeedMps: number,
  disc: { readonly densityKgPerM3: number; readonly areaM2: number },
): number {
  return thrustN * (airspeedMps + inducedVelocityMps(thrustN, airspeedMps, disc))
}
