import { PRESSURE_EXPONENT } from '../atmosphere/constants.ts'
import { standardPressurePa, stationPressurePa } from '../atmosphere/pressure.ts'
import { type AskedConditions, massOf, temperatureOf } from '../comparison/conditions.ts'
import { MASS_CLASS_U_KG } from '../comparison/mass-classes.ts'
import { ASSUMED_HUMIDITY_PCT, DEFAULT_U, MASS_U_KG } from '../normalise/inputs/defaults.ts'
import { knownWing } from '../normalise/inputs/wing.ts'
import { referenceWingFor } from '../normalise/reference.ts'
import type { FlightState, FlownWing } from '../normalise/types.ts'
import { PA_PER_HPA } from '../units.ts'

/** Fuel on board and what of it is not to be flown on. */
export interface Tank {
  readonly tankL: number
  readonly reserve: { readonly litres: number } | { readonly minutes: number }
}

/** What a caller wants predicted; gaps are filled in. */
export interface AskedPrediction extends AskedConditions {
  readonly qnhHPa?: number | undefined
  readonly relativeHumidityPct?: number | undefined
  /** Null: the reference wing in the size that suits the mass. */
  readonly wing: FlownWing | null
  readonly tank: Tank | null
  readonly uncertainty: StatedUnknowns
}

/** The caller's own standard uncertainties (k = 1), each in the unit of its field. */
export interface StatedUnknowns {
  readonly allUpMassKg?: number | undefined
  readonly temperatureC?: number | undefined
  readonly qnhHPa?: number | undefined
  readonly relativeHumidityPct?: number | undefined
  readonly glideRatio?: number | undefined
  readonly trimSpeedMps?: number | undefined
  readonly tankL?: number | undefined
}

/** A value with its standard uncertainty, in the same unit. */
export interface Known {
  readonly value: number
  readonly u: number
}

/** A prediction's conditions, complete. */
export interface PredictionConditions {
  readonly elevationM: number
  readonly flatAreaM2: number
  readonly allUpMassKg: Known
  readonly temperatureC: Known
  readonly stationPressureHPa: Known
  readonly relativeHumidityPct: Known
  readonly glideRatio: Known
  readonly trimSpeedMps: Known
  readonly trimAtAllUpMassKg: Known
  readonly tankL: Known | null
  readonly reserve: Tank['reserve']
  /** What was taken for granted because the question left it open, in sentences. */
  readonly assumed: readonly string[]
}

/** Volume in a tank by its marks [1]: editorial, no source. */
const TANK_U_RATIO = 0.02

/**
 * Fills the gaps of what a caller wants predicted, and puts a standard uncertainty on each of it.
 *
 * Mass 2 kg, or that of the class; temperature 1.5 K; pressure 2 hPa from a QNH, else 10 hPa on that of
 * the standard atmosphere; humidity 15 %, else anything; glide ratio 7 % measured, 12 % from a
 * catalogue, 15 % estimated, 20 % assumed; trim speed 4 %, 10 % assumed; tank 2 %. What the caller
 * states goes before all of these.
 *
 * @param asked mass [kg], 20 to 1000, or class; elevation [m], −1000 to 11 000; temperature [°C];
 *   QNH [hPa], 700 to 1300; humidity [%]; wing; tank [L]; standard uncertainties
 * @returns the conditions with their uncertainties, and what was assumed
 * @throws {OutOfRangeError} if elevation or QNH lie outside their range
 * @source METHOD.md, sections a, b, d and j; the tank is editorial
 */
