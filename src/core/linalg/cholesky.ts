/**
 * Cholesky factor of a symmetric positive definite matrix, in place.
 *
 * Replaces the lower triangle of A by L with A = L·Lᵀ; the strict upper triangle is neither
 * read nor written. No memory is allocated, so the REML search can call this once per step.
 * Cost n³/3 flops.
 *
 * @param a n × n matrix, column-major: entry (i, j) is a[i + j·n]. Mutated.
 * @param n order of the matrix, a.length ≥ n²; 0 is allowed
 * @returns −1 on success, else the index of the first pivot that is not positive (or not a
 *   number); columns before it hold a valid partial factor
 * @source G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 2013, §4.2
 */
export function choleskyInPlace(a: Float64Array, n: number): number {
  for (let j = 0; j < n; j++) {
    const colJ = j * n
    subtractExplained(a, n, j)
    const pivot = a[colJ + j]!
    if (!(pivot > 0)) return j // also catches NaN
    const scale = 1 / Math.sqrt(pivot)
    for (let i = j; i < n; i++) a[colJ + i]! *= scale
  }
  return -1
}

/**
 * Takes from column j what the columns to its left already explain. Four of them at a time, so that an
 * entry is read and written once for four products; each entry sees them in the order of the columns, so
 * the result is that of one at a time, bit for bit.
 */
function subtractExplained(a: Float64Array, n: number, j: number): void {
  const colJ = j * n
  let k = 0
  for (; k + 3 < j; k += 4) {
    const col0 = k * n
    const col1 = col0 + n
    const col2 = col1 + n
    const col3 = col2 + n
    const l0 = a[col0 + j]!
    const l1 = a[col1 + j]!
    const l2 = a[col2 + j]!
    const l3 = a[col3 + j]!
    for (let i = j; i < n; i++) {
      a[colJ + i] =
        a[colJ + i]! - a[col0 + i]! * l0 - a[col1 + i]! * l1 - a[col2 + i]! * l2 - a[col3 + i]! * l3
    }
  }
  for (; k < j; k++) {
    const ljk = a[k * n + j]!
    for (let i = j; i < n; i++) a[colJ + i]! -= a[k * n + i]! * ljk
  }
}

/**
 * log|A| from its Cholesky factor, 2 Σ log l_jj.
 *
 * @param factor n × n, column-major, lower triangle as {@link choleskyInPlace} leaves it
 * @param n order of the matrix
 * @returns natural logarithm of the determinant of A
 * @source G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 2013, §4.2
 */
export function logDeterminant(factor: Float64Array, n: number): number {
  let sum = 0
  for (let j = 0; j < n; j++) sum += Math.log(factor[j + j * n]!)
  return 2 * sum
}

/** Pivots below this share of their diagonal entry count as zero: rounding, not variance. */
const ZERO_PIVOT = 1e-10
/** A pivot just above ZERO_PIVOT makes later ones wrong by about 1e-16 / 1e-10 of their diagonal. */
const NEGATIVE_PIVOT = 1e-5

/**
 * A lower triangular L with A = L·Lᵀ for a positive semidefinite A, in place. A pivot that is
 * zero within rounding gives a zero column: that direction has no variance of its own.
 *
 * @param a n × n matrix, column-major; lower triangle read and replaced. Mutated.
 * @param n order of the matrix
 * @param noise size of the rounding errors the entries already carry [unit of A], ≥ 0
 * @returns rank found, or −1 if A has a clearly negative pivot or holds NaN
 * @source N. J. Higham, Analysis of the Cholesky decomposition of a semi-definite matrix, 1990,
 *   here without pivoting (from memory)
 */
export function semidefiniteCholeskyInPlace(a: Float64Array, n: number, noise = 0): number {
  let rank = 0
  for (let j = 0; j < n; j++) {
    const colJ = j * n
    const diagonal = Math.abs(a[colJ + j]!)
    subtractExplained(a, n, j)
    const pivot = a[colJ + j]!
    if (!(pivot >= -Math.max(noise, NEGATIVE_PIVOT * diagonal))) return -1 // also catches NaN
    const isZero = pivot <= Math.max(noise, ZERO_PIVOT * diagonal)
    const scale = isZero ? 0 : 1 / Math.sqrt(pivot)
    for (let i = j; i < n; i++) a[colJ + i]! *= scale
    if (!isZero) rank++
  }
  return rank
}
