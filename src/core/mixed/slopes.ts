import { sandwich } from '../linalg/symmetric.ts'
import { COMPONENT_COUNT } from './components.ts'

/**
 * How the covariance of the means follows the variances.
 *
 *     ∂C/∂θ_j = C T_j C,  T_j = X'V⁻¹G_jV⁻¹X
 *
 * @param covariance C, K × K [unit of y squared]
 * @param sensitivity T_j of the four components, one K × K matrix after the other
 * @param K number of setups
 * @returns the slopes in the same order, exactly symmetric
 * @source derivative of an inverse (common practice)
 */
export function slopesOfCovariance(
  covariance: Float64Array,
  sensitivity: Float64Array,
  K: number,
): Float64Array {
  const slopes = new Float64Array(COMPONENT_COUNT * K * K)
  for (let j = 0; j < COMPONENT_COUNT; j++) {
    const [from, to] = [j * K * K, (j + 1) * K * K]
    sandwich(covariance, sensitivity.subarray(from, to), K, slopes.subarray(from, to))
  }
  return slopes
}
