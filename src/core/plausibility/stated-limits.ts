import type { Stated } from '../normalise/types.ts'
import { type FindingList, pointerToken } from './findings.ts'
import { withUnit } from './unit-mistakes.ts'

/** What a stated standard uncertainty may be. Editorial; ours. */
interface StatedLimit {
  readonly unit: string
  /** Below this a warning is given: hardly any instrument reads so finely [unit]. */
  readonly least: number
  /** Above this it is refused [unit]; absent: half of the value. */
  readonly most?: number
}

const STATED_LIMITS: Readonly<Record<string, StatedLimit>> = {
  elevationM: { unit: 'm', least: 0.1, most: 200 },
  temperatureC: { unit: 'K', least: 0.05, most: 15 },
  qnhHPa: { unit: 'hPa', least: 0.05, most: 50 },
  stationPressureHPa: { unit: 'hPa', least: 0.05, most: 50 },
  relativeHumidityPct: { unit: '%', least: 0.5, most: 50 },
  windMps: { unit: 'm/s', least: 0.05, most: 10 },
  massKg: { unit: 'kg', least: 0.1 },
  flatAreaM2: { unit: 'm²', least: 0.02 },
  glideRatio: { unit: '', least: 0.1 },
  trimSpeedMps: { unit: 'm/s', least: 0.05 },
  trimAtAllUpMassKg: { unit: 'kg', least: 0.1 },
  allUpMassKg: { unit: 'kg', least: 0.1 },
  heightGainM: { unit: 'm', least: 0.1 },
  durationS: { unit: 's', least: 0.02 },
  startHeightAboveSiteM: { unit: 'm', least: 0.1, most: 300 },
  rpm: { unit: '1/min', least: 1 },
  volumeMl: { unit: 'mL', least: 0.5 },
  heightAboveSiteM: { unit: 'm', least: 0.1, most: 300 },
  heightChangeM: { unit: 'm', least: 0.1, most: 100 },
  thrustN: { unit: 'N', least: 0.5 },
  headwindMps: { unit: 'm/s', least: 0.05, most: 3 },
  lineAngleDeg: { unit: '°', least: 0.1, most: 20 },
  levelDbA: { unit: 'dB', least: 0.1, most: 10 },
  backgroundDbA: { unit: 'dB', least: 0.1, most: 10 },
  distanceM: { unit: 'm', least: 0.005 },
  directionDeg: { unit: '°', least: 0.1, most: 90 },
  energyWh: { unit: 'Wh', least: 0.05 },
  batteryStartV: { unit: 'V', least: 0.005 },
  batteryEndV: { unit: 'V', least: 0.005 },
  reductionRatio: { unit: '', least: 0.001 },
  heightLossM: { unit: 'm', least: 0.1 },
  groundSpeedMps: { unit: 'm/s', least: 0.02, most: 3 },
  staticClearanceMm: { unit: 'mm', least: 0.1, most: 20 },
  loadedClearanceMm: { unit: 'mm', least: 0.1, most: 20 },
  loadN: { unit: 'N', least: 0.5 },
  trackDeg: { unit: '°', least: 0.1, most: 20 },
  fuelTemperatureC: { unit: 'K', least: 0.1, most: 20 },
}

/**
 * Holds the stated uncertainties of an object against what they may be.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the object
 * @param object the object, with or without `uncertainty`
 * @param fields names of its measured fields
 * @source common practice; limits are editorial
 */
export function checkStated(
  found: FindingList,
  at: { readonly pointer: string; readonly fields: readonly string[] },
  object: { readonly uncertainty?: Stated },
): void {
  const values = object as Readonly<Record<string, unknown>>
  for (const [field, u] of Object.entries(object.uncertainty ?? {})) {
    const pointer = `${at.pointer}/uncertainty/${pointerToken(field)}`
    const limit = at.fields.includes(field) ? STATED_LIMITS[field] : undefined
    const value = limit === undefined ? undefined : values[field]
    if (limit === undefined || typeof value !== 'number') {
      found.refuse(pointer, 'nothingToState', 'There is no measured value of this name here.')
      continue
    }
    const most = limit.most ?? Math.abs(value) / 2
    if (!(u > 0 && u <= most)) {
      const bound = withUnit(most, limit.unit)
      const shown = withUnit(u, limit.unit)
      const detail = `A standard uncertainty of ${shown} is stated; it must lie above 0 and at most at ${bound}.`
      found.refuse(pointer, 'outOfRange', detail)
    } else if (u < limit.least) {
      const detail = `A standard uncertainty of ${withUnit(u, limit.unit)} is very small: hardly any instrument reads so finely.`
      found.warn(pointer, 'unusual', detail)
    }
  }
}
