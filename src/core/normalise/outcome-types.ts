/** What comes out of the normalisation of one run. */

import type { Reach } from '../uncertainty/propagate.ts'
import type { SoundPosition, SoundPower } from './run-types.ts'

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
  /**
   * Who carries the same error: everybody, all runs with the powerplant, all runs of the setup, or
   * all sessions of the pilot.
   */
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
