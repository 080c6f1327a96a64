import { standardTemperatureAtPressureK } from '../../atmosphere/temperature.ts'

/**
 * True height gain over barometric height gain.
 *
 *     Δh_true / Δh_ind = T_v / T_ISA(Hp)
 *
 * A vario turns pressure into height with the temperature of the standard atmosphere; the layer it
 * flew through has the thickness its own virtual temperature gives it. Holds for sink as for climb.
 *
 * @param virtualTemperatureK virtual temperature in the middle of the layer T_v [K], above 0
 * @param pressurePa pressure there [Pa], 22 632 to 177 000
 * @returns ratio [1]
 * @throws {OutOfRangeError} if the pressure is NaN or lies outside its range
 * @source derived in METHOD.md, section c and from the hydrostatic equation
 * @example barometricGainRatio(303.15, 97_185) // 1.0604, pressure altitude 350 m
 */
export function barometricGainRatio(virtualTemperatureK: number, pressurePa: number): number {
  return virtualTemperatureK / standardTemperatureAtPressureK(pressurePa)
}
