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

/** A damped step leaves each variance at least this share: the full fall was refused before. */
const DAMPED_FALL = 0.1

/**
 * Average-information step inside the bounds: the δ that maximises
 *
 *     score'δ − ½ δ'(AI)δ      subject to θ + δ ≥ bound
 *
 * A damped step stops at a tenth of each variance instead of the bound, so that a small variance
 * is found in few steps. With at most four components every set of active bounds is tried.
 *
 * @param point theta, score and average information
 * @param domain what may move, and how far down
 * @param damping λ ≥ 0; the diagonal of AI is multiplied by 1 + λ
 * @returns the step, zero if nothing may move
 * @source K. Levenberg, 1944; D. W. Marquardt, 1963 (damping; from memory); enumeration derived here
 */
export function proposeStep(
  point: SearchPoint,
  domain: SearchDomain,
  damping: number,
): ProposedStep {
  const { theta, score } = point
  const movable = [...domain.estimable.keys()].filter((j) => domain.estimable[j] === 1)
  const kept = damping > 0 ? DAMPED_FALL : 0
  const limit = theta.map((value, j) => Math.max(domain.lower[j]!, kept * value) - value)
  const matrix = dampedInformation(point, damping)
  let best: { delta: Float64Array; gain: number } | null = null
  for (let active = 0; active < 2 ** movable.length; active++) {
    const isActive = (_: number, place: number) => ((active >> place) & 1) === 1
    const free = movable.filter((j, place) => !isActive(j, place))
    const delta = new Float64Array(COMPONENT_COUNT)
    for (const j of movable.filter(isActive)) delta[j] = limit[j]!
    solveFree({ matrix, score, scale: point.informationScale }, free, delta)
    if (!free.every((j) => delta[j]! >= limit[j]!)) continue
    const gain = quadraticGain(matrix, score, delta)
    if (best === null || gain > best.gain) best = { delta, gain }
  }
  const delta = best?.delta ?? new Float64Array(COMPONENT_COUNT).fill(Number.NaN)
  const decrement = delta.reduce((sum, change, j) => sum + change * score[j]!, 0)
  const reachesBound = movable.some(
    (j) => delta[j]! < 0 && theta[j]! + delta[j]! <= domain.lower[j]!,
  )
  return { delta, decrement, reachesBound }
}

/** AI with its diagonal times 1 + λ, and a trace of its typical size. */
function dampedInformation(
  { information, informationScale }: SearchPoint,
  damping: number,
): Float64Array {
  const matrix = information.slice()
  for (let j = 0; j < COMPONENT_COUNT; j++) {
    const ridge = (RIDGE + RIDGE_PER_DAMPING * damping) * informationScale[j]!
    matrix[j + COMPONENT_COUNT * j] = matrix[j + COMPONENT_COUNT * j]! * (1 + damping) + ridge
  }
  return matrix
}

/** Solves A_FF δ_F = score_F − A_FB δ_B for the free components; NaN if A_FF is not definite. */
function solveFree(
  equations: { matrix: Float64Array; score: Float64Array; scale: Float64Array },
  free: readonly number[],
  delta: Float64Array,
): void {
  const { matrix, score } = equations
  const m = free.length
  const a = new Float64Array(m * m)
  const rhs = new Float64Array(m)
  // Scaled to the typical size of each component's information: variances differ by decades.
  const scale = free.map((j) => 1 / Math.sqrt(Math.max(equations.scale[j]!, Number.MIN_VALUE)))
  for (let c = 0; c < m; c++) {
    const j = free[c]!
    let value = score[j]!
    for (let k = 0; k < COMPONENT_COUNT; k++) value -= matrix[j + COMPONENT_COUNT * k]! * delta[k]!
    rhs[c] = value * scale[c]!
    for (let r = 0; r < m; r++) {
      a[r + c * m] = matrix[free[r]! + COMPONENT_COUNT * j]! * scale[r]! * scale[c]!
    }
  }
  if (choleskyInPlace(a, m) !== -1) rhs.fill(Number.NaN)
  solveLowerInPlace(a, m, rhs)
  solveLowerTransposedInPlace(a, m, rhs)
  for (let c = 0; c < m; c++) delta[free[c]!] = rhs[c]! * scale[c]!
}

/** score'δ − ½ δ'Aδ. */
function quadraticGain(matrix: Float64Array, score: Float64Array, delta: Float64Array): number {
  let gain = 0
  for (let j = 0; j < COMPONENT_COUNT; j++) {
    let curved = 0
    for (let k = 0; k < COMPONENT_COUNT; k++) curved += matrix[j + COMPONENT_COUNT * k]! * delta[k]!
    gain += delta[j]! * (score[j]! - curved / 2)
  }
  return gain
}
