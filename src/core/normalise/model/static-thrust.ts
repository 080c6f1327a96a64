import { requireInRange } from '../../atmosphere/range.ts'

const POWER_RANGE_W = { min: 0, max: 1e6 } as const

/**
 * Static thrust of an ideal propeller on a given power: no real one has more.
 *
 *     T = (2·ρ·A)^(1/3) · P^(2/3)
 *
 * @param powerW power in the air P [W], 0 to 1e6
 * @param disc air density ρ [kg/m³] and disc area A [m²], above 0
 * @returns thrust [N]
 * @throws {OutOfRangeError} if the power is NaN or lies outside its range
 * @source momentum theory of the actuator disc (Rankine, Froude); common practice
 * @example idealStaticThrustN(11_000, { densityKgPerM3: 1.225, areaM2: 1.22718 }) // 713.87
 */
export function idealStaticThrustN(
  powerW: number,
  disc: { readonly densityKgPerM3: number; readonly areaM2: number },
): number {
  requireInRange('powerW', powerW, POWER_RANGE_W)
  return Math.cbrt(2 * disc.densityKgPerM3 * disc.areaM2 * powerW * powerW)
}

/**
 * Thrust along the propeller axis from the pull in a line at an angle to it.
 *
 *     T = F / cos θ
 *
 * @param pullN pull in the line F [N]
 * @param lineAngleDeg angle between line and propeller axis θ [°], above −90, below 90
 * @returns thrust [N]
 * @source geometry
 * @example thrustAlongAxisN(600, 10) // 609.26
 */
export function thrustAlongAxisN(pullN: number, lineAngleDeg: number): number {
  return pullN / Math.cos((lineAngleDeg * Math.PI) / 180)
}
