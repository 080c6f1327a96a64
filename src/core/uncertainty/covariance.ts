import { OutOfRangeError } from '../errors.ts'
import type { Propagation } from './propagate.ts'

/**
 * Covariance of the outputs of a model, inputs correlated or not.
 *
 *     U_kl = Σ_i Σ_j (c_ki·u_i)·r_ij·(c_lj·u_j)
 *
 * @param propagation what {@link propagate} gave
 * @param outputs number of outputs, 1 or more
 * @param correlation correlations r of the inputs [1], n × n; absent: independent inputs
 * @returns outputs × outputs, symmetric [product of the units of both outputs]; the roots of its
 *   diagonal are the combined standard uncertainties
 * @throws {OutOfRangeError} if the correlations do not match the inputs in number
 * @source JCGM 100:2008 (GUM), 5.2.2 eq. (13); JCGM 102:2011, 6.2.1
 */
export function outputCovariance(
  { contributions }: Propagation,
  outputs: number,
  correlation?: Float64Array,
): Float64Array {
  const n = contributions.length / outputs
  if (correlation !== undefined && correlation.length !== n * n) {
    throw new OutOfRangeError('correlations', correlation.length, n * n, n * n)
  }
  const covariance = new Float64Array(outputs * outputs)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const r = correlation === undefined ? Number(i === j) : correlation[i * n + j]!
      if (r === 0) continue
      for (let k = 0; k < outputs; k++) {
        for (let l = 0; l < outputs; l++) {
          covariance[k * outputs + l]! +=
            contributions[i * outputs + k]! * r * contributions[j * outputs + l]!
        }
      }
    }
  }
  return covariance
}
