import { discAreaM2 } from './model/induced-power.ts'
import {
  helicalTipMach,
  staticFigureOfMerit,
  thrustCoefficient,
  tipSpeedMps,
} from './model/propeller.ts'
import type { Derived, Equipment } from './types.ts'

const W_PER_KW = 1000

/** How the propeller worked in a run. */
export interface PropellerState {
  readonly airspeedMps: number
  readonly temperatureK: number
  /** Thrust and air density; absent: no coefficients. */
  readonly loaded?: { readonly thrustN: number; readonly densityKgPerM3: number }
  /** At a standstill on full throttle: power in this air over that at ISA sea level [1]. */
  readonly staticPowerRatio?: number
}

/**
 * What follows from engine speed and rated power, as far as the equipment is known.
 *
 *     n = n_engine/i;  π·D·n;  M = √((π·D·n)² + V²)/a;  CT = T/(ρ·n²·D⁴);  FM = T^1.5/(φ·P_rated·√(2·ρ·A))
 *
 * @param engineRpm engine speed, where it was read [1/min]
 * @param equipment what the catalogue knows of the set-up
 * @param state airspeed [m/s], air, thrust [N] and power ratio [1] of the run
 * @returns the figures that can be worked out, or undefined where none can
 * @throws {OutOfRangeError} if the temperature is NaN or lies outside 150 to 400 K
 * @source METHOD.md, section i
 */
export function deriveFigures(
  engineRpm: number | undefined,
  equipment: Equipment,
  state: PropellerState,
): Derived | undefined {
  const derived = { ...turning(engineRpm, equipment, state), ...merit(equipment, state) }
  return Object.keys(derived).length === 0 ? undefined : derived
}

function turning(
  engineRpm: number | undefined,
  { reductionRatio, propellerDiameterCm }: Equipment,
  { airspeedMps, temperatureK, loaded }: PropellerState,
): Derived {
  if (engineRpm === undefined || reductionRatio === undefined) return {}
  const propellerRpm = engineRpm / reductionRatio
  const diameterM = propellerDiameterCm / 100
  const tipMps = tipSpeedMps(diameterM, propellerRpm)
  const speeds = {
    propellerRpm,
    tipSpeedMps: tipMps,
    helicalTipMach: helicalTipMach(tipMps, airspeedMps, temperatureK),
  }
  if (loaded === undefined) return speeds
  const propeller = { diameterM, propellerRpm, densityKgPerM3: loaded.densityKgPerM3 }
  return { ...speeds, thrustCoefficient: thrustCoefficient(loaded.thrustN, propeller) }
}

function merit(
  { ratedPowerKw, propellerDiameterCm }: Equipment,
  { loaded, staticPowerRatio }: PropellerState,
): Derived {
  if (ratedPowerKw === undefined || loaded === undefined || staticPowerRatio === undefined)
    return {}
  const shaftPowerW = ratedPowerKw * W_PER_KW * staticPowerRatio
  const areaM2 = discAreaM2(propellerDiameterCm / 100)
  const disc = { densityKgPerM3: loaded.densityKgPerM3, areaM2 }
  return { figureOfMerit: staticFigureOfMerit(loaded.thrustN, shaftPowerW, disc) }
}
