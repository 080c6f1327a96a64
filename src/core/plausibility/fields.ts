import { qnhPa } from '../atmosphere/pressure.ts'
import type {
  AirConditions,
  FlightSession,
  Run,
  Site,
  Stated,
  SubmittedEntry,
} from '../normalise/types.ts'
import { PA_PER_HPA } from '../units.ts'
import type { FindingList } from './findings.ts'
import { DERIVED_LIMITS, FIELD_LIMITS, isInside, type Limit } from './limits.ts'
import { checkStated } from './stated-limits.ts'
import { withUnit } from './unit-mistakes.ts'

/** Limit of each measured field of an object; the keys are its field names. */
type FieldTable = Readonly<Record<string, Limit>>

const SITE = { elevationM: FIELD_LIMITS.elevationM }
const CONDITIONS = {
  temperatureC: FIELD_LIMITS.temperatureC,
  qnhHPa: FIELD_LIMITS.qnhHPa,
  stationPressureHPa: FIELD_LIMITS.stationPressureHPa,
  relativeHumidityPct: FIELD_LIMITS.relativeHumidityPct,
  windMps: FIELD_LIMITS.windMps,
}
const PILOT = { massKg: FIELD_LIMITS.massKg }
const WING = {
  flatAreaM2: FIELD_LIMITS.flatAreaM2,
  glideRatio: FIELD_LIMITS.glideRatio,
  trimSpeedMps: FIELD_LIMITS.trimSpeedMps,
  trimAtAllUpMassKg: FIELD_LIMITS.trimAtAllUpMassKg,
}
const ENTRY = { allUpMassKg: FIELD_LIMITS.allUpMassKg }
const RUN: Readonly<Record<Run['kind'], FieldTable>> = {
  climb: {
    heightGainM: FIELD_LIMITS.heightGainM,
    durationS: FIELD_LIMITS.climbDurationS,
    startHeightAboveSiteM: FIELD_LIMITS.startHeightAboveSiteM,
    rpm: FIELD_LIMITS.rpm,
  },
  fuelBurn: {
    volumeMl: FIELD_LIMITS.volumeMl,
    durationS: FIELD_LIMITS.burnDurationS,
    heightAboveSiteM: FIELD_LIMITS.heightAboveSiteM,
    heightChangeM: FIELD_LIMITS.heightChangeM,
    rpm: FIELD_LIMITS.rpm,
    fuelTemperatureC: FIELD_LIMITS.fuelTemperatureC,
  },
}

/**
 * Holds every submitted number, and what follows from a few of them, against its limits.
 *
 * @param found where findings go
 * @param session the session as submitted
 * @param entries its entries
 * @source normalisation specification 1, section k
 */
export function checkFields(
  found: FindingList,
  session: FlightSession,
  entries: readonly SubmittedEntry[],
): void {
  checkObject(found, '/site', session.site, SITE)
  checkObject(found, '/conditions', session.conditions, CONDITIONS)
  checkPressure(found, session.site, session.conditions)
  checkObject(found, '/pilot', session.pilot, PILOT)
  checkObject(found, '/wing', session.wing, WING)
  entries.forEach((submitted, index) => {
    checkEntry(found, session, { submitted, pointer: `/entries/${index}` })
  })
}

function checkEntry(
  found: FindingList,
  session: FlightSession,
  { submitted, pointer }: { readonly submitted: SubmittedEntry; readonly pointer: string },
): void {
  const { entry, equipment, runs } = submitted
  checkObject(found, pointer, entry, ENTRY)
  const beside = entry.allUpMassKg - session.pilot.massKg
  found.check(`${pointer}/allUpMassKg`, beside, DERIVED_LIMITS.massBesidePilot, '')
  const loading = entry.allUpMassKg / session.wing.flatAreaM2
  found.check(`${pointer}/allUpMassKg`, loading, DERIVED_LIMITS.wingLoading, '')
  const { propellerDiameterCm } = equipment
  found.check(`${pointer}/setupId`, propellerDiameterCm, FIELD_LIMITS.propellerDiameterCm)

  runs.forEach((run, index) => {
    const runPointer = `${pointer}/runs/${index}`
    checkObject(found, runPointer, run, RUN[run.kind])
    if (run.kind === 'fuelBurn' && equipment.drive === 'electric') {
      const detail = 'An electric drive burns no fuel; its energy runs are not taken yet.'
      found.refuse(`${runPointer}/kind`, 'notForThisDrive', detail)
    }
  })
}

/** The numbers of one object, and the uncertainties stated beside them. */
function checkObject(
  found: FindingList,
  pointer: string,
  object: { readonly uncertainty?: Stated },
  table: FieldTable,
): void {
  const values = object as Readonly<Record<string, unknown>>
  for (const [field, limit] of Object.entries(table)) {
    const value = values[field]
    if (typeof value === 'number') found.check(`${pointer}/${field}`, value, limit)
  }
  checkStated(found, { pointer, fields: Object.keys(table) }, object)
}

/** QNH and station pressure are easily exchanged; the elevation tells them apart. */
function checkPressure(found: FindingList, site: Site, conditions: AirConditions): void {
  const { elevationM } = site
  if (!isInside(elevationM, FIELD_LIMITS.elevationM.hard)) return
  const { qnhHPa, stationPressureHPa } = conditions
  if (stationPressureHPa !== undefined) {
    if (!isInside(stationPressureHPa, FIELD_LIMITS.stationPressureHPa.hard)) return
    const implied = qnhPa(stationPressureHPa * PA_PER_HPA, elevationM) / PA_PER_HPA
    const exchanged = isInside(stationPressureHPa, FIELD_LIMITS.qnhHPa.soft)
    const hint = exchanged ? 'It looks like a QNH: give it as qnhHPa.' : ''
    const limit = { ...FIELD_LIMITS.qnhHPa, quantity: 'QNH that follows from station pressure' }
    found.check('/conditions/stationPressureHPa', implied, limit, hint)
    return
  }
  if (qnhHPa === undefined || isInside(qnhHPa, FIELD_LIMITS.qnhHPa.soft)) return
  if (!(qnhHPa > 500 && qnhHPa < 1085)) return
  const implied = qnhPa(qnhHPa * PA_PER_HPA, elevationM) / PA_PER_HPA
  if (!isInside(implied, FIELD_LIMITS.qnhHPa.soft)) return
  found.warn(
    '/conditions/qnhHPa',
    'looksLikeStationPressure',
    `${withUnit(qnhHPa, 'hPa')} looks like the pressure at the field itself: give it as stationPressureHPa.`,
  )
}
