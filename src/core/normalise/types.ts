/**
 * What goes into a normalisation and what comes out of it.
 *
 * The names are those of the HTTP body, so that a validated body is a valid argument.
 * Every object may carry `uncertainty`: stated standard uncertainties (k = 1), each in the unit of
 * the field whose name it bears. Where nothing is stated, the defaults of `defaults.ts` hold.
 */

import type { RunOutcome, Warning } from './outcome-types.ts'
import type { Run, Stated } from './run-types.ts'

export type * from './outcome-types.ts'
export type * from './run-types.ts'

/** The pilot's word for the vertical motion of the air. */
export type AirMotion = 'calm' | 'light' | 'active' | 'thermic'
/** Where the glide ratio comes from: flown with the engine off, a catalogue, or a guess. */
export type GlideSource = 'measured' | 'catalogue' | 'estimated'
export type Drive = 'twoStroke' | 'fourStroke' | 'electric'

export interface Site {
  /** Height of the field above mean sea level [m]. */
  readonly elevationM: number
  readonly uncertainty?: Stated
}

export interface AirConditions {
  /** Air temperature at the field [°C]. */
  readonly temperatureC: number
  /** Altimeter setting [hPa]; ignored where `stationPressureHPa` is given. */
  readonly qnhHPa?: number | undefined
  /** Pressure at the field itself [hPa]. */
  readonly stationPressureHPa?: number | undefined
  readonly relativeHumidityPct?: number | undefined
  readonly windMps?: number | undefined
  readonly airMotion: AirMotion
  readonly uncertainty?: Stated
}

export interface FlownWing {
  readonly flatAreaM2: number
  /** Glide ratio of the system: wing, pilot and running frame. A catalogue figure is reduced for them. */
  readonly glideRatio?: number | undefined
  readonly glideSource?: GlideSource | undefined
  /** Airspeed in level trimmed flight at ISA sea-level density [m/s], at `trimAtAllUpMassKg`. */
  readonly trimSpeedMps?: number | undefined
  readonly trimAtAllUpMassKg?: number | undefined
  readonly uncertainty?: Stated
}

/** What the runs of one session share: the place, the air, the pilot and the wing. */
export interface FlightSession {
  readonly site: Site
  readonly conditions: AirConditions
  readonly pilot: { readonly massKg: number; readonly uncertainty?: Stated }
  readonly wing: FlownWing
}

/** One set-up as it was flown. */
export interface FlownEntry {
  /** Pilot, clothing, wing, frame, engine and fuel at the start of the run [kg]. */
  readonly allUpMassKg: number
  /** Absent: treated as estimated. */
  readonly massSource?: 'weighed' | 'estimated' | undefined
  readonly uncertainty?: Stated
}

/** What the catalogue knows of the set-up. */
export interface Equipment {
  readonly drive: Drive
  readonly propellerDiameterCm: number
  /** Engine speed over propeller speed [1]; absent: nothing is worked out from an engine speed. */
  readonly reductionRatio?: number | undefined
  /** Rated shaft power [kW]; absent: no figure of merit is worked out. */
  readonly ratedPowerKw?: number | undefined
}

/** One run with all that is needed to normalise it. */
export interface RunInput {
  readonly session: FlightSession
  readonly entry: FlownEntry
  readonly run: Run
  readonly equipment: Equipment
  /** Where the run stands in the submission, for the pointers of its warnings. Default: 0 and 0. */
  readonly at?: { readonly entryIndex: number; readonly runIndex: number }
}

/** One entry of a submission with what the catalogue knows of its set-up. */
export interface SubmittedEntry {
  readonly entry: FlownEntry
  readonly equipment: Equipment
  readonly runs: readonly Run[]
}

/** Refusals are faults that stop a submission; warnings are doubts that do not. */
export interface Findings {
  readonly refusals: readonly Warning[]
  readonly warnings: readonly Warning[]
}

/** A whole submission, normalised: `outcomes[entry][run]`, or null where something was refused. */
export interface SubmissionOutcome extends Findings {
  readonly outcomes: readonly (readonly RunOutcome[])[] | null
}

/** The wing of a prediction, fully known. */
export interface FlownLevelWing {
  readonly flatAreaM2: number
  readonly glideRatio: number
  readonly trimSpeedMps: number
  readonly trimAtAllUpMassKg: number
}

/** Conditions of a prediction. */
export interface FlightState {
  readonly allUpMassKg: number
  readonly elevationM: number
  /** Air temperature at that elevation [°C]. */
  readonly temperatureC: number
  /** Absent: dry air, as in the reference state. */
  readonly relativeHumidityPct?: number | undefined
  /** Absent: pressure of the standard atmosphere at the elevation. */
  readonly stationPressureHPa?: number | undefined
  readonly wing: FlownLevelWing
}

/** Full-throttle climb at a {@link FlightState}. */
export interface ClimbForecast {
  /** Negative where the set-up is too weak to hold height: then it sinks at that rate. */
  readonly climbRateMps: number
  readonly thrustN: number
  readonly climbAngleDeg: number
  /** Airspeed along the path [m/s]. */
  readonly airspeedMps: number
  /** d(climb rate)/d ln(induced power) [m/s]; finite also where the climb rate is zero. */
  readonly climbRateSlopeMps: number
  /** d ln(climb rate)/d ln(induced power); null where the set-up does not climb. */
  readonly climbRateElasticity: number | null
  /** d ln(thrust)/d ln(induced power). */
  readonly thrustElasticity: number
  /** False where the power would carry the climb past 45°: then the figures are those at 45°. */
  readonly withinModel: boolean
}