export function completeConditions(asked: AskedPrediction): PredictionConditions {
  const { elevationM, tank, uncertainty } = asked
  const assumed: string[] = []
  const allUpMassKg = massOf(asked, assumed)
  const temperature = temperatureOf(asked, assumed)
  const massU = asked.massClass === undefined ? MASS_U_KG.weighed : MASS_CLASS_U_KG[asked.massClass]
  return {
    elevationM,
    allUpMassKg: { value: allUpMassKg, u: uncertainty.allUpMassKg ?? massU },
    temperatureC: { value: temperature, u: uncertainty.temperatureC ?? DEFAULT_U.temperatureC },
    stationPressureHPa: pressureOf(asked, assumed),
    relativeHumidityPct: humidityOf(asked, assumed),
    ...wingOf(asked, allUpMassKg, assumed),
    tankL: tank && { value: tank.tankL, u: uncertainty.tankL ?? TANK_U_RATIO * tank.tankL },
    reserve: tank?.reserve ?? { litres: 0 },
    assumed,
  }
}

function pressureOf({ elevationM, qnhHPa, uncertainty }: AskedPrediction, assumed: string[]) {
  if (qnhHPa === undefined) {
    assumed.push(
      `Pressure of the standard atmosphere at the elevation, ±${DEFAULT_U.assumedPressureHPa} hPa.`,
    )
    return {
      value: standardPressurePa(elevationM) / PA_PER_HPA,
      u: uncertainty.qnhHPa ?? DEFAULT_U.assumedPressureHPa,
    }
  }
  const value = stationPressurePa(qnhHPa * PA_PER_HPA, elevationM) / PA_PER_HPA
  const slope = (value / qnhHPa) ** (1 - 1 / PRESSURE_EXPONENT) // dp/dQNH
  return { value, u: slope * (uncertainty.qnhHPa ?? DEFAULT_U.qnhHPa) }
}

function humidityOf({ relativeHumidityPct, uncertainty }: AskedPrediction, assumed: string[]) {
  if (relativeHumidityPct === undefined) {
    assumed.push(`Relative humidity ${ASSUMED_HUMIDITY_PCT} %, anything being possible.`)
  }
  return {
    value: relativeHumidityPct ?? ASSUMED_HUMIDITY_PCT,
    u:
      uncertainty.relativeHumidityPct ??
      (relativeHumidityPct === undefined
        ? DEFAULT_U.assumedHumidityPct
        : DEFAULT_U.relativeHumidityPct),
  }
}

function wingOf({ wing, uncertainty }: AskedPrediction, allUpMassKg: number, assumed: string[]) {
  const described = wing ?? { flatAreaM2: referenceWingFor(allUpMassKg).flatAreaM2 }
  const known = knownWing(described, allUpMassKg)
  assumed.push(...known.warnings.map(({ detail }) => detail))
  return {
    flatAreaM2: described.flatAreaM2,
    glideRatio: {
      value: known.glideRatio.value,
      u: uncertainty.glideRatio ?? known.glideRatio.standardUncertainty,
    },
    trimSpeedMps: {
      value: known.trimSpeedMps.value,
      u: uncertainty.trimSpeedMps ?? known.trimSpeedMps.standardUncertainty,
    },
    trimAtAllUpMassKg: {
      value: known.trimMassKg.value,
      u: wing === null ? 0 : known.trimMassKg.standardUncertainty,
    },
  }
}

/**
 * The state of mass, air and wing that conditions stand for.
 *
 * @param conditions complete conditions
 * @returns the state as the prediction takes it
 * @source derived: the same values
 */
export function stateOf(conditions: PredictionConditions): FlightState {
  return {
    allUpMassKg: conditions.allUpMassKg.value,
    elevationM: conditions.elevationM,
    temperatureC: conditions.temperatureC.value,
    stationPressureHPa: conditions.stationPressureHPa.value,
    relativeHumidityPct: conditions.relativeHumidityPct.value,
    wing: {
      flatAreaM2: conditions.flatAreaM2,
      glideRatio: conditions.glideRatio.value,
      trimSpeedMps: conditions.trimSpeedMps.value,
      trimAtAllUpMassKg: conditions.trimAtAllUpMassKg.value,
    },
  }
}
