import { requireInRange } from '../../atmosphere/range.ts'
import { GASOLINE_DENSITY_15C_KG_PER_M3 } from './fuel-volume.ts'

const KG_PER_L = GASOLINE_DENSITY_15C_KG_PER_M3 / 1000
const KM_PER_H_PER_MPS = 3.6

/** Level flight at the start, all fuel on board. */
export interface FullTankFlight {
  readonly allUpMassKg: number
  /** Volume at 15 °C [L/h]. */
  readonly fuelFlowLPerH: number
  readonly airspeedMps: number
}

/** Time and distance through the air on some fuel. */
export interface FlownOnFuel {
  readonly enduranceH: number
  readonly rangeKm: number
}

/**
 * Time and distance in level flight on an amount of fuel, the wing getting lighter as it burns.
 *
 *     ff = ff₀·(m/m₀)^1.5,  V = V₀·(m/m₀)^0.5,  dm/dt = −ρ·ff
 *     t = (2/μ)·(√(m₀/m₁) − 1),  s = (V₀/μ)·ln(m₀/m₁),  μ = ρ·ff₀/m₀,  m₁ = m₀ − ρ·L
 *
 * A flow held constant would give t = L/ff₀: too short by ¾·ρL/m₀ to first order, 6 % for 12 L at
 * 120 kg. No wind; distance is through the air.
 *
 * @param flight all-up mass at the start m₀ [kg], above 0; flow ff₀ [L/h], above 0, and level
 *   airspeed V₀ [m/s] there
 * @param fuelL fuel burned L, volume at 15 °C [L], 0 to half the mass
 * @returns endurance t [h] and range s [km]
 * @throws {OutOfRangeError} if the fuel is NaN, negative or heavier than half the all-up mass
 * @source derived from the level-flight power of METHOD.md, section e; the range is
 *   the equation of Breguet for flight at fixed trim
 * @example burnDown({ allUpMassKg: 120, fuelFlowLPerH: 3, airspeedMps: 10.5 }, 12).enduranceH // 4.2383
 */
export function burnDown(flight: FullTankFlight, fuelL: number): FlownOnFuel {
  const { allUpMassKg, fuelFlowLPerH, airspeedMps } = flight
  requireInRange('fuelL', fuelL, { min: 0, max: allUpMassKg / KG_PER_L / 2 })
  const lightened = -Math.log1p((-KG_PER_L * fuelL) / allUpMassKg) // ln(m₀/m₁)
  const fractionPerH = (KG_PER_L * fuelFlowLPerH) / allUpMassKg
  return {
    enduranceH: (2 / fractionPerH) * Math.expm1(lightened / 2),
    rangeKm: (KM_PER_H_PER_MPS * airspeedMps * lightened) / fractionPerH,
  }
}

/**
 * Fuel burned in the first hours of level flight. Inverse of {@link burnDown}'s endurance.
 *
 *     L = (m₀/ρ)·(1 − (1 + μt/2)^−2)
 *
 * @param flight as for {@link burnDown}
 * @param hours time t [h], 0 or more
 * @returns fuel, volume at 15 °C [L]
 * @source derived from the same law as {@link burnDown}
 * @example fuelBurnedL({ allUpMassKg: 120, fuelFlowLPerH: 3, airspeedMps: 10.5 }, 4.2383) // 12.00
 */
export function fuelBurnedL(flight: FullTankFlight, hours: number): number {
  const { allUpMassKg, fuelFlowLPerH } = flight
  const half = (KG_PER_L * fuelFlowLPerH * hours) / allUpMassKg / 2
  return (allUpMassKg / KG_PER_L) * (1 - (1 + half) ** -2)
}
