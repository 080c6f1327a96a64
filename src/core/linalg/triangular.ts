/**
 * Solves L·x = b in place.
 *
 * @param l n × n lower triangular, column-major, no zero on its diagonal
 * @param n order
 * @param b right-hand side, n entries; holds x afterwards. Mutated.
 * @source G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 2013, §3.1
 */
export function solveLowerInPlace(l: Float64Array, n: number, b: Float64Array): void {
  for (let j = 0; j < n; j++) {
    const colJ = j * n
    const x = b[j]! / l[colJ + j]!
    b[j] = x
    for (let i = j + 1; i < n; i++) b[i]! -= l[colJ + i]! * x
  }
}

/**
 * Solves Lᵀ·x = b in place.
 *
 * @param l n × n lower triangular, column-major, no zero on its diagonal
 * @param n order
 * @param b right-hand side, n entries; holds x afterwards. Mutated.
 * @source G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 2013, §3.1
 */
export function solveLowerTransposedInPlace(l: Float64Array, n: number, b: Float64Array): void {
  for (let j = n - 1; j >= 0; j--) {
    const colJ = j * n
    let x = b[j]!
    for (let i = j + 1; i < n; i++) x -= l[colJ + i]! * b[i]!
    b[j] = x / l[colJ + j]!
  }
}

/**
 * Inverse of A = L·Lᵀ from L. Cost 2n³/3 flops, no memory allocated.
 *
 * @param l n × n lower triangular factor, column-major
 * @param n order
 * @param inverse n × n, column-major; receives the full symmetric inverse. Mutated.
 * @source G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 2013, §3.1
 */
export function invertFromFactor(l: Float64Array, n: number, inverse: Float64Array): void {
  for (let column = 0; column < n; column++) {
    const at = column * n
    for (let i = 0; i < column; i++) inverse[at + i] = inverse[i * n + column]!
    for (let i = column; i < n; i++) inverse[at + i] = i === column ? 1 : 0
    for (let j = column; j < n; j++) {
      const x = inverse[at + j]! / l[j * n + j]!
      inverse[at + j] = x
      for (let i = j + 1; i < n; i++) inverse[at + i]! -= l[j * n + i]! * x
    }
    for (let j = n - 1; j >= column; j--) {
      let x = inverse[at + j]!
      for (let i = j + 1; i < n; i++) x -= l[j * n + i]! * inverse[at + i]!
      inverse[at + j] = x / l[j * n + j]!
    }
  }
}
