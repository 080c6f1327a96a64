import type { PreparedEnergy } from '../normalise/energy-use.ts'
import type { PreparedPull } from '../normalise/static-pull.ts'
import type { Derived } from '../normalise/types.ts'
import { checkLevelCorrection } from './derived.ts'
import type { FindingList } from './findings.ts'
import { DERIVED_LIMITS } from './limits.ts'

/**
 * Holds what follows from engine speed and rated power against its limits.
 *
 * @param found where findings go
 * @param at JSON pointers of the engine speed and of the thrust it is held against
 * @param derived what follows, as far as it could be worked out
 * @source METHOD.md, sections i and k
 */
export function checkPropeller(
  found: FindingList,
  at: { readonly rpm: string; readonly thrust: string },
  derived: Derived,
): void {
  const { propellerRpm, helicalTipMach, thrustCoefficient, figureOfMerit } = derived
  if (propellerRpm !== undefined) found.check(at.rpm, propellerRpm, DERIVED_LIMITS.propellerRpm)
  if (helicalTipMach !== undefined) found.check(at.rpm, helicalTipMach, DERIVED_LIMITS.tipMach)
  if (thrustCoefficient !== undefined) {
    found.check(at.rpm, thrustCoefficient, DERIVED_LIMITS.thrustCoefficient)
  }
  if (figureOfMerit !== undefined) {
    found.check(at.thrust, figureOfMerit, DERIVED_LIMITS.figureOfMerit)
  }
}

/**
 * Holds what follows from a static pull against its limits.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param pull the pull, worked out
 * @source METHOD.md, section k
 */
export function checkPull(found: FindingList, pointer: string, { flown }: PreparedPull): void {
  found.check(pointer, flown.powerRatio, DERIVED_LIMITS.powerRatio)
  const correction = Math.log(flown.standardThrustN / flown.thrustN)
  found.check(pointer, correction, DERIVED_LIMITS.logCorrection)
}

/**
 * Holds what follows from an energy use against its limits.
 *
 * @param found where findings go
 * @param pointer JSON pointer of the run
 * @param energy the flight, worked out
 * @source METHOD.md, section k; power and efficiency are ours
 */
export function checkEnergy(found: FindingList, pointer: string, { flown }: PreparedEnergy): void {
  const field = `${pointer}/energyWh`
  const levelW = flown.electricPowerW * flown.levelFactor
  found.check(field, flown.electricPowerW, DERIVED_LIMITS.electricPower)
  found.check(field, flown.levelPowerW / levelW, DERIVED_LIMITS.electricEfficiency)
  checkLevelCorrection(found, pointer, flown)
}
