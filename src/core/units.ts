/** Exact conversions at the edge. Inside the core everything is SI. */

/** Metres in one international foot. Source: international yard and pound agreement, 1959. */
export const METRES_PER_FOOT = 0.3048
/** Metres per second in one knot: 1852 m in 3600 s. Source: SI brochure, nautical mile of 1929. */
export const MPS_PER_KNOT = 1852 / 3600
/** Metres per second in one kilometre per hour. */
export const MPS_PER_KMH = 1 / 3.6
/** Metres per second in one statute mile per hour. Source: mile of 1609.344 m, agreement of 1959. */
export const MPS_PER_MPH = 1609.344 / 3600
/** Metres per second in one foot per minute. */
export const MPS_PER_FPM = METRES_PER_FOOT / 60
/** Kilograms in one avoirdupois pound. Source: international yard and pound agreement, 1959. */
export const KG_PER_LB = 0.45359237
/** Newtons in one kilogram-force. Source: standard acceleration of free fall, CGPM 1901. */
export const NEWTONS_PER_KGF = 9.80665
/** Newtons in one pound-force. */
export const NEWTONS_PER_LBF = KG_PER_LB * NEWTONS_PER_KGF
/** Kilowatts in one mechanical horsepower of 550 ft·lbf/s. Source: NIST SP 811 (from memory). */
export const KW_PER_HORSEPOWER = (550 * METRES_PER_FOOT * NEWTONS_PER_LBF) / 1000
/** Pascals in one hectopascal, which is one millibar. */
export const PA_PER_HPA = 100
/** Pascals in one conventional millimetre of mercury: 13 595.1 kg/m³ × 9.80665 m/s² × 1 mm. */
export const PA_PER_MMHG = (13_595.1 * 9.80665) / 1000
/** Pascals in one conventional inch of mercury. */
export const PA_PER_INHG = 25.4 * PA_PER_MMHG
/** Litres in one US liquid gallon of 231 cubic inches. */
export const LITRES_PER_US_GALLON = 231 * 0.0254 ** 3 * 1000
/** Square metres in one square foot. */
export const M2_PER_SQUARE_FOOT = METRES_PER_FOOT ** 2
/** Kelvin at 0 °C. Source: definition of the Celsius scale, SI brochure. */
export const KELVIN_OFFSET = 273.15

/**
 * Thermodynamic temperature of a Celsius temperature.
 *
 *     T = t + 273.15
 *
 * @param celsius temperature t [°C], any
 * @returns temperature [K]
 * @source SI brochure, definition of the degree Celsius
 * @example kelvinFromCelsius(15) // 288.15
 */
export function kelvinFromCelsius(celsius: number): number {
  return celsius + KELVIN_OFFSET
}

/**
 * Celsius temperature of a Fahrenheit temperature.
 *
 *     t = (t_F − 32) / 1.8
 *
 * @param fahrenheit temperature t_F [°F], any
 * @returns temperature [°C]
 * @source NIST SP 811, appendix B.8 (from memory)
 * @example celsiusFromFahrenheit(59) // 15
 */
export function celsiusFromFahrenheit(fahrenheit: number): number {
  return (fahrenheit - 32) / 1.8
}
