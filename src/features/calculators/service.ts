import { ApiProblem } from '../../contract/problems.ts'
import { qnhPa } from '../../core/atmosphere/pressure.ts'
import { type AtmosphereReport, atmosphereReport } from '../../core/atmosphere/report.ts'
import { PA_PER_HPA } from '../../core/units.ts'
import { type AtmosphereQuery, QNH_HPA } from './schema.ts'

/** What the air of a place is like, and what it leaves of an engine's power. */
export function atmosphereAt(query: AtmosphereQuery): AtmosphereReport {
  const { elevationM, stationPressureHPa } = query
  if (stationPressureHPa !== undefined) requireBelievable(stationPressureHPa, elevationM)
  return atmosphereReport(query)
}

/** A QNH given as the pressure of a place well above the sea shows by the QNH it would imply. */
function requireBelievable(stationPressureHPa: number, elevationM: number): void {
  const impliedHPa = qnhPa(stationPressureHPa * PA_PER_HPA, elevationM) / PA_PER_HPA
  if (impliedHPa >= QNH_HPA.min && impliedHPa <= QNH_HPA.max) return
  const detail = `At ${elevationM} m this would be a QNH of ${impliedHPa.toFixed(0)} hPa, which does not occur; is it a QNH, or is the elevation wrong?`
  throw new ApiProblem('invalid-request', { errors: [{ pointer: '/stationPressureHPa', detail }] })
}
