import { OutOfRangeError } from '../errors.ts'
import { COMPONENT_COUNT } from './components.ts'
import type { NestedFit } from './fit-result.ts'

/** A contrast names a setup the fit does not hold. */
export class UnknownSetupError extends Error {
  override readonly name = 'UnknownSetupError'
}

/** Weight of one setup mean in a combination; setups left out have weight 0. */
export interface SetupWeight {
  readonly setup: string
  readonly weight: number
}

/**
 * Whose uncertainty counts for the degrees of freedom: `keep`, all separable components, also
 * those estimated as zero, with the expected information; or `observed`, only components above
 * zero with the observed information, as lmerTest does.
 */
export type DegreesOfFreedomMethod = 'keep' | 'observed'

/** A combination of setup means. */
export interface ContrastResult {
  /** [unit of y] */
  readonly estimate: number
  /** [unit of y]; Infinity when the fit knows no run-to-run variance. */
  readonly standardError: number
  /** Satterthwaite, from 1 to {@link MAX_DEGREES_OF_FREEDOM}. */
  readonly degreesOfFreedom: number
}

/**
 * Largest degrees of freedom reported; Student's t with so many is the normal distribution to
 * nine digits. Stands for "no variance had to be estimated", and stays finite in JSON.
 */
export const MAX_DEGREES_OF_FREEDOM = 1e9

/**
 * Estimate of a weighted sum of setup means with Satterthwaite's degrees of freedom.
 *
 *     l'β,   v = l'Cl,   g_j = l' D_j l,   D_j = ∂C/∂θ_j,   ν = 2v² / (g'Ag)
 *
 * @param fit result of fitNested
 * @param weights finite weights [1]; +1 and −1 give a difference; a setup named twice adds up
 * @param options method `keep` (default: A = inverse expected information of all separable
 *   components) or `observed`
 * @returns estimate and standard error [unit of y], degrees of freedom in [1, 1e9]; 1 also when
 *   the information is singular, the most cautious answer
 * @throws {UnknownSetupError} if the fit does not hold a setup
 * @throws {OutOfRangeError} if a weight is not finite
 * @source F. E. Satterthwaite, Biometrics Bulletin 2, 1946, 110-114; A. Kuznetsova, P. B.
 *   Brockhoff, R. H. B. Christensen, J. Stat. Softw. 82(13), 2017 (`observed`; both from memory)
 */
export function contrast(
  fit: NestedFit,
  weights: readonly SetupWeight[],
  options: { readonly method?: DegreesOfFreedomMethod } = {},
): ContrastResult {
  return prepareContrasts(fit, options)(weights)
}

/**
 * {@link contrast} for many combinations of one fit; each costs the square of its number of setups.
 *
 * @param fit result of fitNested
 * @param options as for {@link contrast}
 * @returns a function from weights to what {@link contrast} gives
 * @source formulas of {@link contrast}
 */
export function prepareContrasts(
  fit: NestedFit,
  options: { readonly method?: DegreesOfFreedomMethod } = {},
): (weights: readonly SetupWeight[]) => ContrastResult {
  const index = new Map(fit.setups.map((setup, k) => [setup, k]))
  const inverse = options.method === 'observed' ? fit.inverseObserved : fit.inverseExpected
  return (weights) => {
    const sparse = indexWeights(index, weights)
    let estimate = 0
    for (const [setup, weight] of sparse) estimate += weight * fit.beta[setup]!
    if (!fit.standardErrorsKnown) {
      return { estimate, standardError: Infinity, degreesOfFreedom: 1 }
    }
    const variance = sparseForm(fit.covariance, fit.setups.length, sparse)
    return {
      estimate,
      standardError: Math.sqrt(Math.max(0, variance)),
      degreesOfFreedom: satterthwaite(variance, varianceGradient(fit, sparse), inverse),
    }
  }
}

