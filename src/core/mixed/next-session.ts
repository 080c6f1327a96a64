import { COMPONENT_COUNT, COMPONENTS, type Component } from './components.ts'
import { satterthwaite } from './contrasts.ts'
import type { NestedFit } from './fit-result.ts'

/** Spread of an estimate or of something predicted. */
export interface Spread {
  /** [unit of y] */
  readonly standardError: number
  /** Satterthwaite, from 1 to 1e9. */
  readonly degreesOfFreedom: number
}

/** What makes one session of one pilot differ from the mean of a setup. */
const OF_A_SESSION: readonly Component[] = ['pilot', 'session', 'cell']

/**
 * Spread of what a setup will show in a further session, by a pilot not seen before, about the
 * estimate of its mean.
 *
 *     v = u² + θ_pilot + θ_session + θ_cell,   ν = 2v²/(g'Ag),  g_j = l'D_j l + 1 for those three
 *
 * The scatter of single runs stays out: what is predicted is the mean of that session. A component
 * the flights cannot tell apart counts where the fit has put it.
 *
 * @param fit result of fitNested
 * @param setup id of a setup of the fit
 * @param meanStandardError u, standard error of the setup's mean with all that belongs to it [unit of
 *   y], 0 or more; may exceed that of the fit by errors known from elsewhere
 * @returns standard deviation [unit of y] and degrees of freedom; Infinity and 1 where the fit knows
 *   no run-to-run variance
 * @source prediction of a new group in a random-effects model (common practice); degrees of freedom by
 *   F. E. Satterthwaite, Biometrics Bulletin 2, 1946, 110-114 (from memory)
 */
export function nextSessionSpread(
  fit: NestedFit,
  setup: string,
  meanStandardError: number,
): Spread {
  if (!fit.standardErrorsKnown) {
    return { standardError: Number.POSITIVE_INFINITY, degreesOfFreedom: 1 }
  }
  const K = fit.setups.length
  const k = fit.setups.indexOf(setup)
  const counted = new Set(OF_A_SESSION.flatMap((c) => [c, fit.mergedInto[c] ?? c]))
  const gradient = new Float64Array(COMPONENT_COUNT)
  let variance = meanStandardError ** 2
  for (const [j, component] of COMPONENTS.entries()) {
    gradient[j] = fit.covarianceSlope[j * K * K + k * (K + 1)]!
    if (!counted.has(component)) continue
    gradient[j]! += 1
    variance += fit.theta[component]
  }
  return {
    standardError: Math.sqrt(variance),
    degreesOfFreedom: satterthwaite(variance, gradient, fit.inverseExpected),
  }
}
