import { qnhPa } from '../atmosphere/pressure.ts'
import type {
  AirConditions,
  FlightSession,
  Site,
  Stated,
  SubmittedEntry,
} from '../normalise/types.ts'
import { PA_PER_HPA } from '../units.ts'
import {
  CONDITION_FIELDS,
  ENTRY_FIELDS,
  EQUIPMENT_FIELDS,
  type FieldTable,
  LEG_FIELDS,
  PILOT_FIELDS,
  runFields,
  SITE_FIELDS,
  WING_FIELDS,
} from './field-tables.ts'
import type { FindingList } from './findings.ts'
import { DERIVED_LIMITS, FIELD_LIMITS, isInside } from './limits.ts'
import { checkRunFields } from './run-fields.ts'
import { checkStated } from './stated-limits.ts'
import { withUnit } from './unit-mistakes.ts'

/**
 * Holds every submitted number, and what follows from a few of them, against its limits.
 *
 * @param found where findings go
 * @param session the session as submitted
 * @param entries its entries
 * @source METHOD.md, section k
 */
export function checkFields(
  found: FindingList,
  session: FlightSession,
  entries: readonly SubmittedEntry[],
): void {
  checkObject(found, '/site', session.site, SITE_FIELDS)
  checkObject(found, '/conditions', session.conditions, CONDITION_FIELDS)
  checkPressure(found, session.site, session.conditions)
  checkObject(found, '/pilot', session.pilot, PILOT_FIELDS)
  checkObject(found, '/wing', session.wing, WING_FIELDS)
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
  checkObject(found, pointer, entry, ENTRY_FIELDS)
  const beside = entry.allUpMassKg - session.pilot.massKg
  found.check(`${pointer}/allUpMassKg`, beside, DERIVED_LIMITS.massBesidePilot, '')
  const loading = entry.allUpMassKg / session.wing.flatAreaM2
  found.check(`${pointer}/allUpMassKg`, loading, DERIVED_LIMITS.wingLoading, '')
  checkValues(found, `${pointer}/equipment`, equipment, EQUIPMENT_FIELDS)

  runs.forEach((run, index) => {
    const runPointer = `${pointer}/runs/${index}`
    checkObject(found, runPointer, run, runFields(run.kind, equipment.drive))
    if (run.kind === 'levelSpeed') {
      run.legs.forEach((leg, legIndex) => {
        checkObject(found, `${runPointer}/legs/${legIndex}`, leg, LEG_FIELDS)
      })
    }
    checkRunFields(found, runPointer, { run, equipment, session })
  })
}

/** The numbers of one object, and the uncertainties stated beside them. */
function checkObject(
  found: FindingList,
  pointer: string,
  object: { readonly uncertainty?: Stated },
  table: FieldTable,
): void {
  checkValues(found, pointer, object, table)
  checkStated(found, { pointer, fields: Object.keys(table) }, object)
}

function checkValues(found: FindingList, pointer: string, object: object, table: FieldTable): void {
  const values = object as Readonly<Record<string, unknown>>
  for (const [field, limit] of Object.entries(table)) {
    const value = values[field]
    if (typeof value === 'number') found.check(`${pointer}/${field}`, value, limit)
  }
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
