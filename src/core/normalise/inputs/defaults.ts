import type { AirMotion, FlownEntry, GlideSource, HeightSource, SoundInstrument } from '../types.ts'

/**
 * Default standard uncertainties (k = 1), used where the pilot states none.
 *
 * Source: table of METHOD.md, section j. Values are editorial, to be tuned on
 * data, unless a source stands beside them. A value of 0 means: taken as exact unless stated.
 */
export const DEFAULT_U = {
  /**
   * Start-to-stop interval by hand [s]. Source: Am. J. Phys. 87 (2019) 110, N(0, 0.10²) over 4304
   * observations; NIST SP 960-12: "tens or even hundreds of milliseconds".
   */
  stopwatchS: 0.1,
  /** Instant at which a starved engine dies [s]. */
  starvationS: 2,
  /** Display of 1 m, read twice: √2/√12 [m]. */
  barometricDisplayM: Math.SQRT2 / Math.sqrt(12),
  /** Noise of a barometric height difference [m]. */
  barometricNoiseM: 0.3,
  /** Scale error of a barometric height difference [1]. */
  barometricScaleRatio: 0.005,
  /** Height difference of a satellite receiver over less than five minutes [m]. */
  gnssGainM: 2,
  /** Residual of an instrument that corrects for temperature itself [1]. */
  temperatureCompensationRatio: 0.01,
  temperatureC: 1.5,
  /** Lapse rate between field and run [K/m]; the true one lies between 0 and 0.0098. */
  lapseKPerM: 0.002,
  stationPressureHPa: 1,
  qnhHPa: 2,
  /** Pressure of the standard atmosphere in place of a reading [hPa]. */
  assumedPressureHPa: 10,
  relativeHumidityPct: 15,
  /** 50 % in place of a reading, rectangular from 0 to 100 % [%]. */
  assumedHumidityPct: 100 / Math.sqrt(12),
  wingAreaRatio: 0.01,
  trimSpeedRatio: 0.04,
  /** Trim speed of the reference wing in place of the pilot's own [1]. */
  assumedTrimSpeedRatio: 0.1,
  /** Ground velocity of a satellite receiver, along the track and across it [m/s]. */
  groundSpeedMps: 0.15,
  /** Wind that changes between three legs well spread, as it acts on the airspeed [m/s]. */
  windChangeMps: 0.3,
  propellerDiameterM: 0.005,
  /** Thrust from climb: inclination of the thrust, change of trim, slipstream on the pilot [1]. */
  thrustModelRatio: 0.025,
  volumeRatio: 0.01,
  /** A rule held into the gap at a blade tip [mm]. */
  tipClearanceMm: 2,
  /** Refilling to a mark at a pump [mL]. */
  refillMl: 20,
  /** Meter of a battery [1]: ours. */
  energyRatio: 0.02,
  /** Start and end of an energy reading [s]: ours. */
  energyReadingS: 1,
  fuelTemperatureC: 5,
  /** Expansion coefficient of fuels that are not plain gasoline of 745 kg/m³ [1]. */
  fuelExpansionRatio: 0.05,
  /** Height difference between start and end of a burn [m]. */
  heightChangeM: 3,
  /** Speed and bank held by hand over a burn, as a fraction of the flow [1]. */
  levelFlyingRatio: 0.02,
  /** Load cell: this, or the ratio below, whichever is more [N]. */
  loadCellN: 3,
  loadCellRatio: 0.005,
  lineAngleDeg: 3,
  /** Headwind at a static pull [m/s]. */
  headwindMps: 1,
  /** Where exactly the microphone is, and what stands around it [dB]. */
  soundSiteDb: 1,
  /** Background level, which comes and goes [dB]: ours. */
  backgroundDb: 1,
  /** Distance of a microphone [1]: ours. */
  soundDistanceRatio: 0.05,
  /** Ground, air and wind between two distances, as a fraction of the spreading [1]: ours. */
  spreadingRatio: 0.1,
} as const

/** Standard uncertainty of an all-up mass [kg]. */
export const MASS_U_KG: Readonly<Record<NonNullable<FlownEntry['massSource']>, number>> = {
  weighed: 2,
  estimated: 5,
}

/** Standard uncertainty of a sound-level reading [dB]. */
export const SOUND_U_DB: Readonly<Record<SoundInstrument, number>> = { class2: 1, phone: 3 }

/** Standard uncertainty of a system glide ratio over the ratio [1]. */
export const GLIDE_U_RATIO: Readonly<Record<GlideSource | 'assumed', number>> = {
  measured: 0.07,
  catalogue: 0.12,
  estimated: 0.15,
  assumed: 0.2,
}

/** What remains of a catalogue's glide ratio with pilot and cage in the wind [1]: editorial, no source. */
export const CATALOGUE_GLIDE_FACTOR = 0.85
/** Standard uncertainty of that factor [1]. */
export const CATALOGUE_GLIDE_FACTOR_U = 0.06

/** Mean vertical air motion over a climb [m/s]: calm dawn, the usual, weak thermals, thermals. */
export const AIR_MOTION_U_MPS: Readonly<Record<AirMotion, number>> = {
  calm: 0.1,
  light: 0.2,
  active: 0.5,
  thermic: 1,
}
/** Part of it that does not average out over the runs of one session [m/s]. */
export const AIR_MOTION_FLOOR_MPS = 0.05
/** A burn lasts longer than a climb, so its mean vertical air motion is smaller [1]. */
export const BURN_AIR_MOTION_FACTOR = 0.5

/** Height of a level speed run where none is given, and its standard uncertainty [m]: ours. */
export const ASSUMED_LEVEL_HEIGHT = { valueM: 150, u: 100 } as const

/** Fraction of the barometric correction that is applied, and the standard uncertainty of that fraction. */
export const BAROMETRIC_SHARE: Readonly<Record<HeightSource, { value: number; u: number }>> = {
  barometric: { value: 1, u: 0 },
  barometricTemperatureCompensated: { value: 0, u: 0 },
  gnss: { value: 0, u: 0 },
  unknown: { value: 0.5, u: 0.5 },
}

/** Relative humidity where none is given [%]. */
export const ASSUMED_HUMIDITY_PCT = 50
