/** The kinds of run, as they are submitted; the names are those of the HTTP body. */

/** How the height gain was read. */
export type HeightSource = 'barometric' | 'barometricTemperatureCompensated' | 'gnss' | 'unknown'
/** Where a sound level was measured. */
export type SoundPosition = 'pilotEar' | 'distance'
/** What the engine gave while a sound level was measured: all it has, or what level flight needs. */
export type SoundPower = 'full' | 'level'

/** Stated standard uncertainties by field name, each in the unit of that field. */
export type Stated = Readonly<Record<string, number>> | undefined

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
