/**
 * What goes into a normalisation and what comes out of it.
 *
 * The names are those of the HTTP body, so that a validated body is a valid argument.
 * Every object may carry `uncertainty`: stated standard uncertainties (k = 1), each in the unit of
 * the field whose name it bears. Where nothing is stated, the defaults of `defaults.ts` hold.
 */

import type { Reach } from '../uncertainty/propagate.ts'

/** How the height gain was read. */
export type HeightSource = 'barometric' | 'barometricTemperatureCompensated' | 'gnss' | 'unknown'
/** The pilot's word for the vertical motion of the air. */
export type AirMotion = 'calm' | 'light' | 'active' | 'thermic'
/** Where the glide ratio comes from: flown with the engine off, a catalogue, or a guess. */
export type GlideSource = 'measured' | 'catalogue' | 'estimated'
/** Where a sound level was measured. */
export type SoundPosition = 'pilotEar' | 'distance'
/** What the engine gave while a sound level was measured: all it has, or what level flight needs. */
export type SoundPower = 'full' | 'level'
export type Drive = 'twoStroke' | 'fourStroke' | 'electric'

/** Stated standard uncertainties by field name, each in the unit of that field. */
export type Stated = Readonly<Record<string, number>> | undefined

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

export interface ClimbRun {
  readonly kind: 'climb'
  /** Height gained, as the source showed it [m]. */
  readonly heightGainM: number
  readonly durationS: number
  readonly heightSource: HeightSource
  readonly startHeightAboveSiteM: number
  readonly rpm?: number | undefined
  /** Electric drives only: voltage of the battery before and after [V]. */
  readonly batteryStartV?: number | undefined
  readonly batteryEndV?: number | undefined
  readonly uncertainty?: Stated
}

/** A glide at trim with the engine off. */
export interface SinkRun {
  readonly kind: 'sink'
  /** Height lost, as the source showed it [m]. */
  readonly heightLossM: number
  readonly durationS: number
  readonly heightSource: HeightSource
  readonly startHeightAboveSiteM: number
  readonly uncertainty?: Stated
}

/** One leg of level flight at constant heading and airspeed. */
export interface MeasuredLeg {
  /** Direction of the motion over the ground, clockwise from north [°]. */
  readonly trackDeg: number
  readonly groundSpeedMps: number
  readonly uncertainty?: Stated
}

/** Level flight on three or more headings. */
export interface LevelSpeedRun {
  readonly kind: 'levelSpeed'
  readonly legs: readonly MeasuredLeg[]
  /** Absent: assumed, with a wide uncertainty. */
  readonly heightAboveSiteM?: number | undefined
  /** False: flown faster or slower than trim, so that it says nothing of the trim speed. Absent: true. */
  readonly atTrim?: boolean | undefined
  readonly uncertainty?: Stated
}

/** How the fuel was measured: burned to the end out of a measured filling, or refilled to a mark. */
export type FuelMethod = 'measuredTank' | 'refill'

export interface FuelBurnRun {
  readonly kind: 'fuelBurn'
  /** Fuel burned, at the temperature of the fuel [mL]. */
  readonly volumeMl: number
  readonly durationS: number
  readonly heightAboveSiteM: number
  /** Height at the end less height at the start [m]. */
  readonly heightChangeM: number
  readonly rpm?: number | undefined
  readonly fuelTemperatureC?: number | undefined
  /** Absent: a measured filling burned to the end. */
  readonly method?: FuelMethod | undefined
  readonly uncertainty?: Stated
}

/** Level flight of an electric drive. */
export interface EnergyUseRun {
  readonly kind: 'energyUse'
  /** Energy out of the battery [Wh]. */
  readonly energyWh: number
  readonly durationS: number
  readonly heightAboveSiteM: number
  /** Height at the end less height at the start [m]. */
  readonly heightChangeM: number
  readonly batteryStartV: number
  readonly batteryEndV: number
  readonly rpm?: number | undefined
  readonly uncertainty?: Stated
}

/** Full throttle against a load cell on the ground. */
export interface StaticPullRun {
  readonly kind: 'staticPull'
  /** Pull in the line [N]. */
  readonly thrustN: number
  readonly rpm?: number | undefined
  /** Wind along the propeller axis from ahead [m/s]; absent: calm, ±1 m/s. */
  readonly headwindMps?: number | undefined
  /** Angle between line and propeller axis [°]; absent: 0. */
  readonly lineAngleDeg?: number | undefined
  /** Electric drives only: voltage of the battery before and after [V]. */
  readonly batteryStartV?: number | undefined
  readonly batteryEndV?: number | undefined
  readonly uncertainty?: Stated
}

/** What read the sound level; absent: a phone. */
export type SoundInstrument = 'class2' | 'phone'

export interface SoundLevelRun {
  readonly kind: 'soundLevel'
  /** A-weighted level with engine and background [dB]. */
  readonly levelDbA: number
  /** A-weighted level of the background alone [dB]. */
  readonly backgroundDbA?: number | undefined
  readonly position: SoundPosition
  /** From the propeller hub; required at a distance, absent at the ear [m]. */
  readonly distanceM?: number | undefined
  /** Seen from the hub, 0 straight ahead of the pilot, clockwise from above [°]. */
  readonly directionDeg?: number | undefined
  readonly surface?: 'grass' | 'soil' | 'hard' | 'sand' | 'snow' | undefined
  readonly power: SoundPower
  readonly instrument?: SoundInstrument | undefined
  readonly rpm?: number | undefined
  readonly uncertainty?: Stated
}

