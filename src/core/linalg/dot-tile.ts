/** Vectors worked out together: sixteen sums stay in registers, and each number read serves four of them. */
export const TILE = 4

/** Vectors of one length, one after the other; their number is filled up to a multiple of {@link TILE} with zeros. */
export interface Vectors {
  readonly values: Float64Array
  /** Distance between the starts of two vectors. */
  readonly stride: number
}

/** Rows turned at a time, so that what is written stays in the fastest memory. */
const BAND = 32

/**
 * Rows of a square matrix as vectors.
 *
 * @param a n × n, column-major
 * @param n order
 * @returns a copy
 * @source common practice
 */
export function rowsOf(a: Float64Array, n: number): Vectors {
  const rows = zeroVectors(n)
  for (let first = 0; first < n; first += BAND) {
    const end = Math.min(n, first + BAND)
    for (let j = 0; j < n; j++) {
      for (let i = first; i < end; i++) rows.values[i * n + j] = a[i + j * n]!
    }
  }
  return rows
}

/**
 * Columns of a square matrix as vectors.
 *
 * @param a n × n, column-major
 * @param n order
 * @returns the matrix itself where nothing need be filled up, else a copy
 * @source common practice
 */
export function columnsOf(a: Float64Array, n: number): Vectors {
  if (n % TILE === 0) return { values: a, stride: n }
  const columns = zeroVectors(n)
  columns.values.set(a.length === n * n ? a : a.subarray(0, n * n))
  return columns
}

/**
 * As many zero vectors as they are long.
 *
 * @param n their length
 * @returns the vectors
 * @source common practice
 */
export function zeroVectors(n: number): Vectors {
  return { values: new Float64Array(Math.ceil(n / TILE) * TILE * n), stride: n }
}

/** 4 × 4 sums of products of four vectors with four others. */
export class DotTile {
  /** Entry (r, c) at r + 4c. */
  readonly sums = new Float64Array(TILE * TILE)
  /** First place of the vectors that counts, and the one after the last. */
  from = 0
  to = 0

  /**
   * Takes products off the sums: s_rc −= Σ_k a_k(i + r) b_k(j + c), k from `from` to `to` − 1.
   *
   * Each sum sees its products one after the other in the order of k, as in a plain loop, so it has the same bits.
   *
   * @param a vectors, i the first of the four
   * @param b vectors, j the first of the four
   * @source common practice (register tiling)
   */
  subtract(a: Vectors, i: number, b: Vectors, j: number): void {
    const { sums, from, to } = this
    const x = a.values
    const y = b.values
    const x0 = i * a.stride
    const x1 = x0 + a.stride
    const x2 = x1 + a.stride
    const x3 = x2 + a.stride
    const y0 = j * b.stride
    const y1 = y0 + b.stride
    const y2 = y1 + b.stride
    const y3 = y2 + b.stride
    let c00 = sums[0]!
    let c10 = sums[1]!
    let c20 = sums[2]!
    let c30 = sums[3]!
    let c01 = sums[4]!
    let c11 = sums[5]!
    let c21 = sums[6]!
    let c31 = sums[7]!
    let c02 = sums[8]!
    let c12 = sums[9]!
    let c22 = sums[10]!
    let c32 = sums[11]!
    let c03 = sums[12]!
    let c13 = sums[13]!
    let c23 = sums[14]!
    let c33 = sums[15]!
    for (let k = from; k < to; k++) {
      const p = y[y0 + k]!
      const q = y[y1 + k]!
      const r = y[y2 + k]!
      const s = y[y3 + k]!
      let v = x[x0 + k]!
      c00 -= v * p
      c01 -= v * q
      c02 -= v * r
      c03 -= v * s
      v = x[x1 + k]!
      c10 -= v * p
      c11 -= v * q
      c12 -= v * r
      c13 -= v * s
      v = x[x2 + k]!
      c20 -= v * p
      c21 -= v * q
      c22 -= v * r
      c23 -= v * s
      v = x[x3 + k]!
      c30 -= v * p
      c31 -= v * q
      c32 -= v * r
      c33 -= v * s
    }
    sums[0] = c00
    sums[1] = c10
    sums[2] = c20
    sums[3] = c30
    sums[4] = c01
    sums[5] = c11
    sums[6] = c21
    sums[7] = c31
    sums[8] = c02
    sums[9] = c12
    sums[10] = c22
    sums[11] = c32
    sums[12] = c03
    sums[13] = c13
    sums[14] = c23
    sums[15] = c33
  }
}
