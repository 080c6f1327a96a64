import { choleskyInPlace } from './cholesky.ts'
import { columnsOf, DotTile, rowsOf, TILE, type Vectors } from './dot-tile.ts'
import { invertFromFactor } from './triangular.ts'

/**
 * Copies the lower triangle over the upper one.
 *
 * @param a n × n matrix, column-major, starting at `offset`. Mutated.
 * @param n order of the matrix
 * @param offset where the matrix starts in the array
 * @source common practice
 */
export function mirrorLowerInPlace(a: Float64Array, n: number, offset = 0): void {
  for (let j = 0; j < n; j++) {
    for (let i = j + 1; i < n; i++) a[offset + j + i * n] = a[offset + i + j * n]!
  }
}

/**
 * tr(A·B) of two symmetric matrices, from their lower triangles.
 *
 * @param a n × n, column-major
 * @param b n × n, column-major, starting at `offset`
 * @param n order of both
 * @param offset where B starts in its array
 * @returns the trace of the product
 * @source common practice
 */
export function traceOfProduct(a: Float64Array, b: Float64Array, n: number, offset = 0): number {
  let diagonal = 0
  let below = 0
  for (let j = 0; j < n; j++) {
    const at = j * n
    diagonal += a[at + j]! * b[offset + at + j]!
    for (let i = j + 1; i < n; i++) below += a[at + i]! * b[offset + at + i]!
  }
  return diagonal + 2 * below
}

/**
 * Product of two symmetric matrices, or any two square ones.
 *
 * @param a n × n, column-major
 * @param b n × n, column-major
 * @param n order of both
 * @returns A·B, column-major, a new array
 * @source common practice
 */
export function multiply(a: Float64Array, b: Float64Array, n: number): Float64Array {
  return dotProducts({ rows: rowsOf(a, n), columns: columnsOf(b, n), n }, { lowerOnly: false })
}

/**
 * C T C of two symmetric matrices.
 *
 * @param c C, n × n, column-major
 * @param t T, n × n, column-major
 * @param n order of both
 * @param into where C T C goes, n × n; a new array when left out. Mutated.
 * @returns `into`: column-major and exactly symmetric
 * @source common practice
 */
export function sandwich(
  c: Float64Array,
  t: Float64Array,
  n: number,
  into: Float64Array = new Float64Array(n * n),
): Float64Array {
  const ofC = columnsOf(c, n)
  const half = dotProducts({ rows: columnsOf(t, n), columns: ofC, n }, { lowerOnly: false })
  return dotProducts({ rows: columnsOf(half, n), columns: ofC, n }, { lowerOnly: true, into })
}

/**
 * A matrix times its own transpose.
 *
 * @param a n × n, column-major
 * @param n order
 * @returns A·Aᵀ, column-major and exactly symmetric, a new array
 * @source common practice
 */
export function timesTransposed(a: Float64Array, n: number): Float64Array {
  const rows = rowsOf(a, n)
  return dotProducts({ rows, columns: rows, n }, { lowerOnly: true })
}

interface Factors {
  readonly rows: Vectors
  readonly columns: Vectors
  readonly n: number
}

/** Columns of the right factor that go through all rows of the left one together. */
const TOGETHER = 32

function dotProducts(
  { rows, columns, n }: Factors,
  { lowerOnly, into }: { readonly lowerOnly: boolean; readonly into?: Float64Array },
): Float64Array {
  const product = into ?? new Float64Array(n * n)
  const tile = new DotTile()
  tile.to = n
  for (let first = 0; first < n; first += TOGETHER) {
    const end = Math.min(n, first + TOGETHER)
    for (let i = lowerOnly ? first : 0; i < n; i += TILE) {
      for (let j = first; j < (lowerOnly ? Math.min(end, i + TILE) : end); j += TILE) {
        tile.sums.fill(0)
        tile.subtract(rows, i, columns, j)
        writeNegative(tile.sums, product, { n, i, j })
      }
    }
  }
  if (lowerOnly) mirrorLowerInPlace(product, n)
  return product
}

function writeNegative(
  sums: Float64Array,
  product: Float64Array,
  { n, i, j }: { readonly n: number; readonly i: number; readonly j: number },
): void {
  const height = Math.min(TILE, n - i)
  const width = Math.min(TILE, n - j)
  for (let c = 0; c < width; c++) {
    for (let r = 0; r < height; r++) product[i + r + (j + c) * n] = 0 - sums[r + TILE * c]!
  }
}

/**
 * Inverse of the block of a positive definite matrix on chosen rows; zero elsewhere.
 *
 * The block is scaled to a unit diagonal first, so that components of very different size do
 * not look singular.
 *
 * @param a n × n symmetric, column-major
 * @param n order of A
 * @param rows indices of the block, distinct, 0 to n − 1; may be empty
 * @returns n × n matrix with the inverse of the block in place, or null if the block is not
 *   positive definite
 * @source common practice
 */
export function invertBlock(
  a: Float64Array,
  n: number,
  rows: readonly number[],
): Float64Array | null {
  const m = rows.length
  const scale = rows.map((row) => 1 / Math.sqrt(a[row + row * n]!))
  const block = new Float64Array(m * m)
  for (let j = 0; j < m; j++) {
    for (let i = 0; i < m; i++) {
      block[i + j * m] = a[rows[i]! + rows[j]! * n]! * scale[i]! * scale[j]!
    }
  }
  if (choleskyInPlace(block, m) !== -1) return null
  const inverse = new Float64Array(m * m)
  invertFromFactor(block, m, inverse)
  const full = new Float64Array(n * n)
  for (let j = 0; j < m; j++) {
    for (let i = 0; i < m; i++) {
      full[rows[i]! + rows[j]! * n] = inverse[i + j * m]! * scale[i]! * scale[j]!
    }
  }
  return full
}
