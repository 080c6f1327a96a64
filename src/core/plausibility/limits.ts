/**
 * Plausibility limits: outside `hard` a value is refused, outside `soft` it is taken with a warning.
 *
 * Source: METHOD.md, section k. Editorial, for single-seat foot launch, to be
 * tuned on data. Rows marked "ours" are not in that table.
 */

/** A range; a bound counts as inside unless it is marked open. */
export interface Range {
  readonly min: number
  readonly max: number
  readonly minOpen?: boolean
  readonly maxOpen?: boolean
}

export interface Limit {
  /** The quantity, in words a pilot understands, as the start of a sentence. */
  readonly quantity: string
  /** Unit as it is written after a number; empty for a pure number. */
  readonly unit: string
  readonly hard: Range
  readonly soft: Range
}

function limit(
  quantity: string,
  unit: string,
  bounds: { readonly hard: readonly [number, number]; readonly soft: readonly [number, number] },
): Limit {
  const [hardMin, hardMax] = bounds.hard
  const [softMin, softMax] = bounds.soft
  return {
    quantity,
    unit,
    hard: { min: hardMin, max: hardMax },
    soft: { min: softMin, max: softMax },
  }
}

const allUpMass = { hard: [60, 500], soft: [85, 200] } as const
const heightAboveSite = { hard: [-500, 4000], soft: [0, 1500] } as const

/** Limits of submitted fields, by field name. */
export const FIELD_LIMITS = {
  elevationM: limit('Elevation', 'm', { hard: [-430, 5500], soft: [0, 3000] }),
  temperatureC: limit('Air temperature', '°C', { hard: [-40, 55], soft: [-15, 38] }),
  qnhHPa: limit('QNH', 'hPa', { hard: [870, 1085], soft: [970, 1045] }),
  stationPressureHPa: limit('Station pressure', 'hPa', { hard: [500, 1085], soft: [700, 1050] }),
  relativeHumidityPct: limit('Relative humidity', '%', { hard: [0, 100], soft: [5, 100] }),
  /** Ours. */
  windMps: limit('Wind', 'm/s', { hard: [0, 25], soft: [0, 8] }),
  massKg: limit('Pilot mass', 'kg', { hard: [30, 180], soft: [45, 130] }),
  flatAreaM2: limit('Flat area of the wing', 'm²', { hard: [8, 50], soft: [16, 40] }),
  glideRatio: limit('Glide ratio', '', { hard: [4, 12], soft: [5, 9.5] }),
  trimSpeedMps: limit('Trim speed', 'm/s', { hard: [5, 25], soft: [8, 17] }),
  trimAtAllUpMassKg: limit('All-up mass at the trim speed', 'kg', allUpMass),
  allUpMassKg: limit('All-up mass', 'kg', allUpMass),
  propellerDiameterCm: limit('Propeller diameter', 'cm', { hard: [60, 200], soft: [100, 160] }),
  heightGainM: limit('Height gain', 'm', { hard: [10, 3000], soft: [50, 500] }),
  climbDurationS: limit('Climb time', 's', { hard: [5, 3600], soft: [20, 600] }),
  /** Ours. */
  startHeightAboveSiteM: limit('Height at the start', 'm', heightAboveSite),
  rpm: limit('Engine speed', '1/min', { hard: [500, 16000], soft: [3000, 11000] }),
  /** Ours: electric motors often turn no faster than their propeller. */
  motorRpm: limit('Motor speed', '1/min', { hard: [300, 16000], soft: [1200, 11000] }),
  volumeMl: limit('Fuel volume', 'mL', { hard: [20, 30000], soft: [100, 30000] }),
  burnDurationS: limit('Burn time', 's', { hard: [20, 28800], soft: [120, 28800] }),
  /** Ours. */
  heightAboveSiteM: limit('Height above the field', 'm', heightAboveSite),
  /** Ours. */
  heightChangeM: limit('Height change', 'm', { hard: [-500, 500], soft: [-50, 50] }),
  fuelTemperatureC: limit('Fuel temperature', '°C', { hard: [-30, 60], soft: [-5, 40] }),
  reductionRatio: limit('Reduction ratio', '', { hard: [1, 6], soft: [1, 4.5] }),
  /** Ours. */
  ratedPowerKw: limit('Rated power', 'kW', { hard: [1, 60], soft: [5, 30] }),
  thrustN: limit('Static thrust', 'N', { hard: [50, 2500], soft: [250, 1100] }),
  headwindMps: limit('Headwind', 'm/s', { hard: [0, 3], soft: [0, 2] }),
  /** Ours. */
  lineAngleDeg: limit('Angle of the line', '°', { hard: [-60, 60], soft: [-20, 20] }),
  levelDbA: limit('Sound level', 'dB(A)', { hard: [40, 140], soft: [60, 115] }),
  /** Ours. */
  backgroundDbA: limit('Background level', 'dB(A)', { hard: [0, 130], soft: [20, 80] }),
  /** Nearer than 2.5 m a warning of its own is given. */
  soundDistanceM: limit('Distance of the microphone', 'm', {
    hard: [0.1, 200],
    soft: [0.1, 100],
  }),
  /** Ours. */
  directionDeg: limit('Direction of the microphone', '°', { hard: [-180, 360], soft: [-180, 360] }),
  /** Ours. */
  energyWh: limit('Energy', 'Wh', { hard: [5, 50000], soft: [50, 5000] }),
  energyDurationS: limit('Time of the energy use', 's', { hard: [20, 28800], soft: [120, 28800] }),
  /** Ours. */
  batteryV: limit('Battery voltage', 'V', { hard: [5, 1000], soft: [20, 130] }),
  heightLossM: limit('Height loss', 'm', { hard: [10, 3000], soft: [50, 500] }),
  sinkDurationS: limit('Sink time', 's', { hard: [5, 3600], soft: [20, 600] }),
  groundSpeedMps: limit('Ground speed', 'm/s', { hard: [0, 40], soft: [0, 28] }),
  /** Ours. */
  staticClearanceMm: limit('Clearance at rest', 'mm', { hard: [0, 500], soft: [0, 150] }),
  /** Ours. */
  loadedClearanceMm: limit('Clearance under load', 'mm', { hard: [0, 500], soft: [0, 150] }),
  /** Ours. */
  loadN: limit('Load', 'N', { hard: [1, 2500], soft: [20, 1100] }),
  trackDeg: limit('Track', '°', { hard: [0, 360], soft: [0, 360] }),
} as const satisfies Readonly<Record<string, Limit>>

