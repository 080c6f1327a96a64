/** What a model of drives leaves out, as an error of ln of its result, by who has the same one [1]. */
export interface DriveError {
  /** All drives. */
  readonly all: number
  /** All drives of a kind: two-strokes, four-strokes. */
  readonly kind: number
  /** The drive alone, whatever propeller it turns. */
  readonly own: number
}

/**
 * The error of a rule that takes for zero what is `mean ± spread` for an engine picked at random.
 *
 *     all = mean,   kind = own = spread/√2
 *
 * Nothing published tells how much of the spread the engines of a kind share. Half of its variance each
 * way is off by a factor of √2 at most in either.
 *
 * @param mean what the rule leaves out of every engine [1]
 * @param spread standard uncertainty of one engine about it [1], 0 or more
 * @returns the parts; all² + kind² + own² = mean² + spread², so nothing counts twice
 * @source derived; the halves are judgement
 * @example leftOut(0.25, 0.1).own // 0.07071
 */
export function leftOut(mean: number, spread: number): DriveError {
  const half = spread * Math.SQRT1_2
  return { all: mean, kind: half, own: half }
}

/**
 * Standard uncertainty of all parts of an error together.
 *
 * @param error its parts [1]
 * @returns √(all² + kind² + own²) [1]
 * @source JCGM 100:2008 (GUM), 5.1.2 (independent causes)
 */
export function standardUncertaintyOf({ all, kind, own }: DriveError): number {
  return Math.hypot(all, kind, own)
}

/** How far a drive at part load strays from the model, as a fraction of ln of the mass ratio [1]. */
export interface PartLoadWeights extends DriveError {
  /** The same of ln of the density ratio, each drive for itself [1]. */
  readonly density: number
}

/**
 * Friction of a piston engine at part load, as a share of its work: w = 0.25 ± 0.1. Friction takes fuel
 * whatever the load, and goes with the engine speed, so with √W: the flow follows W^(1.5 − w) where the
 * model says W^1.5, so all of w is an error of the model.
 *
 * Source: Willans line, w = 0.2 ± 0.1 (specification 1, section e, without a source). An energy balance of
 * a spark engine (FEV, printed at x-engineer.org) has 20 % brake work and 9 % mechanical friction at part
 * load, w = 0.31, and 29 % and 3 % at full load. The mean lies between the two.
 */
export const ENGINE_PART_LOAD: PartLoadWeights = { ...leftOut(0.25, 0.1), density: 0.05 }

/** Motor and controller away from the load of the reference: ours; there is no friction to speak of. */
export const MOTOR_PART_LOAD: PartLoadWeights = { all: 0, kind: 0, own: 0.05, density: 0.05 }

/**
 * Exponent k of a mixture that grows richer in thin air, (ρ_ref/ρ)^k, where the model has none: fuel
 * through a fixed jet follows √ρ·V and air ρ·V, so k = 1/2 for a plain carburettor and 0 for one that
 * is compensated or jetted anew. In between as a rectangle: 1/4 ± 1/(4√3).
 *
 * Source: carburettor theory (J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, chapter 7;
 * from memory); the rectangle is derived from its ends.
 */
export const MIXTURE_EXPONENT = leftOut(0.25, 0.25 / Math.sqrt(3))

/**
 * Error of ln of the flow from a mixture that follows the density.
 *
 *     k·ln(ρ_ref/ρ), each part of k
 *
 * @param densityRatio air density over that of the reference [1], above 0
 * @returns its parts, with the sign of the correction [1]
 * @source METHOD.md, section e; see {@link MIXTURE_EXPONENT}
 */
export function mixtureError(densityRatio: number): DriveError {
  const { all, kind, own } = MIXTURE_EXPONENT
  const byDensity = -Math.log(densityRatio)
  return { all: all * byDensity, kind: kind * byDensity, own: own * byDensity }
}

/**
 * What the level-flight model leaves out of a drive at part load, between two states.
 *
 *     all, kind: w·ln(W_ref/W),   |own| = w·|ln(W_ref/W)| + w_ρ·|ln(ρ/ρ_ref)|
 *
 * @param weights parts of w, and w_ρ [1]
 * @param massRatio reference all-up mass over all-up mass [1], above 0
 * @param densityRatio air density over that of the reference [1], above 0
 * @returns the parts with the sign of their correction [1]
 * @source METHOD.md, section e (Willans line)
 */
export function partLoadError(
  weights: PartLoadWeights,
  massRatio: number,
  densityRatio: number,
): DriveError {
  const byMass = Math.log(massRatio)
  const byDensity = weights.density * Math.log(densityRatio)
  const size = Math.abs(weights.own * byMass) + Math.abs(byDensity)
  return {
    all: weights.all * byMass,
    kind: weights.kind * byMass,
    own: weights.own * byMass + byDensity < 0 ? -size : size,
  }
}
