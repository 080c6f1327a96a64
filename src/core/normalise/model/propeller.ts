import { speedOfSoundMps } from '../../atmosphere/sound.ts'

/** A propeller at work: what of it and of the air its coefficients follow from. */
export interface TurningPropeller {
  readonly diameterM: number
  readonly propellerRpm: number
  readonly densityKgPerM3: number
}

/**
 * Speed of the tips in the plane of the propeller.
 *
 *     π·D·n
 *
 * @param diameterM diameter D [m], 0 or more
 * @param propellerRpm propeller speed n [1/min], 0 or more
 * @returns tip speed [m/s]
 * @source geometry
 * @example tipSpeedMps(1.25, 3000) // 196.35
 */
export function tipSpeedMps(diameterM: number, propellerRpm: number): number {
  return (Math.PI * diameterM * propellerRpm) / 60
}

/**
 * Mach number of the tips on their helix.
 *
 *     M = √((π·D·n)² + V²) / a(T)
 *
 * @param tipMps tip speed in the plane of the propeller [m/s], 0 or more
 * @param airspeedMps airspeed along the axis V [m/s]
 * @param temperatureK air temperature T [K], 150 to 400
 * @returns Mach number [1]
 * @throws {OutOfRangeError} if the temperature is NaN or lies outside its range
 * @source geometry; METHOD.md, section i
 * @example helicalTipMach(196.35, 10.5, 288.15) // 0.5778
 */
export function helicalTipMach(tipMps: number, airspeedMps: number, temperatureK: number): number {
  return Math.hypot(tipMps, airspeedMps) / speedOfSoundMps(temperatureK)
}

/**
 * Thrust coefficient of a propeller.
 *
 *     CT = T / (ρ·n²·D⁴),  n in revolutions per second
 *
 * @param thrustN thrust T [N]
 * @param propeller diameter D [m], speed n [1/min] and air density ρ [kg/m³], above 0
 * @returns coefficient [1]
 * @source common practice
 * @example thrustCoefficient(600, { diameterM: 1.25, propellerRpm: 3000, densityKgPerM3: 1.225 }) // 0.0802
 */
export function thrustCoefficient(thrustN: number, propeller: TurningPropeller): number {
  const perSecond = propeller.propellerRpm / 60
  return thrustN / (propeller.densityKgPerM3 * perSecond ** 2 * propeller.diameterM ** 4)
}

/**
 * Figure of merit of a propeller at a standstill: ideal over actual power.
 *
 *     FM = T^1.5 / (P·√(2·ρ·A))
 *
 * @param thrustN static thrust T [N], 0 or more
 * @param shaftPowerW shaft power P [W], above 0
 * @param disc air density ρ [kg/m³] and disc area A [m²], above 0
 * @returns figure of merit [1]; above 1 is impossible
 * @source momentum theory of the actuator disc; common practice
 * @example staticFigureOfMerit(500, 11_000, { densityKgPerM3: 1.225, areaM2: 1.22718 }) // 0.586
 */
export function staticFigureOfMerit(
  thrustN: number,
  shaftPowerW: number,
  disc: { readonly densityKgPerM3: number; readonly areaM2: number },
): number {
  return thrustN ** 1.5 / (shaftPowerW * Math.sqrt(2 * disc.densityKgPerM3 * disc.areaM2))
}
