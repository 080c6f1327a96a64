import { dryAirDensityKgPerM3 } from '../../atmosphere/density.ts'
import {
  moistAirDensityKgPerM3,
  vapourPressurePa,
  virtualTemperatureK,
} from '../../atmosphere/humidity.ts'
import { standardPressurePa } from '../../atmosphere/pressure.ts'
import { kelvinFromCelsius, PA_PER_HPA } from '../../units.ts'

/** The air of a run or of a prediction. */
export interface Air {
  readonly pressurePa: number
  readonly temperatureK: number
  readonly densityKgPerM3: number
  /** Pressure less vapour pressure [Pa]. */
  readonly dryPressurePa: number
  readonly virtualTemperatureK: number
}

/**
 * Density, dry pressure and virtual temperature of moist air.
 *
 *     ρ by CIPM-2007;  p_d = p − e;  T_v = T/(1 − 0.378·e/p);  e = h·p_sv(T)
 *
 * @param pressurePa pressure p [Pa], 20 000 to 130 000
 * @param temperatureK temperature T [K], 173.15 to 353.15
 * @param relativeHumidity relative humidity h [1], 0 to 1
 * @returns the air
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source CIPM-2007; METHOD.md, section b
 */
export function moistAir(pressurePa: number, temperatureK: number, relativeHumidity: number): Air {
  const vapourPa = vapourPressurePa(relativeHumidity, temperatureK)
  return {
    pressurePa,
    temperatureK,
    densityKgPerM3: moistAirDensityKgPerM3(pressurePa, temperatureK, relativeHumidity),
    dryPressurePa: pressurePa - vapourPa,
    virtualTemperatureK: virtualTemperatureK(temperatureK, vapourPa, pressurePa),
  }
}

/**
 * The air of a prediction: moist where a humidity is given, else dry air of the standard gas law.
 *
 *     p = p_ISA(H) where no pressure is given;  ρ = p/(R·T) where the humidity is 0 or not given
 *
 * The gas law keeps the air of the reference state exactly that of ISO 2533; CIPM-2007 makes the same
 * dry air 0.04 % denser.
 *
 * @param state elevation [m], −1000 to 11 000; temperature [°C], −80 to 80; optional pressure [hPa],
 *   200 to 1300; optional relative humidity [%], 0 to 100
 * @returns the air
 * @throws {OutOfRangeError} if an argument is NaN or lies outside its range
 * @source ISO 2533:1975; CIPM-2007
 */
export function airAt(state: {
  readonly elevationM: number
  readonly temperatureC: number
  readonly stationPressureHPa?: number | undefined
  readonly relativeHumidityPct?: number | undefined
}): Air {
  const { stationPressureHPa, relativeHumidityPct } = state
  const pressurePa =
    stationPressureHPa === undefined
      ? standardPressurePa(state.elevationM)
      : stationPressureHPa * PA_PER_HPA
  const temperatureK = kelvinFromCelsius(state.temperatureC)
  if (relativeHumidityPct !== undefined && relativeHumidityPct !== 0) {
    return moistAir(pressurePa, temperatureK, relativeHumidityPct / 100)
  }
  return {
    pressurePa,
    temperatureK,
    densityKgPerM3: dryAirDensityKgPerM3(pressurePa, temperatureK),
    dryPressurePa: pressurePa,
    virtualTemperatureK: temperatureK,
  }
}