/** Limits of quantities worked out from the fields. */
export const DERIVED_LIMITS = {
  wingLoading: limit('Wing loading', 'kg/m²', { hard: [1.5, 15], soft: [3, 8.5] }),
  massBesidePilot: limit('All-up mass less pilot mass', 'kg', { hard: [12, 200], soft: [25, 70] }),
  climbRate: {
    ...limit('Climb rate', 'm/s', { hard: [0, 6], soft: [0.3, 4.5] }),
    hard: { min: 0, max: 6, minOpen: true },
  },
  climbRatio: {
    ...limit('Climb rate over airspeed', '', { hard: [0, 0.6], soft: [0, 0.4] }),
    hard: { min: 0, max: 0.6, maxOpen: true },
  },
  sinkRate: limit('Sink rate', 'm/s', { hard: [0.4, 5], soft: [0.9, 2.5] }),
  /** From a sink run; bounds of a glide ratio. */
  ownGlideRatio: limit('Glide ratio that follows from sink rate and trim speed', '', {
    hard: [4, 12],
    soft: [5, 9.5],
  }),
  /** Bounds of a trim speed. */
  trueAirspeed: limit('Airspeed that follows from the legs', 'm/s', {
    hard: [5, 25],
    soft: [8, 17],
  }),
  windToAirspeed: {
    ...limit('Wind over airspeed', '', { hard: [0, 1], soft: [0, 0.7] }),
    hard: { min: 0, max: 1, maxOpen: true },
  },
  windFitRms: limit('Residual of the wind fit', 'm/s', { hard: [0, 2], soft: [0, 0.5] }),
  propellerRpm: limit('Propeller speed', '1/min', { hard: [300, 5000], soft: [1200, 3600] }),
  tipMach: limit('Mach number of the tips', '', { hard: [0, 0.95], soft: [0, 0.7] }),
  thrustCoefficient: limit('Thrust coefficient', '', { hard: [0.005, 0.35], soft: [0.03, 0.2] }),
  figureOfMerit: limit('Figure of merit, from the rated power,', '', {
    hard: [0, 1],
    soft: [0.35, 0.8],
  }),
  climbToStaticThrust: limit('Climb thrust over static thrust', '', {
    hard: [0, 1.2],
    soft: [0.55, 0.95],
  }),
  /** Engine speed in flight over that at a standstill, both at full throttle. */
  flightToStaticRpm: limit('Engine speed in the climb over that at a standstill', '', {
    hard: [0, 100],
    soft: [0.95, 1.12],
  }),
  backgroundMargin: {
    ...limit('Sound level above background', 'dB', { hard: [0, 140], soft: [6, 140] }),
    hard: { min: 0, max: 140, minOpen: true },
  },
  /** Distance that the distance rule is good for. */
  ruledDistance: limit('Distance of the microphone', 'm', { hard: [0.1, 200], soft: [2.5, 200] }),
  /** Ours. */
  electricPower: limit('Electric power', 'W', { hard: [300, 60000], soft: [1500, 9000] }),
  /** Ours: induced power of level flight over electric power. Above 1 only a wrong wing can bring it. */
  electricEfficiency: limit('Efficiency of drive and propeller', '', {
    hard: [0.1, 1.2],
    soft: [0.3, 0.8],
  }),
  thrustToWeight: limit('Thrust over weight', '', { hard: [0.05, 1], soft: [0.15, 0.55] }),
  fuelFlow: limit('Fuel flow', 'L/h', { hard: [0.3, 25], soft: [1, 7] }),
  /** Of a shaft power taken as induced power over 0.8. */
  specificConsumption: limit('Specific fuel consumption', 'g/kWh', {
    hard: [120, 2000],
    soft: [250, 1000],
  }),
  /** Natural logarithm of the factor that takes a reading to the reference state. */
  logCorrection: limit('Correction (natural logarithm of its factor)', '', {
    hard: [-0.7, 0.7],
    soft: [-0.25, 0.25],
  }),
  /** Soft range of section d.5: beyond it, rich running and tuned pipes are no longer covered. */
  powerRatio: limit('Full-throttle power over that at sea level', '', {
    hard: [0.4, 1.4],
    soft: [0.85, 1.15],
  }),
} as const satisfies Readonly<Record<string, Limit>>

/** Limits of what nothing asks for yet; the rest of section k. */
export const LATER_LIMITS = {
  fuelDensity: limit('Fuel density at 15 °C', 'kg/m³', { hard: [650, 900], soft: [720, 780] }),
} as const satisfies Readonly<Record<string, Limit>>

/**
 * Whether a value lies in a range.
 *
 * @param value the value; NaN lies nowhere
 * @param range the range [same unit]
 * @returns true inside, bounds included unless open
 * @source common practice
 */
export function isInside(value: number, { min, max, minOpen, maxOpen }: Range): boolean {
  const above = minOpen === true ? value > min : value >= min
  const below = maxOpen === true ? value < max : value <= max
  return above && below
}