/**
 * How the variance of a combination of means follows the variances, g_j = l'D_j l.
 *
 * @param fit result of fitNested
 * @param weights l, by the place of the setup in the fit [1]
 * @returns gradient, 4 entries [1]
 * @source formulas of {@link contrast}
 */
export function varianceGradient(
  { setups, covarianceSlope }: NestedFit,
  weights: ReadonlyMap<number, number>,
): Float64Array {
  const K = setups.length
  return Float64Array.from({ length: COMPONENT_COUNT }, (_, j) =>
    sparseForm(covarianceSlope, K, weights, j * K * K),
  )
}

/** l'Al of a sparse l. */
function sparseForm(
  a: Float64Array,
  n: number,
  weights: ReadonlyMap<number, number>,
  offset = 0,
): number {
  let sum = 0
  for (const [i, wi] of weights) {
    for (const [j, wj] of weights) sum += wi * wj * a[offset + i + j * n]!
  }
  return sum
}

function indexWeights(
  indexOf: ReadonlyMap<string, number>,
  weights: readonly SetupWeight[],
): Map<number, number> {
  const sparse = new Map<number, number>()
  for (const { setup, weight } of weights) {
    const index = indexOf.get(setup)
    if (index === undefined) throw new UnknownSetupError(`the fit holds no setup ${setup}`)
    if (!Number.isFinite(weight)) {
      const limit = Number.MAX_VALUE
      throw new OutOfRangeError(`weight of ${setup}`, weight, -limit, limit)
    }
    sparse.set(index, (sparse.get(index) ?? 0) + weight)
  }
  return sparse
}

/**
 * x'Ax.
 *
 * @param a A, n × n, column-major
 * @param x vector of length n
 * @returns the form [unit of A × unit of x squared]
 * @source common practice
 */
export function quadraticForm(a: Float64Array, x: Float64Array): number {
  const n = x.length
  let sum = 0
  for (let j = 0; j < n; j++) {
    let column = 0
    for (let i = 0; i < n; i++) column += a[i + j * n]! * x[i]!
    sum += column * x[j]!
  }
  return sum
}

/**
 * Satterthwaite's degrees of freedom of a variance that follows the variance components.
 *
 *     ν = 2v² / (g'Ag),  kept in [1, {@link MAX_DEGREES_OF_FREEDOM}]
 *
 * @param variance v [unit of y squared]
 * @param gradient g = dv/dθ, 4 entries [1]
 * @param inverse A, covariance of the components' estimates, 4 × 4 [unit of y to the fourth]
 * @returns degrees of freedom; 1 where A is singular
 * @source F. E. Satterthwaite, Biometrics Bulletin 2, 1946, 110-114 (from memory)
 */
export function satterthwaite(
  variance: number,
  gradient: Float64Array,
  inverse: Float64Array,
): number {
  const spread = quadraticForm(inverse, gradient)
  if (!(spread >= 0)) return 1 // information singular
  if (spread === 0) return MAX_DEGREES_OF_FREEDOM
  return Math.min(Math.max((2 * variance * variance) / spread, 1), MAX_DEGREES_OF_FREEDOM)
}

/**
 * Degrees of freedom of a variance to which a known part was added; what is known brings them without bound.
 *
 *     ν = ν₁ (v/v₁)²,  at most {@link MAX_DEGREES_OF_FREEDOM}
 *
 * @param degreesOfFreedom ν₁, those of the part that was estimated
 * @param estimated v₁, that part [unit of y squared]; where it is 0 or unknown, ν₁ stays
 * @param whole v, with the known part [unit of y squared]
 * @returns degrees of freedom
 * @source F. E. Satterthwaite, Biometrics Bulletin 2, 1946, 110-114 (from memory), with ν₂ → ∞
 */
export function withKnownPart(degreesOfFreedom: number, estimated: number, whole: number): number {
  const ratio = estimated > 0 && estimated < Infinity ? whole / estimated : 1
  return Math.min(degreesOfFreedom * ratio ** 2, MAX_DEGREES_OF_FREEDOM)
}
