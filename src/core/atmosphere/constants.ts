/** Defining constants of the standard atmosphere. Source: ISO 2533:1975 / US Standard Atmosphere 1976. */

/** Standard acceleration of free fall [m/s²]. */
export const G0 = 9.80665
/** Sea-level pressure [Pa]. */
export const P0 = 101_325
/** Sea-level temperature [K]. */
export const T0 = 288.15
/** Specific gas constant of dry air [J/(kg·K)]. */
export const R_AIR = 287.05287
/** Fall of temperature with geopotential height in the troposphere [K/m]. */
export const LAPSE_RATE = 0.0065
/** Ratio of the specific heats of air [1]. */
export const KAPPA = 1.4
/** Nominal radius of the Earth for geopotential height [m]. */
export const EARTH_RADIUS_M = 6_356_766
/** Lowest and highest geopotential height accepted [m]; the lower bound extends the troposphere downward. */
export const HEIGHT_RANGE_M = { min: -5_000, max: 20_000 } as const
/** Geopotential height of the tropopause [m]. */
export const TROPOPAUSE_M = 11_000

/** Sea-level density, from the gas law: 1.225 [kg/m³]. */
export const RHO0 = P0 / (R_AIR * T0)
/** g0 / (R·L), the exponent of the pressure law: 5.25588 [1]. */
export const PRESSURE_EXPONENT = G0 / (R_AIR * LAPSE_RATE)
/** Temperature of the isothermal layer above the tropopause: 216.65 [K]. */
export const T11 = T0 - LAPSE_RATE * TROPOPAUSE_M
/** Pressure at the tropopause: 22 632 [Pa]. */
export const P11 = P0 * (T11 / T0) ** PRESSURE_EXPONENT
/** Scale height of the isothermal layer, R·T11/g0 [m]. */
export const SCALE_HEIGHT_11_M = (R_AIR * T11) / G0
/**
 * Room for rounding at the ends of the range of an inverse [1]: a law evaluated at its end may come out
 * one unit in the last place beyond it.
 */
export const ROUNDING = 1e-12
