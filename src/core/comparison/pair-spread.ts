import { PART_KINDS } from './additive-view.ts'
import {
  BEYOND_PARTS,
  type EvidenceTier,
  type ExplainedDifference,
  type FitView,
} from './fit-view.ts'

interface PairOf<T> {
  readonly a: T
  readonly b: T
}

/**
 * The estimates a pair is compared by. Setups that only shared parts link keep their mean level, and
 * differ by what the model of parts says.
 *
 *     connected: β_a, β_b;   additive: (β_a + β_b)/2 ± w'β/2
 *
 * @param fit the fitted evidence; holds both setups
 * @param tier of the pair
 * @param pair ids
 * @returns natural logarithms of the quantity for a and b [1]; NaN for a setup without evidence
 * @source derived
 */
export function pairEstimates(
  fit: FitView,
  tier: EvidenceTier,
  { a, b }: PairOf<string>,
): readonly [number, number] {
  const own = fit.logQuantityOf(a) ?? Number.NaN
  const other = fit.logQuantityOf(b) ?? Number.NaN
  const additive = fit.additive ?? null
  if (tier !== 'additive' || additive === null) return [own, other]
  const middle = (own + other) / 2
  const half = fit.contrast(additive.weightsOf(b, a, PART_KINDS)).estimate / 2
  return [middle + half, middle - half]
}

/**
 * Uncertainty of the difference of two readings.
 *
 *     connected: u² = var(e_a β_a − e_b β_b)
 *     additive:  u² = ē² (w'(C + S)w + τ² |w − l|²),  ē = (e_a + e_b)/2,  l = 1 on a, −1 on b
 *
 * @param fit the fitted evidence
 * @param tier of the pair
 * @param pair ids
 * @param elasticities of the two readings [1]
 * @returns standard error, degrees of freedom and parts; the estimate is of no use
 * @source GUM (JCGM 100:2008) 5.2.2; τ² as in `mixed/decomposition.ts`, Welch-Satterthwaite for the sum
 */
export function pairSpread(
  fit: FitView,
  tier: EvidenceTier,
  pair: PairOf<string>,
  elasticities: PairOf<number>,
): ExplainedDifference {
  const additive = fit.additive ?? null
  if (tier !== 'additive' || additive === null) {
    return fit.contrast([
      { setup: pair.a, weight: elasticities.a },
      { setup: pair.b, weight: -elasticities.b },
    ])
  }
  const mean = (elasticities.a + elasticities.b) / 2
  const weights = additive.weightsOf(pair.b, pair.a, PART_KINDS)
  const spread = fit.contrast(
    weights.map(({ setup, weight }) => ({ setup, weight: mean * weight })),
  )
  const squares = weights.reduce((sum, { setup, weight }) => {
    const own = (setup === pair.a ? 1 : 0) - (setup === pair.b ? 1 : 0)
    return sum + (weight - own) ** 2
  }, 0)
  return addBeyondParts(spread, {
    variance: mean ** 2 * additive.interactionVariance * squares,
    degreesOfFreedom: additive.interactionDegreesOfFreedom,
  })
}

/**
 * Adds a variance with its own degrees of freedom.
 *
 *     ν = (v₁ + v₂)² / (v₁²/ν₁ + v₂²/ν₂)
 *
 * @param spread a difference with v₁ and ν₁
 * @param added v₂ [square of the unit], ≥ 0, and ν₂ ≥ 1
 * @returns the difference with both
 * @source B. L. Welch, Biometrika 34, 1947, 28-35 (from memory); GUM (JCGM 100:2008) G.4.1
 */
export function addBeyondParts(
  spread: ExplainedDifference,
  added: { readonly variance: number; readonly degreesOfFreedom: number },
): ExplainedDifference {
  if (!(added.variance > 0)) return spread
  const flights = spread.standardError ** 2
  const variance = flights + added.variance
  const weighted =
    flights ** 2 / spread.degreesOfFreedom + added.variance ** 2 / added.degreesOfFreedom
  return {
    estimate: spread.estimate,
    standardError: Math.sqrt(variance),
    degreesOfFreedom: Math.max(1, variance ** 2 / weighted),
    parts: [...spread.parts, { cause: BEYOND_PARTS, variance: added.variance }],
  }
}
