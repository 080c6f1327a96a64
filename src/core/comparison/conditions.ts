import { standardTemperatureK } from '../atmosphere/temperature.ts'
import { CATALOGUE_GLIDE_FACTOR } from '../normalise/inputs/defaults.ts'
import { airAt } from '../normalise/model/air.ts'
import { REFERENCE, referenceWingFor } from '../normalise/reference.ts'
import type { FlightState, FlownLevelWing } from '../normalise/types.ts'
import { KELVIN_OFFSET } from '../units.ts'
import { MASS_CLASSES, type MassClass } from './mass-classes.ts'

/** Conditions as a caller asks for them; what is left open is filled in. */
export interface AskedConditions {
  readonly allUpMassKg?: number | undefined
  readonly massClass?: MassClass | undefined
  readonly elevationM: number
  readonly temperatureC?: number | undefined
}

/** A wing as the catalogue has it. */
export interface CatalogueWing {
  readonly flatAreaM2: number
  readonly glideRatio: number | null
  readonly trimSpeedMps: number | null
  readonly trimAtAllUpMassKg: number | null
}

/** Conditions of an answer, complete. */
export interface ResolvedConditions {
  readonly state: FlightState
  readonly airDensityKgPerM3: number
  /** What was taken for granted because the question left it open, in sentences. */
  readonly assumed: readonly string[]
}

/**
 * The conditions of an answer: what the caller asked for, the rest filled in and said so.
 *
 * Dry air at the pressure of the standard atmosphere; the reference mass, the temperature of the
 * standard atmosphere and the reference wing at its loading where nothing else was asked for.
 *
 * @param asked all-up mass [kg], 20 to 1000, or its class; elevation [m], −1000 to 11 000;
 *   temperature [°C], −80 to 80
 * @param wing a wing of the catalogue, or null
 * @returns the state, its air density [kg/m³] and what was assumed
 * @throws {OutOfRangeError} if the air lies outside its range
 * @source chosen by this project (reference state R1); a catalogue's glide ratio less 15 % is editorial
 */
export function resolveConditions(
  asked: AskedConditions,
  wing: CatalogueWing | null,
): ResolvedConditions {
  const assumed: string[] = ['Dry air at the pressure of the standard atmosphere.']
  const allUpMassKg = massOf(asked, assumed)
  const { elevationM } = asked
  const temperatureC = temperatureOf(asked, assumed)
  const flown =
    wing === null ? withoutWing(allUpMassKg, assumed) : fromCatalogue(wing, allUpMassKg, assumed)
  const state: FlightState = {
    allUpMassKg,
    elevationM,
    temperatureC,
    relativeHumidityPct: 0,
    wing: flown,
  }
  return { state, airDensityKgPerM3: airAt(state).densityKgPerM3, assumed }
}

/**
 * The all-up mass asked for, that of its class, or the reference mass.
 *
 * @param asked mass [kg] or class, or neither
 * @param assumed gains a sentence where neither was given
 * @returns all-up mass [kg]
 * @source chosen by this project (reference state R1)
 */
export function massOf(
  { allUpMassKg, massClass }: Pick<AskedConditions, 'allUpMassKg' | 'massClass'>,
  assumed: string[],
): number {
  if (allUpMassKg !== undefined) return allUpMassKg
  if (massClass !== undefined) return MASS_CLASSES[massClass]
  assumed.push(`All-up mass ${REFERENCE.allUpMassKg} kg.`)
  return REFERENCE.allUpMassKg
}

/**
 * The temperature asked for, or that of the standard atmosphere.
 *
 * @param asked temperature [°C], or none; elevation [m], −5000 to 20 000
 * @param assumed gains a sentence where none was given
 * @returns air temperature [°C]
 * @throws {OutOfRangeError} if it has to be that of an elevation outside its range
 * @source ISO 2533:1975
 */
export function temperatureOf(
  { temperatureC, elevationM }: Pick<AskedConditions, 'temperatureC' | 'elevationM'>,
  assumed: string[],
): number {
  if (temperatureC !== undefined) return temperatureC
  assumed.push('Temperature of the standard atmosphere at that elevation.')
  return standardTemperatureK(elevationM) - KELVIN_OFFSET
}

function withoutWing(allUpMassKg: number, assumed: string[]): FlownLevelWing {
  assumed.push('Reference wing at its loading of 5 kg/m², glide ratio 7, trim speed 10.5 m/s.')
  return referenceWingFor(allUpMassKg)
}

/** Cage and pilot take about 15 % off the glide of a catalogue; see the normalisation of a climb. */
function fromCatalogue(
  wing: CatalogueWing,
  allUpMassKg: number,
  assumed: string[],
): FlownLevelWing {
  const reference = referenceWingFor(allUpMassKg)
  if (wing.glideRatio === null)
    assumed.push('The catalogue has no glide ratio of this wing: that of the reference wing.')
  else assumed.push('Glide ratio of the catalogue less 15 % for cage and pilot.')
  if (wing.trimSpeedMps === null) {
    assumed.push(
      'The catalogue has no trim speed of this wing: that of the reference wing at the same loading.',
    )
  }
  const loaded = wing.trimSpeedMps !== null && wing.trimAtAllUpMassKg === null
  if (loaded) assumed.push('Trim speed taken to hold at the all-up mass asked for.')
  return {
    flatAreaM2: wing.flatAreaM2,
    glideRatio:
      wing.glideRatio === null ? reference.glideRatio : wing.glideRatio * CATALOGUE_GLIDE_FACTOR,
    trimSpeedMps: wing.trimSpeedMps ?? reference.trimSpeedMps,
    trimAtAllUpMassKg:
      wing.trimSpeedMps === null
        ? (allUpMassKg * wing.flatAreaM2) / reference.flatAreaM2
        : (wing.trimAtAllUpMassKg ?? allUpMassKg),
  }
}
