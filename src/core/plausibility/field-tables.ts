import type { Drive, Run } from '../normalise/types.ts'
import { FIELD_LIMITS, type Limit } from './limits.ts'

/** Limit of each measured field of an object; the keys are its field names. */
export type FieldTable = Readonly<Record<string, Limit>>

export const SITE_FIELDS: FieldTable = { elevationM: FIELD_LIMITS.elevationM }

export const CONDITION_FIELDS: FieldTable = {
  temperatureC: FIELD_LIMITS.temperatureC,
  qnhHPa: FIELD_LIMITS.qnhHPa,
  stationPressureHPa: FIELD_LIMITS.stationPressureHPa,
  relativeHumidityPct: FIELD_LIMITS.relativeHumidityPct,
  windMps: FIELD_LIMITS.windMps,
}

export const PILOT_FIELDS: FieldTable = { massKg: FIELD_LIMITS.massKg }

export const WING_FIELDS: FieldTable = {
  flatAreaM2: FIELD_LIMITS.flatAreaM2,
  glideRatio: FIELD_LIMITS.glideRatio,
  trimSpeedMps: FIELD_LIMITS.trimSpeedMps,
  trimAtAllUpMassKg: FIELD_LIMITS.trimAtAllUpMassKg,
}

export const ENTRY_FIELDS: FieldTable = { allUpMassKg: FIELD_LIMITS.allUpMassKg }

export const EQUIPMENT_FIELDS: FieldTable = {
  propellerDiameterCm: FIELD_LIMITS.propellerDiameterCm,
  reductionRatio: FIELD_LIMITS.reductionRatio,
  ratedPowerKw: FIELD_LIMITS.ratedPowerKw,
}

export const LEG_FIELDS: FieldTable = {
  trackDeg: FIELD_LIMITS.trackDeg,
  groundSpeedMps: FIELD_LIMITS.groundSpeedMps,
}

const BATTERY: FieldTable = {
  batteryStartV: FIELD_LIMITS.batteryV,
  batteryEndV: FIELD_LIMITS.batteryV,
}

const RUN_FIELDS: Readonly<Record<Run['kind'], FieldTable>> = {
  climb: {
    heightGainM: FIELD_LIMITS.heightGainM,
    durationS: FIELD_LIMITS.climbDurationS,
    startHeightAboveSiteM: FIELD_LIMITS.startHeightAboveSiteM,
    rpm: FIELD_LIMITS.rpm,
    ...BATTERY,
  },
  fuelBurn: {
    volumeMl: FIELD_LIMITS.volumeMl,
    durationS: FIELD_LIMITS.burnDurationS,
    heightAboveSiteM: FIELD_LIMITS.heightAboveSiteM,
    heightChangeM: FIELD_LIMITS.heightChangeM,
    rpm: FIELD_LIMITS.rpm,
    fuelTemperatureC: FIELD_LIMITS.fuelTemperatureC,
  },
  energyUse: {
    energyWh: FIELD_LIMITS.energyWh,
    durationS: FIELD_LIMITS.energyDurationS,
    heightAboveSiteM: FIELD_LIMITS.heightAboveSiteM,
    heightChangeM: FIELD_LIMITS.heightChangeM,
    rpm: FIELD_LIMITS.rpm,
    ...BATTERY,
  },
  staticPull: {
    thrustN: FIELD_LIMITS.thrustN,
    rpm: FIELD_LIMITS.rpm,
    headwindMps: FIELD_LIMITS.headwindMps,
    lineAngleDeg: FIELD_LIMITS.lineAngleDeg,
    ...BATTERY,
  },
  soundLevel: {
    levelDbA: FIELD_LIMITS.levelDbA,
    backgroundDbA: FIELD_LIMITS.backgroundDbA,
    distanceM: FIELD_LIMITS.soundDistanceM,
    directionDeg: FIELD_LIMITS.directionDeg,
    rpm: FIELD_LIMITS.rpm,
  },
  sink: {
    heightLossM: FIELD_LIMITS.heightLossM,
    durationS: FIELD_LIMITS.sinkDurationS,
    startHeightAboveSiteM: FIELD_LIMITS.startHeightAboveSiteM,
  },
  levelSpeed: { heightAboveSiteM: FIELD_LIMITS.heightAboveSiteM },
  tipClearance: {
    staticClearanceMm: FIELD_LIMITS.staticClearanceMm,
    loadedClearanceMm: FIELD_LIMITS.loadedClearanceMm,
    loadN: FIELD_LIMITS.loadN,
  },
}

/**
 * Limit of each measured field of a run.
 *
 * @param kind kind of the run
 * @param drive kind of drive: motors turn slower than engines
 * @returns the limits by field name
 * @source METHOD.md, section k
 */
export function runFields(kind: Run['kind'], drive: Drive): FieldTable {
  const table = RUN_FIELDS[kind]
  if (drive !== 'electric' || table.rpm === undefined) return table
  return { ...table, rpm: FIELD_LIMITS.motorRpm }
}
