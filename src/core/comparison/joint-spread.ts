import { COMPONENT_COUNT } from '../mixed/components.ts'
import { satterthwaite, withKnownPart } from '../mixed/contrasts.ts'

/** How well the estimates of all setups of a fit are known together. Plain data. */
export interface JointSpread {
  readonly setupCount: number
  /** Covariance of the estimates from the scatter of the flights, K × K. */
  readonly flights: Float64Array
  /** The same with errors that reach beyond a session. */
  readonly whole: Float64Array
  /** ∂flights/∂θ_j, four K × K matrices. */
  readonly slopes: Float64Array
  /** Covariance of the variances θ, 4 × 4. */
  readonly ofVariances: Float64Array
}

/** Readings e·β of some setups, as they follow their estimates. */
export interface Readings {
  /** Places of the setups in the fit. */
  readonly places: Int32Array
  /** e = ∂ ln reading / ∂ ln quantity [1]. */
  readonly elasticities: Float64Array
}

/** Covariance of readings, and standard error and degrees of freedom of every difference, m × m each. */
export interface SpreadOfReadings {
  readonly covariance: Float64Array
  readonly standardErrors: Float64Array
  readonly degreesOfFreedom: Float64Array
}

/**
 * Spread of all differences of some readings at once.
 *
 *     v = w'(C + S)w,   ν = 2 v₁²/(g'Ag) · (v/v₁)²,   v₁ = w'Cw,  g_j = w' ∂C/∂θ_j w,  w = e_k on k, −e_l on l
 *
 * @param spread of the fit
 * @param readings of m setups
 * @returns what `FitView.contrast` and `covarianceOf` say of every pair, to rounding
 * @source formulas of `mixed/contrasts.ts`; S is known, so it brings degrees of freedom without bound
 */
export function spreadOfReadings(spread: JointSpread, readings: Readings): SpreadOfReadings {
  const { places, elasticities } = readings
  const m = places.length
  const covariance = new Float64Array(m * m)
  const standardErrors = new Float64Array(m * m)
  const degreesOfFreedom = new Float64Array(m * m).fill(1)
  const gradient = new Float64Array(COMPONENT_COUNT)
  for (let l = 0; l < m; l++) {
    const row = places[l]! * spread.setupCount
    for (let k = 0; k < m; k++) {
      const weight = elasticities[k]! * elasticities[l]!
      covariance[k + l * m] = weight * spread.whole[places[k]! + row]!
      if (k <= l) continue
      const pair = differenceOf(spread, readings, { k, l, gradient })
      standardErrors[k + l * m] = pair.standardError
      standardErrors[l + k * m] = pair.standardError
      degreesOfFreedom[k + l * m] = pair.degreesOfFreedom
      degreesOfFreedom[l + k * m] = pair.degreesOfFreedom
    }
  }
  return { covariance, standardErrors, degreesOfFreedom }
}

function differenceOf(
  { setupCount: K, flights, whole, slopes, ofVariances }: JointSpread,
  { places, elasticities }: Readings,
  { k, l, gradient }: { readonly k: number; readonly l: number; readonly gradient: Float64Array },
) {
  const pair = { a: places[k]!, b: places[l]!, ea: elasticities[k]!, eb: elasticities[l]!, K }
  const ofFlights = formOf(flights, 0, pair)
  const variance = Math.max(ofFlights, formOf(whole, 0, pair))
  for (let j = 0; j < gradient.length; j++) gradient[j] = formOf(slopes, j * K * K, pair)
  const ofScatter = satterthwaite(ofFlights, gradient, ofVariances)
  return {
    standardError: Math.sqrt(Math.max(0, variance)),
    degreesOfFreedom: withKnownPart(ofScatter, ofFlights, variance),
  }
}

interface Pair {
  readonly a: number
  readonly b: number
  readonly ea: number
  readonly eb: number
  readonly K: number
}

/** w'Aw of a symmetric A for w = e_a on a, −e_b on b. */
function formOf(A: Float64Array, offset: number, { a, b, ea, eb, K }: Pair): number {
  return (
    ea * ea * A[offset + a * (K + 1)]! -
    2 * ea * eb * A[offset + a + b * K]! +
    eb * eb * A[offset + b * (K + 1)]!
  )
}
