import type { TipClearanceRun } from '../normalise/types.ts'
import { clearanceFinding } from '../safety/clearance-finding.ts'
import type { FindingList } from './findings.ts'
import { FIELD_LIMITS, isInside } from './limits.ts'
import { withUnit } from './unit-mistakes.ts'

/**
 * Says what a tip clearance means for whoever flies the set-up, and what would make it say more.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param run the run as submitted
 * @source METHOD.md, section i
 */
export function checkTipClearance(found: FindingList, pointer: string, run: TipClearanceRun): void {
  if (!isMeasurable(run)) return // refused already, field by field
  const finding = clearanceFinding(run)
  if (finding !== null) {
    const code = finding.state === 'doNotFly' ? 'doNotFly' : 'clearanceTooSmall'
    found.warn(`${pointer}/${finding.field}`, code, finding.reason)
  }
  const { staticClearanceMm, loadedClearanceMm, loadN } = run
  const loaded = `${pointer}/loadedClearanceMm`
  if (loadedClearanceMm === undefined) {
    const detail =
      'A clearance at rest says little: under load the propeller moves towards its cage.'
    found.warn(loaded, 'loadedClearanceMissing', detail)
    if (loadN === undefined) return
    found.refuse(`${pointer}/loadN`, 'nothingLoaded', 'A load needs the clearance under that load.')
    return
  }
  if (loadedClearanceMm > staticClearanceMm) {
    const detail = `Under load the clearance is ${withUnit(loadedClearanceMm, 'mm')}, at rest ${withUnit(staticClearanceMm, 'mm')}: the tip moved away. Measure at the tip that moves towards the cage too.`
    found.warn(loaded, 'movedAway', detail)
  }
  if (loadN === undefined) {
    const detail = 'Under what load is not given: it is taken to be that of full throttle.'
    found.warn(`${pointer}/loadN`, 'loadAssumed', detail)
  }
}

function isMeasurable({ staticClearanceMm, loadedClearanceMm }: TipClearanceRun): boolean {
  const loaded = loadedClearanceMm ?? FIELD_LIMITS.loadedClearanceMm.hard.min
  return (
    isInside(staticClearanceMm, FIELD_LIMITS.staticClearanceMm.hard) &&
    isInside(loaded, FIELD_LIMITS.loadedClearanceMm.hard)
  )
}
