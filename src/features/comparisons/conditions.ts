import { ApiProblem } from '../../contract/problems.ts'
import { standardTemperatureK } from '../../core/atmosphere/temperature.ts'
import { airAt } from '../../core/normalise/model/air.ts'
import { REFERENCE, referenceWingFor } from '../../core/normalise/reference.ts'
import type { FlightState, FlownLevelWing } from '../../core/normalise/types.ts'
import { KELVIN_OFFSET } from '../../core/units.ts'
import type { WingFacts } from './repository.ts'
import { type Conditions, MASS_CLASSES } from './schema.ts'

interface AskedConditions {
  readonly allUpMassKg?: number | undefined
  readonly massClass?: keyof typeof MASS_CLASSES | undefined
  readonly elevationM: number
  readonly temperatureC?: number | undefined
}

/** The conditions of an answer: what the caller asked for, the rest filled in and said so. */
export function resolveConditions(
  asked: AskedConditions,
  wing: WingFacts | null,
): { readonly state: FlightState; readonly shown: Conditions } {
  const assumed: string[] = ['Dry air at the pressure of the standard atmosphere.']
  const allUpMassKg = massOf(asked, assumed)
  const { elevationM } = asked
  const temperatureC = asked.temperatureC ?? standardTemperatureC(elevationM, assumed)
  const flown =
    wing === null ? withoutWing(allUpMassKg, assumed) : fromCatalogue(wing, allUpMassKg, assumed)
  const state: FlightState = {
    allUpMassKg,
    elevationM,
    temperatureC,
    relativeHumidityPct: 0,
    wing: flown,
  }
  return {
    state,
    shown: {
      allUpMassKg,
      elevationM,
      temperatureC,
      airDensityKgPerM3: airAt(state).densityKgPerM3,
      wing: { id: wing?.id ?? null, ...flown },
      assumed,
    },
  }
}

function massOf({ allUpMassKg, massClass }: AskedConditions, assumed: string[]): number {
  if (allUpMassKg !== undefined) return allUpMassKg
  if (massClass !== undefined) return MASS_CLASSES[massClass]
  assumed.push(`All-up mass ${REFERENCE.allUpMassKg} kg.`)
  return REFERENCE.allUpMassKg
}

function standardTemperatureC(elevationM: number, assumed: string[]): number {
  assumed.push('Temperature of the standard atmosphere at that elevation.')
  return standardTemperatureK(elevationM) - KELVIN_OFFSET
}

function withoutWing(allUpMassKg: number, assumed: string[]): FlownLevelWing {
  assumed.push('Reference wing at its loading of 5 kg/m², glide ratio 7, trim speed 10.5 m/s.')
  return referenceWingFor(allUpMassKg)
}

/** Cage and pilot take about 15 % off the glide of a catalogue; see the normalisation of a climb. */
function fromCatalogue(wing: WingFacts, allUpMassKg: number, assumed: string[]): FlownLevelWing {
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

/** What remains of a catalogue's glide ratio with pilot and cage in the wind; editorial, no source. */
const CATALOGUE_GLIDE_FACTOR = 0.85

/** The problem for a wing that is not in the catalogue. */
export function unknownWing(): ApiProblem {
  return new ApiProblem('unknown-reference', {
    errors: [{ pointer: '/wingId', detail: 'is not a wing of the catalogue' }],
  })
}
