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

/** Columns of an inverse worked out together: an entry of L is read once for all of them. */
const ABREAST = 4

/**
 * Inverse of A = L·Lᵀ from L. Cost 2n³/3 flops; four columns at a time, each with the operations and
 * the order of one alone.
 *
 * @param l n × n lower triangular factor, column-major
 * @param n order
 * @param inverse n × n, column-major; receives the full symmetric inverse. Mutated.
 * @source G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 2013, §3.1
 */
export function invertFromFactor(l: Float64Array, n: number, inverse: Float64Array): void {
  const x = new Float64Array(ABREAST * n) // row i of the columns at ABREAST · i
  for (let first = 0; first < n; first += ABREAST) {
    const columns = Math.min(ABREAST, n - first)
    x.fill(0, ABREAST * first)
    for (let c = 0; c < columns; c++) x[ABREAST * (first + c) + c] = 1
    solveLowerAbreast(l, n, { x, first })
    solveLowerTransposedAbreast(l, n, { x, first })
    for (let c = 0; c < columns; c++) {
      const column = first + c
      for (let i = column; i < n; i++) {
        const value = x[ABREAST * i + c]!
        inverse[column * n + i] = value
        inverse[i * n + column] = value
      }
    }
  }
}

/** Four right-hand sides side by side, zero above row `first`. */
interface Abreast {
  readonly x: Float64Array
  readonly first: number
}

/** Two columns of L at a time; what is left of the second is worked out in between. */
function solveLowerAbreast(l: Float64Array, n: number, { x, first }: Abreast): void {
  for (let j = first; j < n; j += 2) {
    const colJ = j * n
    const at = ABREAST * j
    divideRow(x, at, l[colJ + j]!)
    if (j + 1 === n) return
    const colK = colJ + n
    const x0 = x[at]!
    const x1 = x[at + 1]!
    const x2 = x[at + 2]!
    const x3 = x[at + 3]!
    const next = l[colJ + j + 1]!
    x[at + 4]! -= next * x0
    x[at + 5]! -= next * x1
    x[at + 6]! -= next * x2
    x[at + 7]! -= next * x3
    divideRow(x, at + ABREAST, l[colK + j + 1]!)
    const y0 = x[at + 4]!
    const y1 = x[at + 5]!
    const y2 = x[at + 6]!
    const y3 = x[at + 7]!
    for (let i = j + 2, to = at + 2 * ABREAST; i < n; i++, to += ABREAST) {
      const lj = l[colJ + i]!
      const lk = l[colK + i]!
      x[to] = x[to]! - lj * x0 - lk * y0
      x[to + 1] = x[to + 1]! - lj * x1 - lk * y1
      x[to + 2] = x[to + 2]! - lj * x2 - lk * y2
      x[to + 3] = x[to + 3]! - lj * x3 - lk * y3
    }
  }
}

function divideRow(x: Float64Array, at: number, pivot: number): void {
  for (let c = at; c < at + ABREAST; c++) x[c]! /= pivot
}

function solveLowerTransposedAbreast(l: Float64Array, n: number, { x, first }: Abreast): void {
  for (let j = n - 1; j >= first; j--) {
    const colJ = j * n
    const at = ABREAST * j
    const pivot = l[colJ + j]!
    let x0 = x[at]!
    let x1 = x[at + 1]!
    let x2 = x[at + 2]!
    let x3 = x[at + 3]!
    for (let i = j + 1, from = at + ABREAST; i < n; i++, from += ABREAST) {
      const lij = l[colJ + i]!
      x0 -= lij * x[from]!
      x1 -= lij * x[from + 1]!
      x2 -= lij * x[from + 2]!
      x3 -= lij * x[from + 3]!
    }
    x[at] = x0 / pivot
    x[at + 1] = x1 / pivot
    x[at + 2] = x2 / pivot
    x[at + 3] = x3 / pivot
  }
}
