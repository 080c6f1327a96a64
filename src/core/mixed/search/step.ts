import { choleskyInPlace } from '../../linalg/cholesky.ts'
import { solveLowerInPlace, solveLowerTransposedInPlace } from '../../linalg/triangular.ts'
import { COMPONENT_COUNT } from '../components.ts'

/** The model at the present point of the search, in arrays of its own. */
export interface SearchPoint {
  readonly theta: Float64Array
  readonly score: Float64Array
  /** 4 × 4 average information. */
  readonly information: Float64Array
  /** Σ (1'V⁻¹1)² per component: twice the size its information has on average. */
  readonly informationScale: Float64Array
}

/** Where the search may go. */
export interface SearchDomain {
  /** 1 where a component is estimated, 0 where it is held. */
  readonly estimable: Uint8Array
  /** Lower bounds of the variances. */
  readonly lower: Float64Array
}

/** A proposed change of theta. */
export interface ProposedStep {
  readonly delta: Float64Array
  /** δ'·score: about twice the gain in log-likelihood to expect. */
  readonly decrement: number
  /** A component above its bound is moved onto it. */
  readonly reachesBound: boolean
}

/** Added to the scaled diagonal so that the equations have a solution even where AI is zero. */
const RIDGE = 1e-10
/** The same per unit of damping, so that damping shortens the step there too. */
const RIDGE_PER_DAMPING = 0.01

/**
 * Average-information step inside the bounds.
 *
 *     δ_F = AI_FF⁻¹ score_F,   F = { j : not (θ_j at its bound and score_j ≤ 0) }
 *
 * A component that would pass its bound is put on it and the others are solved again.
 *
 * @param point theta, score and average information
 * @param domain what may move, and how far down
 * @param damping λ ≥ 0; the diagonal of AI is multiplied by 1 + λ
 * @returns the step, zero if nothing may move
 * @source K. Levenberg, 1944; D. W. Marquardt, 1963 (damping; from memory); active set derived here
 */
export function proposeStep(
  point: SearchPoint,
  domain: SearchDomain,
  damping: number,
): ProposedStep {
  const { theta, score } = point
  const delta = new Float64Array(COMPONENT_COUNT)
  let free: number[] = []
  const bound: number[] = []
  for (let j = 0; j < COMPONENT_COUNT; j++) {
    if (domain.estimable[j] === 0) continue
    if (theta[j]! > domain.lower[j]! || score[j]! > 0) free.push(j)
  }
  for (;;) {
    solveFree(point, { free, bound, damping }, delta)
    const passing = free.filter((j) => theta[j]! + delta[j]! < domain.lower[j]!)
    if (passing.length === 0) break
    for (const j of passing) delta[j] = domain.lower[j]! - theta[j]!
    bound.push(...passing)
    free = free.filter((j) => !passing.includes(j))
  }
  let decrement = 0
  for (let j = 0; j < COMPONENT_COUNT; j++) decrement += delta[j]! * score[j]!
  const reachesBound = bound.some((j) => theta[j]! > domain.lower[j]!)
  return { delta, decrement, reachesBound }
}

/** Solves AI_FF δ_F = score_F − AI_FB δ_B for the free components. */
function solveFree(
  { score, information, informationScale }: SearchPoint,
  sets: { readonly free: number[]; readonly bound: number[]; readonly damping: number },
  delta: Float64Array,
): void {
  const { free, bound, damping } = sets
  const m = free.length
  const a = new Float64Array(m * m)
  const rhs = new Float64Array(m)
  // Scaled to the typical size of each component's information: variances differ by decades.
  const scale = free.map((j) => 1 / Math.sqrt(Math.max(informationScale[j]!, Number.MIN_VALUE)))
  for (let c = 0; c < m; c++) {
    const j = free[c]!
    let value = score[j]!
    for (const k of bound) value -= information[j + COMPONENT_COUNT * k]! * delta[k]!
    rhs[c] = value * scale[c]!
    for (let r = 0; r < m; r++) {
      const entry = information[free[r]! + COMPONENT_COUNT * j]!
      a[r + c * m] = entry * scale[r]! * scale[c]! * (r === c ? 1 + damping : 1)
    }
    a[c + c * m]! += RIDGE + RIDGE_PER_DAMPING * damping
  }
  if (choleskyInPlace(a, m) !== -1) rhs.fill(Number.NaN)
  solveLowerInPlace(a, m, rhs)
  solveLowerTransposedInPlace(a, m, rhs)
  for (let c = 0; c < m; c++) delta[free[c]!] = rhs[c]! * scale[c]!
}
