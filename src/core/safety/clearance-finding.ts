import { CLEARANCE_ALLOWANCE, requiredClearanceMm } from './tip-movement.ts'

/** What was read at the propeller. */
export interface ClearanceReading {
  /** Gap between blade tip and frame at rest [mm]. */
  readonly staticClearanceMm: number
  /** The same under load [mm]. */
  readonly loadedClearanceMm?: number | undefined
  readonly contactSeen: boolean
}

/** What a reading means for whoever flies the set-up. */
export interface ClearanceFinding {
  readonly state: 'doNotFly' | 'advisory'
  /** Field of the reading that says so. */
  readonly field: keyof ClearanceReading
  /** Why, in a sentence for everybody. */
  readonly reason: string
}

/**
 * Movement towards the cage and the clearance that is advised under load.
 *
 *     Δx = c_0 − c,  c_advised = (1.5 Δx + 10 mm) − Δx
 *
 * Bending of the blades is part of a movement that was measured.
 *
 * @param staticClearanceMm clearance at rest c_0 [mm], 0 to 500
 * @param loadedClearanceMm clearance under load c [mm], 0 to 500
 * @returns movement [mm], negative away from the cage, and advised clearance under load [mm]
 * @source engineering judgement of METHOD.md, section i; no standard exists
 */
export function measuredMovement(
  staticClearanceMm: number,
  loadedClearanceMm: number,
): { readonly movementMm: number; readonly advisedLoadedClearanceMm: number } {
  const movementMm = staticClearanceMm - loadedClearanceMm
  const advised = requiredClearanceMm(movementMm, 0) - Math.max(movementMm, 0)
  return { movementMm, advisedLoadedClearanceMm: advised }
}

/**
 * What a measured tip clearance says against flying, if anything. Nothing found is no clearance to
 * fly.
 *
 * @param reading clearances at rest and under load [mm], 0 to 500, and whether a touch was seen
 * @returns contact, or a clearance smaller than advised, with the reason; null where nothing is found
 * @source METHOD.md, section i
 */
export function clearanceFinding(reading: ClearanceReading): ClearanceFinding | null {
  const { staticClearanceMm, loadedClearanceMm, contactSeen } = reading
  if (contactSeen) {
    const reason = 'The propeller touched its frame or a trace of touching was seen.'
    return { state: 'doNotFly', field: 'contactSeen', reason }
  }
  if (staticClearanceMm <= 0) {
    const reason = 'There is no clearance between propeller and frame at rest.'
    return { state: 'doNotFly', field: 'staticClearanceMm', reason }
  }
  if (loadedClearanceMm === undefined) return staticFinding(staticClearanceMm)
  if (loadedClearanceMm <= 0) {
    const reason = 'Under load there is no clearance between propeller and frame.'
    return { state: 'doNotFly', field: 'loadedClearanceMm', reason }
  }
  const { movementMm, advisedLoadedClearanceMm } = measuredMovement(
    staticClearanceMm,
    loadedClearanceMm,
  )
  if (loadedClearanceMm >= advisedLoadedClearanceMm) return null
  return {
    state: 'advisory',
    field: 'loadedClearanceMm',
    reason: `Under load the propeller comes within ${shown(loadedClearanceMm)} of its frame, having moved by ${shown(movementMm)}; ${shown(advisedLoadedClearanceMm)} are advised: ${basis()}.`,
  }
}

/** At rest alone only the part that must remain in any case can be held against it. */
function staticFinding(staticClearanceMm: number): ClearanceFinding | null {
  const { remainingMm } = CLEARANCE_ALLOWANCE
  if (staticClearanceMm >= remainingMm) return null
  return {
    state: 'advisory',
    field: 'staticClearanceMm',
    reason: `At rest the propeller clears its frame by ${shown(staticClearanceMm)}; ${shown(remainingMm)} should remain even under load.`,
  }
}

function basis(): string {
  const { movementFactor, remainingMm } = CLEARANCE_ALLOWANCE
  return `${shown(remainingMm)} and ${movementFactor - 1} times the movement`
}

function shown(lengthMm: number): string {
  return `${Number(lengthMm.toFixed(1))} mm`
}