export interface TipClearanceRun {
  readonly kind: 'tipClearance'
  /** Smallest gap between blade tip and frame at rest [mm]. */
  readonly staticClearanceMm: number
  /** The same under load [mm]. */
  readonly loadedClearanceMm?: number | undefined
  /** Whether the propeller touched, or a trace of touching was seen. */
  readonly contactSeen: boolean
  /** Pull at the tip or thrust, whichever loaded it [N]; absent: that of full throttle. */
  readonly loadN?: number | undefined
  readonly uncertainty?: Stated
}

export type Run =
  | ClimbRun
  | FuelBurnRun
  | EnergyUseRun
  | StaticPullRun
  | SoundLevelRun
  | SinkRun
  | LevelSpeedRun
  | TipClearanceRun

/** One line of the budget of {@link Normalized.value}. */
export interface BudgetLine {
  /** What varies, in words a pilot understands. */
  readonly source: string
  /** |sensitivity| × standard uncertainty of the input [unit of the value], k = 1. */
  readonly standardUncertainty: number
  /** Fraction of the variance of the value; the shares of a budget sum to 1. */
  readonly share: number
  /** True where all runs of the session carry the same error, so that it cancels between them. */
  readonly sharedWithinSession: boolean
}

/** A run brought to the reference state, with its uncertainty (k = 1) and where that comes from. */
export interface Normalized {
  readonly metric:
    | 'climbRate'
    | 'fuelFlow'
    | 'staticThrust'
    | 'soundLevel'
    | 'electricPower'
    | 'sinkRate'
    | 'levelSpeed'
    | 'tipClearance'
  readonly value: number
  readonly unit: 'm/s' | 'L/h' | 'N' | 'dB' | 'W' | 'mm'
  readonly standardUncertainty: number
  readonly budget: readonly BudgetLine[]
  /** Climb only: useful induced power at full throttle, ISA sea level [W]. The wing-free figure. */
  readonly inducedPowerW?: number
  /** Climb: thrust in the climb at the reference state. Static pull: the value itself [N]. */
  readonly thrustN?: number
  /** Climb only: climb rate at the reference state [m/s], may be negative. Equals `value`. */
  readonly climbRateMps?: number
  /** Fuel burn only: flow in level flight at the reference state, volume at 15 °C [L/h]. Equals `value`. */
  readonly fuelFlowLPerH?: number
  /** Energy use only: electric power in level flight at the reference state [W]. Equals `value`. */
  readonly electricPowerW?: number
  /** Sound level only: where it holds; never converted into one another. */
  readonly position?: SoundPosition
  /** Sound level at a distance only: where it holds [m]. */
  readonly distanceM?: number
  /** Sound level only: what the engine gave. */
  readonly power?: SoundPower
  /** Sink only: glide ratio of the whole system as flown [1]. */
  readonly glideRatio?: number
  /** Sink only: of `glideRatio` [1], k = 1. */
  readonly glideRatioStandardUncertainty?: number
  /** Level speed only: as flown [m/s]. */
  readonly trueAirspeedMps?: number
  /** Level speed only: at the height of the run [m/s]. */
  readonly windMps?: number
  /** Level speed only: where the wind comes from, clockwise from north [°]. */
  readonly windFromDeg?: number
  /** Level speed only: whether it stands for the trim speed. */
  readonly atTrim?: boolean
  /** Tip clearance only: whether `value` is that under load; else it is that at rest. */
  readonly underLoad?: boolean
  /** Tip clearance only: whether the propeller touched. */
  readonly contactSeen?: boolean
  /** Tip clearance only: movement towards the cage under load [mm]. */
  readonly movementMm?: number
  /** Tip clearance only: clearance under load that is advised for this movement [mm]. */
  readonly advisedLoadedClearanceMm?: number
}

/** What the statistical fit uses: natural logarithm of the wing-free figure at the reference state. */
export interface Evidence {
  readonly quantity:
    | 'inducedPower'
    | 'fuelFlow'
    | 'staticThrust'
    | 'soundAtEar'
    | 'soundAtDistance'
    | 'electricPower'
  /** ln of watts, litres per hour, newtons, or sound pressure over 20 µPa. */
  readonly logValue: number
  /** Standard uncertainty of `logValue` from causes of this run alone. */
  readonly ownStandardUncertainty: number
  /** Standard uncertainty of `logValue` from causes common to the session, and to it alone. */
  readonly sharedStandardUncertainty: number
  /** Errors that more flights do not average out, or only flights by others. */
  readonly systematic: readonly SystematicEffect[]
}

/** What one cause does to `logValue` when it is one standard uncertainty away from what was assumed. */
export interface SystematicEffect {
  readonly cause: string
  /** Who carries the same error: everybody, all runs of the setup, or all sessions of the pilot. */
  readonly reach: Reach
  /** Signed change of `logValue` [1]; effects of one cause add up before they are squared. */
  readonly effect: number
}

/** Something to tell the person who submitted. The pointer (RFC 6901) starts at the submission body. */
export interface Warning {
  readonly pointer: string
  readonly code: string
  readonly detail: string
}

/** What follows from engine speed and rated power; only what could be worked out. */
export interface Derived {
  readonly propellerRpm?: number
  /** Speed of the tips in the plane of the propeller [m/s]. */
  readonly tipSpeedMps?: number
  /** Mach number of the tips on their helix [1]. */
  readonly helicalTipMach?: number
  /** Thrust coefficient T/(ρ·n²·D⁴) [1]. */
  readonly thrustCoefficient?: number
  /** Static pull only: ideal power over rated power in this air [1]. */
  readonly figureOfMerit?: number
}

export interface RunOutcome {
  readonly normalized: Normalized
  /** Null where the run says nothing that setups are compared by. */
  readonly evidence: Evidence | null
  readonly derived?: Derived
  readonly warnings: readonly Warning[]
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
