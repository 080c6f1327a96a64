import {
  COMPONENT_COUNT,
  COMPONENTS,
  type Component,
  type PerComponent,
  perComponent,
} from './components.ts'
import { type SetupWeight, satterthwaite, varianceGradient } from './contrasts.ts'
import type { NestedFit } from './fit-result.ts'
import type { Spread } from './next-session.ts'

/**
 * Spread of a difference as one further session of the same setups will show it, whoever flies: the
 * level of pilot and day cancels, what a setup does on that day does not.
 *
 *     v = u² + Σ l² θ_cell,   ν = 2v² / (g'Ag),  g_j = l'D_j l + Σ l² for the cell
 *
 * Scatter of single runs stays out: what is predicted is the mean of that session. A cell variance the
 * flights cannot tell apart counts where the fit has put it.
 *
 * @param fit result of fitNested
 * @param weights of the difference [1], each setup once
 * @param meanStandardError u, standard error of the difference of the means with all that belongs to it
 *   [unit of y], ≥ 0
 * @returns standard deviation [unit of y] and degrees of freedom; Infinity and 1 where the fit knows no
 *   run-to-run variance
 * @source prediction in random-effects models: J. P. T. Higgins, S. G. Thompson, D. J. Spiegelhalter,
 *   J. R. Stat. Soc. A 172, 2009, 137-159 (from memory); F. E. Satterthwaite, 1946 (from memory)
 */
export function nextSessionDifference(
  fit: NestedFit,
  weights: readonly SetupWeight[],
  meanStandardError: number,
): Spread {
  if (!fit.standardErrorsKnown)
    return { standardError: Number.POSITIVE_INFINITY, degreesOfFreedom: 1 }
  const sparse = new Map(weights.map(({ setup, weight }) => [fit.setups.indexOf(setup), weight]))
  const squares = weights.reduce((sum, { weight }) => sum + weight * weight, 0)
  const carrier = fit.mergedInto.cell ?? 'cell'
  const variance = meanStandardError ** 2 + squares * fit.theta[carrier]
  const gradient = varianceGradient(fit, sparse)
  gradient[COMPONENTS.indexOf(carrier)]! += squares
  return {
    standardError: Math.sqrt(variance),
    degreesOfFreedom: satterthwaite(variance, gradient, fit.inverseExpected),
  }
}

/** A variance component as a standard deviation with its uncertainty. */
export interface ComponentSpread {
  /** √θ [unit of y]. */
  readonly standardDeviation: number
  /** 95 % interval of it [unit of y], from 0; null where the fit holds no information on it. */
  readonly interval95: readonly [number, number] | null
}

/** 97.5 % quantile of the standard normal distribution. */
const Z_975 = 1.959963984540054

/**
 * How far results vary between pilots, days, setups on a day, and runs.
 *
 *     above zero: √θ · exp(∓ z u(θ)/(2θ));   at zero: [0, √(z u(θ))]
 *     upper end below θ = z u(θ): what it is there, since it would grow without bound towards zero
 *
 * @param fit result of fitNested
 * @returns standard deviations with intervals from the expected information, rough where few groups
 *   were seen
 * @source delta method on the logarithm; J. C. Pinheiro, D. M. Bates, Mixed-Effects Models in S and
 *   S-PLUS, 2000, §2.4.3 (from memory); the interval at zero is a rough one-sided bound, ours
 */
export function componentSpreads(fit: NestedFit): PerComponent<ComponentSpread> {
  return perComponent((j) => spreadOf(fit, COMPONENTS[j]!, j))
}

function spreadOf(fit: NestedFit, component: Component, j: number): ComponentSpread {
  const variance = fit.theta[component]
  const standardDeviation = Math.sqrt(variance)
  const known = fit.status[component] === 'estimated' || fit.status[component] === 'notDetected'
  const ofVariance = Math.sqrt(fit.inverseExpected[j * (COMPONENT_COUNT + 1)]!)
  if (!known || !(ofVariance > 0)) return { standardDeviation, interval95: null }
  if (fit.status[component] === 'notDetected') {
    return { standardDeviation, interval95: [0, Math.sqrt(variance + Z_975 * ofVariance)] }
  }
  const doubt = Z_975 * ofVariance
  const lower = standardDeviation * Math.exp(-doubt / (2 * variance))
  const held = Math.max(variance, doubt)
  return { standardDeviation, interval95: [lower, Math.sqrt(held) * Math.exp(doubt / (2 * held))] }
}
