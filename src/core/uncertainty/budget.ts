/** One line of an uncertainty budget. All lines share the unit of the result. */
export interface Contribution {
  /** What varies, in words a reviewer understands. */
  readonly label: string
  /** |sensitivity| × standard uncertainty of the input [unit of the result], k = 1. */
  readonly standardUncertainty: number
  /** Degrees of freedom of that estimate; Infinity when it is taken as exact. */
  readonly degreesOfFreedom: number
}

/** Result of {@link combine}. */
export interface CombinedUncertainty {
  readonly standardUncertainty: number
  readonly effectiveDegreesOfFreedom: number
}

/**
 * Combined standard uncertainty of uncorrelated contributions.
 *
 *     u_c² = Σ u_i²        ν_eff = u_c⁴ / Σ (u_i⁴ / ν_i)   (Welch-Satterthwaite)
 *
 * @param contributions lines of the budget, one common unit; may be empty
 * @returns u_c [that unit] and ν_eff, not rounded; Infinity if nothing limits it
 * @source JCGM 100:2008 (GUM), 5.1.2 eq. (10) and G.4.1 eq. (G.2b)
 * @example combine([{ label: 'a', standardUncertainty: 3, degreesOfFreedom: 4 }]).standardUncertainty // 3
 */
export function combine(contributions: readonly Contribution[]): CombinedUncertainty {
  let variance = 0
  let welchSatterthwaite = 0
  for (const { standardUncertainty: u, degreesOfFreedom: nu } of contributions) {
    variance += u ** 2
    welchSatterthwaite += u ** 4 / nu
  }
  return {
    standardUncertainty: Math.sqrt(variance),
    effectiveDegreesOfFreedom:
      welchSatterthwaite === 0 ? Number.POSITIVE_INFINITY : variance ** 2 / welchSatterthwaite,
  }
}
